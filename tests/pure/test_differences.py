"""A house rulebook is compared with its edition by value, in the units of its field."""

import pytest

from wholeball.kernel.length import length
from wholeball.rulebook.differences import Compared, Difference, compared
from wholeball.rulebook.editions import NEWEST, edition
from wholeball.rulebook.load import load


def house(text: str) -> dict[str, Compared]:
    return compared(load(f'base = "{NEWEST}"\n{text}'.encode(), file="house.toml").rulebook)


def test_every_article_is_compared_in_the_order_of_the_booklet() -> None:
    assert list(house("")) == [path for path, _ in edition(NEWEST).articles()]
    assert all(path == one.path for path, one in house("").items())


def test_a_value_that_differs_is_named_with_both() -> None:
    hold = house('[goalkeeper.hold]\nseconds = 12\nthen = "corner_kick"\n')["goalkeeper.hold"]
    assert hold == Compared(
        path="goalkeeper.hold",
        standing="differs",
        differences=(Difference(path="goalkeeper.hold", key="seconds", here=12, laws=8),),
    )


def test_only_the_article_that_says_it_differs() -> None:
    found = house("[goalkeeper.hold]\nseconds = 12\n")
    assert [path for path, one in found.items() if one.standing == "differs"] == [
        "goalkeeper.hold"
    ]


@pytest.mark.parametrize("kind", ["local", "permitted", "administrative"])
def test_what_a_house_repeats_is_law_whatever_kind_it_says(kind: str) -> None:
    found = house(f'[goalkeeper.hold]\nkind = "{kind}"\nseconds = 8\n')["goalkeeper.hold"]
    assert (found.standing, found.differences) == ("law", ())


def test_reference_reason_and_note_are_no_difference() -> None:
    text = '[goalkeeper.hold]\nref = "H 4"\nwhy = "So."\nnote = "x"\nsource = "y"\n'
    assert house(text)["goalkeeper.hold"].standing == "law"


def test_what_the_laws_leave_open_is_the_house_s_whether_set_or_not() -> None:
    text = "[mercy]\nladder = [{ lead = 9, minutes_left = 8 }]\n"
    (one,) = house(text)["mercy"].differences
    assert (one.key, one.laws) == ("ladder", ())
    assert {house("")["mercy"].standing, house(text)["mercy"].standing} == {"house"}


@pytest.mark.parametrize(
    ("unit", "distance", "differs"),
    [
        ("m", "9.15 m", False),
        ("m", "915 cm", False),
        ("m", "9.15 m (10 yd)", False),
        ("m", "9.15 m (30 ft)", False),
        ("m", "9.14 m (10 yd)", True),
        ("m", "9.144 m", True),
        ("m", "11 yd", True),
        ("m", "10 yd", False),
        ("yd", "10 yd", False),
        ("yd", "30 ft", False),
        ("yd", "360 in", False),
        ("yd", "9 m (10 yd)", False),
        ("yd", "9.15 m", False),
        ("yd", "9.144 m", True),
        ("yd", "9.15 m (9.5 yd)", True),
        ("ft", "10 yd", False),
        ("cm", "9.15 m", False),
    ],
)
def test_a_length_is_held_to_the_figure_that_the_laws_give_in_its_system(
    unit: str, distance: str, *, differs: bool
) -> None:
    found = house(f'field.unit = "{unit}"\nfree_kick.distance = "{distance}"\n')["free_kick"]
    expected = Difference(
        path="free_kick",
        key="distance",
        here=length(distance),
        laws=length("9.15 m (10 yd)"),
    )
    assert found.differences == ((expected,) if differs else ())
    assert found.standing == ("differs" if differs else "law")


def test_the_edition_compared_with_is_the_one_the_house_names() -> None:
    text = b'base = "laws-2016-17"\n[goalkeeper.hold]\nseconds = 8\nthen = "corner_kick"\n'
    found = compared(load(text, file="house.toml").rulebook)["goalkeeper.hold"]
    assert [(one.key, one.laws) for one in found.differences] == [
        ("seconds", 6),
        ("then", "indirect_free_kick"),
    ]


def test_the_order_of_a_list_that_is_a_set_is_no_difference() -> None:
    required = list(edition(NEWEST).equipment.required)
    shuffled = f"[equipment]\nrequired = {[*reversed(required)]}\n"
    fewer = f"[equipment]\nrequired = {required[1:]}\n"
    assert house(shuffled)["equipment"].standing == "law"
    assert [one.key for one in house(fewer)["equipment"].differences] == ["required"]


def test_measuring_a_field_in_yards_is_no_difference() -> None:
    assert house('field.unit = "yd"\n')["field"].standing == "law"


@pytest.mark.parametrize(
    ("length", "differs"),
    [("90 m", False), ("119 yd", False), ("120 m", False), ("89.9 m", True), ("120.1 m", True)],
)
def test_a_field_within_the_limits_of_law_1_3_is_no_difference(
    length: str, *, differs: bool
) -> None:
    limits = '[field.limits]\nlength_least = "80 m"\nlength_most = "130 m"\n'
    found = house(f'[field]\nlength = "{length}"\n{limits}')["field"]
    assert [one.key for one in found.differences] == (["length"] if differs else [])
