"""A report out of a mail, however the mail programs on its way have dressed it up."""

from __future__ import annotations

import base64
import quopri
from collections.abc import Callable
from email.message import EmailMessage

import pytest

from kbtools.intake.letters import NoTextError, letters, text_of
from kbtools.intake.marked import marked

REPORT = """\
vehicle: {model: wren-400, year: 2005, odometer: 41200 km, bike: b001}
seen: 2026-03-01
codes:
  - {code: P0562, status: stored}
symptoms: [Lamp flickers — 5 °C and rain]
outcome:
  state: open
  note: The plug was green in the middle, the two outer ways were bright, and nothing else was seen that day at all.
"""
KEYS = ("vehicle", "seen", "codes", "symptoms", "outcome")
BODY = f"Hello,\n\nhere it is.\n\n--- report\n{REPORT}--- end\n\nRegards\n"
HEAD = "From: a@sender.example\nTo: reports@club.example\nSubject: Report\nMIME-Version: 1.0\n"


def found(data: bytes) -> list[str]:
    """The first text of a letter that holds reports."""
    return next((texts for each in letters(data) if (texts := [one.text for one in marked(each.text, KEYS)])), [])


def mail(build: Callable[[EmailMessage], None]) -> bytes:
    message = EmailMessage()
    message["From"], message["Subject"] = "a@sender.example", "Report"
    build(message)
    return message.as_bytes()


def alternative(message: EmailMessage) -> None:
    message.set_content(BODY)
    message.add_alternative(f"<pre>{BODY}</pre>", subtype="html")
    message.add_attachment(b"\x89PNG\r\n\x1a\n\0\0", maintype="image", subtype="png", filename="--- report.png")


def attached(message: EmailMessage) -> None:
    message.set_content("See below.")
    inner = EmailMessage()
    inner["From"], inner["Subject"] = "b@sender.example", "Report"
    inner.set_content(BODY, cte="base64")
    message.add_attachment(inner)


def as_a_file(message: EmailMessage) -> None:
    message.set_content("See the file.")
    message.add_attachment(BODY.encode(), maintype="text", subtype="yaml", filename="report.yml")


def as_a_page(message: EmailMessage) -> None:
    lines = "<br>\n".join(BODY.replace("  ", "&nbsp; ").split("\n"))
    message.set_content(f"<html><head><style>--- report</style></head><body>{lines}</body></html>", subtype="html")


def paragraphs(message: EmailMessage) -> None:
    lines = "".join(f"<div>{each.replace('  ', '&nbsp;&nbsp;') or '<br>'}</div>" for each in BODY.split("\n"))
    message.set_content(f"<div dir='ltr'>{lines}</div>", subtype="html")


def flowed() -> bytes:
    """RFC 3676: lines of 66, broken behind a blank; a blank before those that begin with one (section 4.4)."""
    lines = []
    for line in BODY.split("\n"):
        left = f" {line}" if line.startswith((" ", ">")) else line
        while len(left) > 66:
            cut = left.rindex(" ", 0, 66) + 1
            lines.append(left[:cut])
            left = left[cut:]
        lines.append(left)
    return (f"{HEAD}Content-Type: text/plain; charset=utf-8; format=flowed\n\n" + "\n".join(lines)).encode()


def encoded(how: str, body: bytes) -> bytes:
    return f"{HEAD}Content-Type: text/plain; charset=utf-8\nContent-Transfer-Encoding: {how}\n\n".encode() + body


@pytest.mark.parametrize(
    "data",
    [
        pytest.param(BODY.encode(), id="a text"),
        pytest.param(BODY.replace("\n", "\r\n").encode(), id="CRLF"),
        pytest.param(b"\xef\xbb\xbf" + BODY.encode(), id="a byte order mark"),
        pytest.param(BODY.encode("utf-16"), id="UTF-16"),
        pytest.param(BODY.encode("cp1252"), id="Windows"),
        pytest.param(BODY.replace("\n", "\n> ").encode(), id="quoted"),
        pytest.param(BODY.replace("\n", "\n> > ").encode(), id="quoted twice"),
        pytest.param(BODY.replace("\n", "\n>>").encode(), id="quoted twice, no blanks"),
        pytest.param(BODY.replace("\n", "\n    ").encode(), id="further in"),
        pytest.param(BODY.replace("  - {", "\u00a0 - {").replace("--- ", "\u2014 ").encode(), id="typographic signs"),
        pytest.param(HEAD.encode() + b"\n" + BODY.encode(), id="a mail"),
        pytest.param(encoded("quoted-printable", quopri.encodestring(BODY.encode())), id="quoted-printable"),
        pytest.param(encoded("base64", base64.encodebytes(BODY.encode())), id="base64"),
        pytest.param(encoded("8bit", BODY.encode()).replace(b"utf-8", b"made-up-7"), id="an unknown charset"),
        pytest.param(mail(alternative), id="two kinds and a picture"),
        pytest.param(mail(attached), id="forwarded as it was"),
        pytest.param(mail(as_a_file), id="as a file"),
        pytest.param(mail(as_a_page), id="HTML, lines"),
        pytest.param(mail(paragraphs), id="HTML, paragraphs"),
        pytest.param(flowed(), id="format=flowed"),
    ],
)
def test_the_report_comes_out_as_it_was_written(data: bytes) -> None:
    assert found(data) == [REPORT]


def test_a_line_that_a_mail_program_broke_stays_one_value() -> None:
    broken = REPORT.replace("the two outer", "\nthe two outer")
    (text,) = found(f"--- report\n{broken}--- end\n".encode())
    assert text.split("\n")[-3:-1] == [
        "  note: The plug was green in the middle,",
        "      the two outer ways were bright, and nothing else was seen that day at all.",
    ]


def test_two_reports_are_two_and_one_that_is_cut_off_is_told_at_its_line() -> None:
    two = marked(f"--- report\n{REPORT}--- end\nand\n--- report\nseen: 2026-03-02\n--- end\n", KEYS)
    assert [(each.text, each.line) for each in two] == [(REPORT, 1), ("seen: 2026-03-02\n", 12)]
    cut = marked(f"Hello\n--- report\n{REPORT}", KEYS)
    assert [(each.text, each.line) for each in cut] == [("", 1)]
    assert cut[0].problem is not None
    assert "--- end" in cut[0].problem


@pytest.mark.parametrize("data", [b"\x89PNG\r\n\x1a\n\0\0\0", b"\xff\xfe\0", b"\0" * 30_000_000])
def test_what_is_no_text_is_refused_with_a_sentence(data: bytes) -> None:
    with pytest.raises(NoTextError, match=r"is no text|is not read"):
        letters(data)


def test_ten_megabytes_without_a_report_hold_none() -> None:
    assert found(b"> word: -- -- --- repor\n" * 420_000) == []


def test_an_encoding_that_is_named_and_wrong_is_told() -> None:
    with pytest.raises(NoTextError, match="utf-8"):
        text_of("é".encode("cp1252"), "utf-8")
