"""What a site weighs: added up by hand."""

from __future__ import annotations

from kbtools.model.catalogue import SiteBudget
from kbtools.report.site_size import as_text, from_text, over_budget, render, sizes_of

FILES = {
    "index.html": 2_000,
    "faults/a/index.html": 151_000,
    "404.html": 500,
    "assets/1/js/plan.js": 3_000,
    "assets/1/site.css": 1_500,
    "data/finder/a.json": 700,
    "sitemap.xml": 300,
    "pictures/640/plug.jpg": 40_000,
    "api/v1/faults.json": 6_000,
    "news.xml": 250,
    "models/b/news.xml": 250,
}


def test_every_file_is_of_one_kind_and_counted_once() -> None:
    sizes = sizes_of(FILES)
    assert sizes.kinds == {
        "HTML": (3, 153_500),
        "scripts": (1, 3_000),
        "styles": (1, 1_500),
        "data": (2, 1_000),
        "pictures": (1, 40_000),
        "API": (1, 6_000),
        "feeds": (2, 500),
    }
    assert sizes.total == sum(FILES.values()) == 205_500
    assert sizes.heaviest == ["faults/a/", "", "404.html"]


def test_what_grew_is_said_and_what_was_not_there_is_new() -> None:
    before = sizes_of({**FILES, "faults/a/index.html": 150_000, "gone/index.html": 10, "404.html": 600})
    said = render(sizes_of({**FILES, "new/index.html": 10}), {"faults/a/": 20_000}, from_text(as_text(before)))
    assert "4 pages, 0.2 MB in all (+0.9 kB)." in said
    assert "1 pages are new, 1 are gone, 1 grew, most of all these:\n     +1.0 kB  /faults/a/\n" in said
    assert "    151.0 kB     20.0 kB  /faults/a/ (+1.0 kB)\n" in said
    assert "Since" not in render(sizes_of(FILES), {}, None)


def test_a_budget_names_what_goes_beyond_it() -> None:
    sizes = sizes_of(FILES)
    assert over_budget(sizes, None) == []
    # 151 kB and 205.5 kB, 0.2055 MB.
    assert over_budget(sizes, SiteBudget(page_kb=151, total_mb=0.2055)) == []
    # A book for paper is no page that somebody waits for by the road.
    book = {"models/b/2007/handbook/index.html": 900_000, "models/b/handbook/brakes/index.html": 900_000}
    assert over_budget(sizes_of({**FILES, **book}), SiteBudget(page_kb=151, total_mb=None)) == []
    like_one = {"models/handbook/index.html": 900_000, "faults/handbook/index.html": 900_000}
    assert len(over_budget(sizes_of({**FILES, **like_one}), SiteBudget(page_kb=151, total_mb=None))) == 2
    page, total = over_budget(sizes, SiteBudget(page_kb=150.9, total_mb=0.2054))
    assert "/faults/a/ has 151.0 kB" in page
    assert "0.2 MB" in total


def test_figures_that_cannot_be_read_are_as_none() -> None:
    for odd in ("", "[]", "{}", '{"kinds": {"HTML": 1}, "pages": {}}', '{"kinds": {}, "pages": []}', "[" * 100_000):
        assert from_text(odd) is None
