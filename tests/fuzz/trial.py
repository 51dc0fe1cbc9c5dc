"""What is done with a broken file, and what must hold of it whatever it holds."""

from __future__ import annotations

import datetime as dt
import functools
import io
import json
import logging
import re
import time
import traceback
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any, Final

from mkdocs.config import load_config
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import PluginError
from mkdocs.structure.files import Files
from mkdocs.structure.pages import Page
from PIL import Image

from kbtools.browser_data.finder import finder_files
from kbtools.browser_data.several_codes import several_files
from kbtools.diagnostics import Finding, has_errors
from kbtools.edges.pictures import FORMATS as PICTURE_FORMATS
from kbtools.edges.pictures import LONGEST_SIDE, drawn_anew, looked_at
from kbtools.edges.rendering import Renderer
from kbtools.edges.rulebook import rulebook
from kbtools.edges.shipped import shapes, tables
from kbtools.index.build import build_index
from kbtools.linting.run import examine
from kbtools.model.base import HandPage, KnowledgeBase
from kbtools.reading.one_file import Content
from kbtools.reading.reader import read
from kbtools.reading.source import SourceFile, decode, lines_of
from kbtools.replay import replay
from kbtools.report.context import ReportContext
from kbtools.report.formats import FORMATS
from kbtools.site import assets, hand_written
from kbtools.site.plugin import NAME
from kbtools.text import html as text
from kbtools.text.terminal import for_terminal
from tests.fuzz.mutants import PAGE, PICTURE, Mutant, whole
from tests.support import factories, site_links
from tests.support.all_pages import all_pages
from tests.support.places import ROOT

TODAY: Final = dt.date(2026, 6, 1)
SLOW: Final = 5.0
"""Seconds of the processor that no file may take: the slowest takes a tenth on a quiet machine."""

UNREADABLE: Final = {"KB101", "KB106", "KB107", "KB108", "KB110"}
"""Of these the file is no text or no YAML, and is not looked into."""
UNRENDERED: Final = UNREADABLE | {"KB120"}
"""Of these a page is never handed to Markdown."""

COMMAND = re.compile(r"^\s*::\s*[a-z]|##\s*(?:[a-z]*)\[", re.IGNORECASE | re.MULTILINE)
"""What runners of jobs obey, as in `tests/text/test_terminal.py`."""
OBEYED = re.compile("[\x00-\x08\x0b-\x1f\x7f-\x9f\u2028-\u202e\u2066-\u2069\u200b-\u200f\ufeff]")
"""What terminals obey, or what makes a text read as another one."""


class ActsError(AssertionError):
    """Something that is printed or published would be obeyed by whoever reads it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Outcome:
    """What came of one file."""

    number: int
    """Of the mutant."""
    kind: str
    """Of the mutant."""
    flawed: bool = False
    """Whether there was any finding."""
    read: bool = False
    """Whether it was looked into: as YAML, as a page, as a picture."""
    used: bool = False
    """Whether it came as far as into pages of a site."""
    seconds: float = 0.0
    """Of the processor."""
    broke: str = ""
    """The traceback, or what the rule that broke down says."""
    acts: str = ""
    """What would be obeyed."""
    outside: str = ""
    """The finding that points outside of its file."""

    @property
    def holds(self) -> bool:
        """Whether all is as it must be."""
        return not (self.broke or self.acts or self.outside or self.seconds > SLOW)


class _Unchanged:
    """The files of the base that are not broken, read once."""

    def __init__(self) -> None:
        self._known: dict[tuple[str, bytes | None], Content] = {}

    def contents(self, files: Sequence[SourceFile]) -> Sequence[Content | None]:
        return [self._known.get((each.path, each.data)) for each in files]

    def keep(self, file: SourceFile, content: Content) -> None:
        if whole().get(file.path) == file.data:
            self._known[file.path, file.data] = content


class _Verdicts:
    """The picture of the base that is not broken, looked at once."""

    def __init__(self) -> None:
        self._known: dict[bytes, tuple[str, str]] = {}

    def picture(self, digest: bytes) -> tuple[str, str] | None:
        return self._known.get(digest)

    def keep_picture(self, digest: bytes, problem: str, hint: str) -> None:
        if not self._known:
            self._known[digest] = (problem, hint)


_shapes = functools.cache(shapes)


@functools.cache
def _memories() -> tuple[_Unchanged, _Verdicts]:
    verdicts = _Verdicts()
    list(looked_at([SourceFile(path=PICTURE, data=whole()[PICTURE])], verdicts))
    return _Unchanged(), verdicts


def tried(broken: Mutant) -> Outcome:
    """Read it, check it, report it and render it as every door does, and say how that went."""
    said: dict[str, Any] = {"number": broken.number, "kind": broken.kind}
    started = time.process_time()
    try:
        for more in _steps(broken):
            said |= more
    except ActsError as error:
        said["acts"] = str(error) or "?"
    except Exception:
        said["broke"] = traceback.format_exc()
    return Outcome(**said, seconds=time.process_time() - started)


def _steps(broken: Mutant) -> Iterator[dict[str, Any]]:
    files = {**whole(broken.kind.partition(":")[0]), broken.path: broken.data}
    unchanged, verdicts = _memories()
    sources = list(looked_at((SourceFile(path=path, data=data) for path, data in files.items()), verdicts))
    reading = read(sources, _shapes(), unchanged, tables=tables())
    findings = examine(reading, rulebook(), TODAY).findings
    rules = {each.rule for each in findings if each.path == broken.path}
    yield {"flawed": bool(findings), "read": not UNREADABLE & rules}
    yield from ({"broke": each.message} for each in findings if each.rule == "KB001")
    lines = functools.cache(functools.partial(_lines, files))
    yield from ({"outside": repr(each)} for each in findings if _is_outside(each, lines(each.path)))
    _report(findings, files, colour=bool(broken.number % 2))
    if broken.path == PAGE and not UNRENDERED & rules:
        yield {"used": _convert(next(page for page in reading.base.pages if page.path == PAGE))}
    elif broken.kind.startswith("pictures"):
        good = "KB114" not in rules
        if good:
            _redraw(broken)
        yield {"read": good, "used": good}
    elif not has_errors(list(findings)):
        _build(reading.base)
        yield {"used": True}


def _lines(files: Mapping[str, bytes], path: str) -> list[str]:
    """The lines of a file as an editor counts them."""
    content = decode(SourceFile(path=path, data=files.get(path, b"")))[0]
    if content is None:
        # Not decodable as a whole: the lines before the bad byte still count.
        content = files[path].decode("utf-8-sig", errors="replace")
    return content.replace("\r\n", "\n").replace("\r", "\n").split("\n")


def _is_outside(finding: Finding, lines: Sequence[str]) -> bool:
    """Whether the finding points outside of its file."""
    line, column = finding.mark.line, finding.mark.column
    return not (1 <= line <= len(lines) and 1 <= column <= len(lines[line - 1]) + 1)


def _report(findings: Sequence[Finding], files: Mapping[str, bytes], *, colour: bool) -> None:
    """Every format of the report, as it reaches a terminal or a job's log."""
    # As the command has them: split once a file.
    lines = functools.cache(lambda path: lines_of(files.get(path, b"")))
    for form, render in FORMATS.items():
        coloured = colour and form == "text"
        made = render(findings, ReportContext(lines=lines, colour=coloured, rules=lambda: rulebook().rules[:3]))
        printed = made if form == "github" else for_terminal(made, colour=coloured)
        _hold_report(form, printed.encode("utf-8", "backslashreplace").decode(), len(findings))


def _hold_report(form: str, printed: str, count: int) -> None:
    obeyed = OBEYED.search(re.sub("\x1b\\[[0-9;]*m", "", printed))
    if obeyed is not None:
        raise ActsError(f"{form}: {printed[max(0, obeyed.start() - 40) : obeyed.end() + 10]!r}")
    if form == "github":
        # Each finding is one command, whose text no runner looks into, and the last line is none.
        lines = printed.split("\n")
        commands = [line for line in lines if re.match("::(?:error|warning) ", line)]
        rest = [line for line in lines if line not in commands and COMMAND.search(line)]
        if len(commands) != count or rest:
            raise ActsError(f"{form}: {rest or printed[:200]!r}")
        return
    command = COMMAND.search(printed)
    if command is not None:
        raise ActsError(f"{form}: {printed[max(0, command.start() - 40) : command.end() + 10]!r}")
    if form == "json":
        assert len(json.loads(printed)) == count
    elif form == "sarif":
        assert len(json.loads(printed)["runs"][0]["results"]) == count


@functools.cache
def _mkdocs() -> MkDocsConfig:
    """The demo's own settings, with what the plugin adds to them."""
    config = load_config(str(ROOT / "mkdocs.yml"), docs_dir=str(ROOT / "kb"))
    config.markdown_extensions += hand_written.extensions()
    # MkDocs notes whose file it is.
    config.plugins._current_plugin = NAME
    # It warns of links that lead nowhere, which a build tells.
    logging.getLogger("mkdocs").addHandler(logging.NullHandler())
    return config


def _convert(source: HandPage) -> bool:
    """A hand-written page as the build has it: by MkDocs, bounded in time, made safe; whether the build goes on."""
    config = _mkdocs()
    file = hand_written.hand_file(source, config)
    page = Page(None, file, config)
    page.read_source(config)
    hand_written.prepare(page, source)
    try:
        page.render(config, Files([file]))
    except PluginError as error:
        # A sentence that names the page is an answer.
        if PAGE not in str(error):
            raise
        return False
    assert page.content is not None
    clean = text.sanitise(page.content)
    acting = _acting(clean)
    if acting:
        raise ActsError(f"page: {acting}")
    text.plain(str(page.title or ""))
    for item in page.toc:
        text.plain(item.title)
    return True


@functools.lru_cache(maxsize=1_000)
def _acting(html: str) -> list[str]:
    """What acts in an article; most are the same whatever file is broken."""
    return site_links.acting(site_links.read_html(html))


def _redraw(broken: Mutant) -> None:
    """A picture that was taken: what is published of it is whole, small enough, and has nothing beside its pixels."""
    suffix = broken.path[broken.path.rindex(".") :]
    with Image.open(io.BytesIO(drawn_anew(broken.data, suffix))) as image:
        image.load()
        assert image.format == PICTURE_FORMATS[suffix]
        assert max(image.size) <= LONGEST_SIDE
        if image.getexif() or {"exif", "icc_profile", "xmp", "comment"} & image.info.keys():
            raise ActsError(f"picture: {sorted(image.info)}")


@functools.cache
def _renderer() -> Renderer:
    return Renderer(())


def _build(base: KnowledgeBase) -> None:
    """Every article and all data of a base without errors."""
    index = build_index(base, TODAY)
    specs = {spec.address: spec for spec in all_pages(index, TODAY, replayed=replay(index))}
    renderer = _renderer()
    # Another renderer would compile all templates again.
    renderer._addresses = frozenset(specs) | {f"{Path(page.path).stem}/" for page in base.pages}
    for address, spec in specs.items():
        acting = _acting(factories.rendered(spec, renderer))
        if acting:
            raise ActsError(f"{address}: {acting}")
    for files in (finder_files(base, TODAY.year, set(specs)), several_files(index)):
        for content in assets.json_files(files).values():
            json.loads(content, parse_constant=_no_number)


def _no_number(name: str) -> None:
    raise ActsError(f"{name} in JSON, which no browser reads")


def warm() -> None:
    """Load what the first file would load, so that children of this process have it."""
    for kind, path in (("entries", "club.yml"), ("pages", PAGE)):
        tried(Mutant(number=0, kind=kind, path=path, data=whole(kind).get(path, b"# A page\n")))
