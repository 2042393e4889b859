"""Is the command line: it gathers the commands and shows what a person can mend."""

import sys

import typer

from wholeball import __version__
from wholeball.cli import draw, rulebook, season
from wholeball.kernel.faults import WholeballError

app = typer.Typer(
    no_args_is_help=True,
    add_completion=False,
    pretty_exceptions_enable=False,
    help="One rulebook for a soccer league; everything else is computed from it.",
)
app.add_typer(rulebook.app, name="rulebook")
app.add_typer(draw.app, name="draw")
season.add_to(app)


@app.command()
def version() -> None:
    """Print the version."""
    print(__version__)


def main() -> None:
    """Run the command that was typed; a fault of the input ends with status 1."""
    try:
        app()
    except WholeballError as error:
        print(error, file=sys.stderr)
        sys.exit(1)
    except BrokenPipeError:
        sys.stderr.close()
        sys.exit(1)
