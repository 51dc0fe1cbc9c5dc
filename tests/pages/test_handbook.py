"""What a handbook says of a model and of one of its years, and how it is kept from growing without end."""

from __future__ import annotations

import pytest

from kbtools.edges.rendering import Renderer
from kbtools.model.base import KnowledgeBase
from kbtools.model.catalogue import Caution
from kbtools.model.check import Reading
from kbtools.pages import handbook
from kbtools.pages.catalogue import planned
from kbtools.pages.planned import Beside
from tests.support import factories as make
from tests.support.page_reader import Article, target

MODEL = "models/bittern-900/handbook/"
YEAR = "models/bittern-900/{}/handbook/"


def base() -> KnowledgeBase:
    reading = make.make(
        Reading,
        {"place": "battery posts", "good": make.span(12.5, 12.9), "unit": "V", "low_points_to": ("worn",), "at": ""},
        {},
    )
    measured = make.check("measure", do="Measure at the posts.", expect=None, reading=reading)
    early = make.cause("early", summary="Early loom chafed", applies_to=(make.row(when="2003-2005"),))
    sags = make.fault(
        "sags",
        symptoms=("It sags",),
        codes=(make.code("P0562"),),
        causes=(early, make.cause("worn", summary="Worn brush")),
        checks=(measured,),
        cautions=("battery-gas",),
        ride_advice=make.advice("ride-to-workshop", stop_if=("The lamp comes on.",)),
        sources=(make.source("recall", number="R-1", applies_to=(make.row(when="2003"),)),),
    )
    late = make.fault("late", applies_to=(make.row(when="2008-", only_if="Is it *blue*?"),), symptoms=("It is late",))
    cautions = [
        Caution(id="other", text="Not named here.", at=""),
        Caution(id="battery-gas", text="Keep sparks away. It burns.", at=""),
    ]
    return make.base(sags, make.fault("always"), late, cautions=cautions)


def articles(whole: KnowledgeBase, *addresses: str) -> list[Article]:
    specs = make.pages(whole)
    renderer = Renderer(specs.keys())
    return [Article(str(renderer.article(specs[each]))) for each in addresses]


def test_a_year_tells_what_is_on_it_and_a_model_says_on_which_years() -> None:
    model, early, late = articles(base(), MODEL, YEAR.format(2003), YEAR.format(2009))
    assert "Early loom chafed" in early.text
    assert "Only 2003" not in early.text
    assert "Early loom chafed" not in late.text
    assert "Only 2003–2005." in model.text
    for told, recall, fault in ((model, True, True), (early, True, False), (late, False, True)):
        assert ("Perhaps free: Recall R-1" in told.text) == recall
        assert ("Title of late" in told.text) == fault
        assert "Stop at once if: The lamp comes on." in told.text
        assert "Good: 12.5–12.9 V, battery posts" in told.text
    assert "Only if: Is it blue?" in late.text


def test_a_fault_has_one_number_in_all_handbooks_of_its_model() -> None:
    # In the order of the files: sags, always, late. 2003 lacks the last, 2009 the none.
    model, early, late = articles(base(), MODEL, YEAR.format(2003), YEAR.format(2009))
    assert "F3 Title of late" in model.text
    assert "F3 Title of late" in late.text
    assert {"f1", "f2"} <= set(early.ids)
    assert "f3" not in early.ids


def test_both_indices_and_the_cautions_lead_to_what_stands_on_the_page() -> None:
    for told in articles(base(), MODEL, YEAR.format(2009)):
        inside = {each[1:] for each in told.links if each.startswith("#")}
        assert {"f1", "f3", "c2"} <= inside
        assert inside <= set(told.ids)
        # The second caution of the base is in full at the front, and begins at the card; the first is nobody's here.
        assert "C2 Keep sparks away. It burns." in told.text
        assert "Not named here" not in told.text
        assert "P0562 F1" in told.text
        assert "It is late F3 It sags F1" in told.text


def test_a_model_of_which_nothing_is_known_has_a_handbook_that_says_so() -> None:
    (told,) = articles(make.base(), MODEL)
    assert "None is written down yet." in told.text
    assert told.sections == ["faults"]


def test_a_large_model_has_parts_and_its_years_lead_to_them() -> None:
    faults = [
        make.fault(f"f-{place}", system="charging" if place % 2 else "brakes") for place in range(handbook.MOST + 1)
    ]
    whole = make.base(*faults, systems=[make.system("charging"), make.system("brakes")])
    of_parts = [f"{MODEL}charging/", f"{MODEL}brakes/"]
    front, year, *shown = articles(whole, MODEL, YEAR.format(2009), *of_parts)
    parts = dict(zip(of_parts, shown, strict=True))
    # Of 121 faults every second is of the charging; each card is an article, as is the page.
    assert [sum(tag == "article" for tag, _ in part.tags) for part in shown] == [60 + 1, 61 + 1]
    assert set(of_parts) <= {target(each, MODEL)[0] for each in front.links}
    found = {target(each, YEAR.format(2009)) for each in year.links}
    led = {(address, anchor) for address, anchor in found if address in parts}
    assert len(led) == handbook.MOST + 1
    assert all(anchor in parts[address].ids for address, anchor in led)
    # Whole cards on every year would weigh more than the rest of the site.
    assert [tag for tag, _ in year.tags].count("article") == 1


def test_the_years_of_a_large_base_lead_to_the_handbooks_of_its_models(monkeypatch: pytest.MonkeyPatch) -> None:
    # Two faults of all ten years and one of five are 25 cards.
    assert articles(base(), YEAR.format(2009))[0].text.count("What it usually is") == 3
    monkeypatch.setattr(handbook, "MOST_CARDS", 24)
    model, year = articles(base(), MODEL, YEAR.format(2009))
    assert model.text.count("What it usually is") == 3
    assert "What it usually is" not in year.text
    led = {target(each, YEAR.format(2009)) for each in year.links}
    assert {(MODEL, "f1"), (MODEL, "f2"), (MODEL, "f3")} <= led


def test_a_handbook_does_not_hang_on_what_only_the_pages_of_its_faults_show() -> None:
    """Else each title of a related fault would have all cards of a handbook made anew."""
    index = make.index(base())
    beside = Beside(today=make.TODAY, told=(), turned={})
    catalogue = planned(index, beside)
    made = {each.address: each.make for each in catalogue.pages}
    with catalogue.log.listening() as asked:
        made[MODEL]()
    assert ("published", "sags") in asked
    assert not {name for name, _ in asked} & {"relations", "turned", "overdue"}
    with catalogue.log.listening() as asked:
        made["faults/sags/"]()
    assert {name for name, _ in asked} >= {"relations", "overdue"}
