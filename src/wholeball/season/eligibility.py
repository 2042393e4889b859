"""Tells whether a person may play in a game, with every reason why not at once."""

from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass, field

from wholeball.kernel.identity import PersonId, Side
from wholeball.league.fixture import Fixture
from wholeball.league.league import League
from wholeball.league.person import NotCleared, Person
from wholeball.league.player import Player, Rosters, person_of
from wholeball.rulebook.book import Rulebook
from wholeball.season.appearances import GameSheet, team_of
from wholeball.season.bound import Bonds
from wholeball.season.fees import Ledger
from wholeball.season.mixed_sides import MixedCount, mixed_count
from wholeball.season.reason_not import Reason
from wholeball.season.roster_rules import added_late, too_many_club_players
from wholeball.season.suspension import Discipline


@dataclass(frozen=True, slots=True, kw_only=True)
class Known:
    """All that eligibility is computed from.

    Waivers are asked about only where `people` lists anybody: a league may keep them elsewhere.
    """

    book: Rulebook
    league: League
    rosters: Rosters
    fixtures: Collection[Fixture]
    sheets: Collection[GameSheet]
    discipline: Discipline
    people: Mapping[PersonId, Person] = field(default_factory=dict)
    not_cleared: Collection[NotCleared] = ()
    fees: Ledger = field(default_factory=Ledger)


@dataclass(frozen=True, slots=True, kw_only=True)
class Gate:
    """What is seen at the gate on one night: who shows no ID, and who is refused.

    `forgotten` counts how often each had forgotten it before in the term.
    """

    without_id: frozenset[PersonId] = frozenset()
    forgotten: Mapping[PersonId, int] = field(default_factory=dict)
    refused: frozenset[PersonId] = frozenset()


NOTHING_SEEN = Gate()


@dataclass(frozen=True, slots=True, kw_only=True)
class GateLine:
    """A player of a roster at the gate, with all reasons; only staff may read them."""

    player: Player
    person: PersonId
    reasons: tuple[Reason, ...]

    @property
    def is_blocked(self) -> bool:
        """Tell whether the player may not play."""
        return any(one.blocks for one in self.reasons)

    @property
    def sees_coordinator(self) -> bool:
        """Tell whether a captain reads no more than to see the coordinator."""
        return any(one.blocks and one.is_private for one in self.reasons)

    @property
    def for_captain(self) -> tuple[Reason, ...]:
        """The reasons that a captain may read."""
        return tuple(one for one in self.reasons if not one.is_private)


class Eligibility:
    """Answers for every person and game of a season from one reading of it."""

    def __init__(self, known: Known) -> None:
        """Index what is known: O(games + players)."""
        self._known = known
        self._bonds = Bonds(known.book.roster, known.league, known.rosters, known.sheets)
        self._players = {
            (team, person_of(team, one)): one
            for team, players in known.rosters.items()
            for one in players
        }
        self._blocks: dict[PersonId, list[NotCleared]] = {}
        for one in known.not_cleared:
            self._blocks.setdefault(one.person, []).append(one)

    def reasons(
        self, person: PersonId, fixture: Fixture, side: Side, gate: Gate = NOTHING_SEEN
    ) -> tuple[Reason, ...]:
        """Return every reason why a person may not play for a side; empty is a pass."""
        return (
            *self._roster(person, fixture, side),
            *self._suspended(person, fixture),
            *self._not_cleared(person, fixture),
            *self._bound(person, fixture, side),
            *self._waiver(person, fixture),
            *self._play_off(person, fixture, side),
            *self._fee(person, fixture, side),
            *self._at_the_gate(person, gate),
        )

    def gate_list(
        self, fixture: Fixture, side: Side, gate: Gate = NOTHING_SEEN
    ) -> tuple[GateLine, ...]:
        """Return the players of a side in the order of the roster, each with all reasons."""
        team = team_of(fixture, side)
        return tuple(
            GateLine(
                player=player,
                person=person_of(team, player),
                reasons=self.reasons(person_of(team, player), fixture, side, gate),
            )
            for player in self._known.rosters.get(team, ())
        )

    def mixed(self, there: Iterable[PersonId]) -> MixedCount:
        """Return what those who are checked in come to by the rule for mixed sides."""
        people = self._known.people
        genders = (people[one].gender if one in people else None for one in there)
        return mixed_count(self._known.book.sides, genders)

    def _roster(self, person: PersonId, fixture: Fixture, side: Side) -> Iterator[Reason]:
        known, team = self._known, team_of(fixture, side)
        player = self._players.get((team, person))
        if player is None:
            yield Reason(code="not_on_roster", article="roster", teams=(team,))
            return
        if player.added is not None and player.added > fixture.day:
            yield Reason(code="not_yet_on_roster", article="roster", day=player.added)
        yield from added_late(known.book.roster, player, team, fixture, known.fixtures)
        yield from too_many_club_players(
            known.book.roster.club_players, person, team, known.rosters, known.people
        )

    def _suspended(self, person: PersonId, fixture: Fixture) -> Iterator[Reason]:
        barred = self._known.discipline.barred_from(fixture.game, person)
        if barred is None:
            return
        for one in barred.suspensions:
            if one.holds_on(fixture.day):
                yield Reason(
                    code="suspended",
                    article=one.article,
                    games=barred.unless,
                    day=one.until,
                    count=one.left,
                    waits=one.waits,
                )

    def _not_cleared(self, person: PersonId, fixture: Fixture) -> Iterator[Reason]:
        if any(one.holds_on(fixture.day) for one in self._blocks.get(person, ())):
            yield Reason(code="not_cleared", article="eligibility")

    def _bound(self, person: PersonId, fixture: Fixture, side: Side) -> Iterator[Reason]:
        teams = self._bonds.elsewhere(person, team_of(fixture, side), fixture)
        if teams:
            most = self._known.book.roster.teams_each
            yield Reason(code="other_team", article="roster", teams=teams, most=most)

    def _waiver(self, person: PersonId, fixture: Fixture) -> Iterator[Reason]:
        people = self._known.people
        if not self._known.book.eligibility.waiver or not people:
            return
        known = people.get(person)
        until = None if known is None else known.waiver_until
        if until is None:
            yield Reason(code="waiver_missing", article="eligibility")
        elif until < fixture.day:
            yield Reason(code="waiver_expired", article="eligibility", day=until)

    def _play_off(self, person: PersonId, fixture: Fixture, side: Side) -> Iterator[Reason]:
        """Hold a person to the games that the play-offs need; those not recorded may be theirs."""
        least = self._known.book.play_offs.games_played_least
        if fixture.stage != "play_off" or not least:
            return
        played, unrecorded = self._bonds.games_for(person, team_of(fixture, side), fixture)
        if played + unrecorded < least:
            yield Reason(code="too_few_games", article="play_offs", count=played, most=least)
        elif played < least:
            yield Reason(
                code="games_not_recorded",
                article="play_offs",
                blocks=False,
                count=played,
                most=least,
            )

    def _fee(self, person: PersonId, fixture: Fixture, side: Side) -> Iterator[Reason]:
        team = team_of(fixture, side)
        player = self._players.get((team, person))
        is_captain = player is not None and player.is_captain
        if is_captain and self._known.fees.captain_may_not_play(team):
            yield Reason(code="fee_open", article="forfeit.fee")

    def _at_the_gate(self, person: PersonId, gate: Gate) -> Iterator[Reason]:
        if person in gate.refused:
            yield Reason(code="refused", article="eligibility")
        shown = self._known.book.eligibility.identification
        if person not in gate.without_id or shown.document == "none":
            return
        before, most = gate.forgotten.get(person, 0), shown.forgotten_most
        is_used_up = most != "no_limit" and before >= most
        yield Reason(
            code="identification_used_up" if is_used_up else "identification_forgotten",
            article="eligibility.identification",
            blocks=is_used_up,
            count=before,
            most=None if most == "no_limit" else most,
        )
