"""Lists every key that a rulebook can have, as lines or as the page of the reference."""

from dataclasses import asdict

from wholeball.rulebook.reference import KeyEntry, TableEntry, about_keys, reference


def keys_as_values() -> list[dict[str, str]]:
    """Return every key as plain values, for JSON."""
    return [asdict(key) for table in reference() for key in table.keys]


def keys_as_text() -> str:
    """Return every table and key as lines for the terminal."""
    return "\n".join(
        line
        for table in reference()
        for line in (
            f"[{table.table}]  {table.meaning}",
            *(f"    {key.key}: {key.allowed}" for key in table.keys),
        )
    )


def keys_as_markdown() -> str:
    """Return the page docs/reference/rulebook.md."""
    about = "\n".join(f"- `{key.key}`: {key.meaning}" for key in about_keys())
    return "\n".join([_HEAD.format(about=about), *map(_section, reference())])


_HEAD = """# The keys of a rulebook

This page is made by `wholeball rulebook keys --markdown`; a test holds it to the schema.

A rulebook is TOML. At the top stand `schema = 1`, `base` (an edition of the Laws, such as
`"laws-2025-26"`), `name` and `source`. Then come tables, each an article; what a rulebook does not
name stays as in the base edition. Lists are replaced, tables are laid over key by key. Lengths are
text with a unit (`"10 yd"`), or a pair as the Laws print them (`"9.15 m (10 yd)"`): a field measured
in yards takes the yards. `also` is a list of articles in words, each with `ref`, `title` and `text`.

Besides its own keys every table may have:

{about}

The last column is what the newest edition says; where the Laws leave a matter to the competition,
it is the neutral value that stands until a house decides.

"""


def _section(table: TableEntry) -> str:
    rows = [_row(key) for key in table.keys]
    return "\n".join(
        [
            f"## {table.table}",
            "",
            table.meaning,
            "",
            "| key | allowed | meaning | Laws |",
            "|---|---|---|---|",
            *rows,
            "",
        ]
    )


def _row(key: KeyEntry) -> str:
    return f"| `{key.key}` | {_cell(key.allowed)} | {_cell(key.meaning)} | {_cell(key.laws)} |"


def _cell(text: str) -> str:
    return text.replace("|", "\\|")
