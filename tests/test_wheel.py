"""The package as users install it: a wheel builds a site in a folder that holds nothing but a knowledge base."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
import sysconfig
import venv
import zipfile
from collections.abc import Mapping
from pathlib import Path

import pytest

from tests.support import site_links
from tests.support.part_of_demo import copy_part
from tests.support.places import ROOT


def packages(top: Path, now: int) -> Mapping[str, Path]:
    """Both packages of this checkout by their endings, from a copy so that nothing is left beside the sources.

    Args:
        top: an empty folder.
        now: seconds since 1970, from which all files of the copy are.
    """
    for folder in ("kbtools", "schemas", "site_overrides"):
        shutil.copytree(ROOT / folder, top / "source" / folder, ignore=shutil.ignore_patterns("__pycache__"))
    for file in ("pyproject.toml", "mkdocs.yml", "README.md", "CHANGELOG.md", "LICENSE"):
        shutil.copy(ROOT / file, top / "source")
    for path in (top / "source").rglob("*"):
        os.utime(path, (now, now))
    command = [sys.executable, "-m", "hatchling", "build", "-d", str(top)]
    environment = {**os.environ, "SOURCE_DATE_EPOCH": "1780300800"}
    done = subprocess.run(command, cwd=top / "source", env=environment, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stdout + done.stderr
    return {path.suffix: path for path in top.iterdir() if path.is_file()}


@pytest.fixture(scope="module")
def built(tmp_path_factory: pytest.TempPathFactory) -> Mapping[str, Path]:
    """Both packages, built once."""
    return packages(tmp_path_factory.mktemp("packages"), 1_700_000_000)


@pytest.fixture(scope="module")
def wheel(built: Mapping[str, Path]) -> Path:
    """The wheel of this checkout."""
    return built[".whl"]


@pytest.fixture(scope="module")
def installed(wheel: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The command of the wheel in an environment of its own, which borrows this one's other packages.

    So nothing is fetched. The environment's own packages come first on the path, those borrowed after them.
    """
    place = tmp_path_factory.mktemp("installed") / "venv"
    venv.create(place, with_pip=False, symlinks=os.name != "nt")
    scripts = "Scripts" if os.name == "nt" else "bin"
    python = place / scripts / "python"
    # Only our package is installed: a second copy of the others would cost minutes and a network.
    done = subprocess.run(
        [sys.executable, "-m", "pip", "--python", str(python), "install", "--no-deps", "--no-index", "-q", str(wheel)],
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 0, done.stderr
    own = subprocess.run(
        [python, "-c", "import sysconfig; print(sysconfig.get_path('purelib'))"],
        capture_output=True,
        text=True,
        check=True,
    ).stdout.strip()
    Path(own, "borrowed.pth").write_text(sysconfig.get_path("purelib") + "\n", encoding="utf-8")
    return place / scripts / "kbtools"


def test_whoever_builds_it_has_the_same_bytes(built: Mapping[str, Path], tmp_path: Path) -> None:
    """From files of another day, with the same SOURCE_DATE_EPOCH (reproducible-builds.org)."""
    again = packages(tmp_path, 1_600_000_000)
    assert built.keys() == again.keys() == {".whl", ".gz"}
    assert {kind: path.read_bytes() for kind, path in built.items()} == {
        kind: path.read_bytes() for kind, path in again.items()
    }


def test_the_wheel_holds_all_that_it_needs_and_no_tests(wheel: Path) -> None:
    with zipfile.ZipFile(wheel) as archive:
        names = set(archive.namelist())
    assert {
        "kbtools/_shipped/mkdocs.yml",
        "kbtools/_shipped/schemas/fault.schema.json",
        "kbtools/_shipped/site_overrides/main.html",
        "kbtools/_shipped/schemas/vocabulary.schema.json",
        "kbtools/templates/fault.html",
        "kbtools/starter/kb/systems.yml",
        "kbtools/starter/files/gitignore.txt",
        "kbtools/py.typed",
        "kbtools/vocabulary/data/opposites.yml",
    } <= names
    assert not [name for name in names if name.startswith(("tests", "kb/")) or "__pycache__" in name]


def test_an_installed_wheel_builds_in_another_folder(installed: Path, tmp_path: Path) -> None:
    copy_part(tmp_path / "lore")
    environment = {key: value for key, value in os.environ.items() if key not in {"PYTHONPATH", "VIRTUAL_ENV"}}

    def run(*command: str | Path) -> str:
        done = subprocess.run(command, cwd=tmp_path, env=environment, capture_output=True, text=True, check=False)
        assert done.returncode == 0, done.stdout + done.stderr
        return done.stdout

    where = run(installed.with_name("python"), "-c", "import kbtools; print(kbtools.__file__)")
    assert Path(where.strip()).is_relative_to(installed.parents[1]), "it must not be the checkout that is tested"
    assert "pages in" in run(installed, "build", "--kb", "lore", "--site-dir", "out")
    fault = site_links.parsed(tmp_path / "out" / "faults" / "voltage-sags-when-wet" / "index.html")
    assert "Charging voltage sags after a wet ride" in fault.text
    for file in ("index.html", "404.html", "sitemap.xml", "codes/p0562/index.html"):
        assert (tmp_path / "out" / file).is_file()
    for _, address in fault.addresses:
        found = site_links.target(tmp_path / "out", tmp_path / "out/faults/voltage-sags-when-wet/index.html", address)
        assert found is None or found[0].is_file(), address
    # What the demo's own mkdocs.yml says about the demo is not said about another club.
    shown = [page for page in site_links.pages(tmp_path / "out") if "The maker Ostrel" in footer_of(page)]
    assert shown == []


def footer_of(page: Path) -> str:
    return page.read_text(encoding="utf-8").partition("<footer")[2]


def test_an_installed_wheel_refuses_a_wrong_shape(installed: Path, tmp_path: Path) -> None:
    copy_part(tmp_path / "kb")
    club = tmp_path / "kb" / "club.yml"
    club.write_text(club.read_text(encoding="utf-8") + "colour: red\n", encoding="utf-8")
    done = subprocess.run([installed, "check"], cwd=tmp_path, capture_output=True, text=True, check=False)
    assert done.returncode == 1
    assert "KB202" in done.stdout
