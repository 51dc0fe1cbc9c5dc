"""What a change does to the published advice, for a terminal and as JSON."""

from __future__ import annotations

import textwrap
from collections.abc import Callable, Iterator, Mapping, Sequence

from kbtools.changes.advice import NO_PLAN, Advice, Plans
from kbtools.changes.compare import Change, Compared
from kbtools.model.case import UNLISTED
from kbtools.text.terminal import json_text, shown
from kbtools.wording.labels import count_of
from kbtools.wording.plan import money_words, percent_words

NOTHING = "Nothing changes in the published advice."
UNREAD = {"before": "as it was", "now": "as it is"}
_MOST_REASONS = 4
"""Files named behind a change; more are counted."""
_SPACES = str.maketrans("\u00a0\u202f", "  ")
_WIDTH = 100
SMALL = "Costs or shares only, and by little,"
_TENTH = 0.1
_MOVED = 0.05
"""A share that moves by less is not told."""
STEPS = {"check": "check", "trial_fix": "trial fix of", "fix": "mend", "hand_over": "hand the bike over"}


def render_json(compared: Compared) -> str:
    """A list: `fault`, `state`, `level`, `milder`, `first`, `likeliest`, `expected_cost`, `hand_over`, `because`.

    A value that did not change stands twice, one that is not there is null. `beside` is what goes and what comes beside
    level and plan: stop signs, limits, codes, what must be done before riding.
    """
    return json_text([_record(each) for each in compared.changes])


def render(compared: Compared, currency: str) -> str:
    """In words, milder advice first, with a line on top that counts."""
    large, small = by_weight(compared.changes)
    lines = [counted(compared.changes)]
    if compared.club_keys and any(path.endswith("club.yml") for each in compared.changes for path in each.because):
        lines.append(f"club.yml: {', '.join(compared.club_keys)}")
    for change in large:
        lines += ["", *_change(change, currency)]
    for why, faults in small.items():
        lines += ["", f"{SMALL} because of {why}:", *_list(faults)]
    # Spaces that hold a figure and its unit together are for pages; a terminal takes plain ones.
    return "".join(f"{shown(line.translate(_SPACES))}\n" for line in lines)


def _list(faults: Sequence[str]) -> list[str]:
    text = ", ".join(faults)
    return textwrap.wrap(text, _WIDTH, initial_indent="  ", subsequent_indent="  ", break_on_hyphens=False)


def by_weight(changes: Sequence[Change]) -> tuple[Sequence[Change], Mapping[str, Sequence[str]]]:
    """Those that an owner acts otherwise on, and the ids of the others, by the files behind them."""
    large, small = [], dict[str, list[str]]()
    for change in changes:
        if change.state == "changed" and not _acted_on(change):
            small.setdefault(reasons(change), []).append(change.fault)
        else:
            large.append(change)
    return large, small


def _acted_on(change: Change) -> bool:
    old, new = _plan(change.before), _plan(change.now)
    causes = {*old.shares, *new.shares}
    return (
        differs(change, lambda advice: (advice.level, advice.signs, advice.plan.first, advice.plan.likeliest))
        or any(_moved(old.shares.get(each), new.shares.get(each)) for each in causes)
        or any(map(_dearer, (old.expected_cost, old.hand_over), (new.expected_cost, new.hand_over)))
    )


def _dearer(one: float | None, other: float | None) -> bool:
    """Whether a cost is another one by more than a tenth."""
    if one is None or other is None:
        return one is not other
    return abs(one - other) > _TENTH * max(one, other)


def counted(changes: Sequence[Change]) -> str:
    """How many changes there are, of which kind: the line that somebody with twenty proposals reads."""
    if not changes:
        return NOTHING
    kinds: Mapping[str, Callable[[Change], bool]] = {
        "milder": lambda each: each.milder,
        "new": lambda each: each.state == "new",
        "gone": lambda each: each.state == "gone",
        "with another level": lambda each: differs(each, lambda advice: advice.level),
        "with another first step": lambda each: differs(each, lambda advice: advice.plan.first),
        "with another likeliest cause": lambda each: differs(each, lambda advice: advice.plan.likeliest),
    }
    told = [f"{number} {kind}" for kind, of in kinds.items() if (number := sum(map(of, changes)))]
    which = f": {', '.join(told)}" if told else ", in costs, shares or notes only"
    return f"The advice of {count_of(len(changes), 'fault')} changes{which}."


def differs(change: Change, value: Callable[[Advice], object]) -> bool:
    """Whether a value is another one, of a fault that was there before and still is."""
    return change.before is not None and change.now is not None and value(change.before) != value(change.now)


def rows(change: Change, currency: str) -> Iterator[tuple[str, str, str]]:
    """What differs: its name, before, and now; texts of authors in it are hostile."""
    old, new = _plan(change.before), _plan(change.now)
    level = (_level(change.before), _level(change.now))
    if level[0] != level[1]:
        yield ("May I ride it", *level)
    first = (_step(old.first), _step(new.first))
    if first[0] != first[1]:
        yield ("First step", *first)
    likeliest = (_likeliest(old), _likeliest(new))
    if old.likeliest != new.likeliest:
        yield ("Likeliest cause", *likeliest)
    for cause in dict.fromkeys([*old.shares, *new.shares]):
        one, other = old.shares.get(cause), new.shares.get(cause)
        if change.state == "changed" and cause != UNLISTED and _moved(one, other):
            yield (f"Share of {cause}", _share(one), _share(other))
    for name, one, other in (
        ("This plan", old.expected_cost, new.expected_cost),
        ("Handing over", old.hand_over, new.hand_over),
    ):
        words = (_money(one, currency), _money(other, currency))
        if words[0] != words[1]:
            yield (name, *words)


def signs(change: Change) -> tuple[Sequence[str], Sequence[str]]:
    """What is no longer said beside level and plan, and what is new; of a fault that stays."""
    if change.before is None or change.now is None:
        return [], []
    return sorted(change.before.signs - change.now.signs), sorted(change.now.signs - change.before.signs)


def reasons(change: Change, most: int = _MOST_REASONS) -> str:
    """The files behind it, the first ones by name."""
    left = len(change.because) - most
    return ", ".join(change.because[:most]) + (f" and {left} more" if left > 0 else "")


def unread(compared: Compared) -> Iterator[str]:
    """What could not be compared, a sentence each."""
    for side, path in compared.unread:
        yield f"Not compared: {path}, which cannot be read {UNREAD[side]}. kbtools check says why."


def _record(change: Change) -> dict[str, object]:
    old, new = _plan(change.before), _plan(change.now)
    gone, come = signs(change)
    return {
        "fault": change.fault,
        "state": change.state,
        "level": [
            None if change.before is None else change.before.level,
            None if change.now is None else change.now.level,
        ],
        "milder": change.milder,
        "first": [old.first, new.first],
        "likeliest": [old.likeliest, new.likeliest],
        "expected_cost": [old.expected_cost, new.expected_cost],
        "hand_over": [old.hand_over, new.hand_over],
        "because": list(change.because),
        "beside": {"gone": list(gone), "new": list(come)},
    }


def _change(change: Change, currency: str) -> Iterator[str]:
    kind = "MILDER" if change.milder else {"changed": "changed", "new": "new", "gone": "no longer advice"}[change.state]
    yield f"{change.fault} ({kind}): {change.title}"
    for name, old, new in rows(change, currency):
        told = {"new": new, "gone": old}.get(change.state, f"{old} → {new}")
        yield f"  {name + ':':<17} {told}"
    gone, come = signs(change)
    yield from (f"  No longer said:   {each}" for each in gone)
    yield from (f"  Said now:         {each}" for each in come)
    yield f"  Because of:       {reasons(change)}"


def _plan(advice: Advice | None) -> Plans:
    return NO_PLAN if advice is None else advice.plan


def _level(advice: Advice | None) -> str:
    return "nothing" if advice is None or advice.level is None else advice.level


def _step(step: str | None) -> str:
    if step is None:
        return "no plan"
    kind, _, name = step.partition(":")
    return f"{STEPS[kind]} {name}".strip()


def _likeliest(plan: Plans) -> str:
    cause = plan.likeliest
    return "none" if cause is None else f"{cause} ({percent_words(plan.shares[cause])})"


def _moved(one: float | None, other: float | None) -> bool:
    return abs((one or 0.0) - (other or 0.0)) >= _MOVED


def _share(share: float | None) -> str:
    return "not listed" if share is None else percent_words(share)


def _money(amount: float | None, currency: str) -> str:
    return "not known" if amount is None else money_words(amount, currency)
