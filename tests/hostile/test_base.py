"""Bounds of files and of the whole base: of too much nothing is computed, and what is too much is said at its place."""

from __future__ import annotations

import itertools
import json
from collections.abc import Iterator
from typing import Any

import pytest

from kbtools.edges.shipped import schema_files, shapes
from kbtools.linting.one_rule import MOST_BREACHES
from kbtools.reading.limits import MAX_BYTES, MOST_ENTRY_BYTES, MOST_FILES, MOST_MISTAKES, MOST_OF
from kbtools.reading.reader import read
from kbtools.reading.source import SourceFile
from kbtools.rules.samples import FILES
from tests.support.checked_samples import CASE, FAULT, MODEL, SHAPES, changed, findings, linted, with_file
from tests.support.limited import limited, limited_each

YEARS = "name: Wren 400\nyears: 2003-2012"


def errors(files: dict[str, str]) -> set[tuple[str, str]]:
    return {(each.rule, each.path) for each in findings(files) if each.severity == "error"}


# Years


@pytest.mark.parametrize(
    ("years", "rule"),
    [
        ("0000-9999", "KB204"),
        ("1884-2012", "KB204"),
        ("2003-2100", "KB204"),
        ("2003-99999999", "KB204"),
        ("٢٠٠٣-٢٠١٢", "KB204"),
        ('"2003-2012\\n"', "KB204"),
        # The samples are about 2026: 2027 is built already, 2028 may be announced.
        ("2003-2029", "KB440"),
        ("1885-2012", "KB440"),
        ("1900-", "KB440"),
    ],
)
def test_years_that_no_model_has_are_a_finding(years: str, rule: str) -> None:
    assert (rule, MODEL) in limited(errors, changed(MODEL, YEARS, f"name: Wren 400\nyears: {years}"))


@pytest.mark.parametrize("years", ["2003-2028", "1927-2012", "all", "-2012", "2003-"])
def test_years_that_a_model_may_have_are_none(years: str) -> None:
    found = errors(changed(MODEL, YEARS, f"name: Wren 400\nyears: {years}"))
    assert not {each for each in found if each[0] in {"KB204", "KB440"}}


# What a schema says


def unbounded(part: Any, at: str = "") -> Iterator[str]:
    """Places of a schema at which a text, a list, a mapping of the author's or a number may be as large as it likes."""
    if isinstance(part, list):
        for number, each in enumerate(part):
            yield from unbounded(each, f"{at}/{number}")
    if not isinstance(part, dict):
        return
    kinds = [part["type"]] if isinstance(part.get("type"), str) else part.get("type") or []
    if "array" in kinds and "maxItems" not in part:
        yield f"{at} (list)"
    if "string" in kinds and not {"maxLength", "enum", "then"} & part.keys() and not _is_short(part.get("pattern", "")):
        yield f"{at} (text)"
    is_number = {"number", "integer"} & set(kinds) and part.get("x-plain") != "text"
    if is_number and "enum" not in part and not _between(part):
        yield f"{at} (number)"
    if "object" in kinds and part.get("additionalProperties") is not False and "maxProperties" not in part:
        yield f"{at} (mapping)"
    for key, each in part.items():
        yield from unbounded(each, f"{at}/{key}")


def _between(part: dict[str, Any]) -> bool:
    return bool({"minimum", "exclusiveMinimum"} & part.keys()) and bool({"maximum", "exclusiveMaximum"} & part.keys())


def _is_short(pattern: str) -> bool:
    """Whether a pattern itself bounds the length: it names the whole text, and repeats nothing without an end."""
    return pattern.startswith("^") and pattern.endswith("$") and not set("+*") & set(pattern)


@pytest.mark.parametrize("name", schema_files())
def test_every_text_list_and_number_of_a_schema_has_a_bound(name: str) -> None:
    # The condition that tells words of shares from numbers says nothing of a length.
    assert [each for each in unbounded(schema_files()[name]) if "/share/if" not in each] == []


LONG = "x" * 20_000
MANY = ", ".join(f"a-{number}" for number in range(6_000))
ENTRIES = {
    "a title": (FAULT, "title: Charge lamp flickers in the rain", f"title: {LONG}", "KB204"),
    "an id of a cause": (FAULT, "- id: corroded-plug\n", f"- id: {LONG}\n", "KB204"),
    "a reference": (FAULT, "    component: regulator", f"    component: {LONG}", "KB204"),
    "a code": (FAULT, "{code: P0562,", f"{{code: {LONG},", "KB204"),
    "a list of references": (FAULT, "related: [battery-flat]", f"related: [{MANY}]", "KB206"),
    "a list of symptoms": (FAULT, "related: [battery-flat]", f"symptoms: [{MANY}]", "KB206"),
    "rows of machines": (
        FAULT,
        "  - {model: wren-400, years: 2003-2007, unit: engine-a}\n",
        "  - {model: wren-400, years: 2003}\n" * 1_000,
        "KB206",
    ),
    "a key of a freeze frame": (
        CASE,
        "{code: P0562, status: stored}",
        f"{{code: P0562, freeze_frame: {{? {LONG} : 1}}}}",
        "KB204",
    ),
    "keys of a freeze frame": (
        CASE,
        "{code: P0562, status: stored}",
        f"{{code: P0562, freeze_frame: {{{', '.join(f'a{at}: 1' for at in range(3_000))}}}}}",
        "KB206",
    ),
    "an unknown key": (FAULT, "related: [battery-flat]", f"? {LONG}\n: x", "KB202"),
    "an address": (
        FAULT,
        "title: Spring teardown",
        f"title: Spring teardown, url: 'https://host.example/{LONG}'",
        "KB204",
    ),
}


def test_an_entry_that_says_too_much_is_a_finding() -> None:
    def is_told(name: str) -> bool:
        path, old, new, rule = ENTRIES[name]
        return (rule, path) in errors(changed(path, old, new))

    assert limited_each(is_told, ENTRIES) == dict.fromkeys(ENTRIES, True)


def test_the_finding_of_a_long_text_says_how_long_it_may_be() -> None:
    (found,) = findings(changed(FAULT, "title: Charge lamp flickers in the rain", f"title: {LONG}"))
    assert (found.rule, found.mark.line, found.mark.column) == ("KB204", 1, 8)
    assert "20,000 characters" in found.message
    assert "300" in found.hint


WORDS = {
    "a group of thousands": f"- [{MANY}]\n",
    "thousands of groups": "".join(f"- [a{at}, b{at}]\n" for at in range(5_000)),
    "a word without an end": f"- [a, {'b' * 5_000}]\n",
}


@pytest.mark.parametrize("name", WORDS)
def test_too_many_words_are_a_finding(name: str) -> None:
    assert {("KB206", "words.yml"), ("KB204", "words.yml")} & limited(
        errors, with_file("words.yml", WORDS[name]), what=name
    )


# Files full of mistakes

FULL = {
    "values of the wrong kind": "title: x\nsystem: charging\nsources: [" + "1, " * 15_000 + "]\n",
    "unknown keys": "title: x\nsystem: charging\n" + "".join(f"a{at}: 1\n" for at in range(6_000)),
    "keys twice": "title: x\n" * 6_000,
    "anchors": "title: [" + "&a b, " * 8_000 + "]\n",
    "aliases": "title: &a b\nsystem: [" + "*a, " * 12_000 + "]\n",
    "tags": "title: [" + "!a b, " * 8_000 + "]\n",
    "empty lists": "title: [" + "[], " * 14_000 + "]\n",
    "empty mappings": "title: [" + "{}, " * 14_000 + "]\n",
    "closing brackets": "]" * 50_000,
    "opening braces": "{" * 50_000,
    "question marks": "? " * 25_000,
    "dashes": "- " * 25_000,
    "ampersands": "&" * 50_000,
    "percent signs": "%" * 50_000,
    "quotes": '"' * 50_000,
    "a text that folds": "title: >\n" + "  a\n\n" * 9_000,
    "escapes": 'title: "' + "\\u0041" * 9_000 + '"\n',
    "colons": ": " * 25_000,
    "commas in braces": "{" + "," * 50_000,
}


@pytest.mark.parametrize("name", FULL)
def test_a_file_full_of_mistakes_is_answered_soon_and_briefly(name: str) -> None:
    def answered() -> tuple[int, set[str]]:
        found = [each for each in findings(with_file("faults/charging/full.yml", FULL[name])) if each.rule < "KB6"]
        return len(found), {each.rule for each in found}

    assert len(FULL[name]) <= MOST_ENTRY_BYTES, "its length alone would be the finding"
    count, rules = limited(answered, megabytes=300, what=name)
    assert 1 <= count <= MOST_MISTAKES + 1
    assert "KB001" not in rules


def test_a_rule_that_finds_too_much_stops_and_says_so() -> None:
    page = "<b>\n\n" * 4_000
    files = {**FILES, **{f"pages/p{at}.md": page for at in range(4)}}
    found = [each for each in limited(lambda: linted(files).findings) if each.rule in {"KB505", "KB002"}]
    assert sum(each.rule == "KB505" for each in found) == MOST_BREACHES
    assert sum(each.rule == "KB002" for each in found) == 1


# All files together


def endless(path: str, data: bytes) -> Iterator[SourceFile]:
    """A folder that never ends."""
    return (SourceFile(path=path.format(number), data=data) for number in itertools.count())


@pytest.mark.parametrize(
    ("path", "data"),
    [
        ("faults/charging/f-{}.yml", b"title: x\n"),
        pytest.param("cases/2026/c-{}.yml", b"", marks=pytest.mark.thorough),
        pytest.param("pages/p-{}.md", b"x", marks=pytest.mark.thorough),
        pytest.param("pages/p-{}.png", b"0" * 32, marks=pytest.mark.thorough),
        ("no/such/place-{}", b"x"),
        ("faults/charging/f-{}.yml", b"x" * MAX_BYTES),
        ("pages/p-{}.md", b"x" * MAX_BYTES),
    ],
)
def test_a_folder_without_an_end_is_one_finding(path: str, data: bytes) -> None:
    found = limited(lambda: read(endless(path, data), SHAPES).findings, megabytes=1_000)
    assert [(each.rule, each.path) for each in found] == [("KB121", "club.yml")]


def test_as_many_files_as_allowed_are_read() -> None:
    most = min(MOST_FILES, MOST_OF["page"][0]) - 1
    files = [*endless_sample(), *itertools.islice(endless("pages/p-{}.md", b"# Page\n"), most)]
    assert read(files, SHAPES).findings == ()


def endless_sample() -> Iterator[SourceFile]:
    return (SourceFile(path=path, data=text.encode()) for path, text in FILES.items())


@pytest.mark.parametrize(
    ("kind", "path", "data"),
    [
        ("model", "models/m-{:05}.yml", b"name: M\nyears: 2003\n"),
        ("page", "pages/p-{:05}.md", b"# Page\n"),
        ("image", "pages/p-{:05}.png", b"0" * 32),
    ],
)
def test_too_many_files_of_a_kind_are_one_finding_at_the_first_beyond(kind: str, path: str, data: bytes) -> None:
    most = MOST_OF[kind][0]
    files = [*endless_sample(), *itertools.islice(endless(path, data), most + 50)]
    found = limited(lambda: read(files, SHAPES).findings, seconds=20, megabytes=1_000)
    assert [each.rule for each in found] == ["KB121"]
    # The files of the sample base come behind these.
    assert found[0].path == path.format(most)


def test_what_was_left_out_is_not_missed_by_others() -> None:
    rows = "".join(f"  - {{id: s-{at}, name: S}}\n" for at in range(600))
    systems = FILES["systems.yml"].replace("components:", f"{rows}components:")
    fault = FILES[FAULT].replace("system: charging", "system: s-590", 1)
    files = {**FILES, "systems.yml": systems, "faults/s-590/lamp-flickers.yml": fault}
    del files[FAULT]
    assert errors(files) == {("KB121", "systems.yml")}


# One thing that names many


def test_access_jobs_that_need_each_other_in_every_way_are_answered_soon() -> None:
    needs = [", ".join(f"j{other}" for other in range(max(0, at - 20), at)) for at in range(299)]
    jobs = "".join(f"  - {{id: j{at}, name: J, minutes: 1, needs: [{each}]}}\n" for at, each in enumerate(needs))
    systems = FILES["systems.yml"].replace("access:\n", f"access:\n{jobs}")
    files = {**FILES, "systems.yml": systems, FAULT: FILES[FAULT].replace("[seat-off]", "[j298, seat-off]")}
    limited(errors, files)


def test_groups_of_words_that_name_each_other_are_answered_soon() -> None:
    groups = "".join(f"- [{', '.join(f'w{(at * 7 + other) % 900}' for other in range(20))}]\n" for at in range(1_000))
    limited(errors, with_file("words.yml", groups), seconds=20)


def test_thousands_of_accepted_findings_are_answered_soon() -> None:
    row = {"rule": "KB705", "path": FAULT, "at": "/sources/0", "because": "It is known."}
    rows = [{**row, "at": f"/sources/{at}"} for at in range(1_000)]
    limited(errors, with_file("accepted.yml", "\n".join(f"- {json.dumps(each)}" for each in rows)), seconds=20)


def test_the_shapes_are_those_that_ship() -> None:
    assert SHAPES.keys() == shapes().keys()
