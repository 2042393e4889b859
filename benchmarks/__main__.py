"""Runs every benchmark and prints each figure as a ratio to its reference in the same run."""

import sys

from benchmarks import (
    booklet,
    envelope,
    fold,
    load,
    odds,
    packet,
    rosters,
    rulings,
    scenes,
    scorecards,
    season,
    standings,
    stored_roster,
    today,
)


def main() -> int:
    """Print a line an operation; the status is 1 where a ratio is above what it may be."""
    rows = [
        row
        for room in (
            load,
            standings,
            booklet,
            scorecards,
            packet,
            fold,
            envelope,
            season,
            rosters,
            stored_roster,
            today,
            rulings,
            scenes,
            odds,
        )
        for row in room.measure()
    ]
    for operation, reference, ratio, at_most in rows:
        verdict = "within" if ratio <= at_most else "ABOVE"
        print(f"{operation}: {ratio:.2f} x {reference} ({verdict} {at_most:g})")
    return int(any(ratio > at_most for _, _, ratio, at_most in rows))


if __name__ == "__main__":
    sys.exit(main())
