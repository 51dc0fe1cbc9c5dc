"""Writing a fault is the way back from reading it: nothing is lost, and nothing else comes of it."""

from __future__ import annotations

import dataclasses
import datetime as dt
from functools import partial
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from kbtools.edges.folder import files, source_file
from kbtools.edges.shipped import shapes
from kbtools.model.check import FINDS
from kbtools.model.codes import read_code
from kbtools.model.fault import Fault
from kbtools.reading.reader import read
from kbtools.reading.rows import Row
from kbtools.reading.shape import to_data
from kbtools.reading.source import SourceFile
from kbtools.reading.tidy import tidied
from kbtools.reading.tree import parse
from kbtools.reading.typed_fault import fault as typed
from kbtools.reading.write_fault import as_data, as_yaml
from kbtools.text.terminal import for_terminal
from tests.support import factories as make
from tests.support.generated_faults import ODD_TEXTS, drafts
from tests.support.places import DEMO, TESTS
from tests.support.schema_keys import Way, keys, ways
from tests.support.yaml_files import core_load

SHAPES = shapes()
HINTS = SHAPES["fault"].hints
KEYS = keys("fault")
EVERY_KEY = (TESTS / "examples/good/every-key.fault.yml").read_text("utf-8")
CLUB = source_file(DEMO, "club.yml")

PLACES = {"at", "path"}
"""Fields that say where a value stands."""


def read_faults(*entries: SourceFile) -> dict[str, Fault]:
    """The faults of these files, in which nothing may be wrong with their form."""
    reading = read([CLUB, *entries], SHAPES)
    assert {each.rule for each in reading.findings} == {"KB113"}, "only the other files of a base are missing"
    return dict(reading.base.faults)


def read_back(*faults: Fault) -> dict[str, Fault]:
    """The faults as they are read from what is written of them."""
    return read_faults(*(SourceFile(path=each.path, data=as_yaml(each, HINTS).encode()) for each in faults))


def without_places(value: object) -> object:
    """A value with all of its fields, but for those that say where something stands."""
    if isinstance(value, tuple):
        return tuple(without_places(each) for each in value)
    if dataclasses.is_dataclass(value):
        names = [each.name for each in dataclasses.fields(value) if each.name not in PLACES]
        return type(value), {name: without_places(getattr(value, name)) for name in names}
    return value


def data_of(text: str) -> Any:
    """A file's content as plain data, before it becomes a typed value."""
    root, _ = parse("x.yml", text)
    assert root is not None
    return to_data(root, SHAPES["fault"].hints, (), [])


def from_text(text: str) -> Fault:
    return read_faults(SourceFile(path="faults/charging/x.yml", data=text.encode()))["x"]


def from_data(data: dict[str, Any]) -> Fault:
    """The typed value of plain data; no YAML has a part in it."""
    assert SHAPES["fault"].validator.is_valid(data)
    club = read([CLUB], SHAPES).base.club
    assert club is not None
    in_formats = partial(read_code, formats=club.code_formats)
    unsaid = FINDS[club.format or 1]
    return typed("x", "faults/charging/x.yml", Row(data, ""), frozenset(), in_formats, finds=unsaid)


def test_every_fault_of_the_demo_comes_back() -> None:
    faults = read_faults(*(file for file in files(DEMO) if file.path.startswith("faults/")))
    assert len(faults) > 50
    back = read_back(*faults.values())
    assert back.keys() == faults.keys()
    for identity, fault in faults.items():
        assert without_places(back[identity]) == without_places(fault)


def test_the_sample_has_every_key_of_the_schema_with_another_value_than_its_default() -> None:
    told: dict[Way, list[object]] = {}
    for way, value in ways(data_of(EVERY_KEY)):
        told.setdefault(way, []).append(value)
    assert told.keys() == KEYS.keys()
    assert [way for way, part in KEYS.items() if part.get("default", KEYS) in told[way]] == []


def test_every_key_is_written_and_comes_back() -> None:
    fault = from_text(EVERY_KEY)
    assert {way for way, _ in ways(core_load(as_yaml(fault, HINTS)))} == KEYS.keys()
    assert without_places(read_back(fault)["x"]) == without_places(fault)


def test_what_is_written_is_tidy_already() -> None:
    """A draft of two entries comes in the style of all files, so what a curator changes in it can be read."""
    written = as_yaml(from_text(EVERY_KEY), HINTS).encode()
    assert tidied(SourceFile(path="faults/charging/x.yml", data=written), SHAPES) == written


def test_keys_stand_in_the_order_of_the_schema() -> None:
    order = list(KEYS)

    def is_ordered(data: Any, at: Way) -> bool:
        if isinstance(data, list):
            return all(is_ordered(each, (*at, "*")) for each in data)
        if not isinstance(data, dict):
            return True
        places = [order.index((*at, key)) for key in data]
        return places == sorted(places) and all(is_ordered(value, (*at, key)) for key, value in data.items())

    assert is_ordered(core_load(as_yaml(from_text(EVERY_KEY), HINTS)), ())


@pytest.mark.parametrize("way", [way for way, part in KEYS.items() if "default" in part], ids="/".join)
def test_a_default_is_left_out(way: Way) -> None:
    data = data_of(EVERY_KEY)
    _set(data, way, KEYS[way]["default"])
    fault = from_data(data)
    assert way not in dict(ways(as_data(fault)))
    assert without_places(read_back(fault)["x"]) == without_places(fault)


def _set(data: Any, way: Way, value: object) -> None:
    if way[0] == "*":
        for each in data:
            _set(each, way[1:], value)
    elif len(way) == 1:
        # A row that uses a shared check has few keys of a check.
        if way[0] in data or "use" not in data:
            data[way[0]] = value
    elif way[0] in data:
        _set(data[way[0]], way[1:], value)


@pytest.mark.parametrize("text", ODD_TEXTS, ids=ascii)
def test_an_odd_text_comes_back(text: str) -> None:
    fault = make.fault("x", title=text, symptoms=(text, "Lamp glows", text), ride_advice=make.advice(why=text))
    back = read_back(fault)["x"]
    assert back.ride_advice is not None
    assert (back.title, back.symptoms, back.ride_advice.why) == (text, (text, "Lamp glows", text), text)
    # Any other reader of YAML has to understand it, too: PyYAML, by the rules of YAML 1.2.
    assert core_load(as_yaml(fault, HINTS))["symptoms"] == [text, "Lamp glows", text]


OBEYED = [
    *("::set-output name=a::b", "  ::error::a", "a\n::error::b", "well ::stop-commands::x", "a::", "::", ":::", "a:"),
    *("##[group]a", "a ##[error]b", "##vso[task.setvariable variable=a]b", "####[a]", "# # [", "a\n##[group]b"),
    *("\x1b[31m red", "a\x07\x08\x0c\x7fb", "\x85a\x9b31m", "\u202eturned\u2066", "a\u200bb", "\ufeffa", "\u2028::a"),
    *(
        "\\::error::a",
        "\\\\##[a]",
        "'::a'",
        '"::a"',
        "word " * 40 + "::error::a " + "word " * 40,
        "- ::a",
        "? ::a",
        "{::a",
    ),
    *(
        "::" * 200,
        "x" * 130 + " ::error::" + "y" * 130,
        "| ::a\n  ::b\n",
        "> ##[a]\n\n\n##[b]",
        "%::a",
        "\t::a",
        "::é::",
    ),
]
"""What terminals and the runners of jobs take for commands; alone, in a line, at the start of one, where YAML folds."""


@pytest.mark.parametrize("text", OBEYED, ids=ascii)
def test_what_is_written_commands_nothing_and_means_the_same(text: str) -> None:
    fault = make.fault("x", title=text, symptoms=(text, f"Lamp {text}"), ride_advice=make.advice(why=text))
    written = as_yaml(fault, HINTS)
    # As it is printed.
    assert for_terminal(written) == written
    assert not any(sign in written for sign in ("::", "##", *map(chr, (*range(10), *range(11, 32), *range(127, 160)))))
    assert not set(written) & set("\u200b\u2028\u202e\u2066\ufeff")
    data = core_load(written)
    assert (data["title"], data["ride_advice"]["why"], data["symptoms"]) == (text, text, [text, f"Lamp {text}"])


@settings(max_examples=50)
@given(st.lists(st.sampled_from([*OBEYED, ":", "#", "[", " ", "\n", "a", "'", '"', "\\", "word " * 25]), max_size=8))
def test_mixed_they_command_nothing_either(pieces: list[str]) -> None:
    text = "".join(pieces)
    written = as_yaml(make.fault("x", title=text, symptoms=(text,)), HINTS)
    assert for_terminal(written) == written
    assert core_load(written)["symptoms"] == [text]


@settings(max_examples=25)
@given(drafts())
def test_whatever_the_schema_allows_comes_back(data: dict[str, Any]) -> None:
    fault = from_data(data)
    assert without_places(read_back(fault)["x"]) == without_places(fault)
    assert elsewhere(core_load(as_yaml(fault, HINTS))) == elsewhere(as_data(fault))


def elsewhere(data: Any, at: Way = ()) -> Any:
    """Data as other readers of YAML have it: days as texts, and without what our schema alone takes for a text."""
    if isinstance(data, list):
        return [elsewhere(each, (*at, "*")) for each in data]
    if isinstance(data, dict):
        inner = {key: value for key, value in data.items() if KEYS.get((*at, key), {}).get("x-plain") != "text"}
        return {key: elsewhere(value, (*at, key)) for key, value in inner.items()}
    return data.isoformat() if isinstance(data, dt.date) else data


def test_shares_are_words_only_where_all_of_them_can_be() -> None:
    def shares(*weights: float | None) -> list[object]:
        causes = tuple(make.cause(f"c-{number}", share=weight) for number, weight in enumerate(weights))
        return [row.get("share") for row in as_data(make.fault("x", causes=causes))["causes"]]

    assert shares(6.0, 3.0, 1.0) == ["often", "sometimes", "rarely"]
    assert shares(6.0, None) == ["often", None]
    assert shares(6.0, 70.0, 2.5) == [6, 70, 2.5]


def test_a_day_that_stands_twice_is_written_twice() -> None:
    day = dt.date(2026, 3, 14)
    sources = (make.source(seen_on=day), make.source("forum", seen_on=day))
    fault = make.fault("x", sources=sources)
    assert [source.seen_on for source in read_back(fault)["x"].sources] == [day, day]
