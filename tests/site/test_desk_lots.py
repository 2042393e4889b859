"""A coordinator promises lots and holds them at the desk, and anybody checks them."""

import json
import re
from pathlib import Path

import pytest
from django.test import Client
from django.urls import reverse

from cases.desk_season import WHERE, DeskSeason, a_desk, at
from cases.stored import written_by
from wholeball.store.models import Change, Season

pytestmark = pytest.mark.django_db
LABEL = "pool A, places 2 and 3"


@pytest.fixture
def desk(tmp_path: Path) -> DeskSeason:
    made = a_desk(tmp_path)
    book = made.texts()["rulebook.toml"].decode()
    assert "[standings]" not in book
    Season.objects.filter(pk=made.season.pk).update(is_public=True)
    written_by(made.season).write(
        {"rulebook.toml": f'{book}\n[standings]\nlast_resort = "lots"\n'.encode()}
    )
    return made


def public(name: str, *more: str) -> str:
    return reverse(f"noticeboard:{name}", args=(*WHERE, *more))


def words(client: Client, address: str) -> str:
    return re.sub(r"\s+", " ", re.sub(r"<[^>]*>", "", client.get(address).content.decode()))


def promised(kim: Client) -> str:
    answer = kim.post(at("lots"), {"label": LABEL, "team-1": "on", "team-2": "on"})
    assert (answer.status_code, answer.headers.get("Location")) == (302, at("lots"))
    found = re.search(r"lots/([\w-]+)/hold/", kim.get(at("lots")).content.decode())
    assert found is not None
    return found[1]


def test_a_draw_is_promised_held_and_checked_by_anybody(desk: DeskSeason) -> None:
    kim, anybody = desk.people["coordinator"], Client()
    assert "No lots were drawn yet." in words(kim, at("lots"))
    assert "No draw was promised in this season." in words(anybody, public("draws"))
    name = promised(kim)
    before = words(anybody, public("draws"))
    assert "Not drawn yet." in before
    assert "The secret:" not in before
    assert anybody.get(public("draw_file", name, "draw.json")).status_code == 404
    assert anybody.get(public("draw_file", name, "secret.txt")).status_code == 404
    secret = desk.texts()[f"draws/{name}/secret.txt"].decode().strip()
    assert secret not in words(kim, at("history"))
    assert secret not in words(kim, at("lots"))
    assert kim.post(at("hold_draw", name), {"public": "7 and 12"}).status_code == 302
    after = words(anybody, public("draws"))
    assert "Everybody saw: 7 and 12" in after
    assert "The secret:" in after
    assert anybody.get(public("draw_file", name, "secret.txt")).status_code == 404
    drawn = anybody.get(public("draw_file", name, "draw.json"))
    assert drawn.headers["Content-Disposition"] == 'attachment; filename="draw.json"'
    assert json.loads(drawn.content)["draw"]["public"] == "7 and 12"
    assert b"import hashlib" in anybody.get(public("draw_file", name, "verify.py")).content
    assert "[[lots]]" in desk.texts()["season.toml"].decode()


def test_what_cannot_be_promised_or_held_is_said_and_what_was_typed_stays(
    desk: DeskSeason,
) -> None:
    kim = desk.people["coordinator"]
    one = kim.post(at("lots"), {"label": LABEL, "team-1": "on"})
    assert one.status_code == 422
    assert f'value="{LABEL}"' in one.content.decode()
    assert "checked" in one.content.decode()
    name = promised(kim)
    unseen = kim.post(at("hold_draw", name), {"public": " "})
    assert unseen.status_code == 422
    assert "no public text" in unseen.content.decode()
    kim.post(at("hold_draw", name), {"public": "7"})
    again = kim.post(at("hold_draw", name), {"public": "8"})
    assert (again.status_code, "lots are drawn once" in again.content.decode()) == (422, True)


def test_a_draw_is_never_taken_back(desk: DeskSeason) -> None:
    kim = desk.people["coordinator"]
    kim.post(at("hold_draw", promised(kim)), {"public": "7"})
    before = desk.texts()
    for change in Change.objects.filter(name__startswith="draws/"):
        kim.post(at("undo"), {"change": f"{change.pk}"})
    assert desk.texts() == before
