"""Says for staff why a person may not play, how to mend it, and how a suspension stands."""

from collections.abc import Mapping
from typing import Final

from wholeball.kernel.identity import GameId
from wholeball.reports.dates import day
from wholeball.rulebook.book import Rulebook
from wholeball.rulebook.sentence import counted, listed
from wholeball.rulebook.words.lookup import ALL
from wholeball.season.appearances import Unknown
from wholeball.season.reason_not import Code, Reason
from wholeball.season.suspension import Cause, Suspension
from wholeball.season.wearers import WhyUnknown

CAPTAIN_SEES: Final = "See the coordinator."
_SAYS: Final[Mapping[Code, str]] = {
    "not_on_roster": "is not on the roster",
    "not_yet_on_roster": "came onto the roster only on {day}",
    "suspended": "is suspended{left}",
    "other_team": "is bound to {teams}",
    "club_players": "is beyond the {most} club players that a roster may have",
    "added_late": "was added after {day}, the last day for it",
    "added_too_near": "was added on {day}, less than {hours} before the game",
    "waiver_missing": "has signed no waiver",
    "waiver_expired": "signed a waiver that ended on {day}",
    "identification_forgotten": "shows no ID",
    "identification_used_up": "shows no ID, and has forgotten it {times} before",
    "not_cleared": "is blocked at the gate",
    "blocked_that_day": "was blocked on the day of this game",
    "too_few_games": "has played {played} of the {most} that the play-offs need",
    "games_not_recorded": "has {played} on record of the {most} that the play-offs need",
    "fee_open": "is the captain of a team that owes a fee",
    "refused": "was refused at the gate",
}
_CURES: Final[Mapping[Code, str]] = {
    "not_on_roster": "Add the player to rosters.csv, if the rulebook still allows it.",
    "not_yet_on_roster": "Mend the day in rosters.csv if it is wrong.",
    "suspended": "A decision goes into discipline.csv.",
    "other_team": "The player stays with that team; the coordinator may decide otherwise.",
    "club_players": "Mend people.csv if it is wrong; the players added first stay.",
    "added_late": "Mend the day in rosters.csv if it is wrong.",
    "added_too_near": "The player may play in the next game.",
    "waiver_missing": "Let the player sign, and write the last day into people.csv.",
    "waiver_expired": "Let the player sign again, and write the last day into people.csv.",
    "identification_forgotten": "The supervisor may let the player in who knows them.",
    "identification_used_up": "The player comes back with an ID.",
    "not_cleared": "The coordinator knows why, and lifts the block in not_cleared.csv.",
    "blocked_that_day": "Look whether that was before the game.",
    "too_few_games": "Mend the check-in of an earlier game if it is wrong.",
    "games_not_recorded": "Look at the scorecards of games without a check-in.",
    "fee_open": "Write what was paid or waived into fees.csv.",
    "refused": "The coordinator decides.",
}
_CAUSES: Final[Mapping[Cause, str]] = {
    "yellows": "yellows in the season",
    "red": "a red",
    "second_red": "another red in the season",
    "ruling": "a ruling",
}
_UNKNOWN: Final[Mapping[WhyUnknown, tuple[str, str, str]]] = {
    "no_number": (
        "a player of {team} without a number",
        "nobody can tell who it was",
        "Give the player a shirt's number in the scorecard's players, or decide in discipline.csv.",
    ),
    "not_on_roster": (
        "number {number} of {team}",
        "the roster has no such number",
        "Compare with the scorecard, or add the player to rosters.csv.",
    ),
    "shared_number": (
        "number {number} of {team}",
        "more than one player wears it",
        'Write who wore it as "Name={number}" into the scorecard\'s players, or mend rosters.csv.',
    ),
    "shared_name": (
        "{name} of {team}",
        "the roster has more than one of that name",
        "Write the person's code instead of the name.",
    ),
    "unknown_name": (
        "{name} of {team}",
        "no roster has that name or code",
        "Write the name as rosters.csv has it, or add the player.",
    ),
    "team_official": (
        "a team official of {team}",
        "a team official is on no roster",
        "Decide in discipline.csv, if the person is on one.",
    ),
}
_ABOUT: Final = {
    "check_in": "was checked in",
    "goal": "scored",
    "yellow": "was shown yellow",
    "red": "was shown red",
}


def reason_words(reason: Reason) -> str:
    """Return why a person may not play, as the rest of a sentence; for staff only."""
    most = reason.most or 0
    is_games = reason.code in ("too_few_games", "games_not_recorded")
    return _SAYS[reason.code].format(
        day=day(reason.day) if reason.day else "",
        teams=listed(reason.teams),
        hours=counted(most, "hour"),
        times=counted(reason.count or 0, "time"),
        played=counted(reason.count or 0, "game"),
        most=counted(most, "game") if is_games else str(most),
        left=_left(reason),
    )


def cure_words(reason: Reason) -> str:
    """Return how a reason is mended; for staff only."""
    return _CURES[reason.code]


def captain_words(reason: Reason) -> str:
    """Return what a captain may read of a reason."""
    if reason.is_private:
        return CAPTAIN_SEES
    says = reason_words(reason)
    return f"{says[0].upper()}{says[1:]}."


def _left(reason: Reason) -> str:
    until = f" until {day(reason.day)}" if reason.day else ""
    games = f" for {counted(reason.count, 'more game')}" if reason.count else ""
    meeting = ", and waits for a meeting" if reason.waits else ""
    return f"{until}{games}{meeting}{unless_words(reason.games)}"


def unless_words(games: tuple[GameId, ...]) -> str:
    """Return which games to come would serve what is left; nothing where none can."""
    if not games:
        return ""
    return f", unless {listed(games)} {'serves' if len(games) == 1 else 'serve'} what is left"


def cause_words(suspension: Suspension, book: Rulebook) -> str:
    """Return what brought a suspension, from which game, and by which article."""
    game = f" in game {suspension.game}" if suspension.game else ""
    return f"{_CAUSES[suspension.cause]}{game} ({article_name(suspension.article, book)})"


def still_words(suspension: Suspension) -> str:
    """Return what is left of a suspension."""
    if suspension.lifted is not None:
        return f"lifted from {day(suspension.lifted)} on"
    parts = (
        *((f"until {day(suspension.until)}",) if suspension.until else ()),
        *((f"{counted(suspension.left, 'game')} left",) if suspension.left else ()),
        *(("waits for a meeting",) if suspension.waits else ()),
    )
    return listed(parts) or "nothing left"


def article_name(path: str, book: Rulebook) -> str:
    """Return how people cite an article; what is no path of the rulebook is a ruling's citation."""
    return (book.article(path).ref if path in ALL else "") or path


def unknown_words(unknown: Unknown) -> tuple[str, str]:
    """Return what happened to somebody whom nobody can tell, and why not; and the cure."""
    who, because, cure = (
        text.format(team=unknown.team, number=unknown.number, name=unknown.name)
        for text in _UNKNOWN[unknown.why]
    )
    return f"{who} {_ABOUT[unknown.about]}, and {because}.", cure
