"""The cache: it saves work, and whatever happens to it, the findings are the same."""

from __future__ import annotations

import datetime as dt
import math
import os
import random
import sqlite3
import subprocess
import sys
from collections.abc import Iterator, Mapping
from pathlib import Path

import pytest

from kbtools.diagnostics import Finding
from kbtools.edges import cache, checking
from kbtools.edges.shipped import shapes, tables
from kbtools.reading import contents, one_file
from kbtools.reading.reader import read
from kbtools.reading.source import SourceFile
from kbtools.rules import samples
from kbtools.vocabulary.tables import shipped_words
from kbtools.vocabulary.unsafe_words import unsafe_words
from tests.support.mutations import MUTATIONS
from tests.support.patience import LONG

TODAY = dt.date(2026, 6, 1)
STORE = "kept.sqlite"


def write(folder: Path, files: Mapping[str, str | bytes]) -> Path:
    for name, content in files.items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(content if isinstance(content, bytes) else content.encode())
    return folder


@pytest.fixture
def base(tmp_path: Path) -> Path:
    """The sample base with two mistakes: one of shape, one of a reference."""
    fault = samples.FILES["faults/charging/lamp-flickers.yml"]
    flawed = {
        "faults/charging/lamp-flickers.yml": fault.replace("system: charging", "system: chargin", 1) + "colour: red\n"
    }
    return write(tmp_path / "kb", {**samples.FILES, **flawed})


@pytest.fixture
def kept(tmp_path: Path) -> Path:
    return tmp_path / "cache"


def findings(base: Path, kept: Path | None, today: dt.date = TODAY) -> list[tuple[str, str, int, int, str]]:
    found = checking.findings_in(base, today, kept).findings
    return [(each.rule, Path(each.path).name, each.mark.line, each.mark.column, each.message) for each in found]


@pytest.fixture
def reads(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """Paths of the files that were really read."""
    done: list[str] = []
    real = one_file.read_file

    def counted(where: object, file: SourceFile, shapes: object) -> one_file.Content:
        done.append(file.path)
        return real(where, file, shapes)  # type: ignore[arg-type]

    monkeypatch.setattr(contents, "read_file", counted)
    return done


def test_what_did_not_change_is_not_read_again(base: Path, kept: Path, reads: list[str]) -> None:
    first = findings(base, kept)
    assert {each[0] for each in first} == {"KB202", "KB302"}
    assert reads
    reads.clear()
    assert findings(base, kept) == first
    assert reads == []


def test_a_changed_file_alone_is_read_again_and_everything_is_judged_anew(
    base: Path, kept: Path, reads: list[str]
) -> None:
    findings(base, kept)
    reads.clear()
    systems = base / "systems.yml"
    systems.write_text(systems.read_text("utf-8").replace("id: charging,", "id: chargin,", 1), "utf-8")
    after = findings(base, kept)
    assert reads == ["systems.yml"]
    # The reference holds now, and what named the old id does not: nothing of the old judgement is left.
    assert after == findings(base, None)
    assert ("KB302", "lamp-flickers.yml") not in {each[:2] for each in after}


def test_the_day_counts(base: Path, kept: Path) -> None:
    fault = base / "faults/charging/lamp-flickers.yml"
    assert "on: 2026-0" in fault.read_text("utf-8"), "the sample's date of review has moved: choose other days"
    for day in (dt.date(2025, 1, 1), TODAY, dt.date(2025, 1, 1)):
        assert findings(base, kept, day) == findings(base, None, day)
    assert findings(base, kept, dt.date(2025, 1, 1)) != findings(base, kept, TODAY)


def test_a_file_that_is_moved_is_placed_anew(base: Path, kept: Path) -> None:
    findings(base, kept)
    fault = base / "faults/charging/lamp-flickers.yml"
    fault.rename(fault.with_name("lamp-flutters.yml"))
    assert findings(base, kept) == findings(base, None)


@pytest.mark.parametrize("content", [b"", b"no database at all", b"SQLite format 3\x00" + b"\xff" * 5000])
def test_a_broken_store_is_no_store(base: Path, kept: Path, content: bytes) -> None:
    expected = findings(base, None)
    kept.mkdir()
    (kept / STORE).write_bytes(content)
    assert findings(base, kept) == expected
    assert findings(base, kept) == expected


def test_a_store_with_broken_pages_gives_the_same_or_nothing(base: Path, kept: Path, thorough: bool) -> None:
    expected = findings(base, None)
    findings(base, kept)
    whole = (kept / STORE).read_bytes()
    choose = random.Random(4)
    for _ in range(40 if thorough else 6):
        data = bytearray(whole)
        for _ in range(choose.randint(1, 60)):
            data[choose.randrange(len(data))] = choose.randrange(256)
        (kept / STORE).write_bytes(data[: choose.choice([len(data), len(data) // 2, 100])])
        assert findings(base, kept) == expected


def test_a_value_that_was_tampered_with_is_not_believed(base: Path, kept: Path) -> None:
    expected = findings(base, kept)
    with sqlite3.connect(kept / STORE) as store:
        assert store.execute("UPDATE kept SET value = ?", (b'{"findings": []}',)).rowcount > 0
    store.close()
    assert findings(base, kept) == expected


def test_another_version_of_the_program_does_not_believe_it(
    base: Path, kept: Path, reads: list[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    findings(base, kept)
    reads.clear()
    monkeypatch.setattr(cache, "_running", lambda: b"another")
    findings(base, kept)
    assert reads, "the other version took over what this one had kept"


def test_an_edited_schema_counts(base: Path, kept: Path, reads: list[str], monkeypatch: pytest.MonkeyPatch) -> None:
    findings(base, kept)
    reads.clear()
    other = write(base.parent / "other", {"fault.schema.json": "{}"})
    monkeypatch.setattr(cache, "shipped", lambda name: other)
    findings(base, kept)
    assert reads


def test_a_deleted_store_is_made_again(base: Path, kept: Path) -> None:
    expected = findings(base, kept)
    (kept / STORE).unlink()
    assert findings(base, kept) == expected
    assert (kept / STORE).exists()


def test_a_folder_that_cannot_be_written_is_done_without(base: Path, tmp_path: Path) -> None:
    expected = findings(base, None)
    # A file where the folder should be: that stops the superuser too, whom permissions do not.
    in_the_way = tmp_path / "in-the-way"
    in_the_way.write_text("", "utf-8")
    assert findings(base, in_the_way) == expected
    assert findings(base, in_the_way / "below") == expected


def test_a_store_that_only_reads_still_gives(base: Path, kept: Path) -> None:
    expected = findings(base, kept)
    (kept / STORE).chmod(0o400)
    kept.chmod(0o500)
    try:
        assert findings(base, kept) == expected
        (base / "words.yml").write_text("[[a, b]]\n", "utf-8")
        assert findings(base, kept) == findings(base, None)
    finally:
        kept.chmod(0o700)


def test_a_store_that_another_run_holds_is_done_without(
    base: Path, kept: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    expected = findings(base, kept)
    monkeypatch.setattr(cache, "_WAIT", 0.05)
    holder = sqlite3.connect(kept / STORE, isolation_level=None)
    holder.execute("BEGIN EXCLUSIVE")
    try:
        assert findings(base, kept) == expected
    finally:
        holder.close()


def test_many_runs_at_once_agree(base: Path, kept: Path, thorough: bool) -> None:
    command = [sys.executable, "-m", "kbtools", "check", "--kb", str(base), "--format", "json"]
    surroundings = {**os.environ, "KBTOOLS_CACHE": str(kept), "SOURCE_DATE_EPOCH": "1780300800"}
    runs = [
        subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.PIPE, env=surroundings)
        for _ in range(6 if thorough else 3)
    ]
    answers = [run.communicate(timeout=LONG) for run in runs]
    assert {run.returncode for run in runs} == {1}
    assert {error for _, error in answers} == {b""}
    assert len({answer for answer, _ in answers}) == 1


def test_what_nobody_asks_for_goes(base: Path, kept: Path) -> None:
    findings(base, kept)
    write(base, {"words.yml": "[[a, b]]\n"})
    # Asked for again half a month later it stays; what belonged to the old words does not.
    for days in (20, 40):
        findings(base, kept, TODAY + dt.timedelta(days=days))
    with sqlite3.connect(kept / STORE) as store:
        oldest = store.execute("SELECT min(day) FROM kept").fetchone()[0]
    store.close()
    assert oldest > TODAY.toordinal()


def broken_bases() -> Iterator[dict[str, bytes]]:
    """Two hundred sample bases, each with one broken file."""
    choose = random.Random(7)
    paths = [path for path in samples.FILES if path.endswith(".yml")]
    for number in range(200):
        path = choose.choice(paths)
        whole = {name: text.encode() for name, text in samples.FILES.items()}
        kind = list(MUTATIONS)[number % len(MUTATIONS)]
        yield {**whole, path: MUTATIONS[kind](samples.FILES[path], choose)}


STEP = next(step for step in range(10, 200) if math.gcd(step, len(MUTATIONS)) == 1)
"""Of a sample of them: about twenty, each broken in another way."""


def test_what_was_kept_of_a_file_is_what_it_said(kept: Path, thorough: bool) -> None:
    known = shapes()
    for files in list(broken_bases())[:: 1 if thorough else STEP]:
        sources = [SourceFile(path=name, data=data) for name, data in files.items()]
        plain = read(sources, known)
        for _ in range(2):
            with cache.opened(kept, TODAY.toordinal()) as memory:
                assert read(sources, known, memory) == plain


def test_the_vocabulary_is_kept_as_it_was_read(kept: Path) -> None:
    for _ in range(2):
        with cache.opened(kept, TODAY.toordinal()) as memory:
            quick = memory.tables(tables())
        assert shipped_words(quick) == shipped_words(tables())
        assert unsafe_words(quick.unsafe) == unsafe_words(tables().unsafe)


def test_without_a_store_the_vocabulary_is_read_as_it_comes() -> None:
    with cache.opened(None, TODAY.toordinal()) as memory:
        assert memory.tables(tables()) is tables()


def test_comments_are_kept_as_well(kept: Path) -> None:
    sources = [SourceFile(path=name, data=f"# ask Wenzel\n{text}".encode()) for name, text in samples.FILES.items()]
    plain = read(sources, shapes())
    assert [each for each in plain.base.writings if each.kind == "comment"]
    for _ in range(2):
        with cache.opened(kept, TODAY.toordinal()) as memory:
            assert read(sources, shapes(), memory) == plain


def test_findings_come_back_as_they_were(kept: Path, thorough: bool) -> None:
    for files in list(broken_bases())[:: 1 if thorough else STEP]:
        sources = [SourceFile(path=name, data=data) for name, data in files.items()]
        with cache.opened(None, 1) as none:
            plain = checking.findings_of(sources, TODAY, none)
        for _ in range(2):
            with cache.opened(kept, TODAY.toordinal()) as memory:
                again = checking.findings_of(sources, TODAY, memory)
            assert again == plain
            assert all(isinstance(each, Finding) for each in again.findings)


def test_off_means_off(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    monkeypatch.setenv(cache.VARIABLE, "off")
    assert cache.place() is None
    monkeypatch.setenv(cache.VARIABLE, str(tmp_path))
    assert cache.place() == tmp_path
