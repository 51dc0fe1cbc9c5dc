"""What people write into a cell or a form, as a case's file has it."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any, Final

from kbtools.drafting.naming import id_of
from kbtools.index.entries import titles
from kbtools.index.heirs import heirs
from kbtools.index.references import names
from kbtools.intake.days import Order, day
from kbtools.intake.fields import Field, Words
from kbtools.model.base import KnowledgeBase
from kbtools.model.case import UNLISTED
from kbtools.model.money import DistanceUnit
from kbtools.reading.shape import Shape
from kbtools.text.short import short

_LONGEST: Final = 20_000
"""Characters of a value; a note may have half of them."""
_NOTHING: Final = frozenset({"", "-", "--", "?", "n/a", "na", "none", "null", "unknown", "not known", "no idea"})
"""What stands for no answer."""
_YES: Final = frozenset({"yes", "y", "true", "x", "1", "on", "verified", "checked", "[x]"})
_NO: Final = frozenset({"no", "n", "false", "0", "off", "[ ]"})
_BLANKS: Final = re.compile(r"[\s\u00a0\u202f\u2007\u2009']+")
_MONEY: Final = re.compile(
    r"[€$£¥]|\b(?:EUR|USD|GBP|CHF|SEK|NOK|DKK|PLN|CZK|euros?|dollars?|pounds?)\b|,-+|\.-+", re.IGNORECASE
)
_UNITS: Final[Mapping[str, DistanceUnit]] = {
    **dict.fromkeys(("km", "kms", "kilometer", "kilometers", "kilometre", "kilometres", "tkm"), "km"),
    **dict.fromkeys(("mi", "mile", "miles", "mls"), "mi"),
}
_IN_PAGE: Final = re.compile(r"faults/([a-z0-9-]+)/?(?:[?#]\S*)?\Z")
_TRIED: Final = re.compile(
    r"(?:(?P<kind>check|fix)\b[ :]*)?(?P<name>.+?) ?(?:[:=]|->|→) ?(?P<said>.+)", re.IGNORECASE | re.DOTALL
)
_SAID: Final = re.compile(r"(?P<result>[^,(]+?) ?(?:[,(] ?(?P<reading>[^)]+?) ?\)?)?", re.DOTALL)


@dataclass(frozen=True, slots=True, kw_only=True)
class Ways:
    """How the values of one table or form are written."""

    base: KnowledgeBase
    """What is named in them."""
    shapes: Mapping[str, Shape]
    """The schemas, by kind of file."""
    dates: Order | None = None
    """Order of days whose parts do not tell it."""
    unit: DistanceUnit | None = None
    """Of distances that are numbers alone; None: they are refused."""

    @property
    def shape(self) -> Shape:
        """The schema of cases."""
        return self.shapes["case"]


def value_of(field: Field, text: str, ways: Ways, fault: str | None = None) -> Any:
    """The value of a field; None where nobody has answered.

    Args:
        field: whose value it is.
        text: as it was written.
        ways: how.
        fault: id of the entry that the case is about: causes and checks are named within it.

    Raises:
        ValueError: it is no such value; the words say what is.
    """
    if len(text) > _LONGEST:
        raise ValueError(f"It has more than {_LONGEST:,} characters.")
    plain = text.strip()
    if plain.casefold() in _NOTHING:
        return None
    return _READERS[field.kind](field, plain, ways, fault)


def number(text: str) -> float | int:
    """A number with a point or a comma before its decimals, and thousands set apart or not.

    Raises:
        ValueError: it is none.
    """
    plain = _BLANKS.sub("", _MONEY.sub("", text))
    found = re.fullmatch(r"\+?([0-9][0-9.,]*)", plain, re.ASCII)
    if found is None or len(plain) > 15:
        raise ValueError(f'"{short(text)}" is no number.')
    return _number(found[1], text)


def _number(digits: str, text: str) -> float | int:
    marks = [each for each in digits if each in ".,"]
    decimal = marks[-1] if len(set(marks)) == 2 and digits.count(marks[-1]) == 1 else ""
    if len(marks) == 1:
        # Three digits behind the only mark are thousands, unless a nought stands before it.
        whole, _, behind = digits.partition(marks[0])
        decimal = marks[0] if len(behind) != 3 or not 1 <= len(whole) <= 3 or whole.startswith("0") else ""
    whole, _, behind = digits.partition(decimal) if decimal else (digits, "", "")
    if re.fullmatch(r"[0-9]+|[0-9]{1,3}(?:[.,][0-9]{3})+", whole, re.ASCII) is None:
        raise ValueError(f'"{short(text)}" is no number.')
    made = float(f"{re.sub('[.,]', '', whole)}.{behind or 0}")
    return int(made) if made == int(made) else made


def pieces(text: str, cut: str = r"[;\n|]") -> list[str]:
    """The parts of a list, one a line or with semicolons between them; marks of a list before them go."""
    return [each for part in re.split(cut, text) if (each := re.sub(r"^\s*(?:[-*•]\s+)?", "", part).strip())]


# A reader a kind


def _of_model(_field: Field, text: str, ways: Ways, _fault: str | None) -> str:
    return id_of("model", text, names(ways.base, "model"))


def _of_fault(_field: Field, text: str, ways: Ways, _fault: str | None) -> str:
    page = _IN_PAGE.search(text)
    named = page[1] if page is not None else text
    old = heirs(ways.base)
    if named in old and named not in ways.base.faults:
        return named
    return id_of("fault", named, {each: (title,) for each, title in titles(ways.base).items()})


def _of_cause(_field: Field, text: str, ways: Ways, fault: str | None) -> str:
    if text.casefold() in {UNLISTED, "not listed", "another one", "other"}:
        return UNLISTED
    return _within("cause", text, _causes(ways.base, fault))


def _of_id(field: Field, text: str, _ways: Ways, _fault: str | None) -> str:
    plain = text.strip().casefold()
    if re.fullmatch(r"[a-z0-9]+(?:-[a-z0-9]+)*", plain, re.ASCII) is None:
        raise ValueError(f'"{short(text)}" is no id: lower-case letters, digits and hyphens, such as {field.example}.')
    return plain


def _of_text(_field: Field, text: str, _ways: Ways, _fault: str | None) -> str:
    return text


def _of_texts(_field: Field, text: str, _ways: Ways, _fault: str | None) -> list[str]:
    return list(dict.fromkeys(pieces(text)))


def _of_whole(field: Field, text: str, _ways: Ways, _fault: str | None) -> int:
    found = re.fullmatch(r"(?:my ?)?([0-9]{4})(?:\.0)?", text, re.ASCII | re.IGNORECASE)
    if found is None:
        raise ValueError(f'"{short(text)}" is no year; write it like {field.example}.')
    return int(found[1])


def _of_number(_field: Field, text: str, _ways: Ways, _fault: str | None) -> float | int:
    return number(text)


def _of_distance(_field: Field, text: str, ways: Ways, _fault: str | None) -> str:
    found = re.fullmatch(
        r"([0-9][0-9.,'\s\u00a0\u202f\u2009]*?)[\s\u00a0\u202f]*([a-z]*)\.?", text, re.ASCII | re.IGNORECASE
    )
    unit = None if found is None else _UNITS.get(found[2].casefold()) if found[2] else ways.unit
    if found is None or (found[2] and unit is None):
        raise ValueError(f'"{short(text)}" is no distance; write it like 61200 km or 38000 mi.')
    if unit is None:
        raise ValueError(f'"{short(text)}" has no unit: km or mi. --unit says it for all.')
    amount = number(found[1]) * (1000 if found[2].casefold() == "tkm" else 1)
    return f"{round(amount)} {unit}"


def _of_date(_field: Field, text: str, ways: Ways, _fault: str | None) -> str:
    return day(text, ways.dates).isoformat()


def _of_flag(_field: Field, text: str, _ways: Ways, _fault: str | None) -> bool:
    word = text.casefold()
    if word not in _YES | _NO:
        raise ValueError(f'"{short(text)}" is neither yes nor no.')
    return word in _YES


def _of_word(field: Field, text: str, _ways: Ways, _fault: str | None) -> str:
    return _word(text, field.words)


def _of_causes(field: Field, text: str, ways: Ways, fault: str | None) -> list[str]:
    return list(dict.fromkeys(_of_cause(field, each, ways, fault) for each in pieces(text, r"[;,\n|]")))


def _of_codes(field: Field, text: str, _ways: Ways, _fault: str | None) -> list[dict[str, str]]:
    return [_code(each, field.words) for each in pieces(text, r"[;,\n|]")]


def _code(text: str, states: Words) -> dict[str, str]:
    code, _, last = text.replace("(", " ").replace(")", " ").strip().rpartition(" ")
    try:
        status = _word(last, states) if code else ""
    except ValueError:
        status = ""
    return {"code": code.strip().rstrip(":"), "status": status} if status else {"code": text}


def _of_tried(field: Field, text: str, ways: Ways, fault: str | None) -> list[dict[str, str]]:
    return [_attempt(each, field.results, ways, fault) for each in pieces(text)]


def _attempt(text: str, results: Mapping[str, Words], ways: Ways, fault: str | None) -> dict[str, str]:
    found = _TRIED.fullmatch(text)
    said = None if found is None else _SAID.fullmatch(found["said"])
    if found is None or said is None:
        raise ValueError(f'"{short(text)}" does not say what came out; write it like look-at-plug: bad, 12.9 V.')
    checks, causes = _checks(ways.base, fault), _causes(ways.base, fault)
    name, result = found["name"].strip(), said["result"]
    kind = (found["kind"] or "").casefold()
    if not kind:
        # An id says it, else what came out: nobody says of a fix that it was low.
        named = [each for each, known in (("check", checks), ("fix", causes)) if name in known]
        told = [each for each, words in results.items() if _is_word(result, words)]
        kind = next(iter(named if len(named) == 1 else told), "check")
    row = {kind: _within(kind, name, checks if kind == "check" else causes), "result": _word(result, results[kind])}
    return {**row, "reading": _reading(said["reading"])} if said["reading"] else row


def _reading(text: str) -> str:
    found = re.fullmatch(r"([0-9]+),([0-9]+)( ?\D*)", text.strip(), re.ASCII)
    return text.strip() if found is None else f"{found[1]}.{found[2]}{found[3]}"


def _within(kind: str, text: str, known: Mapping[str, Sequence[str]]) -> str:
    # Without its entry nothing is known, and the rules say so.
    return id_of(kind, text, known) if known else _of_id_like(text)


def _of_id_like(text: str) -> str:
    return re.sub(r"[^a-z0-9]+", "-", text.casefold()).strip("-") or text


def _causes(base: KnowledgeBase, fault: str | None) -> Mapping[str, Sequence[str]]:
    entry = base.faults.get(heirs(base).get(fault or "", fault or ""))
    return {} if entry is None else {each.id: (each.summary or each.id,) for each in entry.causes}


def _checks(base: KnowledgeBase, fault: str | None) -> Mapping[str, Sequence[str]]:
    entry = base.faults.get(heirs(base).get(fault or "", fault or ""))
    return {} if entry is None else {each.id: (each.do or each.id,) for each in entry.checks}


def _is_word(text: str, words: Words) -> bool:
    try:
        _word(text, words)
    except ValueError:
        return False
    return True


def _word(text: str, words: Words) -> str:
    folded = re.sub(r"[\s_-]+", " ", text.strip().casefold())
    for word, others in words.items():
        if folded in {word.replace("-", " "), *others}:
            return word
    raise ValueError(f'"{short(text.strip())}" is none of {", ".join(words)}.')


_READERS: Final[Mapping[str, Callable[[Field, str, Ways, str | None], Any]]] = {
    "model": _of_model,
    "fault": _of_fault,
    "cause": _of_cause,
    "causes": _of_causes,
    "id": _of_id,
    "text": _of_text,
    "texts": _of_texts,
    "whole": _of_whole,
    "number": _of_number,
    "distance": _of_distance,
    "date": _of_date,
    "flag": _of_flag,
    "word": _of_word,
    "codes": _of_codes,
    "tried": _of_tried,
}
