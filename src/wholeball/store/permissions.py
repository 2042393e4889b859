"""Says who may do what in a season, as predicates that views and look-ups name."""

from collections.abc import Callable

from rules.predicates import Predicate

from wholeball.store.models import Season
from wholeball.store.reader import Reader


def predicate(tells: Callable[[Reader, Season], bool]) -> Predicate:
    """Return what tells something of a reader in a season, so that it can be combined."""
    return Predicate(tells)


@predicate
def is_coordinator(reader: Reader, season: Season) -> bool:
    """Tell whether the reader runs the season."""
    return "coordinator" in reader.roles_in(season)


@predicate
def is_supervisor(reader: Reader, season: Season) -> bool:
    """Tell whether the reader is in charge of nights."""
    return "supervisor" in reader.roles_in(season)


@predicate
def is_official(reader: Reader, season: Season) -> bool:
    """Tell whether the reader officiates."""
    return "official" in reader.roles_in(season)


@predicate
def is_scorekeeper(reader: Reader, season: Season) -> bool:
    """Tell whether the reader keeps scores."""
    return "scorekeeper" in reader.roles_in(season)


@predicate
def is_captain(reader: Reader, season: Season) -> bool:
    """Tell whether the reader has a team."""
    return bool(reader.teams_in(season, role="captain"))


@predicate
def is_member(reader: Reader, season: Season) -> bool:
    """Tell whether the reader has any role in the season."""
    return bool(reader.roles_in(season))


@predicate
def is_public(reader: Reader, season: Season) -> bool:
    """Tell whether anybody may see what the season publishes."""
    del reader
    return season.is_public


may_see_notices = is_public | is_member
"""Who may see tables, the timetable and results."""
may_run_desk = is_coordinator | is_supervisor | is_scorekeeper | is_official
"""Who has pages at the desk."""
may_change_facts = is_coordinator
"""Who may change a season's facts."""
may_study = is_coordinator | is_supervisor | is_official
"""Who may open the study."""
