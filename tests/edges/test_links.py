"""Asking links: what each kind of answer is taken for, how much is asked, and where nobody ever goes."""

from __future__ import annotations

import datetime as dt
import threading
from collections.abc import Iterator, Sequence
from dataclasses import replace
from pathlib import Path

import pytest

from kbtools.edges.links import Bounds, ask_all, keep_answers, kept_answers
from kbtools.edges.network import Network
from kbtools.links.answer import Answer
from kbtools.links.kept import longest_ago_first
from tests.support.link_host import LinkHost, link_host, playground

DAY = dt.date(2026, 6, 1)
QUICK = Bounds(link=0.6, all=60, pause=0, again=0)


@pytest.fixture(scope="module")
def host() -> Iterator[LinkHost]:
    with link_host() as host:
        yield host


def asked(urls: Sequence[str], bounds: Bounds = QUICK, network: Network | None = None) -> dict[str, tuple[str, str]]:
    answers = ask_all(urls, DAY, network or playground(), bounds).answers
    return {url: (each.state, each.said) for url, each in answers.items()}


PAGES = {
    "/there": "there",
    "/no-head": "there",
    "/moved": "there",
    "/gone": "dead",
    "/left": "dead",
    "/early": "dead",
    "/login": "unsure",
    "/busy": "unsure",
    "/to-the-front": "unsure",
    "/circle": "unsure",
    "/on/1": "unsure",
    "/to-inside": "dead",
    "/to-a-file": "unsure",
    "/cut": "unsure",
    "/garbage": "unsure",
    "/huge-head": "there",
    "/huge-body": "there",
}


def test_each_answer_is_taken_for_what_it_is(host: LinkHost) -> None:
    host.asked.clear()
    # A host of its own each, so that they are asked at the same time.
    urls = {path: host.url(path, f"h{number}.zz") for number, path in enumerate(PAGES)}
    found = asked(list(urls.values()), replace(QUICK, at_once=8, link=10))
    assert {path: found[url][0] for path, url in urls.items()} == PAGES
    assert found[urls["/gone"]][1] == "404 not found"
    assert "public" in found[urls["/to-inside"]][1]
    # Heads first; the page itself where that was refused; a busy host once more; redirects to an end.
    assert [method for method, path in host.asked if path == "/there"] == ["HEAD", "HEAD"], "itself, and as moved to"
    assert [method for method, path in host.asked if path == "/no-head"] == ["HEAD", "GET"]
    assert len([path for _, path in host.asked if path == "/busy"]) == 4
    assert {path for _, path in host.asked if path.startswith("/on/")} == {f"/on/{number}" for number in range(1, 7)}
    assert all("kbtools" in head for head in host.heads)


def test_who_says_nothing_or_never_ends_is_given_up(host: LinkHost) -> None:
    urls = [
        host.url("/silent", "a.zz"),
        host.url("/drip", "b.zz"),
        "http://nobody.zz/",
        "ftp://c.zz/",
        "http://d.zz:22/",
    ]
    found = asked(urls)
    assert [found[url] for url in urls] == [
        ("dead", "no answer in time"),
        ("dead", "no answer in time"),
        ("dead", "there is no host of that name"),
        ("dead", "it is no address of the web"),
        ("unsure", "it leads to port 22, where no pages are"),
    ]


def test_a_name_that_changes_its_mind_leads_nowhere_else(host: LinkHost) -> None:
    """The address that was judged is the one that is connected to; the name is not looked up again for it."""
    looks = iter([["192.168.0.1", "::ffff:127.0.0.1"], ["127.0.0.1"]])
    network = replace(playground(), lookup=lambda name, port: next(looks), allowed=Network().allowed)
    host.asked.clear()
    ((state, said),) = asked([host.url("/there")], network=network).values()
    assert (state, said) == ("dead", "it leads to an address that is not of the public internet")
    assert host.asked == []
    assert next(looks) == ["127.0.0.1"], "one look-up a question"


def test_one_host_is_asked_one_thing_at_a_time_in_order(host: LinkHost) -> None:
    busy = threading.Lock()

    class Alone(Network):
        def ask(self, method, url, seconds):  # type: ignore[no-untyped-def]
            assert busy.acquire(blocking=False), "two questions at once"
            try:
                return super().ask(method, url, seconds)
            finally:
                busy.release()

    host.asked.clear()
    urls = [host.url(path) for path in ("/there", "/moved", "/gone")]
    found = asked(urls, network=Alone(lookup=playground().lookup, allowed=playground().allowed))
    assert [found[url][0] for url in urls] == ["there", "there", "dead"]
    assert [path for _, path in host.asked] == ["/there", "/moved", "/there", "/gone", "/gone"]


def test_when_the_time_is_over_the_rest_is_not_asked_and_nothing_is_called_dead(host: LinkHost) -> None:
    urls = [host.url("/there"), host.url("/gone"), host.url("/silent", "b.zz")]
    # The pause is longer than all the time there is.
    found = asked(urls, replace(QUICK, all=0.5, link=30, pause=60))
    assert found == {urls[0]: ("there", "200")}
    kept = {urls[0]: Answer(state="there", said="200", day=DAY)}
    assert longest_ago_first(urls, kept)[-1] == urls[0]


def test_without_a_network_nobody_is_heard() -> None:
    def lookup(name: str, port: int) -> list[str]:
        raise OSError("no way")

    assert not ask_all(["http://a.zz/", "http://b.zz/"], DAY, Network(lookup=lookup), QUICK).heard


def test_what_is_kept_comes_back_and_what_is_odd_does_not(tmp_path: Path) -> None:
    file = tmp_path / "new" / "links.json"
    answers = {'http://a.zz/"': Answer(state="dead", said="404", day=DAY)}
    keep_answers(file, answers)
    assert kept_answers(file, DAY) == answers
    assert kept_answers(file, dt.date(2028, 1, 1)) == {}, "too old"
    assert kept_answers(file, dt.date(2026, 5, 1)) == {}, "of a day to come"
    for odd in ("", "[", "[1]", '{"a": 1}', '{"a": {"state": "x", "said": "", "day": "2026-06-01"}}', "[" * 100_000):
        file.write_text(odd, "utf-8")
        assert kept_answers(file, DAY) == {}
    assert kept_answers(tmp_path, DAY) == {}
    assert kept_answers(None, DAY) == {}
