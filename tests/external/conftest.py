"""Tells at the end how often data was absent, so that an absence cannot hide a wrong rule."""

from collections import Counter

import pytest

COUNTED = ("unresolved", "absences")


def pytest_terminal_summary(terminalreporter: pytest.TerminalReporter) -> None:
    rows: Counter[str] = Counter()
    totals: Counter[tuple[str, str]] = Counter()
    for report in (
        *terminalreporter.getreports("passed"),
        *terminalreporter.getreports("failed"),
    ):
        counted = [(name, value) for name, value in report.user_properties if name in COUNTED]
        if report.when != "call" or not counted:
            continue
        module = report.nodeid.partition("::")[0]
        rows[module] += 1
        totals.update({(module, name): int(str(value)) for name, value in counted})
    for module, count in sorted(rows.items()):
        told = ", ".join(f"{totals[module, name]} {name}" for name in COUNTED)
        terminalreporter.write_line(f"{module}: {count} tables, {told}")
