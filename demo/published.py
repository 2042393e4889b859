"""Holds real tournaments' tables, as published, against what the commands make of their games."""

import csv
from pathlib import Path
from typing import Final

from demo.desk import Desk
from demo.ledger import Ledger

_FIGURES: Final = ("played", "won", "drawn", "lost", "goals_for", "goals_against", "points")


def tournaments(examples: Path) -> list[Path]:
    """Return the folders of the tournaments."""
    return sorted(one for one in (examples / "proof").iterdir() if one.is_dir())


def compare_published(examples: Path, desk: Desk, ledger: Ledger) -> None:
    """Compare each team's place and figures with the published ones."""
    for folder in tournaments(examples):
        told = desk.run("standings", folder, "--json").json()
        rows = {
            row["team"]: row for pool in told["pools"] for row in pool["rounds"][-1]["rows"]
        }
        with (folder / "published.csv").open(encoding="utf-8", newline="") as file:
            for line in csv.DictReader(file):
                names = ["place", *(one for one in _FIGURES if line.get(one))]
                row = rows[line["team"]]
                ledger.compare(
                    "published",
                    f"{line['team']} in {told['league']}",
                    expected=[int(line[one]) for one in names],
                    came=[row[one] for one in names],
                )
