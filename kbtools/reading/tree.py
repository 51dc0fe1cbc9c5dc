"""YAML text to a tree that knows the place of every node, built from libyaml's events.

The project's YAML is one document of plain mappings, lists and scalars (no anchors, aliases, tags or directives, no key
twice). A loader would hide all of these; the events show them, and are also the fastest way that keeps the places.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from enum import Enum
from typing import Any, Final, NamedTuple

import yaml

from kbtools.diagnostics import START, Finding, Mark
from kbtools.reading.comments import Comment, Piece, comments_between
from kbtools.reading.limits import MAX_DEPTH, MOST_MISTAKES
from kbtools.reading.source import form_error
from kbtools.reading.unreadable import Stop, reason

try:
    from yaml import CSafeLoader as _Loader
except ImportError:  # PyYAML built without libyaml: slower, the same events.
    from yaml import SafeLoader as _Loader  # type: ignore[assignment]

_LINE_END = re.compile(r"\r\n|\n|\r")
_SCALAR: Final = yaml.ScalarEvent
_ENDS: Final = frozenset({yaml.MappingEndEvent, yaml.SequenceEndEvent})
_made: Final = tuple.__new__
"""Makes a named tuple without its own function, which takes twice as long."""

_TOO_DEEP = f"This is nested more than {MAX_DEPTH} levels deep."
_DEPTH_HINT = "Look for stray brackets; no entry needs so many levels."


class Scalar(NamedTuple):
    """A piece of text in the file."""

    value: str
    """Its characters, quotes and escapes resolved."""
    plain: bool
    """Written without quotes, so that it may be meant as a number."""
    line: int
    """1-based."""
    column: int
    """1-based, in code points."""


class Sequence(NamedTuple):
    """A list."""

    items: list[Node]
    """In file order."""
    line: int
    """1-based."""
    column: int
    """1-based, in code points."""


class Mapping(NamedTuple):
    """A mapping; the first of two equal keys counts."""

    entries: dict[str, tuple[Scalar, Node]]
    """Key's text to the key and its value, in file order."""
    line: int
    """1-based."""
    column: int
    """1-based, in code points."""


class Lost(NamedTuple):
    """A value that was refused (an alias): its finding is made, and nothing more is said of it."""

    line: int
    """1-based."""
    column: int
    """1-based, in code points."""


Node = Scalar | Sequence | Mapping | Lost


class _In(Enum):
    """Where a node stands that has no key."""

    NOTHING = 0
    """At the root."""
    LIST = 1
    """In a list."""


def parse(path: str, text: str, comments: list[Comment] | None = None) -> tuple[Node | None, list[Finding]]:
    """Read one document.

    Args:
        path: of the file, for the findings.
        text: of the file.
        comments: gets its comments, if it can be read.

    Returns:
        The root, None where the text is not readable as YAML or is empty, and everything that is wrong with it.
    """
    shown, back = without_old_breaks(text)
    builder = _Builder(path, shown, back)
    try:
        if not builder.build(_Loader(shown).get_event):
            return None, builder.findings
    except yaml.YAMLError as error:
        return None, [*builder.findings, builder.unreadable(error)]
    if builder.root is None:
        hint = "Write the entry, or delete the file."
        builder.findings.append(form_error("KB111", path, START, "The file is empty.", hint))
    if comments is not None:
        comments += comments_between(text, builder.pieces)
    return builder.root, builder.findings


def without_old_breaks(text: str) -> tuple[str, dict[int, str]]:
    """The text with stand-ins for what only YAML 1.1 takes as line breaks, and the way back.

    YAML 1.2 took them out, and no editor shows them as breaks; libyaml still does.
    """
    there = [each for each in "\x85\u2028\u2029" if each in text]
    free = (chr(each) for each in range(0xF0000, 0xFFFFD) if chr(each) not in text)
    pairs = list(zip(there, free, strict=False))
    for old, stand_in in pairs:
        text = text.replace(old, stand_in)
    return text, {ord(stand_in): old for old, stand_in in pairs}


def events(text: str) -> Iterator[Any]:
    """The events of libyaml of a text without old breaks, with places counted in code points."""
    return iter(yaml.parse(text, Loader=_Loader))


class _Builder:
    """Stacks of open containers instead of recursion: a hostile file must not reach the interpreter's limit."""

    def __init__(self, path: str, text: str, back: dict[int, str]) -> None:
        self.path = path
        self.findings: list[Finding] = []
        self.root: Node | None = None
        self.stopped = False
        self.pieces: list[Piece] = []
        self._keeps_pieces = "#" in text
        self._open: list[Sequence | Mapping] = []
        self._keys: list[Scalar | _In | None] = [_In.NOTHING]
        self._text = text
        self._back = back
        self._documents = 0

    def build(self, next_event: Callable[[], Any]) -> bool:
        """Make the tree of the events; False: there is too much wrong with them to go on.

        The loop goes round some hundred times for a file, and two of three times it meets a text: so that is done in
        here, without a call.
        """
        keys, back, findings = self._keys, self._back, self.findings
        while (kind := type(event := next_event())) is not yaml.StreamEndEvent:
            if kind is _SCALAR:
                if event.anchor is not None or event.tag is not None:
                    self._decorations(event)
                if self._keeps_pieces:
                    self._piece(event)
                mark, value = event.start_mark, event.value
                value = value.translate(back) if back else value
                node = _made(Scalar, (value, event.implicit[0], mark.line + 1, mark.column + 1))
                if keys[-1] is None:
                    keys[-1] = node
                else:
                    self._add(node)
            else:
                self._take(kind, event)
            if findings and (self.stopped or len(findings) >= MOST_MISTAKES):
                return False
        return True

    def _take(self, kind: type, event: Any) -> None:
        """What is no scalar."""
        if kind is yaml.MappingStartEvent:
            self._start(Mapping({}, *self._place(event)), event, None)
        elif kind is yaml.SequenceStartEvent:
            self._start(Sequence([], *self._place(event)), event, _In.LIST)
        elif kind in _ENDS:
            self._open.pop()
            self._keys.pop()
        elif kind is yaml.AliasEvent:
            self._alias(event)
        elif kind is yaml.DocumentStartEvent:
            self._document(event)

    def unreadable(self, error: yaml.YAMLError) -> Finding:
        """What libyaml says, placed, and in words where the mistake is a usual one."""
        mark = getattr(error, "problem_mark", None) or getattr(error, "context_mark", None)
        if mark is None:
            return form_error("KB101", self.path, START, "The file cannot be read.", "Look for a stray character.")
        lines = _LINE_END.split(self._text)
        place = self._mark(mark)
        if place.line > len(lines):
            # libyaml ends a text that has no line end at its end one line further down.
            place = Mark(line=len(lines), column=len(lines[-1]) + 1)
        line = lines[place.line - 1]
        before = line[: place.column - 1]
        if line[place.column - 1 : place.column] == "\t" or (before.strip() == "" and "\t" in before):
            message = "A tab cannot indent YAML."
            return form_error("KB107", self.path, place, message, "Use two spaces for each level.")
        problem = getattr(error, "problem", None) or ""
        if "maximum nesting depth" in problem:
            return form_error("KB110", self.path, place, _TOO_DEEP, _DEPTH_HINT)
        context = getattr(error, "context_mark", None)
        start = None if context is None else self._mark(context)
        why = reason(Stop(lines=lines, problem=problem, place=place, start=start))
        return form_error("KB101", self.path, why.place, why.message, why.hint)

    def _mark(self, mark: Any) -> Mark:
        return Mark(line=mark.line + 1, column=mark.column + 1)

    def _place(self, event: Any) -> tuple[int, int]:
        mark = event.start_mark
        return mark.line + 1, mark.column + 1

    def _find(self, rule: str, event: Any, message: str, hint: str) -> None:
        self.findings.append(form_error(rule, self.path, self._mark(event.start_mark), message, hint))

    def _document(self, event: Any) -> None:
        self._documents += 1
        if self._documents > 1:
            hint = "One file is one entry: put the second one in a file of its own."
            self._find("KB108", event, "A second document starts here.", hint)
            self.stopped = True
        elif event.version is not None or event.tags:
            hint = "Delete the line; entries need no directives."
            self._find("KB105", event, "A YAML directive (a line starting with %) stands here.", hint)

    def _decorations(self, event: Any) -> None:
        if event.anchor is not None:
            hint = "Take it out, and write the value again where it is needed."
            self._find("KB103", event, f'The anchor "&{event.anchor}" names this value.', hint)
        if event.tag is not None:
            message = f'The tag "{event.tag}" stands before this value.'
            self._find("KB104", event, message, "Take it out; the schema says what kind of value it is.")

    def _alias(self, event: Any) -> None:
        hint = "Write the value again in its place."
        self._find("KB103", event, f'The alias "*{event.anchor}" points to another place.', hint)
        self._add(Lost(*self._place(event)))

    def _piece(self, event: Any) -> None:
        self.pieces.append(Piece(event.start_mark.index, event.end_mark.index, event.style in {"|", ">"}))

    def _start(self, node: Sequence | Mapping, event: Any, inside: _In | None) -> None:
        if event.anchor is not None or event.tag is not None:
            self._decorations(event)
        if self._keys[-1] is None:
            hint = "A key is a word, a colon and a space; put quotes around a value that starts with { or [."
            self._find("KB112", event, "A list, or keys in braces, stand where a key should be.", hint)
            self.stopped = True
            return
        self._add(node)
        self._open.append(node)
        self._keys.append(inside)
        if len(self._open) > MAX_DEPTH:
            self._find("KB110", event, _TOO_DEEP, _DEPTH_HINT)
            self.stopped = True

    def _add(self, node: Node) -> None:
        key = self._keys[-1]
        if key is None:
            # _start refuses lists and mappings as keys; an alias as a key is answered for, its value is not kept.
            self._keys[-1] = node if isinstance(node, Scalar) else Scalar("", True, node.line, node.column)
        elif key is _In.LIST:
            self._open[-1].items.append(node)  # type: ignore[union-attr]
        elif key is _In.NOTHING:
            self.root = node
        else:
            self._keys[-1] = None
            entries: dict[str, tuple[Scalar, Node]] = self._open[-1].entries  # type: ignore[union-attr]
            if entries.setdefault(key.value, (key, node))[0] is not key:
                self._again(key, entries[key.value][0])

    def _again(self, key: Scalar, first: Scalar) -> None:
        message = f'The key "{key.value}" is here a second time; the first is on line {first.line}.'
        hint = "Keep one of them; put the values together if both are meant."
        place = Mark(line=key.line, column=key.column)
        self.findings.append(form_error("KB102", self.path, place, message, hint))
