"""Which faults a code leads to, and where codes stand.

A text that fits two of the club's formats is KB405's: nobody knows which code it is. Until that is mended, the pages
and the finder show it under both (`uses_by_code`), and `kbtools code` under neither (`faults_by_sure_code`).
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from kbtools.index.entries import cases, faults, published
from kbtools.index.per_base import per_base
from kbtools.model.base import KnowledgeBase
from kbtools.model.case import Case
from kbtools.model.codes import CodeFormat, CodeReading, FaultCode, pattern_problem, structure
from kbtools.model.fault import CodeRow, Fault
from kbtools.model.ride_advice import RideLevel, strictest


@dataclass(frozen=True, slots=True, kw_only=True)
class CodeUse:
    """A fault code in an entry."""

    code: FaultCode
    """The code, with its failure type where the entry gives one."""
    fault: Fault
    """The entry."""
    row: CodeRow
    """Its row about the code: meaning, control unit, when it sets."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CodePlace:
    """A place that names a fault code."""

    read: CodeReading
    """The code as written, and the club formats that it fits."""
    path: str
    """File in which it stands."""
    pointer: str
    """Where it stands."""


@per_base
def uses_by_code(base: KnowledgeBase) -> Mapping[FaultCode, tuple[CodeUse, ...]]:
    """Code → the rows of published faults about exactly it, in the order of the files."""
    found: dict[FaultCode, list[CodeUse]] = {}
    for fault in published(base).values():
        for row in fault.codes:
            for code in row.read.matches:
                found.setdefault(code, []).append(CodeUse(code=code, fault=fault, row=row))
    return {code: tuple(uses) for code, uses in found.items()}


@per_base
def faults_by_code(base: KnowledgeBase) -> Mapping[FaultCode, tuple[str, ...]]:
    """Code → ids of the published faults with exactly it, each once, in the order of the files."""
    return {code: _ids(uses) for code, uses in uses_by_code(base).items()}


@per_base
def faults_by_sure_code(base: KnowledgeBase) -> Mapping[FaultCode, tuple[str, ...]]:
    """As `faults_by_code`, but without the rows whose text fits more than one format."""
    sure = {code: [use for use in uses if not use.row.read.ambiguous] for code, uses in uses_by_code(base).items()}
    return {code: _ids(uses) for code, uses in sure.items() if uses}


def _ids(uses: Iterable[CodeUse]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(use.fault.id for use in uses))


def families(codes: Iterable[FaultCode], formats: Sequence[CodeFormat] | None) -> Mapping[FaultCode, list[FaultCode]]:
    """Code without its failure type → those of the codes that are it, with any failure type or none, as given.

    Without the club's formats the shape of a code decides whether it has a failure type, as in `structure`.
    """
    found: dict[FaultCode, list[FaultCode]] = {}
    for code in codes:
        found.setdefault(structure(code, formats).base, []).append(code)
    return found


def near_codes(code: FaultCode, known: Collection[FaultCode], formats: Sequence[CodeFormat]) -> tuple[FaultCode, ...]:
    """Codes under which the same trouble may stand: without the failure type, or with any where it has none.

    A reader that shows no failure type and an entry that names none must still find each other. Two different failure
    types never meet.

    Args:
        code: what the reader shows.
        known: the codes that entries have, or those of its family among them (`families`).
        formats: those of the club.

    Returns:
        In the order of their texts.
    """
    parts = structure(code, formats)
    if parts.base != code:
        return (parts.base,) if parts.base in known else ()
    if parts.system is None:
        return ()
    start = f"{code.text}-"
    longer = [each for each in known if each.format == code.format and each.text.startswith(start)]
    return tuple(sorted(longer, key=lambda each: each.text))


def faults_of(
    code: FaultCode,
    by_code: Mapping[FaultCode, Sequence[str]],
    formats: Sequence[CodeFormat],
) -> tuple[str, ...]:
    """Ids of the faults that an owner with this code wants to see, each once, nearest first.

    First those listed under the very code, then those under the codes near to it (`near_codes`).
    """
    near = (code, *near_codes(code, by_code.keys(), formats))
    return tuple(dict.fromkeys(fault for each in near for fault in by_code.get(each, ())))


def meet(seen: Iterable[FaultCode], listed: Collection[FaultCode], formats: Sequence[CodeFormat]) -> bool:
    """Whether an owner with one of the codes that were seen would find a fault that lists these."""
    return any(each in listed or near_codes(each, listed, formats) for each in seen)


def only_follows(fault: Fault, code: FaultCode) -> bool:
    """Whether the entry has exactly this code, and only as the consequence of another one."""
    return _only_follow_on(row for row in fault.codes if code in row.read.matches)


def family_only_follows(fault: Fault, code: FaultCode, formats: Sequence[CodeFormat]) -> bool:
    """Whether the entry has this code, with any failure type or none, and only as the consequence of another one."""
    base = structure(code, formats).base
    return _only_follow_on(
        row for row in fault.codes if any(structure(each, formats).base == base for each in row.read.matches)
    )


def rows_of_code(fault: Fault, code: FaultCode, unit: str | None, formats: Sequence[CodeFormat]) -> Iterator[CodeRow]:
    """The rows of a fault that an owner with this code means, as `faults_of` matches codes.

    Args:
        fault: the entry.
        code: what the reader shows.
        unit: id of the control unit that shows it; None: not known. A row that names another one is not meant.
        formats: those of the club.
    """
    own = [(row, row.read.code) for row in fault.codes if row.read.code is not None]
    wanted = {code, *near_codes(code, [each for _, each in own if each is not None], formats)}
    for row, each in own:
        if each in wanted and (unit is None or row.unit in {None, unit}):
            yield row


def ride_level_with(fault: Fault, code: FaultCode, formats: Sequence[CodeFormat]) -> RideLevel | None:
    """The ride advice of a fault on a bike with this code: the fault's, or the stricter one of a row about the code."""
    rows = rows_of_code(fault, code, None, formats)
    own = [row.ride_advice.level for row in rows if row.ride_advice is not None]
    return strictest([*own, *([fault.ride_level] if fault.ride_level is not None else [])])


def _only_follow_on(rows: Iterable[CodeRow]) -> bool:
    told = [row.follow_on for row in rows]
    return bool(told) and all(told)


def fault_codes(fault: Fault) -> Iterator[CodePlace]:
    """Every place of a fault that names a code."""
    for row in fault.codes:
        yield CodePlace(read=row.read, path=fault.path, pointer=f"{row.at}/code")
        for index, read in enumerate(row.with_codes):
            yield CodePlace(read=read, path=fault.path, pointer=f"{row.at}/with/{index}")


def case_codes(case: Case) -> Iterator[CodePlace]:
    """Every place of a case that names a code."""
    for row in case.codes:
        yield CodePlace(read=row.read, path=case.path, pointer=f"{row.at}/code")


def all_codes(base: KnowledgeBase) -> Iterator[CodePlace]:
    """Every place of faults and cases that names a code, whatever the state of the entry."""
    for fault in faults(base):
        yield from fault_codes(fault)
    for case in cases(base):
        yield from case_codes(case)


def formats_known(base: KnowledgeBase) -> bool:
    """Whether every format of the club could be read and used; if not, a code that fits none may fit a lost one."""
    if base.club is None or not base.club.code_formats:
        return False
    if any(each.startswith("/code_formats") for each in base.club.damaged):
        return False
    return not any(each.pattern is not None and pattern_problem(each.pattern) for each in base.club.code_formats)
