"""What is said of a game: every code has words, and whole sentences read as people say them."""

import re
from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from cases.told_games import START, TO, by_mercy, crowded, eights, event, told, with_kicks
from wholeball.game.event import Moment
from wholeball.game.happenings import (
    KINDS,
    BrokenOff,
    Cautioned,
    Defaulted,
    Goal,
    HeadInjurySuspected,
    IncidentNoted,
    Noted,
    Rated,
    Resumed,
    SentOff,
    SignRefused,
)
from wholeball.game.state import Away, GoalLine, Question, Score, Statement
from wholeball.reports.game_entries import entry
from wholeball.reports.game_happened import happened
from wholeball.reports.game_questions import COUNTING, LEAVING, QUESTIONS, asked
from wholeball.reports.game_statements import STATEMENTS, stated
from wholeball.reports.game_told import Reader
from wholeball.reports.game_words import game_words, off

README = Path(__file__).resolve().parents[2] / "conformance" / "README.md"


def _codes(heading: str) -> list[str]:
    """Return the codes of the first column of the table under a heading."""
    section = README.read_text().split(f"\n## {heading}")[1].split("\n## ")[0]
    firsts = re.findall(r"^\| (`[^|]*`) \|", section, flags=re.MULTILINE)
    return sorted({code for first in firsts for code in re.findall(r"`(\w+)`", first)})


def _articles() -> dict[str, str]:
    section = README.read_text().split("\n## Statements")[1].split("\n## ")[0]
    rows = re.findall(r"^\| (`[^|]*`) \| ([a-z_.]+) \|", section, flags=re.MULTILINE)
    return {code: path for first, path in rows for code in re.findall(r"`(\w+)`", first)}


def test_statements_that_have_words_are_those_that_are_declared() -> None:
    assert sorted(STATEMENTS) == sorted({*_codes("Statements"), "time_penalty_over"})


def test_questions_that_have_words_are_those_that_are_declared() -> None:
    assert sorted(QUESTIONS) == _codes("Questions")
    assert not set(COUNTING) & set(LEAVING)


@pytest.mark.parametrize("code", sorted(STATEMENTS))
@pytest.mark.parametrize("side", [None, "home"])
def test_a_statement_is_one_sentence_with_its_article(code: str, side: None) -> None:
    path = {**_articles(), "time_penalty_over": "cards.cautioned"}[code]
    game = told(with_kicks(), eights("play_off", ties={"play_off": "kicks"}))
    said = stated(game, Statement(code=code, at=Moment(2, 840), article=path, side=side))
    assert re.fullmatch(r"[A-Z][^{}]*[^{} ]\.", str(said.says))
    assert said.ref
    assert said.title


@pytest.mark.parametrize("code", sorted(QUESTIONS))
@pytest.mark.parametrize("counts", [True, False])
def test_a_question_is_one_sentence_with_its_answers(code: str, counts: bool) -> None:  # noqa: FBT001
    game = told(by_mercy(), reader="officials")
    question = Question(code=code, at=Moment(2, 850), event="late", counts=counts)
    [one] = asked(replace(game, state=replace(game.state, questions=(question,))))
    assert re.fullmatch(r"[A-Z][^{}]*[^{} ]\.", str(one.says))
    assert one.answers == (
        ("It counts.", "It does not count.") if code in COUNTING else ("It stays as it is.",)
    )


def test_every_kind_of_entry_is_said_or_left_out_on_purpose() -> None:
    values = {
        "side": "home", "winner": "home", "chose": "end", "present": 5, "by": "official",
        "waits": True, "chance": "anywhere", "why": "other", "hundredths": 350, "text": "Wet.",
        "scored": True, "numbers": (1, 2), "in_time": True, "protest": None, "voids": (),
        "about": "judgement", "record": "r1", "target": "s", "key": "side", "value": "away",
        "asked": "mercy", "answer": "counts", "state": "", "frontier": (), "reason": "So.",
        "on_field": 7,
    }  # fmt: skip
    own = {
        "wait_chosen": {"by": "home"}, "hold_ended": {"by": "supervisor"},
        "forfeit": {"by": "away"}, "default": {"by": "away"}, "protest": {"by": "captain"},
        "answer": {"by": "supervisor"},
    }  # fmt: skip
    silent = set()
    for kind, model in KINDS.items():
        given_values = {**values, **own.get(kind, {})}
        needed = {
            name: given_values[name]
            for name, field in model.model_fields.items()
            if field.is_required()
        }
        one = event("x", 1, 10, model.model_validate(needed))
        says = entry(told([START], reader="officials"), one)
        if says is None:
            silent.add(kind)
        else:
            assert re.fullmatch(r"[A-Z].*\.", str(says))
    assert silent == {"checked_in", "retract", "amend", "answer"}


def test_a_mercy_game_is_told_in_whole_sentences() -> None:
    words = game_words(told(by_mercy()))
    assert [str(one) for one in words.stands] == [
        "The game is over.",
        (
            "It ended by the mercy rule, in the second half with 8:00 left, minute 37: "
            "H 10.1, Mercy rule."
        ),
        "Salt and Static wins.",
    ]
    assert str(words.counts_as) == f"Played 9{TO}1, counts 9{TO}0."
    assert words.periods == (("First half", f"8{TO}0"), ("Second half", f"1{TO}0"))
    [question] = words.questions
    assert (str(question.says), question.stands, question.ref, question.title) == (
        (
            "The goal of a player of Ninth Floor without a number came after the mercy rule had "
            "ended the game."
        ),
        "Until somebody answers, it does not count.",
        "H 10.1",
        "Mercy rule",
    )
    assert [(row.shown_when, str(row.says), row.ref) for row in words.happened[-3:]] == [
        (
            "In the second half with 8:00 left, minute 37",
            f"Goal by number 11 of Salt and Static: 9{TO}0.",
            "",
        ),
        (
            "In the second half with 8:00 left, minute 37",
            "The mercy rule ends the game: Salt and Static leads by 9 goals with 8:00 left.",
            "H 10.1",
        ),
        (
            "In the second half with 7:50 left, minute 37",
            "Goal by a player of Ninth Floor without a number: it does not count.",
            "",
        ),
    ]


def test_kicks_are_told_with_hits_and_kicks_of_each_side() -> None:
    rules = eights("play_off", ties={"play_off": "kicks"})
    words = game_words(told(with_kicks(), rules))
    assert str(words.kicks) == (
        "Salt and Static 3 of 4, Ninth Floor 1 of 4; Salt and Static wins."
    )
    assert [str(one) for one in words.stands[1:]] == [
        (
            "It ended with kicks from the mark, at kick 8 from the mark: "
            "Law 10.3, Kicks from the mark."
        ),
        f"Salt and Static wins, 3{TO}1 on kicks.",
    ]


def test_a_default_is_told_by_the_side_that_did_not_come() -> None:
    rules = eights(forfeit={"ref": "H 11.1", "score": {"winners": 3, "losers": 0}})
    words = game_words(told([event("d", 0, 0, Defaulted(by="home", in_time=False))], rules))
    assert str(words.counts_as) == (
        f"Not played; counts 0{TO}3 (forfeit of Salt and Static; H 11.1)."
    )
    assert [row.when for row in words.happened] == ["before the game"] * 3
    assert "Salt and Static said too late that it would not come, which is a forfeit." in [
        str(row.says) for row in words.happened
    ]


def test_only_officials_read_ratings_reasons_notes_and_why_somebody_is_out() -> None:
    game = [
        START,
        event("y", 1, 60, Cautioned(side="home", number=4, reason="Dissent")),
        event("r", 1, 70, SentOff(side="home", number=5, reason="Spat")),
        event("h", 1, 80, HeadInjurySuspected(side="away", number=9, record="rec-77")),
        event("i", 1, 81, IncidentNoted(record="rec-78")),
        event("n", 1, 82, Noted(text="Wet grass.")),
        event("f", 1, 83, SignRefused(by="away_captain", reason="Angry")),
        event("q", 1, 84, Rated(side="home", by="official", hundredths=300, reason="Rude")),
    ]
    secrets = ("Dissent", "Spat", "Wet", "Angry", "Rude", "rated", "head")
    rules = eights(ratings={"by": "officials"})
    everybody, officials = (str(game_words(told(game, rules, reader=one))) for one in _READERS)
    assert [word for word in secrets if word in everybody] == []
    assert [word for word in secrets if word in officials] == list(secrets)
    assert "rec-7" not in everybody + officials
    assert "Number 9 of Ninth Floor is out for the day" in "".join(
        str(row.says) for row in happened(told(game))
    )


_READERS: tuple[Reader, Reader] = ("everybody", "officials")
goals = st.lists(
    st.builds(
        lambda clock, side, number, own: (clock, Goal(side=side, number=number, own=own)),
        st.integers(1, 1400),
        st.sampled_from(["home", "away"]),
        st.none() | st.integers(0, 99),
        st.booleans(),
    ),
    max_size=20,
)


@given(goals)
def test_goals_named_in_the_words_are_the_goals_of_the_state(
    scored: list[tuple[int, Goal]],
) -> None:
    events = [event(f"g{at}", 1, clock, goal) for at, (clock, goal) in enumerate(scored)]
    game = told([START, *events])
    named = [str(row.says) for row in happened(game) if "oal by" in str(row.says)]
    assert len(named) == len(game.state.goals)
    counted = [words for words in named if "does not count" not in words]
    assert len(counted) == sum(game.state.score)
    last = f"{game.state.score.home}{TO}{game.state.score.away}"
    assert not counted or counted[-1].endswith(f": {last}.")


def test_a_crowded_half_ends_with_its_score() -> None:
    assert game_words(told(crowded())).periods == (("First half", f"8{TO}4"),)
    assert told(crowded()).state.score == Score(8, 4)


def test_a_goal_line_set_aside_is_no_goal_of_the_running_score() -> None:
    game = told(by_mercy())
    aside = [goal for goal in game.state.goals if not goal.counts]
    assert aside == [
        GoalLine(
            event="late", at=Moment(2, 850), side="away", number=None,
            own=False, penalty=False, counts=False,
        )
    ]  # fmt: skip


def test_a_team_official_with_a_number_is_never_told_as_a_player() -> None:
    yellow = Cautioned(side="home", number=5, to="team_official")
    red = SentOff(side="home", number=5, to="team_official")
    game = told(
        [START, event("y", 1, 60, yellow), event("r", 1, 90, red)],
        home="Ash",
        reader="officials",
    )
    since = Away(
        side="home", number=5, why="sent_off", since=Moment(1, 90), until=None, event="r"
    )
    asks = tuple(
        Question(code=code, at=Moment(1, 90), event=name)
        for code in ("unknown_player", "already_off", "out_for_the_day")
        for name in ("y", "r")
    )
    state = replace(game.state, away=(since,), questions=asks)
    for events in (game.events, ()):
        words = game_words(replace(game, events=events, state=state))
        says = [*words.off, *words.cards, *(one.says for one in words.questions)]
        says += [one.says for one in words.happened]
        assert [str(one) for one in says if "5" in str(one)] == []
        assert "A team official of Ash is sent off." in map(str, words.off)


def test_a_player_with_the_number_of_a_team_official_is_told_by_it() -> None:
    game = told([START, event("r", 1, 90, SentOff(side="home", number=5))], home="Ash")
    since = Away(
        side="home", number=5, why="sent_off", since=Moment(1, 90), until=None, event="r"
    )
    assert [
        str(one) for one in off(replace(game, state=replace(game.state, away=(since,))))
    ] == ["Number 5 of Ash is sent off."]


def test_what_follows_from_an_entry_stands_before_the_next_entry_of_its_second() -> None:
    game = told(
        [
            START,
            event("b", 1, 600, BrokenOff(why="weather")),
            event("r", 1, 600, Resumed(on="2026-09-20")),
        ],
        eights(resumption={"before_that": "resumed"}),
    )
    assert [str(row.says) for row in happened(game)][-4:] == [
        "The game is broken off for the day: the weather.",
        "The game was broken off and is to go on from there on another day.",
        "The game goes on where it was broken off, on Sunday 20 September 2026.",
        "The game goes on where it was broken off; only the time left is played.",
    ]
