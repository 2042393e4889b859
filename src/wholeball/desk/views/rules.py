"""Shows the rules that a timetable is planned by, adds one, changes its weight and takes it out."""

from http import HTTPStatus

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from wholeball.desk.forms.rule_kinds import OFFERS
from wholeball.desk.forms.rules import LISTS, RuleForm, WeightForm
from wholeball.desk.views import given
from wholeball.desk.views.access import COORDINATORS, Desk, at_desk, page
from wholeball.desk.views.refusals import refusals_on
from wholeball.usecases.set_rules import (
    RuleShown,
    RulesShown,
    add_rule,
    drop_rule,
    set_strength,
    show_rules,
)

_WEIGHT = ("rule", "strength", "cost", given.VERSION)


@require_safe
@at_desk(COORDINATORS)
def rules(request: HttpRequest, desk: Desk) -> HttpResponse:
    """List the rules in words, and the kinds that can be added."""
    given.asked(request)
    return _page(request, desk, show_rules(desk.read()))


@require_http_methods(["GET", "HEAD", "POST"])
@at_desk(COORDINATORS)
def new(request: HttpRequest, desk: Desk, kind: str) -> HttpResponse:
    """Ask for what a rule of a kind needs, and add it."""
    offer = OFFERS.get(kind)
    if offer is None:
        raise Http404
    shown = show_rules(desk.read())
    form = RuleForm(offer=offer, shown=shown)
    status = HTTPStatus.OK
    if request.method == "POST":
        several = [name for name in LISTS if name in form.fields]
        told = given.posted_lists(request, form.names, several=several)
        form = RuleForm(told, offer=offer, shown=shown)
        status = HTTPStatus.UNPROCESSABLE_ENTITY
        if form.is_valid():
            with refusals_on(form):
                add_rule(desk.write(), form.rule())
                messages.success(request, "It counts from the next plan or repair on.")
                return redirect("desk:rules", *desk.where)
    return page(request, desk, "new_rule", status=status, form=form, offer=offer)


@require_POST
@at_desk(COORDINATORS)
def weigh(request: HttpRequest, desk: Desk) -> HttpResponse:
    """Make a rule a must, or a wish of some cost."""
    told = given.posted(request, _WEIGHT)
    shown = show_rules(desk.read())
    rule = next((one for one in shown.rules if one.rule == told["rule"]), None)
    if rule is None:
        messages.error(request, "This rule is not there any more. Nothing was changed.")
        return redirect("desk:rules", *desk.where)
    form = WeightForm(told, strengths=rule.strengths)
    if form.is_valid():
        strength, cost = form.cleaned_data["strength"], form.cleaned_data["cost"]
        with refusals_on(form):
            record = desk.write(given.version(told))
            set_strength(record, rule.rule, strength=strength, cost=cost)
            messages.success(request, "It is kept. To undo it: Season, Changes.")
            return redirect("desk:rules", *desk.where)
    return _page(request, desk, shown, told["rule"], form)


@require_POST
@at_desk(COORDINATORS)
def drop(request: HttpRequest, desk: Desk) -> HttpResponse:
    """Take a rule out."""
    told = given.posted(request, ("rule", given.VERSION))
    drop_rule(desk.write(given.version(told)), told["rule"])
    messages.success(request, "The rule is taken out. To undo it: Season, Changes.")
    return redirect("desk:rules", *desk.where)


def _page(
    request: HttpRequest,
    desk: Desk,
    shown: RulesShown,
    refused: str = "",
    form: WeightForm | None = None,
) -> HttpResponse:
    """Show the rules, each with the form of its weight; that of a refused one as it was sent."""
    status = HTTPStatus.OK if form is None else HTTPStatus.UNPROCESSABLE_ENTITY
    rows = [
        (one, form if form is not None and one.rule == refused else _weight(one, number))
        for number, one in enumerate(shown.rules, start=1)
    ]
    often, seldom = (
        [one for one in OFFERS.values() if one.often is wanted] for wanted in (True, False)
    )
    return page(request, desk, "rules", status=status, rows=rows, often=often, seldom=seldom)


def _weight(rule: RuleShown, number: int) -> WeightForm | None:
    """Return the form of a rule's weight; none where it can only be a must."""
    if "wish" not in rule.strengths:
        return None
    return WeightForm(
        strengths=rule.strengths,
        auto_id=f"id_{number}_%s",
        initial={"strength": rule.strength, "cost": rule.cost or None},
    )
