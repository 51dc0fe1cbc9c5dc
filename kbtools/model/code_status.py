"""The status byte of a fault code, ISO 14229-1."""

from __future__ import annotations

from dataclasses import astuple, dataclass
from typing import Self

from kbtools.model.code_tables import STATUS_BITS


@dataclass(frozen=True, slots=True, kw_only=True)
class StatusBits:
    """The eight bits, bit 0 first; names of the standard in snake case."""

    test_failed: bool
    """Bit 0."""
    test_failed_this_operation_cycle: bool
    """Bit 1."""
    pending_dtc: bool
    """Bit 2."""
    confirmed_dtc: bool
    """Bit 3."""
    test_not_completed_since_last_clear: bool
    """Bit 4."""
    test_failed_since_last_clear: bool
    """Bit 5."""
    test_not_completed_this_operation_cycle: bool
    """Bit 6."""
    warning_indicator_requested: bool
    """Bit 7."""

    @classmethod
    def from_byte(cls, byte: int) -> Self:
        """The bits of a status byte. ValueError outside 0 to 255."""
        if not 0 <= byte <= 0xFF:
            raise ValueError(f"a status byte lies between 0 and 255, not {byte}")
        return cls(
            test_failed=bool(byte & 0x01),
            test_failed_this_operation_cycle=bool(byte & 0x02),
            pending_dtc=bool(byte & 0x04),
            confirmed_dtc=bool(byte & 0x08),
            test_not_completed_since_last_clear=bool(byte & 0x10),
            test_failed_since_last_clear=bool(byte & 0x20),
            test_not_completed_this_operation_cycle=bool(byte & 0x40),
            warning_indicator_requested=bool(byte & 0x80),
        )

    def to_byte(self) -> int:
        """The status byte, 0 to 255."""
        return sum(1 << bit for bit, is_set in enumerate(astuple(self)) if is_set)

    @property
    def names(self) -> tuple[str, ...]:
        """Names of the bits that are set, as the standard writes them, bit 0 first."""
        return tuple(name for (name, _), is_set in zip(STATUS_BITS, astuple(self), strict=True) if is_set)

    @property
    def words(self) -> tuple[str, ...]:
        """What the bits that are set say, in plain words, bit 0 first."""
        return tuple(words for (_, words), is_set in zip(STATUS_BITS, astuple(self), strict=True) if is_set)
