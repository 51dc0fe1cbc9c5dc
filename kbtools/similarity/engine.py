"""Compares two records field by field. What a record is, and which fields it has, is all in the configuration."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any, Generic, TypeVar

R = TypeVar("R")


@dataclass(frozen=True, slots=True, kw_only=True)
class Field(Generic[R]):
    """One field of a record, and what it says about two of them being the same."""

    name: str
    """As it is shown."""
    read: Callable[[R], Any]
    """The field's value, ready to be compared; None: the record says nothing."""
    like: Callable[[Any, Any], float]
    """How alike two values are, from 0 to 1; symmetric, and 1 for the same value."""
    weight: float = 0.0
    """What the field counts for in the mean; 0: it is a gate only."""
    missing: float | None = None
    """The likeness that is assumed where only one record says something; None: the field is then left out."""
    gate: float = 1.0
    """What is left of the score where the field is wholly unlike; 1: unlikeness costs no more than the weight does."""
    enough: float = 1.0
    """The likeness from which the gate is fully open."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Match:
    """Two records compared."""

    score: float
    """From 0 to 1."""
    fields: Mapping[str, float]
    """How alike they are in each field that both speak of, in the order of the configuration."""


@dataclass(frozen=True, slots=True)
class Matcher(Generic[R]):
    """The weighted mean of the fields' likenesses, times what the gates leave of it, spread by a power."""

    fields: tuple[Field[R], ...]
    """The configuration; gates that cost little to look at stand first."""
    power: float = 1.0
    """The last step. Below 1 it lifts scores, 0 and 1 excepted: the same story in other words shares a third of its
    words only, and a reader expects to see one half there. The order of pairs is the same whatever it is."""

    def compare(self, left: R, right: R) -> Match:
        """The score of two records, and what carried it."""
        likenesses: dict[str, float] = {}
        return Match(score=self._score(left, right, likenesses), fields=likenesses)

    def score(self, left: R, right: R, least: float = 0.0) -> float:
        """The score alone; 0 as soon as the gates leave less than `least` of it, whatever the fields to come say."""
        return self._score(left, right, None, least)

    def compare_from(self, least: float, left: R, right: R) -> Match | None:
        """As `compare`; None where the score is less than `least`."""
        likenesses: dict[str, float] = {}
        score = self._score(left, right, likenesses, least)
        return Match(score=score, fields=likenesses) if score >= least else None

    def _score(self, left: R, right: R, told: dict[str, float] | None, least: float = 0.0) -> float:
        got = weights = 0.0
        left_over = 1.0
        floor = least ** (1.0 / self.power)
        for field in self.fields:
            one, other = field.read(left), field.read(right)
            if one is None and other is None:
                continue
            if one is None or other is None:
                if field.missing is None:
                    continue
                likeness = field.missing
            else:
                likeness = field.like(one, other)
                if told is not None:
                    told[field.name] = likeness
            weights += field.weight
            got += field.weight * likeness
            if field.gate < 1.0:
                left_over *= field.gate + (1.0 - field.gate) * min(1.0, likeness / field.enough)
                if left_over < floor:
                    return 0.0
        return float((left_over * got / weights) ** self.power) if weights else 0.0
