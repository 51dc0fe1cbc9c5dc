"""A hand-written page on its way through MkDocs: what it is called, and how long it may take."""

from __future__ import annotations

import functools
from collections.abc import Callable
from typing import Final, cast
from urllib.parse import urlsplit
from xml.etree.ElementTree import Element

from markdown import Markdown
from markdown.extensions import Extension
from markdown.preprocessors import Preprocessor
from markdown.treeprocessors import Treeprocessor
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import PluginError
from mkdocs.structure.files import File, Files
from mkdocs.structure.pages import Page

from kbtools.edges.stopwatch import TooLongError, at_most
from kbtools.model.base import HandPage
from kbtools.text import html as text
from kbtools.text.terminal import shown

LONGEST_RENDER: Final = 2.0
"""Seconds of the processor for one page. Reading refuses what is known to take long; this is for what is not."""


_SEARCH_FOR_HTML = "mkdocs_raw_html"
"""What MkDocs calls its search for anchors in raw HTML."""


class _NoSearchForHtml(Extension):
    """Pages have no raw HTML to look for anchors in; Python's reader of HTML, by which MkDocs looks, may break down.

    It takes `<![a](b)` for a declaration of a kind that it does not know, and many an opened tag takes it long.
    """

    def extendMarkdown(self, md: Markdown) -> None:  # noqa: N802 (their name)
        """Let MkDocs, which comes after all extensions, register everything but its search."""
        register = md.preprocessors.register

        def but_one(item: Preprocessor, name: str, priority: float) -> None:
            if name != _SEARCH_FOR_HTML:
                register(item, name, priority)

        md.preprocessors.register = but_one  # type: ignore[method-assign]


class NoAddressError(Exception):
    """A page has a link or a picture with an address that cannot be taken apart, such as `http://[`."""


class _Addresses(Treeprocessor):
    """Looks at addresses before MkDocs does, which breaks down at one that is none."""

    def run(self, root: Element) -> None:
        """Take each apart.

        Raises:
            NoAddressError: one cannot be.
        """
        for element in root.iter():
            for name in ("href", "src"):
                address = element.get(name)
                if address is not None:
                    try:
                        urlsplit(address)
                    except ValueError as error:
                        raise NoAddressError(address) from error


class _WithAddresses(Extension):
    def extendMarkdown(self, md: Markdown) -> None:  # noqa: N802 (their name)
        # Behind what makes links (20), before what MkDocs makes of them (0).
        md.treeprocessors.register(_Addresses(md), "kbtools_addresses", 2)


def extensions() -> list[str]:
    """What MkDocs is given to render pages with, beside the extensions of `mkdocs.yml`."""
    # MkDocs hands instances on as they are, though its types know names only.
    return [cast(str, text.NoRawHtml()), cast(str, _NoSearchForHtml()), cast(str, _WithAddresses())]


def hand_file(page: HandPage, config: MkDocsConfig) -> File:
    """The file that MkDocs takes a page to come from, without the front matter, which is read already.

    The line before it keeps MkDocs from taking a first line such as `Note: …` for front matter.
    """
    return File.generated(config, page.path.removeprefix("pages/"), content=f"\n{page.body}")


def prepare(page: Page, source: HandPage) -> None:
    """Give a page its title and description, and no say in which template shows it; and bound its rendering."""
    named = {"title": source.title, "description": source.description}
    page.meta = {key: value for key, value in named.items() if value is not None}
    page.render = functools.partial(_bounded, page.render, source.path)  # type: ignore[method-assign]


def _bounded(render: Callable[[MkDocsConfig, Files], None], path: str, config: MkDocsConfig, files: Files) -> None:
    """Render, and end the build where it does not end by itself.

    Raises:
        PluginError: it takes too long, is nested too deeply, or has a link that leads nowhere by its form.
    """
    try:
        with at_most(LONGEST_RENDER):
            render(config, files)
    except TooLongError as error:
        message = f"{path} takes more than {LONGEST_RENDER:g} seconds to render. Make it shorter, or simpler."
        raise PluginError(message) from error
    except NoAddressError as error:
        raise PluginError(f"{path} has a link to {shown(str(error))}, which is no address. Mend it.") from error
    except RecursionError as error:
        raise PluginError(f"{path} is nested too deeply to be rendered. Make it simpler.") from error
