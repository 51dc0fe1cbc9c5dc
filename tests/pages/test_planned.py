"""Pages are made from what they ask for, and what is known of them before is what they are."""

from __future__ import annotations

from kbtools.pages.catalogue import planned
from kbtools.pages.planned import Beside
from tests.support import factories as make
from tests.support.page_reader import full_base

CATALOGUE = planned(make.index(full_base()), Beside(today=make.TODAY, turned={}))


def test_what_is_known_of_a_page_before_it_is_made_is_what_it_is() -> None:
    for page in CATALOGUE.pages:
        spec = page.make()
        assert (page.address, page.kind, page.listed) == (spec.address, spec.kind, spec.listed)


def test_every_page_about_an_entry_has_asked_for_it() -> None:
    about = {page.address: page for page in CATALOGUE.pages}
    with CATALOGUE.log.listening() as asked:
        about["faults/sags/"].make()
    assert ("published", "sags") in asked
    assert ("cases_by_fault", "sags") in asked


def test_what_is_asked_for_one_page_is_not_noted_for_another() -> None:
    about = {page.address: page for page in CATALOGUE.pages}
    with CATALOGUE.log.listening() as first:
        about["systems/"].make()
        with CATALOGUE.log.listening() as second:
            about["faults/sags/"].make()
    assert ("published", "sags") in second
    assert ("published", "sags") not in first
