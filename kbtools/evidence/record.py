"""Evidence as plain data, for the browser: `core/evidence.js` computes with it as `shares` does here."""

from __future__ import annotations

from collections.abc import Mapping

from kbtools.evidence.counting import Evidence, Spans
from kbtools.index.answers import ModelYear

Record = dict[str, object]


def evidence_record(evidence: Evidence) -> Record:
    """The evidence as JSON has it.

    `{"prior_strength", "unlisted_share", "causes": [{"id", "component", "weight", "applies", "cases"}], "unlisted"}`;
    `applies` is null or `{model: [[first year, last year], …]}`, `cases` and `unlisted` are `{model: {year: count}}`.
    """
    return {
        "prior_strength": evidence.prior_strength,
        "unlisted_share": evidence.unlisted_share,
        "causes": [
            {
                "id": cause.id,
                "component": cause.component,
                "weight": cause.weight,
                "applies": None if cause.applies is None else _spans(cause.applies),
                "cases": _counts(cause.counted),
            }
            for cause in evidence.causes
        ],
        "unlisted": _counts(evidence.unlisted),
    }


def _spans(spans: Spans) -> Record:
    return {model: [list(run) for run in runs] for model, runs in spans.items()}


def _counts(counted: Mapping[ModelYear, int]) -> Record:
    found: dict[str, dict[str, int]] = {}
    for (model, year), count in sorted(counted.items()):
        found.setdefault(model, {})[str(year)] = count
    return dict(found)
