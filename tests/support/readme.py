"""The README, and the pieces of it that are held to what they tell of."""

from __future__ import annotations

import re
import textwrap

from tests.support.places import ROOT

README = (ROOT / "README.md").read_text("utf-8")


def blocks(language: str) -> list[str]:
    """The README's fenced blocks in a language, without their indentation, and without settings of other programs."""
    return [block for block in all_blocks(language) if "repos:" not in block and "pre-commit" not in block]


def all_blocks(language: str) -> list[str]:
    """The README's fenced blocks in a language, without their indentation."""
    found = re.findall(rf"^( *)```{language}\n(.*?)^\1```$", README, re.MULTILINE | re.DOTALL)
    return [textwrap.dedent(body) for _, body in found]


def commands() -> tuple[str, str]:
    """The README's two commands: build the demo, run the tests."""
    build, test = (block.strip() for block in blocks("sh"))
    return build, test
