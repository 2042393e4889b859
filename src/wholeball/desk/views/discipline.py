"""Shows suspensions, and takes decisions about people: first what follows, then it is written."""

from http import HTTPStatus
from typing import Any

from django import forms
from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect
from django.views.decorators.http import require_http_methods, require_safe

from wholeball.desk.views import given
from wholeball.desk.views.access import COORDINATORS, Desk, at_desk, page
from wholeball.desk.views.results import GET_OR_POST
from wholeball.files.cells import LONGEST
from wholeball.kernel.faults import InputFaults, WholeballError
from wholeball.kernel.identity import PersonId
from wholeball.reports.spoken import spoken
from wholeball.store.snapshot import Snapshot
from wholeball.usecases.decide_person import Ruled, article_of_meeting, decide_person
from wholeball.usecases.show_people import show_clearances, show_suspensions

_RULED = {
    "games": "suspended for a number of games",
    "until": "suspended until a day, that day included",
    "meeting_held": "the meeting was held: no more waiting for it",
    "lifted": "what was decided before is lifted",
}


class DecideForm(forms.Form):
    """A decision about a person."""

    person = forms.ChoiceField(label="Player")
    ruled = forms.ChoiceField(label="Decision", choices=list(_RULED.items()))
    games = forms.RegexField(
        "[1-9][0-9]?",
        label="Games",
        required=False,
        help_text="Where it is for games: 1 to 99.",
    )
    until = forms.DateField(
        label="Last day",
        required=False,
        input_formats=["%Y-%m-%d"],
        widget=forms.DateInput(attrs={"type": "date"}),
        help_text="Where it is until a day.",
    )
    game = forms.CharField(
        label="Game it is about", required=False, max_length=80, help_text="Its name."
    )
    ref = forms.CharField(
        label="Article",
        max_length=LONGEST,
        required=False,
        help_text="Such as H 11.4. Only where a meeting was held may it stay empty: the article that "
        "asks for the meeting is filled in.",
    )
    why = forms.CharField(
        label="Reason",
        max_length=LONGEST,
        help_text="Private: only the coordinator reads it.",
        widget=forms.Textarea(attrs={"rows": 3}),
    )

    def __init__(
        self, people: list[tuple[str, str]], data: dict[str, str] | None = None
    ) -> None:
        """Offer everybody who is on a roster."""
        super().__init__(data)
        self.asks = ""
        field = self.fields["person"]
        if isinstance(field, forms.ChoiceField):
            field.choices = [("", "Choose a player"), *people]

    def clean(self) -> dict[str, Any]:
        """Ask for the article, unless that of a meeting is known."""
        said = super().clean() or self.cleaned_data
        is_known = said.get("ruled") == "meeting_held" and self.asks
        if "ref" in said and not said["ref"] and not is_known:
            self.add_error("ref", "Name the article that this is decided by.")
        return said

    @property
    def terms(self) -> dict[str, str]:
        """The cells of the row beside the person and what is ruled."""
        said = self.cleaned_data
        until = "" if said["until"] is None else said["until"].isoformat()
        return {
            **{name: said[name] for name in ("games", "game", "ref", "why")},
            "until": until,
        }


@require_safe
@at_desk(COORDINATORS)
def suspensions(request: HttpRequest, desk: Desk) -> HttpResponse:
    """List who is suspended, why, and for which games to come."""
    given.asked(request)
    desk.saw("suspensions")
    return page(request, desk, "suspensions", shown=show_suspensions(desk.read(), at=desk.at))


@require_http_methods(GET_OR_POST)
@at_desk(COORDINATORS)
def decide(request: HttpRequest, desk: Desk) -> HttpResponse:
    """Decide about a person: first the games and days that follow are shown."""
    record = desk.read()
    offered = show_clearances(record, at=desk.at).people
    people = [(str(one.person), one.says) for one in offered]
    if request.method != "POST":
        chosen = given.asked(request, "person")["person"]
        form = DecideForm(people)
        form.initial = _first(record, chosen, desk)
        return _page(request, desk, form)
    fields = (*DecideForm.base_fields, "sure", given.VERSION)
    sent = given.posted(request, fields)
    form = DecideForm(people, sent)
    form.asks = _asks(record, sent["person"], desk)
    if not form.is_valid():
        return _page(request, desk, form)
    is_sure = sent["sure"] == "yes"
    version = given.version(sent) if is_sure else None
    try:
        found = decide_person(
            desk.write(version) if is_sure else record,
            person=PersonId(form.cleaned_data["person"]),
            ruled=form.cleaned_data["ruled"],
            terms=form.terms,
            at=desk.at,
            writes=is_sure,
        )
    except InputFaults as refused:
        for one in refused.faults:
            column = one.place.column if one.place.column in form.fields else None
            form.add_error(column, spoken(f"{one.says} {one.cure}"))
        return _page(request, desk, form)
    except WholeballError as refused:
        form.add_error(None, spoken(str(refused)))
        return _page(request, desk, form)
    if not is_sure:
        desk.saw(f"the suspensions of {form.cleaned_data['person']}")
        return _page(request, desk, form, found=found)
    messages.success(request, f"Decision {found.number} is written.")
    return redirect("desk:suspensions", *desk.where)


def _asks(record: Snapshot, person: str, desk: Desk) -> str:
    """Return the article by which a person waits for a meeting; empty for who does not."""
    return article_of_meeting(record, PersonId(person), at=desk.at)


def _first(record: Snapshot, person: str, desk: Desk) -> dict[str, str]:
    """Return what the form begins with: for who waits, that the meeting was held."""
    article = _asks(record, person, desk)
    held = {"ruled": "meeting_held", "ref": article} if article else {}
    return {"person": person, **held}


def _page(
    request: HttpRequest, desk: Desk, form: DecideForm, *, found: Ruled | None = None
) -> HttpResponse:
    status = HTTPStatus.UNPROCESSABLE_ENTITY if form.errors else HTTPStatus.OK
    return page(request, desk, "decide", status=status, form=form, found=found)
