"""Has the option that says for which paper a PDF is laid out."""

from typing import Annotated

import typer

from wholeball.usecases.print_booklet import Paper


def _paper(text: str) -> Paper:
    """Return the paper of a name; letter is what people call us-letter."""
    name = text.strip().lower()
    try:
        return Paper("us-letter" if name == "letter" else name)
    except ValueError:
        known = " or ".join(Paper)
        raise typer.BadParameter(f"{text!r} is no paper. Give {known}.") from None


PaperOption = Annotated[
    Paper,
    typer.Option(
        parser=_paper,
        metavar="[a4|us-letter]",
        help="The paper of the PDF; letter is us-letter.",
    ),
]
