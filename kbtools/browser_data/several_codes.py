"""What the page about several codes knows, as files that the browser fetches when codes are entered.

    root.json   how codes are written, models, ride advice, and which file holds which codes; small at any size
    <n>.json    the codes of some thirty bases (a code without its failure type), with the faults that show them

All of them lie below one folder that is named after their content. Every text is hostile, but for unseen characters,
which are written out: the browser shows it as text, never as markup.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from typing import Final

from kbtools.evidence import evidence_of, evidence_record
from kbtools.evidence.counting import runs
from kbtools.index.answers import CodeUse, Index
from kbtools.model.catalogue import Club
from kbtools.model.codes import FaultCode, formats_record, structure, tables
from kbtools.model.fault import Fault
from kbtools.text.html import plain
from kbtools.wording.labels import RIDE

VERSION: Final = 1
"""Rises when a change would make an older `several.js` misread the files."""

PER_FILE: Final = 32
"""Bases in one file: an owner has a few codes, so a larger file would mostly be fetched in vain."""

UNKNOWN: Final = "unknown"
"""The ride advice where no entry gives any."""

Record = dict[str, object]


def several_files(index: Index) -> dict[str, Record]:
    """Name of each file to its content, JSON-ready.

    A file has `codes`: `{"<format> <base>": [[text, [[place, follow_on], …]], …]}`, each code of that base with the
    places of its faults in `faults` and whether the code is only a consequence there; `faults`: rows of `fault` (id),
    `title`, `ride` (a level or `unknown`), `applies` and `evidence`; and `components`: id → name.
    """
    club = index.club
    families = _families(index, club)
    keys = sorted(families)
    groups = [keys[at : at + PER_FILE] for at in range(0, len(keys), PER_FILE)]
    files: dict[str, Record] = {"root.json": _root(index, club, [group[0] for group in groups])}
    for number, group in enumerate(groups):
        files[f"{number}.json"] = _file({key: families[key] for key in group}, index, club)
    return files


Family = Mapping[str, Sequence[CodeUse]]
"""Texts of the codes of one base → their uses."""


def _families(index: Index, club: Club) -> Mapping[str, Family]:
    """The codes by format and base, in the order of the index."""
    found: dict[str, dict[str, Sequence[CodeUse]]] = {}
    for code, uses in index.uses_by_code.items():
        found.setdefault(code_key(structure(code, club.code_formats).base), {})[code.text] = uses
    return found


def code_key(base: FaultCode) -> str:
    """Under which a base stands; no format's id contains the blank."""
    return f"{base.format} {base.text}"


def _file(families: Mapping[str, Family], index: Index, club: Club) -> Record:
    places: dict[str, int] = {}
    codes: Record = {}
    for key, family in families.items():
        roots = {use.fault.id for uses in family.values() for use in uses if not use.row.follow_on}
        codes[key] = [
            [text, [[places.setdefault(fault, len(places)), fault not in roots] for fault in _each_once(uses)]]
            for text, uses in sorted(family.items())
        ]
    faults = [index.published[each] for each in places]
    return {
        "codes": codes,
        "faults": [_fault(fault, index, club) for fault in faults],
        "components": {
            cause.component: plain(index.base.components[cause.component].name)
            for fault in faults
            for cause in fault.causes
            if cause.component is not None and cause.component in index.base.components
        },
    }


def _each_once(uses: Iterable[CodeUse]) -> Iterable[str]:
    return dict.fromkeys(use.fault.id for use in uses)


def _fault(fault: Fault, index: Index, club: Club) -> Record:
    return {
        "fault": fault.id,
        "title": plain(fault.title),
        "ride": fault.ride_level or UNKNOWN,
        "applies": {model: [list(run) for run in years] for model, years in runs(index.scopes[fault.id]).items()},
        "evidence": evidence_record(evidence_of(fault, index, club)),
    }


def _root(index: Index, club: Club, first: Sequence[str]) -> Record:
    return {
        "version": VERSION,
        "first": list(first),
        "formats": [{**row, "name": plain(str(row["name"]))} for row in formats_record(club.code_formats)],
        "tables": tables(),
        "models": [
            [model.id, plain(model.name), list(index.years[model.id])]
            for model in index.base.models.values()
            if index.years[model.id]
        ],
        # The strictest first.
        "rides": [
            {"level": level or UNKNOWN, "word": words.word, "look": words.look, "answer": words.answer}
            for level, words in RIDE.items()
        ],
    }
