"""A whole valid knowledge base of any size, the same for the same seed: for tests and benchmarks.

The lengths of the texts, and how many causes, checks and rows a fault has, follow the means of the demo in `kb/`.
"""

from __future__ import annotations

import random
import zlib
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

from tests.support.synthetic_catalogue import (
    CAUTIONS,
    CLUB,
    CRITICAL,
    MODELS,
    PAGES,
    PARTS,
    SYSTEMS,
    WORDS,
    Model,
    Unit,
    model_text,
    systems_text,
)
from tests.support.synthetic_texts import Texts

_ACCESS = ("seat-off", "side-panel-off", "tank-off", "fairing-off", "wheel-up", "cover-off")
_TOOLS = ("hand-tools", "multimeter", "torque-wrench", "pressure-gauge", "dial-gauge", "crimping-pliers")
_CAUTIONS = tuple(line.split("id: ")[1] for line in CAUTIONS.splitlines() if "id: " in line)
_SKILLS = ("home", "home", "experienced", "workshop")
_LEVELS = ("do-not-ride", "ride-to-workshop", "ride-with-care", "no-restriction")
_STATES = ("stored", "stored", "present", "pending", "intermittent")
_SHARES = ("often", "sometimes", "rarely")
_FIRST_YEAR, _LAST_YEAR = 2022, 2025
"""Of cases: all in the past, so that what is checked does not depend on the day, and none before its model year."""

_DRAFT, _WITHDRAWN = 60, 61
"""Of every 97 entries these are not published."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Row:
    """One row of `applies_to`."""

    model: Model
    first: int
    last: int
    unit: str | None

    def fitted(self) -> list[Unit]:
        units = (each for each in self.model.units if self.unit in {None, each.id})
        return [each for each in units if each.first <= self.last and each.last >= self.first]

    def yaml(self) -> str:
        unit = f", unit: {self.unit}" if self.unit else ""
        years = str(self.first) if self.first == self.last else f"{self.first}-{self.last}"
        return f"{{model: {self.model.id}, years: {years}{unit}}}"


@dataclass(frozen=True, slots=True, kw_only=True)
class _Known:
    """What a case needs to know of its fault."""

    id: str
    rows: tuple[_Row, ...]
    codes: tuple[str, ...]
    causes: tuple[tuple[str, bool], ...]
    """Id, and whether it exists on the machines of the first row only."""
    checks: tuple[tuple[str, bool], ...]
    """Id, and whether it is a reading."""


@dataclass(slots=True, kw_only=True)
class _Returned:
    """A case whose fault came back: the next case of that fault follows it."""

    id: str
    vehicle: tuple[str, int, str]
    odometer: int
    year: int
    month: int


def write_base(folder: Path, *, faults: int, cases: int, seed: int = 1) -> None:
    """Write a knowledge base into a folder, which is made if it is not there.

    Args:
        folder: empty or not there.
        faults: how many entries; some drafts and withdrawn ones are among them from about a hundred on.
        cases: how many case reports; without any fault all of them are open.
        seed: the same numbers with the same seed give the same files, byte for byte.
    """
    rng = random.Random(seed)
    texts = Texts(rng)
    _write_catalogue(folder)
    ids = [f"{texts.slug()}-{number}" for number in range(faults)]
    codes = {code: texts.short() for code in _codes(rng, max(8, faults * 3 // 5))}
    known: list[_Known] = []
    for number in range(faults):
        fault = _Fault(rng, texts, number, ids, codes)
        _write(folder / "faults" / fault.system / f"{ids[number]}.yml", fault.text())
        if fault.published:
            known.append(fault.known())
    _write_cases(folder, rng, texts, known, cases)


def _write_catalogue(folder: Path) -> None:
    for name in ("models", "pages", *(f"faults/{system}" for system in SYSTEMS)):
        (folder / name).mkdir(parents=True, exist_ok=True)
    for year in range(_FIRST_YEAR, _LAST_YEAR + 1):
        (folder / "cases" / str(year)).mkdir(parents=True, exist_ok=True)
    files = {"club.yml": CLUB, "systems.yml": systems_text(), "cautions.yml": CAUTIONS, "words.yml": WORDS}
    files |= {f"models/{model.id}.yml": model_text(model) for model in MODELS}
    files |= {f"pages/{name}": content for name, content in PAGES.items()}
    for name, content in files.items():
        _write(folder / name, content)


def _write(path: Path, content: str) -> None:
    with path.open("w", encoding="utf-8", newline="\n") as stream:
        stream.write(content)


def _codes(rng: random.Random, count: int) -> list[str]:
    """Distinct codes: of the standard, some with a failure type, and those of the lamp."""
    flash = [f"{long}-{short}" for long in range(1, 10) for short in range(1, 10)]
    made = dict.fromkeys(rng.sample(flash, min(count // 4, len(flash))))
    while len(made) < count:
        failure = f"-{rng.choice(('11', '12', '13', '1C', '62'))}" if rng.random() < 0.1 else ""
        made[f"{rng.choice('PPPCBU')}{rng.choice('01')}{rng.randrange(0x100, 0x1000):03X}{failure}"] = None
    return list(made)


def _published(number: int) -> bool:
    return number % 97 not in {_DRAFT, _WITHDRAWN}


class _Fault:
    """One entry in the making."""

    def __init__(
        self, rng: random.Random, texts: Texts, number: int, ids: Sequence[str], codes: Mapping[str, str]
    ) -> None:
        self._rng = rng
        self._texts = texts
        self._number = number
        self._ids = ids
        self.published = _published(number)
        self._rows = self._applies_to()
        self.system = SYSTEMS[number % len(SYSTEMS)]
        self._access = rng.sample(_ACCESS, 3)
        share = rng.random()
        self._meanings = codes
        self._codes = tuple(
            dict.fromkeys(rng.choice(tuple(codes)) for _ in range(0 if share < 0.3 else 1 + int(share * 2.2)))
        )
        count = rng.choice((2, 3, 3, 3, 4, 5))
        self._causes = tuple((f"{texts.slug()}-{place}", place > 0 and rng.random() < 0.2) for place in range(count))
        self._checks = tuple((f"{texts.slug()}-{place}", rng.random() < 0.4) for place in range(count + 1))

    def known(self) -> _Known:
        return _Known(
            id=self._ids[self._number],
            rows=self._rows,
            codes=self._codes,
            causes=self._causes,
            checks=self._checks,
        )

    def text(self) -> str:
        texts = self._texts
        parts = [f"title: {texts.state()}\nsystem: {self.system}\n"]
        if self._number % 97 == _DRAFT:
            parts.append("draft: true\n")
        parts.append("applies_to:\n" + "".join(f"  - {row.yaml()}\n" for row in self._rows))
        if self._codes:
            parts.append("codes:\n" + "".join(map(self._code, self._codes)))
        parts.append("symptoms:\n" + "".join(f"  - {texts.state()}\n" for _ in range(self._rng.choice((2, 3, 3)))))
        stop = f"\n  stop_if: [{texts.state()}, {texts.state()}]" if self._rng.random() < 0.6 else ""
        # Entries may share a code, and then their advice must not contradict.
        level = self._rng.choice(_LEVELS[1:3] if self._codes else _LEVELS[:3])
        parts.append(f"ride_advice:\n  level: {level}\n  why: {texts.sentences(3)}.{stop}\n")
        parts.append(f"cautions: {self._some(_CAUTIONS, 2)}\n")
        parts.append("causes:\n" + "".join(map(self._cause, range(len(self._causes)))))
        again = level == "do-not-ride" and self.system in CRITICAL
        checks = "".join(map(self._check, range(len(self._checks))))
        parts.append(
            "checks:\n" + (checks.replace("    bike:", "    before_riding: true\n    bike:") if again else checks)
        )
        parts.append(self._sources())
        parts.append(self._rest())
        return "".join(parts)

    def _applies_to(self) -> tuple[_Row, ...]:
        return tuple(self._row(model) for model in self._rng.sample(MODELS, self._rng.choice((1, 1, 2, 2, 3))))

    def _row(self, model: Model) -> _Row:
        unit = self._rng.choice(model.units) if self._rng.random() < 0.15 else None
        low, high = (unit.first, unit.last) if unit else (model.first, model.last)
        first = self._rng.randint(low, high)
        last = self._rng.randint(first, high)
        return _Row(model=model, first=first, last=last, unit=unit.id if unit else None)

    def _some(self, ids: Sequence[str], count: int) -> str:
        return f"[{', '.join(self._rng.sample(ids, count))}]"

    def _code(self, code: str) -> str:
        meaning = f"meaning: {self._meanings[code]}, sets_when: {self._texts.action()}"
        named = self._rng.random() < 0.6 or "-" in code
        unit = f", unit: {self._rng.choice(self._rows[0].fitted()).id}" if named else ""
        return f"  - {{code: {code}, {meaning}{unit}}}\n"

    def _work(self, tools: int, component: str = "") -> str:
        """Access, tools and cautions, that of fuel among them where the tank comes off or a seal of it is changed."""
        access = self._rng.choice(self._access)
        found = self._some(_TOOLS, tools)
        caution = self._rng.choice(_CAUTIONS)
        fuel = access == "tank-off" or component == "fuel-seal"
        cautions = dict.fromkeys([caution, *(["fuel-vapour"] if fuel else [])])
        indent = "      " if component else "    "
        lines = (f"access: [{access}]", f"tools: {found}", f"cautions: [{', '.join(cautions)}]")
        return "".join(f"{indent}{line}\n" for line in lines)

    def _cause(self, place: int) -> str:
        rng, texts = self._rng, self._texts
        identity, narrow = self._causes[place]
        rows = f"    applies_to: [{self._rows[0].yaml()}]\n" if narrow else ""
        beside = f"    often_with: [{self._causes[place - 1][0]}]\n" if place and rng.random() < 0.2 else ""
        part = texts.thing()
        # A part costs the same wherever it stands.
        low = 5 + zlib.crc32(part.encode()) % 85
        hours = rng.randrange(3, 30) / 10
        skill = rng.choice(_SKILLS)
        safe = skill == "home" and self.system not in CRITICAL
        trial = "      trial: true\n" if safe and rng.random() < 0.4 else ""
        component = f"{self.system}-{rng.choice(PARTS)}"
        return (
            f"  - id: {identity}\n    summary: {texts.state()}\n    component: {component}\n"
            f"    share: {_SHARES[min(place, 2)]}\n{rows}{beside}"
            f"    fix:\n      summary: {texts.sentences(2)}.\n      skill: {skill}\n"
            f"      parts: [{{name: {part}, price: [{low}, {low * 2}]}}]\n"
            f"      labour_hours: [{hours}, {hours + 0.5:.1f}]\n{self._work(2, component)}{trial}"
            f"      verify: {{do: {texts.action()}., expect: {texts.value()}}}\n"
        )

    def _check(self, place: int) -> str:
        rng, texts = self._rng, self._texts
        identity, measured = self._checks[place]
        cause = self._causes[place % len(self._causes)][0]
        other = self._causes[(place + 1) % len(self._causes)][0]
        if measured:
            low = rng.randrange(1, 140) / 10
            result = (
                f"    reading: {{at: {texts.thing()}, when: {texts.when()}, good: [{low}, {low + 1.5:.1f}], unit: V, "
                f"low_points_to: [{cause}], high_points_to: [{other}]}}\n"
            )
        else:
            result = f"    expect: {texts.short()}.\n    points_to: [{cause}]\n"
        finds = f"    finds: 0.{rng.randrange(5, 10)}\n" if rng.random() < 0.5 else ""
        text = (
            f"  - id: {identity}\n    do: {texts.sentences(2)}.\n{result}{finds}"
            f"    bike: {rng.choice(('off', 'off', 'key-on', 'running'))}\n    minutes: {rng.randrange(3, 30)}\n"
            f"    skill: {rng.choice(_SKILLS[:3])}\n{self._work(1)}"
        )
        # Nobody runs an engine without its tank.
        return text.replace("bike: running", "bike: key-on") if "access: [tank-off]" in text else text

    def _sources(self) -> str:
        rng, texts, number = self._rng, self._texts, self._number
        parts = [f"sources:\n  - {{kind: first-hand, title: {texts.state()}, year: {rng.randrange(2018, 2026)}}}\n"]
        if rng.random() < 0.6:
            parts.append(
                f"  - kind: {rng.choice(('forum', 'article', 'manual'))}\n    title: {texts.state()}\n"
                f"    year: {rng.randrange(2010, 2026)}\n    url: https://texts.example/{texts.slug()}/{number}\n"
                f"    archived: https://archive.example/2025/{texts.slug()}-{number}\n    seen_on: 2025-06-01\n"
            )
        if rng.random() < 0.2:
            parts.append(
                f"  - kind: {rng.choice(('bulletin', 'bulletin', 'recall'))}\n    title: {texts.state()}\n"
                f"    number: 2019-{number:05}\n    issuer: Ostrel\n    region: EU\n    year: 2019\n"
                f"    applies_to: [{self._rows[0].yaml()}]\n    covers: [{self._causes[0][0]}]\n"
            )
        return "".join(parts)

    def _rest(self) -> str:
        rng, number = self._rng, self._number
        near = dict.fromkeys((number + step) % len(self._ids) for step in (1, 12, 24))
        others = [self._ids[each] for each in near if each != number and _published(each)]
        parts = [f"related: [{', '.join(others[:2])}]\n"] if others and rng.random() < 0.5 else []
        if others and rng.random() < 0.25:
            parts.append(f"distinct_from:\n  - {{fault: {others[-1]}, because: {self._texts.sentence()}.}}\n")
        day = f"2025-{rng.randrange(1, 13):02}-{rng.randrange(1, 29):02}"
        parts.append(f"reviewed: {{on: {day}, by: curator-{rng.randrange(1, 9)}, second: mechanic-1}}\n")
        if rng.random() < 0.08:
            parts.append(f"formerly: [formerly-{self._ids[number]}]\n")
        if number % 97 == _WITHDRAWN:
            # The entry six before it is published, whatever the number.
            heir = self._ids[number - 6]
            parts.append(f"withdrawn: {{on: 2025-05-01, reason: {self._texts.sentence()}., replaced_by: {heir}}}\n")
        return "".join(parts)


def _write_cases(folder: Path, rng: random.Random, texts: Texts, known: Sequence[_Known], count: int) -> None:
    returned: dict[str, _Returned] = {}
    for number in range(count):
        # Some faults have many cases and most have few.
        fault = known[int(len(known) * rng.random() ** 1.3)] if known and rng.random() > 0.04 else None
        path, content = _case(rng, texts, number, fault, returned)
        _write(folder / "cases" / path, content)


def _case(
    rng: random.Random, texts: Texts, number: int, fault: _Known | None, returned: dict[str, _Returned]
) -> tuple[str, str]:
    place, row = _machine(rng, fault)
    before = returned.pop(fault.id, None) if fault else None
    vehicle = (row.model.id, rng.randint(row.first, row.last), f"b{number:06}")
    odometer = rng.randrange(4000, 90000)
    year, month = rng.randint(_FIRST_YEAR, _LAST_YEAR), rng.randrange(1, 12)
    follows = ""
    if before is not None:
        vehicle, year, month = before.vehicle, before.year, before.month + 1
        odometer = before.odometer + 900
        follows = f"follows: {before.id}\n"
        place = None
    identity = f"{vehicle[0]}-{number:06}"
    state = "open" if fault is None else rng.choice(("solved",) * 13 + ("open", "returned"))
    if fault is not None and state == "returned" and month < 12:
        returned[fault.id] = _Returned(id=identity, vehicle=vehicle, odometer=odometer, year=year, month=month)
    name, model_year, bike = vehicle
    content = (
        f"vehicle: {{model: {name}, year: {model_year}, odometer: {odometer} km, bike: {bike}}}\n"
        f"seen: {year}-{month:02}-{rng.randrange(1, 29):02}\n"
        f"conditions: [{rng.choice(('wet', 'dry', 'cold', 'hot'))}]\n"
        f"{_case_codes(rng, fault)}symptoms: [{texts.short()}]\n"
        f"{_case_fault(rng, fault)}{follows}{_outcome(rng, texts, fault, state, first_row=place == 0)}"
        "source: {kind: first-hand, title: Member report}\n"
    )
    return f"{year}/{identity}.yml", content


def _machine(rng: random.Random, fault: _Known | None) -> tuple[int | None, _Row]:
    if fault is None:
        model = rng.choice(MODELS)
        return None, _Row(model=model, first=model.first, last=model.last, unit=None)
    place = rng.randrange(len(fault.rows))
    return place, fault.rows[place]


def _case_codes(rng: random.Random, fault: _Known | None) -> str:
    if fault is None or not fault.codes:
        return ""
    frame = f", freeze_frame: {{rpm: {rng.randrange(8, 60)}00}}" if rng.random() < 0.1 else ""
    return f"codes: [{{code: {rng.choice(fault.codes)}, status: {rng.choice(_STATES)}{frame}}}]\n"


def _case_fault(rng: random.Random, fault: _Known | None) -> str:
    if fault is None:
        return ""
    rows = [_tried(rng, *each) for each in rng.sample(fault.checks, 2)]
    if rng.random() < 0.6:
        rows.append(f"  - {{fix: {fault.causes[0][0]}, result: {rng.choice(('helped', 'helped', 'no-change'))}}}\n")
    return f"fault: {fault.id}\ntried:\n{''.join(rows)}"


def _tried(rng: random.Random, identity: str, measured: bool) -> str:
    if measured:
        # Its figure would have to lie on the side of the check's range that the result names.
        return f"  - {{check: {identity}, result: {rng.choice(('low', 'high', 'good'))}}}\n"
    return f"  - {{check: {identity}, result: {rng.choice(('bad', 'bad', 'good', 'unclear'))}}}\n"


def _outcome(rng: random.Random, texts: Texts, fault: _Known | None, state: str, *, first_row: bool) -> str:
    if fault is None or state == "open":
        return "outcome: {state: open}\n"
    causes = [identity for identity, narrow in fault.causes if first_row or not narrow]
    unlisted = rng.random() < 0.05
    cause = "unlisted" if unlisted else rng.choice(causes)
    note = f"  note: {texts.sentence()}.\n" if unlisted or rng.random() < 0.5 else ""
    verified = "  verified: true\n" if state == "solved" and rng.random() < 0.7 else ""
    parts, labour = rng.randrange(0, 200), rng.choice((0, 0, rng.randrange(40, 300)))
    where = "workshop" if labour else "home"
    after = rng.randrange(1, 60) * 100 if state == "solved" else 400
    return (
        f"outcome:\n  state: {state}\n  cause: {cause}\n  after: {after} km\n{verified}"
        f"  paid: {{parts: {parts}, labour: {labour}, where: {where}}}\n{note}"
    )
