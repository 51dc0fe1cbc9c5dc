"""Fault codes: standard ones (SAE J2012 / ISO 15031-6) and a club's own, read and taken apart.

The names that the other layers use. `core/codes.js` does the same in the browser, held to the same vectors.
"""

from __future__ import annotations

from kbtools.model.code_pattern import pattern_problem
from kbtools.model.code_reading import formats_record, read_code
from kbtools.model.code_status import StatusBits
from kbtools.model.code_structure import CodeStructure, FailureType, code_from_bytes, code_to_bytes, structure
from kbtools.model.code_tables import ControlledBy, tables
from kbtools.model.code_told import read_codes
from kbtools.model.code_values import STANDARD, CodeFormat, CodeReading, FaultCode, slug_of

__all__ = [
    "STANDARD",
    "CodeFormat",
    "CodeReading",
    "CodeStructure",
    "ControlledBy",
    "FailureType",
    "FaultCode",
    "StatusBits",
    "code_from_bytes",
    "code_to_bytes",
    "formats_record",
    "pattern_problem",
    "read_code",
    "read_codes",
    "slug_of",
    "structure",
    "tables",
]
