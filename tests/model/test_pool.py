"""A pool is one row of a memory: it is written when something is new, and loses nothing that was asked for."""

from __future__ import annotations

from typing import Any

from kbtools.model.pool import Pool, key

FEW, MANY = key(b"few"), key(b"many")


class Store:
    def __init__(self) -> None:
        self.rows: dict[tuple[str, bytes], Any] = {}
        self.writes = 0

    def worked_out(self, work: str, asked: bytes) -> Any:
        return self.rows.get((work, asked))

    def keep_worked_out(self, work: str, asked: bytes, found: Any) -> None:
        self.writes += 1
        self.rows[work, asked] = found


def test_what_was_handed_back_is_written_once() -> None:
    store = Store()
    pool = Pool(store, "work", b"")
    pool.put(FEW, None)
    pool.put(MANY, [1])
    pool.keep()
    pool.keep()
    assert store.writes == 1
    again = Pool(store, "work", b"")
    again.keep()
    assert store.writes == 1
    assert FEW in again
    assert again.get(MANY) == [1]


def test_what_is_asked_for_after_it_was_handed_back_stays() -> None:
    store = Store()
    first = Pool(store, "work", b"")
    first.put(FEW, 1)
    first.put(MANY, 2)
    first.keep()
    second = Pool(store, "work", b"")
    second.put(key(b"new"), 3)
    second.get(FEW)
    second.keep()
    # Left out so far, since nobody had asked for it.
    assert MANY not in Pool(store, "work", b"")
    second.get(MANY)
    second.keep()
    assert Pool(store, "work", b"").get(MANY) == 2
