"""Texts of the finder cut into terms, and what of it is remembered."""

from __future__ import annotations

import json
from typing import Any

from kbtools.browser_data.finder.kept_texts import KeptTexts
from kbtools.browser_data.finder.terms import terms_of
from kbtools.browser_data.finder.texts import Texts

SAID = ["The side-stand's switch stalls", "Stalls, stalled", "", "Won't start", "Überhitzt the and 15v"]


class Remembering:
    """A memory of JSON; counts what is kept."""

    def __init__(self) -> None:
        self.rows: dict[tuple[str, bytes], str] = {}
        self.kept = 0

    def worked_out(self, work: str, asked: bytes) -> Any:
        row = self.rows.get((work, asked))
        return None if row is None else json.loads(row)

    def keep_worked_out(self, work: str, asked: bytes, found: Any) -> None:
        self.kept += 1
        self.rows[work, asked] = json.dumps(found)


def cut(texts: Texts, said: list[str]) -> list[list[str]]:
    numbers = texts.cut(said).tolist()
    rows = texts.own()
    names = list(texts.terms)
    return [sorted(names[term] for term in rows.values[rows.starts[at] : rows.starts[at + 1]]) for at in numbers]


def test_a_text_has_the_terms_of_its_words_known_or_new() -> None:
    memory = Remembering()
    first = Texts(KeptTexts(memory, b""))
    assert cut(first, SAID[:3]) == [sorted(terms_of(text)) for text in SAID[:3]]
    first.keep()
    turned = SAID[::-1]
    second = Texts(KeptTexts(memory, b""))
    assert cut(second, turned) == [sorted(terms_of(text)) for text in turned]


def test_words_of_texts_that_are_gone_are_no_words_any_more() -> None:
    memory = Remembering()
    first = Texts(KeptTexts(memory, b""))
    cut(first, ["Zither hums", "Side-stand loose"])
    first.keep()
    second = Texts(KeptTexts(memory, b""))
    cut(second, ["Side-stand loose"])
    assert {*second.words()} == {"side", "stand", "loose"}
    assert "zither" not in second.terms


def test_a_few_new_texts_are_cut_again_before_all_are_written_anew() -> None:
    memory = Remembering()
    many = [f"word number {number}" for number in range(1000)]
    for more, written in (([], 1), (["one more"], 1), ([f"more {number}" for number in range(500)], 2)):
        texts = Texts(KeptTexts(memory, b""))
        cut(texts, many + more)
        texts.keep()
        assert memory.kept == written
