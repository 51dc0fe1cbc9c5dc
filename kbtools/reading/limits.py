"""How much a knowledge base may hold: bounds that no club meets, and that keep reading it from taking for ever.

How long a text, a list or a number may be says the schema of its file (`maxLength`, `maxItems`, `maximum`); what
Markdown can take says `kbtools/text/bounds.py`. What neither can say stands here, and nowhere else.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

MAX_BYTES: Final = 1_000_000
"""Of a file: more is not even read into memory."""
MOST_ENTRY_BYTES: Final = 60_000
"""Of a model, a fault, a case or a page: thirty sheets of paper. An entry of twelve causes and checks has a quarter."""
MAX_PICTURE_BYTES: Final = 8_000_000
"""Of a picture; a longer one is not opened."""
MAX_DEPTH: Final = 24
"""Levels of a file. The deepest entry of the format has nine, and a tree of systems a few more."""
MOST_MISTAKES: Final = 500
"""Findings about the form of one file. Nobody mends more of them one by one: what follows is not looked at."""
MOST_FILES: Final = 120_000
"""Of a knowledge base. What is measured are 20,000 faults and 80,000 cases, which a machine of 4 GB has to build."""
MOST_BYTES_IN_ALL: Final = 180_000_000
"""Of all files, pictures aside. Those 100,000 have 136,000,000."""
MOST_OF: Final[Mapping[str, tuple[int, str]]] = {
    "model": (500, "models"),
    "fault": (22_000, "faults"),
    "case": (84_000, "cases"),
    "page": (1_000, "hand-written pages"),
    "image": (5_000, "pictures"),
}
"""Files of a kind, and what they are called."""
MOST_SYSTEMS: Final = 500
"""Of the whole tree: each has a page, and lists of its own."""
