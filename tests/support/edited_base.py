"""A small base with one of everything that a page may be made from, to be edited and built again and again."""

from __future__ import annotations

import io
import os
import stat
import subprocess
import sys
from collections.abc import Mapping
from pathlib import Path

from click.testing import CliRunner
from PIL import Image

from kbtools.cli import main
from kbtools.rules import samples
from tests.support.places import ROOT

Lying = Mapping[str, bytes | str]
"""What lies in a folder."""
DAY = "1780300800"
"""1 June 2026, in seconds since 1970: the day that the sample base is about."""
SECOND_MODEL = """\
name: Wren 600
years: 2006-2009
control_units:
  - {id: engine-b, name: Engine unit B, system: charging, years: 2006-2009}
"""
STAYS_ON = """\
title: Charge lamp stays on after the start
system: charging
applies_to:
  - {model: wren-600, years: 2006-2008, unit: engine-b}
  - {model: wren-400, years: 2008-2012}
codes:
  - {code: P0562, unit: engine-b, meaning: System voltage low}
symptoms: [Charge lamp bright after the start, Starter turns slowly next morning]
ride_advice: {level: ride-with-care, why: The battery lasts for an hour or so.}
cautions: [battery-gas]
causes:
  - id: regulator-dead
    summary: Regulator gives nothing
    component: regulator
    share: often
    fix:
      summary: Fit another regulator.
      skill: experienced
      parts: [{name: Regulator, price: [60, 110]}]
      labour_hours: [0.5, 0.8]
      tools: [multimeter]
  - id: battery-worn
    summary: Battery worn out
    component: battery
    share: sometimes
    fix:
      summary: Fit another battery.
      skill: home
      parts: [{name: Battery, price: [70, 140]}]
      labour_hours: 0.2
      access: [battery-out]
checks:
  - {use: battery-rest, low_points_to: [battery-worn]}
  - id: at-fast-idle
    do: Warm engine at fast idle, meter across the posts.
    reading: {at: battery posts, when: fast idle, good: [13.5, 14.8], unit: V, low_points_to: [regulator-dead]}
    minutes: 4
    skill: home
    tools: [multimeter]
    pictures:
      - {file: posts.png, of: One probe on each post., credit: curator-1, checked_by: curator-2}
sources:
  - {kind: article, title: Lamps and regulators, year: 2020, url: "https://journal.sample.example/lamps"}
  - {kind: first-hand, title: Three machines at the summer meet, year: 2025}
related: [lamp-flickers]
reviewed: {on: 2026-04-02, by: curator-2}
"""
DIM = """\
title: Headlamp dims when the fan starts
system: charging
applies_to: [{model: wren-600, years: all}]
symptoms: [Light goes yellow at the lights]
ride_advice: {level: ride-with-care, why: Others see you worse at night.}
causes:
  - id: fan-stiff
    summary: Stiff fan motor draws too much
    fix: {summary: Fit another fan motor., skill: home, labour_hours: 0.7, parts: [{name: Fan motor, price: 90}]}
checks:
  - id: turn-the-fan
    do: Cold engine, key out. Turn the fan by hand.
    expect: It turns freely.
    points_to: [fan-stiff]
    minutes: 2
    skill: home
sources: [{kind: first-hand, title: Two machines on one tour}]
reviewed: {on: 2026-05-20, by: curator-2}
draft: true
"""
CASE = """\
vehicle: {model: wren-600, year: 2007, odometer: 30500 km, bike: b002}
seen: 2026-03-11
symptoms: [Charge lamp bright after the start]
fault: lamp-stays-on
tried:
  - {check: at-fast-idle, result: low, reading: 12.2 V}
  - {fix: regulator-dead, result: helped}
outcome: {state: solved, cause: regulator-dead, after: 1200 km, verified: true}
source: {kind: first-hand, title: Member report}
"""
ABOUT = "# About us\n\nWe meet in May. [A lamp that flickers](faults/lamp-flickers.md#ride)\n\n![Posts](posts.png)\n"


def picture(colour: str, *, width: int = 700) -> bytes:
    """A PNG, wide enough to be published in two widths."""
    drawn = io.BytesIO()
    Image.new("RGB", (width, 40), colour).save(drawn, "PNG")
    return drawn.getvalue()


_FILES: Mapping[str, str | bytes] = {
    **samples.FILES,
    samples.BRAKES_PATH: samples.BRAKES,
    "models/wren-600.yml": SECOND_MODEL,
    "faults/charging/lamp-stays-on.yml": STAYS_ON,
    "faults/charging/lamp-dims.yml": DIM,
    "cases/2026/wren-600-0001.yml": CASE,
    "pages/index.md": "# Welcome\n\nTo whom it may help.\n",
    "pages/about.md": ABOUT,
    "pages/posts.png": picture("red"),
    "pictures/posts.png": picture("blue"),
}


class Edited:
    """The base in a repository of its own, with a configuration and overrides of the club's own beside it."""

    def __init__(self, top: Path) -> None:
        self.top = top
        """An empty folder. The base lies in `kb`, the overrides in `own`; both only hold what an edit changes."""
        self.day = DAY
        """Today, in seconds since 1970."""
        for name, content in _FILES.items():
            self.write(f"kb/{name}", content)
        config = (ROOT / "mkdocs.yml").read_text("utf-8").replace("custom_dir: site_overrides", "custom_dir: own")
        self.write("mkdocs.yml", config)
        (top / "own").mkdir()
        self.git("init", "-q")
        self.commit("The base")

    def write(self, name: str, content: str | bytes) -> None:
        """Write a file, new or not."""
        path = self.top / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(content.encode() if isinstance(content, str) else content)

    def swap(self, name: str, old: str, new: str) -> None:
        """Replace a piece of a file that stands there once."""
        text = (self.top / name).read_text("utf-8")
        assert text.count(old) == 1, f"{name} does not hold {old!r} once"
        self.write(name, text.replace(old, new))

    def commit(self, message: str) -> None:
        """Commit all there is, on that day."""
        self.git("add", "-A")
        self.git("commit", "-q", "-m", message)

    def git(self, *arguments: str) -> None:
        """Git, by somebody who is nobody, and without the settings of whoever runs the tests."""
        when = f"{self.day} +0000"
        own = {name: value for name, value in os.environ.items() if not name.startswith("GIT_")}
        who = ("-c", "user.name=curator", "-c", "user.email=curator@sample.example")
        environment = {**own, "GIT_CONFIG_GLOBAL": os.devnull, "GIT_AUTHOR_DATE": when, "GIT_COMMITTER_DATE": when}
        subprocess.run(["git", *who, *arguments], cwd=self.top, env=environment, check=True, capture_output=True)

    def build(self, site: Path, cache: Path | None) -> tuple[int, str]:
        """Build by the command, in this process; gives its exit code and what it said."""
        environment = {"NO_COLOR": "1", "KBTOOLS_CACHE": str(cache or "off"), "SOURCE_DATE_EPOCH": self.day}
        arguments = ["build", "--kb", str(self.top / "kb"), "--site-dir", str(site)]
        done = CliRunner(env=environment).invoke(main, arguments)
        return done.exit_code, done.output

    def build_elsewhere(self, site: Path) -> None:
        """Build without a cache in a process of its own."""
        command = [sys.executable, "-m", "kbtools", "build", "--kb", str(self.top / "kb"), "--site-dir", str(site)]
        environment = {**os.environ, "KBTOOLS_CACHE": "off", "SOURCE_DATE_EPOCH": self.day}
        subprocess.run(command, env=environment, check=True, capture_output=True)

    def built(self, site: Path, cache: Path | None) -> Lying:
        """What lies in the site after a build that must go well."""
        code, said = self.build(site, cache)
        assert code == 0, said
        return lying(site)


def lying(site: Path) -> Lying:
    """Everything below a folder by path: the bytes of a file and its mode, the mode alone of anything else."""
    found: dict[str, bytes | str] = {}
    for path in sorted(site.rglob("*")):
        name, mode = path.relative_to(site).as_posix(), path.lstat().st_mode
        if stat.S_ISREG(mode):
            found[name] = path.read_bytes()
            found[f"{name} (mode)"] = oct(mode)
        else:
            found[name] = oct(mode)
    return found


def differing(one: Lying, other: Lying) -> list[str]:
    """Names under which two sites hold something else, or only one of them anything."""
    return sorted(name for name in {*one, *other} if one.get(name) != other.get(name))
