"""Adds, changes and takes out the blocks in which the divisions of a season play."""

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.views.decorators.http import require_http_methods, require_POST

from wholeball.desk.forms.divisions import BLOCK_FIELDS, BlockForm
from wholeball.desk.views import given
from wholeball.desk.views.access import COORDINATORS, Desk, at_desk
from wholeball.desk.views.divisions import changing_page, divisions_page, kept
from wholeball.desk.views.refusals import put_on, refusals_on
from wholeball.files.blocks import FILE
from wholeball.kernel.faults import WholeballError
from wholeball.usecases.set_blocks import add_block, change_block, drop_block
from wholeball.usecases.show_divisions import BlockShown, DivisionsShown, show_divisions

_FIELDS = tuple(BLOCK_FIELDS.values())


@require_POST
@at_desk(COORDINATORS)
def add(request: HttpRequest, desk: Desk) -> HttpResponse:
    """Add a block."""
    posted = given.posted(request, _FIELDS)
    shown = show_divisions(desk.read())
    form = BlockForm(posted, divisions=_divisions(shown), auto_id="block_%s")
    if form.is_valid():
        told = form.told()
        with refusals_on(form, file=FILE, fields=BLOCK_FIELDS):
            add_block(desk.write(), told)
            messages.success(
                request, f"Block {told.block} is added. To undo it: Season, Changes."
            )
            return redirect("desk:divisions", *desk.where)
    return divisions_page(request, desk, block=form)


@require_http_methods(["GET", "HEAD", "POST"])
@at_desk(COORDINATORS)
def change(request: HttpRequest, desk: Desk, block: str) -> HttpResponse:
    """Change what is said of a block."""
    shown = show_divisions(desk.read())
    if request.method != "POST":
        given.asked(request)
        form = BlockForm.of(_block(shown, block), _divisions(shown))
        return changing_page(request, desk, form, block, desk.season.version)
    posted = given.posted(request, (*_FIELDS, given.VERSION))
    version = given.version(posted)
    form = BlockForm(posted, divisions=_divisions(shown))
    if form.is_valid():
        told = form.told()
        try:
            change_block(desk.write(version), block, told)
        except WholeballError as refused:
            put_on(form, refused, file=FILE, fields=BLOCK_FIELDS)
            version = given.version_after(refused, version, now=desk.season.version)
        else:
            messages.success(request, kept(block, told.block))
            return redirect("desk:divisions", *desk.where)
    return changing_page(request, desk, form, block, version)


@require_POST
@at_desk(COORDINATORS)
def drop(request: HttpRequest, desk: Desk) -> HttpResponse:
    """Take a block out."""
    told = given.posted(request, ("block", given.VERSION))
    version = given.version(told)
    try:
        drop_block(desk.write(version), told["block"])
    except WholeballError as refused:
        return divisions_page(request, desk, refused=refused)
    messages.success(request, "The block is taken out. To undo it: Season, Changes.")
    return redirect("desk:divisions", *desk.where)


def _divisions(shown: DivisionsShown) -> list[str]:
    return [one.told.division for one in shown.divisions]


def _block(shown: DivisionsShown, block: str) -> BlockShown:
    """Return a block.

    Raises:
        Http404: there is none of that name.
    """
    found = next((one for one in shown.blocks if one.block.block == block), None)
    if found is None:
        raise Http404
    return found
