"""`kbtools add-report`: what an owner sends becomes a case, once, whole or not at all."""

from __future__ import annotations

from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from kbtools.cli import main
from tests.support.sample_base import in_folder
from tests.support.yaml_files import core_load

CASE = """\
vehicle: {model: wren-400, year: 2006, odometer: 38000 km, bike: b009}
seen: 2026-04-02
codes:
  - {code: P0562, status: stored}
symptoms: [Charge lamp flickers]
fault: lamp-flickers
tried:
  - {check: look-at-plug, result: bad}
  - {fix: corroded-plug, result: helped}
outcome: {state: solved, cause: corroded-plug, after: 900 km}
"""
FIRST = Path("kb/cases/2026/wren-400-0002.yml")


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The sample base in `kb`; the current directory."""
    return in_folder(tmp_path, monkeypatch)


def add(*reports: str, options: tuple[str, ...] = ()) -> Result:
    text = "\n".join(f"--- report\n{each}--- end\n" for each in reports)
    return CliRunner().invoke(main, ["add-report", *options, "-"], input=text)


def files() -> dict[str, bytes]:
    return {str(path): path.read_bytes() for path in Path().rglob("*") if path.is_file()}


def said(done: Result) -> str:
    return " ".join(done.stderr.split())


def test_a_report_becomes_the_next_case_with_a_source_and_says_what_it_changes(folder: Path) -> None:
    done = add(CASE)
    assert (done.exit_code, done.stderr) == (0, "")
    assert done.stdout.startswith(f"{FIRST}\nThe advice of 1 fault changes")
    assert core_load(FIRST.read_text("utf-8")) == {
        **core_load(CASE),
        "source": {"kind": "first-hand", "title": "Member report"},
    }
    assert CliRunner().invoke(main, ["tidy", "--check", str(FIRST)]).exit_code == 0
    before = files()
    again = add(CASE, CASE)
    assert (again.exit_code, again.stdout) == (0, f"{FIRST}: there already\n" * 2)
    assert files() == before


def test_the_year_of_the_folder_is_that_of_the_day_and_two_reports_are_two_cases(folder: Path) -> None:
    other = CASE.replace("2026-04-02", "2025-11-30").replace("b009", "b010")
    done = add(CASE, other, CASE)
    assert done.exit_code == 0
    assert done.stdout.split("\n")[:3] == [str(FIRST), "kb/cases/2025/wren-400-0003.yml", f"{FIRST}: there already"]


def test_how_it_ended_goes_into_the_case_that_was_open(folder: Path) -> None:
    begun = CASE[: CASE.index("tried")].replace("fault: lamp-flickers\n", "") + "outcome: {state: open, note: Rain.}\n"
    assert add(begun).exit_code == 0
    # A curator's remark stays.
    FIRST.write_text("# Rung up twice.\n\n" + FIRST.read_text("utf-8"), "utf-8")
    later = (
        CASE.replace("2026-04-02", "2026-05-20")
        .replace("38000", "38900")
        .replace("b009}", "b009}\nfollows: wren-400-0002")
    )
    ended = later.replace("900 km}", "900 km, note: Dry since.}")
    for expected in ("brought up to date", "there already"):
        done = add(ended)
        assert (done.exit_code, done.stdout.split("\n")[0]) == (0, f"{FIRST}: {expected}"), done.stderr
    text = FIRST.read_text("utf-8")
    assert text.startswith("# Rung up twice.\n")
    case = core_load(text)
    assert (case["seen"], case["vehicle"]["odometer"]) == ("2026-04-02", "38000 km")
    assert case["outcome"] == {
        "state": "solved",
        "cause": "corroded-plug",
        "after": "900 km",
        "note": "Rain.\n\nDry since.",
    }
    assert "follows" not in case
    # It counts now: what comes back after that is another case, told once however often it is sent.
    back = (
        CASE.replace("2026-04-02", "2026-05-25")
        .replace("38000", "39900")
        .replace("b009}", "b009}\nfollows: wren-400-0002")
    )
    back = back[: back.index("tried")] + "outcome: {state: open}\n"
    for expected in ("", ": there already"):
        done = add(back)
        assert done.stdout.split("\n")[0] == f"kb/cases/2026/wren-400-0003.yml{expected}"


def test_the_same_bike_day_and_fault_is_the_same_case_and_one_that_counts_stays_as_it_is(folder: Path) -> None:
    assert add(CASE).exit_code == 0
    before = files()
    done = add(CASE.replace("solved, cause: corroded-plug, after: 900 km", "open"))
    assert (done.exit_code, done.stdout) == (0, f"{FIRST}: there already\n")
    assert "outcome" in said(done)
    strange = CASE.replace("year: 2006", "year: 2007").replace("b009}", "b009}\nfollows: wren-400-0002")
    done = add(strange)
    assert done.exit_code == 1
    assert "of another machine" in said(done)
    assert files() == before


def test_an_entry_goes_by_its_id_of_today(folder: Path) -> None:
    path = folder / "kb/faults/charging/lamp-flickers.yml"
    path.write_text(path.read_text("utf-8") + "formerly: [lamp-unsteady]\n", "utf-8")
    done = add(CASE.replace("fault: lamp-flickers", "fault: lamp-unsteady"))
    assert done.exit_code == 0
    assert 'is called "lamp-flickers" today' in said(done)
    assert core_load(FIRST.read_text("utf-8"))["fault"] == "lamp-flickers"
    # lamp-glows is withdrawn, and battery-flat, which took its place, has no causes yet.
    gone = CASE.replace("fault: lamp-flickers", "fault: lamp-glows").replace("b009", "b012")
    done = add(gone)
    assert done.exit_code == 1
    assert '"battery-flat" took its place, and does not have corroded-plug, look-at-plug' in said(done)
    open_one = gone[: gone.index("tried")] + "outcome: {state: open}\n"
    done = add(open_one)
    assert done.exit_code == 0
    assert core_load(Path("kb/cases/2026/wren-400-0003.yml").read_text("utf-8"))["fault"] == "battery-flat"


REFUSED = {
    "fault: lamp-flickers": (
        "fault: lamp-flicker",
        ':8:8: KB310 error: There is no fault "lamp-flicker". Did you mean',
    ),
    "cause: corroded-plug": ("cause: corroded-plg", "KB307"),
    "seen: 2026-04-02": ("seen: 2026-14-02", ":4:7: KB20"),
    "  - {code": ("  - &a {code", "KB103"),
    "seen: ": ("seen: !!str ", "KB104"),
    "symptoms: ": ("---\nsymptoms: ", "KB108"),
    "year: 2006": ("year: 1999", "KB420"),
    "odometer: 38000 km": ("odometer: far", ":3:50: KB20"),
    "[Charge lamp flickers]": ("[<script>alert(1)</script>]", "KB505"),
    "[Charge": ("[*a, Charge", "KB103"),
    "vehicle: ": ("plate: AB-CD 123\nvehicle: ", "KB202"),
}


@pytest.mark.parametrize("piece", REFUSED)
def test_what_does_not_check_is_refused_at_its_line_and_nothing_is_written(folder: Path, piece: str) -> None:
    before = files()
    instead, expected = REFUSED[piece]
    # The other report of the same mail is not held up by it.
    done = CliRunner().invoke(
        main, ["add-report"], input=f"Hello\n--- report\n{CASE.replace(piece, instead, 1)}--- end\n"
    )
    assert done.exit_code == 1
    assert expected in said(done)
    assert "standard input:" in done.stderr
    assert files() == before


def test_one_that_is_refused_holds_up_no_other_and_takes_no_number(folder: Path) -> None:
    bad = CASE.replace("fault: lamp-flickers", "fault: nothing-of-this")
    good = CASE.replace("b009", "b011").replace("38000", "21000")
    done = add(bad, good, options=("--kb", "kb"))
    assert done.exit_code == 1
    assert done.stdout.startswith(f"{FIRST}\n")
    assert "Refused: 1 of 2." in said(done)


def test_a_case_that_would_make_another_file_wrong_is_refused(folder: Path) -> None:
    # KB418 is told at the later of two cases of a bike, and that one is there already.
    case = CASE.replace("b009", "b001").replace("2026-04-02", "2026-01-02").replace("38000", "99000")
    done = add(case.replace("year: 2006", "year: 2005"), CASE)
    assert (done.exit_code, done.stdout.split("\n")[0]) == (1, str(FIRST))
    assert "wren-400-0001.yml:1:" in said(done)
    assert "99" in said(done)


@pytest.mark.parametrize(
    ("handed_in", "expected"),
    [
        (b"Nothing to see here.\n", "There is no report in it."),
        (b"--- report\nseen: 2026-04-02\n", "--- end"),
        (b"\x89PNG\r\n\0\0", "It is no text."),
        (b"--- report\n" + b"symptoms: [a]\n" * 700_000 + b"--- end\n", "KB110"),
        (b"", "There is no report in it."),
    ],
)
def test_what_holds_no_report_is_refused_with_a_sentence(folder: Path, handed_in: bytes, expected: str) -> None:
    Path("r.eml").write_bytes(handed_in)
    done = CliRunner().invoke(main, ["add-report", "r.eml"])
    assert (done.exit_code, done.stdout) == (1, "")
    assert expected in said(done)
    assert CliRunner().invoke(main, ["add-report", "not-there.eml"]).exit_code == 2
