"""What somebody meant who wrote a value otherwise than the format has it: `1.5 h` for 1.5, `14.03.2026` for a day.

A guess is told only if the schema would take it, so a hint never leads to the next mistake.
"""

from __future__ import annotations

import datetime as dt
import json
import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import Any

from kbtools.reading.layout import fitting_id
from kbtools.reading.quick import told

Schema = dict[str, Any]

_LONGEST = 60
"""Characters of a value that is looked at; a longer one is no slip of writing."""
_BARE = re.compile(r"[A-Za-z0-9-][^\n,:#\[\]{}\"'&*!|>%@`]*")
"""What may stand between braces without quotes."""
_BLANKS = "\u00a0\u202f\u2007\u2009"
_DASHES = "\u2010\u2011\u2012\u2013\u2014\u2015\u2212"
_PLAIN = str.maketrans({**dict.fromkeys(_BLANKS, " "), **dict.fromkeys(_DASHES, "-")})
_CURRENCY = re.compile(r"[€$£¥₣]|\b(?:EUR|USD|GBP|CHF|SEK|NOK|DKK|PLN|CZK|euros?|dollars?|pounds?)\b", re.IGNORECASE)
_NUMBER = r"[0-9]{1,9}(?:[.,][0-9]{1,4})?"
_WITH_UNIT = re.compile(rf"(?:about|approx\.?|ca\.?|circa|~|≈)? ?({_NUMBER}) ?(%|[a-z]{{0,8}}\.?)", re.IGNORECASE)
_CLOCK = re.compile(r"([0-9]{1,3}):([0-5][0-9])")
_SPAN = re.compile(r"(.+?) ?(?:-|to|until|up to|\.\.\.?|/|and) ?(.+)", re.IGNORECASE)
_TIMES = {
    **{
        (unit, "hours"): (1 / 60, "It is in hours: write the number alone.") for unit in ("m", "min", "mins", "minutes")
    },
    **{(unit, "minutes"): (60.0, "It is in minutes: write the number alone.") for unit in ("h", "hr", "hour", "hours")},
}
"""By what a number with a unit is multiplied under a key, and what to say of it."""
_ALONE = "Write the number alone, without its unit."
_DIGITS = ("one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve")
_WORDS = {name: at for at, name in enumerate(_DIGITS, 1)}
_MONTHS = ("jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec")
_TRUE, _FALSE = {"true", "yes", "y", "on", "x", "1"}, {"false", "no", "n", "off", "0"}


@dataclass(frozen=True, slots=True, kw_only=True)
class Meant:
    """A value that fits, and what was in its way."""

    write: str
    """As it stands in a file: `0.5`, `[8, 20]`, `2026-03-14`."""
    why: str
    """What to know about it, a sentence; empty where the value says it all."""


def meant(key: str, value: Any, schema: Schema) -> Meant | None:
    """The value that the author probably meant.

    Args:
        key: of the place; minutes and hours are told apart by it.
        value: as it was read.
        schema: of the place.

    Returns:
        The first guess that the schema takes; None where there is none.
    """
    fits = told(schema).is_valid
    if isinstance(value, list):
        return _joined(value, fits)
    text = str(value).strip()
    if isinstance(value, bool) or not text or len(text) > _LONGEST:
        return None
    for guess, why in _guesses(key, text, schema):
        if fits(guess):
            return Meant(write=flow(guess), why=why)
    return None


def flow(value: Any) -> str:
    """A value as it stands in a file, in one line."""
    if isinstance(value, dict):
        return "{" + ", ".join(f"{key}: {flow(each)}" for key, each in value.items()) + "}"
    if isinstance(value, list):
        return f"[{', '.join(map(flow, value))}]"
    if isinstance(value, str):
        return value if _BARE.fullmatch(value) else json.dumps(value, ensure_ascii=False)
    return f"{value:g}" if isinstance(value, float) else json.dumps(value)


def _guesses(key: str, text: str, schema: Schema) -> Iterator[tuple[Any, str]]:
    """Guesses with what was in the way, the likeliest first."""
    plain = text.translate(_PLAIN)
    strange = _strange(text)
    types = {schema.get("type")} if isinstance(schema.get("type"), str) else set(schema.get("type", ()))
    if "array" in types and schema.get("items", {}).get("type") != "number":
        yield [text], ""
    if "boolean" in types:
        word = plain.casefold()
        if word in _TRUE | _FALSE:
            yield word in _TRUE, ""
    if types & {"number", "integer", "array"}:
        yield from _numbers(key, plain, strange)
    if "string" in types:
        yield plain, strange
        for change in _TEXTS:
            yield from ((guess, strange) for guess in change(plain))


def _strange(text: str) -> str:
    """A sign that looks like another one, shown."""
    if set(text) & set(_BLANKS):
        return "There is a non-breaking space in it; type an ordinary one."
    dash = next((each for each in text if each in _DASHES), None)
    return "" if dash is None else f'The dash in it is "{dash}"; type a hyphen, "-".'


def _numbers(key: str, text: str, strange: str) -> Iterator[tuple[Any, str]]:
    one = _number(key, text)
    if one is not None:
        yield one
    span = _SPAN.fullmatch(text)
    ends = [_number(key, each.strip()) for each in span.groups()] if span else []
    if len(ends) == 2 and ends[0] is not None and ends[1] is not None:
        why = strange or ends[1][1] or ends[0][1]
        # "30-60 min": the unit of the second end is that of both.
        unit = _WITH_UNIT.fullmatch(text[span.start(2) :]) if span else None
        first = _number(key, f"{text[: span.end(1)]} {unit[2]}") if unit and unit[2] and span else None
        low = (first or ends[0])[0]
        yield [low, ends[1][0]], why


def _number(key: str, text: str) -> tuple[float | int, str] | None:
    """A number in other clothes, and what they were."""
    without = _CURRENCY.sub("", text).strip()
    why = "The currency stands once, in club.yml: write the number alone." if without != text else ""
    if without.casefold() in _WORDS:
        return _WORDS[without.casefold()], "Write it in digits."
    clock = _CLOCK.fullmatch(without)
    if clock is not None:
        minutes = 60 * int(clock[1]) + int(clock[2])
        return (_tidy(minutes / 60), "Write hours as one number.") if "hours" in key else (minutes, "")
    found = _WITH_UNIT.fullmatch(without)
    if found is None:
        return None
    if "," in found[1]:
        why = "Decimals have a point, not a comma."
    unit = found[2].casefold().strip(".")
    times, said = _TIMES.get((unit, "hours" if "hours" in key else key), (1.0, ""))
    if unit == "%":
        times, said = 0.01, "Write a share of 1, not a percentage."
    return _tidy(float(found[1].replace(",", ".")) * times), said or why or (_ALONE if unit else "")


def _tidy(number: float) -> float | int:
    rounded = round(number, 2)
    return int(rounded) if rounded == int(rounded) else rounded


def _joined(value: list[Any], fits: Callable[[Any], bool]) -> Meant | None:
    """`[0,5, 1]` has three members: decimal commas have cut a number in two."""
    if not 3 <= len(value) <= 4 or not all(isinstance(each, int) and each >= 0 for each in value):
        return None
    # Three signs behind a comma are thousands as likely as decimals.
    ways = [[f"{value[0]}.{value[1]}", *value[2:]], [value[0], f"{value[1]}.{value[2]}"]]
    if len(value) == 4:
        ways = [[f"{value[0]}.{value[1]}", f"{value[2]}.{value[3]}"]]
    for way in ways:
        numbers = [float(each) for each in way]
        if len(numbers) == 2 and numbers[0] <= numbers[1] and fits(numbers):
            return Meant(write=flow(numbers), why="Decimals have a point, not a comma.")
    return None


# Texts of one form


def _of_a_day(text: str) -> Iterator[str]:
    parts = [each for each in re.split(r"[^\w]+", text) if each]
    if re.fullmatch(r"[0-9]{8}", text):
        parts = [text[:4], text[4:6], text[6:]]
    if len(parts) != 3:
        return
    months = [_MONTHS.index(each[:3].casefold()) + 1 if each[:3].casefold() in _MONTHS else None for each in parts]
    named = next((at for at, month in enumerate(months) if month is not None), None)
    if named is not None:
        parts[named] = str(months[named])
    digits = [re.sub(r"(?<=[0-9])(?:st|nd|rd|th)$", "", each) for each in parts]
    if not all(each.isascii() and each.isdecimal() for each in digits):
        return
    if len(digits[0]) == 4:
        ways = [(digits[0], digits[1], digits[2])]
    elif named == 0:
        ways = [(digits[2], digits[0], digits[1])]
    else:
        ways = [(digits[2], digits[1], digits[0]), (digits[2], digits[0], digits[1])]
    for year, month, day in ways:
        try:
            yield dt.date(int(year), int(month), int(day)).isoformat()
        except ValueError:
            continue


_YEAR = r"((?:18|19|20)[0-9]{2})"
_YEARS = (
    (re.compile(rf"{_YEAR} ?(?:-|to|until|till|through|/|\.\.\.?|and) ?{_YEAR}"), "{0}-{1}"),
    (re.compile(rf"{_YEAR}[-/]([0-9]{{2}})"), ""),
    (
        re.compile(
            rf"(?:from|since|after|as of|>=?) ?{_YEAR}(?: on(?:wards)?)?"
            rf"|{_YEAR} ?(?:\+|on|onwards?|- ?(?:now|today|present|\.\.\.)?)"
        ),
        "{0}-",
    ),
    (re.compile(rf"(?:- ?|to|until|till|up to|before|<=?) ?{_YEAR}"), "-{0}"),
    (re.compile(r"()(?:any|every|all years|\*|each|always)"), "all"),
)


def _of_years(text: str) -> Iterator[str]:
    for pattern, form in _YEARS:
        found = pattern.fullmatch(text.casefold())
        if found is not None:
            years = [each for each in found.groups() if each]
            yield form.format(*years) if form else f"{years[0]}-{years[0][:2]}{years[1]}"


def _of_a_way(text: str) -> Iterator[str]:
    """A distance or a speed."""
    found = re.fullmatch(r"([0-9][0-9., ']*?) ?([a-z/]*)\.?", text.casefold())
    if found is None:
        return
    digits = re.sub(r"(?<=[0-9])[., '](?=[0-9]{3}(?![0-9]))", "", found[1])
    unit = {"kms": "km", "kilometers": "km", "kilometres": "km", "miles": "mi", "mls": "mi", "mile": "mi"}
    speeds = {"kmh": "km/h", "kph": "km/h", "k/h": "km/h", "km": "km/h", "mi/h": "mph", "mi": "mph"}
    name = found[2]
    for each in dict.fromkeys((unit.get(name, name), speeds.get(name, name), name or "km", "km/h")):
        yield f"{digits} {each}"


def _of_a_link(text: str) -> Iterator[str]:
    if re.fullmatch(r"[\w-]+(?:\.[\w-]+)+(?:/\S*)?", text):
        yield f"https://{text}"


def _of_an_id(text: str) -> Iterator[str]:
    fitting = fitting_id(text)
    if fitting:
        yield fitting


_TEXTS: tuple[Callable[[str], Iterator[str]], ...] = (_of_a_day, _of_years, _of_a_way, _of_a_link, _of_an_id)
