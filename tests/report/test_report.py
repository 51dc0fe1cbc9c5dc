"""The formats of findings, each held to a snapshot that was written by hand, and to what its readers demand."""

from __future__ import annotations

import json
import re
from typing import Any
from urllib.parse import unquote, urlsplit

import attr
import pytest
import sarif_om
from hypothesis import example, given
from hypothesis import strategies as st

from kbtools.diagnostics import Finding, Mark, has_errors, in_order
from kbtools.edges.rulebook import rulebook
from kbtools.report import github, sarif, text
from kbtools.report.context import PLAIN, ReportContext
from kbtools.report.excerpt import columns, quoted
from kbtools.report.formats import FORMATS
from kbtools.text.terminal import shown
from tests.support.places import TESTS

SNAPSHOTS = TESTS / "snapshots"
PATH = "kb/faults/charging/lamp.yml"
LINES = ("title: Charge lamp", "", "system: chargin")
CONTEXT = ReportContext(
    lines=lambda _: LINES,
    rules=lambda: rulebook().rules,
    rule_pages=lambda: "https://lore.sample.example/rules/",
)
WARNING = Finding(
    rule="KB702",
    severity="warning",
    path=PATH,
    mark=Mark(line=9, column=1),
    message="The title holds \x1b[31m and \u202e.",
    hint="Take the sign out.",
)
ERROR = Finding(
    rule="KB302",
    severity="error",
    path=PATH,
    mark=Mark(line=3, column=8),
    message='There is no system "chargin".',
    hint='Did you mean "charging"?',
)


def finding(message: str = "Wrong.", hint: str = "Mend it.", path: str = PATH, rule: str = "KB302") -> Finding:
    return Finding(rule=rule, severity="error", path=path, mark=Mark(line=3, column=8), message=message, hint=hint)


def comparable(made: str) -> dict[str, Any]:
    """A SARIF log without what grows with each rule, and without what has tests of its own below."""
    log: dict[str, Any] = json.loads(made)
    for run in log["runs"]:
        del run["tool"]["driver"]["version"]
        rules = run["tool"]["driver"]["rules"]
        run["tool"]["driver"]["rules"] = [rule for rule in rules if rule["id"] == ERROR.rule]
        for result in run["results"]:
            del result["partialFingerprints"]
            result.pop("ruleIndex", None)
    return log


@pytest.mark.parametrize("name", sorted(FORMATS))
def test_every_format_has_its_snapshot(name: str) -> None:
    # A rule that is no longer there has no title; whether KB702 is one is not this test's matter.
    made = FORMATS[name](in_order([WARNING, ERROR, ERROR]), CONTEXT)
    expected = (SNAPSHOTS / f"findings.{name}").read_text("utf-8")
    if name == "json":
        # JSON may write a character either way; what it says counts.
        assert json.loads(made) == json.loads(expected)
    elif name == "sarif":
        assert comparable(made) == json.loads(expected)
    else:
        assert re.sub(r"(title=KB702)%3A [^:]*", r"\1", made) == expected


def test_no_findings_are_said_in_words() -> None:
    assert text.render([]) == "Nothing to mend.\n"
    assert github.render([]) == "Nothing to mend.\n"
    assert json.loads(FORMATS["json"]([], PLAIN)) == []
    assert json.loads(sarif.render([]))["runs"][0]["results"] == []


def test_a_warning_alone_stops_nothing() -> None:
    assert not has_errors([WARNING])
    assert has_errors([WARNING, ERROR])


# Text


def test_colours_add_nothing_but_colours() -> None:
    coloured = text.render([ERROR, WARNING], ReportContext(lines=CONTEXT.lines, colour=True))
    assert "\x1b[31m" in coloured
    # ECMA-48: select graphic rendition is CSI, numbers with semicolons, m. The warning's own was written out.
    assert re.sub(r"\x1b\[[0-9;]*m", "", coloured) == text.render([ERROR, WARNING], CONTEXT)


@pytest.mark.parametrize(
    ("line", "column", "expected", "before"),
    [
        ("system: chargin", 9, "system: chargin", 8),
        # After the last character.
        ("system:", 8, "system:", 7),
        # A tab is written out, two columns wide.
        ("\t- {kind", 2, "\\t- {kind", 2),
        # Unicode Standard Annex 11: U+30E9 is wide; U+0301 combines with the letter before it.
        ("ラン: x", 5, "ラン: x", 6),
        ("e\u0301: x", 5, "e\u0301: x", 3),
        # Direction marks and other controls cannot act on the terminal.
        ("a\u202eb\x1b[1m: x", 3, "a\\u202eb\\u001b[1m: x", 7),
    ],
)
def test_the_caret_stands_below_the_place(line: str, column: int, expected: str, before: int) -> None:
    assert quoted([line], Mark(line=1, column=column), 80) == ("    1 | ", expected, " " * before + "^")


def test_a_long_line_is_cut_around_the_place() -> None:
    line = "".join(chr(ord("a") + index % 26) for index in range(100_000))
    quote = quoted([line], Mark(line=1, column=50_001), 60)
    assert quote is not None
    number, part, caret = quote
    assert len(number + part) <= 60
    assert part.startswith("...")
    assert part.endswith("...")
    # 50,000 is 26 times 1,923 and 2: the place is a c.
    assert part[len(caret) - 1] == "c"
    assert part[3:-3] in line


@given(st.text(max_size=400), st.integers(1, 500), st.integers(1, 160))
@example("ラ" * 300, 150, 40)
@example("\u0301" * 300, 150, 40)
@example("\U000e0001" * 50, 25, 40)
def test_whatever_the_line_it_fits_and_the_place_is_marked(line: str, column: int, width: int) -> None:
    quote = quoted([line], Mark(line=1, column=column), width)
    if not line.strip():
        assert quote is None
        return
    assert quote is not None
    number, part, caret = quote
    assert part.isprintable()
    assert columns(number + part) <= max(width, 28)
    at = len(caret) - 1
    assert at <= columns(part)
    # What begins at the caret's column is the character at the place.
    if column <= len(line) and columns(shown(line[column - 1])) == len(shown(line[column - 1])) == 1:
        starts = [index for index in range(len(part)) if columns(part[:index]) == at]
        assert shown(line[column - 1]) in [part[index] for index in starts]


def test_a_line_that_is_not_there_is_not_quoted() -> None:
    assert quoted([], Mark(line=1, column=1), 80) is None
    assert quoted(["a"], Mark(line=2, column=1), 80) is None
    assert quoted(["   "], Mark(line=1, column=1), 80) is None


# GitHub. The form and its escapes are those of GitHub's documentation of workflow commands; the reader is our own.


def read_commands(log: str) -> list[tuple[str, dict[str, str], str]]:
    """The commands in a job's log, as the documentation describes them: one a line, after two colons."""
    found = []
    for line in re.split(r"\r\n|\r|\n", log):
        match = re.fullmatch(r"\s*::([a-zA-Z-]+)(?: ([^:]*))?::(.*)", line, re.DOTALL)
        if match is not None:
            properties = dict(each.split("=", 1) for each in (match[2] or "").split(",") if each)
            found.append((match[1], {name: decoded(value) for name, value in properties.items()}, decoded(match[3])))
    return found


def decoded(value: str) -> str:
    for escape, character in (("%0D", "\r"), ("%0A", "\n"), ("%3A", ":"), ("%2C", ","), ("%25", "%")):
        value = value.replace(escape, character)
    return value


@given(st.text(), st.text(), st.text(min_size=1))
@example("a\n::set-env name=PATH::/evil", "\r::stop-commands::x", "kb/a\n::error::b.yml")
@example("100%0A::error::x", ",line=1::", "kb/a,line=1::b.yml")
@example("\u2028::error::x\x85::error::y\x0b::error::z", "##[error]x", "kb/%2C.yml")
def test_no_text_starts_a_second_command(message: str, hint: str, path: str) -> None:
    made = github.render([finding(message, hint, path)], CONTEXT)
    assert made.count("\n") == 2
    ((name, properties, data),) = read_commands(made)
    assert name == "error"
    assert properties == {"file": shown(path), "line": "3", "col": "8", "title": "KB302: Unknown system"}
    assert data == f"{shown(message)}\n{shown(hint)}"


# SARIF 2.1.0. sarif-om is a published object model, generated from the standard's schema: it knows each object's
# properties, and demands those that the schema requires.

OBJECTS: dict[str, tuple[type, dict[str, str]]] = {
    "log": (sarif_om.SarifLog, {"runs": "run"}),
    "run": (sarif_om.Run, {"tool": "tool", "results": "result"}),
    "tool": (sarif_om.Tool, {"driver": "component"}),
    "component": (sarif_om.ToolComponent, {"rules": "descriptor"}),
    "descriptor": (
        sarif_om.ReportingDescriptor,
        {
            "shortDescription": "multiformat",
            "fullDescription": "multiformat",
            "help": "multiformat",
            "defaultConfiguration": "configuration",
        },
    ),
    "multiformat": (sarif_om.MultiformatMessageString, {}),
    "configuration": (sarif_om.ReportingConfiguration, {}),
    "result": (sarif_om.Result, {"message": "message", "locations": "location"}),
    "message": (sarif_om.Message, {}),
    "location": (sarif_om.Location, {"physicalLocation": "physical"}),
    "physical": (sarif_om.PhysicalLocation, {"artifactLocation": "artifact", "region": "region"}),
    "artifact": (sarif_om.ArtifactLocation, {}),
    "region": (sarif_om.Region, {}),
}


def hold(value: dict[str, Any], kind: str) -> None:
    """Each property is one of the standard's, and those that it requires are there."""
    model, below = OBJECTS[kind]
    fields = {each.metadata["schema_property_name"]: each for each in attr.fields(model)}
    assert set(value) <= set(fields), kind
    required = {name for name, each in fields.items() if each.default is attr.NOTHING}
    assert required <= set(value), kind
    for name, child in below.items():
        for each in value[name] if isinstance(value[name], list) else [value[name]]:
            hold(each, child)


def log_of(*findings: Finding) -> dict[str, Any]:
    log: dict[str, Any] = json.loads(sarif.render(findings, CONTEXT))
    return log


def test_the_log_has_the_members_of_the_standard_and_no_other() -> None:
    log = log_of(ERROR, WARNING)
    hold(log, "log")
    # 3.13.2: version; 3.14.2: tool; 3.18.2: driver; 3.19.8: name; 3.49.3: id; 3.27.11: message; 3.11.2: text or id.
    assert log["version"] == "2.1.0"
    assert log["$schema"].endswith("/sarif-schema-2.1.0.json")
    for run in log["runs"]:
        assert run["tool"]["driver"]["name"]
        assert all(rule["id"] and rule["help"]["text"] for rule in run["tool"]["driver"]["rules"])
        assert all(result["message"]["text"] for result in run["results"])


def test_a_model_that_lacks_a_member_is_found() -> None:
    log = log_of(ERROR)
    del log["runs"][0]["results"][0]["message"]
    with pytest.raises(AssertionError):
        hold(log, "log")


def test_every_rule_is_described_and_a_result_points_to_its_own() -> None:
    run = log_of(ERROR, finding(rule="KB101"))["runs"][0]
    rules = run["tool"]["driver"]["rules"]
    assert [rule["id"] for rule in rules] == [rule.code for rule in rulebook().rules]
    assert [rules[result["ruleIndex"]]["id"] for result in run["results"]] == ["KB302", "KB101"]
    # 3.49.14 and 3.50.3: the level that a result has if it names none.
    assert {rule["id"]: rule["defaultConfiguration"]["level"] for rule in rules}["KB410"] == "warning"


@pytest.mark.parametrize("path", ["kb/faults/a b/ü%41#?.yml", "a:b/c.yml", "../kb/x.yml", "kb/\udcff.yml"])
def test_a_path_is_a_relative_reference(path: str) -> None:
    result = log_of(finding(path=path))["runs"][0]["results"][0]
    uri = result["locations"][0]["physicalLocation"]["artifactLocation"]["uri"]
    assert uri.isascii()
    split = urlsplit(uri)
    assert (split.scheme, split.netloc, split.query, split.fragment) == ("", "", "", "")
    assert unquote(uri, errors="surrogateescape") == path


def test_a_fingerprint_outlives_lines_that_are_added_above_and_is_nobody_elses() -> None:
    moved = Finding(**{**{name: getattr(ERROR, name) for name in ERROR.__slots__}, "mark": Mark(line=30, column=2)})
    prints = [
        each["partialFingerprints"][sarif.FINGERPRINT]
        for log in (log_of(ERROR), log_of(moved), log_of(ERROR, moved, WARNING))
        for each in log["runs"][0]["results"]
    ]
    assert prints[0] == prints[1] == prints[2]
    assert len(set(prints[2:])) == 3


def test_an_authors_words_become_neither_a_link_nor_a_placeholder() -> None:
    # 3.11.5 and 3.11.6 of the standard.
    (result,) = log_of(finding("There is no [model](https://evil.example) {0}."))["runs"][0]["results"]
    assert result["message"]["text"] == "There is no [model] (https://evil.example) {{0}}. Mend it."
