"""Looks for contradictions about forfeits, ratings, suspensions, tables, play-offs, crews."""

from collections.abc import Iterator
from itertools import pairwise
from typing import Final

from wholeball.rulebook.book import Rulebook
from wholeball.rulebook.checks.check import Contradiction, above, both, reads, stated, value_at
from wholeball.rulebook.criteria import AmongLevel
from wholeball.rulebook.tables.season import Crew

_WHISTLES: Final = frozenset({"referee", "lead", "trail"})
_NEEDS: Final = {
    "dual": "a lead and a trail",
    "diagonal": "a referee and two assistants",
    "double_dual": "a referee, a lead and a trail",
    "one_official": "one referee, lead or trail, and nobody beside but scorekeepers",
}


@reads("standings")
def _points_that_fall(book: Rulebook) -> Iterator[Contradiction]:
    names = ("win", "draw", "loss", "forfeit_loss")
    for better, worse in pairwise(f"standings.points.{name}" for name in names):
        if value_at(book, worse) > value_at(book, better):
            yield Contradiction(
                code="suspicious",
                keys=(worse, better),
                says=f"{stated(book, worse)}, but {stated(book, better)}: the worse result is "
                "worth more.",
                cure="Change one of them, or write confirm = true in [standings].",
            )


@reads("standings")
def _figure_twice(book: Rulebook) -> Iterator[Contradiction]:
    for index, criterion in enumerate(book.standings.criteria):
        figures = criterion.among_level if isinstance(criterion, AmongLevel) else ()
        for at, figure in enumerate(figures):
            first = figures.index(figure)
            if first != at:
                key = f"standings.criteria.{index}.among_level"
                yield Contradiction(
                    code="duplicate",
                    keys=(f"{key}.{at}", f"{key}.{first}"),
                    says=f"{stated(book, f'{key}.{at}')}, as is item {first + 1}.",
                    cure="Delete one of them.",
                )


@reads("standings", "ratings")
def _ratings_nobody_gives(book: Rulebook) -> Iterator[Contradiction]:
    criteria = book.standings.criteria
    if book.ratings.by == "nobody" and "ratings_average" in criteria:
        key = f"standings.criteria.{criteria.index('ratings_average')}"
        yield both(book, key, "ratings.by", cure="Say who rates, or drop the criterion.")


@reads("forfeit", "forfeit.default")
def _forfeit_nobody_wins(book: Rulebook) -> Iterator[Contradiction]:
    paths = ("forfeit.score", "forfeit.default.score")
    for path in paths if book.forfeit.default.allowed else paths[:1]:
        if value_at(book, f"{path}.winners") <= value_at(book, f"{path}.losers"):
            yield both(
                book,
                f"{path}.winners",
                f"{path}.losers",
                cure="The side that was ready wins: give it more goals.",
            )


@reads("forfeit.grace", "game")
def _waits_the_game_away(book: Rulebook) -> Iterator[Contradiction]:
    whole = book.game.periods * book.game.minutes
    if book.forfeit.grace.clock_runs and book.forfeit.grace.minutes >= whole:
        yield Contradiction(
            code="contradiction",
            keys=("forfeit.grace.minutes", "forfeit.grace.clock_runs", "game.minutes"),
            says=f"{stated(book, 'forfeit.grace.minutes')} and the clock runs, but "
            f"{stated(book, 'game.minutes')} and a game has only {whole}.",
            cure=f"Wait fewer than {whole} minutes.",
        )


@reads("forfeit.default")
def _default_without_notice(book: Rulebook) -> Iterator[Contradiction]:
    default = book.forfeit.default
    is_without = default.notice_day == "hours_before" and default.notice_hours == 0
    if is_without and default.allowed != 0:
        yield Contradiction(
            code="suspicious",
            keys=("forfeit.default.notice_hours", "forfeit.default.notice_day"),
            says=f"{stated(book, 'forfeit.default.notice_hours')}, but "
            f"{stated(book, 'forfeit.default.notice_day')}: a default needs no notice.",
            cure="Give the hours, or write confirm = true in [forfeit.default].",
        )


@reads("forfeit.fee")
def _waits_for_no_fee(book: Rulebook) -> Iterator[Contradiction]:
    if book.forfeit.fee.captain_waits and book.forfeit.fee.amount == 0:
        yield both(
            book,
            "forfeit.fee.captain_waits",
            "forfeit.fee.amount",
            cure="There is no fee to wait for: write captain_waits = false.",
        )


@reads("ratings")
def _highest_off_the_steps(book: Rulebook) -> Iterator[Contradiction]:
    scale = book.ratings.scale
    if book.ratings.by != "nobody" and not scale.has(scale.high):
        yield both(
            book,
            "ratings.scale.high",
            "ratings.scale.step",
            cure=f"No step from {scale.low} lands on {scale.high}: change one of them.",
        )


@reads("ratings", "ratings.given")
def _given_off_the_scale(book: Rulebook) -> Iterator[Contradiction]:
    scale = book.ratings.scale
    for name in ("forfeiting", "defaulting", "ready"):
        key = f"ratings.given.{name}"
        if book.ratings.by != "nobody" and not scale.has(value_at(book, key)):
            yield Contradiction(
                code="contradiction",
                keys=(key, "ratings.scale"),
                says=f"{stated(book, key)}, but [ratings] scale runs from {scale.low} to "
                f"{scale.high} in steps of {scale.step}.",
                cure="Give a rating of the scale.",
            )


@reads("ratings", "ratings.given")
def _forfeit_rated_better(book: Rulebook) -> Iterator[Contradiction]:
    names = ("ready", "defaulting", "forfeiting")
    for better, worse in pairwise(f"ratings.given.{name}" for name in names):
        if book.ratings.by != "nobody" and value_at(book, worse) > value_at(book, better):
            yield Contradiction(
                code="suspicious",
                keys=(worse, better),
                says=f"{stated(book, worse)}, but {stated(book, better)}: the worse conduct is "
                "rated better.",
                cure="Change one of them, or write confirm = true in [ratings.given].",
            )


@reads("discipline")
def _suspended_for_no_games(book: Rulebook) -> Iterator[Contradiction]:
    discipline = book.discipline
    keys = ("discipline.caution_games", "discipline.cautions_for_suspension")
    if discipline.cautions_for_suspension != "no_limit" and discipline.caution_games == 0:
        yield both(book, *keys, cure="Say for how many games.")
    if discipline.cautions_for_suspension == "no_limit" and discipline.caution_games > 0:
        yield both(
            book,
            *keys,
            code="suspicious",
            cure="Say how many yellows make a suspension, or write caution_games = 0.",
        )


@reads("discipline.red")
def _second_red_is_less(book: Rulebook) -> Iterator[Contradiction]:
    if book.discipline.red.second_games < book.discipline.red.games:
        yield Contradiction(
            code="suspicious",
            keys=("discipline.red.second_games", "discipline.red.games"),
            says=f"{stated(book, 'discipline.red.second_games')}, but "
            f"{stated(book, 'discipline.red.games')}: a second red costs less than the first.",
            cure="Change one of them, or write confirm = true in [discipline.red].",
        )


@reads("play_offs")
def _places(book: Rulebook) -> Iterator[Contradiction]:
    play_offs = book.play_offs
    if (play_offs.qualify in ("all", "none")) == (play_offs.places > 0):
        yield both(
            book,
            "play_offs.places",
            "play_offs.qualify",
            cure='Give the places "per_pool" or "overall", and 0 for "all" or "none".',
        )


@reads("play_offs")
def _third_of_three(book: Rulebook) -> Iterator[Contradiction]:
    play_offs = book.play_offs
    is_small = play_offs.qualify == "overall" and 0 < play_offs.places < 4
    if play_offs.third_place and (is_small or play_offs.qualify == "none"):
        yield both(
            book,
            "play_offs.third_place",
            "play_offs.places" if is_small else "play_offs.qualify",
            cure="A game for third place needs two losers: write third_place = false.",
        )


@reads("crew")
def _crew_and_roles(book: Rulebook) -> Iterator[Contradiction]:
    roles = len(book.crew.roles)
    if book.crew.size != roles:
        yield Contradiction(
            code="contradiction",
            keys=("crew.size", "crew.roles"),
            says=f"{stated(book, 'crew.size')}, but [crew] roles names {roles}.",
            cure=f"Write size = {roles}, or name as many roles as there are people.",
        )
    yield from above(book, "crew.least", "crew.size")


@reads("crew")
def _system_and_roles(book: Rulebook) -> Iterator[Contradiction]:
    if not _fits(book.crew):
        yield both(
            book,
            "crew.system",
            "crew.roles",
            cure=f"That system needs {_NEEDS[book.crew.system]}.",
        )


def _fits(crew: Crew) -> bool:
    match crew.system:
        case "dual":
            return {"lead", "trail"} <= set(crew.roles)
        case "diagonal":
            return "referee" in crew.roles and crew.roles.count("assistant") >= 2
        case "double_dual":
            return set(crew.roles) >= _WHISTLES
        case "one_official":
            officials = [role for role in crew.roles if role != "scorekeeper"]
            return len(officials) == 1 and officials[0] in _WHISTLES
