"""What looks like the name of a person: after a word such as `Owner:`, or after a form of address.

A guess, and only ever warned of.
The words are common knowledge of the languages, no source.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from kbtools.personal.span import Span, even, without_urls

_WORD = r"[A-ZÀ-ÖØ-ÞĀ-Ž][\w'’]{1,30}(?:-[A-ZÀ-ÖØ-ÞĀ-Ž][\w'’]{1,30})?"
_INITIAL = r"[A-ZÀ-ÖØ-Þ]\."
_FULL = rf"(?:(?:{_WORD}|{_INITIAL}) ){{1,3}}{_WORD}|{_WORD}, (?:{_WORD}|{_INITIAL})"
_AFTER_LABEL = re.compile(
    r"(?<!\w)(?i:owners?|first owner|last owner|previous owner|rider|seller|buyer|customer|member|contact person|"
    r"reported by|report by|reporter|sent by|written by|told by|photo by|ask for|"
    r"halter(?:in)?|besitzer(?:in)?|fahrer(?:in)?|"
    r"eigentümer(?:in)?|verkäufer(?:in)?|ansprechpartner(?:in)?|propriétaire|proprietario|proprietaria|propietario|"
    r"propietaria|titular|eigenaar|ägare|ejer|eier|właściciel|majitel)"
    rf"(?: ?[:=] ?|(?<=[Bb]y) |(?<=sk for) )(?P<name>{_FULL})"
)
_AFTER_ADDRESS = re.compile(
    rf"(?<!\w)(?:Mr|Mrs|Ms|Mx|Herrn?|Frau|Mme|Mlle|Monsieur|Madame|Signora?|Señora?|Senhora?|Meneer|Mevrouw)\.? "
    rf"(?P<name>(?:{_INITIAL} ?)?{_WORD})"
)
_COLON = re.compile("[:=] ?[A-ZÀ-ÖØ-ÞĀ-Ž]")
_ADDRESS = re.compile(
    r"(?:M(?:r|rs|s|x|me|lle|onsieur|adame|eneer|evrouw)|Herrn?|Frau|Signora?|Señora?|Senhora?)\.? [A-ZÀ-ÖØ-ÞĀ-Ž]"
)
_BY = re.compile(r"y (?<=[Bb]y )[A-ZÀ-ÖØ-ÞĀ-Ž]")
_ROLES = re.compile(
    r"\b(?:curator|mechanic|workshop|club|board|head|chief|editor|member|technician|engineer|team|service|reviewer|"
    r"committee|chair|secretary|group|owners|circle|moderator|maintainer|expert|tester)\b",
    re.IGNORECASE,
)
_SENTENCE = re.compile(r"(?:Check|Look|See|Clean|Ask|Measure|Fit|Take|Read|Do|The|A|An|No|Not|If|First)\b")
"""How an instruction starts, which is no name although its words may be capitalised."""


def may_hold(text: str) -> bool:
    """Whether it is worth looking; quick, and True for every text that holds one."""
    flat = even(text)
    looks = (_COLON, _ADDRESS, _BY)
    return "sk for " in flat or any(look.search(flat) is not None for look in looks)


def find(text: str) -> Iterator[Span]:
    """Everything in a text that looks like the name of a person; web addresses are left out."""
    flat = without_urls(even(text))
    for pattern in (_AFTER_LABEL, _AFTER_ADDRESS):
        for match in pattern.finditer(flat):
            if _SENTENCE.match(match["name"]) is None:
                yield Span(*match.span("name"))


def is_person(text: str) -> bool:
    """Whether a text that should be a role is two or three capitalised words, none of which is a role."""
    return re.fullmatch(_FULL, even(text).strip()) is not None and _ROLES.search(text) is None
