"""What people write into names and notes is read as words, on every public page."""

import re
from html import unescape

import pytest
from django.test import Client

from cases.noticeboard_season import NOTICES, ROOT, change, public_season, text

pytestmark = pytest.mark.django_db
PAYLOADS = (
    "<script>alert(1)</script>",
    '"><img src=x onerror=alert(1)>',
    "a'-alert(1)-'",
    "</title><svg onload=alert(1)>",
    "javascript:alert(1)",
    "{{ 7*7 }}{% debug %}",
)


def hostile(payload: str) -> None:
    quoted = '"' + payload.replace('"', '""') + '"'
    season = public_season()
    for file in ("teams.csv", "timetable.csv", "results.csv"):
        changed = text(season, file).replace("Nutmeg Theory", quoted)
        change(season, **{file.replace(".", "_"): changed})
    change(
        season,
        results_csv=text(season, "results.csv").replace(
            "Extra Thyme said at noon that they could not come.", quoted
        ),
        rosters_csv=f"team,number,name\n{quoted},7,{quoted}\n",
        notices_csv=f"{NOTICES}2026-10-13,,,off,,{quoted}\n",
        teams_csv=text(season, "teams.csv").replace("green,yellow", f"{quoted},"),
    )


def every_page(client: Client) -> dict[str, str]:
    todo, seen = [ROOT], dict[str, str]()
    while todo:
        address = todo.pop()
        answer = client.get(address)
        assert answer.status_code == 200, address
        seen[address] = answer.content.decode()
        found = {unescape(one) for one in re.findall(r'href="([^"#]+)', seen[address])}
        todo += [one for one in found - seen.keys() if one.startswith(ROOT) and one not in todo]
    return seen


@pytest.mark.parametrize("payload", PAYLOADS)
def test_no_word_of_a_name_or_a_note_becomes_markup(client: Client, payload: str) -> None:
    hostile(payload)
    pages = every_page(client)
    shown = [page for page in pages.values() if payload in unescape(page)]
    assert len(shown) > 5
    for page in pages.values():
        assert "<script" not in page
        assert "<img" not in page
        assert not re.search(r"<[^>]*\son\w+\s*=", page)
        assert not re.search(r'(href|src|action)="\s*javascript:', page)
        if "<" in payload:
            assert payload not in page


def test_a_name_with_a_slash_or_of_dots_has_a_page_of_its_own(client: Client) -> None:
    season = public_season()
    for old, new in (("Nutmeg Theory", "AC/DC?#%"), ("Extra Thyme", "..")):
        for file in ("teams.csv", "timetable.csv", "results.csv", "rosters.csv"):
            change(season, **{file.replace(".", "_"): text(season, file).replace(old, new)})
    pages = every_page(client)
    assert "<h1><bdi>AC/DC?#%</bdi></h1>" in pages[f"{ROOT}teams/AC%2FDC%3F%23%25/"]
    assert "<h1><bdi>..</bdi></h1>" in pages[f"{ROOT}teams/-..-/"]
