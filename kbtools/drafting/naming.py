"""Ids from what people write: of things that are there, by their names, and of new ones."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable, Mapping, Sequence
from typing import Final

from kbtools.text.nearest import nearest_id
from kbtools.text.short import short

ID: Final = re.compile(r"[a-z0-9]+(?:-[a-z0-9]+)*", re.ASCII)
"""As a new file should be called."""
_LONGEST: Final = 60
"""Characters of an id that is made of a title."""
_DIGITS: Final = 4


class UnknownNameError(ValueError):
    """There is nothing of that id or name; the words say so, and what was perhaps meant."""


def id_of(kind: str, typed: str, names: Mapping[str, Sequence[str]]) -> str:
    """The id of what somebody names.

    Args:
        kind: what it is, in words.
        typed: its id, or one of its names in any case.
        names: id to the names that it goes by.

    Raises:
        UnknownNameError: there is none.
    """
    wanted = typed.strip()
    if wanted in names:
        return wanted
    folded = wanted.casefold()
    written = [each for each, known in names.items() if folded in {name.casefold() for name in (each, *known)}]
    if len(written) == 1:
        return written[0]
    message = f'There is no {kind} "{short(wanted)}".'
    if written:
        message = f'"{short(wanted)}" may be {" or ".join(written)}: write which.'
    elif (guess := nearest_id(wanted, names)) is not None:
        message = f'{message} Did you mean "{guess}" ({short(names[guess][0])})?'
    raise UnknownNameError(message)


def new_id(title: str) -> str:
    """An id made of a title: `Horn goes quiet in the rain` gives `horn-goes-quiet-in-the-rain`; perhaps empty."""
    plain = unicodedata.normalize("NFKD", title).encode("ascii", "ignore").decode().lower()
    words = re.findall(r"[a-z0-9]+", plain.replace("'", ""))
    made = ""
    for word in words:
        longer = f"{made}-{word}" if made else word[:_LONGEST]
        if len(longer) > _LONGEST:
            break
        made = longer
    return made


def next_case_id(model: str, known: Iterable[str]) -> str:
    """The id of the next case of a model: one more than the highest number of all years, since ids are for ever."""
    number = re.compile(rf"{re.escape(model)}-([0-9]{{1,9}})", re.ASCII)
    used = [int(found[1]) for each in known if (found := number.fullmatch(each)) is not None]
    return f"{model}-{max(used, default=0) + 1:0{_DIGITS}}"
