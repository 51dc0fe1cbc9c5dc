"""Answers for a new file: from options, and in a terminal by asking for those that are not there."""

from __future__ import annotations

import datetime as dt
import re
import sys
from collections.abc import Callable, Mapping, Sequence
from typing import Final, TypeVar

import click

from kbtools.cli.output import misuse, say
from kbtools.drafting.naming import ID, UnknownNameError, id_of
from kbtools.model.years import parse_years
from kbtools.text.terminal import shown

T = TypeVar("T")
_MOST_LISTED: Final = 60


def at_terminal() -> bool:
    """Whether somebody can be asked: both ways lead to a terminal."""
    return sys.stdin is not None and sys.stdin.isatty() and sys.stderr is not None and sys.stderr.isatty()


class Asker:
    """Collects answers. Whoever is not at a terminal is told at the end what is missing, all at once."""

    def __init__(self) -> None:
        self.asks = at_terminal()
        self._missing: list[str] = []
        self._wrong: list[str] = []

    def one(self, option: str, given: str | None, question: str, read: Callable[[str], T], default: str = "") -> T:
        """One answer that is needed.

        Args:
            option: its option, to be named where it is missing.
            given: what the option says; None: nothing.
            question: in the terminal.
            read: makes the value of it.
            default: the usual answer; empty: none.

        Returns:
            The value. Where it is missing or wrong and nobody can be asked, `done` ends the command, and the value is
            of no use.
        """
        found = self._read(option, given if given is not None or self.asks else default or None, read)
        while found is None and self.asks:
            answer = click.prompt(question, default=default or None, err=True)
            found = self._read(option, str(answer), read)
        if found is None and given is None:
            self._missing.append(option)
        return found  # type: ignore[return-value]

    def perhaps(self, option: str, given: str | None, question: str, read: Callable[[str], T]) -> T | None:
        """One answer that may be left out."""
        if given is not None:
            return self._read(option, given, read)
        while self.asks:
            answer = str(click.prompt(f"{question} (or nothing)", default="", show_default=False, err=True))
            found = self._read(option, answer, read) if answer.strip() else None
            if found is not None or not answer.strip():
                return found
        return None

    def several(self, option: str, given: Sequence[str], question: str, read: Callable[[str], T]) -> list[T]:
        """Any number of answers, one a line in the terminal."""
        found = [value for each in given if (value := self._read(option, each, read)) is not None]
        while self.asks and not given:
            more = self.perhaps(option, None, f"{question}{', one more' if found else ''}", read)
            if more is None:
                break
            found.append(more)
        return list(dict.fromkeys(found))

    def done(self) -> None:
        """End the command if something is missing or wrong.

        Raises:
            click.UsageError: it says what.
        """
        told = list(self._wrong)
        if self._missing:
            told.append(f"Missing: {', '.join(self._missing)}. In a terminal you are asked for it.")
        if told:
            raise misuse(" ".join(told))

    def _read(self, option: str, text: str | None, read: Callable[[str], T]) -> T | None:
        if text is None:
            return None
        try:
            return read(text)
        except ValueError as error:
            if self.asks:
                say(f"{shown(str(error))}\n", err=True)
            else:
                self._wrong.append(f"{option}: {error}")
            return None


def named(kind: str, names: Mapping[str, Sequence[str]], *, unsure: bool = False) -> Callable[[str], str]:
    """Reads the id or the name of something that is there; `?` lists all.

    Args:
        kind: what it is, in words.
        names: id to the names that it goes by.
        unsure: some could not be read, so what is not there is taken as it is written.
    """

    def read(text: str) -> str:
        if text.strip() == "?":
            known = "; ".join(f"{each} ({of[0]})" for each, of in list(names.items())[:_MOST_LISTED])
            raise UnknownNameError(known or f"There is no {kind} yet.")
        try:
            return id_of(kind, text, names)
        except UnknownNameError:
            if unsure and ID.fullmatch(text.strip()):
                return text.strip()
            raise

    return read


def words(text: str) -> str:
    """A text that says something."""
    if not text.strip():
        raise ValueError("Nothing stands there.")
    return " ".join(text.split())


def identity(text: str) -> str:
    """An id for a new file."""
    if ID.fullmatch(text.strip()) is None or len(text) > 100:
        raise ValueError(f'"{text}" cannot be an id: lower-case letters, digits, and hyphens between them.')
    return text.strip()


def years(text: str) -> str:
    """Model years as a file has them."""
    if parse_years(text.strip()) is None:
        raise ValueError(f'"{text}" are no years: 2007, 2003-2008, 2010- (still built) or all.')
    return text.strip()


def year(text: str) -> int:
    """A model year."""
    if re.fullmatch(r"(?:18|19|20)[0-9]{2}", text.strip(), re.ASCII) is None:
        raise ValueError(f'"{text}" is no year.')
    return int(text)


def day(text: str) -> dt.date:
    """A day, as a file has it."""
    try:
        return dt.date.fromisoformat(text.strip())
    except ValueError:
        raise ValueError(f'"{text}" is no day: 2026-03-14.') from None


def distance(text: str) -> str:
    """What an odometer shows."""
    found = re.fullmatch(r"([0-9]{1,7}) ?(km|mi)", text.strip(), re.ASCII)
    if found is None:
        raise ValueError(f'"{text}" is no distance: 61200 km or 38000 mi.')
    return f"{found[1]} {found[2]}"


def one_of(allowed: Sequence[str]) -> Callable[[str], str]:
    """Reads one of some words."""

    def read(text: str) -> str:
        if text.strip() not in allowed:
            raise ValueError(f'"{text}" is none of {", ".join(allowed)}.')
        return text.strip()

    return read
