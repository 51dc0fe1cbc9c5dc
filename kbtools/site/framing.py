"""Makes the frame of each page."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from urllib.parse import quote

from markupsafe import Markup
from mkdocs.structure.files import File
from mkdocs.structure.pages import Page

from kbtools.edges.rendering import Renderer, json_block, relative
from kbtools.model.catalogue import Club
from kbtools.pages import crumbs
from kbtools.pages.spec import PageSpec
from kbtools.site.shell import CSP, Shell
from kbtools.site.stamps import Stamps
from kbtools.text import html as text
from kbtools.wording import addresses

MAIN = (("codes/", "All codes"), ("models/", "Models"), ("systems/", "Systems"), ("my-bike/", "My bike"))
"""The lists that every page leads to."""
_OF_ONE = 3
"""Parts of the address of a model or a system: `models/bittern-900/` and what follows the slash."""
LAST = (
    (addresses.NEW, addresses.NEW_TITLE),
    (addresses.COVERAGE, addresses.COVERAGE_TITLE),
    (addresses.RULES, crumbs.RULES_CRUMB.title),
)
"""What stands behind the club's own pages."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Asset:
    """Addresses of styles and scripts; those of two pages in one folder are equal."""

    folder: str
    """Where they lie, relative to the page, ending in a slash."""

    def __call__(self, name: str) -> str:
        return f"{self.folder}{name}"


@dataclass(slots=True, kw_only=True)
class _Kept:
    """What pages have alike, by the way from them to the site's root."""

    main: frozenset[str]
    """Addresses of the main pages."""
    finders: dict[str, Markup] = field(default_factory=dict)
    """The finder of the header."""
    navs: dict[tuple[str, str | None], tuple[tuple[str, str, bool], ...]] = field(default_factory=dict)
    """The main pages, also by which of them it is; None: none."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Frame:
    """What all pages of one build have in common."""

    club: Club
    """The club."""
    site_url: str | None
    """Absolute address of the site, ending in a slash; None: unknown."""
    hand_files: tuple[File, ...]
    """Hand-written pages; their titles are known once they are rendered."""
    assets: str
    """Address of the folder of styles and scripts, from the site's root."""
    finder_data: str
    """Address of the folder of the finder's data, from the site's root, ending in a slash."""
    renderer: Renderer
    """For the finder in the header."""
    build: str
    """Id of the build."""
    worker: str | None
    """Address of the service worker, from the site's root; None: the site is being written on, and has none."""
    built_on: str
    """Day of the build."""
    notice: str | None
    """For every page's foot."""
    edit_path: str
    """From the repository to where a file is edited."""
    history_path: str
    """From the repository to a file's history."""
    strict: bool
    """Whether pages carry the content security policy."""
    kept: _Kept | None = None
    """What pages have alike; None: the titles of hand-written pages are not known yet, so nothing is kept."""

    def with_values(self, values: Stamps) -> Frame:
        """The same with other values of a build: marks, so that the real ones can be put in last. All else is known."""
        kept = _Kept(main=frozenset(to for to, _ in self._nav))
        return replace(self, build=values.build, finder_data=values.finder, built_on=values.day, kept=kept)

    @property
    def said(self) -> str:
        """What it says on every page but the values of the build: where that is another, so is every page."""
        told = (self.site_url, self.assets, self.worker, self.notice, self.edit_path, self.history_path, self.strict)
        return repr((told, self._nav))

    def around(self, spec: PageSpec) -> Shell:
        """The frame of a generated page."""
        depth = spec.address.count("/")
        return self._shell(
            spec.address,
            relative("", depth),
            kind=spec.kind,
            title=text.plain(spec.title),
            description=text.plain(spec.description),
            crumbs=tuple((relative(each.address, depth), text.plain(each.title)) for each in spec.crumbs),
            sections=tuple((each.id, text.plain(each.title)) for each in spec.sections),
            edit=spec.edit_path,
            redirect=None if spec.redirect_to is None else relative(spec.redirect_to, depth),
            listed=spec.listed,
            feeds=tuple(_feeds(spec)),
            json_ld=None if spec.json_ld is None else json_block(spec.json_ld),
        )

    def around_hand(self, page: Page) -> Shell:
        """The frame of a hand-written page."""
        address = page.file.dest_uri.removesuffix("index.html")
        return self._shell(
            address,
            relative("", address.count("/")),
            kind="hand",
            title=text.plain(str(page.title or "")),
            description=text.plain(str(page.meta.get("description", ""))),
            crumbs=((relative("", address.count("/")), "Home"),),
            sections=(),
            edit=f"pages/{page.file.src_uri}",
            redirect=None,
            listed=True,
        )

    def missing(self, base_url: str) -> Shell:
        """The frame of the page that a host shows for addresses without a page: it may be shown at any depth."""
        home = f"{base_url.rstrip('/')}/"
        return self._shell(
            None,
            home,
            kind="404",
            title="No page at this address",
            description="",
            crumbs=(),
            sections=(),
            edit=None,
            redirect=None,
            listed=False,
        )

    def _shell(  # noqa: PLR0913 - the parts of a page's frame
        self,
        address: str | None,
        home: str,
        *,
        kind: str,
        title: str,
        description: str,
        crumbs: tuple[tuple[str, str], ...],
        sections: tuple[tuple[str, str], ...],
        edit: str | None,
        redirect: str | None,
        listed: bool,
        feeds: tuple[tuple[str, str], ...] = (),
        json_ld: Markup | None = None,
    ) -> Shell:
        root = "" if home == "./" else home
        return Shell(
            site_name=text.plain(self.club.name),
            kind=kind,
            title=title,
            description=description,
            canonical=None if self.site_url is None or address is None else f"{self.site_url}{quote(address)}",
            json_ld=json_ld,
            crumbs=crumbs,
            sections=sections,
            edit_url=self._repository(self.edit_path, edit),
            history_url=self._repository(self.history_path, edit),
            redirect_href=redirect,
            listed=listed,
            csp=CSP if self.strict else None,
            nav=self._nav_of(root, address),
            figures_href=f"{root}{addresses.FIGURES}",
            data_href=f"{root}{addresses.DATA}",
            asset=_Asset(folder=f"{root}{self.assets}"),
            home_href=home,
            finder=None if kind == "home" else self._finder(home),
            licence=self.club.licence,
            repository=text.web_link(self.club.repository),
            build=self.build,
            worker_href=None if self.worker is None else f"{root}{self.worker}",
            built_on=self.built_on,
            invented_note=self.notice,
            distance=self.club.distance_unit,
            feed_href=f"{root}{addresses.FEED}",
            feeds=tuple(
                (f"{root}{address}", f"{text.plain(self.club.name)}: {text.plain(about)}")
                for address, about in (*feeds, (addresses.FEED, addresses.NEW_TITLE))
            ),
        )

    @property
    def _nav(self) -> tuple[tuple[str, str], ...]:
        hand = [
            (file.dest_uri.removesuffix("index.html"), text.plain(str(file.page.title or file.name)))
            for file in self.hand_files
            if file.page is not None and file.src_uri != "index.md"
        ]
        return (*MAIN, *hand, *LAST)

    def _nav_of(self, root: str, address: str | None) -> tuple[tuple[str, str, bool], ...]:
        if self.kept is None:
            return tuple((f"{root}{quote(to)}" or "./", title, to == address) for to, title in self._nav)
        key = (root, address if address in self.kept.main else None)
        if key not in self.kept.navs:
            self.kept.navs[key] = replace(self, kept=None)._nav_of(root, address)
        return self.kept.navs[key]

    def _finder(self, home: str) -> Markup:
        kept = {} if self.kept is None else self.kept.finders
        if home not in kept:
            kept[home] = self._finder_of(home)
        return kept[home]

    def _finder_of(self, home: str) -> Markup:
        root = "" if home == "./" else home
        return self.renderer.partial(
            "_finder.html", place="header", home_href=home, finder_data=f"{root}{self.finder_data}"
        )

    def _repository(self, path: str, edit: str | None) -> str | None:
        link = text.web_link(self.club.repository)
        return None if link is None or edit is None or not path else f"{link.rstrip('/')}/{path}{quote(edit)}"


def _feeds(spec: PageSpec) -> Iterator[tuple[str, str]]:
    """Address and name of the feed of the model or the system that a page is about, or belongs to."""
    pages = [(each.address, each.title) for each in spec.crumbs] + [(spec.address, spec.title)]
    for address, title in pages:
        if len(address.split("/")) == _OF_ONE and address.startswith((addresses.MODELS, addresses.SYSTEMS)):
            yield f"{address}{addresses.FEED}", title
