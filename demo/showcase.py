"""Makes the pages of the demonstration: a front page that leads to all that came out."""

import shutil
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import datetime
from functools import cache
from pathlib import Path
from typing import Any, Final, NamedTuple
from urllib.parse import quote

from jinja2 import ChoiceLoader, Environment, FileSystemLoader, PackageLoader, StrictUndefined

from demo.course import Course
from demo.ledger import KINDS, Ledger
from demo.planner import Rain
from demo.plot import NOTABLE
from demo.published import tournaments
from wholeball.files.pages import write_pages
from wholeball.reports.dates import day
from wholeball.reports.index_page import Door
from wholeball.reports.shell import Link, Page, Shell, Spot, paragraphs
from wholeball.reports.shipped import assets
from wholeball.reports.whole_scores import score_parts

INDEX: Final = "index.html"
COMPARED: Final = "compared.html"
_PARTS: Final = ("season", "folder", "proof", "sheets", "staff", "lantern-hill", "report")


class Part(NamedTuple):
    """A part of the front page: a heading, a sentence where one is needed, and its doors."""

    title: str
    says: str
    doors: tuple[Door, ...]


class Worth(NamedTuple):
    """A game worth a look, and why."""

    href: str
    home: str
    away: str
    why: str
    score: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Front:
    """What the front page says."""

    says: str
    parts: tuple[Part, ...]
    rain: Rain
    rained: str
    games: tuple[Worth, ...]


def clear(out: Path) -> None:
    """Take away what an earlier demonstration made in the folders of its own."""
    for name in _PARTS:
        shutil.rmtree(out / name, ignore_errors=True)


def show(course: Course, out: Path, examples: Path, *, printed: datetime) -> Path:
    """Write the pages of a season that was played, and return the front page."""
    desk, folder = course.desk, course.folder
    shutil.copytree(folder, out / "folder")
    back = ("--back", f"Demonstration=../{INDEX}")
    desk.run("pages", folder, out / "season", *back)
    desk.run("bracket", folder, "--svg", out / "season" / "bracket.svg")
    desk.run("standings", examples / "lantern-hill", "--html", out / "lantern-hill")
    for one in tournaments(examples):
        back = ("--back", f"Demonstration=../../{INDEX}")
        desk.run("pages", one, out / "proof" / one.name, *back)
    return front_pages(course, out, examples, printed=printed)


def front_pages(course: Course, out: Path, examples: Path, *, printed: datetime) -> Path:
    """Write the front page and what was compared, beside the pages that are there already."""
    told = course.desk.run("results", course.folder, "--json").json()
    shell = Shell(
        links=(Link(label="Demonstration", href=INDEX), Link(label="Compared", href=COMPARED)),
        rulebook=course.league,
        digest=course.rulebook,
        printed=printed,
    )
    pages = {
        INDEX: _front(course, told["results"], out, examples, shell),
        COMPARED: _compared(course.ledger, shell),
    }
    write_pages(out, {**{name: text.encode() for name, text in pages.items()}, **assets()})
    return out / INDEX


def _front(
    course: Course, rows: list[dict[str, Any]], out: Path, examples: Path, shell: Shell
) -> str:
    truth, ledger = course.truth, course.ledger
    page = Page(
        here=INDEX,
        title=course.league,
        spot=Spot(number=str(ledger.facts), label="facts compared"),
    )
    differences = len(ledger.differences)
    told = "none came out otherwise" if not differences else f"{differences} came out otherwise"
    front = Front(
        says=(
            f"An invented season, played with the real commands from the sign-ups to the trophy: "
            f"{len(truth.teams)} teams, {truth.size.players} players, {len(rows)} games. "
            f"{truth.champion} won it. {ledger.facts} facts were compared with what truly "
            f"happened; {told}."
        ),
        parts=(_season(course), _sheets(course), _beyond(out, examples)),
        rain=course.rain,
        rained=_rained(course),
        games=tuple(_games(course, rows)),
    )
    return _environment().get_template("front.html").render(page=page, shell=shell, front=front)


def _rained(course: Course) -> str:
    nights = " and ".join(day(one) for one in course.rain.nights)
    return (
        f"{day(course.truth.size.rained_off)} was lost to rain before it was played. Its "
        f"{course.rain.games} games moved to {nights}; fewer could not move, and no other did."
    )


def _last_table(course: Course, number: int, pool: str) -> str:
    return f"season/standings-{number}-round-{course.truth.last_round(pool)}.html"


def _season(course: Course) -> Part:
    tables = tuple(
        Link(label=pool, href=_last_table(course, number, pool))
        for number, pool in enumerate(course.truth.pools, start=1)
    )
    doors = (
        Door(
            links=tables, says="Standings after every round, with the reason for every place."
        ),
        Door(
            links=(
                Link(label="Calendar", href="season/calendar.html"),
                Link(label="PDF, A4", href="season/calendar-a4.pdf"),
                Link(label="PDF, Letter", href="season/calendar-letter.pdf"),
            ),
            says=(
                f"Every week, team and field. {course.planned}. A night that was lost to rain "
                "is mended."
            ),
        ),
        _door("Bracket", "season/bracket.svg", "The play-offs from the draw to the final."),
        _door("Every game", "season/index.html", "All games, each from its entries."),
        _door(
            "Rulebook", "season/rulebook.html", "The house rules in plain words, and as PDF."
        ),
        Door(
            links=(
                Link(label="Rulings", href="season/rulings.html"),
                Link(label="Different here", href="season/different.html"),
            ),
            says="Situations with a scene each, and what is ruled otherwise than by the Laws.",
        ),
        _door(
            "What was compared",
            COMPARED,
            "Every fact by its name; one that came out otherwise would say so.",
        ),
        _door("Season folder", "folder/README.md", "The files that all of it comes from."),
    )
    return Part("The season", "", doors)


def _sheets(course: Course) -> Part:
    night = course.packet_night
    doors = (
        _door(
            "Night packet",
            f"sheets/packet-{night}.pdf",
            "One night on paper: games, emergency page, checks, scorecards. The gate lists and "
            "rating stubs in it are for staff.",
        ),
        _door(
            "Season report",
            "report/season-report.html",
            "People, games, hours and forfeits by week and division; tables beside it.",
        ),
        _door(
            "Suspensions (staff)",
            "staff/suspensions.pdf",
            "For staff only: why, where each game was served, who is barred from what.",
        ),
    )
    return Part("Sheets and report", "", doors)


def _beyond(out: Path, examples: Path) -> Part:
    proofs = tuple(
        Link(label=one.name.replace("-", " ").title(), href=f"proof/{one.name}/proof.html")
        for one in tournaments(examples)
    )
    lantern = tuple(
        Link(label=f"Table {number}", href=f"lantern-hill/{one.name}")
        for number, one in enumerate(_last_pages(out / "lantern-hill"), start=1)
    )
    doors = (
        Door(links=proofs, says="Published tables of real tournaments beside ours."),
        Door(links=lantern, says="A small league whose tables show each kind of reason."),
    )
    return Part("Beyond the season", "", doors)


def _last_pages(folder: Path) -> list[Path]:
    """Return the newest page of each pool."""
    newest: dict[str, Path] = {}
    for one in sorted(folder.glob("*.html")):
        newest[one.name.rpartition("-round-")[0]] = one
    return list(newest.values())


def _games(course: Course, rows: list[dict[str, Any]]) -> Iterator[Worth]:
    scores = {row["game"]: row for row in rows}
    for game in course.truth.accounts:
        kind = course.truth.plot.kind(game)
        if kind in NOTABLE:
            row = scores[game]
            yield Worth(
                href=f"season/{quote(f'game-{game}.html')}",
                home=row["home"],
                away=row["away"],
                why=NOTABLE[kind],
                score=_score(row),
            )


def _score(row: Mapping[str, Any]) -> str:
    if row["home_goals"] is None:
        return "annulled"
    return f"{row['home_goals']}\N{EN DASH}{row['away_goals']}"


def _compared(ledger: Ledger, shell: Shell) -> str:
    different = len(ledger.differences)
    label = f"facts, {different} different" if different else "facts, none different"
    page = Page(
        here=COMPARED,
        title="What was compared",
        spot=Spot(number=str(ledger.facts), label=label),
    )
    rows = []
    for kind, says in KINDS.items():
        facts = [one for one in ledger.all if one.kind == kind]
        if facts:
            differences = sum(one.is_other for one in facts)
            rows.append(
                {
                    "kind": kind.capitalize(),
                    "says": says,
                    "facts": len(facts),
                    "differences": differences,
                    "all": facts,
                }
            )
    return (
        _environment().get_template("compared.html").render(page=page, shell=shell, rows=rows)
    )


def _door(label: str, href: str, says: str) -> Door:
    return Door(links=(Link(label=label, href=href),), says=says)


@cache
def _environment() -> Environment:
    own = FileSystemLoader(Path(__file__).parent / "templates")
    environment = Environment(
        loader=ChoiceLoader([own, PackageLoader("wholeball.reports")]),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    environment.filters["paragraphs"] = paragraphs
    environment.filters["score_parts"] = score_parts
    return environment
