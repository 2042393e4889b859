"""Prints values: as JSON for programs, as lines for people."""

import json
import sys
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from typing import Final

import typer

from wholeball.kernel.faults import Fault, InputFaults, Place, WholeballError, shown
from wholeball.kernel.text import visible

_FURTHER: Final = "\n" + " " * 6
"""What begins a further line of one thing said, so that it passes for none of the program's."""


def print_lines(lines: Iterable[str]) -> None:
    """Print lines for people; what would command a terminal, or feign a line, cannot."""
    for line in lines:
        print(visible(line).replace("\n", _FURTHER))


def print_json(value: object) -> None:
    """Print a value as JSON, people's names as they are, what nobody can see as escapes."""
    print(visible(json.dumps(value, indent=2, ensure_ascii=False), as_json=True))


def fault_values(faults: Iterable[Fault]) -> list[dict[str, object]]:
    """Return faults as plain values; every one, however many."""
    return [
        {
            "level": fault.level,
            "code": fault.code,
            "file": fault.place.file,
            "line": fault.place.line,
            "row": fault.place.row,
            "column": fault.place.column,
            "article": fault.place.article,
            "says": fault.says,
            "value": fault.value,
            "allowed": fault.allowed,
            "cure": fault.cure,
        }
        for fault in faults
    ]


def print_refused(
    refused: WholeballError, *, file: str, as_json: bool, writes: bool = False
) -> None:
    """Print all that is wrong with an input that was refused; `file` is what was asked for.

    A command that `writes` says that it wrote nothing.
    """
    if as_json:
        faults = _faults(refused, file)
        print_json({"ok": False, "faults": fault_values(faults), "remarks": []})
    else:
        print_refusal(refused, writes=writes)


@contextmanager
def printing_refusals(*, file: str, as_json: bool, writes: bool = False) -> Iterator[None]:
    """Print what is refused inside as `print_refused` does, and end with status 1."""
    try:
        yield
    except WholeballError as refused:
        print_refused(refused, file=file, as_json=as_json, writes=writes)
        raise typer.Exit(1) from refused


def print_refusal(refused: WholeballError, *, writes: bool) -> None:
    """Print in words what was refused, and of a faulty input that nothing was written."""
    print(visible(str(refused)), file=sys.stderr)
    if writes and isinstance(refused, InputFaults):
        print("Nothing was written.", file=sys.stderr)


def _faults(refused: WholeballError, file: str) -> tuple[Fault, ...]:
    if isinstance(refused, InputFaults):
        return refused.faults
    place = Place(file=file)
    return (Fault(code=refused.code, place=place, says=refused.says, cure=refused.fix),)


def print_remarks(remarks: tuple[Fault, ...]) -> None:
    """Print what is doubtful or worth a note; it stops nothing."""
    for line in shown(remarks):
        print(visible(line), file=sys.stderr)
