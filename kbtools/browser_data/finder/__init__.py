"""The data of the finder: what the browser searches in, as files small enough for a telephone."""

from __future__ import annotations

from kbtools.browser_data.finder.files import concerned_addresses, finder_files

__all__ = ["concerned_addresses", "finder_files"]
