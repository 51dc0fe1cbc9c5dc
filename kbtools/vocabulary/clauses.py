"""A text as clauses, and what each says by the way: that something is well then, that it ends, that it is an exception.

"Fine when hot" is about cold, "until it is warm" too, and "fine except when hot" is about hot. What stands in contrast
to the trouble, or is only wished for, is no part of it: "hot although the engine is cool", "open when it should be
shut". The patterns are those of plain English, no source.
"""

from __future__ import annotations

import re
from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Final

from kbtools.vocabulary.stems import NOT, sequence

_WHEN = r"(?=\s+(?:when|while|if|as|once|at|in|on|with|by|after|before|below|above|under|from|until)\b)"
_IS = r"(?:is|are|was|runs?|goes|gets|feels?|falls?|becomes?|stays|looks|turns)\s+"

_NICELY = r"(?:well|briskly|strongly|smoothly|cleanly|nicely|sweetly|properly|easily|happily|freely|perfectly)"

_WELL: Final = re.compile(
    r"^\s*(?:silent|dry)\b|\b(?:"
    r"(?:fine|okay|ok|all good|still good|is good|unaffected|faultless(?:ly)?|flawless(?:ly)?)\b|"
    rf"all right{_WHEN}|alright{_WHEN}|smooth{_WHEN}|perfect(?:ly)?{_WHEN}|happy{_WHEN}|"
    r"only\b.*\b(?:left|remains|works?|warm|lit|bright)\s*$|"
    rf"good(?:\s+\w+)?(?:\s+only)?{_WHEN}|{_NICELY}(?:\s+only)?{_WHEN}|well (?=cold|cool|hot|warm)|"
    r"(?:fires|works|pulls|holds|grips|charges|lasts|behaves)\b[^,]*\buntil\b|"
    rf"(?:is|stays|goes) tight{_WHEN}|does\s*$|"
    r"(?:gives|charges|works|starts|fires|pulls|brakes|lights)(?:\s+(?:enough|well|up|properly))?\s+only\b|"
    r"only (?:charges|works|starts|fires|pulls|brakes|lights)\b|"
    r"(?:nothing wrong|no (?:trouble|problem|complaint)s?|without (?:fault|trouble|problems?))\b|"
    rf"{_IS}normal\b|normal{_WHEN}|{_IS}perfect\b|{_IS}better\b|better{_WHEN}|{_IS}quiet\b|quiet{_WHEN}|"
    rf"works(?:(?:\s+only)?{_WHEN}|\s+(?:fine|well|properly|again)\b|\s*$)|"
    r"(?:disappears|recovers|restarts|goes away|go away|vanish(?:es)?|ceases|cured|cures)\b|"
    rf"(?:less|milder|weaker|eases|eases off|lets up|subsides|calms down){_WHEN}|gone{_WHEN}|"
    rf"(?:comes?|returns?|is) back{_WHEN}|returns{_WHEN}|"
    r"(?:works?|runs?|starts?|fires|bites|charges|comes?|goes|there|back|on|free|normal|fine|dry) again\b"
    r")",
    re.IGNORECASE,
)
"""What is well there is not the trouble."""
_NOT_WELL: Final = re.compile(
    r"\b(?:not|no|nothing|never|hardly|(?:does|did|is|was|will|wo|ca)n[o']?t)\s+(?:\w+\s+){0,2}$", re.IGNORECASE
)
"""What stands before such words and takes them back: "no better when warm", "will not start again"."""

_BREAK: Final = re.compile(r"[,;:.!?()\n]|\b(?:but|then|and(?! again))\b", re.IGNORECASE)

_ASIDE: Final = (
    re.compile(r"\b(?:although|though|despite|in spite of)\b[^,;:.!?()\n]*", re.IGNORECASE),
    re.compile(r"\b(?:rather than|instead of|unlike|as opposed to)(?:\s+\w+){1,2}", re.IGNORECASE),
    re.compile(
        r"\b(?:(?:cured|fixed|mended|solved|helped|stopped) (?:by|with|after)|goes (?:away )?with (?:more|less))\b"
        r"[^,;:.!?()\n]*",
        re.IGNORECASE,
    ),
    re.compile(r"\b(?:thinks|believes|assumes|imagines)\b[^,;:.!?()\n]*", re.IGNORECASE),
    re.compile(r"\b(?:(?:when|where|while|if)\s+)?(?:\w+\s+)?should\b[^,;:.!?()\n]*", re.IGNORECASE),
)
"""What stands in contrast to the trouble, or is only thought or wished for."""
_TRIED: Final = re.compile(
    r"\b(?:taken (?:out|off)|pulled (?:out|off)|unplugged|disconnected|bridged|clamped off)\b", re.IGNORECASE
)
_ONCE: Final = re.compile(r"\b(?:with|when|once|if|after)\b", re.IGNORECASE)
"""Before such a word: what was seen when somebody tried things out."""
_LONGEST: Final = 400
"""Characters of a text that are looked at: the patterns take longer than in proportion, and a text may be hostile."""

_SHOWN: Final = re.compile(
    r"(\b(?:gauge|display|needle|bars?|dash|thermometer)\b[^,;:.!?()\n]{0,80}?)"
    r"\b(?:with|when|while)\b(?:\s\w+){0,3}?\s(?:cool|cold|warm|hot)\b",
    re.IGNORECASE,
)
"""What an instrument shows is the trouble, and how the engine really is stands in contrast to it."""

_SIDES: Final = r"(front|rear|back|left|right|upper|lower|inner|outer|inlet|exhaust|low|high|dipped|main|brake|tail)"
_BOTH: Final = re.compile(rf"\b{_SIDES}\s+(and|or|to)\s+{_SIDES}\s+(\w+)", re.IGNORECASE)
"""One word for two: "front and rear lamps" are front lamps and rear lamps."""

_LIST: Final = re.compile(
    r"\b(\w+),\s*(\w+)\s+(and|or)\s+(\w+)\s+(lamps?|lights?|sensors?|switch(?:es)?|fuses?|relays?|hoses?|cables?|seals?)\b",
    re.IGNORECASE,
)
"""The same for three: "oil, charge and engine lamp"."""
_ANTI_LOCK: Final = re.compile(r"\banti[-\s]?lock(?:ing)?\b", re.IGNORECASE)

_PREPOSITIONS: Final = frozenset(
    sequence("on in at when with while for from of after to under by if as once until into before except")
)
_UNTIL: Final = frozenset(sequence("until till"))
_EXCEPT: Final = frozenset(sequence("except apart"))
_MERELY: Final = frozenset(sequence("only just merely"))
_DEGREES: Final = frozenset(sequence("too very so quite really get be become fully properly completely any enough"))
"""Words between a negation and what it denies: "not too hot". Before another word it denies that one: "does not idle
warm"."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Clause:
    """A part of a sentence."""

    words: Sequence[str]
    """Every word in order, as `sequence` gives them."""
    well: bool
    """Whether it says that something is well."""

    def turned(self, place: int, own: Collection[int] | None = ()) -> bool | None:
        """Whether the word at a place is said of the other side; None if of both ("not only when hot").

        Args:
            place: number of the word.
            own: places of negations that belong to the phrase which begins there or before; None: negations are no
                matter, since the word says where or which ("no front brake" is about the front).
        """
        before = self.words[:place]
        if any(each == NOT and after in _MERELY for each, after in pairwise(before[-4:])):
            return None
        denied = own is not None and self._denied(place, own)
        yet_to_come = own is not None and self._yet_to_come(place)
        turns = [self.well, denied, yet_to_come, bool(_EXCEPT.intersection(before))]
        return turns.count(True) % 2 == 1

    def _denied(self, place: int, own: Collection[int]) -> bool:
        """Whether a negation before is meant for this word: "not hot"; not "nothing on hot days"."""
        if self.words[place] in _PREPOSITIONS:
            return False
        if place and self.words[place - 1] == NOT:
            return place - 1 not in own
        if place > 1 and self.words[place - 2] == NOT and self.words[place - 1] in _DEGREES:
            return place - 2 not in own
        return False

    def denies(self, place: int) -> bool:
        """Whether a negation stands before the word at a place, at most one word between that is no preposition."""
        for at in range(place - 1, max(-1, place - 3), -1):
            if self.words[at] in _PREPOSITIONS:
                return False
            if self.words[at] == NOT:
                return True
        return False

    def _yet_to_come(self, place: int) -> bool:
        """Whether the word says when something ends; "not until hot" says when it begins."""
        near = range(max(0, place - 4), place)
        return any(self.words[at] in _UNTIL and (at == 0 or self.words[at - 1] != NOT) for at in near)


def plain(text: str) -> str:
    """The text without what stands in contrast to it, or is wished for, and each side with its own word."""
    text = _LIST.sub(r"\1 \5, \2 \5 \3 \4 \5", _ANTI_LOCK.sub("abs", text[:_LONGEST]))
    text = _BOTH.sub(r"\1 \4 \2 \3 \4", text)
    for aside in _ASIDE:
        text = aside.sub(" ", text)
    return text


def clauses(text: str) -> Iterator[Clause]:
    """The clauses of a text."""
    for part in _BREAK.split(_SHOWN.sub(r"\1", plain(text))):
        tried = _TRIED.search(part)
        if tried is not None and _ONCE.search(part, 0, tried.start()) is not None:
            continue
        said = _WELL.search(part)
        well = said is not None and _NOT_WELL.search(part[: said.start()]) is None
        yield Clause(words=sequence(part), well=well)
