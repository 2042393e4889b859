"""Takes the words that open something out of what is logged and noted."""

import logging
import re
from typing import Final

HIDDEN: Final = "[hidden]"
_SECRETS: Final = re.compile(
    r"(?P<before>(?P<slash>/|%2F)"
    r"(?:invitation|feeds|accounts(?P=slash)password(?P=slash)reset(?P=slash)key"
    r"|accounts(?P=slash)confirm-email)(?P=slash))"
    r"(?P<word>(?:(?!%2F)[^\s/?#\"'<>\\])+)",
    re.IGNORECASE,
)
"""The addresses of this site whose last word lets somebody in, also within another address."""


def masked(text: str) -> str:
    """Return a text in which no address opens anything."""
    return _SECRETS.sub(rf"\g<before>{HIDDEN}", text)


class HideWords(logging.Filter):
    """Lets every record through, without the words that open something."""

    def filter(self, record: logging.LogRecord) -> bool:
        """Mask the message with its parts, and the traceback; always true."""
        record.msg, record.args = masked(record.getMessage()), ()
        if record.exc_info and not record.exc_text:
            record.exc_text = logging.Formatter().formatException(record.exc_info)
        if record.exc_text:
            record.exc_text = masked(record.exc_text)
        return True
