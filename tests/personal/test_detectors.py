"""Numbers that lead to a person, against outside references; texts of any kind; the time that nasty ones take."""

from __future__ import annotations

import re

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from vininfo import Vin

from kbtools.edges.folder import load
from kbtools.personal import address, email, name, phone, plate, vin
from kbtools.personal.span import even, hidden
from tests.support.patience import within_reason
from tests.support.places import DEMO

SIGNS = "0123456789ABCDEFGHJKLMNPRSTUVWXYZ"
KINDS = {"email": email, "phone": phone, "vin": vin, "plate": plate, "address": address, "name": name}


@st.composite
def proven(draw: st.DrawFn) -> str:
    """A number whose ninth character is the check digit, by the library vininfo."""
    signs = draw(st.lists(st.sampled_from(SIGNS), min_size=16, max_size=16))
    assume(any(each.isdigit() for each in signs))
    return next(
        number
        for digit in "0123456789X"
        if Vin(number := "".join([*signs[:8], digit, *signs[8:]])).verify_checksum(check_year=False)
    )


# 49 CFR 565.15(c)(4) works the first one out; the second is the example that textbooks of it use.
@pytest.mark.parametrize("number", ["1G4AH59H45G118341", "1M8GDM9AXKP042788", "1" * 17])
def test_the_check_digit_is_that_of_the_regulations_example(number: str) -> None:
    assert vin.check_digit(number) == number[8]


@given(proven())
def test_the_check_digit_is_that_of_a_reference_library(number: str) -> None:
    assert vin.check_digit(number) == number[8]


@given(proven(), st.text(max_size=40), st.text(max_size=40), st.booleans())
def test_a_proven_number_is_found_in_any_text(number: str, before: str, after: str, small: bool) -> None:
    # Letters and digits right beside it would make it a part of a longer word.
    assume(not re.search(r"[0-9A-Za-z]$", even(before)) and not re.search(r"^[0-9A-Za-z]", even(after)))
    text = f"{before}{number.lower() if small else number}{after}"
    assert vin.may_hold(text)
    assert (len(before), len(before) + 17) in list(vin.find(text))


@given(st.text(SIGNS, min_size=1, max_size=16) | st.text(SIGNS, min_size=18, max_size=30))
def test_a_shorter_or_longer_number_is_none(text: str) -> None:
    assert list(vin.find(text)) == []


@given(st.sampled_from(["", "Write to ", "(", "<", "mail:"]), st.sampled_from(["", ".", ")", ">", ", please"]))
def test_an_address_is_found_among_signs(before: str, after: str) -> None:
    # The domain is reserved by RFC 2606.
    text = f"{before}anna.b@mail.example{after}"
    assert [text[span.start : span.end] for span in email.find(text)] == ["anna.b@mail.example"]


@given(st.text(max_size=300))
def test_spans_lie_in_the_text_and_the_quick_look_misses_nothing(text: str) -> None:
    for module in KINDS.values():
        spans = list(module.find(text))
        assert all(0 <= span.start < span.end <= len(text) for span in spans)
        assert not spans or module.may_hold(text)


ALPHABET = "0123456789 +-./()@:,ABMXabr€\n"


@given(st.text(ALPHABET, max_size=120))
def test_the_quick_look_misses_nothing_among_numbers(text: str) -> None:
    for kind, module in KINDS.items():
        assert not any(True for _ in module.find(text)) or module.may_hold(text), kind


def test_what_was_seen_is_not_repeated_whole() -> None:
    text = "write to anna.beispiel@mail.example"
    (span,) = email.find(text)
    assert hidden(text, span) == "ann…"


@pytest.mark.parametrize("kind", list(KINDS))
def test_nothing_in_the_demo_is_taken_for_personal(kind: str) -> None:
    for writing in load(DEMO).base.writings:
        for text in writing.texts:
            assert writing.kind == "link" or list(KINDS[kind].find(text)) == [], (writing.path, text)


@pytest.mark.parametrize("kind", list(KINDS))
def test_no_code_or_part_number_of_the_demo_is_taken_for_personal(kind: str) -> None:
    base = load(DEMO).base
    codes = [row.read.text for fault in base.faults.values() for row in fault.codes]
    numbers = [source.number for fault in base.faults.values() for source in fault.sources if source.number]
    assert codes
    assert numbers
    for text in codes + numbers:
        for around in (text, f"It set {text} twice.", ", ".join(codes)):
            assert list(KINDS[kind].find(around)) == []


NASTY = [
    *(
        "@",
        "a@",
        "a@b.",
        "a@b.c",
        "a.",
        "(at)",
        "x (at) ",
        "0",
        "0 ",
        "0-",
        "+",
        "+1 ",
        "1(",
        "tel ",
        "tel: ",
        "A",
        "A1",
    ),
    *("AB-", "AB-1", "AB12 ", "1 ", "12 A", "Ab ", "Str. ", "Via Ab ", "1 Ab ", "rue ", "12 rue de ", "Owner: ", "Mr "),
    *("Owner: Ab ", "A. ", "VIN ", "VIN A ", "plate A", "number plate A ", "tel me me me ", "no no ", "Part ", "Ab-"),
    *("\u200c", "é ", "\n", "&#", "&amp;", "(", "frame 1 ", "\uff21", "2003-", "www.", "https://"),
]


@pytest.mark.parametrize("kind", list(KINDS))
def test_nasty_texts_take_no_time(kind: str) -> None:
    # Each 100 kB takes under a tenth of a second; a pattern that runs away would take hours.
    for piece in NASTY:
        text = piece * (100_000 // len(piece))
        with within_reason(piece):
            KINDS[kind].may_hold(text)
            assert len(list(KINDS[kind].find(text))) <= len(text)
