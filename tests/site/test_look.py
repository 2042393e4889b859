"""Tests the pieces that pages are made of: each says what it shows, escaped, and in order."""

import re
from pathlib import Path
from typing import Final

import pytest
from django import forms
from django.shortcuts import render
from django.template import Context, Template
from django.test import RequestFactory
from django.views.defaults import server_error

SITE: Final = Path(__file__).resolve().parents[2] / "src/wholeball/site"
ROOMS: Final = sorted(SITE.parent.glob("*/templates"))
EVIL: Final = '<script>x</script>"'


class NameForm(forms.Form):
    """A form of two fields, one of which may stay empty."""

    name = forms.CharField(
        help_text="As people say it.", error_messages={"required": "Write it."}
    )
    note = forms.CharField(required=False)


def drawn(text: str, **values: object) -> str:
    request = RequestFactory().get("/desk/calendar/")
    context = Context({**values, "request": request})
    html = Template("{% load pieces %}" + text).render(context)
    return re.sub(r"\s+", " ", html).strip()


def test_a_state_is_a_mark_and_its_word_and_never_the_mark_alone() -> None:
    html = drawn('{% state "before" word %}', word=EVIL)
    assert html.startswith('<span class="state"><svg aria-hidden="true"')
    assert html.endswith("</svg>&lt;script&gt;x&lt;/script&gt;&quot;</span>")


def test_a_mark_that_nobody_drew_is_named_with_those_that_there_are() -> None:
    with pytest.raises(ValueError, match="no mark is called 'offside'; there are"):
        drawn('{% mark "offside" %}')


def test_yellow_and_red_differ_in_their_outline_too() -> None:
    yellow, red = (drawn(f'{{% mark "{name}" %}}') for name in ("yellow", "red"))
    outline = re.compile(r' d="([^"]+)"')
    assert outline.findall(yellow) != outline.findall(red)


def test_the_centre_circle_is_left_out_where_a_page_has_no_number() -> None:
    html = drawn("{% kick title %}<p>So.</p>{% endkick %}", title=EVIL)
    assert html == (
        '<div class="kickoff plain"> <h1><bdi>&lt;script&gt;x&lt;/script&gt;&quot;</bdi></h1>'
        ' <div class="lead"><p>So.</p></div> </div>'
    )


@pytest.mark.parametrize(("number", "kind"), [(0, ""), (999, ""), ("1,000", ' class="long"')])
def test_the_number_of_a_page_stands_in_the_circle_and_nought_is_a_number(
    number: object, kind: str
) -> None:
    html = drawn(
        '{% kick "Today" number=number label="to settle" %}{% endkick %}', number=number
    )
    assert f'<p class="circle"><b{kind}>{number}</b> <span>to settle</span></p>' in html


def test_a_fault_has_its_word_its_sentence_and_a_place_to_be_described_by() -> None:
    html = drawn('{% fault "must broken" id="f2" %}<p>{{ says }}</p>{% endfault %}', says=EVIL)
    assert html.startswith('<div class="fault" id="f2"><span class="state">')
    assert html.endswith("must broken</span><p>&lt;script&gt;x&lt;/script&gt;&quot;</p></div>")


def test_an_empty_list_says_what_to_do() -> None:
    html = drawn('{% nothing href="/x/" label="Import one" %}<p>None yet.</p>{% endnothing %}')
    assert "<p>None yet.</p>" in html
    assert '<a class="button main" href="/x/">Import one</a>' in html


@pytest.mark.parametrize(
    ("name", "here"), [("desk:home", ' aria-current="true"'), ("noticeboard:home", "")]
)
def test_the_link_that_leads_to_the_page_or_above_it_is_marked(name: str, here: str) -> None:
    html = drawn(f'{{% link "There" "{name}" %}}')
    assert (here in html if here else "aria-current" not in html) is True


@pytest.mark.parametrize(
    ("path", "also", "here"),
    [
        ("/desk/a/b/season/", "", "page"),
        ("/desk/a/b/season/times/", "", "true"),
        ("/desk/a/b/teams/Ash/", "teams lots", "true"),
        ("/desk/a/b/lots/", "teams lots", "true"),
        ("/desk/a/b/teams/Ash/", "lots", ""),
        ("/desk/a/c/teams/Ash/", "teams", ""),
        ("/desk/a/b/teamsheets/", "teams", ""),
    ],
)
def test_a_link_stands_for_the_folders_beside_its_page_that_are_named(
    path: str, also: str, here: str
) -> None:
    context = Context({"request": RequestFactory().get(path)})
    text = f'{{% load pieces %}}{{% link "Season" "desk:season" "a" "b" also="{also}" %}}'
    html = Template(text).render(context)
    assert re.findall(r'aria-current="(\w+)"', html) == ([here] if here else [])


def test_a_field_that_is_refused_is_tied_to_its_fault_and_keeps_what_was_typed() -> None:
    html = drawn("{% entries form %}", form=NameForm({"name": "", "note": EVIL}))
    assert '<a href="#id_name">Name: Write it.</a>' in html
    assert 'aria-describedby="id_name_hint id_name_fault" aria-invalid="true"' in html
    assert 'id="id_name_hint"' in html
    assert 'id="id_name_fault"' in html
    assert 'value="&lt;script&gt;x&lt;/script&gt;&quot;"' in html
    assert 'Note <span class="quiet">(may stay empty)</span>' in html


def test_a_field_that_is_not_refused_has_no_fault() -> None:
    html = drawn("{% entries form %}", form=NameForm())
    assert "aria-invalid" not in html
    assert 'role="alert"' not in html


def test_the_stop_of_a_task_is_a_form_that_a_stranger_cannot_send() -> None:
    html = drawn('{% progress says="Planning" percent=40 stop="/stop/" %}', csrf_token="a" * 32)
    assert '<progress max="100" value="40"' in html
    assert 'name="csrfmiddlewaretoken"' in html


@pytest.mark.parametrize(
    "page",
    [page for room in ROOMS for page in sorted(room.rglob("*.html"))],
    ids=lambda page: str(page.relative_to(SITE.parent)),
)
def test_no_template_has_a_style_a_script_or_a_handler_in_it(page: Path) -> None:
    text = re.sub(r"\{[%{].*?[%}]\}", "", page.read_text(encoding="utf-8"))
    assert re.findall(r"<style|\sstyle=|\son[a-z]+=", text) == []
    scripts = re.findall(r"<script[^>]*>", text)
    assert [
        one for one in scripts if " src=" not in one and "application/json" not in one
    ] == []


def test_colours_and_sizes_of_the_site_are_tokens() -> None:
    text = (SITE / "static/site/site.css").read_text(encoding="utf-8")
    assert sorted(set(re.findall(r"#[0-9a-fA-F]{3,8}\b(?! *[.{:,])", text))) == [
        "#14171d",
        "#ffffff",
    ]
    assert "prefers-reduced-motion" in text
    assert "@media print" in text


def test_the_page_of_our_own_fault_is_a_page_of_the_site_and_asks_no_database() -> None:
    answer = server_error(RequestFactory().get("/"))
    html = answer.content.decode()
    assert answer.status_code == 500
    assert "<h1><bdi>Something broke</bdi></h1>" in html
    assert "this step was not done" in html
    assert 'href="/static/site/site.css"' in html
    assert 'href="/">To the noticeboard</a>' in html
    assert "Sign in" not in html


@pytest.mark.parametrize("status", [400, 403, 404, 413, 429])
def test_every_refusal_says_what_to_do_and_leads_on(status: int) -> None:
    request = RequestFactory().get("/")
    html = render(request, f"{status}.html", {"megabytes": 50}).content.decode()
    assert html.count("<h1>") == 1
    assert re.search(r'<div class="lead"><p>[^<]+<strong>[^<]+</strong>', html)
    assert 'class="button main" href=' in html


def test_a_fault_stands_beside_its_field_before_the_hint_and_nothing_repeats_the_label() -> (
    None
):
    form = NameForm({"name": "", "note": ""})
    form.fields["name"].widget.attrs["placeholder"] = "Name"
    html = drawn("{% entries form %}", form=form)
    assert html.index('id="id_name_fault"') < html.index('id="id_name_hint"')
    assert "placeholder" not in html
