"""Fault codes told to people and to programs: in words for a terminal, and as the record of `kbtools code`."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from kbtools.index.codes import faults_of
from kbtools.model.codes import CodeFormat, CodeReading, CodeStructure, FaultCode, structure
from kbtools.text.terminal import shown
from kbtools.wording.codes import meaning_words


def code_record(
    reading: CodeReading,
    formats: Sequence[CodeFormat],
    faults_by_code: Mapping[FaultCode, Sequence[str]],
) -> dict[str, object]:
    """The reading as `kbtools code --format json` shows it.

    Where the text is no code, or may be more than one, all but the text is null and `faults` is empty: `explain` says
    which. `system` is `powertrain`, `chassis`, `body` or `network`.
    """
    record: dict[str, object] = {
        "text": reading.text,
        "format": None,
        "canonical": None,
        "system": None,
        "controlled_by": None,
        "failure_type": None,
        "faults": [],
    }
    code = reading.code
    if code is None:
        return record
    parts = structure(code, formats)
    failure_type = parts.failure_type
    return record | {
        "format": code.format,
        "canonical": code.text,
        "system": parts.system,
        "controlled_by": parts.controlled_by,
        "failure_type": failure_type and {"code": failure_type.code, "meaning": failure_type.meaning},
        "faults": list(faults_of(code, faults_by_code, formats)),
    }


def explain(reading: CodeReading, formats: Sequence[CodeFormat], faults: Sequence[tuple[str, str]]) -> str:
    """The reading in words for a terminal, several lines without a last line break.

    `faults` are pairs of id and title, as `faults_of` orders them. Nothing that stands in a text can control the
    terminal: what is not printable is written out.
    """
    code = reading.code
    if code is not None:
        return "\n".join(_told(reading, code, formats, faults))
    if reading.ambiguous:
        return "\n".join(_undecided(reading, formats))
    return "\n".join(_not_a_code(reading, formats))


def _told(
    reading: CodeReading,
    code: FaultCode,
    formats: Sequence[CodeFormat],
    faults: Sequence[tuple[str, str]],
) -> Iterator[str]:
    own = next((each for each in formats if each.id == code.format), None)
    typed = "" if reading.text == code.text else f', read from "{shown(reading.text)}"'
    yield f"{shown(code.text)}: {shown(own.name if own else code.format)}{typed}"
    yield from _structure_lines(structure(code, formats))
    if own and own.per_unit:
        yield "  It means nothing without the control unit that shows it: another unit means something else by it."
    if not faults:
        yield "  No entry has this code."
        return
    yield "  Known faults:"
    yield from (f"    {shown(fault)}: {shown(title)}" for fault, title in faults)


def _structure_lines(parts: CodeStructure) -> Iterator[str]:
    if parts.system is not None:
        yield f"  System: {parts.system} ({parts.system_letter})."
    if parts.controlled_by is not None:
        yield f"  {meaning_words(parts, parts.controlled_by)}"
    if parts.failure_type is not None:
        meaning = parts.failure_type.meaning or "no meaning is listed here; look in the maker's manual"
        yield f"  Failure type {parts.failure_type.code}: {meaning}."


def _undecided(reading: CodeReading, formats: Sequence[CodeFormat]) -> Iterator[str]:
    names = {each.id: each.name for each in formats}
    yield f'"{shown(reading.text)}" fits more than one kind of code. It may be:'
    for code in reading.matches:
        yield f"  {shown(code.text)} ({shown(names.get(code.format, code.format))})"
    yield "  Which one it is depends on the control unit that shows it."


def _not_a_code(reading: CodeReading, formats: Sequence[CodeFormat]) -> Iterator[str]:
    yield f'"{shown(reading.text)}" is no fault code in any of the club\'s formats:'
    for each in formats:
        example = each.example or ("P0133 or P0133-11" if each.is_standard else None)
        yield f"  {shown(each.name)}" + (f", such as {shown(example)}" if example else "")
