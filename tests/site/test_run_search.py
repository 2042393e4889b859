"""A search is over when its process has ended, not when it has said what it found."""

import io
import os
import threading
import time

import pytest

from cases.stored import NOW
from wholeball.usecases import run_search


@pytest.mark.django_db
def test_what_a_process_tells_is_read_to_its_end_before_it_is_closed() -> None:
    read, write = os.pipe()
    ended: list[str] = []

    def tells() -> None:
        with os.fdopen(write, "w") as told:
            told.write('{"found": {"text": "as it was"}}\n')
            told.flush()
            time.sleep(0.3)
            ended.append("ended")

    process = threading.Thread(target=tells)
    process.start()
    with os.fdopen(read) as told:
        found = run_search._listen(1, io.StringIO(), told, lambda: NOW)
        assert (found, ended) == ({"text": "as it was"}, ["ended"])
    process.join()
