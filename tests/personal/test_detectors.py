"""Numbers that lead to a person, against outside references; texts of any kind; the time that nasty ones take."""

from __future__ import annotations

import functools
import re

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from vininfo import Vin

from kbtools.model.base import KnowledgeBase
from kbtools.personal import card, email, iban, name, numbering, phone, position, vin
from kbtools.personal.span import Span, apart, even, hidden
from tests.personal.measure import FIND, MODULES
from tests.support.demo_read import demo_with
from tests.support.patience import within_reason


@functools.cache
def demo() -> KnowledgeBase:
    return demo_with().base


SIGNS = "0123456789ABCDEFGHJKLMNPRSTUVWXYZ"


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


PIECES = (
    *("Karl", "Ab", "AB", "ab", "a", "N", "E", "x", "at", "dot", "by", "to", "user", "on the forum", "plate", "Owner"),
    *("thanks", "ask", "tel", "GB82", "DE", "1M8", "4111", "0171", "12", "5", "52.5200", "13.40", "°", "'", '"', "@"),
    *(
        " ",
        " ",
        " ",
        ".",
        ",",
        ":",
        "-",
        "_",
        "(",
        ")",
        "/",
        "+",
        "\n",
        "Straße",
        "wa.me/",
        "example",
        "com",
        "é",
        "１",
    ),
)
"""Of which texts are put together that come near what the detectors look for."""


@given(st.text(max_size=300) | st.lists(st.sampled_from(PIECES), max_size=30).map("".join))
def test_spans_lie_in_the_text_in_order_and_the_quick_look_misses_nothing(text: str) -> None:
    for kind, find in FIND.items():
        spans = list(find(text))
        assert all(0 <= span.start < span.end <= len(text) for span in spans), kind
        assert spans == sorted(spans) or kind == "email", kind
        assert not spans or MODULES[kind].may_hold(text), kind


ALPHABET = "0123456789 +-./()@:,°'NESABMXabr_€\n"


@given(st.text(ALPHABET, max_size=120))
def test_the_quick_look_misses_nothing_among_numbers(text: str) -> None:
    for kind, find in FIND.items():
        assert not any(True for _ in find(text)) or MODULES[kind].may_hold(text), kind


def test_what_was_seen_is_not_repeated_whole() -> None:
    text = "write to anna.beispiel@mail.example"
    (span,) = email.find(text)
    assert hidden(text, span) == "ann…"


@pytest.mark.parametrize("kind", list(FIND))
def test_nothing_in_the_demo_is_taken_for_personal(kind: str) -> None:
    for writing in demo().writings:
        for text in writing.texts:
            assert writing.kind == "link" or list(FIND[kind](text)) == [], (writing.path, text)


@pytest.mark.parametrize("kind", list(FIND))
def test_no_code_or_part_number_of_the_demo_is_taken_for_personal(kind: str) -> None:
    base = demo()
    codes = [row.read.text for fault in base.faults.values() for row in fault.codes]
    numbers = [source.number for fault in base.faults.values() for source in fault.sources if source.number]
    assert codes
    assert numbers
    for text in codes + numbers:
        for around in (text, f"It set {text} twice.", ", ".join(codes)):
            assert list(FIND[kind](around)) == []


NASTY = [
    *("@", "a@", "a@b.", "a@b.c", "a.", "(at)", "x (at) ", "at a ", "a at b ", "a at b dot ", "a @ b . ", "a b ", "(@"),
    *(
        "0",
        "1",
        "0 ",
        "00 ",
        "0-",
        "1.1.",
        "(0",
        "1(",
        "+",
        "+1 ",
        "07700 900456 ",
        "zero ",
        "tel ",
        "tel: ",
        "call 1 ",
    ),
    *("A", "A1", "AB-", "AB-1", "AB12 ", "B-XY ", "AB 123 ", "plate A", "number plate A ", "1234 "),
    *("1 ", "12 A", "Ab ", "Str. ", "Straße 1 ", "Via Ab ", "1 Ab ", "rue ", "12 rue de ", "12345 Ab", "OT1 2"),
    *("Owner: ", "Owner: Ab ", "Mr ", "A. ", "Ab-", "Karl ", "thanks to ", "by Ab ", "Ab von ", "von ", "l d m "),
    *("VIN ", "VIN A ", "1M8 ", "AAA1111 ", "frame 1 ", "GB82", "GB82 ", "AA00 AAAA ", "4111 ", "4111 1111 1111 1111 "),
    *("52.5200 ", "52.5200, ", "gps 52.52 ", "52° ", "52° 31' ", "N 52 ", "N52 31.2 E", "+52.5200", "///a.b", "33U "),
    *(
        "wa.me/",
        "tel:0",
        "mailto:a",
        "https://",
        "https://a/",
        "https://a/u/",
        "www.",
        "@a",
        "@a.",
        "u/a",
        "a1 on the ",
    ),
    *("ZX 41 ", "KA 01 ", "1234 AB", "ZXK ", "reg a", "reg at ", "plate 1 ", "parked AB 12 ", "品川 あ 1", "А1", "AB·"),
    *(
        "Flat 1, ",
        "12 ab ",
        "12 rue du ",
        "in via a ",
        "Am Ab ",
        "wohnt Am Ab 1",
        "Ab utca ",
        "1-2-3 A",
        "12-345 A",
        "一",
        "一市",
    ),
    *(
        "thx to ",
        "from mr ",
        "mr a",
        "Regards, ",
        "Ab Ab, ",
        "Tanaka-san",
        "M. ",
        "d'après ",
        "ta to ",
        "by jonas ",
        "credits - ",
    ),
    *(
        "user name ",
        "forum name is ",
        "nick: ",
        "a_b#",
        "a#1234",
        'like "',
        "on insta as ",
        "?u=",
        "a.b.",
        "a-b-",
        "@a@b.",
    ),
    *("oh 7 ", "t: 1", "lat 1.00 ", "breite 52,5200 länge ", "w3w a.b.", "_52.5200_"),
    *("\u200c", "é ", "\n", "&#", "&amp;", "(", "\uff21", "2003-", "tel me me me ", "no no ", "Part "),
]


@pytest.mark.parametrize("kind", list(FIND))
def test_nasty_texts_take_no_time(kind: str) -> None:
    # 4 kB of each take under a second; a pattern that runs away would take hours.
    for piece in NASTY:
        text = piece * (4_000 // len(piece))
        with within_reason(piece):
            MODULES[kind].may_hold(text)
            assert len(list(FIND[kind](text))) <= len(text)


@pytest.mark.parametrize("kind", list(FIND))
@pytest.mark.parametrize("piece", ["0123456789", "@", "(", "5 "])
def test_the_time_grows_with_the_length_and_not_with_its_square(kind: str, piece: str) -> None:
    # 20 kB take well under a second, so five times as much a few; with the square of the length it would be minutes.
    text = piece * (100_000 // len(piece))
    with within_reason(piece):
        MODULES[kind].may_hold(text)
        assert len(list(FIND[kind](text))) <= len(text)


# Numbers that prove themselves. DE89 and NL91 are examples of the IBAN registry (ISO 13616), GB82 that of the usual
# explanation of its check digits; the cards are those that the networks publish for trying out payments.


@pytest.mark.parametrize("number", ["GB82 WEST 1234 5698 7654 32", "DE89 3704 0044 0532 0130 00", "NL91ABNA0417164300"])
def test_an_account_number_with_one_digit_changed_is_none(number: str) -> None:
    text = f"Pay {number} now"
    assert [text[a:b] for a, b in iban.find(text)] == [number]
    for index, sign in enumerate(number):
        if sign.isdigit():
            changed = f"{number[:index]}{(int(sign) + 1) % 10}{number[index + 1 :]}"
            assert list(iban.find(changed)) == [], changed


@pytest.mark.parametrize("number", ["4111 1111 1111 1111", "3782-822463-10005", "6011000990139424"])
def test_a_card_number_with_one_digit_changed_is_none(number: str) -> None:
    text = f"Card {number}, 12/29"
    assert [text[a:b] for a, b in card.find(text)] == [number]
    for index, sign in enumerate(number):
        if sign.isdigit():
            changed = f"{number[:index]}{(int(sign) + 1) % 10}{number[index + 1 :]}"
            assert list(card.find(changed)) == [], changed


# Telephone numbers: those that Ofcom, the Bundesnetzagentur, Arcep, ACMA and NANPA keep for plays and films.


@pytest.mark.parametrize(
    ("text", "country"),
    [
        ("07700900456", "GB"),
        ("01632960123", "GB"),
        ("447700900456", "GB"),
        ("01713920047", "DE"),
        ("06990009123", "DE"),
        ("0639981234", "FR"),
        ("0491570006", "AU"),
        ("202 555 0143", "US"),
    ],
)
def test_a_national_number_counts_where_its_country_is_named(text: str, country: str) -> None:
    assert list(phone.find(f"Loan {text} evenings", [country])) != []
    assert list(phone.find(f"Loan {text}", [])) == []
    assert list(phone.find(f"Part no. {text}", [country])) == []


def test_a_country_that_the_library_does_not_know_has_no_numbers() -> None:
    assert not numbering.is_national("07700900456", ["AQ", "ZZ"])


@pytest.mark.parametrize(
    "text", ["61 950 km", "31 42 2 345 678", "2003-2008", "120.00 145.50", "1-3-4-2", "110 000 001"]
)
def test_readings_part_numbers_years_and_prices_are_no_numbers_of_any_country(text: str) -> None:
    assert list(phone.find(text, ["AU", "DE", "ES", "FR", "GB", "IE", "IT", "NL", "PL", "US"])) == []


ID_PIECES = (
    "call",
    "tel",
    "evenings",
    "my",
    "bittern",
    "zero",
    "one",
    "oh",
    "900",
    "0042",
    "555",
    "0142",
    "07700",
    "12",
    "5",
)


@given(
    st.lists(st.sampled_from(ID_PIECES), max_size=9).map(" ".join),
    st.sampled_from([(), ("GB", "US"), ("NO",), ("IS",)]),
)
def test_the_quick_look_at_ids_misses_no_number(text: str, countries: tuple[str, ...]) -> None:
    spelt = text.upper()
    assert phone.may_hold_in_id(spelt, countries) or list(phone.find(spelt, countries)) == []


# 07700 900456 and 555-0142 are kept for plays and films by Ofcom and NANPA; 22 55 01 23 has the eight digits of Norway.
@pytest.mark.parametrize("text", ["LOOK 07700 900456", "CALL 555 0142", "22 55 01 23"])
def test_a_number_in_an_id_is_worth_a_look(text: str) -> None:
    assert phone.may_hold_in_id(text, ["GB", "NO"])


def test_a_model_and_the_number_of_a_case_are_not_worth_a_look() -> None:
    assert not phone.may_hold_in_id("BITTERN 900 0042\nDUNLIN 650 0001", ["GB", "DE", "US"])


# One place in the ways of ISO 6709, RFC 5870 and of usual writing; and angles that are none.


@pytest.mark.parametrize(
    "text",
    [
        "+52.5200+013.4050/",
        "52° 31′ 12″ N 13° 24′ 18″ E",
        "geo:52.52,13.405",
        "52.5200, 13.4050",
        "N 52° 31.2' E 13° 24.3'",
    ],
)
def test_a_place_is_seen_in_every_way_of_writing_it(text: str) -> None:
    assert list(position.find(f"It stands at {text}")) != []


@pytest.mark.parametrize(
    "text", ["5 degrees", "12° 30'", "91.5200, 13.4050", "52.5200, 181.4050", "52.5200 mm, 53.1000 mm"]
)
def test_an_angle_a_length_and_what_is_off_the_earth_are_no_place(text: str) -> None:
    assert list(position.find(text)) == []


@pytest.mark.parametrize("text", ["anna-beispiel", "karl_0001", "Anna Beispiel"])
def test_a_given_name_in_an_id_is_seen(text: str) -> None:
    assert name.may_hold_in_id(text)
    assert list(name.find_in_id(text)) != []


@pytest.mark.parametrize("text", ["bittern-900-0042", "corroded-plug", "jack-slips", "rod-bent", "mark-on-disc"])
def test_no_word_of_the_trade_in_an_id_is_a_name(text: str) -> None:
    assert list(name.find_in_id(text)) == []


def test_of_spans_that_overlap_the_first_and_longest_stays() -> None:
    spans = [Span(3, 5), Span(0, 4), Span(0, 2), Span(4, 6)]
    assert list(apart(spans)) == [(0, 4), (4, 6)]
