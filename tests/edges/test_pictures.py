"""Pictures: opened, drawn anew without what a camera writes beside them, and refused where they are none."""

from __future__ import annotations

import hashlib
import io
import re
import struct
import zlib
from pathlib import Path
from typing import Any

import pytest
from PIL import Image

from kbtools.edges import checking
from kbtools.edges.pictures import LONGEST_SIDE, MOST_PIXELS, PictureError, drawn_anew, looked_at, published
from kbtools.edges.rendering import Renderer, Width
from kbtools.model.base import PictureFile
from kbtools.reading.source import MAX_PICTURE_BYTES, SourceFile
from kbtools.rules import samples
from tests.support import factories as make
from tests.support.checked_samples import TODAY

TELEPHONE = "+49 30 23125 000"  # Bundesnetzagentur: 030 23125 000 to 999 are kept for films.


def photograph(form: str = "JPEG", size: tuple[int, int] = (60, 40), **more: Any) -> bytes:
    """A picture with a position, a name and a telephone number in its metadata, left half red, right half blue."""
    image = Image.new("RGB", size, "red")
    image.paste("blue", (size[0] // 2, 0, size[0], size[1]))
    exif = Image.Exif()
    exif[0x013B] = "A. Member"  # Artist, Exif 2.32
    exif[0x010E] = TELEPHONE  # ImageDescription
    place = exif.get_ifd(0x8825)  # GPS
    place[1], place[2] = "N", (51.0, 28.0, 40.0)
    for tag, value in more.items():
        exif[int(tag.removeprefix("tag"), 16)] = value
    out = io.BytesIO()
    image.save(out, form, exif=exif.tobytes())
    return out.getvalue()


class Nothing:
    def picture(self, digest: bytes) -> None:
        return None

    def keep_picture(self, digest: bytes, problem: str, hint: str) -> None:
        pass


def looked(path: str, data: bytes) -> SourceFile:
    (file,) = looked_at([SourceFile(path=path, data=data)], Nothing())
    return file


@pytest.mark.parametrize(("form", "suffix"), [("JPEG", ".jpg"), ("JPEG", ".jpeg"), ("PNG", ".png"), ("WEBP", ".webp")])
def test_nothing_but_pixels_is_published(form: str, suffix: str) -> None:
    taken = photograph(form)
    assert b"A. Member" in taken
    assert TELEPHONE.encode() in taken
    drawn = drawn_anew(taken, suffix)
    assert b"A. Member" not in drawn
    assert TELEPHONE.encode() not in drawn
    with Image.open(io.BytesIO(drawn)) as image:
        assert image.format == form
        assert image.size == (60, 40)
        assert not image.getexif()
        left, right = image.convert("RGB").getpixel((10, 20)), image.convert("RGB").getpixel((50, 20))
    assert isinstance(left, tuple)
    assert isinstance(right, tuple)
    assert (left[0] > 200, left[2] < 60, right[0] < 60, right[2] > 200) == (True, True, True, True)


def test_text_and_unknown_chunks_of_a_png_go(tmp_path: Path) -> None:
    def chunk(kind: bytes, data: bytes) -> bytes:
        return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))

    plain = photograph("PNG")
    # After the signature and the header, 8 and 25 bytes: PNG (ISO/IEC 15948), 5.6.
    more = plain[:33] + chunk(b"tEXt", b"Comment\0" + TELEPHONE.encode()) + chunk(b"prVt", b"secret") + plain[33:]
    drawn = drawn_anew(more + b"<script>after the end</script>", ".png")
    assert TELEPHONE.encode() not in drawn
    assert b"secret" not in drawn
    assert b"script" not in drawn


def test_a_picture_taken_on_its_side_stands_upright() -> None:
    """Exif orientation 6: the first row is the right-hand side. Exif 2.32, 4.6.4."""
    drawn = drawn_anew(photograph(tag0112=6), ".jpg")
    with Image.open(io.BytesIO(drawn)) as image:
        assert image.size == (40, 60)
        top = image.convert("RGB").getpixel((20, 10))
    assert isinstance(top, tuple)
    assert top[0] > 200


def test_a_large_picture_is_scaled_down_and_a_clear_one_stays_clear() -> None:
    with Image.open(io.BytesIO(drawn_anew(photograph(size=(4000, 3000)), ".jpg"))) as image:
        assert image.size == (LONGEST_SIDE, LONGEST_SIDE * 3 // 4)
    out = io.BytesIO()
    Image.new("RGBA", (8, 8), (255, 0, 0, 0)).save(out, "PNG")
    with Image.open(io.BytesIO(drawn_anew(out.getvalue(), ".png"))) as image:
        assert image.mode == "RGBA"


def bomb(width: int, height: int) -> bytes:
    """A PNG of a few bytes that says it is huge."""

    def chunk(kind: bytes, data: bytes) -> bytes:
        return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))

    header = struct.pack(">IIBBBBB", width, height, 8, 2, 0, 0, 0)
    rows = chunk(b"IHDR", header) + chunk(b"IDAT", zlib.compress(bytes(100))) + chunk(b"IEND", b"")
    return b"\x89PNG\r\n\x1a\n" + rows


def animated(form: str) -> bytes:
    out = io.BytesIO()
    frames = [Image.new("RGB", (8, 8), colour) for colour in ("red", "blue", "green")]
    frames[0].save(out, form, save_all=True, append_images=frames[1:])
    return out.getvalue()


SVG = b'<svg xmlns="http://www.w3.org/2000/svg"><script>alert(1)</script></svg>'


@pytest.mark.parametrize(
    ("name", "data", "words"),
    [
        ("a.png", bomb(60_000, 60_000), "far more than"),
        ("a.png", bomb(7_000, 7_200), "pixels"),
        ("a.png", bomb(2_000, 2_000), "cannot be read to its end"),
        ("a.jpg", photograph()[:-200], "cannot be read to its end"),
        ("a.png", photograph("JPEG"), "JPEG picture under another name"),
        ("a.png", animated("PNG"), "moves"),
        ("a.webp", animated("WEBP"), "moves"),
        ("a.png", SVG, "no JPEG, PNG or WebP"),
        ("a.jpg", b"GIF89a" + bytes(60), "no JPEG, PNG or WebP"),
        ("a.jpg", b"", "no JPEG, PNG or WebP"),
        ("a.png", b"password=hunter2\0HOME=/root", "no JPEG, PNG or WebP"),
        ("a.jpg", b"\xff\xd8\xff" + bytes(MAX_PICTURE_BYTES), "bytes"),
    ],
    ids=lambda value: value if isinstance(value, str) else "",
)
def test_what_is_no_picture_to_publish_is_refused(name: str, data: bytes, words: str) -> None:
    file = looked(f"pages/{name}", data)
    assert file.data is None
    assert words in (file.problem or "")
    assert file.hint


def test_a_bomb_is_refused_before_it_is_decoded(monkeypatch: pytest.MonkeyPatch) -> None:
    def load(self: Image.Image) -> None:
        raise AssertionError("decoded")

    monkeypatch.setattr(Image.Image, "load", load)
    assert MOST_PIXELS < 60_000 * 60_000
    with pytest.raises(PictureError, match="pixels"):
        drawn_anew(bomb(60_000, 60_000), ".png")


@pytest.fixture
def base(tmp_path: Path) -> Path:
    for name, text in samples.FILES.items():
        path = tmp_path / "kb" / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, "utf-8")
    (tmp_path / "kb" / "pages").mkdir(exist_ok=True)
    return tmp_path / "kb"


def test_a_check_tells_at_the_file_and_a_good_picture_is_handed_on(base: Path, tmp_path: Path) -> None:
    (base / "pages" / "good.jpg").write_bytes(photograph())
    (base / "pages" / "bad.jpg").write_bytes(SVG)
    for _ in range(2):
        found = checking.check(base, TODAY, tmp_path / "kept")
        assert [
            (each.rule, each.path.rsplit("/")[-1], each.mark.line, each.mark.column) for each in found.findings
        ] == [("KB114", "bad.jpg", 1, 1)]
    (picture,) = found.base.pictures
    assert picture == PictureFile(path="pages/good.jpg", digest=hashlib.sha256(photograph()).digest())
    (only,) = published(base, picture)
    assert (only.path, only.width, only.height) == ("pages/good.jpg", 60, 40)
    assert TELEPHONE.encode() not in only.data


def renditions(base: Path, name: str, content: bytes) -> list[tuple[str, int, int]]:
    """Where, how wide and how high a picture of an entry is published; each is one that opens in that size."""
    (base / "pictures").mkdir(exist_ok=True)
    (base / "pictures" / name).write_bytes(content)
    found = published(base, PictureFile(path=f"pictures/{name}", digest=hashlib.sha256(content).digest()))
    for each in found:
        assert TELEPHONE.encode() not in each.data
        with Image.open(io.BytesIO(each.data)) as image:
            assert image.size == (each.width, each.height)
    return [(each.path, each.width, each.height) for each in found]


def test_a_picture_of_an_entry_comes_in_two_widths(base: Path) -> None:
    """640 and at most 1600 pixels, as the handbook of the format has it; heights by the rule of three."""
    assert renditions(base, "wide.jpg", photograph(size=(2400, 1500))) == [
        ("pictures/640/wide.jpg", 640, 400),
        ("pictures/wide.jpg", 1600, 1000),
    ]
    assert renditions(base, "high.jpg", photograph(size=(1200, 2400)))[0] == ("pictures/640/high.jpg", 640, 1280)
    assert renditions(base, "narrow.jpg", photograph(size=(640, 400))) == [("pictures/narrow.jpg", 640, 400)]


def test_a_drawing_stays_a_drawing_in_the_narrow_width() -> None:
    """Scaled, it has the colours of its maker still, and no more bytes than before."""
    drawing = Image.new("RGB", (960, 600), "#f6f5f0")
    for step in range(12):
        drawing.paste(["#23272e", "#e08a1e", "#84867f"][step % 3], (20 + step * 77, 40, 60 + step * 77, 61 + step * 40))
    out = io.BytesIO()
    drawing.save(out, "PNG")
    wide, narrow = (drawn_anew(out.getvalue(), ".png", width) for width in (LONGEST_SIDE, 640))
    with Image.open(io.BytesIO(wide)) as image:
        assert image.convert("RGB").tobytes() == drawing.tobytes()
    with Image.open(io.BytesIO(narrow)) as image:
        assert image.size == (640, 400)
        colours = image.convert("RGB").getcolors()
    assert {colour for _, colour in colours or []} == {colour for _, colour in drawing.getcolors() or []}
    assert len(narrow) < 2 * len(wide)


def test_a_page_names_the_widths_and_keeps_the_place_free(base: Path) -> None:
    (base / "pictures").mkdir()
    (base / "pictures" / "yellow-plug.jpg").write_bytes(photograph())
    with_row(base)
    specs = make.pages(checking.check(base, TODAY).base)
    widths = [
        Width(path="pictures/640/yellow-plug.jpg", width=640, height=400),
        Width(path="pictures/yellow-plug.jpg", width=960, height=600),
    ]

    def image(*given: Width) -> dict[str, str]:
        renderer = Renderer(specs.keys(), pictures={"pictures/yellow-plug.jpg": given})
        article = make.rendered(specs["faults/lamp-flickers/"], renderer)
        (tag,) = re.findall(r"<img ([^>]*)>", article)
        return dict(re.findall(r'([a-z]+)="([^"]*)"', tag))

    two, one = image(*widths), image(widths[1])
    assert two["src"] == "../../pictures/640/yellow-plug.jpg"
    assert two["srcset"] == "../../pictures/640/yellow-plug.jpg 640w, ../../pictures/yellow-plug.jpg 960w"
    assert (two["width"], two["height"], two["loading"]) == ("960", "600", "lazy")
    assert two["alt"] == "The plug with three yellow wires"
    assert (one["src"], one["width"], one["height"]) == ("../../pictures/yellow-plug.jpg", "960", "600")
    assert "srcset" not in one


ROW = "    pictures: [{file: yellow-plug.jpg, of: The plug with three yellow wires, checked_by: curator-1}]\n"


def with_row(base: Path, row: str = ROW) -> None:
    fault = base / "faults/charging/lamp-flickers.yml"
    text = fault.read_text("utf-8")
    assert text.count("    minutes: 5\n") == 1
    fault.write_text(text.replace("    minutes: 5\n", f"    minutes: 5\n{row}"), "utf-8")


def rules(base: Path) -> list[tuple[str, str]]:
    return [(each.rule, each.path.rsplit("/")[-1]) for each in checking.check(base, TODAY).findings]


def test_a_picture_that_an_entry_names_says_who_has_looked_at_it(base: Path) -> None:
    (base / "pictures").mkdir()
    (base / "pictures" / "yellow-plug.jpg").write_bytes(photograph())
    assert rules(base) == [("KB530", "yellow-plug.jpg")]
    with_row(base)
    assert rules(base) == []


def test_a_row_without_who_looked_or_with_a_file_that_is_not_there_is_told_of(base: Path) -> None:
    with_row(base, ROW.replace(", checked_by: curator-1", ""))
    assert rules(base) == [("KB203", "lamp-flickers.yml")]


@pytest.mark.parametrize("file", ["other.jpg", "../pages/a.jpg", "plug.svg", "/etc/passwd.png"])
def test_a_file_that_cannot_be_named_is_told_of(base: Path, file: str) -> None:
    with_row(base, ROW.replace("yellow-plug.jpg", file))
    (found,) = checking.check(base, TODAY).findings
    assert found.rule == ("KB320" if file == "other.jpg" else "KB204")
    assert found.hint


def test_a_named_picture_that_cannot_be_published_is_told_of_once(base: Path) -> None:
    (base / "pictures").mkdir()
    (base / "pictures" / "yellow-plug.jpg").write_bytes(SVG)
    with_row(base)
    assert rules(base) == [("KB114", "yellow-plug.jpg")]


def test_a_picture_that_changed_since_it_was_looked_at_is_not_published(base: Path) -> None:
    (base / "pages" / "good.jpg").write_bytes(photograph())
    (picture,) = checking.check(base, TODAY).base.pictures
    (base / "pages" / "good.jpg").write_bytes(photograph(size=(30, 30)))
    with pytest.raises(PictureError, match="changed"):
        published(base, picture)
    (base / "pages" / "good.jpg").unlink()
    (base / "pages" / "good.jpg").symlink_to("/etc/hostname")
    with pytest.raises(PictureError):
        published(base, picture)
