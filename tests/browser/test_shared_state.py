"""A plan's state as a link: there and back in Chromium, what of a damaged one is used, what its reader keeps."""

from __future__ import annotations

import json
import random
import string
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, Page, expect

from tests.support.places import ROOT, Serve
from tests.support.plan_page import PHONE, SAGS, opened_note, ready
from tests.support.shared_link import shared_from, signed
from tests.support.watched import Watch

SCRIPTS = ROOT / "site_overrides" / "assets" / "js"
BIKE = '{"model":"%s","year":%d,"name":"%s"}'
CURLEW = BIKE % ("curlew-1100", 2014, "Curlew 1100")
Run = Callable[[str, object], Any]


@pytest.fixture(scope="module")
def run(browser: Browser, serve: Callable[..., str]) -> Iterator[Run]:
    """Runs the body of a function of the module and `input` in the browser."""
    page = browser.new_page()
    page.goto(f"{serve(SCRIPTS)}core/shared-state.js")

    def run_body(body: str, given: object) -> Any:
        script = f"""async (input) => {{
            const own = await import("/core/shared-state.js");
            const body = (input) => {{ {body} }};
            return JSON.stringify(body(JSON.parse(input)));
        }}"""
        return json.loads(page.evaluate(script, json.dumps(given)))

    yield run_body
    page.close()


ENCODE = "return input.map(own.encodeState);"
DECODE = "return input.map((text) => own.decodeState('#' + text));"
ODD = ",;:/=%.!'()*~+& #<>\"\\äß漢🏍\u202e\x00\n"


def word(chance: random.Random, *, odd: bool) -> str:
    letters = string.ascii_lowercase + string.digits + "-" + (ODD if odd else "")
    return "".join(chance.choices(letters, k=chance.randint(1, 20)))


def state(number: int) -> dict[str, Any]:
    """A state as a page may have it; ids are what they like to be, since entries come from anybody."""
    chance = random.Random(number)
    odd = number % 2 == 0
    faults = [word(chance, odd=odd) for _ in range(3)]

    def ids(most: int) -> list[str]:
        found = [word(chance, odd=odd) for _ in range(chance.randint(0, most))]
        return list(dict.fromkeys(chance.choice(["", f"{chance.choice(faults)}/"]) + each for each in found))

    answers: list[dict[str, Any]] = []
    for each in ids(12):
        if chance.random() < 0.2:
            answers.append({"fix": each, "result": chance.choice(["helped", "no-change"])})
        else:
            value = chance.choice([None, 0, 12.9, -0.5, 1e-7, 1e21, chance.uniform(-1e3, 1e3)])
            answers.append(
                {"check": each, "result": chance.choice(["good", "bad", "low", "high", "unclear"]), "value": value}
            )
    return {
        "fault": chance.choice(["", "voltage-sags-when-wet"]),
        "codes": chance.sample(["P0562", "U0121", "4-2", "C1234-1A"], chance.randint(0, 4)),
        "bike": chance.choice([None, ["curlew-1100", 2014], ["b", 1999]]),
        "answers": {
            "list": answers,
            "absent": chance.random() < 0.5,
            "opened": ids(4),
            "covered": ids(4),
            "any": chance.random() < 0.5,
        },
        "means": {
            "skill": chance.choice(["home", "experienced", "workshop"]),
            "hour": chance.choice([None, 0, 12.5, 10_000]),
            "has": ids(4),
            "lacks": ids(4),
        },
        "road": chance.random() < 0.5,
    }


def test_a_state_comes_back_as_it_was(run: Run) -> None:
    given = [state(number) for number in range(300)]
    links = run(ENCODE, given)
    assert [each["state"] for each in run(DECODE, links)] == given
    assert {each["trouble"] for each in run(DECODE, links)} == {None}
    # Nothing at which a messenger ends a link, or takes it for one of its own signs.
    allowed = set(string.ascii_letters + string.digits + "=;,:/%.-")
    assert {sign for link in links for sign in link} <= allowed
    assert all(link == signed(link.removeprefix("state=").rsplit(";", 1)[0]) for link in links)
    # Some messengers write each sign out, or put the link in brackets.
    written = [link.replace("%", "%25").replace(";", "%3B").replace(",", "%2C") + ")." for link in links]
    assert [each["state"] for each in run(DECODE, written)] == given


def test_it_is_short_and_each_fault_is_named_once(run: Run) -> None:
    whole = state(0) | {"fault": "", "codes": ["P0562"], "bike": ["curlew-1100", 2014], "road": False}
    whole["answers"] = {"list": [], "absent": False, "opened": [], "covered": [], "any": False}
    whole["means"] = {"skill": "home", "hour": None, "has": [], "lacks": []}
    whole["answers"]["list"] = [
        {"check": "sags/rest", "result": "low", "value": 12.9},
        {"check": "sags/clamps", "result": "good", "value": None},
        {"fix": "sags/stator", "result": "no-change"},
    ]
    expected = signed("1;c=P0562;b=curlew-1100,2014;r=sags/rest:l12.9,/clamps:g,/stator:n")
    assert run(ENCODE, [whole]) == [expected]


def test_what_stands_before_a_cut_holds_and_nothing_else(run: Run) -> None:
    """Cut at each place, or with any one sign changed: no answer ever comes out that was not given."""
    for number in (1, 3, 7, 11):
        given = state(number)
        given["answers"]["list"] = given["answers"]["list"] or [{"check": "rest", "result": "low", "value": 12.9}]
        [link] = run(ENCODE, [given])
        start = len("state=1;")
        cut = run(DECODE, [link[:end] for end in range(start, len(link))])
        for found in cut:
            assert found["trouble"] in {"cut", "damaged"}
            if found["state"]:
                known = found["state"]["answers"]["list"]
                assert known == given["answers"]["list"][: len(known)]
        assert cut[-1]["state"] == given
        changed = [link[:at] + "x" + link[at + 1 :] for at in range(len("state="), len(link)) if link[at] != "x"]
        for found in run(DECODE, changed):
            if found["trouble"] is None or found["state"]:
                known = found["state"]["answers"]["list"]
                assert known == given["answers"]["list"][: len(known)]


@pytest.mark.parametrize(
    ("fragment", "trouble"),
    [
        ("state=2;anything", "version"),
        ("state=", "damaged"),
        ("state=1", "cut"),
        ("state=%E0%A4%A", "damaged"),
        ("state=<img src=x onerror=alert(1)>", "damaged"),
        ("state=__proto__;z0000000", "damaged"),
        (signed("1;r=" + "a:g," * 6000), "damaged"),
    ],
)
def test_what_is_no_state_is_told_as_what_it_is(fragment: str, trouble: str, run: Run) -> None:
    [found] = run(DECODE, [fragment])
    assert found["trouble"] == trouble


def test_hostile_fields_of_a_sound_link_are_bounded(run: Run) -> None:
    text = "1;f=..%2F..%2Fx;c=%3Cimg%3E,P0562;b=javascript%3A,2014;r=" + ",".join(f"c{n}:g" for n in range(500))
    [found] = run(DECODE, [signed(text + ";m=-5;s=root;t=__proto__;q=what")])
    assert found["trouble"] is None
    told = found["state"]
    assert (told["fault"], told["codes"], told["bike"]) == ("", ["P0562"], None)
    assert len(told["answers"]["list"]) == 200
    assert told["means"] == {"skill": "home", "hour": None, "has": ["__proto__"], "lacks": []}


@pytest.fixture
def root(demo_site: Path, serve: Serve) -> str:
    return serve(demo_site)


def memory(page: Page) -> dict[str, str]:
    found: dict[str, str] = page.evaluate("() => ({ ...localStorage })")
    return found


def test_a_shared_plan_is_looked_at_kept_or_left(root: str, watch: Watch) -> None:
    with watch(viewport=PHONE) as watched:
        page = watched.page
        page.goto(f"{root}faults/{SAGS}/?codes=P0562")
        page.evaluate("(bike) => localStorage.setItem('bike', bike)", BIKE % ("bittern-900", 2007, "Bittern 900"))
        page.reload()
        ready(page)
        page.get_by_role("button", name="By the road").click()
        page.locator(".now .answer-button--good").click()
        answered = page.locator(".plan-answers__text").all_text_contents()
        link = shared_from(page)
        assert watched.complaints == []
    with watch(viewport=PHONE, bypass_csp=True) as watched:
        page = watched.page
        page.goto(f"{root}faults/{SAGS}/")
        page.evaluate("(bike) => localStorage.setItem('bike', bike)", CURLEW)
        page.reload()
        ready(page)
        page.locator(".now .answer-button--good").click()
        own = memory(page)
        mine = page.locator(".now__title").inner_text()
        # In the same page, as when a link is pasted into its address.
        page.goto(link)
        note = page.locator(".shared")
        expect(note).to_contain_text("You look at a shared state: Bittern 900, 2007, one answer, by the road.")
        expect(note).to_contain_text("replaces your own answers here and your bike, the Curlew 1100, 2014")
        assert page.locator(".plan-answers__text").all_text_contents() == answered
        expect(page.locator(".place__road")).to_be_visible()
        opened_note(page)
        expect(page.locator("#call-sheet [data-sheet-bike]")).to_have_text("Bittern 900, 2007")
        expect(page.locator("#call-sheet [data-sheet-code=P0562] .tick").first).to_be_checked()
        assert watched.axe() == []
        # What is changed while one looks touches nothing of what is kept.
        page.locator(".plan-answers__again").click()
        page.get_by_role("button", name="At home").click()
        expect(page.locator(".plan-answers__row")).to_have_count(0)
        assert memory(page) == own
        note.get_by_role("button", name="Back to mine").click()
        expect(page.locator(".now__title")).to_have_text(mine)
        assert memory(page) == own
        assert "state" not in page.url
        page.goto(link)
        note.get_by_role("button", name="Keep it").click()
        expect(note).to_contain_text("it is yours now")
        page.reload()
        ready(page)
        expect(note).to_have_count(0)
        assert page.locator(".plan-answers__text").all_text_contents() == answered
        expect(page.locator("[data-strip]")).to_contain_text("Your Bittern 900, 2007")
        assert page.url.endswith("?codes=P0562")
        assert watched.complaints == []


def test_an_old_address_hands_on_what_its_link_carries(root: str, watch: Watch) -> None:
    with watch(viewport=PHONE) as watched:
        page = watched.page
        fragment = signed("1;f=charging-drops-in-rain;b=bittern-900,2007;r=look-at-plug:g")
        page.goto(f"{root}faults/charging-drops-in-rain/?codes=P0562#{fragment}")
        expect(page.locator(".shared")).to_contain_text("You look at a shared state: Bittern 900, 2007, one answer.")
        assert page.url == f"{root}faults/{SAGS}/?codes=P0562#{fragment}"
        assert watched.complaints == []
    with watch(java_script_enabled=False) as watched:
        watched.page.goto(f"{root}faults/charging-drops-in-rain/")
        watched.page.wait_for_url(f"{root}faults/{SAGS}/")


@pytest.mark.parametrize("address", ["codes/p0562/", "several/?codes=P0562,P0217"])
def test_a_plan_for_codes_is_shared_too(address: str, root: str, watch: Watch) -> None:
    with watch(viewport=PHONE) as watched:
        page = watched.page
        page.goto(root)
        page.evaluate("(bike) => localStorage.setItem('bike', bike)", CURLEW)
        page.goto(root + address)
        ready(page)
        page.locator(".now .answer-button--good").click()
        answered = page.locator(".plan-answers__text").all_text_contents()
        first = page.locator("[data-first-step]").inner_text()
        # The step with its time.
        assert "min" in first
        link = shared_from(page)
        page.locator(".plan-answers__again").click()
        page.evaluate("() => localStorage.removeItem('bike')")
        own = memory(page)
        page.goto(root)
        page.goto(link)
        ready(page)
        expect(page.locator(".shared")).to_contain_text("Curlew 1100, 2014, one answer")
        expect(page.locator(".plan-answers__text")).to_have_text(answered)
        expect(page.locator("[data-first-step]")).to_have_text(first)
        assert memory(page) == own
        page.get_by_role("button", name="Back to mine").click()
        expect(page.locator(".plan-answers__row")).to_have_count(0)
        assert memory(page) == own
        assert watched.complaints == []


def test_what_no_longer_fits_is_left_out_and_the_rest_is_used(root: str, watch: Watch) -> None:
    wrong = {
        signed(f"1;f={SAGS};b=heron-400,2001;r=look-at-plug:g,gone:l3,voltage-at-4000:b"): "Two answers of 3 are about",
        signed("1;f=front-lever-comes-back;r=x:g"): "belongs to another page",
        signed(f"1;f={SAGS};r=look-at-plug:g")[:-3]: "cut off",
        signed(f"1;f={SAGS};r=look-at-plug:g").replace(":g", ":b"): "damaged",
        "state=9;x": "newer version",
    }
    with watch(viewport=PHONE) as watched:
        page = watched.page
        page.goto(root)
        page.evaluate("(bike) => localStorage.setItem('bike', bike)", CURLEW)
        own = memory(page)
        for fragment, told in wrong.items():
            page.goto(root)
            page.goto(f"{root}faults/{SAGS}/#{fragment}")
            ready(page)
            expect(page.locator(".shared")).to_contain_text(told)
            used = page.locator(".plan-answers__row").count()
            assert used == (1 if told in {"Two answers of 3 are about", "cut off"} else 0), told
            assert memory(page) == own
        expect(page.locator(".shared")).to_have_count(1)
        page.get_by_role("button", name="Close this note").click()
        expect(page.locator(".shared")).to_have_count(0)
        assert watched.complaints == []
