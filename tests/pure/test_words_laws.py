"""Words of field, restarts and conduct: every value speaks, and each sentence is exact."""

from collections.abc import Iterator
from typing import Literal, get_args, get_origin

import pytest

from cases.rulebooks import changed
from wholeball.kernel.length import Length, length
from wholeball.rulebook.book import Path, Rulebook, values
from wholeball.rulebook.editions import edition
from wholeball.rulebook.sentence import Dictionary, Sentence
from wholeball.rulebook.tables import conduct as conduct_tables
from wholeball.rulebook.tables import place as place_tables
from wholeball.rulebook.tables import restarts as restarts_tables
from wholeball.rulebook.words import conduct, place, restarts

WORDS: Dictionary = {**place.WORDS, **restarts.WORDS, **conduct.WORDS}
TABLES = {module.__name__ for module in (place_tables, restarts_tables, conduct_tables)}
OLD, NEW = edition("laws-2018-19"), edition("laws-2025-26")

# Where a key is read only if another has a certain value: what must be so for it to speak.
SPOKEN_WHERE: dict[str, dict[str, object]] = {
    "goal_kick.too_far": {"goal_kick.may_pass_halfway": False},
    "goal_kick.not_leaving": {"goal_kick.must_leave_area": True},
    "throw_in.countdown.then": {"throw_in.countdown.seconds": 5},
    "goal_kick.countdown.then": {"goal_kick.countdown.seconds": 5},
    "goalkeeper.distribution.then": {"goalkeeper.distribution.past_halfway": "not_in_the_air"},
    "slide_tackle.then": {"slide_tackle.allowed": False},
    "slide_tackle.caution": {"slide_tackle.allowed": False},
    "slide_tackle.goalkeeper_exempt": {"slide_tackle.allowed": False},
    "cards.cautioned.minutes": {"cards.cautioned.comes_off": "for_minutes"},
    "cards.cautioned.may_be_replaced": {"cards.cautioned.comes_off": "until_replaced"},
    "cards.sent_off.after_minutes": {"cards.sent_off.may_be_replaced": True},
}


def text(path: Path, book: Rulebook) -> str:
    return " ".join(str(sentence) for sentence in WORDS[path].says(book))


def allowed(path: Path, name: str, now: object) -> list[object]:
    """Return every value that a key allows; of a length, some that differ in both systems."""
    field = type(NEW.article(path)).model_fields[name]
    if isinstance(now, Length):
        return [str(now), "0 m", "3 m (3 yd)", "3.5 m (4 yd)"]
    if get_origin(field.annotation) is Literal:
        return list(get_args(field.annotation))
    if isinstance(now, bool):
        return [True, False]
    least = next(bound.ge for bound in field.metadata if hasattr(bound, "ge"))
    most = next(bound.le for bound in field.metadata if hasattr(bound, "le"))
    return list(range(least, most + 1))


def keys() -> Iterator[tuple[Path, str]]:
    for path in WORDS:
        for name in values(NEW.article(path)):
            yield path, name


def texts(path: Path, name: str, *, unit: str) -> list[str]:
    """Return how an article reads under each allowed value of one of its keys."""
    spoken = {"field.unit": unit, **SPOKEN_WHERE.get(f"{path}.{name}", {})}
    article = changed(spoken).article(path)
    return [
        text(path, changed({**spoken, f"{path}.{name}": value}))
        for value in allowed(path, name, getattr(article, name))
    ]


def test_every_article_of_these_tables_has_words_and_nothing_else_has() -> None:
    articles = {path for path, one in NEW.articles() if type(one).__module__ in TABLES}
    assert set(WORDS) == articles


@pytest.mark.parametrize(("path", "name"), list(keys()), ids=lambda part: part)
@pytest.mark.parametrize("unit", ["m", "yd"])
def test_every_value_speaks(unit: str, path: Path, name: str) -> None:
    said = texts(path, name, unit=unit)
    assert len(set(said)) == len(said), said


def test_a_key_that_does_not_speak_would_be_found() -> None:
    said = [text("cards", changed({"cards.sent_off.after_minutes": n})) for n in (0, 1)]
    assert len(set(said)) == 1


@pytest.mark.parametrize("unread", list(SPOKEN_WHERE))
def test_a_key_that_is_not_read_is_not_spoken_of(unread: str) -> None:
    path, _, name = unread.rpartition(".")
    now = getattr(NEW.article(path), name)
    said = {text(path, changed({unread: value})) for value in allowed(path, name, now)}
    assert said == {text(path, NEW)}


@pytest.mark.parametrize(
    "book", [OLD, NEW, changed({"field.unit": "yd"})], ids=["old", "new", "yards"]
)
@pytest.mark.parametrize("path", list(WORDS))
def test_each_sentence_is_whole_and_names_a_colour_not_a_card(
    path: Path, book: Rulebook
) -> None:
    for sentence in WORDS[path].says(book):
        assert str(sentence)[0].isupper()
        assert str(sentence).endswith(".")
        assert "  " not in str(sentence)
        assert "card" not in str(sentence)
        assert all(part.text for part in sentence.parts)


def marked(sentence: Sentence) -> list[str]:
    return [part.text for part in sentence.parts if part.is_value]


def test_values_are_marked_among_the_words() -> None:
    assert [marked(one) for one in WORDS["goalkeeper.hold"].says(NEW)] == [
        ["8 seconds", "the opponents get a corner kick"],
        ["5 seconds"],
    ]


def test_one_second_and_one_minute_are_singular() -> None:
    book = changed(
        {
            "goalkeeper.hold.seconds": 1,
            "cards.sent_off.may_be_replaced": True,
            "cards.sent_off.after_minutes": 1,
        }
    )
    assert "for 1 second;" in text("goalkeeper.hold", book)
    assert text("cards.sent_off", book).endswith("The side may fill up again after 1 minute.")


def test_a_field_measured_in_yards_is_told_in_yards_feet_and_inches() -> None:
    book = changed({"field.unit": "yd"})
    assert text("field", book) == (
        "The field is 115 yd long and 74 yd wide. Its sizes are printed in yards. "
        "Lines are at most 5 in wide. The centre circle has a radius of 10 yd. "
        "The corner arcs have a radius of 1 yd. At each corner a flag stands."
    )
    assert text("field.goal", book) == (
        "A goal is 8 yd wide between the posts and 8 ft high under the bar. "
        "Posts, bar and goal line are at most 5 in wide. "
        "Goals are anchored to the ground before anybody plays, as local policy says."
    )


def test_a_length_given_in_one_unit_only_keeps_it() -> None:
    book = changed({"corner.distance": "5 yd"})
    assert text("corner", book).startswith("Opponents stay at least 5 yd from the corner arc.")
    assert book.corner.distance == length("5 yd")


@pytest.mark.parametrize(
    ("said", "paths", "only"),
    [
        ({"offside.played": False}, ["offside"], "Offside is not played."),
        (
            {"penalty.played": False},
            [path for path in WORDS if path.startswith("penalty")],
            "No penalty kicks are taken.",
        ),
        (
            {"sides.goalkeeper": "none"},
            ["penalty.goalkeeper", *(path for path in WORDS if path.startswith("goalkeeper"))],
            "No side has a goalkeeper.",
        ),
        (
            {"cards.team_officials.shown": False},
            ["cards.team_officials"],
            "Team officials are not shown yellow or red.",
        ),
        (
            {"free_kick.wall.players": 0},
            ["free_kick.wall"],
            "Attackers may stand at a wall of defenders.",
        ),
    ],
)
def test_what_is_not_played_is_said_in_one_sentence(
    said: dict[str, object], paths: list[Path], only: str
) -> None:
    assert {text(path, changed(said)) for path in paths} == {only}


def test_what_a_small_field_does_without_is_said() -> None:
    book = changed(
        {
            "field.corner_arc": "0 m",
            "field.flags": "none",
            "field.areas.goal_area": "0 m",
            "field.areas.penalty_arc": "0 m",
        }
    )
    assert text("field", book).endswith(
        "The corners have no arcs. At each corner no flag stands."
    )
    assert text("field.areas", book) == (
        "There is no goal area. "
        "The penalty area reaches 16.5 m from each post and into the field. "
        "The penalty mark is 11 m from the middle of the goal line. There is no penalty arc."
    )


BOTH = {
    "goalkeeper.hold": (
        (
            "A goalkeeper may keep the ball in the hands for 6 seconds; if it takes longer, the "
            "opponents get an indirect free kick. The official shows no countdown."
        ),
        (
            "A goalkeeper may keep the ball in the hands for 8 seconds; if it takes longer, the "
            "opponents get a corner kick. The official shows the last 5 seconds by hand."
        ),
    ),
    "dropped_ball": (
        (
            "If the ball was in a penalty area, it is dropped there for players of both sides to "
            "contest. Elsewhere it is dropped for players of both sides to contest. It is dropped "
            "where it was when play was stopped. All other players need keep no distance from it."
        ),
        (
            "If the ball was in a penalty area, it is dropped there to the defending goalkeeper. "
            "Elsewhere it is dropped to the side that had it or would clearly have won it, and if "
            "that is not clear to the side that touched it last. It is dropped where it was when "
            "play was stopped. All other players stay at least 4 m from it. Whoever stays closer is "
            "shown yellow."
        ),
    ),
    "goal_kick": (
        (
            "A defender kicks the ball from the goal area. The ball must leave the penalty area to "
            "be in play; if it does not, it is taken again. The ball may cross the halfway line "
            "before anybody touches it. A goal may be scored straight from it."
        ),
        (
            "A defender kicks the ball from the goal area. The ball need not leave the penalty area "
            "to be in play. The ball may cross the halfway line before anybody touches it. A goal "
            "may be scored straight from it."
        ),
    ),
    "handball": (
        (
            "Handling counts with the hand and the arm up to the shoulder. Accidental handling "
            "before a goal is no offence. Where handling that was not deliberate brings a penalty "
            "kick, it is punished as deliberate handling is."
        ),
        (
            "Handling counts with the hand and the arm up to the bottom of the armpit. Accidental "
            "handling before a goal is an offence only if that same player scores with it or right "
            "after. Where handling that was not deliberate brings a penalty kick, it is punished as "
            "other fouls are: yellow for denying an obvious chance, nothing for stopping a promising "
            "attack."
        ),
    ),
    "penalty": (
        (
            "The ball lies on the penalty mark. All but kicker and goalkeeper stay outside the "
            "penalty area and behind the mark. They stay at least 9.15 m from the mark."
        ),
        (
            "The ball touches or overhangs the centre of the penalty mark. All but kicker and "
            "goalkeeper stay outside the penalty area and behind the mark. They stay at least "
            "9.15 m from the mark."
        ),
    ),
    "penalty.goalkeeper": (
        (
            "Until the kick the goalkeeper has both feet on or above the goal line. A first offence "
            "for which the kick is taken again costs the goalkeeper yellow. If the goalkeeper "
            "offends, the kick misses and the kicker was not affected, the kick is taken again. If "
            "goalkeeper and kicker offend together, the kick is taken again."
        ),
        (
            "Until the kick the goalkeeper has part of at least one foot on or above the goal line. "
            "A first offence for which the kick is taken again costs the goalkeeper a warning, and "
            "each further one yellow. If the goalkeeper offends, the kick misses and the kicker was "
            "not affected, the kick is not taken again. If goalkeeper and kicker offend together, "
            "the kicker is shown yellow and the opponents get an indirect free kick, goal or no "
            "goal."
        ),
    ),
    "penalty.encroachment": (
        (
            "A player who comes too near before the kick is penalised whether or not it matters for "
            "the kick."
        ),
        (
            "A player who comes too near before the kick is penalised only if it matters for the "
            "kick."
        ),
    ),
    "penalty.double_touch": (
        (
            "If the kicker touches the ball twice by accident and it goes in, the opponents get an "
            "indirect free kick. If it does not go in, the opponents get an indirect free kick."
        ),
        (
            "If the kicker touches the ball twice by accident and it goes in, the kick is taken "
            "again. If it does not go in, the opponents get an indirect free kick."
        ),
    ),
    "free_kick.own_area": (
        (
            "At a free kick to the defenders in their own penalty area the ball must leave the area "
            "to be in play."
        ),
        (
            "At a free kick to the defenders in their own penalty area the ball need not leave the "
            "area to be in play."
        ),
    ),
    "ball_off_official": (
        "Play goes on when the ball touches an official.",
        (
            "When the ball touches an official, play stops for a dropped ball if it then starts a "
            "promising attack, goes straight into the goal or changes sides; otherwise it goes on."
        ),
    ),
    "extra_persons": (
        (
            "A goal does not stand if the scoring side had an extra person on the field. If such a "
            "person, without unfair intent, touches a ball that is leaving the field, the opponents "
            "get a free kick and that person is shown yellow. If a substitute or team official "
            "interferes with play, the opponents get a direct free kick."
        ),
        (
            "A goal does not stand if the scoring side had an extra person on the field who "
            "interfered. If such a person, without unfair intent, touches a ball that is leaving "
            "the field, the opponents get an indirect free kick and nobody is shown yellow. If a "
            "substitute or team official interferes with play, the opponents get a direct free "
            "kick."
        ),
    ),
    "advantage": (
        (
            "When advantage is played, yellow for stopping a promising attack is still shown at the "
            "next stoppage. After a quick free kick, yellow for stopping a promising attack is still "
            "shown at the next stoppage. Advantage may not be played when a restart was taken "
            "incorrectly."
        ),
        (
            "When advantage is played, yellow for stopping a promising attack is not shown. After a "
            "quick free kick, yellow for stopping a promising attack is not shown. Advantage may not "
            "be played when a restart was taken incorrectly."
        ),
    ),
    "kick_off": (
        (
            "The ball is kicked in any direction. Opponents stay at least 9.15 m from the ball. "
            "Until the ball is in play everybody but the kicker is in their own half. The "
            "kick-off waits for the official's signal. A goal may be scored straight from it."
        ),
    )
    * 2,
}


@pytest.mark.parametrize("path", list(BOTH))
def test_an_article_reads_so_in_2018_19_and_in_2025_26(path: Path) -> None:
    assert (text(path, OLD), text(path, NEW)) == BOTH[path]
