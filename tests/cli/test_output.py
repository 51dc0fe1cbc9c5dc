"""What the commands print where: on a terminal, into a pipe, and on a stream that cannot carry every character."""

from __future__ import annotations

import json
import os
import re
import subprocess
import sys
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from kbtools.cli import main
from kbtools.rules.samples import FILES

pty = pytest.importorskip("pty", reason="terminals of this kind are POSIX only")
WRONG = "faults/charging/lamp-flickers.yml"
RED = "\x1b[31m"


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """The sample base with one mistake, in the fourth line of a file."""
    for path, content in FILES.items():
        (tmp_path / "kb" / path).parent.mkdir(parents=True, exist_ok=True)
        (tmp_path / "kb" / path).write_text(content, encoding="utf-8")
    entry = tmp_path / "kb" / WRONG
    entry.write_text(entry.read_text("utf-8").replace("model: wren-400", "model: wren-40"), encoding="utf-8")
    return tmp_path


def environment(**changes: str) -> dict[str, str]:
    kept = {key: value for key, value in os.environ.items() if key not in {"NO_COLOR", "FORCE_COLOR", "COLUMNS"}}
    return {**kept, "TERM": "xterm-256color", **changes}


def on_a_terminal(folder: Path, *arguments: str, **changes: str) -> str:
    """What a command prints on a terminal of its own."""
    ours, theirs = os.openpty()
    command = [sys.executable, "-m", "kbtools", *arguments]
    with subprocess.Popen(
        command, cwd=folder, env=environment(**changes), stdin=theirs, stdout=theirs, stderr=theirs
    ) as running:
        os.close(theirs)
        said = b""
        # Linux ends a terminal that nobody writes to any more with an error, others with nothing.
        try:
            while piece := os.read(ours, 65536):
                said += piece
        except OSError:
            pass
        running.wait()
    os.close(ours)
    return said.decode().replace("\r\n", "\n")


def words(said: str) -> list[str]:
    """What is said, without colours and whatever the width; that something takes long is said on a terminal alone."""
    lines = re.sub(r"\x1b\[[0-9;]*m", "", said).splitlines()
    return " ".join(line for line in lines if not re.search(r" … [0-9]+ s$", line)).split()


def into_a_pipe(folder: Path, *arguments: str, **changes: str) -> str:
    command = [sys.executable, "-m", "kbtools", *arguments]
    done = subprocess.run(command, cwd=folder, env=environment(**changes), capture_output=True, check=False)
    return done.stdout.decode()


def checked(folder: Path, *arguments: str) -> Result:
    """The check in this process, which need not start first: of what does not hang on the stream."""
    return CliRunner().invoke(main, ["check", "--kb", str(folder / "kb"), *arguments])


def test_a_terminal_gets_colours_and_a_pipe_the_same_words_without(folder: Path) -> None:
    shown, piped = on_a_terminal(folder, "check"), into_a_pipe(folder, "check")
    assert RED in shown
    assert "\x1b" not in piped
    assert words(shown) == words(piped)
    assert piped.splitlines() == [
        f'kb/{WRONG}:4:13: KB301 error: There is no model "wren-40".',
        '    Did you mean "wren-400"?',
        "    4 |   - {model: wren-40, years: 2003-2007, unit: engine-a}",
        "      |             ^",
        "",
        "1 error in 1 file. About a rule: kbtools rules KB301",
        "Looked at 4 faults, 1 case and 5 other files.",
    ]


# no-color.org, force-color.org: they count where they are present and not empty.


@pytest.mark.parametrize("changes", [{"NO_COLOR": "1", "FORCE_COLOR": "1"}, {"TERM": "dumb"}])
def test_a_terminal_gets_no_colours_if_the_user_wants_none(folder: Path, changes: dict[str, str]) -> None:
    assert "\x1b" not in on_a_terminal(folder, "check", **changes)


def test_an_empty_wish_is_none(folder: Path) -> None:
    assert RED in on_a_terminal(folder, "check", NO_COLOR="")
    assert "\x1b" not in into_a_pipe(folder, "check", FORCE_COLOR="")


def test_a_pipe_gets_colours_if_the_user_wants_them(folder: Path) -> None:
    assert RED in into_a_pipe(folder, "check", FORCE_COLOR="1")


ALIKE = [pytest.param(form, marks=pytest.mark.thorough) for form in ("github", "sarif")]


@pytest.mark.parametrize("form", ["json", *ALIKE])
def test_what_programs_read_has_no_colours_anywhere(folder: Path, form: str) -> None:
    assert "\x1b" not in on_a_terminal(folder, "check", "--format", form, FORCE_COLOR="1")


def test_a_narrow_terminal_gets_a_line_that_fits(folder: Path) -> None:
    shown = on_a_terminal(folder, "check", COLUMNS="40", NO_COLOR="1").splitlines()
    assert all(len(line) <= 40 or " " not in line.strip() for line in shown)
    number = next(at for at, line in enumerate(shown) if line.startswith("    4 | "))
    assert shown[number][shown[number + 1].index("^")] == "w"


def test_a_stream_that_cannot_carry_a_character_gets_it_written_out(folder: Path) -> None:
    entry = folder / "kb" / WRONG
    entry.write_text(entry.read_text("utf-8").replace("wren-40,", "zaunkönig,"), encoding="utf-8")
    said = into_a_pipe(folder, "check", PYTHONIOENCODING="ascii")
    assert 'no model "zaunk\\xf6nig"' in said


def test_a_link_out_of_the_folder_is_never_quoted(folder: Path) -> None:
    (folder / "secret.yml").write_text("password: hunter2\n", encoding="utf-8")
    (folder / "kb/faults/charging/linked.yml").symlink_to(folder / "secret.yml")
    said = checked(folder).output
    assert "linked.yml:1:1: KB101" in said
    assert "hunter2" not in said


@pytest.mark.parametrize("form", ["text", "json", "github", "sarif"])
def test_every_format_ends_with_the_exit_code_of_what_was_found(folder: Path, form: str) -> None:
    assert checked(folder, "--format", form).exit_code == 1
    (folder / "kb" / WRONG).write_text(FILES[WRONG], encoding="utf-8")
    assert checked(folder, "--format", form).exit_code == 0


def test_sarif_links_a_rule_to_its_page_on_the_clubs_site(folder: Path) -> None:
    def links() -> set[str | None]:
        rules = json.loads(checked(folder, "--format", "sarif").stdout)["runs"][0]["tool"]["driver"]["rules"]
        return {rule.get("helpUri") for rule in rules if rule["id"] == "KB301"}

    assert links() == {"https://lore.sample.example/rules/kb301/"}
    club = folder / "kb" / "club.yml"
    club.write_text(club.read_text("utf-8").replace("site_url: https://lore.sample.example/\n", ""), encoding="utf-8")
    assert links() == {None}


# kbtools rules


def rules(*arguments: str) -> str:
    result = CliRunner().invoke(main, ["rules", *arguments])
    assert result.exit_code == 0, result.output
    return result.output


def test_all_rules_are_listed_by_family() -> None:
    lines = rules().splitlines()
    assert lines.index("KB3 References") < lines.index("  KB301 error   Unknown model") < lines.index("KB4 Meaning")
    assert "  KB410 warning Cause that no check points to" in lines


@pytest.mark.parametrize("typed", ["KB402", "kb402", "402"])
def test_a_rule_is_explained_with_its_sample(typed: str) -> None:
    said = rules(typed)
    assert said.startswith("KB402 error   Low above high\n")
    assert (
        "  kb/faults/charging/lamp-flickers.yml:16:44: KB402 error: The low end, 20, is above the high end, 8." in said
    )
    assert "  >  16 |       parts: [{name: Terminal kit, price: [20, 8]}]" in said
    assert "  +  16 |       parts: [{name: Terminal kit, price: [8, 20]}]" in said


def test_every_rule_can_be_explained() -> None:
    codes = [record["rule"] for record in json.loads(rules("--format", "json"))]
    said = rules(*codes)
    assert [code for code in codes if not re.search(rf"^{code} ", said, re.MULTILINE)] == []


def test_a_code_that_is_none_is_a_wrong_call_with_a_guess() -> None:
    result = CliRunner().invoke(main, ["rules", "KB42"])
    assert result.exit_code == 2
    assert "Did you mean KB4" in result.output


def test_rules_are_explained_in_colours_on_a_terminal_only(folder: Path) -> None:
    shown, piped = on_a_terminal(folder, "rules", "KB402"), into_a_pipe(folder, "rules", "KB402")
    assert RED in shown
    assert words(shown) == words(piped)


def test_without_a_command_it_says_what_to_do_next(
    folder: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    empty = tmp_path / "empty"
    empty.mkdir()
    monkeypatch.chdir(empty)
    alone = CliRunner().invoke(main, [])
    assert alone.exit_code == 0
    assert "kbtools new club FOLDER" in alone.output
    assert "Usage:" in alone.output
    monkeypatch.chdir(folder)
    assert "kbtools agenda" in CliRunner().invoke(main, []).output.partition("Usage:")[0]
