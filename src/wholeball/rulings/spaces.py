"""Puts the fact spaces together: the game itself, and the matters of persons beside it."""

from typing import Final

from wholeball.rulings.articles.ball import BALL as BALL_ARTICLES
from wholeball.rulings.articles.beside import PERSONS
from wholeball.rulings.articles.chances import CHANCES
from wholeball.rulings.articles.clock import CLOCK
from wholeball.rulings.articles.conduct import CONDUCT
from wholeball.rulings.articles.form import FORM
from wholeball.rulings.articles.fouls import FOULS
from wholeball.rulings.articles.hands import HANDS
from wholeball.rulings.articles.misconduct import MISCONDUCT
from wholeball.rulings.articles.near import NEAR, PENALTY
from wholeball.rulings.articles.offside import OFFSIDE
from wholeball.rulings.articles.outsiders import OUTSIDERS
from wholeball.rulings.articles.shown import WHOM
from wholeball.rulings.articles.spots import DROPS, PLACES
from wholeball.rulings.articles.stoppage import CARE, STOPPAGE
from wholeball.rulings.articles.together import CHOICES
from wholeball.rulings.facts.after import AFTER
from wholeball.rulings.facts.ball import BALL
from wholeball.rulings.facts.beside import BESIDE
from wholeball.rulings.facts.contact import CONTACT
from wholeball.rulings.facts.people import PEOPLE
from wholeball.rulings.facts.scene import SCENE
from wholeball.rulings.facts.together import TOGETHER
from wholeball.rulings.space import Space, Stage, space


def _stage(name: str, **parts: str) -> Stage:
    return Stage(
        name=name, parts={part: frozenset(said.split()) for part, said in parts.items()}
    )


STAGES: Final = (
    _stage(
        "play",
        goal="A B no none",
        restart="play_on natural unchanged retake throw_in goal_kick corner_kick "
        "direct_free_kick indirect_free_kick penalty_kick dropped_ball kick_off period_over "
        "abandon",
        side="A B none receiver",
        basis="none same left goal_area corner centre mark offence boundary struck "
        "interference ball goal_area_line penalty_area_line drop",
    ),
    _stage(
        "spot",
        spot="none where_it_left goal_area corner_nearest centre_mark penalty_mark offence "
        "nearest_boundary struck interference ball_when_stopped goal_area_line_nearest "
        "penalty_area_line_nearest same_place last_touch goalkeeper_in_penalty_area",
        taker="A B none toucher other both",
    ),
    _stage(
        "clock", resumed="as_ruled period_over shootout", kick="none scored not_scored retake"
    ),
    _stage(
        "misconduct",
        misconduct="none warning caution send_off",
        culprit="nobody anyone player keeper substitute team_official kicker initiator both "
        "other_player other_keeper kicker_and_keeper",
    ),
    _stage(
        "shown",
        shown="none warning caution second_caution send_off told",
        whom="none A.offender A.goalkeeper A.kicker A.initiator A.both A.substitute "
        "A.team_official A.senior_coach_present A.technical_area B.offender B.goalkeeper "
        "A.kicker+B.goalkeeper",
        at_once="none now next_stop",
    ),
    _stage(
        "care",
        care="none help_then_after_treatment help_then_until_next_dead_ball help_then_may_stay "
        "out_for_the_day off_until_bleeding_stopped take_shelter mend_first",
    ),
)

GAME: Final[Space] = space(
    "game",
    stages=STAGES,
    facts=(*SCENE, *BALL, *CONTACT, *PEOPLE, *AFTER),
    articles=(
        *BALL_ARTICLES,
        *STOPPAGE,
        *FORM,
        *NEAR,
        *PENALTY,
        *FOULS,
        *HANDS,
        *OFFSIDE,
        *OUTSIDERS,
        *CONDUCT,
        *PLACES,
        *DROPS,
        *CLOCK,
        *MISCONDUCT,
        *CHANCES,
        *WHOM,
        *CARE,
    ),
)

PERSONS_SPACE: Final[Space] = space(
    "persons",
    stages=(
        _stage(
            "beside",
            resumes="as_it_was play_on kick_off kicks not_continued decision_may_change "
            "decision_stands",
            kicks_off="none winner other",
            allowed="unasked yes no after_reducing",
            replaced_by="unasked nobody substitute_not_counted anybody_after_a_time "
            "eligible_player substitute_or_left_out left_out",
            waits="no substitute until_restart after_restart",
            reported="no yes",
            dealt="none caution send_off",
        ),
    ),
    facts=BESIDE,
    articles=PERSONS,
)
TOGETHER_SPACE: Final[Space] = space(
    "together",
    stages=(
        _stage(
            "together",
            restart_for="one other dropped_ball",
            shown_for="each second_caution",
        ),
    ),
    facts=TOGETHER,
    articles=CHOICES,
)
SPACES: Final = (GAME, PERSONS_SPACE)
"""Spaces whose situations somebody can describe."""
PROVED: Final = (*SPACES, TOGETHER_SPACE)
"""All spaces; the last one is asked of two rulings, never of a person."""
