"""A generated page as MkDocs knows pages: its article is rendered already, and no Markdown comes near it."""

from __future__ import annotations

from collections.abc import Callable

from markupsafe import Markup
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.structure.files import File, Files, InclusionLevel
from mkdocs.structure.pages import Page

from kbtools.pages.spec import PageSpec


class GeneratedPage(Page):
    """Stands in for a Markdown page at the address of a spec."""

    def __init__(self, spec: PageSpec, file: File, config: MkDocsConfig, article: Callable[[PageSpec], Markup]) -> None:
        super().__init__(None, file, config)
        self.spec = spec
        self._article = article

    def read_source(self, config: MkDocsConfig) -> None:  # noqa: ARG002 - MkDocs' signature
        """There is no source; what MkDocs asks of one is empty."""
        self.markdown = ""
        self.meta = {}
        self.title = self.spec.title

    def render(self, config: MkDocsConfig, files: Files) -> None:  # noqa: ARG002 - MkDocs' signature
        """Render the article, and tell MkDocs which anchors hand-written pages may link to."""
        self.content = self._article(self.spec)
        self.present_anchor_ids = {section.id for section in self.spec.sections}
        self.links_to_anchors = {}


def generated_file(spec: PageSpec, config: MkDocsConfig) -> File:
    """The file that MkDocs takes a generated page to come from; hand-written pages link to it by that name."""
    file = File.generated(config, spec.source, content="", inclusion=InclusionLevel.NOT_IN_NAV)
    # An id like "index" must not lead MkDocs to another address than the contract's.
    file.dest_uri = f"{spec.address}index.html"
    file.edit_uri = None
    return file
