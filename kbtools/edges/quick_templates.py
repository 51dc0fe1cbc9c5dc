"""Jinja templates compiled to fewer calls: what they print is the same.

Jinja asks at each call of a function whether it wants to be told of the template, at each value of an escaping
environment three functions, and at each use of a template whether its file has changed. On a large site that is most
of the time that templates take. Here a function is called as it stands, a value is written by one function, and a
template is read once for each environment.
"""

from __future__ import annotations

from collections.abc import Callable, MutableMapping
from functools import lru_cache
from typing import Any, Final

from jinja2 import Environment, Template, nodes
from jinja2.compiler import CodeGenerator, Frame, MacroRef, optimizeconst
from jinja2.runtime import Macro
from jinja2.utils import missing
from markupsafe import Markup, escape

_MOST_TEXTS: Final = 30_000
"""Escaped texts that are kept: titles and addresses stand on many pages."""


class _Generator(CodeGenerator):
    """Writes the Python code of a template. Only what is escaped, and in no loop of its own making, comes here."""

    def write_commons(self) -> None:
        super().write_commons()
        self.writeline("written = environment.written")

    def _output_child_pre(self, node: nodes.Expr, frame: Frame, finalize: Any) -> None:  # noqa: ARG002 (as Jinja has it)
        self.write("written(")

    def _output_child_post(self, node: nodes.Expr, frame: Frame, finalize: Any) -> None:  # noqa: ARG002
        self.write(")")

    @optimizeconst
    def visit_Call(self, node: nodes.Call, frame: Frame, forward_caller: bool = False) -> None:  # noqa: N802
        if forward_caller or node.dyn_args is not None or node.dyn_kwargs is not None:
            super().visit_Call(node, frame, forward_caller=forward_caller)
            return
        self.visit(node.node, frame)
        self.write("(")
        for each in (*node.args, *node.kwargs):
            self.visit(each, frame)
            self.write(", ")
        self.write(")")

    def visit_Test(self, node: nodes.Test, frame: Frame) -> None:  # noqa: N802
        if node.name != "none":
            super().visit_Test(node, frame)
            return
        self.write("(")
        self.visit(node.node, frame)
        self.write(" is None)")

    def macro_def(self, macro_ref: MacroRef, frame: Frame) -> None:
        self.write("environment.")
        super().macro_def(macro_ref, frame)


class _Macro(Macro):
    """A macro; one that takes neither a block nor more than it names is called without a detour."""

    def __init__(self, *args: Any) -> None:
        super().__init__(*args)
        self._plain = not (self.caller or self.catch_kwargs or self.catch_varargs)

    def __call__(self, *args: Any, **kwargs: Any) -> str:
        left = self._argument_count - len(args)
        if kwargs or left < 0 or not self._plain:
            return super().__call__(*args, **kwargs)
        return str.__new__(Markup, self._func(*args, *(missing,) * left))


class QuickEnvironment(Environment):
    """An environment that escapes everything, for templates whose functions need not be told who calls them.

    None of its globals may want the context (`jinja2.pass_context` and the like); a filter may.
    """

    code_generator_class = _Generator
    Macro = _Macro
    """What generated code calls for each macro, by the name that Jinja gives it."""

    def __init__(self, *, finalize: Callable[[object], object], **options: Any) -> None:
        """`finalize` as of any environment: what to print for a value; `options` likewise."""
        super().__init__(autoescape=True, auto_reload=False, finalize=finalize, **options)
        self._templates: dict[str, Template] = {}

        @lru_cache(maxsize=_MOST_TEXTS)
        def text(value: str) -> str:
            return str(escape(finalize(value)))

        def written(value: object) -> str:
            kind = type(value)
            if kind is Markup:
                return value  # type: ignore[return-value]
            return text(value) if kind is str else str(escape(finalize(value)))

        self.written = written
        """What stands on the page for a value."""

    def make_globals(self, d: MutableMapping[str, Any] | None) -> MutableMapping[str, Any]:
        """As of any environment; Jinja goes through them for each page, which a chain of mappings makes slow."""
        return self.globals if not d else {**self.globals, **d}

    def get_template(
        self,
        name: str | Template,
        parent: str | None = None,
        globals: MutableMapping[str, Any] | None = None,  # noqa: A002 (as Jinja has it)
    ) -> Template:
        """As of any environment; each is looked for once."""
        if not isinstance(name, str) or globals is not None:
            return super().get_template(name, parent, globals)
        known = self._templates.get(name)
        if known is None:
            known = self._templates[name] = super().get_template(name, parent)
        return known
