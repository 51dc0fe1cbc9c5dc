"""What the finder knows, as files that the browser fetches when it needs them.

    root.json            what every question needs: code formats, words that mean the same, names, models, and which
                         file holds what; small at any size of the knowledge base
    terms/<n>.json       term → entries that have it, with their weights
    start/<n>.json       words of the vocabulary, in one text; `end/<n>.json` the same turned round
    codes/<n>.json       code → its entry and its faults
    codes/all.json       all codes by format, in one text, for codes that are mistyped or known in part
    entries/<n>.json     what is shown of sixteen entries
    bikes/<model>/<year>.json   faults and codes that concern such a machine

All of them lie below one folder that is named after their content, so that no browser mixes those of two builds.
"""

from __future__ import annotations

import functools
import json
from collections.abc import Callable, Collection, Iterable, Iterator, Mapping, Sequence
from typing import Final, TypeVar

from kbtools.browser_data.finder import shards
from kbtools.browser_data.finder.entries import UNKNOWN, Entry, entries, shown_models
from kbtools.browser_data.finder.kept_kin import KeptKin
from kbtools.browser_data.finder.kept_texts import KeptTexts
from kbtools.browser_data.finder.kin import KinOf
from kbtools.browser_data.finder.postings import SCALE, postings
from kbtools.browser_data.finder.stops import lamps, stops
from kbtools.browser_data.finder.term_files import shelved_terms
from kbtools.browser_data.finder.terms import LIGHT_WORDS, NOT, STOP_WORDS, members, stem, words_of
from kbtools.browser_data.finder.texts import Texts
from kbtools.browser_data.packed import json_bytes
from kbtools.index.scopes import model_years
from kbtools.index.words import vocabulary
from kbtools.model.base import KnowledgeBase
from kbtools.model.codes import formats_record, tables
from kbtools.model.memory import Memory
from kbtools.model.years import Years
from kbtools.text.html import plain
from kbtools.vocabulary.whole import Vocabulary
from kbtools.wording import addresses
from kbtools.wording.codes import CONTROL_WORDS
from kbtools.wording.labels import RIDE

T = TypeVar("T")

VERSION: Final = 2
"""Rises when a change would make an older `finder.js` misread the files."""

CONTRIBUTE: Final = "contribute/"
"""The hand-written page that tells how to contribute, where a club has one."""

SEVERAL: Final = "several/"
"""The page about several codes at once; `?codes=` and the codes, with commas."""

_SHOWN: Final = ("symptoms", "causes", "meanings", "reported", "signs", "components", "names", "values")
"""Fields of which an answer shows the text in which a word was found."""


def finder_files(
    base: KnowledgeBase, this_year: int, pages: Collection[str], memory: Memory | None = None
) -> dict[str, bytes]:
    """Name of each file to its content, compact JSON.

    Args:
        base: what is known.
        this_year: models that are still built have next year's too.
        pages: addresses of all pages of the site.
        memory: knows what texts are cut into and to which phrases they lead; None: all of it is worked out.
    """
    found, words = entries(base), vocabulary(base)
    groups = members(each.phrases for each in base.words.groups)
    texts, kin = Texts(_kept(base, memory, KeptTexts)), KinOf(words, _kept(base, memory, KeptKin))
    weights = postings(found, texts, kin)
    texts.keep()
    kin.keep()
    first_terms, terms = shelved_terms(weights)
    spelt = shards.vocabulary(_spelt(texts, words, frozenset(weights.terms)) | _asked_first(base))
    codes = shards.shelve(_codes(found), lambda _: 1, shards.MOST_CODES)
    shelves = {"terms": first_terms, "codes": codes.first, **{name: each.first for name, each in spelt.items()}}
    rest = {
        "root.json": _root(base, this_year, pages, found) | {"groups": groups, "shelves": shelves},
        **{name: file for key, each in spelt.items() for name, file in _numbered(key, map(" ".join, each.files))},
        **dict(_numbered("codes", codes.files)),
        "codes/all.json": _all_codes(found),
        **dict(_numbered("entries", _entry_files(found, base))),
        **dict(_bikes(found, base, this_year)),
    }
    return {**{name: json_bytes(content) for name, content in rest.items()}, **dict(_numbered("terms", terms))}


def concerned_addresses(files: Mapping[str, bytes]) -> list[str]:
    """Addresses of the faults and codes in the order of their places, from the files that `finder_files` gave."""
    shown = (entry for name, file in files.items() if name.startswith("entries/") for entry in json.loads(file))
    return [entry["address"] for entry in shown if entry["kind"] in {"fault", "code"}]


def code_key(entry: Entry) -> str:
    """Under which a code stands in the files of codes; no format's id contains the sign."""
    return f"{entry.code.format} {entry.code.text}" if entry.code else ""


def _numbered(folder: str, files: Iterable[T]) -> Iterator[tuple[str, T]]:
    return ((f"{folder}/{number}.json", file) for number, file in enumerate(files))


def _kept(base: KnowledgeBase, memory: Memory | None, kind: Callable[[Memory, bytes], T]) -> T | None:
    """The digest of no file stands for no words of the club's own; a base of no files has no digests."""
    return kind(memory, base.digests.get("words.yml", b"")) if memory is not None and base.digests else None


def _spelt(texts: Texts, words: Vocabulary, terms: Collection[str]) -> set[str]:
    """Every word, as it is written, by which an entry is found: a slip of the keys is mended before endings go."""
    written = {*texts.words(), *_written(words)}
    return {word for word in written if stem(word) in terms and any(char.isalpha() for char in word)}


@functools.lru_cache(maxsize=4)
def _written(words: Vocabulary) -> frozenset[str]:
    return frozenset(word for group in words.groups for phrase in group.phrases for word in words_of(phrase))


def _asked_first(base: KnowledgeBase) -> set[str]:
    """Words by which a danger is asked for: they are mended though no entry has them."""
    return {word for row in base.stop_now for phrase in row.asked for word in words_of(phrase)}


def _codes(found: Sequence[Entry]) -> Iterator[tuple[str, list[object]]]:
    for place, entry in enumerate(found):
        if entry.code:
            yield code_key(entry), [place, [[fault, int(follows)] for fault, follows in entry.faults]]


def _all_codes(found: Sequence[Entry]) -> dict[str, str]:
    by_format: dict[str, list[str]] = {}
    for entry in found:
        if entry.code:
            by_format.setdefault(entry.code.format, []).append(entry.code.text)
    # A club's code may have a blank in it, but no line break.
    return {name: "\n".join(sorted(codes)) for name, codes in by_format.items()}


def _entry_files(found: Sequence[Entry], base: KnowledgeBase) -> Iterator[list[dict[str, object]]]:
    shown = [_shown(entry, base) for entry in found]
    return (shown[at : at + shards.PER_FILE] for at in range(0, len(shown), shards.PER_FILE))


def _shown(entry: Entry, base: KnowledgeBase) -> dict[str, object]:
    record: dict[str, object] = {
        "kind": entry.kind,
        "address": entry.address,
        "title": entry.title,
        "ride": entry.ride,
        "system": entry.system,
        "models": shown_models(entry, base),
        "codes": list(entry.codes),
        "cases": entry.cases,
        "texts": list(dict.fromkeys(text for name in _SHOWN for text in entry.fields.get(name, ()))),
    }
    return {name: value for name, value in record.items() if value not in (None, [], 0)}


def _bikes(found: Sequence[Entry], base: KnowledgeBase, this_year: int) -> Iterator[tuple[str, list[int]]]:
    for model in base.models.values():
        years = model_years(model, this_year)
        places: dict[int, list[int]] = {year: [] for year in years}
        for place, entry in enumerate(found):
            if entry.kind in {"fault", "code"} and model.id in entry.models:
                for year in _held(entry.models[model.id], years):
                    places[year].append(place)
        yield from ((f"bikes/{model.id}/{year}.json", shards.gaps(each)) for year, each in places.items())


def _held(ranges: Sequence[Years], years: Sequence[int]) -> Iterable[int]:
    """Those of some years that one of the ranges holds."""
    if len(ranges) == 1:
        return filter(ranges[0].holds, years)
    return (year for year in years if any(each.holds(year) for each in ranges))


def _root(base: KnowledgeBase, this_year: int, pages: Collection[str], found: Sequence[Entry]) -> dict[str, object]:
    formats = base.club.code_formats if base.club else ()
    return {
        "version": VERSION,
        "size": len(found),
        "faults": sum(entry.kind == "fault" for entry in found),
        "concerned": sum(entry.kind in {"fault", "code"} for entry in found),
        "per_file": shards.PER_FILE,
        "scale": SCALE,
        "formats": [{**row, "name": plain(str(row["name"]))} for row in formats_record(formats)],
        "tables": tables(),
        "stop_words": sorted(STOP_WORDS),
        "light_words": sorted({stem(word) for word in LIGHT_WORDS} - {NOT}),
        "stop_now": stops(base, vocabulary(base)),
        "lamps": lamps(vocabulary(base)),
        "rides": _rides(),
        "ride_order": [level for level in RIDE if level is not None],
        "controls": dict(CONTROL_WORDS),
        "pages": {
            "codes": addresses.CODES,
            "contribute": CONTRIBUTE if CONTRIBUTE in pages else None,
            "several": SEVERAL if SEVERAL in pages else None,
        },
        "names": list(_names(found)),
        "models": list(_models(base, this_year, found)),
    }


def _rides() -> dict[str, dict[str, str]]:
    words: dict[str, dict[str, str]] = {
        level or UNKNOWN: {"word": each.word, "look": each.look} for level, each in RIDE.items()
    }
    # Beside a code that no entry has, "Not known" alone would not say what is not known.
    words[UNKNOWN]["word"] = "Not known whether you may ride"
    return words


def _names(found: Sequence[Entry]) -> Iterator[list[object]]:
    """What models, systems and components are called, as one term, and the entry's place."""
    for place, entry in enumerate(found):
        if entry.kind in {"model", "system", "component"}:
            names = (joined(text) for text in (entry.title, *entry.fields.get("names", ())))
            yield from ([name, place] for name in dict.fromkeys(names) if name)


def joined(text: str) -> str:
    """A name as one term."""
    return "".join(stem(word) for word in words_of(text) if word not in STOP_WORDS)


def _models(base: KnowledgeBase, this_year: int, found: Sequence[Entry]) -> Iterator[dict[str, object]]:
    places = {entry.address: place for place, entry in enumerate(found)}
    for model in base.models.values():
        years = model_years(model, this_year)
        if years:
            address = addresses.model(model.id)
            yield {
                "id": model.id,
                "name": plain(model.name),
                "first": years[0],
                "last": years[-1],
                "address": address,
                "place": places[address],
            }
