"""The curators' page: what is to be done now, what later, and nothing of it acts."""

from __future__ import annotations

import datetime as dt

from kbtools.agenda.compose import agenda
from kbtools.agenda.job import Job
from kbtools.edges.rendering import Renderer
from kbtools.model.base import KnowledgeBase
from kbtools.model.fault import Reviewed
from kbtools.pages.agenda import MOST, pages
from tests.support import factories as make
from tests.support.page_reader import Article


def html_of(base: KnowledgeBase, jobs: tuple[Job, ...]) -> str:
    (spec,) = pages(make.index(base), jobs)
    return make.rendered(spec, Renderer(make.pages(base).keys()))


def job(subject: str, months: int = 0, why: str = "Because.") -> Job:
    return Job(job="review", subject=subject, why=why, minutes=75, path="x.yml", months=months)


def test_a_job_leads_to_its_page_where_there_is_one() -> None:
    late = make.fault("a", reviewed=Reviewed(on=dt.date(2010, 1, 1), by="curator-1", second=None, at="/reviewed"))
    base = make.base(late, make.fault("b", title="Not yet", draft=True))
    article = Article(html_of(base, agenda(base, (), make.TODAY)))
    assert "../faults/a/" in article.links
    assert "../faults/b/" not in article.links
    assert "Read again: Title of a 17 min. The review was due on 2012-01-01." in article.text
    assert "1 job about entries that are not published yet" in article.text
    assert "Not yet" not in article.text
    assert "Finish a draft" not in article.text
    assert article.sections == ["now"]


def test_what_has_time_stands_apart() -> None:
    article = Article(html_of(make.base(), (job("x"), job("y", months=3))))
    assert article.sections == ["now", "later"]
    assert "1 job now, about 1 h 15 min, most useful first; 1 later within a year." in article.text


def test_nothing_to_do_and_far_too_much() -> None:
    assert "Nothing to do." in Article(html_of(make.base(), ())).text
    text = Article(html_of(make.base(), tuple(job(f"x-{number}") for number in range(MOST + 3)))).text
    assert "And 3 others" in text
    assert f"x-{MOST - 1}" in text
    assert f"x-{MOST + 1}" not in text


def test_what_an_author_wrote_does_not_act() -> None:
    html = html_of(make.base(), (job("<img src=x>", why="<script>a</script> [b](javascript:c)"),))
    assert "<img" not in html
    assert "<script" not in html
    assert 'href="javascript' not in html


def test_where_it_is_thin_leads_here() -> None:
    assert "../agenda/" in Article(make.article(make.base(), "coverage/")).links
