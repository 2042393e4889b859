"""Has the commands of the site: serve it, back it up, restore it. Django is imported late."""

import os
from datetime import UTC, datetime
from pathlib import Path
from typing import Annotated, Final

import typer

from wholeball.cli import main as command_line
from wholeball.cli.main import app
from wholeball.site.data_folder import make_data_folder
from wholeball.site.environment import Environment, environment

__all__ = ["app", "run"]

OTHERS: Final = 0o077
"""What nobody but this account may do with a file that the site makes: anything."""
Data = Annotated[
    Path | None, typer.Option(help="The folder of the site's data; WHOLEBALL_DATA otherwise.")
]


def run() -> None:
    """Run the command that was typed, these among them."""
    command_line.main()


@app.command()
def serve(
    *,
    data: Data = None,
    host: Annotated[str, typer.Option(help="The address to listen at.")] = "127.0.0.1",
    port: Annotated[int, typer.Option(help="The port.", min=1, max=65_535)] = 8000,
) -> None:
    """Serve the site: the desk, the noticeboard and the study."""
    here = _start(data, makes=True)
    from wholeball.site.serving import serve as run  # noqa: PLC0415 - imports Django

    run(here, host=host, port=port)


@app.command()
def backup(
    file: Annotated[Path, typer.Argument(help="The file to write.")],
    *,
    data: Data = None,
    rows: Annotated[
        bool, typer.Option("--rows", help="Write rows that SQLite and PostgreSQL both take.")
    ] = False,
) -> None:
    """Write the whole database to one file, also while the site is served."""
    here = _start(data)
    from wholeball.site.backups import write_backup  # noqa: PLC0415 - imports Django

    kept = write_backup(file, now=datetime.now(UTC), as_rows=rows or not here.is_sqlite)
    print(f"{file}: {kept.size:,} bytes, checked by {kept.digest[:12]}.")


@app.command()
def restore(
    file: Annotated[Path, typer.Argument(help="The file that backup wrote.")],
    *,
    data: Data = None,
    drill: Annotated[
        bool, typer.Option("--drill", help="Only try it, in an empty place of its own.")
    ] = False,
) -> None:
    """Bring a backup back into an empty place, or try whether that would work."""
    if drill:
        from wholeball.site.drill import drill as rehearse  # noqa: PLC0415 - starts a process

        print(rehearse(file))
        return
    _start(data, makes=True)
    from wholeball.site.restores import restore_backup  # noqa: PLC0415 - imports Django

    print(restore_backup(file))


def _start(data: Path | None, *, makes: bool = False) -> Environment:
    """Return what the machine says, once Django knows it too."""
    os.umask(OTHERS)
    if data is not None:
        os.environ["WHOLEBALL_DATA"] = str(data)
    os.environ.setdefault("DJANGO_SETTINGS_MODULE", "wholeball.site.settings")
    if makes:
        make_data_folder(environment())
    here = environment()
    import django  # noqa: PLC0415 - only the site's commands need it

    django.setup()
    return here
