"""What a check plan looks like in JSON, as a schema: `kbtools plan --format json` prints the same."""

from __future__ import annotations

from typing import Final

from kbtools.export.schema_text import COUNT, NUMBER, TEXT, Schema, Schemas, like, or_null, record, rows, said

_NUMBER_OR_NULL: Final[Schema] = {"type": ["number", "null"]}
_TEXT_OR_NULL: Final[Schema] = {"type": ["string", "null"]}
_PART: Final[Schema] = {"type": "number", "minimum": 0, "maximum": 1}

STEP: Final[Schema] = record(
    "Step",
    {
        "kind": {"type": "string", "enum": ["check", "trial_fix", "fix", "hand_over"]},
        "id": said(_TEXT_OR_NULL, "Of the check, or of the cause whose fix it is; null for handing over."),
        "cost": said(NUMBER, "What it costs whoever gets there: money, and own time in money."),
        "reach": said(_PART, "Probability, from the start, of getting there."),
        "access": rows(TEXT, "Ids of the access jobs that it opens."),
        "outcomes": {
            "description": "By what comes out (bad, or low and high), the steps that follow. A good result goes on in "
            "the list of the step itself.",
            "type": "object",
            "additionalProperties": rows({"$ref": "#/$defs/step"}),
        },
        "where": {"type": "string", "enum": ["home", "workshop", "maker"], "description": "Of a fix: who does it."},
    },
    without=["where"],
)
"""One step of a plan; it stands under `$defs` of the schema of a fault."""

SHARE: Final[Schema] = record(
    "Share",
    {
        "id": said(TEXT, "Of the cause, or unlisted: a cause that the entry does not list."),
        "share": said(_PART, "How often it is the one: the mean after all cases that count."),
        "low": said(_PART, "Lower end of the central 90 % interval."),
        "high": said(_PART, "Upper end of it."),
        "cases": said(COUNT, "Cases that count for it."),
    },
)
"""How often one cause is the one."""


def plan_schema(schemas: Schemas) -> Schema:
    """Of a plan for an owner of whom nothing is known. Nothing in it is rounded."""
    baselines = record("Baselines", {"hand_over": _NUMBER_OR_NULL, "likeliest_first": _NUMBER_OR_NULL})
    advice = record(
        "Ride advice",
        {
            "level": or_null(like(schemas, "common#/$defs/ride-level"), "May I ride it; null: nobody has said."),
            "why": said(_TEXT_OR_NULL, "Markdown."),
            "from": said(TEXT, "Whose advice it is: fault:ID or cause:ID."),
        },
    )
    free = record(
        "Notice",
        {
            "source": said(TEXT, "Number of the recall or bulletin, its title where it has none."),
            "kind": like(schemas, "common#/$defs/source-kind"),
            "covers": rows(TEXT, "Ids of the causes that it covers."),
        },
    )
    return record(
        "Plan",
        {
            "fault": TEXT,
            "expected_cost": said(_NUMBER_OR_NULL, "Until the bike is fixed, in `currency`."),
            "currency": said(TEXT, "ISO 4217."),
            "baselines": said(baselines, "What handing over at once, and the likeliest cause first, would cost."),
            "exact": {"type": "boolean", "description": "Whether no plan is cheaper."},
            "at_least": said(NUMBER, "Where it is not exact: what any plan costs at least."),
            "steps": rows({"$ref": "#/$defs/step"}, "The first is what to do now."),
            "causes": rows(SHARE, "By falling share."),
            "before_riding": rows(TEXT, "Ids of the checks to be done before it is ridden again, whatever is found."),
            "ride_advice": advice,
            "may_be_free": rows(free, "Recalls and bulletins: the maker may pay."),
        },
        without=["at_least"],
    )
