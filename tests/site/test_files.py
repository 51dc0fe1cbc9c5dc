"""Files beside the pages: the sitemap, and what must not be published."""

from __future__ import annotations

import datetime as dt
import html
import json
import re
import xml.etree.ElementTree as ET
from pathlib import Path
from typing import Any

import yaml

from kbtools.site.assets import SOURCE
from tests.support.places import DEMO

SITEMAP = "{http://www.sitemaps.org/schemas/sitemap/0.9}"
FAULT = "faults/charging/voltage-sags-when-wet.yml"
ON = True
"""What YAML 1.1, which PyYAML reads, takes the key `on` for."""
ROOT = "https://lore.ostrel-circle.example/"


def test_the_sitemap_lists_pages_that_are_there_and_living(demo_site: Path) -> None:
    """By the sitemap protocol (sitemaps.org): `urlset`, `url` and `loc`, 50,000 addresses at most."""
    tree = ET.parse(demo_site / "sitemap.xml").getroot()
    assert tree.tag == f"{SITEMAP}urlset"
    found = [loc.text or "" for loc in tree.iter(f"{SITEMAP}loc")]
    assert ROOT in found
    assert f"{ROOT}faults/voltage-sags-when-wet/" in found
    assert 100 < len(found) == len(set(found)) <= 50_000
    for address in found:
        assert (demo_site / address.removeprefix(ROOT) / "index.html").is_file(), address
    # A redirect and a withdrawn entry have pages, but no search engine should bring anyone there.
    for moved in ["charging-drops-in-rain", "regulator-runs-hot"]:
        assert (demo_site / "faults" / moved / "index.html").is_file()
        assert f"{ROOT}faults/{moved}/" not in found


def test_the_sitemap_says_when_a_page_had_news_and_of_others_nothing(demo_site: Path) -> None:
    """A day as the protocol has it (W3C date); an entry is no older than its review."""
    days = {
        url.findtext(f"{SITEMAP}loc"): url.findtext(f"{SITEMAP}lastmod")
        for url in ET.parse(demo_site / "sitemap.xml").getroot()
    }
    assert (days[f"{ROOT}faults/voltage-sags-when-wet/"] or "") >= _file(FAULT)["reviewed"][ON].isoformat()
    assert days[f"{ROOT}safety/"] is None
    assert all(dt.date.fromisoformat(day) for day in days.values() if day is not None)


def test_a_fault_says_to_search_engines_and_previews_what_it_says_to_readers(demo_site: Path) -> None:
    """By JSON-LD 1.1 and schema.org; Open Graph's four words that every page must have, but for a picture."""
    written = _file(FAULT)
    text = (demo_site / "faults/voltage-sags-when-wet/index.html").read_text("utf-8")
    (block,) = re.findall(r'<script type="application/ld\+json">(.*?)</script>', text)
    told = json.loads(block)
    assert (told["@context"], told["@type"]) == ("https://schema.org", "TechArticle")
    assert told["headline"] == written["title"]
    assert told["dateModified"] == written["reviewed"][ON].isoformat()
    assert told["url"] == f"{ROOT}faults/voltage-sags-when-wet/"
    assert [each["name"] for each in told["about"]] == ["Bittern 900", "Curlew 1100"]
    graph = dict(re.findall(r'<meta property="og:(\w+)" content="([^"]*)">', text))
    assert (graph["title"], graph["type"], graph["url"]) == (written["title"], "article", told["url"])
    assert html.unescape(graph["description"]) == told["description"]
    feeds = re.findall(r'<link rel="alternate" type="application/atom\+xml" href="([^"]*)"', text)
    assert feeds == ["../../systems/charging/news.xml", "../../news.xml"]
    model = (demo_site / "models/bittern-900/2007/index.html").read_text("utf-8")
    assert "ld+json" not in model
    assert re.findall(r'type="application/atom\+xml" href="([^"]*)" title="([^"]*)"', model) == [
        ("../../../models/bittern-900/news.xml", "Ostrel Owners&#39; Circle: Bittern 900"),
        ("../../../news.xml", "Ostrel Owners&#39; Circle: What&#39;s new"),
    ]


def _file(path: str) -> dict[str, Any]:
    found: dict[str, Any] = yaml.safe_load((DEMO / path).read_text("utf-8"))
    return found


def test_nothing_of_the_theme_and_no_template_is_published(demo_site: Path) -> None:
    names = {path.relative_to(demo_site).as_posix() for path in demo_site.rglob("*") if path.is_file()}
    others = {name for name in names if not name.endswith("index.html")}
    assets = {name for name in others if name.startswith(f"{SOURCE}/")}
    assert len({name.split("/")[1] for name in assets}) == 1
    feeds = {name for name in others if name.endswith("/news.xml")}
    rest = {name.split("/")[0] for name in others - assets - feeds if not name.startswith(".")}
    assert rest == {
        "404.html",
        "api",
        "build",
        "data",
        "news.xml",
        "pictures",
        "schemas",
        "sitemap.xml",
        "sitemap.xml.gz",
        "sw.js",
    }
