"""Runs a search in a process of its own, and keeps how far it is and what it found."""

import json
import queue
import subprocess
import sys
import threading
from base64 import b64encode
from collections.abc import Callable, Iterator
from datetime import datetime, timedelta
from time import monotonic
from typing import IO, Any, Final

from django.conf import settings

from wholeball.store.models import Search
from wholeball.store.searches import note_beat, note_end, wants_stop
from wholeball.store.snapshot import snapshot_of

_PAUSE: Final = 1.0
"""Seconds between two looks at whether to stop, and at least between two notes of how far it is."""
_BEAT: Final = timedelta(seconds=15)
"""How long nothing is noted where nothing new is told."""
_PYTHON: Final = (sys.executable, "-m")
CHILD: Final = "wholeball.usecases.search_child"
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
        program(CHILD), stdin=subprocess.PIPE, stdout=subprocess.PIPE, env={}, text=True
    ) as child:
        assert child.stdin is not None  # noqa: S101 - piped just above
        assert child.stdout is not None  # noqa: S101 - piped just above
        child.stdin.write(f"{_question(search)}\n")
        child.stdin.flush()
        found = _listen(number, child.stdin, child.stdout, clock)
    note_end(number, clock(), found)


def program(module: str) -> tuple[str, ...]:
    """Return the command that runs a module, as far back as searches are to stand."""
    stands_back = settings.SEARCHES == "idle"
    return (*_PYTHON, *(("wholeball.usecases.stand_back",) if stands_back else ()), module)


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
    """Note what a process tells until it has found something and has ended."""
    lines: queue.SimpleQueue[dict[str, Any]] = queue.SimpleQueue()
    reader = threading.Thread(target=_read, args=(told, lines), daemon=True)
    reader.start()
    found = _until_found(number, given, lines, clock)
    reader.join()  # what it reads is closed next
    return found


def _until_found(
    number: int,
    given: IO[str],
    lines: "queue.SimpleQueue[dict[str, Any]]",
    clock: Callable[[], datetime],
) -> dict[str, Any]:
    """Note what a process tells until it has found something; stop it where that is asked."""
    noted = clock()
    while True:
        progress: dict[str, Any] = {}
        for progress in _told_for(_PAUSE, lines):
            if "found" in progress:
                return dict(progress["found"])
            if "refused" in progress:
                return progress
        now = clock()
        if progress or now - noted >= _BEAT:
            note_beat(number, now, **progress)
            noted = now
        if not given.closed and wants_stop(number):
            given.close()


def _read(told: IO[str], lines: "queue.SimpleQueue[dict[str, Any]]") -> None:
    for line in told:
        lines.put(json.loads(line))
    lines.put({"refused": _BROKE_OFF})


def _told_for(
    seconds: float, lines: "queue.SimpleQueue[dict[str, Any]]"
) -> Iterator[dict[str, Any]]:
    """Yield what is told within some seconds, each as it comes."""
    ends = monotonic() + seconds
    while (left := ends - monotonic()) > 0:
        try:
            yield lines.get(timeout=left)
        except queue.Empty:
            return
