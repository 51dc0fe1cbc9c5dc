"""`kbtools build`: check, build, and put the finished site in place in one step."""

from __future__ import annotations

import os
import time
from pathlib import Path

import click

from kbtools.cli.common import checked, kb_option, report
from kbtools.cli.output import refused, say
from kbtools.edges import clock
from kbtools.edges.publish import PublishError, publish
from kbtools.edges.site_size import keep_figures, last_figures, packed, weighed
from kbtools.edges.spare import spare_of
from kbtools.model.catalogue import SiteBudget
from kbtools.report import site_size as words


@click.command()
@kb_option
@click.option(
    "--site-dir",
    type=click.Path(file_okay=False, path_type=Path),
    default=Path("site"),
    show_default=True,
    help="Where the site goes.",
)
@click.option(
    "--report",
    "reported",
    is_flag=True,
    help="Say what the site weighs: by kind, its heaviest pages, and what grew since the last report.",
)
def build(folder: Path, site_dir: Path, reported: bool) -> None:
    """Check the knowledge base and build the site.

    The site that is there already stays whole until the new one is finished, and stays if anything goes wrong; also if
    the new one weighs more than `site_budget` in club.yml allows.
    """
    # MkDocs takes long to load, and the other commands do without it.
    from kbtools.site.building import BuildProblemError, build_site  # noqa: PLC0415
    from kbtools.site.last_build import Stood  # noqa: PLC0415

    started = time.monotonic()
    result = checked(folder)
    if result.findings:
        report(result, folder)
    if not result.sound:
        say("Nothing was built; the site is as it was.\n", err=True)
        raise SystemExit(1)
    spare = spare_of(site_dir)
    stood = Stood(site=site_dir.absolute(), spare=spare)
    budget = None if result.base.club is None else result.base.club.site_budget

    def make(target: Path) -> None:
        build_site(result.base, folder, target, clock.today(), result.findings, stood=stood)
        if reported or budget is not None:
            _weigh(target, site_dir, budget, reported=reported)

    try:
        publish(site_dir, make, keep_clear=[folder], spare=spare)
        if reported:
            keep_figures(site_dir, weighed(site_dir))
    except OSError as error:
        say(f"{refused(error).message}\n    Nothing was published; the site is as it was.\n", err=True)
        raise SystemExit(1) from error
    except (PublishError, BuildProblemError) as error:
        say(f"{error.message}\n    {error.hint}\n", err=True)
        raise SystemExit(1) from error
    pages = sum(name.endswith(".html") for _, _, names in os.walk(site_dir) for name in names)
    say(f"{site_dir}: {pages} pages in {time.monotonic() - started:.1f} s.\n")


def _weigh(target: Path, site_dir: Path, budget: SiteBudget | None, *, reported: bool) -> None:
    """Say what a site weighs that is not in its place yet, and hold it to the budget.

    Raises:
        PublishError: it weighs too much.
    """
    sizes = weighed(target)
    if reported:
        say(words.render(sizes, packed(target, sizes), last_figures(site_dir)))
    over = words.over_budget(sizes, budget)
    if over:
        hint = "Make it lighter, or allow more in site_budget of club.yml; the site is as it was."
        raise PublishError("\n".join(over), hint)
