"""Which faults a code leads to."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from kbtools.model.codes import CodeFormat, FaultCode, structure


def faults_of(
    code: FaultCode,
    faults_by_code: Mapping[FaultCode, Sequence[str]],
    formats: Sequence[CodeFormat],
) -> tuple[str, ...]:
    """Ids of the faults that an owner with this code wants to see, each once, nearest first.

    First those listed under the very code. A reader that shows no failure type and an entry that names none must
    still find each other: then come those under the code without its failure type, or, for a code without one, those
    under it with any. Two different failure types never meet.
    """
    parts = structure(code, formats)
    near = [code, parts.base]
    if parts.system is not None and parts.failure_type is None:
        start = f"{code.text}-"
        longer = [each for each in faults_by_code if each.format == code.format and each.text.startswith(start)]
        near += sorted(longer, key=lambda each: each.text)
    return tuple(dict.fromkeys(fault for each in near for fault in faults_by_code.get(each, ())))
