"""What a fault page shows of its cases: shares, how sure they are, which fixes held, what was paid, odometers."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from kbtools.evidence import (
    FEW_CASES,
    Evidence,
    Held,
    SecondCauses,
    Share,
    Sureness,
    by_falling_share,
    cases_words,
    held,
    paid,
    second_causes,
    shares,
    sureness,
)
from kbtools.evidence.counting import odometers
from kbtools.index.answers import Index, ModelYear
from kbtools.model.case import UNLISTED, Case, PaidWhere
from kbtools.model.fault import Fault
from kbtools.model.money import show_about
from kbtools.pages.drawing import Bar, StripPlot, share_bar, strip_plot
from kbtools.wording.labels import WHERE, count_of, judged, share_words
from kbtools.wording.plan import WORDS, interval_words, percent_words, say


@dataclass(frozen=True, slots=True, kw_only=True)
class ShareView:
    """How often one cause is the one, in words and as a bar."""

    id: str
    """Of the cause, or `unlisted`."""
    word: str | None
    """`Often`, `Sometimes` or `Rarely`; None where nobody has said, and no case either."""
    percent: str
    """The share."""
    interval: str
    """The central 90 % interval."""
    cases: str | None
    """`3 of 7 cases`; None where no case counts for the fault."""
    bar: Bar
    """The drawing."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SharesView:
    """All shares of a fault."""

    sureness: Sureness
    """What they rest on: decides whether words or numbers come first."""
    cases: int
    """Counted cases."""
    weighted: bool
    """Whether the entry says which cause is the likelier."""
    rows: Mapping[str, ShareView]
    """By id of the cause, the largest share first; `unlisted` is the last, however large."""


@dataclass(frozen=True, slots=True, kw_only=True)
class NoHelp:
    """A fix that was tried in vain."""

    cause: str
    """What it would have mended."""
    cases: str
    """In how many cases."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CasesView:
    """What the cases of a fault say together."""

    strips: StripPlot | None
    """Odometer readings of the counted ones."""
    titles: Mapping[str, str]
    """Titles of the rows of the plot."""
    paid: tuple[str, ...]
    """What was paid, sentences."""
    no_help: tuple[NoHelp, ...]
    """What was changed in vain, the most often first."""
    seconds: str | None
    """How often a second cause was there, and which, a sentence; None where none was."""


def shares_view(fault: Fault, evidence: Evidence, bike: ModelYear | None = None) -> SharesView:
    """The shares of a fault on any machine that it concerns, or of what exists on the one that is named."""
    rows = sorted(by_falling_share(shares(evidence, bike)), key=lambda row: row.id == UNLISTED)
    total = sum(row.cases for row in rows)
    said = dict(zip((cause.id for cause in fault.causes), share_words(fault.causes), strict=True))
    weighted = any(said.values())
    return SharesView(
        sureness=sureness(total),
        cases=total,
        weighted=weighted,
        rows={row.id: _share(row, total, said.get(row.id), weighted=weighted) for row in rows},
    )


def _share(row: Share, total: int, said: str | None, *, weighted: bool) -> ShareView:
    """Without a case the words are the curators' own."""
    word = said
    if total or (weighted and said is None):
        word = judged(row.mean)
    return ShareView(
        id=row.id,
        word=word,
        percent=percent_words(row.mean),
        interval=interval_words(row.low, row.high),
        cases=cases_words(row.cases, total) if total else None,
        bar=share_bar(row),
    )


def held_words(evidence: Evidence) -> Mapping[str, str]:
    """How often the fix of each cause held, as far as anyone has reported."""
    found = ((cause.id, held(cause)) for cause in evidence.causes)
    return {cause: _held(each) for cause, each in found if each is not None}


def _held(each: Held) -> str:
    text = f"It held in {each.held} of {count_of(each.tried, 'case')}"
    if each.tried < FEW_CASES:
        return f"{text}: too few to say how often it will."
    return f"{text}; {interval_words(each.low, each.high)} of such fixes hold."


def paid_words(cases: Sequence[Case], currency: str, cause: str | None = None) -> tuple[str, ...]:
    """What the cases of a fault, or those of one cause, paid: at home and in a workshop, where enough say so."""
    if sum(case.outcome.paid is not None and cause in {None, case.outcome.cause} for case in cases) < FEW_CASES:
        return ()
    places: tuple[PaidWhere | None, ...] = ("home", "workshop")
    split = [(where, each) for where in places if (each := paid(cases, cause=cause, where=where)) is not None]
    whole = paid(cases, cause=cause)
    if not split and whole is not None:
        split = [(None, whole)]
    return tuple(
        f"Paid{f' {WHERE[where]}' if where else ''} in {count_of(each.cases, 'case')}: "
        f"{show_about(each.median, currency)} in the middle, half of them between {show_about(each.lower, currency)} "
        f"and {show_about(each.upper, currency)}."
        for where, each in split
    )


def cases_view(fault: Fault, index: Index, order: Sequence[str]) -> CasesView:
    """What the cases say together; `order` is that of the causes on the page, `unlisted` among them."""
    club = index.club
    cases = index.cases_by_fault.get(fault.id, ())
    titles = {cause.id: cause.summary or cause.id for cause in fault.causes}
    vain = Counter(
        each.fix
        for case in cases
        for each in case.tried
        if each.result in {"no-change", "worse"} and each.fix in titles
    )
    return CasesView(
        strips=strip_plot(odometers(fault, index, club), order),
        titles={**titles, UNLISTED: WORDS["unlisted"]},
        paid=paid_words(cases, club.currency),
        no_help=tuple(
            NoHelp(cause=titles[fix], cases=count_of(number, "case")) for fix, number in vain.most_common() if fix
        ),
        seconds=second_words(second_causes(fault, index), titles),
    )


def second_words(seconds: SecondCauses, titles: Mapping[str, str]) -> str | None:
    """How often a second cause was there, and which; None where none was."""
    if not seconds.cases:
        return None
    which = "; ".join(f"{titles[cause]} ({number})" for cause, number in seconds.which)
    return f"{say('second_cause', k=str(seconds.cases), n=count_of(seconds.counted, 'case'))}: {which}."
