"""The rule reference: each rule with its sample carried out, in the right file, at the right place."""

from __future__ import annotations

from functools import cache

from kbtools.edges.rendering import Renderer
from kbtools.edges.rulebook import explained_rules, rulebook
from kbtools.index.build import build_index
from kbtools.linting.explained import Explained
from kbtools.pages import rule as rule_pages
from kbtools.pages.spec import PageSpec
from kbtools.rules.families import FAMILIES, family_of
from kbtools.rules.samples import with_bad, with_good
from tests.support import factories as make
from tests.support.all_pages import all_pages
from tests.support.page_reader import Article


# Carried out by the worker that runs a test of them, and not by each that only looks for tests.
@cache
def by_address() -> dict[str, PageSpec]:
    return {spec.address: spec for spec in (page.make() for page in rule_pages.pages(explained_rules))}


def with_sample() -> list[Explained]:
    """Each rule that has a sample."""
    return [each for each in explained_rules() if each.rule.sample is not None]


@cache
def article(address: str) -> Article:
    return Article(str(Renderer({*by_address(), ""}).article(by_address()[address])))


def test_every_rule_has_its_page_and_the_list_leads_to_it() -> None:
    assert set(by_address()) == {"rules/", *(f"rules/{rule.code.lower()}/" for rule in rulebook().rules)}
    links = article("rules/").links
    assert {f"{rule.code.lower()}/" for rule in rulebook().rules} <= {link.removeprefix("../rules/") for link in links}


def test_every_rule_is_of_a_family_that_is_told() -> None:
    assert {family_of(rule.code) for rule in rulebook().rules} <= set(FAMILIES.values())


def test_without_rules_there_are_no_pages() -> None:
    assert list(rule_pages.pages(list)) == []


def test_a_page_says_what_why_and_what_the_check_says() -> None:
    for each in with_sample():
        text = article(f"rules/{each.rule.code.lower()}/").text
        for finding in each.findings:
            assert finding.rule == each.rule.code
            place = f"{finding.path}:{finding.mark.line}:{finding.mark.column}: {finding.rule} {finding.severity}:"
            assert place in text
        assert each.findings, each.rule.code
        assert ("A warning:" in text) == (each.rule.severity == "warning"), each.rule.code


def test_an_excerpt_shows_what_stands_in_the_file_and_marks_the_place() -> None:
    for each in with_sample():
        sample = each.rule.sample
        assert sample is not None
        files = {"kb/" + path: data for path, data in with_bad(sample).items()}
        for excerpt in each.bad:
            if excerpt.lines:
                whole = files[excerpt.path].decode(sample.encoding if excerpt.path == f"kb/{sample.path}" else "utf-8")
                assert [line.text for line in excerpt.lines] == [
                    whole.splitlines()[line.number - 1] for line in excerpt.lines
                ], each.rule.code
        for finding in each.findings:
            own = next(excerpt for excerpt in each.bad if excerpt.path == finding.path)
            for line in own.lines:
                if line.number == finding.mark.line and any(meant for _, meant in line.pieces):
                    before = line.text[: finding.mark.column - 1]
                    assert line.pieces[0] == (before, False) or before == "", each.rule.code
            assert not own.lines or finding.mark.line in [line.number for line in own.lines], each.rule.code


def test_what_the_right_one_has_otherwise_is_marked() -> None:
    for each in with_sample():
        sample = each.rule.sample
        assert sample is not None
        (good,) = each.good
        lines = with_good(sample)[good.path.removeprefix("kb/")].decode().splitlines()
        assert [line.text for line in good.lines] == [lines[line.number - 1] for line in good.lines], each.rule.code
        # Either a line differs, or words say what does.
        assert any(line.differs for line in good.lines) or good.note is not None, each.rule.code
        assert len(good.lines) <= 16, each.rule.code


def test_the_difference_does_not_hang_on_colour() -> None:
    wrong, right = article("rules/kb402/").text.split("Right", 1)
    assert "Wrong: parts: [{name: Terminal kit, price: [20, 8]}]" in " ".join(wrong.split())
    assert "Right: parts: [{name: Terminal kit, price: [8, 20]}]" in " ".join(right.split())
    tags = [tag for tag, _ in article("rules/kb402/").tags]
    assert tags.count("mark") == 1
    assert tags.count("ins") == 1


def test_all_pages_take_the_rules_in() -> None:
    base = make.base(make.fault("f"))
    index = build_index(base, make.TODAY)
    addresses = {spec.address for spec in all_pages(index, make.TODAY, explained_rules())}
    assert set(by_address()) <= addresses
