"""Causes, fixes and checks as a fault page shows them: names for ids, money added up, cautions where the hands are."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence
from typing import Final

from kbtools.evidence import Evidence
from kbtools.index.access import access_jobs
from kbtools.index.answers import Index
from kbtools.index.cautions import cautions_of_check, cautions_of_fault, cautions_of_fix
from kbtools.index.checks import checks_by_cause
from kbtools.index.components import where_checked, zones_of
from kbtools.model.base import KnowledgeBase
from kbtools.model.catalogue import Access, Component
from kbtools.model.check import Check
from kbtools.model.fault import NOTICES, AppliesTo, Cause, Fault, Fix, Source
from kbtools.model.money import ZERO, Range, show_about_range, show_money, show_number, show_range
from kbtools.pages.check_titles import check_titles
from kbtools.pages.good_values import exceptions, good_words
from kbtools.pages.lines import Link
from kbtools.pages.share_views import SharesView, held_words, paid_words
from kbtools.pages.views import AccessView, Anchor, CauseView, CheckView, FixView, MachineView, SpotView
from kbtools.wording import addresses
from kbtools.wording.labels import BIKE, SKILL, place_words, show_years
from kbtools.wording.plan import money_words, say

_MARKED: Final = re.compile(r"[*_`<>\[\]\\]")
"""What Markdown may read as more than text."""
_SPOTS: Final = 2
"""Parts named at a step; of more the drawing alone tells."""


def machine_views(rows: Iterable[AppliesTo], index: Index) -> tuple[MachineView, ...]:
    """Rows about models and years, those without a known model left out."""
    return tuple(
        MachineView(
            model=Link(address=addresses.model(model.id), title=model.name),
            years=show_years(row.years),
            unit=unit.name if row.unit and (unit := model.unit(row.unit)) else row.unit,
            only_if=row.only_if,
            note=row.note,
        )
        for row in rows
        if (model := index.base.models.get(row.model)) is not None
    )


def cause_anchors(fault: Fault) -> Mapping[str, Anchor]:
    """Where each cause of a fault stands on its page."""
    return {cause.id: Anchor(id=f"cause-{cause.id}", title=cause.summary or cause.id) for cause in fault.causes}


def check_anchors(order: Iterable[str], fault: Fault) -> Mapping[str, Anchor]:
    """Where each check of a fault stands on its page, in the order of the page, and what is done in it."""
    by_id = {check.id: check for check in fault.checks}
    titles = check_titles([by_id[each] for each in order])
    return {each: Anchor(id=f"check-{each}", title=title) for each, title in titles.items()}


def cause_views(
    fault: Fault, index: Index, evidence: Evidence, seen: SharesView, checks: Mapping[str, Anchor]
) -> tuple[CauseView, ...]:
    """The causes, the likeliest first.

    Args:
        fault: the entry.
        index: of its base.
        evidence: what its cases say.
        seen: the shares of its causes.
        checks: where each of its checks stands.
    """
    anchors = cause_anchors(fault)
    pointing = _pointing(fault, checks)
    fixes = _Fixes(fault, index, evidence)
    by_id = {cause.id: cause for cause in fault.causes}
    return tuple(
        CauseView(
            id=cause.id,
            anchor=anchors[cause.id],
            share=share,
            component=_component(cause, index.base),
            where=_where(cause, index.base),
            machines=machine_views(cause.applies_to, index),
            only_if=cause.only_if,
            checks=pointing.get(cause.id, ()),
            fix=fixes.view(cause, cause.fix) if cause.fix is not None else None,
        )
        for share in seen.rows.values()
        if (cause := by_id.get(share.id)) is not None
    )


def check_views(fault: Fault, index: Index, checks: Mapping[str, Anchor]) -> dict[str, CheckView]:
    """The checks by id, in the order of `checks`, which says where each stands."""
    causes = cause_anchors(fault)
    by_id = {check.id: check for check in fault.checks}
    return {each: _check(fault, by_id[each], anchor, causes, index) for each, anchor in checks.items()}


def _pointing(fault: Fault, anchors: Mapping[str, Anchor]) -> Mapping[str, tuple[Anchor, ...]]:
    """Id of a cause → where the checks stand that can point to it, in the order of the page."""
    return {
        cause: tuple(anchor for each, anchor in anchors.items() if each in {check.id for check in checks})
        for cause, checks in checks_by_cause(fault).items()
    }


def _check(fault: Fault, check: Check, anchor: Anchor, causes: Mapping[str, Anchor], index: Index) -> CheckView:
    base, reading = index.base, check.reading
    jobs = access_jobs(check.access, base)
    of_all = cautions_of_fault(base, fault)
    cautions = [each for each in cautions_of_check(base, fault, check) if each not in of_all]
    shown = (*(each for job in jobs for each in job.pictures), *check.pictures)
    return CheckView(
        id=check.id,
        anchor=anchor,
        do=check.do,
        more=_more(check.do, anchor.title),
        expect=check.expect,
        reading=reading,
        good=good_words(reading.good, reading.unit) if reading is not None else None,
        exceptions=exceptions(check, index, index.scopes.get(fault.id, {})),
        points_to=_picked(check.points_to, causes),
        low_points_to=_picked(reading.low_points_to, causes) if reading is not None else (),
        high_points_to=_picked(reading.high_points_to, causes) if reading is not None else (),
        finds=show_number(round(check.finds * 10, 1)) if check.finds_said and check.finds < 1 else None,
        rules_out=check.finds_said and check.finds == 1,
        before_riding=check.before_riding,
        workshop_only=check.skill == "workshop",
        only_while_present=check.only_while_present,
        bike=BIKE[check.bike] + (f", {check.speed.text}" if check.speed is not None else ""),
        minutes=show_number(check.minutes) if check.minutes is not None else None,
        cost=show_money(Range(low=check.cost, high=check.cost), index.club.currency) if check.cost else None,
        skill=SKILL[check.skill] if check.skill is not None else None,
        tools=tool_names(check.tools, base),
        access=access_views(jobs),
        cautions=tuple(each.text for each in cautions),
        spot=spot_view(where_checked(fault, check, base)),
        pictures=tuple({each.file: each for each in shown}.values()),
    )


def _more(do: str | None, title: str) -> str | None:
    said, _, more = (do or "").partition(title)
    if said or not more.startswith((".", ";")) or _MARKED.search(title):
        return None
    return more[1:].strip()


def _parts_words(parts: Range, fix: Fix, currency: str) -> str:
    """A single price as its entry quotes it; a sum is reckoned."""
    return show_about_range(parts, currency) if len(fix.parts) > 1 else show_money(parts, currency)


class _Fixes:
    """Fixes of one fault."""

    def __init__(self, fault: Fault, index: Index, evidence: Evidence) -> None:
        self._base = index.base
        self._club = index.club
        self._cases = index.cases_by_fault.get(fault.id, ())
        self._anchors = cause_anchors(fault)
        self._held = held_words(evidence)
        self._fault = fault
        self._free = {cause for notice in fault.sources if notice.kind in NOTICES for cause in _covered(notice, fault)}

    def view(self, cause: Cause, fix: Fix) -> FixView:
        base, club = self._base, self._club
        parts, hours = parts_price(fix), fix.labour_hours
        own = fix.skill != "workshop"
        factor = Range(low=club.home_time_factor, high=club.home_time_factor)
        workshop = parts + hours.times(club.labour_rate) if parts is not None and hours is not None else None
        jobs = access_jobs(fix.access, base)
        return FixView(
            summary=fix.summary,
            skill=SKILL[fix.skill] if fix.skill is not None else None,
            trial=fix.trial,
            parts=tuple(
                (part.name, show_money(part.price, club.currency) if part.price else None) for part in fix.parts
            ),
            home=_parts_words(parts, fix, club.currency) if own and parts is not None else None,
            home_hours=show_range(hours.times(factor)) if own and hours is not None else None,
            hours=show_range(hours) if hours is not None else None,
            workshop=show_about_range(workshop, club.currency) if workshop is not None else None,
            tools=tool_names(fix.tools, base),
            access=access_views(jobs),
            cautions=tuple(each.text for each in cautions_of_fix(base, self._fault, cause)),
            verify=fix.verify,
            held=self._held.get(cause.id),
            paid=paid_words(self._cases, club.currency, cause.id),
            often_with=_picked(cause.often_with, self._anchors),
            free=self._free_words(cause, parts, hours),
        )

    def _free_words(self, cause: Cause, parts: Range | None, hours: Range | None) -> str | None:
        """What a covered cause costs: nothing, if the dealer says so; else the middle, as the plan reckons."""
        if cause.id not in self._free or parts is None or hours is None:
            return None
        money = parts.mid + hours.mid * self._club.labour_rate.mid
        return say("free_else", money=money_words(money, self._club.currency))


def _covered(notice: Source, fault: Fault) -> tuple[str, ...]:
    return notice.covers or tuple(cause.id for cause in fault.causes)


def parts_price(fix: Fix) -> Range | None:
    """What the parts of a fix cost together, nothing where it takes none; None where one has no known price."""
    total = ZERO
    for part in fix.parts:
        if part.price is None:
            return None
        total += part.price
    return total


def access_views(jobs: Iterable[Access]) -> tuple[AccessView, ...]:
    """Access jobs as a page names them."""
    return tuple(
        AccessView(
            name=job.name,
            minutes=show_number(job.minutes),
            skill=SKILL[job.skill] if job.skill != "home" else None,
            where=job.where,
        )
        for job in jobs
    )


def spot_view(components: Sequence[Component]) -> SpotView | None:
    """Where components are; None where nobody has said."""
    zones = zones_of(components)
    told = tuple((each.name, each.where) for each in components if each.where is not None)
    if not zones and not told:
        return None
    return SpotView(parts=told if len(told) <= _SPOTS else (), zones=zones, words=place_words(components))


def tool_names(ids: Iterable[str], base: KnowledgeBase) -> tuple[str, ...]:
    """What tools are called, those left out that are not there."""
    return tuple(base.tools[each].name for each in ids if each in base.tools)


def _component(cause: Cause, base: KnowledgeBase) -> Link | None:
    component = base.components.get(cause.component or "")
    if component is None:
        return None
    return Link(address=addresses.component(component.id), title=component.name)


def _where(cause: Cause, base: KnowledgeBase) -> str | None:
    component = base.components.get(cause.component or "")
    return component.where if component is not None else None


def _picked(ids: Iterable[str], anchors: Mapping[str, Anchor]) -> tuple[Anchor, ...]:
    return tuple(anchors[each] for each in ids if each in anchors)
