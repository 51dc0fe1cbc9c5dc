"""Where on the bike: every place that the schema knows is drawn and has words, and nothing else is drawn."""

from __future__ import annotations

import json
import re
from typing import get_args

from jinja2 import Environment, FileSystemLoader

from kbtools.edges.rendering import TEMPLATES
from kbtools.edges.shipped import schema_files
from kbtools.index.components import where_checked, zones_of
from kbtools.model.base import KnowledgeBase
from kbtools.model.catalogue import Zone
from kbtools.wording.labels import ZONE
from tests.support import factories as make
from tests.support.page_reader import Article

ZONES: tuple[Zone, ...] = get_args(Zone)


def drawn(zones: list[str]) -> str:
    """The filled places of a drawing."""
    environment = Environment(loader=FileSystemLoader(TEMPLATES), autoescape=True)
    whole = environment.from_string('{% import "_zones.html" as z %}{{ z.mark(zones, "x") }}').render(zones=zones)
    found = re.search(r'zone__places">(.*?)</g>', whole, re.DOTALL)
    assert found is not None
    return found[1].strip()


def test_the_schema_has_these_places() -> None:
    schema = json.loads(json.dumps(schema_files()["common.schema.json"]))
    assert tuple(schema["$defs"]["zone"]["enum"]) == ZONES


def test_each_place_is_drawn_where_no_other_one_is() -> None:
    shapes = [drawn([zone]) for zone in ZONES]
    assert all(re.fullmatch(r"<(ellipse|circle|rect|path) [^<>]*/>", shape) for shape in shapes)
    assert len(set(shapes)) == len(ZONES)


def test_each_place_has_words_of_its_own() -> None:
    assert ZONE.keys() == set(ZONES)
    assert len(set(ZONE.values())) == len(ZONES)


def base_with_places() -> KnowledgeBase:
    plug = make.cause("plug", component="regulator")
    coil = make.cause("coil", component="stator")
    look = make.check("look", points_to=("plug",), do="Pull the plug.")
    measure = make.check("measure", points_to=("plug", "coil"), do="Measure.")
    places = [
        make.component("regulator", zone="side-cover", where="Behind the *left* cover"),
        make.component("stator", zone="engine-side"),
        make.component("relay", zone="under-seat"),
    ]
    return make.base(make.fault("sags", causes=(plug, coil), checks=(look, measure)), components=places)


def test_a_check_is_where_its_causes_are() -> None:
    base = base_with_places()
    fault = base.faults["sags"]
    places = {check.id: zones_of(where_checked(fault, check, base)) for check in fault.checks}
    assert places == {"look": ("side-cover",), "measure": ("side-cover", "engine-side")}


def test_a_component_page_shows_where_it_is_and_how_it_is_checked() -> None:
    article = make.article(base_with_places(), "components/regulator/")
    assert "behind a side cover" in article
    assert "Behind the <em>left</em> cover" in article
    assert drawn(["side-cover"]) in article
    assert "Pull the plug." in Article(article).text


def test_a_component_that_no_fault_names_has_no_page_and_no_link() -> None:
    base = base_with_places()
    assert "components/relay/" not in make.pages(base)
    listed = make.article(base, "components/")
    assert "Relay" in listed
    assert "components/relay" not in listed
    assert "relay/" not in make.article(base, "systems/charging/")
