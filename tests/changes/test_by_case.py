"""Which case turned the advice, on the small base of `edits.py`.

Of 4 cases' weight of judgement the plug has 0.9 x 6/7, the stator 0.9 x 1/7; each counted case adds one. So with one
case of the plug (3.09 + 1 = 4.09) the stator is behind with three of its own (0.51 + 3 = 3.51) and ahead with four
(4.51); without the plug's case three are enough (3.51 against 3.09).
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from dataclasses import replace
from hashlib import sha256
from pathlib import Path

import pytest

from kbtools.changes import by_case
from kbtools.changes.advice import Plans, plans
from kbtools.changes.by_case import Turn, turns
from kbtools.checkplan.problem import Problem
from kbtools.edges import cache
from kbtools.index.build import build_index
from kbtools.pages.turned import turned_words
from tests.changes.edits import BASE, CASE, CASES, LAMP, NOT_YET, STATOR_CASE
from tests.changes.test_compare import base_of
from tests.support import factories as make

TODAY = dt.date(2026, 6, 1)


def found(files: Mapping[str, str], today: dt.date = TODAY) -> Mapping[str, Turn]:
    return turns(build_index(base_of({**BASE, **files}), today), today)


def stators(*days: str) -> dict[str, str]:
    return {path: STATOR_CASE.replace("2026-02-01", day) for path, day in zip(CASES, days, strict=False)}


FOUR = stators("2026-03-20", "2026-04-02", "2026-04-10", "2026-05-20")


def test_the_case_that_turned_the_likeliest_cause_is_named_and_no_other() -> None:
    (turn,) = found(FOUR).values()
    assert (turn.case, turn.fault, turn.seen) == ("wren-400-0013", "lamp-flickers", dt.date(2026, 5, 20))
    assert turn.likeliest == ("plug", "stator")
    assert turn.first == ("check:look-at-plug", "check:look-at-plug")
    said = turned_words(turn, base_of(BASE).faults["lamp-flickers"])
    assert said == ("With this report another cause became the likeliest: Stator with a short. It was: Corroded plug.",)
    assert turned_words(None, base_of(BASE).faults["lamp-flickers"]) == ()


def test_the_pages_say_so_at_the_case_and_in_the_news() -> None:
    base = base_of({**BASE, **FOUR})
    for address in ("faults/lamp-flickers/", "new/"):
        page = make.article(base, address)
        told = "With this report another cause became the likeliest: Stator with a short. It was: Corroded plug."
        assert page.count(told) == 1
        before = page[: page.index(told)]
        assert "wren-400-0013" in before[before.rindex("<li") :]


@pytest.mark.parametrize(
    ("files", "today"),
    [
        pytest.param(stators("2026-03-20", "2026-04-02", "2026-04-10"), TODAY, id="a share that moves"),
        pytest.param(FOUR, dt.date(2026, 12, 1), id="long ago"),
        pytest.param({**FOUR, LAMP: BASE[LAMP] + "draft: true\n"}, TODAY, id="a draft"),
    ],
)
def test_what_turned_nothing_of_late_is_not_told(files: Mapping[str, str], today: dt.date) -> None:
    assert found(files, today) == {}


def test_a_case_that_takes_an_earlier_one_out_of_the_count_turns_it_as_well() -> None:
    back = NOT_YET.replace("2026-04-01", "2026-05-25") + "follows: wren-400-0001\n"
    three = stators("2026-03-20", "2026-04-02", "2026-04-10")
    (turn,) = found({**three, CASES[5]: back}).values()
    assert (turn.case, turn.likeliest) == (CASES[5].rpartition("/")[2].removesuffix(".yml"), ("plug", "stator"))
    assert CASE in BASE


def test_what_did_not_change_is_not_worked_out_again(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    made: list[int] = []

    def counting(problem: Problem | None) -> Plans:
        made.append(1)
        return plans(problem)

    monkeypatch.setattr(by_case, "plans", counting)

    def run(files: Mapping[str, str], today: dt.date = TODAY) -> Mapping[str, Turn]:
        made.clear()
        given = {**BASE, **files}
        digests = {path: sha256(text.encode()).digest() for path, text in given.items()}
        with cache.opened(tmp_path, TODAY.toordinal()) as memory:
            return turns(build_index(replace(base_of(given), digests=digests), today), today, memory=memory)

    assert run(FOUR) == found(FOUR)
    assert made
    again = run(FOUR)
    assert not made
    assert again == found(FOUR)
    three = dict(list(FOUR.items())[:3])
    assert run(three) == found(three)
    later = TODAY + dt.timedelta(days=89)
    assert run(FOUR, later) == found(FOUR, later)
