"""Everything the README shows is what the program does.

Where an answer's wording was changed on purpose: `BENCHSIDE_REWRITE=1 pytest tests/e2e/test_readme.py` writes the
README's replies anew, to be looked through like any other change.
"""

from __future__ import annotations

import os
import re
import shlex
import subprocess
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from assistant.command.options import HELP

if TYPE_CHECKING:
    from conftest import Bakery

README = Path(__file__).parents[2] / "README.md"
DEVELOPERS = README.with_name("DEVELOPERS.md")
NOW = "2026-03-14T07:30"
REWRITE = os.environ.get("BENCHSIDE_REWRITE") == "1"
_PART = re.compile(r"<!-- at (?P<now>[\d:T-]+) -->|```(?P<kind>\w+)\n(?P<body>.*?)```", re.S)


@dataclass(frozen=True)
class Talk:
    """One block of talk: the clock, where it stands in the README, what is typed and what is answered."""

    now: str
    start: int
    end: int
    said: tuple[str, ...]
    shown: str


def blocks(kind: str) -> list[str]:
    return [part["body"] for part in _PART.finditer(README.read_text(encoding="utf-8")) if part["kind"] == kind]


def talks() -> Iterator[Talk]:
    now = NOW
    for part in _PART.finditer(README.read_text(encoding="utf-8")):
        now = part["now"] or now
        if part["kind"] == "text":
            said = tuple(line[2:] for line in part["body"].splitlines() if line.startswith("> "))
            yield Talk(now, part.start("body"), part.end("body"), said, part["body"])


def test_the_tour_is_what_is_answered(bakery: Bakery) -> None:
    """All blocks of talk are one conversation, as they are for who reads them."""
    written = README.read_text(encoding="utf-8")
    rewritten = written
    wrong = []
    for talk in reversed(list(zip(talks(), _answered(bakery), strict=True))):
        block, answered = talk
        if answered != block.shown:
            wrong.append((block.shown, answered))
        rewritten = rewritten[: block.start] + answered + rewritten[block.end :]
    if REWRITE:
        README.write_text(rewritten, encoding="utf-8")
    else:
        for shown, answered in wrong:
            assert answered == shown


def _answered(bakery: Bakery) -> Iterator[str]:
    for talk in talks():
        done = bakery.call("--json", lines="\n".join(talk.said), now=talk.now)
        assert done.status in (0, 2) and done.err == ""
        pairs = zip(talk.said, done.replies, strict=True)
        yield "\n".join(f"> {line}\n{reply['text']}\n" for line, reply in pairs)


def test_there_is_a_tour() -> None:
    assert sum(len(talk.said) for talk in talks()) >= 8


def test_the_two_commands_set_everything_up(bakery: Bakery) -> None:
    first, second = blocks("sh")
    venv, install, ask = first.strip().split(" && ")
    assert venv == "python3 -m venv .venv" and install == ".venv/bin/pip install ."
    program, request = shlex.split(ask)
    assert program == ".venv/bin/benchside"
    (reply,) = bakery.call("--json", request).replies
    assert reply["kind"] == "formula" and reply["unread"] == []
    assert second.strip() == ".venv/bin/pip install '.[test]' && .venv/bin/pytest"


@pytest.mark.parametrize("block", blocks("console"))
def test_what_is_shown_of_a_shell_is_what_it_prints(bakery: Bakery, block: str, tmp_path: Path) -> None:
    lines = block.splitlines()
    command = [lines[0].removeprefix("$ ")]
    rest = lines[1:]
    while rest and rest[0].startswith("> "):
        command.append(rest.pop(0)[2:])
    folder = tmp_path / "bin"
    folder.mkdir()
    stand_in = folder / "benchside"
    stand_in.write_text(f'#!/bin/sh\nexec {shlex.join(bakery.command("--now", NOW))} "$@"\n')
    stand_in.chmod(0o755)
    path = f"{folder}:{os.environ['PATH']}"
    script = "\n".join(command)
    done = subprocess.run(
        ["sh", "-c", script], capture_output=True, text=True, env=bakery.environment(PATH=path), timeout=60
    )
    assert done.stdout.splitlines() == rest and done.stderr == ""


def test_the_options_of_the_readme_are_those_of_the_command() -> None:
    named = set(re.findall(r"--[a-z]+", README.read_text(encoding="utf-8"))) - {"--version"}
    assert named == set(re.findall(r"--[a-z]+", HELP)) - {"--version"}


def test_the_ingredient_shown_to_developers_is_understood_as_it_stands(bakery: Bakery) -> None:
    """Put where a baker's own facts live, which take the same form."""
    (shown,) = (part["body"] for part in _PART.finditer(DEVELOPERS.read_text("utf-8")) if part["kind"] == "yaml")
    path = bakery.home / shown.splitlines()[0].removeprefix("# ")
    path.parent.mkdir(parents=True)
    path.write_text(shown, encoding="utf-8")
    done = bakery.call("--json", "18 rolls of 90 g at 65 %, 8 % club mix")
    (reply,) = done.replies
    assert done.err == "" and reply["unread"] == []
    assert [row["pct"] for row in reply["answer"]["mix"] if row["item"] == "club_seed_mix"] == [pytest.approx(8)]
    assert any("sesame" in caution for caution in reply["cautions"])


def test_every_file_and_folder_the_developers_notes_name_is_there() -> None:
    root = DEVELOPERS.parent
    named = re.findall(r"`((?:assistant|grammar|knowledge|tests|\.ci)/[\w./]*)`", DEVELOPERS.read_text("utf-8"))
    assert len(named) > 15
    assert [name for name in named if not (root / name).exists()] == []
