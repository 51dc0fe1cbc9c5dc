"""What grows old or stands on little: reviews, sources, second readers, archived copies, links to withdrawn entries."""

from __future__ import annotations

import datetime as dt

import pytest

from kbtools.rules import samples
from tests.support.checked_samples import CASE, FAULT, GONE, changed, findings, places, with_file


@pytest.mark.parametrize(
    ("reviewed", "today", "overdue"),
    [
        # The sample club reviews after 24 months; the day itself is still in time.
        ("2024-06-01", "2026-06-01", False),
        ("2024-06-01", "2026-06-02", True),
        ("2024-05-31", "2026-06-01", True),
        # A leap day has no day of its number two years on; the month's last counts.
        ("2024-02-29", "2026-02-28", False),
        ("2024-02-29", "2026-03-01", True),
    ],
)
def test_a_review_is_overdue_after_the_clubs_months(reviewed: str, today: str, overdue: bool) -> None:
    files = changed(FAULT, "reviewed: {on: 2026-03-14", f"reviewed: {{on: {reviewed}")
    # The rest of the base is from later days than some of these; only the overdue review is asked for here.
    found = [each for each in findings(files, dt.date.fromisoformat(today)) if each.rule == "KB701"]
    assert places(tuple(found)) == (["KB701 lamp-flickers.yml:31:16"] if overdue else [])


def test_months_beyond_the_calendar_are_never_over() -> None:
    files = changed("club.yml", "review_after_months: 24", "review_after_months: 1200")
    late = dt.date(2099, 12, 31)
    assert [each for each in findings(files, late) if each.rule == "KB701"] == []


def test_withdrawn_entries_and_drafts_need_no_review() -> None:
    files = changed(GONE, "reviewed: {on: 2026-02-01", "reviewed: {on: 2020-02-01")
    assert findings(files) == ()


THREAD = "{kind: forum, title: Lamp flickers}"
ARTICLE = "{kind: article, title: Lamps}"


def cases(count: int, *, solved: str = "after: 900 km") -> dict[str, str]:
    """The sample base with so many more solved cases."""
    files = dict(samples.FILES)
    for number in range(2, 2 + count):
        text = samples.FILES[CASE].replace("bike: b001", f"bike: b00{number}").replace("after: 900 km", solved)
        files[f"cases/2026/wren-400-000{number}.yml"] = text
    return files


@pytest.mark.parametrize(
    ("sources", "more", "thin"),
    [
        (THREAD, 0, True),
        (f"{THREAD}, {ARTICLE}", 0, True),
        (ARTICLE, 1, True),
        # Three cases that count carry it, and so does one source that answers for what it says.
        (THREAD, 2, False),
        (f"{THREAD}, {{kind: manual, title: Manual}}", 0, False),
        ("{kind: first-hand, title: Teardown}", 0, False),
        ("{kind: bulletin, title: Bulletin}", 0, False),
    ],
)
def test_hearsay_and_few_cases_are_thin(sources: str, more: int, thin: bool) -> None:
    files = changed(
        FAULT, "sources:\n  - {kind: first-hand, title: Spring teardown}", f"sources: [{sources}]", cases(more)
    )
    assert places(findings(files)) == (["KB702 lamp-flickers.yml:28:1"] if thin else [])


@pytest.mark.parametrize(
    ("solved", "counts"),
    [("after: 500 km", True), ("after: 499 km", False), ("after: 311 mi", True), ("after: 1 km, verified: true", True)],
)
def test_a_case_counts_once_it_was_ridden_or_verified(solved: str, counts: bool) -> None:
    """By the sample club's 500 km; 311 mi are 500.5 km by the mile of 1.609344 km."""
    files = changed(FAULT, "{kind: first-hand, title: Spring teardown}", THREAD, cases(2, solved=solved))
    assert (findings(files) == ()) is counts


def test_a_case_that_another_follows_does_not_count() -> None:
    files = changed(
        "cases/2026/wren-400-0003.yml",
        "fault: lamp-flickers\n",
        "fault: lamp-flickers\nfollows: wren-400-0002\n",
        cases(2),
    )
    files = {path: text.replace("bike: b002", "bike: b003") for path, text in files.items()}
    assert findings(files) == ()
    files = changed(FAULT, "{kind: first-hand, title: Spring teardown}", THREAD, files)
    assert places(findings(files)) == ["KB702 lamp-flickers.yml:28:1"]


BRAKE = (
    "title: Brake lever comes back\nsystem: brakes\napplies_to: [{model: wren-400, years: 2003-2012}]\n"
    "ride_advice: {level: do-not-ride, why: The brake may fail.}\ncautions: [battery-gas]\n"
    "causes:\n  - id: air\n    summary: Air in the line\n"
    "    fix: {summary: Bleed the brake., skill: workshop, labour_hours: 0.5, cautions: [battery-gas], "
    "verify: {do: Pull the lever., expect: It is firm}}\n"
    "sources: [{kind: manual, title: Workshop manual}]\nreviewed: {on: 2026-03-14, by: curator-1, second: mechanic-1}\n"
    "checks:\n  - {id: squeeze, do: Pull the lever., expect: It is firm, points_to: [air], minutes: 2, skill: home,\n"
    "     before_riding: true}\n"
)
PATH = "faults/brakes/lever-comes-back.yml"
BRAKES = with_file(PATH, BRAKE)
SEEN = (
    "vehicle: {model: wren-400, year: 2005, odometer: 41200 km}\nseen: 2026-02-01\nfault: lever-comes-back\n"
    "outcome: {state: solved, cause: air, verified: true}\nsource: {kind: first-hand, title: Member report}\n"
)


def test_a_thread_alone_is_not_enough_for_brakes() -> None:
    assert findings(BRAKES) == ()
    alone = changed(PATH, "kind: manual", "kind: forum", BRAKES)
    assert places(findings(alone)) == ["KB703 lever-comes-back.yml:10:18"]
    # With a case from elsewhere it is not alone any more, only thin; a case from the same thread adds nothing.
    assert places(findings(with_file("cases/2026/a.yml", SEEN, alone))) == ["KB702 lever-comes-back.yml:10:1"]
    thread = SEEN.replace("first-hand", "forum")
    assert places(findings(with_file("cases/2026/a.yml", thread, alone))) == ["KB703 lever-comes-back.yml:10:18"]


def test_a_part_of_the_brakes_counts_in_any_entry() -> None:
    files = changed("systems.yml", "name: Regulator, system: charging", "name: Regulator, system: brakes")
    files = {path: text for path, text in files.items() if path != GONE}
    verify = "verify: {do: Measure., expect: 14 V}"
    files = changed(FAULT, "      tools: [multimeter]", f"      tools: [multimeter]\n      {verify}", files)
    assert "KB704" in {each.rule for each in findings(files)}


@pytest.mark.parametrize(
    ("second", "place"),
    [
        ("", "11:11"),
        (", second: curator-1", "11:51"),
        (", second: Curator-1", "11:51"),
        (", second: curator-2", None),
    ],
)
def test_work_on_the_brakes_takes_a_second_pair_of_eyes(second: str, place: str | None) -> None:
    files = changed(PATH, ", second: mechanic-1", second, BRAKES)
    assert places(findings(files)) == ([] if place is None else [f"KB704 lever-comes-back.yml:{place}"])


def test_a_lamp_does_not_take_a_second_pair_of_eyes() -> None:
    assert "second" not in samples.FILES[FAULT]
    assert findings(samples.FILES) == ()


@pytest.mark.parametrize(
    ("link", "place"),
    [
        ("url: https://notes.example/x", "29:5"),
        ("url: https://notes.example/x, archived: https://notes.example/x", "29:88"),
        ("url: https://notes.example/x, archived: https://archive.example/x", None),
        ("year: 2020", None),
    ],
)
def test_a_link_has_an_archived_copy(link: str, place: str | None) -> None:
    files = changed(FAULT, "title: Spring teardown", f"title: Spring teardown, {link}")
    assert places(findings(files)) == ([] if place is None else [f"KB705 lamp-flickers.yml:{place}"])


def test_a_copy_whose_link_is_broken_is_told_once() -> None:
    link = "url: https://notes.example/x, archived: gone"
    found = findings(changed(FAULT, "title: Spring teardown", f"title: Spring teardown, {link}"))
    assert [each.rule for each in found] == ["KB204"]


HEIR = changed(GONE, "replaced_by: battery-flat", "replaced_by: lamp-flickers")


@pytest.mark.parametrize(
    ("files", "expected"),
    [
        (changed(FAULT, "related: [battery-flat]", "related: [lamp-glows]"), ["KB706 lamp-flickers.yml:30:11"]),
        (
            changed(CASE, "fault: lamp-flickers", "fault: lamp-glows", HEIR).copy()
            | {
                CASE: samples.FILES[CASE].split("tried:")[0].replace("fault: lamp-flickers", "fault: lamp-glows")
                + "outcome: {state: open}\nsource: {kind: first-hand, title: Member report}\n"
            },
            ["KB706 wren-400-0001.yml:4:8"],
        ),
        # Nothing has replaced it: it is still what the case was about.
        (
            changed(FAULT, "related: [battery-flat]", "related: [lamp-glows]")
            | {GONE: samples.FILES[GONE].replace(", replaced_by: battery-flat", "")},
            [],
        ),
    ],
)
def test_who_leads_to_a_replaced_entry_is_told(files: dict[str, str], expected: list[str]) -> None:
    assert places(findings(files)) == expected


def test_little_is_not_held_against_an_entry_while_a_case_cannot_be_read() -> None:
    files = changed(FAULT, "{kind: first-hand, title: Spring teardown}", THREAD, cases(2))
    assert findings(files) == ()
    for old, new in (("seen: 2026-02-01", "seen: a: b"), ("state: solved", "state: sloved")):
        found = findings(changed(CASE, old, new, files))
        assert {each.path for each in found} == {CASE}
