"""The card of a fault in a handbook: what its page says, as short as paper wants it, for a model or for one year."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any, Final

from kbtools.evidence import CauseCases, evidence_of
from kbtools.index.answers import Index, ModelYear
from kbtools.index.asked import Memo
from kbtools.index.asked_base import Log
from kbtools.index.checks import exception_for
from kbtools.index.scopes import Questions, applies, covered_rows
from kbtools.model.catalogue import Model
from kbtools.model.fault import NOTICES, Fault
from kbtools.pages.fault import work_of
from kbtools.pages.good_values import good_words
from kbtools.pages.handbook_size import Weight, weight_of
from kbtools.pages.lines import line
from kbtools.pages.plan_views import StepView
from kbtools.pages.views import CauseView, CheckView
from kbtools.wording import addresses
from kbtools.wording.labels import SOURCE, RideWords, count_of
from kbtools.wording.plan import WORDS

STEPS: Final = 3
"""So many checks of the plan stand on a card."""
SIGNS: Final = 4
"""So many symptoms stand on a card; the index has all of them."""

Pages = Callable[[str], Mapping[str, Any]]
"""Gives what a fault's page shows (`kbtools.pages.fault.work_of`), by the fault's id."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CautionMark:
    """A caution at a card; in full it stands at the front."""

    number: str
    """`C4`."""
    begins: str
    """Its first sentence, Markdown."""


@dataclass(frozen=True, slots=True, kw_only=True)
class StepCard:
    """One of the first steps."""

    do: str
    """Markdown."""
    takes: str
    """Time, what is opened, tools; plain text."""
    good: str | None
    """The good range on this machine, with its unit."""
    expect: str | None
    """What a good one shows, Markdown."""
    place: str | None
    """Where and when to measure, Markdown."""
    others: tuple[tuple[str, str], ...]
    """Years and their good range, where the card is for a whole model."""
    results: tuple[tuple[str, str], ...]
    """The name of a result, and what it speaks for; plain texts."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CauseCard:
    """One of the causes."""

    title: str
    """Plain text."""
    often: str
    """How often it is the one, and how sure."""
    only: str
    """On which years it exists, where the card is for a whole model; empty: on all."""
    asks: str | None
    """What must be so on the bike, Markdown."""
    mend: str | None
    """Markdown."""
    takes: str
    """Skill, hours and parts; empty: nobody has said."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CardView:
    """A fault in a handbook."""

    id: str
    """Of the fault."""
    number: str
    """`F12`: the same in the handbook of the model and of each of its years."""
    anchor: str
    """Id of the card on its page."""
    address: str
    """Of the fault's page."""
    title: str
    """Plain text."""
    ride: RideWords
    """May I ride it."""
    verdict: str
    """The answer, with whether it starts."""
    why: str | None
    """Markdown."""
    limits: str | None
    """How fast and how far."""
    stops: tuple[str, ...]
    """When to stop at once, Markdown."""
    stricter: tuple[tuple[str, str], ...]
    """Codes that call for stricter advice, each with that."""
    codes: tuple[str, ...]
    """Those that its control units report."""
    questions: Questions
    """What the owner must ask first, Markdown."""
    signs: tuple[str, ...]
    """What one notices."""
    free: tuple[str, ...]
    """Recalls and bulletins that may pay."""
    critical: bool
    """A mistake in the work can hurt somebody."""
    cautions: tuple[CautionMark, ...]
    """Those of the work on it."""
    judged: bool
    """No case counts: the shares are the curators' alone."""
    causes: tuple[CauseCard, ...]
    """The likeliest first."""
    unlisted: str
    """How often it is none of them."""
    steps: tuple[StepCard, ...]
    """What to check first."""
    then: str
    """What follows if all of them are good."""
    before_riding: tuple[str, ...]
    """Checks that come before riding again."""


MOST_KEPT: Final = 5_000
"""Cards that are kept: as many as the handbooks of all years may have together (`handbook.MOST_CARDS`)."""


class Cards:
    """Makes the cards of one base. Years on which a fault is the same share one card, which is rendered once."""

    def __init__(self, index: Index, pages: Pages, log: Log) -> None:
        """`pages` is what the pages of the faults show: nothing of it is worked out twice."""
        self._index = index
        self._pages = pages
        self._made: Memo[tuple[CardView, Weight]] = Memo(log, MOST_KEPT)
        self._causes: Memo[Sequence[CauseCases]] = Memo(log)
        self._cautions = {each.text: f"C{place}" for place, each in enumerate(index.base.cautions.values(), start=1)}

    def card(
        self, fault: Fault, number: int, model: Model, year: int | None, questions: Questions
    ) -> tuple[CardView, Weight]:
        """The card of a fault, and what it weighs; `year` None: for all years of the model."""
        bike = None if year is None else (model.id, year)
        checks = [(each.id, None if year is None else exception_for(each, model.id, year)) for each in fault.checks]
        others = tuple(None if row is None else row.at for _, row in checks)
        gone = self._gone(fault, bike)
        free = self._free(fault, model, year)
        key = (fault.id, model.id, year is None, questions, gone, others, free)

        def make() -> tuple[CardView, Weight]:
            page = self._pages(fault.id)
            shown = {**page, **work_of(fault, self._index, bike)} if gone else page
            made = self._make(fault, number, model, year, questions, free, shown)
            return made, weight_of(made)

        return self._made.of(key, make)

    def _gone(self, fault: Fault, bike: ModelYear | None) -> tuple[str, ...]:
        """Causes that do not exist on the machine."""
        if bike is None or not any(cause.applies_to for cause in fault.causes):
            return ()
        causes = self._causes.of(fault.id, lambda: evidence_of(fault, self._index, self._index.club).causes)
        return tuple(cause.id for cause in causes if not cause.exists_on(bike))

    def _free(self, fault: Fault, model: Model, year: int | None) -> tuple[str, ...]:
        """Recalls and bulletins that cover the machine, or any year of the model; recalls first."""
        years = self._index.years[model.id] if year is None else (year,)
        return tuple(
            f"{SOURCE[kind]} {source.number or source.title}"
            for kind in NOTICES
            for source in fault.sources
            if source.kind == kind
            and any(applies(covered_rows(source, fault), model.id, each, self._index.base) for each in years)
        )

    def _make(  # noqa: PLR0913, PLR0917 - what a card is of
        self,
        fault: Fault,
        number: int,
        model: Model,
        year: int | None,
        questions: Questions,
        free: tuple[str, ...],
        page: Mapping[str, Any],
    ) -> CardView:
        row = line(fault, on=model)
        advice = fault.ride_advice
        return CardView(
            id=fault.id,
            number=f"F{number}",
            anchor=f"f{number}",
            address=row.address,
            title=fault.title,
            ride=row.ride,
            verdict=page["verdict"],
            why=advice.why if advice is not None else None,
            limits=page["limits"],
            stops=advice.stop_if if advice is not None else (),
            stricter=tuple((each.code, each.answer) for each in page["stricter_codes"]),
            codes=row.codes,
            questions=questions,
            signs=fault.symptoms[:SIGNS],
            free=free,
            critical=page["safety_critical"],
            cautions=tuple(self._marks(page)),
            judged=page["shares"].cases == 0,
            causes=tuple(_cause(each, model, year) for each in page["causes"]),
            unlisted=page["shares"].rows["unlisted"].percent,
            steps=tuple(self._steps(fault, model, year, page)),
            then=_then(page),
            before_riding=tuple(each.anchor.title for each in page["before_riding"]),
        )

    def _marks(self, page: Mapping[str, Any]) -> Iterator[CautionMark]:
        """The cautions of the whole fault, of the checks that the card shows, and of all its fixes; each once."""
        shown = [page["checks"][each].cautions for each in _first(page)]
        fixes = [cause.fix.cautions for cause in page["causes"] if cause.fix is not None]
        for text in dict.fromkeys(each for own in (page["cautions"], *shown, *fixes) for each in own):
            if text in self._cautions:
                yield CautionMark(number=self._cautions[text], begins=f"{text.split('. ')[0].rstrip('.')}.")

    def _steps(self, fault: Fault, model: Model, year: int | None, page: Mapping[str, Any]) -> Iterator[StepCard]:
        by_id = {check.id: check for check in fault.checks}
        for each, step in _first(page).items():
            view: CheckView = page["checks"][each]
            row = None if year is None else exception_for(by_id[each], model.id, year)
            reading = view.reading
            where = () if reading is None else tuple(part for part in (reading.place, reading.when) if part)
            yield StepCard(
                do=view.do or view.anchor.title,
                takes=_takes(view, step),
                good=view.good if row is None or reading is None else good_words(row.good, reading.unit),
                expect=view.expect,
                place=", ".join(where) or None,
                others=()
                if year is not None
                else tuple(
                    (other.years, other.good)
                    for other in view.exceptions
                    if other.model.address == addresses.model(model.id)
                ),
                results=tuple(_results(view)),
            )


def _first(page: Mapping[str, Any]) -> Mapping[str, StepView | None]:
    """The checks that a card shows, with the plan's step where there is a plan."""
    plan = page["plan"]
    if plan is None:
        return dict.fromkeys(list(page["checks"])[:STEPS])
    return {step.check: step for step in [each for each in plan.steps if each.check is not None][:STEPS]}


def _then(page: Mapping[str, Any]) -> str:
    """What comes after the steps that are shown, in few words; empty where nobody has said."""
    plan = page["plan"]
    if plan is None:
        return ""
    checks = sum(step.check is not None for step in plan.steps)
    last = plan.steps[-1].then
    if checks > STEPS:
        return f"{count_of(checks - STEPS, 'more check')}, on the fault's page."
    return "" if last is None else f"{last.to.title}, {last.rest.rstrip('.')}."


def _takes(view: CheckView, step: StepView | None) -> str:
    minutes = step.minutes if step is not None else None if view.minutes is None else f"{view.minutes} min"
    opened = step.opened if step is not None else tuple(each.name for each in view.access)
    parts = (minutes, *(f"{each.lower()} first" for each in opened), *view.tools, view.skill if step is None else None)
    return ", ".join(each for each in parts if each)


def _results(view: CheckView) -> Iterator[tuple[str, str]]:
    for name, points in (("bad", view.points_to), ("low", view.low_points_to), ("high", view.high_points_to)):
        if points:
            yield WORDS[name], "; ".join(each.title for each in points)
    if view.rules_out:
        yield WORDS["good"], "rules it out"


def _cause(cause: CauseView, model: Model, year: int | None) -> CauseCard:
    fix, share = cause.fix, cause.share
    said = (share.word.lower() if share.word else None, share.percent, share.cases)
    only = (
        [each.years for each in cause.machines if each.model.address == addresses.model(model.id)]
        if year is None
        else []
    )
    takes: Sequence[str | None] = ()
    if fix is not None:
        takes = (
            fix.skill,
            f"{fix.hours} h of labour" if fix.hours else None,
            ", ".join(name if price is None else f"{name} {price}" for name, price in fix.parts),
            f"in a workshop {fix.workshop}" if fix.workshop else None,
        )
    return CauseCard(
        title=cause.anchor.title,
        often=", ".join(each for each in said if each) + f" ({share.interval})",
        only=", ".join(only),
        asks=cause.only_if,
        mend=fix.summary if fix is not None else None,
        takes="; ".join(each for each in takes if each),
    )
