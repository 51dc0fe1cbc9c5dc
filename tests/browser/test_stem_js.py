"""`core/stem.js` in Chromium against the Snowball library: what is indexed and what is typed meet in one stem."""

from __future__ import annotations

import random
import re
from collections.abc import Callable

import Stemmer
from playwright.sync_api import Browser

from kbtools.vocabulary.stems import stem
from tests.support.places import DEMO, ROOT

SCRIPTS = ROOT / "site_overrides" / "assets" / "js"
ENDINGS = re.findall(
    r"\w+",
    """
    s es ies ied ed eed edly eedly ing ingly ly li y er ator ation ization izer ational tional alism aliti fulness
    ousness iveness ogist ogi ative icate alize iciti ical ful ness ic ance ence able ible ate ive ize iti al ism ion
    ous ant ent ment ement e ll abli entli ousli lessli fulli iviti biliti anci enci
    """,
)
"""Those that the algorithm names (snowballstem.org, English)."""
ALONE = re.findall(
    r"\w+",
    """
    skis skies sky idly gently ugly early only singly news howe atlas cosmos bias andes succeed proceed exceed
    evening canning inning earring herring outing dying lying past pasting arsenic general internal university egged
    """,
)
"""Those that the algorithm treats by themselves (the same page), and some near them."""

OURS = ("overheated", "overheating")
"""What the algorithm takes one letter group too many off."""


def words() -> list[str]:
    """All words of the demo and of the vocabulary, and more that are made of them and the endings."""
    files = [*DEMO.rglob("*.yml"), *(ROOT / "kbtools" / "vocabulary" / "data").iterdir()]
    known = {word for path in files for word in re.findall("[a-z]+", path.read_text("utf-8").lower())}
    chance, plain = random.Random(20261129), sorted(known)
    made = {
        chance.choice(plain)[: chance.randint(1, 9)] + "".join(chance.choices(ENDINGS, k=chance.randint(1, 2)))
        for _ in range(40_000)
    }
    return sorted(
        known | made | {"".join(chance.choices("aeiouybdlsgnrtwx", k=7)) for _ in range(10_000)} | {*ALONE, *OURS}
    )


def test_the_browser_takes_off_the_endings_that_the_library_takes_off(
    browser: Browser, serve: Callable[..., str]
) -> None:
    every, library = words(), Stemmer.Stemmer("english")
    assert {stem(word) for word in OURS} == {"overheat"}
    assert len(every) > 40_000
    page = browser.new_page()
    page.goto(serve(SCRIPTS))
    found = page.evaluate("async (words) => words.map((await import('/core/stem.js')).stem)", every)
    page.close()
    # Words of three letters stay, so that `abs` is no `ab`.
    wanted = [library.stemWord(word) if len(word) > 3 and word not in OURS else stem(word) for word in every]
    assert [row for row in zip(every, wanted, found, strict=True) if row[1] != row[2]] == []
