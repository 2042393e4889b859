"""The rulebook at the desk: an article with its fault and sentence, a draft, and editions."""

from pathlib import Path

import pytest
from django.test import Client

from cases.desk_season import DeskSeason, a_desk, at, member
from wholeball.files.folder import read_folder
from wholeball.store.models import Draft, Edition, Season
from wholeball.store.snapshot import snapshot_of
from wholeball.usecases.edit_rulebook import articles_of, edited

pytestmark = pytest.mark.django_db


@pytest.fixture
def desk(tmp_path: Path) -> DeskSeason:
    return a_desk(tmp_path)


@pytest.fixture
def kim(desk: DeskSeason) -> Client:
    return desk.people["coordinator"]


def cells(client: Client, path: str) -> dict[str, str]:
    """Return what stands in the cells of an article, as its form would send it."""
    page = client.get(at("article", path))
    found = page.context["found"]
    typed = {one.name: one.value for key in found.keys for rung in key.rungs for one in rung}
    return {**typed, "why": found.why, "step": str(page.context["step"])}


def keep(client: Client, path: str, **changed: str) -> None:
    typed = cells(client, path) | {one.replace("__", "."): to for one, to in changed.items()}
    answer = client.post(at("article", path), {**typed, "does": "keep"})
    assert answer.status_code == 302


def page(client: Client, name: str, *args: object) -> str:
    return " ".join(client.get(at(name, *args)).content.decode().split())


def counts(season: Season) -> dict[str, tuple[int, int]]:
    read = read_folder(snapshot_of(Season.objects.get(pk=season.pk)))
    return {one.game: (one.home_goals, one.away_goals) for one in read.season.results}


def test_an_article_that_is_sent_back_as_it_stands_changes_nothing(desk: DeskSeason) -> None:
    data = desk.texts()["rulebook.toml"]
    for one in articles_of(data):
        found = edited(data, one.path)
        typed = {
            cell.name: cell.value for key in found.keys for rung in key.rungs for cell in rung
        }
        again = edited(data, one.path, {**typed, "why": found.why})
        assert (one.path, again.faults, again.text) == (one.path, (), data)


def test_a_fault_stands_beside_its_key_what_was_typed_stays_and_no_sentence_is_wrong(
    kim: Client,
) -> None:
    typed = cells(kim, "mercy") | {"ladder.0.lead": "9", "ladder.0.minutes_left": "300"}
    answer = kim.post(at("article", "mercy"), {**typed, "does": "keep"})
    text = " ".join(answer.content.decode().split())
    assert answer.status_code == 422
    assert "Mercy rule, ladder step 1, minutes left is 300. Give 0 to 240." in text
    assert 'value="300"' in text
    assert "waiting until the fault is mended" in text
    assert Draft.objects.count() == 0


def test_an_article_reads_otherwise_before_it_is_kept(kim: Client) -> None:
    typed = cells(kim, "mercy") | {"ladder.0.lead": "8", "ladder.0.minutes_left": "7"}
    answer = kim.post(at("article", "mercy"), {**typed, "does": "look"})
    text = " ".join(answer.content.decode().split())
    assert "<mark>8 goals</mark>" in text
    assert Draft.objects.count() == 0


def test_a_draft_of_the_rulebook_is_undone_by_steps(kim: Client, desk: DeskSeason) -> None:
    before = desk.texts()["rulebook.toml"]
    keep(kim, "mercy", ladder__0__lead="8", ladder__0__minutes_left="7")
    first = Draft.objects.get().text
    keep(kim, "sides", why="We are many.")
    kim.post(at("rulebook_back"), {"step": 2})
    assert Draft.objects.get().text == first
    kim.post(at("rulebook_back"), {"step": 3, "all": "yes"})
    assert (Draft.objects.count(), desk.texts()["rulebook.toml"]) == (0, before)


def test_an_edition_says_what_would_have_differed_and_changes_no_result(
    kim: Client, desk: DeskSeason
) -> None:
    before = counts(desk.season)
    assert before
    only = {"ladder__1__lead": "", "ladder__1__minutes_left": ""}
    keep(kim, "mercy", ladder__0__lead="1", ladder__0__minutes_left="17", **only)
    shown = page(kim, "edition")
    assert "It counts from <strong>Game" in shown
    assert (
        "Game <bdi>A1</bdi> stands at 3\N{EN DASH}2; it would have been 2\N{EN DASH}1." in shown
    )
    answer = kim.post(at("edition"), {"step": 1}, follow=True)
    assert "The edition is published." in answer.content.decode()
    assert counts(desk.season) == before
    assert [one.is_current for one in Edition.objects.order_by("number")] == [False, True]
    assert b"lead = 1" in desk.texts()["rulebook.toml"]
    assert b"lead = 1," not in desk.texts()["editions/1.toml"]


def test_an_edition_upon_an_older_one_is_refused_and_the_draft_is_kept(
    kim: Client, desk: DeskSeason
) -> None:
    noor = member(desk.season, "coordinator", person="Noor")
    keep(kim, "mercy", ladder__0__lead="8", ladder__0__minutes_left="7")
    keep(noor, "mercy", ladder__0__lead="7", ladder__0__minutes_left="7")
    kim.post(at("edition"), {"step": 1})
    answer = noor.post(at("edition"), {"step": 1}, follow=True)
    assert "Another edition was published while you worked on yours." in answer.content.decode()
    assert b"lead = 8" in desk.texts()["rulebook.toml"]
    assert Draft.objects.count() == 1


def test_the_list_marks_what_differs_from_the_laws(kim: Client) -> None:
    every = kim.get(at("rulebook")).context["articles"]
    some = kim.get(at("rulebook"), {"only": "different"}).context["articles"]
    assert [one.path for one in every if one.standing.standing != "law"] == [
        one.path for one in some
    ]


def test_an_article_that_is_none_is_missing(kim: Client) -> None:
    assert kim.get(at("article", "nothing")).status_code == 404
