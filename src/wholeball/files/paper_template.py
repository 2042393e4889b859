"""Writes the file of a paper scorecard: to be filled in, or as it was entered."""

import json
import re
from collections.abc import Iterator, Mapping
from datetime import date
from decimal import Decimal
from typing import Any, Final

from pydantic import BaseModel

from wholeball.game.paper import PaperCard, PaperPlayer
from wholeball.game.rules import GameRules
from wholeball.game.state import Score
from wholeball.kernel.identity import GameId

_KEY = re.compile(r"^#?\[{0,2}([a-z_]+)", re.MULTILINE)


def template(game: GameId, *, home: str, away: str, rules: GameRules, card: PaperCard) -> bytes:
    """Return a card with every key explained: what it has filled in, the rest behind a #.

    An empty one is refused until it has a score.
    """
    unplayed = ", ".join('""' for _ in range(rules.periods))
    text = _TEMPLATE.format(
        game=_one_line(game), home=_one_line(home), away=_one_line(away), unplayed=unplayed
    )
    values = _values(card)
    return ("\n\n".join(_block(block, values) for block in text.split("\n\n"))).encode()


def _one_line(name: str) -> str:
    return " ".join(name.split())


def _values(card: PaperCard) -> dict[str, Any]:
    """Return the keys of a card that say something; the periods of one that says anything."""
    found = {
        name: value
        for name, field in PaperCard.model_fields.items()
        if (value := getattr(card, name)) != field.default and name != "schema_version"
    }
    return {"periods": card.periods, **found} if found else {}


def _block(block: str, values: Mapping[str, Any]) -> str:
    """Return a part of the template with what the card has of its keys put in."""
    lines = block.rstrip("\n").split("\n")
    prose = [line for line in lines if line.startswith("# ")]
    said = [line for line in lines if line not in prose]
    tables = [line for line in said if "[" in line.split("=")[0]]
    keys = [name for line in tables or said for name in _KEY.findall(line)]
    filled = [line for name in keys if name in values for line in _lines(name, values[name])]
    end = "\n" if block.endswith("\n") else ""
    return "\n".join(prose + filled) + end if filled else block


def _lines(name: str, value: Any) -> Iterator[str]:
    match value:
        case BaseModel():
            yield f"[{name}]"
            yield from _keys(value)
        case (BaseModel(), *_):
            for index, one in enumerate(value):
                yield from [""] if index else []
                yield f"[[{name}]]"
                yield from _keys(one)
        case _:
            yield f"{name} = {_toml(value)}"


def _keys(part: BaseModel) -> Iterator[str]:
    """Yield the keys of a table, without those that say nothing."""
    for name, field in type(part).model_fields.items():
        value = getattr(part, name)
        if value != field.default:
            yield f"{name} = {_toml(value)}"


def _toml(value: Any) -> str:
    match value:
        case Score(home=home, away=away):
            return f'"{home}-{away}"'
        case PaperPlayer(number=number, name=name):
            worn = "" if number is None else f"={number}"
            return json.dumps(name + worn, ensure_ascii=False) if name else str(number)
        case date():
            return value.isoformat()
        case Decimal():
            return f"{value:f}"
        case tuple():
            return f"[{', '.join(map(_toml, value))}]"
        case _:
            return json.dumps(value, ensure_ascii=False)


_TEMPLATE: Final = """\
# The paper scorecard of game {game}: home {home}, away {away}.
# Take the # off the keys that the card has. Enter it with: wholeball enter DIR GAME --file

schema = 1

# The goals of each period alone, home first, such as ["1-1", "2-1"].
periods = [{unplayed}]

# Overtime, a score a period.
#overtime = ["0-1"]

# How it ended where time did not end it: "mercy" here, or one of the tables [forfeit], [default]
# and [broken_off] below; and what the clock of the last period still had. "full_time" says that a
# game went to its time though a mercy rule was reached.
#ended = "mercy"
#minutes_left = 6

# Who played, where the card has it: shirt numbers; a name or code of rosters.csv in quotes, and
# behind = the number of a shirt that was given out at the gate.
#home_players = [1, 7, "Noor Zephirou"]
#away_players = [3, "Umaru Kealohana=10"]

# home_captain, away_captain, official, scorekeeper, supervisor
signed = []

# At most 2,000 characters.
#note = ""

# A table for each yellow and red. Without a number: leave it out. Period and minute (of that
# period, from 1) go together, or stay out. to = "substitute" or "team_official" where it was one.
#[[yellow]]
#side = "home"
#number = 7
#reason = "dissent"
#period = 1
#minute = 12

# A red for another yellow follows by itself.
#[[red]]
#side = "away"
#number = 10
#reason = "stops a clear chance"

#[[ratings]]
#side = "home"
#value = 4
#by = "official"
#reason = ""

# Scorers, where you want them. side is the side that gets the goal, also for own = true.
#[[goals]]
#side = "home"
#period = 1
#minute = 12
#number = 9

# Protests. about: rule_misapplied, eligibility, judgement; by = "player" or "other" where it was
# not the captain. Period and minute go together, or stay out.
#[[protests]]
#side = "away"
#about = "eligibility"

# Kicks from the mark, a letter a kick: o scored, x not scored, - nobody came to take it.
#[kicks]
#first = "home"
#home = "ooxo"
#away = "oxx"
#home_numbers = [7, 9, 4, 10]

#[[refused]]
#by = "away_captain"
#reason = "does not agree with the second goal"

# by = "both" where neither side was ready. why: not_ready, too_few, left, barred_player,
# conduct, other
#[forfeit]
#by = "away"
#why = "too_few"

#[default]
#by = "away"
#in_time = true

# why: weather, lights, field, injury, disorder, numbers, other. to_blame: home, away or both.
#[broken_off]
#why = "weather"
#to_blame = "away"

# Where the game was stopped and went on another night: why it stopped, in which period, what its
# clock still had, and the day it went on. A yellow or red of the first night without a minute
# gets before_stop = true.
#[resumed]
#why = "weather"
#period = 2
#minutes_left = 14
#on = 2026-09-20
"""
