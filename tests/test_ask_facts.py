"""States facts to be ruled: rulings in words and as JSON, faults, and the engine's own rulings."""

import json
import random
from collections.abc import Iterator, Mapping
from importlib.resources import files
from pathlib import Path

import pytest

from cases.command_line import Run
from wholeball.kernel.faults import InputFaults, WholeballError
from wholeball.rulebook.editions import NEWEST, edition
from wholeball.rulings.ruling import Ruling, Situation, rule
from wholeball.rulings.spaces import GAME, PERSONS_SPACE
from wholeball.usecases.ask_ruling import Asking, Question, Ruled, asking
from wholeball.usecases.stated_facts import read_facts, space_of, with_what_follows

FIVE = str(files("wholeball.rulebook.presets").joinpath("five_indoor.toml"))
HELD = ["moment=open", "seen=keeper_hands", "hands=too_long"]
FIVE_HOLD = """\

Situation
  Was the ball in play? The ball was in play.
  What was it about? The goalkeeper's hands on the ball in the own penalty area.
  What did the goalkeeper do with the hands? Kept it longer than allowed.
  Was that inside a goal area? In neither.
Ruling by House rules, fives indoors
Indirect free kick for the other side, where the offence happened.
Neither yellow nor red.
Signal: Whistle. Hold one arm straight up until the kicked ball has been touched again,
is out, or clearly cannot go straight in.
Say: "Indirect free kick for the other side: a goalkeeper may not keep the ball longer
than allowed."
Articles
  H 6.2, Keeping the ball in the hands: A goalkeeper may not keep the ball longer than
    allowed.
This is different here
  By the Laws: Corner kick for the other side, from the nearest corner area. Neither
    yellow nor red.
"""


@pytest.fixture(autouse=True)
def _in_a_folder_without_a_rulebook(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    monkeypatch.chdir(tmp_path)


def test_complete_facts_ask_nothing_and_a_house_says_what_is_different(run: Run) -> None:
    told = run("ask", "--rulebook", FIVE, "--facts", *HELD, "goal_area=neither")
    assert told.status == 0
    assert told.out.startswith(FIVE_HOLD)
    assert "  H 6.2, Keeping the ball in the hands: " in told.out
    assert "  Law 12.2, the Laws: " in told.out


def test_json_prints_a_ruling_and_asks_nothing(run: Run) -> None:
    told = json.loads(run("ask", "--json", "--facts", " ".join(HELD)).out)
    assert told["ruling"]["restart"] == "corner_kick"
    assert told["lacks"] is None
    assert told["asked"] == read_facts(HELD)
    assert told["words"]["shown"] == "Neither yellow nor red."
    assert told["words"]["signals"] == [
        {
            "says": "Point to the corner area, the arm raised.",
            "source": "IFAB Laws of the Game, referee signals (from memory)",
        }
    ]
    assert told["articles"][0]["name"] == "keeper_holds"
    assert told["different"] is None


def test_json_prints_what_is_lacking_and_takes_nothing_from_a_text(run: Run) -> None:
    told = json.loads(run("ask", "--json", "we heard thunder").out)
    assert told == {
        "ok": True,
        "rulebook": "Laws of the Game 2025/26",
        "facts": {},
        "ruling": None,
        "lacks": {
            "fact": "moment",
            "question": "Was the ball in play?",
            "values": dict(GAME.fact("moment").values),
        },
        "proposed": [
            {
                "space": "game",
                "facts": {"seen": "stop", "reason": "weather"},
                "score": told["proposed"][0]["score"],
            }
        ],
    }


def test_json_tells_what_is_different_in_a_house(run: Run) -> None:
    words = [*HELD, "goal_area=neither"]
    told = json.loads(run("ask", "--json", "--rulebook", FIVE, "--facts", *words).out)
    assert told["different"]["laws"] == [
        "Corner kick for the other side, from the nearest corner area. Neither yellow nor red."
    ]
    assert [one["ref"] for one in told["different"]["articles"]] == ["H 6.2"]


def test_the_rulebook_of_the_folder_is_asked_where_none_is_named(
    run: Run, tmp_path: Path
) -> None:
    words = ["--json", "--facts", *HELD]
    assert json.loads(run("ask", *words).out)["rulebook"] == edition(NEWEST).head.name
    (tmp_path / "rulebook.toml").write_bytes(Path(FIVE).read_bytes())
    assert json.loads(run("ask", *words).out)["rulebook"] == "House rules, fives indoors"


@pytest.mark.parametrize(
    ("facts", "says"),
    [
        (
            ["sen=offside", "moment=opn", "x"],
            (
                "--facts: 'sen' is no fact. Did you mean sent?\n"
                "--facts: moment has no value 'opn'. Did you mean open?\n"
                "--facts: 'x' is no fact. Write name=value.\n"
                "Mend what is listed and try again.\n"
            ),
        ),
        (
            ["moment=open", "moment=dead"],
            (
                "--facts: moment is open and dead. Leave one of them out.\n"
                "Mend what is listed and try again.\n"
            ),
        ),
        (
            ["moment=dead", "seen=offside"],
            (
                "seen cannot be offside where moment is dead: play was stopped. "
                "Change seen or moment, or leave one of them out.\n"
            ),
        ),
        (
            ["hands=fair", "matter=ends"],
            "hands and matter are never asked together. Leave out hands or matter.\n",
        ),
        (
            ["seen=time_up", "who=keeper"],
            (
                "who is never asked where the other facts are so. "
                "Leave who out, or change what makes it out of place.\n"
            ),
        ),
    ],
)
def test_facts_that_cannot_be_are_named_and_not_ruled(
    run: Run, facts: list[str], says: str
) -> None:
    told = run("ask", "--facts", " ".join(facts))
    assert (told.status, told.out, told.err) == (1, "", says)


def test_a_fact_that_decides_nothing_is_refused(run: Run) -> None:
    told = run("ask", "--facts", *HELD, "goal_area=neither")
    assert told.status == 1
    assert told.err.startswith("goal_area decides nothing here: ")


def test_faults_as_json_have_their_codes(run: Run) -> None:
    told = json.loads(run("ask", "--json", "--facts", "moment=dead seen=offside").out)
    assert (told["ok"], [fault["code"] for fault in told["faults"]]) == (
        False,
        ["contradiction"],
    )


def test_a_missing_rulebook_is_refused(run: Run) -> None:
    told = run("ask", "--rulebook", "none.toml")
    assert told.status == 1
    assert told.err.startswith("none.toml cannot be read: ")


@pytest.fixture(scope="module")
def laws() -> Asking:
    return asking(edition(NEWEST), GAME)


def test_answers_lead_to_what_the_engine_rules_on_the_whole_situation(laws: Asking) -> None:
    chance = random.Random(5)
    counts = []
    for case in chance.sample(laws.cases, 60):
        asked = list(_questions(laws, case.facts))
        ruled = asked.pop()
        whole = rule(Situation(facts=case.facts), laws.book)
        assert isinstance(ruled, Ruled)
        assert isinstance(whole, Ruling)
        assert ruled.ruling.answers == whole.answers
        assert ruled.asked.items() <= case.facts.items()
        counts.append(len(asked))
    assert max(counts) <= 12


def _questions(asks: Asking, truth: Mapping[str, str]) -> Iterator[Question | Ruled]:
    facts: dict[str, str] = {}
    while isinstance(found := asks.next(facts), Question):
        yield found
        assert len(found.values) > 1
        facts[found.fact.name] = truth[found.fact.name]
    yield found


def test_a_situation_in_any_order_holds_what_follows_from_it(laws: Asking) -> None:
    for case in random.Random(6).sample(laws.cases, 300):
        names = list(case.facts)
        random.Random(7).shuffle(names)
        some = {name: case.facts[name] for name in names[: len(names) // 2]}
        assert with_what_follows(some, GAME).items() <= case.facts.items()


def test_a_fact_follows_only_where_nothing_else_is_possible() -> None:
    assert with_what_follows({"hands": "fair"}, GAME) == {
        "moment": "open",
        "seen": "keeper_hands",
        "hands": "fair",
    }
    assert with_what_follows({"seen": "foul"}, GAME) == {"seen": "foul"}
    assert with_what_follows({"half": "first"}, PERSONS_SPACE) == {
        "matter": "ends",
        "half": "first",
    }


def test_no_facts_are_about_the_game_and_mixed_ones_about_nothing() -> None:
    assert space_of([]) is GAME
    assert space_of(["half"]) is PERSONS_SPACE
    with pytest.raises(WholeballError, match="never asked together"):
        space_of(["half", "seen"])


def test_every_fault_of_stated_facts_comes_at_once() -> None:
    with pytest.raises(InputFaults) as caught:
        read_facts(["a=b", "moment=never", "seen"])
    assert [fault.code for fault in caught.value.faults] == [
        "unknown_fact",
        "unknown_value",
        "syntax",
    ]


def test_a_word_with_a_sign_of_equality_is_a_fact_with_and_without_the_option(
    run: Run,
) -> None:
    with_ = run("ask", "--json", "--facts", *HELD)
    without = run("ask", "--json", *HELD)
    assert with_ == without
    assert with_.status == 0
