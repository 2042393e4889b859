"""Declares who is shown what, and when: Laws 3, 10, 12 and 14."""

from typing import Final

from wholeball.rulings.article import Article
from wholeball.rulings.articles.write import Writer

_shown = Writer("shown")
_KEEPER: Final = "penalty.goalkeeper"
_WHOM: Final = (
    ("nobody", "none"),
    ("player", "A.offender"),
    ("keeper", "A.goalkeeper"),
    ("substitute", "A.substitute"),
    ("team_official", "A.team_official"),
    ("kicker", "A.kicker"),
    ("initiator", "A.initiator"),
    ("both", "A.both"),
    ("other_player", "B.offender"),
    ("other_keeper", "B.goalkeeper"),
)
_ROLES: Final = (
    ("player", "A.offender"),
    ("substitute", "A.substitute"),
    ("team_official", "A.team_official"),
)
_OFFICIALS: Final = "cards.team_officials"
_SHOWN: Final = {f"{_OFFICIALS}.shown": "yes"}
_UNSHOWN: Final = {f"{_OFFICIALS}.shown": "no"}
_MANY: Final = {"cards.cautions_for_red": "not 1"}
_ONE: Final = {"cards.cautions_for_red": "1"}

WHOM: Final[tuple[Article, ...]] = (
    _shown(
        "nothing_shown",
        "Nothing is shown.",
        "Law 12.3",
        when={"misconduct": "none"},
        then={"shown": "none", "at_once": "none"},
    ),
    _shown(
        "red",
        "Red is shown.",
        "Law 12.3",
        when={"misconduct": "send_off"},
        then={"shown": "send_off"},
        path="cards",
    ),
    _shown(
        "yellow",
        "Yellow is shown.",
        "Law 12.3",
        when={"earlier": "no"},
        then={"shown": "caution"},
        path="cards",
        given=_MANY,
    ),
    _shown(
        "last_yellow",
        "Yellow, and red because it is the one too many.",
        "Law 12.3",
        when={"earlier": "yes"},
        then={"shown": "second_caution"},
        path="cards",
        given=_MANY,
    ),
    *(
        _shown(
            f"yellow_in_kicks_carried_{carried}",
            f"Yellows of the game {words} in kicks from the mark.",
            "Law 10.3",
            when={"earlier": "in_the_game"},
            then={"shown": shown},
            path="kicks.takers",
            given={"kicks.takers.yellow_carried": carried, **_MANY},
        )
        for carried, shown, words in (
            ("yes", "second_caution", "count on"),
            ("no", "caution", "do not count"),
        )
    ),
    *(
        _shown(
            f"every_yellow_is_red_{name}",
            "Every yellow is a red here.",
            "common practice, no source",
            when=when,
            then={"shown": "second_caution"},
            path="cards",
            given={**_ONE, **first},
        )
        for name, when, first in (
            ("caution", {"misconduct": "caution"}, {}),
            ("warned", {"warned": "yes"}, {f"{_KEEPER}.first_offence": "warning"}),
        )
    ),
    _shown(
        "warning",
        "A warning is given.",
        "Laws 12.3 and 14.2",
        when={"misconduct": "warning", "culprit": "anyone"},
        then={"shown": "warning"},
        path=_OFFICIALS,
        given=_SHOWN,
    ),
    _shown(
        "keeper_warned",
        "The goalkeeper is warned the first time.",
        "Law 14.2",
        when={"warned": "no"},
        then={"shown": "warning"},
        path=_KEEPER,
        given={f"{_KEEPER}.first_offence": "warning"},
    ),
    *(
        _shown(
            f"culprit_{culprit}",
            "It is shown to the one who did it.",
            "Law 12.3",
            when={"culprit": culprit},
            then={"whom": whom},
        )
        for culprit, whom in _WHOM
    ),
    _shown(
        "culprit_kicker_and_keeper",
        "It is shown to both.",
        "Law 14.2",
        when={"culprit": "kicker_and_keeper"},
        then={"whom": "A.kicker+B.goalkeeper"},
        given={f"{_KEEPER}.with_kicker": "not kicker_penalised"},
    ),
    *(
        _shown(
            f"shown_to_role_{role}",
            "It is shown to the one who did it.",
            "Law 12.3",
            when={"role": role},
            then={"whom": whom},
        )
        for role, whom in _ROLES
    ),
    _shown(
        "shown_to_coach",
        "If nobody knows who it was, it is shown to the senior coach there.",
        "Law 12.3",
        when={"role": "unknown"},
        then={"whom": "A.senior_coach_present"},
        path=_OFFICIALS,
        given={**_SHOWN, f"{_OFFICIALS}.unidentified": "senior_coach"},
    ),
    _shown(
        "shown_to_nobody",
        "If nobody knows who it was, nobody is shown it.",
        "common practice, no source",
        when={"role": "unknown"},
        then={"whom": "none", "shown": "none"},
        over="red yellow last_yellow every_yellow_is_red_caution warning",
        path=_OFFICIALS,
        given={**_SHOWN, f"{_OFFICIALS}.unidentified": "nobody"},
    ),
    _shown(
        "official_told",
        "A team official is told to behave, or to leave, without yellow or red.",
        "Law 5.3",
        when={"role": "team_official unknown"},
        then={"shown": "told"},
        over="red yellow last_yellow every_yellow_is_red_caution warning",
        path=_OFFICIALS,
        given=_UNSHOWN,
    ),
    _shown(
        "interfering_official_told",
        "A team official who interferes is told to leave, without red.",
        "Law 5.3",
        when={"culprit": "team_official"},
        then={"shown": "told"},
        over="red",
        path=_OFFICIALS,
        given=_UNSHOWN,
    ),
    _shown(
        "nobody_told",
        "If nobody knows who it was, the technical area is told.",
        "Law 5.3",
        when={"role": "unknown"},
        then={"whom": "A.technical_area"},
        path=_OFFICIALS,
        given=_UNSHOWN,
    ),
    _shown(
        "at_next_stop",
        "While play goes on it waits for the next stop.",
        "Law 12.3",
        when={"misconduct": "not none", "restart": "play_on"},
        then={"at_once": "next_stop"},
    ),
    _shown(
        "at_once",
        "It is shown before play resumes.",
        "Law 12.3",
        when={"misconduct": "not none", "restart": "not play_on"},
        then={"at_once": "now"},
    ),
)
