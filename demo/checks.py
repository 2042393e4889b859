"""Asks the commands how things stand, and compares what they say with the truth."""

from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass
from datetime import date
from pathlib import Path
from typing import Any, Final

from demo.account import Account
from demo.desk import Desk
from demo.ledger import Ledger
from demo.paper import NOBODY_WEARS
from demo.timetable import cost
from demo.truth import Truth
from demo.truth_fees import still_open
from demo.truth_play_offs import winner
from demo.truth_tables import Counted, Line, Outcome, average, counted, outcome, rated, table
from demo.world import Listed, Person, Side, other

FAR: Final = date(2027, 6, 1)
"""A day after which nothing happens any more."""


@dataclass(frozen=True, slots=True)
class Checks:
    """The comparisons of a season with its truth."""

    truth: Truth
    folder: Path
    desk: Desk
    ledger: Ledger

    def night(self, day: date, games: Collection[str]) -> None:
        """Compare the results of one night."""
        told = self._told("results", "--night", day)
        self._results(told["results"], [self._outcome(one, day) for one in games])

    def results(self) -> None:
        """Compare every result as it stands at the end, annulled ones too."""
        known = [self._outcome(one, FAR) for one in self.truth.accounts]
        self._results(self._told("results")["results"], known)

    def _results(
        self, rows: Iterable[Mapping[str, Any]], known: Iterable[Outcome | None]
    ) -> None:
        came = {
            f"result of {row['game']}": (
                row["home"],
                row["away"],
                row["how"],
                row["by"],
                row["home_goals"],
                row["away_goals"],
                row["home_kicks"],
                row["away_kicks"],
            )
            for row in rows
        }
        expected = {
            f"result of {one.game}": self._counts(one) for one in known if one is not None
        }
        self.ledger.compare_all("results", expected, came)

    def _outcome(self, game: str, on: date) -> Outcome | None:
        """Return what a game counts as on a day; None where it has no result by then."""
        account = self.truth.accounts[game]
        if account.listed.stage == "play_off":
            return outcome(account, since=account.listed.day)
        pool = account.listed.pool
        found = self._counted(pool, on, up_to=self.truth.last_round(pool))
        return next((one for one in found.games if one.game == game), None)

    def _counts(self, one: Outcome) -> tuple[object, ...]:
        goals: tuple[int | None, int | None] = one.goals
        rules = self.truth.rules
        scores = {"forfeit": rules.forfeit_score, "default": rules.default_score}
        if one.how in scores:
            won, lost = scores[one.how]
            goals = (won, lost) if one.by == "away" else (lost, won)
        elif one.how == "annulled":
            goals = None, None
        account = self.truth.accounts[one.game]
        kicks = account.kicked() if account.kicks else (None, None)
        by = one.by if one.how in scores else None
        return one.home, one.away, one.how, by, *goals, *kicks

    def game(self, game: str, *, on: date = FAR) -> None:
        """Compare how a game ended and who won it."""
        account = self.truth.accounts[game]
        told = self._told("game", game)
        one = self._outcome(game, on if on != FAR else account.listed.day)
        if one is None:
            return
        ending = told["ending"]
        came = (told["score"], ending and ending["how"], told["counts_as"]["winner"])
        expected = ([*account.score()], account.ended, self._winner(one, account))
        self.ledger.compare("games", f"game {game}", expected=expected, came=came)

    def _winner(self, one: Outcome, account: Account) -> Side | None:
        if account.listed.stage == "play_off":
            return winner(account)
        if one.by:
            return other(one.by)
        home, away = one.goals
        return None if home == away else "home" if home > away else "away"

    def is_open(self, listed: Listed) -> None:
        """Compare that a game broken off has no result, and waits to be resumed."""
        told = self._told("game", listed.game)
        came = (told["phase"], told["counts_as"]["score"])
        expected = ("broken_off", None)
        self.ledger.compare("games", f"{listed.game} broken off", expected=expected, came=came)

    def late(self, listed: Listed) -> None:
        """Compare that a late goal changes nothing, and is told with what it would change."""
        told = self._told("game", listed.game)
        account = self.truth.accounts[listed.game]
        home, away = account.score()
        late = told["official"]["late"]
        came = (told["score"], late["entries"], "score" in late["would_change"], late["score"])
        expected = ([home, away], 1, True, [home, away + 1])
        self.ledger.compare(
            "games", f"late goal in {listed.game}", expected=expected, came=came
        )

    def nobody_wears(self, listed: Listed) -> None:
        """Compare that the check names the number that nobody wears."""
        found = self._remarks(listed.day)
        came = [one["says"] for one in found if one["code"] == "unknown_player"]
        is_named = [f"{NOBODY_WEARS}" in says for says in came]
        what = f"the number nobody wears in {listed.game}"
        self.ledger.compare("looked at", what, expected=[True], came=is_named)

    def ineligible(self, listed: Listed, person: Person, *, on: date) -> None:
        """Compare that the check names the player who came onto the roster too late."""
        found = [one for one in self._remarks(on) if one["code"] == "ineligible"]
        came = [
            (one["value"], person.name in one["says"], "award" in one["cure"]) for one in found
        ]
        what = f"who was not eligible in {listed.game}"
        self.ledger.compare("looked at", what, expected=[(listed.game, True, True)], came=came)

    def looked_at(self, on: date) -> None:
        """Compare all that the check has to say once a week is settled, and what teams owe."""
        kinds = {"ineligible": "ineligible", "late_goal": "late"}
        played = {one for one, known in self.truth.accounts.items() if known.listed.day <= on}
        expected = {
            (kinds[kind], game)
            for game, kind in self.truth.plot.kinds.items()
            if kind in kinds and game in played
        }
        remarks = self._remarks(on)
        came = {
            (one["code"], Path(one["file"]).stem)
            for one in remarks
            if one["code"] not in ("fee_open", "timetable")
        }
        what = f"what is to be looked at on {on}"
        self.ledger.compare("looked at", what, expected=sorted(expected), came=sorted(came))
        self._owed(on, [one for one in remarks if one["code"] == "fee_open"])
        told = [
            one["says"].rstrip(".").split()[-1] for one in remarks if one["code"] == "timetable"
        ]
        total = cost(self.truth.league, self.truth.pools, self.truth.size)
        what = f"what the timetable costs on {on}"
        self.ledger.compare(
            "timetable", what, expected=[f"{total}"] if total else [], came=told
        )

    def _owed(self, on: date, remarks: Iterable[Mapping[str, Any]]) -> None:
        known = [one for one in self.truth.outcomes if one.since <= on]
        owed = still_open(known, self.truth.known(on), self.truth.rules)
        expected = {f"what {team} owes on {on}": str(amount) for team, amount in owed.items()}
        came = {
            f"what {one['value']} owes on {on}": one["says"].split(" owes ")[1].split(" ")[0]
            for one in remarks
        }
        self.ledger.compare_all("fees", expected, came)

    def _remarks(self, on: date) -> list[dict[str, Any]]:
        found: list[dict[str, Any]] = self._told("check", "--on", on)["remarks"]
        return found

    def newest_tables(self, day: date, *, pools: Collection[str]) -> None:
        """Compare the newest table of some pools as it stands on a day."""
        told = self._told("standings")
        for one in told["pools"]:
            if one["pool"] in pools and one["rounds"]:
                self._table(one["pool"], one["rounds"][-1], day)

    def all_tables(self) -> None:
        """Compare the table of every pool after every round."""
        for one in self._told("standings")["pools"]:
            for shown in one["rounds"]:
                self._table(one["pool"], shown, FAR)

    def _table(self, pool: str, shown: Mapping[str, Any], day: date) -> None:
        number = shown["round"]
        lines = table(
            self.truth.pools[pool], self._counted(pool, day, up_to=number), self.truth.rules
        )
        expected = {f"{pool}, round {number}, {one.team}": one for one in lines}
        came = {
            f"{pool}, round {number}, {row['team']}": Line(
                *(row[name] for name in Line._fields)
            )
            for row in shown["rows"]
        }
        self.ledger.compare_all("tables", expected, came)
        order = [row["team"] for row in shown["rows"]]
        what = f"{pool}, round {number}, order of finish"
        self.ledger.compare("tables", what, expected=[one.team for one in lines], came=order)

    def _counted(self, pool: str, day: date, *, up_to: int) -> Counted:
        known = [one for one in self.truth.known(day) if one.pool == pool]
        return counted(known, self.truth.rules, up_to=up_to)

    def suspensions(self, on: date) -> None:
        """Compare every suspension: its games, where they were served, and what is left."""
        days = {game: one.listed.day for game, one in self.truth.accounts.items()}
        expected = {}
        for ban in self.truth.bans.bans:
            if ban.day <= on:
                served = [game for game in ban.served if days[game] <= on]
                left = ban.games - len(served)
                is_open = left > 0 or ban.waits(on)
                key = f"{ban.person.name} of {ban.team}, {ban.cause} in {ban.game}"
                expected[key] = (ban.games, served, left, ban.waits(on), is_open)
        came = {
            f"{one['names'][0]['name']} of {one['names'][0]['team']}, {one['cause']} in "
            f"{one['game']}": (
                one["games"],
                [each["game"] for each in one["served"]],
                one["left"],
                one["waits_for_meeting"],
                one["open"],
            )
            for one in self._told("suspensions", "--on", on)["suspensions"]
        }
        self.ledger.compare_all("suspensions", expected, came)

    def ratings(self, on: date) -> None:
        """Compare every team's exact average, and whether it is enough for the play-offs."""
        rules = self.truth.rules
        expected = {}
        for pool, teams in self.truth.pools.items():
            found = self._counted(pool, on, up_to=self.truth.last_round(pool))
            for team in teams:
                values = rated(found, team, rules)
                mean = average(values, rules)
                gate = (
                    "too_few"
                    if mean is None
                    else "passes"
                    if mean >= rules.play_off_rating
                    else "below"
                )
                expected[f"rating of {team} on {on}"] = (
                    len(values),
                    None if mean is None else str(mean),
                    gate,
                )
        came = {
            f"rating of {one['team']} on {on}": (one["count"], one["exact"], one["gate"])
            for one in self._told("ratings")["teams"]
        }
        self.ledger.compare_all("ratings", expected, came)

    def _told(self, command: str, *words: object) -> Any:
        return self.desk.run(command, self.folder, *words, "--json").json()
