"""What looks like the name of a person: capitalised words behind `Owner:`, `thanks to`, `by` or a form of address.

A guess, and only ever warned of. How much it takes depends on what stands before: behind a form of address any
capitalised word is a name; behind `thanks to` or `ask for` any that no noun follows; behind `by`, `from` and the like a
given name that means nothing else, or two words; and such a given name counts anywhere if another word follows.
The words are common knowledge of the languages, no source.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from kbtools.personal.given_names import GIVEN_NAMES
from kbtools.personal.name_words import (
    ABSTRACT,
    ADDRESS,
    ADJECTIVE,
    BEHIND,
    CALENDAR,
    CUES,
    HONORIFIC,
    HUMAN,
    LABELS,
    NO_NAME,
    NOUN_BEHIND,
    PERSON,
    PERSON_CUES,
    POSSESSED,
    ROLES,
    SIGN_OFF,
    SMALL_CUE,
    SMALL_TITLE,
    STRONG,
    STRONG_CUES,
    TITLES,
    WEAK,
)
from kbtools.personal.span import Span, apart, even, has_any, without_underscores, without_urls

_UPPER = "A-ZÀ-ÖØ-ÞĀ-ŽА-ЯЁІЇЄΑ-Ω"
_LOWER = r"[^\W\d_A-ZÀ-ÖØ-ÞА-ЯЁІЇЄΑ-Ω]"
_ONE = rf"(?:[DLO]['’]|Mac|Mc|De|Di|Le|La|Van)?[{_UPPER}]{_LOWER}{{1,25}}"
_WORD = rf"(?:{_ONE}(?:-{_ONE})?(?!\w)|[{_UPPER}]\.)"
"""A capital and small letters, which abbreviations have not; or an initial."""
_OF = r"(?:(?:von|van|de|der|den|del|della|di|da|dos|le|la|af|zu|ten|ter|bin|al) ){0,2}"
_RUN = re.compile(rf"(?<![\w'’.-]){_WORD}(?:,? ?(?<=[ .]){_OF}{_WORD}){{0,3}}")
_TOKEN = re.compile(_WORD)
_LOUD = rf"[{_UPPER}][\w'’]{{1,30}}(?:-[{_UPPER}][\w'’]{{1,30}})?"
"""Capitals throughout as well: what is signed often has them."""
_FULL = rf"(?:(?:{_LOUD}|[{_UPPER}]\.) ){{1,3}}{_LOUD}|{_LOUD}, (?:{_LOUD}|[{_UPPER}]\.)"
_SIGNED = re.compile(rf"{LABELS}(?P<name>{_FULL})")
_LABEL = re.compile(rf"{LABELS}$")
_BEGINNINGS = CUES | TITLES | NO_NAME
_SMALL = re.compile(rf"(?<![\w'’.-])(?i:{SMALL_CUE}) (?P<name>[a-zà-ÿ]{{3,15}})(?=$|[\s,.!?:;)'’])(?![\w.-]*@|\.\w)")
_SMALL_INITIAL = re.compile(
    r"(?<!\w)(?:owner|author|credits?|photo|pic|picture|by|from|thanks to|thx to|source|signed|drawn by):? "
    r"(?P<name>[a-z]\. ?(?:[a-z]\. ?)?[a-zà-ÿ]{4,20})(?!\w)"
)
_FILE_OR_ID = re.compile(
    r"(?<![\w/-])[a-z0-9]+(?:-[a-z0-9]+)+(?=\.(?:jpe?g|png|pdf|mp4|webp|mov|txt|csv|zip)(?!\w))|(?<=bike: "
    r")[a-z0-9]+(?:-[a-z0-9]+)*"
)
"""The name of a file, and the id of a bike."""
_INITIALS = re.compile(rf"[{_UPPER}]\. ")
_ALSO_WORDS = frozenset(
    [
        *("rosa", "franco", "norman", "ron", "sue", "jerry", "regina", "mira", "milan", "ella", "ana", "gina", "costa"),
        *("peter", "seth", "don", "vera", "dora", "rita", "sally", "rolf", "dominique", "urs", "ute"),
        *("noel", "kai", "jean", "amir", "marco", "vito", "carol", "moritz", "nora", "inge"),
    ]
)
"""Given names that are words in small letters as well, of some language."""
_BEFORE = 40
_ID_PART = re.compile(r"[^\W\d_]+")
_SMALL_GIVEN_NAMES = frozenset(each for name in GIVEN_NAMES for each in (name, name.lower()))
_SMALL_WORDS = _SMALL_GIVEN_NAMES.union(
    [
        "mr",
        "mrs",
        "ms",
        "herr",
        "herrn",
        "frau",
        "mme",
        "mlle",
        "monsieur",
        "mevrouw",
        "meneer",
        "dhr",
        "prof",
        "doctor",
    ],
    ["señor", "señora", "signor", "signora"],
)
"""One of these stands in every text with a name that has no capital behind a letter."""
_IN_A_SENTENCE = re.compile(
    rf"[{_UPPER}](?:(?:{_LOWER}|[.'’])(?:(?<=[^\W\d_] ..)|(?<=[,/] ..)|(?<=[A-Z][.] ..))|[\w.'’](?:(?<=[:=] ..)|"
    rf"(?<=[:=]..)))"
)
"""A capital behind a letter, a comma, a colon: from each capital, since those are rare."""
_HINTS = (
    "Mr.",
    "Mrs.",
    "Ms.",
    "Mx.",
    "Dr.",
    "Prof.",
    "Sr.",
    "Sra.",
    "Sig.",
    "Dhr.",
    "Mevr.",
    *(
        "Hr. ",
        "Lt. ",
        "Rev. ",
        "Cpt. ",
        "Maj. ",
        "Hon. ",
        "author: ",
        "owner: ",
        "credit: ",
        "photo: ",
        "pic: ",
        "source: ",
    ),
    *("drawn by ", "'s bike", "’s bike", "'s garage", "'s shed", "'s workshop", "'s place", "'s machine", "'s house"),
    "-san",
    "-sama",
    "-kun",
    "-sensei",
    "-ji",
)


def may_hold(text: str) -> bool:
    """Whether it is worth looking; quick, and True for every text that holds one."""
    flat = without_underscores(even(text))
    if _IN_A_SENTENCE.search(flat) is not None or has_any(flat, _HINTS):
        return True
    if "bike: " in flat or has_any(flat, (".jp", ".png", ".pdf", ".mp4", ".webp", ".mov", ".txt", ".csv", ".zip")):
        return True
    return not flat.isascii() or not _SMALL_WORDS.isdisjoint(_ID_PART.findall(flat))


def find(text: str) -> Iterator[Span]:
    """Everything in a text that looks like the name of a person; web addresses are left out."""
    if may_hold(text):
        yield from apart(_seen(without_urls(without_underscores(even(text)))))


def _seen(flat: str) -> Iterator[Span]:
    for match in _SIGNED.finditer(flat):
        if NO_NAME.isdisjoint(re.findall(r"\w{2,}", match["name"])):
            yield Span(*match.span("name"))
    yield from (Span(*match.span()) for match in HONORIFIC.finditer(flat))
    yield from _in_small_letters(flat)
    for run in _RUN.finditer(flat):
        words = [Span(*each.span()) for each in _TOKEN.finditer(flat, *run.span())]
        cue = ""
        while words and _piece(flat, words[0]) in _BEGINNINGS:
            cue = _piece(flat, words.pop(0))
        end = next((at for at, each in enumerate(words) if _piece(flat, each) in NO_NAME), len(words))
        for first in range(end):
            # A sentence may begin in front of the name: `Gemeldet von …`, `Signed, …`.
            if _is_name(flat, "" if first else cue, words[first:end], cut=end < len(words)):
                yield Span(words[first].start, words[end - 1].end)
                break


def _in_small_letters(flat: str) -> Iterator[Span]:
    """Names without capitals: behind a form of address any, behind other words a given name that is no other word."""
    for match in SMALL_TITLE.finditer(flat):
        yield Span(*match.span("name"))
    for match in _SMALL.finditer(flat):
        sure = match["sure"] is not None or match["name"] not in _ALSO_WORDS
        if match["name"] in _SMALL_GIVEN_NAMES and sure:
            yield Span(*match.span("name"))
    yield from (Span(*match.span("name")) for match in _SMALL_INITIAL.finditer(flat))
    for place in _FILE_OR_ID.finditer(flat):
        for each in _ID_PART.finditer(flat, *place.span()):
            given = each[0].removesuffix("s") if len(each[0]) > 4 else each[0]
            if {each[0], given} & _SMALL_GIVEN_NAMES and not {each[0], given} & _ALSO_WORDS:
                yield Span(*each.span())


def _piece(flat: str, span: Span) -> str:
    return flat[span.start : span.end]


def _is_name(flat: str, cue: str, words: list[Span], *, cut: bool) -> bool:
    """Whether capitalised words, none of which is another thing's name, are a person's.

    Args:
        flat: the whole text.
        cue: the word of the same run in front of them; empty if there is none.
        words: where they stand.
        cut: a word that is no name follows.
    """
    before, end = flat[max(0, words[0].start - _BEFORE) : words[0].start], words[-1].end
    if cue in TITLES or ADDRESS.search(before) is not None:
        return True
    if ROLES.search(flat, words[0].start, end) is not None or any(ABSTRACT.fullmatch(_piece(flat, w)) for w in words):
        return False
    return _is_called(flat, cue, before, words, cut=cut)


def _is_called(flat: str, cue: str, before: str, words: list[Span], *, cut: bool) -> bool:
    """Whether the words around say that these are a person, or they begin with a given name that is often one."""
    first, end = _piece(flat, words[0]), words[-1].end
    known, full = first.split("-")[0] in GIVEN_NAMES, len(words) > 1
    if known and (full or BEHIND.match(flat, end) is not None):
        return True
    if _is_somebody(flat, words, full=full):
        return True
    before = before.removesuffix("(")
    return any(_is_introduced(flat, cue, each, words, cut=cut) for each in {before, ADJECTIVE.sub("", before)})


def _is_introduced(flat: str, cue: str, before: str, words: list[Span], *, cut: bool) -> bool:
    """Whether the words in front say that these are a person."""
    first, end = _piece(flat, words[0]), words[-1].end
    known, full = first.split("-")[0] in GIVEN_NAMES, len(words) > 1
    if cue in STRONG_CUES or STRONG.search(before) is not None:
        alone = first not in CALENDAR and not flat[end : end + 2].strip().isdigit()
        single = alone and not cut and end - words[0].start > 2 and NOUN_BEHIND.match(flat, end) is None
        return known or full or single
    if cue in PERSON_CUES or PERSON.search(before) is not None:
        return known or full
    # A name below a letter stands at the end.
    if not flat[end:].strip(" .!)") and SIGN_OFF.search(before) is not None:
        return True
    return known and (cue in CUES or WEAK.search(before) is not None or _LABEL.search(before) is not None)


def _is_somebody(flat: str, words: list[Span], *, full: bool) -> bool:
    """Whether words are a person's by what stands behind them: a thing of theirs, or a deed after initials."""
    end = words[-1].end
    if end - words[-1].start < 3 or _piece(flat, words[0]) in CALENDAR:
        return False
    initials = _INITIALS.match(flat, words[0].start) is not None and full
    if initials and (len(words) > 2 or HUMAN.match(flat, end) is not None or BEHIND.match(flat, end) is not None):
        return True
    return POSSESSED.match(flat, end) is not None or (HUMAN.match(flat, end) is not None and full)


def may_hold_in_id(text: str) -> bool:
    """Whether it is worth looking in an id or a file's name, or in several with line ends between them."""
    return not _SMALL_GIVEN_NAMES.isdisjoint(_ID_PART.findall(text))


def find_in_id(text: str) -> Iterator[Span]:
    """Every given name among the parts of an id, which has no capitals to go by."""
    return (Span(*each.span()) for each in _ID_PART.finditer(text) if each[0] in _SMALL_GIVEN_NAMES)


def is_person(text: str) -> bool:
    """Whether a text that should be a role is two or three capitalised words, none of which is a role."""
    return re.fullmatch(_FULL, even(text).strip()) is not None and ROLES.search(text) is None
