"""Changes a TOML file of a season by some of its keys; comments, order and all else stay."""

from codecs import BOM_UTF8
from collections.abc import Callable

import tomlkit
from tomlkit.exceptions import TOMLKitError
from tomlkit.toml_document import TOMLDocument

from wholeball.kernel.faults import WholeballError


def edited(
    data: bytes, change: Callable[[TOMLDocument], None], *, what: str, file: str
) -> bytes:
    """Return a file as it is once its document was changed; `what` says of what, as a subject.

    Raises:
        WholeballError: the file does not let this be written without the rest.
    """

    def changed(text: bytes) -> bytes:
        document = tomlkit.parse(text.decode())
        change(document)
        return tomlkit.dumps(document).encode()

    try:
        return behind_mark(data, changed)
    except (TOMLKitError, TypeError, AttributeError) as error:
        raise refused_edit(what, file) from error


def behind_mark(data: bytes, change: Callable[[bytes], bytes]) -> bytes:
    """Return a file with its text changed; the mark with which some editors begin one stays."""
    text = data.removeprefix(BOM_UTF8)
    return data[: len(data) - len(text)] + change(text)


def refused_edit(what: str, file: str) -> WholeballError:
    """Return what refuses a change that would not leave the rest of a file as it stands."""
    return WholeballError(
        f"{what} cannot be changed without the rest in {file}.",
        fix="Change the file, and import the season again.",
        code="syntax",
    )
