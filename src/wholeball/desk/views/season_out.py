"""Hands a whole season out, and calls it otherwise."""

from http import HTTPStatus

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.views.decorators.http import require_http_methods, require_safe

from wholeball.desk.forms.season import SeasonNameForm
from wholeball.desk.views import given
from wholeball.desk.views.access import COORDINATORS, Desk, at_desk, page
from wholeball.desk.views.refusals import put_on
from wholeball.files.folder import read_folder
from wholeball.files.season_toml import FILE
from wholeball.kernel.faults import WholeballError
from wholeball.usecases.export_season import export_archive
from wholeball.usecases.rename_season import rename_season


@require_safe
@at_desk(COORDINATORS)
def download(request: HttpRequest, desk: Desk) -> HttpResponse:
    """Return all that the season was told, private things too, as an archive of its folder."""
    given.asked(request)
    archive = export_archive(desk.read())
    desk.saw("the whole season, downloaded")
    return HttpResponse(
        archive,
        content_type="application/zip",
        headers={"Content-Disposition": f'attachment; filename="{desk.slug}.zip"'},
    )


@require_http_methods(["GET", "HEAD", "POST"])
@at_desk(COORDINATORS)
def rename(request: HttpRequest, desk: Desk) -> HttpResponse:
    """Call the season otherwise, on the site and in its settings."""
    if request.method != "POST":
        given.asked(request)
        form = SeasonNameForm(initial={"name": desk.season.name})
        return _page(request, desk, form, desk.season.version)
    told = given.posted(request, ("name", given.VERSION))
    version = given.version(told)
    form = SeasonNameForm(told)
    was, told_name = desk.season.name, _name_on_pages(desk)
    if form.is_valid():
        try:
            name = rename_season(desk.write(version), form.cleaned_data["name"])
        except WholeballError as refused:
            put_on(form, refused, file=FILE, fields={"name": "name"})
            version = given.version_after(refused, version, now=desk.season.version)
        else:
            undo = "name it back" if was != told_name else "Season, Changes"
            messages.success(request, f"The season is called {name} now. To undo it: {undo}.")
            return redirect("desk:season", *desk.where)
    return _page(request, desk, form, version)


def _name_on_pages(desk: Desk) -> str:
    """Return what the season's own settings call it; the site may have another name for it."""
    return read_folder(desk.read()).season.league.name


def _page(request: HttpRequest, desk: Desk, form: SeasonNameForm, version: int) -> HttpResponse:
    return page(
        request,
        desk,
        "season_name",
        status=HTTPStatus.UNPROCESSABLE_ENTITY if form.is_bound else HTTPStatus.OK,
        told=_name_on_pages(desk),
        form=form,
        version=f"{version}",
    )
