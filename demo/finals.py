"""Compares the end of a season with the truth: the race, the draw, the bracket, people, money."""

from collections.abc import Collection
from dataclasses import dataclass
from datetime import date
from pathlib import Path
from typing import Any

from demo.account import Account
from demo.checks import FAR
from demo.desk import Desk
from demo.ledger import Ledger
from demo.truth import Truth
from demo.truth_play_offs import winner
from demo.world import SIDES
from wholeball.files.folder import read_folder
from wholeball.files.folder_record import FolderRecord

_SEASONS = 1_000


@dataclass(frozen=True, slots=True)
class Finals:
    """The comparisons of the play-offs, and of what only the whole season tells."""

    truth: Truth
    folder: Path
    desk: Desk
    ledger: Ledger

    def odds(self) -> None:
        """Compare what is proven before the last round with who went on in the end."""
        went_on = set(self.truth.goes_on.seeds)
        for one in self._told("odds", "--seasons", _SEASONS)["teams"]:
            status = one["status"]
            came = {"clinched": True, "out": False}.get(status)
            if came is not None:
                what = f"{one['team']} proven {status} before the last round"
                expected = one["team"] in went_on
                self.ledger.compare("the race", what, expected=expected, came=came)

    def draw(self) -> None:
        """Compare the draw with the seeds as they should be."""
        told = self._told("bracket")
        goes_on = self.truth.goes_on
        computed = [one["team"] for one in told["seeds"]]
        self.ledger.compare_all(
            "bracket",
            {f"seed {place}": team for place, team in enumerate(goes_on.seeds, start=1)},
            {f"seed {place}": team for place, team in enumerate(told["drawn"], start=1)},
        )
        self.ledger.compare(
            "bracket", "seeds by the record", expected=goes_on.by_record, came=computed
        )
        rude = sorted(one["team"] for one in told["left_out"] if one["why"] == "rating")
        what = "who is left out for its ratings"
        self.ledger.compare("bracket", what, expected=sorted(goes_on.too_rude), came=rude)
        out = sorted(one["team"] for one in told["left_out"] if one["why"] == "out")
        quits = self.truth.plot.quits
        expected = [self.truth.pools[quits][-1]] if quits else []
        self.ledger.compare("bracket", "who is out of the league", expected=expected, came=out)

    def bracket(self, games: Collection[str]) -> None:
        """Compare who won each game of the bracket that is played."""
        came = {
            f"winner of {one['played_as']}": one["winner"]
            for one in self._told("bracket")["games"]
            if one["played_as"]
        }
        accounts = [self.truth.accounts[game] for game in games]
        expected = {f"winner of {one.listed.game}": one.team(winner(one)) for one in accounts}
        self.ledger.compare_all("bracket", expected, came)

    def champion(self) -> None:
        """Compare who won it all, and who came third."""
        games = self._told("bracket")["games"]
        final = games[-1]
        third = next(one for one in games if one["for_third"])
        compare = self.ledger.compare
        compare("bracket", "champion", expected=self.truth.champion, came=final["winner"])
        compare("bracket", "third", expected=self.truth.third, came=third["winner"])

    def report(self, out: Path) -> None:
        """Compare the figures of the season's report, all in all and week by week."""
        told = self._told("report")
        self.desk.run("report", self.folder, "--out", out)
        accounts = list(self.truth.accounts.values())
        self._figures("the season", accounts, told["total"])
        for week in told["weeks"]:
            monday = date.fromisoformat(week["week_of"])
            mine = [one for one in accounts if 0 <= (one.listed.day - monday).days < 7]
            self._figures(f"the week of {monday}", mine, week)
        listed = len(self.truth.league) + len(self.truth.play_offs)
        compare = self.ledger.compare
        compare("report", "games listed", expected=listed, came=told["total"]["games"])
        compare("report", "games to come", expected=0, came=told["total"]["to_come"])
        players = self.truth.size.players
        compare("report", "people on rosters", expected=players, came=told["rostered"])

    def _figures(self, what: str, accounts: list[Account], told: dict[str, Any]) -> None:
        """Compare games, forfeits by ruling among them, people, and minutes of those who came."""
        played = [one for one in accounts if one.was_played]
        there = [one.student for game in played for side in SIDES for one in game.present[side]]
        known = {one.game: one.how for one in self.truth.known(FAR)}
        hows = [known.get(one.listed.game, "played") for one in accounts]
        minutes = 2 * self.truth.rules.half
        expected = {
            "played": len(played),
            "forfeits": hows.count("forfeit"),
            "defaults": hows.count("default"),
            "double_forfeits": hows.count("double_forfeit"),
            "people": len(set(there)),
            "game_minutes": minutes * len(played),
            "player_minutes": minutes * len(there),
        }
        for name, value in expected.items():
            self.ledger.compare("report", f"{name} of {what}", expected=value, came=told[name])

    def people_of_games(self) -> None:
        """Compare for each game who appeared, and who was shown what, person by person."""
        read = read_folder(FolderRecord(self.folder))
        names = {
            player.person: (str(team), player.name)
            for team, players in read.rosters.items()
            for player in players
        }
        for sheet in read.sheets:
            game = sheet.fixture.game
            account = self.truth.accounts[game]
            there = sorted(
                (account.team(side), one.name)
                for side in SIDES
                for one in account.present[side]
            )
            came = sorted(names[one.person] for one in sheet.appeared)
            self.ledger.compare("people", f"who appeared in {game}", expected=there, came=came)
            shown = sorted(
                (account.team(one.side), one.to.name, one.colour, one.second)
                for one in account.shown
            )
            seen = sorted(
                (*names[one.person], one.colour, one.second_caution) for one in sheet.cards
            )
            self.ledger.compare(
                "people", f"yellow and red in {game}", expected=shown, came=seen
            )

    def _told(self, command: str, *words: object) -> Any:
        return self.desk.run(command, self.folder, *words, "--json").json()
