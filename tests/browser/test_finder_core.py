"""`core/finder.js` and `core/words.js` in Chromium, held to `vectors/finder.json` and to an independent library."""

from __future__ import annotations

import random
import string
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
from finder_base import knowledge, vectors
from playwright.sync_api import Browser
from rapidfuzz.distance import OSA

from kbtools.finder_index import finder_data

SCRIPTS = Path(__file__).parents[2] / "site_overrides" / "assets" / "js"
QUERIES: list[dict[str, Any]] = vectors()["queries"]

Run = Callable[[str, object], Any]


@pytest.fixture(scope="module")
def run(browser: Browser, serve: Callable[..., str]) -> Iterator[Run]:
    """Runs the body of a function of `finder`, `words` (the modules), `data` (the small base's) and `input`."""
    page = browser.new_page()
    page.goto(serve(SCRIPTS))
    data = finder_data(knowledge())

    def run_body(body: str, given: object) -> Any:
        script = f"""async ([data, input]) => {{
            const finder = await import("/core/finder.js");
            const words = await import("/core/words.js");
            {body}
        }}"""
        return page.evaluate(script, [data, given])

    yield run_body
    page.close()


FIND = """
    const { answers, known, codes, more } = finder.find(input.text, finder.prepare(data), input.most);
    return { answers: answers.map(({ entry, why, matched }) => ({ ...entry, why, matched })), known, codes, more };
"""


def find(run: Run, text: str, most: int = 50) -> dict[str, Any]:
    found: dict[str, Any] = run(FIND, {"text": text, "most": most})
    return found


@pytest.mark.parametrize("query", QUERIES, ids=lambda query: query["text"])
def test_the_right_answers_come_first(run: Run, query: dict[str, Any]) -> None:
    found = find(run, query["text"])
    addresses = [answer["address"] for answer in found["answers"]]
    assert addresses[: len(query["first"])] == query["first"]
    assert found["known"] is query["known"]
    assert not set(addresses) & set(query.get("never", []))
    assert len(set(addresses)) == len(addresses)


def test_a_code_without_entry_is_told_by_its_structure_and_never_called_free(run: Run) -> None:
    answer = find(run, "b1234")["answers"][0]
    assert answer["title"] == "B1234: no entry has this code"
    assert answer["ride"] == "unknown"
    assert "System: body" in answer["words"]["told"]
    assert any("maker" in told for told in answer["words"]["told"])


def test_what_was_left_off_is_counted(run: Run) -> None:
    everything = find(run, "hot")
    some = find(run, "hot", most=1)
    assert len(everything["answers"]) > 1
    assert [len(some["answers"]), some["more"]] == [1, len(everything["answers"]) - 1]


def test_the_words_that_matched_are_named(run: Run) -> None:
    assert find(run, "batery flat")["answers"][0]["matched"] == ["battery", "flat"]


def test_the_least_of_letters_amiss_is_that_of_rapidfuzz(run: Run) -> None:
    """Optimal string alignment distance, rapidfuzz 3: an independent implementation."""
    chance = random.Random(20260601)
    words = ["".join(chance.choices("abcd", k=chance.randint(0, 9))) for _ in range(400)]
    words += ["".join(chance.choices(string.ascii_lowercase + "é", k=5)) for _ in range(50)]
    pairs = [(left, chance.choice(words), limit) for left in words for limit in (0, 1, 2)]
    # Infinity is no JSON: -1 stands for "more than the limit" on both sides.
    got = run(
        "return input.map(([a, b, n]) => words.lettersAmiss(a, b, n)).map((d) => (d === Infinity ? -1 : d));", pairs
    )
    assert got == [distance if (distance := OSA.distance(left, right)) <= limit else -1 for left, right, limit in pairs]
    assert len({*got}) == 4


def test_a_long_hostile_text_takes_no_long_time(run: Run) -> None:
    body = """
        const index = finder.prepare(data);
        const begin = performance.now();
        for (const text of input) { finder.find(text, index); }
        return performance.now() - begin;
    """
    texts = ["a" * 10_000, "ab " * 1_300, "-" * 4_000, "p0" * 2_000, "\u202e" * 4_000]
    assert run(body, texts) < 2_000
