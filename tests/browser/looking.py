"""Looks at a page as its readers do: what is refused, too wide, too small, or unnamed.

Every page is looked at on a phone in the dark and on a screen in the light, without loading it
again; and what is to be seen on one of them alone is looked at in the other colours as well, so
that each colour is met once.
"""

import json
from collections.abc import Mapping
from functools import cache
from importlib.resources import files
from typing import Any, Final, Literal

from playwright.sync_api import Page

Scheme = Literal["light", "dark"]

PHONE: Final = (390, 844)
"""CSS pixels across and down."""
SCREEN: Final = (1280, 800)
OTHER: Final[Mapping[Scheme, Scheme]] = {"dark": "light", "light": "dark"}
LOOKS: Final[tuple[tuple[tuple[int, int], Scheme], ...]] = ((PHONE, "dark"), (SCREEN, "light"))
REFLOWED: Final = (320, 640, 2560)
"""CSS pixels across: a screen at 400 % (WCAG 2.2, 1.4.10), at 200 % (1.4.4), and on a wall."""
TARGET: Final = 44
"""CSS pixels of a control at least, each way (WCAG 2.2, 2.5.5)."""
WATCH: Final = """
window.refused = [];
document.addEventListener("securitypolicyviolation", (told) => {
  window.refused.push(`${told.violatedDirective} ${told.blockedURI} ${told.sourceFile}`);
});
"""
_REFUSED: Final = "() => window.refused"
_WIDE: Final = """
() => {
  const room = document.documentElement.clientWidth;
  if (document.documentElement.scrollWidth <= room) return [];
  return [...document.querySelectorAll("body *")]
    .filter((one) => one.getBoundingClientRect().right > room + 1)
    .map((one) => `${one.tagName} ${one.className} reaches ${one.getBoundingClientRect().right}`);
}
"""
_CUT: Final = """
() => {
  const more = (one) => one.clientWidth > 0 && one.scrollWidth > one.clientWidth + 1;
  const inputs = [...document.querySelectorAll("input:is([type=text], [type=number], :not([type]))")];
  const hidden = [...document.querySelectorAll("main *")].filter((one) => {
    const { overflowX, textOverflow } = getComputedStyle(one);
    return ["hidden", "clip"].includes(overflowX) && textOverflow !== "ellipsis"
      && !one.matches("input, .told, svg, svg *");
  });
  return [...inputs, ...hidden].filter(more)
    .map((one) => `${one.tagName} "${one.value || one.textContent.trim().slice(0, 30)}" shows `
      + `${one.clientWidth} of ${one.scrollWidth} px`);
}
"""
_ALIKE: Final = """
() => {
  const colour = (one) => getComputedStyle(one).borderBottomColor;
  const links = [...document.querySelectorAll(".touchline nav li a")];
  const here = links.filter((one) => one.hasAttribute("aria-current"));
  const others = new Set(links.filter((one) => !here.includes(one)).map(colour));
  return here.filter((one) => others.has(colour(one))).map((one) => one.textContent.trim());
}
"""
_SMALL: Final = """
(least) => {
  const inSentence = (one) => one.tagName === "A" && one.closest("p, li > p, dd")
    && one.closest("p, dd").textContent.trim().length > one.textContent.trim().length + 12;
  return [...document.querySelectorAll("a[href], button, summary, select, textarea, input")]
    .filter((one) => one.type !== "hidden" && one.checkVisibility({ visibilityProperty: true }))
    .filter((one) => !one.classList.contains("skip") && !inSentence(one))
    .map((one) => [one, (one.closest(".box label, fieldset label") || one).getBoundingClientRect()])
    .filter(([, box]) => box.width > 0 && (box.height < least - 0.5 || box.width < least - 0.5))
    .map(([one, box]) => `${one.tagName} "${(one.textContent || one.name).trim().slice(0, 30)}" is `
      + `${Math.round(box.width)} x ${Math.round(box.height)}`);
}
"""
_HEADS: Final = '() => document.querySelectorAll("h1").length'
_AXE: Final = """
async () => (await axe.run(document, { resultTypes: ["violations"], runOnly: ["wcag2a", "wcag2aa",
  "wcag21a", "wcag21aa", "wcag22aa", "best-practice"] })).violations
  .map((one) => `${one.id}: ${one.nodes.map((node) => node.html).join(" | ")}`)
"""
_SEEN: Final = """
(width) => {
  const shows = (one) => one.checkVisibility({ visibilityProperty: true });
  window.seen = { ...window.seen, [width]: [...document.querySelectorAll("body *")].filter(shows) };
}
"""
"""Keeps what is to be seen at a width."""
_AXE_ALONE: Final = """
async ([width, other]) => {
  const there = new Set(window.seen[other]);
  const alone = window.seen[width].filter((one) => !there.has(one));
  if (alone.length === 0) return [];
  const colours = { type: "rule", values: ["color-contrast", "link-in-text-block"] };
  return (await axe.run({ include: alone }, { runOnly: colours })).violations
    .map((one) => `${one.id}: ${one.nodes.map((node) => node.html).join(" | ")}`);
}
"""
"""Asks for the colours of what is to be seen at a width and not at the other."""


def faults_of(page: Page) -> list[str]:
    """Return everything that a reader would stumble over; the page stays as wide as it was."""
    page.wait_for_load_state()
    before = page.viewport_size
    page.evaluate(_axe())
    found = []
    for size, scheme in LOOKS:
        _turn(page, size, scheme)
        page.evaluate(_SEEN, size[0])
        found += [f"{one} ({size[0]} px, {scheme})" for one in _faults(page)]
    for (size, scheme), (other, _) in zip(LOOKS, reversed(LOOKS), strict=True):
        _turn(page, size, OTHER[scheme])
        alone = _told(page, _AXE_ALONE, [size[0], other[0]])
        found += [f"axe: {one} ({size[0]} px, {OTHER[scheme]})" for one in alone]
    found += _faults_reflowed(page)
    if before is not None:
        page.set_viewport_size(before)
    return found


def _turn(page: Page, size: tuple[int, int], scheme: Scheme) -> None:
    """Show a page at a size in light or in dark."""
    width, height = size
    page.set_viewport_size({"width": width, "height": height})
    page.emulate_media(color_scheme=scheme)


def _faults_reflowed(page: Page) -> list[str]:
    """Return what does not fit at other sizes, and what readers' own colours no longer tell."""
    found = []
    for width in REFLOWED:
        page.set_viewport_size({"width": width, "height": SCREEN[1]})
        found += [f"too wide: {one} ({width} px)" for one in _told(page, _WIDE)]
        found += [f"cut: {one} ({width} px)" for one in _told(page, _CUT)]
    page.emulate_media(forced_colors="active")
    found += [f"alike in forced colours: {one}" for one in _told(page, _ALIKE)]
    page.emulate_media(forced_colors="none")
    return found


def _faults(page: Page) -> list[str]:
    """Return what is to be stumbled over as the page stands."""
    found: list[str] = []
    found += [f"refused by the policy: {one}" for one in _told(page, _REFUSED)]
    found += [f"too wide: {one}" for one in _told(page, _WIDE)]
    found += [f"cut: {one}" for one in _told(page, _CUT)]
    found += [f"under {TARGET} px: {one}" for one in _told(page, _SMALL, TARGET)]
    heads = page.evaluate(_HEADS)
    if heads != 1:
        found.append(f"{heads} headings of the first rank")
    found += [f"axe: {one}" for one in _told(page, _AXE)]
    return found


@cache
def _axe() -> str:
    """Return axe-core's script, as its package ships it."""
    return files("axe_playwright_python").joinpath("axe.min.js").read_text("utf-8")


def _told(page: Page, asks: str, value: Any = None) -> list[str]:
    told = page.evaluate(asks, value) if value is not None else page.evaluate(asks)
    assert isinstance(told, list), json.dumps(told)
    return [str(one) for one in told]
