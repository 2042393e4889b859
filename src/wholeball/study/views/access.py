"""Lets somebody into the study of a season: its rulebook, before any view."""

from collections.abc import Callable
from dataclasses import dataclass
from functools import wraps
from http import HTTPStatus
from typing import Concatenate, ParamSpec, TypeAlias

from django.contrib.auth.decorators import login_required
from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.cache import never_cache

from wholeball.files.rulebook_file import rulebook_of
from wholeball.kernel.faults import WholeballError
from wholeball.rulebook.book import Rulebook
from wholeball.store.models import Season
from wholeball.store.permissions import may_study
from wholeball.store.reader import reader_of
from wholeball.store.record import DatabaseRecord
from wholeball.store.scope import season_for

_P = ParamSpec("_P")


@dataclass(frozen=True, slots=True, kw_only=True)
class Study:
    """A season whose rules somebody studies."""

    season: Season

    @property
    def where(self) -> tuple[str, str]:
        """The parts of addresses that name the season."""
        return (self.season.organisation.slug, self.season.slug)

    def book(self) -> Rulebook:
        """Return the season's rulebook as it is now.

        Raises:
            InputFaults: everything that is wrong with it.
            WholeballError: there is none.
        """
        return rulebook_of(DatabaseRecord(self.season)).rulebook


View: TypeAlias = Callable[Concatenate[HttpRequest, Study, _P], HttpResponse]


def in_study(view: View[_P]) -> Callable[..., HttpResponse]:
    """Let a view be called by somebody who may study; to all others there is no such page.

    A rulebook that gives no answer is told as a page.
    """

    @wraps(view)
    def answer(
        request: HttpRequest,
        organisation: str,
        season: str,
        *args: _P.args,
        **kwargs: _P.kwargs,
    ) -> HttpResponse:
        found = season_for(reader_of(request.user), organisation, season, may_study)
        study = Study(season=found)
        try:
            return view(request, study, *args, **kwargs)
        except WholeballError as refused:
            return page(request, study, "refused", status=HTTPStatus.CONFLICT, refused=refused)

    return never_cache(login_required(answer))


def page(
    request: HttpRequest,
    study: Study,
    template: str,
    *,
    status: int = HTTPStatus.OK,
    **values: object,
) -> HttpResponse:
    """Return a page of the study with what all of them need."""
    return render(request, f"study/{template}.html", {"study": study, **values}, status=status)
