"""Whether a browser still shows what the last build gave: a digest of each page, but for what changes in each build."""

from __future__ import annotations

import hashlib
import posixpath
import re
import urllib.parse
from pathlib import Path

from kbtools.site.answering import locate

NOTHING_THERE = "none"
"""In the place of a page's digest; `live_client.js` knows it too."""

_PASSING = re.compile(
    rb"|".join(
        (
            rb'<meta name="build" content="[^"]*">',
            # The finder fetches from where its page says, and what was published there is kept (`earlier.py`).
            rb"(?<=/)finder-[0-9a-f]{12}(?=/)",
            rb'(?<=last built on )<time datetime="[0-9-]*">[0-9-]*</time>',
        )
    )
)
"""The build's id, the folder of the finder's data, the day; `main.html`, `_finder.html` and `footer.html` have them."""
_PICTURE = re.compile(rb'<img\b[^>]*?\bsrc="([^"]+)"')


class Shown:
    """The pages of a site in a folder that builds replace, as far as a browser has asked for them. For many threads."""

    def __init__(self, root: Path) -> None:
        self._root = root
        self._digests: dict[str, str] = {}
        self._given: set[str] = set()

    def renew(self) -> None:
        """Look at the pages anew: there was a build."""
        # Another one, not an empty one: somebody may be noting what the old site has at this moment.
        self._digests = {}

    def standing(self, name: str) -> str:
        """Digest of the page at an address below the root, as it is now; `NOTHING_THERE` where there is none."""
        digests = self._digests
        if name not in digests:
            file = file_at(self._root, name)
            try:
                digests[name] = NOTHING_THERE if file is None else self._digest(name, file.read_bytes())
            except OSError:  # a folder, or gone in this moment
                return NOTHING_THERE
        return digests[name]

    def given(self, name: str, page: bytes) -> str:
        """Note that a browser is given this page at this address; returns its digest."""
        self._given.add(name)
        return self._digest(name, page)

    def is_gone(self, name: str) -> bool:
        """Whether a page that was given stands no more."""
        return name in self._given and self.standing(name) == NOTHING_THERE

    def _digest(self, name: str, page: bytes) -> str:
        """Changes when a reader would see another page; styles and scripts have addresses that say their content."""
        whole = hashlib.blake2b(_PASSING.sub(b"", page), digest_size=12)
        for source in dict.fromkeys(_PICTURE.findall(page)):
            address = urllib.parse.unquote(source.decode("utf-8", "replace"))
            file = locate(self._root, posixpath.join(posixpath.dirname(name), address))
            if file is not None and file.is_file():
                whole.update(hashlib.blake2b(file.read_bytes()).digest())
        return whole.hexdigest()


def file_at(root: Path, name: str) -> Path | None:
    """The file, or the folder, at an address below the root."""
    return locate(root, f"{name}index.html" if name.endswith("/") or not name else name)
