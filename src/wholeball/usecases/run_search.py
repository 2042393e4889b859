"""Runs a search in a process of its own, and keeps how far it is and what it found."""

import json
import queue
import subprocess
import sys
import threading
from base64 import b64encode
from collections.abc import Callable
from datetime import datetime
from typing import IO, Any, Final

from wholeball.store.models import Search
from wholeball.store.searches import note_beat, note_end
from wholeball.store.snapshot import snapshot_of

_PAUSE: Final = 1.0
"""Seconds between two looks at whether to stop."""
_CHILD: Final = (sys.executable, "-m", "wholeball.usecases.search_child")
_BROKE_OFF: Final = [
    "The search broke off. Start it again; if it does so again, ask whoever runs the site."
]


def run_search(number: int, clock: Callable[[], datetime]) -> None:
    """Run a search to its end; the process is given the season's texts and nothing else."""
    search = Search.objects.select_related("season").get(pk=number)
    if search.state != "waiting":
        return
    note_beat(number, clock())
    with subprocess.Popen(  # noqa: S603 - our own program
        _CHILD, stdin=subprocess.PIPE, stdout=subprocess.PIPE, env={}, text=True
    ) as child:
        assert child.stdin is not None  # noqa: S101 - piped just above
        assert child.stdout is not None  # noqa: S101 - piped just above
        child.stdin.write(f"{_question(search)}\n")
        child.stdin.flush()
        found = _listen(number, child.stdin, child.stdout, clock)
    note_end(number, clock(), found)


def _question(search: Search) -> str:
    texts = snapshot_of(search.season).texts
    return json.dumps(
        {
            "kind": search.kind,
            "place": search.season.name,
            "now": search.made_at.isoformat(),
            "texts": {name: b64encode(data).decode() for name, data in texts.items()},
            **search.asked,
        }
    )


def _listen(
    number: int, given: IO[str], told: IO[str], clock: Callable[[], datetime]
) -> dict[str, Any]:
    """Note what a process tells until it has found something; stop it where that is asked."""
    lines: queue.SimpleQueue[str | None] = queue.SimpleQueue()
    threading.Thread(target=_read, args=(told, lines), daemon=True).start()
    is_stopped = False
    while True:
        progress: dict[str, object] = {}
        for line in _waiting(lines):
            if line is None:
                return {"refused": _BROKE_OFF}
            one = json.loads(line)
            if "found" in one:
                return dict(one["found"])
            if "refused" in one:
                return dict(one)
            progress = one
        if note_beat(number, clock(), **progress) and not is_stopped:
            is_stopped = True
            given.close()


def _read(told: IO[str], lines: "queue.SimpleQueue[str | None]") -> None:
    for line in told:
        lines.put(line)
    lines.put(None)


def _waiting(lines: "queue.SimpleQueue[str | None]") -> list[str | None]:
    """Return what has been told by now; where nothing was, wait a little for it."""
    found = []
    try:
        found.append(lines.get(timeout=_PAUSE))
        while True:
            found.append(lines.get_nowait())
    except queue.Empty:
        return found
