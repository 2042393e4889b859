"""Corrects the name of a team wherever a season has it, and takes out a team that nothing names."""

from collections.abc import Iterator

from wholeball.files.fewer_rows import without_rows
from wholeball.files.folder import SeasonFolder, read_folder
from wholeball.files.game_log import FOLDER as LOGS
from wholeball.files.table import MOST_BYTES
from wholeball.files.team_names import FILES, naming, renamed
from wholeball.files.teams import FILE
from wholeball.files.timetable import FILE as TIMETABLE_FILE
from wholeball.kernel.faults import WholeballError
from wholeball.kernel.identity import TeamId
from wholeball.league.record import LeagueRecord
from wholeball.rulebook.sentence import listed
from wholeball.store.changes import is_private
from wholeball.store.drafts import drafts_of
from wholeball.store.models import Season
from wholeball.store.record import DatabaseRecord
from wholeball.store.team_access import follow_team
from wholeball.usecases.named_rows import named, normal, refuse_gone, refuse_twice, text_of
from wholeball.usecases.season_draws import season_draws

_SHOWN = 3


def correct_team(record: LeagueRecord, team: str, name: str) -> None:
    """Call a team otherwise in every file that names it: all of them, or none.

    Raises:
        InputFaults: there is a team of that name, or the season would have a fault.
        WholeballError: it is not there any more, or something names it that is sealed.
    """
    with record.held():
        read = read_folder(record)
        teams = _teams(read)
        refuse_gone(team, teams, what="This team")
        others = [one for one in teams if one != team]
        refuse_twice(name, others, column="team", file=FILE)
        _refuse_sealed(record, read, TeamId(team))
        changed = renamed(_texts(record), team, normal(name))
        read_folder(record, instead=changed)
        record.write(changed, private=frozenset(filter(is_private, changed)))


def correct_team_on_site(record: DatabaseRecord, team: str, name: str) -> str:
    """Call a team otherwise, and let roles, invitations and feeds of it follow: all, or none.

    The name is returned as it is kept.

    Raises:
        InputFaults: there is a team of that name, or the season would have a fault.
        WholeballError: it is not there any more, something names it that is sealed, or somebody
            has a draft of the timetable in which it plays.
    """
    with record.held():
        _refuse_drafted(record.season, team)
        correct_team(record, team, name)
        follow_team(record.season, team, normal(name))
    return normal(name)


def drop_team(record: LeagueRecord, team: str) -> None:
    """Take a team out of a season in which nothing else names it.

    Raises:
        InputFaults: the season would have a fault without it; nothing was written.
        WholeballError: it is not there any more, or something names it.
    """
    with record.held():
        read = read_folder(record)
        refuse_gone(team, _teams(read), what="This team")
        _refuse_sealed(record, read, TeamId(team))
        files = naming(_texts(record), team)
        if files:
            raise WholeballError(
                f"{team} is named in {listed(files)}.",
                fix="Nothing was changed. Take it out there first, or let it stay.",
                code="named",
            )
        text = without_rows(text_of(record, FILE), lambda row: named(row, "team") == team)
        read_folder(record, instead={FILE: text})
        record.write({FILE: text})


def drop_team_on_site(record: DatabaseRecord, team: str) -> None:
    """Take a team out, unless somebody works on a timetable in which it plays.

    Raises:
        InputFaults: the season would have a fault without it; nothing was written.
        WholeballError: it is not there any more, or something or somebody's draft names it.
    """
    with record.held():
        _refuse_drafted(record.season, team)
        drop_team(record, team)


def _teams(read: SeasonFolder) -> list[str]:
    return [one.team for one in read.season.league.teams]


def _texts(record: LeagueRecord) -> dict[str, bytes]:
    return {name: record.read(name, MOST_BYTES) for name in FILES if record.has(name)}


def _refuse_drafted(season: Season, team: str) -> None:
    """Refuse while somebody works on a timetable that has the old name."""
    for draft in drafts_of(season, TIMETABLE_FILE):
        if naming({TIMETABLE_FILE: draft.text.encode()}, team):
            raise WholeballError(
                f"{draft.account} has a draft of the timetable in which {team} plays.",
                fix="Nothing was changed. Publish that draft first, or throw it away.",
                code="drafted",
            )


def _refuse_sealed(record: LeagueRecord, read: SeasonFolder, team: TeamId) -> None:
    """Refuse where the name stands in what is kept for ever as it was told."""
    found = tuple(_sealed(record, read, team))
    if found:
        more = len(found) - _SHOWN
        told = (*found[:_SHOWN], f"{more} more") if more > 0 else found
        raise WholeballError(
            f"{team} has what is sealed: {listed(told)}.",
            fix="Nothing was changed. What was recorded and drawn stays as it was told, so the "
            "team keeps its name here: give it the right one in the next season.",
            code="sealed",
        )


def _sealed(record: LeagueRecord, read: SeasonFolder, team: TeamId) -> Iterator[str]:
    """Yield what names a team for ever: logs of its games, and draws of lots."""
    logs = record.names(LOGS)
    for fixture in read.timetable:
        if team in (fixture.home, fixture.away) and f"{fixture.game}.jsonl" in logs:
            yield f"the log of game {fixture.game}"
    for one in season_draws(record):
        if team in one.commitment.participants:
            yield f"the draw {one.commitment.label}"
