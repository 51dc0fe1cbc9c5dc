"""What an access job needs before it, and what that needs: one set, in the order that the asker takes it in.

All of it is linear in the jobs and their needs, and ends where jobs need each other in a circle, by whatever way: that
is a mistake which KB314 reports. A job that nobody has described needs nothing.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Callable, Iterable, Mapping, Sequence

from kbtools.index.per_base import per_base
from kbtools.model.base import KnowledgeBase
from kbtools.model.catalogue import BIKE_STATES, Access, BikeState

Needs = Mapping[str, Sequence[str]]
"""Id of an access job → ids of those that come right before it."""


@per_base
def access_needs(base: KnowledgeBase) -> Needs:
    """What each job of a base needs right before it, as written."""
    return {job.id: job.needs for job in base.access.values()}


def access_jobs(ids: Iterable[str], base: KnowledgeBase) -> tuple[Access, ...]:
    """These jobs with those that they need, each once, in the order of the work; those that do not exist stay out."""
    wanted = tuple(ids)
    return tuple(base.access[each] for each in in_order_of_work(wanted, access_needs(base))) if wanted else ()


def most_allowed(ids: Iterable[str], base: KnowledgeBase) -> BikeState:
    """The most that the bike may do while these jobs are open, and those that they need."""
    said = [job.allows for job in access_jobs(ids, base) if job.allows is not None]
    return min(said, key=BIKE_STATES.index, default=BIKE_STATES[-1])


def forbids(base: KnowledgeBase, ids: Iterable[str], bike: BikeState) -> bool:
    """Whether the bike may not do so while these jobs are open, and those that they need."""
    return BIKE_STATES.index(bike) > BIKE_STATES.index(most_allowed(ids, base))


def in_order_of_work(ids: Iterable[str], known: Needs) -> tuple[str, ...]:
    """These jobs with those that they need, each once, what is needed before what needs it.

    Those that are not known stay out: nobody can do them.
    """
    done: dict[str, None] = {}
    entered: set[str] = set()
    waiting = [(each, False) for each in reversed(tuple(ids))]
    while waiting:
        job, needs_done = waiting.pop()
        if needs_done:
            done[job] = None
        elif job in known and job not in entered:
            entered.add(job)
            waiting.append((job, True))
            waiting.extend((need, False) for need in reversed(known[job]))
    return tuple(done)


def nearest_first(ids: Iterable[str], known: Needs) -> tuple[str, ...]:
    """These jobs, then those that they need, then what those need, each once; those that are not known among them."""
    return _reached(ids, known, deque.popleft)


def last_named_first(ids: Iterable[str], known: Needs) -> tuple[str, ...]:
    """As `nearest_first`, but from the last job named backwards, each followed by all that it needs."""
    return _reached(ids, known, deque.pop)


def _reached(ids: Iterable[str], known: Needs, take: Callable[[deque[str]], str]) -> tuple[str, ...]:
    found: dict[str, None] = {}
    waiting = deque(ids)
    while waiting:
        job = take(waiting)
        if job not in found:
            found[job] = None
            waiting.extend(known.get(job, ()))
    return tuple(found)
