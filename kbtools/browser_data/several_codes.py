"""What the page about several codes knows, as files that the browser fetches when codes are entered.

    root.json   how codes are written, models, ride advice, and which file holds which codes; small at any size
    <n>.json    the codes of some thirty bases (a code without its failure type), with the faults that show them

All of them lie below one folder that is named after their content. Every text is hostile, but for unseen characters,
which are written out: the browser shows it as text, never as markup.
"""

from __future__ import annotations

import functools
from collections.abc import Callable, Iterator, Mapping, Sequence
from typing import Final

from kbtools.browser_data.joint import cases_without_fault_data, spans
from kbtools.evidence import evidence_of, evidence_record
from kbtools.index.answers import Index
from kbtools.index.codes import family_only_follows, faults_by_code, ride_level_with
from kbtools.model.catalogue import Club
from kbtools.model.codes import FaultCode, formats_record, tables
from kbtools.text.html import plain
from kbtools.wording.joint import JOINT_WORDS
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

    A file has `codes`: `{"<format> <base>": [[text, [[place, follow_on, ride], …]], …]}`, each code of that base with
    the places of its faults in `faults`, whether the code is only a consequence there, and the ride advice with it;
    `faults`: rows of `fault` (id), `title`, `ride` (a level or `unknown`), `applies` and `evidence`; `components`:
    id → name; and `without`: the solved cases about no fault that show one of these codes, as
    `cases_without_fault_data` has them.
    """
    club = index.club
    by_key = {code_key(base): family for base, family in index.code_families.items()}
    keys = sorted(by_key)
    groups = [keys[at : at + PER_FILE] for at in range(0, len(keys), PER_FILE)]
    files: dict[str, Record] = {"root.json": _root(index, club, [group[0] for group in groups])}
    without = cases_without_fault_data(index)
    # A fault with several codes stands in several files.
    fault_row = functools.cache(functools.partial(_fault, index=index, club=club))
    for number, group in enumerate(groups):
        files[f"{number}.json"] = _file({key: by_key[key] for key in group}, without, index, club, fault_row)
    return files


def code_key(base: FaultCode) -> str:
    """Under which a base stands; no format's id contains the blank."""
    return f"{base.format} {base.text}"


def _file(
    families: Mapping[str, Sequence[FaultCode]],
    without: Sequence[Record],
    index: Index,
    club: Club,
    fault_row: Callable[[str], Record],
) -> Record:
    places: dict[str, int] = {}

    def row(code: FaultCode, fault_id: str) -> list[object]:
        follows = family_only_follows(index.published[fault_id], code, club.code_formats)
        ride = ride_level_with(index.published[fault_id], code, club.code_formats) or UNKNOWN
        return [places.setdefault(fault_id, len(places)), follows, ride]

    faults_of_code = faults_by_code(index.base)
    codes: Record = {
        key: [[code.text, [row(code, each) for each in faults_of_code[code]]] for code in family]
        for key, family in families.items()
    }
    faults = [index.published[each] for each in places]
    return {
        "codes": codes,
        "faults": list(map(fault_row, places)),
        "components": {
            cause.component: plain(index.base.components[cause.component].name)
            for fault in faults
            for cause in fault.causes
            if cause.component is not None and cause.component in index.base.components
        },
        "without": [case for case in without if not families.keys().isdisjoint(_keys(case))],
    }


def _keys(case: Record) -> Iterator[str]:
    """The bases of the codes of a case, as `code_key` writes them."""
    codes = case["codes"]
    for format_id, _, base in codes if isinstance(codes, list) else []:
        yield f"{format_id} {base}"


def _fault(fault_id: str, index: Index, club: Club) -> Record:
    fault = index.published[fault_id]
    return {
        "fault": fault.id,
        "title": plain(fault.title),
        "ride": fault.ride_level or UNKNOWN,
        "applies": spans(fault, index),
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
        "rides": ride_rows(),
        "words": dict(JOINT_WORDS),
    }


def ride_rows() -> list[Record]:
    """The ride advices in words, the strictest first."""
    return [
        {"level": level or UNKNOWN, "word": words.word, "look": words.look, "answer": words.answer}
        for level, words in RIDE.items()
    ]
