"""The public pages of a season: what they say, what they cost, what they never say."""

import re

import pytest
from benchmarks.noticeboard import texts
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext

from cases.noticeboard_season import ROOT, change, public_season, text
from cases.stored import a_season, written_by
from wholeball.store.derived import forget
from wholeball.store.models import Derived

pytestmark = pytest.mark.django_db
PAGES = (
    "",
    "standings/",
    "standings/1/",
    "standings/2/round-3/",
    "calendar/",
    "calendar/week-2/",
    "calendar/2026-10-13/",
    "teams/Library%20Fines/",
    "fields/Lower%20Meadow%201/",
    "results/",
    "results/round-1/",
    "games/P1/",
    "rules/",
    "rules/1/",
    "rules/field/",
)
MOST_QUERIES = 6
MOST_BYTES = 60_000


def links_of(page: str) -> set[str]:
    return {one for one in re.findall(r'href="([^"#]+)', page) if one.startswith(ROOT)}


def test_every_link_of_every_page_leads_to_a_page_of_at_most_60_kb(client: Client) -> None:
    public_season()
    todo, seen = [ROOT], dict[str, int]()
    while todo:
        address = todo.pop()
        answer = client.get(address)
        assert answer.status_code == 200, address
        page = answer.content.decode()
        bare = re.sub(r"<svg.*?</svg>", "", page, flags=re.DOTALL)
        seen[address] = len(bare.encode())
        todo += [one for one in links_of(page) - seen.keys() if one not in todo]
    assert {f"{ROOT}{one}" for one in PAGES} <= seen.keys()
    assert max(seen.values()) <= MOST_BYTES


def test_no_page_has_a_script_a_style_or_an_address_elsewhere(client: Client) -> None:
    public_season()
    for one in PAGES:
        answer = client.get(f"{ROOT}{one}")
        page = answer.content.decode()
        assert "<script" not in page, one
        assert "<style" not in page, one
        assert not re.search(r"\s(style|on[a-z]+)=", page), one
        assert not re.search(r'(href|src)="(https?:)?//', page), one
        assert "default-src 'self'" in answer.headers["Content-Security-Policy"]


@pytest.mark.parametrize("page", PAGES)
def test_a_page_that_is_kept_costs_at_most_six_queries(client: Client, page: str) -> None:
    public_season()
    first = client.get(f"{ROOT}{page}")
    with CaptureQueriesContext(
        connection,
    ) as again:
        second = client.get(f"{ROOT}{page}")
    assert second.content == first.content
    assert len(again) <= MOST_QUERIES
    with CaptureQueriesContext(connection) as same:
        third = client.get(f"{ROOT}{page}", HTTP_IF_NONE_MATCH=first.headers["ETag"])
    assert (third.status_code, third.content) == (304, b"")
    assert third.headers["ETag"] == first.headers["ETag"]
    assert len(same) <= 4


def test_a_pool_of_a_hundred_teams_fits_a_page_and_its_reasons_have_pages(
    client: Client,
) -> None:
    season = a_season()
    season.is_public = True
    season.save()
    long = {
        name: data.replace(b"Team ", b"Extraordinary 11 ") for name, data in texts().items()
    }
    written_by(season).write(long)
    answer = client.get(f"{ROOT}standings/1/")
    page = answer.content.decode()
    assert page.count('<th scope="row">') == 100
    assert len(answer.content) <= MOST_BYTES
    assert "<details" not in page.partition("<footer")[0]
    assert "<svg" not in page.partition("<main")[2]
    whys = sorted(one for one in links_of(page) if "/why/" in one)
    assert whys
    for address in whys[:3]:
        assert "These tests come in order" in client.get(address).content.decode()
    assert client.get(f"{ROOT}standings/1/round-10/why/101/").status_code == 404
    assert client.get(f"{ROOT}standings/1/round-10/why/0/").status_code == 404


def test_the_reasons_of_a_small_pool_stand_in_its_table_and_have_no_pages(
    client: Client,
) -> None:
    public_season()
    assert "<details" in client.get(f"{ROOT}standings/1/").content.decode()
    assert client.get(f"{ROOT}standings/1/round-5/why/1/").status_code == 404


def test_a_page_that_is_made_anew_costs_the_same_for_more_rows(client: Client) -> None:
    season = public_season()

    def cost() -> int:
        forget()
        with CaptureQueriesContext(connection) as asked:
            assert client.get(f"{ROOT}standings/1/").status_code == 200
        return len(asked)

    few = cost()
    teams = "".join(f"Extra {number},Wick,,\n" for number in range(40))
    change(season, teams_csv=text(season, "teams.csv") + teams)
    assert cost() == few


def test_a_result_that_comes_in_changes_the_tag_and_the_page(client: Client) -> None:
    season = public_season()
    before = client.get(f"{ROOT}standings/1/")
    results = text(season, "results.csv").replace(
        "Late Submissions,Corner Office Hours,4,0", "Late Submissions,Corner Office Hours,5,0"
    )
    change(season, results_csv=results)
    after = client.get(f"{ROOT}standings/1/", HTTP_IF_NONE_MATCH=before.headers["ETag"])
    assert after.status_code == 200
    assert after.headers["ETag"] != before.headers["ETag"]
    assert after.content != before.content


def test_everything_that_is_kept_can_be_deleted_and_comes_out_the_same(client: Client) -> None:
    public_season()

    def stamp(page: bytes) -> bytes:
        return re.sub(rb"as of [^.]*", b"", page)

    before = [stamp(client.get(f"{ROOT}{one}").content) for one in PAGES]
    assert Derived.objects.count() >= len(PAGES)
    forget()
    assert [stamp(client.get(f"{ROOT}{one}").content) for one in PAGES] == before


@pytest.mark.parametrize(
    "page",
    [
        "standings/3/",
        "standings/1/round-99/",
        "calendar/week-40/",
        "calendar/2026-10-14/",
        "calendar/tomorrow/",
        "teams/Nobody/",
        "fields/Nowhere/",
        "bracket/9/",
        "results/round-99/",
        "games/W11/",
        "games/none/",
        "rules/9/",
    ],
)
def test_what_is_not_there_is_not_found_and_not_kept(client: Client, page: str) -> None:
    public_season()
    assert client.get(f"{ROOT}{page}").status_code == 404
    assert not Derived.objects.filter(name__startswith="page:").exists()


def test_a_season_that_is_not_public_is_not_found_by_anybody(client: Client) -> None:
    season = public_season()
    season.is_public = False
    season.save()
    hidden = client.get(ROOT)
    missing = client.get("/harrow-fen/spring/")
    assert (hidden.status_code, missing.status_code) == (404, 404)
    assert hidden.content == missing.content
    assert b"Autumn" not in client.get("/").content


def test_the_first_page_lists_public_seasons(client: Client) -> None:
    assert b"No season is public yet." in client.get("/").content
    public_season()
    page = client.get("/").content.decode()
    assert f'<a href="{ROOT}"><bdi>Autumn</bdi></a>' in page


def test_a_page_is_read_and_never_written(client: Client) -> None:
    public_season()
    for one in PAGES:
        assert client.post(f"{ROOT}{one}").status_code == 405


def test_standings_say_why_a_team_stands_above_a_level_one(client: Client) -> None:
    public_season()
    pages = [client.get(f"{ROOT}standings/{pool}/").content.decode() for pool in (1, 2)]
    assert any(
        "These tests come in order; the first that parts them decides." in one for one in pages
    )


def test_house_rules_say_what_is_different_and_every_article_has_its_chapter(
    client: Client,
) -> None:
    public_season()
    page = client.get(f"{ROOT}rules/").content.decode()
    assert "What is different here" in page
    for address, anchor in re.findall(rf'href="({ROOT}rules/\d+/)#([^"]+)"', page):
        assert f'id="{anchor}"' in client.get(address).content.decode()
    game = client.get(f"{ROOT}games/P1/").content.decode()
    cited = re.findall(rf'href="({ROOT}rules/\d+/)#([^"]+)"', game)
    assert cited
    for address, anchor in cited:
        assert f'id="{anchor}"' in client.get(address).content.decode()


def test_a_season_whose_facts_do_not_fit_together_says_so_plainly(client: Client) -> None:
    season = public_season()
    client.get(ROOT)
    change(season, teams_csv="team,pool,colours,second_colours\nAsh,A,,\n")
    answer = client.get(ROOT)
    assert answer.status_code == 503
    assert b"The coordinator sees at the desk what does not fit." in answer.content


def test_no_page_shows_what_is_private(client: Client) -> None:
    public_season(
        people_csv="person,gender,waiver_until,member_of,shown\n"
        "k-adaeze,woman,2026-12-01,varsity,\nk-hoku,man,,club,full\nk-ondine,,,,hidden\n",
        not_cleared_csv="person,since\nk-hoku,2026-09-15\n",
    )
    every = {one: client.get(f"{ROOT}{one}").content.decode() for one in PAGES}
    team = every["teams/Library%20Fines/"]
    assert "<bdi>7 A. Abernwy</bdi>" in team
    assert "<bdi>10 Hoku Lindqvar</bdi>" in team
    assert "<bdi>1 more player, not named</bdi>" in team
    assert "varsity" not in team
    assert "woman" not in team
    for page in every.values():
        for private in (
            "Adaeze",
            "Ondine",
            "Whitlomoana",
            "k-hoku",
            "042",
            "Tova",
            "Quillmere",
            "not_cleared",
        ):
            assert private not in page
