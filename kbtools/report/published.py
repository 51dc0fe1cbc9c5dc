"""What an entry says to owners once it is published, in five lines: what its author looks at before proposing it."""

from __future__ import annotations

from collections.abc import Iterator

from kbtools.changes.advice import Plans
from kbtools.model.fault import Fault
from kbtools.text.terminal import shown
from kbtools.wording.plan import money_words, percent_words

_SPACES = str.maketrans("\u00a0\u202f", "  ")


def render(fault: Fault, plan: Plans, currency: str) -> str:
    """Lines that say what an owner will read, or that nothing is published.

    Args:
        fault: the entry, without a mistake.
        plan: of it, for an owner of whom nothing is known.
        currency: of the club.
    """
    if fault.withdrawn is not None:
        return "Published, this says that the entry is withdrawn, and why.\n"
    if fault.draft:
        return "A draft: nothing of it is published until the line `draft: true` goes.\n"
    lines = [f"  {name + ':':<17} {value}" for name, value in _rows(fault, plan, currency)]
    return "".join(f"{shown(line.translate(_SPACES))}\n" for line in ("Published, this says:", *lines))


def _rows(fault: Fault, plan: Plans, currency: str) -> Iterator[tuple[str, str]]:
    yield "May I ride it", "nothing" if fault.ride_advice is None else str(fault.ride_advice.level)
    causes = {cause.id: cause for cause in fault.causes}
    kind, _, name = (plan.first or "").partition(":")
    if kind == "check":
        do = next((check.do for check in fault.checks if check.id == name), None)
        yield "First step", do or name
    elif kind in {"fix", "trial_fix"} and name in causes:
        fix = causes[name].fix
        said = "try without proof" if kind == "trial_fix" else "mend at once"
        yield "First step", f"{said}: {fix.summary if fix is not None and fix.summary else name}"
    else:
        yield "First step", "hand the bike over; no check and no trial fix is cheaper" if kind else "no plan"
    if plan.likeliest is not None and plan.likeliest in causes:
        share = percent_words(plan.shares[plan.likeliest])
        yield "Likeliest cause", f"{causes[plan.likeliest].summary} ({share})"
    if plan.expected_cost is not None:
        cost = money_words(plan.expected_cost, currency)
        over = "" if plan.hand_over is None else f"; handing the bike over {money_words(plan.hand_over, currency)}"
        yield "Cost", f"{cost}{over}"
