"""Which dangers a text about work asks for, by the sense of its clauses.

A text is read sentence by sentence. An idea counts where it is asked for: "never open it hot" and "nobody puts a finger
near" ask for nothing, and a sentence that tells what comes of it warns. How the machine is meanwhile is told by what
is said nearest to the deed, else by the entry's own keys: "engine off, key out: pull the caps" is about a machine that
stands. All of it is plain English, no source.
"""

from __future__ import annotations

import functools
import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Final

from kbtools.model.unsafe import UnsafeRow, UnsafeWords
from kbtools.model.vocabulary import Tables
from kbtools.vocabulary.stems import folded, stem
from kbtools.vocabulary.unsafe_words import unsafe_words

WARNS: Final = "warns"
"""The idea whose sentences tell what comes of it."""
_TOKEN: Final = re.compile(r"\d+(?:[.,]\d+)*|[^\W\d_]+|[.!?\n]+|[,;:()–—]|\.\.\.")
_ENDS: Final = frozenset(".!?\n")
_BREAKS: Final = frozenset(",;:()–—")
_TURNS: Final = frozenset({"but", "then", "so"})
"""Words with which another clause begins."""
_DENIES: Final = frozenset(
    re.findall(
        r"\w+",
        """
        not never nobody nor neither cannot cant dont doesnt mustnt shouldnt avoid refrain without no isnt arent instead
        rather
        """,
    )
)
NUMBER: Final = "0"
"""Stands for every number."""
_NUMBERS: Final = frozenset({"ten", "fifteen", "twenty", "thirty", "forty", "fifty", "sixty", "eighty", "hundred"})
"""Numbers that are written out where a figure would stand: "thirty amps"."""
NOTHING: Final = "nothing"
"""The idea whose phrases hide what they hold: "cold water" does not say that the engine is cold."""
_WHOEVER: Final = frozenset({"whoever", "who", "anybody", "anyone", "somebody", "someone", "people"})
_THINGS: Final = frozenset(
    re.findall(
        r"\w+",
        """
        thing something anything nothing everything spring ring string steering bearing wiring coupling fairing evening
        morning during lining casing tubing fitting bushing housing reading
        """,
    )
)
"""Words in -ing with which no deed begins a sentence."""
_INFLECTED: Final = re.compile(r"(?:ing|ed|[^s]s)$")
"""A verb in another form than an order has, or several things."""
_APOSTROPHE: Final = re.compile(r"(?<=\w)['’](?=\w)")
_SHORT: Final = frozenset({"no", "without", "instead", "rather"})
"""They deny the next words only, and not the rest of the clause."""
_REACH, _GAP, _CLOSE = 4, 5, 12
"""Words that a short one denies; that `..` stands for at most; between the ideas of one act, and for `...`."""
_LONGEST: Final = 4000
"""Characters of a text that are looked at."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Hit:
    """An idea in a text: from which word to which, in which clause and sentence, and whether it is denied."""

    idea: str
    start: int
    end: int
    clause: int
    sentence: int
    denied: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Danger:
    """A danger that a text asks for."""

    kind: str
    """Which one."""
    words: str
    """The words that say it, from the first to the last, as they are written."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Words:
    """A text's words, with the number of their clause and sentence."""

    raw: Sequence[str]
    stems: Sequence[str]
    clause: Sequence[int]
    sentence: Sequence[int]
    spans: Sequence[tuple[int, int]]


class UnsafeReader:
    """The words about danger, made ready for reading texts."""

    def __init__(self, words: UnsafeWords) -> None:
        """Take what the file says."""
        self._rows = words.rows
        self._other: Final = {**dict(words.states), **{right: left for left, right in words.states}}
        self._whole_acts: Final = frozenset(frozenset(row.act) for row in words.rows)
        self._acts: Final = frozenset(row.act[0] for row in words.rows)
        self._by_first: dict[str, list[_Phrase]] = {}
        for idea in words.ideas:
            for phrase in idea.phrases:
                steps = [_step(each) for each in phrase.split()]
                later = tuple(each.stems for each in steps[1:] if each.stems)
                for first in steps[0].stems:
                    self._by_first.setdefault(first, []).append((idea.name, steps, later))
        for ways in self._by_first.values():
            ways.sort(key=lambda each: each[0] != NOTHING)
        parts = frozenset(idea for row in words.rows for idea in row.act)
        self._parts: dict[str, list[_Phrase]] = {}
        for first, ways in self._by_first.items():
            own = [way for way in ways if way[0] in parts]
            if own:
                self._parts[first] = own
        self._firsts, self._firsts_of_parts = frozenset(self._by_first), frozenset(self._parts)

    def dangers(self, text: str, states: Iterable[str] = (), *, bare: bool = False) -> Iterator[Danger]:
        """The dangers that a text asks for, each kind once.

        Args:
            text: what an author wrote, Markdown or plain.
            states: how the machine is where the text does not say.
            bare: an act counts only as an order has it ("open", not "opens"): of a text that tells rather than asks.
        """
        text = _APOSTROPHE.sub("", text[:_LONGEST])
        phrases = self._possible(text)
        if not phrases:
            return
        words = _words(text)
        hits = list(self._hits(words, phrases, bare=bare))
        names = {hit.idea for hit in hits}
        told: set[str] = set()
        known = frozenset(states)
        for row in self._rows:
            if row.kind not in told and names.issuperset(row.act):
                found = self._act(row, hits, known)
                if found is not None:
                    told.add(row.kind)
                    start, end = words.spans[found[0]][0], words.spans[found[1] - 1][1]
                    yield Danger(kind=row.kind, words=text[start:end])

    def _possible(self, text: str) -> Mapping[str, Sequence[_Phrase]]:
        """The phrases all of whose words are somewhere in the text, by the first one; none where no act is among them.

        Most texts ask for nothing that has a row, and that is told without looking where which word stands.
        """
        stems = {_told(each)[1] for each in set(_TOKEN.findall(text))}
        ideas = {
            way[0]
            for first in self._firsts_of_parts & stems
            for way in self._parts[first]
            if not any(map(stems.isdisjoint, way[2]))
        }
        if not any(map(ideas.issuperset, self._whole_acts)):
            return {}
        return {
            first: [way for way in self._by_first[first] if not any(map(stems.isdisjoint, way[2]))]
            for first in self._firsts & stems
        }

    def _hits(self, words: _Words, phrases: Mapping[str, Sequence[_Phrase]], *, bare: bool) -> Iterator[_Hit]:
        denied = frozenset(_denied(words))
        tells = frozenset(_telling_sentences(words))
        hidden, since = 0, -1
        for place, first in enumerate(words.stems):
            told = bare or words.sentence[place] in tells
            for idea, steps, _ in phrases.get(first, ()):
                end = _reached(words, place, steps, bare=told and idea in self._acts)
                if end and idea == NOTHING:
                    hidden, since = max((hidden, since), (end, place))
                # What is said by the very same words is not within them.
                elif end > hidden or (end and (end, place) == (hidden, since)):
                    clause, sentence = words.clause[place], words.sentence[place]
                    yield _Hit(
                        idea=idea, start=place, end=end, clause=clause, sentence=sentence, denied=place in denied
                    )

    def _act(self, row: UnsafeRow, hits: Sequence[_Hit], known: frozenset[str]) -> tuple[int, int] | None:
        """Where the text asks for a row's act: its first word and the word behind its last one."""
        if any(hit.idea in row.unless and not hit.denied for hit in hits):
            return None
        said = {hit.idea for hit in hits}
        if any(state in row.unless and self._other.get(state) not in said for state in known):
            return None
        warned = {hit.sentence for hit in hits if hit.idea == WARNS and not hit.denied}
        for first in hits:
            if first.idea != row.act[0] or first.denied or first.sentence in warned:
                continue
            here = [hit for hit in hits if hit.sentence == first.sentence and not hit.denied]
            near = [first]
            for idea in row.act[1:]:
                found = [hit for hit in here if hit.idea == idea and _close(first, hit)]
                if not found:
                    break
                near.append(min(found, key=lambda hit: _apart(first, hit)))
            else:
                if {hit.idea for hit in here}.issuperset(row.having) and self._in_state(row, first, hits, known):
                    return min(hit.start for hit in near), max(hit.end for hit in near)
        return None

    def _in_state(self, row: UnsafeRow, act: _Hit, hits: Sequence[_Hit], known: frozenset[str]) -> bool:
        """Whether the machine is as the row has it: told in the act's clause, else before it, else behind it."""
        if row.state is None:
            return True
        other = self._other.get(row.state)
        told = [hit for hit in hits if hit.idea in {row.state, other} and hit.sentence <= act.sentence]
        if not told:
            return row.state in known
        nearest = (
            [hit for hit in told if hit.clause == act.clause]
            or [hit for hit in told if hit.end <= act.start][-1:]
            or told[:1]
        )
        return any((hit.idea == row.state) != hit.denied for hit in nearest)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Step:
    """A word of a phrase."""

    stems: frozenset[str]
    """Its ways without their endings; none: a gap."""
    forms: frozenset[str]
    """Its ways as the file has them."""
    exact: bool
    """Whether other forms of them are other words."""
    wide: bool
    """A gap that may cross into other clauses of the sentence."""


_Phrase = tuple[str, Sequence[_Step], tuple[frozenset[str], ...]]
"""Its idea, its steps, and the ways of each step behind the first one that is no gap."""


def _step(text: str) -> _Step:
    ways = () if text in {"..", "..."} else text.removeprefix("=").split("|")
    return _Step(
        stems=frozenset(_stem(each) for each in ways),
        forms=frozenset(ways),
        exact=text.startswith("="),
        wide=text == "...",
    )


def _reached(words: _Words, place: int, steps: Sequence[_Step], *, bare: bool) -> int:
    """The word behind a phrase that begins at a place; 0: it does not."""
    at, gap, within = place, 0, words.clause
    for step in steps:
        if not step.stems:
            gap, within = (_CLOSE, words.sentence) if step.wide else (_GAP, words.clause)
            continue
        while at < len(words.stems) and within[at] == within[place] and not _fits(words, at, step, bare=bare):
            if not gap:
                return 0
            at, gap = at + 1, gap - 1
        if at == len(words.stems) or within[at] != within[place]:
            return 0
        # Only the first word of a description must stand there as an order has it.
        at, gap, bare = at + 1, 0, False
    return at


def _fits(words: _Words, at: int, step: _Step, *, bare: bool) -> bool:
    if step.exact:
        return words.raw[at] in step.forms
    if bare and _INFLECTED.search(words.raw[at]):
        return False
    return words.stems[at] in step.stems


@functools.lru_cache(maxsize=65536)
def _told(token: str) -> tuple[str, str]:
    """A word or sign of a text, folded and without its ending; kept, since a base has a few thousand of them."""
    word = folded(token)
    return word, _stem(word)


def _stem(word: str) -> str:
    return NUMBER if word[0].isdigit() or word in _NUMBERS else stem(word)


def _denied(words: _Words) -> Iterator[int]:
    """The places of words that are denied: behind a negation, to the end of its clause or, of a short one, nearby."""
    last = len(words.raw)
    for place, word in enumerate(words.raw):
        if word not in _DENIES:
            continue
        clause, at = words.clause[place], place + 1
        # "Never, not even for the way home, open it": with nothing behind it in its clause it is about the next one.
        if at < last and words.clause[at] != clause:
            clause = words.clause[at]
        end = min(last, at + _REACH) if word in _SHORT else last
        while at < end and words.clause[at] == clause:
            yield at
            at += 1


def _telling_sentences(words: _Words) -> Iterator[int]:
    """The sentences that tell what somebody does: "whoever pulls it …", "opening it hot …"."""
    last = -1
    for raw, sentence in zip(words.raw, words.sentence, strict=True):
        if sentence != last and (raw in _WHOEVER or (raw.endswith("ing") and raw not in _THINGS)):
            yield sentence
        last = sentence


def _close(left: _Hit, right: _Hit) -> bool:
    """Whether two ideas may be parts of one act: near, and not told by the same words."""
    return _apart(left, right) <= _CLOSE and (left.start, left.end) != (right.start, right.end)


def _apart(left: _Hit, right: _Hit) -> int:
    return max(0, left.start - right.end, right.start - left.end)


def _words(text: str) -> _Words:
    raw: list[str] = []
    stems: list[str] = []
    clauses: list[int] = []
    sentences: list[int] = []
    spans: list[tuple[int, int]] = []
    clause = sentence = 0
    for found in _TOKEN.finditer(text):
        word, bare = _told(found.group())
        if word[0] in _ENDS:
            clause, sentence = clause + 1, sentence + 1
        elif word in _BREAKS:
            clause += 1
        else:
            clause += word in _TURNS
            raw.append(word)
            stems.append(bare)
            clauses.append(clause)
            sentences.append(sentence)
            spans.append(found.span())
    return _Words(raw=raw, stems=stems, clause=clauses, sentence=sentences, spans=spans)


@functools.lru_cache(maxsize=2)
def unsafe_reader(tables: Tables) -> UnsafeReader:
    """The reader of what these tables say; kept, since they stay what they are."""
    return UnsafeReader(unsafe_words(tables.unsafe))
