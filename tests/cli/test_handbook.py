"""`kbtools handbook`: whole or not at all, from a sound base alone, and what it says where something is missing."""

from __future__ import annotations

import os
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from kbtools.cli import main
from kbtools.edges.paper import PrintError, printed
from kbtools.rules import samples
from tests.support.patience import eventually
from tests.support.sample_base import in_folder

WHOLE = "%PDF-1.4\n1 0 obj <</Type /Pages>>\n2 0 obj <</Type /Page>>\n3 0 obj <</Type/Page >>\n%%EOF\n"
"""As much of a PDF as is looked at: two sheets (ISO 32000-1, 7.7.3)."""
MODEL = next(name.removeprefix("models/").removesuffix(".yml") for name in samples.FILES if name.startswith("models/"))

pytestmark = pytest.mark.skipif(os.name == "nt", reason="the browser of the tests is a shell script")


@pytest.fixture(name="folder")
def base_folder(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    return in_folder(tmp_path, monkeypatch)


def browser(folder: Path, monkeypatch: pytest.MonkeyPatch, leaves: str, *, status: int = 0) -> None:
    """A browser that leaves this in the place of a PDF, and the page and its arguments beside it."""
    path = folder / "bin" / "chromium"
    path.parent.mkdir()
    (folder / "leaves").write_text(leaves)
    path.write_text(
        f"""#!/bin/sh
for each; do
  case "$each" in
    --print-to-pdf=*) cp "{folder}/leaves" "${{each#--print-to-pdf=}}" ;;
    file://*) cp "${{each#file://}}" "{folder}/page.html" ;;
  esac
done
echo "$@" > "{folder}/arguments"
exit {status}
"""
    )
    path.chmod(0o755)
    monkeypatch.setenv("PATH", f"{path.parent}{os.pathsep}{os.environ['PATH']}")


def run(*arguments: str) -> Result:
    return CliRunner().invoke(main, ["handbook", *arguments])


def test_what_is_printed_stands_alone_and_fetches_nothing(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    browser(folder, monkeypatch, WHOLE)
    (folder / "book.pdf").write_text("an older one")
    result = run(MODEL, "-o", "book.pdf")
    assert result.exit_code == 0, result.output
    assert "book.pdf: 2 sheets" in result.output
    assert (folder / "book.pdf").read_text() == WHOLE
    page = (folder / "page.html").read_text("utf-8")
    assert "default-src 'none'" in page
    assert 'class="card"' in page
    # Nothing of it leads into the folder where it was printed.
    assert 'href="../' not in page
    assert "src=" not in page.replace("data-src", "")
    assert "MAP * ~NOTFOUND" in (folder / "arguments").read_text()
    assert sorted(each.name for each in folder.glob("*.pdf*")) == ["book.pdf"]


@pytest.mark.parametrize(
    ("leaves", "status", "said"), [(WHOLE[:-8], 0, "no whole PDF"), ("", 0, "no whole PDF"), (WHOLE, 3, "ended with 3")]
)
def test_what_is_not_whole_replaces_nothing(
    leaves: str, status: int, said: str, folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    browser(folder, monkeypatch, leaves, status=status)
    (folder / "book.pdf").write_text("an older one")
    result = run(MODEL, "-o", "book.pdf")
    assert result.exit_code == 1
    assert said in result.output
    assert (folder / "book.pdf").read_text() == "an older one"


def test_a_browser_that_does_not_end_is_ended(tmp_path: Path) -> None:
    path = tmp_path / "chromium"
    path.write_text(f'#!/bin/sh\nsleep 1000 &\necho $! > "{tmp_path}/child"\nwait\n')
    path.chmod(0o755)
    with pytest.raises(PrintError, match="did not end"):
        printed(b"", [str(path)], patience=3)
    child = int((tmp_path / "child").read_text())

    def ended() -> bool:
        try:
            return Path(f"/proc/{child}/stat").read_text().split()[2] == "Z"
        except (FileNotFoundError, ProcessLookupError):
            return True

    # It is told to end at once, and does so when it is its turn.
    eventually(ended)


def test_what_is_missing_is_named(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    result = run(f"{MODEL}x", "-o", "book.pdf")
    assert result.exit_code == 2
    assert f'Did you mean "{MODEL}"?' in result.output
    result = run(MODEL, "--year", "1907", "-o", "book.pdf")
    assert result.exit_code == 2
    assert "was not built in 1907" in result.output
    monkeypatch.setenv("PATH", str(folder))
    result = run(MODEL, "-o", "book.pdf")
    assert result.exit_code == 1
    assert "none of chromium, chromium-browser" in result.output
    assert not (folder / "book.pdf").exists()


def test_of_a_base_with_errors_nothing_is_printed(folder: Path) -> None:
    (folder / "kb" / "models" / f"{MODEL}.yml").write_text("name: [", "utf-8")
    result = run(MODEL, "-o", "book.pdf")
    assert result.exit_code == 1
    assert "Nothing was printed." in result.output
