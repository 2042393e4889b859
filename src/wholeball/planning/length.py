"""Says how many minutes a game takes on a field, by the rulebook and the turnover after it."""

from wholeball.rulebook.book import Rulebook


def minutes_of(book: Rulebook, *, turnover: int, kicks: int, is_play_off: bool = False) -> int:
    """Return the minutes of a game with all that may follow it, and the turnover.

    A level game may be followed by overtime and by kicks from the mark, which take `kicks`
    minutes; which of them, the rulebook says for the league and for play-offs.
    """
    game = book.game
    level = book.ties.play_off if is_play_off else book.ties.league
    minutes = game.periods * game.minutes + (game.periods - 1) * game.interval_minutes
    overtime = book.overtime
    if level in ("overtime", "overtime_then_kicks") and overtime.periods and overtime.minutes:
        minutes += overtime.interval_minutes + overtime.periods * overtime.minutes
    if level in ("kicks", "overtime_then_kicks"):
        minutes += kicks
    return minutes + turnover
