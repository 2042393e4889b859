"""Shows who goes on to the play-offs and the brackets they make, and draws each once."""

from collections.abc import Iterator, Sequence
from contextlib import nullcontext
from dataclasses import dataclass, replace
from itertools import chain
from pathlib import Path

from wholeball.files.folder import SeasonFolder, read_folder
from wholeball.files.timetable import FILE as TIMETABLE_FILE
from wholeball.files.write import write_places
from wholeball.kernel.faults import Fault, Place, WholeballError
from wholeball.kernel.identity import TeamId
from wholeball.kernel.nearest import did_you_mean
from wholeball.league.fixture import OpenSide, Seeded
from wholeball.league.record import LeagueRecord
from wholeball.reports.bracket_svg import bracket_svg
from wholeball.reports.bracket_words import bracket_title
from wholeball.season.bracket import MOST, BracketGame, bracket, listed
from wholeball.season.bracket_conflicts import Conflict, conflicts
from wholeball.season.bracket_parts import brackets_of
from wholeball.season.bracket_run import run
from wholeball.season.season import Season
from wholeball.usecases.bracket_stands import BracketStands, brackets_stand
from wholeball.usecases.draw_brackets import draw_brackets
from wholeball.usecases.unwritten_forfeits import unwritten_forfeits


@dataclass(frozen=True, slots=True, kw_only=True)
class BracketsShown:
    """The brackets of a season that were asked for, and who could not play in their games.

    `are_apart` says that the season has a bracket for each of several divisions.
    """

    season: Season
    brackets: tuple[BracketStands, ...]
    are_apart: bool
    conflicts: tuple[Conflict, ...]
    remarks: tuple[Fault, ...]
    written: tuple[str, ...]


def show_bracket(
    record: LeagueRecord,
    *,
    division: str | None = None,
    draw: bool = False,
    svg: Path | None = None,
) -> BracketsShown:
    """Return who goes on and the brackets; with `draw` write bracket.csv, each bracket once.

    Only the bracket of `division` is shown, drawn and made a picture of, where one is given.

    Raises:
        InputFaults: everything that is wrong with the folder.
        WholeballError: there is no such folder or division, or a picture is asked of several;
            or, to draw: there are no play-offs, a bracket was drawn already, or level teams
            are still to be parted.
    """
    with record.held() if draw else nullcontext():
        read = read_folder(record)
        stand = _asked(brackets_stand(read), division)
        written = []
        if draw:
            written.append(draw_brackets(record, read, stand))
            read = replace(read, brackets=_with_drawn(read, stand))
            stand = _asked(brackets_stand(read), division)
    for one in stand:
        if len(one.teams) > MOST:
            bracket(len(one.teams), third_place=False)
    if svg is not None:
        written.append(str(_picture(stand, svg)))
    return BracketsShown(
        season=read.season,
        brackets=stand,
        are_apart=len(brackets_of(read.season)) > 1,
        conflicts=tuple(one for one in _conflicts(read) if _is_of(one, stand)),
        remarks=(
            *read.remarks,
            *chain.from_iterable(unwritten_forfeits(one.coming) for one in stand),
            *_of_no_line(read, stand),
        ),
        written=tuple(written),
    )


def _asked(stand: tuple[BracketStands, ...], division: str | None) -> tuple[BracketStands, ...]:
    if division is None:
        return stand
    found = tuple(one for one in stand if one.bracket == division != "")
    if found:
        return found
    names = [one.bracket for one in stand if one.bracket]
    raise WholeballError(
        f"No bracket is that of {division}.",
        fix=did_you_mean(division, names)
        if names
        else "The season has one bracket: leave the division out.",
        code="unknown_division",
    )


def _with_drawn(
    read: SeasonFolder, stand: Sequence[BracketStands]
) -> dict[str, tuple[TeamId, ...]]:
    """Return the brackets as they are once those that were not drawn before are."""
    return {one.bracket: one.teams for one in stand} | dict(read.brackets)


def _picture(stand: Sequence[BracketStands], svg: Path) -> Path:
    if len(stand) > 1:
        names = ", ".join(one.bracket for one in stand)
        raise WholeballError(
            f"One picture cannot hold the brackets of {names}.",
            fix="Name one of them with --division.",
            code="several_brackets",
        )
    (one,) = stand
    if not one.lines:
        raise WholeballError(
            "There is no bracket to make a picture of.",
            fix="A bracket needs two teams that go on: see what wholeball bracket DIR says.",
            code="bracket_size",
        )
    drawing = bracket_svg(one.lines, one.teams, title=bracket_title(one.bracket))
    write_places({svg.parent: {svg.name: drawing.encode()}})
    return svg


def _of_no_line(read: SeasonFolder, stand: Sequence[BracketStands]) -> Iterator[Fault]:
    """Doubt each result of a bracket whose teams meet in no game of it as it was drawn."""
    for bracket_stands in stand:
        if not bracket_stands.drawn:
            continue
        of_teams = frozenset(one.team for one in bracket_stands.season.league.teams)
        lines = bracket_stands.lines
        met = {frozenset((one.result.home, one.result.away)) for one in lines if one.result}
        for one in read.season.play_offs:
            sides = frozenset((one.home, one.away))
            if one.how != "annulled" and sides & of_teams and sides not in met:
                yield Fault(
                    code="contradiction",
                    place=Place(file=TIMETABLE_FILE),
                    says=f"game {one.game}, {one.home} v {one.away}, is no game of the bracket as drawn.",
                    value=str(one.game),
                    cure="Compare its sides with the bracket, and the rulings with who played.",
                    level="doubt",
                )


def _conflicts(read: SeasonFolder) -> tuple[Conflict, ...]:
    """Return the conflicts of the bracket's games as the timetable lists them."""
    known = [
        BracketGame(game=one.game, round=one.round, home=one.home, away=one.away)
        for one in read.timetable
        if one.stage == "play_off"
    ]
    still_open = [
        replace(one, home=_side(one.home, read), away=_side(one.away, read))
        for one in read.open_fixtures
    ]
    every = tuple(one.team for one in read.season.league.teams)
    sides = chain.from_iterable((one.home, one.away) for one in still_open)
    named = {one.bracket: every for one in sides if isinstance(one, Seeded)}
    lines = run(
        [*known, *listed(still_open)],
        {},
        read.season.play_offs,
        candidates=named | brackets_of(read.season),
    )
    starts = {one.game: (one.day, one.start) for one in read.timetable}
    starts |= {one.game: (one.day, one.start) for one in read.open_fixtures}
    return conflicts(
        lines, read.rosters, officials=read.officials, crews=read.crews, starts=starts
    )


def _is_of(conflict: Conflict, stand: Sequence[BracketStands]) -> bool:
    """Tell whether a conflict is about a team of the brackets that are shown."""
    shown = {one.team for each in stand for one in each.season.league.teams}
    return not shown.isdisjoint(conflict.teams)


def _side(side: TeamId | OpenSide, read: SeasonFolder) -> TeamId | OpenSide:
    """Return the team of a seed, where its bracket was drawn."""
    if isinstance(side, Seeded):
        teams = read.brackets.get(side.bracket, ())
        return teams[side.seed - 1] if side.seed <= len(teams) else side
    return side
