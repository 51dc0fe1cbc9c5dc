"""What the rules KB301 to KB311 have in common: what is named must be there, else the nearest that is."""

from __future__ import annotations

import datetime as dt
import functools
from collections.abc import Iterable, Iterator, Mapping, Sequence

from kbtools.index.heirs import heirs_of_gone
from kbtools.index.references import Reference, names, references, references_to_cases, references_to_faults
from kbtools.model.base import IdKind, KnowledgeBase
from kbtools.reading.layout import fitting_id, is_id
from kbtools.rules.rule import Breach
from kbtools.rules.rule import Check as RuleCheck
from kbtools.text.nearest import did_you_mean, nearest_id
from kbtools.text.short import short


def unknown(kind: IdKind) -> RuleCheck:
    """The check of a rule that every reference of a kind names something that is there."""

    def check(base: KnowledgeBase, _today: dt.date) -> Iterator[Breach]:
        if kind in base.unsure:
            return
        known = names(base, kind)
        misnamed = _misnamed(known)
        renamed = heirs_of_gone(base) if kind == "fault" else {}
        # The same mistake often stands in many files, and looking for the nearest of many ids takes a while.
        said = functools.cache(lambda identity: _said(kind, identity, known, renamed))
        for reference in _naming(base, kind):
            if reference.id not in known and reference.id not in misnamed:
                message, hint = said(reference.id)
                yield Breach(path=reference.path, pointer=reference.pointer, message=message, hint=hint)

    return check


def _naming(base: KnowledgeBase, kind: IdKind) -> Iterable[Reference]:
    if kind == "fault":
        return references_to_faults(base)
    return references_to_cases(base) if kind == "case" else references(base).get(kind, ())


def missing_fault(base: KnowledgeBase, identity: str, known: Mapping[str, Sequence[str]]) -> tuple[str, str]:
    """That there is no fault of this id, and what to do about it; an old id leads to the new one."""
    return _said("fault", identity, known, heirs_of_gone(base))


def _misnamed(known: Iterable[str]) -> frozenset[str]:
    """The ids that the files whose name is none are to be given: their names are reported, not those who use them."""
    return frozenset(fitting_id(each) for each in known if not is_id(each))


def _said(kind: str, identity: str, known: Mapping[str, Sequence[str]], renamed: Mapping[str, str]) -> tuple[str, str]:
    """What is wrong with a reference, and what to do about it."""
    if identity in renamed:
        now = renamed[identity]
        return f'The {kind} "{short(identity)}" has another id now.', f'It is called "{now}"; write that.'
    old = did_you_mean(identity, renamed) if nearest_id(identity, known) is None else None
    if old is not None:
        return f'There is no {kind} "{short(identity)}".', f'Did you mean "{renamed[old]}"? It was called "{old}".'
    return missing(kind, identity, known)


def missing(kind: str, identity: str, known: Mapping[str, Sequence[str]], within: str = "") -> tuple[str, str]:
    """That something has no such id, and what to do about it: the nearest one.

    Args:
        kind: what it would be, in words.
        identity: as the author wrote it.
        known: id to the names of what there is.
        within: what it would be a part of, after a preposition; empty: of the knowledge base.
    """
    place = f" {within}" if within else ""
    guess = nearest_id(identity, known)
    if guess is not None:
        hint = f'Did you mean "{guess}"?'
    elif known:
        hint = (
            f"There {'are' if len(known) > 1 else 'is'}: {', '.join(list(known)[:8])}{', …' if len(known) > 8 else ''}."
        )
    else:
        hint = f"There is no {kind}{place} yet; write it first."
    return f'There is no {kind} "{short(identity)}"{place}.', hint
