"""Publishes an edition of a rulebook: what changes in words, and what it leaves as it was."""

from dataclasses import dataclass

from wholeball.files.editions import FOLDER, edition_name
from wholeball.files.folder import SeasonFolder, read_folder
from wholeball.files.game_log import has_log
from wholeball.files.rulebook_file import FILE
from wholeball.kernel.faults import WholeballError
from wholeball.kernel.identity import GameId
from wholeball.kernel.toml import MOST_BYTES
from wholeball.league.fixture import Fixture
from wholeball.league.record import LeagueRecord
from wholeball.planning.days import clock, day
from wholeball.reports.figures import score
from wholeball.rulebook.book import Path, values
from wholeball.rulebook.load import load
from wholeball.rulebook.words.lookup import words
from wholeball.season.result import Result


@dataclass(frozen=True, slots=True, kw_only=True)
class ArticleChanged:
    """An article that reads otherwise, or has other values, than until now."""

    path: Path
    ref: str
    title: str
    was: tuple[str, ...]
    now: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class WouldDiffer:
    """A game whose result would be another by the new edition; it stays as it is."""

    game: GameId
    stands: str
    would: str


@dataclass(frozen=True, slots=True, kw_only=True)
class EditionTold:
    """What a new edition does; `first` is the game from which it counts, where one is to come."""

    articles: tuple[ArticleChanged, ...]
    games: tuple[WouldDiffer, ...]
    first: str
    remarks: tuple[str, ...]


def rulebook_text(record: LeagueRecord) -> bytes:
    """Return rulebook.toml as it counts now."""
    return record.read(FILE, MOST_BYTES)


def edition_told(record: LeagueRecord, text: bytes) -> EditionTold:
    """Return what a new edition would change, and which results would have differed by it.

    Raises:
        InputFaults: everything that is wrong with it, or with the season under it.
    """
    before = read_folder(record)
    after = read_folder(record, instead={FILE: text})
    loaded = load(text, file=FILE)
    return EditionTold(
        articles=_articles(rulebook_text(record), text),
        games=_differences(before, after),
        first=_first(record, before),
        remarks=tuple(f"{one.says} {one.cure}" for one in loaded.remarks),
    )


def publish_edition(record: LeagueRecord, *, base: bytes, text: bytes) -> int:
    """Write a new edition and keep the one until now; return the number of that.

    A game that has an entry is counted by the edition of its first one; no result changes.

    Raises:
        InputFaults: everything that is wrong with it, or with the season under it.
        WholeballError: another was published meanwhile, or it would change a result.
    """
    with record.held():
        if rulebook_text(record) != base:
            raise WholeballError(
                "Another edition was published while you worked on yours.",
                fix="Nothing was written. Take your change up again upon the newest.",
                code="conflict",
            )
        number = 1 + len(record.names(FOLDER))
        contents = {FILE: text, edition_name(number): base}
        before = read_folder(record)
        after = read_folder(record, instead=contents)
        _refuse_other_results(before, after)
        record.write(contents)
    return number


def _refuse_other_results(before: SeasonFolder, after: SeasonFolder) -> None:
    changed = _differences(before, after)
    if changed:
        raise WholeballError(
            f"Game {changed[0].game} would count as {changed[0].would} instead of"
            f" {changed[0].stands}, though the edition it was played by is kept.",
            fix="Nothing was written. Rule on the game first, so that its result stands.",
            code="conflict",
        )


def _articles(old: bytes, new: bytes) -> tuple[ArticleChanged, ...]:
    was, now = load(old, file=FILE).rulebook, load(new, file=FILE).rulebook
    return tuple(
        ArticleChanged(
            path=path,
            ref=article.ref,
            title=words(path).title,
            was=tuple(map(str, words(path).says(was))),
            now=tuple(map(str, words(path).says(now))),
        )
        for path, article in now.articles()
        if values(article) != values(was.article(path)) or article.why != was.article(path).why
    )


def _differences(before: SeasonFolder, after: SeasonFolder) -> tuple[WouldDiffer, ...]:
    old, new = _results(before), _results(after)
    return tuple(
        WouldDiffer(game=game, stands=_told(old.get(game)), would=_told(new.get(game)))
        for game in dict.fromkeys((*old, *new))
        if _counts(old.get(game)) != _counts(new.get(game))
    )


def _results(read: SeasonFolder) -> dict[GameId, Result]:
    season = read.season
    every = (*season.results, *season.outside.play_offs, *season.play_offs)
    return {one.game: one for one in every}


def _counts(result: Result | None) -> object:
    if result is None:
        return None
    return (result.home_goals, result.away_goals, result.how, result.by, result.kicks)


def _told(result: Result | None) -> str:
    if result is None:
        return "no result"
    how = "" if result.how == "played" else f", {result.how.replace('_', ' ')}"
    return f"{score(result.home_goals, result.away_goals)}{how}"


def _first(record: LeagueRecord, read: SeasonFolder) -> str:
    """Say which game is the first without an entry, by its start."""
    games = sorted(read.timetable, key=lambda one: (one.day, one.start, one.field))
    done = {*_results(read)}
    first = next(
        (one for one in games if one.game not in done and not has_log(record, one.game)), None
    )
    return "" if first is None else _named(first)


def _named(game: Fixture) -> str:
    return f"Game {game.game}, {day(game.day)} at {clock(game.start)}"
