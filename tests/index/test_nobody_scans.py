"""A question about a knowledge base that `kbtools/index/` answers is not worked out elsewhere.

Two things are looked for in every room above the index:

- who goes through all faults or all cases of a base. A rule may, if it has something to say of each: a `for` over
  `faults(base)` or `cases(base)`. Whatever gathers something from all of them is an answer, and belongs into the index.
  `published(base)`, `living(base)` and the like are answers, and may be gone through by everybody.
- who reads a field that an answer is made from, such as `formerly`. Where that is the field's own sake (to show it, to
  name its place), it is on the list with its reason.
"""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator, Mapping

import pytest

from tests.test_floors import MODULES, room_of

BELOW = {"model", "text", "personal", "vocabulary", "wording", "diagnostics", "index"}
"""Rooms that the index stands on, and itself."""
MAKES = "reading"
"""The room that makes the base."""

ENTRIES = {"faults", "cases"}
A_RULE = re.compile(r"kbtools\.rules\.[a-z]+\.kb[0-9]{3}_\w+")

SCANS: Mapping[str, str] = {
    "kbtools.export.kept_texts": "writes a record and a row for each case",
    "kbtools.rules.beside": "goes through the cases for the rules that hold each against its fault",
    "kbtools.similarity.pairs": "compares all cases with each other",
    "kbtools.similarity.features": "takes its last year from all that is named, so that open ends can be compared",
}
"""Modules that go through all entries and are no rule, and why."""

TELLTALES: Mapping[str, tuple[str, Mapping[str, str]]] = {
    "formerly": (
        "heirs",
        {
            "kbtools.merging.draft": "writes the list of the draft",
            "kbtools.merging.left_out": "compares the draft's list with theirs",
            "kbtools.rules.references.kb313_old_id": "names each place",
        },
    ),
    "replaced_by": ("heirs", {"kbtools.cli.named": "says what a withdrawn entry names, as written"}),
    "needs": (
        "access",
        {
            "kbtools.checkplan.problem": "hands them to the browser",
            "kbtools.checkplan.table": "asks the index about the jobs of a problem, which may come without its base",
            "kbtools.pages.plan_views": "likewise",
            "kbtools.rules.meaning.kb433_allowed_and_forbidden": "asks the index about all but the job itself",
            "kbtools.rules.references.kb314_circle": "names the place where a circle begins",
        },
    ),
    "follows": (
        "cases",
        {
            "kbtools.similarity.cases": "two cases that follow one another are not one",
            "kbtools.similarity.seen": "digests all that is compared of a case",
        },
    ),
    "is_solved": ("cases", {}),
    "published": ("entries", {}),
    "safety_critical": ("safety", {"kbtools.pages.system": "shows it of each system"}),
    "follow_on": (
        "codes",
        {
            "kbtools.browser_data.joint": "hands it to the browser",
            "kbtools.changes.advice": "says it of each row",
            "kbtools.pages.code": "shows it of each row",
            "kbtools.pages.lines": "shows the other rows",
            "kbtools.rules.contradictions.kb602_advice_contradicts": "asks the other rows",
        },
    ),
    "distinct_from": (
        "apart",
        {
            "kbtools.browser_data.finder.entries": "reads the words of each row's reason",
            "kbtools.merging.draft": "writes the list of the draft",
            "kbtools.rules.references.kb324_itself": "names each place",
            "kbtools.similarity.apart": "compares what each row tells apart",
        },
    ),
    "low_points_to": (
        "checks",
        {
            "kbtools.checkplan.problem": "each side is an outcome of its own",
            "kbtools.merging.checks": "writes the lists of the draft",
            "kbtools.merging.renaming": "writes them with the ids of the draft",
            "kbtools.pages.handbook_cards": "shows each side of what the page of a fault shows",
            "kbtools.pages.work": "shows each side",
            "kbtools.rules.meaning.kb412_both_sides": "holds one side against the other",
        },
    ),
    "review_after_months": ("reviews", {"kbtools.rules.freshness.kb701_review_overdue": "says it"}),
}
"""Field → the module of the index that answers from it, and the modules above that read it all the same, and why."""


def parents(tree: ast.AST) -> dict[ast.AST, ast.AST]:
    return {child: node for node in ast.walk(tree) for child in ast.iter_child_nodes(node)}


def is_base(node: ast.AST) -> bool:
    """Whether an expression is a knowledge base, by its name."""
    return (isinstance(node, ast.Name) and node.id == "base") or (
        isinstance(node, ast.Attribute) and node.attr.lstrip("_") == "base"
    )


def looks_one_up(node: ast.AST, above: Mapping[ast.AST, ast.AST]) -> bool:
    """Whether a mapping is asked for one id, or for its size, only."""
    parent = above[node]
    if isinstance(parent, ast.Subscript):
        return parent.value is node
    if isinstance(parent, ast.Attribute):
        return parent.attr == "get"
    if isinstance(parent, ast.Compare):
        return node in parent.comparators and all(isinstance(each, ast.In | ast.NotIn) for each in parent.ops)
    return isinstance(parent, ast.Call) and isinstance(parent.func, ast.Name) and parent.func.id == "len"


def scans(module: str, tree: ast.AST) -> Iterator[str]:
    """Where a module goes through all faults or cases of a base."""
    above = parents(tree)
    for node in ast.walk(tree):
        if isinstance(node, ast.Attribute) and node.attr in ENTRIES:
            parent = above[node]
            all_of_some = isinstance(parent, ast.Attribute) and parent.attr in {"values", "items", "keys"}
            called = isinstance(parent, ast.Call) and parent.func is node
            if all_of_some or called or (is_base(node.value) and not looks_one_up(node, above)):
                yield f"{module}:{node.lineno} goes through {ast.unparse(node)}"
        elif isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id in ENTRIES:
            of_each = isinstance(above[node], ast.For) and A_RULE.fullmatch(module) is not None
            if not of_each and module not in SCANS:
                yield f"{module}:{node.lineno} goes through {ast.unparse(node)}"


def renames(module: str, tree: ast.AST) -> Iterator[str]:
    """Where a module takes `faults` or `cases` of the index under another name, so that `scans` would miss them."""
    for node in ast.walk(tree):
        if isinstance(node, ast.ImportFrom) and node.module == "kbtools.index.entries":
            yield from (f"{module}:{node.lineno} renames {each.name}" for each in node.names if each.asname)


def reads(tree: ast.AST) -> Iterator[tuple[int, str, str]]:
    """Where a field is read that the index answers from: line, field, and the expression."""
    for node in ast.walk(tree):
        if isinstance(node, ast.Attribute) and node.attr in TELLTALES and isinstance(node.ctx, ast.Load):
            of_index = isinstance(node.value, ast.Name) and node.value.id == "index"
            if not of_index:
                yield node.lineno, node.attr, ast.unparse(node)


def answers(module: str, tree: ast.AST) -> Iterator[str]:
    """Where a module reads such a field and is not on the list."""
    for line, field, text in reads(tree):
        where, allowed = TELLTALES[field]
        if module not in allowed:
            yield f"{module}:{line} reads {text}: ask kbtools.index.{where}"


def problems(module: str, source: str) -> list[str]:
    tree = ast.parse(source)
    return [*scans(module, tree), *renames(module, tree), *answers(module, tree)]


def above_the_index() -> dict[str, str]:
    """Source of each module that may ask."""
    return {
        module: path.read_text("utf-8") for module, path in MODULES.items() if room_of(module) not in {*BELOW, MAKES}
    }


def test_every_question_is_asked_in_the_index() -> None:
    assert [each for module, source in above_the_index().items() for each in problems(module, source)] == []


def test_what_is_allowed_is_needed() -> None:
    """A line of the lists that nobody needs any more would hide the next one who scans."""
    trees = {module: ast.parse(source) for module, source in above_the_index().items()}
    needed = {(field, module) for module, tree in trees.items() for _, field, _ in reads(tree)}
    assert {(field, module) for field, (_, allowed) in TELLTALES.items() for module in allowed} == needed
    assert [module for module in SCANS if not any(scans("kbtools.pages.other", trees[module]))] == []
    assert {f"kbtools.index.{where}" for where, _ in TELLTALES.values()} <= set(MODULES)


RULE = "kbtools.rules.meaning.kb499_new"


@pytest.mark.parametrize(
    ("module", "source"),
    [
        ("kbtools.pages.new", "count = sum(1 for each in index.base.faults.values() if each.symptoms)"),
        ("kbtools.pages.new", "for name, each in sorted(base.cases.items()): print(each)"),
        ("kbtools.pages.new", "ids = list(self._base.faults)"),
        ("kbtools.pages.new", "known = base.faults"),
        ("kbtools.pages.new", "known = {**knowledge.faults.values()}"),
        ("kbtools.pages.new", "for each in faults(base): tell(each)"),
        ("kbtools.pages.new", "for each in entries.faults(base): tell(each)"),
        ("kbtools.pages.new", "from kbtools.index.entries import faults as every"),
        (RULE, "for fault in base.faults.values(): tell(fault)"),
        (RULE, "by_bike = {case.vehicle.bike: case for case in cases(base)}"),
        (RULE, "critical = sorted(faults(base), key=path)"),
        ("kbtools.pages.new", "old = {each: fault.id for fault in advice for each in fault.formerly}"),
        (RULE, "if fault.published: tell(fault)"),
        ("kbtools.evidence.new", "good = [case for case in told if case.outcome.is_solved(far)]"),
    ],
)
def test_who_works_it_out_is_found(module: str, source: str) -> None:
    assert problems(module, source) != []


@pytest.mark.parametrize(
    ("module", "source"),
    [
        ("kbtools.pages.new", "fault = index.base.faults[fault_id]"),
        ("kbtools.pages.new", "fault = base.faults.get(fault_id)"),
        ("kbtools.pages.new", "known = fault_id in base.faults and len(base.cases) > 2"),
        ("kbtools.pages.new", "for fault in index.published.values(): tell(fault)"),
        ("kbtools.pages.new", "for fault in published(base).values(): tell(fault)"),
        ("kbtools.pages.new", "shown = sum(row.cases for row in rows)"),
        (RULE, "for fault in faults(base): tell(fault)"),
        (RULE, "for case in cases(base): tell(case)"),
    ],
)
def test_who_asks_is_let_be(module: str, source: str) -> None:
    assert problems(module, source) == []
