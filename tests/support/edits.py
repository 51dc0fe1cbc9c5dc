"""Edits of every kind to the base of `edited_base`, in an order in which each one can be made after all before it."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from tests.support.edited_base import Edited, picture
from tests.support.places import ROOT

Edit = Callable[[Edited], None]

CLUB, SYSTEMS, CHECKS = "kb/club.yml", "kb/systems.yml", "kb/checks.yml"
FLICKERS, STAYS_ON = "kb/faults/charging/lamp-flickers.yml", "kb/faults/charging/lamp-stays-on.yml"
DIMS = "kb/faults/charging/lamp-dims.yml"
BRAKES, SPONGY, HARD = (f"kb/faults/brakes/lever-{name}.yml" for name in ("soft", "spongy", "hard"))
CASE, SECOND_CASE = "kb/cases/2026/wren-600-0001.yml", "kb/cases/2026/wren-400-0002.yml"
ABOUT = "kb/pages/about.md"

_A_CAUSE = """\
  - id: earth-loose
    summary: Loose earth at the frame
    share: rarely
    fix: {summary: Clean and tighten it., skill: home, labour_hours: 0.2}
"""
_A_CHECK = """\
  - id: tug-at-the-earth
    do: Key off. Tug at the earth strap.
    expect: It sits tight.
    points_to: [earth-loose]
    minutes: 2
    skill: home
"""
_A_CASE = """\
vehicle: {model: wren-400, year: 2006, odometer: 52000 km, bike: b003}
seen: 2026-04-20
fault: lamp-flickers
tried: [{fix: corroded-plug, result: no-change}]
outcome: {state: open}
source: {kind: first-hand, title: Member report}
"""
_A_FAULT = """\
title: Lever hard as a stone
system: brakes
applies_to: [{model: wren-600, years: all}]
symptoms: [Lever does not move]
ride_advice: {level: do-not-ride, why: The brake may drag and get hot.}
cautions: [battery-gas]
causes:
  - id: piston-stuck
    summary: Piston stuck in its bore
    component: battery
    fix:
      summary: Clean or replace the piston.
      skill: workshop
      labour_hours: 1.5
      verify: {do: Pull the lever ten times., expect: It moves freely.}
checks:
  - id: push-the-pads
    do: Push the pads back by hand.
    expect: They give way.
    points_to: [piston-stuck]
    before_riding: true
    minutes: 3
    skill: home
sources: [{kind: first-hand, title: Brake evening}]
reviewed: {on: 2026-05-01, by: curator-1, second: mechanic-1}
"""
_WITHDRAWN = """\
related: [lamp-flickers]
withdrawn: {on: 2026-05-28, reason: Part of the other one., replaced_by: lamp-flickers}"""
_DRAWN = """\
    pictures: [{file: fluid.png, of: Brown fluid., credit: curator-1, checked_by: curator-2}]
    before_riding:"""
_ACCEPTED = """\
- {rule: KB705, path: faults/charging/lamp-stays-on.yml, at: /sources/0, because: No archive may copy it.}
"""
_AN_ANSWER = '{"https://journal.sample.example/lamps": {"state": "dead", "said": "404", "day": "2026-05-30"}}\n'


def _swap(name: str, old: str, new: str) -> Edit:
    return lambda base: base.swap(name, old, new)


def _write(name: str, content: str | bytes) -> Edit:
    return lambda base: base.write(name, content)


def _remove(name: str) -> Edit:
    return lambda base: (base.top / name).unlink()


def _all(*edits: Edit) -> Edit:
    def make(base: Edited) -> None:
        for edit in edits:
            edit(base)

    return make


def _copied(name: str, old: str, new: str) -> Edit:
    """A shipped file with one thing changed, as the club's own override."""

    def make(base: Edited) -> None:
        text = (ROOT / "site_overrides" / name).read_text("utf-8")
        assert old in text
        base.write(f"own/{name}", text.replace(old, new, 1))

    return make


def _next_day(base: Edited) -> None:
    base.day = str(int(base.day) + 24 * 3600)


def _cause_added(base: Edited) -> None:
    base.swap(STAYS_ON, "checks:\n", f"{_A_CAUSE}checks:\n")
    base.swap(STAYS_ON, "sources:\n", f"{_A_CHECK}sources:\n")


def _renamed(base: Edited) -> None:
    (base.top / BRAKES).rename(base.top / SPONGY)
    base.swap(SPONGY, "title: Lever grows soft", "formerly: [lever-soft]\ntitle: Lever grows soft")


LOCAL: Mapping[str, Edit] = {
    "an entry's text": _swap(FLICKERS, "A flat battery stops the engine.", "With a flat battery the engine stops."),
    "a comment": _swap(BRAKES, "system: brakes\n", "system: brakes  # not the clutch\n"),
    "an entry's title": _swap(STAYS_ON, "title: Charge lamp stays on", "title: Charge lamp burns"),
    "an entry's reviewer and day": _swap(BRAKES, "2026-03-14, by: curator-1", "2026-05-14, by: curator-3"),
    "a finding accepted": _write("kb/accepted.yml", _ACCEPTED),
    "a link that died": _write("links.json", _AN_ANSWER),
    "a draft that is none any more": _swap(DIMS, "draft: true\n", ""),
    "a code added": _swap(FLICKERS, "ride_advice:", "  - {code: 4-2, unit: engine-a, meaning: Voltage}\nride_advice:"),
    "a cause added": _cause_added,
    "a new case": _write(SECOND_CASE, _A_CASE),
    "a new picture": _all(
        _write("kb/pictures/fluid.png", picture("brown")), _swap(BRAKES, "    before_riding:", _DRAWN)
    ),
    "a new hand-written page": _write("kb/pages/more.md", "# More\n\n[Who we are](about.md)\n"),
    "a link that is back": _remove("links.json"),
    "the share of a cause": _swap(STAYS_ON, "share: rarely", "share: often"),
    "a case edited": _swap(CASE, "after: 1200 km", "after: 100 km"),
    "a picture's content": _write("kb/pictures/posts.png", picture("green")),
    "a case deleted": _remove("kb/cases/2026/wren-400-0001.yml"),
    "a new entry": _write(HARD, _A_FAULT),
    "a hand-written page deleted": _remove("kb/pages/more.md"),
    "a picture gone": _all(_remove("kb/pictures/fluid.png"), _swap(BRAKES, _DRAWN, "    before_riding:")),
    "an entry that others lead to": _swap(DIMS, "reviewed:", "related: [lamp-flickers, lever-hard]\nreviewed:"),
    "an entry renamed": _renamed,
    "a price": _swap(FLICKERS, "price: [8, 20]", "price: [18, 30]"),
    "a picture's width": _write("kb/pictures/posts.png", picture("green", width=500)),
    "a picture's line": _swap(STAYS_ON, "of: One probe on each post.", "of: A probe on each of the posts."),
    "a hand-written page's text": _swap(ABOUT, "in May", "in June"),
    "a hand-written page's title": _swap(ABOUT, "# About us", "# Who we are"),
    "the home page's text": _swap("kb/pages/index.md", "may help", "helps"),
    "an entry withdrawn": _swap(STAYS_ON, "related: [lamp-flickers]", _WITHDRAWN),
    "an entry deleted": _remove(DIMS),
    "a hand-written page's picture": _write("kb/pages/posts.png", picture("yellow")),
}
"""What changes few of the pages. What undoes another stands some way behind it, so that a build lies in between."""

WIDE: Mapping[str, Edit] = {
    "a model's years": _swap("kb/models/wren-600.yml", "years: 2006-2009\n", "years: 2006-2010\n"),
    "a model's name": _swap("kb/models/wren-400.yml", "name: Wren 400", "name: Wren 400 S"),
    "a control unit": _swap("kb/models/wren-400.yml", "name: Engine unit A", "name: Unit of the engine"),
    "a system's title": _swap(SYSTEMS, "name: Brakes", "name: Brakes and levers"),
    "a component": _swap(
        SYSTEMS, "name: Regulator, system: charging", "name: Rectifier, system: charging, where: Left"
    ),
    "the minutes of an access": _swap(SYSTEMS, "name: Seat off, minutes: 3", "name: Seat off, minutes: 9"),
    "a tool": _swap(SYSTEMS, "name: Multimeter, usual: true", "name: Meter"),
    "a caution's text": _swap("kb/cautions.yml", "No sparks near it.", "Keep sparks away."),
    "a shared check's text": _swap(CHECKS, "for ten minutes", "for an hour"),
    "a shared check's good value": _swap(CHECKS, "good: [12.5, 12.9]", "good: [12.4, 12.8]"),
    "a club's words": _write("kb/words.yml", "- [flickers, stutters]\n- [lever, handle]\n"),
    "all of it committed": lambda base: base.commit("What was edited"),
    "an entry's text, committed": _all(
        _swap(FLICKERS, "level: ride-to-workshop", "level: do-not-ride"), lambda base: base.commit("Worse")
    ),
    "a workshop's rate": _swap(CLUB, "labour_rate: [70, 95]", "labour_rate: [80, 99]"),
    "a threshold": _swap(CLUB, "review_after_months: 24", "review_after_months: 1"),
    "how much a judgement weighs": _swap(CLUB, "prior_strength: 4", "prior_strength: 9"),
    "the currency": _swap(CLUB, "currency: EUR", "currency: GBP"),
    "the unit of distance": _swap(CLUB, "distance_unit: km", "distance_unit: mi"),
    "the club's name": _swap(CLUB, "name: Sample Circle", "name: Circle of Samples"),
    "the site's address": _swap(CLUB, "https://lore.sample.example/", "https://lore.sample.example/below/"),
    "a template of the club's own": _copied("partials/footer.html", "not a workshop manual", "no workshop manual"),
    "a style of the club's own": _copied("assets/css/base.css", "{", "{ --own: 1;"),
    "a further asset": _write("own/assets/badge.svg", '<svg xmlns="http://www.w3.org/2000/svg"/>\n'),
    "no template of the club's own any more": _remove("own/partials/footer.html"),
    "the note at each page's foot": _swap("mkdocs.yml", "to show", "so as to show"),
    "a repository": _swap(CLUB, "distance_unit: mi", "distance_unit: mi\nrepository: https://code.sample.example/lore"),
    "where a page is edited": _swap("mkdocs.yml", "edit_path: edit/main/kb/", "edit_path: edit/trunk/kb/"),
    "the day": _next_day,
}
"""What changes many of them, or all."""

CHANGES_NOTHING = {"a comment", "a finding accepted", "all of it committed"}
"""What no page and no file of the site says anything of, but for the id of the build."""
