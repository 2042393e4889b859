"""Loads a page in a real browser of this machine and reads what it measures."""

import json
import re
import shutil
import subprocess
from pathlib import Path
from typing import Final

CHROMIUM: Final = shutil.which("chromium") or shutil.which("chromium-browser")
_MEASURE: Final = """<script>
addEventListener("load", () => {
  const small = [...document.querySelectorAll("a:not(.skip), summary")]
    .filter((one) => one.offsetParent !== null)
    .filter((one) => one.getBoundingClientRect().height < 43.5)
    .map((one) => one.textContent.trim());
  document.title = JSON.stringify({
    over: document.documentElement.scrollWidth - document.documentElement.clientWidth,
    small,
  });
});
</script>"""


def measured(page: Path, width: int) -> object:
    """Load a copy of the page in a frame of the width asked for and read what it measured."""
    inner = page.with_name(f"measured-{page.name}")
    inner.write_text(page.read_text().replace("</body>", f"{_MEASURE}</body>"))
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
