"""The finder asked in Chromium, as it is published, and two searches of others asked on the same texts."""

from __future__ import annotations

import re
import sqlite3
from collections.abc import Callable, Iterable, Sequence
from typing import Any

import bm25s
import Stemmer
from playwright.sync_api import Browser

from kbtools.browser_data.finder.entries import Entry, entries
from kbtools.model.base import KnowledgeBase
from tests.support.finder_base import files
from tests.support.finder_queries import Answer, Answers, Query
from tests.support.places import ROOT

MOST = 10
SCRIPTS = ROOT / "site_overrides" / "assets" / "js"

ASK = """async ([files, texts]) => {
    const { find } = await import("/core/finder.js");
    const { Shelves } = await import("/core/shelves.js");
    const shelves = new Shelves(files["root.json"], async (name) => files[name]);
    const found = [];
    for (const text of texts) {
        const { answers: some, later } = await find(text, shelves);
        const answers = [...some, ...(await later())];
        found.push({ listed: answers.map(({ entry, sure, sort }) => [entry.address, sort, sure]) });
    }
    return found;
}"""

Search = Callable[[str], list[str]]
"""From a text to addresses, best first."""


def ours(browser: Browser, root: str, base: KnowledgeBase, asked: Sequence[Query]) -> list[tuple[Query, Answers]]:
    """What the finder answers; `root` is where `SCRIPTS` are served."""
    page = browser.new_page()
    page.goto(root)
    found: list[dict[str, Any]] = page.evaluate(ASK, [files(base), [query.text for query in asked]])
    page.close()
    return [
        (query, _given([_answer(*row) for row in each["listed"]])) for query, each in zip(asked, found, strict=True)
    ]


def _given(listed: Sequence[Answer]) -> Answers:
    return Answers(
        known=any(each.sure and each.kind != "none" for each in listed),
        offered=any(each.kind in {"fault", "code"} for each in listed),
        listed=tuple(listed),
    )


def _answer(address: str, kind: str, sure: bool) -> Answer:
    return Answer(address=address.partition("?")[0].rstrip("/"), kind=kind, sure=sure)


def theirs(search: Search, asked: Sequence[Query]) -> list[tuple[Query, Answers]]:
    """What another search answers; it never says that it is sure, and whatever it finds it calls known."""
    return [(query, _told(search(query.text))) for query in asked]


def _told(found: Iterable[str]) -> Answers:
    listed = tuple(Answer(address=each.rstrip("/"), kind="fault", sure=False) for each in found)
    return Answers(known=bool(listed), offered=bool(listed), listed=listed)


def stemmed(base: KnowledgeBase) -> Search:
    """bm25s with the English Snowball stemmer and its own stop words."""
    found = entries(base)
    stemmer = Stemmer.Stemmer("english")
    engine = bm25s.BM25()
    engine.index(
        bm25s.tokenize([_text(each) for each in found], stemmer=stemmer, show_progress=False), show_progress=False
    )

    def search(text: str) -> list[str]:
        words = bm25s.tokenize([text], stemmer=stemmer, show_progress=False, return_ids=False)
        if not words[0]:
            return []
        places, scores = engine.retrieve(words, k=MOST, show_progress=False)
        return [found[place].address for place, score in zip(places[0], scores[0], strict=True) if score > 0]

    return search


def trigrams(base: KnowledgeBase) -> Search:
    """SQLite's full-text index of trigrams, any of the words, ranked as SQLite ranks."""
    store = sqlite3.connect(":memory:")
    store.execute("create virtual table entry using fts5(address unindexed, text, tokenize = 'trigram')")
    store.executemany("insert into entry values (?, ?)", [(each.address, _text(each)) for each in entries(base)])

    def search(text: str) -> list[str]:
        words = [word for word in re.findall(r"\w+", text) if len(word) > 2]
        asked = " OR ".join(f'"{word}"' for word in words)
        if not words:
            return []
        rows = store.execute("select address from entry where text match ? order by rank limit ?", (asked, MOST))
        return [address for (address,) in rows]

    return search


def _text(entry: Entry) -> str:
    return " ".join((entry.title, *entry.codes, *(text for each in entry.fields.values() for text in each)))
