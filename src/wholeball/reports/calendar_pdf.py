"""Prints the calendar as a tagged PDF: a table a week, then the games of each team."""

from datetime import datetime
from typing import Any

from wholeball.reports.calendar import Cell, Entry, Week, of_team, weeks
from wholeball.reports.calendar_page import Calendar
from wholeball.reports.dates import moment
from wholeball.reports.typeset import Paper, typeset


def calendar_pdf(told: Calendar, *, printed: datetime, paper: Paper) -> bytes:
    """Return the calendar as PDF; the same timetable and moment always give the same bytes."""
    data = {
        "title": f"Calendar, {told.league}",
        "foot": f"{told.league}, printed {moment(printed)}",
        "date": [getattr(printed, unit) for unit in _UNITS],
        "paper": paper,
        "weeks": [
            _week(one) for one in weeks(told.games, told.slots, first_day=told.first_day)
        ],
        "teams": [
            {"name": team, "games": [_line(one, team) for one in of_team(told.games, team)]}
            for team in told.teams
        ],
    }
    return typeset("calendar.typ", data)


_UNITS = ("year", "month", "day", "hour", "minute", "second")


def _week(week: Week) -> dict[str, Any]:
    return {
        "title": week.title,
        "heads": [f"{name} {number}" for number, name in week.heads],
        "rows": [
            {
                "at": one.at,
                "field": one.field,
                "first": one.is_first,
                "cells": [_cell(cell) for cell in one.cells],
            }
            for one in week.rows
        ],
    }


def _cell(cell: Cell) -> list[dict[str, str]]:
    return [
        {"game": one.game, "note": one.note, "home": one.home, "away": one.away}
        for one in cell.entries
    ]


def _line(one: Entry, team: str) -> dict[str, str]:
    return {"when": f"{one.when}, {one.at}", "where": one.field, "against": one.against(team)}
