"""What a page is, for search engines: JSON-LD with the words of schema.org, which claims no more than the page does."""

from __future__ import annotations

import re
from typing import Final

from kbtools.export.json_text import Record
from kbtools.index.answers import Index
from kbtools.model.fault import Fault
from kbtools.text.html import plain
from kbtools.wording import addresses

_SPDX: Final = re.compile(r"(?!LicenseRef-|DocumentRef-)[A-Za-z0-9.-]+")
"""One licence of the SPDX list; an expression or a licence of one's own has no page there."""


def json_ld(fault: Fault, description: str, index: Index) -> Record:
    """A fault's page as a technical article about models. The cost and the odds are no claim of it.

    Args:
        fault: published.
        description: of the page, plain text.
        index: of the knowledge base.
    """
    club = index.club
    where = {} if club.site_url is None else {"url": f"{club.site_url}{addresses.fault(fault.id)}"}
    home = {} if club.site_url is None else {"url": club.site_url}
    read = {} if fault.reviewed is None else {"dateModified": fault.reviewed.on.isoformat()}
    licence = {"license": f"https://spdx.org/licenses/{club.licence}"} if _SPDX.fullmatch(club.licence) else {}
    codes = list(dict.fromkeys(plain(row.read.text) for row in fault.codes))
    return {
        "@context": "https://schema.org",
        "@type": "TechArticle",
        "headline": plain(fault.title),
        "description": plain(description),
        "inLanguage": "en",
        "isAccessibleForFree": True,
        **where,
        **read,
        **licence,
        **({"keywords": codes} if codes else {}),
        "about": [
            {"@type": "Vehicle", "name": plain(index.base.models[model].name)} for model in index.scopes[fault.id]
        ],
        "publisher": {"@type": "Organization", "name": plain(club.name), **home},
    }
