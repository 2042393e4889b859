"""Pages say what people say, and no name of a file or of a key."""

import pkgutil
from importlib import import_module

import pytest

import wholeball.files
from wholeball.reports.spoken import FILES, spoken


def test_every_file_of_a_season_folder_has_a_name_that_people_say() -> None:
    modules = [
        import_module(one.name)
        for one in pkgutil.iter_modules(wholeball.files.__path__, "wholeball.files.")
    ]
    named = {one.FILE for one in modules if isinstance(getattr(one, "FILE", None), str)}
    assert set(FILES) == named


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("timetable.csv row 4, column home: 'Ahs' is no team of teams.csv.",
         "The timetable, row 4, column home: 'Ahs' is no team in the list of teams."),
        ("Use a name of blocks.csv.", "Use a name in the list of blocks."),
        ("games/A 1.jsonl line 7: an entry is missing.", "Game A 1: an entry is missing."),
        ("games/: 3 results count.", "The games: 3 results count."),
        ("cards/M1.toml: empty.", "The scorecard of game M1: empty."),
        ("rulebook.toml line 31: [mercy] ladder item 1.minutes_left is -1.",
         "The rulebook: mercy rule, ladder step 1, minutes left is -1."),
        ("[goalkeeper.hold] seconds is 0.", "keeping the ball in the hands, seconds is 0."),
        ("season.toml line 9: [[lots]] label is missing.\nteams.csv row 2: empty.",
         "The season's settings: lots, label is missing.\nThe list of teams, row 2: empty."),
        ("Ash [A] v Birch [B]: 2-1", "Ash [A] v Birch [B]: 2-1"),
        ("Game 7 of timetable.csv, and [b] v a.", "Game 7 of the timetable, and [b] v a."),
        ("There is no planning.toml.", "There is no season's plan."),
        ("reports/A 1.2.toml", "A report about game A 1"),
        ("README.md", "The notes of the season"),
        ("timetables/2026-11-26-1.csv", "A timetable that was replaced"),
        ("my-teams.csv was read.", "my-teams.csv was read."),
        ("nothing to say", "nothing to say"),
    ],
)  # fmt: skip
def test_a_text_is_told_with_what_people_say_for_files_rows_and_keys(
    text: str, says: str
) -> None:
    assert spoken(text) == says
