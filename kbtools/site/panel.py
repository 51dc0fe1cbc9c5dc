"""What the live server adds to pages: the findings panel, its styles, and the script that keeps the page up to date.

The site's pages allow scripts and styles from their own server only, and none inline; so the page gets links, no code.
"""

from __future__ import annotations

import html
import re
import urllib.parse
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from kbtools.diagnostics import Finding
from kbtools.wording import addresses

SHOWN_AT_MOST = 50
"""Findings in the panel; the command line has them all."""

_CONTROLS = re.compile(r"[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\ud800-\udfff]")
"""Characters that HTML does not allow, or that UTF-8 cannot carry."""
_CODE = re.compile(r"KB[0-9]{3}")
"""A rule of the checker; MkDocs' own complaints have none."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Trouble:
    """Why the last build did not come about."""

    findings: Sequence[Finding] = ()
    """Errors only, in the order in which they are shown."""
    crash: str = ""
    """What a build that broke down said for itself, plain text; empty if it did not."""

    @property
    def heading(self) -> str:
        """One line, plain text."""
        if self.crash:
            return "Not rebuilt: the build broke down"
        return f"Not rebuilt: {len(self.findings)} {'error' if len(self.findings) == 1 else 'errors'}"


def overlay(trouble: Trouble | None, *, mount_path: str, gone: bool = False) -> str:
    """The panel to put on top of a page, as HTML; empty where there is nothing to say.

    Args:
        trouble: why the last build did not come about; None: it did.
        mount_path: where the site begins.
        gone: whether no page stands any more where one stood.
    """
    parts = []
    if gone:
        parts.append(
            "<p><b>No page stands here any more.</b> Its file was deleted or renamed, or it became a draft. "
            f'<a href="{html.escape(urllib.parse.quote(mount_path))}">To the home page</a></p>'
        )
    if trouble is not None:
        parts.append(
            f"<details open><summary>{_text(trouble.heading)}</summary>"
            "<p>This page is the last good one. The site is built again as soon as you save.</p>"
            f"{_items(trouble, rules=f'{mount_path}{addresses.RULES}')}</details>"
        )
    inner = "".join(parts)
    return f'<aside class="kbtools-panel" aria-label="Findings of the last build">{inner}</aside>' if inner else ""


def stand_in(trouble: Trouble | None, *, mount_path: str) -> str:
    """A whole page for as long as no site was ever built."""
    if trouble is None:
        title, inner = "The site is being built", "<p>This page reloads by itself when it is ready.</p>"
    else:
        title = trouble.heading
        inner = f"<p>There is no site yet. It is built as soon as you save.</p>{_items(trouble)}"
    return plain_page(title, f'<div class="kbtools-panel-page">{inner}</div>', mount_path=mount_path)


def plain_page(title: str, inner: str, *, mount_path: str) -> str:
    """A page of the server's own; `title` is plain text, `inner` HTML."""
    return (
        '<!doctype html><html lang="en"><head><meta charset="utf-8">'
        '<meta name="viewport" content="width=device-width, initial-scale=1">'
        f'<title>{_text(title)}</title><link rel="stylesheet" href="{_address(mount_path, "panel.css")}"></head>'
        f"<body><main><h1>{_text(title)}</h1>{inner}</main></body></html>"
    )


def page_script(*, mount_path: str, page: str, panel: str, since: int) -> str:
    """The panel's styles, and the script that loads a page anew once the server has another one.

    Args:
        mount_path: where the site begins.
        page: digest of what the page shows.
        panel: digest of the panel on it.
        since: moment in which it was given away.
    """
    styles, script = _address(mount_path, "panel.css"), _address(mount_path, "client.js")
    return (
        f'<link rel="stylesheet" href="{styles}">'
        f'<script src="{script}" data-page="{page}" data-panel="{panel}" data-since="{since}"></script>'
    )


def add_to_body(page: bytes, addition: str) -> bytes:
    """`page` with `addition` at the end of its body."""
    end = page.lower().rfind(b"</body>")
    end = len(page) if end < 0 else end
    return page[:end] + addition.encode() + page[end:]


def _address(mount_path: str, name: str) -> str:
    return html.escape(urllib.parse.quote(f"{mount_path}livereload/{name}"))


def _items(trouble: Trouble, *, rules: str | None = None) -> str:
    """The findings as a list; `rules` is the address of the rule reference, where there is one."""
    items = [_item(finding, rules) for finding in trouble.findings[:SHOWN_AT_MOST]]
    if trouble.crash:
        items.append(f"<li><pre>{_text(trouble.crash)}</pre><p>The terminal shows where it happened.</p></li>")
    left = len(trouble.findings) - SHOWN_AT_MOST
    more = f"<p>And {left} more: run <code>kbtools check</code>.</p>" if left > 0 else ""
    return f"<ol>{''.join(items)}</ol>{more}"


def _item(finding: Finding, rules: str | None) -> str:
    rule = _text(finding.rule)
    if rules is not None and _CODE.fullmatch(finding.rule):
        rule = f'<a href="{html.escape(urllib.parse.quote(f"{rules}{finding.rule.lower()}/"))}">{rule}</a>'
    place = f"{finding.path}:{finding.mark.line}:{finding.mark.column}"
    return (
        f"<li><code><bdi>{_text(place)}</bdi></code> <b>{rule}</b> "
        f"<bdi>{_text(finding.message)}</bdi><p><bdi>{_text(finding.hint)}</bdi></p></li>"
    )


def _text(text: str) -> str:
    return html.escape(_CONTROLS.sub("\ufffd", text))


STYLES = """\
.kbtools-panel { position: fixed; inset: auto 0 0 0; z-index: 1000; box-sizing: border-box; max-height: 45vh;
  overflow: auto; padding: 8px 16px; border-top: 4px solid #a3151b; background: #fff4f1; color: #1b1b1b;
  font: 16px/1.45 system-ui, sans-serif; text-align: start; overflow-wrap: anywhere; }
.kbtools-panel summary { cursor: pointer; font-weight: bold; color: #a3151b; padding: 4px 0; }
.kbtools-panel p, .kbtools-panel-page p { margin: 4px 0 8px; }
.kbtools-panel ol, .kbtools-panel-page ol { margin: 4px 0; padding-inline-start: 32px; }
.kbtools-panel code, .kbtools-panel pre, .kbtools-panel-page pre { color: inherit; background: none; font-size: 15px;
  white-space: pre-wrap; margin: 0; padding: 0; }
.kbtools-panel a { color: #0b4a63; text-decoration: underline; }
.kbtools-panel-page { font: 16px/1.45 system-ui, sans-serif; overflow-wrap: anywhere; }
main:has(> .kbtools-panel-page) { max-width: 50rem; margin: 0 auto; padding: 0 16px;
  font-family: system-ui, sans-serif; }
@media print { .kbtools-panel { display: none; } }
"""

CLIENT = Path(__file__).with_name("live_client.js").read_text(encoding="utf-8")
"""The script of `page_script`."""
