"""The commands as a user calls them: what they print, how they exit, and that a built site is whole or untouched."""

from __future__ import annotations

import datetime as dt
import json
import os
import re
import signal
import subprocess
import sys
import urllib.error
import urllib.request
from collections.abc import Iterator, Mapping
from functools import partial
from pathlib import Path

import pytest
from click.testing import CliRunner, Result
from mkdocs import utils

from kbtools.cli import main
from kbtools.rules.samples import FILES
from kbtools.site.written_pages import Writer
from tests.support import site_links
from tests.support.patience import LONG, eventually
from tests.support.places import ROOT

KEYS = {"rule", "severity", "path", "line", "column", "message", "hint"}
"""The contract of the JSON format."""
FAULT = "faults/charging/lamp-flickers.yml"
LINK, COPY = "https://notes.zz/teardown", "https://archive.zz/teardown"
TITLE = "Charge lamp flickers in the rain"
OLD_ID = "formerly: [lamp-flutters]\n"

ENTRY = """\
title: Lamp dim at idle
system: charging
applies_to: [{model: wren-400, years: 2003-2005}]
ride_advice: {level: ride-with-care, why: It may go out.}
causes:
  - id: loose-plug
    summary: Loose plug
    fix: {summary: Push it home., skill: home, labour_hours: 0.1}
sources: [{kind: first-hand, title: Member report}]
reviewed: {on: 2026-01-10, by: curator-3}
"""
"""A whole entry, to be broken in one place at a time."""


def kbtools(*arguments: str | Path, cwd: Path = ROOT, **env: str) -> subprocess.CompletedProcess[str]:
    """A command in a process of its own."""
    command = [sys.executable, "-m", "kbtools", *map(str, arguments)]
    return subprocess.run(
        command, cwd=cwd, capture_output=True, text=True, check=False, env={**os.environ, "NO_COLOR": "1", **env}
    )


def run(*arguments: str | Path) -> Result:
    """A command in this process, which need not start first."""
    return CliRunner(env={"NO_COLOR": "1"}).invoke(main, list(map(str, arguments)))


@pytest.fixture
def base(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A small base with every kind of page, to be edited: `kb` in the current directory."""
    files = {**FILES, FAULT: FILES[FAULT] + OLD_ID, "pages/index.md": "Welcome.\n", "pages/about.md": "# About\n"}
    for path, text in files.items():
        (tmp_path / "kb" / path).parent.mkdir(parents=True, exist_ok=True)
        (tmp_path / "kb" / path).write_text(text, encoding="utf-8")
    monkeypatch.chdir(tmp_path)
    return tmp_path / "kb"


def built(base: Path, site: Path) -> Mapping[str, bytes]:
    done = run("build", "--kb", base, "--site-dir", site)
    assert done.exit_code == 0, done.output
    return content(site)


def content(folder: Path) -> Mapping[str, bytes]:
    """Every file below a folder with its bytes."""
    return {
        path.relative_to(folder).as_posix(): path.read_bytes() for path in sorted(folder.rglob("*")) if path.is_file()
    }


def replace(file: Path, old: str, new: str) -> None:
    text = file.read_text(encoding="utf-8")
    assert old in text
    file.write_text(text.replace(old, new), encoding="utf-8")


def leftovers(site: Path) -> list[str]:
    return [path.name for path in site.parent.iterdir() if path.name.startswith(f".{site.name}.kbtools-")]


# --- check


def test_the_demo_is_sound() -> None:
    done = kbtools("check")
    assert (done.returncode, done.stderr) == (0, "")
    assert json.loads(run("check", "--kb", ROOT / "kb", "--format", "json").stdout) == []


def test_three_broken_entries_are_found_at_their_places(base: Path) -> None:
    folder = base / "faults" / "charging"
    folder.joinpath("one.yml").write_text(ENTRY.replace("system: charging", "system: chargin"), encoding="utf-8")
    folder.joinpath("two.yml").write_text(ENTRY + "colour: red\n", encoding="utf-8")
    folder.joinpath("three.yml").write_text(ENTRY + "title: Lamp glows\n", encoding="utf-8")
    done = run("check", "--format", "json")
    rows = json.loads(done.stdout)
    assert done.exit_code == 1
    assert all(set(row) == KEYS for row in rows)
    wrong = [row for row in rows if row["severity"] == "error"]
    assert {(row["path"], row["line"], row["column"], row["rule"]) for row in wrong} == {
        ("kb/faults/charging/one.yml", 2, 9, "KB302"),
        ("kb/faults/charging/three.yml", 11, 1, "KB102"),
        ("kb/faults/charging/two.yml", 11, 1, "KB202"),
    }
    assert [(row["path"], row["line"]) for row in rows] == sorted((row["path"], row["line"]) for row in rows)
    assert 'charging"' in next(row["message"] + row["hint"] for row in rows if row["rule"] == "KB302")
    text = run("check")
    assert text.exit_code == 1
    assert "kb/faults/charging/one.yml:2:9: KB302 error: " in text.stdout


@pytest.mark.parametrize("arguments", [["--colour"], ["--kb", "no-such-folder"], ["--format", "xml"], ["surplus"]])
def test_a_wrong_call_exits_with_2(arguments: list[str]) -> None:
    done = run("check", *arguments)
    assert done.exit_code == 2
    assert "Usage" in done.stderr


# --- build


def test_a_broken_base_leaves_the_old_site_whole(base: Path, tmp_path: Path) -> None:
    site = tmp_path / "site"
    replace(base / FAULT, "title: Spring teardown}", f"title: Teardown, url: {LINK}, archived: {COPY}}}")
    answers = {LINK: {"state": "dead", "said": "404", "day": dt.datetime.now(dt.UTC).date().isoformat()}}
    (base.parent / "links.json").write_text(json.dumps(answers), encoding="utf-8")
    told = run("build", "--kb", base, "--site-dir", site, "--report")
    assert told.exit_code == 0, told.output
    before = content(site)
    page = before["faults/lamp-flickers/index.html"].decode()
    assert TITLE in page
    assert f'href="{COPY}"' in page.partition(">Teardown<")[0].rpartition("<a ")[2], "the link died"
    pages = [each for path, each in before.items() if path.endswith(".html")]
    assert f"HTML {len(pages)} files {sum(map(len, pages)) / 1000:.1f} kB" in " ".join(told.stdout.split())
    # A site that is too heavy does not take the place of one that was not.
    club = base / "club.yml"
    club.write_text(club.read_text("utf-8") + "site_budget: {page_kb: 1}\n", "utf-8")
    replace(base / FAULT, TITLE, "Too heavy")
    done = run("build", "--kb", base, "--site-dir", site)
    assert done.exit_code == 1
    assert "a page may have 1 kB" in done.stderr
    assert content(site) == before
    replace(base / FAULT, "system: charging", "system: chargin")
    done = run("build", "--kb", base, "--site-dir", site)
    assert done.exit_code == 1
    assert "KB302" in done.stderr
    assert content(site) == before
    assert [name for name in leftovers(site) if "lock" not in name and "figures" not in name] == []


def build_until_killed(base: Path, site: Path, left: int) -> int:
    """How a build ends, in a fork of this process, that is killed when it has written so many pages."""
    child = os.fork()
    if child == 0:
        # Never returns: what the parent has begun is not the child's to end.
        write, put = utils.write_file, Writer._put

        def count(path: str) -> None:
            nonlocal left
            if path.endswith(".html"):
                if left == 0:
                    os.kill(os.getpid(), signal.SIGKILL)
                left -= 1

        def write_until_killed(content: bytes, output_path: str) -> None:
            count(output_path)
            write(content, output_path)

        def put_until_killed(self: Writer, path: str, content: bytes) -> None:
            count(path)
            put(self, path, content)

        try:
            utils.write_file, Writer._put = write_until_killed, put_until_killed  # type: ignore[method-assign]
            run("build", "--kb", base, "--site-dir", site)
        finally:
            os._exit(70)
    return os.waitstatus_to_exitcode(os.waitpid(child, 0)[1])


@pytest.mark.skipif(sys.platform == "win32", reason="kills by POSIX signal")
def test_a_killed_build_leaves_the_old_site_whole(base: Path, tmp_path: Path) -> None:
    site = tmp_path / "site"
    before = built(base, site)
    replace(base / FAULT, TITLE, "Another title")
    for pages in (0, 40):
        assert build_until_killed(base, site, pages) == -signal.SIGKILL
        assert content(site) == before
        (unfinished,) = (name for name in leftovers(site) if "-new-" in name)
        assert len(list((tmp_path / unfinished).rglob("*.html"))) == pages, "it was killed elsewhere"
    after = built(base, site)
    assert "Another title" in after["faults/lamp-flickers/index.html"].decode()
    assert [name for name in leftovers(site) if "lock" not in name] == []


@pytest.mark.thorough
def test_builds_of_the_same_files_are_the_same_bytes_by_plain_mkdocs_too(demo_site: Path, tmp_path: Path) -> None:
    command = [sys.executable, "-m", "mkdocs", "build", "-f", "mkdocs.yml", "-d", str(tmp_path / "site")]
    # The same day, and another order of what Python keeps in no order.
    made = str(int((demo_site / "index.html").stat().st_mtime))
    environment = {**os.environ, "SOURCE_DATE_EPOCH": made, "PYTHONHASHSEED": "1"}
    done = subprocess.run(command, cwd=ROOT, env=environment, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stderr
    own = {name: data for name, data in content(demo_site).items() if not name.startswith(".")}
    assert content(tmp_path / "site") == own


def test_a_build_says_the_day_that_it_is_given(base: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "1798761600")
    assert b"2027-01-01" in built(base, tmp_path / "site")["index.html"]


def test_an_asset_has_an_address_of_its_own_content(demo_site: Path) -> None:
    page = site_links.parsed(demo_site / "index.html")
    assets = [address for _, address in page.addresses if "assets/" in address]
    assert assets
    assert all(re.search(r"assets/[0-9a-f]{12}/", address) for address in assets)


WITHOUT_THEME = """
import importlib.abc, sys

class Refused(importlib.abc.MetaPathFinder):
    def find_spec(self, name, path=None, target=None):
        if name.partition(".")[0] == "material":
            raise ImportError(f"{name} is not to be had")

sys.meta_path.insert(0, Refused())

import datetime, pathlib
from kbtools.edges.checking import check
from kbtools.site.building import build_site

today, folder = datetime.date(2026, 6, 1), pathlib.Path("kb")
build_site(check(folder, today).base, folder, pathlib.Path("site").absolute(), today)
"""


def test_the_whole_site_is_built_where_the_theme_is_not_to_be_had(base: Path, tmp_path: Path) -> None:
    """The frame of the pages is our own; the theme that `mkdocs.yml` names gives nothing to the site."""
    theme = {"name": None, "custom_dir": str(ROOT / "site_overrides"), "static_templates": ["404.html"]}
    config = {"site_name": "x", "strict": True, "theme": theme, "plugins": [{"fault-lore": {"kb": "kb"}}]}
    (tmp_path / "mkdocs.yml").write_text(json.dumps(config), encoding="utf-8")
    environment = {**os.environ, "PYTHONPATH": str(ROOT)}
    command = [sys.executable, "-c", WITHOUT_THEME]
    done = subprocess.run(command, cwd=tmp_path, env=environment, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stderr
    site = tmp_path / "site"
    for page in ("", "about/", "faults/lamp-flickers/", "codes/p0562/", "models/wren-400/2005/", "systems/charging/"):
        assert "<main" in (site / page / "index.html").read_text("utf-8"), page
    assert TITLE in (site / "faults/lamp-flickers/index.html").read_text("utf-8")
    for file in ("404.html", "sitemap.xml", "sw.js", "api/v1/index.json"):
        assert (site / file).is_file(), file


# --- hand-written pages


@pytest.mark.parametrize(
    "names",
    [
        ["codes.md", "faults/lamp-flickers/index.md", "models/wren-400/2007.md"],
        ["codes/index.md", "faults/lamp-flickers.md", "faults/lamp-flutters.md"],
    ],
)
def test_a_page_in_the_place_of_a_generated_one_is_an_error(names: list[str], base: Path, tmp_path: Path) -> None:
    for name in names:
        page = base / "pages" / name
        page.parent.mkdir(parents=True, exist_ok=True)
        page.write_text("# In the way\n", encoding="utf-8")
    done = run("build", "--kb", base, "--site-dir", tmp_path / "site")
    assert done.exit_code == 1
    assert [name for name in names if f"pages/{name}" not in done.stderr] == []
    assert not (tmp_path / "site").exists()


DEAD_LINKS = [
    *("[gone](no-such-page.md)", "[gone](faults/no-such-fault.md)", "[gone](about.md#no-part)"),
    # The last of these is a draft.
    *("[gone](faults/lamp-flickers.md#no-such-part)", "![gone](no-such-picture.png)", "[gone](faults/battery-flat.md)"),
]


def test_a_dead_link_stops_the_build(base: Path, tmp_path: Path, thorough: bool) -> None:
    def told(*links: str) -> str:
        (base / "pages" / "extra.md").write_text("# Extra\n\n" + "\n\n".join(links), encoding="utf-8")
        done = run("build", "--kb", base, "--site-dir", tmp_path / "site")
        assert done.exit_code == 1
        assert not (tmp_path / "site").exists()
        return done.stderr

    # All at once, each in a line of its own: nothing less than a warning is printed, and each warning stops the build.
    lines = [line for line in told(*DEAD_LINKS).splitlines() if "'extra.md'" in line]
    for link in DEAD_LINKS:
        named = f"'{link.rpartition('(')[2].rstrip(')')}'"
        assert [named in line for line in lines].count(True) == 1, (named, lines)
        if thorough:
            assert named in told(link)


def test_links_from_a_page_to_generated_pages_work(base: Path, tmp_path: Path) -> None:
    text = "# Extra\n\n[a](faults/lamp-flickers.md#ride) [b](models/wren-400/2007.md) [c](codes/p0562.md)\n"
    (base / "pages" / "extra.md").write_text(text, encoding="utf-8")
    built(base, tmp_path / "site")
    page = tmp_path / "site" / "extra" / "index.html"
    wanted = {"../faults/lamp-flickers/#ride", "../models/wren-400/2007/", "../codes/p0562/"}
    assert wanted <= set(site_links.parsed(page).links)


@pytest.mark.parametrize("name", ["x.js", "x.html", "x.svg", "x.css", "sub/x.mjs"])
def test_a_file_that_would_be_published_and_is_no_page_is_an_error(name: str, base: Path) -> None:
    file = base / "pages" / name
    file.parent.mkdir(exist_ok=True)
    file.write_text("window.canary = 1\n", encoding="utf-8")
    done = run("check", "--format", "json")
    assert done.exit_code == 1
    assert [(row["rule"], row["path"], row["line"], row["column"]) for row in json.loads(done.stdout)] == [
        ("KB109", f"kb/pages/{name}", 1, 1)
    ]


# --- serve


@pytest.fixture
def live(base: Path) -> Iterator[str]:
    """Address of a server that shows the copy."""
    command = [sys.executable, "-m", "kbtools", "serve", "--kb", str(base), "--port", "0"]
    process = subprocess.Popen(command, cwd=ROOT, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, text=True)
    assert process.stdout is not None
    first = process.stdout.readline()
    found = re.search(r"http://127\.0\.0\.1:[0-9]+/", first)
    try:
        assert found is not None, first
        eventually(lambda: fetched(found[0])[0] == 200)
        yield found[0]
    finally:
        process.terminate()
        process.wait(LONG)


def shows(address: str, text: str) -> bool:
    return text in fetched(address)[1]


def fetched(address: str) -> tuple[int, str]:
    try:
        with urllib.request.urlopen(address, timeout=LONG) as answer:
            return answer.status, answer.read().decode()
    except urllib.error.HTTPError as error:
        return error.code, error.read().decode()


def test_serve_shows_an_edit_and_outlives_a_mistake(live: str, base: Path) -> None:
    page = f"{live}faults/lamp-flickers/"
    old = TITLE
    for new in ("Charging sags, first edit", "Charging sags, second edit"):
        replace(base / FAULT, old, new)
        eventually(partial(shows, page, new))
        old = new

    replace(base / FAULT, "system: charging", "system: chargin")
    eventually(lambda: "KB302" in fetched(page)[1])
    status, html = fetched(page)
    assert status == 200
    assert old in html, "the last good page is still there"
    assert "lamp-flickers.yml:2:9" in html

    replace(base / FAULT, "system: chargin", "system: charging")
    eventually(lambda: "KB302" not in fetched(page)[1])
    assert fetched(page)[0] == 200
