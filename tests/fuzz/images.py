"""Ways to break a picture, seeded: its bytes cut, flipped, and the sizes that its head tells changed."""

from __future__ import annotations

import functools
import io
import random
import struct
import zlib
from collections.abc import Callable, Iterator
from typing import Any, Final

from PIL import Image

SUFFIXES: Final = {"PNG": ".png", "JPEG": ".jpg", "WEBP": ".webp"}
PNG_HEAD: Final = b"\x89PNG\r\n\x1a\n"

_SIZES: Final = [
    0,
    1,
    2,
    7,
    255,
    256,
    1_601,
    7_000,
    7_072,
    16_383,
    16_384,
    32_768,
    65_535,
    65_536,
    2**31 - 1,
    2**32 - 1,
]
"""Pixels: none, the longest side of a page, what just fits and what does not, and what fits a field no more."""


@functools.cache
def seeds() -> tuple[tuple[str, bytes], ...]:
    """Format and content of pictures that are good: each format in each way of storing that people meet."""
    noise = Image.effect_noise((90, 70), 80)
    colour = Image.merge("RGB", (noise, noise.rotate(90, expand=False), noise.rotate(180)))
    clear = colour.copy()
    clear.putalpha(noise)
    exif = Image.Exif()
    exif[0x0112], exif[0x010E] = 6, "Turned"
    return (
        ("PNG", _saved(colour, "PNG")),
        ("PNG", _saved(clear, "PNG")),
        ("PNG", _saved(colour.quantize(16), "PNG", transparency=3)),
        ("PNG", _saved(noise.convert("I;16"), "PNG")),
        ("PNG", _saved(noise.convert("1"), "PNG", exif=exif)),
        ("JPEG", _saved(colour, "JPEG", exif=exif)),
        ("JPEG", _saved(colour, "JPEG", progressive=True, icc_profile=b"x" * 200)),
        ("JPEG", _saved(colour.convert("CMYK"), "JPEG")),
        ("JPEG", _saved(noise, "JPEG", restart_marker_blocks=2)),
        ("WEBP", _saved(colour, "WEBP", quality=60)),
        ("WEBP", _saved(clear, "WEBP", lossless=True)),
        ("WEBP", _saved(clear, "WEBP", quality=60, exif=exif)),
    )


def _saved(image: Image.Image, form: str, **more: Any) -> bytes:
    out = io.BytesIO()
    image.save(out, form, **more)
    return out.getvalue()


def cut(form: str, data: bytes, choose: random.Random) -> bytes:
    """Its end or a piece of it lost, doubled, or another picture behind it."""
    at, length = choose.randrange(len(data)), choose.choice((1, 4, 30, 400))
    way = choose.randrange(5)
    if way < 2:
        return data[:at]
    if way == 2:
        return data[:at] + data[at + length :]
    if way == 3:
        return data[:at] + data[at : at + length] * choose.choice((2, 50)) + data[at:]
    return data + choose.choice([b"<script>a</script>", bytes(500), choose.choice(seeds())[1]])


def flip(form: str, data: bytes, choose: random.Random) -> bytes:
    """Some bytes changed, near its head as often as anywhere; of a PNG the checksums sometimes made right again."""
    changed = bytearray(data)
    for _ in range(choose.choice((1, 1, 3, 20))):
        at = choose.randrange(min(len(changed), choose.choice((60, len(changed)))))
        changed[at] = choose.choice((changed[at] ^ 1 << choose.randrange(8), choose.randrange(256), 0, 255))
    return _with_checksums(bytes(changed)) if form == "PNG" and choose.randrange(3) else bytes(changed)


def resize(form: str, data: bytes, choose: random.Random) -> bytes:
    """Another width, height, depth or length in its head than what follows has."""
    width, height = choose.choice(_SIZES), choose.choice([*_SIZES, 70, 70, 70, 90])
    changed = bytearray(data)
    if form == "PNG":
        return _png(changed, width, height, choose)
    if form == "JPEG":
        for at in _frames(data):
            changed[at + 5 : at + 9] = struct.pack(">HH", height & 0xFFFF, width & 0xFFFF)
            if not choose.randrange(3):
                changed[at + 2 : at + 5] = bytes(choose.randrange(256) for _ in range(3))
        return bytes(changed)
    return _webp(changed, width, height, choose)


MUTATIONS: Final[dict[str, Callable[[str, bytes, random.Random], bytes]]] = {
    "cut": cut,
    "flipped": flip,
    "sizes": resize,
}


def _png(changed: bytearray, width: int, height: int, choose: random.Random) -> bytes:
    """PNG (ISO/IEC 15948), 11.2.2: the head begins behind signature, length and name, sixteen bytes in all."""
    changed[16:24] = struct.pack(">II", width, height)
    if not choose.randrange(3):
        changed[24:29] = bytes(choose.choice((0, 1, 2, 3, 4, 6, 8, 16, 255)) for _ in range(5))
    if not choose.randrange(3):
        # As many rows as the head tells, or far more: few bytes that unpack to many.
        rows = zlib.compress(bytes(choose.choice((1_000, 3_000_000, 30_000_000))), 9)
        body = b"".join(_chunk(kind, rows if kind == b"IDAT" else each) for kind, each in _chunks(bytes(changed)))
        return PNG_HEAD + body
    return _with_checksums(bytes(changed))


def _webp(changed: bytearray, width: int, height: int, choose: random.Random) -> bytes:
    """RFC 9649, 2.5 to 2.7: where the three kinds of first chunk tell the size."""
    kind = bytes(changed[12:16])
    if not choose.randrange(4):
        changed[4:8] = struct.pack("<I", width)
    if not choose.randrange(4):
        changed[16:20] = struct.pack("<I", choose.choice((height, len(changed), len(changed) - 21)))
    if kind == b"VP8X":
        changed[24:30] = struct.pack("<I", width - 1 & 0xFFFFFF)[:3] + struct.pack("<I", height - 1 & 0xFFFFFF)[:3]
        changed[20] = choose.choice((changed[20], choose.randrange(256)))
    elif kind == b"VP8L":
        changed[21:25] = struct.pack("<I", (width - 1 & 0x3FFF) | (height - 1 & 0x3FFF) << 14)
    else:
        changed[26:30] = struct.pack("<HH", width & 0x3FFF, height & 0x3FFF)
    return bytes(changed)


def _frames(data: bytes) -> Iterator[int]:
    """Where a JPEG's frame headers begin: ITU-T T.81, B.2.2; markers FFC0 to FFC3."""
    return (at for at in range(len(data) - 9) if data[at] == 0xFF and 0xC0 <= data[at + 1] <= 0xC3)


def _chunks(data: bytes) -> Iterator[tuple[bytes, bytes]]:
    at = len(PNG_HEAD)
    while at + 12 <= len(data):
        length = int.from_bytes(data[at : at + 4], "big")
        yield data[at + 4 : at + 8], data[at + 8 : at + 8 + length]
        at += 12 + length


def _chunk(kind: bytes, content: bytes) -> bytes:
    return struct.pack(">I", len(content)) + kind + content + struct.pack(">I", zlib.crc32(kind + content))


def _with_checksums(data: bytes) -> bytes:
    return data[:8] + b"".join(_chunk(kind, content) for kind, content in _chunks(data))
