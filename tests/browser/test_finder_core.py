"""The finder's core in Chromium, held to the vectors in `tests/vectors/` and to independent libraries."""

from __future__ import annotations

import json
import random
import string
from collections.abc import Callable, Iterator
from typing import Any

import pytest
from playwright.sync_api import Browser
from rapidfuzz.distance import OSA

from kbtools.browser_data.finder import shards
from kbtools.browser_data.finder.postings import SCALE
from tests.support.finder_base import files, knowledge, vectors
from tests.support.places import TESTS
from tests.support.weighed_one_by_one import bm25_weights

SCRIPTS = TESTS.parent / "site_overrides" / "assets" / "js"
QUERIES: list[dict[str, Any]] = vectors()["queries"]
READINGS: list[dict[str, Any]] = json.loads((TESTS / "vectors" / "finder_queries.json").read_text("utf-8"))["queries"]
WORDS: dict[str, Any] = json.loads((TESTS / "vectors" / "finder_words.json").read_text("utf-8"))
BM25: dict[str, Any] = json.loads((TESTS / "vectors" / "finder_bm25.json").read_text("utf-8"))

Run = Callable[[str, object], Any]


@pytest.fixture(scope="module")
def run(browser: Browser, serve: Callable[..., str]) -> Iterator[Run]:
    """Runs the body of a function of the modules by name, `data` (the small base's files), `shelves` and `input`."""
    page = browser.new_page()
    page.goto(serve(SCRIPTS))
    page.evaluate(
        """async (data) => {
            const names = ["finder", "asked", "stops", "words", "query", "ranking", "shelves", "marks"];
            const modules = await Promise.all(names.map((name) => import(`/core/${name}.js`)));
            window.core = Object.fromEntries(names.map((name, at) => [name, modules[at]]));
            window.fetched = [];
            window.onShelves = (files) => new core.shelves.Shelves(files["root.json"], async (name) => {
                window.fetched.push(name);
                return structuredClone(files[name]);
            });
            window.data = data;
            window.shelves = window.onShelves(data);
        }""",
        files(knowledge()),
    )

    def run_body(body: str, given: object) -> Any:
        return page.evaluate(f"async (input) => {{ const {{ words, query, ranking, marks }} = core; {body} }}", given)

    yield run_body
    page.close()


FIND = """
    const { answers, later, count, known, codes, more, hidden } = await core.finder.find(input.text, shelves, input);
    const all = [...answers, ...(await later())];
    if (all.length !== count) { throw new Error(`${count} answers are ${all.length}`); }
    const flat = all.map(({ entry, ...rest }) => ({ ...entry, ...rest }));
    return { answers: flat, known, codes, more, hidden };
"""


def find(run: Run, text: str, most: int = 50, **options: object) -> dict[str, Any]:
    found: dict[str, Any] = run(FIND, {"text": text, "most": most, **options})
    return found


@pytest.mark.parametrize("query", QUERIES, ids=lambda query: query["text"])
def test_the_right_answers_come_first(run: Run, query: dict[str, Any]) -> None:
    found = find(run, query["text"])
    addresses = [answer["address"] for answer in found["answers"]]
    assert addresses[: len(query["first"])] == query["first"]
    assert found["known"] is query["known"]
    assert not set(addresses) & set(query.get("never", []))
    assert len(set(addresses)) == len(addresses)


@pytest.mark.parametrize(
    ("text", "is_said"),
    [
        ("no brakes", True),
        ("no brake light", False),
        ("brake light failure", False),
        ("brake failure", True),
        ("no brakes, light on", True),
        ("no brake light and no brakes", True),
        ("red brake light", False),
        ("oil light", True),
    ],
)
def test_a_lamp_that_bears_the_name_of_a_part_is_not_the_part(run: Run, text: str, is_said: bool) -> None:
    rows = [{"asked": [[["notbrake"]], [["brake"], ["failur"]], [["oil"], ["lamp", "light"]]], "say": "Stop."}]
    body = """const root = { ...data["root.json"], stop_now: input.rows, lamps: ["lamp", "light"] };
        return core.stops.stopsFor(core.asked.askedTerms(core.asked.cut(input.text, root), [], root), root);"""
    assert run(body, {"text": text, "rows": rows}) == (["Stop."] if is_said else [])


def test_a_code_without_entry_is_told_by_its_structure_and_never_called_free(run: Run) -> None:
    answer = find(run, "b1234")["answers"][0]
    assert answer["title"] == "B1234: no entry has this code"
    assert answer["ride"] == "unknown"
    assert "System: body" in answer["texts"]
    assert any("maker" in told for told in answer["texts"])


def test_what_was_left_off_is_counted(run: Run) -> None:
    everything = find(run, "hot")
    some = find(run, "hot", most=1)
    assert len(everything["answers"]) > 1
    assert [len(some["answers"]), some["more"]] == [1, len(everything["answers"]) - 1]


def test_the_words_that_matched_are_named(run: Run) -> None:
    assert find(run, "batery flat")["answers"][0]["matched"] == ["batteri", "flat"]


def test_of_a_group_all_members_are_named(run: Run) -> None:
    """words.yml: tickover is idle; the entry says idle."""
    assert {"tickov", "idl"} <= {*find(run, "dies at tickover")["answers"][0]["matched"]}


@pytest.mark.parametrize("reading", READINGS, ids=lambda reading: reading["text"][:30])
def test_a_text_is_read_as_owners_mean_it(run: Run, reading: dict[str, Any]) -> None:
    formats = [
        {"id": "obd", "name": "Code", "standard": "sae-j2012", "pattern": None, "example": None, "per_unit": False},
        {"id": "flash", "name": "Lamp", "standard": None, "pattern": "[1-9]-[1-9]", "example": "4-2", "per_unit": True},
    ]
    body = "return query.readQuery(input.text, input.formats, data['root.json'].tables);"
    read = run(body, {"text": reading["text"], "formats": formats})
    assert [[code["text"] for code in matches] for matches in read["codes"]] == reading["codes"]
    if reading["words"] is not None:
        assert read["words"] == reading["words"]
    assert read["part"] == reading.get("part")


def test_words_are_cut_as_in_python(run: Run) -> None:
    assert run("return input.map(words.wordsOf);", [text for text, _ in WORDS["words"]]) == [
        each for _, each in WORDS["words"]
    ]
    stems: list[list[str]] = run("return input.map((group) => group.map(words.stem));", WORDS["groups"])
    assert [len({*each}) for each in stems] == [1] * len(stems)
    assert run("return input.map(words.stem);", WORDS["unchanged"]) == WORDS["unchanged"]
    phrases = """return input.map((text) => {
        const query = core.asked.cut(text, data["root.json"]);
        return query.stems.flatMap((_, at) => core.asked.phrasesAt(query, at)).map(([term]) => term);
    });"""
    loose = run(phrases, [text for text, _ in WORDS["loose"]])
    assert [{term for term in each if "+" in term} for each in loose] == [{*each} for _, each in WORDS["loose"]]
    apart: list[list[str]] = run("return input.map((pair) => pair.map(words.stem));", WORDS["apart"])
    assert all(one != other for one, other in apart)


@pytest.mark.parametrize("case", BM25["cases"], ids=["published", "drawn"])
def test_scores_are_those_of_an_independent_library(run: Run, case: dict[str, Any]) -> None:
    """bm25s, variant lucene; the weights come in hundredths, so each term may be half a hundredth off."""
    weights = bm25_weights(case["documents"], BM25["weights"])
    terms = {
        term: [shards.gaps(sorted(places)), [max(1, round(SCALE * places[place])) for place in sorted(places)]]
        for term, places in weights.items()
    }
    body = """
        return input.queries.map((asked) => {
            const positions = asked.filter((term) => input.terms[term]).map((term) => ({
                rare: 1,
                terms: [{ near: 1, places: core.shelves.risen(input.terms[term][0]), weights: input.terms[term][1] }],
            }));
            const { scores } = ranking.summed(positions, { scale: input.scale, size: input.count });
            return Array.from(scores);
        });
    """
    count = len(case["documents"])
    given = {"queries": case["queries"], "terms": terms, "scale": SCALE, "count": count}
    for mine, theirs in zip(run(body, given), case["scores"], strict=True):
        # The least weight that is kept is one hundredth.
        assert mine == pytest.approx(theirs, abs=0.01 * len(case["queries"][0]))


def test_my_bike_hides_what_does_not_concern_it_and_counts_it(run: Run) -> None:
    everything = [answer["address"] for answer in find(run, "no spark hot")["answers"]]
    assert "faults/no-spark-when-hot/" in everything
    bike = {"model": "dunlin-650", "year": 2000}
    mine = find(run, "no spark hot", bike=bike)
    assert "faults/no-spark-when-hot/" not in [answer["address"] for answer in mine["answers"]]
    assert mine["hidden"] >= 1
    shown = find(run, "no spark hot", bike=bike, everywhere=True)
    assert [answer["address"] for answer in shown["answers"]] == everything
    assert shown["hidden"] == 0
    assert {answer["address"]: answer["elsewhere"] for answer in shown["answers"]}["faults/no-spark-when-hot/"]


def test_a_code_of_other_machines_is_told_as_not_known_on_mine(run: Run) -> None:
    """4-2 is set by a control unit that is fitted to 1997."""
    found = find(run, "4-2", bike={"model": "dunlin-650", "year": 2000})
    assert [(answer["address"], answer["elsewhere"]) for answer in found["answers"]] == [("codes/4-2/", True)]
    assert found["hidden"] == 1
    own = find(run, "4-2", bike={"model": "dunlin-650", "year": 1996})
    assert [answer["elsewhere"] for answer in own["answers"]] == [False, False]


def test_a_bike_that_the_site_does_not_know_narrows_nothing(run: Run) -> None:
    assert find(run, "p0562", bike={"model": "gone", "year": 2000}) == find(run, "p0562")


def test_a_model_year_leads_to_its_page(run: Run) -> None:
    assert [answer["address"] for answer in find(run, "bittern 2007")["answers"]][:2] == [
        "models/bittern-900/2007/",
        "models/bittern-900/",
    ]
    assert find(run, "bittern 1950")["answers"][0]["address"] == "models/bittern-900/"


def test_several_codes_lead_to_the_page_about_all_of_them_where_there_is_one(run: Run) -> None:
    body = """
        const shelves = onShelves({ ...data, "root.json": { ...data["root.json"], pages: input.pages } });
        const { answers, later } = await core.finder.find(input.text, shelves);
        return [...answers, ...(await later())].map(({ entry }) => entry.address);
    """
    text = "P0562, U0121 and 4-2"
    with_page = run(body, {"text": text, "pages": {"codes": "codes/", "contribute": None, "several": "several/"}})
    without = run(body, {"text": text, "pages": {"codes": "codes/", "contribute": None, "several": None}})
    assert with_page == ["several/?codes=P0562,U0121,4-2", *without]
    assert without[0] == "codes/p0562/"
    assert "codes/4-2/" in without


def test_every_code_of_a_long_report_is_answered(run: Run) -> None:
    found = find(run, "\n".join(f"{number}. B1{number:03X} stored" for number in range(20)), most=10)
    titles = [answer["title"] for answer in found["answers"]]
    assert {f"B1{number:03X}: no entry has this code" for number in range(20)} <= {*titles}
    assert {answer["ride"] for answer in found["answers"] if answer["kind"] == "none"} == {"unknown"}


@pytest.mark.parametrize(
    ("text", "terms", "pieces"),
    [
        ("Battery flat overnight", ["batteri", "flat"], ["Battery", " ", "flat", " overnight"]),
        ("Anti-lock lamp stays on", ["antilock", "lamp"], ["Anti-lock", " ", "lamp", " stays on"]),
        ("Stalls, STALLED", ["stall"], ["Stalls", ", ", "STALLED"]),
        ("Bätteries <b>", ["batteri"], ["Bätteries", " <b>"]),
        ("nothing here", ["batteri"], ["nothing here"]),
        ("", ["x"], []),
    ],
)
def test_what_matched_is_marked_and_nothing_is_lost(run: Run, text: str, terms: list[str], pieces: list[str]) -> None:
    found: list[list[Any]] = run("return marks.marked(input.text, input.terms);", {"text": text, "terms": terms})
    assert [piece for piece, _ in found] == pieces
    assert "".join(piece for piece, _ in found) == text


def test_a_question_fetches_few_files_and_none_twice(run: Run) -> None:
    body = """
        const own = onShelves(data);
        fetched.length = 0;
        for (const text of input) { await core.finder.find(text, own); }
        return fetched;
    """
    found = run(body, ["p0562", "p0562", "battery flat", "battery flat"])
    assert len(found) == len({*found})
    assert "codes/all.json" not in found


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
        const begin = performance.now();
        for (const text of input) { await core.finder.find(text, shelves); }
        return performance.now() - begin;
    """
    texts = [
        "a" * 10_000,
        "ab " * 1_300,
        "-" * 4_000,
        "p0" * 2_000,
        "\u202e" * 4_000,
        "1 long " * 600,
        "p 0 5 6 2 " * 400,
    ]
    assert run(body, texts) < 2_000


@pytest.mark.parametrize("text", ["__proto__", "constructor", "toString p0562", "hasOwnProperty", "=0", "=1 flat"])
def test_names_of_the_language_are_words_like_others(run: Run, text: str) -> None:
    assert find(run, text)["answers"]
