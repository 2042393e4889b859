"""A fault says where it stands; more than a hundred of them are counted, not shown."""

import pytest

from wholeball.kernel.faults import Fault, InputFaults, Place, WholeballError, shown


def fault(number: int) -> Fault:
    place = Place(file="a.csv", row=number, column="team")
    return Fault(code=f"code {number}", place=place, says="the cell is empty.", cure="Fill it.")


@pytest.mark.parametrize(
    ("place", "told"),
    [
        (Place(file="a.toml"), "a.toml"),
        (Place(file="a.toml", line=3, article="game"), "a.toml line 3"),
        (Place(file="a.csv", row=1), "a.csv row 1"),
        (Place(file="a.csv", row=7, column="home"), "a.csv row 7, column home"),
    ],
)
def test_a_place_names_file_line_row_and_column(place: Place, told: str) -> None:
    assert str(place) == told


def test_a_fault_reads_as_place_fault_and_cure() -> None:
    assert str(fault(2)) == "a.csv row 2, column team: the cell is empty. Fill it."


def test_an_error_keeps_what_is_wrong_and_the_cure_apart() -> None:
    error = WholeballError("It is so.", fix="Mend it.", code="path")
    assert (str(error), error.says, error.fix, error.code) == (
        "It is so. Mend it.",
        "It is so.",
        "Mend it.",
        "path",
    )


def test_100_faults_are_all_shown() -> None:
    faults = tuple(map(fault, range(1, 101)))
    error = InputFaults(faults)
    assert shown(faults) == [str(one) for one in faults]
    assert (error.code, error.faults) == ("code 1", faults)
    assert str(error).split("\n") == [*map(str, faults), "Mend what is listed and try again."]


def test_of_101_faults_100_are_shown_and_one_counted() -> None:
    faults = tuple(map(fault, range(1, 102)))
    lines = shown(faults)
    assert lines[:100] == [str(one) for one in faults[:100]]
    assert lines[100:] == ["... and 1 more like these; 101 in all."]
    assert InputFaults(faults).code == "many_errors"
    assert InputFaults(faults).faults == faults


def test_the_count_of_many_faults_is_written_in_thousands() -> None:
    assert shown((fault(1),) * 100_000)[-1] == "... and 99,900 more like these; 100,000 in all."


def test_an_input_without_a_fault_cannot_be_refused() -> None:
    with pytest.raises(ValueError, match="needs a fault"):
        InputFaults([])
