"""Links that died as jobs: one for each file that has it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from kbtools.agenda.job import DeadLink
from kbtools.index.links import archived_copies, outside_links
from kbtools.links.answer import Answer, gone
from kbtools.model.base import KnowledgeBase


def dead_links(base: KnowledgeBase, answers: Mapping[str, Answer]) -> Iterator[DeadLink]:
    """The links of a base that died when they were asked last, in the order of the files.

    Args:
        base: the knowledge base.
        answers: by link; those that the base no longer has are passed over.
    """
    dead, copies = gone(answers), archived_copies(base)
    for url, places in outside_links(base).items():
        if url in dead:
            kept = bool(copies.get(url, frozenset()) - dead)
            for path in dict.fromkeys(place.path for place in places):
                yield DeadLink(path=path, url=url, said=answers[url].said, copied=kept)
