"""Prints values: as JSON for programs, as lines for people."""

import json
import sys
from collections.abc import Iterable

from wholeball.kernel.faults import Fault, InputFaults, shown


def print_json(value: object) -> None:
    """Print a value as JSON, people's names as they are."""
    print(json.dumps(value, indent=2, ensure_ascii=False))


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


def print_refused(refused: InputFaults, *, as_json: bool) -> None:
    """Print all faults of an input that was refused."""
    if as_json:
        print_json({"ok": False, "faults": fault_values(refused.faults), "remarks": []})
    else:
        print(refused, file=sys.stderr)


def print_remarks(remarks: tuple[Fault, ...]) -> None:
    """Print what is doubtful or worth a note; it stops nothing."""
    for line in shown(remarks):
        print(line, file=sys.stderr)
