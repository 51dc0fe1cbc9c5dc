"""What reaches a terminal or a job's log acts in neither, whoever wrote it."""

from __future__ import annotations

import json
import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from kbtools.text.terminal import for_terminal, json_text, shown

# What the runners of jobs take for commands of their own, from memory of their documentation: `::name …::` at the
# start of a line, blanks before it let be, and `##[name]` or `##name[…]` anywhere in one.
COMMAND = re.compile(r"^\s*::\s*[a-z]|##\s*(?:[a-z]*)\[", re.IGNORECASE | re.MULTILINE)
COMMANDS = [
    "::add-mask::x",
    "  ::error file=a::b",
    "well\n::set-output name=a::b",
    "a ##[group]b",
    "##vso[task.setvariable variable=a]b",
    "text ::stop-commands::x",
]


@pytest.mark.parametrize("text", COMMANDS)
def test_no_line_is_a_command_of_a_runner(text: str) -> None:
    assert not COMMAND.search(for_terminal(text))
    assert "::" not in for_terminal(text)


@pytest.mark.parametrize("text", COMMANDS)
def test_json_holds_no_command_and_reads_the_same(text: str) -> None:
    written = json_text([{"text": text}])
    assert not COMMAND.search(written)
    assert json.loads(written) == [{"text": text}]


@given(st.text())
def test_whatever_is_printed_controls_nothing(text: str) -> None:
    printed = for_terminal(text)
    assert not any(ord(each) < 32 and each not in "\n\t" for each in printed)
    assert not COMMAND.search(printed)
    assert "\u202e" not in printed


@given(st.text())
def test_json_reads_back(text: str) -> None:
    assert json.loads(json_text({"text": text})) == {"text": text}


def test_our_own_colours_stay_where_they_are_wanted_and_nothing_else_of_the_kind() -> None:
    assert for_terminal("\x1b[31mred\x1b[0m", colour=True) == "\x1b[31mred\x1b[0m"
    assert for_terminal("\x1b[31mred", colour=False) == "\\u001b[31mred"
    # Moving the cursor, setting a title.
    assert for_terminal("\x1b[2J\x1b]0;x\x07", colour=True) == "\\u001b[2J\\u001b]0;x\\u0007"


def test_ordinary_lines_are_let_be() -> None:
    text = "kb/a.yml:4:13: KB301 error: There is no model.\n    Did you mean 12\u00a0V? ## 5: see 3::4\n"
    assert for_terminal(text) == text
    assert shown("13.5 to 14.8 V, 20 °C → good") == "13.5 to 14.8 V, 20 °C → good"
