"""The pairs of a knowledge base that say the same, faults with faults and cases with cases."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any, Final, Literal

from kbtools.index.apart import told_apart
from kbtools.index.entries import cases
from kbtools.model.base import KnowledgeBase
from kbtools.model.case import Case
from kbtools.model.fault import Fault
from kbtools.model.memory import Memory, shaped
from kbtools.similarity.cases import LIMITS as CASE_LIMITS
from kbtools.similarity.cases import THRESHOLD as CASE_THRESHOLD
from kbtools.similarity.cases import case_matcher, keys_of, ready_cases
from kbtools.similarity.comparison import comparison
from kbtools.similarity.engine import Match
from kbtools.similarity.faults import LINK as FAULT_LINK
from kbtools.similarity.faults import THRESHOLD as FAULT_THRESHOLD
from kbtools.similarity.linking import linked
from kbtools.similarity.search import MatchedPair, Search, Watch, find_pairs
from kbtools.similarity.seen import of_all, seen_of_case

_CASES: Final = "what came of comparing cases"

Kind = Literal["fault", "case"]

KINDS: tuple[Kind, ...] = ("fault", "case")
THRESHOLDS: Mapping[Kind, float] = {"fault": FAULT_THRESHOLD, "case": CASE_THRESHOLD}
"""The score from which a pair is shown."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Pair:
    """Two entries that may say the same."""

    kind: Kind
    """What they are."""
    a: str
    """Id of the one whose file comes first."""
    b: str
    """Id of the other."""
    score: float
    """From 0 to 1."""
    fields: Mapping[str, float]
    """How alike they are in each field that both speak of."""


def similar(
    base: KnowledgeBase,
    kind: Kind,
    *,
    least: float | None = None,
    watch: Watch = iter,
    memory: Memory | None = None,
) -> list[Pair]:
    """The pairs of a kind that score at least so much, best first; not those that `distinct_from` tells apart.

    Withdrawn faults are left out, since they have been folded away already; drafts are not.

    Args:
        base: the knowledge base.
        kind: what is compared.
        least: the least score; None: the one from which a pair is shown.
        watch: sees the work go by.
        memory: asked first; changes nothing but the time it takes.
    """
    floor = THRESHOLDS[kind] if least is None else least
    if kind == "case":
        return _similar_cases(base, floor, watch, memory)
    apart = told_apart(base)
    pairs = _similar_faults(base, floor, watch, memory)
    return [pair for pair in pairs if frozenset({pair.a, pair.b}) not in apart]


def comparable_cases(base: KnowledgeBase) -> list[Case]:
    """The cases that are compared: all, by file."""
    by_id: dict[str, Case] = {}
    for case in cases(base):
        by_id.setdefault(case.id, case)
    return sorted(by_id.values(), key=lambda case: case.path)


def _similar_faults(base: KnowledgeBase, least: float, watch: Watch, memory: Memory | None) -> list[Pair]:
    compared = comparison(base, memory)

    def made() -> list[MatchedPair]:
        found = compared.scores.pairs(Search(least=min(least, FAULT_LINK), watch=watch))
        return _heard(found, least, compared.scores.compare)

    heard = compared.came_out(f"pairs from {least}", made, _as_rows, _of_rows)
    return _pairs("fault", compared.faults, heard)


def _as_rows(found: Iterable[MatchedPair]) -> list[Any]:
    return [[each.left, each.right, each.match.score, each.match.fields] for each in found]


def _of_rows(rows: Any) -> list[MatchedPair]:
    return [
        MatchedPair(left=left, right=right, match=Match(score=score, fields=dict(fields)))
        for left, right, score, fields in rows
    ]


def _heard(found: Sequence[MatchedPair], least: float, compare: Callable[[int, int], Match]) -> list[MatchedPair]:
    """The pairs with what they score among their neighbours, best first."""
    own = {(each.left, each.right): each.match for each in found}
    scores = linked(
        {pair: match.score for pair, match in own.items()},
        lambda left, right: compare(left, right).score,
        FAULT_LINK,
    )
    heard = [
        MatchedPair(left=left, right=right, match=replace(own.get((left, right)) or compare(left, right), score=score))
        for (left, right), score in scores.items()
        if score >= least
    ]
    return sorted(heard, key=lambda each: (-each.match.score, each.left, each.right))


def _similar_cases(base: KnowledgeBase, least: float, watch: Watch, memory: Memory | None) -> list[Pair]:
    entries = comparable_cases(base)
    asked = of_all(base, (str(least).encode(), *map(seen_of_case, entries))) if memory is not None else b""
    found = shaped(memory.worked_out(_CASES, asked), _of_rows) if memory is not None else None
    if found is None:
        found = _found_cases(base, entries, least, watch)
        if memory is not None:
            memory.keep_worked_out(_CASES, asked, _as_rows(found))
    return _pairs("case", entries, found)


def _found_cases(base: KnowledgeBase, entries: Sequence[Case], least: float, watch: Watch) -> list[MatchedPair]:
    ready, lexicon = ready_cases(base, entries)
    return find_pairs(
        ready,
        [list(keys_of(case)) for case in ready],
        case_matcher(lexicon),
        Search(least=least, limits=CASE_LIMITS, watch=watch),
    )


def _pairs(kind: Kind, entries: Sequence[Fault] | Sequence[Case], found: Iterable[MatchedPair]) -> list[Pair]:
    return [
        Pair(
            kind=kind,
            a=entries[each.left].id,
            b=entries[each.right].id,
            score=each.match.score,
            fields=each.match.fields,
        )
        for each in found
    ]
