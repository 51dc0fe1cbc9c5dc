"""KB502: mild ride advice on a safety-critical system without a reason of substance."""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Iterator

from kbtools.index.entries import published
from kbtools.index.safety import critical_system
from kbtools.model.base import KnowledgeBase
from kbtools.model.fault import Fault
from kbtools.rules.rule import Breach, Rule
from kbtools.rules.samples import brakes

_MILD = frozenset({"ride-with-care", "no-restriction"})
_FEWEST_WORDS = 5
# A word of three letters and more; of scripts that write without spaces, each sign.
_WORD = re.compile(
    r"[\u3040-\u30ff\u3400-\u9fff\u0e00-\u0e7f\uac00-\ud7af]|[^\W\d_\u3040-\u30ff\u3400-\u9fff\uac00-\ud7af]{3,}"
)


def check(base: KnowledgeBase, _today: dt.date) -> Iterator[Breach]:
    """Published faults of a safety-critical system that may be ridden, for a reason that says little."""
    for fault in published(base).values():
        advice = fault.ride_advice
        if advice is None or advice.why is None or advice.level not in _MILD:
            continue
        system = critical_system(base, fault)
        if system is None or not fault.intact("/ride_advice"):
            continue
        words = _own_words(fault, advice.why)
        if len(words) < _FEWEST_WORDS:
            message = f'"{system.name}" is safety-critical, and the reason for `{advice.level}` says too little.'
            hint = (
                "Say in a sentence why it is still safe to ride, in other words than the title's, or advise "
                "ride-to-workshop or do-not-ride."
            )
            yield Breach(path=fault.path, pointer="/ride_advice/why", message=message, hint=hint)


def _own_words(fault: Fault, why: str) -> set[str]:
    """The different words of the reason that do not only repeat the title, a cause or the advice."""
    known = (fault.title, *(cause.summary or "" for cause in fault.causes), *_MILD)
    return _words(why) - {word for text in known for word in _words(text)}


def _words(text: str) -> set[str]:
    return set(_WORD.findall(text.casefold()))


RULE = Rule(
    code="KB502",
    title="Mild ride advice without a reason of substance",
    severity="error",
    what=(
        "A published entry of a safety-critical system whose ride advice is milder than ride-to-workshop, and whose "
        "`why` has fewer than five different words of three letters and more of its own: those of the title, of the "
        "causes' summaries and of the advice do not count."
    ),
    why="Somebody rides on with a fault in the brakes because of this line; it must tell why that is safe.",
    sample=brakes("do-not-ride, why: The lever may come back to the grip.", "ride-with-care, why: It is soft."),
    alone="any day",
    check=check,
)
