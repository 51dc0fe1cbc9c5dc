"""Which texts of a YAML file are comments: told by hand, and by documents put together of pieces."""

from __future__ import annotations

import pytest
import yaml
from hypothesis import given
from hypothesis import strategies as st

from kbtools.reading.comments import Comment
from kbtools.reading.tree import parse
from tests.support.patience import within_reason


def comments(text: str) -> list[Comment]:
    found: list[Comment] = []
    parse("x.yml", text, found)
    return found


# By YAML 1.2.2, section 6.6 (a comment begins with a # that has white space or a line's start before it), 7.3.3 and 8.1
# (inside quotes and blocks there are none, behind the sign of a block there may be one).
BY_HAND = """\
# 1 °
a: "x # no" # 2
b: 'it''s # no' #3
c: | # 4
  text # no
  # no
# 5
d: >-
  folded # no

  # no
 # 6
e: plain#no # 7
f: [1, 2, # 8
  "3 # no"] # 9
g:    # 10
  - x#no
"i # no": {a: 1} # 11
j: "two
  # no
  lines" # 12
k:\t# 13
  # 14"""


@pytest.mark.parametrize("line_end", ["\n", "\r\n", "\r"])
def test_comments_are_what_the_standard_says(line_end: str) -> None:
    found = comments(BY_HAND.replace("\n", line_end))
    assert [each.text.strip() for each in found] == ["1 °", *map(str, range(2, 15))]


@pytest.mark.parametrize("line_end", ["\n", "\r\n"])
def test_a_comment_stands_where_it_is_said_to_stand(line_end: str) -> None:
    text = BY_HAND.replace("\n", line_end).replace("plain", "plain\u2028é")
    for comment in comments(text):
        assert text[comment.start - 1] == "#"
        assert text[comment.start :].startswith(comment.text)


VALUES = st.text(alphabet="ab #:'\"é-", max_size=12)


@given(st.lists(st.tuples(VALUES, st.sampled_from(["'", '"', "|", ">"]), VALUES), min_size=1, max_size=6))
def test_in_a_file_of_any_values_the_comments_are_those_that_were_put_there(rows: list[tuple[str, str, str]]) -> None:
    lines, put = [], []
    for index, (value, style, said) in enumerate(rows):
        # PyYAML writes the value; a block is followed by a comment of its own line, the others by one behind them.
        written = yaml.dump({f"k{index}": f"{value}x"}, default_style=style, allow_unicode=True, width=1000)
        if style in {"|", ">"}:
            lines.append(f"{written}#{said}\n")
        else:
            lines.append(f"{written.rstrip()} #{said}\n")
        put.append(said)
    assert [each.text for each in comments("".join(lines))] == put


@given(st.text(alphabet=st.sampled_from("ab:-[]{}&*!%#'\"|>?, \n\t\ré"), max_size=60))
def test_no_text_breaks_it_and_no_two_comments_overlap(text: str) -> None:
    done = 0
    for comment in comments(text):
        assert comment.start > done
        assert text[comment.start - 1] == "#"
        done = comment.start + len(comment.text)


@pytest.mark.parametrize("piece", ["# ", "a: b # c\n", "- '#'\n", "#\n", " #"])
def test_many_comments_take_no_time(piece: str) -> None:
    with within_reason(piece):
        comments(piece * (500_000 // len(piece)))
