"""The plugin that makes MkDocs build the site of a knowledge base. It carries things across and decides nothing."""

from __future__ import annotations

import datetime as dt
import tempfile
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from importlib import metadata
from pathlib import Path
from typing import Any, Literal, cast
from urllib.parse import quote

from jinja2 import Environment
from markupsafe import Markup
from mkdocs.config import base
from mkdocs.config import config_options as option
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import PluginError
from mkdocs.plugins import BasePlugin
from mkdocs.structure.files import File, Files
from mkdocs.structure.nav import Navigation
from mkdocs.structure.pages import Page
from mkdocs.utils.templates import TemplateContext

from kbtools.agenda.compose import agenda
from kbtools.agenda.dead_links import dead_links
from kbtools.browser_data.several_codes import several_files
from kbtools.diagnostics import Finding
from kbtools.edges import cache, clock
from kbtools.edges.checking import check, in_folder
from kbtools.edges.compiled import CompiledTemplates
from kbtools.edges.links import kept_answers, kept_file
from kbtools.edges.rendering import Renderer, Width
from kbtools.edges.rulebook import explained_rules
from kbtools.edges.shipped import PACKAGE, schema_files
from kbtools.export.files import INDEX, files_of_all, index_file
from kbtools.export.json_text import About
from kbtools.index.answers import Index
from kbtools.index.asked_base import of_all
from kbtools.index.build import build_index
from kbtools.index.digests import Digests
from kbtools.index.links import outside_links
from kbtools.links.answer import gone as died
from kbtools.model.base import HandPage, KnowledgeBase
from kbtools.pages.catalogue import Catalogue, collisions, planned
from kbtools.pages.planned import Beside
from kbtools.pages.spec import PageSpec
from kbtools.replay import replay
from kbtools.report import text as text_report
from kbtools.site import assets, fragments, hand_written, offline, pictures
from kbtools.site.files import address_of, dead_links_told, one_down, overrides_of, static
from kbtools.site.finder_data import FinderData, finder_data
from kbtools.site.framing import Frame
from kbtools.site.kept_pages import Notes
from kbtools.site.last_build import LastBuild, Stood
from kbtools.site.making import Making, weight
from kbtools.site.page_maker import article
from kbtools.site.stamps import Stamps
from kbtools.site.targets import file_target, target
from kbtools.site.told import Told, what_is_new
from kbtools.text import html as text
from kbtools.wording import addresses

_MAKES_PAGES = ("jinja2", "markdown", "markupsafe", "mkdocs", "nh3", "numpy", "scipy")
"""Packages whose version may change what stands on a page, beside those that the cache knows."""
NAME = "fault-lore"
"""How `mkdocs.yml` calls the plugin."""
_COMPILED = CompiledTemplates()


class Options(base.Config):  # type: ignore[no-untyped-call]
    """What `mkdocs.yml` may set."""

    kb = option.Type(str, default="kb")
    """Folder of the knowledge base, from the folder of `mkdocs.yml`."""
    edit_path = option.Type(str, default="edit/main/kb/")
    """From the repository's address to where a file is edited; empty: no links to edit."""
    history_path = option.Type(str, default="commits/main/kb/")
    """From the repository's address to a file's history; empty: no links to it."""


class FaultLorePlugin(BasePlugin[Options]):  # type: ignore[no-untyped-call]
    """MkDocs calls the methods in the order in which they stand here."""

    def __init__(self) -> None:
        self._given: tuple[KnowledgeBase, Path, dt.date] | None = None
        self._findings: Sequence[Finding] = ()
        self._own_server = False
        self._foreign_server = False
        self._frame: Frame | None = None
        self._catalogue: Catalogue | None = None
        self._renderer: Renderer | None = None
        self._others: Mapping[str, Mapping[Any, Any]] = {}
        self._index: Index | None = None
        self._environment: Environment | None = None
        self._stood: Stood | None = None
        self._last: LastBuild | None = None
        self._overrides: tuple[Path, ...] = ()
        self._several_data = ""
        self._data: dict[str, Mapping[str, bytes]] = {}
        self._abouts: Mapping[str, About] = {}
        self._home: PageSpec | None = None
        self._concerned: Sequence[str] = ()
        self._nothing: tempfile.TemporaryDirectory[str] | None = None
        self._hand: Mapping[str, HandPage] = {}
        self._told: Told | None = None
        self._gone: frozenset[str] = frozenset()

    def give(  # noqa: PLR0913 (what was read, and what for)
        self,
        knowledge: KnowledgeBase,
        folder: Path,
        today: dt.date,
        findings: Sequence[Finding],
        *,
        serving: bool,
        stood: Stood | None,
    ) -> None:
        """Hand over what was read and checked already, so that it is not done twice; and what earlier builds left."""
        # MkDocs keeps a plugin from one build to the next.
        self._stood, self._last = stood, None
        self._given = (knowledge, folder, today)
        self._findings = in_folder(findings, folder)
        self._own_server = serving

    def on_startup(self, *, command: Literal["build", "gh-deploy", "serve"], dirty: bool) -> None:  # noqa: ARG002
        """Note whether MkDocs' own server will put a script of its own into the pages."""
        self._foreign_server = command == "serve"

    def on_config(self, config: MkDocsConfig) -> MkDocsConfig:
        """Read the knowledge base, unless it was given, and name the site after the club."""
        if self._given is None:
            folder = Path(config.config_file_path or "mkdocs.yml").parent / self.config.kb
            self._read(folder)
        knowledge, folder, _ = self._needed()
        club = knowledge.club
        if club is not None:
            config.site_name = text.plain(club.name)
            # MkDocs' own server sets its address itself.
            config.site_url = None if self._own_server else club.site_url
        # What MkDocs finds by itself is never published: an empty folder is all that it is shown.
        self._nothing = tempfile.TemporaryDirectory(prefix="kbtools-pages-")
        config.docs_dir = self._nothing.name
        self._overrides = overrides_of(config)
        config.markdown_extensions += hand_written.extensions()
        # Python's list of watched places, for plain `mkdocs serve`.
        config.watch = [*config.watch, str(folder)]
        return config

    def on_files(self, files: Files, *, config: MkDocsConfig) -> Files:
        """Take out whatever MkDocs has found; put in what was read and checked, generated pages, assets and data."""
        knowledge, _, today = self._needed()
        for file in list(files):
            files.remove(file)
        self._hand = {page.path: page for page in knowledge.pages}
        # The home page first, as MkDocs has it.
        for page in sorted(knowledge.pages, key=lambda each: each.path != "pages/index.md"):
            files.append(hand_written.hand_file(page, config))
        hand = {address_of(file): f"pages/{file.src_uri}" for file in files.documentation_pages()}
        with (
            finder_data(knowledge, today, hand) as finder,
            cache.opened(cache.place(), today.toordinal()) as memory,
        ):
            self._fill(files, config, memory, hand)
            self._add_finder(files, config, finder())
        return files

    def _fill(self, files: Files, config: MkDocsConfig, memory: cache.Cache, hand: Mapping[str, str]) -> None:
        knowledge, folder, today = self._needed()
        widths: dict[str, list[Width]] = {}
        for path, renditions in pictures.pictures(knowledge, folder, memory):
            widths[path] = [pictures.width(each) for each in renditions]
            for each in renditions:
                files.append(static(config, pictures.place(each), content=each.data))
        index = build_index(knowledge, today)
        answers = kept_answers(kept_file(folder), today)
        # Of other bases' links the file may know as well; they are none of this site's.
        self._gone = died(answers) & outside_links(knowledge).keys()
        jobs = agenda(knowledge, self._findings, today, dead_links(knowledge, answers), memory=memory)
        told = self._told = what_is_new(index, folder, today, memory)
        beside = Beside(
            today=today,
            rules=explained_rules(memory),
            replayed=replay(index, memory),
            jobs=jobs,
            told=told.news,
            turned=told.turned,
        )
        self._index = index
        catalogue = self._catalogue = planned(index, beside)
        claims = collisions(catalogue.pages, [each for each in hand.items() if each[0] != ""])
        if claims:
            raise PluginError("\n".join(f"{each.address} is claimed by: {', '.join(each.titles)}." for each in claims))
        pages = {each.address for each in catalogue.pages} | set(hand)
        gone = dict.fromkeys(self._gone)
        self._others = {**beside.by_name(), "addresses": dict.fromkeys(pages), "pictures": widths, "gone": gone}
        self._renderer = Renderer(pages, pictures=widths, gone=self._gone, log=catalogue.log)
        self._look_ahead(catalogue, index, memory)
        if files.get_file_from_path("index.md"):
            # The club's own home page: MkDocs makes it, with ours around it.
            own = next(each for each in catalogue.pages if each.address == "")
            self._home = own.make()
            catalogue = self._catalogue = replace(catalogue, pages=tuple(e for e in catalogue.pages if e is not own))
        for page in catalogue.pages:
            files.append(target(page, config))
        self._add_several(index)
        open_formats = dict(files_of_all(index, schema_files(), told.news, memory))
        self._abouts = {name: each.about for name, each in open_formats.items()}
        contents = {name: each.content for name, each in open_formats.items()}
        for name, content in (*contents.items(), *told.feeds(index).items()):
            files.append(static(config, name, content=content))
        for path in (*(each.path for each in catalogue.files), INDEX):
            files.append(file_target(path, config))

    def _add_finder(self, files: Files, config: MkDocsConfig, finder: FinderData) -> None:
        """With the frame, which names the finder's folder."""
        self._concerned = finder.concerned
        self._data["finder"] = finder.contents
        self._frame = self._new_frame(config, files, finder.folder)
        for name, path in assets.asset_files(self._overrides).items():
            content = assets.packed(name, path)
            address = f"{self._framed().assets}{name}"
            files.append(
                static(config, address, path=path) if content is None else static(config, address, content=content)
            )

    def on_page_markdown(self, markdown: str, *, page: Page, config: MkDocsConfig, files: Files) -> str:  # noqa: ARG002
        """Tell a hand-written page what it is called, and leave it no say in which template shows it."""
        source = self._hand.get(f"pages/{page.file.src_uri}")
        if source is not None:
            hand_written.prepare(page, source)
        return markdown

    def on_page_content(self, html: str, *, page: Page, config: MkDocsConfig, files: Files) -> str:  # noqa: ARG002
        """Make a hand-written page's HTML safe; the home page's stands under the finder."""
        clean = Markup(text.sanitise(html))  # noqa: S704 - that is what sanitise is for
        if page.file.src_uri != "index.md" or self._home is None or self._renderer is None:
            return clean
        with dead_links_told():
            return article(self._home, self._renderer, self._framed(), self._several_data, one_down(clean))

    def on_env(self, env: Environment, *, config: MkDocsConfig, files: Files) -> Environment:  # noqa: ARG002
        """Have MkDocs' templates escape what they print; by itself MkDocs does not."""
        env.autoescape = True
        self._environment = env
        env.bytecode_cache = _COMPILED
        env.globals[fragments.NAME] = fragments.whole
        return env

    def on_template_context(
        self,
        context: TemplateContext,
        *,
        template_name: str,
        config: MkDocsConfig,  # noqa: ARG002
    ) -> TemplateContext:
        """Give the page of missing pages its frame."""
        shell = self._framed().missing(context["base_url"]) if template_name == "404.html" else None
        return cast(TemplateContext, {**context, "shell": shell, "places": tuple(self._places(context["pages"]))})

    def on_page_context(
        self,
        context: TemplateContext,
        *,
        page: Page,
        config: MkDocsConfig,  # noqa: ARG002
        nav: Navigation,  # noqa: ARG002
    ) -> TemplateContext:
        """Give a page its frame."""
        spec = self._home if page.file.src_uri == "index.md" else None
        frame = self._framed()
        shell = frame.around(spec) if spec is not None else frame.around_hand(page)
        return cast(TemplateContext, {**context, "shell": shell})

    def on_post_build(self, *, config: MkDocsConfig) -> None:
        """Write the generated pages, and give the site what it needs to work without a network."""
        notes = self._written(Path(config.site_dir))
        pages = notes.pages
        if self._index is not None:
            _, _, today = self._needed()
            content = index_file({**self._abouts, **notes.files}, self._index, today).content
            Path(config.site_dir, INDEX).write_bytes(content)
        if not self._is_served:
            frame = self._framed()
            folders = {"assets": frame.assets, "data": frame.finder_data, "several": self._several_data}
            contents = {"data": self._data["finder"], "several": self._data["several"]}

            def concerned(pictures: Mapping[str, int]) -> list[int]:
                return [weight(pages.get(f"{each}index.html"), pictures) for each in self._concerned]

            offline.write(Path(config.site_dir), frame.build, folders, contents, concerned, frame.built_on)
        if self._nothing is not None:
            # Not every process that builds comes to its regular end, which would clear it away as well.
            self._nothing.cleanup()

    def _written(self, site: Path) -> Notes:
        _, _, today = self._needed()
        frame = self._framed()
        if self._catalogue is None or self._renderer is None or self._environment is None or self._index is None:
            raise PluginError("The pages were not made.")
        values = Stamps(build=frame.build, finder=frame.finder_data, several=self._several_data, day=frame.built_on)
        making = Making(
            catalogue=self._catalogue,
            index=self._index,
            others=self._others,
            renderer=self._renderer,
            frame=frame,
            values=values,
            data=self._data,
        )
        with cache.opened(cache.place(), today.toordinal()) as memory, dead_links_told():
            return making.write(site, self._environment, memory, self._last, self._key(frame))

    def on_build_error(self, *, error: Exception) -> None:  # noqa: ARG002
        """Leave nothing running."""
        if self._last is not None:
            self._last.close()

    def _look_ahead(self, catalogue: Catalogue, index: Index, memory: cache.Cache) -> None:
        """Begin to find out what is another one than at the last build."""
        # Without a store nobody would know what its pages were made from.
        if self._stood is not None and cache.place() is not None:
            # A served site stands in another folder each time; one record of it is enough.
            place = "served" if self._own_server else str(self._stood.site)
            self._last = LastBuild(memory, self._stood, place)
            self._last.look_ahead(index, self._others, catalogue.log.derived)

    def _key(self, frame: Frame) -> str:
        """Changes with whatever may change every page."""
        knowledge, _, _ = self._needed()
        packages = [f"{each} {metadata.version(each)}" for each in _MAKES_PAGES]
        common = Digests().of(of_all(knowledge))
        programs = offline.build_id([PACKAGE, *self._overrides], frame.said, repr(dict(self.config)), *packages)
        return f"{programs} {common}"

    def _read(self, folder: Path) -> None:
        try:
            result = check(folder, clock.today(), cache.place())
        except (NotADirectoryError, ValueError) as error:
            raise PluginError(str(error)) from error
        if not result.sound:
            raise PluginError(f"The knowledge base has errors.\n{text_report.render(result.findings)}")
        self._given = (result.base, folder, clock.today())
        self._findings = in_folder(result.findings, folder)

    def _needed(self) -> tuple[KnowledgeBase, Path, dt.date]:
        if self._given is None:
            raise PluginError("The knowledge base was not read.")
        return self._given

    def _framed(self) -> Frame:
        if self._frame is None:
            raise PluginError("The pages were not made.")
        return self._frame

    def _new_frame(self, config: MkDocsConfig, files: Files, finder_data: str) -> Frame:
        knowledge, _, today = self._needed()
        club = knowledge.club
        if club is None or self._renderer is None:
            raise PluginError("club.yml is not complete.")
        overrides = assets.asset_files(self._overrides)
        return Frame(
            club=club,
            site_url=config.site_url,
            hand_files=tuple(files.documentation_pages()),
            assets=f"{assets.SOURCE}/{assets.fingerprint(overrides)}/",
            finder_data=finder_data,
            renderer=self._renderer,
            build=self._build_id(config, today),
            worker=None if self._is_served else addresses.WORKER,
            built_on=today.isoformat(),
            notice=config.extra.get("notice"),
            edit_path=self.config.edit_path,
            history_path=self.config.history_path,
            strict=not self._foreign_server,
        )

    @property
    def _is_served(self) -> bool:
        return self._own_server or self._foreign_server

    def _build_id(self, config: MkDocsConfig, today: dt.date) -> str:
        knowledge, _, _ = self._needed()
        told = self._told.digest if self._told is not None else ""
        # What links answered changes pages, too.
        gone = repr(sorted(self._gone))
        more = (knowledge.digest, told, gone, today.isoformat(), repr(dict(self.config)), repr(config.extra))
        return offline.build_id([PACKAGE, *self._overrides], *more)

    def _add_several(self, index: Index) -> None:
        contents = assets.json_files(several_files(index))
        self._several_data = assets.data_folder("several", contents)
        self._data["several"] = contents

    def _places(self, hand_written: Sequence[File]) -> Iterator[tuple[str, str | None]]:
        """Full address of each page for the sitemap, and the day of the last news of what it is about."""
        site, days = self._framed().site_url, self._told.days if self._told is not None else {}
        generated = [each.address for each in self._catalogue.pages if each.listed] if self._catalogue else []
        for each in (*map(address_of, hand_written), *generated) if site is not None else ():
            day = days.get(each)
            yield f"{site}{quote(each)}", None if day is None else day.isoformat()
