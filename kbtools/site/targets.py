"""A generated page as MkDocs knows it: a place that hand-written pages link to. It is made and written elsewhere."""

from __future__ import annotations

from typing import cast

from mkdocs.config.defaults import MkDocsConfig
from mkdocs.structure.files import File, InclusionLevel
from mkdocs.structure.pages import Page

from kbtools.pages.planned import Planned


class Target(File):
    """No source stands behind it, and nothing is copied."""

    def copy_file(self, dirty: bool = False) -> None:
        """There is nothing to copy."""

    def is_documentation_page(self) -> bool:
        """MkDocs must not render it."""
        return False


class _Anchors:
    """As much of a page as MkDocs needs to tell whether a link to a part of it leads anywhere."""

    def __init__(self, planned: Planned) -> None:
        self._planned = planned

    @property
    def present_anchor_ids(self) -> set[str]:
        """Its sections; the page is made for it, since such links are few."""
        return {section.id for section in self._planned.make().sections}


def target(planned: Planned, config: MkDocsConfig) -> File:
    """Where a generated page stands; hand-written pages link to it by the name of its source."""
    file = Target.generated(config, planned.source, content="", inclusion=InclusionLevel.NOT_IN_NAV)
    # An id like "index" must not lead MkDocs to another address than the contract's.
    file.dest_uri = f"{planned.address}index.html"
    file.edit_uri = None
    file.page = cast(Page, _Anchors(planned))
    return file


def file_target(path: str, config: MkDocsConfig) -> File:
    """Where a file stands that is made as pages are."""
    return Target.generated(config, path, content="", inclusion=InclusionLevel.NOT_IN_NAV)
