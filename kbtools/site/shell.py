"""What the shell of a page, `site_overrides/main.html`, is given beside the page's content."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from markupsafe import Markup

CSP = "; ".join(
    [
        "default-src 'none'",
        "script-src 'self'",
        "style-src 'self'",
        "img-src 'self' data:",
        "font-src 'self'",
        "connect-src 'self'",
        "manifest-src 'self'",
        "worker-src 'self'",
        "form-action 'self'",
        "base-uri 'none'",
    ]
)
"""Nothing but the site's own files: no script or style in the page itself, no request to another host."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Shell:
    """The words and addresses of one page's frame. Texts are plain; the template escapes them."""

    site_name: str
    """Name of the club."""
    kind: str
    """Page kind; `hand` for a hand-written page, `404` for the page of missing pages."""
    title: str
    """Title of the page."""
    description: str
    """One sentence for the head; empty: none."""
    canonical: str | None
    """Absolute address, where the site's own is known."""
    json_ld: Markup | None
    """What the page is, for search engines: JSON in which nothing ends its element."""
    crumbs: tuple[tuple[str, str], ...]
    """Pages above: relative address and title."""
    sections: tuple[tuple[str, str], ...]
    """Parts of the page: id and title."""
    edit_url: str | None
    """Where a reader may edit the page's file."""
    history_url: str | None
    """Where its changes stand."""
    redirect_href: str | None
    """Relative address to which the browser is sent on."""
    listed: bool
    """Whether search engines should know the page."""
    csp: str | None
    """Content security policy; None where another server's script must run."""
    nav: tuple[tuple[str, str, bool], ...]
    """Main pages: relative address, title, whether it is this one."""
    figures_href: str
    """Relative address of the page that explains the figures."""
    data_href: str
    """Relative address of the page about the open formats."""
    asset: Callable[[str], str]
    """From a name below `assets/` to its relative address."""
    home_href: str
    """Relative address of the home page, ending in a slash."""
    finder: Markup | None
    """The finder of the header."""
    licence: str
    """SPDX id of the content's licence."""
    repository: str | None
    """Address of the repository."""
    build: str
    """Id of the build, by which the service worker tells whether a page is of its own."""
    worker_href: str | None
    """Relative address of the service worker; None where there is none."""
    built_on: str
    """Day of the build, as YYYY-MM-DD."""
    invented_note: str | None
    """A note for every page's foot, from `extra: notice` in mkdocs.yml."""
    distance: str
    """What odometers count in, `km` or `mi`: the history of a bike that is kept in the browser begins with it."""
    feed_href: str
    """Relative address of the feed of all news."""
    feeds: tuple[tuple[str, str], ...]
    """Relative addresses and titles of the feeds about what the page is about, and of the one of all news."""
