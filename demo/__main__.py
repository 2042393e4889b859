"""Makes the demonstration: plays the invented season, and ends with 1 where anything differs."""

import sys
from datetime import UTC, datetime
from pathlib import Path
from tempfile import TemporaryDirectory
from time import perf_counter
from typing import Final

from demo.course import Course
from demo.desk import Refused, id_key
from demo.published import compare_published
from demo.showcase import clear, show
from demo.site import serve_site
from demo.truth import truth_of
from demo.world import FULL

SEED: Final = 8
EXAMPLES: Final = Path("examples")


def main(out: Path) -> int:
    """Play the season and make its pages; the status is 1 where a fact differs."""
    began = perf_counter()
    with id_key(), TemporaryDirectory() as place:
        course = Course(
            truth=truth_of(FULL, SEED),
            folder=Path(place) / "season",
            sheets=out / "sheets",
            tell=lambda line: print(line, flush=True),
        )
        try:
            clear(out)
            course.play()
            compare_published(EXAMPLES, course.desk, course.ledger)
            print("  The tables of three real tournaments are compared; the pages are made")
            page = show(course, out, EXAMPLES, printed=datetime.now(UTC))
        except Refused as refused:
            print(refused)
            return 1
    return told(course, page, perf_counter() - began)


def told(course: Course, page: Path, seconds: float) -> int:
    differences = course.ledger.differences
    for one in differences:
        print(one)
    print(
        f"{course.ledger.facts} facts compared, {len(differences)} differences; "
        f"{course.desk.typed} commands in {seconds:.0f} s. {page}"
    )
    return 1 if differences else 0


if __name__ == "__main__":
    place = Path(sys.argv[1] if len(sys.argv) > 1 else "out")
    status = main(place)
    if status == 0 and "--serve" in sys.argv[2:]:
        serve_site(place / "folder", place / "site")
    sys.exit(status)
