"""The sample base in a folder of its own, for commands that are tried there."""

from __future__ import annotations

import os
from collections.abc import Mapping
from pathlib import Path

import pytest

from kbtools.rules import samples


def in_folder(folder: Path, monkeypatch: pytest.MonkeyPatch, files: Mapping[str, str] = samples.FILES) -> Path:
    """Write the files into `kb` and make the folder the current directory; nothing of the repository around it counts.

    Today is the day that the samples are about.
    """
    for name in ("GIT_DIR", "GIT_INDEX_FILE", "GIT_WORK_TREE"):
        monkeypatch.delenv(name, raising=False)
    monkeypatch.setenv("GIT_CONFIG_GLOBAL", os.devnull)
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "1780300800")
    monkeypatch.chdir(folder)
    for name, text in files.items():
        path = folder / "kb" / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, "utf-8")
    return folder
