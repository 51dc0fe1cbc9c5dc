"""Which faults may be behind codes, which cases speak for them, and which causes are one."""

from __future__ import annotations

from kbtools.index.answers import Index, ModelYear
from kbtools.index.together import (
    GivenCode,
    cases_with,
    cases_without_fault,
    faults_of_codes,
    one_causes,
    share_a_machine,
)
from kbtools.model.case import SeenCode
from kbtools.model.codes import read_code
from tests.support import factories as make

BIKE: ModelYear = ("bittern-900", 2007)


def given(*texts: str) -> list[GivenCode]:
    found = []
    for each in texts:
        unit, sign, text = each.rpartition(":")
        code = read_code(text, make.FORMATS).code
        assert code is not None
        found.append(GivenCode(code=code, unit=unit if sign else None))
    return found


def planned(index: Index, *texts: str, bike: ModelYear | None = BIKE) -> list[str]:
    return [fault.id for fault in faults_of_codes(given(*texts), bike, index)]


def seen(*texts: str) -> tuple[SeenCode, ...]:
    return tuple(SeenCode(read=read_code(text, make.FORMATS), status=None, freeze_frame=(), at="") for text in texts)


def test_what_may_be_behind_codes() -> None:
    units = (make.unit("abs-a", "2003-2007"), make.unit("abs-b", "2008-2012"))
    index = make.index(
        make.base(
            make.fault("z-plain", codes=(make.code("P0562"),)),
            make.fault("a-closer", codes=(make.code("P0562-11"),)),
            make.fault("follows", codes=(make.code("P0562", follow_on=True),)),
            make.fault("late-unit", codes=(make.code("P0562", unit="abs-b"),)),
            make.fault("draft", codes=(make.code("P0562"),), draft=True),
            make.fault("elsewhere", codes=(make.code("P0562"),), applies_to=(make.row("curlew-1100"),)),
            make.fault("both", codes=(make.code("P0562", with_codes=(read_code("P0100", make.FORMATS),)),)),
            make.fault("blinks", codes=(make.code("4-2", unit="abs-a"),)),
            models=[make.model(control_units=units), make.model("curlew-1100", "2010-2020")],
        )
    )
    assert planned(index, "P0562") == ["a-closer", "z-plain"]
    assert planned(index, "P0562-12") == ["z-plain"]
    assert planned(index, "P0562", "P0100-13") == ["a-closer", "both", "z-plain"]
    assert planned(index, "P0562", bike=("bittern-900", 2009)) == ["a-closer", "late-unit", "z-plain"]
    assert planned(index, "P0562", bike=("curlew-1100", 2012)) == ["elsewhere"]
    assert planned(index, "P0562", bike=None) == ["a-closer", "elsewhere", "late-unit", "z-plain"]
    assert planned(index, "abs-a:4-2") == ["blinks"]
    assert planned(index, "abs-b:4-2") == []
    assert planned(index, "abs-a:4-2", bike=("bittern-900", 2009)) == []
    assert not share_a_machine([index.published["z-plain"], index.published["elsewhere"]], index)
    assert share_a_machine([index.published["z-plain"], index.published["both"]], index)


def solved(name: str, fault: str | None, *codes: str, state: str = "solved", year: int = 2007) -> object:
    outcome = {"state": state, "verified": True, "cause": "worn" if fault else "unlisted"}
    return make.case(name, fault, codes=seen(*codes), outcome=outcome, vehicle={"year": year})


def test_which_cases_speak_for_a_fault_with_codes() -> None:
    rows = (make.code("P0562"), make.code("P0100", follow_on=True))
    cases = [
        solved("one", "f", "P0562"),
        solved("two", "f", "P0562-11", "P0100"),
        solved("follow-on-alone", "f", "P0100"),
        solved("without-codes", "f"),
        solved("open", "f", "P0562", state="open"),
        solved("nobody-knows-1", None, "P0562"),
        solved("nobody-knows-2", None, "P0100", state="open"),
        solved("nobody-knows-3", None, "P0300"),
    ]
    index = make.index(make.base(make.fault("f", codes=rows), cases=cases))
    fault = index.published["f"]
    assert cases_with(fault, given("P0562"), index) == {"worn": 2}
    assert cases_with(fault, given("P0100"), index) == {"worn": 0}
    assert cases_with(fault, given("P0100", "P0562-11"), index) == {"worn": 2}
    assert cases_without_fault(given("P0562"), index) == 1
    assert cases_without_fault(given("P0100"), index) == 0


def test_a_code_of_a_control_unit_is_another_on_a_bike_without_it() -> None:
    units = (make.unit("abs-a", "2003-2007"), make.unit("abs-b", "2008-2012"))
    cases = [solved("early", None, "4-2", year=2005), solved("late", None, "4-2", year=2010)]
    index = make.index(make.base(make.fault("f"), models=[make.model(control_units=units)], cases=cases))
    assert cases_without_fault(given("abs-a:4-2"), index) == 1


def test_what_is_the_same_as_the_same_is_the_same() -> None:
    base = make.base(
        make.fault("a", causes=(make.cause("x", same_as="between/m"), make.cause("alone"))),
        make.fault("between", causes=(make.cause("m"),), draft=True),
        make.fault("b", causes=(make.cause("y", same_as="once/m"),)),
        make.fault("c", causes=(make.cause("m"),), formerly=("once",)),
    )
    assert one_causes(base) == {"a": {"x": "a/x"}, "between": {"m": "a/x"}, "b": {"y": "b/y"}, "c": {"m": "b/y"}}
    chained = make.base(
        make.fault("a", causes=(make.cause("x", same_as="between/m"),)),
        make.fault("between", causes=(make.cause("m"),)),
        make.fault("b", causes=(make.cause("y", same_as="between/m"),)),
    )
    assert {one_causes(chained)[each][name] for each, name in (("a", "x"), ("between", "m"), ("b", "y"))} == {"a/x"}
