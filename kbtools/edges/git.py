"""What a branch touches, and the files as they were before it: the only caller of git."""

from __future__ import annotations

import subprocess
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path, PurePosixPath

from kbtools.reading.layout import IMAGE_SUFFIXES, is_passed_over
from kbtools.reading.source import MAX_BYTES, SourceFile

_LINK = "120000"
_FOREIGN = "160000"
"""Modes of a tree's entries: a link, and a repository within the repository."""


MOST_COMMITS = 500
"""So far back the log is looked at."""


class GitError(Exception):
    """git is not there, the folder is in no repository, or the revision is not known."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Branch:
    """What the working folder has that a revision did not have."""

    start: str
    """Commit where the branch left the revision."""
    touched: frozenset[str]
    """Files that differ from there, new and deleted ones too; paths relative to the knowledge base's folder."""


def branch(folder: Path, revision: str) -> Branch:
    """Compare the folder as it stands, uncommitted changes included, with the point where it left a revision.

    Raises:
        GitError: see there.
    """
    named = _git(
        folder, "rev-parse", "--verify", "--quiet", "--end-of-options", f"{revision}^{{commit}}", what=revision
    )
    start = _git(folder, "merge-base", named.strip(), "HEAD", what=revision).strip()
    changed = _git(folder, "diff", "--name-only", "--no-renames", "--relative", "-z", start, "--", ".")
    new = _git(folder, "ls-files", "--others", "--exclude-standard", "-z", "--", ".")
    return Branch(start=start, touched=frozenset(_names(changed + new)))


def edited(folder: Path) -> frozenset[str]:
    """Files that are new or differ from the last commit; none where that cannot be told."""
    if not _in_repository(folder):
        return frozenset()
    try:
        changed = _git(folder, "diff", "--name-only", "--no-renames", "--relative", "-z", "HEAD", "--", ".")
        new = _git(folder, "ls-files", "--others", "--exclude-standard", "-z", "--", ".")
    except GitError:
        return frozenset()
    return frozenset(_names(changed + new))


def files_at(folder: Path, commit: str) -> Iterator[SourceFile]:
    """The knowledge base's files as a commit has them; the same are looked at as in the folder.

    Raises:
        GitError: see there.
    """
    entries = []
    for line in _names(_git(folder, "ls-tree", "-r", "-z", commit, "--", ".")):
        about, _, name = line.partition("\t")
        mode, _, blob = about.split(" ")
        if not is_passed_over(name):
            entries.append((mode, blob, name))
    plain = [each for each in entries if each[0] not in {_LINK, _FOREIGN} and not _is_image(each[2])]
    for mode, _, name in entries:
        if mode == _LINK:
            yield SourceFile(path=name, data=None, problem="it is a link")
        elif _is_image(name):
            yield SourceFile(path=name, data=b"")
    for (_, _, name), data in zip(plain, _contents(folder, [blob for _, blob, _ in plain]), strict=True):
        yield SourceFile(path=name, data=data[: MAX_BYTES + 1])


def log(folder: Path) -> bytes:
    """The latest commits that touch entries or cases, each with its files, as `kbtools.changes.history` reads them.

    The commits of the branch itself, a merge being one change, so that a day is the one on which it was published.
    Empty where the folder lies in no repository.

    Raises:
        GitError: see there.
    """
    if not _in_repository(folder):
        return b""
    form = ["-z", "--raw", "--no-abbrev", "--no-renames", "--no-color", "--no-show-signature", "--format=%x01%P%x02%ct"]
    line = ["--first-parent", "--diff-merges=first-parent", "--relative", f"--max-count={MOST_COMMITS}"]
    return _run(folder, ["log", *form, *line, "--", "faults", "cases"], None, "the last commit")


def contents(folder: Path, blobs: Sequence[str]) -> dict[str, bytes]:
    """The contents of files by their ids.

    Raises:
        GitError: see there; one of them is not here.
    """
    return dict(zip(blobs, _contents(folder, blobs), strict=True))


def _in_repository(folder: Path) -> bool:
    return any((each / ".git").exists() for each in (folder.resolve(), *folder.resolve().parents))


def _is_image(name: str) -> bool:
    return PurePosixPath(name).suffix.lower() in IMAGE_SUFFIXES


def _contents(folder: Path, blobs: Sequence[str]) -> Iterator[bytes]:
    """The blobs in their order, with one call; each stands between a line `<id> blob <bytes>` and a line feed."""
    if not blobs:
        return
    answer = _run(folder, ["cat-file", "--batch"], "\n".join(blobs).encode() + b"\n", "its files")
    at = 0
    for _ in blobs:
        end = answer.index(b"\n", at)
        if answer.endswith(b" missing", at, end):
            raise GitError("A content is not here; fetch it first.")
        size = int(answer[at:end].rsplit(b" ", 1)[1])
        yield answer[end + 1 : end + 1 + size]
        at = end + 1 + size + 1


def _git(folder: Path, *arguments: str, what: str = "") -> str:
    return _run(folder, arguments, None, what).decode("utf-8", "backslashreplace")


def _run(folder: Path, arguments: Sequence[str], given: bytes | None, what: str) -> bytes:
    try:
        done = subprocess.run(  # noqa: S603 - no shell, and a revision cannot be taken for an option
            ["git", "-C", str(folder), *arguments],  # noqa: S607 - the user's own git
            input=given,
            capture_output=True,
            check=True,
        )
    except FileNotFoundError as error:
        raise GitError("git is not installed.") from error
    except subprocess.CalledProcessError as error:
        said = error.stderr.decode("utf-8", "replace").strip().splitlines()
        unknown = f'"{what}" is no commit that is here and has a common past with it; fetch it first.'
        raise GitError(said[-1] if said else unknown) from error
    return done.stdout


def _names(listed: str) -> list[str]:
    return [each for each in listed.split("\0") if each]
