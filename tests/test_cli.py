"""The command line does each job, tells what it refuses, and never shows a traceback."""

import json
import os
import subprocess
import sys
from pathlib import Path
from typing import IO

import pytest

from cases.command_line import Run, Told, written

ROOT = Path(__file__).resolve().parents[1]
LEAGUE = ROOT / "examples" / "lantern-hill"


def test_a_sound_rulebook_is_in_order(run: Run) -> None:
    told = run("rulebook", "check", LEAGUE / "rulebook.toml")
    assert told == Told(
        0,
        f"{LEAGUE}/rulebook.toml is in order: Lantern Hill, autumn eights, on laws-2025-26.\n",
        "",
    )


def test_an_edition_of_the_laws_is_checked_by_its_key(run: Run) -> None:
    told = run("rulebook", "check", "laws-2016-17")
    assert told == Told(
        0, "laws-2016-17 is in order: Laws of the Game 2016/17, on laws-2016-17.\n", ""
    )


def test_every_fault_of_a_rulebook_is_told_with_status_1(run: Run, tmp_path: Path) -> None:
    file = written(tmp_path, "[game]\nperiods = 9\nminutes = 0\n[mercie]\nladder = []\n")
    told = run("rulebook", "check", file)
    assert (told.status, told.out) == (1, "")
    assert told.err.splitlines() == [
        "house.toml line 3: [game] periods is 9. Give 1 to 4.",
        "house.toml line 4: [game] minutes is 0. Give 1 to 60.",
        "house.toml line 5: mercie is no table or key of this file. Did you mean mercy?",
        "Mend what is listed and try again.",
    ]


def test_faults_as_json_have_file_line_article_value_allowed_and_cure(
    run: Run, tmp_path: Path
) -> None:
    file = written(tmp_path, "[game]\nperiods = 9\n")
    told = run("rulebook", "check", file, "--json")
    assert told.status == 1
    assert json.loads(told.out) == {
        "ok": False,
        "remarks": [],
        "faults": [
            {
                "level": "fault",
                "code": "range",
                "file": "house.toml",
                "line": 3,
                "row": None,
                "column": None,
                "article": "game",
                "says": "[game] periods is 9.",
                "value": "9",
                "allowed": "1 to 4",
                "cure": "Give 1 to 4.",
            }
        ],
    }


def test_a_field_that_cannot_be_laid_out_is_a_fault(run: Run, tmp_path: Path) -> None:
    file = written(tmp_path, '[field.areas]\npenalty_arc = "60 m"\n')
    told = run("rulebook", "check", file)
    assert (told.status, told.out) == (1, "")
    assert (
        "house.toml line 3: [field.areas] penalty_arc 60 m and [field.areas] penalty_area "
        "16.5 m (18 yd) make the arc wider than the penalty area. Make the radius smaller."
    ) in told.err.splitlines()


def test_a_field_that_the_laws_speak_against_is_remarked_on(run: Run, tmp_path: Path) -> None:
    text = '[field]\nlines_most = "10 cm"\n'
    doubt = (
        "house.toml line 3: [field] lines_most 10 cm and [field.goal] posts_most 12 cm (5 in) "
        "differ. Law 1.10 of the Laws of the Game wants goal line and posts equally wide."
    )
    told = run("rulebook", "check", written(tmp_path, text))
    assert (told.status, told.err.splitlines()) == (0, [doubt])
    confirmed = run("rulebook", "check", written(tmp_path, text + "confirm = true\n"))
    assert (confirmed.status, confirmed.err) == (0, "")


def test_a_free_kick_without_a_distance_can_be_laid_out(run: Run, tmp_path: Path) -> None:
    told = run("rulebook", "check", written(tmp_path, '[free_kick]\ndistance = "0 m"\n'))
    assert (told.status, told.err) == (0, "")


def test_an_article_is_said_in_words_beside_the_laws(run: Run, tmp_path: Path) -> None:
    house = (
        '[goalkeeper.hold]\nref = "H 4.2"\nwhy = "New goalkeepers need longer."\nseconds = 12\n'
    )
    told = run("rulebook", "show", written(tmp_path, house), "H 4.2")
    assert told.status == 0
    assert told.out.splitlines()[0] == "H 4.2  Keeping the ball in the hands (local)"
    assert "12 seconds" in told.out
    assert "The Laws say (Law 12.2)" in told.out
    assert "Why: New goalkeepers need longer." in told.out


def test_articles_as_json_say_where_they_stand_to_the_laws(run: Run, tmp_path: Path) -> None:
    house = "[goalkeeper.hold]\nseconds = 12\n"
    told = run("rulebook", "show", written(tmp_path, house), "goalkeeper.hold", "--json")
    (article,) = json.loads(told.out)
    assert (article["standing"], article["differs_from_laws"]) == (
        "differs",
        [{"key": "seconds", "here": "12", "laws": "8"}],
    )


def test_a_key_asked_for_as_an_article_gets_the_article_that_holds_it(run: Run) -> None:
    told = run("rulebook", "show", LEAGUE / "rulebook.toml", "mercy.ladder")
    cure = "ladder is a key of the article mercy; show mercy."
    assert told == Told(1, "", f"There is no article 'mercy.ladder'. {cure}\n")


def test_an_unknown_article_gets_the_nearest_one(run: Run) -> None:
    told = run("rulebook", "show", "laws-2025-26", "goalkeper.hold")
    assert told == Told(
        1, "", "There is no article 'goalkeper.hold'. Did you mean goalkeeper.hold?\n"
    )


@pytest.mark.parametrize(("paper", "width"), [("a4", 595), ("us-letter", 612)])
def test_the_booklet_is_printed_on_the_paper_asked_for(
    run: Run, tmp_path: Path, paper: str, width: int
) -> None:
    pdf, html = tmp_path / "b.pdf", tmp_path / "page" / "b.html"
    told = run(
        "rulebook", "booklet", LEAGUE / "rulebook.toml", "--pdf", pdf, "--html", html,
        "--paper", paper,
    )  # fmt: skip
    assert told == Told(0, f"{pdf}\n{html}\n", "")
    assert _pages(pdf)[0] == width
    assert (html.parent / "assets" / "wholeball.css").is_file()


def test_keys_are_listed_as_text_and_as_json(run: Run) -> None:
    assert "[mercy]  When a one-sided game ends early." in run("rulebook", "keys").out
    listed = json.loads(run("rulebook", "keys", "--json").out)
    assert {
        "table": "game",
        "key": "periods",
        "allowed": "whole number, 1 to 4",
    }.items() <= next(
        one for one in listed if (one["table"], one["key"]) == ("game", "periods")
    ).items()


@pytest.mark.parametrize("preset", ["eleven", "nine", "eight", "seven", "five_indoor", "mixed"])
def test_a_new_season_of_each_preset_can_be_shown_at_once(
    run: Run, tmp_path: Path, preset: str
) -> None:
    folder = tmp_path / "season"
    assert run("new", folder, "--preset", preset, "--first-day", "2027-01-19").status == 0
    told = run("standings", folder)
    assert told == Told(0, "No team is listed yet. Add a row a team to teams.csv.\n", "")
    assert run("pages", folder, tmp_path / "out").status == 0


def test_a_new_season_never_writes_over_an_old_one(run: Run, tmp_path: Path) -> None:
    (tmp_path / "notes.txt").write_text("mine")
    told = run("new", tmp_path)
    assert told.status == 1
    assert "Nothing was written. Name another folder." in told.err
    assert [path.name for path in tmp_path.iterdir()] == ["notes.txt"]


@pytest.mark.parametrize(
    "words",
    [
        ("new", "n" * 300),
        ("standings", "n" * 300),
        ("rulebook", "check", "n" * 300),
        ("pages", "n" * 300, "out"),
        ("draw", "commit", "n" * 300, "A", "B", "--label", "x"),
        ("draw", "reveal", "n" * 300, "--public", "7"),
        ("draw", "check", "n" * 300),
    ],
)
def test_a_name_that_no_disk_can_hold_is_refused_in_a_line(
    run: Run, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, words: tuple[str, ...]
) -> None:
    monkeypatch.chdir(tmp_path)
    told = run(*words)
    assert (told.status, told.out, told.err.count("\n")) == (1, "", 1)
    assert "n" * 300 in told.err
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize(
    ("option", "value", "says"),
    [
        ("--first-day", "9999-12-31", "A season of 12 weeks from 9999-12-31 ends after"),
        ("--timezone", "Mars/Base", "There is no time zone 'Mars/Base'."),
        ("--timezone", 'UTC"\nx = "', "There is no time zone"),
    ],
)
def test_a_new_season_of_no_calendar_is_refused_before_it_is_written(
    run: Run, tmp_path: Path, option: str, value: str, says: str
) -> None:
    told = run("new", tmp_path / "x", option, value)
    assert (told.status, told.out, (tmp_path / "x").exists()) == (1, "", False)
    assert told.err.startswith(says)


@pytest.mark.parametrize("name", ["/dev/zero", "/dev", "pipe"])
def test_a_rulebook_that_is_no_regular_file_is_refused(
    run: Run, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, name: str
) -> None:
    monkeypatch.chdir(tmp_path)
    os.mkfifo("pipe")
    told = run("rulebook", "check", name)
    assert (told.status, told.out) == (1, "")
    assert f"{name} cannot be read:" in told.err


def test_output_that_cannot_be_written_ends_in_one_line() -> None:
    with Path("/dev/full").open("w") as full:
        done = _started("rulebook", "show", "laws-2025-26", stdout=full)
    assert (done.returncode, done.stderr) == (
        1,
        b"The output: No space left on device.\n",
    )


def test_an_output_of_another_encoding_gets_escapes(tmp_path: Path) -> None:
    folder = tmp_path / "lots"
    words = ("draw", "commit", str(folder), "محمد", "Zoë", "--label", "A")
    assert _started(*words).returncode == 0
    done = _started("draw", "reveal", str(folder), "--public", "7", encoding="cp1252")
    assert (done.returncode, done.stderr) == (0, b"")
    assert rb"\u0645\u062d\u0645\u062f" in done.stdout


def test_an_argument_that_is_no_text_is_refused_in_one_line(tmp_path: Path) -> None:
    words = ("draw", "commit", str(tmp_path / "x"), b"\xff\xfe", "B", "--label", "A")
    done = _started(*words)
    assert (done.returncode, done.stdout, done.stderr.count(b"\n")) == (1, b"", 1)


def test_a_booklet_whose_page_cannot_be_written_leaves_no_pdf(run: Run, tmp_path: Path) -> None:
    (tmp_path / "file").write_text("mine")
    pdf, html = tmp_path / "new" / "ok.pdf", tmp_path / "file" / "x.html"
    told = run("rulebook", "booklet", "laws-2025-26", "--pdf", pdf, "--html", html)
    assert (told.status, told.out) == (1, "")
    assert ".wholeball-" not in told.err
    assert [path.name for path in tmp_path.iterdir()] == ["file"]


def test_a_pdf_and_a_page_of_one_name_are_refused(run: Run, tmp_path: Path) -> None:
    one = tmp_path / "b.pdf"
    told = run("rulebook", "booklet", "laws-2025-26", "--pdf", one, "--html", one)
    assert (told.status, told.out, one.exists()) == (1, "", False)
    assert "is named for the PDF and for the page" in told.err


def test_standings_whose_pictures_cannot_be_written_leave_no_pages(
    run: Run, tmp_path: Path
) -> None:
    pages, file = tmp_path / "h", tmp_path / "file"
    file.write_text("mine")
    told = run("standings", LEAGUE, "--html", pages, "--svg", file)
    assert (told.status, told.out, pages.exists(), file.read_text()) == (1, "", False, "mine")


@pytest.mark.parametrize("words", [("rulebook", "check"), ("rulebook", "show"), ("standings",)])
def test_a_missing_file_is_told_as_json_too(
    run: Run, tmp_path: Path, words: tuple[str, ...]
) -> None:
    told = run(*words, tmp_path / "none", "--json")
    said = json.loads(told.out)
    assert (told.status, told.err, said["ok"]) == (1, "", False)
    assert [fault["file"] for fault in said["faults"]] == [str(tmp_path / "none")]


def test_an_article_in_words_only_is_shown_by_its_reference(run: Run, tmp_path: Path) -> None:
    house = '[[also]]\nref = "H 99"\ntitle = "Parking"\ntext = "Park behind the barn."\n'
    file = written(tmp_path, house)
    told = run("rulebook", "show", file, "H 99")
    assert told == Told(0, "H 99  Parking (in words)\n  Park behind the barn.\n", "")
    (article,) = json.loads(run("rulebook", "show", file, "H 99", "--json").out)
    assert (article["article"], article["says"]) == ("also.0", ["Park behind the barn."])
    assert "H 99  Parking" in run("rulebook", "show", file).out


def test_every_page_leads_back_to_what_the_pages_belong_to(run: Run, tmp_path: Path) -> None:
    folder, out = tmp_path / "season", tmp_path / "out"
    assert run("new", folder).status == 0
    for bad in ("League", "=x.html", "League=", "League=javascript:alert(1)"):
        told = run("pages", folder, out, "--back", bad)
        assert (told.status, f"{bad!r} is no link" in told.err) == (2, True)
    assert not out.exists()
    assert run("pages", folder, out, "--back", "League=../index.html").status == 0
    link = '<li><a href="../index.html">League</a></li>'
    pages = list(out.glob("*.html"))
    assert len(pages) == 5
    assert [one.name for one in pages if link not in one.read_text(encoding="utf-8")] == []


def test_pages_of_a_tournament_say_how_many_published_tables_come_out_the_same(
    run: Run, tmp_path: Path
) -> None:
    told = run("pages", ROOT / "examples" / "proof" / "euro-2024", tmp_path / "out")
    assert told == Told(0, f"{tmp_path}/out/index.html\n", "")
    index = (tmp_path / "out" / "index.html").read_text()
    assert "6 of 6 published tables come out the same from their games." in index


def _started(
    *words: str | bytes, stdout: int | IO[str] = subprocess.PIPE, encoding: str = "utf-8"
) -> subprocess.CompletedProcess[bytes]:
    """Run the command line in a process of its own, with the output and encoding given."""
    command = [sys.executable, "-m", "wholeball", *words]
    environment = {**os.environ, "PYTHONIOENCODING": encoding}
    return subprocess.run(  # noqa: S603 - our own program
        command, stdout=stdout, stderr=subprocess.PIPE, env=environment, check=False
    )


def _pages(pdf: Path) -> list[int]:
    from pypdf import PdfReader  # noqa: PLC0415 - one test alone reads a PDF

    return [round(page.mediabox.width) for page in PdfReader(pdf).pages]
