"""Is the command line of the project."""

import typer

app = typer.Typer(no_args_is_help=True)


def main() -> None:
    """Run the command that was typed."""
    app()
