"""`accepted.yml` takes out one finding at one place, and a row of it that does nothing is told."""

from __future__ import annotations

import datetime as dt
import importlib
import types
from collections.abc import Iterator
from pathlib import Path

import pytest

from kbtools.edges import rulebook as books
from kbtools.edges.checking import check, findings_in
from kbtools.linting.run import Rulebook
from kbtools.model.base import KnowledgeBase
from kbtools.report.text import summary
from kbtools.rules import samples
from kbtools.rules.rule import Breach, Rule
from tests.support.checked_samples import FAULT, changed, findings, linted, places, with_file

OLD = changed(FAULT, "reviewed: {on: 2026-03-14", "reviewed: {on: 2024-01-31")
"""One finding: KB701 at /reviewed/on."""
TWO = changed(FAULT, "title: Spring teardown", "title: Spring teardown, url: https://notes.example/x", OLD)
"""And KB705 at /sources/0."""


def accepting(files: dict[str, str], *rows: str) -> dict[str, str]:
    return with_file("accepted.yml", "".join(f"- {{{row}, because: The club knows.}}\n" for row in rows), files)


def row(rule: str, at: str | None, path: str = FAULT) -> str:
    return f"rule: {rule}, path: {path}" + ("" if at is None else f', at: "{at}"')


def test_a_finding_is_taken_out_and_counted() -> None:
    assert places(findings(TWO)) == ["KB705 lamp-flickers.yml:29:5", "KB701 lamp-flickers.yml:31:16"]
    result = linted(accepting(TWO, row("KB701", "/reviewed/on")))
    assert places(result.findings) == ["KB705 lamp-flickers.yml:29:5"]
    assert places(result.accepted) == ["KB701 lamp-flickers.yml:31:16"]


@pytest.mark.parametrize("at", ["/sources/0", "/sources/0/kind"])
def test_a_pointer_to_the_same_place_will_do(at: str) -> None:
    # The finding stands where its row begins, and that is where the first key stands too.
    files = changed(
        FAULT,
        "  - {kind: first-hand, title: Spring teardown}",
        "  - kind: first-hand\n    title: Teardown\n    url: https://notes.example/x",
    )
    assert places(findings(files)) == ["KB705 lamp-flickers.yml:29:5"]
    assert findings(accepting(files, row("KB705", at))) == ()


@pytest.mark.parametrize("before", ["kb/", "../lore/kb/", "/srv/lore/kb/"])
def test_a_path_may_be_copied_from_a_report(before: str) -> None:
    assert findings(accepting(OLD, row("KB701", "/reviewed/on", f"{before}{FAULT}"))) == ()


def test_the_list_may_stand_under_its_name() -> None:
    text = f"accepted:\n  - {{{row('KB701', '/reviewed/on')}, because: The club knows.}}\n"
    assert findings(with_file("accepted.yml", text, OLD)) == ()
    stale = text.replace("/reviewed/on", "/reviewed/by")
    assert places(findings(with_file("accepted.yml", stale, OLD)))[0] == "KB707 accepted.yml:2:5"


def test_an_error_of_meaning_can_be_accepted_and_then_stops_nothing() -> None:
    files = changed(FAULT, "labour_hours: [0.5, 1]", "labour_hours: [30, 60]")
    assert places(findings(files)) == ["KB408 lamp-flickers.yml:17:26"]
    assert findings(accepting(files, row("KB408", "/causes/0/fix/labour_hours/1"))) == ()


@pytest.mark.parametrize(
    ("entry", "found", "hint"),
    [
        # Not there: the rule, the file.
        (row("KB799", "/reviewed/on"), "KB316 accepted.yml:1:10", None),
        (row("KB7O1", "/reviewed/on"), "KB204 accepted.yml:1:10", None),
        (
            row("KB701", "/reviewed/on", "faults/charging/lamp-flicker.yml"),
            "KB316 accepted.yml:1:23",
            f'Did you mean "{FAULT}"?',
        ),
        # Another place of the same file, one that is not there, the whole file.
        (
            row("KB701", "/reviewed/by"),
            "KB707 accepted.yml:1:3",
            'Did you mean "/reviewed/on"? If not, take this row out.',
        ),
        (
            row("KB701", "/review/on"),
            "KB707 accepted.yml:1:62",
            'Did you mean "/reviewed/on"? If not, take this row out.',
        ),
        (row("KB701", None), "KB707 accepted.yml:1:3", 'Did you mean "/reviewed/on"? If not, take this row out.'),
        # Another rule at the right place.
        (row("KB702", "/reviewed/on"), "KB707 accepted.yml:1:3", "Take this row out."),
    ],
)
def test_a_row_that_accepts_nothing_is_told(entry: str, found: str, hint: str | None) -> None:
    result = findings(accepting(OLD, entry))
    assert places(result) == [found, "KB701 lamp-flickers.yml:31:16"]
    assert hint is None or result[0].hint == hint


def test_a_row_that_stands_twice_is_told() -> None:
    entry = row("KB701", "/reviewed/on")
    result = findings(accepting(OLD, entry, entry))
    assert places(result) == ["KB707 accepted.yml:2:3"]
    assert "already" in result[0].message


@pytest.mark.parametrize(
    ("rule", "old", "new", "at"),
    [
        ("KB102", "system: charging\n", "system: charging\nsystem: charging\n", "/system"),
        ("KB202", "system: charging\n", "system: charging\nsystems: charging\n", "/systems"),
        ("KB301", "model: wren-400", "model: wren-40", "/applies_to/0/model"),
    ],
)
def test_what_the_site_cannot_be_built_from_is_not_accepted(rule: str, old: str, new: str, at: str) -> None:
    files = changed(FAULT, old, new)
    (before,) = findings(files)
    after = findings(accepting(files, row(rule, at)))
    assert places(after) == ["KB317 accepted.yml:1:10", *places((before,))]


def test_a_row_is_not_asked_while_its_rule_cannot_see() -> None:
    """A finding that another mistake hides may come back when that is mended: taking its row out would be wrong."""
    entry = row("KB701", "/reviewed/on")
    unreadable = changed(FAULT, "title: Charge lamp flickers", "title: Charge: lamp flickers", OLD)
    assert [each.rule for each in findings(accepting(unreadable, entry))] == ["KB101"]
    damaged = changed(FAULT, "on: 2024-01-31", "on: 2024-13-31", OLD)
    assert [each.rule for each in findings(accepting(damaged, entry))] == ["KB204"]
    # What is wrong in accepted.yml itself hides nothing.
    files = accepting(dict(samples.FILES), entry, "rule: KB701, path: x.yml, at: x")
    assert [each.rule for each in findings(files)] == ["KB707", "KB204"]


def broken(base: KnowledgeBase, today: dt.date) -> Iterator[Breach]:
    raise RuntimeError("a mistake")


BROKEN = Rule(code="KB701", title="t", severity="warning", what="w", why="y", sample=None, check=broken)


def test_a_row_is_not_asked_while_its_rule_is_broken() -> None:
    book = Rulebook(rules=(BROKEN,), broken={})
    assert [each.rule for each in findings(accepting(OLD, row("KB701", "/reviewed/on")), book=book)] == ["KB001"]


def test_a_rule_that_cannot_be_loaded_is_a_finding_and_the_others_count(monkeypatch: pytest.MonkeyPatch) -> None:
    def load(name: str) -> types.SimpleNamespace:
        if name.endswith("kb701_review_overdue"):
            raise ImportError("no such thing")
        return types.SimpleNamespace(RULE=BROKEN if name.endswith("kb705_x") else "")

    with monkeypatch.context() as patched:
        patched.setattr(importlib, "import_module", load)
        loaded = books.load(["freshness.kb701_review_overdue", "freshness.kb705_x"])
    assert loaded.rules[-1] == BROKEN
    assert list(loaded.broken) == ["KB701"]
    real = Rulebook(rules=books.rulebook().rules, broken=loaded.broken)
    result = findings(TWO, book=real)
    assert [each.rule for each in result] == ["KB001", "KB705", "KB701"]
    assert "kb701_review_overdue" in result[0].message
    # A row about a rule that could not be loaded is not said to be about none.
    rules = tuple(each for each in real.rules if each.code != "KB701")
    fewer = Rulebook(rules=rules, broken=loaded.broken)
    assert [each.rule for each in findings(accepting(OLD, row("KB701", "/reviewed/on")), book=fewer)] == ["KB001"]


def test_a_checked_folder_tells_what_was_accepted(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    for path, text in accepting(TWO, row("KB701", "/reviewed/on")).items():
        file = tmp_path / "lore" / path
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_text(text, "utf-8")
    result = check(Path("lore"), dt.date(2026, 6, 1))
    assert [each.path for each in result.accepted] == [f"lore/{FAULT}"]
    assert [each.rule for each in result.findings] == ["KB705"]


def test_what_is_accepted_is_kept_with_the_findings_and_counted_in_the_summary(tmp_path: Path) -> None:
    for path, text in accepting(OLD, row("KB701", "/reviewed/on")).items():
        file = tmp_path / "lore" / path
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_text(text, "utf-8")
    for _ in range(2):
        found = findings_in(tmp_path / "lore", dt.date(2026, 6, 1), tmp_path / "kept")
        assert (found.findings, [each.rule for each in found.accepted]) == ((), ["KB701"])
    assert summary(found.findings, len(found.accepted)) == "Nothing to mend; 1 accepted."
    assert summary(findings(OLD), 2) == "1 warning in 1 file; 2 accepted. About a rule: kbtools rules KB701"


def test_a_page_is_accepted_as_a_whole() -> None:
    """A hand-written page has no pointers, so its places are not told apart."""

    def check_pages(base: KnowledgeBase, today: dt.date) -> Iterator[Breach]:
        for page in base.pages:
            for index in (3, 8):
                yield Breach(path=page.path, pointer="", index=index, message="m", hint="h")

    rule = Rule(code="KB501", title="t", severity="error", what="w", why="y", sample=None, check=check_pages)
    book = Rulebook(rules=(rule,), broken={})
    files = with_file("pages/index.md", "Write to us about anything.\n")
    assert places(findings(files, book=book)) == ["KB501 index.md:1:4", "KB501 index.md:1:9"]
    result = linted(accepting(files, row("KB501", None, "pages/index.md")), book=book)
    assert (result.findings, len(result.accepted)) == ((), 2)
