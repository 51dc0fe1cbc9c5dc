"""Files and folders as MkDocs has them, and what it is told when a page leads nowhere."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from markupsafe import Markup
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import PluginError
from mkdocs.structure.files import File, InclusionLevel

from kbtools.edges.rendering import DeadLinkError
from kbtools.edges.shipped import shipped


@contextmanager
def dead_links_told() -> Iterator[None]:
    """End the build with a sentence where a page links to an address at which there is none."""
    try:
        yield
    except DeadLinkError as error:
        raise PluginError(f"{error}.") from error


def address_of(file: File) -> str:
    """Address of a page, from the site's root, by its file."""
    return file.dest_uri.removesuffix("index.html")


def static(config: MkDocsConfig, name: str, *, path: Path | None = None, content: bytes | None = None) -> File:
    """A file that is published as it lies at a path, or with a content."""
    if path is not None:
        file = File.generated(config, name, abs_src_path=str(path), inclusion=InclusionLevel.NOT_IN_NAV)
    else:
        file = File.generated(config, name, content=content or b"", inclusion=InclusionLevel.NOT_IN_NAV)
    return file


def overrides_of(config: MkDocsConfig) -> tuple[Path, ...]:
    """The shipped templates and assets, then the club's own; the theme is told where the shipped templates are."""
    own, ours = config.theme.custom_dir, str(shipped("site_overrides"))
    if ours not in config.theme.dirs:
        config.theme.dirs.insert(1 if own else 0, ours)
    return (Path(ours), Path(own)) if own else (Path(ours),)


def one_down(html: Markup) -> Markup:
    """The home page has a first heading of its own; one in the hand-written part would be a second."""
    return Markup(str(html).replace("<h1", "<h2").replace("</h1>", "</h2>"))  # noqa: S704 - sanitised before
