"""`core/codes.js` in Chromium, held to the vectors, to the outside libraries and to the Python side."""

from __future__ import annotations

import json
import random
from collections.abc import Callable, Iterator
from typing import Any

import pytest
from playwright.sync_api import Browser
from scapy.contrib.automotive.obd.services import OBD_DTC
from udsoncan import Dtc

from kbtools.model.code_pattern import fits
from kbtools.model.codes import (
    CodeFormat,
    FaultCode,
    StatusBits,
    code_from_bytes,
    formats_record,
    pattern_problem,
    read_code,
    slug_of,
    structure,
    tables,
)
from tests.support.places import ROOT

SCRIPTS = ROOT / "site_overrides" / "assets" / "js"
VECTORS: dict[str, Any] = json.loads((ROOT / "tests" / "vectors" / "codes.json").read_text(encoding="utf-8"))
TOLD: list[dict[str, Any]] = json.loads((ROOT / "tests/vectors/codes_told.json").read_text("utf-8"))["told"]
FORMATS = {
    name: CodeFormat(id=name, name=f"Format {name}", example=None, per_unit=False, **row)
    for name, row in VECTORS["formats"].items()
}
BROWSER_FORMATS = {row["id"]: row for row in formats_record(list(FORMATS.values()))}

Run = Callable[[str, object], Any]


@pytest.fixture(scope="module")
def run(browser: Browser, serve: Callable[..., str]) -> Iterator[Run]:
    """Runs the body of a function of `codes` (the module), `tables` and `input` in the browser.

    Input and output go as JSON text, because half a surrogate pair does not survive the way otherwise.
    """
    page = browser.new_page()
    page.goto(f"{serve(SCRIPTS)}core/codes.js")

    def run_body(body: str, given: object) -> Any:
        script = f"""async ([tables, input]) => {{
            const codes = {{ ...(await import("/core/codes.js")), ...(await import("/core/told.js")) }};
            const body = (tables, input) => {{ {body} }};
            return JSON.stringify(body(JSON.parse(tables), JSON.parse(input)));
        }}"""
        return json.loads(page.evaluate(script, [json.dumps(tables()), json.dumps(given)]))

    yield run_body
    page.close()


READ = """return input.map(([text, formats]) => {
    const reading = codes.readCode(text, formats, tables);
    return [reading.text, reading.matches.map((code) => [code.format, code.text]), reading.code, reading.ambiguous];
});"""


def test_codes_told_in_other_notations_are_those_of_the_vectors(run: Run) -> None:
    formats = [BROWSER_FORMATS["obd"], {**BROWSER_FORMATS["flash"], "per_unit": True}]
    body = """
        const texts = (matches) => matches.map((code) => code.text);
        return input.texts.map((text) => codes.readCodes(text, input.formats, tables).map(texts));
    """
    read = run(body, {"texts": [row["text"] for row in TOLD], "formats": formats})
    assert [codes or [[]] for codes in read] == [row["codes"] for row in TOLD]


def test_readings(run: Run) -> None:
    rows = VECTORS["readings"]
    answers = run(READ, [[row["text"], [BROWSER_FORMATS[name] for name in row["formats"]]] for row in rows])
    assert len(answers) == len(rows)
    for row, (text, matches, code, ambiguous) in zip(rows, answers, strict=True):
        assert text == row["text"]
        assert matches == row["matches"], row["why"]
        assert ambiguous == (len(matches) > 1)
        assert (code and [code["format"], code["text"]]) == (matches[0] if len(matches) == 1 else None)


def test_slugs(run: Run) -> None:
    texts = [text for text, _ in VECTORS["slugs"]]
    assert run("return input.map(codes.slug);", texts) == [slug for _, slug in VECTORS["slugs"]]


STRUCTURE = """const [pairs, formats] = input;
return pairs.map(([format, text]) => codes.structure({format, text}, formats, tables));"""


def test_structures(run: Run) -> None:
    rows = VECTORS["structures"]["codes"]
    answers = run(STRUCTURE, [[row["code"] for row in rows], list(BROWSER_FORMATS.values())])
    for row, answer in zip(rows, answers, strict=True):
        assert (answer["system"], answer["system_letter"]) == (row["system"], row["system_letter"])
        assert (answer["failure_type"] and answer["failure_type"]["code"]) == row["failure_type"]
        assert answer["base"] == {"format": row["code"][0], "text": row["base"]}


def test_bytes(run: Run) -> None:
    wanted = VECTORS["bytes"]["codes"]
    there = "return input.map((raw) => codes.codeFromBytes(raw, 'obd', tables));"
    back = "return input.map((text) => [...codes.codeToBytes({format: 'obd', text}, tables)]);"
    raw = [list(bytes.fromhex(digits)) for digits in wanted]
    assert run(there, raw) == [{"format": "obd", "text": text} for text in wanted.values()]
    assert run(back, list(wanted.values())) == raw


def test_status(run: Run) -> None:
    wanted = VECTORS["status"]["bytes"]
    answers = run("return input.map((byte) => codes.statusNames(byte, tables));", [int(byte) for byte in wanted])
    assert answers == list(wanted.values())


def test_what_is_no_code_and_no_byte_is_refused(run: Run) -> None:
    refused = """return [
        () => codes.codeFromBytes([1], "obd", tables),
        () => codes.codeFromBytes([1, 2, 3, 4], "obd", tables),
        () => codes.codeToBytes({format: "obd", text: "p0133"}, tables),
        () => codes.codeToBytes({format: "obd", text: "P0133-"}, tables),
        () => codes.statusNames(256, tables),
        () => codes.statusNames(-1, tables),
    ].map((call) => { try { return call(); } catch (error) { return error.name; } });"""
    assert run(refused, None) == ["RangeError"] * 6


def test_an_unchecked_pattern_does_not_throw(run: Run) -> None:
    broken = {"id": "x", "name": "x", "standard": None, "pattern": "[", "example": None, "per_unit": False}
    assert run(READ, [["P0133", [broken]]]) == [["P0133", [], None, False]]


# Outside libraries


def scapy_text(number: int) -> str:
    dtc = OBD_DTC(number.to_bytes(2, "big"))
    return f"{'PCBU'[dtc.location]}{dtc.code1:d}{dtc.code2:X}{dtc.code3:X}{dtc.code4:X}"


BOTH_WAYS = """const [texts, byteCount, stride, formats] = input;
return texts.flatMap((text, at) => {
    const number = at * stride;
    const bytes = [number >> 16, (number >> 8) & 255, number & 255].slice(3 - byteCount);
    const code = {format: "obd", text};
    const read = codes.readCode(text.toLowerCase().replace("-", " "), formats, tables).code;
    const right =
        codes.codeFromBytes(bytes, "obd", tables).text === text &&
        String(codes.codeToBytes(code, tables)) === String(bytes) &&
        read !== null && read.text === text;
    return right ? [] : [text];
});"""


def test_all_two_byte_codes_against_scapy_in_both_directions(run: Run) -> None:
    texts = [scapy_text(number) for number in range(0x10000)]
    assert run(BOTH_WAYS, [texts, 2, 1, [BROWSER_FORMATS["obd"]]]) == []


def test_a_strided_sample_of_three_byte_codes_against_udsoncan_in_both_directions(run: Run) -> None:
    stride = 251  # prime: meets every failure type
    texts = [Dtc(number).id_iso() for number in range(0, 0x1000000, stride)]
    assert run(BOTH_WAYS, [texts, 3, stride, [BROWSER_FORMATS["obd"]]]) == []


def test_all_status_bytes_against_udsoncan(run: Run) -> None:
    # The order of the flags is that of udsoncan's own constructor, bit 0 first.
    flags = [
        ("testFailed", "test_failed"),
        ("testFailedThisOperationCycle", "test_failed_this_operation_cycle"),
        ("pendingDTC", "pending"),
        ("confirmedDTC", "confirmed"),
        ("testNotCompletedSinceLastClear", "test_not_completed_since_last_clear"),
        ("testFailedSinceLastClear", "test_failed_since_last_clear"),
        ("testNotCompletedThisOperationCycle", "test_not_completed_this_operation_cycle"),
        ("warningIndicatorRequested", "warning_indicator_requested"),
    ]
    wanted = [[name for name, flag in flags if getattr(Dtc.Status.from_byte(byte), flag)] for byte in range(0x100)]
    assert run("return input.map((byte) => codes.statusNames(byte, tables));", list(range(0x100))) == wanted


# The two sides


def test_the_structure_of_every_range_and_failure_type_is_that_of_python(run: Run) -> None:
    codes = [code_from_bytes(bytes((high, 0x5A)), "obd") for high in range(0x100)]
    codes += [code_from_bytes(bytes((0xC1, 0x00, failure_type)), "obd") for failure_type in range(0x100)]
    answers = run(STRUCTURE, [[[code.format, code.text] for code in codes], [BROWSER_FORMATS["obd"]]])
    for code, answer in zip(codes, answers, strict=True):
        parts = structure(code, [FORMATS["obd"]])
        failure_type = parts.failure_type
        assert answer == {
            "system": parts.system,
            "system_letter": parts.system_letter,
            "controlled_by": parts.controlled_by,
            "failure_type": failure_type and {"code": failure_type.code, "meaning": failure_type.meaning},
            "base": {"format": parts.base.format, "text": parts.base.text},
        }


def test_twenty_thousand_typed_texts_are_read_as_in_python(run: Run) -> None:
    chance = random.Random(20_260_301)
    alphabet = [
        *"PCBUpcbu0123456789ABCDEFabcdefOIloixX",
        *" .-_:",
        *"\u2013\u2011\u00a0\u200b\uff10\uff30",
        "0x",
        "-11",
    ]
    alphabet += ["\u0131", "\u017f", "\u212a", "\u00e9", "\U0001f631", "\ud800", "\n", "(", ")", "/", "~"]
    names = list(FORMATS)
    rows = []
    for _ in range(20_000):
        base = code_from_bytes(chance.randbytes(chance.choice((2, 3))), "obd").text
        typed = list(base if chance.random() < 0.7 else chance.choice(("4-2", "42", "E 12", "0x0133", "")))
        for _ in range(chance.randrange(4)):
            at = chance.randint(0, len(typed))
            typed[at : at + chance.randrange(2)] = [chance.choice(alphabet)]
        chosen = chance.sample(names, chance.randint(1, 4))
        rows.append(("".join(typed), [*chosen, "obd"] if chance.random() < 0.5 else chosen))
    answers = run(READ, [[text, [BROWSER_FORMATS[name] for name in chosen]] for text, chosen in rows])
    read = 0
    for (text, chosen), answer in zip(rows, answers, strict=True):
        matches = read_code(text, [FORMATS[name] for name in chosen]).matches
        assert answer[1] == [[code.format, code.text] for code in matches], (text, chosen)
        read += bool(matches)
    assert 2_000 < read < 18_000  # the sample holds both
    texts = [text for text, _ in rows]
    assert run("return input.map(codes.slug);", texts) == [slug_of(text) for text in texts]


def random_pattern(chance: random.Random, depth: int = 0) -> str:
    pieces = []
    for _ in range(chance.randint(1, 3)):
        atom = chance.choice(
            ["a", "B", "1", "-", r"\d", r"\.", "[a-f]", "[A-z]", "[1-9]", r"[\d\-]", "[-Z]", r"\]", "/", " "]
        )
        if depth < 2 and chance.random() < 0.3:
            inner = [random_pattern(chance, depth + 1) for _ in range(chance.randint(1, 3))]
            atom = chance.choice(("(", "(?:")) + "|".join(inner) + ")"
        pieces.append(atom + chance.choice(["", "", "", "?", "+", "*", "{2}", "{1,3}", "{1,}"]))
    return "".join(pieces)


def test_a_pattern_that_is_taken_means_the_same_as_in_python(run: Run) -> None:
    chance = random.Random(20_260_302)
    rows: list[tuple[str, str]] = []
    while len(rows) < 20_000:
        pattern = random_pattern(chance)
        if pattern_problem(pattern) is None:
            rows += [
                (pattern, "".join(chance.choices("aAbBfFzZ123-./] _^", k=chance.randint(1, 5)))) for _ in range(20)
            ]
    body = """return input.map(([pattern, text]) => {
        const format = {id: "club", name: "", standard: null, pattern, example: null, per_unit: false};
        return codes.readCode(text, [format], tables).matches.map((code) => code.text);
    });"""
    answers = run(body, rows)
    taken = 0
    for (pattern, text), answer in zip(rows, answers, strict=True):
        club = CodeFormat(id="club", name="", standard=None, pattern=pattern, example=None, per_unit=False)
        matches = read_code(text, [club]).matches
        assert answer == [code.text for code in matches], (pattern, text)
        assert all(fits(pattern, code.text) for code in matches)
        taken += matches != () and matches[0] == FaultCode(format="club", text=text.upper())
    assert taken > 200


def test_the_status_names_are_those_of_python(run: Run) -> None:
    answers = run("return input.map((byte) => codes.statusNames(byte, tables));", list(range(0x100)))
    assert answers == [list(StatusBits.from_byte(byte).names) for byte in range(0x100)]
