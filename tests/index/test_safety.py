"""Which work is work on what can hurt somebody, which checks point to a cause, who names an entry, what is overdue."""

from __future__ import annotations

import datetime as dt

import pytest

from kbtools.index.checks import checks_by_cause, pointed
from kbtools.index.references import faults_naming
from kbtools.index.reviews import overdue
from kbtools.index.safety import critical_faults, critical_system, critical_work
from kbtools.model.check import Reading
from kbtools.model.fault import DistinctFrom, Reviewed
from tests.support import factories as make

SYSTEMS = [make.system("charging"), make.system("brakes", safety_critical=True)]
PARTS = [make.component("hose", system="brakes"), make.component("plug")]


@pytest.mark.parametrize(
    ("system", "component", "critical"),
    [
        ("brakes", None, True),
        ("brakes", "plug", True),
        ("charging", "hose", True),
        ("charging", "plug", False),
        ("charging", "nothing", False),
        (None, None, False),
    ],
)
def test_work_is_critical_by_the_system_of_the_fault_or_of_the_part(
    system: str | None, component: str | None, critical: bool
) -> None:
    cause = make.cause(component=component)
    fault = make.fault("f", system=system, causes=(cause,))
    base = make.base(fault, systems=SYSTEMS, components=PARTS)
    assert critical_work(base, fault, cause) is critical
    assert (critical_system(base, fault) is not None) is (system == "brakes")
    assert [each.id for each in critical_faults(base)] == (["f"] if critical else [])


def test_only_what_is_published_and_says_how_to_mend_it_is_critical() -> None:
    faults = (
        make.fault("draft", system="brakes", draft=True),
        make.fault("gone", system="brakes", withdrawn=make.withdrawn()),
        make.fault("no-fix", system="brakes", causes=(make.cause(fix=None),)),
    )
    assert list(critical_faults(make.base(*faults, systems=SYSTEMS))) == []


def test_checks_point_to_causes_by_a_bad_result_or_by_either_side_of_a_reading() -> None:
    reading = make.make(Reading, {"low_points_to": ("plug",), "high_points_to": ("stator",), "at": ""}, {})
    look = make.check("look", points_to=("plug", "plug"))
    measure = make.check("measure", expect=None, reading=reading)
    fault = make.fault("f", checks=(look, measure))
    assert pointed(measure) == ("plug", "stator")
    found = {cause: [check.id for check in checks] for cause, checks in checks_by_cause(fault).items()}
    assert found == {"plug": ["look", "measure"], "stator": ["measure"]}


def test_an_entry_is_named_as_related_as_told_apart_and_as_what_took_its_place() -> None:
    base = make.base(
        make.fault("near", related=("f",)),
        make.fault("apart", distinct_from=(DistinctFrom(fault="f", because="Dry.", at=""),)),
        make.fault("gone", withdrawn=make.withdrawn(replaced_by="f")),
        make.fault("other", related=("near",)),
        make.fault("f"),
        cases=[make.case("one", "f")],
    )
    assert faults_naming(base, "f") == ("apart", "gone", "near")


@pytest.mark.parametrize(("today", "late"), [(dt.date(2026, 3, 14), False), (dt.date(2026, 3, 15), True)])
def test_a_review_is_overdue_from_the_day_after_the_months_are_over(today: dt.date, late: bool) -> None:
    reviewed = Reviewed(on=dt.date(2024, 3, 14), by="curator-3", second=None, at="")
    assert overdue(make.fault("f", reviewed=reviewed), make.club(review_after_months=24), today) is late
    assert not overdue(make.fault("f", reviewed=None), make.club(), today)
