"""Templates that are compiled to fewer calls print what Jinja's own environment prints."""

from __future__ import annotations

from dataclasses import dataclass

import pytest
from jinja2 import DictLoader, Environment, StrictUndefined, UndefinedError
from markupsafe import Markup

from kbtools.edges.quick_templates import QuickEnvironment

MACROS = """
{%- macro row(line, mark="-", last=none) -%}
{{ mark }} {{ line.title }}{% if last is not none %} ({{ last }}){% endif %}
{%- endmacro -%}
{%- macro box(title) %}[{{ title }}: {{ caller() }}]{% endmacro -%}
{%- macro all_of() %}{{ varargs | join(", ") }} {{ kwargs.more }}{% endmacro -%}
"""


@dataclass(frozen=True)
class Line:
    """A row."""

    title: str


def shown(value: object) -> object:
    if value is None:
        raise TypeError("nothing to print")
    return value.replace("!", "(!)") if type(value) is str else value


def texts(page: str, **given: object) -> tuple[str, str]:
    """The page by an environment of Jinja's, and by ours."""
    loader = DictLoader({"page": page, "macros": MACROS})
    theirs = Environment(autoescape=True, loader=loader, undefined=StrictUndefined, finalize=shown)
    ours = QuickEnvironment(loader=loader, undefined=StrictUndefined, finalize=shown)
    return theirs.get_template("page").render(given), ours.get_template("page").render(given)


@pytest.mark.parametrize(
    "page",
    [
        '{{ it }} {{ it | upper }} {{ "<b>!" }} {{ 1.5 }} {{ clean }} {{ clean ~ it }} {{ [it] }}',
        "{% for each in lines if each.title %}{{ loop.index }} {{ each.title }}{% else %}none{% endfor %}",
        '{% import "macros" as m %}{% for each in lines %}{{ m.row(each) }}{{ m.row(each, "+", last=it) }}{% endfor %}',
        '{% from "macros" import box %}{% call box(it) %}<i>{{ it }}</i>{% endcall %}',
        '{% import "macros" as m %}{{ m.all_of(it, 2, more=it) }}{{ m.row(*[lines[0], "*"], **{"last": 3}) }}',
        "{% set t = clean.join([it, it]) %}{{ t }}{{ words.first }}{{ words['last'].split('<')[0] }}",
        "{{ call(it, b=clean) }}",
        '{% filter upper %}{{ it }}{% endfilter %}{% include "macros" %}{{ it if words is none else "x" }}',
    ],
)
def test_what_is_printed_is_the_same(page: str) -> None:
    theirs, ours = texts(
        page,
        it="<script>\"'&!",
        clean=Markup("<em>&amp;</em>"),
        lines=[Line("a & b"), Line(""), Line("<c>")],
        words={"first": "<1>", "last": "x<y"},
        call=lambda a, b: a + b,
    )
    assert ours == theirs


@pytest.mark.parametrize("page", ["{{ gone }}", "{{ it.gone }}", "{{ gone() }}", "{{ row(1) }}{{ it.gone.more }}"])
def test_what_is_not_there_is_an_error(page: str) -> None:
    loader = DictLoader({"page": page})
    template = QuickEnvironment(loader=loader, undefined=StrictUndefined, finalize=shown).get_template("page")
    with pytest.raises(UndefinedError):
        template.render(it="x", row=str)


@pytest.mark.parametrize("page", ["{{ it }}", '{% import "macros" as m %}{{ m.row(line, it) }}'])
def test_what_must_not_be_printed_is_not_printed(page: str) -> None:
    loader = DictLoader({"page": page, "macros": MACROS})
    ours = QuickEnvironment(loader=loader, undefined=StrictUndefined, finalize=shown)
    with pytest.raises(TypeError, match="nothing to print"):
        ours.get_template("page").render(it=None, line=Line("a"))


@pytest.mark.parametrize("call", ["row(line, '-', none, 1)", "row(line, none, other=1)"])
def test_a_macro_is_not_called_with_what_it_does_not_take(call: str) -> None:
    loader = DictLoader({"page": f'{{% from "macros" import row %}}{{{{ {call} }}}}', "macros": MACROS})
    ours = QuickEnvironment(loader=loader, undefined=StrictUndefined, finalize=shown)
    with pytest.raises(TypeError, match="takes n"):
        ours.get_template("page").render(line=Line("a"))
