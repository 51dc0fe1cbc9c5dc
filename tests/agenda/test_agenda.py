"""What a curator does next: which jobs there are, and in which order."""

from __future__ import annotations

import datetime as dt
from collections import Counter
from typing import Any

from kbtools.agenda.compose import agenda
from kbtools.agenda.job import DeadLink, Job
from kbtools.agenda.reviews import reviews
from kbtools.diagnostics import Finding, Mark
from kbtools.model.fault import Reviewed
from tests.support import factories as make

TODAY = dt.date(2026, 6, 15)


def read_on(day: dt.date) -> Reviewed:
    return Reviewed(on=day, by="curator-1", second=None, at="/reviewed")


def found(rule: str, path: str, *, severity: Any = "warning", line: int = 3) -> Finding:
    message = f"What {rule} says."
    return Finding(rule=rule, severity=severity, path=path, mark=Mark(line=line, column=1), message=message, hint="")


def jobs(base: Any, *findings: Finding, dead: tuple[DeadLink, ...] = ()) -> list[tuple[str, str]]:
    return [(each.job, each.subject) for each in agenda(base, findings, TODAY, dead)]


def yearly(*days: dt.date) -> Any:
    """Published entries `f-0`, `f-1` … with these days of their last review, which holds for twelve months."""
    entries = [make.fault(f"f-{number}", reviewed=read_on(day)) for number, day in enumerate(days)]
    return make.base(*entries, club=make.club(review_after_months=12))


def months(base: Any) -> list[int]:
    return [each.months for each in sorted(reviews(base, TODAY), key=lambda each: int(each.subject[2:]))]


def test_nothing_to_do() -> None:
    assert agenda(make.base(make.fault("a", reviewed=read_on(TODAY))), (), TODAY) == ()


def test_a_review_has_its_turn_when_it_falls_due() -> None:
    base = yearly(dt.date(2025, 6, 14), dt.date(2025, 6, 15), dt.date(2025, 9, 1), dt.date(2026, 6, 16))
    late, now, autumn = sorted(reviews(base, TODAY), key=lambda each: each.subject)
    # Four in a year are one a month at most: what is due this month is done with what is late, or with nothing.
    assert (late.months, now.months, autumn.months) == (0, 0, 3)
    assert late.why == "The review was due on 2026-06-14."
    assert autumn.why == "The review falls due on 2026-09-01."


def test_what_falls_due_in_one_month_is_spread_over_those_before() -> None:
    planned = months(yearly(*[dt.date(2025, 12, 1)] * 24))
    # All in December, and seven months to it: three or four in each, and none later.
    assert Counter(planned) == {0: 3, 1: 3, 2: 3, 3: 3, 4: 4, 5: 4, 6: 4}


def test_what_is_overdue_is_spread_over_those_to_come_the_dangerous_first() -> None:
    days = [dt.date(2024, 1, 1 + number) for number in range(24)]
    assert months(yearly(*days)) == [number // 2 for number in range(24)]
    brakes = make.fault("brakes-fade", system="brakes", reviewed=read_on(dt.date(2025, 1, 1)))
    lamp = make.fault("lamp", reviewed=read_on(dt.date(2024, 1, 1)))
    base = make.base(
        lamp,
        brakes,
        systems=[make.system(), make.system("brakes", safety_critical=True)],
        club=make.club(review_after_months=12),
    )
    assert [each.subject for each in agenda(base, (), TODAY)] == ["brakes-fade", "lamp"]


def test_what_can_hurt_comes_first_and_what_only_looks_untidy_last() -> None:
    base = make.base(make.fault("a", reviewed=read_on(dt.date(2010, 1, 1))), make.fault("b", draft=True))
    path = base.faults["a"].path
    assert jobs(
        base,
        *(found(rule, path) for rule in ("KB601", "KB610", "KB708", "KB704", "KB602", "KB702")),
        found("KB203", "club.yml", severity="error"),
        dead=(DeadLink(path=path, url="https://x.example/", said="404"),),
    ) == [
        ("mend", "club.yml"),
        ("ride-advice", "a"),
        ("second-reader", "a"),
        ("shared-cause", "a"),
        ("review", "a"),
        ("near-duplicate", "a"),
        ("dead-link", "a"),
        ("contradiction", "a"),
        ("draft", "b"),
    ]


def test_mistakes_in_one_file_are_one_job() -> None:
    (job,) = agenda(
        make.base(), [found("KB203", "faults/x.yml", severity="error", line=each) for each in (4, 9)], TODAY
    )
    assert (job.job, job.subject) == ("mend", "faults/x.yml")
    assert job.why == "Line 4: What KB203 says. And 1 more. Nothing is published before that."
    assert job.minutes > 5


def test_a_draft_says_what_it_waits_for() -> None:
    job = one(make.base(make.fault("b", draft=True, sources=(), reviewed=None, causes=())))
    assert job.why == "The draft waits for causes, sources and reviewed."
    assert one(make.base(make.fault("b", draft=True))).why == "The draft has all it needs: read it, and publish."


def one(base: Any) -> Job:
    (job,) = [each for each in agenda(base, (), TODAY) if each.job == "draft"]
    return job


def test_cases_without_a_fault_are_sorted() -> None:
    """Two of one trouble that nobody has described, one that an entry describes, and one that stands alone."""
    base = make.base(
        make.fault("lamp-flickers", title="Charge lamp flickers in the wet", reviewed=read_on(TODAY)),
        cases=[
            make.case("c-1", None, symptoms=("Whine from the gearbox in fourth, cold",)),
            make.case("c-2", None, symptoms=("Gearbox whine in fourth while cold",)),
            make.case("c-3", None, symptoms=("Charge lamp flickers in the wet",)),
            make.case("c-4", None, symptoms=("Mirror turns in the wind",)),
        ],
    )
    sorted_ = [each for each in agenda(base, (), TODAY) if each.job == "sort-case"]
    pair, known = sorted_
    assert pair.subject in {"c-1", "c-2"}
    assert "c-1" in pair.why
    assert "c-2" in pair.why
    assert (known.subject, '"lamp-flickers"' in known.why) == ("c-3", True)


def test_a_case_that_a_later_one_goes_on_with_is_no_job() -> None:
    base = make.base(
        make.fault("lamp-flickers", title="Charge lamp flickers in the wet", reviewed=read_on(TODAY)),
        cases=[
            make.case("c-1", None, symptoms=("Charge lamp flickers in the wet",)),
            make.case("c-2", "lamp-flickers", follows="c-1"),
        ],
    )
    assert [each for each in agenda(base, (), TODAY) if each.job == "sort-case"] == []


def test_a_base_without_a_club_has_its_other_jobs() -> None:
    assert jobs(make.base(make.fault("b", draft=True), club=None)) == [("draft", "b")]
