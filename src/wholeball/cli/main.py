"""Is the command line: it gathers the commands and shows what a person can mend."""

import gc
import os
import sys
from io import TextIOWrapper

import typer

from wholeball import __version__
from wholeball.cli import (
    answer,
    ask,
    award,
    bracket,
    certify,
    draw,
    enter,
    game,
    odds,
    people,
    plan,
    pools,
    ratings,
    report,
    results,
    roster,
    rulebook,
    season,
    sheets,
)
from wholeball.cli.output import print_refusal
from wholeball.kernel.faults import WholeballError

app = typer.Typer(
    no_args_is_help=True,
    add_completion=False,
    pretty_exceptions_enable=False,
    help="One rulebook for a soccer league; everything else is computed from it.",
)
app.add_typer(rulebook.app, name="rulebook")
app.add_typer(draw.app, name="draw")
app.add_typer(sheets.app, name="sheets")
app.add_typer(roster.app, name="roster")
season.add_to(app)
pools.add_to(app)
ratings.add_to(app)
bracket.add_to(app)
odds.add_to(app)
game.add_to(app)
ask.add_to(app)
enter.add_to(app)
certify.add_to(app)
award.add_to(app)
results.add_to(app)
answer.add_to(app)
people.add_to(app)
report.add_to(app)
plan.add_to(app)


@app.command()
def version() -> None:
    """Print the version."""
    print(__version__)


def main() -> None:
    """Run the command that was typed; a fault of the input ends with status 1."""
    _keep_the_program()
    _print_what_can_be_printed()
    try:
        _run()
    except WholeballError as error:
        print_refusal(error, writes=True)
        sys.exit(1)
    except BrokenPipeError:
        _give_up_output()
        sys.stderr.close()
        sys.exit(1)
    except OSError as error:
        _give_up_output()
        print(f"{error.filename or 'The output'}: {error.strerror}.", file=sys.stderr)
        sys.exit(1)


def _run() -> None:
    """Run the command and write its output out, so that a full disk is noticed here."""
    try:
        app()
    finally:
        sys.stdout.flush()


def _keep_the_program() -> None:
    """Spare the collector what has been imported: none of it ever becomes garbage.

    Going through the schema's classes costs a third of the time that a booklet takes.
    """
    gc.freeze()


def _print_what_can_be_printed() -> None:
    """Print what a terminal cannot show as an escape, rather than fail."""
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, TextIOWrapper):
            stream.reconfigure(errors="backslashreplace")


def _give_up_output() -> None:
    """Send what is still to be written nowhere, so that Python's end does not fail on it."""
    os.dup2(os.open(os.devnull, os.O_WRONLY), 1)
