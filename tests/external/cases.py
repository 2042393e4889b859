"""Reads the folder of check data that WHOLEBALL_CHECKS names; one place for all its tests."""

import json
import os
from pathlib import Path
from typing import Any

import pytest

ROOT = Path(__file__).resolve().parents[2]
Case = dict[str, Any]


def folder() -> Path:
    """Return the folder of check data, beside the project unless WHOLEBALL_CHECKS names it.

    A relative name starts at the project's root.
    """
    return (ROOT / os.environ.get("WHOLEBALL_CHECKS", "../shared/checks")).resolve()


def read(name: str) -> Any:
    """Return the contents of a JSON file, or of a JSONL file as a list of its rows.

    Skips the module that asks where the file is missing.
    """
    path = folder() / name
    if not path.is_file():
        pytest.skip(f"no {name} in the folder of check data", allow_module_level=True)
    text = path.read_text(encoding="utf-8")
    if path.suffix == ".jsonl":
        return [json.loads(line) for line in text.splitlines() if line.strip()]
    return json.loads(text)


def cases(name: str) -> list[Case]:
    """Return the rows of a file of cases; a file that holds none is a failure."""
    found: list[Case] = read(name)["cases"]
    if not found:
        pytest.fail(f"{name} holds no case, so nothing would be checked")
    return found


def by_id(rows: list[Case]) -> list[Any]:
    """Return the rows as parameters named by their ids."""
    return [pytest.param(row, id=str(row["id"])) for row in rows]
