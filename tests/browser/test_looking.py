"""What looks at pages finds a colour that too few can read, at either width and in either light."""

from typing import Final

import pytest
from playwright.sync_api import Page

from browser.looking import faults_of

FAINT: Final = """
<!doctype html><html lang="en"><head><title>Faint</title><style>
  html { color-scheme: light dark; background: light-dark(#fff, #111); color: light-dark(#111, #fff); }
  p { color: light-dark(LIGHT, DARK); }
  @media (HIDDEN) { p { display: none; } }
</style></head><body><main><h1>Faint</h1><p>Too little stands out.</p></main></body></html>
"""
READ: Final = {"LIGHT": "#111", "DARK": "#fff"}
NARROW: Final = "width < 600px"
WIDE: Final = "width > 600px"
NOWHERE: Final = "width < 1px"


def faint(hidden: str, **colours: str) -> str:
    """Return a page whose sentence has some colours, and is hidden on some screens."""
    said = FAINT.replace("HIDDEN", hidden)
    for name, colour in {**READ, **colours}.items():
        said = said.replace(name, colour)
    return said


@pytest.mark.parametrize(
    ("hidden", "colours", "found"),
    [
        (NOWHERE, {}, []),
        (NOWHERE, {"LIGHT": "#ccc"}, ["(1280 px, light)"]),
        (NOWHERE, {"DARK": "#444"}, ["(390 px, dark)"]),
        (WIDE, {}, []),
        (WIDE, {"LIGHT": "#ccc"}, ["(390 px, light)"]),
        (WIDE, {"DARK": "#444"}, ["(390 px, dark)"]),
        (NARROW, {}, []),
        (NARROW, {"LIGHT": "#ccc"}, ["(1280 px, light)"]),
        (NARROW, {"DARK": "#444"}, ["(1280 px, dark)"]),
    ],
)
def test_a_sentence_that_does_not_stand_out_is_found_where_it_is_read(
    page: Page, hidden: str, colours: dict[str, str], found: list[str]
) -> None:
    page.set_content(faint(hidden, **colours))
    told = faults_of(page)
    assert [one[-len(where) :] for one, where in zip(told, found, strict=True)] == found
    assert all(one.startswith("axe: color-contrast: <p>") for one in told)
