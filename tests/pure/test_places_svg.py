"""The picture of places tells its lines apart without colour, and says all of it in words."""

from xml.etree import ElementTree as ET

import pytest

from wholeball.kernel.identity import GameId, TeamId
from wholeball.reports.places_svg import places_svg
from wholeball.season.result import Result
from wholeball.season.standings import Regulation, RoundTable, standings_by_round

SVG = "{http://www.w3.org/2000/svg}"
RULES = Regulation(criteria=("points", "difference", "goals"), last_resort="lots")
LONG = "The Eleven Who Never Once Came Late to a Kick-off"


def _history(names: list[str], *, rounds: int = 2) -> tuple[RoundTable, ...]:
    """Let each team beat the one beside it by more the earlier it stands in the list."""
    teams = [TeamId(name) for name in names]
    results = [
        Result(
            game=GameId(f"G{round_}-{at}"),
            round=round_,
            home=teams[at],
            away=teams[at + 1],
            home_goals=len(teams) - at,
        )
        for round_ in range(1, rounds + 1)
        for at in range(0, len(teams), 2)
    ]
    return standings_by_round(results, RULES, teams=teams)


def _drawn(history: tuple[RoundTable, ...]) -> ET.Element:
    return ET.fromstring(places_svg(history))  # noqa: S314 - our own drawing


def test_the_description_gives_every_place_after_every_round() -> None:
    picture = _drawn(_history(["Ash", "Birch", "Cedar", "Dogwood"]))
    assert picture.findtext(f"{SVG}title") == "Places by round"
    assert picture.findtext(f"{SVG}desc") == (
        "Places after rounds 1, 2. Ash: 1, 1. Cedar: 2, 2. Dogwood: 3, 3. Birch: 4, 4."
    )


def test_teams_that_share_a_place_are_drawn_apart_and_marked_as_sharing() -> None:
    level = [
        Result(game=GameId("G1"), round=1, home=TeamId("Ash"), away=TeamId("Birch")),
    ]
    picture = _drawn(standings_by_round(level, RULES, teams=[TeamId("Ash"), TeamId("Birch")]))
    assert picture.findtext(f"{SVG}desc") == "Places after rounds 1. Ash: 1=. Birch: 1=."
    runs = [one.get("d") for one in picture if str(one.get("class")).startswith("run")]
    assert len(set(runs)) == 2


def test_twenty_four_lines_differ_in_dash_or_mark() -> None:
    picture = _drawn(_history([f"Team {number:02}" for number in range(24)], rounds=1))
    dashes = [
        str(one.get("stroke-dasharray"))
        for one in picture
        if str(one.get("class")).startswith("run")
    ]
    marks = [
        (str(one.get("class")), _shape(str(one.get("d"))))
        for one in picture
        if str(one.get("class")).startswith("dot")
    ]
    assert len(set(zip(dashes, marks, strict=True))) == 24


@pytest.mark.parametrize("name", [LONG, "X" * 40, "فريق الفانوس", "<b>&", "😀"])
def test_a_name_is_whole_in_the_title_of_its_label_and_fits_two_lines(name: str) -> None:
    picture = _drawn(_history([name, "Other"]))
    labels = [one for one in picture.iter(f"{SVG}text") if one.findtext(f"{SVG}title") == name]
    assert 1 <= len(labels) <= 2
    assert all(len(str(label.text)) <= 18 for label in labels)


def test_a_pool_without_a_round_is_an_empty_picture_with_words() -> None:
    picture = _drawn(())
    assert [one.tag for one in picture] == [f"{SVG}title", f"{SVG}desc"]


def _shape(draws: str) -> str:
    """Return the letters of path data, which tell circle, square, diamond and triangle apart."""
    return "".join(letter for letter in draws if letter.isalpha())
