"""Shows who goes on to the play-offs and the bracket they make, and draws it once."""

import csv
from collections.abc import Iterator, Sequence
from contextlib import nullcontext
from dataclasses import dataclass, replace
from io import StringIO
from pathlib import Path

from wholeball.files.bracket import FILE as BRACKET_FILE
from wholeball.files.folder import SeasonFolder, read_folder
from wholeball.files.hold import held_folder
from wholeball.files.timetable import FILE as TIMETABLE_FILE
from wholeball.files.write import write_files, write_places
from wholeball.kernel.faults import Fault, Place, WholeballError
from wholeball.kernel.identity import TeamId
from wholeball.league.fixture import OpenSide, Seeded
from wholeball.reports.bracket_svg import bracket_svg
from wholeball.reports.bracket_words import change_line, undecided_line
from wholeball.rulebook.sentence import listed as listed_words
from wholeball.season.bracket import BracketGame, Seeding, bracket, kept_apart, listed
from wholeball.season.bracket_conflicts import Conflict, conflicts
from wholeball.season.bracket_run import Change, Line, changes, run
from wholeball.season.gate_open import gates
from wholeball.season.qualified import Qualified, qualified
from wholeball.season.season import Season
from wholeball.season.to_come import to_come
from wholeball.usecases.unwritten_forfeits import unwritten_forfeits


@dataclass(frozen=True, slots=True, kw_only=True)
class BracketShown:
    """Who goes on as it stands, and the bracket: the drawn one, or else the one it would be.

    `seeding` are the seeds computed now, after teams of one pool were kept apart. `changes`
    are what a new draw would change of the drawn one, which stands.
    """

    season: Season
    qualified: Qualified
    seeding: Seeding
    drawn: tuple[TeamId, ...]
    changes: tuple[Change, ...]
    lines: tuple[Line, ...]
    conflicts: tuple[Conflict, ...]
    left: int
    remarks: tuple[Fault, ...]
    written: tuple[Path, ...]


def show_bracket(folder: Path, *, draw: bool = False, svg: Path | None = None) -> BracketShown:
    """Return who goes on and the bracket; with `draw` write bracket.csv, which is done once.

    Raises:
        InputFaults: everything that is wrong with the folder.
        WholeballError: there is no such folder; or, to draw: there are no play-offs, a bracket
            was drawn already, or level teams are still to be parted.
    """
    with held_folder(folder) if draw else nullcontext():
        read = read_folder(folder)
        coming = to_come(read.season, read.timetable)
        found = qualified(coming.season, failing=gates(coming.season, coming.left).below)
        seeding = _seeding(read.season, found)
        if draw:
            _refuse_to_draw(read, found, seeding)
            write_files(folder, {BRACKET_FILE: _csv(seeding.teams)})
    drawn = seeding.teams if draw else read.bracket
    lines = _lines(read, drawn or seeding.teams)
    written = [folder / BRACKET_FILE] if draw else []
    if svg is not None:
        _refuse_picture(lines)
        teams = drawn or seeding.teams
        write_places({svg.parent: {svg.name: bracket_svg(lines, teams).encode()}})
        written.append(svg)
    return BracketShown(
        season=read.season,
        qualified=found,
        seeding=seeding,
        drawn=drawn,
        changes=changes(drawn, seeding.teams) if drawn else (),
        lines=lines,
        conflicts=_conflicts(read),
        left=len(coming.left),
        remarks=(*read.remarks, *unwritten_forfeits(coming), *_of_no_line(read, lines)),
        written=tuple(written),
    )


def _seeding(season: Season, found: Qualified) -> Seeding:
    rules = season.rulebook.play_offs
    if rules.same_pool == "not_asked" or len(found.teams) < 2:
        return Seeding(teams=found.teams)
    pools = {one.team: one.pool for one in season.league.teams}
    return kept_apart(found.teams, pools)


def _lines(read: SeasonFolder, teams: Sequence[TeamId]) -> tuple[Line, ...]:
    if not len(teams) >= 2:
        return ()
    games = bracket(len(teams), third_place=read.season.rulebook.play_offs.third_place)
    return run(games, dict(enumerate(teams, start=1)), read.season.play_offs)


def _of_no_line(read: SeasonFolder, lines: Sequence[Line]) -> Iterator[Fault]:
    """Doubt each result of the bracket whose teams meet in no game of it as it was drawn."""
    met = {frozenset((one.result.home, one.result.away)) for one in lines if one.result}
    for one in read.season.play_offs if read.bracket else ():
        if one.how != "annulled" and frozenset((one.home, one.away)) not in met:
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
    lines = run(
        [*known, *listed(still_open)],
        {},
        read.season.play_offs,
        candidates=[one.team for one in read.season.league.teams],
    )
    starts = {one.game: (one.day, one.start) for one in read.timetable}
    starts |= {one.game: (one.day, one.start) for one in read.open_fixtures}
    return conflicts(
        lines, read.rosters, officials=read.officials, crews=read.crews, starts=starts
    )


def _side(side: TeamId | OpenSide, read: SeasonFolder) -> TeamId | OpenSide:
    """Return the team of a seed, where its bracket was drawn."""
    if isinstance(side, Seeded):
        teams = read.brackets.get(side.bracket, ())
        return teams[side.seed - 1] if side.seed <= len(teams) else side
    return side


def _refuse_to_draw(read: SeasonFolder, found: Qualified, seeding: Seeding) -> None:
    if read.season.rulebook.play_offs.qualify == "none":
        raise WholeballError(
            "The rulebook has no play-offs to draw a bracket of.",
            fix="Say who goes on in [play_offs] qualify.",
            code="no_play_offs",
        )
    if read.brackets:
        raise WholeballError(
            "\n".join(_drawn_already(read, seeding)),
            fix="Who rules that it is drawn again takes the file away first, and says so to all.",
            code="drawn_already",
        )
    if found.undecided:
        raise WholeballError(
            "\n".join(map(undecided_line, found.undecided)),
            fix="Draw lots (wholeball draw commit) and write the order into season.toml.",
            code="undecided",
        )
    bracket(len(seeding.teams), third_place=False)


def _drawn_already(read: SeasonFolder, seeding: Seeding) -> list[str]:
    if not read.bracket:
        names = listed_words(tuple(read.brackets))
        return [f"{BRACKET_FILE} holds the draw of {names} already, and a draw is made once."]
    found = changes(read.bracket, seeding.teams)
    first = f"{BRACKET_FILE} holds the draw already, and a draw is made once."
    if not found:
        return [first, "A new draw would change nothing."]
    return [first, "A new draw would change:", *(f"  {change_line(one)}" for one in found)]


def _refuse_picture(lines: Sequence[Line]) -> None:
    if not lines:
        raise WholeballError(
            "There is no bracket to make a picture of.",
            fix="A bracket needs two teams that go on: see what wholeball bracket DIR says.",
            code="bracket_size",
        )


def _csv(teams: Sequence[TeamId]) -> bytes:
    text = StringIO()
    rows = csv.writer(text, lineterminator="\n")
    rows.writerow(("seed", "team"))
    rows.writerows(enumerate(teams, start=1))
    return text.getvalue().encode()
