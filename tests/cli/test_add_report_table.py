"""`kbtools add-report --table`: a club's spreadsheet becomes cases, and what does not comes back with the reason."""

from __future__ import annotations

import csv
import io
import json
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from kbtools.cli import main
from tests.cli.test_add_report import files, said
from tests.support.places import ROOT
from tests.support.sample_base import in_folder
from tests.support.yaml_files import core_load

HEADER = "Model;Year;KM;Date;Bike;Fault;Symptoms;Tried;State;Cause;After;Parts;Owner"
FULL = (
    "Wren 400;2005;38.100;2.4.2026;b021;lamp-flickers;Lamp flickers;look-at-plug: bad;solved;corroded-plug;900 km;"
    "12,50;A"
)
ROWS = (
    FULL,
    "Wren 400;2006;21.400;3/4/2026;b022;lamp-flickers;;;open;;;;B",
    "wren-400;2004;9.000;14.4.2026;b023;lamp-flicker;;;open;;;;C",
    '"Wren 400";2007;"15.900";"15.4.2026";b024;;"Lamp glows; dim at night";;open;;;;D',
    FULL,
    "Wren 400;2005;7.000;2.5.2026;b025;lamp-flickers;Ring 0171 5550123;;open;;;;E",
)


@pytest.fixture
def folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The sample base in `kb`; the current directory."""
    return in_folder(tmp_path, monkeypatch)


def take(data: bytes | str, *options: str) -> Result:
    Path("t.csv").write_bytes(data if isinstance(data, bytes) else data.encode())
    return CliRunner().invoke(main, ["add-report", "--table", *options, "t.csv"])


def table(*rows: str, header: str = HEADER) -> str:
    return "\n".join((header, *rows)) + "\n"


def cases() -> set[str]:
    return {path.name for path in Path("kb/cases").rglob("*.yml")} - {"wren-400-0001.yml"}


def test_rows_become_cases_and_the_others_come_back_with_the_reason(folder: Path) -> None:
    done = take(table(*ROWS))
    assert done.exit_code == 1
    assert done.stdout.startswith("6 rows: 2 written, 1 there already, 3 refused.\n")
    assert '"KM" is taken for odometer, in km.' in said(done)
    assert 'Not read: "Owner".' in said(done)
    assert cases() == {"wren-400-0002.yml", "wren-400-0003.yml"}
    assert core_load(Path("kb/cases/2026/wren-400-0002.yml").read_text("utf-8")) == {
        "vehicle": {"model": "wren-400", "year": 2005, "odometer": "38100 km", "bike": "b021"},
        "seen": "2026-04-02",
        "symptoms": ["Lamp flickers"],
        "fault": "lamp-flickers",
        "tried": [{"check": "look-at-plug", "result": "bad"}],
        "outcome": {"state": "solved", "cause": "corroded-plug", "after": "900 km", "paid": {"parts": 12.5}},
        "source": {"kind": "first-hand", "title": "Member report"},
    }
    back = Path("t-refused.csv").read_text("utf-8-sig")
    rows = list(csv.DictReader(io.StringIO(back), delimiter=";"))
    assert [row["Bike"] for row in rows] == ["b022", "b023", "b025"]
    reasons = [row["Why it was refused"] for row in rows]
    assert 'row 3, "Date": "3/4/2026" may be 2026-03-04 or 2026-04-03' in reasons[0]
    assert 'row 4, "Fault": There is no fault "lamp-flicker". Did you mean "lamp-flickers"' in reasons[1]
    assert 'row 7, "Symptoms": A telephone number' in reasons[2]
    assert "5550123" not in reasons[2]
    # Mended, the rows that came back can be handed in as they are; and nothing is written twice.
    mended = (
        back.replace("3/4/2026", "4 Mar 2026").replace("lamp-flicker;", "lamp-flickers;").replace("0171 5550123", "me")
    )
    for expected in ("3 written", "3 there already"):
        done = take(mended.encode("utf-8-sig"), "--rejects", "r.csv")
        assert (done.exit_code, done.stdout.split("\n")[0]) == (0, f"3 rows: {expected}.")
    assert len(cases()) == 5
    assert not Path("r.csv").exists()


@pytest.mark.parametrize(
    ("data", "options"),
    [
        pytest.param(table(ROWS[3]).replace("dim", "é").encode("cp1252"), (), id="Windows"),
        pytest.param(table(ROWS[3]).replace("dim", "é").encode("utf-16"), (), id="UTF-16"),
        pytest.param(table(ROWS[3]).replace("dim", "é").encode("utf-8-sig"), (), id="a byte order mark"),
        pytest.param(table(ROWS[3]).replace("dim", "é").encode("cp437"), ("--encoding", "cp437"), id="as it is said"),
        pytest.param(("sep=;\r\n" + table(ROWS[3]).replace("dim", "é").replace("\n", "\r\n")).encode(), (), id="sep="),
        pytest.param(
            table(ROWS[3]).replace("dim", "é").replace(";", "\t").replace("glows\t", "glows;").encode(), (), id="tabs"
        ),
        pytest.param(
            table(ROWS[3]).replace("dim", "é").replace(";", ",").replace("glows,", "glows;").encode(), (), id="commas"
        ),
        pytest.param(
            table(ROWS[3]).replace("dim", "é").replace(";", "!").replace("glows!", "glows;").encode(),
            ("--separator", "!"),
            id="a separator that is said",
        ),
        pytest.param(
            table(ROWS[3]).replace("dim", "é").replace("KM", "Tacho").replace("15.4.2026", "4/15/26").encode(),
            ("--column", "odometer=Tacho", "--dates", "mdy"),
            id="a column that is said",
        ),
    ],
)
def test_however_it_was_saved(folder: Path, data: bytes, options: tuple[str, ...]) -> None:
    done = take(data, *options)
    assert done.exit_code == 0, done.stderr
    case = core_load(Path("kb/cases/2026/wren-400-0002.yml").read_text("utf-8"))
    assert case["vehicle"] == {"model": "wren-400", "year": 2007, "odometer": "15900 km", "bike": "b024"}
    assert (case["seen"], case["symptoms"]) == ("2026-04-15", ["Lamp glows", "é at night"])


@pytest.mark.parametrize(
    ("data", "options", "told"),
    [
        (table(ROWS[0], header=HEADER.replace("KM", "Tacho")), (), "No column is odometer"),
        (table(ROWS[0]), ("--column", "odometer=Tacho"), 'There is no column "Tacho"'),
        (table(ROWS[0]), ("--column", "tacho"), "no KEY=HEADING"),
        (table(ROWS[0]), ("--rejects", "kb/club.yml"), "is there already"),
        (table(ROWS[0]), ("--separator", "ab"), "no separator"),
        (table(ROWS[0]), ("--encoding", "none-such"), "no text in none-such"),
        ("", (), "nothing in it"),
        ("\0\1", (), "no text"),
        (table(*(ROWS[:1] * 6000)), (), "more than 5,000 rows"),
        ('Model;Year\n"' + "a" * 200_000, (), "cannot be read near line"),
    ],
)
def test_what_cannot_be_told_ends_before_anything_is_written(
    folder: Path, data: str, options: tuple[str, ...], told: str
) -> None:
    before = files()
    done = take(data, *options)
    assert done.exit_code == 2
    assert told in said(done)
    assert {name: text for name, text in files().items() if name != "t.csv"} == before


def test_a_separator_that_stands_in_a_cell_without_quotes_is_told(folder: Path) -> None:
    done = take(table(f"{ROWS[0]};and; more", ROWS[3]))
    assert done.exit_code == 1
    assert "row 2: It has more cells than the heading" in said(done)
    assert done.stdout.startswith("2 rows: 1 written, 1 refused.\n")


def test_no_text_of_a_table_acts_in_a_file_or_on_the_terminal(folder: Path) -> None:
    row = (
        ROWS[3].replace('"Lamp glows; dim at night"', '"&a [x]: {y: *a}\n--- end\n%YAML"').replace("15.4.2026", "=1+1")
    )
    done = take(table(row, ROWS[3].replace("dim", "- {a: b} # c\x1b[31m")).replace(";;", ";"), "--separator", ";")
    assert done.exit_code == 1
    assert "\x1b" not in done.stdout + done.stderr
    assert cases() <= {"wren-400-0002.yml"}
    for name in cases():
        assert core_load(Path("kb/cases/2026", name).read_text("utf-8"))["symptoms"]


def test_personal_texts_are_refused_and_harmless_ones_are_not(folder: Path) -> None:
    texts = json.loads((ROOT / "tests/vectors/personal_texts.json").read_text("utf-8"))
    out = io.StringIO()
    writer = csv.writer(out)
    writer.writerow(["model", "year", "odometer", "seen", "state", "note"])
    for number, text in enumerate((*texts["personal"], *texts["harmless"])):
        writer.writerow(["wren-400", 2005, f"{20000 + number} km", "2026-01-05", "open", text])
    done = take(out.getvalue())
    assert done.exit_code == 1
    notes = [core_load(Path("kb/cases/2026", name).read_text("utf-8"))["outcome"]["note"] for name in cases()]
    assert [text for text in texts["harmless"] if text not in notes] == []
    # A nickname that is nothing but a word is missed; what the detectors see in all, their own measure tells.
    assert [text for text in texts["personal"] if text in notes] == ["my nickname there is oilhead88"]
    assert len(texts["personal"]) == 60
