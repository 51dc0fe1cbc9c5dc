"""A model's years as one drawing: faults by model year, control units, recalls and bulletins.

Everything stands at a part of the width, so that the drawing fits a telephone and a desk without its letters being
stretched. The lists below it say the same in words.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from kbtools.index.answers import Index, Notice
from kbtools.model.catalogue import ControlUnit, Model
from kbtools.model.fault import Fault
from kbtools.model.money import show_number
from kbtools.model.years import unbroken
from kbtools.wording.labels import SOURCE, count_of, show_years

BARS: Final = 56
"""Height of the tallest bar, in pixels."""
_BARS_END: Final = 76
"""Where the bars stand; above the tallest one its number has room."""
_AXIS_END: Final = 104
_LANE: Final = 38
_MIDDLE: Final = 0.5
_MOST_LABELS: Final = 7
"""So many years are named where the page is narrow."""
_GAP: Final = 0.1
"""Part of a year that is left free on either side of a bar."""


@dataclass(frozen=True, slots=True, kw_only=True)
class YearBar:
    """A model year on the axis."""

    title: str
    """The year."""
    faults: int
    """Known faults."""
    left: str
    """Where its bar begins, percent of the width."""
    middle: str
    """Its middle, percent of the width."""
    top: int
    """Where its bar begins, pixels."""
    height: int
    """Height of its bar, pixels."""
    major: bool
    """Its number is shown where the page is narrow, too."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Lane:
    """A control unit, or a recall or bulletin, below the axis."""

    kind: str
    """`unit`, `recall` or `bulletin`."""
    label: str
    """Plain text, hostile until escaped."""
    label_at: str
    """Where the label begins, or ends, percent of the width."""
    ends: bool
    """The label ends there: it would not fit behind it."""
    top: int
    """Where the lane begins, pixels."""
    spans: tuple[tuple[str, str], ...]
    """Where each unbroken run of years begins and how long it is, percent of the width."""
    lines: tuple[tuple[str, str], ...]
    """Of each run of more than one year the middles of the first and the last one, percent of the width."""
    marks: tuple[str, ...]
    """The middle of each year, percent of the width."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Timeline:
    """The drawing."""

    height: int
    """Pixels."""
    bar_width: str
    """Of each year, percent of the width."""
    axis: int
    """Where the bars stand, pixels."""
    years: tuple[YearBar, ...]
    """From the first one on."""
    lanes: tuple[Lane, ...]
    """Control units as the model names them, then recalls and bulletins."""
    words: str
    """What the drawing shows, for who does not see it; plain text."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Campaign:
    """A recall or bulletin of a model, over all its years."""

    notice: Notice
    """As the first of its years has it."""
    faults: tuple[Fault, ...]
    """The entries that name it."""
    years: tuple[int, ...]
    """The model years that it covers."""


def timeline(model: Model, index: Index) -> Timeline | None:
    """The drawing of a model; None where it has no years."""
    years = index.years[model.id]
    if not years:
        return None
    counts = [len(index.faults_by_model_year.get((model.id, year), ())) for year in years]
    units = [(unit, [year for year in years if unit.years.holds(year)]) for unit in model.control_units]
    rows = [
        *(("unit", unit.name, own) for unit, own in units if own),
        *((each.notice.source.kind, _label(each.notice), each.years) for each in campaigns(model, index)),
    ]
    lanes = tuple(_lane(kind, label, own, years, place) for place, (kind, label, own) in enumerate(rows))
    return Timeline(
        height=_AXIS_END + _LANE * len(lanes),
        bar_width=_percent((1 - 2 * _GAP) / len(years)),
        axis=_BARS_END,
        years=tuple(_bars(years, counts)),
        lanes=lanes,
        words=_words(years, counts, model.control_units, len(rows) - sum(bool(own) for _, own in units)),
    )


def campaigns(model: Model, index: Index) -> tuple[Campaign, ...]:
    """Each recall and bulletin of a model once, recalls first, in the order of the years and of the files."""
    found: dict[tuple[str, str, str], tuple[Notice, dict[str, Fault], dict[int, None]]] = {}
    for year in index.years[model.id]:
        for notice in index.notices_by_model_year.get((model.id, year), ()):
            _, faults, years = found.setdefault(notice.campaign, (notice, {}, {}))
            faults[notice.fault.id] = notice.fault
            years[year] = None
    told = [
        Campaign(notice=notice, faults=tuple(faults.values()), years=tuple(years))
        for notice, faults, years in found.values()
    ]
    return tuple(sorted(told, key=lambda each: each.notice.source.kind != "recall"))


def _label(notice: Notice) -> str:
    source = notice.source
    return f"{SOURCE[source.kind]} {source.number}" if source.number else f"{SOURCE[source.kind]}: {source.title}"


def _bars(years: Sequence[int], counts: Sequence[int]) -> Iterator[YearBar]:
    step = next(each for each in (1, 2, 5, 10, 20, 50, len(years)) if each * _MOST_LABELS >= len(years))
    most = max(counts) or 1
    for place, (year, faults) in enumerate(zip(years, counts, strict=True)):
        height = round(BARS * faults / most)
        yield YearBar(
            title=str(year),
            faults=faults,
            left=_percent((place + _GAP) / len(years)),
            middle=_percent((place + _MIDDLE) / len(years)),
            top=_BARS_END - height,
            height=height,
            major=place % step == 0,
        )


def _lane(kind: str, label: str, own: Sequence[int], years: Sequence[int], place: int) -> Lane:
    def at(year: float) -> str:
        return _percent((year - years[0]) / len(years))

    ends = (own[0] - years[0]) / len(years) > _MIDDLE
    own_runs = tuple(unbroken(own))
    return Lane(
        kind=kind,
        label=label,
        label_at=at(own[-1] + 1) if ends else at(own[0]),
        ends=ends,
        top=_AXIS_END + _LANE * place,
        spans=tuple((at(first), _percent((last - first + 1) / len(years))) for first, last in own_runs),
        lines=tuple((at(first + _MIDDLE), at(last + _MIDDLE)) for first, last in own_runs if first < last),
        marks=tuple(at(year + _MIDDLE) for year in own),
    )


def _words(years: Sequence[int], counts: Sequence[int], units: Sequence[ControlUnit], notices: int) -> str:
    most, least = max(counts), min(counts)
    span = str(years[0]) if len(years) == 1 else f"{years[0]} to {years[-1]}"
    faults = count_of(most, "known fault") if most == least else f"{least} to {most} known faults"
    fitted = "; ".join(f"{unit.name}, {show_years(unit.years)}" for unit in units)
    parts = [f"Model years {span}: {faults} a year"]
    if fitted:
        parts.append(fitted)
    if notices:
        parts.append(count_of(notices, "recall or bulletin", "recalls and bulletins"))
    return ". ".join(parts) + ". The lists below say the same in words."


def _percent(part: float) -> str:
    return f"{show_number(round(100 * part, 2))}%"
