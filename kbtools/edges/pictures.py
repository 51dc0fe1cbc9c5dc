"""Pictures are opened, and what is published is drawn anew: pixels only, without what a camera writes beside them.

A photograph carries where and when it was taken, and often by whom. A file that says it is a picture may be anything.
So each is decoded before it is accepted, and the site gets what was decoded, scaled for a page. Nothing of the file
itself is published.
"""

from __future__ import annotations

import base64
import dataclasses
import functools
import io
import warnings
from collections.abc import Iterable, Iterator
from pathlib import Path, PurePosixPath
from typing import TYPE_CHECKING, Final, Protocol

from kbtools.edges.folder import source_file
from kbtools.model.base import PictureFile
from kbtools.model.memory import Memory
from kbtools.reading.layout import IMAGE_SUFFIXES
from kbtools.reading.source import MAX_PICTURE_BYTES, SourceFile

if TYPE_CHECKING:
    from PIL import Image

MOST_PIXELS: Final = 50_000_000
"""Of a picture that is opened: twice a telephone's camera. The head of a file tells, before anything is decoded."""
LONGEST_SIDE: Final = 1600
"""Pixels of the longest side on a page; a longer one is scaled down."""
SMALL_WIDTH: Final = 640
"""Pixels of the width in which a wider picture of an entry is published too: a telephone's, and what is kept there."""
FORMATS: Final = {".png": "PNG", ".jpg": "JPEG", ".jpeg": "JPEG", ".webp": "WEBP"}
"""What a picture's name must be true of; hosts tell browsers by the name."""
_SAVED: Final[dict[str, dict[str, object]]] = {
    "PNG": {"optimize": True},
    "JPEG": {"quality": 85, "optimize": True},
    "WEBP": {"quality": 85, "method": 4},
}
_SHRINK = f"Save it again as JPEG or PNG with at most {LONGEST_SIDE} pixels a side; that is as large as it is shown."
_WORK = "drawn"
_ANEW = "Open it with a picture program and save it again as JPEG, PNG or WebP."


class PictureError(ValueError):
    """A file that is no picture to publish."""

    def __init__(self, problem: str, hint: str) -> None:
        super().__init__(problem)
        self.problem = problem
        """Why not, in words: `it is …`."""
        self.hint = hint
        """What to do about it."""


@dataclasses.dataclass(frozen=True, slots=True, kw_only=True)
class Rendition:
    """One width of a picture, as the site gets it."""

    path: str
    """Where it is written, from the knowledge base's folder: `pictures/plug.jpg`, or `pictures/640/plug.jpg`."""
    data: bytes
    """The file."""
    width: int
    """Pixels."""
    height: int
    """Pixels."""


class Verdicts(Protocol):
    """What was thought of pictures before."""

    def picture(self, digest: bytes) -> tuple[str, str] | None:
        """Problem and hint of a picture with this content, both empty where there is none; None: not known."""

    def keep_picture(self, digest: bytes, problem: str, hint: str) -> None:
        """Take in what was thought."""


def looked_at(files: Iterable[SourceFile], verdicts: Verdicts) -> Iterator[SourceFile]:
    """The files, each picture looked at: of a good one its digest stands for its content, of another why it is none.

    One at a time, so that many pictures take no more room than one.
    """
    for file in files:
        if file.data is None or not file.path.lower().endswith(IMAGE_SUFFIXES):
            yield file
            continue
        digest = file.digest
        suffix = PurePosixPath(file.path).suffix.lower()
        key = digest + suffix.encode()
        known = verdicts.picture(key)
        if known is None:
            known = _judged(file.data, suffix)
            verdicts.keep_picture(key, *known)
        problem, hint = known
        if problem:
            yield dataclasses.replace(file, data=None, problem=problem, hint=hint)
        else:
            yield dataclasses.replace(file, data=digest)


def published(folder: Path, picture: PictureFile, memory: Memory | None = None) -> tuple[Rendition, ...]:
    """What the site gets for a picture that was looked at, the widest last.

    One of an entry comes in two widths, unless it is narrow itself or the narrow one has no fewer bytes. The narrow one
    lies in a folder of its own, where no other can. Hand-written pages name one file. A memory knows what was drawn.

    Raises:
        PictureError: it is no longer the one that was looked at.
    """
    file = source_file(folder, picture.path)
    if file.data is None or file.digest != picture.digest:
        raise PictureError("it was changed while the site was built", "Build again.")
    path = PurePosixPath(picture.path)
    suffix = path.suffix.lower()
    draw = functools.partial(_drawn, file.data, suffix, picture.digest, memory)
    wide = _rendition(picture.path, draw(LONGEST_SIDE))
    if path.parts[0] != "pictures" or wide.width <= SMALL_WIDTH:
        return (wide,)
    name = str(path.parent / str(SMALL_WIDTH) / path.name)
    small = _rendition(name, draw(SMALL_WIDTH))
    return (small, wide) if len(small.data) < len(wide.data) else (wide,)


def _drawn(data: bytes, suffix: str, digest: bytes, memory: Memory | None, widest: int) -> bytes:
    asked = digest + f"{suffix} {widest}".encode()
    known: str | None = None if memory is None else memory.worked_out(_WORK, asked)
    if known is not None:
        return base64.b64decode(known)
    drawn = drawn_anew(data, suffix, widest)
    if memory is not None:
        memory.keep_worked_out(_WORK, asked, base64.b64encode(drawn).decode())
    return drawn


def _rendition(path: str, data: bytes) -> Rendition:
    from PIL import Image  # noqa: PLC0415

    with Image.open(io.BytesIO(data)) as image:
        return Rendition(path=path, data=data, width=image.width, height=image.height)


def _judged(data: bytes, suffix: str) -> tuple[str, str]:
    try:
        drawn_anew(data, suffix)
    except PictureError as error:
        return error.problem, error.hint
    return "", ""


def drawn_anew(data: bytes, suffix: str, widest: int = LONGEST_SIDE) -> bytes:
    """A picture's pixels, upright and in the size of a page, in the format that its name says.

    Args:
        data: the file.
        suffix: of its name, in lower case.
        widest: pixels; a wider one is scaled down.

    Raises:
        PictureError: it is none, another one than its name says, or too large.
    """
    if len(data) > MAX_PICTURE_BYTES:
        raise PictureError(f"it has more than {MAX_PICTURE_BYTES:,} bytes", _SHRINK)
    # Few bases have pictures, and a check without them does without the library.
    from PIL import Image, UnidentifiedImageError  # noqa: PLC0415

    wanted = FORMATS[suffix]
    try:
        with warnings.catch_warnings():
            # A file may say anything about itself; what it says beside its pixels is not wanted.
            warnings.simplefilter("ignore")
            with Image.open(io.BytesIO(data), formats=sorted(set(FORMATS.values()))) as opened:
                _refuse(opened, wanted)
                return _saved(opened, wanted, widest)
    except PictureError:
        raise
    except Image.DecompressionBombError as error:
        raise PictureError(f"it has far more than {MOST_PIXELS:,} pixels", _SHRINK) from error
    except UnidentifiedImageError as error:
        raise PictureError("it is no JPEG, PNG or WebP picture", _ANEW) from error
    except Exception as error:
        # A decoder that is fed nonsense raises whatever it stumbles on.
        raise PictureError("it is a picture that cannot be read to its end", _ANEW) from error


def _refuse(opened: Image.Image, wanted: str) -> None:
    if opened.format != wanted:
        name = next(suffix for suffix, form in FORMATS.items() if form == opened.format)
        raise PictureError(f"it is a {opened.format} picture under another name", f"Let its name end in {name}.")
    if opened.width * opened.height > MOST_PIXELS:
        raise PictureError(f"it has {opened.width} × {opened.height} pixels", _SHRINK)
    if getattr(opened, "n_frames", 1) > 1:
        raise PictureError("it is a picture that moves", "Save one frame of it.")


def _saved(opened: Image.Image, form: str, widest: int) -> bytes:
    from PIL import Image, ImageOps  # noqa: PLC0415

    # A large JPEG is decoded at a fraction of its size, which costs a fraction of the time.
    opened.draft("RGB", (LONGEST_SIDE, LONGEST_SIDE))
    upright = ImageOps.exif_transpose(opened)
    clear = form != "JPEG" and (upright.mode in {"RGBA", "LA", "PA"} or "transparency" in upright.info)
    pixels = upright.convert("RGBA" if clear else "RGB")
    listed = _with_list(pixels) if form == "PNG" and not clear else None
    pixels.thumbnail((widest, LONGEST_SIDE))
    # A new picture has no more than its pixels.
    bare = Image.new(pixels.mode, pixels.size)
    bare.paste(pixels)
    if listed is not None:
        bare = listed if bare.size == listed.size else bare.quantize(palette=listed, dither=Image.Dither.NONE)
    out = io.BytesIO()
    bare.save(out, form, **_SAVED[form])
    return out.getvalue()


def _with_list(pixels: Image.Image) -> Image.Image | None:
    """A drawing of few colours with a list of them, which takes a fraction of the bytes; None: it has too many.

    Scaled down it keeps to its list, in which a drawing with smooth edges has all the mixtures that it needs.
    """
    from PIL import Image  # noqa: PLC0415

    if pixels.getcolors(256) is None:
        return None
    bare = Image.new(pixels.mode, pixels.size)
    bare.paste(pixels)
    return bare.convert("P", palette=Image.Palette.ADAPTIVE, colors=256)
