"""Holds a table that somebody else published, to be held against ours."""

from dataclasses import dataclass

from wholeball.kernel.identity import TeamId


@dataclass(frozen=True, slots=True, kw_only=True)
class PublishedLine:
    """One team's line as published: its place, and its figures where they are given.

    `figures` are played, won, drawn, lost, goals for, goals against and points.
    """

    team: TeamId
    place: int
    figures: tuple[int | None, ...]
