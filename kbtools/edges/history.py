"""The history of a knowledge base from its repository: one look into the log, and the contents that it names."""

from __future__ import annotations

import hashlib
from pathlib import Path
from typing import Final

from kbtools.changes.history import (
    MOST_ENTRIES,
    NO_HISTORY,
    History,
    as_json,
    case_days,
    commits,
    entries_touched,
    events,
    from_json,
)
from kbtools.edges import git
from kbtools.model.memory import Memory

_WORK: Final = "history"


def history(folder: Path, memory: Memory | None = None) -> History:
    """What the log tells of the entries and cases in a folder; nothing where there is no repository.

    It follows from the last commit alone. Asked first is a memory, if there is one.
    """
    try:
        log = git.log(folder)
        asked = hashlib.sha256(log).digest()
        kept = memory.worked_out(_WORK, asked) if memory is not None else None
        if kept is not None:
            return from_json(kept)
        found = _read(folder, log)
    except git.GitError:
        return NO_HISTORY
    if memory is not None:
        memory.keep_worked_out(_WORK, asked, as_json(found))
    return found


def _read(folder: Path, log: bytes) -> History:
    every = list(commits(log))
    touched = list(entries_touched(every))[:MOST_ENTRIES]
    named = (blob for _, each in touched for blob in (each.before, each.after) if blob is not None)
    contents = git.contents(folder, list(dict.fromkeys(named)))
    return History(events=tuple(events(touched, contents)), came=case_days(every))
