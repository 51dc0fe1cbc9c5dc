"""Templates that a process has compiled: an edit counts, and nothing is compiled twice."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from jinja2 import Environment, FileSystemLoader

from kbtools.edges.compiled import CompiledTemplates


def printed(folder: Path, known: CompiledTemplates) -> str:
    """What the template says in an environment of its own, as each build has one."""
    return Environment(loader=FileSystemLoader(folder), bytecode_cache=known).get_template("page.html").render(it="it")


def test_another_environment_compiles_what_was_edited_alone(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    compiled = []
    own = Environment.compile

    def noted(self: Environment, source: Any, *args: Any, **kwargs: Any) -> Any:
        compiled.append(source)
        return own(self, source, *args, **kwargs)

    monkeypatch.setattr(Environment, "compile", noted)
    known, texts = CompiledTemplates(), ["before {{ it }}", "after {{ it }}"]
    for text in texts:
        (tmp_path / "page.html").write_text(text, encoding="utf-8")
        assert [printed(tmp_path, known) for _ in range(2)] == [text.replace("{{ it }}", "it")] * 2
    assert compiled == texts


def test_templates_of_one_name_in_two_folders_are_two(tmp_path: Path) -> None:
    known = CompiledTemplates()
    for name in ("one", "other"):
        (tmp_path / name).mkdir()
        (tmp_path / name / "page.html").write_text(f"{name} {{{{ it }}}}", encoding="utf-8")
    assert [printed(tmp_path / name, known) for name in ("one", "other", "one")] == ["one it", "other it", "one it"]
