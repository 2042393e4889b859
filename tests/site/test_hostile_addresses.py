"""Tests that an address which names nothing is answered as missing, in either database."""

import pytest
from django.test import Client

from cases.noticeboard_season import ROOT, public_season

pytestmark = pytest.mark.django_db
ODD = ("%00", "a%00b", "x" * 3_000, "%ED%B3%BF", "%F0%9F%92%A9", "..%2F..", "%0A", "9" * 400)
PLACES = (
    "teams/{}/",
    "fields/{}/",
    "games/{}/",
    "calendar/{}/",
    "calendar/week-{}/",
    "standings/{}/",
    "standings/1/round-{}/",
    "results/round-{}/",
    "rules/{}/",
    "bracket/{}/",
)


@pytest.mark.parametrize("odd", ODD)
def test_an_address_that_names_nothing_is_missing(client: Client, odd: str) -> None:
    public_season()
    answers = {place: client.get(f"{ROOT}{place.format(odd)}").status_code for place in PLACES}
    answers["season"] = client.get(f"/harrow-fen/{odd}/").status_code
    answers["feed"] = client.get(f"/feeds/{odd}.ics").status_code
    answers["invitation"] = client.get(f"/invitation/{odd}/").status_code
    assert answers == dict.fromkeys(answers, 404)


def test_a_question_with_a_nul_is_missing_too(client: Client) -> None:
    public_season()
    assert client.get(f"{ROOT}?from=a%00").status_code == 404
    assert client.get(f"{ROOT}?from=a%30").status_code == 200


@pytest.mark.parametrize("name", ["sessionid", "csrftoken", "messages", "other"])
def test_a_cookie_with_a_nul_is_not_understood_and_no_fault_of_the_program(
    client: Client, name: str
) -> None:
    """Within quotes a cookie may write any sign by its octal number (RFC 2109, by way of Python)."""
    public_season()
    with_nul = {"cookie": f'{name}="\\000abcdefgh"'}
    without = {"cookie": f'{name}="\\060abcdefgh"'}
    for address in ("/", ROOT, "/account/"):
        assert client.get(address, headers=with_nul).status_code == 400
        assert client.get(address, headers=without).status_code in (200, 302)
