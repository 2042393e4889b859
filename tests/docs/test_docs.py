"""The documentation says what the program does: keys, commands, links, and the README's steps."""

import os
import re
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest
import typer

from wholeball.planning.kinds import KINDS
from wholeball.rulebook.book import Rulebook, parts
from wholeball.site.commands import app
from wholeball.usecases.list_articles import articles_as_markdown
from wholeball.usecases.list_keys import keys_as_markdown

ROOT = Path(__file__).resolve().parents[2]
PAGES = sorted([*ROOT.glob("*.md"), *ROOT.glob("docs/**/*.md"), *ROOT.glob("examples/**/*.md")])
LINK = re.compile(r"\]\((?!https?:)([^)#]+)")


def test_the_reference_of_keys_is_what_the_schema_says() -> None:
    written = (ROOT / "docs/reference/rulebook.md").read_text(encoding="utf-8")
    assert written == keys_as_markdown()


def test_the_reference_of_rulings_is_what_the_facts_and_articles_say() -> None:
    written = (ROOT / "docs/reference/rulings.md").read_text(encoding="utf-8")
    assert written == articles_as_markdown()


def test_the_reference_of_keys_has_a_heading_for_each_table() -> None:
    written = (ROOT / "docs/reference/rulebook.md").read_text(encoding="utf-8")
    headings = re.findall(r"^## (.+)$", written, re.MULTILINE)
    assert [name for name in headings if "." not in name] == list(parts(Rulebook))


def test_the_reference_of_commands_names_each_command_once() -> None:
    written = (ROOT / "docs/reference/commands.md").read_text(encoding="utf-8")
    named = re.findall(r"^\| `wholeball ([a-z -]+?)(?= [A-Z\[]|`)", written, re.MULTILINE)
    assert sorted(named) == sorted(_commands(app, ""))


@pytest.mark.parametrize("page", PAGES, ids=lambda page: str(page.relative_to(ROOT)))
def test_every_link_of_a_page_leads_somewhere(page: Path) -> None:
    targets = LINK.findall(page.read_text(encoding="utf-8"))
    assert [target for target in targets if not (page.parent / target).exists()] == []


def test_the_ten_minutes_of_the_readme_work_as_written(tmp_path: Path) -> None:
    text = (ROOT / "README.md").read_text(encoding="utf-8")
    steps = text[text.index("## Ten minutes") : text.index("## More")]
    steps = steps.replace(
        "Put the old values back.",
        "```sh\nsed -i 's/left = 60 }/left = 12 }/' tuesday/rulebook.toml\n```",
    ).replace(
        "\nThen:\n",
        "\n```sh\nsed -i '/^\\[mercy\\]/,/^\\[ties\\]/s/lead = 8, minutes_left = 12/"
        "lead = 8, minutes_left = 60/' tuesday/rulebook.toml\n```\n",
    )
    script = "\n".join(_shell(steps)).replace(".venv/bin/wholeball", "wholeball")
    told = _run(script, tmp_path)
    shown = [line for block in _blocks(steps) for line in block if line.strip() != "..."]
    assert [line for line in shown if line not in told] == []
    assert (tmp_path / "booklet.pdf").read_bytes().startswith(b"%PDF")
    assert (tmp_path / "tuesday-pages" / "index.html").is_file()


def _commands(group: typer.Typer, prefix: str) -> Iterator[str]:
    for command in group.registered_commands:
        assert command.callback is not None
        yield f"{prefix}{command.name or command.callback.__name__}"
    for inner in group.registered_groups:
        assert inner.typer_instance is not None
        yield from _commands(inner.typer_instance, f"{inner.name} ")


def _shell(steps: str) -> list[str]:
    return re.findall(r"^```sh\n(.*?)\n```$", steps, re.DOTALL | re.MULTILINE)


def _blocks(steps: str) -> list[list[str]]:
    told = re.findall(r"^```(\w*)\n(.*?)\n```$", steps, re.DOTALL | re.MULTILINE)
    return [block.split("\n") for language, block in told if not language]


def _run(script: str, folder: Path) -> str:
    path = f"{Path(sys.executable).parent}{os.pathsep}{os.environ['PATH']}"
    done = subprocess.run(  # noqa: S603 - the script is the README's own
        ["bash", "-c", script],  # noqa: S607 - any bash will do
        cwd=folder,
        env={**os.environ, "PATH": path, "COLUMNS": "100"},
        capture_output=True,
        text=True,
        check=False,
    )
    return done.stdout + done.stderr


def test_the_reference_of_timetable_rules_names_each_kind_with_its_parameters() -> None:
    written = (ROOT / "docs/reference/planning.md").read_text(encoding="utf-8")
    rows = re.findall(r"^\| `([a-z_]+)` \| (.*?) \| (.*?) \|", written, re.MULTILINE)
    told = {kind: (set(re.findall(r"`(\w+)`", keys)), can) for kind, keys, can in rows}
    assert {kind: can for kind, (_, can) in told.items()} == {
        kind: ", ".join(entry.strengths) for kind, entry in KINDS.items()
    }
    for kind, entry in KINDS.items():
        fields = {field.alias or name for name, field in entry.params.model_fields.items()}
        assert told[kind][0] == fields, kind
