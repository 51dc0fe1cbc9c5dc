"""Reading YAML: what is refused and where, what plain scalars mean, and that nothing makes it break down."""

from __future__ import annotations

import string
from typing import Any

import pytest
import yaml
from hypothesis import given, settings
from hypothesis import strategies as st

from kbtools.edges.shipped import shapes
from kbtools.reading.layout import place_of
from kbtools.reading.places import Document, show, steps
from kbtools.reading.reader import Reading, read
from kbtools.reading.source import MAX_BYTES, SourceFile, decode, place
from kbtools.reading.tree import Mapping, Node, Scalar, Sequence, parse
from kbtools.rules import samples

SHAPES = shapes()
FAULT = "faults/charging/new.yml"
DRAFT = "title: {}\nsystem: charging\ndraft: true\n"


def read_with(text: str | bytes, path: str = FAULT) -> Reading:
    files = {each: content.encode() for each, content in samples.FILES.items()}
    files[path] = text if isinstance(text, bytes) else text.encode()
    return read([SourceFile(path=each, data=data) for each, data in files.items()], SHAPES)


def places(text: str | bytes) -> list[tuple[str, int, int]]:
    return [(each.rule, each.mark.line, each.mark.column) for each in read_with(text).findings]


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("title: a\ntitle: b\nsystem: charging\ndraft: true\n", ("KB102", 2, 1)),
        ("title: &a b\nsystem: charging\ndraft: true\n", ("KB103", 1, 8)),
        ("title: !!str b\nsystem: charging\ndraft: true\n", ("KB104", 1, 8)),
        ("title: !local b\nsystem: charging\ndraft: true\n", ("KB104", 1, 8)),
        ("%YAML 1.1\n---\n" + DRAFT.format("a"), ("KB105", 1, 1)),
        (DRAFT.format("a").encode("utf-16"), ("KB106", 1, 1)),
        (DRAFT.format("a").encode("utf-32"), ("KB106", 1, 1)),
        (DRAFT.format("5 °C").encode("latin-1"), ("KB106", 1, 10)),
        ("title: a\nsystem: charging\nsymptoms:\n\t- x\n", ("KB107", 4, 1)),
        (DRAFT.format("a") + "---\ntitle: b\n", ("KB108", 4, 1)),
        ("", ("KB111", 1, 1)),
        ("# nothing\n", ("KB111", 1, 1)),
        ("title: 'a\n", ("KB101", 1, 8)),
        ("title: a\x00b\n", ("KB101", 1, 9)),
        ("title: a\n? [x]\n: b\n", ("KB112", 2, 3)),
        ("related: " + "[" * 30 + "]" * 30, ("KB110", 1, 33)),
        ("related: " + "[" * 100_000, ("KB110", 1, 1010)),
    ],
    ids=lambda value: str(value)[:24],
)
def test_what_is_no_plain_yaml_is_refused_at_its_place(text: str | bytes, expected: tuple[str, int, int]) -> None:
    rule, line, column = expected
    found = places(text)
    assert len(found) == 1, found
    assert found[0][:2] == (rule, line)
    if rule != "KB110":
        assert found[0][2] == column


def test_a_file_that_is_too_large_is_not_read() -> None:
    assert places(b"#" * (MAX_BYTES + 1)) == [("KB110", 1, 1)]


def test_a_byte_order_mark_of_utf8_does_not_shift_anything() -> None:
    assert places(b"\xef\xbb\xbf" + DRAFT.format("a").encode()) == []
    assert places(b"\xef\xbb\xbftitel: a\nsystem: charging\ndraft: true\n") == [("KB202", 1, 1)]


ODD = [
    "no",
    "yes",
    "on",
    "null",
    "~",
    "0123",
    "1E10",
    "12:30",
    "1_000",
    "0x1F",
    ".inf",
    "2026-03-14",
    "a\u2028b\u0085c",
]


@pytest.mark.parametrize("text", ODD)
def test_where_the_schema_says_text_the_characters_are_the_value(text: str) -> None:
    assert read_with(DRAFT.format(text)).base.faults["new"].title == text


@pytest.mark.parametrize(("text", "value"), [("5", 5.0), ("0.5", 0.5), ("1E1", 10.0), ("012", 12.0), (".5", 0.5)])
def test_where_the_schema_says_number_a_plain_number_is_one(text: str, value: float) -> None:
    base = read_with(f"{DRAFT.format('a')}checks: [{{id: x, minutes: {text}}}]\n").base
    assert base.faults["new"].checks[0].minutes == value


@pytest.mark.parametrize("text", ["five", '"5"', "0x10", "1_0", ".inf", "nan", "1e999", "9" * 500, "true", "~", ""])
def test_where_the_schema_says_number_nothing_else_is_one(text: str) -> None:
    assert [each[0] for each in places(f"{DRAFT.format('a')}checks:\n  - id: x\n    minutes: {text}\n")] == ["KB201"]


@pytest.mark.parametrize("text", ["yes", "True", "on", "1", '"true"'])
def test_only_true_and_false_are_truth_values(text: str) -> None:
    found = places(f"title: a\nsystem: charging\ndraft: true\ncauses: [{{id: x, fix: {{trial: {text}}}}}]\n")
    assert [each[0] for each in found] == ["KB201"]


@pytest.mark.parametrize("text", ["yes", "under the seat", '"true"', "[true]", "~"])
def test_what_lies_under_the_seat_is_true_or_false(text: str) -> None:
    """The plan by the road reckons with it, so a slip must not pass for no."""
    before = "{id: multimeter, name: Multimeter, usual: true"
    whole = samples.FILES["systems.yml"].replace(before, f"{before}, on_bike: {text}")
    line = next(number for number, each in enumerate(whole.split("\n"), start=1) if "on_bike" in each)
    column = whole.split("\n")[line - 1].index("on_bike: ") + len("on_bike: ") + 1
    [found] = read_with(whole, "systems.yml").findings
    assert (found.rule, found.mark.line, found.mark.column) == ("KB201", line, column)
    assert "`on_bike` should be true or false" in found.message


def test_lines_count_as_an_editor_counts_them() -> None:
    # U+2028, U+2029 and U+0085 are line breaks in YAML 1.1, but no editor shows them as such.
    assert places("title: a\u2028b\u0085c\nsystem: charging\ntitel: x\ndraft: true\n") == [("KB202", 3, 1)]
    assert places("title: a\r\nsystem: charging\r\ntitel: x\r\ndraft: true\r\n") == [("KB202", 3, 1)]


def test_columns_count_code_points() -> None:
    assert places("{title: \U0001f3cd\u00e9, system: charging, draft: true, x: 1}\n")[0] == ("KB202", 1, 44)


def test_an_entry_that_cannot_be_read_still_exists_for_others() -> None:
    reading = read_with("title: [", "faults/charging/battery-flat.yml")
    assert [each.rule for each in reading.findings] == ["KB101"]
    assert "battery-flat" in reading.base.faults


def test_every_file_in_the_wrong_place_is_named() -> None:
    wrong = ["fault.yml", "faults/x.yml", "faults/charging/deep/x.yml", "models/a/b.yml", "cases/last-year/x.yml"]
    wrong += ["pages/run.js", "pages/drawing.svg", "pages/raw.html", "notes.txt", "modles/x.yml"]
    wrong += ["faults/charging/X.yml", "faults/charging/x.yaml"]
    for path in wrong:
        assert place_of(path).problem is not None, path
        assert place_of(path).hint, path
    for path in ["club.yml", "pages/index.md", "pages/more/x.md", "pages/x.png", "cases/2026/x-1.yml", "models/1.yml"]:
        assert place_of(path).problem is None, path


@given(st.binary(max_size=200))
def test_no_bytes_break_the_reader(data: bytes) -> None:
    text, findings = decode(SourceFile(path="x.yml", data=data))
    assert (text is None) == bool(findings)


@settings(max_examples=100)
@given(st.text(alphabet=st.sampled_from("ab:-[]{}&*!%#'\"|>?, \n\t\r\u2028é"), max_size=60))
def test_no_text_breaks_the_parser_and_every_place_is_in_the_file(text: str) -> None:
    root, findings = parse("x.yml", text)
    lines = text.replace("\r\n", "\n").replace("\r", "\n").split("\n")
    for finding in findings:
        assert 1 <= finding.mark.line <= len(lines)
        assert 1 <= finding.mark.column <= len(lines[finding.mark.line - 1]) + 1
    assert root is not None or findings


NAMES = st.text(alphabet=string.ascii_lowercase, min_size=1, max_size=6)
DATA = st.recursive(
    st.text(alphabet=st.characters(exclude_categories=["Cs", "Cc", "Cn", "Co"]), max_size=12),
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(NAMES, inner, max_size=4),
    max_leaves=12,
)


@given(st.dictionaries(NAMES, DATA, min_size=1, max_size=4), st.booleans())
def test_the_tree_holds_what_pyyaml_reads(data: dict[str, Any], flow: bool) -> None:
    """Against PyYAML's own BaseLoader, which takes every scalar as text."""
    text = yaml.safe_dump(data, default_flow_style=flow, allow_unicode=True)
    root, findings = parse("x.yml", text)
    assert findings == []
    assert root is not None
    assert plain(root) == yaml.load(text, Loader=yaml.BaseLoader)


def plain(node: Node) -> Any:
    if isinstance(node, Mapping):
        return {key: plain(value) for key, (_, value) in node.entries.items()}
    if isinstance(node, Sequence):
        return [plain(each) for each in node.items]
    assert isinstance(node, Scalar)
    return node.value


@given(st.lists(st.text(alphabet="ab/~0", max_size=4), max_size=5))
def test_a_pointer_reads_back_as_it_was_written(path: list[str]) -> None:
    assert steps(show(tuple(path))) == tuple(path)


def test_pointers_are_written_as_rfc_6901_has_them() -> None:
    # RFC 6901, section 5.
    assert show(("a/b",)) == "/a~1b"
    assert show(("m~n",)) == "/m~0n"
    assert show(("foo", 0)) == "/foo/0"


@given(st.text(alphabet="ab\n\r", max_size=20), st.data())
def test_places_agree_with_splitting_into_lines(text: str, data: st.DataObject) -> None:
    index = data.draw(st.integers(0, len(text)))
    if index and text[index - 1] == "\r" and text[index : index + 1] == "\n":
        return
    before = text[:index].replace("\r\n", "\n").replace("\r", "\n")
    mark = place(text, index)
    assert (mark.line, mark.column) == (before.count("\n") + 1, len(before) - before.rfind("\n"))


def test_a_missing_value_is_placed_at_what_is_around_it() -> None:
    document = Document(path="x.yml", text="a:\n  - b: c\n")
    assert (document.value("/a/0/b").line, document.value("/a/0/b").column) == (2, 8)
    assert (document.value("/a/0/none").line, document.value("/a/0/none").column) == (2, 5)
    assert (document.key("/a/0/b").line, document.key("/a/0/b").column) == (2, 5)
