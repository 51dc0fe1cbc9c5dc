"""Makes a generated page whole: its article, and the frame around it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from jinja2 import Environment
from markupsafe import Markup

from kbtools.edges.rendering import Renderer, relative
from kbtools.pages.planned import Planned
from kbtools.pages.spec import PageSpec
from kbtools.site.fragments import NAME, Fragments
from kbtools.site.framing import Frame

_FRAME = "main.html"


@dataclass(frozen=True, slots=True, kw_only=True)
class _Content:
    """As much of MkDocs' page as the frame of a generated one shows."""

    content: Markup
    """The article."""
    title: str
    """Plain text, hostile until escaped."""
    meta: dict[str, Any]
    """There is none."""


def article(
    spec: PageSpec, renderer: Renderer, frame: Frame, several: str, hand_written: Markup | None = None
) -> Markup:
    """What stands between header and footer.

    Args:
        spec: of the page.
        renderer: knows the addresses of all pages.
        frame: of the build.
        several: address of the folder of the data for several codes.
        hand_written: what the club has written for its home page.

    Raises:
        kbtools.edges.rendering.DeadLinkError: the page links to an address at which there is no page.
    """
    extra: dict[str, Any] = {}
    if spec.address == "":
        extra = {"place": "home", "home_href": "./", "finder_data": frame.finder_data, "hand_written": hand_written}
    if spec.kind == "several":
        home = relative("", spec.address.count("/"))
        extra = {"home_href": home, "several_data": f"{home}{several}"}
    if spec.kind == "handbook":
        extra = {"notice": frame.notice}
    return renderer.article(spec, **extra)


def page_maker(environment: Environment, renderer: Renderer, frame: Frame, several: str) -> Callable[[Planned], bytes]:
    """What makes pages, in UTF-8.

    Args:
        environment: MkDocs' own, with the templates of the frame.
        renderer: of articles.
        frame: of the build.
        several: address of the folder of the data for several codes.
    """
    template = environment.get_template(_FRAME)
    parts = {NAME: Fragments().part}

    def made(planned: Planned) -> bytes:
        spec = planned.make()
        content = _Content(content=article(spec, renderer, frame, several), title=spec.title, meta={})
        return template.render(shell=frame.around(spec), page=content, **parts).encode("utf-8", "xmlcharrefreplace")

    return made
