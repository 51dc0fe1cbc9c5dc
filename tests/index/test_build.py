"""Whom an entry concerns, held to portion, an independent library of intervals; and what the index answers."""

from __future__ import annotations

import datetime as dt

import portion
import pytest
from hypothesis import given
from hypothesis import strategies as st

from kbtools.index.build import applies, build_index, model_years, questions
from kbtools.model.base import KnowledgeBase
from kbtools.model.codes import FaultCode
from kbtools.model.fault import AppliesTo, DistinctFrom, Fault
from kbtools.model.years import Years
from tests.support import factories as make

FIRST, LAST = 2000, 2012
MODELS = ("bittern-900", "curlew-1100")
YEAR = st.integers(FIRST - 2, LAST + 2)


@st.composite
def spans(draw: st.DrawFn) -> Years:
    """Years whose ends are in order, either of which may be open."""
    first, last = draw(YEAR | st.none()), draw(YEAR | st.none())
    if first is not None and last is not None and first > last:
        first, last = last, first
    return Years(first=first, last=last)


UNITS = st.dictionaries(st.sampled_from(["abs-a", "abs-b"]), spans(), max_size=2)
ROWS = st.lists(
    st.builds(
        lambda model, years, unit, only_if: make.row(model, years=years, unit=unit, only_if=only_if),
        st.sampled_from([*MODELS, "unknown"]),
        spans(),
        st.sampled_from([None, "abs-a", "abs-b", "abs-c"]),
        st.sampled_from([None, "Finned?", "Red?"]),
    ),
    max_size=4,
)


def interval(years: Years) -> portion.Interval:
    """Half-open, as portion merges only those."""
    first = -portion.inf if years.first is None else years.first
    last = portion.inf if years.last is None else years.last + 1
    return portion.closedopen(first, last)


def concerned(rows: list[AppliesTo], model: str, fitted: dict[str, Years]) -> portion.Interval:
    """The years of a model that the rows concern, by the words of the format and portion alone."""
    found = portion.empty()
    for row in rows:
        if row.model == model:
            unit = portion.open(-portion.inf, portion.inf)
            if row.unit is not None:
                unit = interval(fitted[row.unit]) if row.unit in fitted else portion.empty()
            found |= interval(row.years) & unit
    return found


def base_with(fitted: dict[str, Years], *faults: Fault) -> KnowledgeBase:
    units = tuple(make.unit(name, "all", years=years) for name, years in fitted.items())
    return make.base(*faults, models=[make.model(name, f"{FIRST}-{LAST}", control_units=units) for name in MODELS])


@given(ROWS, UNITS, st.sampled_from(MODELS), YEAR)
def test_an_entry_applies_in_the_years_that_portion_counts(
    rows: list[AppliesTo], fitted: dict[str, Years], model: str, year: int
) -> None:
    assert applies(rows, model, year, base_with(fitted)) == (year in concerned(rows, model, fitted))


@given(st.lists(ROWS, min_size=1, max_size=4), UNITS)
def test_the_index_lists_exactly_the_model_years_that_portion_counts(
    entries: list[list[AppliesTo]], fitted: dict[str, Years]
) -> None:
    faults = [make.fault(f"f{place}", applies_to=tuple(rows)) for place, rows in enumerate(entries)]
    index = make.index(base_with(fitted, *faults))
    for model in MODELS:
        for year in range(FIRST, LAST + 1):
            listed = [each.fault.id for each in index.faults_by_model_year.get((model, year), ())]
            expected = [fault.id for fault in faults if year in concerned(list(fault.applies_to), model, fitted)]
            assert listed == expected
        built = interval(Years(first=FIRST, last=LAST))
        by_model = {fault.id for fault in index.faults_by_model.get(model, ())}
        assert by_model == {
            fault.id for fault in faults if not (concerned(list(fault.applies_to), model, fitted) & built).empty
        }


@given(ROWS, UNITS, YEAR)
def test_a_question_never_decides_whether_an_entry_applies(
    rows: list[AppliesTo], fitted: dict[str, Years], year: int
) -> None:
    asked = questions(rows, "bittern-900", year, base_with(fitted))
    assert (asked is not None) == applies(rows, "bittern-900", year, base_with(fitted))


def test_a_row_without_a_question_makes_the_others_needless() -> None:
    rows = [make.row(only_if="Finned?"), make.row(only_if="Red?"), make.row(when="2007")]
    assert questions(rows, "bittern-900", 2005, make.base()) == ("Finned?", "Red?")
    assert questions(rows, "bittern-900", 2007, make.base()) == ()
    assert questions([], "bittern-900", 2007, make.base()) is None


def test_a_model_still_built_reaches_into_next_year() -> None:
    assert model_years(make.model(when="2024-"), 2026) == (2024, 2025, 2026, 2027)
    assert model_years(make.model(when="2003-2005"), 2026) == (2003, 2004, 2005)


def test_an_open_row_reaches_as_far_as_the_model_does() -> None:
    base = make.base(make.fault("f", applies_to=(make.row(when="2025-"),)), models=[make.model(when="2020-")])
    found = build_index(base, dt.date(2026, 1, 1)).scopes["f"]["bittern-900"]
    assert list(found) == [2025, 2026, 2027]


def test_drafts_and_withdrawn_entries_are_nowhere_but_in_their_place() -> None:
    rows = {"codes": (make.code("P0562"),), "causes": (make.cause(component="plug"),)}
    gone = make.fault("gone", withdrawn=make.withdrawn(replaced_by="kept"), formerly=("long-gone",), **rows)
    draft = make.fault("draft", draft=True, formerly=("old-draft",), **rows)
    secret = make.fault("secret", draft=True, withdrawn=make.withdrawn(), **rows)
    kept = make.fault("kept", related=("draft", "gone"), **rows)
    cases = [make.case("a", "gone"), make.case("b", "draft"), make.case("c", "kept")]
    index = make.index(make.base(gone, draft, secret, kept, components=[make.component("plug")], cases=cases))
    assert list(index.published) == ["kept"]
    assert list(index.tombstones) == ["gone"]
    assert index.renamed == {"long-gone": "gone"}
    assert [each.fault.id for each in index.faults_by_model_year["bittern-900", 2007]] == ["kept"]
    assert [fault.id for fault in index.faults_by_system["charging"]] == ["kept"]
    assert [use.fault.id for use in index.causes_by_component["plug"]] == ["kept"]
    assert [use.fault.id for uses in index.uses_by_code.values() for use in uses] == ["kept"]
    assert list(index.cases_by_fault) == ["kept"]
    assert [(each.fault.id, each.kind) for each in index.relations["kept"]] == [("gone", "replaces")]


def test_a_withdrawn_entry_leads_to_what_took_its_place_however_far() -> None:
    index = make.index(
        make.base(
            make.fault("a", withdrawn=make.withdrawn(replaced_by="b")),
            make.fault("b", withdrawn=make.withdrawn(replaced_by="old-c")),
            make.fault("c", formerly=("old-c",)),
            make.fault("x", withdrawn=make.withdrawn(replaced_by="y")),
            make.fault("y", withdrawn=make.withdrawn(replaced_by="x")),
        )
    )
    heir = index.advice("a")
    assert heir is not None
    assert heir.id == "c"
    assert index.advice("x") is None
    assert index.advice("nobody") is None


def test_faults_of_a_system_and_of_those_below_it() -> None:
    systems = [make.system("brakes"), make.system("abs", parent="brakes"), make.system("pump", parent="abs")]
    faults = [make.fault(name, system=name) for name in ("pump", "brakes", "abs")]
    index = make.index(make.base(*faults, systems=systems))
    assert [fault.id for fault in index.faults_by_system["brakes"]] == ["pump", "brakes", "abs"]
    assert [fault.id for fault in index.faults_by_system["abs"]] == ["pump", "abs"]
    assert [fault.id for fault in index.faults_of_system["abs"]] == ["abs"]
    assert [each.id for each in index.children["brakes"]] == ["abs"]
    assert [each.id for each in index.paths["pump"]] == ["brakes", "abs", "pump"]


def test_a_code_and_the_same_code_with_a_failure_type_know_each_other() -> None:
    faults = (make.fault("plain", codes=(make.code("p0562"),)), make.fault("typed", codes=(make.code("P0562-11"),)))
    index = make.index(make.base(*faults))
    plain, typed = FaultCode(format="obd", text="P0562"), FaultCode(format="obd", text="P0562-11")
    assert list(index.code_families[plain]) == [plain, typed]
    assert index.codes_by_slug == {"p0562": (plain,), "p0562-11": (typed,)}
    assert [use.fault.id for use in index.uses_by_code[plain]] == ["plain"]


@pytest.mark.parametrize(
    ("own", "covered"),
    [((), [2003, 2004]), ((make.row(when="2004"),), [2004]), ((make.row(when="2004-2006"),), [2004, 2005, 2006])],
)
def test_a_recall_covers_what_its_issuer_says_else_what_the_entry_says(
    own: tuple[AppliesTo, ...], covered: list[int]
) -> None:
    recall = make.source("recall", number="R1", applies_to=own)
    index = make.index(make.base(make.fault("f", applies_to=(make.row(when="2003-2004"),), sources=(recall,))))
    assert [year for _, year in index.notices_by_model_year] == covered


def test_recalls_come_before_bulletins() -> None:
    faults = (
        make.fault("a", sources=(make.source("bulletin"), make.source("manual"))),
        make.fault("b", sources=(make.source("recall"),)),
    )
    found = make.index(make.base(*faults)).notices_by_model_year["bittern-900", 2003]
    assert [each.source.kind for each in found] == ["recall", "bulletin"]


def test_control_units_of_a_model_year() -> None:
    units = (make.unit("abs-a", "2003-2007"), make.unit("abs-b", "2008-"))
    index = make.index(make.base(models=[make.model(control_units=units)]))
    assert [unit.id for unit in index.units_by_model_year["bittern-900", 2007]] == ["abs-a"]
    assert [unit.id for unit in index.units_by_model_year["bittern-900", 2008]] == ["abs-b"]


def test_cases_of_a_fault_and_of_a_model_year_come_last_seen_first() -> None:
    cases = [
        make.case("old", "f", seen=dt.date(2024, 1, 1)),
        make.case("new", "former-f", seen=dt.date(2026, 1, 1)),
        make.case("riddle", None, seen=dt.date(2025, 1, 1)),
        make.case("elsewhere", "f", vehicle={"year": 1999}),
    ]
    index = make.index(make.base(make.fault("f", formerly=("former-f",)), cases=cases))
    assert [case.id for case in index.cases_by_fault["f"]] == ["elsewhere", "new", "old"]
    assert [case.id for case in index.cases_by_model_year["bittern-900", 2007]] == ["new", "riddle", "old"]
    assert ("bittern-900", 1999) not in index.cases_by_model_year


def test_relations_are_seen_from_both_ends_and_said_once() -> None:
    apart = DistinctFrom(fault="c", because="That one drains with the key off.", at="")
    faults = (
        make.fault("a", related=("b", "a"), distinct_from=(apart,), formerly=("former-a",)),
        make.fault("b", related=("former-a",)),
        make.fault("c", related=("a",)),
    )
    relations = make.index(make.base(*faults)).relations
    assert [(each.fault.id, each.kind) for each in relations["a"]] == [
        ("b", "related"),
        ("c", "not-this"),
        ("c", "named-by"),
    ]
    assert [(each.fault.id, each.kind) for each in relations["b"]] == [("a", "related")]
    assert [(each.fault.id, each.kind, each.because) for each in relations["c"]] == [
        ("a", "not-that", "That one drains with the key off."),
        ("a", "related", None),
    ]


def test_what_does_not_exist_is_left_out() -> None:
    lost = make.fault("f", system="nowhere", applies_to=(make.row("nobody"), make.row(unit="none")))
    index = make.index(make.base(lost))
    assert index.scopes["f"] == {}
    assert index.faults_by_model == {}
    assert "nowhere" not in index.faults_by_system
