"""`kbtools new club`: a repository that checks and builds at once, whole or not there; no folder is written into."""

from __future__ import annotations

import datetime as dt
import html
import json
import os
import re
from pathlib import Path

import markdown
import pytest
import yaml
from click.testing import CliRunner, Result

from kbtools import __version__
from kbtools.cli import main
from kbtools.edges import file_system
from kbtools.edges.checking import check
from kbtools.model.currencies import CURRENCIES
from tests.support.yaml_files import core_load

NAME = """Ring "A": #1 's 🏍 & Co* <3 [x](y) @NAME@"""
TODAY = dt.date(2026, 6, 1)


@pytest.fixture(autouse=True)
def _here(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)


def new_club(*arguments: str) -> Result:
    return CliRunner().invoke(main, ["new", "club", *arguments])


def test_a_club_of_any_name_checks_is_tidy_and_builds() -> None:
    options = ("--currency", "gbp", "--country", "gb", "--codes", "five-character", "--model", "Wren 400 2003-2008")
    done = new_club("lore", "--name", NAME, *options)
    assert (done.exit_code, done.stdout) == (0, "lore\n"), done.stderr
    os.chdir("lore")
    assert check(Path("kb"), TODAY).findings == ()
    assert CliRunner().invoke(main, ["tidy", "--check"]).exit_code == 0
    club = core_load(Path("kb/club.yml").read_text("utf-8"))
    said = {key: club[key] for key in ("name", "currency", "licence", "distance_unit", "phone_countries")}
    assert said == {
        "name": NAME,
        "currency": "GBP",
        "licence": "CC-BY-4.0",
        # Road signs of Great Britain are in miles.
        "distance_unit": "mi",
        "phone_countries": ["GB"],
    }
    assert [each["id"] for each in club["code_formats"]] == ["obd"]
    readme = markdown.markdown(Path("README.md").read_text("utf-8").replace("\\<", "&lt;").replace("\\&", "&amp;"))
    heading = re.search("<h1>(.*?)</h1>", readme)
    assert heading is not None
    assert html.unescape(heading[1]) == f"{NAME}: what we know"
    assert f"kbtools=={__version__}\n" in Path("requirements.txt").read_text("utf-8")
    built = CliRunner().invoke(main, ["build"])
    assert built.exit_code == 0, built.output
    title = re.search("<title>(.*?)</title>", Path("site/index.html").read_text("utf-8"), re.DOTALL)
    assert title is not None
    assert NAME in html.unescape(title[1])


def test_what_stands_around_the_base_is_read_by_its_programs() -> None:
    assert new_club("lore", "--name", "A").exit_code == 0
    top = Path("lore")
    for name in (".github/workflows/check.yml", ".github/workflows/publish.yml", ".gitlab-ci.yml"):
        flow = yaml.load((top / name).read_text("utf-8"), Loader=yaml.BaseLoader)
        assert "kbtools build" in str(flow)
    used = re.findall("uses: .*", "".join(path.read_text("utf-8") for path in (top / ".github/workflows").iterdir()))
    # A tag may be moved to other code, a commit may not (GitHub's own advice on hardening workflows).
    assert used
    assert [each for each in used if not re.fullmatch(r"uses: [\w/-]+@[0-9a-f]{40} # v\d+\.\d+\.\d+", each)] == []
    settings = json.loads((top / ".vscode/settings.json").read_text("utf-8"))["yaml.schemas"]
    assert all((top / schema).is_file() for schema in settings)
    assert "kb/club.yml" in settings.values()
    assert {path.name for path in (top / "kb").iterdir()} >= {"faults", "cases", "models", "pages", "pictures"}


def test_a_folder_that_holds_anything_stays_as_it_is(tmp_path: Path) -> None:
    Path("full").mkdir()
    Path("full/.hidden").write_text("mine")
    Path("file").write_text("mine")
    Path("empty").mkdir()
    Path("link").symlink_to("empty")
    for name, why in (("full", "holds something"), ("file", "no folder"), ("link", "no folder"), ("a/b", "no folder")):
        done = new_club(name, "--name", "A")
        assert (done.exit_code, done.stdout) == (2, ""), name
        assert why in " ".join(done.stderr.split())
    os.chdir("empty")
    assert "one folder up" in " ".join(new_club(".", "--name", "A").stderr.split())
    os.chdir("..")
    assert {path.name for path in tmp_path.iterdir()} == {"full", "file", "empty", "link"}
    assert [path.name for path in Path("full").iterdir()] == [".hidden"]
    assert new_club("empty", "--name", "A").exit_code == 0
    assert Path("empty/kb/club.yml").is_file()


@pytest.mark.parametrize(
    ("options", "said"),
    [
        ((), "Missing: --name."),
        (("--name", "A", "--currency", "EUT"), 'Did you mean "EUR"'),
        (("--name", "A", "--country", "UK"), "Great Britain is GB"),
        (("--name", "A\x1b[2J"), "cannot be seen (\\u001b)"),
        (("--name", "A\u202eB"), "cannot be seen"),
        (("--name", "A <b>"), "Raw HTML"),
        (("--name", "A", "--model", "Wren 400"), "no years"),
        (("--name", "A", "--model", "Wren 2003", "--model", "wren 2004"), 'would be called "wren"'),
        (("--name", "A", "--codes", "morse"), "five-character, flash"),
    ],
)
def test_what_is_missing_or_wrong_is_named_and_nothing_is_written(options: tuple[str, ...], said: str) -> None:
    done = new_club("lore", *options)
    assert done.exit_code == 2
    assert said in " ".join(done.stderr.split())
    assert list(Path().iterdir()) == []


def test_who_is_interrupted_finds_nothing(monkeypatch: pytest.MonkeyPatch) -> None:
    def interrupted(_folder: Path) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr(file_system, "flush", interrupted)
    assert new_club("lore", "--name", "A").exit_code == 1
    assert list(Path().iterdir()) == []


def test_who_has_no_base_is_told_how_to_begin_one() -> None:
    for command in ("check", "build"):
        done = CliRunner().invoke(main, [command])
        assert done.exit_code == 2
        assert "kbtools new club FOLDER" in " ".join(done.stderr.split())
    Path("kb").mkdir()
    assert "kbtools new club FOLDER" in " ".join(CliRunner().invoke(main, ["check"]).stdout.split())


def test_currencies_are_those_of_cldr() -> None:
    """CLDR by way of babel; every currency that is legal tender of a country today is one of ISO 4217's."""
    from babel import Locale
    from babel.numbers import get_territory_currencies

    tender = {
        code
        for country in map(str, Locale("en").territories)
        if len(country) == 2 and country.isalpha()
        for code in get_territory_currencies(country, TODAY, TODAY)
    }
    assert len(tender) > 140
    assert sorted(tender - CURRENCIES) == []
