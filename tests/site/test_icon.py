"""The site has an icon: its own mark, linked from its pages and found by browsers that guess."""

import re
from pathlib import Path
from typing import Final

import pytest
from defusedxml.ElementTree import parse
from django.contrib.staticfiles import finders
from django.test import Client

SVG: Final = "{http://www.w3.org/2000/svg}"
BASE: Final = Path(__file__).resolve().parents[2] / "src/wholeball/site/templates/base.html"


def test_a_browser_that_asks_for_an_icon_of_its_own_accord_is_led_to_it(client: Client) -> None:
    """Source: HTML Living Standard, "Link type icon": /favicon.ico where a page links none."""
    led = client.get("/favicon.ico")
    assert (led.status_code, led.headers["Location"]) == (302, "/static/site/icon.svg")
    assert led.headers["Cache-Control"] == "public, max-age=86400"
    assert (led.cookies, client.post("/favicon.ico").status_code) == ({}, 405)


@pytest.mark.django_db
def test_the_icon_is_sent_as_what_it_is(client: Client) -> None:
    """Source: SVG 2, "Media Type Registration for image/svg+xml"."""
    answer = client.get("/static/site/icon.svg")
    answer.close()
    assert (answer.status_code, answer.headers["Content-Type"]) == (200, "image/svg+xml")


def test_a_page_of_the_site_links_its_icon_once(client: Client) -> None:
    page = client.get("/accounts/login/").content.decode()
    assert re.findall(r'<link rel="icon"[^>]*>', page) == [
        '<link rel="icon" href="/static/site/icon.svg" type="image/svg+xml">'
    ]


def test_the_icon_is_the_mark_of_every_page_upright_in_a_square() -> None:
    place = finders.find("site/icon.svg")
    assert isinstance(place, str)
    icon = parse(place).getroot()
    assert icon is not None
    line, ball = icon[1], icon[2]
    mark = re.search(r'<path d="([^"]+)"[^>]*/><circle ([^/]*) fill', BASE.read_text("utf-8"))
    assert mark is not None
    assert line.get("d") == mark[1]
    assert " ".join(f'{name}="{ball.get(name)}"' for name in ("cx", "cy", "r")) == mark[2]
    assert [one.tag for one in icon] == [f"{SVG}{name}" for name in ("path", "path", "circle")]
    _, _, width, height = map(float, (icon.get("viewBox") or "").split())
    assert width == height
