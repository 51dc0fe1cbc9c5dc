"""What access jobs need, held to a closure that is worked out by going round until nothing new comes."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from kbtools.index.access import access_jobs, in_order_of_work, last_named_first, nearest_first
from tests.support import factories as make

Needs = Mapping[str, Sequence[str]]
ORDERS = [in_order_of_work, nearest_first, last_named_first]
NAMES = st.sampled_from("abcdefg")
GRAPHS = st.dictionaries(NAMES, st.lists(NAMES, max_size=3), max_size=6)


def closure(ids: Iterable[str], needs: Needs) -> set[str]:
    found = set(ids)
    while more := {need for each in found for need in needs.get(each, ())} - found:
        found |= more
    return found


@given(st.lists(NAMES, max_size=3), GRAPHS)
def test_all_that_is_needed_each_once_in_whatever_order(ids: list[str], needs: Needs) -> None:
    expected = closure(ids, needs)
    for order in (nearest_first, last_named_first):
        assert sorted(order(ids, needs)) == sorted(expected)
    assert sorted(in_order_of_work(ids, needs)) == sorted(expected & needs.keys())


@given(st.lists(NAMES, max_size=3), GRAPHS)
def test_what_is_needed_is_done_before(ids: list[str], needs: Needs) -> None:
    # Jobs that need only what comes after them in the alphabet are in no circle.
    straight = {job: [need for need in own if need > job] for job, own in needs.items()}
    done = in_order_of_work(ids, straight)
    for job in done:
        assert all(done.index(need) < done.index(job) for need in straight[job] if need in straight)


def test_the_three_orders() -> None:
    needs = {"tank-off": ["seat-off", "lines-off"], "lines-off": ["tap-shut"], "seat-off": [], "tap-shut": []}
    assert in_order_of_work(["tank-off"], needs) == ("seat-off", "tap-shut", "lines-off", "tank-off")
    assert nearest_first(["tank-off", "battery-out"], needs) == (
        *("tank-off", "battery-out"),
        *("seat-off", "lines-off"),
        "tap-shut",
    )
    assert last_named_first(["battery-out", "tank-off"], needs) == (
        *("tank-off", "lines-off", "tap-shut", "seat-off"),
        "battery-out",
    )


def test_jobs_of_a_base_come_in_the_order_of_the_work() -> None:
    jobs = [make.access("c", "b", "a"), make.access("b", "a"), make.access("a")]
    base = make.base(access=jobs)
    assert [job.id for job in access_jobs(["c", "a"], base)] == ["a", "b", "c"]
    assert access_jobs(["nowhere"], base) == ()


class Counting(dict[str, Sequence[str]]):
    """Needs that count how often they are asked for."""

    asked = 0

    def __getitem__(self, job: str) -> Sequence[str]:
        self.asked += 1
        return super().__getitem__(job)

    def get(self, job: str, default: object = None) -> Sequence[str]:
        self.asked += 1
        return super().get(job, ())


def webs() -> Iterator[dict[str, list[str]]]:
    """Jobs in one long chain; in a ring; and in layers of which each job needs all of the next, by 2^60 ways."""
    names = [f"job-{number}" for number in range(5000)]
    chain = {job: [need] for job, need in pairwise(names)} | {names[-1]: []}
    yield chain
    yield chain | {names[-1]: [names[0]]}
    layers = [["start"], *([f"{side}{number}" for side in "ab"] for number in range(60))]
    yield {job: own for here, own in zip(layers, [*layers[1:], []], strict=True) for job in here}


@pytest.mark.parametrize("order", ORDERS)
@pytest.mark.parametrize("web", list(webs()), ids=["chain", "ring", "layers"])
def test_each_job_is_gone_into_once(
    order: Callable[[Iterable[str], Needs], tuple[str, ...]], web: dict[str, list[str]]
) -> None:
    """However long the way and however many ways: no recursion that runs out, no circle that holds it up."""
    needs = Counting(web)
    assert set(order([next(iter(web))], needs)) == set(web)
    assert needs.asked <= len(web)
