"""Has the commands about the timetable: plan it, and say what it is held to."""

from pathlib import Path
from typing import Annotated

import typer

Folder = Annotated[Path, typer.Argument(help="The season folder.")]
AsJson = Annotated[bool, typer.Option("--json", help="Print JSON for other programs.")]
Seconds = Annotated[float, typer.Option(help="How long to search.", min=0.1, max=86_400)]
Reproducible = Annotated[
    bool, typer.Option("--reproducible", help="The same plan on every machine, if slower.")
]
Try = Annotated[bool, typer.Option("--try", help="Show the plan; write nothing.")]
Now = Annotated[
    str | None,
    typer.Option("--now", metavar="MOMENT", help="As of then, such as 2027-01-18T09:00."),
]


def add_to(app: typer.Typer) -> None:
    """Add the commands to the command line."""
    app.command()(plan)
    app.command()(explain)


def plan(
    folder: Folder,
    seconds: Seconds = 60.0,
    reproducible: Reproducible = False,
    only_try: Try = False,
    now: Now = None,
    as_json: AsJson = False,
) -> None:
    """Plan the timetable and write timetable.csv; the one that it replaces is kept."""
    from wholeball.cli.plan_told import (  # noqa: PLC0415 - its solver takes a second to import
        tell_plan,
    )

    tell_plan(
        folder,
        seconds=seconds,
        is_reproducible=reproducible,
        writes=not only_try,
        now=now,
        as_json=as_json,
    )


def explain(folder: Folder, now: Now = None, as_json: AsJson = False) -> None:
    """Say what a timetable is held to, what speaks against one, and what the present one costs."""
    from wholeball.cli.plan_told import (  # noqa: PLC0415 - its solver takes a second to import
        tell_explained,
    )

    tell_explained(folder, now=now, as_json=as_json)
