"""Which machines two entries have in common: what the rules of family KB6 compare contradicting entries by."""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Generic, TypeVar

from kbtools.index.entries import published
from kbtools.index.per_base import per_base
from kbtools.index.scopes import built_years
from kbtools.model.base import KnowledgeBase
from kbtools.model.fault import AppliesTo, CodeRow, Fault
from kbtools.model.years import Years, backwards

V = TypeVar("V", bound=Hashable)
T = TypeVar("T")


@dataclass(frozen=True, slots=True, kw_only=True)
class Span:
    """Some years of one model."""

    years: Years
    """Within those of the model."""
    only_if: str | None
    """What the owner is asked, as written."""


Reach = Mapping[str, Sequence[Span]]
"""Model id → the years that an entry concerns. Rows that name nothing or run backwards are left out."""


@per_base
def reaches(base: KnowledgeBase) -> Mapping[str, Reach]:
    """Fault id → whom it concerns, of every fault that can be compared."""
    return {fault.id: reach(base, fault.applies_to) for fault in comparable(base)}


def comparable(base: KnowledgeBase) -> Iterator[Fault]:
    """The faults that are advice on the site and say whole whom they concern, in the order of their files."""
    faults = (fault for fault in published(base).values() if fault.intact("/applies_to"))
    return iter(sorted(faults, key=lambda each: each.path))


def one_unit(left: CodeRow, right: CodeRow) -> bool:
    """Whether two rows of codes can be about one control unit: the same, or one that a row leaves open."""
    return left.unit is None or right.unit is None or left.unit == right.unit


def reach(base: KnowledgeBase, rows: Sequence[AppliesTo]) -> Reach:
    """Whom rows of models and years concern."""
    found: dict[str, list[Span]] = {}
    for row in rows:
        model = base.models.get(row.model)
        if model is None or backwards(row.years) or backwards(model.years):
            continue
        cut = built_years(row, model)
        if cut is not None:
            found.setdefault(model.id, []).append(Span(years=cut, only_if=row.only_if))
    return found


def narrowed(base: KnowledgeBase, of: Reach, unit_id: str | None) -> Reach:
    """Whom a code of a control unit concerns: the models that have the unit, in the years in which it is fitted."""
    if unit_id is None:
        return of
    found: dict[str, list[Span]] = {}
    for model_id, spans in of.items():
        unit = base.models[model_id].unit(unit_id)
        if unit is None or backwards(unit.years):
            continue
        cut = [(span, span.years.cut_to(unit.years)) for span in spans]
        found[model_id] = [Span(years=years, only_if=span.only_if) for span, years in cut if years is not None]
    return found


def shared(left: Sequence[Span], right: Sequence[Span]) -> Years | None:
    """Years that both hold of one model, the first there are; None where there are none.

    Rows with different questions for the owner may mean different machines of one year, so they share nothing.
    """
    for span in left:
        for other in right:
            asked = {span.only_if, other.only_if} - {None}
            years = span.years.cut_to(other.years) if len(asked) < 2 else None
            if years is not None:
                return years
    return None


@dataclass(frozen=True, slots=True, kw_only=True)
class Clash(Generic[V, T]):
    """Something that was said before of the same machines and contradicts what is said now."""

    said: T
    """Who has said it."""
    value: V
    """What was said."""
    model: str
    """Id of a model that both concern."""
    years: Years
    """Years that both concern."""


def of_two_minds(said: Iterable[tuple[Hashable, Hashable]]) -> frozenset[Hashable]:
    """The subjects of which more than one thing is said: nothing contradicts itself, and of most all say the same.

    Args:
        said: subjects, each with what is said of it.
    """
    first: dict[Hashable, Hashable] = {}
    return frozenset(subject for subject, value in said if first.setdefault(subject, value) != value)


_MOST = 100
"""Things said of one subject and model that are kept: who agrees with so many is not held against more of them."""


class Ledger(Generic[V, T]):
    """What entries say of one subject (a code, a part), by model and by what is said.

    Only what contradicts is compared machine by machine, and machines that many share only once, so that the work does
    not grow with the square of the entries.
    """

    __slots__ = ("_contradicts", "_said")

    def __init__(self, contradicts: Callable[[V, V], bool]) -> None:
        self._contradicts = contradicts
        self._said: dict[tuple[Hashable, str], dict[V, dict[tuple[Span, ...], list[T]]]] = {}

    def clashes(self, subject: Hashable, value: V, of: Reach) -> Iterator[Clash[V, T]]:
        """What was said before that contradicts `value`, where both concern the same machines."""
        for model_id, spans in of.items():
            for other, by_spans in self._said.get((subject, model_id), {}).items():
                for theirs, whos in by_spans.items() if self._contradicts(value, other) else ():
                    years = shared(spans, theirs)
                    if years is not None:
                        yield from (Clash(said=who, value=other, model=model_id, years=years) for who in whos)

    def add(self, subject: Hashable, value: V, of: Reach, who: T) -> None:
        """Note what is said of these machines, and who says so."""
        for model_id, spans in of.items():
            values = self._said.setdefault((subject, model_id), {})
            if value in values or len(values) < _MOST:
                values.setdefault(value, {}).setdefault(tuple(spans), []).append(who)
