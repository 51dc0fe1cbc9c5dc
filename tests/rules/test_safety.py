"""Whom the rules of family KB5 concern, and whom not: systems below safety-critical ones, drafts, damaged parts."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from pathlib import Path

import pytest

from kbtools.diagnostics import Finding
from kbtools.edges.folder import load
from kbtools.edges.rulebook import rulebook
from kbtools.edges.shipped import shapes, tables
from kbtools.linting.run import lint
from kbtools.reading.reader import read
from kbtools.reading.source import SourceFile
from kbtools.rules import samples
from kbtools.rules.samples import BRAKES, BRAKES_PATH, FILES
from tests.support.hostile_texts import STRINGS, Schemas, fill_base
from tests.support.places import ROOT

SHAPES = shapes()
FAULT = "faults/charging/lamp-flickers.yml"
CASE = "cases/2026/wren-400-0001.yml"


def findings(changes: Mapping[str, str]) -> list[Finding]:
    files = {**FILES, **changes}
    sources = [SourceFile(path=path, data=text.encode()) for path, text in files.items()]
    reading = read(sources, SHAPES, tables=tables())
    # What is said of other entries and of their age is not looked at here.
    return [each for each in lint(reading, rulebook(), dt.date(2026, 6, 1)) if each.rule < "KB6"]


def rules(changes: Mapping[str, str]) -> list[str]:
    return [finding.rule for finding in findings(changes)]


def instead(path: str, piece: str, new: str) -> dict[str, str]:
    assert FILES[path].count(piece) == 1
    return {path: FILES[path].replace(piece, new)}


BARE = BRAKES.replace("cautions: [battery-gas]\n", "").replace(
    "      verify: {do: Pull the lever for a minute., expect: It stays where it is.}\n", ""
)
SOFT = BARE.replace("do-not-ride, why: The lever may come back to the grip.", "no-restriction, why: It is only soft.")


def test_a_system_below_a_safety_critical_one_is_one_too() -> None:
    systems = FILES["systems.yml"].replace(
        "    safety_critical: true\n",
        "    safety_critical: true\n    children: [{id: front, name: Front, children: [{id: lever, name: Lever}]}]\n",
    )
    fault = SOFT.replace("system: brakes", "system: lever")
    assert rules({"systems.yml": systems, BRAKES_PATH: fault}) == ["KB501", "KB502", "KB503"]


@pytest.mark.parametrize(
    "change",
    [
        ("system: brakes", "system: charging"),
        ("system: brakes\n", "system: brakes\ndraft: true\n"),
        ("system: brakes\n", "system: brakes\nwithdrawn: {on: 2026-05-01, reason: It was another one.}\n"),
    ],
)
def test_other_systems_drafts_and_withdrawn_entries_are_not_asked(change: tuple[str, str]) -> None:
    folder = "charging" if "charging" in change[1] else "brakes"
    assert rules({f"faults/{folder}/lever-soft.yml": SOFT.replace(*change)}) == []


@pytest.mark.parametrize(
    ("change", "only"),
    [
        # The caution is misspelt, the list is no list, the level is misspelt, the verify is no mapping.
        (("applies_to", "cautions: [battery-gass]\napplies_to"), ["KB304", "KB502", "KB503"]),
        (("applies_to", "cautions: battery-gas\napplies_to"), ["KB201", "KB502", "KB503"]),
        (("no-restriction", "no-restrictions"), ["KB204", "KB501", "KB503"]),
        (("      skill", "      verify: pull the lever\n      skill"), ["KB201", "KB501", "KB502"]),
        (("system: brakes", "system: brake"), ["KB302"]),
    ],
)
def test_nothing_follows_from_another_finding(change: tuple[str, str], only: list[str]) -> None:
    assert sorted(rules({BRAKES_PATH: SOFT.replace(*change)})) == only


def test_a_caution_of_each_work_is_a_caution() -> None:
    each = BRAKES.replace("cautions: [battery-gas]\n", "").replace(
        "      skill", "      cautions: [battery-gas]\n      skill"
    )
    each = each.replace("    before_riding", "    cautions: [battery-gas]\n    before_riding")
    assert rules({BRAKES_PATH: each}) == []
    check = "  - {id: look, do: Look., expect: Clear., points_to: [old-fluid], minutes: 5, skill: home}\nsources:"
    assert rules({BRAKES_PATH: each.replace("sources:", check)}) == ["KB501"]


@pytest.mark.parametrize(
    ("why", "enough"),
    [
        ("It is fine.", False),
        ("Lever grows soft on the way down, ride with care, ride with care, no restriction.", False),
        ("n/a n/a n/a n/a n/a n/a n/a", False),
        ("Both discs keep full pressure; only the switch of the lamp sticks.", True),
        ("Die Bremse wirkt voll, nur der Schalter der Lampe klemmt.", True),
        ("ブレーキは効く。灯だけ消えない。", True),
        ("大丈夫", False),
    ],
)
def test_a_reason_of_substance_has_words_of_its_own(why: str, enough: bool) -> None:
    fault = BRAKES.replace("do-not-ride, why: The lever may come back to the grip.", f'ride-with-care, why: "{why}"')
    assert rules({BRAKES_PATH: fault}) == ([] if enough else ["KB502"])


def test_work_on_a_safety_critical_component_is_verified_whatever_the_system_of_the_fault() -> None:
    systems = FILES["systems.yml"].replace("access:\n", "  - {id: lever, name: Lever, system: brakes}\naccess:\n")
    fault = FILES[FAULT].replace("component: regulator", "component: lever")
    assert rules({"systems.yml": systems, FAULT: fault}) == ["KB503"]


ACCESS = "  - {id: seat-off, name: Seat off, minutes: 3, cautions: [battery-gas]}\n"


def hazard(
    job: str, component: str, *, own: str = "battery-gas", vapour: str = "text: Petrol vapour burns."
) -> list[str]:
    """Rules that find something where the first cause takes this access job and component."""
    systems = FILES["systems.yml"].replace(ACCESS, f"{ACCESS}  - {{id: job, {job}}}\n")
    systems = systems.replace("access:\n", f"  - {{id: thing, {component}, system: charging}}\naccess:\n")
    fault = FILES[FAULT].replace("component: regulator", "component: thing")
    fault = fault.replace("access: [seat-off]\nchecks", "access: [job]\nchecks")
    fault = fault.replace("\ncautions: [battery-gas]", f"\ncautions: [{own}]")
    cautions = f"{FILES['cautions.yml']}  - {{id: vapour, {vapour}}}\n  - {{id: lifting, text: Mind your feet.}}\n"
    words = "words:\n  - [petrol, moonshine]\n"
    return rules({"cautions.yml": cautions, "words.yml": words, "systems.yml": systems, FAULT: fault})


PANEL = "name: Panel off, minutes: 9"


def test_fuel_and_battery_need_a_caution_about_them_and_what_they_bring_with_them_is_one() -> None:
    tank = "name: Fuel tank off, minutes: 9, allows: off"
    assert hazard(PANEL, "name: Fuel line") == ["KB504"]
    assert hazard(tank, "name: Regulator") == ["KB504"]
    assert hazard(tank, "name: Regulator", own="vapour") == []
    # The component or the access job brings it: nobody repeats it in the entry.
    assert hazard(PANEL, "name: Fuel line, cautions: [vapour]") == []
    assert hazard(f"{tank}, cautions: [vapour]", "name: Fuel line") == []
    # A caution about something else is none about it; one about the battery is none about fuel.
    assert hazard(PANEL, "name: Fuel line, cautions: [lifting]") == ["KB504"]
    assert hazard(f"{tank}, needs: [seat-off]", "name: Regulator", own="lifting") == ["KB504"]
    # What is no danger by its name asks for nothing, nor does a part of the fuel system that is only electrical.
    assert hazard(PANEL, "name: Regulator", own="lifting") == []
    assert hazard(PANEL, "name: Fuel pump relay") == []
    # A word of words.yml that means the same.
    assert hazard(PANEL, "name: Moonshine tap") == ["KB504"]


def test_what_a_caution_is_about_is_told_by_its_hazard_before_its_words() -> None:
    # Its words name the battery, its author says that it is about fuel; and the other way round.
    spark = "hazard: fuel, text: A battery's spark sets it alight."
    assert hazard(PANEL, "name: Fuel line", own="vapour", vapour=spark) == []
    assert hazard(PANEL, "name: Fuel line", vapour=spark) == ["KB504"]
    lifting = "hazard: lifting, text: A full fuel tank is heavy."
    assert hazard(PANEL, "name: Fuel line", own="vapour", vapour=lifting) == []


def test_a_caution_of_the_system_is_one_for_all_its_entries() -> None:
    systems = FILES["systems.yml"].replace(
        "    safety_critical: true\n", "    safety_critical: true\n    cautions: [battery-gas]\n"
    )
    bare = BRAKES.replace("cautions: [battery-gas]\n", "")
    assert rules({BRAKES_PATH: bare}) == ["KB501"]
    assert rules({"systems.yml": systems, BRAKES_PATH: bare}) == []


def test_every_field_that_takes_a_text_is_looked_at(tmp_path: Path) -> None:
    # `hostile` finds the fields by walking the schemas on its own.
    places = fill_base(ROOT / "kb", tmp_path / "kb", Schemas(ROOT / "schemas"), "<b>bold</b>")
    writings = load(tmp_path / "kb").base.writings
    texts = {kind: [text for each in writings if each.kind == kind for text in each.texts] for kind in ("words", "key")}
    assert sum(text.startswith("<b>bold</b>") for text in texts["words"]) == sum(places.values())
    assert texts["key"]
    assert all(text.startswith("<b>bold</b>") for text in texts["key"])


def test_drafts_lists_keys_and_entries_of_the_same_name_are_looked_at() -> None:
    mail = "anna@mail.example"
    draft = "faults/charging/battery-flat.yml"
    assert rules(instead(draft, "Battery flat", f'"Battery of {mail}"\n# ')) == ["KB508"]
    assert rules({"words.yml": f"[[idle, {mail}]]"}) == ["KB508"]
    assert rules({"accepted.yml": f"[{{rule: KB410, path: club.yml, because: Ask {mail}}}]"}) == ["KB508"]
    code = "{code: P0562, status: stored"
    (found,) = findings(instead(CASE, code, f'{code}, freeze_frame: {{rpm: 1200, "{mail}": 3}}'))
    assert (found.rule, found.mark.line, found.mark.column) == ("KB508", 3, 65)
    assert sorted(rules({"faults/tail/lamp-flickers.yml": f"title: {mail}\nsystem: charging\ndraft: true\n"})) == [
        "KB312",
        "KB508",
    ]


def test_a_full_number_is_found_in_names_of_files_and_bikes_and_links() -> None:
    number = "1M8GDM9AXKP042788"
    assert rules(instead(CASE, "bike: b001", f"bike: {number.lower()}")) == ["KB510"]
    assert rules({f"cases/2026/{number.lower()}.yml": FILES[CASE].replace("bike: b001", "bike: b002")}) == ["KB510"]
    link = "title: Member report, url: https://pics.example/"
    assert rules(instead(CASE, "title: Member report", f"{link}{number}.jpg")) == ["KB510"]
    assert rules(instead(CASE, "title: Member report", f"{link}aaaa0000bbbb1111c")) == []


# The numbers are those that Ofcom keeps for plays and films; the account is an example of the IBAN registry.
PLACES = {
    "id of a bike, VIN": (instead(CASE, "bike: b001", "bike: 1m8-gdm9ax-kp042788"), "KB510"),
    "id of a bike, plate": (instead(CASE, "bike: b001", "bike: ab12-cde"), "KB511"),
    "id of a bike, name": (instead(CASE, "bike: b001", "bike: anna-b"), "KB513"),
    "id of a cause": (instead(FAULT, "id: look-at-plug", "id: look-07700-900456"), "KB509"),
    "licence": (instead("club.yml", "licence: CC-BY-4.0", "licence: finch-at-mail-dot-example"), "KB508"),
    "name of a page": ({"pages/finch@mail.example.md": "# Page\n"}, "KB508"),
    "name of a folder": ({"pages/07700-900456/page.md": "# Page\n"}, "KB509"),
    "name of a case": ({"cases/2026/gb82-west-1234-5698-7654-32.yml": FILES[CASE].replace("b001", "b002")}, "KB515"),
    "name of a picture": ({"pages/4111-1111-1111-1111.jpg": ""}, "KB516"),
    "comment": (instead(CASE, "seen: 2026-02-01", "seen: 2026-02-01 # ask Wenzel"), "KB513"),
    "link to a map": (instead(CASE, "Member report", "R, url: 'https://maps.example/?q=52.520,13.405'"), "KB517"),
    "link to a messenger": (instead(CASE, "Member report", "Report, url: https://wa.me/message/AB"), "KB514"),
    "link to a member": (instead(CASE, "Member report", "Report, url: https://forum.example/u/oily_rag"), "KB518"),
}


@pytest.mark.parametrize("place", list(PLACES))
def test_what_leads_to_a_person_is_found_in_every_place(place: str) -> None:
    changes, rule = PLACES[place]
    found = [each.rule for each in findings(changes)]
    # A renamed check or licence may have other findings; none of them is about a person.
    assert [each for each in found if each.startswith("KB5")] == [rule], found


def test_a_finding_in_the_name_of_a_file_stands_at_its_start_and_shows_three_characters() -> None:
    (found,) = findings({"pages/garage/finch@mail.example.jpg": ""})
    assert (found.rule, found.path, found.mark.line, found.mark.column) == (
        "KB508",
        "pages/garage/finch@mail.example.jpg",
        1,
        1,
    )
    assert "(fin…)" in found.message
    assert "example" not in found.message + found.hint


def test_comments_are_looked_at_and_their_findings_stand_in_them() -> None:
    # One alone on its line, one behind a value, one behind the sign of a block, two findings in one.
    case = (
        "# Call 07700 900456\n"
        + FILES[CASE].replace("seen: 2026-02-01", 'seen: "2026-02-01"   # from anna@mail.example, 01632 960123')
        + "symptoms:\n  - | # owner Anna Beispiel\n    Lamp # no comment\n"
    )
    placed = [(each.rule, each.mark.line, each.mark.column) for each in findings({CASE: case})]
    assert placed == [("KB509", 1, 8), ("KB508", 3, 29), ("KB509", 3, 48), ("KB513", 12, 15)]


def test_a_sign_in_a_text_begins_no_comment_and_is_told_of_once() -> None:
    title = 'title: "Report # call 07700 900456"'
    (found,) = findings(instead(CASE, "title: Member report", title))
    assert (found.rule, found.mark.line) == ("KB509", 9)


def test_a_comment_may_be_accepted_for_the_whole_file() -> None:
    row = f"accepted: [{{rule: KB513, path: {CASE}, because: It is the name of a tool.}}]\n"
    case = FILES[CASE].replace("seen: 2026-02-01", "seen: 2026-02-01 # ask Wenzel")
    assert rules({CASE: case, "accepted.yml": row}) == []


def test_national_numbers_are_those_of_the_countries_that_the_club_names() -> None:
    case = instead(CASE, "Member report", '"Loan 07700900456"')
    club = FILES["club.yml"]
    assert rules(case) == []
    assert rules({**case, "club.yml": f"{club}phone_countries: [DE, GB]\n"}) == ["KB509"]
    assert rules({**case, "club.yml": f"{club}phone_countries: [ES]\n"}) == []


def test_a_link_that_holds_a_number_or_an_address_is_told_of_once() -> None:
    assert rules(instead(CASE, "Member report", "'[ring](tel:+447700900456)'")) == ["KB509"]
    assert rules(instead(CASE, "Member report", "'[mail](mailto:anna@mail.example)'")) == ["KB508"]
    assert rules(instead(CASE, "Member report", "wa.me/message/AB")) == ["KB514"]


def test_ids_codes_dates_and_words_of_a_list_are_no_texts() -> None:
    sources = [SourceFile(path=FAULT, data=FILES[FAULT].encode())]
    (writing,) = [each for each in read(sources, SHAPES, tables=tables()).base.writings if each.kind != "id"]
    assert sorted(writing.pointers) == [
        "/causes/0/fix/parts/0/name",
        "/causes/0/fix/summary",
        "/causes/0/summary",
        "/checks/0/do",
        "/checks/0/expect",
        "/codes/0/meaning",
        "/reviewed/by",
        "/ride_advice/why",
        "/sources/0/title",
        "/title",
    ]


def test_codes_and_patterns_are_no_texts() -> None:
    club = FILES["club.yml"].replace(
        '"[1-9]-[1-9]", example: 4-2', '"[<][bB][>]0[0-9]{3} [0-9]{6}", example: "<b>0171 392001"'
    )
    assert rules({"club.yml": club}) == []


def test_a_name_is_no_role() -> None:
    assert rules(instead(FAULT, "by: curator-1", "by: Jane Sample")) == ["KB513"]
    assert rules(instead(FAULT, "by: curator-1", "by: Head Curator")) == []
    assert rules(instead(FAULT, "by: curator-1", "by: Mr Sample")) == ["KB513"]


def test_a_report_does_not_repeat_what_leads_to_a_person() -> None:
    (found,) = findings(instead(CASE, "Member report", "Ask anna.beispiel@mail.example"))
    assert "ann…" in found.message
    assert "mail.example" not in found.message + found.hint


def test_hostile_texts_have_findings_and_the_rules_stand() -> None:
    expected = {
        "script": "KB505",
        "image": "KB505",
        "link": "KB506",
        "marks": "KB507",
        "markdown": None,
        "template": None,
    }
    for name, rule in expected.items():
        text = STRINGS[name].replace("\\", "\\\\").replace('"', '\\"')
        assert rules(instead(CASE, "title: Member report", f'title: "{text}"')) == ([rule] if rule else []), name


def test_the_family_has_its_severities() -> None:
    family = {rule.code: rule.severity for rule in rulebook().rules if rule.code.startswith("KB5")}
    warn = {code for code, severity in family.items() if severity == "warning"}
    assert warn == {"KB511", "KB512", "KB513", "KB518", "KB560"}


def test_the_sample_of_brakes_is_right() -> None:
    assert rules({samples.BRAKES_PATH: samples.BRAKES}) == []
