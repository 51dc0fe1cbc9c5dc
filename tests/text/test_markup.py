"""Raw HTML, links that act, characters that nobody sees: against Unicode's data, a browser's parser, hostile texts."""

from __future__ import annotations

import sys
import unicodedata

import markdown
import nh3
import pytest
from hypothesis import given
from hypothesis import strategies as st

from kbtools.text.markup import raw_html, scheme, unsafe_links, unseen, without_code
from tests.support.patience import within_reason


@pytest.mark.parametrize(
    ("text", "first"),
    [
        ("a <b>x</b>", "<b>"),
        ("</title><script>", "</title>"),
        ('<img src=x onerror="1">', '<img src=x onerror="1">'),
        ("<img src=x onerror=1", "<img src=x onerror=1"),
        ("</script", "</script"),
        ("<!-- c -->", "<!--"),
        ("<!DOCTYPE html>", "<!D"),
        ("<?php 1", "<?p"),
        ("<![CDATA[x]]>", "<![CDATA["),
        ("x<br/>y", "<br/>"),
        ("<IFRAME SRC=x>", "<IFRAME SRC=x>"),
        ("<own-element>", "<own-element>"),
        ("<svg/onload=1>", "<svg/onload=1>"),
        ("<a\nhref=x>", "<a\nhref=x>"),
        ("`code` <i>x", "<i>"),
        ("`not closed <i>x", "<i>"),
    ],
)
def test_html_is_found(text: str, first: str) -> None:
    assert next(iter(raw_html(text))).text == first


@pytest.mark.parametrize(
    "text",
    [
        *("< 5 V and > 3 V", "below <5 V", "R1<R2 and a>b", "if a <b and b> c", "x <- y", "1<i 5", "U <s", "a<b"),
        *(
            "<https://texts.example/a>",
            "<anna@mail.example>",
            "`<b>` is code",
            "``<b>` ``",
            "->",
            "<>",
            "<<<",
            "3 << 4",
        ),
        *("```\n<b>\n```", "~~~ yaml\nx: <b>\n~~~\n", "&lt;b&gt;"),
    ],
)
def test_what_is_no_html_is_let_be(text: str) -> None:
    assert list(raw_html(text)) == []


TAG_PIECES = [
    "<",
    "</",
    ">",
    "img",
    "abbr",
    "table",
    " ",
    "=",
    "'",
    '"',
    "/",
    "x",
    "\n",
    "&lt;",
    "<!--",
    "<img",
    "<abbr",
]


@given(st.lists(st.sampled_from(TAG_PIECES), max_size=10).map("".join))
def test_where_a_browser_sees_an_element_html_is_found(text: str) -> None:
    # nh3 reads as a browser does (html5ever), and leaves these elements standing.
    seen = nh3.clean(text, tags={"abbr", "img", "table"}, attributes={})
    if any(f"<{each}" in seen for each in ("abbr", "img", "table")):
        assert list(raw_html(text)), seen


@pytest.mark.parametrize(
    ("text", "name"),
    [
        ("[x](javascript:alert(1))", "javascript"),
        ("[x]( JaVa\tScript:1)", "javascript"),
        ("[x](&#106;avascript:1)", "javascript"),
        ("[x](&#x6A;avascript&colon;1)", "javascript"),
        ("[x](&amp;#106;avascript:1)", "javascript"),
        ("[x](java&#10;script:1)", "javascript"),
        ("[x](java\u200bscript:1)", "javascript"),
        ("[x](<javascript:1>)", "javascript"),
        ("[x](javascript\\:1)", "javascript"),
        ("[x][y]\n\n[y]: data:text/html,1", "data"),
        ("![a](data:image/svg+xml;base64,xx)", "data"),
        ("<vbscript:a>", "vbscript"),
        ("[a](file:///etc/passwd)", "file"),
        ("[a](\x01javascript:1)", "javascript"),
        ("[a](ftp://host.example/)", "ftp"),
    ],
)
def test_an_unsafe_link_is_found_by_the_scheme_that_a_browser_reads(text: str, name: str) -> None:
    assert [found for _, found in unsafe_links(text)] == [name]


@pytest.mark.parametrize(
    "text",
    [
        *("[a](https://x.example/a:b)", "[a](faults/x.md#a:b)", "[a](mailto:x@y.example)", "<https://x.example/>"),
        *(
            "`[x](javascript:1)`",
            "file: 3, data: 4",
            "plug [A]: 12 V",
            "[note](Note: twelve volts)",
            "[a](#b:c)",
            "[a](C:1)",
        ),
        *("[a](tel:1)", "[a](../x.md)", "[1](HTTP://X.EXAMPLE)"),
    ],
)
def test_what_is_no_unsafe_link_is_let_be(text: str) -> None:
    assert list(unsafe_links(text)) == []


# Whole words from which such links are made, since single letters hardly ever give one.
PIECES = [
    "[x](",
    "javascript:1",
    "java",
    "script:",
    ")",
    "&#106;",
    "avascript:",
    "<",
    ">",
    "\n[x]: ",
    "[x]",
    "data:a",
    " ",
    "\\",
]


@given(st.lists(st.sampled_from(PIECES), max_size=8).map("".join))
def test_what_the_parser_makes_of_pieces_is_found(text: str) -> None:
    html = nh3.clean(markdown.markdown(text), url_schemes={"http", "https", "javascript", "data"})
    if 'href="javascript:' in html or 'href="data:' in html:
        assert next(unsafe_links(text), None) or next(raw_html(text), None), html


def test_a_scheme_needs_two_letters() -> None:
    assert (scheme("c:/x"), scheme("cc:/x"), scheme("/a:b"), scheme("")) == (None, "cc", None, None)


# Prepended concatenation marks (Unicode property of that name): format characters that are seen.
SEEN = set(range(0x600, 0x606)) | {0x6DD, 0x70F, 0x890, 0x891, 0x8E2, 0x110BD, 0x110CD}
# Egyptian and other notations whose format characters arrange the signs around them.
ARRANGING = set(range(0x13430, 0x13440))


def test_every_format_and_control_character_of_unicode_is_found() -> None:
    for code in range(sys.maxunicode + 1):
        character = chr(code)
        if code in SEEN | ARRANGING or character in "\t\n\r":
            assert list(unseen(f"a{character}b")) == []
        elif unicodedata.category(character) in {"Cf", "Cc", "Cs", "Zl", "Zp"}:
            assert [piece.start for piece in unseen(f"a{character}b")] == [1], hex(code)


def test_no_letter_mark_number_sign_or_space_of_unicode_is_found() -> None:
    fillers = {0x115F, 0x1160, 0x3164, 0xFFA0, 0x34F, 0x17B4, 0x17B5}
    for code in range(sys.maxunicode + 1):
        character = chr(code)
        selects = "VARIATION SELECTOR" in unicodedata.name(character, "")
        if unicodedata.category(character)[0] in "LMNPSZ" and not selects and code not in fillers | {0x2028, 0x2029}:
            assert list(unseen(f"a{character}b")) == [], hex(code)


@pytest.mark.parametrize(
    "text",
    [
        "می\u200cخواهم",  # Persian: the usual way to write "I want"
        "क्\u200dष",  # Devanagari: half form
        "ශ්\u200dරී",  # Sinhala
        "👨\u200d🔧",  # emoji of a mechanic
        "⚠\ufe0f hot",
        "1\ufe0f\u20e3",
        "葛\U000e0100",  # ideographic variation
        "ᠮᠣᠩ\u180b",
        "10\u00a0mm, 5\u202f%, don’t, naïve, Ölstand, 充電",
    ],
)
def test_what_a_script_needs_is_let_be(text: str) -> None:
    assert list(unseen(text)) == []


@pytest.mark.parametrize("text", ["a\u200db", "a\u200cb", "\u200d", "a\ufe0f", " \ufe0f", "x\U000e0041", "\ufe0f"])
def test_the_same_characters_elsewhere_are_found(text: str) -> None:
    assert len(list(unseen(text))) == 1


@given(st.text(alphabet="`~\n a<b>", max_size=80))
def test_without_code_every_place_stays(text: str) -> None:
    left = without_code(text)
    assert len(left) == len(text)
    assert all(after in (before, " ") for before, after in zip(text, left, strict=True))


NASTY = [
    *("<a ", "<", "<a =", "=", "```\n", "~~~x\n", "`", "``` ", "[x](", "](", "[x]:", "[x]: \n", "&#", "&amp;", "<!--"),
    *(
        "\u202e",
        "\u200d",
        "é ",
        "<a b=",
        "<img ",
        "[x](java ",
        "[a]:a\n",
        "<a/",
        "[" * 50,
        "&#106;",
        "[x](&amp;",
        "``x`",
    ),
]


def test_nasty_texts_take_no_time() -> None:
    # Each 100 kB takes under a fifth of a second; a pattern that runs away would take hours.
    for piece in NASTY:
        text = piece * (100_000 // len(piece))
        with within_reason(piece):
            found = len(list(raw_html(text))), len(list(unsafe_links(text))), len(list(unseen(text)))
        assert max(found) <= len(text)


def test_fences_of_falling_length_take_no_time() -> None:
    text = "".join(f"{'~' * length}x\n" for length in range(440, 2, -1))
    with within_reason():
        without_code(text + "`")
