"""Has house rules about suspensions, and tells what games come to by them.

Sources: NCAA soccer, five cautions make a suspension of one game (published summary of the rules,
read); FIFA World Cup 2022 regulations, two cautions in different matches or a red make one match,
and single cautions are cleared during the play-offs (from memory). Other values are common
practice, no source.
"""

from datetime import date
from typing import Final

from cases.season_people import book, fixture, league, rosters, sheet
from wholeball.kernel.identity import PersonId
from wholeball.league.fixture import Fixture
from wholeball.rulebook.book import Rulebook
from wholeball.season.appearances import GameSheet
from wholeball.season.decision import Decision
from wholeball.season.discipline import Played, discipline
from wholeball.season.ruling import Ruling
from wholeball.season.suspension import Discipline

LATER: Final = date(2026, 11, 1)
AL: Final = PersonId("al")


def rules(
    *,
    yellows: str | int = 5,
    caution_games: int = 1,
    cleared: str = "never",
    red: int = 1,
    second_red: int = 2,
    meeting: bool = False,
    games: str = "played_and_forfeits",
    leagues: str = "same_league",
) -> Rulebook:
    """Return house rules of these values about suspensions."""
    number = f'"{yellows}"' if isinstance(yellows, str) else yellows
    return book(f"""
[discipline]
cautions_for_suspension = {number}
caution_games = {caution_games}
cautions_cleared = "{cleared}"
[discipline.red]
games = {red}
until_meeting = {str(meeting).lower()}
second_games = {second_red}
[discipline.serving]
games = "{games}"
leagues = "{leagues}"
""")


NCAA: Final = rules()
WORLD_CUP: Final = rules(yellows=2, cleared="before_play_offs")


def told(
    sheets: list[GameSheet],
    house: Rulebook,
    *coming: Fixture,
    decisions: tuple[Decision, ...] = (),
    rulings: tuple[Ruling, ...] = (),
    on: date = LATER,
    split: bool = True,
) -> Discipline:
    """Return the suspensions that games come to."""
    season = Played(
        league=league(split=split),
        rosters=rosters(),
        fixtures=[*(one.fixture for one in sheets), *coming],
        sheets=sheets,
        decisions=decisions,
        rulings=rulings,
    )
    return discipline(season, house, on=on)


def served(found: Discipline) -> list[tuple[str, list[str]]]:
    """Return what brought each suspension, and the games that served it."""
    return [(one.cause, [game.game for game in one.served]) for one in found.suspensions]


def yellows(*days: int) -> list[GameSheet]:
    """Return games on days of September, in each of which Al is shown a yellow."""
    return [sheet(fixture(day), shown={"al": "yellow"}) for day in days]
