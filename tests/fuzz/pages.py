"""Ways to break a hand-written page, seeded: by its bytes, its tokens, what stands inside what, and by repeating."""

from __future__ import annotations

import random
from collections.abc import Callable
from typing import Final

from kbtools.reading.limits import MOST_ENTRY_BYTES
from tests.support.hostile_texts import STRINGS, hand_written
from tests.support.mutations import by_bytes
from tests.support.places import DEMO, TESTS

_WRITTEN: Final = [DEMO / "pages" / "contribute.md", TESTS / "examples" / "good" / "words-and-numbers.page.md"]
SEEDS: Final = [
    *(path.read_text("utf-8") for path in _WRITTEN),
    *(hand_written(each) for each in STRINGS.values()),
]
"""Pages that were written by people, and pages that have everything that Markdown has."""

TOKENS: Final = [
    *("*", "**", "_", "__", "`", "``", "```\n", "~~~\n", "\n", "\n\n", "  \n", "\\", "\t", "    ", " ", "|", "|-|\n"),
    *(
        "[",
        "]",
        "(",
        ")",
        "[a](b)",
        "![",
        "![a](b.png)",
        "[a][b]",
        "[b]: c\n",
        "<",
        ">",
        "<a@b.example>",
        "<http://a/>",
    ),
    *("# ", "## a\n", "---\n", "===\n", "- ", "1. ", "> ", ": ", "!!! note\n    ", "??? a\n", "{: #a .b }", "[TOC]\n"),
    *("<script>", "</script>", "<!--", "-->", "<img src=x onerror=a>", "<b>", "&lt;", "&#106;", "&amp;", "&", "]]>"),
    *(
        "[a](javascript:b)",
        "[a](//b.example)",
        "[a](JaVa\tScript:b)",
        "[a](data:text/html,b)",
        "![a](http://b.example/c)",
    ),
    *("\u202e", "\u200b", "\u00a0", "\x85", "\u2028", "\x00", "\x02", "\x03", "\x1b[31m", "é", "\U0001f600", "\ufeff"),
    *("::error::a", "##[group]a", "{{ 7*7 }}", "{% raw %}", "%s", "---\ntitle: a\n---\n", "title: ", "description: "),
]
"""What means something to Markdown, to HTML, to a template, to a terminal, or to the runner of a job."""

_AROUND: Final = [
    *("> ", "- ", "1. ", "    ", "!!! note\n    ", "[", "![a](", "**", "*", "_", "`", "(", "<", "| ", "# ", ": "),
    *("[a](<", "[a][", "- > ", "1. - ", "\\", "&", "~", "```"),
]

_MANY: Final = (2, 10, 40, 100, 700, 4_000)


def by_tokens(text: str, choose: random.Random) -> bytes:
    """Tokens put in, lines lost, doubled, exchanged or moved in."""
    for _ in range(choose.randint(1, 6)):
        lines = text.split("\n")
        at, other = choose.randrange(len(lines)), choose.randrange(len(lines))
        line = lines[at]
        way = choose.randrange(6)
        if way < 3:
            cut = choose.randrange(len(line) + 1)
            lines[at] = line[:cut] + choose.choice(TOKENS) * choose.choice((1, 1, 2, 5)) + line[cut:]
        elif way == 3:
            del lines[at]
        elif way == 4:
            lines[at], lines[other] = lines[other], line
        else:
            lines[at] = " " * choose.randrange(9) + line.lstrip()
        text = "\n".join(lines)
    return _bounded(text)


def by_nesting(text: str, choose: random.Random) -> bytes:
    """Lines inside quotes, lists, boxes, links and emphasis, a few or hundreds of them."""
    for _ in range(choose.randint(1, 3)):
        lines = text.split("\n")
        at = choose.randrange(len(lines))
        marks = "".join(choose.choice(_AROUND) for _ in range(choose.randint(1, 3)))
        depth = choose.choice((1, 3, 6, 12, 13, 20, 100))
        if choose.randrange(3):
            lines[at] = marks * depth + lines[at] + choose.choice(["", marks[::-1] * depth])
        else:
            # One level a line, each moved in further than the one before.
            lines[at : at + 1] = [choose.choice(["    ", "  ", "\t"]) * level + marks + "a" for level in range(depth)]
        text = "\n".join(lines)
    return _bounded(text)


def by_repetition(text: str, choose: random.Random) -> bytes:
    """Some tokens, or a piece of the page, again and again."""
    for _ in range(choose.randint(1, 2)):
        at = choose.randrange(len(text) + 1)
        if choose.randrange(3):
            piece = "".join(choose.choice(TOKENS) for _ in range(choose.randint(1, 5)))
        else:
            piece = text[at : at + choose.randint(1, 300)]
        text = text[:at] + piece * choose.choice(_MANY) + text[at:]
    return _bounded(text)


MUTATIONS: Final[dict[str, Callable[[str, random.Random], bytes]]] = {
    "bytes": by_bytes,
    "tokens": by_tokens,
    "nesting": by_nesting,
    "repetition": by_repetition,
}


def _bounded(text: str) -> bytes:
    """Its length alone is a finding, and nothing else of the page is looked at then."""
    return text.encode(errors="surrogatepass")[: MOST_ENTRY_BYTES - 100]
