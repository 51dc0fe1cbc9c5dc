"""Fault pages: one for each published fault, in the order in which an owner asks."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import Any

from kbtools.browser_data.plan import PlanNames, plan_data
from kbtools.changes.by_case import Turn
from kbtools.checkplan import Owner, plan_of
from kbtools.checkplan.problem import IncompleteError, Problem, problem_of
from kbtools.evidence import evidence_of
from kbtools.export.fault_json import Reckoned
from kbtools.export.json_ld import json_ld
from kbtools.index.answers import Index, ModelYear, Relation
from kbtools.index.cautions import cautions_of_fault
from kbtools.index.entries import has_page
from kbtools.index.safety import critical_system
from kbtools.index.scopes import covered_rows
from kbtools.model.case import UNLISTED
from kbtools.model.codes import CodeReading, structure
from kbtools.model.fault import NOTICES, CodeRow, Fault
from kbtools.pages import crumbs
from kbtools.pages.case_lines import case_lines
from kbtools.pages.fault_views import (
    CodeLine,
    ModelYears,
    NoticeView,
    RelationView,
    SourceView,
    StricterCode,
)
from kbtools.pages.first_looks import looks_view
from kbtools.pages.first_screen import first_lines, first_step
from kbtools.pages.lines import Link, code_links, line, ride_words
from kbtools.pages.plan_views import Names, check_order, plan_view
from kbtools.pages.share_views import cases_view, shares_view
from kbtools.pages.spec import PageSpec, Section
from kbtools.pages.views import Anchor
from kbtools.pages.whom import whom, whom_asked, whom_of_rows
from kbtools.pages.work import (
    cause_anchors,
    cause_views,
    check_anchors,
    check_views,
    machine_views,
)
from kbtools.pages.workshop_note import check_lines
from kbtools.wording import addresses
from kbtools.wording.codes import structure_words
from kbtools.wording.labels import RIDE, SOURCE, STATUS_MEANS, limits, verdict
from kbtools.wording.plan import WORDS

_CODES_SAID = 3
"""Codes in the description of a page, which a preview shows in two lines."""
SAFETY_FILE = "pages/safety.md"
CONTRIBUTE_FILE = "pages/contribute.md"


def page_of(  # noqa: PLR0913 (what a page is made from)
    fault: Fault,
    index: Index,
    safety: str | None,
    turned: Mapping[str, Turn] | None = None,
    *,
    late: bool,
    work: Mapping[str, Any] | None = None,
) -> PageSpec:
    """The page of one fault.

    Args:
        fault: a published one.
        index: of the knowledge base.
        safety: address of the page about working safely; None where there is none.
        turned: what cases have turned, by their id.
        late: whether it should have been read again by now.
        work: as `work_of` gives it; None: it is worked out here.
    """
    path = index.paths.get(fault.system or "", ())
    work = work_of(fault, index) if work is None else work
    context: dict[str, object] = {
        "fault": fault,
        "whom": whom(fault, index),
        "whom_asked": whom_asked(fault, index),
        "machines": machine_views(fault.applies_to, index),
        "notices": _notices(fault, index),
        "ride": ride_words(fault.ride_level),
        "codes": tuple(_code_line(row, fault, index) for row in fault.codes),
        **work,
        **_on_its_page(fault, index, work),
        "looks": looks_view([fault.system], index),
        "safety": safety,
        "cases": case_lines(index.cases_by_fault.get(fault.id, ()), index, turned),
        "sources": tuple(SourceView(kind=SOURCE[each.kind], source=each) for each in fault.sources),
        "overdue": late,
        "code_links": code_links([fault]),
        "model_years": model_years_of(fault, index),
        "systems": tuple(Link(address=addresses.system(each.id), title=each.name) for each in path),
        "components": _components(fault, index),
        "relations": _relations(index.relations.get(fault.id, ()), index),
    }
    context |= _first(fault, index, context)
    description = _description(fault, index)
    return PageSpec(
        address=addresses.fault(fault.id),
        kind="fault",
        title=fault.title,
        description=description,
        json_ld=json_ld(fault, description, index),
        context=context,
        edit_path=fault.path,
        crumbs=crumbs.system_crumbs(path),
        sections=tuple(_sections(context)),
    )


def _first(fault: Fault, index: Index, context: Mapping[str, Any]) -> dict[str, object]:
    """What is said at once, out of what the page says in full."""
    cases = index.cases_by_fault.get(fault.id, ())
    notices = context["notices"]
    return {
        "first_step": first_step(context["plan"], context["checks"]),
        "asked": any(each.only_if is not None or each.note is not None for each in context["machines"]),
        "first_lines": first_lines(
            fault=fault,
            shares=context["shares"],
            causes=context["causes"],
            codes=[row.read.text for row in fault.codes],
            notices=[f"{each.kind} {each.source.number or each.source.title}" for each in notices],
            cautions=len(context["cautions"]),
            critical=context["safety_critical"],
            cases=len(cases),
            solved=sum(case.outcome.state == "solved" for case in cases),
            relations=[each.line for each in context["relations"]],
        ),
    }


def _stricter_codes(fault: Fault) -> tuple[StricterCode, ...]:
    """The codes that call for stricter advice than the fault: which of them a reader shows nobody knows here."""
    return tuple(
        StricterCode(code=row.read.text, answer=RIDE[row.ride_advice.level].answer, why=row.ride_advice.why)
        for row in fault.codes
        if row.ride_advice is not None and row.ride_advice.level != fault.ride_level
    )


def work_of(
    fault: Fault, index: Index, bike: ModelYear | None = None, reckoned: Reckoned | None = None
) -> dict[str, object]:
    """What its page and handbooks show: may I ride, what it usually is, what to check first, what mends it.

    On a bike that is named it is what exists on it. `reckoned` is what is known of its plan, where no bike is named.
    """
    evidence = evidence_of(fault, index, index.club) if reckoned is None else reckoned.problem.evidence
    seen = shares_view(fault, evidence, bike)
    no_plan = ""
    try:
        reckoned = reckoned or _reckoned(problem_of(fault, index, evidence), bike)
    except IncompleteError as error:
        no_plan = f"No plan can be worked out, because the entry does not say enough ({error})."
    plan, problem = (reckoned.plan, reckoned.problem) if reckoned is not None else (None, None)
    anchors = check_anchors(check_order(plan, [check.id for check in fault.checks]), fault)
    names = _names(fault, problem, anchors, index)
    critical = critical_system(index.base, fault) is not None
    view = plan_view(plan, problem, names, critical=critical) if plan is not None and problem is not None else None
    checks = check_views(fault, index, anchors)
    return {
        "cautions": tuple(each.text for each in cautions_of_fault(index.base, fault)),
        "verdict": verdict(fault.ride_level, fault.does_not_start),
        "limits": limits(fault.ride_advice) if fault.ride_advice is not None else None,
        "stricter_codes": _stricter_codes(fault),
        "safety_critical": critical,
        "names": names,
        "shares": seen,
        "causes": cause_views(fault, index, evidence, seen, anchors),
        "checks": checks,
        "plan": view,
        "reckoned": reckoned,
        "no_plan": no_plan,
        "before_riding": tuple(check for check in checks.values() if check.before_riding),
    }


def _reckoned(problem: Problem, bike: ModelYear | None) -> Reckoned:
    return Reckoned(problem=problem, plan=plan_of(problem, Owner(bike=bike)))


def _on_its_page(fault: Fault, index: Index, work: Mapping[str, Any]) -> dict[str, object]:
    """What only its page shows of that."""
    names, view, checks, reckoned = work["names"], work["plan"], work["checks"], work["reckoned"]
    titles = {each: anchor.title for each, anchor in names.checks.items()}
    lines = check_lines(checks.values())
    tasks = {each.id: each.task for each in lines if each.task}
    called = PlanNames(causes=names.causes, checks=titles, tasks=tasks, access=names.access)
    in_line = {step.check for step in view.steps} if view is not None else set()
    return {
        "other_checks": tuple(check for each, check in checks.items() if each not in in_line),
        "plan_data": plan_data(fault, reckoned.problem, called, index) if reckoned is not None else None,
        "told": cases_view(fault, index, tuple(work["shares"].rows)),
        "statuses": STATUS_MEANS if fault.codes else (),
        "sheet_checks": lines,
        "currency": index.club.currency,
    }


def _names(fault: Fault, problem: Problem | None, checks: Mapping[str, Anchor], index: Index) -> Names:
    jobs = [job.id for job in problem.access] if problem is not None else []
    return Names(
        causes={**{each: anchor.title for each, anchor in cause_anchors(fault).items()}, UNLISTED: WORDS["unlisted"]},
        checks=checks,
        access={each: index.base.access[each].name for each in jobs},
    )


def _sections(context: dict[str, object]) -> Iterator[Section]:
    """In the order in which an owner asks."""
    yield Section(id="ride", title="May I ride it?")
    if context["notices"]:
        yield Section(id="free", title="It may be free")
    yield Section(id="causes", title="What it usually is")
    yield Section(id="checks", title="What to check first" if context["checks"] else "What to do first")
    yield Section(id="fixes", title="Mending it, and what it costs")
    if context["codes"]:
        yield Section(id="codes", title="What the code means")
    yield Section(id="before", title="Working on it safely")
    yield Section(id="call-sheet", title="Note for the workshop")
    if context["cases"]:
        yield Section(id="cases", title="Cases")
    yield Section(id="sources", title="Where this comes from")
    yield Section(id="next", title="Read on")


def _description(fault: Fault, index: Index) -> str:
    models = ", ".join(index.base.models[model].name for model in index.scopes[fault.id])
    causes = ", ".join(cause.summary for cause in fault.causes[:3] if cause.summary)
    codes = ", ".join(list(dict.fromkeys(row.read.text for row in fault.codes))[:_CODES_SAID])
    models = f"{models} ({codes})" if codes else models
    answer = ride_words(fault.ride_level).word
    return f"{models}: {answer}. What it usually is: {causes}." if causes else f"{models}: {answer}."


def _notices(fault: Fault, index: Index) -> tuple[NoticeView, ...]:
    """Recalls first: they always cost the owner nothing."""
    anchors = cause_anchors(fault)
    return tuple(
        NoticeView(
            kind=SOURCE[kind],
            source=source,
            machines=machine_views(covered_rows(source, fault), index),
            covers=tuple(anchors[each] for each in source.covers if each in anchors),
            whom=whom_of_rows(covered_rows(source, fault), index),
        )
        for kind in NOTICES
        for source in fault.sources
        if source.kind == kind
    )


def _code_line(row: CodeRow, fault: Fault, index: Index) -> CodeLine:
    formats = index.club.code_formats
    code = row.read.code
    return CodeLine(
        codes=tuple(Link(address=addresses.code(each.slug), title=each.text) for each in row.read.matches),
        row=row,
        units=unit_names(row.unit, index.scopes[fault.id], index) if row.unit else (),
        with_codes=tuple(_with_code(each, index) for each in row.with_codes),
        structure=structure_words(structure(code, formats)) if code is not None else (),
    )


def _with_code(read: CodeReading, index: Index) -> Link | str:
    code = read.code
    if code is None:
        return read.text
    return Link(address=addresses.code(code.slug), title=code.text) if code in index.uses_by_code else code.text


def unit_names(unit_id: str, models: Iterable[str], index: Index) -> tuple[str, ...]:
    """What these models call the control unit of that id; the id itself where none of them has it."""
    units = (index.base.models[model].unit(unit_id) for model in models)
    return tuple(dict.fromkeys(unit.name for unit in units if unit is not None)) or (unit_id,)


def model_years_of(fault: Fault, index: Index) -> tuple[ModelYears, ...]:
    """The models and model years that a fault concerns, each a link."""
    return tuple(
        ModelYears(
            model=Link(address=addresses.model(model), title=index.base.models[model].name),
            years=tuple(Link(address=addresses.model_year(model, year), title=str(year)) for year in years),
        )
        for model, years in index.scopes[fault.id].items()
    )


def _components(fault: Fault, index: Index) -> tuple[Link, ...]:
    ids = dict.fromkeys(cause.component for cause in fault.causes)
    found = (index.base.components.get(each) for each in ids if each is not None)
    return tuple(Link(address=addresses.component(each.id), title=each.name) for each in found if each is not None)


def _relations(relations: Sequence[Relation], index: Index) -> tuple[RelationView, ...]:
    """How to tell two faults apart says more than that they are related, so that is said once only."""
    apart = {each.fault.id for each in relations if each.kind in {"not-this", "not-that"}}
    return tuple(
        RelationView(
            line=line(each.fault, whom="" if each.kind == "replaces" else whom(each.fault, index)),
            kind="related" if each.kind == "named-by" else each.kind,
            because=each.because,
        )
        for each in relations
        if each.kind not in {"related", "named-by"} or each.fault.id not in apart
    )


def contribute_page(index: Index) -> str | None:
    """Address of the club's page about giving what one knows; None where it has none."""
    return addresses.CONTRIBUTE if has_page(index.base, CONTRIBUTE_FILE) else None
