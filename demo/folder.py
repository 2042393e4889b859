"""Writes the files of the season folder that people type, and the lists that captains send."""

import csv
import io
from collections.abc import Iterable, Mapping, Sequence
from datetime import date
from pathlib import Path

from openpyxl import Workbook

from demo.house import HOUSE, house_rulebook
from demo.invent import Alone, Invented, SignedUp
from demo.schedule import CLOSES, OPENS
from demo.world import Listed, Person, Size

RULEBOOK_NAME = "Quillmere University, eights"
_WINDOW = (f"{OPENS:%H:%M}", f"{CLOSES:%H:%M}")
_SITES = (
    (
        "Lower Meadow",
        "12 Orchard Lane, Quillmere",
        "Gate 2, by the boathouse",
        "The groundskeeper",
        "Boathouse, left of the door",
        "The trail official",
        "The supervisor",
        "The boathouse",
    ),
    ("Quarry Ground", "", "South gate", "", "", "The scorekeeper", "The supervisor", "Buses"),
)


def table(path: Path, header: Sequence[str], rows: Iterable[Sequence[object]]) -> None:
    """Write a table as a spreadsheet exports it."""
    text = io.StringIO()
    writer = csv.writer(text, lineterminator="\n")
    writer.writerow(header)
    writer.writerows(rows)
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(text.getvalue(), encoding="utf-8")


def set_up(folder: Path, size: Size, invented: Invented) -> None:
    """Turn a new folder into that of the league before sign-ups are dealt out."""
    season = (folder / "season.toml").read_text(encoding="utf-8")
    lines = [
        f'name = "{size.title}"'
        if line.startswith("name = ")
        else f'last_day = {size.last_day}\nbrackets = "one"  # both divisions play for one trophy'
        if line.startswith("last_day = ")
        else line
        for line in season.splitlines()
    ]
    (folder / "season.toml").write_text("\n".join(lines) + "\n", encoding="utf-8")
    rulebook = folder / "rulebook.toml"
    changed = house_rulebook(rulebook.read_text(encoding="utf-8"), RULEBOOK_NAME, HOUSE)
    rulebook.write_text(changed, encoding="utf-8")
    _places(folder, size)
    officials = invented.officials
    table(folder / "officials.csv", ["official"], [[one] for one in officials])


def _places(folder: Path, size: Size) -> None:
    table(
        folder / "divisions.csv",
        ["division", "level"],
        [[one.division, "everybody"] for one in size.blocks],
    )
    table(
        folder / "blocks.csv",
        ["block", "division", "weekday", "from", "until", "places"],
        [[one.block, one.division, one.weekday, *_WINDOW, one.places] for one in size.blocks],
    )
    header = ["site", "address", "gate", "gate_opener", "aed", "calls", "meets", "shelter"]
    table(folder / "sites.csv", header, _SITES)
    table(folder / "fields.csv", ["field", "site"], size.fields)


def sign_ups(folder: Path, asked: Iterable[SignedUp]) -> None:
    """Write sign_ups.csv."""
    table(
        folder / "sign_ups.csv",
        ["team", "block", "at", "captain", "players", "colours", "second_colours"],
        [
            [
                one.team.name,
                one.block.block,
                f"{one.at:%Y-%m-%d %H:%M}",
                one.team.players[0].name,
                one.players,
                *one.team.colours,
            ]
            for one in asked
        ],
    )


def alone(folder: Path, asked: Iterable[Alone]) -> None:
    """Write alone.csv."""
    table(
        folder / "alone.csv",
        ["person", "name", "block", "at"],
        [[one.code, one.name, one.block.block, f"{one.at:%Y-%m-%d %H:%M}"] for one in asked],
    )


def crews(folder: Path, games: Iterable[Listed]) -> None:
    """Write crews.csv."""
    table(
        folder / "crews.csv",
        ["game", "role", "official"],
        [
            [one.game, role, who]
            for one in games
            for role, who in zip(("lead", "trail"), one.crew, strict=True)
        ],
    )


_LIST = ["student_id", "name", "number", "captain"]


def captains_list(path: Path, people: Iterable[Person]) -> None:
    """Write a captain's list of players, as CSV or as a workbook by the file's name."""
    rows: list[list[str | int]] = [
        [
            one.student,
            one.name,
            "" if one.number is None else one.number,
            "yes" if one.is_captain else "",
        ]
        for one in people
    ]
    if path.suffix == ".csv":
        table(path, _LIST, rows)
        return
    path.parent.mkdir(parents=True, exist_ok=True)
    book = Workbook()
    sheet = book.create_sheet("Players", 0)
    for row in (_LIST, *rows):
        sheet.append(row)
    book.save(path)


def private_files(folder: Path, known: Mapping[tuple[str, str], str], last: date) -> None:
    """Write people.csv, with a waiver for everybody but the last two, who have signed none."""
    listed = list(known.values())
    rows: list[list[object]] = [[one, last] for one in listed[:-2]]
    rows += [[one, ""] for one in listed[-2:]]
    table(folder / "people.csv", ["person", "waiver_until"], rows)


def codes(folder: Path) -> dict[tuple[str, str], str]:
    """Return the code of each player by team and name, as the import wrote it."""
    with (folder / "rosters.csv").open(encoding="utf-8", newline="") as file:
        return {(row["team"], row["name"]): row["person"] for row in csv.DictReader(file)}


def add_rows(path: Path, header: Sequence[str], rows: Iterable[Sequence[object]]) -> None:
    """Add rows at the end of a table, or begin it."""
    if not path.exists():
        table(path, header, ())
    with path.open("a", encoding="utf-8", newline="") as file:
        csv.writer(file, lineterminator="\n").writerows(rows)
