"""Draws the pieces that pages share: kick-off, states, faults, fields of a form, empty lists."""

from collections.abc import Mapping
from typing import Any, Final

from django import template
from django.core.exceptions import ValidationError
from django.forms import BaseForm, BoundField, CheckboxInput, ChoiceField, RadioSelect
from django.template.loader import render_to_string
from django.urls import reverse
from django.utils.html import conditional_escape, format_html
from django.utils.safestring import SafeString

from wholeball.reports.spoken import spoken
from wholeball.reports.whole_scores import score_parts

register = template.Library()

LONG: Final = 3
"""Signs in the centre circle beyond which they are set smaller."""

_NOT_SAVED: Final = "not saved yet"
PLACED: Final = frozenset({"before", "on", "over"})
MARKS: Final = PLACED | {
    "must",
    "wish",
    "square",
    "diamond",
    "hold",
    "yellow",
    "red",
    "moved",
    "off",
}
"""What is off is a ball before the line, struck through. A must is notched and a wish dashed where it is not met; as rules they are whole."""


@register.filter
def said(text: object) -> str:
    """Return a text of a use case with what people say for its files and keys."""
    return spoken(str(text))


@register.filter
def scores(text: object) -> SafeString:
    """Return a text in which no score is broken at the end of a line."""
    parts = ((one.is_score, one.text) for one in score_parts(str(text)))
    shown = (
        format_html('<span class="score">{}</span>', said)
        if is_one
        else conditional_escape(said)
        for is_one, said in parts
    )
    return SafeString("".join(shown))


@register.filter
def cures(field: BoundField) -> list[str]:
    """Return what is wrong with a field, in words of ours where Django's say no cure."""
    return [told for error in field.errors.as_data() for told in _told(field, error)]


@register.filter
def plain(word: object) -> str:
    """Return a word of the rulebook as people write it: "first game played"."""
    return str(word).replace("_", " ")


@register.simple_tag
def mark(name: str) -> SafeString:
    """Return the drawing of a mark, which is never shown without its word."""
    if name not in MARKS:
        raise ValueError(f"no mark is called {name!r}; there are {sorted(MARKS)}")
    return render_to_string(f"site/marks/{name}.svg")


@register.simple_tag
def state(name: str, word: str) -> SafeString:
    """Return a mark and its word: where the ball is, or which rule is touched."""
    return format_html('<span class="state">{}{}</span>', mark(name), word)


@register.simple_block_tag
def kick(
    content: SafeString, title: str, *, number: object = "", label: str = "", one: str = ""
) -> SafeString:
    """Return the head of a page; what stands between the tags is its lead.

    `one` is the label where the number is 1.
    """
    return render_to_string(
        "site/kick.html",
        {
            "title": title,
            "lead": content,
            "number": str(number),
            "label": one if one and str(number) == "1" else label,
            "is_long": len(str(number)) > LONG,
        },
    )


@register.simple_block_tag
def fault(content: SafeString, word: str, *, id: str = "") -> SafeString:  # noqa: A002 - as in HTML
    """Return a fault: mark and word, then its sentences and the cure."""
    return _post("fault", "must", word, content, id)


@register.simple_block_tag
def wish(content: SafeString, word: str, *, id: str = "") -> SafeString:  # noqa: A002 - as in HTML
    """Return a wish that was not met: mark and word, then what it costs."""
    return _post("fault wish", "wish", word, content, id)


@register.simple_block_tag
def why(content: SafeString, asks: str, *, is_open: bool = False) -> SafeString:
    """Return a question that opens its reasons."""
    return render_to_string(
        "site/why.html", {"asks": asks, "content": content, "is_open": is_open}
    )


@register.simple_block_tag
def nothing(content: SafeString, href: str = "", label: str = "") -> SafeString:
    """Return what an empty list says, and the link to the first step."""
    return render_to_string(
        "site/nothing.html", {"content": content, "href": href, "label": label}
    )


@register.simple_tag(takes_context=True)
def link(
    context: Mapping[str, Any], label: str, name: str, *words: object, also: str = ""
) -> SafeString:
    """Return a link among those of a room, marked where it leads to the page shown.

    It is marked above that page too: where the address begins with its own, or with that of one
    of the folders `also` beside it.
    """
    href = reverse(name, args=words)
    path = getattr(context.get("request"), "path", "")
    beside = href.removesuffix("/").rpartition("/")[0]
    within = (href, *(f"{beside}/{one}/" for one in also.split()))
    here = "page" if path == href else "true" if href != "/" and path.startswith(within) else ""
    return format_html(
        '<li><a href="{}"{}>{}</a></li>',
        href,
        format_html(' aria-current="{}"', here) if here else "",
        label,
    )


@register.simple_tag
def entry(field: BoundField) -> SafeString:
    """Return a field of a form: label, control, its faults with their cure, and its hint.

    What stands in an empty control would only repeat the label, and goes when one types.
    """
    if field.is_hidden:
        return SafeString(field)
    told = [f"{field.id_for_label}_hint"] if field.help_text else []
    if field.errors:
        told.append(f"{field.id_for_label}_fault")
    more: dict[str, str | bool] = {"placeholder": False}
    if told:
        more["aria-describedby"] = " ".join(told)
    if field.errors:
        more["aria-invalid"] = "true"
    return render_to_string(
        "site/entry.html",
        {
            "field": field,
            "control": field.as_widget(attrs=more),
            "is_box": isinstance(field.field.widget, CheckboxInput),
            "is_set": isinstance(field.field.widget, RadioSelect),
        },
    )


@register.inclusion_tag("site/form.html")
def entries(form: BaseForm, word: str = _NOT_SAVED) -> dict[str, Any]:
    """Return every field of a form, its faults first, under a word, with links to their fields."""
    return {"form": form, "word": word}


@register.inclusion_tag("site/faults.html")
def faults(form: BaseForm, word: str = _NOT_SAVED) -> dict[str, Any]:
    """Return the list of a form's faults, for a form that places its fields itself."""
    faulty = [field for field in form.visible_fields() if field.errors]
    return {"form": form, "faulty": faulty, "word": word}


@register.inclusion_tag("site/progress.html")
def progress(**told: object) -> dict[str, object]:
    """Return how far a task is: `says`, `percent`, `best`, `left`, `stop` (address to post to)."""
    return dict(told)


def _told(field: BoundField, error: ValidationError) -> list[str]:
    """Return the words of a fault; those that a form chose itself stay as they are."""
    is_choice = isinstance(field.field, ChoiceField)
    ours = {
        "This field is required.": "Choose one." if is_choice else "Fill it in.",
        "Enter a valid email address.": "Write an address such as kim@example.org.",
    }
    return [ours.get(told, told) for told in error.messages]


def _post(kind: str, name: str, word: str, content: SafeString, here: str) -> SafeString:
    """Return sentences behind a post, solid or dotted."""
    return format_html(
        '<div class="{}"{}>{}{}</div>',
        kind,
        format_html(' id="{}"', here) if here else "",
        state(name, word),
        content,
    )
