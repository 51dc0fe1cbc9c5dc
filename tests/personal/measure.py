"""How much of the labelled personal data is seen, and how much else is taken for it.

`python -m tests.personal.measure` prints the figures for each part in `tests/personal_data/`; `--missed` adds what is
missed and what is wrongly seen in the open parts. The others only measure: nobody looks at what is missed in them.
"""

from __future__ import annotations

import sys
from collections import Counter
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from functools import partial

import yaml

from kbtools.personal import (
    address,
    card,
    email,
    handle,
    iban,
    messenger,
    name,
    phone,
    plate,
    position,
    vin,
)
from kbtools.personal.span import Span
from tests.support.places import TESTS

FOLDER = TESTS / "personal_data"
OPEN = "open"
"""How the names of the parts begin that the detectors are developed on."""
COUNTRIES = ("AU", "DE", "ES", "FR", "GB", "IE", "IT", "NL", "US")
"""As a club may name them in `phone_countries`; the labelled numbers are from these and some others."""

MODULES = {
    "email": email,
    "phone": phone,
    "vin": vin,
    "plate": plate,
    "address": address,
    "name": name,
    "iban": iban,
    "card": card,
    "position": position,
    "messenger": messenger,
    "handle": handle,
}
Find = Callable[[str], Iterable[Span]]
FIND: dict[str, Find] = {
    kind: partial(phone.find, countries=COUNTRIES) if kind == "phone" else module.find
    for kind, module in MODULES.items()
}
WARNINGS = ("plate", "address", "name", "handle")
"""Kinds whose rules warn, since they guess; the others give errors, and must hardly ever be wrong."""
MEANS = {"chat-link": "messenger"}
"""Labels that others gave a kind of ours. A chat may be told by a link, a name or a number, so one may be seen so."""
NONE = "none"
"""The label of texts that lead to nobody."""


@dataclass(frozen=True, kw_only=True)
class Figures:
    """What was counted in one part."""

    texts: Counter[str]
    """By label."""
    seen: Counter[str]
    """Texts in which the kind of their label was seen, by label; none for a label that is no kind of ours."""
    seen_at_all: Counter[str]
    """Texts in which any kind was seen, by label."""
    false_alarms: Counter[str]
    """How often a kind was seen in a text that leads to nobody, by kind."""

    def recall(self, kind: str) -> float:
        return self.seen[kind] / self.texts[kind]

    def recall_of_all(self) -> float:
        """Of the texts with personal data, in how many anything was seen: that is what an author is told of."""
        labels = [label for label in self.texts if label != NONE]
        return sum(self.seen_at_all[label] for label in labels) / sum(self.texts[label] for label in labels)

    def false_alarm_rate(self) -> float:
        return self.seen_at_all[NONE] / self.texts[NONE]


def open_parts() -> list[str]:
    return sorted(path.stem for path in FOLDER.glob("open*.yml"))


def parts() -> list[str]:
    """The open parts and every kept one."""
    return [*open_parts(), *sorted(path.stem for path in FOLDER.glob("kept*.yml"))]


def labelled(part: str) -> dict[str, list[str]]:
    """The texts of a part by label; those of the open parts measure nothing, so a kept one is without them."""
    loaded: dict[str, list[str]] = yaml.load((FOLDER / f"{part}.yml").read_text("utf-8"), Loader=yaml.BaseLoader)
    if part.startswith(OPEN):
        return loaded
    known = {text for each in open_parts() for texts in labelled(each).values() for text in texts}
    return {label: [text for text in texts if text not in known] for label, texts in loaded.items()}


def kinds_in(text: str) -> set[str]:
    return {kind for kind, find in FIND.items() if any(True for _ in find(text))}


def figures(part: str) -> Figures:
    got = Figures(texts=Counter(), seen=Counter(), seen_at_all=Counter(), false_alarms=Counter())
    for label, lines in labelled(part).items():
        for text in lines:
            found = kinds_in(text)
            got.texts[label] += 1
            got.seen[label] += MEANS.get(label, label) in found
            got.seen_at_all[label] += bool(found)
            if label == NONE:
                got.false_alarms.update(found)
    return got


def shown(part: str) -> str:
    """The figures of a part as lines for a person."""
    got = figures(part)
    lines = [f"{part}: {got.recall_of_all():.3f} seen, {got.false_alarm_rate():.3f} of the harmless texts, too"]
    lines += [
        f"  {label:10} {got.seen[label]:3} of {got.texts[label]:3} seen as such, {got.seen_at_all[label]:3} as "
        f"anything; {got.false_alarms[label]:2} false alarms"
        for label in got.texts
        if label != NONE
    ]
    return "\n".join(lines)


def main(arguments: Sequence[str]) -> None:
    for part in parts():
        print(shown(part))
        if part.startswith(OPEN) and "--missed" in arguments:
            for label, lines in labelled(part).items():
                for text in lines:
                    found = kinds_in(text)
                    if (label == NONE and found) or (label != NONE and label not in found):
                        print(f"    {label}: {text!r} has {', '.join(sorted(found)) or 'nothing'}")


if __name__ == "__main__":
    main(sys.argv[1:])
