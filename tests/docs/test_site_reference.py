"""The reference of the site names every variable that it reads, and no other."""

import re
from pathlib import Path
from typing import Final

ROOT: Final = Path(__file__).resolve().parents[2]
VARIABLE: Final = re.compile(r"\b(?:WHOLEBALL_[A-Z_]*[A-Z]|DATABASE_URL)\b")
PREFIX: Final = "WHOLEBALL_MAIL_"
OF_MAIL: Final = re.compile(r'said(?:\.get\(|\[)"([A-Z]+)"')


def read(*names: str) -> str:
    return "\n".join((ROOT / "src/wholeball/site" / one).read_text("utf-8") for one in names)


def test_every_variable_that_the_site_reads_stands_in_its_table_and_no_other() -> None:
    written = (ROOT / "docs/reference/site.md").read_text("utf-8")
    rows = [line for line in written.splitlines() if line.startswith("| `")]
    named = {one for row in rows for one in VARIABLE.findall(row.split("|")[1])}
    given = set(VARIABLE.findall(read("environment.py")))
    mail = {f"{PREFIX}{one}" for one in OF_MAIL.findall(read("mail_server.py"))}
    assert len(mail) == 6
    assert named == given | mail
