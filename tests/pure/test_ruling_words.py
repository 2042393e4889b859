"""Holds rulings in words against whole texts, and sees that every answer has its words.

What is ruled follows IFAB Laws of the Game 2025/26 (from memory): corner kick after eight
seconds; yellow with a penalty kick for an attempt to play the ball; a warning first for the
goalkeeper who leaves the line; a dropped ball where the ball was. The signals are the Laws'
referee signals, from memory too.
"""

import random
import re
from importlib.resources import files
from itertools import pairwise

import pytest

from wholeball.reports import ruling_phrases as phrases
from wholeball.reports import signals
from wholeball.reports.kicked_in import as_put_in
from wholeball.reports.ruling_care import cautions
from wholeball.reports.ruling_words import lines, ruling_words, summary
from wholeball.rulebook.book import Rulebook
from wholeball.rulebook.editions import NEWEST, edition
from wholeball.rulebook.load import load
from wholeball.rulings.bind import bind
from wholeball.rulings.ruling import Lacks, Ruling, Situation, rule, rule_by
from wholeball.rulings.space import Space
from wholeball.rulings.spaces import GAME, PERSONS_SPACE, SPACES, STAGES

FIVE = "five_indoor.toml"
"""A house where the ball is kicked in."""
THROWN = re.compile(r"throw-in|thrown|throws\b|thrower", re.IGNORECASE)
"""Words of a throw-in; a goalkeeper's throw and a thrown object are none."""
TEXTS = (
    (
        NEWEST,
        "moment=open seen=ball_over whole=yes line=touch",
        """\
Throw-in for the other side, where the ball left the field.
Neither yellow nor red.
Signal: Point with the arm the way the side that throws is playing.
Say: "Throw-in for the other side: a ball wholly over the touchline is thrown in by the
side that did not touch it last."
Articles
  Law 15, The throw-in: A ball wholly over the touchline is thrown in by the side that
    did not touch it last.""",
    ),
    (
        NEWEST,
        "moment=open seen=keeper_hands hands=too_long",
        """\
Corner kick for the other side, from the nearest corner area.
Neither yellow nor red.
Signal: Point to the corner area, the arm raised.
Say: "Corner kick for the other side: a goalkeeper may not keep the ball longer than
allowed."
Articles
  Law 12.2, Keeping the ball in the hands: A goalkeeper may not keep the ball longer
    than allowed.""",
    ),
    (
        NEWEST,
        (
            "moment=open seen=foul foul=graded against=opponent advantage=no zone=own_area "
            "degree=reckless chance=obvious fair_try=yes earlier=no"
        ),
        """\
Penalty kick for the other side, on the penalty mark.
Yellow for the player who did it, before play resumes.
Signal: Whistle. Point to the penalty mark. Show yellow, the arm raised.
Say: "Penalty kick for the other side: a careless, reckless or forceful charge, jump,
kick, push, strike, tackle or trip, a bite or spitting in the own penalty area is a
penalty kick."
Articles
  Laws 12.1 and 13.2: A careless, reckless or forceful charge, jump, kick, push, strike,
    tackle or trip, a bite or spitting in the own penalty area is a penalty kick.
  Law 12.3: With a penalty kick for an attempt to play the ball it is a yellow.
  Law 12.3: Recklessness is a yellow.
  Law 12.3, Yellow and red: Yellow is shown.
Take care
  Somebody may be hurt: Stop as soon as it is needed, protect whoever is down, call
    those whom the night sheet names, and write down what was seen. Nobody at the field
    judges how bad it is.
  These are cautions, not medical or weather advice. The institution's own policy comes
    first wherever it says more or says otherwise.""",
    ),
    (
        NEWEST,
        (
            "moment=taking seen=near kind=penalty_kick at=normal by=keeper result=no_goal "
            "saved=saved warned=no"
        ),
        """\
No goal. The penalty kick is taken again, on the penalty mark.
A warning for the other side's goalkeeper, before play resumes; neither yellow nor red.
Signal: Whistle. Point back to where it is taken. Call the person over, and speak.
Say: "No goal, the penalty kick is taken again: a kick that the goalkeeper saves after
leaving the line too early is taken again."
Articles
  Law 14, The goalkeeper at a penalty kick: A kick that the goalkeeper saves after
    leaving the line too early is taken again.
  Law 14, The goalkeeper at a penalty kick: A goalkeeper's first offence that brings a
    retake is a warning.
  Law 14, The goalkeeper at a penalty kick: The goalkeeper is warned the first time.""",
    ),
    (
        NEWEST,
        "moment=open seen=stop reason=head ball_at=elsewhere would=unclear",
        """\
Dropped ball for the side that touched it last, where the ball was when play was
stopped.
Neither yellow nor red.
Signal: Whistle, and wave help on.
Say: "The player is out for the day, whatever anybody at the field thinks."
Articles
  Law 8.2, The dropped ball: A stop of play that is nobody's offence brings a dropped
    ball.
  Law 8.2, The dropped ball: A ball is dropped where it was when play was stopped.
  Law 8.2, The dropped ball: A ball is dropped for the side that would clearly have got
    it, or else for the side that touched it last.
  Law 5.3, Injury: Stop, protect, call for help, write it down and leave the rest to
    those who are trained: a player with a suspected head injury does not come back that
    day.
Take care
  The player is out for the day, whatever anybody at the field thinks.
  Somebody may be hurt: Stop as soon as it is needed, protect whoever is down, call
    those whom the night sheet names, and write down what was seen. Nobody at the field
    judges how bad it is.
  An emergency: The night sheet says who calls, what address to give and who meets the
    ambulance.
  Head injury: A player with a suspected head injury is out for the day. Nobody at the
    field decides otherwise, and local clearance comes before the next game.
  These are cautions, not medical or weather advice. The institution's own policy comes
    first wherever it says more or says otherwise.""",
    ),
    (
        FIVE,
        "moment=open seen=keeper_hands hands=too_long goal_area=neither",
        """\
Indirect free kick for the other side, where the offence happened.
Neither yellow nor red.
Signal: Whistle. Hold one arm straight up until the kicked ball has been touched again,
is out, or clearly cannot go straight in.
Say: "Indirect free kick for the other side: a goalkeeper may not keep the ball longer
than allowed."
Articles
  H 6.2, Keeping the ball in the hands: A goalkeeper may not keep the ball longer than
    allowed.""",
    ),
    (
        FIVE,
        (
            "moment=open seen=foul foul=slide contact=no who=player advantage=no "
            "zone=elsewhere goal_area=neither chance=none often=no"
        ),
        """\
Direct free kick for the other side, where the offence happened.
Neither yellow nor red.
Signal: Whistle. Hold one arm out level, the way the side that kicks is playing.
Say: "Direct free kick for the other side: sliding for the ball near an opponent is a
direct free kick."
Articles
  H 7.1, Slide tackles: Sliding for the ball near an opponent is a direct free kick.
Take care
  Somebody may be hurt: Stop as soon as it is needed, protect whoever is down, call
    those whom the night sheet names, and write down what was seen. Nobody at the field
    judges how bad it is.
  These are cautions, not medical or weather advice. The institution's own policy comes
    first wherever it says more or says otherwise.""",
    ),
    (
        FIVE,
        "moment=taking seen=offside kind=throw_in scored=no",
        """\
Play goes on.
Neither yellow nor red.
Signal: None: keep running, and watch.
Say: "Offside is not played here: play goes on."
Articles
  H 6.1, Offside: Offside is not played here: play goes on.""",
    ),
    (
        FIVE,
        "moment=open seen=ball_over whole=yes line=opp mouth=in sent=played",
        """\
Goal for the side that touched it last. Kick-off for the other side, on the centre mark.
Neither yellow nor red.
Signal: Point to the centre mark.
Say: "Goal for the side that touched it last: the whole ball over the goal line between
the posts and under the bar is a goal."
Articles
  Law 10.1: The whole ball over the goal line between the posts and under the bar is a
    goal.""",
    ),
    (
        FIVE,
        "moment=open seen=ball_over whole=yes line=touch",
        """\
Kick-in for the other side, where the ball left the field.
Neither yellow nor red.
Signal: Point with the arm the way the side that kicks in is playing.
Say: "Kick-in for the other side: a ball wholly over the touchline is kicked in by the
side that did not touch it last."
Articles
  H 7.5, The kick-in: A ball wholly over the touchline is kicked in by the side that did
    not touch it last.""",
    ),
    (
        FIVE,
        "matter=kicker kicker_is=substitute",
        """\
Kicks from the mark follow. It is allowed.
Say: "Everybody on the roster who is there may kick."
Articles
  H 10.4, Who takes the kicks: Everybody on the roster who is there may kick.""",
    ),
)


def book_of(name: str) -> Rulebook:
    if name == NEWEST:
        return edition(name)
    return load(
        files("wholeball.rulebook.presets").joinpath(name).read_bytes(), file=name
    ).rulebook


def ruled(said: str, book: Rulebook) -> tuple[Ruling, dict[str, str]]:
    facts = dict(word.split("=") for word in said.split())
    space = PERSONS_SPACE if "matter" in facts else GAME
    ruling = rule(Situation(facts=facts), book, space)
    assert isinstance(ruling, Ruling)
    return ruling, facts


@pytest.mark.parametrize(("name", "said", "text"), TEXTS, ids=[said for _, said, _ in TEXTS])
def test_a_ruling_reads_as_this_text(name: str, said: str, text: str) -> None:
    book = book_of(name)
    ruling, facts = ruled(said, book)
    assert "\n".join(lines(ruling_words(ruling, facts, book))) == text


def test_every_answer_that_a_stage_may_give_has_its_words() -> None:
    parts = {part: values for stage in STAGES for part, values in stage.parts.items()}
    restarts = {*phrases.RESTARTS, *phrases.WHOLE, "retake"}
    assert parts["restart"] == restarts
    assert parts["restart"] - signals.OF_RESTART.keys() == {"natural"}
    assert parts["spot"] - phrases.SPOTS.keys() == {"none"}
    assert parts["taker"] - phrases.TAKERS.keys() == {"A", "B", "none"}
    assert parts["shown"] == phrases.SHOWN.keys()
    assert parts["shown"] - signals.OF_SHOWN.keys() == {"none"}
    assert parts["whom"] - phrases.WHOM.keys() == {"none"}
    assert parts["at_once"] == phrases.AT_ONCE.keys()
    assert parts["resumed"] == phrases.RESUMED.keys()
    assert parts["kick"] == phrases.KICK.keys()
    assert parts["care"] == phrases.CARE.keys()


def test_what_is_said_of_persons_leaves_out_only_what_goes_without_saying() -> None:
    unsaid = {
        part: values - phrases.BESIDE[part].keys()
        for stage in PERSONS_SPACE.stages
        for part, values in stage.parts.items()
    }
    assert unsaid == {
        "resumes": {"as_it_was", "kick_off"},
        "kicks_off": {"none"},
        "allowed": {"unasked"},
        "replaced_by": {"unasked"},
        "waits": {"no"},
        "reported": {"no"},
        "dealt": {"none"},
    }


@pytest.mark.parametrize("name", [NEWEST, FIVE])
@pytest.mark.parametrize("space", SPACES, ids=lambda space: space.name)
def test_any_ruling_has_a_decision_and_one_sentence_for_the_players(
    name: str, space: Space
) -> None:
    chance, book = random.Random(11), book_of(name)
    rules = bind(space, book)
    for _ in range(150):
        facts: dict[str, str] = {}
        while isinstance(found := rule_by(Situation(facts=facts), rules), Lacks):
            facts[found.fact.name] = chance.choice(found.values)
        said = ruling_words(found, facts, book)
        text = list(lines(said))
        assert all(said.decision)
        assert said.say[0].isupper()
        assert said.say.count(".") == 1
        assert said.say.endswith(".")
        assert said.articles
        assert all(len(line) <= 88 for part in text for line in part.split("\n"))
        assert not any("{" in line or "  for " in line for line in text)
        told = as_put_in(summary(found.answers, facts), book)
        assert told.startswith(said.decision[0])
        assert book.throw_in.method == "throw" or not THROWN.search("\n".join(text))


def test_advantage_has_its_own_signal_and_play_that_goes_on_has_none() -> None:
    book = edition(NEWEST)
    without, with_ = (
        ruled(said, book)
        for said in (
            "moment=open seen=ball_over whole=no",
            "moment=open seen=foul foul=hold advantage=yes chance=none often=no",
        )
    )
    assert ruling_words(*without, book).signals == (signals.OF_RESTART["play_on"],)
    assert ruling_words(*with_, book).signals == (signals.ADVANTAGE,)


def test_cautions_stand_where_somebody_may_be_hurt_and_nowhere_else() -> None:
    hurt = ["Somebody may be hurt", "An emergency"]
    assert cautions({"seen": "ball_over", "degree": "careless"}) == ()
    assert [one.title for one in cautions({"degree": "reckless"})] == hurt[:1]
    assert [one.title for one in cautions({"degree": "excessive"})] == hurt
    assert [one.title for one in cautions({"reason": "head"})] == [*hurt, "Head injury"]
    assert [one.title for one in cautions({"reason": "weather"})] == ["Thunder or a flash"]


def test_no_caution_and_no_care_says_that_anything_is_safe() -> None:
    every = [*phrases.CARE.values()]
    for reason, degree in pairwise(
        ("head", "blood", "injury", "weather", "frame", "excessive")
    ):
        every += [one.says for one in cautions({"reason": reason, "degree": degree})]
    assert [text for text in every if "safe" in text.lower()] == []


def test_every_signal_names_where_it_comes_from() -> None:
    known = {
        "IFAB Laws of the Game, referee signals (from memory)",
        "IFAB Laws of the Game, use of the whistle (from memory)",
        "common practice, no source",
    }
    tables = (signals.OF_RESTART, signals.OF_SHOWN, signals.OF_REASON)
    shown = [
        signals.WHISTLE,
        signals.ADVANTAGE,
        *(one for table in tables for one in table.values()),
    ]
    assert {one.source for one in shown} == known
