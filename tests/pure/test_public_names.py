"""Names are read by the public as each person chose."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from wholeball.kernel.identity import PersonId, TeamId
from wholeball.league.person import Person
from wholeball.league.player import Player
from wholeball.reports.public_names import public_name, public_roster

TEAM = TeamId("Ash")


@pytest.mark.parametrize(
    ("name", "read"),
    [
        ("Mara Vance", "M. Vance"),
        ("Mara Ines Vance", "M. Vance"),
        ("Mara de la Cruz", "M. de la Cruz"),
        ("Vance, Mara", "M. Vance"),
        ("A\u030ase Holt", "A\u030a. Holt"),
        ("Oyelaran", "Oyelaran"),
        ("de Vries", "d. Vries"),
        ("Mara Vance,", "M. Vance,"),
    ],
)
def test_initial_and_surname_are_read_unless_something_else_was_chosen(
    name: str, read: str
) -> None:
    assert public_name(name, "initial") == read


def test_a_whole_name_and_no_name_are_choices_too() -> None:
    assert public_name("Mara Vance", "full") == "Mara Vance"
    assert public_name("Mara Vance", "hidden") == ""


def test_who_is_hidden_is_counted_and_a_person_without_a_code_may_choose_too() -> None:
    players = (
        Player(name="Mara Vance", number=7, person=PersonId("k1")),
        Player(name="Ilo Brandt", number=0),
        Player(name="Sena Okoye", person=PersonId("k3")),
    )
    people = {
        PersonId("k1"): Person(person=PersonId("k1"), shown="hidden"),
        PersonId("Ash: Ilo Brandt"): Person(person=PersonId("Ash: Ilo Brandt"), shown="full"),
    }
    assert public_roster(TEAM, players, people) == (
        "0 Ilo Brandt",
        "S. Okoye",
        "1 more player, not named",
    )
    assert public_roster(TEAM, players[:1], people) == ("1 player, not named",)
    assert public_roster(TEAM, (), people) == ()


@given(st.lists(st.text("abcdefgh", min_size=2, max_size=8), min_size=2, max_size=4))
def test_no_given_name_is_ever_read_whole(words: list[str]) -> None:
    name = " ".join(word.capitalize() for word in words)
    shown = public_name(name, "initial")
    assert shown == f"{words[0][0].upper()}. {words[-1].capitalize()}"
