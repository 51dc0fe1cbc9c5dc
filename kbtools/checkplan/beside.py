"""What stands beside the cost of a plan: may it be ridden now, what comes before riding, and what may be free.

None of it changes a cost. `Beside` holds what depends on the entry alone, as data; `core/plan-beside.js` does the same
with `beside_record` in the browser.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from kbtools.checkplan.owner import Owner
from kbtools.checkplan.problem import Problem
from kbtools.checkplan.table import is_second, start_of, table_of
from kbtools.evidence import Spans, runs
from kbtools.index.answers import Index, ModelYear
from kbtools.index.scopes import covered_rows, scope
from kbtools.model.fault import NOTICES, CodeRow, Fault, SourceKind
from kbtools.model.ride_advice import RIDE_LEVELS, RideAdvice, RideLevel

LIKELY = 0.5
"""From this share on the advice of a cause itself counts."""
ROUNDED = 1e-9
"""Shares are sums of sums: so much below a half is a half."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Word:
    """A ride advice and whose it is."""

    level: RideLevel | None
    """None: nobody has said."""
    why: str | None
    """The reason, Markdown, hostile."""
    source: str
    """`fault:ID`, `cause:ID`, `code:CODE`; `check:ID` of a bad one that comes before riding."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FreeWork:
    """A recall or bulletin of the entry: the maker may pay."""

    source: str
    """Its number; its title where it has none. Hostile."""
    kind: SourceKind
    """Recall or bulletin."""
    covers: tuple[str, ...]
    """Ids of the causes that it covers."""
    spans: Spans
    """Whom it covers."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Beside:
    """What of an entry stands beside the cost of its plan."""

    word: Word
    """Of the fault."""
    causes: Mapping[str, Word]
    """Of the causes that have one, in file order."""
    free: tuple[FreeWork, ...]
    """Recalls first, as the entry has them."""


def beside_of(fault: Fault, index: Index) -> Beside:
    """What of an entry stands beside the cost of its plan."""
    every = tuple(cause.id for cause in fault.causes)
    notices = [source for kind in NOTICES for source in fault.sources if source.kind == kind]
    return Beside(
        word=_word(fault.ride_advice, f"fault:{fault.id}"),
        causes={cause.id: _word(cause.ride_advice, f"cause:{cause.id}") for cause in fault.causes if cause.ride_advice},
        free=tuple(
            FreeWork(
                source=source.number or source.title,
                kind=source.kind,
                covers=source.covers or every,
                spans=runs(scope(covered_rows(source, fault), index.base.models, index.years)),
            )
            for source in notices
        ),
    )


def words_of_codes(rows: Iterable[tuple[str, CodeRow]]) -> Iterator[Word]:
    """The advice of the rows that say one, each with the code that was given."""
    for code, row in rows:
        if row.ride_advice is not None:
            yield _word(row.ride_advice, f"code:{code}")


def ride_advice(beside: Beside, chances: Mapping[str, float], codes: Iterable[Word], bad: Iterable[str]) -> Word:
    """The strictest that applies now; of equal ones the fault's, then a cause's, then a code's.

    Args:
        beside: of the entry.
        chances: id of a cause → its share after the results; empty where these contradict each other.
        codes: advice of the codes that were given.
        bad: ids of the checks before riding that came out bad.
    """
    likely = [word for cause, word in beside.causes.items() if chances.get(cause, 0.0) >= LIKELY - ROUNDED]
    again = [Word(level="do-not-ride", why=None, source=f"check:{each}") for each in bad]
    return strictest_word([beside.word, *likely, *codes, *again])


def strictest_word(words: Iterable[Word]) -> Word:
    """The strictest of several, the first of equal ones; that nobody has said is milder than all. Of none an error."""
    return min(words, key=lambda word: len(RIDE_LEVELS) if word.level is None else RIDE_LEVELS.index(word.level))


def before_riding(problem: Problem, owner: Owner) -> tuple[str, ...]:
    """Ids of the checks that are to be done before riding and were not done, whoever can do them."""
    return tuple(
        check.id
        for check in problem.checks
        if check.before_riding and owner.results.get(check.id, "unclear") == "unclear"
    )


def bad_before_riding(problem: Problem, owner: Owner) -> tuple[str, ...]:
    """Ids of those that were done and came out bad, low or high."""
    return tuple(
        check.id
        for check in problem.checks
        if check.before_riding and owner.results.get(check.id, "good") not in {"good", "unclear"}
    )


def second_faults(problem: Problem, owner: Owner) -> Mapping[str, tuple[str, ...]]:
    """Id of a check before riding that was bad after the cause was found → the causes that it means: mend both."""
    table = table_of(problem, owner)
    possible, _, _ = start_of(table, owner.results)
    found = {}
    for check in table.checks:
        result = owner.results.get(check.id)
        if result in check.names:
            means = check.sets[check.names.index(result)]
            if is_second(check, possible, means):
                found[check.id] = tuple(each for bit, each in enumerate(table.causes) if means >> bit & 1)
    return found


def may_be_free(beside: Beside, bike: ModelYear | None) -> tuple[FreeWork, ...]:
    """The recalls and bulletins that cover a bike; all of them, where none is named."""
    return tuple(work for work in beside.free if bike is None or _covers(work, bike))


def _covers(work: FreeWork, bike: ModelYear) -> bool:
    return any(first <= bike[1] <= last for first, last in work.spans.get(bike[0], ()))


def _word(advice: RideAdvice | None, source: str) -> Word:
    if advice is None:
        return Word(level=None, why=None, source=source)
    return Word(level=advice.level, why=advice.why, source=source)


def beside_record(beside: Beside) -> dict[str, object]:
    """The same as JSON has it: `{"advice", "causes", "free"}`, advice as `{"level", "why", "from"}`."""
    return {
        "advice": word_record(beside.word),
        "causes": {cause: word_record(word) for cause, word in beside.causes.items()},
        "free": [
            {**free_record(work), "applies": {model: [list(run) for run in runs] for model, runs in work.spans.items()}}
            for work in beside.free
        ],
    }


def word_record(word: Word) -> dict[str, object]:
    """`{"level", "why", "from"}`."""
    return {"level": word.level, "why": word.why, "from": word.source}


def free_record(work: FreeWork) -> dict[str, object]:
    """`{"source", "kind", "covers"}`."""
    return {"source": work.source, "kind": work.kind, "covers": list(work.covers)}
