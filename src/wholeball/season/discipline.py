"""Computes suspensions from yellows and reds, and where each was served, by the rulebook."""

from collections import Counter
from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from wholeball.kernel.identity import GameId, PersonId, TeamId
from wholeball.league.fixture import Fixture
from wholeball.league.league import League
from wholeball.league.player import Rosters, person_of
from wholeball.rulebook.book import Rulebook
from wholeball.season.appearances import SIDES, GameSheet, team_of
from wholeball.season.decision import Decision
from wholeball.season.nights import Night, known_by, nights_of
from wholeball.season.result import Result
from wholeball.season.ruling import Ruling
from wholeball.season.running import Running, about
from wholeball.season.shown import ShownIn, shown_in
from wholeball.season.suspension import Barred, Breach, Cause, Discipline, Served


@dataclass(frozen=True, slots=True, kw_only=True)
class Played:
    """What suspensions are computed from.

    `fixtures` are all games of the season, those to come too; `sheets` what those that have
    begun say of people; `rulings` are those about games.
    """

    league: League
    rosters: Rosters
    fixtures: Collection[Fixture]
    sheets: Collection[GameSheet]
    decisions: Collection[Decision] = ()
    rulings: Collection[Ruling] = ()


def discipline(season: Played, book: Rulebook, *, on: date) -> Discipline:
    """Return all suspensions as they stand on a day.

    Games follow one another by day, start and name; what was recorded of games after that day is
    still to come. A suspension begins with the next game, and
    several of one person are served one after the other (common practice, no source). Adding a
    later game changes nothing about where an earlier one was served. What was shown after a game
    was resumed counts from the end of that day on; where nobody wrote the day down, from the end
    of `on`, so that no game in between is held against anybody. O(games x players of a game).
    """
    course = _Course(season, book, on)
    nights = (one for fixture in season.fixtures for one in course.nights(fixture))
    for night in sorted(nights, key=lambda one: (*one.begins, one.fixture.game)):
        course.take(night)
    kept = (one for running in course.running.values() for one in running)
    found = sorted(kept, key=lambda one: (one.day, one.game or "", one.person, one.cause))
    return Discipline(
        on=on,
        suspensions=tuple(one.as_of(on) for one in found),
        barred={game: tuple(barred) for game, barred in course.barred.items() if barred},
        breaches=tuple(course.breaches),
    )


def in_order(fixture: Fixture) -> tuple[object, ...]:
    """Return the place of a game in a season: by day, start and name."""
    return (fixture.day, fixture.start, fixture.game)


def leagues_of(league: League) -> Mapping[TeamId, str]:
    """Return which league each team plays in; all play in one where there are no divisions."""
    leagues = {one.division: one.league for one in league.divisions}
    return {
        team.team: leagues.get(team.division, league.name) if team.division else league.name
        for team in league.teams
    }


class _Course:
    """Follows a season game by game, and night by night where one was resumed."""

    def __init__(self, season: Played, book: Rulebook, on: date) -> None:
        self._rules = book.discipline
        self._on = on
        self._season = season
        self._leagues = leagues_of(season.league)
        self._sheets = {
            one.fixture.game: known_by(one, on)
            for one in season.sheets
            if one.fixture.day <= on
        }
        self._annulling = {one.number: one for one in season.rulings if one.ruled == "annulled"}
        self._undone: dict[PersonId, list[Ruling]] = {}
        self._members = {
            team: [(person_of(team, one), one.added) for one in players]
            for team, players in season.rosters.items()
        }
        self._decisions: dict[PersonId, list[Decision]] = {}
        self._yellows: Counter[tuple[PersonId, str | None, bool]] = Counter()
        self._reds: Counter[tuple[PersonId, str | None]] = Counter()
        self._ruled_on: dict[GameId, dict[PersonId, None]] = {}
        self._brought: dict[GameId, set[PersonId]] = {}
        self.running: dict[PersonId, list[Running]] = {}
        self.barred: dict[GameId, list[Barred]] = {}
        self.breaches: list[Breach] = []
        for one in sorted(season.decisions, key=lambda one: one.number):
            self._decisions.setdefault(one.person, []).append(one)
        self._ruled({one.game for one in season.fixtures})

    def nights(self, fixture: Fixture) -> Iterator[Night]:
        """Yield the nights of a game that are known of."""
        return nights_of(fixture, self._sheets.get(fixture.game), self._on)

    def take(self, night: Night) -> None:
        """Let a game serve what it serves, and then bring what its night brings."""
        fixture = night.fixture
        sheet = self._sheets.get(fixture.game)
        if night.number == 1:
            self._serve(fixture, sheet)
        brought = self._brought.setdefault(fixture.game, set())
        if sheet is not None:
            for shown in shown_in(sheet):
                if shown.night == night.number and self._shown(shown, night):
                    brought.add(shown.person)
        for person in self._ruled_on.get(fixture.game, ()) if night.is_last else ():
            if person not in brought:
                self._begin_by_ruling(person, fixture.game)

    def _serve(self, fixture: Fixture, sheet: GameSheet | None) -> None:
        played = set(self._breaches(fixture, sheet))
        for person, team in self._squads(fixture):
            held = self._held(person, fixture)
            if held and person not in played:
                self._sit_out(person, team, held, fixture, sheet)

    def _squads(self, fixture: Fixture) -> Iterator[tuple[PersonId, TeamId]]:
        """Yield the players of a game's teams by that day who were ever suspended, each once."""
        found: dict[PersonId, TeamId] = {}
        for side in SIDES:
            team = team_of(fixture, side)
            for person, added in self._members.get(team, ()):
                if person in self.running and (added is None or added <= fixture.day):
                    found.setdefault(person, team)
        yield from found.items()

    def _breaches(self, fixture: Fixture, sheet: GameSheet | None) -> Iterator[PersonId]:
        """Yield who played while suspended, whichever roster they are on, and note breaches."""
        for one in () if sheet is None or not sheet.is_played else sheet.appeared:
            if one.person is None or one.person not in self.running:
                continue
            held = self._held(one.person, fixture)
            if held and self._was_known(one.person, held, fixture.day):
                self.breaches.append(
                    Breach(
                        person=one.person,
                        game=fixture.game,
                        team=one.team,
                        side=one.side,
                        suspensions=tuple(kept.as_of(fixture.day) for kept in held),
                    )
                )
            if held:
                yield one.person

    def _was_known(self, person: PersonId, held: list[Running], day: date) -> bool:
        """Tell whether games were left to serve by what counted then, before later annulments."""
        if any(one.as_of(day).waits or one.is_by_day_on(day) for one in held):
            return True
        undone = (one.day for one in self._undone.get(person, ()))
        since = sum(1 for one in undone if one is None or one > day)
        return sum(one.left_on(day) for one in held) > since

    def _held(self, person: PersonId, fixture: Fixture) -> list[Running]:
        """Return the suspensions that began before a game and hold then in its league."""
        league = self._leagues.get(fixture.home)
        return [
            one
            for one in self.running[person]
            if one.league in (None, league)
            and self._began_before(one, fixture)
            and one.holds_on(fixture.day)
        ]

    def _began_before(self, one: Running, fixture: Fixture) -> bool:
        """Tell whether a game comes after one that brought red; not one at the same hour."""
        if one.begins is None:
            return one.day <= fixture.day
        return one.begins < (fixture.day, fixture.start)

    def _sit_out(
        self,
        person: PersonId,
        team: TeamId,
        held: list[Running],
        fixture: Fixture,
        sheet: GameSheet | None,
    ) -> None:
        """Bar a person from a game that is not over, and let one that is serve the first."""
        if sheet is None or not sheet.has_ended:
            if sheet is not None or fixture.day >= self._on:
                self._bar(person, team, held, fixture)
            _presume(held, fixture)
        first = next((one for one in held if _takes(one, fixture.day)), None)
        if first is None or first.is_by_day_on(fixture.day):
            return
        if self._serves(fixture, sheet):
            first.served.append(Served(fixture.game, fixture.day))
        elif sheet is not None and sheet.result is not None:
            ruling = self._annulling.get(sheet.result.ruling or 0)
            if ruling is not None and self._had_served(sheet, sheet.result, ruling):
                self._undone.setdefault(person, []).append(ruling)

    def _bar(
        self, person: PersonId, team: TeamId, held: list[Running], fixture: Fixture
    ) -> None:
        """Bar a person from a game that is to be played, or to be played on."""
        is_sure = any(one.would_hold_on(fixture.day) for one in held)
        games = dict.fromkeys(game for one in held for game in one.presumed)
        self.barred.setdefault(fixture.game, []).append(
            Barred(
                person=person,
                team=team,
                suspensions=tuple(one.as_of(max(fixture.day, self._on)) for one in held),
                unless=() if is_sure else tuple(games),
            )
        )

    def _serves(self, fixture: Fixture, sheet: GameSheet | None) -> bool:
        """Tell whether a game serves a suspension; one that counts for nothing only as listed."""
        how = None if sheet is None or sheet.result is None else sheet.result.how
        match self._rules.serving.games:
            case "any_scheduled":
                return how is not None or fixture.day < self._on
            case "played_and_forfeits":
                return how not in (None, "annulled")
            case "played_only":
                is_played = sheet is not None and sheet.is_played
                return is_played and how not in (None, "annulled")

    def _had_served(self, sheet: GameSheet, result: Result, ruling: Ruling) -> bool:
        """Tell whether a game had served until a ruling annulled it, as played or as given up."""
        if sheet.is_played:
            return True
        if self._rules.serving.games == "played_only":
            return False
        earlier = [
            one.ruled
            for one in sorted(self._season.rulings, key=lambda one: one.number)
            if one.game == ruling.game and one.number < ruling.number and one.ruled != "stands"
        ]
        how = earlier[-1] if earlier else result.before
        return how not in (None, "annulled")

    def _shown(self, shown: ShownIn, night: Night) -> bool:
        """Add what a night brings, yellows first; tell whether it brings a suspension."""
        fixture = night.fixture
        league = self._where(self._leagues.get(shown.team))
        rules = self._rules
        is_apart = rules.cautions_cleared == "before_play_offs" and fixture.stage == "play_off"
        key = (shown.person, league, is_apart)
        self._yellows[key] += shown.yellows
        after = rules.cautions_for_suspension
        begun = False
        while after != "no_limit" and self._yellows[key] >= after:
            self._yellows[key] -= after
            own = [
                one
                for one in self._about(shown.person, night)
                if not shown.is_red or one.ruled == "lifted"
            ]
            self._begin(shown.person, "yellows", night, league, rules.caution_games, own)
            begun = True
        if shown.is_red:
            self._reds[shown.person, league] += 1
            is_first = self._reds[shown.person, league] == 1
            cause: Cause = "red" if is_first else "second_red"
            games = rules.red.games if is_first else rules.red.second_games
            own = list(self._about(shown.person, night))
            self._begin(shown.person, cause, night, league, games, own)
        return begun or shown.is_red

    def _about(self, person: PersonId, night: Night) -> tuple[Decision, ...]:
        return about(self._decisions.get(person, ()), night.fixture.game, night.begins[0])

    def _where(self, league: str | None) -> str | None:
        return None if self._rules.serving.leagues == "all_leagues" else league

    def _begin(
        self,
        person: PersonId,
        cause: Cause,
        night: Night,
        league: str | None,
        games: int,
        decisions: Iterable[Decision],
    ) -> None:
        self.running.setdefault(person, []).append(
            Running(
                person=person,
                cause=cause,
                article="discipline" if cause == "yellows" else "discipline.red",
                game=night.fixture.game,
                day=night.begins[0],
                begins=night.begins,
                league=league,
                games=games,
                needs_meeting=cause != "yellows" and self._rules.red.until_meeting,
                decisions=tuple(decisions),
            )
        )

    def _ruled(self, listed: Collection[GameId]) -> None:
        """Begin the suspensions that decisions make without a game, each from its day on.

        One about a game waits for it: it shapes the suspension that the game brings, if it does.
        """
        for person, decisions in self._decisions.items():
            for one in decisions:
                if one.ruled not in ("games", "until"):
                    continue
                if one.game is None:
                    self.running.setdefault(person, []).append(_of_ruling([one, *decisions]))
                elif one.game in listed:
                    self._ruled_on.setdefault(one.game, {})[person] = None
                elif one.game not in {kept.game for kept in self.running.get(person, ())}:
                    self._begin_by_ruling(person, one.game)

    def _begin_by_ruling(self, person: PersonId, game: GameId) -> None:
        mine = [one for one in self._decisions[person] if one.game in (game, None)]
        first = next(
            one for one in mine if one.game == game and one.ruled in ("games", "until")
        )
        self.running.setdefault(person, []).append(_of_ruling([first, *mine]))


def _presume(held: Iterable[Running], fixture: Fixture) -> None:
    """Note that a game without a result would serve the first suspension that it can."""
    for one in held:
        if one.is_by_day_on(fixture.day):
            return
        if one.left_on(fixture.day) > len(one.presumed):
            one.presumed.append(fixture.game)
            return


def _takes(one: Running, day: date) -> bool:
    return one.is_by_day_on(day) or one.left_on(day) > 0


def _of_ruling(decisions: Sequence[Decision]) -> Running:
    """Return the suspension that the first of some decisions makes and the others shape."""
    first = decisions[0]
    others = (one for one in decisions[1:] if one.number > first.number)
    return Running(
        person=first.person,
        cause="ruling",
        article=first.ref,
        game=first.game,
        day=first.day,
        league=None,
        games=first.games or 0,
        decisions=(first, *about(others, first.game, first.day)),
    )
