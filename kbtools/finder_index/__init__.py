"""The data of the finder: what the browser searches in, as files small enough for a telephone."""

from __future__ import annotations

from kbtools.finder_index.files import finder_files

__all__ = ["finder_files"]
