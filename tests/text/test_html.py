"""Hostile texts never act, plain ones take the short way, and both ways say the same."""

from __future__ import annotations

import re
from html import unescape
from html.parser import HTMLParser

import markdown
import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from kbtools.text import html as text
from kbtools.text.html import block, inline, plain, sanitise, visible, web_link
from tests.support.patience import within_reason

# Pieces of Markdown, HTML and directions, so that chance finds what belongs together.
PIECES = st.sampled_from(
    [
        *(
            "a",
            " ",
            "\n",
            "\n\n",
            "*",
            "**",
            "_",
            "`",
            "[",
            "]",
            "(",
            ")",
            "!",
            "<",
            ">",
            "&",
            '"',
            "'",
            "\\",
            "#",
            "-",
        ),
        *(
            "1. ",
            "> ",
            "    ",
            "\t",
            "=",
            "|",
            ":",
            "~~",
            "{",
            "}",
            "&lt;",
            "&#8238;",
            "&amp;",
            "<script>",
            "</script>",
        ),
        *("javascript:alert(1)", "https://x.example/", "](", "![", "<img src=x onerror=alert(1)>", "\u202e", "\u200f"),
        *(
            "\x00",
            "\x02",
            "\x03",
            "\x7f",
            "\u2028",
            "\x85",
            "\u00a0",
            "é",
            "漢",
            "<!--",
            "-->",
            "<a href=",
            "klzzwxh:0000",
        ),
    ]
)
TEXTS = st.lists(PIECES, max_size=25).map("".join) | st.text(max_size=60)
HOSTILE = [
    "</title><script>canary()</script>",
    "<img src=x onerror=canary()>",
    "<svg/onload=canary()>",
    "[x](javascript:canary())",
    "[x](java\tscript:canary())",
    "[x](&#106;avascript:canary())",
    "[x](data:text/html,<script>canary()</script>)",
    '[x](https://e.example/" onmouseover="canary())',
    '![x](https://e.example/" onerror="canary())',
    "<javascript:canary()>",
    "`<script>canary()</script>`",
    "    <script>canary()</script>",
    "&lt;script&gt;canary()&lt;/script&gt;",
    "{{ canary }} {% raw %}",
    "<style>*{display:none}</style>",
    "<iframe src=https://e.example></iframe>",
]


class Seen(HTMLParser):
    """The tags, their attributes and the text of a piece of HTML, as a parser reads it."""

    def __init__(self, html: str) -> None:
        super().__init__(convert_charrefs=True)
        self.tags: list[tuple[str, dict[str, str | None]]] = []
        self.text = ""
        self.feed(html)
        self.close()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append((tag, dict(attrs)))

    def handle_data(self, data: str) -> None:
        self.text += data


def assert_harmless(html: str, tags: set[str]) -> None:
    for tag, attributes in Seen(html).tags:
        assert tag in tags
        assert set(attributes) <= ({"href", "rel"} if tag == "a" else {"start"} if tag == "ol" else set())
        if tag == "a":
            assert re.match(r"https?://", attributes["href"] or "", re.IGNORECASE)
            assert attributes["rel"] == "nofollow noopener noreferrer"


INLINE = {"a", "code", "em", "strong"}
BLOCK = INLINE | {"blockquote", "br", "li", "ol", "p", "pre", "ul"}


@given(TEXTS)
@example('<a href="x">')
@example("[a](https://x.example/?a=1&copy=2)")
def test_no_text_becomes_anything_that_acts(written: str) -> None:
    assert_harmless(inline(written), INLINE)
    assert_harmless(block(written), BLOCK)
    assert not text._UNSEEN.search(inline(written) + block(written))


@pytest.mark.parametrize("written", HOSTILE)
def test_what_is_hostile_is_shown_as_it_was_written(written: str) -> None:
    # Nothing that looked like a tag or an entity may be lost: the reader sees what the author wrote.
    for html in (inline(written), block(written)):
        shown = Seen(html).text
        assert ("<script>" in written) <= ("<script>" in shown)
        assert ("&lt;" in written) <= ("&lt;" in shown)
        assert ("javascript:" in written) <= ("javascript:" in shown)


@given(TEXTS)
def test_the_short_way_says_what_the_long_way_says(written: str) -> None:
    short = text.inline_short_way(written)
    assert short is None or short == text.inline_long_way(written)
    short = text.block_short_way(written)
    assert short is None or short == text.block_long_way(written)


WORDS = st.text(st.characters(whitelist_categories=["L", "N", "P", "S", "Zs"]), min_size=1, max_size=40)


@given(WORDS)
@example("12. x")
@example("+ x")
@example("a | b")
@example(": x")
def test_the_short_way_also_holds_for_any_punctuation(written: str) -> None:
    short = text.block_short_way(written)
    assert short is None or short == text.block_long_way(written)
    short = text.inline_short_way(written)
    assert short is None or short == text.inline_long_way(written)


@pytest.mark.parametrize("written", ["Pull the plug.", "Below 11.5 V for 3 s: look at P0562, (again)?", "Größe 漢 '\""])
def test_most_texts_take_the_short_way(written: str) -> None:
    assert text.inline_short_way(written) == written
    assert text.block_short_way(written) == f"<p>{written}</p>"


@given(st.text(st.sampled_from("ab <>&\"'"), max_size=30))
def test_text_without_markdown_is_shown_letter_by_letter(written: str) -> None:
    assert Seen(inline(written)).text == plain(written)


def test_markdown_that_an_entry_may_use() -> None:
    assert inline("*a* **b** `c<d` \\*e\\*") == "<em>a</em> <strong>b</strong> <code>c&lt;d</code> *e*"
    link = '<a href="https://x.example/?a=1&amp;b=2" rel="nofollow noopener noreferrer">'
    assert inline("[a](https://x.example/?a=1&b=2)") == f"{link}a</a>"
    assert inline("<https://x.example/?a=1&b=2>") == f"{link}https://x.example/?a=1&amp;b=2</a>"
    assert block("a\n\n- b\n- c\n\n> d").replace("\n", "") == (
        "<p>a</p><ul><li>b</li><li>c</li></ul><blockquote><p>d</p></blockquote>"
    )


def test_headings_rules_and_references_stay_text() -> None:
    assert Seen(block("# a\n\n---\n\n[b]: https://x.example/")).text.split("\n") == [
        "# a",
        "---",
        "[b]: https://x.example/",
    ]


def test_an_image_is_told_by_its_words_and_asks_no_host() -> None:
    assert inline("see ![the *plug*](https://x.example/a.png) here") == "see the *plug* here"


@pytest.mark.parametrize("target", ["../b/", "/b", "//x.example/", "#b", "mailto:a@x.example", "ftp://x.example/", "b"])
def test_a_link_that_is_not_to_the_web_stays_as_written(target: str) -> None:
    assert inline(f"[a]({target})") == f"[a]({target})"


@pytest.mark.parametrize("mark", ["\u202a", "\u202e", "\u2066", "\u2069", "\u200e", "\u200f", "\u061c"])
def test_direction_marks_are_seen(mark: str) -> None:
    # Unicode Standard Annex 9 names the marks; the range from U+202A to U+202E and from U+2066 to U+2069 is whole.
    shown = f"a⟦U+{ord(mark):04X}⟧b"
    assert visible(f"a{mark}b") == plain(f"a{mark}b") == inline(f"a{mark}b") == shown
    assert block(f"a{mark}b") == f"<p>{shown}</p>"
    assert shown in sanitise(f"<p>a{mark}b</p>")


def test_letters_of_other_scripts_stay() -> None:
    persian = "می\u200cخواهم"
    assert visible(persian) == persian


@pytest.mark.parametrize(
    ("url", "good"),
    [
        ("https://x.example/a?b=c&d#e", True),
        ("http://x.example", True),
        ("HTTPS://X.example:8080/ä", True),
        ("https://", False),
        ("https://good.example@bad.example/", False),
        ("https://x.example\\@bad.example/", False),
        ("javascript:alert(1)", False),
        ("//x.example/", False),
        ("https:/x.example", False),
        (" https://x.example/", False),
        ("https://x.example/\n", False),
        ('https://x.example/"', False),
        ("https://x.example/\u202e", False),
        (None, False),
    ],
)
def test_addresses_that_may_be_linked(url: str | None, good: bool) -> None:
    assert web_link(url) == (url if good else None)


@pytest.mark.parametrize(
    "piece", ["[", "![", "*a", "_a ", "`", "[a](", "<http://", "> ", ">", "* ", "1. ", "(", "&amp;", "\\"]
)
def test_no_text_of_ten_thousand_characters_takes_long(piece: str) -> None:
    written = (piece * 10_000)[:10_000]
    # The parser alone would need minutes for the worst of these together.
    with within_reason(piece):
        for _ in range(10):
            inline(written)
            block(written)


def test_a_long_word_is_kept_whole() -> None:
    assert block("w" * 10_000) == f"<p>{'w' * 10_000}</p>"


# Hand-written pages.


def hand_written(source: str) -> str:
    parser = markdown.Markdown(extensions=[text.NoRawHtml(), "toc", "tables", "admonition", "attr_list", "fenced_code"])
    return sanitise(parser.convert(source))


PAGE_TAGS = BLOCK | {
    "h1",
    "h2",
    "h3",
    "h4",
    "h5",
    "h6",
    "hr",
    "img",
    "table",
    "thead",
    "tbody",
    "tr",
    "th",
    "td",
    "div",
}
PAGE_ATTRIBUTES = {"id", "class", "href", "rel", "title", "src", "alt", "align", "start"}


@given(TEXTS)
@example("# a {: onclick=alert(1) style=color:red }")
@example('![x](a.png){: onerror="alert(1)" }')
def test_no_hand_written_page_acts(source: str) -> None:
    for tag, attributes in Seen(hand_written(source)).tags:
        assert tag in PAGE_TAGS
        assert set(attributes) <= PAGE_ATTRIBUTES
        assert not re.match(r"\s*(javascript|data|vbscript)\s*:", attributes.get("href") or "", re.IGNORECASE)


def test_raw_html_and_entities_of_a_hand_written_page_are_text() -> None:
    html = hand_written("<script>canary()</script>\n\n<div onclick='x'>a</div> &nbsp; <b>c</b>")
    assert {tag for tag, _ in Seen(html).tags} == {"p"}
    assert Seen(html).text == "<script>canary()</script>\n<div onclick='x'>a</div> &nbsp; <b>c</b>"


def test_what_a_hand_written_page_needs_stays() -> None:
    html = hand_written(
        "## Two words\n\n|a|b|\n|-|-:|\n|1|2|\n\n!!! warning\n    Hot.\n\n[x](other.md) [y](#two-words)"
    )
    assert '<h2 id="two-words">Two words</h2>' in html
    assert 'class="admonition warning"' in html
    assert 'href="other.md"' in html
    assert 'href="#two-words"' in html
    assert '<td align="right">2</td>' in sanitise('<table><tr><td align="right" style="color:red">2</td></tr></table>')
    assert "<details><summary>More</summary>" in sanitise("<details><summary>More</summary>x</details>")


@pytest.mark.parametrize(
    ("source", "kept"),
    [
        ("a.png", True),
        ("../img/a.png", True),
        ("/img/a.png?x=a:b", True),
        ("https://x.example/a.png", False),
        ("//x.example/a.png", False),
        ("/\\x.example/a.png", False),
        ("\\\\x.example/a.png", False),
        ("/\t/x.example/a.png", False),
        (" //x.example/a.png", False),
        ("data:image/png;base64,AA", False),
    ],
)
def test_images_come_from_the_own_site_only(source: str, kept: bool) -> None:
    attributes = dict(Seen(sanitise(f'<img alt="x" src="{source}">')).tags)["img"]
    assert (unescape(attributes.get("src") or "") == source) == kept
    assert ("src" in attributes) == kept


@pytest.mark.parametrize("taken", ["finder", "finder-results", "__search"])
def test_a_heading_never_takes_the_place_of_the_finder(taken: str) -> None:
    assert "id=" not in sanitise(f'<h2 id="{taken}">x</h2>')


def test_forms_frames_and_styles_of_a_hand_written_page_go() -> None:
    html = sanitise("<form action=x><input name=q></form><iframe src=x></iframe><style>a{}</style><p style='x'>a</p>")
    assert html == "<p>a</p>"
