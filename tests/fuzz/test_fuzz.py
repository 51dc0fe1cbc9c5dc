"""A few hundred broken entries, pages and pictures: a small part of what `python -m tests.fuzz` tries."""

from __future__ import annotations

import itertools

import pytest

from kbtools.edges.rulebook import rulebook
from kbtools.edges.shipped import shapes, tables
from kbtools.linting.run import examine
from kbtools.reading.reader import read
from kbtools.reading.source import SourceFile
from tests.fuzz.__main__ import run
from tests.fuzz.mutants import KINDS, PAGE, Mutant, mutant, whole
from tests.fuzz.trial import TODAY, tried

FILES = {"entries": 120, "pages": 120, "pictures": 160}
"""Of each: what comes of more of them is told by the command."""


@pytest.mark.parametrize("what", FILES)
def test_whatever_is_broken_is_told_in_its_place_and_nothing_breaks_hangs_or_acts(what: str, thorough: bool) -> None:
    mine = (number for number in itertools.count() if KINDS[number % len(KINDS)].startswith(f"{what}:"))
    outcomes = list(run(list(itertools.islice(mine, FILES[what] // (1 if thorough else 3)))))
    assert [each for each in outcomes if not each.holds] == []
    # Much must be read in spite of what is broken, and some come to be published, or little is tried.
    looked_into = [each for each in outcomes if each.kind not in {"entries: bytes", "entries: tokens"}]
    least = {"entries": 4 / 5, "pages": 2 / 3, "pictures": 1 / 10}
    assert sum(each.read for each in looked_into) > len(looked_into) * least[what]
    assert sum(each.used for each in outcomes) > len(outcomes) / 20
    assert sum(each.flawed for each in outcomes) > len(outcomes) / 2


@pytest.mark.parametrize(
    "text", ["<![a](b)", "<![CDATA[a", "<!a [<![b", "<!-- a", "<?a", "</", "<a " * 500, "<!" * 500]
)
def test_signs_of_html_on_a_page_are_signs(text: str) -> None:
    page = Mutant(number=0, kind="pages: by hand", path=PAGE, data=f"# A page\n\n{text}\n".encode())
    outcome = tried(page)
    assert outcome.holds, outcome
    assert outcome.used


@pytest.mark.parametrize("link", ["[a](http://[)", "[a](//[b])", "![a](//[)", "[r]\n\n[r]: http://[b\n", "<http://[a>"])
def test_a_link_to_what_is_no_address_does_not_break_the_build_down(link: str) -> None:
    page = Mutant(number=0, kind="pages: by hand", path=PAGE, data=f"# A page\n\n{link}\n".encode())
    outcome = tried(page)
    assert outcome.holds, outcome
    assert not outcome.used


def test_nothing_is_wrong_with_the_base_before_it_is_broken() -> None:
    sources = [SourceFile(path=path, data=data) for path, data in whole().items()]
    assert examine(read(sources, shapes(), tables=tables()), rulebook(), TODAY).findings == ()


def test_a_number_always_gives_the_same_file() -> None:
    assert [mutant(number) for number in range(24)] == [mutant(number) for number in range(24)]
    assert mutant(7) != mutant(7, seed=1)
