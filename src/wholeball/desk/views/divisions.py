"""Shows the divisions and blocks of a season, and adds, changes and takes out divisions."""

from http import HTTPStatus

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from wholeball.desk.forms.divisions import DIVISION_FIELDS, BlockForm, DivisionForm
from wholeball.desk.views import given
from wholeball.desk.views.access import COORDINATORS, Desk, at_desk, page
from wholeball.desk.views.refusals import faults_of, put_on, refusals_on
from wholeball.files.divisions import FILE
from wholeball.kernel.faults import WholeballError
from wholeball.usecases.set_divisions import add_division, change_division, drop_division
from wholeball.usecases.show_divisions import DivisionTold, show_divisions


@require_safe
@at_desk(COORDINATORS)
def divisions(request: HttpRequest, desk: Desk) -> HttpResponse:
    """Show which divisions there are, and when each plays."""
    given.asked(request)
    return divisions_page(request, desk)


@require_POST
@at_desk(COORDINATORS)
def add(request: HttpRequest, desk: Desk) -> HttpResponse:
    """Add a division."""
    form = DivisionForm(given.posted(request, DIVISION_FIELDS))
    if form.is_valid():
        told = form.told()
        with refusals_on(form, file=FILE, fields=DIVISION_FIELDS):
            add_division(desk.write(), told)
            messages.success(
                request, f"Division {told.division} is added. To undo it: Season, Changes."
            )
            return redirect("desk:divisions", *desk.where)
    return divisions_page(request, desk, form=form)


@require_http_methods(["GET", "HEAD", "POST"])
@at_desk(COORDINATORS)
def change(request: HttpRequest, desk: Desk, division: str) -> HttpResponse:
    """Change what is said of a division."""
    if request.method != "POST":
        given.asked(request)
        form = DivisionForm.of(_division(desk, division))
        return changing_page(request, desk, form, division, desk.season.version)
    posted = given.posted(request, (*DIVISION_FIELDS, given.VERSION))
    version = given.version(posted)
    form = DivisionForm(posted)
    if form.is_valid():
        told = form.told()
        try:
            change_division(desk.write(version), division, told)
        except WholeballError as refused:
            put_on(form, refused, file=FILE, fields=DIVISION_FIELDS)
            version = given.version_after(refused, version, now=desk.season.version)
        else:
            messages.success(request, kept(division, told.division))
            return redirect("desk:divisions", *desk.where)
    return changing_page(request, desk, form, division, version)


@require_POST
@at_desk(COORDINATORS)
def drop(request: HttpRequest, desk: Desk) -> HttpResponse:
    """Take a division out."""
    told = given.posted(request, ("division", given.VERSION))
    version = given.version(told)
    try:
        drop_division(desk.write(version), told["division"])
    except WholeballError as refused:
        return divisions_page(request, desk, refused=refused)
    messages.success(request, "The division is taken out. To undo it: Season, Changes.")
    return redirect("desk:divisions", *desk.where)


def kept(was: str, now: str, *, more: str = "") -> str:
    """Say that a change is kept, what `more` it did, and how it is undone."""
    says = "the change is kept" if was == now else f"it was {was}, wherever it is named"
    return f"{now}: {says}.{more} To undo it: Season, Changes."


def divisions_page(
    request: HttpRequest,
    desk: Desk,
    *,
    form: DivisionForm | None = None,
    block: BlockForm | None = None,
    refused: WholeballError | None = None,
) -> HttpResponse:
    """Return the page, with what could not be added or taken out."""
    shown = show_divisions(desk.read())
    is_fine = form is None and block is None and refused is None
    return page(
        request,
        desk,
        "divisions",
        status=HTTPStatus.OK if is_fine else HTTPStatus.UNPROCESSABLE_ENTITY,
        shown=shown,
        refused=refused,
        faults=faults_of(refused),
        form=form or DivisionForm(),
        block_form=block
        or BlockForm(
            divisions=[one.told.division for one in shown.divisions], auto_id="block_%s"
        ),
    )


def changing_page(
    request: HttpRequest, desk: Desk, form: DivisionForm | BlockForm, name: str, version: int
) -> HttpResponse:
    """Return the page on which one of them is changed, upon a version of the season."""
    return page(
        request,
        desk,
        "block" if isinstance(form, BlockForm) else "division",
        status=HTTPStatus.UNPROCESSABLE_ENTITY if form.is_bound else HTTPStatus.OK,
        name=name,
        form=form,
        version=f"{version}",
    )


def _division(desk: Desk, division: str) -> DivisionTold:
    """Return what was said of a division.

    Raises:
        Http404: there is none of that name.
    """
    every = (one.told for one in show_divisions(desk.read()).divisions)
    found = next((one for one in every if one.division == division), None)
    if found is None:
        raise Http404
    return found
