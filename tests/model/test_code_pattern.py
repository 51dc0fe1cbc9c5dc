"""Patterns of a club's code formats: what is refused and in which words, and that nothing taken is slow."""

from __future__ import annotations

import re
import warnings

import pytest
from hypothesis import assume, example, given, settings
from hypothesis import strategies as st

from kbtools.model.code_pattern import LONGEST_PATTERN, fits
from kbtools.model.codes import CodeFormat, formats_record, pattern_problem
from tests.support.patience import within_reason


@pytest.mark.parametrize(
    "pattern",
    [
        "[1-9]-[1-9]",
        r"\d{2}",
        r"^\d\.\d$",
        r"[A-F\d]{2,4}",
        "(?:E|F|AB)[ -]?[0-9]{1,3}",
        r"\d+-?\d+",
        "[-a]",
        "[a-]",
        r"[\]\-x]",
        "[0-9]{1,}",
        "11|12|13|21|22",
    ],
)
def test_a_plain_pattern_is_taken(pattern: str) -> None:
    assert pattern_problem(pattern) is None


@pytest.mark.parametrize(
    ("pattern", "said"),
    [
        ("", "empty"),
        ("a?", "empty text"),
        ("a|", "alternative is empty"),
        ("()", "alternative is empty"),
        ("(a+)+", "too many ways"),
        ("(a|aa)+", "too many ways"),
        ("(a|a)*b", "too many ways"),
        ("a?" * 20 + "a{20}", "too many ways"),
        ("((a{1,9}){1,9}){1,9}", "too many ways"),
        (r"\d+\d+\d+", "too many ways"),
        ("a{0}", "repeat"),
        ("a{3,2}", "repeat"),
        ("a{33}", "repeat"),
        ("a{,3}", "repeat"),
        ("a{2}{3}", "repeat of a repeat"),
        ("a++", "repeat of a repeat"),
        ("a+?", "repeat of a repeat"),
        (r"(a)\1", "backslash"),
        (r"\w", "backslash"),
        (r"\b", "backslash"),
        ("\\", "backslash"),
        ("(?=a)a", '"(?:"'),
        ("(?<!a)a", '"(?:"'),
        ("(?i)a", '"(?:"'),
        ("(?P<n>a)", '"(?:"'),
        (".", r"\."),
        ("[^a]", "which may not"),
        ("[]a]", "which may not"),
        ("[z-a]", "lower to a higher"),
        ("[!--]", "lower to a higher"),
        (r"[a-\d]", "lower to a higher"),
        ("[a&&b]", "class"),
        ("[[a]", "class"),
        ("[a", '"]"'),
        ("(a", '")"'),
        ("a)", '")"'),
        ("a]", '"]"'),
        ("{", '"{"'),
        ("a$b", '"$"'),
        ("a^b", '"^"'),
        ("*a", '"*"'),
        ("((((((((((a))))))))))", "deep"),
        ("a" * 33, "longer than 32"),
        ("a" * (LONGEST_PATTERN + 1), "longer than 200"),
        ("\u00e4", "ASCII"),
        ("a\n", "ASCII"),
    ],
)
def test_a_pattern_that_is_not_safe_or_not_the_same_everywhere_is_refused_in_words(pattern: str, said: str) -> None:
    problem = pattern_problem(pattern)
    assert problem is not None
    assert said in problem
    assert not fits(pattern, "a")
    club = CodeFormat(id="club", name="Club code", standard=None, pattern=pattern, example=None, per_unit=False)
    assert [row["pattern"] for row in formats_record([club])] == [None]


def test_the_place_in_a_pattern_is_counted_from_one() -> None:
    assert str(pattern_problem("ab.c")).startswith("character 3 of the pattern: ")


pieces = st.recursive(
    st.sampled_from(["a", "[ab]", r"\d"]),
    lambda inner: (
        st.builds("{}{}".format, inner.map("({})".format), st.sampled_from(["?", "*", "+", "{2}", "{1,9}", "{0,32}"]))
        | st.builds("({}|{})".format, inner, inner)
        | st.lists(inner, min_size=2, max_size=6).map("".join)
    ),
    max_leaves=20,
)


odd_classes = st.text(st.sampled_from("ab19-\\^&|~[d] "), max_size=6).map("[{}]".format)
odd_patterns = st.text(st.sampled_from("aAbd19-\\|?*+(){},:[]^$.& ~d"), max_size=14)


@settings(max_examples=100)
@given(pieces | odd_classes | odd_patterns)
@example("[--/]")
@example("[a--b]")
@example("[a||b]")
def test_a_pattern_that_is_taken_compiles_without_a_warning_and_another_fits_nothing(pattern: str) -> None:
    if pattern_problem(pattern) is not None:
        assert not fits(pattern, pattern)
        return
    with warnings.catch_warnings():
        warnings.simplefilter("error")
        re.compile(pattern, re.ASCII | re.IGNORECASE)


@settings(max_examples=100, deadline=None)
@given(pieces)
@example("a?" * 10 + "a{10}")
@example("(a|[ab]){10}b")
@example("a+a+b")
def test_no_pattern_that_is_taken_is_slow_on_any_text(pattern: str) -> None:
    assume(pattern_problem(pattern) is None)
    # An ordinary pattern takes microseconds, (a+)+b minutes.
    with within_reason(pattern):
        for text in ("a" * 31 + "!", "a" * 32, "ab" * 16, "1" * 31 + "!"):
            fits(pattern, text)
