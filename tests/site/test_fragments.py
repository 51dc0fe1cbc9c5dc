"""Parts of the frame that are rendered once for all pages on which they say the same."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import count

from jinja2 import DictLoader, Environment

from kbtools.site.fragments import NAME, Fragments, whole

FRAME = 'before {{ part("nav") }} after'


@dataclass(frozen=True, kw_only=True)
class Shell:
    """As much of a frame as these parts ask for."""

    kind: str
    home: str
    title: str


@dataclass(frozen=True, kw_only=True)
class Page:
    """A page with an article."""

    title: str


SHELLS = [
    Shell(kind=kind, home=home, title=title)
    for kind in ("fault", "code", "home")
    for home in ("../", "../../")
    for title in ("a & b", "c")
]


def pages(part: str) -> tuple[list[str], list[str], int]:
    """All pages with the parts as they are kept, as they are included, and how often the part was rendered."""
    environment = Environment(autoescape=True, loader=DictLoader({"frame": FRAME, "nav": part}))
    environment.globals[NAME] = whole
    rendered = count()
    environment.globals["count"] = lambda: str(next(rendered))[:0]
    template, parts = environment.get_template("frame"), Fragments()
    kept = [template.render(shell=each, page=Page(title=each.title), **{NAME: parts.part}) for each in SHELLS]
    times = next(rendered)
    return kept, [template.render(shell=each, page=Page(title=each.title)) for each in SHELLS], times


def test_a_part_says_what_it_would_say_by_itself_and_is_rendered_once_for_each_answer() -> None:
    # Only the home page is asked for more than its kind.
    kept, included, times = pages(
        '{{ count() }}{% if shell.kind == "home" %}<a href="{{ shell.home }}">{% else %}{{ shell.kind }}{% endif %}'
    )
    assert kept == included
    assert times == len({"fault", "code"}) + len({"../", "../../"})


def test_a_part_that_asks_its_page_is_rendered_for_each() -> None:
    kept, included, times = pages("{{ count() }}{{ page.title }}{{ shell.kind }}")
    assert kept == included
    assert times == len(SHELLS)
