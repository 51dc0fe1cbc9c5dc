"""Hostile words in every text that a page shows: they are read as words, and nothing of them runs."""

from __future__ import annotations

import dataclasses
from collections.abc import Mapping
from typing import Any

from kbtools.model.base import KnowledgeBase
from tests.support import factories as make
from tests.support.page_reader import all_articles, full_base

CANARY = (
    "</title><script>canary()</script>\"'><img src=x onerror=canary()>{{ canary }} **[x](javascript:canary())\u202e"
)
TEXT_FIELDS = frozenset(
    [
        *("name", "also_called", "text", "only_if", "note", "meaning", "sets_when", "why", "stop_if", "summary", "do"),
        *(
            "expect",
            "place",
            "when",
            "title",
            "number",
            "issuer",
            "region",
            "url",
            "archived",
            "because",
            "by",
            "second",
        ),
        *("second", "reason", "symptoms", "modified", "conditions", "reading"),
    ]
)
"""Fields that hold texts, and addresses of links; ids and words of a fixed list are held by the schema."""
ATTRIBUTES = frozenset(
    [
        *("class", "id", "href", "rel", "role", "scope", "type", "for", "name", "method", "action", "hidden", "open"),
        *("viewbox", "width", "height", "fill", "stroke", "stroke-width", "stroke-linecap", "stroke-linejoin"),
        *("stroke-dasharray", "d", "cx", "cy", "r", "x", "y", "focusable", "preserveaspectratio", "enterkeyhint"),
        *("x1", "x2", "y1", "y2", "tabindex", "value", "max"),
        *("autocomplete", "autocapitalize", "autocorrect", "spellcheck", "maxlength", "placeholder", "novalidate"),
        *("inputmode", "rows", "min", "accept"),
    ]
)


def hostile(value: Any, name: str = "") -> Any:
    """The value with every text in it replaced by a hostile one."""
    if isinstance(value, str):
        return CANARY if name in TEXT_FIELDS else value
    if isinstance(value, tuple):
        return tuple(hostile(each, name) for each in value)
    if isinstance(value, Mapping):
        return {key: hostile(each) for key, each in value.items()}
    if not dataclasses.is_dataclass(value) or isinstance(value, type) or name == "read":
        return value
    fields = (each.name for each in dataclasses.fields(value) if each.init)
    return dataclasses.replace(value, **{field: hostile(getattr(value, field), field) for field in fields})


def hostile_base() -> KnowledgeBase:
    base = full_base(pages=(make.hand_page("pages/safety.md"),))
    return dataclasses.replace(
        base,
        club=make.club(name=CANARY),
        systems=hostile(base.systems),
        components=hostile(base.components),
        access=hostile(base.access),
        tools=hostile(base.tools),
        cautions=hostile(base.cautions),
        models=hostile(base.models),
        faults=hostile(base.faults),
        cases=hostile(base.cases),
    )


def test_hostile_texts_are_shown_and_never_run() -> None:
    _, articles = all_articles(hostile_base())
    for address, article in articles.items():
        for tag, attributes in article.tags:
            is_data = attributes in [
                {"type": "application/json", "class": name} for name in ("plan-data", "joint-data", "report-data")
            ]
            assert tag != "script" or is_data, address
            assert tag not in {"img", "iframe", "style", "title", "link", "object"}, address
            odd = {name for name in attributes if not name.startswith(("aria-", "data-"))} - ATTRIBUTES
            assert not odd, (address, tag, odd)
        assert not any("javascript:" in link for link in article.links)
        assert "\u202e" not in article.text
    shown = articles["faults/sags/"].text
    # Each text once and more: title, symptoms, ride advice, codes, causes, checks, fixes, sources, cases.
    assert shown.count("<script>canary()</script>") > 30
    assert "{{ canary }}" in shown
    assert "⟦U+202E⟧" in shown
