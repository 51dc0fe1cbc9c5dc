"""`kbtools handbook`: the handbook of a model or a model year, as a PDF."""

from __future__ import annotations

import time
from collections.abc import Callable, Iterator
from pathlib import Path

import click

from kbtools.cli.common import checked, day, kb_option, report
from kbtools.cli.named import known, names_of, refuse
from kbtools.cli.output import patience, refused, say
from kbtools.edges.writing import put_over
from kbtools.index.answers import Index
from kbtools.index.build import build_index
from kbtools.index.reviews import overdue
from kbtools.wording import addresses


@click.command()
@click.argument("model")
@click.option("--year", type=int, help="A model year; without it all years of the model.")
@click.option(
    "-o",
    "--output",
    "target",
    type=click.Path(dir_okay=False, path_type=Path),
    required=True,
    help="The PDF; one that is there is replaced once the new one is whole.",
)
@kb_option
def handbook(model: str, year: int | None, target: Path, folder: Path) -> None:
    """Print the handbook of a model, or of one of its years, as a PDF.

    A browser on this machine prints it, without a network: chromium, chromium-browser, google-chrome or
    google-chrome-stable, the first of them that is on the PATH.
    """
    # The pages load the Markdown library and scipy, and the other commands do without them.
    from kbtools.edges.paper import PrintError, browser, paper_page, printed, sheets  # noqa: PLC0415
    from kbtools.edges.rendering import Renderer  # noqa: PLC0415
    from kbtools.pages import fault  # noqa: PLC0415
    from kbtools.pages import handbook as book  # noqa: PLC0415
    from kbtools.site.building import notice  # noqa: PLC0415

    started = time.monotonic()
    result = checked(folder)
    if result.findings:
        report(result, folder)
    if not result.sound:
        say("Nothing was printed.\n", err=True)
        raise SystemExit(1)
    index = build_index(result.base, day())
    known("model", [model], names_of(index.base.models.values()))
    built = index.years[model]
    if year is not None and year not in built:
        refuse(
            f"{model} was not built in {year}, but {built[0]} to {built[-1]}." if built else "Its years are unknown."
        )
    try:
        command = browser()
        with patience("Printing"):
            shown = {
                each.id: fault.page_of(each, index, None, late=overdue(each, index.club, day())).context
                for each in index.faults_by_model.get(model, ())
            }
            spec = book.page_of(index.base.models[model], year, index, day(), shown.__getitem__)
            renderer = Renderer(set(_addresses(index)), to=_to_site(index.club.site_url))
            page = paper_page(spec, renderer, day().isoformat(), notice=notice(folder))
            pdf = printed(page, [command])
        put_over(target, pdf)
    except PrintError as error:
        say(f"{error.message}.\n    {error.hint}\n", err=True)
        raise SystemExit(1) from error
    except OSError as error:
        raise refused(error) from error
    seconds = time.monotonic() - started
    say(f"{target}: {sheets(pdf)} sheets, {len(pdf) / 1000:.0f} kB in {seconds:.1f} s.\n")


def _to_site(site_url: str | None) -> Callable[[str, str], str]:
    """How a printed page links: to the club's site; where its address is not known, to its own top."""

    def to(address: str, anchor: str) -> str:
        if site_url is None:
            return "#cover"
        return f"{site_url.rstrip('/')}/{address}" + (f"#{anchor}" if anchor else "")

    return to


def _addresses(index: Index) -> Iterator[str]:
    """The pages that a handbook links to."""
    yield addresses.SAFETY
    yield from (addresses.fault(each) for each in index.published)
    for model, years in index.years.items():
        yield addresses.model(model)
        yield addresses.handbook(model)
        yield from (addresses.model_year(model, year) for year in years)
