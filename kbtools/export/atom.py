"""News as feeds: Atom, RFC 4287. The same news make the same bytes."""

from __future__ import annotations

import datetime as dt
import re
import xml.etree.ElementTree as ET
from collections.abc import Iterator, Mapping, Sequence
from typing import Final

from kbtools.changes.news import News, models, systems
from kbtools.export import news_words
from kbtools.export.tag_ids import tag
from kbtools.index.answers import Index
from kbtools.text.html import plain
from kbtools.wording import addresses

MOST: Final = 60
"""News in one feed."""
_NS: Final = "http://www.w3.org/2005/Atom"
_NOT_XML: Final = re.compile("[^\t\n\r\x20-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")
"""What XML 1.0 cannot hold, even as a reference (its production 2, Char)."""
_NO_DAY: Final = dt.date(1970, 1, 1)
"""A feed must say when it changed; of a base in which nothing ever happened this is as good as any."""


def feeds(
    index: Index, news: Sequence[News], turned: Mapping[str, Sequence[str]] | None = None
) -> Iterator[tuple[str, bytes]]:
    """Path of each feed, from the site's root, and its bytes: of the site, of each model and of each system.

    Args:
        index: of the knowledge base.
        news: all, the newest first.
        turned: id of a case → what it has turned, in sentences of plain text; None: nothing is told of it.
    """
    club = index.club.name
    day = news[0].on if news else _NO_DAY
    yield addresses.FEED, _Feed(index, addresses.NEW, addresses.FEED, f"{club}: what's new", day, turned).text(news)
    of_models, of_systems = _grouped(index, news)
    for model in index.base.models.values():
        path = addresses.model_feed(model.id)
        feed = _Feed(index, addresses.model(model.id), path, f"{club}: {model.name}", day, turned)
        yield path, feed.text(of_models.get(model.id, ()))
    for system in index.base.systems.values():
        path = addresses.system_feed(system.id)
        feed = _Feed(index, addresses.system(system.id), path, f"{club}: {system.name}", day, turned)
        yield path, feed.text(of_systems.get(system.id, ()))


def _grouped(index: Index, news: Sequence[News]) -> tuple[Mapping[str, list[News]], Mapping[str, list[News]]]:
    """The latest news by model, and by system."""
    of_models: dict[str, list[News]] = {}
    of_systems: dict[str, list[News]] = {}
    for item in news:
        for groups, names in ((of_models, models(item, index)), (of_systems, systems(item, index))):
            for name in names:
                own = groups.setdefault(name, [])
                if len(own) < MOST:
                    own.append(item)
    return of_models, of_systems


class _Feed:
    """One feed."""

    def __init__(  # noqa: PLR0913, PLR0917 (what tells one feed from another)
        self,
        index: Index,
        page: str,
        path: str,
        title: str,
        day: dt.date,
        turned: Mapping[str, Sequence[str]] | None,
    ) -> None:
        self._index = index
        self._page = page
        self._path = path
        self._title = title
        self._day = day
        self._turned = turned or {}
        # Without the site's address links are seen from the feed.
        self._start = index.club.site_url or "../" * path.count("/")

    def text(self, news: Sequence[News]) -> bytes:
        """The whole document."""
        shown = news[:MOST]
        club = self._index.club
        feed = ET.Element("feed", {"xmlns": _NS})
        _add(feed, "id", self._tag(self._path.removesuffix(".xml")))
        _add(feed, "title", plain(self._title))
        _add(feed, "updated", _instant(shown[0].on if shown else self._day))
        _add(_add(feed, "author"), "name", plain(club.name))
        _add(feed, "rights", f"Licence: {club.licence}")
        if club.site_url is not None:
            _add(feed, "link", rel="self", type="application/atom+xml", href=self._start + self._path)
        _add(feed, "link", rel="alternate", type="text/html", href=self._start + self._page or "./")
        for item in shown:
            self._entry(feed, item)
        # A line break in front of each entry, so that a change is seen where it is.
        text: bytes = ET.tostring(feed, encoding="utf-8", xml_declaration=True)
        return text.replace(b"<entry>", b"\n<entry>")

    def _entry(self, feed: ET.Element, item: News) -> None:
        entry = _add(feed, "entry")
        _add(entry, "id", self._tag(item.key))
        _add(entry, "title", plain(news_words.title(item, self._index)))
        _add(entry, "updated", _instant(item.on))
        _add(entry, "category", term=item.kind)
        _add(entry, "link", rel="alternate", type="text/html", href=self._start + news_words.address(item))
        said = self._turned.get(item.case.id, ()) if item.case is not None else ()
        _add(entry, "content", str(news_words.told(item, self._index, said)), type="html")

    def _tag(self, name: str) -> str:
        return tag(name, self._index.club.site_url, self._index.club.name)


def _add(parent: ET.Element, name: str, content: str | None = None, **attributes: str) -> ET.Element:
    child = ET.SubElement(parent, name, attributes)
    child.text = None if content is None else _NOT_XML.sub("\ufffd", content)
    return child


def _instant(day: dt.date) -> str:
    """The start of a day, RFC 3339."""
    return f"{day.isoformat()}T00:00:00Z"
