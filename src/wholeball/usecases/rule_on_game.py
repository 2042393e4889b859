"""Rules on a game on the day it is where the season is played."""

from datetime import datetime

from wholeball.files.folder import read_folder
from wholeball.league.record import LeagueRecord
from wholeball.usecases.award_game import Award, Awarded, award_game
from wholeball.usecases.local_day import local_day


def rule_on_game(record: LeagueRecord, award: Award, *, at: datetime, writes: bool) -> Awarded:
    """Return both versions of a game, and write the ruling where asked to.

    Raises:
        InputFaults: everything that is wrong with the season, or would be with the row.
        WholeballError: no such season or game, goals that do not fit, or it cannot be kept.
    """
    return award_game(record, award, on=local_day(read_folder(record), at), writes=writes)
