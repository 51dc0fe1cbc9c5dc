"""The colours of the site: contrasts by the formula of WCAG 2.2, and both dark blocks alike."""

from __future__ import annotations

import re

import pytest

from tests.support.places import ROOT

CSS = (ROOT / "site_overrides/assets/css/tokens.css").read_text(encoding="utf-8")
_BLOCK = re.compile(r"(?P<selector>:root[^{]*)\{(?P<body>[^}]*)\}")
_TOKEN = re.compile(r"--(?P<name>[a-z-]+): (?P<value>#[0-9a-f]{6});")
BLOCKS = {
    match["selector"].strip(): {token["name"]: token["value"] for token in _TOKEN.finditer(match["body"])}
    for match in _BLOCK.finditer(CSS)
}
LIGHT = BLOCKS[":root"]
DARK = BLOCKS[':root[data-scheme="dark"]']
SYSTEM_DARK = BLOCKS[':root:not([data-scheme="light"])']

GROUNDS = ("paper", "raised", "shade")
# What must be read at the bike, in sunlight.
SEVEN = [(ink, ground) for ink in ("ink", "ink-soft") for ground in GROUNDS]
SEVEN += [(f"ride-{look}-ink", f"ride-{look}") for look in ("stop", "workshop", "care", "free", "unknown")]
TEXT = [(ink, ground) for ink in ("accent", "warn") for ground in GROUNDS]
TEXT += [("accent-ink", "accent"), ("band-ink", "band")]
EDGES = [("edge", "paper"), ("edge", "raised"), ("focus", "paper"), ("focus", "raised"), ("focus", "shade")]
EDGES += [("band-edge", "band"), ("band-focus", "band"), ("accent", "paper")]


def luminance(colour: str) -> float:
    """Relative luminance, WCAG 2.2."""
    channels = [int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5)]
    red, green, blue = (each / 12.92 if each <= 0.04045 else ((each + 0.055) / 1.055) ** 2.4 for each in channels)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: str, other: str) -> float:
    """Contrast ratio, WCAG 2.2."""
    darker, lighter = sorted([luminance(one), luminance(other)])
    return (lighter + 0.05) / (darker + 0.05)


def test_the_formula_gives_known_ratios() -> None:
    # Published widely: #767676 on white just passes 4.5, #777777 just fails; black on white is 21.
    assert contrast("#000000", "#ffffff") == pytest.approx(21)
    assert contrast("#767676", "#ffffff") == pytest.approx(4.54, abs=0.005)
    assert contrast("#777777", "#ffffff") == pytest.approx(4.48, abs=0.005)


def test_the_systems_choice_and_the_owners_choice_of_dark_look_alike() -> None:
    assert SYSTEM_DARK == DARK
    assert set(LIGHT) == set(DARK)


@pytest.mark.parametrize("scheme", [LIGHT, DARK], ids=["light", "dark"])
@pytest.mark.parametrize(
    ("least", "pairs"), [(7, SEVEN), (4.5, TEXT), (3, EDGES)], ids=["advice and text", "links and labels", "edges"]
)
def test_contrast(scheme: dict[str, str], least: float, pairs: list[tuple[str, str]]) -> None:
    short = {pair: round(contrast(scheme[pair[0]], scheme[pair[1]]), 2) for pair in pairs}
    assert {pair: ratio for pair, ratio in short.items() if ratio < least} == {}
