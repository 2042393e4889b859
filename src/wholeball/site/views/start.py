"""Begins a season: from a preset, by a spreadsheet or a folder, or with the example."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from datetime import UTC, datetime
from http import HTTPStatus
from pathlib import Path
from typing import Any, Final

from django.contrib import messages
from django.contrib.auth.decorators import login_required
from django.core.files.uploadedfile import UploadedFile
from django.forms import Form
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_http_methods

from wholeball.kernel.faults import InputFaults, WholeballError, shown
from wholeball.site.forms import ExampleForm, FolderForm, PresetForm
from wholeball.store.models import Account, Membership, Organisation, Season
from wholeball.usecases.begin_from import (
    begin_from_archive,
    begin_from_folder,
    begin_with_teams,
)
from wholeball.usecases.begin_season import begin_season

EXAMPLE: Final = Path(__file__).resolve().parents[1] / "example"
EXAMPLE_NAME: Final = "Lantern Hill, an example"


@dataclass(frozen=True, slots=True, kw_only=True)
class Way:
    """A way to begin: its form, and the use case that takes what the form says."""

    form: type[Form]
    begins: Callable[..., Season]

    def season(self, form: Form, organisation: Organisation, by: Account) -> Season:
        """Return the season that the form begins."""
        told = _told(form.cleaned_data)
        return self.begins(organisation, by=by, at=datetime.now(UTC), **told)


def _preset(organisation: Organisation, **told: Any) -> Season:
    """Begin from a preset, with the teams of a file where one was given."""
    begins = begin_with_teams if "data" in told else begin_season
    return begins(organisation, **told)


def _example(organisation: Organisation, *, by: Account, at: datetime) -> Season:
    return begin_from_folder(organisation, EXAMPLE, name=EXAMPLE_NAME, by=by, at=at)


WAYS: Final[Mapping[str, Way]] = {
    "preset": Way(form=PresetForm, begins=_preset),
    "folder": Way(form=FolderForm, begins=begin_from_archive),
    "example": Way(form=ExampleForm, begins=_example),
}


@login_required
@require_http_methods(["GET", "HEAD", "POST"])
def start(request: HttpRequest) -> HttpResponse:
    """Return the ways to begin; the one whose form was sent begins a season at once."""
    account, organisation = _coordinator(request)
    if request.method != "POST":
        return _page(request)
    name = request.POST.get("way", "")
    if name not in WAYS:
        raise Http404
    form = WAYS[name].form(request.POST, request.FILES, prefix=name)
    if form.is_valid():
        try:
            season = WAYS[name].season(form, organisation, account)
        except WholeballError as refused:
            for line in _lines(refused):
                form.add_error(None, line)
        else:
            messages.success(request, f"{season.name} has begun.")
            return redirect("/desk/")
    return _page(request, HTTPStatus.UNPROCESSABLE_ENTITY, **{name: form})


def _lines(refused: WholeballError) -> list[str]:
    """Return each fault by itself, with its place and its cure."""
    return shown(refused.faults) if isinstance(refused, InputFaults) else [str(refused)]


def _told(cleaned: Mapping[str, Any]) -> dict[str, Any]:
    """Return what a form says, with the bytes of its file and the name that the file has."""
    told = dict(cleaned)
    given = told.pop("file", None)
    if isinstance(given, UploadedFile):
        told |= {"data": given.read(), "file": given.name}
    return told


def _coordinator(request: HttpRequest) -> tuple[Account, Organisation]:
    """Return who asks, and the organisation that they coordinate all of. 1 query.

    Raises:
        Http404: they coordinate none.
    """
    account = request.user
    if isinstance(account, Account):
        seats = Membership.objects.filter(
            account=account, role="coordinator", season__isnull=True
        )
        seat = seats.select_related("organisation").first()
        if seat is not None:
            return account, seat.organisation
    raise Http404


def _page(
    request: HttpRequest, status: HTTPStatus = HTTPStatus.OK, **sent: Form
) -> HttpResponse:
    forms = {name: sent.get(name) or way.form(prefix=name) for name, way in WAYS.items()}
    return render(request, "site/start.html", {"forms": forms}, status=status)
