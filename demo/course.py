"""Plays the season with the real commands, night by night, and holds what they say to the truth."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from datetime import date, timedelta
from functools import partial
from itertools import groupby
from pathlib import Path
from random import Random

from demo import folder as files
from demo.checks import Checks
from demo.desk import Desk
from demo.finals import Finals
from demo.ledger import Ledger
from demo.logs import Phones, late_goal, phones, record, resumed
from demo.paper import scorecard
from demo.planner import Planner, Rain
from demo.plot import Kind
from demo.start import start
from demo.truth import FOUND_AFTER, RESUMED_AFTER, Truth, play
from demo.truth_fees import payments
from demo.world import Listed
from wholeball.files.folder_record import FolderRecord
from wholeball.files.game_log import append

_ON_PHONES: frozenset[Kind] = frozenset(
    ("mercy", "second_yellow", "thunder", "protest", "late_goal", "slips", "not_ready", "kicks")
)
_ON_PAPER: frozenset[Kind] = frozenset(
    (
        "unsigned",
        "other_number",
        "forfeit",
        "last_forfeit",
        "double_forfeit",
        "default",
        "ineligible",
        "overtime",
    )
)


@dataclass(slots=True, kw_only=True)
class Course:
    """One playing of a season: its folder, what is typed, and what has been compared."""

    truth: Truth
    folder: Path
    sheets: Path
    tell: Callable[[str], None]
    desk: Desk = field(default_factory=Desk)
    ledger: Ledger = field(default_factory=Ledger)
    rng: Random = field(default_factory=lambda: Random(7))
    rulebook: str = ""
    league: str = ""
    planned: str = ""
    rain: Rain = field(default_factory=lambda: Rain({}))
    pairs: dict[str, Phones] = field(default_factory=dict)
    due: list[tuple[date, Callable[[], None]]] = field(default_factory=list)

    def play(self) -> None:
        """Play the season from the sign-ups to the trophy."""
        lost = self._begin()
        play(self.truth)
        self._league([one for one in self.truth.league if one.day > lost])
        self._draw()
        for day, tonight in groupby(self.truth.play_offs, key=lambda one: one.day):
            self._catch_up(day)
            self._night(day, list(tonight))
        self._end()

    def _begin(self) -> date:
        """Play the season to the night that is lost to rain, and mend the timetable; return it."""
        self.planned = start(self.truth, self.folder, self.desk, self.ledger, self.tell)
        told = self.desk.run("standings", self.folder, "--json").json()
        self.rulebook, self.league = told["rulebook"]["digest"], told["league"]
        lost = self.truth.size.rained_off
        play(self.truth, before=lost)
        self._league([one for one in self.truth.league if one.day < lost])
        self._lose(lost)
        return lost

    def _league(self, games: list[Listed]) -> None:
        for day, tonight in groupby(games, key=lambda one: one.day):
            self._catch_up(day)
            if day == self.packet_night:
                self._print_packet(day)
            self._night(day, list(tonight))
            if self._is_last_of_week(day):
                self._week(day)

    def _lose(self, night: date) -> None:
        """Let it rain before a night is played, mend the timetable, and look at the week."""
        self._catch_up(night)
        planner = Planner(self.truth, self.folder, self.desk, self.ledger)
        self.rain = planner.lose(night)
        self._say(night, f"rain; {self.rain.says}")
        self._week(night)

    @property
    def packet_night(self) -> date:
        """Return the night whose packet is printed: the last of the league."""
        return self.truth.league[-1].day

    @property
    def checks(self) -> Checks:
        """Return the comparisons of this season."""
        return Checks(self.truth, self.folder, self.desk, self.ledger)

    @property
    def finals(self) -> Finals:
        """Return the comparisons of its end."""
        return Finals(self.truth, self.folder, self.desk, self.ledger)

    def _is_last_of_week(self, day: date) -> bool:
        return day.weekday() == 3

    def _print_packet(self, day: date) -> None:
        """Print what a night at the field needs, before it."""
        self.sheets.mkdir(parents=True, exist_ok=True)
        path = self.sheets / f"packet-{day}.pdf"
        self.desk.run("sheets", "packet", self.folder, "--night", day, "--out", path)

    def _night(self, day: date, games: list[Listed]) -> None:
        played = [one for one in games if one.game in self.truth.accounts]
        for listed in played:
            self._write_down(listed)
        self.checks.night(day, [one.game for one in played])
        for listed in played:
            if self.truth.plot.kind(listed.game) != "usual":
                self.checks.game(listed.game)
        if games[0].stage == "league":
            self.checks.newest_tables(day, pools={one.pool for one in games})
        else:
            self.finals.bracket({one.game for one in self.truth.play_offs if one.day <= day})
        self._say(day, f"{len(played)} games entered, certified and compared")
        self.due += [one for listed in played for one in self._afterwards(listed)]

    def _catch_up(self, until: date) -> None:
        """Do what is due by a day, in the order of the days on which it is."""
        now = sorted((one for one in self.due if one[0] <= until), key=lambda one: one[0])
        self.due = [one for one in self.due if one[0] > until]
        for _, do in now:
            do()

    def _say(self, day: date, what: str) -> None:
        found = len(self.ledger.differences)
        self.tell(f"  {day:%d %b}  {what}; {self.ledger.facts} facts, {found} differences")

    def _write_down(self, listed: Listed, *, is_certified: bool = True) -> None:
        """Write a game down as its crew did; one that was broken off is certified another day."""
        kind = self.truth.plot.kind(listed.game)
        account = self.truth.accounts[listed.game]
        by_phone = sum(map(ord, listed.game)) % 3 == 0
        if kind in _ON_PHONES or (by_phone and kind not in _ON_PAPER):
            pair = phones(account, self.rulebook, self.rng)
            self.pairs[listed.game] = pair
            append(FolderRecord(self.folder), listed.game, record(account, pair, kind))
        else:
            self._paper(listed, kind)
        if is_certified and kind != "thunder":
            self._certify(listed, kind)

    def _certify(self, listed: Listed, kind: Kind) -> None:
        """Make a result official; where a question is open, somebody answers it first."""
        words = ("certify", self.folder, listed.game, "--by", "Supervisor")
        if kind == "unsigned":
            refused = self.desk.try_(*words)
            what = f"{listed.game} is not certified while a question is open"
            self.ledger.compare("games", what, expected=1, came=refused.status)
            why = "The captain was told how to protest, and did not."
            answered = ("--by", "Supervisor", "--question", 1, "--answer", "as_it_is")
            self.desk.run("answer", self.folder, listed.game, *answered, "--reason", why)
        self.desk.run(*words)

    def _paper(self, listed: Listed, kind: Kind) -> None:
        account = self.truth.accounts[listed.game]
        minutes = sum(map(ord, listed.game)) % 3 == 1
        cards = [scorecard(account, minutes=minutes, unsigned=kind == "unsigned")]
        if kind == "other_number":
            cards.insert(0, scorecard(account, minutes=minutes, is_wrong=True))
        path = self.folder / "cards" / f"{listed.game}.toml"
        path.parent.mkdir(exist_ok=True)
        for index, card in enumerate(cards):
            path.write_text(card, encoding="utf-8")
            self.desk.run("enter", self.folder, listed.game, "--file", "--by", "Desk")
            if index < len(cards) - 1:
                self.checks.nobody_wears(listed)

    def _afterwards(self, listed: Listed) -> Iterator[tuple[date, Callable[[], None]]]:
        """Yield what a game's story asks for once its night is over, and when."""
        kind, day = self.truth.plot.kind(listed.game), listed.day
        next_day = day + timedelta(days=1)
        if kind == "thunder":
            yield day + RESUMED_AFTER, partial(self._resume, listed)
        elif kind == "ineligible":
            yield next_day, partial(self._add_late, listed)
            yield day + FOUND_AFTER, partial(self._find_out, listed)
        elif kind == "protest":
            yield next_day, partial(self._let_stand, listed)
        elif kind == "late_goal":
            yield next_day, partial(self._send_late, listed)
        if listed.game in self.truth.plot.held:
            yield next_day, partial(self._hold_meeting, listed)
        yield next_day, partial(self._pay, listed)

    def _send_late(self, listed: Listed) -> None:
        """Let a phone send a goal after the result was certified."""
        append(FolderRecord(self.folder), listed.game, [late_goal(self.pairs[listed.game])])
        self.checks.late(listed)
        self._say(listed.day + timedelta(days=1), f"{listed.game}: a late goal changes nothing")

    def _resume(self, listed: Listed) -> None:
        """Let another crew play the rest three days later."""
        account = self.truth.accounts[listed.game]
        self.checks.is_open(listed)
        pair = phones(account, self.rulebook, self.rng, again=True)
        pair.entries = list(self.pairs[listed.game].entries)
        append(FolderRecord(self.folder), listed.game, resumed(account, pair))
        self.desk.run("certify", self.folder, listed.game, "--by", "Supervisor")
        self.checks.game(listed.game)
        self._say(listed.day + RESUMED_AFTER, f"{listed.game} resumed by another crew")

    def _add_late(self, listed: Listed) -> None:
        """Put a player onto the roster a day after the game."""
        team = self.truth.teams[listed.away]
        added = listed.day + timedelta(days=1)
        path = self.folder.parent / "lists" / "late.csv"
        files.captains_list(path, team.late)
        self.desk.run("roster", "add", self.folder, path, "--team", team.name, "--on", added)

    def _find_out(self, listed: Listed) -> None:
        """Find that a player was not on the roster yet, and award the game."""
        team = self.truth.teams[listed.away]
        found = listed.day + FOUND_AFTER
        self.checks.ineligible(listed, team.late[0], on=found)
        why = f"A player of {team.name} was not yet on its roster."
        words = ("--to", "home", "--ref", "H 3.5", "--why", why, "--on", found)
        self.desk.run("award", self.folder, listed.game, *words)
        self.checks.game(listed.game, on=found)
        self.checks.newest_tables(found, pools={listed.pool})
        self._say(found, f"{listed.game} awarded, a player was not on the roster")

    def _let_stand(self, listed: Listed) -> None:
        on = listed.day + timedelta(days=1)
        why = "The restart was taken wrongly, and changed nothing."
        words = ("--to", "as_played", "--ref", "H 13.1", "--why", why, "--on", on)
        self.desk.run("award", self.folder, listed.game, *words)
        self.checks.game(listed.game)
        self._say(on, f"{listed.game}: the protest changes nothing")

    def _hold_meeting(self, listed: Listed) -> None:
        ban = next(one for one in self.truth.bans.bans if one.game == listed.game)
        code = files.codes(self.folder)[ban.team, ban.person.name]
        row = [
            1,
            ban.meeting,
            code,
            listed.game,
            "meeting_held",
            "",
            "",
            "H 11.4",
            "Understood.",
        ]
        header = ["ruling", "date", "person", "game", "ruled", "games", "until", "ref", "why"]
        files.table(self.folder / "discipline.csv", header, [row])

    def _pay(self, listed: Listed) -> None:
        """Write down what came in for a forfeit."""
        on = listed.day + timedelta(days=1)
        rows = [
            [on, one.team, one.game, one.what, one.amount, one.why]
            for one in payments(self.truth.outcomes, self.truth.rules)
            if one.game == listed.game
        ]
        if rows:
            header = ["date", "team", "game", "what", "amount", "why"]
            files.add_rows(self.folder / "fees.csv", header, rows)

    def _week(self, day: date) -> None:
        """Look at suspensions and ratings on the Sunday after a week's games."""
        on = day + timedelta(days=3)
        self._catch_up(on)
        self.checks.suspensions(on)
        self.checks.ratings(on)
        self.checks.looked_at(on)
        if day == self.truth.league[-1].day - timedelta(days=7):
            self.finals.odds()
            self._say(on, "what is proven of the race holds to the end")
        self._say(on, "suspensions, ratings and what is to be looked at compared")

    def _draw(self) -> None:
        self.desk.run("bracket", self.folder, "--draw")
        self.finals.draw()
        self._say(self.truth.league[-1].day + timedelta(days=3), "the bracket is drawn")

    def _end(self) -> None:
        on = self.truth.size.last_day
        self._catch_up(on)
        staff = self.sheets.parent / "staff"
        staff.mkdir(parents=True, exist_ok=True)
        path = staff / "suspensions.pdf"
        self.desk.run("sheets", "suspensions", self.folder, "--on", on, "--out", path)
        self.checks.suspensions(self.truth.league[0].day + timedelta(days=5))
        self.checks.all_tables()
        self.checks.results()
        self.checks.suspensions(on)
        self.checks.ratings(on)
        self.finals.people_of_games()
        self.finals.report(self.sheets.parent / "report")
        self.checks.looked_at(on)
        self.finals.champion()
        self._say(on, "every table of every round compared once more")
