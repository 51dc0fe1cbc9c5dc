"""Templates as Python runs them, kept by the process: a site built again there compiles what was edited alone.

Compiling all templates takes longer than rendering a small site with them, and the server builds at each edit.
"""

from __future__ import annotations

from types import CodeType

from jinja2 import BytecodeCache
from jinja2.bccache import Bucket


class CompiledTemplates(BytecodeCache):
    """What templates were compiled to, for environments that are set up alike; others need one of their own."""

    def __init__(self) -> None:
        self._known: dict[str, tuple[str, CodeType]] = {}

    def load_bytecode(self, bucket: Bucket) -> None:
        """Hand out what the same text of the same file was compiled to."""
        text, code = self._known.get(bucket.key, ("", None))
        if text == bucket.checksum:
            bucket.code = code

    def dump_bytecode(self, bucket: Bucket) -> None:
        """Keep what a text was compiled to, in the place of what the file said before."""
        if bucket.code is not None:
            self._known[bucket.key] = (bucket.checksum, bucket.code)
