"""Where each page stands, from the site's root. These addresses never change: links from elsewhere live on."""

from __future__ import annotations

from typing import Final

HOME: Final = ""
CODES: Final = "codes/"
COMPONENTS: Final = "components/"
MODELS: Final = "models/"
RULES: Final = "rules/"
SEVERAL: Final = "several/"
"""Several codes at once; `?codes=` and the codes, with commas."""
SYSTEMS: Final = "systems/"
FIGURES: Final = "figures/"
"""How the figures are made."""
MY_BIKE: Final = "my-bike/"
REPORT: Final = "report/"
"""How it ended, from an owner: `?fault=`, `&model=` and `&year=`, each of which may be missing."""
COVERAGE: Final = "coverage/"
"""Where the knowledge base is thin."""
AGENDA: Final = "agenda/"
"""What the curators do next."""
NEW: Final = "new/"
"""What was read again, withdrawn or reported lately."""
DATA: Final = "data/"
"""The open formats, with examples. Folders of the finder's data stand below it."""
FEED: Final = "news.xml"
"""What is new, as Atom; below a model's and a system's address theirs."""
MECHANICS: Final = "for/mechanics/"
"""What a workshop should know that is handed a note of this site."""
CONTRIBUTE: Final = "contribute/"
"""The club's hand-written page about giving what one knows, `pages/contribute.md`, where it has one."""
SAFETY: Final = "safety/"
"""The club's hand-written page about working safely, `pages/safety.md`, where it has one."""

COVERAGE_TITLE: Final = "Where reports are missing"
AGENDA_TITLE: Final = "What to do next"
NEW_TITLE: Final = "What's new"
DATA_TITLE: Final = "Take it with you"

WORKER: Final = "sw.js"
"""The service worker, which must lie at the site's root, or it could not answer for all pages."""

RESERVED: Final = frozenset(
    {
        *("faults", "pictures", "api", "schemas", "history", "for", FEED),
        *(each.rstrip("/") for each in (CODES, COMPONENTS, MODELS, RULES, SEVERAL, SYSTEMS, FIGURES, MY_BIKE)),
        *(each.rstrip("/") for each in (REPORT, COVERAGE, AGENDA, NEW)),
        *("assets", "data", "build", WORKER, "index.html", "404.html", "sitemap.xml", "sitemap.xml.gz"),
    }
)
"""First parts of addresses that are generated or will be; no hand-written page may take one."""


def fault(fault_id: str) -> str:
    """Of a fault, and of a withdrawn entry and of an old id too."""
    return f"faults/{fault_id}/"


def code(slug: str) -> str:
    """Of a fault code, by `FaultCode.slug`."""
    return f"{CODES}{slug}/"


def model(model_id: str) -> str:
    """Of a model."""
    return f"{MODELS}{model_id}/"


def model_year(model_id: str, year: int) -> str:
    """Of a model year."""
    return f"{MODELS}{model_id}/{year}/"


def values(model_id: str, year: int | None = None) -> str:
    """Of the test values of a model, or of one of its model years."""
    return f"{model(model_id) if year is None else model_year(model_id, year)}values/"


def model_feed(model_id: str) -> str:
    """Of the news of a model."""
    return f"{model(model_id)}{FEED}"


def system_feed(system_id: str) -> str:
    """Of the news of a system and of those below it."""
    return f"{system(system_id)}{FEED}"


def handbook(model_id: str, year: int | None = None, system_id: str | None = None) -> str:
    """Of the handbook of a model, of one of its model years, or of a model's part about one system."""
    above = model(model_id) if year is None else model_year(model_id, year)
    return f"{above}handbook/" + (f"{system_id}/" if system_id is not None else "")


def system(system_id: str) -> str:
    """Of a system."""
    return f"{SYSTEMS}{system_id}/"


def component(component_id: str) -> str:
    """Of a component."""
    return f"{COMPONENTS}{component_id}/"


def rule(code: str) -> str:
    """Of a rule of the checker."""
    return f"{RULES}{code.lower()}/"
