"""Parts of the frame that many pages have alike, rendered once: the header, the foot, the lists of styles and scripts.

Nobody says by hand what such a part depends on: while it is rendered it is noted what it asks the frame, and it is used
again on every page whose frame gives the same answers.
"""

from __future__ import annotations

from collections.abc import Hashable
from typing import Any, Final

from jinja2 import pass_context
from jinja2.runtime import Context
from markupsafe import Markup

NAME: Final = "part"
"""What templates call it by: `{{ part("partials/header.html") }}`."""


class _Noting:
    """Answers as what stands behind it does, and notes what it is asked."""

    def __init__(self, behind: object) -> None:
        self._behind = behind
        self._asked: dict[str, Any] = {}

    def __getattr__(self, name: str) -> Any:
        value = self._asked[name] = getattr(self._behind, name)
        return value

    def _told(self) -> dict[str, Any]:
        return self._asked


@pass_context
def whole(context: Context, name: str) -> Markup:
    """A template in its place on a page, as `include` puts it there: for the few pages that MkDocs makes."""
    return _rendered(context, name, {})


def _rendered(context: Context, name: str, instead: dict[str, Any]) -> Markup:
    template = context.environment.get_template(name)
    return Markup(template.render({**context.get_all(), **instead}))  # noqa: S704 (escaped by the environment)


class Fragments:
    """The parts of the generated pages of one build."""

    def __init__(self) -> None:
        self._known: dict[str, dict[tuple[str, ...], dict[tuple[Hashable, ...], Markup]]] = {}

    @pass_context
    def part(self, context: Context, name: str) -> Markup:
        """The same, taken from another page where that one's frame says the same."""
        shell = context["shell"]
        variants = self._known.setdefault(name, {})
        for asked, known in variants.items():
            found = known.get(tuple([getattr(shell, each) for each in asked]))
            if found is not None:
                return found
        frame, page = _Noting(shell), _Noting(context["page"])
        made = _rendered(context, name, {"shell": frame, "page": page})
        told = frame._told()
        if not page._told():
            variants.setdefault(tuple(told), {})[tuple(told.values())] = made
        return made
