"""Writes a season folder of two leagues in which one person plays in both."""

from datetime import date
from pathlib import Path
from typing import Final

from cases.meadow import SEASON
from cases.paper_cards import HOUSE
from cases.paper_season import author
from wholeball.files.folder import read_folder
from wholeball.files.folder_record import FolderRecord
from wholeball.game.paper import PaperCard, PaperForfeit, PaperPlayer, PaperRed, PaperYellow
from wholeball.game.state import Score
from wholeball.kernel.identity import GameId
from wholeball.usecases.enter_game import Entered, enter_card, game_to_enter
from wholeball.usecases.season_people import discipline_of

THURSDAY: Final = date(2026, 9, 17)
"""The day of A2 and of C2."""
LATER: Final = date(2026, 11, 1)
"""After the last game of the timetable."""
RULES: Final = """
[roster]
ref = "H 3.1"
bound_by = "first_game_played"
teams_each = 1
teams_each_in = "league"
additions_until = "always"
additions_hours_before = 0
[eligibility]
waiver = false
[eligibility.found_later]
ref = "H 3.5"
then = "forfeit"
discovered_within_days = 4
[discipline]
ref = "H 11.3"
cautions_for_suspension = 3
caution_games = 1
[discipline.red]
ref = "H 11.4"
games = 1
until_meeting = false
second_games = 4
[discipline.serving]
ref = "H 11.5"
games = "played_only"
leagues = "all_leagues"
breach = "forfeit"
"""
_DIVISIONS: Final = "division,league\none,Autumn\ntwo,Evening\n"
_TEAMS: Final = (
    "team,pool,division\nAsh,A,one\nBirch,A,one\nElder,A,one\nCedar,B,two\nDogwood,B,two\n"
)
_TIMETABLE: Final = """game,round,date,start,field,home,away
A1,1,2026-09-15,19:00,Field 1,Ash,Birch
A2,2,2026-09-17,19:00,Field 1,Birch,Ash
A3,3,2026-09-22,19:00,Field 1,Ash,Elder
A4,4,2026-09-24,19:00,Field 1,Elder,Birch
C1,1,2026-09-16,19:00,Field 1,Cedar,Dogwood
C2,2,2026-09-17,21:00,Field 1,Dogwood,Cedar
"""
_ROSTERS: Final = """team,number,name,person
Ash,4,Noor Zephirou,k-noor
Ash,7,Umaru Kealohana,k-umaru
Birch,14,Ondine Havenko,k-ondine
Birch,15,Rangi Farrowby,k-rangi
Elder,14,Ondine Havenko,k-ondine
Elder,16,Tadeo Merrowby,k-tadeo
Cedar,4,N. Zefirou,k-noor
Dogwood,,Bodil Lindqvar,
Dogwood,,Pavol Vasconde,
"""


def write_people(folder: Path, *, rules: str = RULES, **files: str) -> Path:
    """Write the season, with some files otherwise, and return its folder."""
    folder.mkdir()
    contents = {
        "season.toml": SEASON,
        "rulebook.toml": HOUSE + rules,
        "divisions.csv": _DIVISIONS,
        "teams.csv": _TEAMS,
        "timetable.csv": _TIMETABLE,
        "rosters.csv": _ROSTERS,
        "results.csv": "game,round,home,away,home_goals,away_goals\n",
        **{f"{name}.csv": text for name, text in files.items()},
    }
    for name, text in contents.items():
        (folder / name).write_text(text, encoding="utf-8")
    return folder


def enter(folder: Path, game: str, card: PaperCard, batch: int = 1) -> Entered:
    """Enter a game's scorecard as the batch of that number."""
    return enter_card(game_to_enter(FolderRecord(folder), GameId(game)), card, by=author(batch))


NOBODY_CAME = PaperCard(forfeit=PaperForfeit(by="away", why="not_ready"))


def card(home: int = 1, away: int = 0, **keys: object) -> PaperCard:
    """Return a scorecard of a game whose goals all fell in the first half."""
    return PaperCard(periods=(Score(home, away), Score(0, 0)), **keys)  # type: ignore[arg-type]


RED: Final = card(
    home_players=(PaperPlayer(4), PaperPlayer(7)),
    red=(PaperRed(side="home", number=4, reason="violent conduct"),),
)


def served(folder: Path, on: date = LATER) -> list[tuple[str, str, list[str]]]:
    """Return who is suspended, what brought it, and the games that served it."""
    found = discipline_of(read_folder(FolderRecord(folder)), on)
    return [
        (one.person, one.cause, [game.game for game in one.served]) for one in found.suspensions
    ]


ONDINE: Final = {"home_players": (PaperPlayer(14), PaperPlayer(16))}


def ineligible(folder: Path) -> None:
    """Let number 14 play for Birch in week 1, and for Elder in its 3-2 win in week 4."""
    enter(folder, "A1", card(away_players=(PaperPlayer(14),)))
    third = card(
        3,
        2,
        **ONDINE,
        yellow=(PaperYellow(side="home", number=14), PaperYellow(side="away", number=15)),
    )
    enter(folder, "A4", third)
