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
    "unknown": "{code} stands in no entry. Nobody has written about it yet, which is not the same as harmless: have it "
    "read again with what the control unit stored beside it, and ask a workshop.",
    "none_here": "No entry with {code} concerns your {bike}. Is that your bike? What other bikes have is below.",
    "too_many": "{n} faults may be behind it, too many for one plan. Choose your bike, and only its own are left; or "
    "look them through below.",
    "too_large": "There are too many ways to go on for one plan. Begin with the page of the likeliest fault.",
    "no_machine": "No one bike can have all of these faults. Choose your bike, and there is one plan for its own.",
    "follows": "Read out all codes first. Where entries have {code}, it follows from another code, or comes with one.",
    "left_out": "For one plan it is too much, so the least likely are left out: {faults}. If all else is ruled out, "
    "go on there.",
    "not_here": "Not on this device, or not written far enough for a plan, and so not in this one: {faults}.",
    "read_again": READ_AGAIN,
    **{name: WORDS[name] for name in ("percent", "percent_under")},
}
"""By name; `say` in `core/plan-words.js` fills them in."""


def say_joint(name: str, **values: str) -> str:
    """One of the sentences, filled in; plain text, to be escaped by whoever writes it into HTML."""
    return JOINT_WORDS[name].format(**values)
