"""What is wrong with a field is told with its cure, beside it and at the head of the form."""

from django import forms
from django.template.loader import render_to_string

from wholeball.site.templatetags.pieces import cures, entries


class Letter(forms.Form):
    """A form of every kind of fault."""

    to = forms.EmailField()
    about = forms.ChoiceField(choices=[("a", "A"), ("b", "B")])
    says = forms.CharField()
    day = forms.CharField(error_messages={"required": "Choose a night."})
    fine = forms.CharField(required=False)


def told(**typed: str) -> list[list[str]]:
    return [cures(field) for field in Letter(typed).visible_fields()]


def test_an_empty_field_says_what_to_do_and_words_of_a_form_s_own_stay() -> None:
    assert told() == [
        ["Fill it in."],
        ["Choose one."],
        ["Fill it in."],
        ["Choose a night."],
        [],
    ]


def test_an_address_that_is_none_is_shown_one() -> None:
    typed = {"to": "kim@", "about": "a", "says": "x", "day": "x"}
    assert told(**typed) == [["Write an address such as kim@example.org."], [], [], [], []]
    assert told(**{**typed, "to": "kim@example.org"}) == [[], [], [], [], []]


def test_the_head_of_a_form_and_its_fields_say_the_same() -> None:
    html = render_to_string("site/form.html", entries(Letter({"to": "kim@example.org"})))
    assert html.count("Choose one.") == 2
    assert html.count("Choose a night.") == 2
    assert "This field is required" not in html
