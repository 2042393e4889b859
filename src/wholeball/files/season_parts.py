"""Makes a season of what its files say, and finds where one file contradicts another."""

from collections.abc import Collection, Iterable, Iterator
from dataclasses import replace

from wholeball.files.game_log import log_name
from wholeball.files.game_results import FromGames
from wholeball.files.logs import Logs
from wholeball.files.results import FILE as RESULTS_FILE
from wholeball.files.results import Results
from wholeball.files.rulings import FILE as RULINGS_FILE
from wholeball.files.season_toml import SeasonEntry, SeasonToml
from wholeball.files.teams import FILE as TEAMS_FILE
from wholeball.kernel.faults import Fault, Place
from wholeball.kernel.identity import GameId, TeamId
from wholeball.kernel.lines import Loc
from wholeball.kernel.nearest import choices, did_you_mean
from wholeball.kernel.refusals import toml_text
from wholeball.league.division import Block, Division
from wholeball.league.league import League, Team
from wholeball.rulebook.book import Rulebook
from wholeball.rulebook.load import Loaded
from wholeball.season.count import Deduction
from wholeball.season.result import Result
from wholeball.season.ruled import as_ruled, holding
from wholeball.season.ruling import Ruling
from wholeball.season.season import Season
from wholeball.season.tally import Lots, OutsideFigures


def league_of(
    entry: SeasonEntry,
    teams: tuple[Team, ...],
    divisions: tuple[Division, ...] = (),
    blocks: tuple[Block, ...] = (),
) -> League:
    """Return the league that season.toml, teams.csv and the files of its divisions state."""
    return League(
        name=entry.name,
        timezone=entry.timezone,
        first_day=entry.first_day,
        last_day=entry.last_day,
        teams=teams,
        divisions=divisions,
        blocks=blocks,
    )


def unknown_teams(said: SeasonToml, league: League) -> list[Fault]:
    """Find the teams that season.toml names and teams.csv does not."""
    known = {str(team.team): None for team in league.teams}
    return [
        Fault(
            code="unknown_team",
            place=replace(said.source.place(loc), article=str(loc[0])),
            says=f"{loc[0]} names {toml_text(team)}, which is no team of {TEAMS_FILE}.",
            value=team,
            allowed=choices(known),
            cure=did_you_mean(team, known),
        )
        for loc, team in _named_teams(said.entry)
        if team not in known
    ]


def _named_teams(entry: SeasonEntry) -> Iterator[tuple[Loc, str]]:
    for index, deduction in enumerate(entry.deductions):
        yield ("deductions", index, "team"), deduction.team
    for index, lots in enumerate(entry.lots):
        for at, team in enumerate(lots.order):
            yield ("lots", index, "order", at), team
    for index, team in enumerate(entry.outside_ranking):
        yield ("outside_ranking", index), team
    for team in entry.discipline_points:
        yield ("discipline_points", team), team


def idle_lots(said: SeasonToml, loaded: Loaded) -> list[Fault]:
    """Find lots in season.toml where the rulebook lets no lots decide, places or seeds."""
    lots, last_resort = said.entry.lots, loaded.rulebook.standings.last_resort
    gives_seeds = loaded.rulebook.play_offs.qualify != "none"
    if not lots or gives_seeds or last_resort in ("lots", "coordinator"):
        return []
    fault = Fault(
        code="contradiction",
        place=replace(said.source.place(("lots",)), article="lots"),
        says=f"lots are given, but [standings] last_resort is {last_resort}.",
        value=lots[0].label,
        allowed="an order only where lots or the coordinator decide",
        cure='Take the lots out, or write last_resort = "lots" in rulebook.toml.',
    )
    return [fault]


def played_twice(results: Results, logs: Logs) -> list[Fault]:
    """Find the games whose result stands in results.csv and that have a log besides."""
    return [
        Fault(
            code="duplicate",
            place=Place(file=RESULTS_FILE, row=row, column="game"),
            says=f"game {game} has a result here and a log, {log_name(game)}.",
            value=game,
            cure="A result stands once: take the row out, or the log.",
        )
        for game, row in results.rows.items()
        if game in logs.by_game
    ]


def idle_rulings(rulings: Iterable[Ruling], played: Collection[GameId]) -> list[Fault]:
    """Doubt rulings that let a game stand that has no result."""
    return [
        Fault(
            code="no_result",
            place=Place(file=RULINGS_FILE),
            says=f"ruling {one.number} lets game {one.game} stand, which has no result.",
            value=one.game,
            cure="Enter the game, or mend the ruling.",
            level="doubt",
        )
        for one in rulings
        if one.ruled == "stands" and one.game not in played
    ]


def season_of(
    entry: SeasonEntry,
    league: League,
    rulebook: Rulebook,
    *,
    plain: Results,
    games: FromGames,
    rulings: tuple[Ruling, ...],
) -> Season:
    """Return the season; plain results come before those of games, as ruled."""
    held = holding(rulings)
    return Season(
        league=league,
        rulebook=rulebook,
        results=(*(as_ruled(one, held.get(one.game)) for one in plain.results), *games.results),
        source=entry.source,
        deductions=tuple(
            Deduction(
                team=TeamId(one.team),
                points=one.points,
                why=one.why,
                ref=one.ref,
                round=one.round,
            )
            for one in entry.deductions
        ),
        rulings=rulings,
        damaged=frozenset(games.damaged),
        outside=_outside(
            entry,
            (*(as_ruled(one, held.get(one.game)) for one in plain.deciders), *games.deciders),
        ),
        play_offs=(
            *(as_ruled(one, held.get(one.game)) for one in plain.play_offs),
            *games.play_offs,
        ),
        days={**plain.days, **games.days},
        notes=plain.notes,
        given_up=games.given_up,
        has_one_bracket=entry.brackets == "one",
    )


def _outside(entry: SeasonEntry, deciders: tuple[Result, ...]) -> OutsideFigures:
    ranked = enumerate(entry.outside_ranking, start=1)
    return OutsideFigures(
        ranking={TeamId(team): position for position, team in ranked},
        discipline_points={
            TeamId(team): points for team, points in entry.discipline_points.items()
        },
        play_offs=deciders,
        lots=tuple(
            Lots(label=one.label, order=tuple(map(TeamId, one.order))) for one in entry.lots
        ),
    )
