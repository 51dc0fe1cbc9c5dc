"""Which words mean what in a knowledge base: the programs' vocabulary with the club's words."""

from __future__ import annotations

from kbtools.index.per_base import per_base
from kbtools.model.base import KnowledgeBase
from kbtools.vocabulary.whole import Vocabulary, vocabulary_of


@per_base
def vocabulary(base: KnowledgeBase) -> Vocabulary:
    """The vocabulary of a knowledge base."""
    return vocabulary_of(base.tables, base.words)
