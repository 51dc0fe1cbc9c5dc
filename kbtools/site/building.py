"""One build with MkDocs in strict mode, into a folder that is given."""

from __future__ import annotations

import datetime as dt
import logging
import os
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path
from typing import cast

from kbtools.diagnostics import Finding
from kbtools.edges import garbage as collector
from kbtools.edges.shipped import shipped
from kbtools.model.base import KnowledgeBase

# The theme prints an advertisement about MkDocs 2 on each build, unless this is set before it is imported.
os.environ.setdefault("NO_MKDOCS_2_WARNING", "true")

from mkdocs.commands.build import build as mkdocs_build
from mkdocs.config import load_config
from mkdocs.exceptions import MkDocsException

from kbtools.site.last_build import Stood
from kbtools.site.plugin import NAME, FaultLorePlugin


class BuildProblemError(Exception):
    """MkDocs could not build the site, or warned."""

    def __init__(self, message: str, hint: str) -> None:
        super().__init__(message)
        self.message = message
        """What is wrong."""
        self.hint = hint
        """What to do about it."""


def config_file(folder: Path) -> tuple[Path, bool]:
    """The `mkdocs.yml` beside a knowledge base, else the one of the package; and whether it is the latter."""
    beside = folder.resolve().parent / "mkdocs.yml"
    return (beside, False) if beside.is_file() else (shipped("mkdocs.yml"), True)


def build_site(  # noqa: PLR0913 (what was read, where it goes, and how)
    base: KnowledgeBase,
    folder: Path,
    target: Path,
    today: dt.date,
    findings: Sequence[Finding] = (),
    *,
    serving: bool = False,
    stood: Stood | None = None,
) -> None:
    """Build the site of a sound knowledge base.

    Args:
        base: what stands in `folder`, without errors.
        folder: the knowledge base's folder.
        target: an empty folder.
        today: the day that counts as today.
        findings: what a check says of it, as from the current directory; curators have their work from it.
        serving: for looking at on this machine only; its address is not the published one.
        stood: what earlier builds left, of which pages that would be the same are taken; None: nothing.

    Raises:
        BuildProblemError: MkDocs warned or failed.
    """
    path, packaged = config_file(folder)
    warnings: list[str] = []
    with _heard(warnings), collector.held_back():
        try:
            # MkDocs insists on a folder that is there; the plugin puts an empty one in its place.
            config = load_config(str(path), docs_dir=str(folder.resolve()), site_dir=str(target), strict=True)
            plugin = cast(FaultLorePlugin, config.plugins[NAME])
            plugin.give(base, folder, today, findings, serving=serving, stood=stood)
            if packaged:
                # What the demo says about itself is not true of another club.
                config.extra.clear()
            mkdocs_build(config)
        except (MkDocsException, SystemExit) as error:
            text = "\n".join(warnings) or str(error)
            raise BuildProblemError(text, "Mend the page that is named; nothing was published.") from error


def notice(folder: Path) -> str | None:
    """What the configuration beside a knowledge base says at every page's foot; None where nothing is said."""
    path, packaged = config_file(folder)
    said = None if packaged else load_config(str(path), docs_dir=str(folder.resolve())).extra.get("notice")
    return said if isinstance(said, str) else None


def own_overrides(folder: Path) -> list[Path]:
    """The `custom_dir` that the configuration names, if any: `serve` watches it."""
    custom = load_config(str(config_file(folder)[0]), docs_dir=str(folder.resolve())).theme.custom_dir
    return [Path(custom)] if custom else []


@contextmanager
def _heard(warnings: list[str]) -> Iterator[None]:
    """Collect what MkDocs warns of; its logger's level must stay, or strict mode would not see the warnings."""
    logger = logging.getLogger("mkdocs")
    handler = _Collector(warnings)
    propagate = logger.propagate
    logger.addHandler(handler)
    logger.propagate = False
    try:
        yield
    finally:
        logger.removeHandler(handler)
        logger.propagate = propagate


class _Collector(logging.Handler):
    def __init__(self, warnings: list[str]) -> None:
        super().__init__(logging.WARNING)
        self._warnings = warnings

    def emit(self, record: logging.LogRecord) -> None:
        self._warnings.append(record.getMessage())
