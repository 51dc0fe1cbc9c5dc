"""After every edit the findings are those of a run that remembers nothing, whatever is kept from the runs before."""

from __future__ import annotations

import datetime as dt
import random
import sqlite3
import threading
from collections.abc import Callable, Mapping
from pathlib import Path

import pytest

from kbtools.edges import cache, checking
from kbtools.linting.run import Linted
from kbtools.rules import samples
from kbtools.similarity.engine import Match, Matcher

TODAY = dt.date(2026, 6, 1)
STORE = "kept.sqlite"
FLICKERS, FLAT = "faults/charging/lamp-flickers.yml", "faults/charging/battery-flat.yml"
GLOWS, ZERO = "faults/charging/lamp-glows.yml", "faults/charging/ammeter-at-zero.yml"
TWIN, LEVER = "faults/charging/lamp-in-the-wet.yml", "faults/brakes/lever-soft.yml"
CASE, SECOND = "cases/2026/wren-400-0001.yml", "cases/2026/wren-400-0002.yml"

FILES: Mapping[str, str] = {
    **samples.FILES,
    TWIN: samples.FILES[FLICKERS]
    .replace("flickers in the rain", "flickers on wet roads")
    .replace("Corroded", "Rotten"),
    LEVER: samples.BRAKES,
    SECOND: samples.FILES[CASE].replace("41200 km", "41210 km").replace("02-01", "02-03").replace("P0562", "P0563"),
    "pages/safety.md": "# Safety\n\nSit down first.\n",
}
"""The sample base with two entries that say the same, two cases of one event, an entry about a brake, and a page."""

Edit = Callable[[Path], object]


def write(folder: Path, files: Mapping[str, str]) -> Path:
    for name, content in files.items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(content, "utf-8")
    return folder


def put(path: str, old: str, new: str) -> Edit:
    """Other words in the place of some."""

    def edit(kb: Path) -> None:
        text = (kb / path).read_text("utf-8")
        assert old in text, f"{path} has no {old!r} any more"
        (kb / path).write_text(text.replace(old, new, 1), "utf-8")

    return edit


def add(path: str, text: str) -> Edit:
    return lambda kb: write(kb, {path: text})


def more(path: str, text: str) -> Edit:
    return lambda kb: (kb / path).write_text((kb / path).read_text("utf-8") + text, "utf-8")


def gone(path: str) -> Edit:
    return lambda kb: (kb / path).unlink()


def moved(path: str, to: str) -> Edit:
    return lambda kb: (kb / path).rename(kb / to)


EDITS: Mapping[str, Edit] = {
    "a comment": more(FLICKERS, "# seen again\n"),
    "a comment that names a number": more(FLICKERS, "# ask at 0170 1234567\n"),
    "a title": put(TWIN, "flickers on wet roads", "stays dark on wet roads"),
    "the title as before": put(TWIN, "stays dark on wet roads", "flickers on wet roads"),
    "a summary": put(TWIN, "Rotten plug", "Corroded plug"),
    "a word that is new to the base": put(FLICKERS, "Pull the plug", "Carefully pull the plug"),
    "a slip of the keys": put(TWIN, "regulator\n    component", "regualtor\n    component"),
    "told apart": more(TWIN, "distinct_from: [{fault: lamp-flickers, because: That one is about rain.}]\n"),
    "told apart no more": put(TWIN, "distinct_from: [{fault: lamp-flickers, because: That one is about rain.}]\n", ""),
    "another meaning of a code": put(TWIN, "System voltage low", "Engine coolant sensor circuit"),
    "another advice": put(TWIN, "level: ride-to-workshop", "level: no-restriction"),
    "another price": put(TWIN, "price: [8, 20]", "price: [80, 90]"),
    "a model that is not there": put(TWIN, "model: wren-400", "model: wren-401"),
    "a model again": put(TWIN, "model: wren-401", "model: wren-400"),
    "an entry renamed": moved(TWIN, "faults/charging/lamp-in-wet-weather.yml"),
    "an entry that a case names renamed": moved(FLICKERS, "faults/charging/lamp-blinks.yml"),
    "its old id": more("faults/charging/lamp-blinks.yml", "formerly: [lamp-flickers]\n"),
    "its old name again": moved("faults/charging/lamp-blinks.yml", FLICKERS),
    "no old id": put(FLICKERS, "formerly: [lamp-flickers]\n", ""),
    "an entry in another folder": moved(ZERO, "faults/brakes/ammeter-at-zero.yml"),
    "one id twice": add(ZERO, samples.FILES[ZERO]),
    "the first of the two gone": gone("faults/brakes/ammeter-at-zero.yml"),
    "an entry deleted": gone(FLAT),
    "an entry added again": add(FLAT, samples.FILES[FLAT]),
    "a draft published": put(FLAT, "draft: true\n", ""),
    "a draft again": put(FLAT, "system: charging\n", "system: charging\ndraft: true\n"),
    "a cause renamed": put(FLICKERS, "id: corroded-plug", "id: rotten-plug"),
    "a cause as before": put(FLICKERS, "id: rotten-plug", "id: corroded-plug"),
    "a case edited": put(SECOND, "after: 900 km", "after: 90 km"),
    "a case of tomorrow": put(SECOND, "seen: 2026-02-03", "seen: 2026-06-02"),
    "a case of a year that there was not": put(CASE, "year: 2005", "year: 1980"),
    "a case added": add("cases/2026/wren-400-0003.yml", samples.FILES[CASE].replace("41200", "300")),
    "a case deleted": gone(SECOND),
    "a model's years": put("models/wren-400.yml", "years: 2003-2012", "years: 2003-2004"),
    "a model's name": put("models/wren-400.yml", "name: Wren 400", "name: Wren"),
    "a shared check": put("checks.yml", "good: [12.5, 12.9]", "good: [2.5, 2.9]"),
    "a shared check that is not used": put(FLAT, "checks: [{use: battery-rest}]\n", ""),
    "a system renamed": put("systems.yml", "id: brakes", "id: brake"),
    "a system as before": put("systems.yml", "id: brake\n", "id: brakes\n"),
    "a component's name": put("systems.yml", "name: Regulator", "name: Rectifier"),
    "a component gone": put("systems.yml", "  - {id: regulator, name: Rectifier, system: charging}\n", ""),
    "a caution about petrol": put("cautions.yml", "battery-gas, text", "battery-gas, hazard: fuel, text"),
    "words that mean the same": add("words.yml", "[[rain, wet roads], [plug, connector]]\n"),
    "words that contradict": add("words.yml", "[[rich, lean]]\n"),
    "no words": gone("words.yml"),
    "what the club accepts": add(
        "accepted.yml",
        f"- {{rule: KB610, path: {FLICKERS}, because: They are two.}}\n- {{rule: KB601, path: {CASE}}}\n",
    ),
    "the club's currency": put("club.yml", "format: 2", "format: 1"),
    "a format of codes": put("club.yml", "standard: sae-j2012, ", 'pattern: "Q[0-9]", example: Q1, '),
    "a mistake of form": put(FLICKERS, "minutes: 5", "minutes: soon"),
    "a mistake of YAML": put(FLICKERS, "checks:\n", "checks: [\n"),
    "no file of the club": gone("club.yml"),
    "that file again": add("club.yml", samples.FILES["club.yml"]),
    "a page": put("pages/safety.md", "Sit down", "<b>Sit</b> down, and call Wenzel"),
    "a page gone": gone("pages/safety.md"),
    "a folder in the place of a file": lambda kb: (kb / "faults/charging/odd.yml").mkdir(),
}
"""One after the other; each leaves what the ones before it did."""


@pytest.fixture
def kb(tmp_path: Path) -> Path:
    return write(tmp_path / "kb", FILES)


@pytest.fixture
def kept(tmp_path: Path) -> Path:
    return tmp_path / "cache"


def everything(kb: Path, kept: Path | None, today: dt.date = TODAY) -> Linted:
    return checking.findings_in(kb, today, kept)


def test_the_base_shows_what_only_comparing_finds(kb: Path) -> None:
    assert {"KB416", "KB610", "KB631"} <= {each.rule for each in everything(kb, None).findings}


def test_every_edit_gives_what_a_run_without_memory_finds(kb: Path, kept: Path) -> None:
    everything(kb, kept)
    rules: set[str] = set()
    for name, edit in EDITS.items():
        edit(kb)
        found = everything(kb, kept)
        assert found == everything(kb, None), name
        rules |= {each.rule for each in found.findings}
    # The edits are worth something: they made and mended a great many different findings.
    assert len(rules) > 25


def test_edits_in_any_order_and_back(kb: Path, kept: Path, thorough: bool) -> None:
    choose = random.Random(11)
    for _ in range(40 if thorough else 4):
        write(kb, FILES)
        for edit in choose.sample(list(EDITS.values()), 3):
            try:
                edit(kb)
            except (AssertionError, OSError):
                # What it edits, another one has taken away.
                continue
        day = TODAY + dt.timedelta(days=choose.randrange(-900, 900))
        assert everything(kb, kept, day) == everything(kb, None, day)


def test_a_day_earlier_and_a_year_later(kb: Path, kept: Path) -> None:
    for day in (TODAY, TODAY - dt.timedelta(days=400), TODAY + dt.timedelta(days=800), TODAY):
        assert everything(kb, kept, day) == everything(kb, None, day)


def test_two_states_in_turns_share_what_is_kept(kb: Path, kept: Path, tmp_path: Path) -> None:
    other = write(tmp_path / "other", {**FILES, ZERO: FILES[ZERO].replace("Ammeter", "Amp meter")})
    for folder in (kb, other, kb, other):
        assert everything(folder, kept) == everything(folder, None)


def test_what_is_kept_may_be_cut_off(kb: Path, kept: Path) -> None:
    everything(kb, kept)
    whole = (kept / STORE).read_bytes()
    EDITS["a summary"](kb)
    expected = everything(kb, None)
    for part in (3, 5, 9):
        (kept / STORE).write_bytes(whole[: len(whole) * part // 10])
        assert everything(kb, kept) == expected


def test_what_another_version_kept_counts_for_nothing(kb: Path, kept: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    expected = everything(kb, None)
    with monkeypatch.context() as other:
        other.setattr(cache, "_running", lambda: b"another")
        everything(kb, kept)
    with sqlite3.connect(kept / STORE) as store:
        # As if that version had found nothing anywhere.
        assert store.execute("UPDATE kept SET value = ?", (b'{"found": {"bare": "", "more": {}}}',)).rowcount
    store.close()
    assert everything(kb, kept) == expected


def test_two_runs_that_write_at_once_leave_what_holds(kb: Path, kept: Path) -> None:
    expected = everything(kb, None)
    runs = [threading.Thread(target=everything, args=(kb, kept)) for _ in range(4)]
    for run in runs:
        run.start()
    for run in runs:
        run.join()
    EDITS["a summary"](kb)
    assert everything(kb, kept) == everything(kb, None) != expected


def test_only_pairs_that_an_edit_touches_are_compared_again(
    kb: Path, kept: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    compared: list[object] = []
    real = Matcher.compare_from

    def counted(self: Matcher[object], least: float, left: object, right: object) -> Match | None:
        compared.append(left)
        return real(self, least, left, right)

    monkeypatch.setattr(Matcher, "compare_from", counted)
    everything(kb, kept)
    assert compared
    compared.clear()
    EDITS["another price"](kb)
    everything(kb, kept)
    # Prices are not compared.
    assert not compared
    EDITS["a summary"](kb)
    everything(kb, kept)
    # The entry itself is another one now, and one word counts for less; nothing else has changed.
    assert 0 < len(compared) < 4
