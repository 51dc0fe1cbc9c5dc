"""A Markdown extension that never ends at a page which asks for it."""

from __future__ import annotations

from markdown import Markdown
from markdown.extensions import Extension
from markdown.preprocessors import Preprocessor


class _Endless(Preprocessor):
    def run(self, lines: list[str]) -> list[str]:
        while "THIS NEVER ENDS" in lines:
            pass
        return lines


class _Extension(Extension):
    def extendMarkdown(self, md: Markdown) -> None:  # noqa: N802 (their name)
        md.preprocessors.register(_Endless(md), "endless", 1)


def makeExtension() -> Extension:  # noqa: N802 (their name)
    """What Markdown asks an extension's module for."""
    return _Extension()
