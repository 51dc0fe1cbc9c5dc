"""`kbtools links`: what it says in each form, what it keeps, and who reads that."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from pathlib import Path

import markdown
import pytest
from click.testing import CliRunner, Result

from kbtools.cli import main
from kbtools.edges.links import Bounds
from kbtools.edges.network import Network
from tests.support.link_host import LinkHost, link_host, playground
from tests.support.sample_base import in_folder

FAULT = Path("kb/faults/charging/lamp-flickers.yml")
QUICK = Bounds(link=5, all=60, pause=0, again=0)


@pytest.fixture
def host(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[LinkHost]:
    """A host, and in `kb` the sample base with links to it; the current directory is the one above."""
    in_folder(tmp_path, monkeypatch)
    monkeypatch.setenv("KBTOOLS_CACHE", str(tmp_path / "cache"))
    monkeypatch.setattr("kbtools.cli.links.NETWORK", playground())
    monkeypatch.setattr("kbtools.cli.links.BOUNDS", QUICK)
    with link_host() as host:
        text = FAULT.read_text("utf-8").replace(
            "title: Spring teardown}",
            f'title: Spring teardown, url: "{host.url("/gone")}",\n     archived: "{host.url("/there")}"}}\n'
            f'  - {{kind: forum, title: Thread, url: "{host.url("/login")}", archived: "https://archive.example/1"}}',
        )
        FAULT.write_text(text.replace("for green", f"for [green]({host.url('/left')})"), "utf-8")
        Path("kb/pages").mkdir()
        Path("kb/pages/more.md").write_text(f"# More\n\nSee [this]({host.url('/there')}) too.\n", "utf-8")
        yield host


def run(*arguments: str) -> Result:
    return CliRunner().invoke(main, [*arguments])


def test_what_died_is_told_at_its_lines_in_every_form(host: LinkHost) -> None:
    text = run("links", "--issue", "died.md")
    assert text.exit_code == 1
    lines = FAULT.read_text("utf-8").splitlines()
    for path in ("/gone", "/left", "/login"):
        (told,) = re.findall(rf"^{FAULT}:(\d+):\d+: [a-z ]+: \S+{path} ", text.stdout, re.MULTILINE)
        assert f"{path}" in lines[int(told) - 1]
    assert "4 links asked: 1 there, 2 dead, 1 not sure. 1 not asked" in text.stdout
    body = Path("died.md").read_text("utf-8")
    assert markdown.markdown(body).count("<li>") == 2
    assert "/login" not in body
    github = run("links", "--format", "github").stdout
    assert [line.split(" ")[0] for line in github.splitlines()[:-1]] == ["::error", "::error", "::warning"]
    rows = {row["url"]: row for row in json.loads(run("links", "--format", "json").stdout)}
    there = rows[host.url("/there")]
    assert (there["state"], there["day"]) == ("there", "2026-06-01")
    assert [(each["path"], each["line"], each["archived"]) for each in there["places"]][-1] == (
        "kb/pages/more.md",
        3,
        False,
    )
    assert any(each["archived"] for each in there["places"])
    assert rows["https://archive.example/1"]["state"] == "not-asked"


def test_what_died_is_a_job_until_it_is_there_again(host: LinkHost) -> None:
    def dead_jobs() -> list[str]:
        rows = json.loads(run("agenda", "--format", "json").stdout)
        return [row["why"] for row in rows if row["job"] == "dead-link"]

    assert dead_jobs() == []
    assert run("links").exit_code == 1
    gone, left = sorted(dead_jobs())
    assert "/gone" in gone
    assert "archived copy; look where" in gone
    assert "/left" in left
    assert "name an archived copy" in left
    FAULT.write_text(FAULT.read_text("utf-8").replace("/gone", "/no-head").replace("/left", "/moved"), "utf-8")
    assert run("links").exit_code == 0
    assert dead_jobs() == []


def test_without_a_network_one_sentence_and_nothing_is_kept(host: LinkHost, monkeypatch: pytest.MonkeyPatch) -> None:
    def lookup(name: str, port: int) -> list[str]:
        raise OSError("no way out")

    assert run("links", "--keep", "kept.json").exit_code == 1
    before = Path("kept.json").read_bytes()
    monkeypatch.setattr("kbtools.cli.links.NETWORK", Network(lookup=lookup))
    done = run("links", "--keep", "kept.json")
    assert done.exit_code == 2
    assert done.stdout == ""
    assert len(done.stderr.splitlines()) == 1
    assert "no network" in done.stderr
    assert Path("kept.json").read_bytes() == before
