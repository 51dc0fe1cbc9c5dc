"""Why a text is not YAML, in words that say what to write instead.

libyaml names the place where it gave up and what it hoped for. What the author did stands on that line or above it, and
is nearly always one of a dozen slips; here they are told by how the lines look.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from kbtools.diagnostics import Mark

_KEY_LINE = re.compile(r"^( *)((?:- +)*)([A-Za-z_][\w-]*): +(\S.*?) *$")
"""A key with its value: indent, dashes, key, value."""
_STUCK = re.compile(r"^( *(?:- +)*)([A-Za-z_][\w-]*):(?!//)(\S.*?) *$")
"""A key whose colon has no blank behind it."""
_STUCK_DASH = re.compile(r"^ *(-)([A-Za-z_][\w-]*:(?: .*)?)$")
_ANY_KEY = re.compile(r"^ *(?:- +)*[A-Za-z_][\w-]*:(?: |$)")
_OPENED = re.compile(r"""^ *(?:- +)*(?:[A-Za-z_][\w-]*: +)?(["'])""")
_IN_BRACES = re.compile(r"([A-Za-z_][\w-]*): +((?:(?!, *[A-Za-z_][\w-]*: ).)*?)(?= *(?:, *[A-Za-z_][\w-]*: |[}\]]|$))")
_STRANGE_BLANK = re.compile(r"^[ \t]*(?:- )?[\u00a0\u2000-\u200a\u202f\u3000]")
_STRANGE_DASH = re.compile(r"^ *([\u2010-\u2015\u2212\u2022]) *\S")
_FURTHEST = 40
"""Lines above the place at which an open quote is looked for."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Reason:
    """What is wrong with a text that is no YAML."""

    place: Mark
    """Where the slip is, which may be above the place where reading ended."""
    message: str
    """What is wrong."""
    hint: str
    """What to write."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Stop:
    """Where libyaml gave up."""

    lines: Sequence[str]
    """Of the text."""
    problem: str
    """In libyaml's words, for telling cases apart; nobody is shown them."""
    place: Mark
    """Where it gave up."""
    start: Mark | None
    """Where that began of which it could not see the end."""

    def line(self, number: int) -> str:
        """A line of the text, counted from 1; empty outside of it."""
        return self.lines[number - 1] if 0 < number <= len(self.lines) else ""

    def above(self) -> int:
        """The number of the last line above the place that holds something; 0: there is none."""
        number = self.place.line - 1
        while number and (not self.line(number).strip() or self.line(number).lstrip().startswith("#")):
            number -= 1
        return number


def reason(stop: Stop) -> Reason:
    """The likeliest slip."""
    for look in _LOOKS:
        found = look(stop)
        if found is not None:
            return found
    message = "From here on the file cannot be read."
    hint = "Look at this line and the one above: indentation, a colon and a space behind each key, brackets, quotes."
    return Reason(place=stop.place, message=message, hint=hint)


def in_quotes(text: str) -> str:
    """A text between double quotes, as YAML reads it back."""
    escaped = text.replace("\\", "\\\\").replace('"', '\\"')
    return f'"{escaped}"'


def _strange_signs(stop: Stop) -> Reason | None:
    for number in (stop.place.line, stop.above()):
        line = stop.line(number)
        blank, dash = _STRANGE_BLANK.match(line), _STRANGE_DASH.match(line)
        if blank is not None:
            message = "This line is indented with a non-breaking space, which only looks like a space."
            hint = "Delete what stands in front of the text, and type ordinary spaces."
            return Reason(place=Mark(line=number, column=blank.end()), message=message, hint=hint)
        if dash is not None:
            message = f'"{dash[1]}" is not the dash that starts a row of a list.'
            return Reason(
                place=Mark(line=number, column=dash.start(1) + 1), message=message, hint='Type a hyphen: "- ".'
            )
    return None


def _open_quote(stop: Stop) -> Reason | None:
    for number in range(max(1, stop.place.line - _FURTHEST), stop.place.line + 1):
        line = stop.line(number)
        opened = _OPENED.match(line)
        if opened is None:
            continue
        rest = line[opened.end() :]
        rest = re.sub(r"\\." if opened[1] == '"' else "''", "", rest)
        place = Mark(line=number, column=opened.end())
        if opened[1] not in rest:
            follows = stop.line(number + 1)
            if not follows.strip() or _ANY_KEY.match(follows) or number == len(stop.lines):
                message = f"The quote that opens here ({opened[1]}) is not closed on this line."
                return Reason(place=place, message=message, hint=f"Put {opened[1]} at the end of the text as well.")
            continue
        behind = rest.split(opened[1], 1)[1].strip()
        if behind and behind[0] not in "#,}]:":
            message = "The text goes on behind its closing quote."
            hint = (
                'Put quotes around all of it; a quote inside them is written \\".'
                if opened[1] == '"'
                else ("Put quotes around all of it; a quote inside them is written ''.")
            )
            return Reason(place=place, message=message, hint=hint)
    return None


def _stuck_dash(stop: Stop) -> Reason | None:
    for number in range(max(1, stop.place.line - 2), stop.place.line + 1):
        stuck = _STUCK_DASH.match(stop.line(number))
        if stuck is not None:
            message = "There is no space behind the dash of this row."
            place = Mark(line=number, column=stuck.start(1) + 1)
            return Reason(place=place, message=message, hint=f"Write `- {_cut(stuck[2])}`.")
    return None


def _colon(stop: Stop) -> Reason | None:
    """A second colon where a value should be."""
    if "mapping values" not in stop.problem:
        return None
    above, here = stop.above(), stop.line(stop.place.line)
    for number in (stop.place.line, above):
        stuck = _STUCK.match(stop.line(number))
        if stuck is not None:
            message = f"There is no space behind the colon of `{stuck[2]}`."
            place = Mark(line=number, column=stuck.start(2) + 1)
            return Reason(place=place, message=message, hint=f"Write `{stuck[2]}: {_cut(stuck[3])}`.")
    one, two = _KEY_LINE.match(stop.line(above)), _ANY_KEY.match(here)
    indent = len(here) - len(here.lstrip(" "))
    if one is not None and two is not None:
        column = len(one[1]) + len(one[2])
        if indent > column:
            message = f"This line is indented further than `{one[3]}` above it, which has its value already."
            hint = f"Line the two up: both start in column {column + 1}, or `{one[3]}` in column {indent + 1}."
            return Reason(place=Mark(line=stop.place.line, column=indent + 1), message=message, hint=hint)
    line = _KEY_LINE.match(here)
    if line is None or ": " not in line[4] + " ":
        return None
    message = f"There is a second colon in the text of `{line[3]}`."
    hint = (
        f"Put quotes around the text: `{line[3]}: {in_quotes(line[4])}`. If these are two keys, give each its own line."
    )
    return Reason(place=stop.place, message=message, hint=hint)


def _braces(stop: Stop) -> Reason | None:
    if "',' or" not in stop.problem or stop.start is None:
        return None
    line = stop.line(stop.start.line)
    inside = line[stop.start.column - 1 :]
    sign = inside[:1]
    close = "}" if sign == "{" else "]"
    if _left_open(inside):
        message = f'The "{sign}" that opens here is not closed.'
        return Reason(place=stop.start, message=message, hint=f'Put "{close}" behind its last value: {sign} … {close}.')
    for key, value in _IN_BRACES.findall(inside[1:]):
        if ": " in value and value[0] not in "{[\"'":
            message = f"There is a colon in the text of `{key}`, between braces."
            hint = f"Put quotes around the text: `{key}: {in_quotes(value)}`."
            return Reason(place=stop.place, message=message, hint=hint)
    message = f'A comma is missing between "{sign}" and "{close}", or a text there needs quotes.'
    return Reason(place=stop.place, message=message, hint="Values are kept apart by commas: {level: …, why: …}.")


def _left_open(inside: str) -> bool:
    """Whether more brackets open than close, those in quotes left out."""
    bare = re.sub(r""""(?:\\.|[^"\\])*"|(?<=[ \[{,])'[^']*'""", "", inside)
    return sum(bare.count(each) for each in "{[") > sum(bare.count(each) for each in "}]")


def _no_colon(stop: Stop) -> Reason | None:
    if "could not find expected ':'" not in stop.problem or stop.start is None:
        return None
    line = stop.line(stop.start.line).strip()
    stuck = _STUCK.match(stop.line(stop.start.line))
    if stuck is not None:
        message, hint = f"There is no space behind the colon of `{stuck[2]}`.", f"Write `{stuck[2]}: {_cut(stuck[3])}`."
    else:
        message = f'"{_cut(line)}" is neither a key with its value nor a row of a list.'
        hint = "A key is followed by a colon and a space. A text that goes on is indented further than its key."
    return Reason(place=stop.start, message=message, hint=hint)


def _indent(stop: Stop) -> Reason | None:
    if "did not find expected key" not in stop.problem and "'-' indicator" not in stop.problem:
        return None
    line = stop.line(stop.place.line)
    stuck = _STUCK.match(stop.line(stop.above()))
    if stuck is not None:
        message = f"There is no space behind the colon of `{stuck[2]}`."
        place = Mark(line=stop.above(), column=stuck.start(2) + 1)
        return Reason(place=place, message=message, hint=f"Write `{stuck[2]}: {_cut(stuck[3])}`.")
    if stop.start is None:
        return None
    column = len(line) - len(line.lstrip(" ")) + 1
    message = f"This line starts in column {column}, the one that it belongs to in column {stop.start.column}."
    kind = "keys of one entry" if "key" in stop.problem else "dashes of one list"
    return Reason(place=stop.place, message=message, hint=f"Line it up: all {kind} start in the same column.")


def _first_sign(stop: Stop) -> Reason | None:
    """A text that starts with a sign of YAML: @, %, ` and the like."""
    if "cannot start any token" not in stop.problem and "while scanning an alias" not in stop.problem:
        return None
    rest = stop.line(stop.place.line)[stop.place.column - 1 :].strip()
    message = f'A text that starts with "{rest[:1]}" needs quotes.'
    return Reason(place=stop.place, message=message, hint=f"Write {in_quotes(_cut(rest))}.")


def _cut(text: str) -> str:
    return text if len(text) <= 60 else f"{text[:57]}…"


_LOOKS: tuple[Callable[[Stop], Reason | None], ...] = (
    _strange_signs,
    _open_quote,
    _stuck_dash,
    _colon,
    _braces,
    _no_colon,
    _indent,
    _first_sign,
)
