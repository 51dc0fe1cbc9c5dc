"""Puts a finished site in place in one step, so that nobody ever meets half of one.

A build goes into a hidden folder beside the site. Only when it is whole does it take the site's place: on Linux by
one system call that exchanges two names, elsewhere by two renames. A run that is killed leaves the old site whole, or,
between those two renames, set aside under a name from which the next run puts it back.
"""

from __future__ import annotations

import contextlib
import errno
import os
import re
import secrets
import shutil
import stat
from collections.abc import Callable, Iterator, Sequence
from pathlib import Path
from typing import Literal

from kbtools.edges import file_system as filesystem
from kbtools.edges.spare import set_aside

MARKER = ".kbtools-site"
"""Name of the small file that says: this folder was built here and may be replaced as a whole."""

_MARKER_TEXT = "Built by kbtools. Each build replaces this folder.\n"
_OWN_TREES = (".git", ".hg", ".svn")
"""Folders that make a folder the working tree of a repository: replacing it would throw its history away."""
_MKDOCS_SIGNS = ("index.html", "404.html", "sitemap.xml", "sitemap.xml.gz")
"""What every `mkdocs build` leaves at the top: a site built before this tool came may be replaced too."""
_MOUNT_HINT = "Build into a folder inside it, or build elsewhere and copy the finished site there."

_Role = Literal["new", "old", "trash"]


class PublishError(Exception):
    """The site was not put in place; what stood there before still stands."""

    def __init__(self, message: str, hint: str) -> None:
        super().__init__(message)
        self.message = message
        """What is wrong, one sentence."""
        self.hint = hint
        """What to do about it, one sentence."""


def publish(
    site_dir: Path,
    build: Callable[[Path], None],
    *,
    keep_clear: Sequence[Path] = (),
    durable: bool = True,
    spare: Path | None = None,
) -> None:
    """Build a site and put it in place of `site_dir` in one step.

    `build` gets an empty folder on the same file system, to fill. What it raises goes through to the caller; the
    folder is removed and the old site stays. Folders left by killed runs are removed. Hidden entries at the top of the
    old site that the build does not make (`.htaccess`, say) are kept, as `mkdocs build` keeps them.

    `keep_clear` names folders, the knowledge base above all, that must not be the site, hold it or lie in it. With
    `durable` the new files reach the disk before they take the old ones' place, so that a power cut leaves no empty
    pages: one system call on Linux, nothing elsewhere. The old site becomes the `spare` one, if that can be
    (`kbtools.edges.spare`); else it is removed.

    Raises `PublishError` where the place is refused, another build is running, or the file system refuses.
    """
    site = _placed(site_dir)
    _refuse_place(site, keep_clear)
    with _locked(site):
        with _explained(site):
            _repair(site)
            _refuse_content(site)
            new = _sibling(site, "new")
            new.mkdir()
        try:
            build(new)
            with _explained(site):
                _finish(site, new, durable=durable)
                # A build takes a while: what stands in the place now may not be what stood there before.
                _refuse_place(site, keep_clear)
                _refuse_content(site)
                _put_in_place(site, new, spare)
        finally:
            _remove(new)


# --- what may be replaced


def _placed(site_dir: Path) -> Path:
    """The absolute path; links among its parents resolved, the last name left as it is."""
    absolute = Path(os.path.abspath(site_dir))  # noqa: PTH100 - Path.resolve would follow the last name
    return absolute.parent.resolve() / absolute.name


def _refuse_place(site: Path, keep_clear: Sequence[Path]) -> None:
    """Refuse places that cannot be exchanged or whose loss would hurt."""
    if site.is_symlink():
        raise PublishError(f"{site} is a symbolic link", "Give the folder that it points to.")
    if site.exists() and not site.is_dir():
        raise PublishError(f"{site} is not a folder", "Give the name of a folder; it is made if it does not exist.")
    if os.path.ismount(site):
        raise PublishError(f"{site} is a mount point and cannot be exchanged", _MOUNT_HINT)
    if _holds(site, Path.cwd()):
        raise PublishError(f"{site} is or holds the current directory", "Build into another folder.")
    for kept in (path.resolve() for path in keep_clear):
        if _holds(site, kept) or _holds(kept, site):
            raise PublishError(
                f"{site} and {kept} overlap, and a build replaces the whole folder",
                "Build into a folder that neither holds the other nor lies in it.",
            )


def _refuse_content(site: Path) -> None:
    """Refuse a folder that holds anything but a built site."""
    if not site.is_dir() or not any(site.iterdir()):
        return
    for name in _OWN_TREES:
        if (site / name).is_dir():
            raise PublishError(
                f"{site} is the working tree of a repository ({name}), which a build would throw away",
                "Build into another folder and copy the finished site there.",
            )
    if not (site / MARKER).is_file() and not all((site / sign).is_file() for sign in _MKDOCS_SIGNS):
        raise PublishError(
            f"{site} is not empty and does not look like a built site; a build would replace everything in it",
            "Build into a new folder, or remove this one yourself if nothing in it is needed.",
        )


def _holds(outer: Path, inner: Path) -> bool:
    """Whether `inner` is `outer` or lies in it, also where one folder goes by two names (case, bind mounts)."""
    return any(_same(outer, part) for part in (inner, *inner.parents))


def _same(one: Path, other: Path) -> bool:
    try:
        return one == other or one.samefile(other)
    except OSError:
        return False


# --- the names beside the site


def _sibling(site: Path, role: _Role) -> Path:
    return site.with_name(f".{site.name}.kbtools-{role}-{secrets.token_hex(4)}")


def _siblings(site: Path, *roles: _Role) -> list[Path]:
    """Folders of earlier runs. The lock is held, so none belongs to a run that still goes on."""
    pattern = re.compile(re.escape(f".{site.name}.kbtools-") + f"(?:{'|'.join(roles)})-[0-9a-f]{{8}}")
    named = [path for path in site.parent.iterdir() if pattern.fullmatch(path.name)]
    return [path for path in named if path.is_dir() and not path.is_symlink()]


def _repair(site: Path) -> None:
    for old in _siblings(site, "old"):
        with contextlib.suppress(OSError):
            site.rmdir()  # succeeds only for an empty folder, which is worth less than the site set aside
        if os.path.lexists(site):
            _discard(site, old)
        else:
            filesystem.rename(old, site)
    for stale in _siblings(site, "new", "trash"):
        _remove(stale)


def _discard(site: Path, old: Path) -> None:
    """Remove a site set aside: under another name first, since a folder named `old` is taken to be whole."""
    trash = _sibling(site, "trash")
    filesystem.rename(old, trash)
    _remove(trash)


def _remove(folder: Path) -> None:
    """Remove what is no longer needed; what cannot go now is tried again by the next run."""
    shutil.rmtree(folder, ignore_errors=True)


# --- into place


def _finish(site: Path, new: Path, *, durable: bool) -> None:
    """Make a built folder ready to take the site's place."""
    if not (new / "index.html").is_file():
        raise PublishError("The build left no index.html", "Look at what the build said; the old site stays.")
    (new / MARKER).write_text(_MARKER_TEXT, encoding="utf-8")
    if site.is_dir():
        _keep_hidden(site, new)
        new.chmod(stat.S_IMODE(site.stat().st_mode))
    if durable:
        filesystem.flush(new)


def _keep_hidden(site: Path, new: Path) -> None:
    for kept in site.glob(".*"):
        target = new / kept.name
        if os.path.lexists(target):
            continue
        if kept.is_dir() and not kept.is_symlink():
            shutil.copytree(kept, target, symlinks=True)
        else:
            shutil.copy2(kept, target, follow_symlinks=False)


def _put_in_place(site: Path, new: Path, spare: Path | None) -> None:
    if not site.exists():
        filesystem.rename(new, site)
    elif not filesystem.exchange(new, site):
        _move_aside(site, new, spare)
    elif spare is not None:
        # The old site, which the new one has exchanged names with. What cannot be set aside is removed in the end.
        set_aside(new, spare)
    filesystem.flush_names(site.parent)


def _move_aside(site: Path, new: Path, spare: Path | None) -> None:
    """The two renames where no exchange is to be had. Killed in between, the next run puts the old site back."""
    old = _sibling(site, "old")
    try:
        filesystem.rename(site, old)
        filesystem.rename(new, site)
    except BaseException:
        if old.exists() and not site.exists():
            filesystem.rename(old, site)
        raise
    with contextlib.suppress(OSError):  # the new site stands; the next run tries again to remove the old one
        if spare is None or not set_aside(old, spare):
            _discard(site, old)


@contextlib.contextmanager
def _explained(site: Path) -> Iterator[None]:
    """Turn the file system's refusals into what the maintainer can do about them."""
    try:
        yield
    except OSError as error:
        hint = "Build into another folder."
        if error.errno == errno.EBUSY:
            hint = _MOUNT_HINT
        elif error.errno in {errno.EACCES, errno.EPERM, errno.EROFS}:
            hint = f"A site is built beside its place: allow writing in {site.parent}, or build into another folder."
        raise PublishError(f"{site} cannot be put in place: {error.strerror or error}", hint) from error


# --- one at a time


@contextlib.contextmanager
def _locked(site: Path) -> Iterator[None]:
    """Hold the lock of this site; the kernel lets go of it however the process ends."""
    path = site.with_name(f".{site.name}.kbtools-lock")
    with _explained(site):
        site.parent.mkdir(parents=True, exist_ok=True)
        number = filesystem.take_lock(path)
    if number is None:
        raise PublishError(f"Another build into {site} is running", "Wait for it to end, or stop it.")
    try:
        yield
    finally:
        filesystem.release_lock(path, number)
