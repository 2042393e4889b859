"""The picture of places tells its lines apart without colour, and says all of it in words."""

import re
from itertools import pairwise
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


@pytest.mark.parametrize("rounds", [1, 2, 12])
@pytest.mark.parametrize("teams", [2, 3, 6])
def test_teams_that_share_a_place_stand_at_one_height_beside_each_other(
    teams: int, rounds: int
) -> None:
    names = [TeamId(f"Team {number}") for number in range(teams)]
    level = [
        Result(game=GameId(f"G{round_}"), round=round_, home=names[0], away=names[1])
        for round_ in range(1, rounds + 1)
    ]
    rules = Regulation(criteria=("difference",), last_resort="lots")
    picture = _drawn(standings_by_round(level, rules, teams=names))
    ends = [_end(one) for one in picture if str(one.get("class")).startswith("run")]
    middle = 30 + 30 * teams / 2
    assert [y for _, y in ends] == [middle] * teams
    across = [x for x, _ in ends]
    apart = [right - left for left, right in pairwise(across)]
    assert min(apart) > 2
    assert max(across) + 6 < 390 - 168 + 16
    firsts = [_start(one) for one in picture if str(one.get("class")).startswith("run")]
    assert min(firsts) - 6 >= 0
    labels = [one.get("y") for one in picture.iter(f"{SVG}text") if one.get("class") == "team"]
    assert len(set(labels)) == teams


def test_a_shared_place_is_marked_and_the_place_below_keeps_its_row() -> None:
    ash, birch, cedar = TeamId("Ash"), TeamId("Birch"), TeamId("Cedar")
    won = [
        Result(game=GameId("G1"), round=1, home=ash, away=cedar, home_goals=1),
        Result(game=GameId("G2"), round=1, home=birch, away=cedar, home_goals=1),
    ]
    picture = _drawn(standings_by_round(won, RULES, teams=[ash, birch, cedar]))
    assert picture.findtext(f"{SVG}desc") == (
        "Places after rounds 1. Ash: 1=. Birch: 1=. Cedar: 3."
    )
    ends = [_end(one) for one in picture if str(one.get("class")).startswith("run")]
    assert [y for _, y in ends] == [60, 60, 105]


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


def _end(run: ET.Element) -> tuple[float, float]:
    """Return where a line ends, across and down."""
    x, y = re.findall(r"[-0-9.]+", str(run.get("d")))[-2:]
    return float(x), float(y)


def _start(run: ET.Element) -> float:
    """Return where a line starts, across."""
    return float(re.findall(r"[-0-9.]+", str(run.get("d")))[0])


def _shape(draws: str) -> str:
    """Return the letters of path data, which tell circle, square, diamond and triangle apart."""
    return "".join(letter for letter in draws if letter.isalpha())
