"""Whom a page, a row or a notice concerns, as one attribute that the site's scripts hold against the owner's bike."""

from __future__ import annotations

from kbtools.evidence import Spans, runs
from kbtools.index.answers import Index
from kbtools.index.scopes import scope
from kbtools.model.fault import AppliesTo, Fault


def whom(fault: Fault, index: Index, on: str | None = None) -> str:
    """`curlew-1100:2010-2015 dunlin-650:1996-2001,2004-2004`: models by id, their years as unbroken runs.

    `on` is the one model that a row is about.
    """
    scopes = index.scopes.get(fault.id, {})
    return written(runs({model: years for model, years in scopes.items() if on in {None, model}}))


def whom_asked(fault: Fault, index: Index) -> str:
    """Those of them whose owner must answer a question first."""
    scopes = index.scopes.get(fault.id, {})
    asked = {model: {year: each for year, each in years.items() if each} for model, years in scopes.items()}
    return written(runs(asked))


def whom_of_rows(rows: tuple[AppliesTo, ...], index: Index) -> str:
    """The same for rows about models and years."""
    return written(runs(scope(rows, index.base.models, index.years)))


def written(spans: Spans) -> str:
    """Ids of models hold neither blank nor colon, so nothing needs to be escaped here."""
    return " ".join(
        f"{model}:{','.join(f'{first}-{last}' for first, last in years)}" for model, years in spans.items() if years
    )
