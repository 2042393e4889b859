"""Changes a TOML file of a season by some of its keys; comments, order and all else stay."""

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
    try:
        document = tomlkit.parse(data.decode())
        change(document)
        return tomlkit.dumps(document).encode()
    except (TOMLKitError, TypeError, AttributeError) as error:
        raise WholeballError(
            f"{what} cannot be changed without the rest in {file}.",
            fix="Change the file, and import the season again.",
            code="syntax",
        ) from error
