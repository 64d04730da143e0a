"""Whole screens at three widths, as they are drawn: a change of wording or layout shows up as a change of these files.

To write them anew after one that was meant: `BENCHSIDE_REWRITE=1 pytest tests/terminal/test_screens.py`.
"""

from __future__ import annotations

import os
import re
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

if TYPE_CHECKING:
    from conftest import Open

SCREENS = Path(__file__).parent / "screens"
REWRITE = os.environ.get("BENCHSIDE_REWRITE") == "1"
SAID = (
    "24 ring rolls of 85 g at 58 %, 18 % starter, 1 % malt",
    "more",
    "coxswain 12 % of the slipway",
    "and at 3000 %?",
    "set kitchen to 9 C",
)
# A figure at the end of a line and its unit at the beginning of the next.
PARTED = re.compile(r"\d\n\s*(?:%|g|kg|ml|l|cm|min|h|°C|°F)(?:\W|$)")


@pytest.mark.parametrize("columns", [40, 60, 100])
def test_the_screens_are_as_they_were_looked_at(open_desk: Open, columns: int) -> None:
    desk = open_desk(columns=columns, rows=80)
    for line in SAID:
        desk.say(line)
    desk.wait(lambda: "9 °C" in desk.lines[-1], "the kitchen on the quiet line")
    first = desk.text
    desk.type("\x04")
    assert desk.ended() == 0
    again = open_desk(columns=columns, rows=12)
    again.ready()
    again.wait(lambda: "9 °C" in again.lines[-1], "the quiet line")
    drawn = f"{first}\n{'=' * columns}\n{again.text}\n"
    assert max(len(line) for line in drawn.splitlines()) <= columns
    assert PARTED.findall(drawn) == []
    kept = SCREENS / f"{columns}.txt"
    if REWRITE:
        kept.parent.mkdir(exist_ok=True)
        kept.write_text(drawn, encoding="utf-8")
    assert drawn == kept.read_text(encoding="utf-8")
