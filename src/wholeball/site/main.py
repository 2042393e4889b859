"""Is the entry point: the command line, and the commands of the site with it."""

import sys
from typing import Final

STOPPED: Final = 130
"""The status of a command that somebody stopped by Ctrl-C, as shells have it."""


def main() -> None:
    """Run the command that was typed; Ctrl-C ends it without a traceback, also at the start."""
    try:
        # Inside, because importing takes a second, in which people press Ctrl-C.
        from wholeball.site.commands import run  # noqa: PLC0415

        run()
    except KeyboardInterrupt:
        sys.exit(STOPPED)
