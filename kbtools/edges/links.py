"""Asks links, few at a time, one of a host at a time and with a pause between, within a time that is set."""

from __future__ import annotations

import contextlib
import datetime as dt
import os
import queue
import threading
import time
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Final
from urllib.parse import urljoin, urlsplit

from kbtools.edges import cache
from kbtools.edges.network import Network, NoAnswerError, Reply
from kbtools.links.answer import Answer, Verdict, of_status
from kbtools.links.kept import as_text, from_text
from kbtools.text.html import web_link

VARIABLE: Final = "KBTOOLS_LINKS"
"""Environment variable: the file in which answers are kept."""
_NAME: Final = "links.json"
_REDIRECTS: Final = frozenset({301, 302, 303, 307, 308})
_MOST_KEPT: Final = 20_000_000
"""Bytes of the file of kept answers."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Bounds:
    """How long is waited, and how much is asked. Our own judgement of what is polite, no source."""

    link: float = 20
    """Seconds that one link may take, its turn not counted: all redirects and both ways of asking."""
    all: float = 900
    """Seconds for all of them; those that have not had their turn then are not asked."""
    pause: float = 1
    """Seconds between two questions to one host."""
    again: float = 5
    """Seconds before a link that failed is tried once more."""
    at_once: int = 4
    """Links that are asked at the same time, each of another host."""
    redirects: int = 5
    """That are followed."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """What came of it."""

    answers: dict[str, Answer]
    """By link; those for which the time was too short are not among them."""
    heard: bool
    """Whether anybody answered at all."""


def ask_all(urls: Sequence[str], day: dt.date, network: Network, bounds: Bounds) -> Asked:
    """Ask every link, in this order as far as the hosts' turns allow.

    Args:
        urls: absolute addresses of the web, each once.
        day: today.
        network: how hosts are reached.
        bounds: how long, and how much.
    """
    by_host: dict[str, list[str]] = {}
    for url in urls:
        by_host.setdefault(_host(url), []).append(url)
    waiting: queue.SimpleQueue[list[str]] = queue.SimpleQueue()
    for group in by_host.values():
        waiting.put(group)
    asking = _Asking(network, bounds)
    verdicts: dict[str, Verdict] = {}

    def work() -> None:
        with contextlib.suppress(queue.Empty, _OutOfTimeError):
            while True:
                for url in waiting.get_nowait():
                    verdicts[url] = asking.verdict(url)

    # Daemons: who presses Ctrl-C does not wait for them.
    crew = [threading.Thread(target=work, daemon=True) for _ in range(min(bounds.at_once, len(by_host)))]
    for each in crew:
        each.start()
    for each in crew:
        each.join()
    answers = {url: Answer(state=each.state, said=each.said, day=day) for url, each in verdicts.items()}
    return Asked(answers=answers, heard=any(each.heard for each in verdicts.values()))


class _OutOfTimeError(Exception):
    """The time for all links is over."""


class _Turns:
    """Whose turn it is at a host: one question at a time, and a pause after each."""

    def __init__(self, pause: float, end: float) -> None:
        self._pause = pause
        self._end = end
        self._all = threading.Lock()
        self._hosts: dict[str, threading.Lock] = {}
        self._last: dict[str, float] = {}

    @contextlib.contextmanager
    def of(self, host: str) -> Iterator[None]:
        with self._all:
            lock = self._hosts.setdefault(host, threading.Lock())
        if not lock.acquire(timeout=max(self._end - time.monotonic(), 0)):
            raise _OutOfTimeError
        try:
            self.wait(self._last.get(host, -self._pause) + self._pause - time.monotonic())
            yield
        finally:
            self._last[host] = time.monotonic()
            lock.release()

    def wait(self, seconds: float) -> None:
        if time.monotonic() + max(seconds, 0) > self._end:
            raise _OutOfTimeError
        time.sleep(max(seconds, 0))


class _Asking:
    def __init__(self, network: Network, bounds: Bounds) -> None:
        self._network = network
        self._bounds = bounds
        self._end = time.monotonic() + bounds.all
        self._turns = _Turns(bounds.pause, self._end)

    def verdict(self, url: str) -> Verdict:
        """What one link says: asked for its head, then, if that is refused, for the page; if need be once more."""
        left = [self._bounds.link]
        verdict = self._both_ways(url, left)
        if verdict.again and left[0] > 0:
            self._turns.wait(self._bounds.again)
            verdict = self._both_ways(url, left)
        return verdict

    def _both_ways(self, url: str, left: list[float]) -> Verdict:
        verdict = self._followed("HEAD", url, left, left[0] / 2)
        if verdict.state == "there" or not (verdict.heard or verdict.again):
            return verdict
        # Not every host knows how to answer a question for the head alone.
        return self._followed("GET", url, left, left[0])

    def _followed(self, method: str, url: str, left: list[float], most: float) -> Verdict:
        place, seen, floor = url, {url}, left[0] - most
        for _ in range(self._bounds.redirects + 1):
            try:
                reply = self._reply(method, place, left, floor)
            except NoAnswerError as error:
                return Verdict(
                    state="dead" if error.dead else "unsure", said=error.said, again=error.again, heard=error.heard
                )
            if reply.status not in _REDIRECTS or not reply.location:
                return of_status(reply.status, url, place)
            onward = _joined(place, reply.location)
            if onward is None:
                return Verdict(state="unsure", said="it leads on to what is no address of the web")
            if onward in seen:
                # Some hosts lead programs in circles that keep no cookies, and readers to the page.
                return Verdict(state="unsure", said="it leads in a circle")
            seen.add(onward)
            place = onward
        return Verdict(state="unsure", said="it leads on and on")

    def _reply(self, method: str, place: str, left: list[float], floor: float) -> Reply:
        with self._turns.of(_host(place)):
            began = time.monotonic()
            try:
                return self._network.ask(method, place, min(left[0] - floor, self._end - began))
            except NoAnswerError as error:
                if time.monotonic() >= self._end:
                    # It was us who did not wait.
                    raise _OutOfTimeError from error
                raise
            finally:
                left[0] -= time.monotonic() - began


def _host(url: str) -> str:
    try:
        return (urlsplit(url).hostname or "").rstrip(".")
    except ValueError:
        return ""


def _joined(place: str, location: str) -> str | None:
    """Where a redirect leads, without the part behind `#`; None: to no address that a page may link to."""
    try:
        return web_link(urljoin(place, location).partition("#")[0])
    except ValueError:
        return None


# --- kept from one time to the next


def kept_file(folder: Path) -> Path | None:
    """Where answers about a knowledge base's links are kept; None: nowhere.

    `KBTOOLS_LINKS` names the file; else it is `links.json` beside the knowledge base, if that is there; else one in the
    cache folder.
    """
    named = os.environ.get(VARIABLE, "")
    if named:
        return Path(named)
    beside = folder.resolve().parent / _NAME
    if beside.is_file():
        return beside
    place = cache.place()
    return None if place is None else place / _NAME


def kept_answers(file: Path | None, today: dt.date) -> dict[str, Answer]:
    """The answers of earlier askings; none where there is no such file, or it is none of ours."""
    if file is None:
        return {}
    try:
        with file.open("rb") as stream:
            data = stream.read(_MOST_KEPT + 1)
    except OSError:
        return {}
    return {} if len(data) > _MOST_KEPT else from_text(data.decode("utf-8", "replace"), today)


def keep_answers(file: Path, answers: dict[str, Answer]) -> None:
    """Write them, whole or not at all.

    Raises:
        OSError: it cannot be written; what was kept is as it was.
    """
    file.parent.mkdir(parents=True, exist_ok=True)
    temporary = file.with_name(f".{file.name}.new")
    temporary.write_text(as_text(answers), encoding="utf-8")
    temporary.replace(file)
