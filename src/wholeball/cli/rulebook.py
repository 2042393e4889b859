"""Has the commands about a rulebook: check, show, prove it, print its booklet."""

from datetime import UTC, datetime
from pathlib import Path
from typing import Annotated

import typer

from wholeball.cli.output import fault_values, print_json, print_remarks, printing_refusals
from wholeball.cli.paper import PaperOption
from wholeball.usecases.check_rulebook import check_rulebook
from wholeball.usecases.list_articles import articles_as_markdown
from wholeball.usecases.list_keys import keys_as_markdown, keys_as_text, keys_as_values
from wholeball.usecases.print_booklet import Paper, print_booklet
from wholeball.usecases.prove_rulebook import prove_rulebook
from wholeball.usecases.show_rulebook import articles_shown

app = typer.Typer(no_args_is_help=True, help="Check, read, prove and print a rulebook.")
File = Annotated[
    str, typer.Argument(help="A rulebook's file, or an edition such as laws-2025-26.")
]
AsJson = Annotated[bool, typer.Option("--json", help="Print JSON for other programs.")]


@app.command("check")
def check(file: File, as_json: AsJson = False) -> None:
    """Say that a rulebook is in order, or everything that is wrong with it."""
    with printing_refusals(file=file, as_json=as_json):
        checked = check_rulebook(file)
    if as_json:
        print_json(
            {
                "ok": True,
                "faults": [],
                "remarks": fault_values(checked.remarks),
                "name": checked.rulebook.head.name,
                "base": checked.rulebook.head.base,
                "digest": checked.rulebook.digest,
            }
        )
        return
    print_remarks(checked.remarks)
    print(f"{file} is in order: {checked.rulebook.head.name}, on {checked.rulebook.head.base}.")


@app.command("show")
def show(
    file: File,
    article: Annotated[
        str | None, typer.Argument(help="One article: goalkeeper.hold, or its reference.")
    ] = None,
    as_json: AsJson = False,
) -> None:
    """Say in plain English what the articles mean, and what differs from the Laws."""
    with printing_refusals(file=file, as_json=as_json):
        shown = articles_shown(file, article)
    if as_json:
        print_json([one.as_values() for one in shown])
    else:
        print("\n\n".join(one.text for one in shown))


@app.command("prove")
def prove(file: File, as_json: AsJson = False) -> None:
    """Walk every situation, and say where there is not exactly one ruling."""
    with printing_refusals(file=file, as_json=as_json):
        proved = prove_rulebook(file)
    if as_json:
        print_json(proved.as_values())
    else:
        print("\n".join([proved.name, *proved.lines]))
    if not proved.is_in_order:
        raise typer.Exit(1)


@app.command("booklet")
def booklet(
    file: File,
    pdf: Annotated[Path, typer.Option(help="The PDF to write.")] = Path("booklet.pdf"),
    html: Annotated[Path | None, typer.Option(help="The page to write, too.")] = None,
    paper: PaperOption = Paper.A4,
) -> None:
    """Print the rulebook: contents, articles, what is different here, the field."""
    written = print_booklet(
        file, pdf=pdf, html=html, paper=paper, printed=datetime.now(UTC).astimezone()
    )
    for path in written:
        print(path)


@app.command("keys")
def keys(
    markdown: Annotated[bool, typer.Option(help="Print the reference page.")] = False,
    as_json: AsJson = False,
) -> None:
    """List every table and key a rulebook can have, with what is allowed."""
    if as_json:
        print_json(keys_as_values())
    elif markdown:
        print(keys_as_markdown(), end="")
    else:
        print(keys_as_text())


@app.command("facts")
def facts() -> None:
    """Print the facts and articles of the rulings, as the page of the reference."""
    print(articles_as_markdown(), end="")
