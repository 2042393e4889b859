"""The demonstration's pages fit a phone and a desk in a real browser, and targets can be hit."""

import json
import re
import shutil
import subprocess
from datetime import UTC, datetime
from pathlib import Path

import pytest

from wholeball.usecases.make_pages import make_demo

ROOT = Path(__file__).resolve().parents[1]
CHROMIUM = shutil.which("chromium") or shutil.which("chromium-browser")
PAGES = (
    "index.html",
    "standings-1-round-5.html",
    "standings-2-round-5.html",
    "proof.html",
    "rulebook.html",
    "field.html",
)
MEASURE = """<script>
addEventListener("load", () => {
  const small = [...document.querySelectorAll("nav a, summary, a.button")]
    .filter((one) => one.offsetParent !== null)
    .filter((one) => one.getBoundingClientRect().height < 43.5)
    .map((one) => one.textContent.trim());
  document.title = JSON.stringify({
    over: document.documentElement.scrollWidth - document.documentElement.clientWidth,
    small,
  });
});
</script>"""

pytestmark = pytest.mark.skipif(
    CHROMIUM is None, reason="no chromium on this machine, so no page can be looked at"
)


@pytest.fixture(scope="module")
def demo(tmp_path_factory: pytest.TempPathFactory) -> Path:
    out = tmp_path_factory.mktemp("demo") / "out"
    make_demo(ROOT / "examples", out, printed=datetime(2026, 10, 14, tzinfo=UTC))
    return out


@pytest.mark.parametrize("width", [390, 1280])
@pytest.mark.parametrize("page", PAGES)
def test_a_page_fits_its_width_and_every_target_is_44_high(
    demo: Path, page: str, width: int
) -> None:
    assert _measured(demo / page, width) == {"over": 0, "small": []}


def _measured(page: Path, width: int) -> object:
    """Load a copy of the page in a frame of the width asked for and read what it measured."""
    inner = page.with_name(f"measured-{page.name}")
    inner.write_text(page.read_text().replace("</body>", f"{MEASURE}</body>"))
    outer = page.with_name(f"frame-{width}-{page.name}")
    outer.write_text(
        f'<!doctype html><title>x</title><iframe src="{inner.name}" width="{width}" height="900">'
        "</iframe><script>onload = () => { document.title = "
        "document.querySelector('iframe').contentDocument.title; };</script>"
    )
    dumped = subprocess.run(  # noqa: S603 - the browser of this machine on a page of ours
        [
            str(CHROMIUM),
            "--headless",
            "--no-sandbox",
            "--disable-gpu",
            "--no-first-run",
            "--disable-background-networking",
            "--allow-file-access-from-files",
            f"--user-data-dir={page.parent / 'profile'}",
            "--window-size=1400,1000",
            "--virtual-time-budget=5000",
            "--dump-dom",
            outer.as_uri(),
        ],
        capture_output=True,
        text=True,
        check=True,
    ).stdout
    title = re.search(r"<title>(.*?)</title>", dumped)
    assert title is not None
    return json.loads(title[1])
