"""Rules on a game after it was played: shows what would change, and writes the row."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from datetime import date
from typing import Final, Literal, NamedTuple, TypeAlias

from wholeball.files.folder import SeasonFolder, read_folder
from wholeball.files.ruling_rows import with_ruling
from wholeball.files.rulings import FILE as RULINGS_FILE
from wholeball.files.table import MOST_BYTES
from wholeball.kernel.faults import Fault, WholeballError
from wholeball.kernel.identity import GameId, PoolId, Side, TeamId
from wholeball.kernel.nearest import did_you_mean
from wholeball.league.record import LeagueRecord
from wholeball.reports.not_as_played import as_awarded
from wholeball.season.result import CardCounts, Result
from wholeball.season.ruling import Ruling
from wholeball.season.season import Season, pool_tables, regulation
from wholeball.season.standings import Row
from wholeball.season.upheld import Out, upheld

To: TypeAlias = Literal["home", "away", "draw", "nobody", "as_played"]
"""Who is awarded a game; a game for nobody is annulled, one as played counts as it was played."""
TO: Final[tuple[To, ...]] = ("home", "away", "draw", "nobody", "as_played")


@dataclass(frozen=True, slots=True, kw_only=True)
class Award:
    """What is to be ruled; `goals` are home and away, None where the rulebook scores a forfeit."""

    game: GameId
    to: To
    why: str
    ref: str
    goals: tuple[int, int] | None = None


class Standing(NamedTuple):
    """Where a team stands in its pool; None as a whole where it has not played."""

    place: int
    points: int
    difference: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Moved:
    """A team whose line in the table changes."""

    pool: PoolId
    team: TeamId
    before: Standing | None
    after: Standing | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Awarded:
    """A ruling, the game before and after it, and what moves in the tables.

    `was` and `now` are the goals that count, None where the game has no result. `played` is the
    score as played. Cards are None where nobody recorded them. The draw of a bracket stays as it
    was made: `has_bracket` says there is one. `out` are the teams that it puts out of the league,
    `back` those that it takes back in. Of the remarks on the folder, `brought` are those on
    rulings and the doubts that this one brings.
    """

    ruling: Ruling
    home: TeamId
    away: TeamId
    played: tuple[int, int] | None
    was: tuple[int, int] | None
    now: tuple[int, int] | None
    home_cards: CardCounts | None
    away_cards: CardCounts | None
    moved: tuple[Moved, ...]
    out: tuple[Out, ...]
    back: tuple[TeamId, ...]
    has_bracket: bool
    remarks: tuple[Fault, ...]
    brought: tuple[Fault, ...]
    is_written: bool


def award_game(record: LeagueRecord, award: Award, *, on: date, writes: bool) -> Awarded:
    """Rule on a game and show what changes; write the row only where asked to.

    Nothing in the game's log changes, and yellow and red stand.

    Raises:
        InputFaults: everything that is wrong with the folder, or would be with the row.
        WholeballError: no such folder or game, goals that do not fit, or the disk refuses.
    """
    if not writes:
        return _ruled(record, award, on)[0]
    with record.held():
        found, data = _ruled(record, award, on)
        record.write({RULINGS_FILE: data})
    return replace(found, is_written=True)


def _ruled(record: LeagueRecord, award: Award, on: date) -> tuple[Awarded, bytes]:
    """Try the row: read the folder as it would be with it."""
    before = read_folder(record)
    _refuse_unknown(before, award.game)
    number = max((one.number for one in before.season.rulings), default=0) + 1
    ruling = _ruling(award, number, on)
    old = record.read(RULINGS_FILE, MOST_BYTES) if record.has(RULINGS_FILE) else None
    data = with_ruling(old, ruling)
    after = read_folder(record, instead={RULINGS_FILE: data})
    _refuse_uncited(before, after)
    return _compared(before, after, ruling), data


def _refuse_uncited(before: SeasonFolder, after: SeasonFolder) -> None:
    """Refuse a ruling that cites what looks like an article and is none: here it can be mended."""
    known = set(before.remarks)
    for one in after.remarks:
        if one.code == "unknown_article" and one not in known:
            raise WholeballError(
                one.says, fix=f"Nothing was written. {one.cure}", code="unknown_article"
            )


def _refuse_unknown(read: SeasonFolder, game: GameId) -> None:
    games = [*(one.game for one in read.timetable), *read.rows]
    if game not in games:
        raise WholeballError(
            f"There is no game {game} in timetable.csv or results.csv.",
            fix=f"Nothing was written. {did_you_mean(game, games)}",
            code="unknown_game",
        )


def _ruling(award: Award, number: int, on: date) -> Ruling:
    _refuse_goals(award)
    forfeits: Mapping[To, Side] = {"home": "away", "away": "home"}
    by = forfeits.get(award.to) if award.goals is None else None
    named: Mapping[To, Literal["annulled", "stands"]] = {
        "nobody": "annulled",
        "as_played": "stands",
    }
    ruled = named.get(award.to) or ("awarded" if award.goals is not None else "forfeit")
    return Ruling(
        number=number,
        game=award.game,
        day=on,
        ruled=ruled,
        goals=award.goals,
        by=by,
        ref=award.ref.strip(),
        why=award.why.strip(),
    )


def _refuse_goals(award: Award) -> None:
    home, away = award.goals or (0, 0)
    is_won = {"home": home > away, "away": away > home, "draw": home == away}
    if award.goals is None:
        is_right, cure = award.to != "draw", "Give the goals of the draw, such as --goals 1-1."
    elif award.to in is_won:
        is_right, cure = is_won[award.to], "Give goals, home first, that the side wins by."
    else:
        is_right, cure = False, "Leave the goals out: they come from the game."
    if not is_right:
        given = "no goals" if award.goals is None else f"goals {home}-{away}"
        raise WholeballError(
            f"A game for {award.to} with {given} does not fit.",
            fix=f"Nothing was written. {cure}",
            code="contradiction",
        )


def _compared(before: SeasonFolder, after: SeasonFolder, ruling: Ruling) -> Awarded:
    was, now = (_result(one.season, ruling.game) for one in (before, after))
    gone, goes = (
        {one.team: one for one in upheld(read.season.results, read.season.rulebook).out}
        for read in (before, after)
    )
    fixture = next((one for one in after.timetable if one.game == ruling.game), None)
    known = now or was
    if known is not None:
        home, away = known.home, known.away
    elif fixture is not None:
        home, away = fixture.home, fixture.away
    else:
        raise ValueError(f"game {ruling.game} is of no file and was not refused")
    return Awarded(
        ruling=ruling,
        home=home,
        away=away,
        played=_played(was, now),
        was=_counted(was, before.season),
        now=_counted(now, after.season),
        home_cards=None if known is None else known.home_cards,
        away_cards=None if known is None else known.away_cards,
        moved=tuple(_moved(before.season, after.season)),
        out=tuple(one for team, one in goes.items() if team not in gone),
        back=tuple(team for team in gone if team not in goes),
        has_bracket=bool(after.brackets),
        remarks=after.remarks,
        brought=tuple(_brought(before, after)),
        is_written=False,
    )


def _brought(before: SeasonFolder, after: SeasonFolder) -> Iterator[Fault]:
    for one in after.remarks:
        is_new = one.level == "doubt" and one not in before.remarks
        if is_new or one.place.file == RULINGS_FILE:
            yield one


def _result(season: Season, game: GameId) -> Result | None:
    every = (*season.results, *season.outside.play_offs, *season.play_offs)
    return next((one for one in every if one.game == game), None)


def _played(was: Result | None, now: Result | None) -> tuple[int, int] | None:
    """Return the score as played, whichever of the two results still has it."""
    for one in (now, was):
        if one is not None and one.played_score is not None:
            return one.played_score
        if one is not None and one.how == "played":
            return one.home_goals, one.away_goals
    return None


def _counted(result: Result | None, season: Season) -> tuple[int, int] | None:
    if result is None or result.how == "annulled":
        return None
    return as_awarded(result, regulation(season.rulebook).counting)


def _moved(before: Season, after: Season) -> Iterator[Moved]:
    """Yield the teams whose line changes, pool by pool, in the order of the new table."""
    for pool in after.league.pools:
        old, new = _lines(before, pool), _lines(after, pool)
        for team in new | old:
            if old.get(team) != new.get(team):
                yield Moved(pool=pool, team=team, before=old.get(team), after=new.get(team))


def _lines(season: Season, pool: PoolId) -> dict[TeamId, Standing]:
    tables = pool_tables(season, pool)
    rows: tuple[Row, ...] = tuple(tables[-1].standings.rows) if tables else ()
    return {one.team: Standing(one.place, one.points, one.difference) for one in rows}
