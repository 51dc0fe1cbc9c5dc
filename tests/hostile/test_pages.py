"""Hostile Markdown, in a hand-written page and in the texts of an entry: refused at its place, or rendered soon."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import markdown
import pytest
from click.testing import CliRunner
from mkdocs.config import load_config

from kbtools.cli import main
from kbtools.edges.stopwatch import TooLongError, at_most
from kbtools.reading.limits import MOST_ENTRY_BYTES
from kbtools.rules.samples import FILES
from kbtools.site import hand_written
from kbtools.text import html as text
from tests.support.checked_samples import FAULT, changed, findings, read_files, with_file
from tests.support.limited import limited, limited_each
from tests.support.places import ROOT

PAGE = "pages/extra.md"
WHY = "why: A flat battery stops the engine."

TOO_MUCH = {
    "brackets that open": "[" * 20_000,
    "brackets that open, and one that closes": "[" * 20_000 + "]",
    "images that open": "![a](" * 8_000,
    "links that open": "[a](<" * 8_000,
    "references that open": "[a][" * 8_000,
    "lists in lists in a line": "- " * 5_000 + "a",
    "lists in lists": "".join("    " * depth + "- a\n" for depth in range(150)),
    "quotes in quotes": ">" * 20_000 + "a",
    "quotes in quotes with blanks": "> " * 10_000 + "a",
    "ampersands": "&" * 50_000,
    "marks that are escaped": "\\[" * 20_000,
    "words without an end": "word " * 10_000,
    "lines without an end": "a\n" * 20_000,
    "an item without an end": "- a\n" + "b\n" * 20_000,
    "items that are none": "text\n" + "- [\n" * 10_000,
    "items that stand too deep": "- a\n" + "          - [\n" * 3_000,
    "blanks that are none": "[ [ [ [\n\u00a0\n" * 3_000,
}
"""What is a finding wherever it stands."""

TOO_MUCH_FOR_A_PAGE = {
    "headings": "# a\n" * 10_000,
    "headings in items": "- # a\n" * 9_000,
    "headings that are underlined": "a\n=\n\n" * 8_000,
    "rules": "---\n" * 10_000,
    "definitions": "a\n" + ": b\n" * 10_000,
    "boxes": "!!! a\n" * 9_000,
    "columns of a table": "|a" * 5_000 + "\n" + "|-" * 5_000 + "\n" + "|b" * 5_000 + "\n",
    "short rows of a wide table": "|a" * 1_500 + "\n" + "|-" * 1_500 + "\n" + "b|c\n" * 5_000,
    "code that opens in a table": "a|b\n-|-\n" + "`|" * 20_000,
    "tables": "a|b|c|d|e|f\n-|-|-|-|-|-\n|\n|\n|\n\n" * 1_500,
    "fences": "```a\n" * 10_000,
    "fences with a mistake in them": "``` {.a}\nb\n```\n\n" + "[" * 5_000 + "\n\n```\nc\n```\n",
    "paragraphs": "a\n\n" * 19_000,
}
"""What is a finding on a page; an entry has no such things, and shows the signs as they are."""

TAKEN = {
    "marks of emphasis": "\n\n".join(["*" * 3_900] * 10),
    "marks that open": "*a **b ***c " * 200 + "\n\n",
    "code that opens": "` a" * 1_000,
    "backticks in runs that grow": " ".join("`" * run for run in range(1, 85)),
    "definitions of links": "".join(f"[r{at}]: https://host.example/{at}\n\n" for at in range(1_500)),
    "uses of a link": "[r]: https://host.example/\n\n" + "[r] " * 60,
    "a long list of links": "".join(f"- [a{at}](https://host.example/{at})\n" for at in range(1_000)),
    "a long table": "a|b|c\n-|-|-\n" + "d|e|f\n" * 1_500,
    "a long block of code": "```yaml\n" + "title: [a, b]\n" * 1_000 + "```\n",
    "empty lines": "a" + "\n" * 50_000 + "b",
    "blanks": "a" + " " * 3_000 + "b",
    "what the library puts in for what it has done": "\x02klzzwxh:0001\x03 wzxhzdk:0 " * 100,
}
"""What a page may hold: it takes no more than any other of its length."""


@pytest.fixture(scope="module")
def parser() -> markdown.Markdown:
    """The library as a hand-written page meets it."""
    config = load_config(str(ROOT / "mkdocs.yml"), docs_dir=str(ROOT / "kb"))
    extensions: list[Any] = [*config.markdown_extensions, *hand_written.extensions()]
    return markdown.Markdown(extensions=extensions, extension_configs=config.mdx_configs)


def of_page(content: str) -> list[tuple[str, str]]:
    """What reading says of a page."""
    return [(each.rule, each.path) for each in read_files(with_file(PAGE, content)).findings]


def of_entry(content: str) -> list[tuple[str, str]]:
    """What reading says of an entry with this text in it."""
    files = changed(FAULT, WHY, f"why: {json.dumps(content)}")
    return [(each.rule, each.path) for each in read_files(files).findings]


def test_a_page_that_markdown_cannot_take_is_a_finding() -> None:
    pages = TOO_MUCH | TOO_MUCH_FOR_A_PAGE
    too_long = [name for name, page in pages.items() if len(page.encode()) > MOST_ENTRY_BYTES]
    assert too_long == [], "its length alone would be the finding"
    found = limited_each(lambda name: ("KB120", PAGE) in of_page(pages[name]), pages)
    assert found == dict.fromkeys(pages, True)


def test_a_text_that_markdown_cannot_take_is_a_finding() -> None:
    def is_told(name: str) -> tuple[bool, bool]:
        # No text may be longer: the schema says so.
        most = TOO_MUCH[name][:9_000]
        return ("KB120", FAULT) in of_entry(most), ("KB204", FAULT) in of_entry(most + "x" * 2_000)

    assert limited_each(is_told, TOO_MUCH) == dict.fromkeys(TOO_MUCH, (True, True))


def test_a_text_that_no_rule_has_stopped_is_shown_soon_all_the_same() -> None:
    texts = TOO_MUCH | TOO_MUCH_FOR_A_PAGE | TAKEN
    shown = limited_each(lambda name: len(text.block(texts[name])) + len(text.inline(texts[name])), texts)
    assert [name for name, length in shown.items() if length == 0] == []


def test_what_a_page_may_hold_is_rendered_soon(parser: markdown.Markdown) -> None:
    def rules(name: str) -> set[str]:
        text.sanitise(parser.convert(TAKEN[name]))
        return {rule for rule, _ in of_page(TAKEN[name].replace("\x02", "").replace("\x03", ""))}

    found = limited_each(rules, TAKEN)
    assert {name: told & {"KB110", "KB120"} for name, told in found.items()} == {name: set() for name in TAKEN}


def test_a_page_that_is_too_long_is_not_read() -> None:
    pieces = ["[", "![a](", "&", "`", "*", "> ", "- ", "# a\n", "|", "a\n\n", "<b>", "&#106;", "\u202e"]
    found = limited_each(lambda piece: of_page(piece * (900_000 // len(piece))), pieces)
    assert found == {piece: [("KB110", PAGE)] for piece in pieces}


def test_a_page_full_of_mistakes_is_checked_soon() -> None:
    def checked(piece: str) -> int:
        return len(findings(with_file(PAGE, "\n\n".join([piece * (1_000 // len(piece))] * 55))))

    limited_each(
        checked,
        [
            *("<b>", "[a](javascript:b) ", "a@b.example ", "+44 1632 960555 ", "YZ06SDLH9MS368193 ", "\u200b "),
            "Anna Berg, ",
        ],
    )


def test_findings_stand_where_the_page_has_them() -> None:
    page = "---\ntitle: Extra\n---\n\n# Extra\n\nText.\n\n" + "[" * 100
    found = [each for each in findings(with_file(PAGE, page)) if each.rule == "KB120"]
    assert [(each.mark.line, each.mark.column) for each in found] == [(9, 1)]


# Front matter


BOMB = "---\na: &a [x]\n" + "".join(
    f"{chr(ord('a') + at)}: &{chr(ord('a') + at)} [{', '.join(['*' + chr(ord('a') + at - 1)] * 10)}]\n"
    for at in range(1, 9)
)
FRONTS = {
    "an alias that grows tenfold eight times": (BOMB + "title: *i\n---\n\n# Extra\n", {"KB103", "KB202"}),
    "an anchor": ("---\ntitle: &a Extra\n---\n", {"KB103"}),
    "a tag": ("---\ntitle: !!python/object/apply:os.system [true]\n---\n", {"KB104", "KB201"}),
    "a key that means something to the generator": ("---\ntemplate: main.html\n---\n", {"KB202"}),
    "a key twice": ("---\ntitle: A\ntitle: B\n---\n", {"KB102"}),
    "a list": ("---\ntitle: [a]\n---\n", {"KB201"}),
    "brackets": ("---\ntitle: " + "[" * 10_000 + "\n---\n", {"KB110"}),
    "no YAML": ("---\ntitle: a: b\n---\n", {"KB101"}),
    "text between two rules": ("---\nNot a title\n---\n", {"KB201"}),
    "a title without an end": ("---\ntitle: " + "a" * 5_000 + "\n---\n", {"KB204"}),
    "a second document": ("---\ntitle: a\n--- b\n---\n", {"KB108"}),
}
"""What stands above a page, and the rules that it breaks."""


@pytest.mark.parametrize("name", FRONTS)
def test_front_matter_is_read_like_every_file(name: str) -> None:
    page, rules = FRONTS[name]
    assert {rule for rule, _ in limited(of_page, page, megabytes=200, what=name)} == rules


def test_front_matter_of_windows_counts_too() -> None:
    page = "---\r\ntitle: Extra\r\nlayout: x\r\n---\r\n\r\n# Extra\r\n"
    (found,) = [each for each in findings(with_file(PAGE, page)) if each.path == PAGE]
    assert (found.rule, found.mark.line, found.mark.column) == ("KB202", 3, 1)


# The watchdog


def test_what_runs_away_is_ended() -> None:
    def endless() -> str:
        try:
            with at_most(0.2):
                while True:
                    pass
        except TooLongError:
            return "ended"

    assert limited(endless) == "ended"


def test_a_library_that_catches_everything_does_not_keep_it_alive() -> None:
    def stubborn() -> str:
        try:
            with at_most(0.2):
                while True:
                    try:
                        sum(range(1_000))
                    except Exception:
                        continue
        except TooLongError:
            return "ended"

    assert limited(stubborn) == "ended"


def test_work_that_takes_little_is_let_be() -> None:
    with at_most(5):
        assert sum(range(10)) == 45


CONFIG = """\
site_name: x
docs_dir: kb/pages
theme: {name: material, font: false}
plugins: [fault-lore]
markdown_extensions: [tests.support.endless]
"""


def test_a_page_that_takes_too_long_ends_the_build_with_its_name_and_the_old_site_stays(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    for path, content in {**FILES, "pages/slow.md": "# Slow\n\nTHIS NEVER ENDS\n"}.items():
        (tmp_path / "kb" / path).parent.mkdir(parents=True, exist_ok=True)
        (tmp_path / "kb" / path).write_text(content, encoding="utf-8")
    (tmp_path / "mkdocs.yml").write_text(CONFIG, encoding="utf-8")
    site = tmp_path / "site"
    site.mkdir()
    (site / ".kbtools-site").touch()
    (site / "index.html").write_text("the old one", encoding="utf-8")
    monkeypatch.chdir(tmp_path)

    def build() -> tuple[int, str]:
        done = CliRunner().invoke(main, ["build"])
        assert isinstance(done.exception, SystemExit), done.exception
        return done.exit_code, done.stderr

    code, said = limited(build, seconds=60, megabytes=2_000)
    assert code == 1, said
    assert "pages/slow.md takes more than 2 seconds" in said
    assert "Traceback" not in said
    assert (site / "index.html").read_text("utf-8") == "the old one"
    assert [each.name for each in tmp_path.iterdir() if each.name.startswith(".site")] == []
