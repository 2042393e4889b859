"""Adds the players of one list to the rosters of a whole league, all of them or none."""

from contextlib import nullcontext
from dataclasses import dataclass
from datetime import date

from wholeball.files.folder import SeasonFolder, read_folder
from wholeball.files.given_list import GivenList
from wholeball.files.league_list import LeagueList, read_league_list
from wholeball.files.roster_additions import Additions, Standing, additions
from wholeball.files.student_ids import IdKey
from wholeball.kernel.faults import Fault, InputFaults
from wholeball.kernel.identity import PersonId, TeamId
from wholeball.league.player import Player
from wholeball.league.record import LeagueRecord
from wholeball.usecases.add_to_roster import about_key, write_rows


@dataclass(frozen=True, slots=True, kw_only=True)
class TeamAdded:
    """What a list brings to one team; `players` is the size of its roster with them."""

    team: TeamId
    new: int
    already: int
    players: int


@dataclass(frozen=True, slots=True, kw_only=True)
class LeagueAdded:
    """What a list brings to each team that it names; `left` are headings passed over."""

    teams: tuple[TeamAdded, ...]
    new: int
    already: int
    left: tuple[str, ...]
    remarks: tuple[Fault, ...]


def add_to_rosters(
    record: LeagueRecord, given: GivenList, *, key: IdKey, day: date, dry_run: bool = False
) -> LeagueAdded:
    """Add the players of a list to the teams it names; done again, it changes nothing.

    Raises:
        InputFaults: everything that is wrong with the list, by its rows, or with the season.
        WholeballError: another key; it cannot be kept.
    """
    with nullcontext() if dry_run else record.held():
        read = read_folder(record)
        teams = [one.team for one in read.season.league.teams]
        listed = read_league_list(given.data, file=given.name, teams=teams)
        doubts = about_key(record, read, key)
        adding, rosters = _adding(read, listed, key, day)
        rows = [cells for one in adding for cells in one.cells()]
        if rows and not dry_run:
            write_rows(record, rows, key)
    return LeagueAdded(
        teams=tuple(
            TeamAdded(
                team=one.team,
                new=len(one.new),
                already=one.already,
                players=len(rosters[one.team]),
            )
            for one in adding
        ),
        new=len(rows),
        already=sum(one.already for one in adding),
        left=listed.left,
        remarks=(*doubts, *_remarks(listed, adding)),
    )


def _adding(
    read: SeasonFolder, listed: LeagueList, key: IdKey, day: date
) -> tuple[list[Additions], dict[TeamId, tuple[Player, ...]]]:
    """Hold the list against the rosters team by team; who came to one is known at the next."""
    rosters = {team: tuple(players) for team, players in read.rosters.items()}
    rules, league = read.season.rulebook.roster, read.season.league
    found: list[Additions] = []
    faults = list(listed.faults)
    new: set[tuple[TeamId, PersonId]] = set()
    for team, entries in listed.teams.items():
        to = Standing(
            team=team, league=league, rules=rules, rosters=rosters, new=frozenset(new)
        )
        try:
            adding = additions(entries, to, key=key, day=day)
        except InputFaults as refused:
            faults += refused.faults
            continue
        found.append(adding)
        rosters[team] = (*rosters.get(team, ()), *adding.players())
        new |= {(team, code) for code in adding.codes}
    if faults:
        raise InputFaults(sorted(faults, key=lambda one: one.place.row or 0))
    return found, rosters


def _remarks(listed: LeagueList, adding: list[Additions]) -> list[Fault]:
    told = [one for entries in listed.teams.values() for one in entries.remarks]
    told += [one for each in adding for one in each.remarks]
    return sorted(told, key=lambda one: one.place.row or 0)
