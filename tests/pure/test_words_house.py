"""Words of people, time and season: every value speaks, and each sentence is exact."""

from collections.abc import Iterator
from datetime import time
from decimal import Decimal
from typing import Any, Final, Literal, get_args, get_origin

import pytest

from cases.rulebooks import changed, rulebook
from wholeball.rulebook.book import Path, Rulebook, values
from wholeball.rulebook.criteria import Figure, LevelFigure
from wholeball.rulebook.editions import edition
from wholeball.rulebook.sentence import Dictionary
from wholeball.rulebook.tables import people as people_tables
from wholeball.rulebook.tables import season as season_tables
from wholeball.rulebook.tables import time as time_tables
from wholeball.rulebook.value import After, Most
from wholeball.rulebook.words import people, season
from wholeball.rulebook.words import time as time_words

WORDS: Final[Dictionary] = {**people.WORDS, **time_words.WORDS, **season.WORDS}
TABLES: Final = {module.__name__ for module in (people_tables, time_tables, season_tables)}
LAWS: Final = edition("laws-2025-26")
PRESETS: Final = ("eleven", "nine", "eight", "seven", "five_indoor", "mixed")

# Where a key is read only if another has a certain value: what must be so for it to speak.
SPOKEN_WHERE: Final[dict[str, dict[str, Any]]] = {
    "sides.mixed.goalkeeper_counts": {"sides.mixed.women_least": 1},
    "sides.mixed.short": {"sides.mixed.women_least": 1},
    "roster.club_players.most": {"roster.club_players.counted": ("club",)},
    "roster.club_players.on_field_most": {"roster.club_players.counted": ("club",)},
    "roster.club_players.counted": {"roster.club_players.most": 2},
    "eligibility.identification.forgotten_most": {
        "eligibility.identification.document": "photo_id"
    },
    "substitution.leaving.too_slow_waits_seconds": {"substitution.leaving.seconds": 10},
    "game.period_end.chance": {"game.period_end.at": "chance_played_out"},
    "forfeit.grace.chosen_by": {"forfeit.grace.minutes": 5},
    "forfeit.grace.final": {
        "forfeit.grace.minutes": 5,
        "forfeit.grace.chosen_by": "opponents",
    },
    "forfeit.grace.clock_runs": {"forfeit.grace.minutes": 5},
    "forfeit.default.notice_by": {"forfeit.default.notice_day": "same_day"},
    "forfeit.fee.captain_waits": {"forfeit.fee.amount": Decimal(5)},
    **{
        f"ratings.{name}": {"ratings.by": "officials"}
        for name in (
            "scale",
            "reason_at_or_below",
            "cap_after_sending_off",
            "floor",
            "minimum_count",
            "play_off_minimum",
            "given.forfeiting",
            "given.defaulting",
            "given.ready",
        )
    },
    "discipline.caution_games": {"discipline.cautions_for_suspension": 3},
    "discipline.cautions_cleared": {"discipline.cautions_for_suspension": 3},
    "play_offs.places": {"play_offs.qualify": "per_pool"},
    **{
        f"play_offs.{name}": {"play_offs.qualify": "all"}
        for name in (
            "unequal_pools",
            "seeded_by",
            "same_pool",
            "third_place",
            "games_played_least",
        )
    },
    **{
        f"protests.{name}": {"protests.about": ("eligibility",)}
        for name in ("raised", "by", "written_by", "written_day", "fee", "upheld")
    },
    "protests.fee_returned": {
        "protests.about": ("eligibility",),
        "protests.fee": Decimal(5),
    },
}
COSTS: Final = {
    "yellow": -1,
    "second_yellow": -2,
    "straight_red": -3,
    "yellow_and_straight_red": -4,
}
RECORDS: Final[dict[str, list[Any]]] = {
    "mercy.ladder": [
        (),
        ({"lead": 8, "minutes_left": 5},),
        ({"lead": 9, "minutes_left": 5},),
        ({"lead": 8, "minutes_left": 4},),
        ({"lead": 8, "minutes_left": 5}, {"lead": 5, "minutes_left": 1}),
    ],
    "forfeit.score": [{"winners": w, "losers": n} for w, n in ((3, 0), (4, 0), (3, 1))],
    "ratings.scale": [
        {"low": Decimal(low), "high": Decimal(high), "step": Decimal(step)}
        for low, high, step in (
            ("1", "5", "1"),
            ("0", "5", "1"),
            ("1", "6", "1"),
            ("1", "5", ".5"),
        )
    ],
    "standings.points": [
        {"win": 3, "draw": 1, "loss": 0, "forfeit_loss": 0, **other}
        for other in ({}, {"win": 2}, {"draw": 2}, {"loss": 1}, {"forfeit_loss": -1})
    ],
    "standings.criteria": [
        *((figure,) for figure in get_args(Figure)),
        ("points", "wins"),
        ("wins", "points"),
        *(({"among_level": (figure,)},) for figure in get_args(LevelFigure)),
        ({"among_level": ("h2h_points",), "again": True},),
        ({"among_level": ("h2h_points", "h2h_goals")},),
        ({"capped_difference": 3},),
        ({"capped_difference": 4},),
        ({"discipline_points": "fewest"},),
        ({"conduct": COSTS},),
        *(({"conduct": {**COSTS, name: -9}},) for name in COSTS),
    ],
}
RECORDS["forfeit.default.score"] = RECORDS["forfeit.score"]


def text(path: Path, book: Rulebook) -> str:
    return " ".join(str(sentence) for sentence in WORDS[path].says(book))


def allowed(path: Path, name: str) -> list[Any]:
    """Return values that a key allows: all words, all lists of one, some numbers."""
    article = LAWS.article(path)
    field, now = type(article).model_fields[name], getattr(article, name)
    if f"{path}.{name}" in RECORDS:
        return RECORDS[f"{path}.{name}"]
    if get_origin(field.annotation) is Literal:
        return list(get_args(field.annotation))
    if isinstance(now, tuple):
        words = get_args(get_args(field.annotation)[0])
        none = [()] if bound(field, "min_length") == 0 else []
        return [*none, *((word,) for word in words), words]
    return OF_KIND.get(type(now)) or numbers(field)


OF_KIND: Final[dict[type, list[Any]]] = {
    bool: [True, False],
    time: [time(9), time(9, 30), time(17)],
    Decimal: [Decimal(1), Decimal("1.5"), Decimal(2), Decimal(5)],
}


def numbers(field: Any) -> list[Any]:
    """Return the least numbers and the most, and "no_limit" where a key allows it."""
    for kind, least in ((Most, 0), (After, 1)):
        if field.annotation == get_args(kind)[0]:
            return ["no_limit", least, least + 1, least + 2, 999]
    least = bound(field, "ge")
    return sorted({least, least + 1, least + 2, bound(field, "le")})


def bound(field: Any, name: str) -> int:
    return next(int(getattr(one, name)) for one in field.metadata if hasattr(one, name))


def keys() -> Iterator[tuple[Path, str]]:
    for path in WORDS:
        for name in values(LAWS.article(path)):
            yield path, name


def test_every_article_of_these_tables_has_words_and_nothing_else_has() -> None:
    articles = {path for path, one in LAWS.articles() if type(one).__module__ in TABLES}
    assert set(WORDS) == articles


@pytest.mark.parametrize(("path", "name"), list(keys()), ids=lambda part: part)
def test_every_value_speaks(path: Path, name: str) -> None:
    spoken = SPOKEN_WHERE.get(f"{path}.{name}", {})
    said = [
        text(path, changed({**spoken, f"{path}.{name}": value}))
        for value in allowed(path, name)
    ]
    assert len(set(said)) == len(said), said


@pytest.mark.parametrize("unread", list(SPOKEN_WHERE))
def test_a_key_that_is_not_read_is_not_spoken_of(unread: str) -> None:
    path, _, name = unread.rpartition(".")
    said = {text(path, changed({unread: value})) for value in allowed(path, name)}
    assert said == {text(path, LAWS)}


@pytest.mark.parametrize("name", PRESETS)
@pytest.mark.parametrize("path", list(WORDS))
def test_each_sentence_is_whole_and_names_a_colour_not_a_card(path: Path, name: str) -> None:
    for sentence in WORDS[path].says(rulebook(name)):
        assert str(sentence)[0].isupper()
        assert str(sentence).endswith(".")
        assert "  " not in str(sentence)
        assert "card" not in str(sentence).replace("scorecard", "")
        assert all(part.text for part in sentence.parts)


@pytest.mark.parametrize(
    ("said", "paths", "only"),
    [
        ({}, ["mercy"], "There is no mercy rule."),
        ({}, ["sides.mixed"], "No number of any gender is asked for."),
        ({}, ["ratings"], "There are no sportsmanship ratings."),
        ({}, ["ratings.given"], "A forfeit or a default brings no rating."),
        ({}, ["play_offs"], "There are no play-offs."),
        ({}, ["protests"], "Nothing may be protested."),
        ({}, ["forfeit.grace"], "Nobody is waited for: game time is forfeit time."),
        ({}, ["discipline"], "Yellows never add up to a suspension."),
        (
            {"forfeit.default.allowed": 0},
            ["forfeit.default"],
            "There are no defaults: a team that does not come forfeits.",
        ),
        ({"substitution.most": 0}, ["substitution"], "A side may not substitute."),
        (
            {"roster.club_players.counted": (), "roster.club_players.on_field_most": 2},
            ["roster.club_players"],
            "Club and varsity players are not limited.",
        ),
        ({"overtime.periods": 0}, ["overtime"], "There is no overtime."),
        ({"overtime.minutes": 0}, ["overtime"], "There is no overtime."),
    ],
)
def test_what_is_not_used_is_said_in_one_sentence(
    said: dict[str, Any], paths: list[Path], only: str
) -> None:
    assert {text(path, changed(said)) for path in paths} == {only}


ONE = {
    "sides.mixed.women_least": 1,
    "roster.additions_hours_before": 1,
    "roster.maximum": 1,
    "game.periods": 1,
    "game.minutes": 1,
    "mercy.ladder": ({"lead": 1, "minutes_left": 1},),
    "kicks.each": 1,
    "substitution.most": 1,
    "forfeit.removal.after_forfeits": 1,
    "play_offs.qualify": "per_pool",
    "play_offs.places": 1,
}
SINGULAR = {
    "sides.mixed": "A side has at least 1 woman on the field.",
    "roster": "A roster has at most 1 player.",
    "game": "A game has 1 period of 1 minute. The clock runs on while play is stopped.",
    "mercy": "It ends once a side leads by 1 goal or more with 1 minute or less left.",
    "kicks": "Each side takes 1 kick; they end as soon as one side cannot be caught.",
    "substitution": "A side may substitute once a game.",
    "forfeit.removal": "A team is out of the league after 1 forfeit.",
    "play_offs": "In each pool the best team goes on to the play-offs.",
    "crew": "A game is worked by 1 person: 1 referee.",
}


@pytest.mark.parametrize(("path", "said"), SINGULAR.items())
def test_one_of_anything_is_singular(path: Path, said: str) -> None:
    assert said in text(path, changed(ONE))


EXACT = {
    ("nine", "mercy"): (
        "A one-sided game ends early. "
        "It ends once a side leads by 9 goals or more with 15 minutes or less left. "
        "It ends once a side leads by 7 goals or more with 6 minutes or less left."
    ),
    ("nine", "standings"): (
        "A win brings 3 points, a draw 1, a loss 0, and a forfeit -1 to the side that forfeits. "
        "Teams are ordered by 1. points; 2. in games among the level teams: points, "
        "goal difference, goals scored, made again for those still level; 3. goal difference; "
        "4. goals scored. Teams still level are parted by lots."
    ),
    ("mixed", "sides.mixed"): (
        "A side has at least 3 women on the field. A side has at least 3 men on the field. "
        "One gender outnumbers the other by at most 2. "
        "The goalkeeper counts towards these numbers. "
        "A side that lacks a gender plays with fewer until it has them. "
        "Each player says in private which gender counts; nobody asks for proof."
    ),
    ("seven", "forfeit.fee"): (
        "A forfeit costs a fee of 20 in local currency. "
        "The captain may not play until it is settled."
    ),
    ("eight", "forfeit.grace"): (
        "A side that is short at game time may be waited for 6 minutes. "
        "The supervisor chooses whether to wait. The choice, once made, stands. "
        "The time waited is taken off the game."
    ),
    ("five_indoor", "game"): (
        "A game has 2 periods of 14 minutes each. Between them is a break of 2 minutes. "
        "The clock stops while play is stopped. It counts down."
    ),
    ("five_indoor", "substitution"): (
        "A side may substitute as often as it likes. A player who was replaced may come back. "
        "Substitutions are made at any time, also while the ball is in play. "
        "The substitute enters at the own bench and waits for no signal. "
        "Substitutions are not written on the scorecard. "
        "A suspected head injury gives one further substitution, where the league uses it."
    ),
    ("mixed", "ends"): (
        "The official holds one of two numbers and either captain guesses which. "
        "The winner chooses which end to attack; the other side kicks off. "
        "The sides change ends at half-time."
    ),
    ("mixed", "ratings"): (
        "After a game the officials and the opponents rate each side from 1 to 5 in steps of "
        "0.5. A rating of 2 or lower needs a written reason. A side with a red gets at most 3 "
        "in each rating. One rating of 1.5 or lower goes to the coordinator. An average counts "
        "from 4 rated games on. Play-offs need an average of 3.5."
    ),
    ("eleven", "crew"): (
        "A game is worked by 3 people: 1 referee and 2 assistants. It may go ahead with 2. "
        "They work as a referee on a diagonal with assistants on the touchlines. "
        "Nobody works a game of a team they belong to."
    ),
}


@pytest.mark.parametrize(("name", "path"), list(EXACT))
def test_what_an_article_says_to_the_letter(name: str, path: Path) -> None:
    assert text(path, rulebook(name)) == EXACT[name, path]


@pytest.mark.parametrize(
    ("said", "path", "reads"),
    [
        (
            {"discipline.cautions_for_suspension": 1, "discipline.caution_games": 1},
            "discipline",
            "In a season 1 yellow brings a suspension of 1 game.",
        ),
        (
            {"substitution.leaving.seconds": 0},
            "substitution.leaving",
            "The player leaves at once.",
        ),
        (
            {"forfeit.grace.minutes": 60, "forfeit.grace.chosen_by": "always_waited"},
            "forfeit.grace",
            "A side that is short at game time is waited for 60 minutes. The time waited",
        ),
        ({"game.periods": 2}, "ends", "The sides change ends at half-time."),
        ({"game.periods": 3}, "ends", "The sides change ends after each period."),
        ({}, "crew", "One official decides, alone."),
        ({"sides.goalkeeper": "none"}, "equipment", "socks, shinguards and shoes."),
    ],
)
def test_what_a_value_at_its_edge_makes_an_article_say(
    said: dict[str, Any], path: Path, reads: str
) -> None:
    assert reads in text(path, changed(said))


def test_values_are_marked_among_the_words() -> None:
    (first, *_) = WORDS["game"].says(rulebook("nine"))
    assert [part.text for part in first.parts if part.is_value] == [
        "2 periods",
        "25 minutes each",
    ]
