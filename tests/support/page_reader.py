"""Pages as a browser reads them, and a base in which every page kind and every link between them occurs."""

from __future__ import annotations

import dataclasses
import functools
import posixpath
from html.parser import HTMLParser
from typing import Any
from urllib.parse import urlsplit

from kbtools.edges.rendering import Renderer
from kbtools.model.base import KnowledgeBase
from kbtools.model.check import Reading
from kbtools.model.fault import DistinctFrom, Part, Verify
from kbtools.pages.spec import PageSpec
from tests.support import factories as make


class Article(HTMLParser):
    """Links, ids, headings and text of an article, as a browser reads it."""

    def __init__(self, html: str) -> None:
        super().__init__()
        self.links: list[str] = []
        self.ids: list[str] = []
        self.sections: list[str] = []
        self.tags: list[tuple[str, dict[str, str | None]]] = []
        self.text = ""
        self.data: list[str] = []
        """What stands in data blocks, which nobody reads."""
        self._in_data = False
        self.feed(html)
        self.close()
        self.text = " ".join(self.text.split())

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self._apart(tag)
        attributes = dict(attrs)
        self._in_data = tag == "script"
        self.tags.append((tag, attributes))
        if tag == "a":
            # One without an address leads nowhere yet; a script gives it one.
            self.links += [each for each in [attributes.get("href")] if each is not None]
        if attributes.get("id"):
            self.ids.append(attributes["id"] or "")
            if tag in {"section", "nav"}:
                self.sections.append(attributes["id"] or "")

    def handle_data(self, data: str) -> None:
        if self._in_data:
            self.data.append(data)
        else:
            self.text += data

    def handle_endtag(self, tag: str) -> None:
        self._in_data = False
        self._apart(tag)

    def _apart(self, tag: str) -> None:
        """What stands in boxes of its own is apart for a reader, whatever blanks the source has."""
        if tag not in {"a", "code", "em", "ins", "mark", "span", "strong"}:
            self.text += " "


def full_base(**changes: Any) -> KnowledgeBase:
    """A base in which every page kind and every link between them occurs."""
    plug = make.cause(
        "plug",
        component="regulator",
        share=6.0,
        often_with=("stator",),
        applies_to=(make.row(when="2003-2005", note="Early loom."),),
        only_if="Is the plug green?",
        fix=make.fix(
            parts=(Part(name="Terminal kit", price=make.span(8, 20), at=""),),
            tools=("multimeter",),
            access=("tank-off",),
            verify=Verify(do="Measure again.", expect="13.5 to 14.8 V"),
        ),
    )
    stator = make.cause("stator", share=3.0, component="regulator", fix=make.fix(skill="workshop"))
    reading = Reading(
        place="battery posts",
        when="warm",
        good=make.span(13.5, 14.8),
        unit="V",
        low_points_to=("plug",),
        high_points_to=("stator",),
        at="",
    )
    sags = make.fault(
        "sags",
        applies_to=(make.row(when="2003-2008", unit="ecu"), make.row("curlew-1100", "2024-", only_if="Finned?")),
        codes=(
            make.code("P0562", unit="ecu", meaning="System voltage low", sets_when="Below 11.5 V."),
            make.code("4-2", follow_on=True, with_codes=(make.code("P0562").read, make.code("P0999").read)),
        ),
        symptoms=("Lamp flickers",),
        ride_advice=make.advice("ride-to-workshop", stop_if=("The *other* lamp comes on",)),
        cautions=("battery-gas",),
        causes=(plug, stator),
        checks=(
            make.check("look", points_to=("plug",), finds=0.8, access=("tank-off",), tools=("multimeter",)),
            make.check("volts", expect=None, reading=reading, bike="running", only_while_present=True, cost=5.0),
        ),
        sources=(
            make.source("manual", url="https://manual.example/", archived="https://archive.example/"),
            make.source("bulletin", number="B-1", covers=("plug",)),
            make.source("recall", number="R-1", issuer="Ostrel", region="EU", applies_to=(make.row(when="2003"),)),
        ),
        related=("flat",),
        distinct_from=(DistinctFrom(fault="typed", because="That one drains.", at=""),),
        formerly=("sags-in-rain",),
    )
    flat = make.fault("flat", codes=(make.code("P0562"),), ride_advice=make.advice("no-restriction"))
    typed = make.fault("typed", codes=(make.code("P0562-11"),), system="abs", ride_advice=make.advice("do-not-ride"))
    gone = make.fault("gone", withdrawn=make.withdrawn(replaced_by="sags"))
    parts: dict[str, Any] = {
        "systems": [make.system(), make.system("brakes", safety_critical=True), make.system("abs", parent="brakes")],
        "components": [make.component("regulator"), make.component("lamp", system="abs")],
        "access": [make.access("tank-off", "seat-off", cautions=("fuel",)), make.access("seat-off")],
        "cautions": [
            *make.base().cautions.values(),
            dataclasses.replace(make.base().cautions["battery-gas"], id="fuel", text="Fuel *burns*."),
        ],
        "models": [
            make.model(control_units=(make.unit("ecu", "2003-2007"),), also_called=("B9",)),
            make.model("curlew-1100", "2024-"),
        ],
        "cases": [
            make.case("one", "sags", outcome={"state": "solved", "cause": "plug"}),
            make.case("two", symptoms=("It ticks",)),
        ],
    }
    return make.base(sags, flat, typed, gone, make.fault("secret", draft=True), **{**parts, **changes})


@functools.cache
def full_pages() -> tuple[dict[str, PageSpec], dict[str, Article]]:
    """Every page of `full_base` and its article by address."""
    return all_articles(full_base())


def all_articles(base: KnowledgeBase) -> tuple[dict[str, PageSpec], dict[str, Article]]:
    specs = make.pages(base)
    hand_written = {"safety/"} if any(page.path == "pages/safety.md" for page in base.pages) else set()
    renderer = Renderer(specs.keys() | hand_written)
    return specs, {address: Article(make.rendered(spec, renderer)) for address, spec in specs.items()}


def target(link: str, address: str) -> tuple[str, str]:
    """Address and anchor to which a relative link on a page leads."""
    parts = urlsplit(link)
    path, anchor = parts.path, parts.fragment
    if not path:
        return address, anchor
    joined = posixpath.normpath(posixpath.join("/", address, path)).lstrip("/")
    return (f"{joined}/" if joined else ""), anchor
