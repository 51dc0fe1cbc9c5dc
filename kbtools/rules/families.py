"""The families of rules: the first digit of a code."""

from __future__ import annotations

from collections.abc import Mapping

FAMILIES: Mapping[str, str] = {
    "0": "The rules themselves",
    "1": "Form of a file",
    "2": "Shape of an entry",
    "3": "References",
    "4": "Meaning",
    "5": "Safety and privacy",
    "6": "Duplicates and contradictions",
    "7": "Freshness and coverage",
}
"""Digit to what the family is about."""


def family_of(code: str) -> str:
    """What the family of a rule is about, by the rule's code.

    Raises:
        KeyError: there is no such family.
    """
    return FAMILIES[code[2]]
