"""The record of a build as it is kept, and back."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from kbtools.site.kept_pages import Answered, Asked, KeptPage, Record


def as_json(kept: Record) -> dict[str, Any]:
    """As it is kept: each question once."""
    return {
        "values": dict(kept.values),
        "pages": {
            address: [each.digest, each.size, each.pictures, each.places, each.asked]
            for address, each in kept.pages.items()
        },
        "derived": [[number, each.digest, each.asked] for number, each in kept.derived.items()],
        "answers": list(kept.answers.items()),
        "entries": dict(kept.entries),
        "earlier": dict(kept.earlier),
        "asked": kept.asked,
    }


def from_json(data: Any) -> Record | None:
    """What was kept; None where it has not the shape of it."""
    try:
        asked: list[Asked] = [(str(name), str(key)) for name, key in data["asked"]]
        many = range(len(asked))

        return Record(
            values={str(name): str(value) for name, value in data["values"].items()},
            pages={
                str(address): KeptPage(
                    digest=str(digest),
                    size=int(size),
                    pictures=tuple(map(str, pictures)),
                    places=tuple([(str(name), int(place)) for name, place in places]),
                    asked=_numbers(of, many),
                )
                for address, (digest, size, pictures, places, of) in data["pages"].items()
            },
            asked=asked,
            answers={number: digest for number, digest in data["answers"] if number in many},
            derived={
                number: Answered(digest=digest, asked=_numbers(of, many))
                for number, digest, of in data["derived"]
                if number in many
            },
            entries={str(each): str(digest) for each, digest in data["entries"].items()},
            earlier={str(name): str(value) for name, value in data["earlier"].items()},
        )
    except (AttributeError, IndexError, KeyError, TypeError, ValueError):
        return None


def _numbers(found: Sequence[int], many: range) -> tuple[int, ...]:
    """Numbers of questions that there are."""
    if found and not (min(found) in many and max(found) in many):
        raise ValueError
    return tuple(found)
