"""Every reference is held to what is there, with the nearest id; old ids, chains, circles and ids that stand twice."""

from __future__ import annotations

import pytest

from kbtools.rules import samples
from kbtools.rules.references.kb314_circle import circles
from tests.support.checked_samples import CASE, DRAFT, FAULT, GONE, MODEL, changed, findings, places, with_file

BOTH = changed("systems.yml", "- {id: multimeter, name: Multimeter, usual: true}", "- {id: dmm, name: Multimeter}")
BOTH = {path: text.replace("tools: [multimeter]", "tools: [dmm]") for path, text in BOTH.items()}
"""A tool whose name is not like its id."""


@pytest.mark.parametrize(
    ("path", "old", "written", "rule", "meant"),
    [
        # By id: a slip, and capitals.
        (FAULT, "model: wren-400", "model: wren-40", "KB301", "wren-400"),
        (FAULT, "system: charging\n", "system: Chraging\n", "KB302", "charging"),
        (FAULT, "component: regulator", "component: Regulater", "KB303", "regulator"),
        (FAULT, "cautions: [battery-gas]", "cautions: [Battery-Gas]", "KB304", "battery-gas"),
        (FAULT, "      access: [seat-off]", "      access: [seat-of]", "KB305", "seat-off"),
        (FAULT, "tools: [multimeter]", "tools: [multimetre]", "KB306", "multimeter"),
        (FAULT, "points_to: [corroded-plug]", "points_to: [coroded-plug]", "KB307", "corroded-plug"),
        (CASE, "check: look-at-plug", "check: look-at-plugs", "KB308", "look-at-plug"),
        (FAULT, "2003-2007, unit: engine-a", "2003-2007, unit: engine-aa", "KB309", "engine-a"),
        (CASE, "fault: lamp-flickers", "fault: lamp-flicker", "KB310", "lamp-flickers"),
        (CASE, "fault: lamp-flickers\n", "fault: lamp-flickers\nfollows: wren-400-001\n", "KB311", "wren-400-0001"),
        (GONE, "replaced_by: battery-flat", "replaced_by: batery-flat", "KB310", "battery-flat"),
        # By name, of every kind that has one.
        (FAULT, "model: wren-400", "model: Wren 400", "KB301", "wren-400"),
        (CASE, "model: wren-400", "model: wren 400", "KB301", "wren-400"),
        (FAULT, "system: charging\n", "system: Brakes\n", "KB302", "brakes"),
        (MODEL, "system: charging", "system: Charging", "KB302", "charging"),
        (FAULT, "component: regulator", "component: Regulator", "KB303", "regulator"),
        (FAULT, "      access: [seat-off]", "      access: [Seat off]", "KB305", "seat-off"),
        (FAULT, "points_to: [corroded-plug]", "points_to: [Corroded plug at the regulator]", "KB307", "corroded-plug"),
        (CASE, "check: look-at-plug", "check: Pull the plug and look for green terminals", "KB308", "look-at-plug"),
        (FAULT, "2003-2007, unit: engine-a", "2003-2007, unit: Engine unit A", "KB309", "engine-a"),
        (FAULT, "related: [battery-flat]", "related: [Battery flat after a night]", "KB310", "battery-flat"),
    ],
)
def test_the_nearest_id_is_named(path: str, old: str, written: str, rule: str, meant: str) -> None:
    (found,) = findings(changed(path, old, written))
    assert (found.rule, found.path, found.severity) == (rule, path, "error")
    assert found.hint == f'Did you mean "{meant}"?'


def test_a_name_that_is_nothing_like_the_id_finds_it() -> None:
    assert findings(BOTH) == ()
    (found,) = findings(changed(FAULT, "tools: [dmm]", "tools: [Multimetre]", BOTH))
    assert (found.rule, found.hint) == ("KB306", 'Did you mean "dmm"?')


def test_another_name_of_a_model_finds_it() -> None:
    called = changed(MODEL, "name: Wren 400\n", "name: Wren 400\nalso_called: [Jenny]\n")
    (found,) = findings(changed(FAULT, "model: wren-400", "model: jenny", called))
    assert (found.rule, found.hint) == ("KB301", 'Did you mean "wren-400"?')


OLD = changed(FAULT, "related: [battery-flat]", "formerly: [rain-lamp]")


@pytest.mark.parametrize(
    ("path", "old", "new"),
    [
        (CASE, "fault: lamp-flickers", "fault: rain-lamp"),
        (DRAFT, "draft: true", "draft: true\nrelated: [rain-lamp]"),
        (DRAFT, "draft: true", "draft: true\ndistinct_from: [{fault: rain-lamp, because: It is another.}]"),
        (GONE, "replaced_by: battery-flat", "replaced_by: rain-lamp"),
    ],
)
def test_who_still_names_an_old_id_is_told_the_new_one(path: str, old: str, new: str) -> None:
    assert findings(OLD) == ()
    (found,) = findings(changed(path, old, new, OLD))
    assert (found.rule, found.path) == ("KB310", path)
    assert found.hint == 'It is called "lamp-flickers"; write that.'


def test_who_nearly_writes_an_old_id_is_told_the_new_one() -> None:
    (found,) = findings(changed(CASE, "fault: lamp-flickers", "fault: rain-lmap", OLD))
    assert found.hint == 'Did you mean "lamp-flickers"? It was called "rain-lamp".'


@pytest.mark.parametrize(
    ("path", "old", "new", "expected"),
    [
        (FAULT, "related: [battery-flat]", "formerly: [battery-flat]", ["KB313 lamp-flickers.yml:30:12"]),
        (FAULT, "related: [battery-flat]", "formerly: [lamp-flickers]", ["KB313 lamp-flickers.yml:30:12"]),
        (DRAFT, "draft: true", "draft: true\nformerly: [rain-lamp]", ["KB313 lamp-flickers.yml:30:12"]),
    ],
)
def test_an_old_id_belongs_to_one_entry_that_is_not_called_so(
    path: str, old: str, new: str, expected: list[str]
) -> None:
    files = changed(path, old, new, samples.FILES if path == FAULT else OLD)
    assert places(findings(files)) == expected


@pytest.mark.parametrize(
    ("files", "expected"),
    [
        # Two files of one kind, in two folders.
        (
            with_file("faults/brakes/battery-flat.yml", "title: Flat\nsystem: brakes\ndraft: true\n"),
            ["KB312 battery-flat.yml:1:1"],
        ),
        (
            with_file("cases/2025/wren-400-0001.yml", samples.FILES[CASE].replace("seen: 2026", "seen: 2025")),
            ["KB312 wren-400-0001.yml:1:1"],
        ),
        # Files that are one on a disk that does not tell capitals apart: the name itself is the mistake.
        (
            with_file("faults/charging/Battery-Flat.yml", samples.FILES[DRAFT]),
            ["KB109 Battery-Flat.yml:1:1"],
        ),
        (with_file("models/WREN-400.yml", samples.FILES[MODEL]), ["KB109 WREN-400.yml:1:1"]),
        # Rows of lists.
        (
            changed(
                "club.yml",
                "{id: flash, name",
                "{id: obd, name: Older code, pattern: 'Q[0-9]', example: Q1}\n  - {id: flash, name",
            ),
            ["KB312 club.yml:20:10"],
        ),
        (
            changed(
                "club.yml",
                "{id: flash, name",
                "{id: Obd, name: Older code, pattern: 'Q[0-9]', example: Q1}\n  - {id: flash, name",
            ),
            ["KB204 club.yml:20:10"],
        ),
        (
            changed(
                MODEL,
                "  - {id: engine-a,",
                "  - {id: engine-a, name: Old, system: charging, years: 2003}\n  - {id: engine-a,",
            ),
            ["KB312 wren-400.yml:5:10"],
        ),
        (
            changed("cautions.yml", "cautions:\n", "cautions:\n  - {id: battery-gas, text: No smoking.}\n"),
            ["KB312 cautions.yml:3:10"],
        ),
        (
            changed("systems.yml", "    safety_critical: true\n", "    children: [{id: charging, name: Coil}]\n"),
            ["KB312 systems.yml:5:21"],
        ),
        (
            changed(
                FAULT,
                "checks:\n  - id: look-at-plug",
                "checks:\n  - {id: look-at-plug, do: Look., expect: Clean., points_to: [corroded-plug], "
                "minutes: 1, skill: home}\n  - id: look-at-plug",
            ),
            ["KB312 lamp-flickers.yml:22:9"],
        ),
    ],
)
def test_an_id_stands_once_without_regard_to_capitals(files: dict[str, str], expected: list[str]) -> None:
    assert places(findings(files)) == expected


def test_a_file_whose_id_another_one_has_is_examined_in_the_same_run() -> None:
    again = samples.FILES[FAULT].replace("system: charging", "system: brakes").replace("skill: home", "skill: hom", 1)
    files = with_file("faults/brakes/lamp-flickers.yml", again.replace("component: regulator", "component: fuse"))
    told = {each.rule for each in findings(files) if each.path.startswith("faults/")}
    assert {"KB312", "KB303", "KB204"} <= told


def test_a_misnamed_file_is_told_once_and_not_at_those_who_name_it() -> None:
    files = {path: text for path, text in samples.FILES.items() if path != DRAFT}
    assert places(findings(with_file("faults/charging/Battery-Flat.yml", samples.FILES[DRAFT], files))) == [
        "KB109 Battery-Flat.yml:1:1"
    ]


WITHDRAWN = "withdrawn: {on: 2026-05-01, reason: Folded into another., replaced_by: "


@pytest.mark.parametrize(
    ("files", "expected", "hint"),
    [
        # A chain: it ends at an entry that holds, or at none.
        (
            changed(DRAFT, "draft: true", f"draft: true\n{WITHDRAWN}lamp-flickers}}", OLD),
            "KB315 lamp-glows.yml:12:78",
            'It leads on to "lamp-flickers"; name that.',
        ),
        (
            changed(DRAFT, "draft: true", f"draft: true\n{WITHDRAWN[:-15]}}}"),
            "KB315 lamp-glows.yml:12:78",
            "Name an entry that holds, or none.",
        ),
        # Circles, of one and of two.
        (changed(GONE, "replaced_by: battery-flat", "replaced_by: lamp-glows"), "KB314 lamp-glows.yml:12:78", None),
        (changed(DRAFT, "draft: true", f"draft: true\n{WITHDRAWN}lamp-glows}}"), "KB314 battery-flat.yml:4:72", None),
        (
            changed(CASE, "fault: lamp-flickers\n", "fault: lamp-flickers\nfollows: wren-400-0001\n"),
            "KB314 wren-400-0001.yml:5:10",
            None,
        ),
        (changed("systems.yml", "minutes: 3,", "minutes: 3, needs: [seat-off],"), "KB314 systems.yml:10:56", None),
    ],
)
def test_what_leads_on_arrives(files: dict[str, str], expected: str, hint: str | None) -> None:
    found = findings(files)
    assert places(found) == [expected]
    assert hint is None or found[0].hint == hint


def test_an_entry_that_leads_into_a_circle_is_not_told_again() -> None:
    circle = changed(DRAFT, "draft: true", f"draft: true\n{WITHDRAWN}lamp-glows}}")
    extra = f"title: Dim\nsystem: charging\ndraft: true\n{WITHDRAWN}lamp-glows}}\n"
    assert places(findings(with_file("faults/charging/lamp-dim.yml", extra, circle))) == ["KB314 battery-flat.yml:4:72"]


@pytest.mark.parametrize(
    ("edges", "expected"),
    [
        ({}, []),
        ({"a": ["b"], "b": ["c"]}, []),
        ({"a": ["a"]}, [{"a"}]),
        ({"a": ["b"], "b": ["c"], "c": ["a"], "d": ["a"]}, [{"a", "b", "c"}]),
        ({"d": ["a"], "a": ["b"], "b": ["a"]}, [{"a", "b"}]),
        ({"a": ["b", "c"], "b": ["d"], "c": ["d"]}, []),
        ({"a": ["b"], "b": ["a"], "c": ["d"], "d": ["c"]}, [{"a", "b"}, {"c", "d"}]),
    ],
)
def test_circles_of_a_graph(edges: dict[str, list[str]], expected: list[set[str]]) -> None:
    assert [set(each) for each in circles(edges)] == expected


def test_a_long_chain_does_not_run_out_of_stack() -> None:
    edges = {str(number): [str(number + 1)] for number in range(50_000)}
    assert list(circles(edges)) == []
    edges["50000"] = ["0"]
    assert [len(each) for each in circles(edges)] == [50_001]


@pytest.mark.parametrize("broken", ["name: Wren: 400", "- Wren 400\nname: Wren 400"])
def test_nothing_follows_from_a_model_that_cannot_be_read(broken: str) -> None:
    found = findings(changed(MODEL, "name: Wren 400", broken))
    assert [each.path for each in found] == [MODEL]


def test_a_folder_that_is_no_system_is_told_where_the_entry_belongs() -> None:
    (found,) = findings(with_file("faults/chargin/dim.yml", "title: Dim\nsystem: charging\ndraft: true\n"))
    assert (found.rule, found.path, found.hint) == ("KB731", "faults/chargin/dim.yml", "Move it to faults/charging/.")


def test_a_control_unit_that_stands_twice_says_nothing_of_years() -> None:
    twice = "  - {id: engine-a, name: Old, system: charging, years: 2003}\n  - {id: engine-a,"
    assert [each.rule for each in findings(changed(MODEL, "  - {id: engine-a,", twice))] == ["KB312"]


# Addresses on hand-written pages


@pytest.mark.parametrize(
    ("line", "column"),
    [
        # RFC 3986, section 3.2.2: square brackets stand around an IPv6 address, and nowhere else in a host.
        ("[a](http://[)", 5),
        ("![a](//[b])", 6),
        ("Look at <https://a]>.", 10),
        ("[a][r]\n\n[r]: http://[b", 6),
        ("[a](http&#58;//[)", 5),
    ],
)
def test_an_address_that_is_none_is_found_at_its_place(line: str, column: int) -> None:
    found = findings(with_file("pages/trip.md", f"# Trip\n\nWords.\n\n{line}\n"))
    assert places(found) == [f"KB321 trip.md:{5 + line.count(chr(10))}:{column}"]


@pytest.mark.parametrize(
    "line", ["[a](http://[::1]/b)", "`[a](http://[)`", "[a](https://x.example/?[b)", "(see //[ here)"]
)
def test_other_brackets_are_no_matter(line: str) -> None:
    assert findings(with_file("pages/trip.md", f"# Trip\n\n{line}\n")) == ()
