"""How good the finder is, beside two searches of others on the same texts: `python -m tests.finder_quality`.

Prints by set and kind success@1, @3 and @8, the share of queries that are called known, that is surely answered (of
those that nothing answers: false answers), the share to which any fault or code is shown, sure or not, and how many
answers are called sure and how many of those are right. Name `choose` to leave the kept sets out, which only measure.
`--misses` lists what the set to choose on misses.
"""

from __future__ import annotations

import argparse

from playwright.sync_api import sync_playwright

from kbtools.edges.folder import load
from tests.conftest import CHROMIUM_FLAGS
from tests.support.finder_asked import SCRIPTS, ours, stemmed, theirs, trigrams
from tests.support.finder_queries import Answers, Figures, Query, Set, by_kind, labelled, ranked
from tests.support.places import DEMO
from tests.support.site_server import served

CHROMIUM = "/usr/bin/chromium"
SETS: tuple[Set, ...] = ("choose", "kept", "kept-own", "kept-more")
Asked = list[tuple[Query, Answers]]


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("sets", nargs="*", choices=(*SETS, "all"), default="all")
    parser.add_argument("--misses", action="store_true", help="of the set to choose on")
    chosen = parser.parse_args()
    base = load(DEMO).base
    others = {"bm25s, stemmed": stemmed(base), "FTS5 trigram": trigrams(base)}
    with sync_playwright() as playwright, served(SCRIPTS) as root:
        browser = playwright.chromium.launch(executable_path=CHROMIUM, args=CHROMIUM_FLAGS)
        for name in SETS if "all" in chosen.sets else chosen.sets:
            asked = labelled(name)
            mine = ours(browser, root, base, asked)
            show(name, mine, {who: theirs(search, asked) for who, search in others.items()})
            if chosen.misses and name == "choose":
                misses(mine)
        browser.close()


def show(name: str, mine: Asked, others: dict[str, Asked]) -> None:
    """Print a table."""
    table = by_kind(mine)
    beside = {who: by_kind(each) for who, each in others.items()}
    print(f"\n{name:<12}{'':>5}{'finder: @1    @3    @8 known  sure/right':>42}", end="")
    print("".join(f"{who + ': @1    @3    @8':>36}" for who in others))
    for kind, each in table.items():
        sure = f"{each.sure:4d}/{each.right}"
        print(f"{kind:<12}{each.count:>5}{_told(each):>28}{each.false:6.3f} {each.offered:.3f} {sure:<9}", end="")
        print("".join(f"{_told(figures[kind]):>34}" for figures in beside.values()))


def _told(of: Figures) -> str:
    return f"{of.first:5.3f} {of.three:5.3f} {of.eight:5.3f} "


def misses(mine: Asked) -> None:
    """Print what is not among the first three, what is wrongly called sure, and what is wrongly called known."""
    for query, given in mine:
        at = ranked(query, given)
        wrong = [each.address for each in given.listed if each.sure and each.address not in query.first]
        if at is None or at > 3 or wrong:
            listed = [("" if not each.sure else "!") + each.address for each in given.listed[:4]]
            print(f"{query.kind:<9}{at or '-':>3} {query.text[:70]!r} wants {query.first[:2]} got {listed}")


if __name__ == "__main__":
    main()
