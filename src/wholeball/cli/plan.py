"""Has the commands about the timetable: plan it, and say what it is held to."""

from typing import Annotated, Literal

import typer

from wholeball.cli.folder import Folder
from wholeball.files.folder_record import FolderRecord

AsJson = Annotated[bool, typer.Option("--json", help="Print JSON for other programs.")]
Seconds = Annotated[float, typer.Option(help="How long to search.", min=0.1, max=86_400)]
PlanSeconds = Annotated[
    float | None,
    typer.Option(
        "--seconds",
        help="How long to search: 60; with --what-if, 10 a try.",
        min=0.1,
        max=86_400,
    ),
]
Reproducible = Annotated[
    bool, typer.Option("--reproducible", help="The same plan on every machine, if slower.")
]
DryRun = Annotated[bool, typer.Option("--dry-run", help="Show the plan; write nothing.")]
Now = Annotated[
    str | None,
    typer.Option("--now", metavar="MOMENT", help="As of then, such as 2027-01-18T09:00."),
]
LostNights = Annotated[
    list[str],
    typer.Option(
        "--lost-night", metavar="DATE[@SITE]", help="A night, or a site's, that is lost."
    ),
]
LostFields = Annotated[
    list[str],
    typer.Option(
        "--lost-field", metavar="FIELD[@DATE]", help="A field that is lost, or on one night."
    ),
]
Withdraw = Annotated[
    list[str], typer.Option("--withdraw", metavar="TEAM", help="A team that plays no more.")
]
Add = Annotated[
    list[str],
    typer.Option("--add", metavar="TEAM", help="A team of teams.csv that has no game yet."),
]
Edited = Annotated[
    bool,
    typer.Option(
        "--edited",
        help="Rules, slots, closures or absences were edited: keep to what they say now.",
    ),
]

WhatIf = Annotated[
    Literal["teams", "helps"] | None,
    typer.Option(
        "--what-if",
        help="Plan nothing; teams: how many more fit; helps: which one thing more helps most.",
    ),
]
Rain = Annotated[
    int,
    typer.Option(
        help="With --what-if teams: nights in a hundred that are kept for rain.", min=0, max=90
    ),
]


def add_to(app: typer.Typer) -> None:
    """Add the commands to the command line."""
    app.command()(plan)
    app.command()(explain)
    app.command()(repair)


def plan(  # noqa: PLR0913, PLR0917 - one for each option
    folder: Folder,
    seconds: PlanSeconds = None,
    reproducible: Reproducible = False,
    dry_run: DryRun = False,
    what_if: WhatIf = None,
    rain: Rain = 10,
    now: Now = None,
    as_json: AsJson = False,
) -> None:
    """Plan the timetable and write timetable.csv; the one that it replaces is kept."""
    record = FolderRecord(folder)
    if what_if is not None:
        from wholeball.cli.what_if_told import (  # noqa: PLC0415 - its solver takes a second
            tell_what_if,
        )

        tell_what_if(
            record, what_if, rain=rain, seconds=seconds or 10.0, now=now, as_json=as_json
        )
        return
    from wholeball.cli.plan_told import (  # noqa: PLC0415 - its solver takes a second to import
        How,
        tell_plan,
    )

    tell_plan(
        record,
        How(
            seconds=seconds or 60.0,
            is_reproducible=reproducible,
            writes=not dry_run,
            now=now,
            as_json=as_json,
        ),
    )


def explain(folder: Folder, now: Now = None, as_json: AsJson = False) -> None:
    """Say what a timetable is held to, what speaks against one, and what the present one costs."""
    record = FolderRecord(folder)
    from wholeball.cli.plan_told import (  # noqa: PLC0415 - its solver takes a second to import
        tell_explained,
    )

    tell_explained(record, now=now, as_json=as_json)


def repair(  # noqa: PLR0913, PLR0917 - one for each option
    folder: Folder,
    lost_night: LostNights = [],  # noqa: B006 - typer reads it, nobody changes it
    lost_field: LostFields = [],  # noqa: B006
    withdraw: Withdraw = [],  # noqa: B006
    add: Add = [],  # noqa: B006
    edited: Edited = False,
    seconds: Seconds = 60.0,
    reproducible: Reproducible = False,
    dry_run: DryRun = False,
    now: Now = None,
    as_json: AsJson = False,
) -> None:
    """Mend the timetable after a loss or an edit, or when a team leaves or comes."""
    record = FolderRecord(folder)
    from wholeball.cli.plan_told import How  # noqa: PLC0415
    from wholeball.cli.repair_told import (  # noqa: PLC0415 - its solver takes a second to import
        happened_of,
        tell_repair,
    )

    tell_repair(
        record,
        happened=lambda: happened_of(
            lost=(lost_night, lost_field), teams=(withdraw, add), edited=edited
        ),
        how=How(
            seconds=seconds,
            is_reproducible=reproducible,
            writes=not dry_run,
            now=now,
            as_json=as_json,
        ),
    )
