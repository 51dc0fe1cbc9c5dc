"""The open data: held to their own schemas by `jsonschema`, to the files by PyYAML, and to what v1 promised."""

from __future__ import annotations

import contextlib
import copy
import datetime as dt
import hashlib
import io
import json
import shutil
import subprocess
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any

import pytest
import yaml
from click.testing import CliRunner
from jsonschema import Draft202012Validator

from kbtools.cli import main
from kbtools.edges.shipped import schema_files
from kbtools.export.files import INDEX, api_schemas, export_files
from kbtools.export.json_text import json_line, lists
from kbtools.model.base import KnowledgeBase
from kbtools.pages import data
from tests.support import factories as make
from tests.support.api_shape import breaches, shape
from tests.support.demo_plans import demo_index
from tests.support.hostile_texts import STRINGS
from tests.support.places import DEMO, TESTS

TODAY = dt.date(2026, 6, 1)
SCHEMAS = schema_files()
PROMISED = TESTS / "snapshots" / "api-v1.json"
"""What v1 promises. Who adds keys adds them here; nobody takes any away."""
FAULT = "voltage-sags-when-wet"


def exported(base: KnowledgeBase) -> dict[str, Any]:
    """Path of each JSON file of a base → what it says."""
    files = export_files(make.index(base), TODAY, SCHEMAS)
    return {path: json.loads(content) for path, content in files.items() if path.endswith(".json")}


@pytest.fixture(scope="module")
def files() -> Mapping[str, bytes]:
    return export_files(demo_index(), TODAY, SCHEMAS)


@pytest.fixture(scope="module")
def found(files: Mapping[str, bytes]) -> Mapping[str, Any]:
    return {path: json.loads(content) for path, content in files.items() if path.endswith(".json")}


def wrong(files: Mapping[str, Any]) -> Iterator[str]:
    """Where data go against the schemas that are published beside them."""
    for path, content in files.items():
        if path.startswith("api/v1/") and "/schema/" not in path:
            name = "fault" if "/faults/" in path else path.rpartition("/")[2].partition(".")[0].partition("-")[0]
            schema = files[f"api/v1/schema/{name}.schema.json"]
            for error in Draft202012Validator(schema).iter_errors(content):
                yield f"{path}{error.json_path}: {error.message[:200]}"


def references(value: Any) -> Iterator[str]:
    if isinstance(value, dict):
        if isinstance(value.get("$ref"), str):
            yield value["$ref"]
        for each in value.values():
            yield from references(each)
    elif isinstance(value, list):
        for each in value:
            yield from references(each)


def test_data_are_what_their_schemas_say(found: Mapping[str, Any]) -> None:
    assert list(wrong(found)) == []


def test_each_schema_is_sound_and_complete_in_itself_and_lets_keys_be_added() -> None:
    for name, schema in api_schemas(SCHEMAS).items():
        Draft202012Validator.check_schema(schema)
        assert all(each.startswith("#/") for each in references(schema)), name
        assert '"additionalProperties": false' not in json.dumps(schema), name


def test_the_index_names_every_other_file_with_its_size_and_digest(files: Mapping[str, bytes]) -> None:
    index = json.loads(files[INDEX])
    assert (index["version"], index["licence"], index["day"]) == (1, "CC-BY-4.0", "2026-06-01")
    told = {row["path"]: (row["bytes"], row["sha256"]) for row in index["files"]}
    assert told == {
        path: (len(content), hashlib.sha256(content).hexdigest()) for path, content in files.items() if path != INDEX
    }
    counts = {row["path"]: row["count"] for row in index["files"]}
    assert counts["api/v1/cases.json"] == counts["api/v1/cases.csv"] == len(list(DEMO.glob("cases/*/*.yml")))
    assert counts["api/v1/models.json"] == len(list(DEMO.glob("models/*.yml")))


def test_an_entry_says_what_its_file_says(found: Mapping[str, Any]) -> None:
    """PyYAML reads the file; a day is written as ISO 8601 has it."""
    (path,) = DEMO.glob(f"faults/*/{FAULT}.yml")
    written = json.loads(json.dumps(yaml.safe_load(path.read_text("utf-8")), default=str))
    told = found[f"api/v1/faults/{FAULT}.json"]
    assert {key: told[key] for key in ("title", "system", "symptoms", "ride_advice", "codes", "sources")} == {
        key: written[key] for key in ("title", "system", "symptoms", "ride_advice", "codes", "sources")
    }
    assert [each["id"] for each in told["causes"]] == [each["id"] for each in written["causes"]]
    assert sum(each["share"] for each in told["shares"]) == pytest.approx(1)
    case = next(DEMO.glob("cases/*/*.yml"))
    row = next(each for each in found["api/v1/cases.json"]["items"] if each["id"] == case.stem)
    written = json.loads(json.dumps(yaml.safe_load(case.read_text("utf-8")), default=str))
    assert {key: row.get(key) for key in ("vehicle", "seen", "outcome")} == {
        key: written.get(key) for key in ("vehicle", "seen", "outcome")
    }


def test_the_plan_is_the_one_that_the_command_prints(found: Mapping[str, Any]) -> None:
    done = CliRunner().invoke(main, ["plan", FAULT, "--kb", str(DEMO), "--format", "json"])
    assert found[f"api/v1/faults/{FAULT}.json"]["plan"] == json.loads(done.stdout)


def test_what_is_withdrawn_or_renamed_or_not_published_yet() -> None:
    kept = make.fault("kept", formerly=("once", "before"))
    gone = make.fault("gone", withdrawn=make.withdrawn(replaced_by="kept"))
    to_secret = make.fault("away", withdrawn=make.withdrawn(replaced_by="secret"))
    secret = make.fault("secret", draft=True)
    told = make.case("c1", "secret", outcome={"state": "solved", "cause": "worn", "note": "Mended."})
    base = make.base(kept, gone, to_secret, secret, cases=[told, make.case("c2", "once")])
    found = exported(base)
    assert list(wrong(found)) == []
    ended = {"on": "2026-05-01", "reason": "Folded."}
    tombstone = {"id": "gone", "title": "Title of gone", "withdrawn": {**ended, "replaced_by": "kept"}}
    items = found["api/v1/faults.json"]["items"]
    assert [each["id"] for each in items] == ["kept", "gone", "away"]
    assert items[1:] == [tombstone, {"id": "away", "title": "Title of away", "withdrawn": ended}]
    assert found["api/v1/faults/gone.json"] == tombstone
    assert items[0]["formerly"] == ["once", "before"]
    assert found["api/v1/faults/once.json"] == {"id": "once", "title": "Title of kept", "now": "kept"}
    cases = {each["id"]: each for each in found["api/v1/cases.json"]["items"]}
    assert cases["c2"]["fault"] == "kept"
    assert cases["c1"]["outcome"] == {"state": "solved", "note": "Mended."}
    assert "secret" not in json.dumps({path: content for path, content in found.items() if "schema" not in path})


def test_a_base_of_nothing_has_its_lists() -> None:
    found = exported(make.base())
    assert list(wrong(found)) == []
    assert {found[f"api/v1/{name}.json"]["items"].__len__() for name in ("faults", "cases", "codes", "checks")} == {0}


def test_without_an_address_of_the_site_the_examples_say_what_stands_for_it() -> None:
    (page,) = data.pages(make.index(make.base()))
    assert page.context["somewhere"] == data.SOMEWHERE
    offered: Any = page.context["files"]
    assert all(data.SOMEWHERE in each.python and data.SOMEWHERE in each.line for each in offered)


def test_every_text_comes_back_as_it_was_written() -> None:
    faults = [
        make.fault(f"f{number}", title=text, symptoms=(text,), causes=(make.cause(summary=text),))
        for number, text in enumerate(STRINGS.values())
    ]
    files = export_files(make.index(make.base(*faults)), TODAY, SCHEMAS)
    items = json.loads(files["api/v1/faults.json"])["items"]
    assert [each["title"] for each in items] == list(STRINGS.values())
    # Whoever looks at the file in a terminal or a job's log is not told to do anything.
    assert not set(files["api/v1/faults.json"].decode()) & set("\x1b\x07\u202e\u2028")


def test_a_long_list_goes_on_in_other_files() -> None:
    rows = [{"id": f"row-{number}", "text": "ü" * number} for number in range(40)]
    made = dict(lists("rows.json", map(json_line, rows), most=500))
    assert len(made) > 3
    assert all(len(each.content) < 600 for each in made.values())
    name, back = "rows.json", []
    while name is not None:
        part = json.loads(made.pop(name).content)
        back += part["items"]
        name = part.get("next")
    assert (back, made) == (rows, {})


def test_v1_keeps_what_it_promised() -> None:
    promised = json.loads(PROMISED.read_text("utf-8"))
    now = {name: shape(schema) for name, schema in api_schemas(SCHEMAS).items()}
    assert {name: breaches(before, now.get(name, {})) for name, before in promised.items()} == {
        name: [] for name in promised
    }
    assert set(promised) == set(now)


@pytest.mark.parametrize(
    ("pointer", "key", "change", "expected"),
    [
        ("properties/items/items", "id", lambda _: None, ["[].id is gone"]),
        ("properties/items/items/properties/vehicle", "odometer", lambda _: None, ["odometer is gone"]),
        ("properties/items/items", "seen", lambda old: {**old, "type": "integer"}, ["is integer"]),
        ("properties/items/items/properties/outcome", "note", lambda old: {"type": ["string", "null"]}, ["null"]),
    ],
)
def test_a_breach_of_the_promise_is_noticed(pointer: str, key: str, change: Any, expected: list[str]) -> None:
    before = api_schemas(SCHEMAS)["cases"]
    now = copy.deepcopy(before)
    place = now
    for step in pointer.split("/"):
        place = place[step]
    new = change(place["properties"].pop(key))
    if new is not None:
        place["properties"][key] = new
    said = breaches(shape(before), shape(now))
    assert all(any(word in each for each in said) for word in expected)


def test_adding_is_no_breach_and_making_optional_is_one() -> None:
    before = api_schemas(SCHEMAS)["models"]
    now = copy.deepcopy(before)
    now["properties"]["items"]["items"]["properties"]["colour"] = {"type": "string"}
    assert breaches(shape(before), shape(now)) == []
    now["properties"]["items"]["items"]["required"].remove("name")
    assert len(breaches(shape(before), shape(now))) == 1


def test_every_example_on_the_page_runs(files: Mapping[str, bytes], tmp_path: Path) -> None:
    """Python as it stands on the page; `curl` and `jq` where this machine has them. A file stands for the host."""
    for path, content in files.items():
        (tmp_path / path).parent.mkdir(parents=True, exist_ok=True)
        (tmp_path / path).write_bytes(content)
    index = demo_index()
    (page,) = data.pages(index)
    site, here = index.club.site_url or "", f"{tmp_path.as_uri()}/"
    offered: Any = page.context["files"]
    assert {each.path for each in offered if each.path not in files} == set()
    for each in offered:
        assert each.python.count("\n") == 2
        said = io.StringIO()
        with contextlib.redirect_stdout(said):
            exec(each.python.replace(site, here), {})
        assert said.getvalue().strip() not in {"", "[]", "{}"}, each.id
        if shutil.which("curl") and shutil.which("jq"):
            command = ["sh", "-c", each.line.replace(site, here)]
            done = subprocess.run(command, capture_output=True, text=True, check=True)
            assert done.stdout.strip() != "", each.id
