"""Vehicle identification numbers in full: seventeen characters, of which the ninth can prove the others.

Source: 49 CFR part 565 (check digit: weights, values of the letters, modulo 11), ISO 3779 (seventeen characters without
I, O and Q, in parts of three, six and eight, the last four digits). Outside North America the ninth character is free,
so a number that it does not prove is still suspect.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from kbtools.personal.span import Span, apart, even

_VALUES = (
    {str(digit): digit for digit in range(10)}
    | dict(zip("ABCDEFGH", range(1, 9), strict=True))
    | dict(zip("JKLMN", range(1, 6), strict=True))
    | {"P": 7, "R": 9}
    | dict(zip("STUVWXYZ", range(2, 10), strict=True))
)
_WEIGHTS = (8, 7, 6, 5, 4, 3, 2, 10, 0, 9, 8, 7, 6, 5, 4, 3, 2)
_LENGTH = 17
_SIGN = "[0-9A-HJ-NPR-Za-hj-npr-z]"
_WORD = re.compile(rf"(?<![0-9A-Za-z]){_SIGN}{{17}}(?![0-9A-Za-z])")
_RUN = re.compile(rf"(?<![0-9A-Za-z]){_SIGN}{{1,16}}(?:[ .-]{_SIGN}{{1,16}}(?![0-9A-Za-z]))+")
"""Groups of such signs."""
_GROUP = re.compile("[0-9A-Za-z]+")
_KIND_OF_NUMBER = re.compile(
    r"(?:VIN|FIN|[Ff]rame|[Cc]hassis|[Rr]ahmen|[Ff]ahrgestell|[Ss]érie|[Tt]elaio|[Bb]astidor)\w{0,9}"
    r"(?:(?: (?:no|nr|number|is|was|reads)\.?)?[ :=.#]{1,3})$"
)
_WORD_NEAR = re.compile(
    r"(?<!\w)(?:VIN|V\.I\.N|FIN|FGST|[Bb]ike|[Mm]achine|[Mm]otorrad|[Vv]in|[Ff]in|[Ff]rame|[Cc]hassis|[Rr]ahmen|"
    r"[Ff]ahrgestell|[Hh]eadstock|[Ss]tamped|"
    r"[Pp]late|[Ss]ticker|"
    r"[Ll]og ?book|[Vv]5|[Tt]itle|[Ii]dent|[Ss]érie|[Tt]elaio|[Bb]astidor|[Rr]am[ay]|[Pp]odvozek)"
)
"""Near which seventeen signs count however they are grouped."""
_BASE_SIXTEEN = re.compile("[0-9A-F]+", re.IGNORECASE)
_NEAR_A_DIGIT = re.compile("[0-9](?:[0-9A-Za-z]{8}|(?<=[0-9A-Za-z]{9}))")
"""Of seventeen signs with a digit among them, eight stand behind the first digit, or eight before it."""
_MAY_BE_GROUPED = re.compile(r"[0-9A-Za-z][ .-][0-9A-Za-z]{0,13}[0-9](?:[ .-]?[0-9]){3}(?![0-9A-Za-z])")
_PARTS = frozenset([(3, 6, 8), (9, 8), (11, 6), (3, 5, 1, 8), (3, 6, 2, 6), (3, 5, 1, 2, 6), (3, 6, 1, 1, 6)])
"""Lengths of groups as the standard parts the number; any others must be proven."""
_MOST_GROUPS = 8
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
    return _MAY_BE_GROUPED.search(flat) is not None


def find(text: str, *, sure_only: bool = False) -> Iterator[Span]:
    """Every full number of a text, in one piece or in groups.

    Args:
        text: any.
        sure_only: leave out what the ninth character does not prove, as in addresses, which are full of such words.
    """
    flat = even(text)
    words = (Span(*each.span()) for each in _WORD.finditer(flat) if _is_number(each[0], sure_only=sure_only))
    return apart([*words, *(() if sure_only else _grouped(flat))])


def _grouped(flat: str) -> Iterator[Span]:
    for run in _RUN.finditer(flat):
        groups = [each.span() for each in _GROUP.finditer(flat, *run.span())]
        for first, (start, _) in enumerate(groups):
            last = _whole(groups, first)
            if last is not None and _is_grouped_number(flat, [flat[a:b] for a, b in groups[first : last + 1]], start):
                yield Span(start, groups[last][1])


def _whole(groups: list[tuple[int, int]], first: int) -> int | None:
    """The last of the groups that make seventeen signs with the first one."""
    length = 0
    for index, (start, end) in enumerate(groups[first : first + _MOST_GROUPS], first):
        length += end - start
        if length >= _LENGTH:
            return index if length == _LENGTH and index > first else None
    return None


def _is_grouped_number(flat: str, groups: list[str], start: int) -> bool:
    whole = "".join(groups)
    if not whole[-4:].isdigit() or not _is_number(whole, sure_only=False):
        return False
    in_parts = tuple(map(len, groups)) in _PARTS and any(each.isdigit() for each in whole[3:9])
    if whole != whole.upper():
        return in_parts
    if _KIND_OF_NUMBER.search(flat[max(0, start - 40) : start]) is not None:
        return True
    if _WORD_NEAR.search(flat, max(0, start - 40), start + len(whole) + len(groups) + 30) is not None:
        return not whole[:3].isdigit()
    return not whole[:3].isdigit() and (in_parts or check_digit(whole) == whole[8])


def _is_number(word: str, *, sure_only: bool) -> bool:
    digits = sum(character.isdigit() for character in word)
    if digits == 0:
        # A word of seventeen letters is a word; the standards end the number in digits.
        return False
    upper = word.upper()
    if check_digit(upper) == upper[8]:
        return True
    if _BASE_SIXTEEN.fullmatch(word) is not None:
        # Bytes on a bus; one number in three hundred thousand has no other letters.
        return False
    one_case = word in {upper, word.lower()}
    return not sure_only and one_case and digits >= _FEWEST_DIGITS and len(word) - digits >= _FEWEST_LETTERS
