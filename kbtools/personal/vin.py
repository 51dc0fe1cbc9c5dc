"""Vehicle identification numbers in full: seventeen characters, of which the ninth can prove the others.

Source: 49 CFR part 565 (check digit: weights, values of the letters, modulo 11), ISO 3779 (seventeen characters without
I, O and Q). Outside North America the ninth character is free, so a number that it does not prove is still suspect.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from kbtools.personal.span import Span, even

_VALUES = (
    {str(digit): digit for digit in range(10)}
    | dict(zip("ABCDEFGH", range(1, 9), strict=True))
    | dict(zip("JKLMN", range(1, 6), strict=True))
    | {"P": 7, "R": 9}
    | dict(zip("STUVWXYZ", range(2, 10), strict=True))
)
_WEIGHTS = (8, 7, 6, 5, 4, 3, 2, 10, 0, 9, 8, 7, 6, 5, 4, 3, 2)
_KIND_OF_NUMBER = ("VIN", "FIN", "rame", "hassis", "ahmen", "ahrgestell", "érie", "elaio", "astidor")
"""What stands in the words of several languages for a frame number; one pattern each, since a pattern that starts with
letters is looked for fast."""
_GROUPED = tuple(
    re.compile(
        rf"{word}\w{{0,9}}(?: (?:no|nr|number)\.?)?[ :=.]{{1,3}}"
        r"(?P<number>[0-9A-HJ-NPR-Z]{1,16}(?:[ -][0-9A-HJ-NPR-Z]{1,16}){1,7})(?![0-9A-Za-z])"
    )
    for word in _KIND_OF_NUMBER
)
_NEAR_A_DIGIT = re.compile("[0-9](?:[0-9A-Za-z]{8}|(?<=[0-9A-Za-z]{9}))")
"""Of seventeen signs with a digit among them, eight stand behind the first digit, or eight before it."""
_WORD = re.compile(r"(?<![0-9A-Za-z])[0-9A-HJ-NPR-Za-hj-npr-z]{17}(?![0-9A-Za-z])")
_FEWEST_LETTERS, _FEWEST_DIGITS = 2, 4


def check_digit(vin: str) -> str:
    """The ninth character that 49 CFR 565 asks for.

    Args:
        vin: seventeen capitals and digits without I, O and Q; the ninth counts nothing.

    Raises:
        KeyError: another character is among them.
    """
    total = sum(_VALUES[character] * weight for character, weight in zip(vin, _WEIGHTS, strict=True))
    return "0123456789X"[total % 11]


def may_hold(text: str) -> bool:
    """Whether it is worth looking; quick, and True for every text that holds one."""
    flat = even(text)
    if _NEAR_A_DIGIT.search(flat) is not None and _WORD.search(flat) is not None:
        return True
    return next(_grouped(flat), None) is not None


def find(text: str, *, sure_only: bool = False) -> Iterator[Span]:
    """Every full number of a text.

    Args:
        text: any.
        sure_only: leave out what the ninth character does not prove, as in addresses, which are full of such words.
    """
    flat = even(text)
    for match in _WORD.finditer(flat):
        if _is_number(match[0], sure_only=sure_only):
            yield Span(*match.span())
    for match in _grouped(flat):
        whole = re.sub("[ -]", "", match["number"])
        if len(whole) == 17 and _is_number(whole, sure_only=sure_only):
            yield Span(*match.span("number"))


def _grouped(flat: str) -> Iterator[re.Match[str]]:
    """Groups of capitals and digits behind a word for a frame number."""
    for word, pattern in zip(_KIND_OF_NUMBER, _GROUPED, strict=True):
        if word in flat:
            yield from pattern.finditer(flat)


def _is_number(word: str, *, sure_only: bool) -> bool:
    digits = sum(character.isdigit() for character in word)
    if digits == 0:
        # A word of seventeen letters is a word; the standards end the number in digits.
        return False
    upper = word.upper()
    if check_digit(upper) == upper[8]:
        return True
    one_case = word in {upper, word.lower()}
    return not sure_only and one_case and digits >= _FEWEST_DIGITS and len(word) - digits >= _FEWEST_LETTERS
