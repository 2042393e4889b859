"""Runs a function inside the site that a test serves: `python -m cases.in_site MODULE NAME VALUES`.

VALUES is a JSON object of the function's arguments; what it returns is printed as JSON.
"""

import importlib
import json
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any, Final

from cases.served_site import environment_of

TESTS: Final = Path(__file__).resolve().parents[1]


def in_site(data: Path, does: Callable[..., Any], **values: object) -> Any:
    """Return what a function of a module returns in the site of a data folder."""
    done = subprocess.run(  # noqa: S603 - our own program
        [
            sys.executable,
            "-m",
            "cases.in_site",
            does.__module__,
            does.__name__,
            json.dumps(values),
        ],
        cwd=TESTS,
        env=environment_of(data, DJANGO_SETTINGS_MODULE="wholeball.site.settings"),
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 0, done.stderr
    return json.loads(done.stdout)


def _run(module: str, name: str, values: str) -> None:
    import django  # noqa: PLC0415 - after the settings are named

    django.setup()
    does = getattr(importlib.import_module(module), name)
    print(json.dumps(does(**json.loads(values))))  # noqa: T201 - read by the test


if __name__ == "__main__":
    _run(*sys.argv[1:])
