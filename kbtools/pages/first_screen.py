"""What a fault page says at once: its first step, and of each part that is folded away the first line."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from kbtools.model.fault import Fault
from kbtools.pages.lines import Line
from kbtools.pages.plan_views import PlanView
from kbtools.pages.share_views import SharesView
from kbtools.pages.views import CauseView, CheckView
from kbtools.wording.labels import count_of, day
from kbtools.wording.plan import WORDS


@dataclass(frozen=True, slots=True, kw_only=True)
class FirstStep:
    """What to do first."""

    key: str
    """`check:ID`, `hand_over:`; empty where there is nothing to do here."""
    title: str
    """In few words, plain text, hostile until escaped."""
    time: str
    """How long it takes, and what else is said beside it; may be empty."""
    anchor: str
    """Id of the element that says more."""


def first_step(plan: PlanView | None, checks: Mapping[str, CheckView]) -> FirstStep:
    """The first step of the plan; without one the first check of the entry, or a workshop."""
    step = plan.steps[0] if plan is not None else None
    if step is not None and step.check is not None:
        check = checks[step.check]
        time = step.minutes if not step.opened else f"{step.minutes}, {step.opened[0].lower()} included"
        return FirstStep(key=f"check:{check.id}", title=check.anchor.title, time=time, anchor=check.anchor.id)
    if step is not None and step.then is not None:
        rest = step.then.rest
        key = f"{step.kind}:{step.then.to.id.removeprefix('fix-cause-')}"
        time = f"{rest[0].upper()}{rest[1:]}"
        return FirstStep(key=key, title=step.then.to.title, time=time, anchor="checks")
    for check in checks.values():
        minutes = "" if check.minutes is None else f"{check.minutes}\u00a0min"
        return FirstStep(key=f"check:{check.id}", title=check.anchor.title, time=minutes, anchor=check.anchor.id)
    return FirstStep(key="", title="Ask a workshop", time="The entry lists nothing to check.", anchor="checks")


def first_lines(  # noqa: PLR0913 - one for each part of the page
    *,
    fault: Fault,
    shares: SharesView,
    causes: Sequence[CauseView],
    codes: Sequence[str],
    notices: Sequence[str],
    cautions: int,
    critical: bool,
    cases: int,
    solved: int,
    relations: Sequence[Line],
) -> Mapping[str, str]:
    """By part of the page: the line that stands while it is folded. Plain texts, hostile until escaped."""
    return {
        "free": f"{' and '.join(notices)}: ask a dealer before you pay for anything.",
        "causes": _causes(shares, causes),
        "fixes": _fixes(causes),
        "codes": ", ".join(dict.fromkeys(codes)),
        "before": _safety(cautions, critical=critical),
        "cases": f"{count_of(cases, 'case')}, {solved} solved",
        "sources": _sources(fault),
        "next": relations[0].title if relations else "Its system, its parts, its models",
    }


def _causes(shares: SharesView, causes: Sequence[CauseView]) -> str:
    if not causes:
        return WORDS["unlisted"]
    first = causes[0]
    more = f", and {count_of(len(causes) - 1, 'other')}" if len(causes) > 1 else ""
    often = first.share.percent
    if shares.sureness != "counted":
        often = f"{first.share.word.lower()}, about {often}" if first.share.word else f"about {often}"
    return f"{first.anchor.title}: {often}{more}"


def _fixes(causes: Sequence[CauseView]) -> str:
    """What the likeliest cause costs that says so."""
    for cause in causes:
        fix = cause.fix
        if fix is None:
            continue
        home = f"{fix.home} at home" if fix.home is not None else ""
        workshop = f"{fix.workshop} in a workshop" if fix.workshop is not None else ""
        if home or workshop:
            return f"{cause.anchor.title}: {', '.join(each for each in (home, workshop) if each)}"
    return "No prices are known."


def _safety(cautions: int, *, critical: bool) -> str:
    hurt = "A mistake here can hurt someone." if critical else ""
    read = f"{count_of(cautions, 'caution')} for all work on it." if cautions else ""
    return " ".join(each for each in (hurt, read) if each) or "The manual and the law come first."


def _sources(fault: Fault) -> str:
    told = count_of(len(fault.sources), "source")
    return told if fault.reviewed is None else f"{told}; reviewed on {day(fault.reviewed.on)}"
