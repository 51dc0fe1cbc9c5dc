"""The feeds: held to RFC 4287 by hand and by `feedparser`, their ids to RFC 4151; and what the log of git adds."""

from __future__ import annotations

import csv
import datetime as dt
import io
import json
import os
import re
import subprocess
import xml.etree.ElementTree as ET
from collections.abc import Mapping
from pathlib import Path

import feedparser
import pytest

from kbtools.changes.history import NO_HISTORY, History, as_json, commits, entries_touched, events, from_json
from kbtools.changes.news import news
from kbtools.edges.history import history
from kbtools.edges.shipped import schema_files
from kbtools.export.atom import feeds
from kbtools.export.files import export_files
from kbtools.export.tag_ids import tag
from kbtools.index.answers import Index
from kbtools.model.base import KnowledgeBase
from kbtools.model.fault import Reviewed
from kbtools.rules import samples
from tests.pages.test_hostile import CANARY, hostile_base
from tests.support import factories as make
from tests.support.demo_plans import demo_index
from tests.support.hostile_texts import STRINGS

ATOM = "{http://www.w3.org/2005/Atom}"
TAG = re.compile(r"tag:[a-z0-9.-]+,\d{4}(-\d\d(-\d\d)?)?:[A-Za-z0-9\-._~!$&'()*+,;=:@%/?]+")
"""RFC 4151, 2.1, with an authority that is a name of a host."""
INSTANT = re.compile(r"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\dZ")
"""RFC 3339, in UTC."""
SITE = "https://lore.example/club/"
NASTY = "bell \x07, null \x00, \ufffe, ]]> & <b>, \u202eback"


def made(base: KnowledgeBase, log: History = NO_HISTORY) -> dict[str, str]:
    index = make.index(base)
    return {path: content.decode() for path, content in feeds(index, news(index, log))}


def entries(feed: str) -> list[Mapping[str, str]]:
    return list(feedparser.parse(feed).entries)


def read_on(day: dt.date) -> Reviewed:
    return Reviewed(on=day, by="curator-3", second=None, at="")


@pytest.fixture(scope="module")
def index() -> Index:
    return demo_index()


def test_every_feed_has_what_the_standard_asks_for(index: Index) -> None:
    """RFC 4287: 4.1.1 of a feed, 4.1.2 of an entry, 4.2.6 ids are unique; `feedparser` finds nothing amiss."""
    found = dict(feeds(index, news(index)))
    assert {"news.xml", "models/bittern-900/news.xml", "systems/charging/news.xml"} <= found.keys()
    for path, content in found.items():
        root = ET.fromstring(content)
        assert root.tag == f"{ATOM}feed"
        for element in (root, *root.findall(f"{ATOM}entry")):
            for name in ("id", "title", "updated"):
                assert len(element.findall(f"{ATOM}{name}")) == 1, (path, name)
            assert INSTANT.fullmatch(element.findtext(f"{ATOM}updated") or "")
            assert TAG.fullmatch(element.findtext(f"{ATOM}id") or ""), path
        assert root.find(f"{ATOM}author/{ATOM}name") is not None
        links = {each.get("rel"): each.get("href") for each in root.findall(f"{ATOM}link")}
        assert links["self"] == f"https://lore.ostrel-circle.example/{path}"
        ids = [each.findtext(f"{ATOM}id") for each in root.findall(f"{ATOM}entry")]
        assert len(ids) == len(set(ids)) <= 60
        days = [each.findtext(f"{ATOM}updated") or "" for each in root.findall(f"{ATOM}entry")]
        assert days == sorted(days, reverse=True)
        parsed = feedparser.parse(content)
        assert not parsed.bozo, (path, parsed.get("bozo_exception"))
        assert len(parsed.entries) == len(ids)
    assert dict(feeds(index, news(index))) == found


def test_a_feed_is_about_its_model_or_its_system() -> None:
    """Only what concerns the model; a system has what is below it, too."""
    base = make.base(
        make.fault("one", applies_to=(make.row("bittern-900"),), system="charging"),
        make.fault("two", applies_to=(make.row("curlew-1100"),), system="brakes-abs"),
        models=[make.model("bittern-900"), make.model("curlew-1100"), make.model("dunlin-650")],
        systems=[make.system(), make.system("brakes"), make.system("brakes-abs", parent="brakes")],
        cases=[make.case("c1", "one", vehicle={"year": 2005}), make.case("c2", vehicle={"model": "curlew-1100"})],
        club=make.club(site_url=SITE),
    )
    found = {path: {each["id"].rpartition(":")[2] for each in entries(feed)} for path, feed in made(base).items()}
    one, two = "club/faults/one/reviewed/2026-03-14", "club/faults/two/reviewed/2026-03-14"
    assert found["news.xml"] == {one, two, "club/cases/c1", "club/cases/c2"}
    assert found["models/bittern-900/news.xml"] == {one, "club/cases/c1"}
    assert found["models/curlew-1100/news.xml"] == {two, "club/cases/c2"}
    assert found["models/dunlin-650/news.xml"] == set()
    assert found["systems/brakes/news.xml"] == found["systems/brakes-abs/news.xml"] == {two}


@pytest.mark.parametrize("text", [*STRINGS.values(), NASTY])
def test_no_text_breaks_a_feed_or_acts_in_it(text: str) -> None:
    fault = make.fault(
        "one",
        title=text,
        ride_advice=make.advice("do-not-ride", why=text),
        causes=(make.cause(summary=text),),
        sources=(make.source("recall", number=text, title=text, year=2026),),
    )
    gone = make.fault("gone", title=text, withdrawn=make.withdrawn(reason=text))
    case = make.case("c1", "one", outcome={"state": "solved", "cause": "worn"})
    base = make.base(fault, gone, cases=[case], club=make.club(name=text, site_url=SITE))
    for path, feed in made(base).items():
        parsed = feedparser.parse(feed)
        assert not parsed.bozo, (path, parsed.get("bozo_exception"))
        # What a reader of feeds shows as HTML.
        shown = "".join(each.text or "" for each in ET.fromstring(feed).iter(f"{ATOM}content"))
        assert not re.search(r"<script|<img|javascript:[^<]*\"|onerror=[^&]*>", re.sub(r"&lt;.*?&gt;", "", shown))
        assert not set(feed) & set("\x00\x07\u202e\ufffe")
    assert len(entries(made(base)["news.xml"])) == 4


def test_hostile_words_in_every_text_of_a_base_stay_words_in_feeds_data_and_tables() -> None:
    """`feedparser` cleans what it shows, so what it reads is looked at before: text that is HTML, escaped once."""
    index = make.index(hostile_base())
    told = news(index)
    for path, feed in feeds(index, told):
        parsed = feedparser.parse(feed, sanitize_html=False)
        assert not parsed.bozo, (path, parsed.get("bozo_exception"))
        assert not re.search(r"<(script|img)", "".join(each["summary"] for each in parsed.entries))
        if path == "news.xml":
            assert any(CANARY[:20] in each["title"] for each in parsed.entries)
    files = export_files(index, dt.date(2026, 6, 1), schema_files(), told=told)
    assert CANARY in {each["title"] for each in json.loads(files["api/v1/faults.json"])["items"]}
    for path, content in files.items():
        assert "\u202e" not in content.decode(), path
        if path.endswith(".csv"):
            rows = list(csv.reader(io.StringIO(content.decode(), newline=""), strict=True))
            assert len({len(row) for row in rows}) == 1


def test_without_an_address_of_the_site_ids_and_links_are_sound() -> None:
    """The UUID by Python's own `uuid5`; links are seen from the feed."""
    found = made(make.base(make.fault("one")))
    root = ET.fromstring(found["models/bittern-900/news.xml"])
    assert [each.get("href") for each in root.findall(f"{ATOM}entry/{ATOM}link")] == ["../../faults/one/"]
    import uuid

    name = "faults/one/reviewed/2026-03-14"
    expected = uuid.uuid5(uuid.NAMESPACE_URL, f"Ostrel Owners' Circle {name}")
    assert root.findtext(f"{ATOM}entry/{ATOM}id") == f"urn:uuid:{expected}"
    assert tag("news", "https://Lore.example:8080/", "") == "tag:lore.example,2026:news"
    assert not feedparser.parse(made(make.base())["news.xml"]).bozo


def test_a_renamed_entry_is_not_news_once_more() -> None:
    before = made(make.base(make.fault("old"), club=make.club(site_url=SITE)))["news.xml"]
    after = made(make.base(make.fault("new", formerly=("old",)), club=make.club(site_url=SITE)))["news.xml"]
    assert [each["id"] for each in entries(before)] == [each["id"] for each in entries(after)]
    assert entries(after)[0]["link"] == f"{SITE}faults/new/"


def test_a_draft_is_never_told_and_a_withdrawn_entry_says_why_and_whereto() -> None:
    secret = make.fault("secret", draft=True, title="Of nobody's business")
    gone = make.fault("gone", withdrawn=make.withdrawn(replaced_by="one"))
    base = make.base(make.fault("one"), gone, secret, cases=[make.case("c1", "secret")])
    (feed, *_) = made(base).values()
    assert "secret" not in feed
    assert "nobody's business" not in feed
    told = next(each for each in entries(feed) if "Withdrawn" in each["title"])
    assert "Folded." in told["summary"]
    assert "Title of one" in told["summary"]


def test_a_case_says_what_it_has_turned_and_a_damaged_one_breaks_nothing() -> None:
    damaged = make.case("c2", "one", seen=None, vehicle={"model": None, "year": None})
    index = make.index(make.base(make.fault("one"), cases=[make.case("c1", "one"), damaged]))
    feed = dict(feeds(index, news(index), {"c1": ["Now <b>another</b> cause is the likeliest."]}))["news.xml"]
    told = {each["title"]: each["summary"] for each in entries(feed.decode()) if each["title"].startswith("Case")}
    assert list(told) == ["Case: Title of one (Bittern 900, 2007)"]
    assert "Now &lt;b&gt;another&lt;/b&gt; cause is the likeliest." in next(iter(told.values()))


# What the log of git adds.

FAULT = "faults/charging/lamp-flickers.yml"
MOVED = "faults/charging/lamp-flutters.yml"


def commit(folder: Path, day: str, message: str = "x") -> None:
    when = {"GIT_AUTHOR_DATE": f"{day}T12:00:00Z", "GIT_COMMITTER_DATE": f"{day}T12:00:00Z"}
    who = {"GIT_AUTHOR_NAME": "a", "GIT_AUTHOR_EMAIL": "a@b.example", "GIT_CONFIG_GLOBAL": os.devnull}
    who |= {"GIT_COMMITTER_NAME": "a", "GIT_COMMITTER_EMAIL": "a@b.example"}
    for arguments in (["add", "-A"], ["commit", "-qm", message]):
        subprocess.run(["git", "-C", folder, *arguments], check=True, env={**os.environ, **when, **who})


def test_the_log_tells_days_and_what_changed(tmp_path: Path) -> None:
    """By hand, commit by commit; a shallow clone and a folder without a repository tell nothing, and nothing wrong."""
    kb = tmp_path / "work" / "kb"
    for name, text in samples.FILES.items():
        (kb / name).parent.mkdir(parents=True, exist_ok=True)
        (kb / name).write_text(text, "utf-8")
    assert history(kb) == NO_HISTORY
    subprocess.run(["git", "init", "-q", tmp_path / "work"], check=True)
    commit(kb, "2026-01-01")
    assert history(kb) == History(), "nobody knows when what the first commit has came"
    entry = (kb / FAULT).read_text("utf-8")
    assert "level: ride-to-workshop" in entry
    (kb / FAULT).write_text(entry.replace("level: ride-to-workshop", "level: do-not-ride"), "utf-8")
    (kb / "cases/2026").mkdir(parents=True, exist_ok=True)
    (kb / "cases/2026/new-one.yml").write_text("seen: 2025-12-01\n", "utf-8")
    commit(kb, "2026-02-02")
    (kb / FAULT).rename(kb / MOVED)
    text = (kb / MOVED).read_text("utf-8")
    (kb / MOVED).write_text(f"{text}formerly: [lamp-flickers]\n", "utf-8")
    (kb / "faults/charging/other.yml").write_text(entry, "utf-8")
    commit(kb, "2026-03-03")
    found = history(kb)
    assert found.came == {"new-one": dt.date(2026, 2, 2)}
    told = [(str(each.day), each.kind, each.id, each.was, each.now) for each in found.events if each.kind != "reviewed"]
    assert told == [
        ("2026-03-03", "new", "other", "", ""),
        ("2026-02-02", "advice", "lamp-flickers", "ride-to-workshop", "do-not-ride"),
    ]
    assert from_json(as_json(found)) == found
    shallow = tmp_path / "shallow"
    subprocess.run(["git", "clone", "-q", "--depth=1", (tmp_path / "work").as_uri(), shallow], check=True)
    assert history(shallow / "kb") == History()


@pytest.mark.parametrize(
    "log",
    [
        b"\x01aa\x02999999999999999999\0\n:100644 100644 aa bb M\0faults/a/b.yml\0",
        b"\x01\x02\0",
        b"\x01aa\x0212\0\n:100644 100644 aa bb M\0faults/a/\x01b.yml\0",
        b"\x01aa\x02\xff\0::::\0",
        b"no log at all",
    ],
)
def test_a_log_that_somebody_has_bent_tells_nothing_and_stops_nothing(log: bytes) -> None:
    found = list(entries_touched(commits(log)))
    assert list(events(found, {"aa": b"\xff", "bb": b"[" * 500})) == []


def test_changed_ride_advice_comes_first_and_says_what_it_was() -> None:
    day = dt.date(2026, 5, 5)
    log = History(
        events=tuple(
            each
            for entry in ("old", "b")
            for each in from_json(
                {
                    "events": [
                        ("2026-05-05", "reviewed", entry, "", "2026-05-01"),
                        ("2026-05-05", "advice", entry, "ride-with-care", "do-not-ride"),
                    ],
                    "came": {},
                }
            ).events
        )
    )
    base = make.base(
        make.fault("a", formerly=("old",), ride_advice=make.advice("do-not-ride"), reviewed=read_on(day)),
        make.fault("b", reviewed=read_on(dt.date(2026, 5, 1))),
        cases=[make.case("c1", "a", seen=day)],
    )
    (feed, *_) = made(base, log).values()
    titles = [each["title"] for each in entries(feed)]
    assert titles[:2] == ["Ride advice now do not ride: Title of a", "Ride advice now do not ride: Title of b"]
    assert "stricter than it was. Before: Yes, with care." in entries(feed)[0]["summary"]
    reviewed = {each["title"]: each["updated"][:10] for each in entries(feed) if each["title"].startswith("Reviewed")}
    # The log knows when b's review was published; that a was read again after it nobody has committed yet.
    assert reviewed == {"Reviewed: Title of a": "2026-05-05", "Reviewed: Title of b": "2026-05-05"}
