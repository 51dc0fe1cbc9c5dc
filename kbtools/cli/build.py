"""`kbtools build`: check, build, and put the finished site in place in one step."""

from __future__ import annotations

import time
from pathlib import Path

import click

from kbtools.cli.common import checked, kb_option, report
from kbtools.cli.output import refused, say
from kbtools.edges import clock
from kbtools.edges.publish import PublishError, publish


@click.command()
@kb_option
@click.option(
    "--site-dir",
    type=click.Path(file_okay=False, path_type=Path),
    default=Path("site"),
    show_default=True,
    help="Where the site goes.",
)
def build(folder: Path, site_dir: Path) -> None:
    """Check the knowledge base and build the site.

    The site that is there already stays whole until the new one is finished, and stays if anything goes wrong.
    """
    # MkDocs takes long to load, and the other commands do without it.
    from kbtools.site.building import BuildProblemError, build_site  # noqa: PLC0415

    started = time.monotonic()
    result = checked(folder)
    if result.findings:
        report(result, folder)
    if not result.sound:
        say("Nothing was built; the site is as it was.\n", err=True)
        raise SystemExit(1)
    try:
        publish(
            site_dir,
            lambda target: build_site(result.base, folder, target, clock.today(), result.findings),
            keep_clear=[folder],
        )
    except OSError as error:
        say(f"{refused(error).message}\n    Nothing was published; the site is as it was.\n", err=True)
        raise SystemExit(1) from error
    except (PublishError, BuildProblemError) as error:
        say(f"{error.message}\n    {error.hint}\n", err=True)
        raise SystemExit(1) from error
    pages = sum(1 for _ in site_dir.rglob("*.html"))
    say(f"{site_dir}: {pages} pages in {time.monotonic() - started:.1f} s.\n")
