"""The countries that a club may name, against two libraries with their own lists of ISO 3166-1."""

from __future__ import annotations

import re

import phonenumbers
import pytest
from babel import Locale

from kbtools.edges.shipped import schema_files, shapes
from kbtools.reading.reader import read
from kbtools.reading.source import SourceFile
from kbtools.rules import samples

PATTERN = re.compile(schema_files()["club.schema.json"]["properties"]["phone_countries"]["items"]["pattern"])
NOT_OF_ISO = {"AC", "TA", "XK"}
"""Ascension and Tristan da Cunha have numbering plans and a reserved code, Kosovo one that users have assigned."""


def test_every_country_with_a_numbering_plan_may_be_named() -> None:
    assert {code for code in phonenumbers.SUPPORTED_REGIONS if not PATTERN.search(code)} == NOT_OF_ISO


def test_what_may_be_named_is_a_country() -> None:
    letters = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"
    codes = {a + b for a in letters for b in letters if PATTERN.search(a + b)}
    # The number of codes that ISO 3166-1 has assigned.
    assert len(codes) == 249
    assert codes <= set(Locale("en").territories)


@pytest.mark.parametrize("text", ["UK", "EU", "EN", "XX", "gb", "DEU", "49", ""])
def test_what_is_no_code_of_iso_3166_is_refused(text: str) -> None:
    assert PATTERN.search(text) is None


def test_the_countries_are_read() -> None:
    files = {**samples.FILES, "club.yml": samples.FILES["club.yml"] + "phone_countries: [DE, NO]\n"}
    reading = read([SourceFile(path=path, data=text.encode()) for path, text in files.items()], shapes())
    assert reading.findings == ()
    assert reading.base.club is not None
    # `NO` is Norway, not false.
    assert reading.base.club.phone_countries == ("DE", "NO")
