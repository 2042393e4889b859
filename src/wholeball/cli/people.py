"""Has the commands about people of a season, for staff only: check it, and its suspensions."""

from collections.abc import Iterable, Iterator, Mapping
from typing import Annotated

import typer

from wholeball.cli.award import day_of
from wholeball.cli.folder import Folder
from wholeball.cli.output import fault_values, print_json, print_lines, printing_refusals
from wholeball.files.discipline import FILE as DECISIONS_FILE
from wholeball.files.folder import SeasonFolder
from wholeball.files.folder_record import FolderRecord
from wholeball.kernel.faults import Fault, shown
from wholeball.kernel.identity import PersonId
from wholeball.reports.dates import day
from wholeball.reports.person_words import article_name, cause_words, still_words, unless_words
from wholeball.rulebook.sentence import counted, listed
from wholeball.season.suspension import Breach, Discipline, Suspension
from wholeball.usecases.check_season import check_season, name_of, unknown_people
from wholeball.usecases.season_people import OnRoster, on_rosters, people_of_folder

On = Annotated[
    str | None,
    typer.Option("--on", metavar="DATE", help="As of this day; today otherwise."),
]
AsJson = Annotated[bool, typer.Option("--json", help="Print JSON for other programs.")]


def add_to(app: typer.Typer) -> None:
    """Add the commands to the command line."""
    app.command()(check)
    app.command()(suspensions)


def check(folder: Folder, on: On = None, as_json: AsJson = False) -> None:
    """Check a season folder: faults, doubts, and what its games say. For staff only."""
    record = FolderRecord(folder)
    with printing_refusals(file=record.place, as_json=as_json):
        found = check_season(record, on=day_of(on))
    if as_json:
        print_json({"ok": True, "faults": [], "remarks": fault_values(found.remarks)})
        return
    print_lines(shown(found.remarks) or ["Nothing is wrong."])


def suspensions(folder: Folder, on: On = None, as_json: AsJson = False) -> None:
    """Show all suspensions: why, where served, what is left, who is barred. For staff only."""
    record = FolderRecord(folder)
    with printing_refusals(file=record.place, as_json=as_json):
        read, found = people_of_folder(record, day_of(on))
    if as_json:
        print_json(_values(read, found))
    else:
        print_lines(_lines(read, found))


def _lines(read: SeasonFolder, found: Discipline) -> Iterator[str]:
    names = on_rosters(read)
    yield f"Suspensions as of {day(found.on)}. For staff only."
    if not found.suspensions:
        yield "Nobody is suspended, and nobody was."
    for one in found.suspensions:
        yield from _suspension(one, read, names)
    yield from _section("Barred from games to come", _barred(read, found, names))
    breaches = (_breach(one, read, names) for one in found.breaches)
    yield from _section("Played while suspended", breaches)
    if found.open:
        serving = read.season.rulebook.discipline.serving
        rest = "is served next season" if serving.carries_over else "lapses"
        article = article_name("discipline.serving", read.season.rulebook)
        yield f"What is left when the season ends {rest} ({article})."
    yield from _section("Nobody can tell who it was", shown(tuple(unknown_people(read))))
    yield from _section("Decisions to look at", shown(_doubted(read)))


def _doubted(read: SeasonFolder) -> tuple[Fault, ...]:
    """Return what is doubtful about the rows of discipline.csv."""
    return tuple(one for one in read.remarks if one.place.file == DECISIONS_FILE)


def _section(heading: str, lines: Iterable[str]) -> Iterator[str]:
    found = [f"  {line}" for line in lines]
    yield from (heading, *found) if found else ()


def _barred(
    read: SeasonFolder, found: Discipline, names: Mapping[PersonId, tuple[OnRoster, ...]]
) -> Iterator[str]:
    for fixture in read.timetable:
        for one in found.barred.get(fixture.game, ()):
            who = name_of(one.person, one.team, names)
            yield f"{fixture.game}, {day(fixture.day)}: {who} of {one.team}{unless_words(one.unless)}"


def _suspension(
    one: Suspension, read: SeasonFolder, names: Mapping[PersonId, tuple[OnRoster, ...]]
) -> Iterator[str]:
    lines = names.get(one.person, ())
    teams = listed(tuple(f"{line.name} ({line.team})" for line in lines)) or one.person
    where = "everywhere" if one.league is None else f"in {one.league}"
    yield f"{teams}: {cause_words(one, read.season.rulebook)}, {where}, from {day(one.day)}"
    served = listed(tuple(f"{each.game} on {day(each.day)}" for each in one.served))
    by = f" By ruling {listed(tuple(map(str, one.rulings)))}." if one.rulings else ""
    games = (f"{counted(one.games, 'game')}",) if one.games else ()
    told = (f"served in {served or 'none yet'}",) if one.games or served else ()
    yield f"  {'; '.join((*games, *told, still_words(one)))}.{by}"


def _breach(
    one: Breach, read: SeasonFolder, names: Mapping[PersonId, tuple[OnRoster, ...]]
) -> str:
    article = article_name("discipline.serving", read.season.rulebook)
    who = name_of(one.person, one.team, names)
    return f"{one.game}: {who} for {one.team} ({article}); wholeball check says what follows"


def _values(read: SeasonFolder, found: Discipline) -> dict[str, object]:
    names = on_rosters(read)
    book = read.season.rulebook
    return {
        "on": found.on.isoformat(),
        "suspensions": [
            {
                "person": one.person,
                "names": [line._asdict() for line in names.get(one.person, ())],
                "cause": one.cause,
                "article": one.article,
                "ref": article_name(one.article, book),
                "game": one.game,
                "day": one.day.isoformat(),
                "league": one.league,
                "games": one.games,
                "served": [
                    {"game": each.game, "day": each.day.isoformat()} for each in one.served
                ],
                "left": one.left,
                "until": one.until and one.until.isoformat(),
                "waits_for_meeting": one.waits,
                "lifted": one.lifted and one.lifted.isoformat(),
                "rulings": one.rulings,
                "open": one.holds_on(found.on),
                "carries_over": one.left > 0 and book.discipline.serving.carries_over,
            }
            for one in found.suspensions
        ],
        "barred": [
            {
                "game": fixture.game,
                "day": fixture.day.isoformat(),
                "team": one.team,
                "person": one.person,
                "name": name_of(one.person, one.team, names),
                "unless_played": one.unless,
            }
            for fixture in read.timetable
            for one in found.barred.get(fixture.game, ())
        ],
        "breaches": [
            {
                "game": one.game,
                "team": one.team,
                "side": one.side,
                "person": one.person,
                "name": name_of(one.person, one.team, names),
                "rulebook_says": book.discipline.serving.breach,
            }
            for one in found.breaches
        ],
        "remarks": fault_values((*unknown_people(read), *_doubted(read))),
    }
