"""The sentences of one plan for the faults behind some codes. The browser is given the same ones.

What stands in braces is filled in: `code` is the code itself, or "these codes". The texts are ours and hold no markup.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from kbtools.wording.plan import READ_AGAIN, WORDS

JOINT_WORDS: Final[Mapping[str, str]] = {
    "unlisted_fault": "A fault not described here",
    "this_code": "this code",
    "these_codes": "these codes",
    "from_to": "{low}–{high}\u00a0%",
    "cases_code": "{k} of {n} {cases} with {code}, all models",
    "cases_model": "{k} of them on the {model}",
    "no_cases": "curators' judgement only",
    "unknown": "{code} stands in no entry. Nobody has written about it yet, which is not the same as harmless: ask a "
    "workshop, and tell the club what it was.",
    "unknown_first": "Read it again, with what the control unit stored beside it.",
    "none_here": "No entry with {code} concerns your {bike}, or its control units do not set it. What other bikes have "
    "is below.",
    "none_here_first": "Read it again: is the code right, and is the bike?",
    "too_many": "{n} faults may be behind it, too many for one plan. Choose your bike, and only its own are left; or "
    "look them through below.",
    "too_many_first": "Choose your bike.",
    "too_large": "There are too many ways to go on for one plan. Begin with the page of the likeliest fault.",
    "too_large_first": "Go to the page of the likeliest fault.",
    "no_machine": "No one bike can have all of these faults. Choose your bike, and there is one plan for its own.",
    "no_machine_first": "Choose your bike.",
    "follows": "Where entries have {code}, it follows from another code, or comes with one. Enter them together.",
    "follows_first": "Read out all codes.",
    "left_out": "For one plan it is too much, so the least likely are left out: {faults}. If all else is ruled out, "
    "go on there.",
    "not_here": "Did not come, or says too little for a plan, and so is not in this one: {faults}.",
    "not_here_first": "Open this page again where there is a network.",
    "read_again": READ_AGAIN,
    **{name: WORDS[name] for name in ("percent", "percent_under")},
}
"""By name; `say` in `core/plan-words.js` fills them in."""


def say_joint(name: str, **values: str) -> str:
    """One of the sentences, filled in; plain text, to be escaped by whoever writes it into HTML."""
    return JOINT_WORDS[name].format(**values)
