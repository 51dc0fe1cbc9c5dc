"""The edge that turns page specs into HTML: an own Jinja environment that escapes everything.

MkDocs' environment does not escape, so no text of the knowledge base ever meets it.
"""

from __future__ import annotations

import json
from collections.abc import Callable, Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from urllib.parse import quote

from jinja2 import FileSystemLoader, StrictUndefined
from markupsafe import Markup

from kbtools.edges.compiled import CompiledTemplates
from kbtools.edges.quick_templates import QuickEnvironment
from kbtools.edges.shipped import templates
from kbtools.index.asked import Memo
from kbtools.index.asked_base import AskedMapping, Log
from kbtools.model import money
from kbtools.pages.spec import PageSpec
from kbtools.text import html as text
from kbtools.wording.labels import count_of, day
from kbtools.wording.plan import WORDS

TEMPLATES = templates()
"""Where the templates lie, in a checkout and in a wheel alike."""
MOST_PIECES = 3_000
"""Rendered pieces that are kept for other pages."""
_COMPILED = CompiledTemplates()


class DeadLinkError(LookupError):
    """A page links to an address at which there is no page."""

    def __init__(self, page: str, address: str) -> None:
        """Say which page links where."""
        super().__init__(f"the page {page or '(home)'!r} links to {address!r}, where there is no page")
        self.page = page
        """Address of the page with the link."""
        self.address = address
        """Address that nothing stands at."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Width:
    """One width in which a picture is published."""

    path: str
    """From the site's root."""
    width: int
    """Pixels."""
    height: int
    """Pixels."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Shown:
    """A picture as a page names it."""

    src: str
    """Address of the narrowest, relative to the page."""
    srcset: str
    """All widths as HTML has them (`plug.jpg 640w, …`); empty where there is one only."""
    width: int | None
    """Pixels of the widest, so that a page keeps its place free; None: not known."""
    height: int | None
    """Pixels of the widest; None: not known."""


class Renderer:
    """Renders articles, the part of a page between header and footer, one after another."""

    def __init__(  # noqa: PLR0913, PLR0917 - what all articles have in common
        self,
        addresses: Collection[str],
        templates: Path = TEMPLATES,
        pictures: Mapping[str, Sequence[Width]] | None = None,
        gone: Collection[str] = (),
        to: Callable[[str, str], str] | None = None,
        log: Log | None = None,
    ) -> None:
        """`addresses` are those of all pages, hand-written ones too; a link to any other one is an error.

        `pictures` says by path in which widths each is published, the widest last; of others there is one. `to` turns
        address and anchor into a link where the page stands in no site; None: relative to the page.

        `gone` are the outside links that died: an archived copy stands before them. What of all this an article depends
        on is noted in `log`, as `addresses`, `pictures` and `gone`.

        A template is read once: `serve`, which shows what changes on disk, has another renderer for each build.
        """
        self._log = log if log is not None else Log()
        self._addresses = frozenset(addresses)
        self._pictures: Mapping[str, Sequence[Width]] = AskedMapping("pictures", pictures or {}, self._log)
        self._to = to
        self._gone = frozenset(gone)
        # Of the article that is being rendered.
        self._address = ""
        self._pieces: Memo[tuple[object, Markup]] = Memo(self._log, MOST_PIECES)
        self._environment = QuickEnvironment(
            loader=FileSystemLoader(templates),
            undefined=StrictUndefined,
            bytecode_cache=_COMPILED,
            trim_blocks=True,
            lstrip_blocks=True,
            finalize=_shown,
        )
        self._environment.globals |= {
            "link": self._link,
            "picture": self._picture,
            "piece": self._piece,
            "words": WORDS,
            "inline": text.inline,
            "block": text.block,
            "plain": text.plain,
            "web_link": text.web_link,
            "is_gone": self._is_gone,
            "together": together,
            "money": money.show_money,
            "number": money.show_number,
            "figures": money.show_range,
            "count": count_of,
            "day": day,
            "json": json_block,
        }

    def article(self, spec: PageSpec, **extra: object) -> Markup:
        """The article of a page.

        The template is given the spec's context, `extra`, the spec itself as `spec`, the titles of its sections by id
        as `headings`, and `link(address, anchor="")`, which turns a page's address into one that is relative to this
        page, so that the site works below any path, `picture(path)`, which gives a `Shown`, and `piece(name, view)`,
        which renders another template with the view as `it`; the same view is rendered once for all pages as deep.

        Raises:
            DeadLinkError: the page links to an address at which there is no page.
            jinja2.TemplateError: the template has a mistake, or asks for something that the context lacks.
        """
        template = self._environment.get_template(f"{spec.kind}.html")
        headings = {section.id: section.title for section in spec.sections}
        self._address = spec.address
        article = template.render({**spec.context, **extra, "spec": spec, "headings": headings})
        return Markup(article)  # noqa: S704 (every value in it was escaped by the environment)

    # What pages and their macros call by these names: a macro is made once for all pages, so it asks whose turn it is.

    def _link(self, address: str, anchor: str = "") -> str:
        self._log.note("addresses has", address)
        if address not in self._addresses:
            raise DeadLinkError(self._address, address)
        if self._to is not None:
            return self._to(address, anchor)
        return relative(address, self._depth()) + (f"#{anchor}" if anchor else "")

    def _depth(self) -> int:
        return self._address.count("/")

    def _picture(self, path: str) -> Shown:
        return _shown_picture(path, self._pictures.get(path, ()), self._depth())

    def _piece(self, name: str, view: object) -> Markup:
        # The view is kept, so that its id is no other's.
        def made() -> tuple[object, Markup]:
            return view, self.partial(name, it=view)

        return self._pieces.of((name, id(view), self._depth()), made)[1]

    def _is_gone(self, address: str) -> bool:
        self._log.note("gone has", address)
        return address in self._gone

    def partial(self, name: str, **context: object) -> Markup:
        """A piece of a page that is no article: the finder in the header."""
        return Markup(self._environment.get_template(name).render(context))  # noqa: S704 (escaped, as above)


def _shown_picture(path: str, widths: Sequence[Width], depth: int) -> Shown:
    if not widths:
        return Shown(src=relative(quote(path), depth), srcset="", width=None, height=None)
    sources = [(relative(quote(each.path), depth), each.width) for each in widths]
    return Shown(
        src=sources[0][0],
        srcset=", ".join(f"{source} {width}w" for source, width in sources) if len(sources) > 1 else "",
        width=widths[-1].width,
        height=widths[-1].height,
    )


def relative(address: str, depth: int) -> str:
    """An address from the site's root, seen from a page that lies `depth` folders below the root."""
    return "../" * depth + address or "./"


def together(words: Iterable[str], joint: str) -> Markup:
    """Plain texts one after another, escaped, with a joint of our own between them."""
    return Markup.escape(joint).join(text.visible(word) for word in words)


_NOT_IN_JSON = {each: f"\\u{ord(each):04x}" for each in "<>&\u2028\u2029"}
_ENCODED = json.JSONEncoder(ensure_ascii=False, separators=(",", ":"), allow_nan=False).encode


def json_block(data: object) -> Markup:
    """Data for a `<script type="application/json">`, which no text in it can end and no parser can take for markup.

    Inside strings of JSON, the only place where such characters can stand, an escape means the same as the character.
    """
    text = _ENCODED(data)
    for character, written in _NOT_IN_JSON.items():
        text = text.replace(character, written)
    return Markup(text)  # noqa: S704 (nothing in it can end the element)


def _shown(value: object) -> object:
    """What a template prints: plain text with nothing unseen in it. It never prints that there is nothing.

    Raises:
        TypeError: the value is None. The template must ask first, or the page would read "None".
    """
    if value is None:
        raise TypeError("a template prints a value that is not there")
    return text.visible(value) if type(value) is str else value
