"""Has the argument that every command about a season takes: its folder."""

from pathlib import Path
from typing import Annotated

import typer

Folder = Annotated[Path, typer.Argument(help="The season folder.")]
