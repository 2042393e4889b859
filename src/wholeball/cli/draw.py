"""Has the commands that draw lots so that anyone can check them."""

import secrets
from pathlib import Path
from typing import Annotated

import typer

from wholeball.files.folder_record import FolderRecord
from wholeball.kernel.faults import WholeballError
from wholeball.usecases.draw_lots import (
    check_draw,
    commit_to_draw,
    published_before,
    reveal_draw,
)

app = typer.Typer(no_args_is_help=True, help="Draw lots that anyone can check.")
Folder = Annotated[Path, typer.Argument(help="The folder of this one draw.")]


@app.command("commit")
def commit(
    folder: Folder,
    names: Annotated[list[str], typer.Argument(help="The participants, two or more.")],
    label: Annotated[str, typer.Option(help="What the draw is about; another for each.")],
    secret: Annotated[
        str | None, typer.Option(help="Your own secret; otherwise one is made by chance.")
    ] = None,
) -> None:
    """Before the event: commit to a secret, and write what to publish."""
    record = FolderRecord(folder)
    kept = secrets.token_hex(16) if secret is None else _on_one_line(secret)
    commitment = commit_to_draw(record, label=label, participants=names, secret=kept)
    print(
        f"Publish {record.called('commitment.json')} now; "
        f"keep {record.called('secret.txt')} to yourself."
    )
    print(f"The commitment is {commitment.commit}.")
    print("At the event, take a text nobody controls, and run: wholeball draw reveal.")


@app.command("reveal")
def reveal(
    folder: Folder,
    public: Annotated[
        str, typer.Option(help="What everyone saw, such as the numbers two captains called.")
    ],
) -> None:
    """At the event: reveal the secret and draw."""
    record = FolderRecord(folder)
    drawn = reveal_draw(record, public=public)
    for place, name in enumerate(drawn.order, start=1):
        print(f"{place}. {name}")
    print(f"Publish {record.called('draw.json')} and {record.called('verify.py')}.")
    print(
        "Anyone checks it with: "
        f"python3 {record.called('verify.py')} {record.called('draw.json')}"
    )


@app.command("check")
def check(
    file: Annotated[Path, typer.Argument(help="A draw.json that somebody published.")],
) -> None:
    """After the event: check a published draw."""
    published = FolderRecord(file.parent), file.name
    wrong = check_draw(*published)
    for says in wrong:
        print(says)
    if not wrong:
        print("The draw holds: the order is the one that secret and public text give.")
    committed, participants = published_before(*published)
    print("Compare with what was published before the event:")
    print(f"Commit: {committed}")
    print(f"Participants: {participants}")
    if wrong:
        raise typer.Exit(1)


def _on_one_line(secret: str) -> str:
    if secret.splitlines() != [secret]:
        raise WholeballError(
            "The secret is not one line of text.",
            fix="Give a secret without line breaks, or leave --secret out.",
            code="no_secret",
        )
    return secret
