"""Says that the disk is full, where a page could not keep something, and before it comes to that."""

import shutil
from collections.abc import Callable
from http import HTTPStatus
from pathlib import Path
from typing import Final

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render

from wholeball.kernel.faults import WholeballError
from wholeball.store.full_disk import CODE, is_full, no_room

LEAST: Final = 200_000_000
"""Bytes that should stay free: a backup of a large season, and the log of its database."""
_MEGABYTE: Final = 1_000_000


class WithRoom:
    """Answers with what to do where the disk is full, and nowhere else."""

    def __init__(self, answer: Callable[[HttpRequest], HttpResponse]) -> None:
        """Take what answers a request."""
        self.answer = answer

    def __call__(self, request: HttpRequest) -> HttpResponse:
        """Answer the request."""
        return self.answer(request)

    def process_exception(self, request: HttpRequest, failed: Exception) -> HttpResponse | None:
        """Answer for a page that found no room."""
        if isinstance(failed, WholeballError) and failed.code == CODE:
            return _page(request)
        return _page(request) if is_full(failed) else None


def room_left(folder: Path) -> str:
    """Return how little room is left where it is too little: "38 MB"; else nothing."""
    free = shutil.disk_usage(folder).free if folder.exists() else LEAST
    return "" if free >= LEAST else f"{free // _MEGABYTE:,} MB"


def _page(request: HttpRequest) -> HttpResponse:
    """Return a page that needs no database: nothing of the session is asked for."""
    status = HTTPStatus.INSUFFICIENT_STORAGE
    return render(request, "507.html", {"refused": no_room()}, status=status)
