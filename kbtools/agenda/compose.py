"""All jobs of a knowledge base, most useful first."""

from __future__ import annotations

import datetime as dt
from collections.abc import Iterable, Iterator, Mapping
from typing import Final, get_args

from kbtools.agenda.job import MINUTES, DeadLink, Job, JobKind
from kbtools.agenda.reviews import reviews
from kbtools.diagnostics import Finding
from kbtools.index.entries import drafts, ids_by_path
from kbtools.model.base import KnowledgeBase
from kbtools.model.fault import Fault
from kbtools.model.memory import Memory
from kbtools.similarity.unsorted import unsorted

_JOBS: Final[Mapping[str, JobKind]] = {
    "KB602": "ride-advice",
    "KB620": "ride-advice",
    "KB704": "second-reader",
    "KB708": "shared-cause",
    "KB610": "near-duplicate",
    "KB611": "near-duplicate",
}
"""Rules whose findings are jobs of a kind of their own; the others of KB6 are contradictions."""
_ORDER: Final = {kind: place for place, kind in enumerate(get_args(JobKind))}
_WANTED: Final = ("applies_to", "ride_advice", "causes", "sources", "reviewed")
"""What an entry must have before it is published, besides title and system."""

_RENEW: Final = "name an archived copy, or another source"


def agenda(
    base: KnowledgeBase,
    findings: Iterable[Finding],
    today: dt.date,
    dead: Iterable[DeadLink] = (),
    memory: Memory | None = None,
) -> tuple[Job, ...]:
    """What to do next, most useful first.

    Args:
        base: the knowledge base.
        findings: what a check of it finds, without what the club accepts; paths relative to its folder.
        today: decides which reviews are due.
        dead: links that died when they were asked last.
        memory: knows what the cases without a fault resemble; None: it is worked out.
    """
    jobs = [
        *_of_findings(base, findings),
        *reviews(base, today),
        *_of_cases(base, memory),
        *_of_links(base, dead),
        *map(_draft, drafts(base)),
    ]
    return tuple(sorted(jobs, key=lambda job: (job.months, _ORDER[job.job], -job.weight, job.subject, job.why)))


def _of_findings(base: KnowledgeBase, findings: Iterable[Finding]) -> Iterator[Job]:
    subjects = ids_by_path(base)
    broken: dict[str, list[Finding]] = {}
    for each in findings:
        kind = _JOBS.get(each.rule, "contradiction" if each.rule.startswith("KB6") else None)
        if each.severity == "error":
            broken.setdefault(each.path, []).append(each)
        elif kind is not None:
            yield _job(kind, subjects.get(each.path, each.path), each.message, each.path)
    for path, found in broken.items():
        more = f" And {len(found) - 1} more." if len(found) > 1 else ""
        why = f"Line {found[0].mark.line}: {found[0].message}{more} Nothing is published before that."
        yield _job("mend", subjects.get(path, path), why, path, minutes=MINUTES["mend"] * min(len(found), 6))


def _job(kind: JobKind, subject: str, why: str, path: str, minutes: int | None = None) -> Job:
    return Job(job=kind, subject=subject, why=why, minutes=MINUTES[kind] if minutes is None else minutes, path=path)


def _of_cases(base: KnowledgeBase, memory: Memory | None) -> Iterator[Job]:
    found = unsorted(base, memory)
    for case, fault in found.entries.items():
        why = f'It names no fault, and reads like "{fault}": name it under fault, or leave it if it is another trouble.'
        yield _job("sort-case", case, why, base.cases[case].path)
    for group in found.groups:
        first, *others = group
        why = f"{len(group)} cases without a fault read alike ({', '.join(group)}): perhaps they want an entry."
        yield Job(
            job="sort-case",
            subject=first,
            why=why,
            minutes=MINUTES["sort-case"] + MINUTES["draft"],
            path=base.cases[first].path,
            weight=len(others),
        )


def _of_links(base: KnowledgeBase, dead: Iterable[DeadLink]) -> Iterator[Job]:
    subjects = ids_by_path(base)
    for each in dead:
        todo = "readers are led to its archived copy; look where it went" if each.copied else _RENEW
        why = f"The link {each.url} leads nowhere any more ({each.said}): {todo}."
        yield _job("dead-link", subjects.get(each.path, each.path), why, each.path)


def _draft(fault: Fault) -> Job:
    lacking = [key for key in _WANTED if not getattr(fault, key)]
    why = f"The draft waits for {_listed(lacking)}." if lacking else "The draft has all it needs: read it, and publish."
    minutes = MINUTES["draft"] + 10 * len(lacking)
    return Job(job="draft", subject=fault.id, why=why, minutes=minutes, path=fault.path, weight=-len(lacking))


def _listed(words: list[str]) -> str:
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} and {words[-1]}"
