"""My bike's history on the pages: kept in two presses, read, changed, taken back; saved as a file and taken in."""

from __future__ import annotations

import json
import re
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

from playwright.sync_api import Page, ViewportSize, expect

from tests.support.places import Serve
from tests.support.plan_page import opened_note
from tests.support.watched import Watch

NOW = datetime(2026, 3, 14, 12, tzinfo=UTC)
NARROWEST: ViewportSize = {"width": 320, "height": 640}
BIKE = {"id": "b0aa1z9", "model": "bittern-900", "year": 2007, "name": "Bittern 900", "call": "", "unit": "km"}
CHOSEN = {"model": "bittern-900", "year": 2007, "name": "Bittern 900"}
HOSTILE = "<img src=x onerror=alert(1)>"
WIDTH = "document.documentElement.scrollWidth - document.documentElement.clientWidth"


def keep(page: Page, **items: object) -> None:
    script = (
        "Object.entries(%s).forEach(([key, value]) => localStorage.getItem(key) ?? localStorage.setItem(key, value));"
    )
    page.add_init_script(script % json.dumps({key: json.dumps(value) for key, value in items.items()}))


def press(page: Page, name: str) -> None:
    page.get_by_role("button", name=name, exact=True).click()


def entries(page: Page) -> list[dict[str, Any]]:
    found: list[str] = page.evaluate(
        "() => Object.keys(localStorage).filter((key) => key.startsWith('entry:')).map((key) => localStorage[key])"
    )
    return [json.loads(each) for each in found]


def test_a_code_is_kept_in_two_presses_and_asked_for_no_more(demo_site: Path, serve: Serve, watch: Watch) -> None:
    root = serve(demo_site)
    with watch(viewport=NARROWEST, color_scheme="dark") as watched:
        page: Page = watched.page
        page.clock.set_fixed_time(NOW)
        page.goto(f"{root}codes/p0562/")
        press(page, "I read this code today")
        page.get_by_label("Model", exact=True).select_option("bittern-900")
        page.get_by_label("Model year").last.select_option("2007")
        press(page, "This is mine")
        seen = page.locator("[data-seen]")
        expect(seen).to_contain_text("Kept for Bittern 900, 2007, today: P0562.")
        press(page, "stored")
        expect(page.get_by_role("button", name="stored", exact=True)).to_be_focused()
        seen.get_by_label("Odometer, km").fill("61 200")
        press(page, "Add it")
        expect(seen.get_by_label("Odometer, km")).to_have_value("61200")
        assert watched.axe() == []
        assert page.evaluate(WIDTH) == 0
        # On the page of its fault it is the same thing that was seen.
        page.goto(f"{root}faults/voltage-sags-when-wet/")
        press(page, "My bike has this: note it")
        seen.get_by_role("button", name="P0562", exact=True).click()
        expect(seen).to_contain_text("P0562 (stored)")
        (kept,) = entries(page)
        assert (kept["day"], kept["odometer"], kept["codes"]) == (
            "2026-03-14",
            61200,
            [{"code": "P0562", "status": "stored"}],
        )
        assert kept["fault"]["id"] == "voltage-sags-when-wet"
        note = opened_note(page).locator("[data-sheet-history]")
        odometer = page.locator("input[data-sheet-write=Odometer]")
        expect(odometer).to_have_value("61\u202f200\u00a0km on 14 March 2026")
        expect(note).to_contain_text("P0562 (stored)")
        # Offered wherever codes are asked for.
        page.locator("#finder").focus()
        page.get_by_role("group", name="Codes that you read lately").get_by_role("button").click()
        expect(page.locator("#finder-results a").first).to_contain_text("P0562")
        page.goto(f"{root}several/")
        page.locator("[data-several-recent]").get_by_role("button").click()
        expect(page.locator("[data-several-codes]")).to_contain_text("P0562")
        expect(page.locator("[data-several-recent]").get_by_role("button")).to_have_count(0)
        assert (watched.complaints, watched.foreign) == ([], [])


def test_what_was_mended_is_kept_from_the_end_of_the_plan(demo_site: Path, serve: Serve, watch: Watch) -> None:
    helped = {"list": [{"check": "look-at-plug", "result": "bad"}, {"fix": "corroded-plug", "result": "helped"}]}
    with watch() as watched:
        page: Page = watched.page
        page.clock.set_fixed_time(NOW)
        keep(page, bike=CHOSEN, **{"plan:voltage-sags-when-wet": helped})
        page.goto(f"{serve(demo_site)}faults/voltage-sags-when-wet/?codes=P0562")
        press(page, "Keep it in my bike's history")
        expect(page.locator("[data-history-mended]")).to_contain_text("Kept for Bittern 900, 2007, today")
        (kept,) = entries(page)
        assert (kept["mended"], kept["fault"]["id"], kept["cause"]["id"]) == (
            True,
            "voltage-sags-when-wet",
            "corroded-plug",
        )
        tried = [(each["kind"], each["id"], each["result"]) for each in kept["tried"]]
        assert ("fix", "corroded-plug", "helped") in tried
        press(page, "Undo")
        assert entries(page) == []


def test_an_entry_is_written_changed_and_taken_back(demo_site: Path, serve: Serve, watch: Watch) -> None:
    with watch(viewport=NARROWEST) as watched:
        page: Page = watched.page
        page.clock.set_fixed_time(NOW)
        keep(page, bike=CHOSEN)
        page.goto(f"{serve(demo_site)}my-bike/")
        problem = page.get_by_role("alert").filter(has_text=re.compile("."))
        rows = page.locator("[data-entry]")

        def write(day: str, odometer: str, codes: str, done: str) -> None:
            press(page, "Add an entry")
            page.get_by_label("Day", exact=True).fill(day)
            page.get_by_label("Odometer, km").fill(odometer)
            page.get_by_label("Codes that were read").fill(codes)
            page.get_by_label("What was done").fill(done)

        write("2026-03-02", "61200", "p 0562, 4 long 2 short", HOSTILE)
        page.get_by_label("Codes were cleared").check()
        press(page, "Keep it")
        expect(rows).to_have_count(1)
        assert rows.locator(".code__text").all_inner_texts() == ["P0562", "4-2"]
        expect(rows).to_contain_text(HOSTILE)
        write("2026-03-20", "61500", "P0562", "")
        press(page, "Keep it")
        expect(problem).to_contain_text("still to come")
        page.get_by_label("Day", exact=True).fill("2026-03-13")
        page.get_by_label("Odometer, km").fill("600")
        press(page, "Keep it")
        expect(problem).to_contain_text("less than on 2 March 2026")
        page.get_by_label("Odometer, km").fill("61,500")
        page.get_by_label("P0562: what the reader says").select_option("intermittent")
        assert watched.axe() == []
        press(page, "Keep it")
        # 61500 - 61200; from the second of March, when it was cleared, to the 13th.
        expect(rows.first).to_contain_text("P0562 came back after 300\u00a0km, 11 days after it was cleared.")
        expect(page.locator("[data-history-facts]")).to_contain_text("P0562: twice in 300\u00a0km")
        expect(page.get_by_role("img", name=re.compile("61.200.km to 61.500.km"))).to_be_visible()
        page.set_viewport_size({"width": 1280, "height": 800})
        page.emulate_media(color_scheme="dark")
        assert watched.axe() == []
        page.set_viewport_size(NARROWEST)
        assert page.evaluate(WIDTH) == 0
        page.get_by_role("button", name=re.compile("Delete.*13 March 2026")).click()
        expect(rows).to_have_count(1)
        press(page, "Undo")
        expect(rows).to_have_count(2)
        assert (watched.complaints, watched.foreign) == ([], [])


def test_a_second_bike_of_the_same_model_year_has_a_history_of_its_own(
    demo_site: Path, serve: Serve, watch: Watch
) -> None:
    row = {"id": "e00000000000001", "day": "2026-03-01", "done": "Chain", "changed": 1}
    with watch() as watched:
        page: Page = watched.page
        keep(page, bike=CHOSEN, **{"bike:b0aa1z9": BIKE, "entry:b0aa1z9:e00000000000001": row})
        page.goto(f"{serve(demo_site)}my-bike/")
        rows = page.locator("[data-entry]")
        expect(rows).to_have_count(1)
        press(page, "Add another bike")
        press(page, "This is mine")
        expect(rows).to_have_count(0)
        bikes = page.locator("[data-history-bikes] li")
        expect(bikes).to_have_count(2)
        page.get_by_role("button", name=re.compile("^Choose ?: Bittern")).click()
        expect(rows).to_have_count(1)
        page.get_by_role("button", name=re.compile("^Name it")).last.click()
        page.get_by_label("What you call it").fill("the red one")
        press(page, "Keep the name")
        expect(bikes.filter(has_text="the red one")).to_have_count(1)
        assert (watched.complaints, watched.foreign) == ([], [])


def file_of(text: str) -> Any:
    return {"name": "history.json", "mimeType": "application/json", "buffer": text.encode()}


def test_a_file_is_shown_before_it_comes_in_and_everything_can_be_taken_back(
    demo_site: Path, serve: Serve, watch: Watch
) -> None:
    # A bike whose model the club no longer has; a day to come; a text that would like to be markup.
    row = {"id": "e00000000000001", "day": "2030-01-01", "codes": [{"code": "P0562"}], "done": HOSTILE, "changed": 1}
    gone = {**BIKE, "model": "gone-500", "name": HOSTILE, "entries": [row, {"id": "e1", "day": "no"}]}
    text = json.dumps({"format": 1, "holds": "bike history", "saved": "2026-03-14", "bikes": [gone]})
    with watch() as watched:
        page: Page = watched.page
        page.clock.set_fixed_time(NOW)
        page.goto(f"{serve(demo_site)}my-bike/")
        field, status = page.locator("[data-history-open]"), page.locator("[data-history-status]")
        for given, told in (
            (text[:-40], "damaged or was cut off"),
            (text.replace('"format": 1', '"format": 2'), "newer version"),
            ("P0562", "not a history"),
            ("[" * 11_000_000, "too big"),
        ):
            field.set_input_files(file_of(given))
            expect(status).to_contain_text(told)
        field.set_input_files(file_of(text))
        arrival = page.locator("[data-history-arrival]")
        expect(arrival).to_contain_text("1 entry new")
        expect(arrival).to_contain_text("1 part of it could not be read")
        assert entries(page) == []
        press(page, "Take it in")
        expect(page.locator("[data-entry]")).to_contain_text(HOSTILE)
        expect(page.locator("[data-entry]")).to_contain_text("still to come")
        expect(page.locator("[data-my-bike-size]")).to_contain_text("no such model year any more")
        assert page.locator("main img").count() == 0
        field.set_input_files(file_of(text))
        expect(arrival).to_contain_text("Nothing new is in it.")
        with page.expect_download() as download:
            press(page, "Save it as a file")
        saved = json.loads(Path(download.value.path()).read_text("utf-8"))
        assert (saved["format"], saved["saved"], saved["bikes"][0]["entries"][0]["done"]) == (1, "2026-03-14", HOSTILE)
        press(page, "Delete the whole history")
        press(page, "Delete it all")
        expect(page.locator("[data-entry]")).to_have_count(0)
        assert entries(page) == []
        press(page, "Undo")
        expect(page.locator("[data-entry]")).to_have_count(1)
        assert (watched.complaints, watched.foreign) == ([], [])
