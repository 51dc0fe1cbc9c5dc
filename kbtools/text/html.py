"""Texts of the knowledge base as safe HTML. Every text is hostile until it has been through here.

Entries are written in Markdown without raw HTML: paragraphs, lists, quotes, emphasis, code and links to the web. What
else an author writes (tags, entities, headings, images, relative links) is shown as it was written, or as the words
that describe it, and never acts. Two walls stand behind each other: the Markdown parser has no part that passes HTML
on, and nh3 then lets through only what is on a list.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from functools import lru_cache
from xml.etree.ElementTree import Element

import markdown
import nh3
from markdown.extensions import Extension
from markdown.inlinepatterns import AutolinkInlineProcessor, ImageInlineProcessor, InlineProcessor, LinkInlineProcessor
from markdown.util import AMP_SUBSTITUTE
from markupsafe import Markup

from kbtools.text.bounds import excess

_UNSEEN = re.compile(
    "[\u202a-\u202e\u2066-\u2069\u200e\u200f\u061c\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x84\x86-\x9f\ud800-\udfff]"
)
"""Direction marks, which can make a text read as another one, and characters that HTML cannot hold."""

_SPACES = re.compile(r"[ \t\r\n\x85\u2028\u2029]+")
# A text in which Markdown and HTML mean nothing. The property tests hold the short way to the long one.
_PLAIN_INLINE = re.compile(r"[^\\`*_\[\]!<>&\r\n\t\u00a0\x85\u2028\u2029]*")
_PLAIN_BLOCK = re.compile(r"(?![ #+\-=:|~]|[0-9]+[.)])" + _PLAIN_INLINE.pattern)
_WEB = re.compile(r"https?://[^\s/?#\\@<>\"'`]+(?:[/?#][^\s<>\"\\]*)?", re.IGNORECASE)

_MOST_MEMORY = 20_000
"""Texts whose HTML is kept: the same cautions, checks and reasons stand on many pages."""

_ENTRY_INLINE_TAGS = frozenset(["a", "code", "em", "strong"])
_ENTRY_TAGS = _ENTRY_INLINE_TAGS | {"blockquote", "br", "li", "ol", "p", "pre", "ul"}
_ENTRY_ATTRIBUTES = {"a": {"href"}, "ol": {"start"}}
_LINK_REL = "nofollow noopener noreferrer"
_REFERENCES = ("reference", "image_reference", "short_reference", "short_image_ref")


def visible(text: str) -> str:
    """The text with its unseen characters written out: U+202E becomes `⟦U+202E⟧`.

    Source of the list of direction marks: Unicode Standard Annex 9, explicit directional formatting characters.
    """
    if text.isascii() and text.isprintable():
        return text
    return _UNSEEN.sub(lambda match: f"⟦U+{ord(match[0]):04X}⟧", text)


def plain(text: str) -> str:
    """One line of plain text for a title or a description; still to be escaped by whoever writes it into HTML."""
    # Most texts have nothing that a pattern would have to look for.
    if text.isascii() and text.isprintable() and "  " not in text:
        return text.strip(" ")
    return _SPACES.sub(" ", visible(text)).strip()


def web_link(url: str | None) -> str | None:
    """The address itself where it is an absolute http or https address that can be linked, else None.

    Refused: other schemes, relative addresses, addresses with a user name in front of the host (they read as another
    host), blanks, quotes, backslashes, and characters that are not seen.
    """
    if url is None or _UNSEEN.search(url) or not _WEB.fullmatch(url):
        return None
    return url


@lru_cache(maxsize=_MOST_MEMORY)
def inline(text: str) -> Markup:
    """Markdown as HTML for a place inside a line: emphasis, code and links, and nothing that breaks the line."""
    return inline_short_way(text) or inline_long_way(text)


@lru_cache(maxsize=_MOST_MEMORY)
def block(text: str) -> Markup:
    """Markdown as HTML for a place of its own: paragraphs, lists, quotes and code besides what `inline` knows."""
    return block_short_way(text) or block_long_way(text)


def inline_short_way(text: str) -> Markup | None:
    """`inline` of a text without any special character; None where the parser is needed."""
    line = plain(text)
    return Markup(line) if _PLAIN_INLINE.fullmatch(line) else None  # noqa: S704 (nothing in it needs escaping)


def block_short_way(text: str) -> Markup | None:
    """`block` of a single line without any special character; None where the parser is needed."""
    line = visible(text).strip()
    return Markup(f"<p>{line}</p>") if line and _PLAIN_BLOCK.fullmatch(line) else None  # noqa: S704 (as above)


def inline_long_way(text: str) -> Markup:
    """`inline` by way of the parser."""
    line = plain(text)
    html = _converted(line, _inline_parser())
    if html is None:
        return Markup.escape(line)
    return _cleaned(html.removeprefix("<p>").removesuffix("</p>"), _ENTRY_INLINE_TAGS)


def block_long_way(text: str) -> Markup:
    """`block` by way of the parser."""
    shown = visible(text).strip()
    html = _converted(shown, _block_parser())
    return Markup("<p>{}</p>").format(shown) if html is None else _cleaned(html, _ENTRY_TAGS)


def _converted(text: str, parser: markdown.Markdown) -> str | None:
    """Markdown to HTML; None for a text that would take the parser too long or too deep, to be shown as written."""
    if excess(text) is not None:
        return None
    try:
        return parser.reset().convert(text)
    except RecursionError:
        return None


def _cleaned(html: str, tags: frozenset[str]) -> Markup:
    return Markup(  # noqa: S704 (this is the second wall itself)
        nh3.clean(
            html,
            tags=set(tags),
            attributes=_ENTRY_ATTRIBUTES,
            attribute_filter=_entry_attribute,
            link_rel=_LINK_REL,
            url_schemes={"http", "https"},
        )
    )


def _entry_attribute(tag: str, name: str, value: str) -> str | None:
    return web_link(value) if (tag, name) == ("a", "href") else value


@lru_cache(maxsize=1)
def _block_parser() -> markdown.Markdown:
    return _parser(without=("hashheader", "setextheader", "hr", "reference"))


@lru_cache(maxsize=1)
def _inline_parser() -> markdown.Markdown:
    return _parser(
        without=("empty", "indent", "code", "hashheader", "setextheader", "hr", "olist", "ulist", "quote", "reference")
    )


def _parser(*, without: tuple[str, ...]) -> markdown.Markdown:
    """A parser for entries, without these block processors."""
    parser = markdown.Markdown(extensions=[NoRawHtml(), "sane_lists"], output_format="html")
    for name in without:
        parser.parser.blockprocessors.deregister(name, strict=False)
    for name in (*_REFERENCES, "automail"):
        parser.inlinePatterns.deregister(name, strict=False)
    parser.inlinePatterns.register(_WebLink(_pattern(parser, "link"), parser), "link", 160)
    parser.inlinePatterns.register(_AltText(_pattern(parser, "image_link"), parser), "image_link", 150)
    parser.inlinePatterns.register(_WebAddress(_pattern(parser, "autolink"), parser), "autolink", 120)
    return parser


def _pattern(parser: markdown.Markdown, name: str) -> str:
    pattern: str = parser.inlinePatterns[name].pattern
    return pattern


_AMPERSAND = f"{AMP_SUBSTITUTE}amp;"
"""What stands for an ampersand until the parser has done its work."""
Match = tuple[Element | str | None, int | None, int | None]
"""What an inline processor answers: the element, and where it starts and ends; three times None where it is none."""


class _WebLink(LinkInlineProcessor):
    """A link to the web; any other one stays as it was written, so that its author sees that it does not work."""

    def handleMatch(self, m: re.Match[str], data: str) -> Match:  # type: ignore[override]  # noqa: N802 (their name)
        element, start, end = super().handleMatch(m, data)
        return (element, start, end) if _to_the_web(element) else (None, None, None)


class _WebAddress(AutolinkInlineProcessor):
    """An address between angle brackets, if it is one of the web."""

    def handleMatch(self, m: re.Match[str], data: str) -> Match:  # type: ignore[override]  # noqa: N802 (their name)
        element, start, end = super().handleMatch(m, data)
        return (element, start, end) if _to_the_web(element) else (None, None, None)


def _to_the_web(element: object) -> bool:
    if not isinstance(element, Element):
        return False
    address = element.get("href", "").replace(_AMPERSAND, "&")
    return web_link(address) is not None


class _AltText(ImageInlineProcessor):
    """An image by the words that describe it: an entry never makes a reader's browser ask another host."""

    def handleMatch(self, m: re.Match[str], data: str) -> Match:  # type: ignore[override]  # noqa: N802 (their name)
        element, start, end = super().handleMatch(m, data)
        if not isinstance(element, Element):
            return None, None, None
        return element.get("alt", ""), start, end


class _Ampersand(InlineProcessor):
    """An ampersand is one, whatever follows it: the serialiser would take `&lt;` for an entity and let it stand."""

    def handleMatch(self, m: re.Match[str], data: str) -> Match:  # type: ignore[override]  # noqa: ARG002, N802
        return _AMPERSAND, m.start(0), m.end(0)


class NoRawHtml(Extension):
    """Markdown in which tags and entities are text like any other."""

    def extendMarkdown(self, md: markdown.Markdown) -> None:  # noqa: N802 (their name)
        """Take the parts that pass HTML on out of the parser."""
        md.preprocessors.deregister("html_block", strict=False)
        md.inlinePatterns.deregister("html", strict=False)
        md.inlinePatterns.deregister("entity", strict=False)
        # After code spans, which escape for themselves, and before everything else.
        md.inlinePatterns.register(_Ampersand("&", md), "ampersand", 185)


_ADMONITIONS = "abstract bug danger example failure info note question quote success tip warning"
_PAGE_CLASSES = frozenset(
    ["admonition", "admonition-title", "headerlink", "highlight", "footnote", "footnote-ref", "footnote-backref"]
)
_PAGE_CLASSES |= frozenset(_ADMONITIONS.split())
_CODE_CLASS = re.compile(r"[a-z]{1,2}[0-9]?")
_PAGE_TAGS = _ENTRY_TAGS | frozenset(
    ["abbr", "dd", "del", "details", "div", "dl", "dt", "figcaption", "figure", "h1", "h2", "h3", "h4", "h5", "h6"]
)
_PAGE_TAGS |= frozenset(["hr", "img", "ins", "kbd", "mark", "span", "sub", "summary", "sup"])
_PAGE_TAGS |= frozenset(["table", "tbody", "td", "tfoot", "th", "thead", "tr"])
_PAGE_ATTRIBUTES = {
    "*": {"id", "class"},
    "a": {"href", "title"},
    "abbr": {"title"},
    "details": {"open"},
    "img": {"src", "alt", "title", "width", "height"},
    "ol": {"start"},
    "td": {"align", "colspan", "rowspan"},
    "th": {"align", "colspan", "rowspan", "scope"},
}
_TAKEN_IDS = frozenset(["finder", "finder-results"])
"""Ids of the shell that scripts look for: a heading of that name would take their place."""


def sanitise(html: str) -> str:
    """Finished HTML of a hand-written page with nothing in it that acts or asks another host.

    Kept: headings with their ids, tables with `align`, admonitions, details, code with its highlighting, links (web,
    mail, relative, in the page) and images of the own site. Dropped: scripts, styles, forms, frames, event handlers,
    images of other hosts, comments, and ids that the site's own scripts look for.
    """
    return nh3.clean(
        visible(html),
        tags=set(_PAGE_TAGS),
        attributes=_PAGE_ATTRIBUTES,
        attribute_filter=_page_attribute,
        link_rel="noopener noreferrer",
        url_schemes={"http", "https", "mailto"},
    )


def _page_attribute(tag: str, name: str, value: str) -> str | None:
    rule = _PAGE_RULES.get(name)
    return value if rule is None else rule(tag, value)


def _page_id(_tag: str, value: str) -> str | None:
    return None if value in _TAKEN_IDS or value.startswith("__") or not value.strip() else value


def _page_class(tag: str, value: str) -> str | None:
    kept = [name for name in value.split() if name in _PAGE_CLASSES or (tag == "span" and _CODE_CLASS.fullmatch(name))]
    return " ".join(kept) or None


def _page_image(tag: str, value: str) -> str | None:
    return value if tag == "img" and _own(value) else None


def _own(address: str) -> bool:
    """Whether an address stays on this site, read as a browser does: without controls, a backslash being a slash."""
    address = re.sub(r"[\x00-\x20]", "", address).replace("\\", "/")
    return bool(address) and not address.startswith("//") and ":" not in re.split(r"[/?#]", address, maxsplit=1)[0]


_PAGE_RULES: dict[str, Callable[[str, str], str | None]] = {"id": _page_id, "class": _page_class, "src": _page_image}
