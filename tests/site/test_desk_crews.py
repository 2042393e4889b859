"""Tests that crews of a night are named on a page, and who there is to name."""

from html import unescape
from http import HTTPStatus
from pathlib import Path
from typing import Any, Final

import pytest
from django.contrib.messages import get_messages

from cases.desk_season import DeskSeason, a_desk, at
from wholeball.store.models import Season

pytestmark = pytest.mark.django_db

SUNDAY: Final = "2026-09-17"
"""A night with two games: A2 at 19:00 and C2 at 21:00."""


@pytest.fixture
def desk(tmp_path: Path) -> DeskSeason:
    return a_desk(tmp_path)


def post(desk: DeskSeason, name: str, **told: str) -> Any:
    url = at(name, SUNDAY)
    return desk.people["coordinator"].post(url, told)


def keep(desk: DeskSeason, **posts: str) -> Any:
    told = {name.replace("_", "-"): value for name, value in posts.items()}
    version = f"{Season.objects.get(pk=desk.season.pk).version}"
    return post(desk, "crews", version=version, **told)


def crews(desk: DeskSeason) -> list[str]:
    return desk.texts()["crews.csv"].decode().splitlines()[1:]


def test_the_crews_of_a_night_are_shown_with_what_is_missing(desk: DeskSeason) -> None:
    url = at("crews", SUNDAY)
    shown = desk.people["coordinator"].get(url).context["shown"]
    assert [
        (one.game, [(post.role, post.official) for post in one.posts]) for one in shown.games
    ] == [
        ("A2", [("referee", "Cy Imbray"), ("scorekeeper", "")]),
        ("C2", [("referee", ""), ("scorekeeper", "")]),
    ]
    assert (shown.missing, shown.officials) == (
        3,
        ("Ada Quill", "Bo Tarn", "Cy Imbray", "Di Lund"),
    )


def test_crews_are_kept_and_those_of_other_nights_stay(desk: DeskSeason) -> None:
    others = [one for one in crews(desk) if not one.startswith("A2")]
    keep(desk, post_1_0="Ada Quill", post_1_1="", post_2_0="Ada Quill", post_2_1="Di Lund")
    rows = [one.rstrip(",") for one in crews(desk)]
    assert rows == [
        *others,
        "A2,referee,Ada Quill",
        "C2,referee,Ada Quill",
        "C2,scorekeeper,Di Lund",
    ]


def test_somebody_at_one_game_twice_is_told_and_nothing_is_kept(desk: DeskSeason) -> None:
    before = desk.texts()
    answer = keep(desk, post_1_0="Ada Quill", post_1_1="Ada Quill")
    assert answer.status_code == HTTPStatus.UNPROCESSABLE_ENTITY
    text = unescape(answer.content.decode())
    assert "not kept yet" in text
    assert "Ada Quill stands 2 times on the crew of" in text
    assert " on row " not in text
    assert '<option value="Ada Quill" selected>' in text
    assert desk.texts() == before


def test_who_names_crews_upon_an_older_page_is_told_also_after_a_fault_and_keeps_the_choice(
    desk: DeskSeason,
) -> None:
    seen = f"{Season.objects.get(pk=desk.season.pk).version}"
    keep(desk, post_2_1="Di Lund")
    before = desk.texts()
    twice = {"post-1-0": "Ada Quill", "post-1-1": "Ada Quill"}
    faulty = post(desk, "crews", version=seen, **twice)
    assert (faulty.status_code, faulty.context["version"]) == (422, seen)
    stale = post(desk, "crews", version=seen, **{"post-1-0": "Ada Quill"})
    assert (stale.status_code, desk.texts()) == (422, before)
    text = unescape(stale.content.decode())
    assert "It was changed while you worked on it." in text
    assert '<option value="Ada Quill" selected>' in text
    newest = stale.context["version"]
    assert post(desk, "crews", version=newest, **{"post-1-0": "Ada Quill"}).status_code == 302


def test_who_is_no_official_leaves_a_post_open(desk: DeskSeason) -> None:
    keep(desk, post_1_0="=cmd()")
    assert [one for one in crews(desk) if one.startswith("A2")] == []


def test_officials_are_listed_once_whatever_their_capitals(desk: DeskSeason) -> None:
    answer = post(desk, "officials", names="Eli Marrow\r\nada quill\r\n\r\n eli marrow \r\n")
    assert str([*get_messages(answer.wsgi_request)][-1]) == "1 official listed."
    listed = [one.rstrip(",") for one in desk.texts()["officials.csv"].decode().splitlines()]
    assert listed == [
        "official,person",
        "Ada Quill",
        "Bo Tarn",
        "Cy Imbray",
        "Di Lund",
        "Eli Marrow",
    ]


@pytest.mark.parametrize(
    ("names", "says"),
    [
        ("", "0 names were given."),
        ("\n".join(f"Official {number}" for number in range(201)), "201 names were given."),
        ("N" * 81, "80"),
    ],
)
def test_names_that_cannot_be_listed_are_kept_in_the_form(
    desk: DeskSeason, names: str, says: str
) -> None:
    before = desk.texts()
    answer = post(desk, "officials", names=names)
    assert answer.status_code == HTTPStatus.UNPROCESSABLE_ENTITY
    assert says in answer.content.decode()
    assert names in answer.content.decode()
    assert desk.texts() == before


def test_a_night_without_a_game_has_no_crews(desk: DeskSeason) -> None:
    url = at("crews", "2026-09-18")
    assert desk.people["coordinator"].get(url).status_code == HTTPStatus.NOT_FOUND
