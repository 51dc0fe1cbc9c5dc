"""The sentences of shares and of the check plan. The browser is given the same ones, so that both say it alike.

What stands in braces is filled in. The texts are ours and hold no markup; what is filled in is hostile until escaped.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Final

from kbtools.model.money import show_about, show_number

WORDS: Final[Mapping[str, str]] = {
    # Shares.
    "often": "Often",
    "sometimes": "Sometimes",
    "rarely": "Rarely",
    "percent": "{n}\u00a0%",
    "percent_under": "under 1\u00a0%",
    "interval": "between {low} and {high}\u00a0%",
    "cases": "{k} of {n} cases",
    "cases_one": "{k} of 1 case",
    "cases_none": "curator's judgement only",
    "cases_yours": "{n} of them on yours",
    "unlisted": "Something that is not listed here",
    # What the whole costs.
    "cost_plan": "By this plan",
    "cost_likeliest_first": "After the likeliest cause first",
    "cost_hand_over": "Handed over at once",
    "about": "about {money}",
    "minutes": "{n}\u00a0min",
    "hours": "{n}\u00a0h",
    # Where a step stands.
    "start": "Start here",
    "reach": "{n} of 100 bikes get here",
    "reach_under": "fewer than 1 of 100 bikes get here",
    "open_now": "{access} first, included",
    "open_already": "{access} already",
    # What came out.
    "good": "Good",
    "bad": "If not",
    "low": "Too low",
    "high": "Too high",
    "no_help": "If it does not help",
    # What follows. The first part is a link.
    "check": "Next: {check}",
    "check_rest": "{minutes}",
    "it_is": "Then it is: {cause}.",
    "fix_home": "Mend it yourself",
    "fix_home_rest": "about {money}, {minutes} of your own time included.",
    "fix_workshop": "Have it done, and name the cause",
    "fix_workshop_rest": "about {money} in a workshop.",
    "fix_maker": "Have it done by a dealer",
    "fix_maker_rest": "the maker pays; about {money} for getting it there.",
    "inferred": "No check showed it by itself; all else was ruled out. Have it confirmed before you buy parts.",
    "trial_fix": "Try without proof: {cause}",
    "trial_fix_rest": "about {money}, {minutes} of your own time included. If the fault is gone, that was it.",
    "hand_over": "Hand it over",
    "hand_over_rest": "about {money} with finding the fault.",
    "hand_over_say": "Say what you checked and what came out, so that nobody charges you for it again.",
    "left": "Still possible",
    # Beside the cost.
    "no_difference": "It makes no difference to going after the likeliest cause first.",
    "before_riding": "Before it is ridden again, whatever was found",
    "workshop_before_riding": "Not to be ridden before a workshop has done this.",
    "second_fault": "A second fault beside the one that was found: mend both, and do not ride it until this is good.",
    "free_else": "Nothing, if the dealer confirms it by the frame number; else {money}.",
    "may_be_free": "Ask a dealer, with your frame number, before you pay for anything.",
    "not_exact": "There are too many ways to weigh them all: this is a good one, and none costs less than {money}.",
    "confirmed": "{notice}: my dealer has confirmed it by the frame number",
    "now_ride": "May I ride it, with what is known by now? {answer}",
    "members": "Reported by members",
    "second_cause": "A second cause was there in {k} of {n}",
    "contradiction": "These results contradict each other: with all of them no cause is left. Do again the check that "
    "you are least sure of, or hand the bike over.",
}
"""By name; `core/plan.js` and the page's script look them up in the page's data."""

READ_AGAIN: Final = "Several codes may mean several faults: once it is mended, clear them, ride as before, read again."
"""The end of the plan for several codes."""

_MINUTES_SHOWN = 100
"""From so many minutes on, hours are easier to grasp."""


def say(name: str, **values: str) -> str:
    """One of the sentences, filled in; plain text, to be escaped by whoever writes it into HTML."""
    return WORDS[name].format(**values)


def no_difference(expected: float, likeliest_first: float) -> bool:
    """Whether the plan saves less than a tenth against going after the likeliest cause first: no more than a guess."""
    return likeliest_first - expected < likeliest_first / 10


def differ(costs: Sequence[float]) -> bool:
    """Whether the least is a tenth and more below the most: what differs less is no more than a guess."""
    return max(costs) - min(costs) >= max(costs) / 10


def money_words(amount: float, currency: str) -> str:
    """`about 36 EUR`."""
    return say("about", money=show_about(amount, currency))


def minutes_words(minutes: float) -> str:
    """`8 min`, `1.9 h`."""
    if round(minutes) < _MINUTES_SHOWN:
        return say("minutes", n=show_number(round(minutes)))
    return say("hours", n=show_number(round(minutes / 60, 1)))


def percent_words(part: float) -> str:
    """`42 %`; a share that is not nothing never reads as 0."""
    rounded = round(100 * part)
    return say("percent", n=str(rounded)) if rounded or not part else WORDS["percent_under"]


def interval_words(low: float, high: float) -> str:
    """`between 17 and 67 %`."""
    return say("interval", low=str(round(100 * low)), high=str(round(100 * high)))


def reach_words(reach: float) -> str:
    """How many of a hundred bikes get to a step."""
    rounded = round(100 * reach)
    return say("reach", n=str(rounded)) if rounded else WORDS["reach_under"]
