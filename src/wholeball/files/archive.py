"""Refuses an archive that is not what it seems, before anything of it is unpacked."""

import io
import struct
import zipfile
import zlib
from typing import Final
from xml.etree.ElementTree import ParseError

from defusedxml.common import DefusedXmlException
from defusedxml.ElementTree import DefusedXMLParser

from wholeball.kernel.faults import Fault, InputFaults, Place
from wholeball.kernel.refusals import toml_text

MOST_PACKED: Final = 10_000_000
MOST_UNPACKED: Final = 50_000_000
MOST_RATIO: Final = 100
MOST_MEMBERS: Final = 500
DAMAGED: Final = (
    zipfile.BadZipFile,
    zlib.error,
    EOFError,
    NotImplementedError,  # a way of packing that Python does not know
    RuntimeError,  # a password is asked for
    OSError,  # a place in the file that it does not have
    ValueError,  # the same, before its start
    struct.error,  # a field that is cut off
)
"""What Python says of an archive that cannot be unpacked."""
_STARTS: Final = (b"PK\x03\x04", b"PK\x05\x06")
_PIECE: Final = 1 << 16
_SAVE: Final = "Save it again as an .xlsx workbook without a password, or as CSV in UTF-8."


def is_archive(data: bytes) -> bool:
    """Tell whether bytes are a ZIP archive by how they start, whatever the file is called."""
    return data.startswith(_STARTS)


def bounded_archive(data: bytes, *, file: str) -> None:
    """Let an archive pass that is within the bounds, names no path outside, and has no DTD.

    Sizes are those the archive states; Python unpacks no more of a member than is stated.

    Raises:
        InputFaults: limits, path, zip_bomb, xml_entity, or syntax where it is damaged.
    """
    if len(data) > MOST_PACKED:
        says = f"the file has more than {MOST_PACKED:,} bytes."
        raise refused("limits", file, says, "Save the one sheet that is needed.")
    try:
        with zipfile.ZipFile(io.BytesIO(data)) as archive:
            _bound(archive.infolist(), packed=len(data), file=file)
            for member in archive.infolist():
                _refuse_document_type(archive, member, file=file)
    except DAMAGED as error:
        raise damaged(file) from error


def refused(code: str, file: str, says: str, cure: str) -> InputFaults:
    """Return a refusal of a file as a whole."""
    return InputFaults([Fault(code=code, place=Place(file=file), says=says, cure=cure)])


def damaged(file: str) -> InputFaults:
    """Return the refusal of a file that cannot be read to its end."""
    return refused("syntax", file, "the workbook is damaged, or has a password.", _SAVE)


def _bound(members: list[zipfile.ZipInfo], *, packed: int, file: str) -> None:
    if len(members) > MOST_MEMBERS:
        says = f"the file packs {len(members):,} files; at most {MOST_MEMBERS}."
        raise refused("limits", file, says, "Save the one sheet that is needed.")
    for member in members:
        if is_outside(member.filename):
            says = f"it packs {toml_text(member.filename)}, a path outside the archive."
            raise refused("path", file, says, "Do not open it; ask whoever sent it.")
    unpacked = sum(member.file_size for member in members)
    if unpacked > MOST_UNPACKED or unpacked > MOST_RATIO * packed:
        says = (
            f"{packed:,} bytes would unpack to {unpacked:,}; at most {MOST_UNPACKED:,}, and "
            f"{MOST_RATIO} times the file."
        )
        raise refused("zip_bomb", file, says, "Do not open it; ask whoever sent it.")


def is_outside(name: str) -> bool:
    """Tell whether a path of an archive leads out of it."""
    parts = name.replace("\\", "/").split("/")
    return ".." in parts or parts[0] == "" or ":" in parts[0]


def _refuse_document_type(
    archive: zipfile.ZipFile, member: zipfile.ZipInfo, *, file: str
) -> None:
    """Read a member as XML for a document type; what is no XML has none."""
    parser = DefusedXMLParser(target=_Nothing(), forbid_dtd=True)
    try:
        with archive.open(member) as unpacked:
            while piece := unpacked.read(_PIECE):
                parser.feed(piece)
    except ParseError:
        return
    except DefusedXmlException as error:
        says = (
            f"{toml_text(member.filename)} has a document type, which can pull in other files."
        )
        raise refused("xml_entity", file, says, _SAVE) from error


class _Nothing:
    """Builds nothing of what a parser reads."""
