"""Odds in words claim no more than is known, and a bracket's words name what gives a seed."""

import pytest

from wholeball.kernel.identity import TeamId
from wholeball.reports.bracket_svg import bracket_svg
from wholeball.reports.bracket_words import change_line, ordinal
from wholeball.reports.odds_words import percent_text, share_text
from wholeball.season.bracket import bracket
from wholeball.season.bracket_run import Change, run
from wholeball.season.shares import Proven, Share


@pytest.mark.parametrize(
    ("hits", "seasons", "proven", "says"),
    [
        (6_230, 10_000, None, "62.3 % \N{PLUS-MINUS SIGN} 0.5"),
        (0, 10_000, None, "under 0.1 %"),
        (4, 10_000, None, "under 0.1 %"),
        (5, 10_000, None, "0.1 % \N{PLUS-MINUS SIGN} 0.1"),
        (9_996, 10_000, None, "over 99.9 %"),
        (10_000, 10_000, None, "over 99.9 %"),
        (0, 100, None, "under 3 %"),
        (100, 100, None, "over 97 %"),
        (10_000, 10_000, "always", "100 %"),
        (0, 10_000, "never", "0 %"),
    ],
)
def test_a_share_reads_as_sure_only_where_it_is_proven(
    hits: int, seasons: int, proven: Proven | None, says: str
) -> None:
    assert share_text(Share(hits=hits, seasons=seasons, proven=proven)) == says


def test_a_computed_chance_reads_as_sure_only_where_it_is() -> None:
    found = [percent_text(one) for one in (0.0, 0.0004, 0.25, 0.9996, 1.0)]
    assert found == ["0 %", "under 0.1 %", "25.0 %", "over 99.9 %", "100 %"]


def test_ordinals_of_the_teens_end_in_th() -> None:
    found = [ordinal(one) for one in (1, 2, 3, 4, 11, 12, 13, 21, 102, 111)]
    assert found == [
        "1st",
        "2nd",
        "3rd",
        "4th",
        "11th",
        "12th",
        "13th",
        "21st",
        "102nd",
        "111th",
    ]


def test_what_a_new_draw_would_change_is_said_for_in_out_and_elsewhere() -> None:
    owls = TeamId("Owls")
    assert (
        change_line(Change(team=owls, drawn=3, now=None)) == "Owls, seed 3, would be left out."
    )
    assert change_line(Change(team=owls, drawn=None, now=4)) == "Owls would be in, as seed 4."
    assert (
        change_line(Change(team=owls, drawn=3, now=4)) == "Owls would be seed 4 instead of 3."
    )


@pytest.mark.parametrize("number", [2, 3, 8, 33, 64])
def test_a_picture_shows_every_team_and_stays_as_wide_as_a_phone(number: int) -> None:
    teams = [TeamId(f"Team <{seed}>") for seed in range(1, number + 1)]
    lines = run(bracket(number, third_place=True), dict(enumerate(teams, start=1)), [])
    picture = bracket_svg(lines, teams)
    assert picture.startswith("<svg ")
    assert 'viewBox="0 0 390 ' in picture
    assert [
        f"<title>Team &lt;{seed}&gt;</title>" in picture for seed in range(1, number + 1)
    ] == [True] * number


def test_a_name_too_long_for_two_lines_is_cut_in_the_picture_and_whole_in_its_title() -> None:
    long = TeamId("The Association of Extremely Long Club Names United of the North")
    lines = run(bracket(2, third_place=False), {1: long, 2: TeamId("Owls")}, [])
    picture = bracket_svg(lines, [long, TeamId("Owls")])
    assert f"<title>{long}</title>" in picture
    assert "\N{HORIZONTAL ELLIPSIS}</text>" in picture
