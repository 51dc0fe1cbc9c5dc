"""Which file of a knowledge base is what, by its path alone."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from pathlib import PurePosixPath
from typing import Literal

from kbtools.text.nearest import did_you_mean
from kbtools.wording.addresses import RESERVED

FileKind = Literal[
    "club", "systems", "cautions", "checks", "words", "accepted", "model", "fault", "case", "page", "image"
]

SINGLE_FILES: tuple[FileKind, ...] = ("club", "systems", "cautions", "checks", "words", "accepted")
"""Kinds of which there is one file, at the top."""

REQUIRED_FILES: tuple[FileKind, ...] = ("club", "systems", "cautions")
"""Without these nothing can be checked; the others may be absent."""

IMAGE_SUFFIXES = (".png", ".jpg", ".jpeg", ".webp")
"""What may stand beside hand-written pages. SVG is not among them: a browser runs the scripts in it."""

_ID = re.compile(r"[a-z0-9-]+", re.ASCII)
_FOLDERS = {"model": ("models", 1), "fault": ("faults", 2), "case": ("cases", 2)}


_USUAL = re.compile(r"(?:models|faults/[^/.]+|cases/[0-9]{4})/([a-z0-9-]+)\.yml", re.ASCII)
"""What nearly all paths are: an entry where it belongs, under an id. These are soon told."""
_KINDS: dict[str, FileKind] = {"m": "model", "f": "fault", "c": "case"}
"""First letter of such a path → kind."""
_OF_EDITORS = re.compile(r".*~|#.*#|.*\.sw[a-z]|.*\.(?:tmp|part|lock)|4913|Thumbs\.db|desktop\.ini|__pycache__")
"""What editors and desktops put beside a file."""
_NAME = re.compile(r"[\w .()+,'&=@!-]+")
"""Characters of a page's name that every file system and every address takes."""
_LONGEST_NAME = 100
_PICTURE = re.compile(r"[a-z0-9][a-z0-9.-]{0,99}\.(?:png|jpe?g|webp)")


@dataclass(frozen=True, slots=True, kw_only=True)
class Placed:
    """What a path says."""

    kind: FileKind | None
    """None: it belongs nowhere."""
    id: str
    """The stem."""
    problem: str | None = None
    """What is wrong with the path, in words."""
    hint: str = ""
    """What to do about it."""


def is_passed_over(path: str) -> bool:
    """Whether a file is no part of a knowledge base, and no mistake either: hidden ones, and what editors leave behind.

    A `README.md` is for those who write, so it is passed over too; among the pages it might be meant to be published.
    """
    if path.startswith(".") or "/." in path:
        return True
    folders, _, name = path.rpartition("/")
    if _OF_EDITORS.fullmatch(name):
        return True
    return name == "README.md" and folders.split("/", 1)[0] != "pages"


def place_of(path: str) -> Placed:
    """Tell the kind of a file from its path, relative to the knowledge base's folder."""
    usual = _USUAL.fullmatch(path)
    return _elsewhere(PurePosixPath(path)) if usual is None else Placed(kind=_KINDS[path[0]], id=usual[1])


def _elsewhere(pure: PurePosixPath) -> Placed:
    folder = pure.parts[0] if len(pure.parts) > 1 else ""
    if folder == "pages":
        return _page(pure)
    if folder == "pictures":
        return _picture(pure)
    if pure.suffix != ".yml":
        return _other_ending(pure)
    if folder == "":
        return _single(pure)
    for kind, (name, depth) in _FOLDERS.items():
        if folder == name:
            return _entry(kind, pure, depth)  # type: ignore[arg-type]
    guess = did_you_mean(folder, ["models", "faults", "cases", "pages"])
    hint = f'Did you mean "{guess}"?' if guess else "Entries stand in models, faults, cases and pages."
    return Placed(kind=None, id=pure.stem, problem=f'The folder "{folder}" is not known.', hint=hint)


def _other_ending(pure: PurePosixPath) -> Placed:
    problem, hint = f'"{pure.name}" is no file of a knowledge base.', "Take it out of the folder."
    inner = PurePosixPath(pure.stem)
    if pure.suffix.lower() in {".yaml", ".yml"}:
        hint = "Rename it to end in .yml."
    elif pure.suffix.lower() == ".txt" and inner.suffix.lower() in {".yml", ".yaml"}:
        hint = f"Rename it to {inner.stem}.yml: an editor has put .txt behind it, and some systems hide that."
    return Placed(kind=None, id=pure.stem, problem=problem, hint=hint)


def _page(pure: PurePosixPath) -> Placed:
    odd = _odd_name(pure)
    if odd is not None:
        return Placed(kind=None, id=pure.stem, problem=odd[0], hint=odd[1])
    if pure.suffix == ".md":
        return Placed(kind="page", id=pure.stem)
    if pure.suffix.lower() in IMAGE_SUFFIXES:
        return Placed(kind="image", id=pure.stem)
    problem = f'"{pure.name}" is neither a page nor a picture, and would not be published.'
    hint = f"pages/ takes .md and {', '.join(IMAGE_SUFFIXES)} only."
    return Placed(kind=None, id=pure.stem, problem=problem, hint=hint)


def _picture(pure: PurePosixPath) -> Placed:
    if len(pure.parts) == 2 and _PICTURE.fullmatch(pure.name):
        return Placed(kind="image", id=pure.stem)
    hint = (
        "Save it as JPEG, PNG or WebP and call it pictures/<name>.jpg (or .png, .webp): lower-case letters, digits and"
        " hyphens, in no further folder."
    )
    return Placed(kind=None, id=pure.stem, problem=f'"{pure.name}" is no picture that an entry can name.', hint=hint)


def _odd_name(pure: PurePosixPath) -> tuple[str, str] | None:
    """Why a page or picture cannot bear its name, and what to do; None where it can."""
    if pure.name.casefold() == "readme.md":
        return f'"{pure.name}" is not published.', "Call it index.md if it is a page, or take it out of pages/."
    for part in pure.parts:
        if not _NAME.fullmatch(part) or part != part.strip(" .") or len(part) > _LONGEST_NAME:
            hint = f"Letters, digits, spaces, hyphens and points will do, {_LONGEST_NAME} characters at most."
            return f'The name "{part}" is hard to write in an address.', hint
    first = pure.parts[1].removesuffix(".md")
    if first.casefold() in RESERVED:
        return f'"{first}" is the address of something that is generated.', "Give the page or its folder another name."
    return None


def output_of(pure: PurePosixPath) -> str:
    """Where a page or picture is written, from the site's root: `about/index.html`, `pictures/yellow-plug.jpg`."""
    if pure.parts[0] != "pages":
        return pure.as_posix()
    inner = PurePosixPath(*pure.parts[1:])
    if inner.suffix != ".md":
        return inner.as_posix()
    if inner.stem == "index":
        return inner.with_name("index.html").as_posix()
    return f"{inner.with_suffix('').as_posix()}/index.html"


def clashes(paths: Iterable[str]) -> Iterator[tuple[str, str]]:
    """Pages and pictures that would be written where another one is, or below it as if it were a folder.

    Upper and lower case are one, as they are on many file systems.

    Args:
        paths: of pages and pictures, from the knowledge base's folder.

    Yields:
        The path, and the one that has the place.
    """
    taken: dict[str, str] = {}
    for path in paths:
        output = output_of(PurePosixPath(path)).casefold()
        way = PurePosixPath(output)
        other = next((taken[each] for each in (output, *map(str, way.parents)) if each in taken), None)
        if other is None:
            taken[output] = path
            # A folder that holds something is no place for a file.
            for folder in map(str, way.parents):
                taken.setdefault(f"{folder}/", path)
            other = taken.get(f"{output}/")
        if other is not None and other != path:
            yield path, other


def _single(pure: PurePosixPath) -> Placed:
    for kind in SINGLE_FILES:
        if pure.stem == kind:
            return Placed(kind=kind, id=kind)
    guess = did_you_mean(pure.stem, SINGLE_FILES)
    hint = f"Did you mean {guess}.yml?" if guess else "Put it into the folder of its kind: models, faults or cases."
    return Placed(kind=None, id=pure.stem, problem=f'"{pure.name}" is not known at the top.', hint=hint)


def _entry(kind: FileKind, pure: PurePosixPath, depth: int) -> Placed:
    shape = {"model": "models/<model>.yml", "fault": "faults/<system>/<fault>.yml", "case": "cases/<year>/<case>.yml"}
    if len(pure.parts) != depth + 1:
        problem = f'"{pure}" stands in the wrong folder.'
        return Placed(kind=None, id=pure.stem, problem=problem, hint=f"It belongs to {shape[kind]}.")
    if kind == "case" and re.fullmatch(r"[0-9]{4}", pure.parts[1], re.ASCII) is None:
        problem = f'"{pure.parts[1]}" is no year.'
        return Placed(kind=kind, id=pure.stem, problem=problem, hint=f"Cases stand in {shape[kind]}.")
    if not is_id(pure.stem):
        fitting = fitting_id(pure.stem)
        problem = f'The name "{pure.stem}" is no id.'
        hint = f"Ids are lower-case letters a-z, digits and hyphens: {fitting or 'a-new-name'}.yml."
        return Placed(kind=kind, id=pure.stem, problem=problem, hint=hint)
    return Placed(kind=kind, id=pure.stem)


def is_id(text: str) -> bool:
    """Whether a text has the form of an id. There are no capitals in it, so no two ids differ by their case alone."""
    return _ID.fullmatch(text) is not None


def fitting_id(text: str) -> str:
    """The id nearest to a text that is none; empty where nothing of it can be used."""
    return re.sub(r"[^a-z0-9]+", "-", text.lower()).strip("-")
