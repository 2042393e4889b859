"""Says by which command people do something to a season folder."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

from wholeball.league.ways import ToDo

_COMMANDS: Final[Mapping[ToDo, str]] = {
    "answer": "wholeball answer {place} {game} --by NAME",
    "award": 'wholeball award {place} {game} --to {to} --ref "{ref}" --why TEXT',
    "begin": "wholeball new {place}",
    "bracket": "wholeball bracket {place}",
    "bring_back": "wholeball enter {place} {game} --redo",
    "certify": "wholeball game {place} {game}; wholeball certify {place} {game} --by NAME",
    "certify_one": "wholeball game {place} GAME; wholeball certify {place} GAME --by NAME",
    "draw_lots": "wholeball draw commit, then [[lots]] in season.toml",
    "enter": "wholeball enter {place} {game} --by NAME",
    "explain": "wholeball explain {place}",
    "id_key": "WHOLEBALL_ID_KEY, or its key file",
    "look": "wholeball game {place} {game} --officials",
    "plan": "wholeball plan {place}",
    "reopen": "wholeball reopen {place} {game} --by NAME --reason TEXT",
    "resume": "in cards/{game}.toml, [resumed] on, and enter it again: "
    "wholeball enter {place} {game} --by NAME --file",
    "rule": "in rulings.csv, or wholeball award {place} {game} --to SIDE --ref TEXT --why TEXT",
    "take_back": "wholeball enter {place} {game} --undo",
}


@dataclass(frozen=True, slots=True)
class Commands:
    """The commands for the folder at a path, as a `Way`."""

    place: str

    def __call__(self, to_do: ToDo, **told: str) -> str:
        """Return the command, with the words in capitals left to whoever types it."""
        return _COMMANDS[to_do].format_map({"place": self.place, **told})
