"""What an entry is found by though it does not say it: words that mean the same, written into the index."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from kbtools.browser_data.finder import bm25, finder_files, kin_rows, near, term_files
from kbtools.browser_data.finder.entries import Entry
from kbtools.browser_data.finder.kin import KinOf
from kbtools.browser_data.finder.lent import LENDS
from kbtools.browser_data.finder.postings import SCALE, postings
from kbtools.browser_data.finder.stops import stops
from kbtools.browser_data.finder.texts import Texts
from kbtools.model.vocabulary import WordGroup, Words
from kbtools.vocabulary.whole import Vocabulary
from tests.support.demo_read import demo_with
from tests.support.finder_base import THIS_YEAR, entries_of, files, knowledge, terms_of, vectors
from tests.support.weighed_one_by_one import weighed

FAULT = "faults/battery-flat-overnight/"


def vocabulary(*groups: tuple[str, ...]) -> Vocabulary:
    rows = tuple(WordGroup(kind="same", phrases=each, at="") for each in groups)
    return Vocabulary(tables=knowledge().tables, own=Words(source="words", groups=rows))


def test_kin_of_a_text_is_what_the_vocabulary_has_for_its_phrases() -> None:
    kin = KinOf(vocabulary(("broken", "kaput"), ("stand switch", "kickstand cutout"), ("idle", "tickover")))
    found = kin.of("Stand switch broken")
    assert {"kaput", "kickstandcutout"} <= {*found}
    assert "tickov" not in found
    assert found["kaput"] > found["kickstand"], "one word of a phrase says less than a word for itself"


def test_what_a_text_says_itself_is_no_kin() -> None:
    assert "kaput" not in KinOf(vocabulary(("broken", "kaput"))).of("broken, kaput")


def test_what_is_denied_has_no_kin() -> None:
    kin = KinOf(vocabulary(("does not start", "dead"), ("start", "begin")))
    assert {*kin.of("It does not start")} == {"dead", "notstart", "not+start"}


def test_words_of_a_phrase_stand_in_any_order_in_texts_and_in_what_leads_to_it() -> None:
    kin = KinOf(vocabulary(("clutch slips", "revs climb"), ("fan runs", "blower roars")))
    assert "climb+rev" in kin.of("Slipping clutch")
    assert "climb+rev" in kin.of("Clutch often slips")
    assert "climb+rev" not in kin.of("Slips in the rain, and so does the clutch"), "another clause"
    assert "blower+roar" not in kin.of("Fan never runs"), "what is denied"


def test_what_several_texts_lead_to_weighs_more() -> None:
    one, both = (
        Entry(kind="fault", address="", title="Idle high", fields={"symptoms": (symptom,)})
        for symptom in ("Smells of rubber now", "Rough tickover, worn")
    )
    weights = reckoned([one, both], KinOf(vocabulary(("high", "fast"), ("worn", "fast"))))
    assert weights["fast"][0] < weights["fast"][1]


def reckoned(entries: Sequence[Entry], kin: KinOf) -> dict[str, dict[int, int]]:
    """Term → place → weight in hundredths."""
    found = postings(entries, Texts(), kin)
    ends = zip(found.starts.tolist(), found.starts[1:].tolist(), strict=False)
    rows = [dict(zip(found.places[a:b].tolist(), found.weights[a:b].tolist(), strict=True)) for a, b in ends]
    return {term: rows[row] for term, row in zip(found.terms, found.rows.tolist(), strict=True)}


WORDS = "idle high fast worn kaput broken stand switch kickstand cutout not start, the often clutch-switch wörn"
SAID = st.lists(st.sampled_from(WORDS.split()), max_size=7).map(" ".join)
ENTRIES = st.builds(
    lambda kind, title, fields, lenders: Entry(
        kind=kind,
        address="",
        title=title,
        fields={name: tuple(texts) for name, texts in fields.items()},
        lenders={name: tuple(texts) for name, texts in lenders.items()} if kind == "fault" else {},
    ),
    st.sampled_from(["fault", "fault", "fault", "code", "model", "system"]),
    SAID,
    st.dictionaries(st.sampled_from([*bm25.WEIGHTS]).filter(lambda name: name != "title"), st.lists(SAID, max_size=3)),
    st.dictionaries(st.sampled_from([*LENDS]), st.lists(SAID, max_size=6)),
)


@settings(max_examples=40)
@given(st.lists(ENTRIES, max_size=8))
def test_what_is_reckoned_at_once_is_what_is_reckoned_one_by_one(entries: list[Entry]) -> None:
    words = vocabulary(
        ("broken", "kaput", "worn", "bust", "gone west"),
        ("stand switch", "kickstand cutout", "prop breaker"),
        ("not start", "kaput"),
        ("idle high", "fast"),
    )
    expected = {
        term: {place: max(1, round(SCALE * weight)) for place, weight in places.items()}
        for term, places in weighed(entries, KinOf(words)).items()
    }
    assert reckoned(entries, KinOf(words)) == expected


def test_terms_that_nobody_says_and_that_mean_the_same_share_what_is_reckoned() -> None:
    entries = [Entry(kind="fault", address="", title=title) for title in ("Worn lever", "Lever bust", "Fan")]
    found = postings(entries, Texts(), KinOf(vocabulary(("worn", "kaput", "bust", "threadbare"))))
    row = dict(zip(found.terms, found.rows.tolist(), strict=True))
    assert row["kaput"] == row["threadbar"]
    assert len({row["kaput"], row["worn"], row["bust"]}) == 3


@pytest.mark.parametrize("most_parts", [1, 64])
def test_in_parts_and_whole_the_same_comes_out(most_parts: int, monkeypatch: pytest.MonkeyPatch) -> None:
    base = demo_with().base
    whole = finder_files(base, THIS_YEAR, ())
    monkeypatch.setattr(near, "_CELLS_AT_ONCE", 1)
    monkeypatch.setattr(near, "_MOST_PARTS", most_parts)
    monkeypatch.setattr(kin_rows, "_TEXTS_AT_ONCE", 7)
    monkeypatch.setattr(term_files, "_AT_ONCE", 1)
    assert finder_files(base, THIS_YEAR, ()) == whole


def test_kin_weighs_less_than_the_word_itself() -> None:
    changed = vectors()["files"] | {"words.yml": {"words": [["flat", "lifeless"]]}}
    terms = terms_of(files(knowledge(changed)))
    entries = entries_of(files(knowledge(changed)))

    def weight(term: str) -> int:
        steps, weights = terms[term]
        at = next(at for at in range(len(steps)) if entries[sum(steps[: at + 1])]["address"] == FAULT)
        return weights[at]

    assert 0 < weight("lifeless") < weight("flat")


def told(*asked: str) -> list[list[list[str]]]:
    row = {"asked": list(asked), "do": "Stop."}
    base = knowledge(vectors()["files"] | {"cautions.yml": {"stop_now": [row], "cautions": []}})
    found: Any = stops(base, vocabulary(("lamp", "light"), ("oil lamp", "red genie"), ("brake", "anchor")))
    return [way for each in found for way in each["asked"]]


def test_a_danger_is_asked_for_by_its_words_and_by_what_means_the_same() -> None:
    assert told("oil pressure lamp") == [[["oil"], ["pressur"], ["lamp", "light"]]]
    assert told("oil lamp") == [[["oil"], ["lamp", "light"]], [["redgeni"]]]


def test_what_is_denied_must_stand_together() -> None:
    assert told("no brakes") == [[["notbrake"]]]


@pytest.mark.parametrize("text", ["</script><b>", "a\u202eb"])
def test_what_the_club_says_first_is_text_without_unseen_characters(text: str) -> None:
    base = knowledge(
        vectors()["files"] | {"cautions.yml": {"stop_now": [{"asked": ["smoke"], "do": text}], "cautions": []}}
    )
    (row,) = files(base)["root.json"]["stop_now"]
    assert row["say"] == text.replace("\u202e", "⟦U+202E⟧")


def test_the_demo_has_ten_dangers() -> None:

    assert len(demo_with().base.stop_now) == 10
