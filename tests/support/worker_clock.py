"""The timers of a service worker in a test's hand: nobody waits for them, and a slow machine changes nothing."""

from __future__ import annotations

from playwright.sync_api import BrowserContext, Worker

from tests.support.patience import LONG

_TAKE = """(patience) => {
    const inTime = self.setTimeout.bind(self);
    const timers = new Map();
    const waiting = new Set();
    let now = 0;
    let count = 0;
    const look = () => waiting.forEach((each) => each());
    self.setTimeout = (run, ms) => {
        count += 1;
        timers.set(count, { run, at: now + ms });
        look();
        return count;
    };
    self.clearTimeout = (id) => {
        timers.delete(id);
        look();
    };
    const until = (holds) => new Promise((resolve, reject) => {
        const tell = () => {
            if (holds()) {
                waiting.delete(tell);
                resolve();
            }
        };
        waiting.add(tell);
        tell();
        inTime(() => reject(new Error(`${count} timers were set, ${timers.size} run`)), patience);
    });
    self.clock = {
        count: () => count,
        reached: (number) => until(() => count >= number),
        left: (number) => until(() => timers.size === number),
        advance: (ms) => {
            now += ms;
            const due = [...timers].filter(([, { at }]) => at <= now);
            due.forEach(([id]) => timers.delete(id));
            due.forEach(([, { run }]) => run());
        },
    };
}"""


class WorkerClock:
    """Its time stands still until a test moves it."""

    def __init__(self, worker: Worker) -> None:
        self._worker = worker
        worker.evaluate(_TAKE, 1000 * LONG)

    def count(self) -> int:
        """How many timers were set so far."""
        return int(self._worker.evaluate("() => self.clock.count()"))

    def wait_for(self, number: int) -> None:
        """Until so many timers were set, all in all."""
        self._worker.evaluate("(number) => self.clock.reached(number)", number)

    def wait_for_last(self) -> None:
        """Until one timer alone runs."""
        self._worker.evaluate("() => self.clock.left(1)")

    def advance(self, milliseconds: int) -> None:
        """Let time pass."""
        self._worker.evaluate("(ms) => self.clock.advance(ms)", milliseconds)


def worker_of(context: BrowserContext) -> Worker:
    """The service worker that is at work, the newest if there were several."""
    return context.service_workers[-1]
