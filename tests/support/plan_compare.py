"""Compares plans: the same steps in the same order, the same figures to nine digits."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

Record = dict[str, Any]
NEAR = 1e-9


def deviation(wanted: float | None, found: float | None) -> float:
    """By what part of the larger one (or of 1) two figures differ; endless where only one is there."""
    if wanted is None or found is None:
        return 0.0 if wanted is found else float("inf")
    return abs(wanted - found) / max(1.0, abs(wanted), abs(found))


def worst(wanted: Record, found: Record) -> float:
    """The largest deviation of any figure of two plans.

    Raises:
        AssertionError: they take different steps.
    """
    pairs = [(wanted["expected_cost"], found["expected_cost"])]
    pairs += [(wanted["baselines"][name], found["baselines"][name]) for name in ("hand_over", "likeliest_first")]
    pairs += list(step_pairs(wanted["steps"], found["steps"], ""))
    return max(deviation(one, other) for one, other in pairs)


def step_pairs(wanted: list[Record], found: list[Record], path: str) -> Iterator[tuple[float, float]]:
    assert [shape(step) for step in wanted] == [shape(step) for step in found], path
    for number, (one, other) in enumerate(zip(wanted, found, strict=True)):
        yield one["cost"], other["cost"]
        yield one["reach"], other["reach"]
        for outcome in one["outcomes"]:
            yield from step_pairs(one["outcomes"][outcome], other["outcomes"][outcome], f"{path}/{number}/{outcome}")


def shape(step: Record) -> tuple[object, ...]:
    return (step["kind"], step["id"], step.get("where"), sorted(step["access"]), sorted(step["outcomes"]))


def every_step(steps: list[Record]) -> Iterator[Record]:
    """All steps of a tree."""
    for step in steps:
        yield step
        for following in step["outcomes"].values():
            yield from every_step(following)
