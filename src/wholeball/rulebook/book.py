"""Is a whole rulebook: its head, its tables, and the walk over all its articles."""

from collections.abc import Iterator, Mapping
from functools import cache
from types import MappingProxyType
from typing import Any, Literal, TypeAlias, cast

from pydantic import Field as Key

from wholeball.kernel.canonical import digest
from wholeball.rulebook.tables import conduct, people, place, restarts, season, time
from wholeball.rulebook.value import ABOUT, Article, Value, items, key

SCHEMA = 1
Path: TypeAlias = str
"""Where an article stands, its tables joined by dots: "goalkeeper.hold"."""


class HouseArticle(Value):
    """An article in words only, for what nothing is computed from."""

    ref: str = Key(description="How people cite it.", min_length=1, max_length=40)
    title: str = Key(description="Its heading.", min_length=1, max_length=80)
    text: str = Key(description="What it says.", min_length=1, max_length=4000)


class Head(Value):
    """What a rulebook says of itself."""

    schema_version: Literal[1] = key("The version of this format.")
    base: str = key("The edition of the Laws it stands on.")
    name: str = Key(description="What it is called.", min_length=1, max_length=120)
    source: str = Key(description="Where its values come from.", max_length=400)


class Rulebook(Value):
    """Everything that a league's rules are; each table is an article with its values."""

    head: Head = key("What the rulebook says of itself.")
    field: place.Field = key("The field of play.")
    ball: place.Ball = key("The ball.")
    sides: people.Sides = key("How many play.")
    roster: people.Roster = key("Rosters.")
    eligibility: people.Eligibility = key("Who may play.")
    equipment: people.Equipment = key("Equipment.")
    captain: people.Captain = key("Captains.")
    check_in: people.CheckIn = key("Check-in.")
    game: time.Game = key("How long a game is.")
    ends: time.Ends = key("Ends and kick-off.")
    kick_off: restarts.KickOff = key("The kick-off.")
    offside: restarts.Offside = key("Offside.")
    goalkeeper: conduct.Goalkeeper = key("The goalkeeper.")
    handball: conduct.Handball = key("Handling the ball.")
    slide_tackle: conduct.SlideTackle = key("Slide tackles.")
    advantage: conduct.Advantage = key("Advantage.")
    free_kick: restarts.FreeKick = key("Free kicks.")
    penalty: restarts.Penalty = key("The penalty kick.")
    throw_in: restarts.ThrowIn = key("The throw-in.")
    goal_kick: restarts.GoalKick = key("The goal kick.")
    corner: restarts.Corner = key("The corner kick.")
    dropped_ball: restarts.DroppedBall = key("The dropped ball.")
    ball_off_official: restarts.BallOffOfficial = key("The ball that touches an official.")
    extra_persons: conduct.ExtraPersons = key("People who should not be on the field.")
    substitution: people.Substitution = key("Substitution.")
    injury: people.Injury = key("Injury.")
    cards: conduct.Cards = key("Yellow and red.")
    mercy: time.Mercy = key("Mercy.")
    ties: time.Ties = key("Level games.")
    overtime: time.Overtime = key("Overtime.")
    kicks: time.Kicks = key("Kicks from the mark.")
    forfeit: season.Forfeit = key("Forfeits and defaults.")
    ratings: season.Ratings = key("Sportsmanship ratings.")
    discipline: season.Discipline = key("Suspensions.")
    standings: season.Standings = key("Standings.")
    play_offs: season.PlayOffs = key("Play-offs.")
    protests: season.Protests = key("Protests.")
    resumption: season.Resumption = key("Games broken off.")
    crew: season.Crew = key("Crews.")
    also: tuple[HouseArticle, ...] = items("Articles in words.", most=200)

    def articles(self) -> Iterator[tuple[Path, Article]]:
        """Walk over every article in the order of the booklet, tables before their parts."""
        for name in type(self).model_fields:
            value = getattr(self, name)
            if isinstance(value, Article):
                yield from _with_parts(name, value)

    def article(self, path: Path) -> Article:
        """Return the article at a path.

        Raises:
            KeyError: no article stands there.
        """
        found: Value = self
        for name in path.split("."):
            if name not in parts(type(found)):
                raise KeyError(path)
            found = getattr(found, name)
        return cast("Article", found)

    @property
    def digest(self) -> str:
        """SHA-256 of the rulebook's canonical form: the same rules, the same digits."""
        return digest(self.model_dump(mode="json"))


def values(article: Article) -> dict[str, Any]:
    """Return an article's own values by key, without its parts and what it says of itself."""
    own = {name: getattr(article, name) for name in type(article).model_fields}
    return {
        name: value
        for name, value in own.items()
        if name not in ABOUT and not isinstance(value, Article)
    }


def idle_keys(book: Rulebook) -> frozenset[str]:
    """Return every key that means nothing because of another of its table: "offside.from_line".

    Where a whole part of a table is idle, all keys of that part and of its own parts are.
    """
    return frozenset(
        key for path, article in book.articles() for key in _idle_in(path, article)
    )


def _idle_in(path: Path, article: Article) -> Iterator[str]:
    for rule in article.idle_keys:
        if rule.holds_in(article):
            for name in rule.keys:
                value = getattr(article, name)
                if isinstance(value, Article):
                    for below, part in _with_parts(f"{path}.{name}", value):
                        yield from (f"{below}.{own}" for own in values(part))
                else:
                    yield f"{path}.{name}"


@cache
def parts(kind: type[Value]) -> Mapping[str, type[Article]]:
    """Return the tables that stand inside a table, or the tables of a whole rulebook."""
    found = {name: field.annotation for name, field in kind.model_fields.items()}
    return MappingProxyType(
        {
            name: inner
            for name, inner in found.items()
            if isinstance(inner, type) and issubclass(inner, Article)
        }
    )


def _with_parts(path: Path, article: Article) -> Iterator[tuple[Path, Article]]:
    yield path, article
    for name in parts(type(article)):
        yield from _with_parts(f"{path}.{name}", getattr(article, name))
