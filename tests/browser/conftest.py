"""Gives tests a browser, and the site served on a port of its own from an empty database."""

from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Final

import pytest
from playwright.sync_api import Browser, Page, expect, sync_playwright

from browser.looking import PHONE, WATCH
from cases.served_site import Served, begun, served

CHROMIUM: Final = Path("/usr/bin/chromium")
MISSING: Final = (
    f"there is no {CHROMIUM}: install it (Debian: apt-get install chromium), and the browser"
    " tests run"
)
PATIENCE: Final = 30_000
"""Milliseconds until something is not there, on a machine that has other work."""

expect.set_options(timeout=PATIENCE)


@pytest.fixture(scope="module")
def browser() -> Iterator[Browser]:
    """The system's Chromium, without a window."""
    if not CHROMIUM.exists():
        pytest.skip(MISSING)
    with sync_playwright() as tools:
        opened = tools.chromium.launch(
            executable_path=CHROMIUM,
            args=["--no-sandbox", "--disable-gpu", "--disable-background-networking"],
        )
        yield opened
        opened.close()


@pytest.fixture(scope="module")
def site(browser: Browser, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Served]:
    """The site, served from an empty database for the tests of one file."""
    assert browser.is_connected()
    with served(begun(tmp_path_factory.mktemp("site") / "data")) as running:
        yield running


@pytest.fixture
def page(browser: Browser) -> Iterator[Page]:
    """A page in a context of its own, as wide as a phone; it notes what it refuses."""
    with _opened(browser) as opened:
        yield opened


@pytest.fixture(scope="module")
def turned(browser: Browser) -> Iterator[Page]:
    """A page like that which stays open, for tests of one file that only look at addresses."""
    with _opened(browser) as opened:
        yield opened


@contextmanager
def _opened(browser: Browser) -> Iterator[Page]:
    width, height = PHONE
    context = browser.new_context(
        viewport={"width": width, "height": height}, reduced_motion="reduce"
    )
    context.add_init_script(WATCH)
    opened = context.new_page()
    opened.set_default_timeout(PATIENCE)
    yield opened
    context.close()
