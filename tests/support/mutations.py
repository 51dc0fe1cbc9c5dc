"""Ways to break a file, seeded: by its bytes, its tokens, its structure and its values."""

from __future__ import annotations

import copy
import random
from collections.abc import Callable
from typing import Any

import yaml

from tests.support.yaml_files import PLAIN, SAFE

Mutation = Callable[[str, random.Random], bytes]

NASTY: list[Any] = [
    *(None, True, False, 0, -1, 1, 0.5, 1e308, float("inf"), float("nan"), 10**30, -(10**30), 12, 13, 2007, 9999),
    *("", " ", "\n", "no", "null", "~", "-", "..", "/", "../../etc/passwd", "all", "2003-", "-2003", "9999-0000"),
    *("2026-13-45", "2026-02-30", "0000-00-00", "3000-01-01", "unlisted", "lamp-flickers", "P0562", "4-2", "0x", "P"),
    *("9" * 400, "a" * 5000, "\u202e", "\u200b", "\ufffd", "\u0000", "\u2028", "\U0001f600" * 40, "é" * 300),
    *("<script>alert(1)</script>", "[x](javascript:alert(1))", "![](x)", "`" * 200, "*" * 300, "[" * 300, "(" * 300),
    *("a@b.example", "+44 20 7946 0958", "1M8GDM9AXKP042788", "http://[", "https://x.example/%", "mailto:", "//"),
    *("1e999", "0 km", "-5 km", "500 mi", "12:30", "1_000", "0o17", "0x1F", "1,5", "EUR", "%s%n{}{0}", "\\", "$(x)"),
    *(
        [],
        {},
        [[]],
        [[[[]]]],
        [None],
        [1, 0],
        [0, 1],
        [-1, -2],
        ["1", "2", "3"],
        {"": ""},
        {"id": None},
        {"a": {"a": {}}},
    ),
]
"""What a careless or a hostile hand may write where something else is asked for."""

TOKENS = [
    *("- ", "? ", ": ", ", ", "[", "]", "{", "}", "#", "&a ", "*a", "!!int ", "!x ", "|", ">", "'", '"', "%YAML 1.2\n"),
    *("---\n", "...\n", "\t", "\r", "\r\n", "\n", "\n\n", " ", "  ", "@", "`", "<<: ", "~", "null", "\x00", "\x85"),
    *("\ufeff", "\u2028", "\u202e", "- - ", "? [x]", "{a: b}", "0", "on", "title: ", "id: ", "causes:\n"),
]


def by_bytes(text: str, choose: random.Random) -> bytes:
    """Bytes changed, lost, doubled or cut off, or the whole in another encoding."""
    data = bytearray(text.encode())
    way = choose.randrange(6)
    if way == 5:
        return text.encode(choose.choice(["utf-16", "utf-32", "latin-1", "cp500", "utf-8-sig"]), errors="replace")
    for _ in range(choose.randint(1, 4)):
        at = choose.randrange(len(data) + 1)
        if way == 0:
            data[at : at + 1] = bytes([choose.randrange(256)])
        elif way == 1:
            data[at:at] = bytes(choose.randrange(256) for _ in range(choose.randint(1, 4)))
        elif way == 2:
            del data[at : at + choose.randint(1, 20)]
        elif way == 3:
            data[at:at] = data[at : at + choose.randint(1, 200)]
        else:
            del data[at:]
    return bytes(data)


def by_tokens(text: str, choose: random.Random) -> bytes:
    """Marks of YAML put in, lines lost, doubled, exchanged or shifted."""
    for _ in range(choose.randint(1, 3)):
        lines = text.split("\n")
        at, other = choose.randrange(len(lines)), choose.randrange(len(lines))
        line = lines[at]
        way = choose.randrange(6)
        if way == 0:
            cut = choose.randrange(len(line) + 1)
            lines[at] = line[:cut] + choose.choice(TOKENS) + line[cut:]
        elif way == 1:
            del lines[at]
        elif way == 2:
            lines.insert(at, lines[other])
        elif way == 3:
            lines[at], lines[other] = lines[other], line
        elif way == 4:
            lines[at] = " " * choose.randrange(6) + line.lstrip()
        else:
            words = line.split(" ")
            choose.shuffle(words)
            lines[at] = " ".join(words)
        text = "\n".join(lines)
    return text.encode(errors="surrogatepass")


def by_structure(text: str, choose: random.Random) -> bytes:
    """Keys lost, renamed or put elsewhere, lists and mappings wrapped, doubled, emptied or made deep."""
    data = yaml.load(text, Loader=SAFE)
    for _ in range(choose.randint(1, 3)):
        spots = list(places_in(data))
        if not spots:
            break
        parent, key = choose.choice(spots)
        elsewhere, there = choose.choice(spots)
        way = choose.randrange(4)
        if way == 0:
            del parent[key]
        elif way == 1 and isinstance(parent, dict):
            parent[_misspelt(key, choose)] = parent.pop(key)
        elif way == 2:
            parent[key] = copy.deepcopy(elsewhere[there])
        else:
            parent[key] = _wrapped(parent[key], choose)
    return written(data)


def by_values(text: str, choose: random.Random) -> bytes:
    """Some values replaced by nasty ones."""
    data = yaml.load(text, Loader=SAFE)
    for _ in range(choose.randint(1, 4)):
        spots = list(places_in(data))
        if not spots:
            break
        parent, key = choose.choice(spots)
        parent[key] = copy.deepcopy(choose.choice(NASTY))
    return written(data)


MUTATIONS: dict[str, Mutation] = {
    "bytes": by_bytes,
    "tokens": by_tokens,
    "structure": by_structure,
    "values": by_values,
}


def _wrapped(value: Any, choose: random.Random) -> Any:
    if isinstance(value, list) and choose.randrange(2):
        return value * choose.choice([0, 2, 30])
    for _ in range(choose.choice([0, 1, 3, 20, 70])):
        value = [value]
    return value if choose.randrange(3) else {"id": value}


class _Plain(PLAIN):  # type: ignore[misc]
    """Writes the same list twice rather than an anchor, which would be refused at once."""

    def ignore_aliases(self, _data: Any) -> bool:
        return True


def written(data: Any) -> bytes:
    return yaml.dump(data, Dumper=_Plain, sort_keys=False, allow_unicode=True, default_flow_style=None).encode()


def places_in(data: Any, left: int = 400) -> list[tuple[Any, Any]]:
    """Every place in the data, as the thing around it and the key; bounded, since mutations nest."""
    found: list[tuple[Any, Any]] = []
    waiting = [data]
    while waiting and len(found) < left:
        node = waiting.pop()
        items = node.items() if isinstance(node, dict) else enumerate(node) if isinstance(node, list) else ()
        for key, value in items:
            found.append((node, key))
            waiting.append(value)
    return found


def _misspelt(key: Any, choose: random.Random) -> str:
    letters = list(str(key)) or ["x"]
    at = choose.randrange(len(letters))
    letters[at] = choose.choice(["", "x", letters[at] * 2, letters[at].upper(), "-"])
    return "".join(letters)
