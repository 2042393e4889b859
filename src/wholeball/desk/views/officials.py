"""Shows the officials of a season, lists more, corrects a name, and takes out who has left."""

from http import HTTPStatus

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.views.decorators.http import require_http_methods, require_POST

from wholeball.desk.forms.official import OfficialNameForm
from wholeball.desk.views import given
from wholeball.desk.views.access import COORDINATORS, Desk, at_desk, page
from wholeball.desk.views.listing import list_officials
from wholeball.desk.views.refusals import faults_of, put_on
from wholeball.files.folder import read_folder
from wholeball.files.officials import FILE
from wholeball.kernel.faults import WholeballError
from wholeball.store.official_access import SignIns, sign_ins_of
from wholeball.usecases.correct_official import (
    correct_official_on_site,
    drop_official,
    why_stays,
)
from wholeball.usecases.show_officials import official_of, show_officials


@require_http_methods(["GET", "HEAD", "POST"])
@at_desk(COORDINATORS)
def officials(request: HttpRequest, desk: Desk) -> HttpResponse:
    """Show who officiates and what nobody does yet; list officials by their names, one a line."""
    if request.method != "POST":
        given.asked(request)
        return _list_page(request, desk)
    told = given.posted(request, ("names",))["names"]
    try:
        says = list_officials(desk, told)
    except WholeballError as refused:
        return _list_page(request, desk, refused=refused, names=told)
    messages.success(request, f"{says} To undo it: Season, Changes.")
    return redirect("desk:officials_list", *desk.where)


@require_http_methods(["GET", "HEAD", "POST"])
@at_desk(COORDINATORS)
def correct(request: HttpRequest, desk: Desk, official: str) -> HttpResponse:
    """Correct a name wherever the season has it."""
    if request.method != "POST":
        given.asked(request)
        _refuse_missing(desk, official)
        form = OfficialNameForm(initial={"official": official})
        return _page(request, desk, official, form, desk.season.version)
    told = given.posted(request, ("official", given.VERSION))
    version = given.version(told)
    form = OfficialNameForm(told)
    if form.is_valid():
        told_name = form.cleaned_data["official"]
        try:
            name = correct_official_on_site(
                desk.write(version), official, told_name, at=desk.at
            )
        except WholeballError as refused:
            put_on(form, refused, file=FILE, fields={"official": "official"})
            version = given.version_after(refused, version, now=desk.season.version)
        else:
            messages.success(
                request, f"{official} is called {name} now. To undo it, correct the name back."
            )
            return redirect("desk:official", *desk.where, name)
    return _page(request, desk, official, form, version)


@require_POST
@at_desk(COORDINATORS)
def drop(request: HttpRequest, desk: Desk, official: str) -> HttpResponse:
    """Take somebody out who has left, while no crew names them."""
    version = given.version(given.posted(request, (given.VERSION,)))
    try:
        drop_official(desk.write(version), official, at=desk.at)
    except WholeballError as refused:
        form = OfficialNameForm(initial={"official": official})
        return _page(request, desk, official, form, desk.season.version, refused=refused)
    stays = ""
    if _sign_ins(desk, official).any:
        stays = " The sign-in stays, and opens no game."
    messages.success(request, f"{official} is taken out.{stays} To undo it: Season, Changes.")
    return redirect("desk:officials_list", *desk.where)


def _sign_ins(desk: Desk, official: str) -> SignIns:
    return sign_ins_of(desk.season, at=desk.at).get(official, SignIns())


def _refuse_missing(desk: Desk, official: str) -> None:
    """Look for an official.

    Raises:
        Http404: there is none of that name.
    """
    if official not in [one.official for one in read_folder(desk.read()).officials]:
        raise Http404


def _list_page(
    request: HttpRequest,
    desk: Desk,
    *,
    refused: WholeballError | None = None,
    names: str = "",
) -> HttpResponse:
    shown = show_officials(desk.read(), at=desk.at)
    known = sign_ins_of(desk.season, at=desk.at)
    return page(
        request,
        desk,
        "officials",
        status=HTTPStatus.OK if refused is None else HTTPStatus.UNPROCESSABLE_ENTITY,
        shown=shown,
        rows=[(one, known.get(one.official, SignIns())) for one in shown.officials],
        refused=refused,
        faults=faults_of(refused),
        names=names,
    )


def _page(
    request: HttpRequest,
    desk: Desk,
    official: str,
    form: OfficialNameForm,
    version: int,
    *,
    refused: WholeballError | None = None,
) -> HttpResponse:
    is_fine = not form.is_bound and refused is None
    shown = official_of(read_folder(desk.read()), official, at=desk.at)
    return page(
        request,
        desk,
        "official",
        status=HTTPStatus.OK if is_fine else HTTPStatus.UNPROCESSABLE_ENTITY,
        shown=shown,
        why=why_stays(shown),
        sign_ins=_sign_ins(desk, official),
        form=form,
        version=f"{version}",
        refused=refused,
    )
