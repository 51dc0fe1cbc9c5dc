"""Files beside the pages: the sitemap, and what must not be published."""

from __future__ import annotations

import xml.etree.ElementTree as ET
from pathlib import Path

from kbtools.site.assets import SOURCE

SITEMAP = "{http://www.sitemaps.org/schemas/sitemap/0.9}"
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


def test_nothing_of_the_theme_and_no_template_is_published(demo_site: Path) -> None:
    names = {path.relative_to(demo_site).as_posix() for path in demo_site.rglob("*") if path.is_file()}
    others = {name for name in names if not name.endswith("index.html")}
    assets = {name for name in others if name.startswith(f"{SOURCE}/")}
    assert len({name.split("/")[1] for name in assets}) == 1
    rest = {name.split("/")[0] for name in others - assets if not name.startswith(".")}
    assert rest == {"404.html", "api", "build", "data", "pictures", "schemas", "sitemap.xml", "sitemap.xml.gz", "sw.js"}
