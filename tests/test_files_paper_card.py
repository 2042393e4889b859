"""A scorecard in a file says what it means, or everything that is wrong with it."""

import re
from decimal import Decimal
from pathlib import Path

import pytest
from hypothesis import assume, given, settings

from cases.paper_cards import LEAGUE, cards, odd_cards, ordinary
from wholeball.files.folder_record import FolderRecord
from wholeball.files.paper_card import (
    SCHEMA_OF_CARD,
    card_name,
    card_of,
    read_card,
)
from wholeball.files.paper_template import template
from wholeball.game.paper import (
    PaperBrokenOff,
    PaperCard,
    PaperDefault,
    PaperForfeit,
    PaperGoal,
    PaperKicks,
    PaperPlayer,
    PaperRating,
    PaperRed,
    PaperRefusal,
    PaperYellow,
)
from wholeball.game.paper_checks import misfits
from wholeball.game.state import Score
from wholeball.kernel.faults import InputFaults, WholeballError
from wholeball.kernel.identity import GameId
from wholeball.kernel.toml import read_toml

ORDINARY = """
schema = 1
periods = ["1-1", "2-1"]
signed = ["home_captain", "away_captain", "official"]
yellow = [
  { side = "home", number = 7, reason = "dissent" },
  { side = "away", number = 10, reason = "trip" },
]
ratings = [{ side = "home", value = 4 }, { side = "away", value = 5 }]
"""
ROOT = Path(__file__).resolve().parents[1]


def _card(text: str) -> PaperCard:
    return card_of(text.encode(), file="cards/M1.toml", rules=LEAGUE)


def _faults(text: str) -> list[tuple[str, int | None, str]]:
    with pytest.raises(InputFaults) as refused:
        _card(text)
    return [
        (one.code, one.place.line, f"{one.says} {one.cure}") for one in refused.value.faults
    ]


def test_an_ordinary_card() -> None:
    assert _card(ORDINARY) == ordinary()


def test_every_kind_of_key() -> None:
    assert _card(
        """
        periods = ["1\N{EN DASH}0", "0:0"]
        minutes_left = 22
        note = "Fog."
        broken_off = { why = "weather", to_blame = "away" }
        goals = [{ side = "home", period = 1, minute = 3, number = 0, penalty = true }]
        kicks = { first = "away", home = "ox", away = "-o", away_numbers = [1, 2] }
        ratings = [{ side = "away", value = 2.0, by = "second_official", reason = "late" }]
        refused = [{ by = "home_captain", reason = "fog" }]
        """
    ) == PaperCard(
        periods=(Score(1, 0), Score(0, 0)),
        minutes_left=22,
        note="Fog.",
        broken_off=PaperBrokenOff(why="weather", to_blame="away"),
        goals=(PaperGoal(side="home", period=1, minute=3, number=0, penalty=True),),
        kicks=PaperKicks(first="away", home="ox", away="-o", away_numbers=(1, 2)),
        ratings=(
            PaperRating(side="away", value=Decimal("2.0"), by="second_official", reason="late"),
        ),
        refused=(PaperRefusal(by="home_captain", reason="fog"),),
    )


def test_all_faults_come_at_once_with_line_value_and_cure() -> None:
    assert _faults(
        """schema = 1
period = ["1-1"]
periods = ["1-1", "two"]
signed = ["referee"]
[[yellow]]
side = "hme"
number = 100
[kicks]
first = "home"
home = "o1"
away = ""
"""
    ) == [
        (
            "unknown_key",
            2,
            "period is no table or key of this file. Did you mean periods?",
        ),
        (
            "type",
            3,
            (
                'periods item 2 is "two": a score is two numbers from 0 to 99 in quotes. '
                'Write "2-1".'
            ),
        ),
        ("unknown_value", 4, 'signed item 1 is "referee". Did you mean official?'),
        ("unknown_value", 6, 'yellow item 1.side is "hme". Did you mean home?'),
        ("range", 7, "yellow item 1.number is 100. Give 0 to 99."),
        (
            "unknown_value",
            10,
            (
                'kicks.home is "o1": each kick is o (scored), x (not scored) or - (nobody came '
                'to take it). Write one letter a kick, such as "ooxo".'
            ),
        ),
    ]


@pytest.mark.parametrize("value", ["6", "0", "4.5", '""'])
def test_a_rating_off_the_scale_is_refused_at_its_line(value: str) -> None:
    text = f'periods = ["0-0", "0-0"]\n[[ratings]]\nside = "home"\nvalue = {value}\n'
    assert [(code, line) for code, line, _ in _faults(text)] == [("range", 4)]


@pytest.mark.parametrize("value", ["1", "5", "4.0"])
def test_a_rating_on_the_scale_is_taken(value: str) -> None:
    text = f'periods = ["0-0", "0-0"]\nratings = [{{ side = "home", value = {value} }}]\n'
    assert _card(text).ratings == (PaperRating(side="home", value=Decimal(value)),)


@pytest.mark.parametrize("value", ['"4"', "true", "[4]", "nan", "1e17"])
def test_a_rating_is_a_number_that_a_scale_can_have(value: str) -> None:
    text = f'periods = ["0-0", "0-0"]\nratings = [{{ side = "home", value = {value} }}]\n'
    assert {code for code, _, _ in _faults(text)} <= {"type", "range"}


def test_a_note_of_2000_characters_is_taken_and_one_more_refused() -> None:
    text = 'periods = ["0-0", "0-0"]\nnote = "{}"\n'
    assert _card(text.format("x" * 2_000)).note == "x" * 2_000
    assert [(code, line) for code, line, _ in _faults(text.format("x" * 2_001))] == [
        ("limits", 2)
    ]


def test_what_a_card_cannot_mean_has_its_line() -> None:
    text = 'periods = ["1-0", "0-0"]\n[[goals]]\nside = "away"\nperiod = 1\n'
    assert [(code, line) for code, line, _ in _faults(text)] == [("contradiction", 2)]


def test_what_nobody_can_see_is_refused() -> None:
    text = 'periods = ["0-0", "0-0"]\nnote = "a\u202eb"\n'
    assert [(code, line) for code, line, _ in _faults(text)] == [("bidi_control", 2)]


def test_a_card_of_a_newer_schema_is_not_guessed_at() -> None:
    assert [code for code, _, _ in _faults("schema = 2\nhalves = 3\n")] == ["version"]


def _template(card: PaperCard) -> str:
    return template(GameId("M1"), home="Ash", away="Birch", rules=LEAGUE, card=card).decode()


def test_the_template_is_refused_until_it_has_a_score() -> None:
    text = _template(PaperCard())
    assert [(code, line) for code, line, _ in _faults(text)] == [("type", 7), ("type", 7)]
    assert _card(text.replace('["", ""]', '["1-1", "2-1"]')).periods == ordinary().periods


def test_the_template_has_every_key_behind_a_sign_that_is_taken_off() -> None:
    text = _template(PaperCard())
    bare = re.sub(r"^#(?! )", "", text, flags=re.MULTILINE)
    assert set(read_toml(bare.encode(), file="bare.toml")) == set(SCHEMA_OF_CARD.top_keys)


@settings(max_examples=60, deadline=None)
@given(cards() | odd_cards())
def test_a_card_written_out_is_read_as_it_was(card: PaperCard) -> None:
    assume(not misfits(card, LEAGUE))
    assert _card(_template(card)) == card


def test_a_card_of_every_key_is_read_as_it_was() -> None:
    card = PaperCard(
        periods=(Score(1, 0), Score(0, 1)),
        goals=(PaperGoal(side="away", period=2, minute=3, number=8, own=True, penalty=True),),
        yellow=(PaperYellow(side="home", number=7, reason='says "no" \\ twice'),),
        red=(PaperRed(side="away", to="substitute", second_yellow=True, period=1, minute=4),),
        ratings=(PaperRating(side="home", by="second_official", value=Decimal(4)),),
        refused=(PaperRefusal(by="away_captain", reason="cold"),),
        home_players=(PaperPlayer(7), PaperPlayer(9, 'Al "Bo" Reed')),
        note="Cold.\nWet.",
    )
    assert _card(_template(card)) == card
    assert "#[[yellow]]" not in _template(card)
    assert "#[kicks]" in _template(card)


def test_players_are_numbers_names_and_names_with_a_shirt_from_the_gate() -> None:
    said = _card(
        'periods = ["1-1", "2-1"]\n'
        'home_players = [7, "Noor Zephirou", "x=y=9", " Umaru K = 10 "]\naway_players = []\n'
    )
    assert said.home_players == (
        PaperPlayer(7),
        PaperPlayer(name="Noor Zephirou"),
        PaperPlayer(9, "x=y"),
        PaperPlayer(10, "Umaru K"),
    )
    assert _card(_template(said)) == said


@pytest.mark.parametrize(
    ("players", "code"),
    [
        ("[100]", "range"),
        ("[-1]", "range"),
        ("[true]", "type"),
        ('["7"]', "type"),
        ('["=9"]', "type"),
        (f'["{65 * "a"}"]', "type"),
        ("[7, 7]", "duplicate"),
        ('["Noor", "noor=3"]', "duplicate"),
        ('[3, "Noor=3"]', "duplicate"),
    ],
)
def test_a_player_who_cannot_be_meant_is_refused_with_a_cure(players: str, code: str) -> None:
    text = f'periods = ["1-1", "2-1"]\nhome_players = {players}\n'
    [(found, line, _)] = _faults(text)
    assert (found, line) == (code, 2)


@pytest.mark.parametrize("players", ["[0, 99]", f'["{64 * "a"}"]', '[3, "Noor=4", "Umaru"]'])
def test_players_just_within_the_bounds_are_taken(players: str) -> None:
    assert _card(f'periods = ["1-1", "2-1"]\nhome_players = {players}\n').home_players


def test_an_empty_file_says_how_a_card_is_written() -> None:
    with pytest.raises(InputFaults) as refused:
        card_of(b"\n", file="cards/M1.toml", rules=LEAGUE)
    assert [str(one) for one in refused.value.faults] == [
        (
            "cards/M1.toml: the file is empty. Take it out, and write one to fill in with: "
            "wholeball enter DIR GAME --template"
        )
    ]


def test_the_reference_names_every_key_of_every_table() -> None:
    text = (ROOT / "docs" / "reference" / "paper-scorecard.md").read_text()
    tables = (PaperGoal, PaperRed, PaperKicks, PaperForfeit, PaperDefault, PaperBrokenOff)
    inner = {
        key for table in (*tables, PaperRating, PaperRefusal) for key in table.model_fields
    }
    told = set(re.findall(r"`\[{0,2}(\w+)(?: = true)?\]{0,2}`", text))
    assert {*SCHEMA_OF_CARD.top_keys, *inner} - told == set()


def test_a_game_that_cannot_name_a_file_is_refused() -> None:
    with pytest.raises(WholeballError, match="cannot name a file"):
        card_name(GameId("../M1"))


def test_a_card_that_is_not_there_says_how_to_write_one(tmp_path: Path) -> None:
    with pytest.raises(WholeballError) as refused:
        read_card(FolderRecord(tmp_path), GameId("M1"), LEAGUE)
    assert refused.value.code == "missing_file"
    assert refused.value.fix.endswith("M1 --template")
