"""A base of which some files reach every limit is checked soon, and within some hundred megabytes."""

from __future__ import annotations

import datetime as dt
from pathlib import Path

from kbtools.edges.checking import check
from kbtools.vocabulary.stems import Equals
from tests.support.at_limits import write_at_limits
from tests.support.limited import limited

TODAY = dt.date(2026, 6, 1)


def rules_that_find(folder: Path) -> set[str]:
    return {each.rule for each in check(folder, TODAY).findings}


def test_a_few_files_at_every_limit_are_checked_soon(tmp_path: Path) -> None:
    write_at_limits(tmp_path / "kb", faults=10, cases=20, models=102, pages=2, full=4, crammed=4)
    found = limited(rules_that_find, tmp_path / "kb", seconds=60, megabytes=1_000)
    assert "KB419" in found
    # No file is so large that it would not be looked into, or what is measured is the refusal.
    assert not {each for each in found if each.startswith(("KB1", "KB2", "KB0"))}


def joined(groups: list[list[str]]) -> list[str]:
    return Equals(groups).applied(["w0", "w19000", "w19001"])


def test_groups_of_words_that_form_one_long_chain_are_joined_at_once() -> None:
    """As many as `words.yml` takes: the last word of each is the first one of the next."""
    groups = [[f"w{at * 19 + each}" for each in range(20)] for at in range(1_000)]
    assert limited(joined, groups, seconds=5) == ["w0", "w0", "w19001"]
    # Whatever their order.
    assert limited(joined, groups[::-1], seconds=5) == ["w0", "w0", "w19001"]
    assert limited(joined, groups[::2] + groups[1::2], seconds=5) == ["w0", "w0", "w19001"]
