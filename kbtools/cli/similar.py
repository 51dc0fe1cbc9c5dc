"""`kbtools similar`: entries that may say the same, and one draft of two of them."""

from __future__ import annotations

import textwrap
from collections.abc import Iterable, Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path

import click

from kbtools.cli.common import checked, kb_option
from kbtools.cli.output import misuse, say, stream
from kbtools.edges.shipped import shapes
from kbtools.index.entries import titles
from kbtools.index.heirs import claims
from kbtools.merging.draft import Merged, merged
from kbtools.model.base import KnowledgeBase
from kbtools.model.fault import Fault
from kbtools.reading.write_fault import as_yaml
from kbtools.similarity.pairs import KINDS, Kind, Pair, similar
from kbtools.similarity.search import Watch
from kbtools.similarity.text_query import like_text
from kbtools.similarity.why import carried
from kbtools.text.nearest import nearest_id
from kbtools.text.terminal import json_text, shown

_NEAREST = 3
"""Entries that are shown for a text, even if they are probably about something else."""
_FLOOR = 0.05
"""The score below which nothing is near."""


@click.command(name="similar")
@kb_option
@click.option("--format", "form", type=click.Choice(["text", "json"]), default="text", show_default=True)
@click.option("--kind", type=click.Choice(list(KINDS)), help="Only faults, or only cases.")
@click.option("--min-score", "least", type=click.FloatRange(0, 1), help="Pairs of at least this score.")
@click.option(
    "--text",
    "asked",
    metavar="TEXT",
    help="Is there something like this already? Faults, unless --kind says otherwise.",
)
@click.option(
    "--merge", "merging", nargs=2, metavar="A B", help="Print one draft of two faults, to go in the place of A."
)
def similar_command(  # noqa: PLR0913, PLR0917 (one for each option)
    folder: Path, form: str, kind: Kind | None, least: float | None, asked: str | None, merging: tuple[str, str] | None
) -> None:
    """Find entries that may say the same, best first, and what they have in common.

    Pairs that an entry tells apart under distinct_from are left out.
    """
    if asked is not None and merging is not None:
        raise misuse("--text and --merge are two questions; ask one at a time.")
    base = checked(folder).base
    if merging is not None:
        _merge(base, *merging)
        return
    pairs = _asked(base, kind, asked, least) if asked is not None else _all(base, kind, least)
    if form == "json":
        say(json_text([_record(pair) for pair in pairs]))
    else:
        near = _near(base, kind, asked, pairs) if asked is not None and least is None else ()
        say(_told(base, pairs, asked, near), fit=True)


def _asked(base: KnowledgeBase, kind: Kind | None, text: str, least: float | None) -> list[Pair]:
    if not text.strip():
        raise misuse("--text is empty.")
    return like_text(base, kind or "fault", text, least=least)


def _near(base: KnowledgeBase, kind: Kind | None, text: str, found: Sequence[Pair]) -> list[Pair]:
    """What comes nearest to a text below the score from which it is shown, up to three entries in all."""
    if len(found) >= _NEAREST:
        return []
    every = like_text(base, kind or "fault", text, least=_FLOOR)
    shown_already = {each.b for each in found}
    return [each for each in every[:_NEAREST] if each.b not in shown_already]


def _all(base: KnowledgeBase, kind: Kind | None, least: float | None) -> list[Pair]:
    pairs = []
    for each in KINDS if kind is None else (kind,):
        with _progress(f"Comparing {each}s", len(base.faults) if each == "fault" else len(base.cases)) as watch:
            pairs += similar(base, each, least=least, watch=watch)
    return sorted(pairs, key=lambda pair: -pair.score)


@contextmanager
def _progress(label: str, length: int) -> Iterator[Watch]:
    """A bar on a terminal, nothing elsewhere; on the error stream, so that the output stays clean."""
    to = stream(err=True)
    if to is None or not to.isatty():
        yield iter
        return

    def watch(numbers: Iterable[int]) -> Iterable[int]:
        with click.progressbar(numbers, length=length, label=label, file=to) as bar:
            yield from bar

    yield watch


def _record(pair: Pair) -> dict[str, object]:
    return {"kind": pair.kind, "a": pair.a, "b": pair.b, "score": pair.score, "fields": dict(pair.fields)}


def _told(base: KnowledgeBase, pairs: Sequence[Pair], asked: str | None, near: Sequence[Pair] = ()) -> str:
    if near:
        said = "Nothing says the same. " if not pairs else ""
        head = _told(base, pairs, asked) if pairs else ""
        return f"{head}{said}Nearest, but probably another:\n{_told(base, near, asked)}"
    if not pairs:
        return "Nothing like it.\n" if asked is not None else "No two entries seem to say the same.\n"
    blocks = []
    for pair in pairs:
        names = [pair.b] if asked is not None else [pair.a, pair.b]
        lines = [f"{pair.score:.2f} {pair.kind}"]
        lines += [f"    {name}{_title(base, pair.kind, name)}" for name in names]
        blocks.append(
            "\n".join(
                [*lines, textwrap.fill(carried(pair.fields), 100, initial_indent="    ", subsequent_indent="    ")]
            )
        )
    return "\n".join(blocks) + "\n"


def _title(base: KnowledgeBase, kind: Kind, name: str) -> str:
    if kind == "fault":
        return f": {shown(base.faults[name].title)}"
    symptoms = shown("; ".join(base.cases[name].symptoms))
    return f": {symptoms}" if symptoms else ""


def _merge(base: KnowledgeBase, first: str, second: str) -> None:
    one, other = _fault(base, first), _fault(base, second)
    if one is other:
        raise misuse(f'"{first}" and "{second}" are one entry already.')
    draft = merged(base, one, other)
    head = (
        f"# Drafted from {shown(one.path)} and {shown(other.path)}. Edit it before it goes in the place of the first."
    )
    hints = shapes()["fault"].hints
    say(f"{head}\n{as_yaml(draft.fault, hints)}")
    say("".join(f"{shown(step)}\n" for step in _steps(base, draft, one, other)), err=True)


def _fault(base: KnowledgeBase, identity: str) -> Fault:
    """The fault of that id, which may be an old one.

    Raises:
        click.UsageError: there is none, or it is withdrawn.
    """
    heir, *_ = claims(base).get(identity, (identity,))
    fault = base.faults.get(identity) or base.faults.get(heir)
    if fault is None:
        guess = nearest_id(identity, titles(base))
        hint = f'Did you mean "{guess}"?' if guess is not None else "kbtools similar --text finds one by its words."
        raise misuse(f'There is no fault "{identity}". {hint}')
    if fault.withdrawn is not None:
        raise misuse(f'"{identity}" has been withdrawn; there is nothing in it to put together.')
    return fault


def _steps(base: KnowledgeBase, draft: Merged, one: Fault, other: Fault) -> Iterator[str]:
    """What is left to the curator."""
    yield f"Put the draft in the place of {one.path}, and take {other.path} away: its address leads on by formerly."
    renamed = {old: new for old, new in {**draft.causes, **draft.checks}.items() if old != new}
    if draft.cases:
        yield f"Cases to re-point (fault: {one.id}):"
        yield from (f"    {base.cases[each].path}" for each in draft.cases)
    if renamed:
        changes = ", ".join(f"{old} → {new}" for old, new in renamed.items())
        yield f"Ids that change{' in these cases' if draft.cases else ''}: {changes}."
    if draft.named_by:
        yield f"Entries that name {other.id}:"
        yield from (f"    {base.faults[each].path}" for each in draft.named_by)
    yield from draft.notes
    yield (
        "Then review it, and take out the line draft: true."
        if draft.fault.draft
        else "Then read it, and write who has reviewed it and when: reviewed: {on: …, by: …}. It does not check before."
    )
