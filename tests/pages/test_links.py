"""No link of a page leads nowhere, every page can be reached, and templates are held to what they print."""

from __future__ import annotations

import os
from collections.abc import Mapping
from pathlib import Path, PurePosixPath

import pytest
from hypothesis import given
from hypothesis import strategies as st

from kbtools.edges.rendering import DeadLinkError, Renderer, relative
from kbtools.pages.spec import PageSpec
from tests.support import factories as make
from tests.support.page_reader import Article, full_base, full_pages, target

FILES = {".csv", ".json", ".xml"}
"""What stands beside the pages for other programs."""


@pytest.fixture(name="specs")
def specs_by_address() -> Mapping[str, PageSpec]:
    return full_pages()[0]


@pytest.fixture(name="articles")
def articles_by_address() -> Mapping[str, Article]:
    return full_pages()[1]


def test_every_link_leads_to_a_page_and_to_a_place_on_it(articles: Mapping[str, Article]) -> None:
    for address, article in articles.items():
        for link in article.links:
            # Files beside the pages, such as feeds: a built site's links are all followed elsewhere.
            if link.startswith("https://") or PurePosixPath(link).suffix in FILES:
                continue
            page, anchor = target(link, address)
            assert page in articles, address
            assert not anchor or anchor in articles[page].ids, address


def test_a_page_has_one_first_heading_its_sections_and_no_id_twice(
    specs: Mapping[str, PageSpec], articles: Mapping[str, Article]
) -> None:
    for address, article in articles.items():
        wanted = [section.id for section in specs[address].sections]
        assert [tag for tag, _ in article.tags].count("h1") == 1, address
        assert len(article.ids) == len(set(article.ids)), address
        assert [each for each in article.sections if each in wanted] == wanted, address


def test_every_page_can_be_reached_from_the_home_page(articles: Mapping[str, Article]) -> None:
    seen, to_do = set(), [""]
    while to_do:
        address = to_do.pop()
        if address not in seen:
            seen.add(address)
            to_do.extend(
                target(link, address)[0] for link in articles[address].links if "://" not in link and ".xml" not in link
            )
    # Only who follows an old link from elsewhere comes to an old address; the frame around all pages leads to the data.
    assert set(articles) - seen == {"faults/sags-in-rain/", "data/"}


@pytest.mark.parametrize(
    ("page", "leads_to"),
    [
        (
            "faults/sags/",
            "codes/p0562/ codes/4-2/ models/bittern-900/ models/bittern-900/2007/ models/curlew-1100/2027/ "
            "systems/charging/ components/regulator/ faults/flat/ faults/typed/ faults/gone/",
        ),
        ("faults/flat/", "faults/sags/"),
        ("faults/typed/", "faults/sags/ systems/brakes/ systems/abs/"),
        ("codes/p0562/", "faults/sags/ faults/flat/ faults/typed/ codes/p0562-11/ models/bittern-900/ codes/"),
        ("codes/p0562-11/", "faults/typed/ codes/p0562/ systems/abs/"),
        ("models/bittern-900/", "models/bittern-900/2003/ faults/sags/ systems/charging/ codes/p0562/ models/"),
        ("models/bittern-900/2004/", "models/bittern-900/2003/ models/bittern-900/2005/ models/bittern-900/"),
        ("systems/brakes/", "systems/abs/ faults/typed/ models/bittern-900/ components/"),
        ("systems/abs/", "faults/typed/ codes/p0562-11/"),
        ("components/regulator/", "faults/sags/ systems/charging/ codes/p0562/"),
        ("codes/", "codes/p0562/ codes/p0562-11/ codes/4-2/ systems/charging/ models/curlew-1100/"),
        ("", "models/ systems/ codes/ components/ models/bittern-900/ systems/charging/"),
    ],
)
def test_a_page_leads_to_what_a_reader_wants_next(page: str, leads_to: str, articles: Mapping[str, Article]) -> None:
    found = {target(link, page)[0] for link in articles[page].links}
    assert set(leads_to.split()) <= found


def test_a_dead_link_is_an_error_that_names_both_pages() -> None:
    specs = make.pages(full_base())
    renderer = Renderer(specs.keys() - {"components/regulator/"})
    with pytest.raises(DeadLinkError, match=r"faults/sags/.*components/regulator/"):
        renderer.article(specs["faults/sags/"])


@given(st.lists(st.from_regex(r"[a-z0-9-]{1,5}/", fullmatch=True), max_size=4).map("".join), st.integers(0, 4))
def test_a_relative_link_leads_where_it_should(address: str, depth: int) -> None:
    page = "x/" * depth
    assert target(relative(address, depth), page) == (address, "")


def test_a_changed_template_is_read_for_the_next_build(specs: Mapping[str, PageSpec], tmp_path: Path) -> None:
    (tmp_path / "redirect.html").write_text("before {{ to.title }}")
    spec = specs["faults/sags-in-rain/"]
    renderer = Renderer(specs.keys(), tmp_path)
    assert renderer.article(spec) == "before Title of sags"
    changed = tmp_path / "redirect.html"
    changed.write_text("after {{ to.title }}")
    os.utime(changed, (1, 1))
    assert Renderer(specs.keys(), tmp_path).article(spec) == "after Title of sags"


def test_a_template_never_prints_what_is_not_there(specs: Mapping[str, PageSpec], tmp_path: Path) -> None:
    (tmp_path / "redirect.html").write_text("{{ spec.edit_path }}")
    with pytest.raises(TypeError, match="not there"):
        Renderer(specs.keys(), tmp_path).article(specs["faults/sags-in-rain/"])
