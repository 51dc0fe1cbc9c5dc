"""KB320: picture that is not there."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterator

from kbtools.index.pictures import named
from kbtools.model.base import KnowledgeBase
from kbtools.rules.rule import Breach, Rule, Sample
from kbtools.text.nearest import did_you_mean


def check(base: KnowledgeBase, _today: dt.date) -> Iterator[Breach]:
    """Names of pictures that have no file; one that has a file which cannot be published is told of there."""
    files = {each.path for each in base.pictures} | base.lost_pictures
    for path, picture in named(base):
        if picture.path not in files:
            guess = did_you_mean(picture.file, [each.removeprefix("pictures/") for each in sorted(files)])
            hint = f'Did you mean "{guess}"?' if guess else "Put the file into pictures/, or take this row out."
            message = f'There is no picture "{picture.file}" in pictures/.'
            yield Breach(path=path, pointer=f"{picture.at}/file", message=message, hint=hint)


RULE = Rule(
    code="KB320",
    title="Unknown picture",
    severity="error",
    what="A picture that is named and has no file in pictures/.",
    why="The page would show a gap where somebody needs to see which plug is meant.",
    sample=Sample(
        path="faults/charging/lamp-flickers.yml",
        instead_of="    minutes: 5\n",
        bad="    minutes: 5\n    pictures: [{file: plug.jpg, of: The yellow plug, checked_by: curator-1}]\n",
        good="    minutes: 5\n",
    ),
    alone="any day",
    check=check,
)
