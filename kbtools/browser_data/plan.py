"""What the page's script needs to reckon the plan anew: the problem, the names of what is in it, and the sentences.

README.md beside this file says what of it stands where.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

from kbtools.browser_data.good_ranges import other_ranges
from kbtools.browser_data.joint import joint_data
from kbtools.checkplan.beside import Beside, Word, beside_of, beside_record
from kbtools.checkplan.problem import Problem, problem_record
from kbtools.index.answers import Index
from kbtools.index.safety import critical_system
from kbtools.model.fault import Fault
from kbtools.model.money import currency_digits
from kbtools.text.html import plain
from kbtools.wording.labels import RIDE
from kbtools.wording.plan import WORDS

Record = dict[str, object]


@dataclass(frozen=True, slots=True, kw_only=True)
class PlanNames:
    """What a plan's ids are called on the page, by id; texts of authors, hostile until escaped."""

    causes: Mapping[str, str]
    """Titles, `unlisted` among them."""
    checks: Mapping[str, str]
    """What is done in each, in few words."""
    tasks: Mapping[str, str]
    """How what is to be done in a check begins; plain text already."""
    access: Mapping[str, str]
    """Names of access jobs."""


def plan_data(fault: Fault, problem: Problem, names: PlanNames, index: Index) -> dict[str, object]:
    """Plain data for JSON. Names are one line of plain text with nothing unseen in it, and still to be escaped."""
    base = index.base
    return {
        "title": plain(fault.title),
        "problem": problem_record(problem),
        "beside": _beside(beside_of(fault, index)),
        "critical": critical_system(base, fault) is not None,
        "rides": {level: words.answer for level, words in RIDE.items() if level is not None},
        "names": {
            "causes": _plain(names.causes),
            "checks": _plain(names.checks),
            "tasks": dict(names.tasks),
            "access": _plain(names.access),
            "tools": _plain({each: base.tools[each].name for each in problem.tools if each in base.tools}),
        },
        "on_bike": [each for each in problem.tools if each in base.tools and base.tools[each].on_bike],
        "breakdown": _breakdown(index),
        "units": _plain(
            {check.id: check.reading.unit for check in fault.checks if check.reading is not None and check.reading.unit}
        ),
        "joint": _plain_rows(joint_data(fault, index)),
        "stop_if": [plain(sign) for sign in fault.ride_advice.stop_if] if fault.ride_advice is not None else [],
        "shared": other_ranges(fault, index),
        "currency": problem.currency,
        "digits": currency_digits(problem.currency),
        "models": [
            [model, plain(base.models[model].name), list(years)] for model, years in index.scopes[fault.id].items()
        ],
        "words": dict(WORDS),
    }


def _breakdown(index: Index) -> Record | None:
    line = index.club.breakdown
    return None if line is None else {"phone": line.phone, "say": plain(line.say) if line.say else None}


def _beside(beside: Beside) -> Record:
    """What is shown again is plain text, and so are reasons, which nobody reads but whoever looks into the page."""
    causes = {cause: _plain_word(word) for cause, word in beside.causes.items()}
    record = beside_record(replace(beside, word=_plain_word(beside.word), causes=causes))
    free = record["free"]
    shown = [{**work, "source": plain(str(work["source"]))} for work in free] if isinstance(free, list) else []
    return {**record, "free": shown}


def _plain_rows(joint: Record) -> Record:
    """With the reasons of the rows as plain text, like all that the data says."""
    rows = joint["rows"]
    for row in rows if isinstance(rows, list) else []:
        if row["word"] is not None and row["word"]["why"] is not None:
            row["word"]["why"] = plain(row["word"]["why"])
    return joint


def _plain_word(word: Word) -> Word:
    return replace(word, why=None if word.why is None else plain(word.why))


def _plain(texts: Mapping[str, str]) -> dict[str, str]:
    return {each: plain(text) for each, text in texts.items()}
