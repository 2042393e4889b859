"""Begins a season: from a preset, by a spreadsheet or a folder, or with the example."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from datetime import UTC, datetime
from http import HTTPStatus
from pathlib import Path
from typing import Any, Final, NamedTuple

from django.contrib import messages
from django.contrib.auth.decorators import login_required
from django.core.files.uploadedfile import UploadedFile
from django.forms import Form
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_http_methods

from wholeball.desk.captains import keep_captains
from wholeball.files.team_sheet import Captain
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


class Begun(NamedTuple):
    """A season that has begun, and what was read of the spreadsheet that came with it."""

    season: Season
    says: str = ""
    captains: tuple[Captain, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Way:
    """A way to begin: its form, and the use case that takes what the form says."""

    form: type[Form]
    begins: Callable[..., Begun]

    def begun(self, form: Form, organisation: Organisation, by: Account) -> Begun:
        """Begin what the form says."""
        told = _told(form.cleaned_data)
        return self.begins(organisation, by=by, at=datetime.now(UTC), **told)


def _preset(organisation: Organisation, **told: Any) -> Begun:
    """Begin from a preset, with the teams of a file where one was given."""
    if "data" not in told:
        return Begun(begin_season(organisation, **told))
    season, taken = begin_with_teams(organisation, **told)
    return Begun(season, taken.says, taken.captains)


def _folder(organisation: Organisation, **told: Any) -> Begun:
    return Begun(begin_from_archive(organisation, **told))


def _example(organisation: Organisation, *, by: Account, at: datetime) -> Begun:
    """Begin the example, which stands in a folder of the program."""
    return Begun(begin_from_folder(organisation, EXAMPLE, name=EXAMPLE_NAME, by=by, at=at))


WAYS: Final[Mapping[str, Way]] = {
    "preset": Way(form=PresetForm, begins=_preset),
    "folder": Way(form=FolderForm, begins=_folder),
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
            season, says, captains = WAYS[name].begun(form, organisation, account)
        except WholeballError as refused:
            for line in _lines(refused):
                form.add_error(None, line)
        else:
            keep_captains(request.session, season, captains)
            messages.success(request, f"{season.name} has begun. {says}".strip())
            return redirect("desk:today", organisation.slug, season.slug)
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
