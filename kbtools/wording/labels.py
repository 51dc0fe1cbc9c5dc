"""The words in which pages say what the entries say in ids. One place, so that a page never says a thing two ways."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Final

from kbtools.model.case import CodeStatus, OutcomeState, PaidWhere
from kbtools.model.catalogue import BikeState, Component, Skill, Zone
from kbtools.model.fault import Cause, SourceKind, Starting
from kbtools.model.money import show_number
from kbtools.model.ride_advice import RideAdvice, RideLevel
from kbtools.model.years import Years


@dataclass(frozen=True, slots=True, kw_only=True)
class RideWords:
    """A ride advice in words, and the name of its look."""

    look: str
    """Name of its drawing and its colours: `stop`, `workshop`, `care`, `free` or `unknown`."""
    word: str
    """For a list."""
    answer: str
    """The answer to "May I ride it?"."""


RIDE: Final[Mapping[RideLevel | None, RideWords]] = {
    "do-not-ride": RideWords(look="stop", word="Do not ride", answer="No. Do not ride it."),
    "ride-to-workshop": RideWords(look="workshop", word="Ride to the workshop only", answer="To the workshop only."),
    "ride-with-care": RideWords(look="care", word="Ride with care", answer="Yes, with care."),
    "no-restriction": RideWords(look="free", word="No restriction", answer="Yes, without restriction."),
    None: RideWords(look="unknown", word="Not known", answer="Not known."),
}
"""None is what nobody has said: never the same as no restriction."""

_ONCE: Final[Mapping[RideLevel | None, str]] = {
    "do-not-ride": "do not ride it",
    "ride-to-workshop": "to the workshop only",
    "ride-with-care": "with care",
    "no-restriction": "without restriction",
    None: "not known",
}


def verdict(level: RideLevel | None, starting: Starting | None) -> str:
    """The answer to "May I ride it?": of a bike that does not start, what holds once it runs."""
    if starting is None:
        return RIDE[level].answer
    return f"It {'will' if starting == 'yes' else 'may'} not start. Once it runs: {_ONCE[level]}."


def limits(advice: RideAdvice) -> str | None:
    """How fast and how far at most, a sentence; None where the advice does not say."""
    speed = f"no faster than {advice.max_speed.text}" if advice.max_speed is not None else ""
    way = f"no farther than {advice.max_distance.text}" if advice.max_distance is not None else ""
    said = " and ".join(each for each in (speed, way) if each)
    return f"{said[0].upper()}{said[1:]}." if said else None


SKILL: Final[Mapping[Skill, str]] = {
    "home": "Anyone with usual tools",
    "experienced": "An experienced owner",
    "workshop": "Workshop only",
}
BIKE: Final[Mapping[BikeState, str]] = {
    "off": "Key off",
    "key-on": "Key on, engine off",
    "cranking": "Starter turning the engine",
    "running": "Engine running",
    "riding": "On the road",
}
ZONE: Final[Mapping[Zone, str]] = {
    "handlebar": "at the handlebar",
    "steering-head": "at the steering head",
    "front-end": "in front, behind the headlamp",
    "fork": "at the fork",
    "front-wheel": "at the front wheel",
    "radiator": "at the radiator",
    "tank": "below or in the tank",
    "engine-top": "at the top of the engine",
    "engine-side": "at the engine case",
    "under-seat": "under the seat",
    "side-cover": "behind a side cover",
    "swing-arm": "at the swing arm",
    "rear-wheel": "at the rear wheel",
    "tail": "at the tail",
    "exhaust": "at the exhaust",
}
"""Where on the bike, for who cannot see the drawing."""
SOURCE: Final[Mapping[SourceKind, str]] = {
    "first-hand": "Seen first-hand",
    "forum": "Forum",
    "article": "Article",
    "manual": "Manual",
    "bulletin": "Bulletin",
    "recall": "Recall",
    "regulation": "Regulation",
    "standard": "Standard",
}
STATE: Final[Mapping[OutcomeState, str]] = {
    "open": "Still open",
    "solved": "Solved",
    "returned": "Came back after the fix",
}
# Common practice, no source.
STATUS_MEANS: Final[tuple[tuple[CodeStatus, str], ...]] = (
    (
        "stored",
        "The unit has noticed it, perhaps long ago. Where it is not present as well, note it with all that is stored "
        "beside it, clear it, ride as far as the advice above lets you, and see whether it comes back, before you buy "
        "parts.",
    ),
    ("present", "It is there now, so that every check below can find it. Check first, clear afterwards."),
    (
        "pending",
        "Seen, but not often enough to be stored yet. Note it and read again after the next rides: by then it is "
        "stored or gone.",
    ),
    (
        "intermittent",
        "It comes and goes: look at plugs, cables and earths first, and move them while you measure. A check that says "
        "something only while the fault is there has to wait for it.",
    ),
)
"""What the status of a code means for the next step, plain text."""
WHERE: Final[Mapping[PaidWhere, str]] = {"home": "at home", "workshop": "in a workshop"}

_SHARE_WORDS: Final = {6.0: "Often", 3.0: "Sometimes", 1.0: "Rarely"}
_OFTEN = 0.4
_SOMETIMES = 0.15
_MONTHS: Final = (
    "January",
    "February",
    "March",
    "April",
    "May",
    "June",
    "July",
    "August",
    "September",
    "October",
    "November",
    "December",
)


def share_words(causes: Sequence[Cause]) -> tuple[str | None, ...]:
    """How often each cause is the one, in words; None for all where the entry does not say, or names only one cause.

    Where all weights are those of `often`, `sometimes` and `rarely`, these are the words. Other weights are judged by
    their part of the sum: from 0.4 on often, from 0.15 on sometimes.
    """
    weights = [cause.share for cause in causes]
    known = [weight for weight in weights if weight is not None]
    if len(known) < 2 or len(known) != len(weights):
        return (None,) * len(causes)
    if all(weight in _SHARE_WORDS for weight in known):
        return tuple(_SHARE_WORDS[weight] for weight in known)
    total = sum(known)
    return tuple(judged(weight / total) for weight in known)


def judged(part: float) -> str:
    """How often a cause with this part of all is the one, in a word."""
    if part >= _OFTEN:
        return "Often"
    return "Sometimes" if part >= _SOMETIMES else "Rarely"


def show_years(years: Years) -> str:
    """Years as people read them: `2003–2008`, `2007`, `2010 on`, `to 2008`, `all years`."""
    if years.first is None:
        return "all years" if years.last is None else f"to {years.last}"
    if years.last is None:
        return f"{years.first} on"
    return str(years.first) if years.first == years.last else f"{years.first}–{years.last}"


def day(date: dt.date) -> str:
    """A day as people read it, whatever the language of the machine that builds: `14 March 2026`."""
    return f"{date.day} {_MONTHS[date.month - 1]} {date.year}"


def month(date: dt.date) -> str:
    """The month of a day: `March 2026`."""
    return f"{_MONTHS[date.month - 1]} {date.year}"


def count_of(number: int, one: str, many: str | None = None) -> str:
    """A count with its noun: `1 fault`, `3 faults`; `many` where the plural is not made with an s."""
    return f"{number} {one if number == 1 else many or f'{one}s'}"


def count_of_cases(strength: float) -> str:
    """What a judgement weighs, in cases: `1 case`, `4 cases`, `2.5 cases`."""
    return count_of(int(strength), "case") if strength == int(strength) else f"{show_number(strength)} cases"


def place_words(components: Iterable[Component]) -> str:
    """Where components are on the bike, for who cannot see the drawing: `Marked on an outline: under the seat`."""
    zones = dict.fromkeys(each.zone for each in components if each.zone is not None)
    return f"Marked on an outline of a motorcycle: {', '.join(ZONE[each] for each in zones)}"
