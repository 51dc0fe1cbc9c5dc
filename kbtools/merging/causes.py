"""The causes of a merged draft: the same cause once, with what both say of it."""

from __future__ import annotations

import dataclasses

from kbtools.merging.advice import advice_of_both
from kbtools.merging.each_once import each_once
from kbtools.merging.machines import covered_by_either
from kbtools.merging.rows import filled, rows_of_both
from kbtools.model.fault import Cause, Fault, Fix


def causes_of_both(first: Fault, theirs: Fault) -> tuple[Cause, ...]:
    """The first one's causes, then those that only the second one has; each says on which machines it is known.

    Args:
        first: the fault whose place the draft takes.
        theirs: the other one, its causes with the ids that they have in the draft.
    """
    return rows_of_both(_placed(first), _placed(theirs), _joined)


def _placed(fault: Fault) -> list[Cause]:
    """What an entry says of all its machines, it does not say of the other one's."""
    return [dataclasses.replace(cause, applies_to=cause.applies_to or fault.applies_to) for cause in fault.causes]


def _joined(own: Cause, theirs: Cause) -> Cause:
    return dataclasses.replace(
        filled(own, theirs),
        # What the first one knows of all its machines is not to be made a question of.
        only_if=own.only_if,
        applies_to=covered_by_either(own.applies_to, theirs.applies_to),
        often_with=each_once((*own.often_with, *theirs.often_with)),
        ride_advice=advice_of_both(own.ride_advice, theirs.ride_advice),
        fix=_one_fix(own.fix, theirs.fix),
    )


def _one_fix(own: Fix | None, theirs: Fix | None) -> Fix | None:
    """A fix is one piece of work: what it takes is the first one's word. Cautions are those of both."""
    if own is None or theirs is None:
        return own or theirs
    return dataclasses.replace(filled(own, theirs), cautions=each_once((*own.cautions, *theirs.cautions)))
