"""What the page of a code says of the faults behind it: how often it is which, what to do first, what a script needs.

Where there is more than one, one plan weighs them all, for an owner who says nothing; the page's script makes it anew
for the owner's bike (`joint-place.js`).
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from kbtools.browser_data.joint import code_row, spans
from kbtools.browser_data.several_codes import ride_rows
from kbtools.checkplan import Owner, Plan, Step, plan_of
from kbtools.checkplan.joint import Joint
from kbtools.checkplan.parts import MOST_FAULTS, joint_plan
from kbtools.evidence import Share
from kbtools.export.fault_json import Reckoned
from kbtools.index.answers import Index
from kbtools.index.codes import ride_level_with
from kbtools.index.scopes import covered_rows
from kbtools.index.together import GivenCode, cases_without_fault, faults_of_codes, share_a_machine
from kbtools.model.case import UNLISTED
from kbtools.model.codes import FaultCode
from kbtools.model.fault import NOTICES, Fault
from kbtools.model.money import show_about
from kbtools.model.ride_advice import RideLevel, strictest
from kbtools.pages.drawing import share_bar
from kbtools.pages.lines import Line, line
from kbtools.pages.whom import whom, whom_of_rows
from kbtools.pages.work import cause_anchors
from kbtools.pages.workshop_note import beginning
from kbtools.text.html import plain
from kbtools.wording.joint import JOINT_WORDS, say_joint
from kbtools.wording.labels import SOURCE
from kbtools.wording.plan import WORDS, minutes_words, percent_words

MOST_STATES = 5_000
"""So many states of a plan are weighed for the page; a larger one begins with a good step, and the script goes on."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LikelyView:
    """A fault that may be behind the code."""

    line: Line | None
    """None: one that is not described."""
    percent: str | None
    """Its share; None where none can be told."""
    interval: str
    """How sure that is."""
    rest: str
    """How many cases; empty of a fault that is not described and has none."""
    length: str
    """Of its bar, 0 to 100."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FirstStep:
    """What to do first."""

    key: str
    """`check:battery-rest`; empty where there is no plan."""
    title: str
    """Plain text, hostile until escaped."""
    time: str
    """How long it takes, or what it costs to hand over; may be empty."""
    fault: Line | None
    """The fault on whose page it stands; None where the plan is on this page."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CodePlan:
    """The faults behind a code."""

    likely: tuple[LikelyView, ...]
    """The likeliest first."""
    first: FirstStep
    """What to do first."""
    told: str | None
    """Why there is no plan on this page, and the way on."""
    steps: tuple[FirstStep, ...]
    """What each fault's own plan begins with, where there are several."""
    stop_if: tuple[str, ...]
    """When to stop at once; Markdown."""
    free: tuple[tuple[str, str, Line], ...]
    """Recalls and bulletins of the faults, as `Recall 23V-117`, hostile; and whom each covers."""
    one: Line | None
    """The only fault."""
    is_several: bool
    """Several may be behind it, so that one plan for them is made in the browser."""
    data: Mapping[str, object]
    """For the script."""


def code_plan(
    codes: Sequence[FaultCode], faults: Iterable[Fault], index: Index, begins: Mapping[str, FirstStep | None]
) -> CodePlan:
    """What a page says of a code.

    Args:
        codes: the code, in each notation of the club that its text fits.
        faults: all that have it, with any failure type or none.
        index: of the knowledge base.
        begins: what the plans of faults begin with, by id (`first_step`).
    """
    given = [GivenCode(code=code, unit=None) for code in codes]
    shown = list(faults)
    firsts = {fault.id: begins[fault.id] for fault in faults_of_codes(given, None, index)}
    planned = [index.published[each] for each, step in firsts.items() if step is not None]
    steps = tuple(step for step in firsts.values() if step is not None)
    joint, plan, obstacle = _planned(planned, given, index)
    return CodePlan(
        likely=_likely(joint, planned) if joint is not None else tuple(_unweighed(fault) for fault in planned or shown),
        first=_first_of(joint, plan, index) if joint is not None and plan is not None else _way_on(steps, obstacle),
        told=None if obstacle is None else say_joint(obstacle, code=given[0].code.text, n=str(len(planned))),
        steps=steps if len(steps) > 1 else (),
        stop_if=tuple(dict.fromkeys(sign for fault in planned or shown for sign in _signs(fault))),
        free=tuple((work, where, line(fault)) for fault in planned for work, where in _free(fault, index)),
        one=line(planned[0]) if len(planned) == 1 else None,
        is_several=len(planned) > 1,
        data={
            "codes": [code_row(code, index) for code in codes],
            "faults": [
                {
                    "id": fault.id,
                    "title": plain(fault.title),
                    "applies": spans(fault, index),
                    "level": _level(fault, codes, index),
                }
                for fault in shown
            ],
            "without": cases_without_fault(given, index),
            "models": _models(planned, index),
            "words": dict(JOINT_WORDS),
            "rides": ride_rows(),
        },
    )


def _models(faults: Sequence[Fault], index: Index) -> list[list[object]]:
    """The models that these faults concern, each once, with the years of all of them."""
    years: dict[str, set[int]] = {}
    for fault in faults:
        for model, own in index.scopes[fault.id].items():
            years.setdefault(model, set()).update(own)
    models = index.base.models
    return [[each, plain(model.name), sorted(years[each])] for each, model in models.items() if each in years]


def _planned(
    planned: Sequence[Fault], given: Sequence[GivenCode], index: Index
) -> tuple[Joint | None, Plan | None, str | None]:
    """The plan for several faults, and the name of the sentence why there is none; for a single one neither."""
    if not planned:
        return None, None, "follows"
    if len(planned) == 1:
        return None, None, None
    if len(planned) > MOST_FAULTS:
        return None, None, "too_many"
    if not share_a_machine(planned, index):
        return None, None, "no_machine"
    joint = joint_plan(planned, given, None, index)
    return joint, plan_of(joint.problem, Owner(), MOST_STATES), None


def _likely(joint: Joint, planned: Sequence[Fault]) -> tuple[LikelyView, ...]:
    faults = {fault.id: fault for fault in planned}
    counted = sum(share.cases for share in joint.faults)
    return tuple(
        LikelyView(
            line=None if share.id == UNLISTED else line(faults[share.id]),
            percent=percent_words(share.mean),
            interval=say_joint("from_to", low=str(round(100 * share.low)), high=str(round(100 * share.high))),
            rest=_cases(share, counted) if share.id != UNLISTED or share.cases else "",
            length=share_bar(share).length,
        )
        for share in joint.faults
    )


def _cases(share: Share, counted: int) -> str:
    if not counted:
        return JOINT_WORDS["no_cases"]
    cases, code = "case" if counted == 1 else "cases", JOINT_WORDS["this_code"]
    return say_joint("cases_code", k=str(share.cases), n=str(counted), cases=cases, code=code)


def _unweighed(fault: Fault) -> LikelyView:
    return LikelyView(line=line(fault), percent=None, interval="", rest="", length="")


def _first_of(joint: Joint, plan: Plan, index: Index) -> FirstStep:
    """The first step of the plan of several."""
    step = plan.steps[0]
    name = step.id or ""
    fault, own = joint.uses[name][0] if step.kind == "check" else name.split("/") if name else ("", "")
    title = WORDS["hand_over"] if step.kind == "hand_over" else _title(step, index.published[fault], own)
    return FirstStep(key=f"{step.kind}:{name}", title=title, time=_time(step, index), fault=None)


def _way_on(steps: Sequence[FirstStep], obstacle: str | None) -> FirstStep:
    """Of a single fault what its page begins with; else what to do where there is no plan."""
    if obstacle is None:
        return steps[0]
    return FirstStep(key="", title=JOINT_WORDS[f"{obstacle}_first"].removesuffix("."), time="", fault=None)


def first_step(fault: Fault, index: Index, reckoned: Reckoned | None) -> FirstStep | None:
    """What a fault's own plan begins with; None where its entry says too little for one."""
    if reckoned is None:
        return None
    step = reckoned.plan.steps[0]
    title = _title(step, fault, step.id or "")
    return FirstStep(
        key=f"{step.kind}:{step.id or ''}",
        title=title,
        time=_time(step, index),
        fault=line(fault, whom=whom(fault, index)),
    )


def _time(step: Step, index: Index) -> str:
    """How long a check takes, with what has to be opened for it; of anything else what it costs."""
    if step.kind != "check":
        money = WORDS["about"].format(money=show_about(step.cost, index.club.currency))
        return f"{money[0].upper()}{money[1:]}"
    minutes = minutes_words(step.minutes)
    return f"{minutes}, {index.base.access[step.access[0]].name.lower()} included" if step.access else minutes


def _title(step: Step, fault: Fault, own: str) -> str:
    if step.kind == "hand_over":
        return WORDS["hand_over"]
    if step.kind == "check":
        check = next(each for each in fault.checks if each.id == own)
        return beginning(check.do) if check.do is not None else own
    cause = cause_anchors(fault)[own].title
    return WORDS["trial_fix"].format(cause=cause) if step.kind == "trial_fix" else cause


def _level(fault: Fault, codes: Sequence[FaultCode], index: Index) -> RideLevel | None:
    formats = index.club.code_formats
    levels = [ride_level_with(fault, code, formats) for code in codes]
    return strictest([level for level in levels if level is not None])


def _signs(fault: Fault) -> Sequence[str]:
    return fault.ride_advice.stop_if if fault.ride_advice is not None else ()


def _free(fault: Fault, index: Index) -> Iterable[tuple[str, str]]:
    for kind in NOTICES:
        for source in fault.sources:
            if source.kind == kind:
                yield (
                    f"{SOURCE[kind]} {source.number or source.title}",
                    whom_of_rows(covered_rows(source, fault), index),
                )
