"""Which years of a model list the same faults, and what is reported most; reckoned by hand."""

from __future__ import annotations

import re

from kbtools.index.alike import alike_years, reported_most
from kbtools.model.fault import Fault
from tests.support import factories as make
from tests.support.page_reader import Article

BITTERN = [make.model("bittern-900", "2003-2008")]


def on(id: str, *when: str) -> Fault:  # noqa: A002 (the field's name)
    return make.fault(id, applies_to=tuple(make.row(when=each) for each in when))


def test_years_are_told_by_what_differs_to_the_one_before() -> None:
    # By hand: 2003 and 2004 have a and b; 2005 has a, b and c; 2006 to 2008 have a and c. The draft is nowhere.
    base = make.base(
        on("a", "all"), on("b", "2003-2005"), on("c", "2005-"), make.fault("draft", draft=True), models=BITTERN
    )
    runs = alike_years("bittern-900", make.index(base))
    told = [
        (
            run.first,
            run.last,
            *("".join(each.id for each in faults) for faults in (run.faults, run.also, run.no_longer)),
        )
        for run in runs
    ]
    assert told == [(2003, 2004, "ab", "", ""), (2005, 2005, "abc", "c", ""), (2006, 2008, "ac", "", "b")]
    text = Article(make.article(base, "models/bittern-900/")).text
    assert "2003 to 2004 list the same 2 faults." in text
    assert "2005 lists 3 faults. Also: Title of c." in text
    assert "2006 to 2008 list the same 2 faults. No longer: Title of b." in text


def test_years_that_are_left_out_between_are_two_runs() -> None:
    # As many faults, but others: 2004 has b where its neighbours have a.
    base = make.base(on("a", "2003", "2005-"), on("b", "2004"), models=BITTERN)
    assert [(run.first, run.last) for run in alike_years("bittern-900", make.index(base))] == [
        *((2003, 2003), (2004, 2004), (2005, 2008)),
    ]


def test_a_model_whose_years_are_all_alike_says_so_once() -> None:
    text = Article(make.article(make.base(on("a", "all"), models=BITTERN), "models/bittern-900/")).text
    assert "All years list the same 1 fault." in text
    # Nothing was reported, so nothing is said to be reported most.
    assert "reported most" not in text


def test_what_is_reported_most_counts_the_cases_of_this_model_alone() -> None:
    models = [*BITTERN, make.model("curlew-1100", "2003-2008")]
    both = (make.row(), make.row("curlew-1100"))
    solved = {"state": "solved", "cause": "worn", "after": None, "verified": True}
    rows = [("a", "bittern-900", 1), ("a", "curlew-1100", 3), ("b", "bittern-900", 2)]
    cases = [
        make.case(f"{fault}-{model}-{place}", fault, vehicle={"model": model, "year": None}, outcome=solved)
        for fault, model, number in rows
        for place in range(number)
    ]
    cases.append(make.case("open", "c"))
    faults = [make.fault(each, applies_to=both) for each in "abc"]
    base = make.base(*faults, models=models, cases=cases)
    index = make.index(base)
    assert [(row.fault.id, row.cases) for row in reported_most("bittern-900", index)] == [("b", 2), ("a", 1)]
    assert [(row.fault.id, row.cases) for row in reported_most("curlew-1100", index)] == [("a", 3)]
    article = Article(make.article(base, "models/bittern-900/"))
    assert re.search(r"Title of b [\w ]+ 2 cases Title of a [\w ]+ 1 case", article.text)
    assert article.sections[:2] == ["years", "most"]
