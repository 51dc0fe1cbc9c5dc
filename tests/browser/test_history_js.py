"""The history of the owner's bike: `core/history*.js` and `history-store.js` in Chromium."""

from __future__ import annotations

import json
import random
from collections.abc import Callable, Iterator
from datetime import date
from typing import Any

import pytest
from playwright.sync_api import Browser, Page

from tests.support.places import ROOT

SCRIPTS = ROOT / "site_overrides" / "assets" / "js"
BIKE = {"id": "b0aa1z9", "model": "dunlin-650", "year": 1999, "name": "Dunlin 650", "call": "", "unit": "km"}
CHOSEN = '{"model": "dunlin-650", "year": 1999, "name": "Dunlin 650"}'
FAULT = {"id": "voltage-sags", "title": "Voltage sags"}
PLUG = {"id": "corroded-plug", "title": "Corroded plug"}


def entry(number: int, day: str, odometer: int | None = None, *codes: str, **more: Any) -> dict[str, Any]:
    """An entry as it is kept: `number` is where it stands in the order of making."""
    return {
        "id": f"e{number:014d}",
        "day": day,
        "odometer": odometer,
        "codes": [{"code": code, "status": None} for code in codes],
        "conditions": [],
        "done": "",
        "tried": [],
        "fault": None,
        "cause": None,
        "mended": False,
        "cleared": None,
        "back": None,
        "report": None,
        "changed": number,
        **more,
    }


@pytest.fixture(scope="module")
def tab(browser: Browser, serve: Callable[..., str]) -> Iterator[Page]:
    context = browser.new_context()
    opened = context.new_page()
    opened.goto(f"{serve(SCRIPTS)}core/history.js")
    yield opened
    context.close()


@pytest.fixture
def page(tab: Page) -> Page:
    """With nothing kept, and modules that remember nothing."""
    tab.reload()
    tab.evaluate("() => { localStorage.clear(); sessionStorage.clear(); }")
    return tab


def run(page: Page, module: str, body: str, given: object = None) -> Any:
    script = f"""async (input) => {{ const own = await import('/{module}');
        const act = (input) => {{ {body} }}; return JSON.stringify(act(JSON.parse(input)) ?? null); }}"""
    return json.loads(page.evaluate(script, json.dumps(given)))


# What follows from the entries. Each history is reckoned by hand.


def test_a_code_came_back_after_the_distance_between_the_odometers(page: Page) -> None:
    history = [
        entry(1, "2026-03-02", 61200, "P0562", cleared="2026-03-03"),
        entry(2, "2026-03-14", 61500, "P0562", "U0121"),
        entry(3, "2026-04-01", 62000, fault=FAULT, cause=PLUG, mended=True, done="Plug cleaned"),
        entry(4, "2026-05-01", 62900, "P0562"),
        entry(5, "2026-05-02", 63000, cleared="2026-05-02"),
        entry(6, "2026-05-30", 63050, "U0121"),
    ]
    history[1]["fault"] = FAULT
    # 61500 - 61200; the third of March to the 14th. 62900 - 62000; April has 30 days. 63050 - 63000; it came with
    # the fault that was mended on the first of April, and before that it was not cleared.
    assert [
        (each["code"], each["distance"], each["days"], each["mended"])
        for each in run(page, "core/history-codes.js", "return own.returnsOf(input)", history)
    ] == [("U0121", 50, 28, True), ("P0562", 900, 30, True), ("P0562", 300, 11, False)]


def test_what_is_not_known_is_not_told_as_a_figure(page: Page) -> None:
    history = [
        entry(1, "2026-03-02", None, "P0562", cleared="2026-03-02"),
        entry(2, "2026-03-04", 900, "P0562", cleared="2026-03-04", back=40),
        entry(3, "2026-03-05", None, "P0562", cleared="2026-03-06", back=120),
    ]
    found = run(page, "core/history-codes.js", "return own.returnsOf(input)", history)
    # The last one has no later entry: what its owner wrote. The one before has, without an odometer.
    assert [(each["distance"], each["days"], each["to"]) for each in found] == [
        (120, None, None),
        (40, 1, history[2]["id"]),
        (None, 2, history[1]["id"]),
    ]
    backwards = [entry(1, "2026-03-02", 500, "B1", cleared="2026-03-02"), entry(2, "2026-03-09", 20, "B1")]
    assert run(page, "core/history-codes.js", "return own.returnsOf(input)", backwards)[0]["distance"] is None


def test_a_code_that_comes_and_goes_is_counted_since_it_was_mended(page: Page) -> None:
    history = [
        entry(1, "2025-01-01", 10000, "P0562", fault=FAULT, cause=PLUG, mended=True),
        entry(2, "2026-03-01", 61000, "P0562"),
        entry(3, "2026-03-08", 61400, "P0562", cleared="2026-03-08"),
        entry(4, "2026-03-08", None, "P0562"),
        entry(5, "2026-03-31", 62200, "P0562", "4-2"),
        entry(6, "2026-04-02", 62300, "4-2"),
    ]
    found = run(page, "core/history-codes.js", "return own.patternsOf(input)", history)
    # 62200 - 61000, March has 31 days; the second one of the eighth has no odometer and counts with the first.
    assert [(each["code"], each["times"], each["distance"], each["days"]) for each in found] == [
        ("P0562", 3, 1200, 30),
        ("4-2", 2, 100, 2),
    ]


def test_codes_read_lately_are_those_that_may_still_be_there(page: Page) -> None:
    history = [
        entry(1, "2026-01-01", 1, "P0001"),
        entry(2, "2026-03-01", 2, "P0002", "P0003"),
        entry(3, "2026-03-05", 3, "P0003", fault=FAULT, cause=PLUG, mended=True),
        entry(4, "2026-03-10", 4, "P0004", cleared="2026-03-11"),
        entry(5, "2027-01-01", 5, "P0005"),
    ]
    body = "return own.recentCodes(input, '2026-03-14').map(({code, day, cleared}) => [code, day, cleared])"
    assert run(page, "core/history-codes.js", body, history) == [
        ["P0004", "2026-03-10", "2026-03-11"],
        ["P0002", "2026-03-01", None],
    ]


def test_what_does_not_fit_is_named(page: Page) -> None:
    history = [entry(1, "2026-03-01", 900), entry(2, "2026-03-02", 100), entry(3, "2026-03-16", 200)]
    found = run(page, "core/history-codes.js", "return own.odditiesOf(input, '2026-03-15')", history)
    assert [(each["id"][-1], each["what"]) for each in found] == [("2", "backwards"), ("3", "future")]
    assert found[0]["before"] == {"day": "2026-03-01", "odometer": 900}


def test_entries_stand_by_day_then_odometer_then_as_they_were_made(page: Page) -> None:
    history = [
        entry(5, "2026-03-02", 40),
        entry(1, "2026-03-02", 60),
        entry(3, "2026-03-02"),
        entry(4, "2026-03-01", 99),
    ]
    body = "return own.newestFirst(input).map(({id}) => Number(id.slice(1)))"
    assert run(page, "core/history.js", body, history) == [1, 3, 5, 4]


def test_days_are_counted_as_the_library_counts_them(page: Page) -> None:
    numbers = [1, date.max.toordinal(), *random.Random(1).sample(range(1, date.max.toordinal()), 3000)]
    given = [date.fromordinal(number).isoformat() for number in numbers]
    assert run(page, "core/history.js", "return input.map(own.dayNumber)", given) == numbers


def test_no_day_is_made_of_what_is_none(page: Page) -> None:
    none = [
        "2026-02-29",
        "1900-02-29",
        "2026-13-01",
        "2026-00-10",
        "2026-04-31",
        "26-04-01",
        "2026-4-1",
        20260401,
        None,
    ]
    assert run(page, "core/history.js", "return input.map(own.dayNumber)", none) == [None] * len(none)


# The file.

ODD: list[Any] = [
    None,
    True,
    -1,
    0.5,
    10**9,
    "",
    "x",
    "é\u202e\x07\n",
    "<b>",
    [],
    {},
    [{}],
    {"id": "x"},
    "2026-02-31",
    ["wet"] * 90,
]
GOOD: dict[str, list[Any]] = {
    "id": [f"e{number:014d}" for number in range(5)],
    "day": ["2026-03-14", "2024-02-29"],
    "odometer": [0, 61200, 9_999_999],
    "codes": [[{"code": "P0562", "status": "stored"}, {"code": "4-2"}], [{"code": "P0562"}, {"code": "P0562"}, 7]],
    "conditions": [["wet", "wet", "cold"]],
    "done": ["Plug cleaned", " two\r\nlines "],
    "tried": [[{"kind": "fix", "id": "plug", "title": "Plug", "result": "helped"}, {"kind": "fix", "id": "plug"}]],
    "fault": [FAULT],
    "cause": [PLUG],
    "mended": [True, False],
    "cleared": ["2026-03-15"],
    "back": [300],
    "report": [{"sent": "2026-03-14", "way": "mail", "solved": True}],
    "changed": list(range(6)),
}


def written_by_somebody(chance: random.Random) -> list[dict[str, Any]]:
    """Entries of which each value may be sound, odd, or not there."""

    def value(key: str) -> Any:
        return chance.choice(GOOD[key] if chance.random() < 0.8 or key == "id" else ODD)

    return [
        {key: value(key) for key in GOOD if chance.random() < 0.8 or key == "id"} for _ in range(chance.randint(0, 8))
    ]


FILE_ROUND = """
const HEAD = {format: 1, holds: "bike history"};
const ids = (bikes) => bikes.flatMap(({entries}) => entries.map(({id}) => id));
const after = (before, brought) =>
    own.arrivals(before, brought).map(({fresh, changed}) => fresh.length + changed.length);
const merged = (before, brought) => {
    const [{fresh, changed}] = own.arrivals(before, brought);
    const rows = new Map([...before[0].entries, ...fresh, ...changed].map((each) => [each.id, each]));
    return [{bike: before[0].bike, entries: [...rows.values()]}];
};
return input.map((pair) => {
    const texts = pair.map((entries) => JSON.stringify({...HEAD, bikes: [{...BIKE, entries}]}));
    const [one, other] = texts.map((text) => own.readFile(text));
    const again = own.readFile(own.fileText(one.bikes, "2026-11-30"));
    const both = merged(one.bikes, other.bikes);
    return {problem: one.problem, one: one.bikes, again: again.bikes, lost: again.odd,
        twice: after(one.bikes, one.bikes), thrice: after(both, other.bikes),
        all: [new Set(ids([...one.bikes, ...other.bikes])).size, ids(both).length]};
});
"""


def test_a_file_brings_everything_once(page: Page) -> None:
    chance = random.Random(20261130)
    pairs = [[written_by_somebody(chance), written_by_somebody(chance)] for _ in range(300)]
    found = run(page, "core/history-file.js", FILE_ROUND.replace("BIKE", json.dumps(BIKE)), pairs)

    def by_id(bikes: list[Any]) -> list[Any]:
        return sorted(bikes[0]["entries"], key=lambda each: str(each["id"]))

    assert {each["problem"] for each in found} == {None}
    assert sum(len(each["one"][0]["entries"]) for each in found) > 500
    for each in found:
        assert (by_id(each["again"]), each["lost"]) == (by_id(each["one"]), 0)
        # What is there does not come again, also after two files were merged, and nothing is lost or doubled by that.
        assert (each["twice"], each["thrice"]) == ([0], [0])
        assert each["all"][0] == each["all"][1]


@pytest.mark.parametrize(
    ("text", "problem"),
    [
        ("", "other"),
        ("Dear club, here is my history", "other"),
        ("[1]", "other"),
        ('{"format": 1, "bikes": []}', "other"),
        ('{"format": "1", "holds": "bike history", "bikes": []}', "other"),
        ('{\n "format": 1,\n "holds": "bike history",\n "bikes": [{"id": "b0', "damaged"),
        ('{"format": 0, "holds": "bike history", "bikes": []}', "damaged"),
        ('{"format": 1, "holds": "bike history", "bikes": {}}', "damaged"),
        ('{"format": 2, "holds": "bike history", "garage": {}}', "newer"),
        ('{"format": 1, "holds": "bike history", "bikes": [' + "[]," * 200 + "[]]}", "huge"),
        ('\ufeff{"format": 1, "holds": "bike history", "bikes": []}\n', None),
    ],
)
def test_a_file_that_is_none_is_refused_by_its_reason(text: str, problem: str | None, page: Page) -> None:
    assert run(page, "core/history-file.js", "return own.readFile(input).problem", text) == problem


def test_of_two_versions_the_one_that_was_changed_later_holds(page: Page) -> None:
    mine, theirs = entry(1, "2026-03-01", changed=5, done="mine"), entry(1, "2026-03-01", changed=9, done="theirs")
    body = """const [here, there] = input.map((each) => [{bike: BIKE, entries: [each]}]);
        return [own.arrivals(here, there)[0], own.arrivals(there, here)[0]]"""
    newer, older = run(page, "core/history-file.js", body.replace("BIKE", json.dumps(BIKE)), [mine, theirs])
    assert [each["done"] for each in newer["changed"]] == ["theirs"]
    assert (older["changed"], older["fresh"], older["known"]) == ([], [], 1)


def test_a_bike_that_counts_miles_here_is_not_mixed_with_kilometres(page: Page) -> None:
    body = """const [here, there] = input; const [found] = own.arrivals([here], [there]);
        return [found.isOther, found.fresh.length]"""
    rows = [{"bike": {**BIKE, "unit": "mi"}, "entries": []}, {"bike": BIKE, "entries": [entry(1, "2026-03-01")]}]
    assert run(page, "core/history-file.js", body, rows) == [True, 0]


# What the browser keeps.


def test_the_bike_of_before_is_taken_over_with_its_first_entry(page: Page) -> None:
    page.evaluate("(bike) => localStorage.setItem('bike', bike)", CHOSEN)
    body = """const before = [own.chosenBike(), own.bikes().length];
        const bike = own.keepChosen();
        own.add(bike.id, {day: "2026-03-14", odometer: 61200, codes: [{code: "P0562", status: "stored"}]});
        return {before, bike, same: own.keepChosen().id, kept: own.entries(bike.id), where: own.whereKept()}"""
    found = run(page, "history-store.js", body)
    assert found["before"] == [None, 0]
    assert found["bike"] == {**BIKE, "id": found["same"]}
    assert found["where"] == "device"
    assert [(each["day"], each["odometer"], each["codes"]) for each in found["kept"]] == [
        ("2026-03-14", 61200, [{"code": "P0562", "status": "stored"}])
    ]
    # Other pages go on reading the chosen bike, whatever is kept beside it.
    assert run(page, "bike.js", "return own.myBike()") == json.loads(CHOSEN)


def test_two_bikes_of_one_model_year_are_told_apart(page: Page) -> None:
    body = """const bike = input; const [red, blue] = ["red", "blue"].map((call) => own.addBike(bike, call));
        own.chooseBike(blue); own.add(blue.id, {day: "2026-03-14", done: "Chain"});
        const counts = [red, blue].map(({id}) => own.entries(id).length);
        return [own.chosenBike().call, own.bikes().map(({call}) => call), counts]"""
    assert run(page, "history-store.js", body, json.loads(CHOSEN)) == ["blue", ["blue", "red"], [0, 1]]
    # Chosen again in the dialogue of any page, which knows no ids.
    again = "own.keepBike(input); return own.myBike().id.length"
    assert run(page, "bike.js", again, json.loads(CHOSEN)) == 7


def test_two_tabs_keep_both_of_what_they_write(page: Page) -> None:
    other = page.context.new_page()
    other.goto(page.url)
    run(page, "history-store.js", "own.takeIn([{bike: input, entries: []}]); own.entries(input.id)", BIKE)
    other.evaluate("""async () => { await import('/history-store.js');
        document.addEventListener('historychange', () => { window.heard = true; }); }""")
    add = "own.entries(input[0]); own.add(input[0], {day: '2026-03-14', done: input[1]})"
    run(page, "history-store.js", add, [BIKE["id"], "one"])
    run(other, "history-store.js", add, [BIKE["id"], "two"])
    kept = run(page, "history-store.js", "return own.entries(input).map(({done}) => done).sort()", BIKE["id"])
    assert kept == ["one", "two"]
    other.wait_for_function("window.heard")
    other.close()


FULL = """const put = Storage.prototype.setItem;
    Storage.prototype.setItem = function (key, value) {
        if (this === localStorage && !window.room) throw new DOMException("", "QuotaExceededError");
        window.room -= 1; put.call(this, key, value); };"""


def test_where_there_is_no_room_nothing_is_lost_while_the_tab_is_open(page: Page) -> None:
    body = f"""{FULL} window.room = 1; own.takeIn([{{bike: input, entries: []}}]);
        own.add(input.id, {{day: "2026-03-14", done: "kept for now"}});
        return [own.whereKept(), own.entries(input.id).map(({{done}}) => done)]"""
    assert run(page, "history-store.js", body, BIKE) == ["visit", ["kept for now"]]
    page.reload()
    read = "return own.entries(input).map(({done}) => done)"
    assert run(page, "history-store.js", read, BIKE["id"]) == ["kept for now"]


def test_a_file_for_which_there_is_no_room_comes_in_whole_or_not_at_all(page: Page) -> None:
    rows = [{"bike": BIKE, "entries": [entry(each, "2026-03-14") for each in range(4)]}]
    body = f"{FULL} window.room = 3; return [own.takeIn(input), own.bikes().length, Object.keys(localStorage).length]"
    assert run(page, "history-store.js", body, rows) == [False, 0, 0]


def test_where_storage_is_forbidden_it_holds_for_the_page(page: Page) -> None:
    forbid = "(name) => Object.defineProperty(window, name, { get() { throw new DOMException('', 'Security'); } })"
    page.evaluate(forbid, "localStorage")
    page.evaluate(forbid, "sessionStorage")
    body = """own.takeIn([{bike: input, entries: []}]); own.add(input.id, {day: "2026-03-14", done: "here"});
        return [own.whereKept(), own.bikes().length, own.entries(input.id).length]"""
    assert run(page, "history-store.js", body, BIKE) == ["page", 1, 1]


def test_what_was_deleted_comes_back_whole(page: Page) -> None:
    body = """own.takeIn(input); own.chooseBike(input[0].bike);
        const gone = own.removeBikes(own.bikes());
        const empty = [own.bikes().length, Object.keys(localStorage)];
        return [empty, own.takeIn(gone), own.everything()]"""
    rows = [{"bike": BIKE, "entries": [entry(2, "2026-03-14", 7, "P0562"), entry(1, "2026-03-13")]}]
    assert run(page, "history-store.js", body, rows) == [[0, ["bike"]], True, rows]


@pytest.mark.parametrize("stored", ["{", "7", "null", '{"id": "b0aa1z9"}', '{"id": 3, "day": []}'])
def test_rubbish_in_the_storage_is_no_history(stored: str, page: Page) -> None:
    page.evaluate(
        "(text) => ['bike:b0aa1z9', 'entry:b0aa1z9:e1', 'bike'].forEach((key) => localStorage.setItem(key, text))",
        stored,
    )
    assert run(page, "history-store.js", "return [own.bikes(), own.entries('b0aa1z9'), own.chosenBike()]") == [
        [],
        [],
        None,
    ]
