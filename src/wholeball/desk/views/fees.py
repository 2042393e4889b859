"""Shows what forfeits cost, and writes down what was paid or waived; no money is taken here."""

from http import HTTPStatus

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from wholeball.desk.forms.fees import COLUMNS, FIELDS, FeeForm
from wholeball.desk.views import given
from wholeball.desk.views.access import COORDINATORS, Desk, at_desk, page
from wholeball.desk.views.refusals import put_on
from wholeball.files.fees import FILE
from wholeball.kernel.faults import WholeballError
from wholeball.reports.fee_words import money
from wholeball.season.fees import FeeEntry
from wholeball.usecases.settle_fees import drop_fee_entry, settle_fee
from wholeball.usecases.show_fees import DueShown, show_fees


@require_safe
@at_desk(COORDINATORS)
def fees(request: HttpRequest, desk: Desk) -> HttpResponse:
    """Show what each team owes, and what is settled."""
    given.asked(request)
    return page(request, desk, "fees", shown=show_fees(desk.read()))


@require_http_methods(["GET", "HEAD", "POST"])
@at_desk(COORDINATORS)
def fee(request: HttpRequest, desk: Desk, team: str, game: str) -> HttpResponse:
    """Show a team's fee for a game, and write down what was paid or waived of it."""
    due = show_fees(desk.read()).due(team, game)
    if request.method != "POST":
        given.asked(request)
        if due is None:
            raise Http404
        today = desk.at.astimezone(desk.zone).date()
        form = FeeForm(initial={"what": "paid", "amount": f"{due.left_exact:f}", "day": today})
        return _page(request, desk, due, form, desk.season.version)
    told = given.posted(request, (*FIELDS, given.VERSION))
    version = given.version(told)
    form = FeeForm(told)
    if due is None:
        raise _costs_nothing(team, game)
    if form.is_valid():
        entry = form.entry(team, game)
        try:
            left = settle_fee(desk.write(version), entry)
        except WholeballError as refused:
            put_on(form, refused, file=FILE, fields=COLUMNS)
            version = given.version_after(refused, version, now=desk.season.version)
        else:
            messages.success(request, _kept(entry, money(left)))
            return redirect("desk:fees", *desk.where)
    return _page(request, desk, due, form, version)


@require_POST
@at_desk(COORDINATORS)
def drop(request: HttpRequest, desk: Desk) -> HttpResponse:
    """Take out what was written down as paid or waived."""
    told = given.posted(request, ("row", given.VERSION))
    row = given.whole(told["row"], what="row")
    drop_fee_entry(desk.write(given.version(told)), row)
    messages.success(request, "It is taken out. To undo it: Season, Changes.")
    return redirect("desk:fees", *desk.where)


def _kept(entry: FeeEntry, left: str) -> str:
    rest = f"{left} is left" if left != "0" else "nothing is left"
    return (
        f"{entry.team}: {money(entry.amount)} {entry.what} for game {entry.game}; {rest}."
        " To undo it: Season, Changes."
    )


def _costs_nothing(team: str, game: str) -> WholeballError:
    return WholeballError(
        f"Game {game} costs {team} nothing.",
        fix="Nothing was written. Look at the fees as they are now.",
        code="gone",
    )


def _page(
    request: HttpRequest, desk: Desk, due: DueShown, form: FeeForm, version: int
) -> HttpResponse:
    status = HTTPStatus.UNPROCESSABLE_ENTITY if form.is_bound else HTTPStatus.OK
    return page(request, desk, "fee", status=status, due=due, form=form, version=f"{version}")
