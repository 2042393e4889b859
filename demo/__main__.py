"""Makes the demonstration: plays the invented season, and ends with 1 where anything differs."""

import sys
from argparse import ArgumentParser, Namespace
from datetime import UTC, datetime
from pathlib import Path
from tempfile import TemporaryDirectory
from time import perf_counter
from typing import Final
from zoneinfo import ZoneInfo

from demo.course import Course
from demo.desk import Refused, id_key
from demo.published import compare_published
from demo.showcase import clear, show
from demo.site import serve_site
from demo.start import TIMEZONE
from demo.truth import truth_of
from demo.under_way import UnderWay, size_on
from demo.world import FULL

SEED: Final = 8
EXAMPLES: Final = Path("examples")


def main(out: Path, *, serves: bool = False) -> int:
    """Play the season and make its pages, and serve it; the status is 1 where a fact differs."""
    began = perf_counter()
    with id_key(), TemporaryDirectory() as place:
        course = Course(
            truth=truth_of(FULL, SEED),
            folder=Path(place) / "season",
            sheets=out / "sheets",
            tell=_tell,
        )
        try:
            clear(out)
            course.play()
            compare_published(EXAMPLES, course.desk, course.ledger)
            print("  The tables of three real tournaments are compared; the pages are made")
            page = show(course, out, EXAMPLES, printed=datetime.now(UTC))
            status = told(course, page, perf_counter() - began)
            if serves and not status:
                status = _serve(out, Path(place) / "under-way")
        except Refused as refused:
            print(refused)
            return 1
    return status


def told(course: Course, page: Path, seconds: float) -> int:
    differences = course.ledger.differences
    for one in differences:
        print(one)
    print(
        f"{course.ledger.facts} facts compared, {len(differences)} differences; "
        f"{course.desk.typed} commands in {seconds:.0f} s. {page}"
    )
    return 1 if differences else 0


def _serve(out: Path, folder: Path) -> int:
    """Play the same league up to today, and serve both seasons until Ctrl-C."""
    today = datetime.now(ZoneInfo(TIMEZONE)).date()
    print(f"The same league in a season under way, up to {today:%d %b %Y}, for the site")
    course = UnderWay(
        truth=truth_of(size_on(today), SEED),
        folder=folder,
        sheets=out / "sheets",
        tell=_tell,
        today=today,
    )
    course.play()
    for one in course.ledger.differences:
        print(one)
    if course.ledger.differences:
        return 1
    serve_site({"Autumn eights": out / "folder", "Eights under way": folder}, out / "site")
    return 0


def _tell(line: str) -> None:
    print(line, flush=True)


def asked_for() -> Namespace:
    parser = ArgumentParser(prog="python -m demo", description="Play the invented season.")
    parser.add_argument(
        "out",
        type=Path,
        nargs="?",
        default=Path("out"),
        help="where the pages go (unless given: out)",
    )
    parser.add_argument("--serve", action="store_true", help="serve the season at the end")
    return parser.parse_args()


if __name__ == "__main__":
    said = asked_for()
    sys.exit(main(said.out, serves=said.serve))
