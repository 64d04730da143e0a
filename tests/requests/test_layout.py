"""What a person sees of every table's first phrasing: no line wider than the screen, no figure parted from its unit,
compact first."""

from __future__ import annotations

import re
from collections.abc import Iterator
from datetime import datetime
from pathlib import Path
from typing import Any

import pytest
import yaml

from assistant.notebook import Notebook
from assistant.talk.conversation import Conversation
from assistant.voice.page import laid_out
from knowledge import Knowledge, load

HERE = Path(__file__).parent
NOW = datetime(2026, 3, 14, 7, 30)
SPLIT = re.compile(r"\d$")
UNIT = re.compile(r"^\s*(?:%|g|kg|ml|cm|min|°C|°F)(?:\W|$)")
DRAWN_LINES = 14  # a drawing was asked for and fills what it needs, less than a screen
COMPACT_LINES, COMPACT_WIDTH = 8, 80
BESIDE_ROWS = 4  # the line above the rows, and three more


def first_lines() -> Iterator[Any]:
    for path in sorted(HERE.glob("*.yaml")):
        for case in yaml.safe_load(path.read_text(encoding="utf-8")) or []:
            line = case["say"] if isinstance(case["say"], str) else case["say"][0]
            yield pytest.param(case, line, id=f"{path.stem}: {line[:60]}")


@pytest.fixture(scope="session")
def kb() -> Knowledge:
    return load()


@pytest.mark.parametrize(("case", "line"), list(first_lines()))
def test_the_page_fits_and_is_short(case: dict[str, Any], line: str, kb: Knowledge) -> None:
    now = case.get("now", NOW)
    now = now if isinstance(now, datetime) else datetime.fromisoformat(str(now))
    talk = Conversation(kb, Notebook.in_memory(), now=lambda: now)
    for earlier in case.get("given", []):
        talk.reply(earlier)
    reply = talk.reply(line)
    for width in (30, 40, 60, 100):
        lines = reply.render(width, more=True).split("\n")
        for one, following in zip(lines, [*lines[1:], ""], strict=True):
            assert len(one) <= width, f"{len(one)} columns at {width}: {one!r}"
            parted = bool(SPLIT.search(one)) and bool(UNIT.match(following))
            assert not parted or "  " in following.strip(), f"parted at {width}: {one!r} / {following!r}"
    shown = [text for role, text in laid_out(reply.page, COMPACT_WIDTH) if role != "warn"]
    rows = len(reply.answer["mix"]) + BESIDE_ROWS if reply.kind == "formula" else COMPACT_LINES
    rows += len(reply.answer.get("lines", ()))  # a recipe is answered line by line
    if reply.kind == "plan" and "doughs" in reply.answer:  # each dough has its rows by the clock
        rows = COMPACT_LINES * len(reply.answer["doughs"]) + BESIDE_ROWS
    if reply.read_as.startswith("what is to be done"):  # each step of the time asked about
        rows = len(reply.answer["steps"]) + BESIDE_ROWS
    if "moved too, by itself" in reply.render():  # another dough of the occasion, with its own rows
        rows += COMPACT_LINES
    if "places" in reply.answer:  # what stands at each place of a class, and what goes home
        rows += COMPACT_LINES
    if "of work between" in reply.render():  # nobody is got up in the night without being told
        rows += 1
    rows *= max(1, sum(line.startswith("back to ") for line in reply.render().split("\n")))  # each dough of a report
    if "not ready by" in reply.render():  # what was wished and cannot be stands before what was assumed
        rows += 1
    if reply.read_as.startswith("drawn: "):
        rows = DRAWN_LINES
    assert len(shown) <= rows, "\n".join(shown)
