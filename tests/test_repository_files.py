"""The files around the programs: what the README promises, what an editor is given, what stands in no file."""

from __future__ import annotations

import datetime as dt
import json
import re
import subprocess
import tomllib
from collections.abc import Iterator
from pathlib import Path, PurePosixPath
from typing import Any

import pytest
from jsonschema import Draft202012Validator
from referencing import Registry, Resource

from kbtools.changes.advice import plans, reckoned_with
from kbtools.edges.rulebook import rulebook
from kbtools.edges.shipped import schema_files
from kbtools.index.build import build_index
from kbtools.linting.run import lint
from kbtools.reading.layout import SINGLE_FILES, place_of
from kbtools.reading.source import SourceFile
from kbtools.report import text as text_report
from kbtools.report.context import ReportContext
from tests.support.demo_read import demo_with
from tests.support.places import ROOT
from tests.support.readme import README, blocks, commands

KB = ROOT / "kb"
DEVELOPERS = (ROOT / "DEVELOPERS.md").read_text("utf-8")
ROOMS = "\n".join(path.read_text("utf-8") for path in sorted((ROOT / "kbtools").glob("*/README.md")))
SCHEMAS = schema_files()
SETTINGS: dict[str, Any] = json.loads((ROOT / ".vscode" / "settings.json").read_text("utf-8"))
EDITOR_SCHEMAS: dict[str, str] = SETTINGS["yaml.schemas"]
FIRST_ENTRY = "faults/lighting/horn-quiet-in-rain.yml"
TODAY = dt.date(2026, 6, 1)

Document = dict[str, Any]


def checked_with(entry: str) -> str:
    """What `kbtools check` says of the demo with one more entry."""
    more = SourceFile(path=FIRST_ENTRY, data=entry.encode())
    context = ReportContext(lines=lambda path: entry.splitlines() if path == FIRST_ENTRY else ())
    return text_report.render(lint(demo_with(more), rulebook(), TODAY), context)


# README


def test_the_two_commands_are_one_line_each() -> None:
    build, test = commands()
    assert "\n" not in build + test
    assert build.endswith("kbtools build")
    assert test.endswith("pytest")


def test_the_first_entry_of_the_readme_is_new_and_has_no_finding() -> None:
    (entry,) = blocks("yaml")
    assert not (KB / FIRST_ENTRY).exists()
    assert PurePosixPath(FIRST_ENTRY).name in README
    assert f"kb/{PurePosixPath(FIRST_ENTRY).parent}" in README
    assert checked_with(entry) == checked_with_nothing()
    # Who copies it publishes something to do, not only "hand the bike over".
    more = SourceFile(path=FIRST_ENTRY, data=entry.encode())
    base = demo_with(more).base
    plan = plans(reckoned_with(base.faults[PurePosixPath(FIRST_ENTRY).stem], build_index(base, TODAY)))
    assert plan.first is not None
    assert plan.first.partition(":")[0] in {"check", "trial_fix"}
    assert plan.expected_cost is not None
    assert plan.hand_over is not None
    assert plan.expected_cost < plan.hand_over / 2


def checked_with_nothing() -> str:
    return text_report.render(lint(demo_with(), rulebook(), TODAY))


def test_the_finding_of_the_readme_is_what_is_printed() -> None:
    (entry,), (shown,) = blocks("yaml"), blocks("text")
    assert entry.count("dunlin-650") == 1
    *finding, count = shown.splitlines()
    assert count == "1 error in 1 file. About a rule: kbtools rules KB301"
    said = checked_with(entry.replace("dunlin-650", "dunlin-65")).splitlines()
    # Warnings about the demo, if there are any, are not the entry's.
    start = next(at for at, line in enumerate(said) if FIRST_ENTRY in line)
    assert [line.removeprefix("kb/") for line in finding] == said[start : start + len(finding)]
    assert said[start + len(finding) - 1] == ""


@pytest.mark.parametrize("name", ["README.md", "DEVELOPERS.md", "CHANGELOG.md"])
def test_links_to_files_lead_somewhere(name: str) -> None:
    text = (ROOT / name).read_text("utf-8")
    for target in re.findall(r"\]\((?!https?:)([^)#]+)[^)]*\)", text):
        assert (ROOT / target).exists(), target


def test_files_that_the_documents_name_exist() -> None:
    tops = "kbtools|schemas|site_overrides|tests|kb|[.]ci|[.]github|[.]vscode"
    named = re.findall(rf"`((?:{tops})/[\w./-]*)`", README + DEVELOPERS + ROOMS)
    assert len(named) > 20
    assert [name for name in named if name != f"kb/{FIRST_ENTRY}" and not (ROOT / name).exists()] == []


def test_every_dependency_has_its_reason() -> None:
    project = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["project"]
    wanted = [*project["dependencies"], *project["optional-dependencies"]["test"]]
    names = [re.split(r"[<>=!~ \[;]", each)[0] for each in wanted]
    cells = re.findall(r"^\| (`[^|]*`) \|", DEVELOPERS, re.MULTILINE)
    reasons = {name.lower() for cell in cells for name in re.findall("`([^`]+)`", cell)}
    assert [name for name in names if name.lower() not in reasons] == []


# Schemas, and what an editor makes of them


def test_an_editor_finds_the_schema_of_each_file() -> None:
    for path in sorted(path.relative_to(ROOT).as_posix() for path in KB.rglob("*.yml")):
        fitting = [schema for schema, glob in EDITOR_SCHEMAS.items() if PurePosixPath(path).match(glob)]
        assert fitting == [f"./schemas/{place_of(path.removeprefix('kb/')).kind}.schema.json"], path


def test_an_editor_is_given_every_schema() -> None:
    kinds = {*SINGLE_FILES, "model", "fault", "case"}
    assert set(EDITOR_SCHEMAS) == {f"./schemas/{kind}.schema.json" for kind in (*kinds, "vocabulary")}
    # The front matter of a page stands in Markdown, where no editor asks for a schema.
    others = {"common.schema.json", "page.schema.json", "vocabulary.schema.json"}
    assert set(SCHEMAS) == {f"{kind}.schema.json" for kind in kinds} | others


@pytest.mark.parametrize("name", SCHEMAS)
def test_a_schema_is_one_of_2020_12(name: str) -> None:
    assert SCHEMAS[name]["$schema"] == "https://json-schema.org/draft/2020-12/schema"
    Draft202012Validator.check_schema(SCHEMAS[name])


def target_of(reference: str, document: Document) -> tuple[Document, Document]:
    """What a `$ref` leads to: the part, and the document it is in."""
    name, _, pointer = reference.partition("#")
    document = SCHEMAS[name] if name else document
    part = document
    for key in pointer.strip("/").split("/") if pointer.strip("/") else []:
        part = part[key.replace("~1", "/").replace("~0", "~")]
    return part, document


def told(part: Document, document: Document, path: str, seen: tuple[str, ...] = ()) -> Iterator[tuple[str, bool]]:
    """Each property's path and whether this part of the schema has a word for it.

    Parts that hold under a condition narrow a property that another part explains, so paths are what counts.
    """
    for name, child in part.get("properties", {}).items():
        yield f"{path}/{name}", explained(child, document)
        yield from told(child, document, f"{path}/{name}", seen)
    for key in ("items", "additionalProperties"):
        if isinstance(part.get(key), dict):
            yield from told(part[key], document, f"{path}/*", seen)
    beside = [part[key] for key in ("then", "else") if key in part]
    for child in beside + [each for key in ("allOf", "anyOf", "oneOf") for each in part.get(key, [])]:
        yield from told(child, document, path, seen)
    reference = part.get("$ref")
    if reference is not None and reference not in seen:
        yield from told(*target_of(reference, document), path, (*seen, reference))


def explained(part: Document, document: Document) -> bool:
    if part.get("title") or part.get("description"):
        return True
    return "$ref" in part and explained(*target_of(part["$ref"], document))


@pytest.mark.parametrize("name", [name for name in SCHEMAS if name != "common.schema.json"])
def test_every_key_of_a_schema_explains_itself(name: str) -> None:
    rows = list(told(SCHEMAS[name], SCHEMAS[name], ""))
    assert rows
    assert {path for path, _ in rows} - {path for path, has_words in rows if has_words} == set()


@pytest.mark.parametrize("name", SCHEMAS)
def test_a_schema_shows_how_each_key_is_written_and_what_each_fixed_value_means(name: str) -> None:
    registry: Registry[Any] = Registry().with_resources(
        [(each, Resource.from_contents(schema)) for each, schema in SCHEMAS.items()]
    )
    for at, part in parts(SCHEMAS[name], ""):
        for key, child in part.get("properties", {}).items():
            # A part that narrows another one, which explains the key, has neither words nor examples of its own.
            assert exemplified(child, SCHEMAS[name]) or not explained(child, SCHEMAS[name]), f"{at}/{key}"
        for example in part.get("examples", []):
            Draft202012Validator({"$ref": f"{name}#{at}"}, registry=registry).validate(example)
        # A list that only tells under which condition another part holds stands nowhere in an editor.
        if "enum" in part and "/if/" not in at:
            assert len(part.get("markdownEnumDescriptions", [])) == len(part["enum"]), at
            assert set(part.get("x-also", {})) <= set(part["enum"]), at


def parts(part: Any, at: str) -> Iterator[tuple[str, Document]]:
    """Every part of a schema with its pointer."""
    if isinstance(part, dict):
        yield at, part
        for key, child in part.items():
            if key not in {"examples", "x-also"}:
                yield from parts(child, f"{at}/{key}")
    elif isinstance(part, list):
        for index, child in enumerate(part):
            yield from parts(child, f"{at}/{index}")


def exemplified(part: Document, document: Document) -> bool:
    return "examples" in part or ("$ref" in part and exemplified(*target_of(part["$ref"], document)))


def test_the_editor_that_the_settings_are_for_is_told_of_its_extension() -> None:
    recommended = json.loads((ROOT / ".vscode" / "extensions.json").read_text("utf-8"))["recommendations"]
    # The id in the registry of extensions: publisher, point, name.
    assert all(re.fullmatch(r"[a-z0-9-]+[.][a-z0-9-]+", each) for each in recommended)
    assert recommended


# What is in no file


def own_files() -> list[Path]:
    """Files under version control, and new ones; without git, everything that is not a by-product."""
    listed = subprocess.run(
        ["git", "ls-files", "-z", "--cached", "--others", "--exclude-standard"],
        cwd=ROOT,
        capture_output=True,
        check=False,
    )
    if listed.returncode == 0 and listed.stdout:
        return [path for name in listed.stdout.decode().split("\0") if name and (path := ROOT / name).is_file()]
    by_products = {"__pycache__", "site", "build", "dist", "node_modules"}
    return [
        path
        for path in ROOT.rglob("*")
        if path.is_file()
        and not any(
            part in by_products or (part.startswith(".") and part not in {".ci", ".github", ".vscode"})
            for part in path.relative_to(ROOT).parts[:-1]
        )
    ]


def test_no_file_names_a_place_of_the_machine_it_was_written_on() -> None:
    # Put together here, or this file would be found.
    names = re.compile("|".join([r"(?<![\w.}-])/wor" + "k/", r"\bdesign" + r"\.md\b", r"(?<![\w.}-])/tm" + r"p/w\b"]))
    found = []
    for path in own_files():
        text = path.read_bytes().decode("utf-8", "replace")
        found += [f"{path.relative_to(ROOT)}: {match[0]}" for match in names.finditer(text)]
    assert found == []
