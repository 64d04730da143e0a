"""What a person sees, as blocks that know nothing of the screen until they are laid out.

A page is compact first; blocks marked `more` come only when the baker asks for more. No line is wider than the screen
and no figure is parted from its unit.
"""

from __future__ import annotations

import re
import textwrap
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from typing import TypeAlias

from assistant.voice.width import gathered, spread

WIDTH = 72
"""Columns where nobody says how wide the screen is."""
_HARD = "\u00a0"
_UNITS = "%|g|kg|mg|ml|l|cm|mm|m|min|h|s|°C|°F|oz|lb|tsp|tbsp|cups?|points?|pieces?|hours?|minutes?|am|pm"
_FIGURE = re.compile(rf"(?<=\d)[ \u00a0](?=(?:{_UNITS})\b|%|°)")


@dataclass(frozen=True, slots=True)
class Line:
    """One paragraph. role: "plain", "head", "warn", "note" or "ask" (colour only; the words carry the meaning)."""

    text: str
    role: str = "plain"
    more: bool = False
    indent: int = 0


@dataclass(frozen=True, slots=True)
class Table:
    """Rows in columns. align: one of "l" and "r" a column; the first "l" column gives way on a narrow screen.

    wide: columns (by index) that are left out where the screen is too narrow for them.
    """

    rows: tuple[tuple[str, ...], ...]
    align: str
    heads: tuple[str, ...] = ()
    more: bool = False
    wide: tuple[int, ...] = ()
    total: bool = False  # the last row is a sum, set off by a rule
    role: str = "plain"


@dataclass(frozen=True, slots=True)
class Picture:
    """A drawing in characters, made for the width there is."""

    draw: Callable[[int], Sequence[str]]
    more: bool = False
    role: str = "plain"


Block: TypeAlias = Line | Table | Picture


@dataclass(frozen=True, slots=True)
class Page:
    """Blocks from top to bottom."""

    blocks: tuple[Block, ...] = ()

    @property
    def has_more(self) -> bool:
        return any(block.more for block in self.blocks)

    @property
    def rest(self) -> Page:
        """Only what was held back."""
        return Page(tuple(replace(block, more=False) for block in self.blocks if block.more))


def laid_out(page: Page, width: int | None = None, more: bool = False) -> tuple[tuple[str, str], ...]:
    """The page as (role, line) pairs, no line wider than `width` columns (at least 20)."""
    columns = max(20, width or WIDTH)
    out: list[tuple[str, str]] = []
    for block in page.blocks:
        if block.more and not more:
            continue
        if isinstance(block, Line):
            out.extend((block.role, line) for line in wrapped(block.text, columns, block.indent))
        elif isinstance(block, Table):
            out.extend((block.role, line) for line in _table(block, columns))
        else:
            out.extend((block.role, line[:columns]) for line in block.draw(columns))
    return tuple(out)


def rendered(page: Page, width: int | None = None, more: bool = False) -> str:
    """The page as plain text."""
    return "\n".join(line for _, line in laid_out(page, width, more))


def wrapped(text: str, columns: int, indent: int = 0) -> list[str]:
    """A paragraph in lines of at most `columns`; a figure stays with its unit, later lines are set in by two."""
    out: list[str] = []
    for paragraph in text.split("\n"):
        held = spread(_FIGURE.sub(_HARD, paragraph))
        lead = " " * indent
        lines = textwrap.wrap(
            held,
            columns,
            initial_indent=lead,
            subsequent_indent=lead + ("  " if columns > 24 else ""),
            break_long_words=True,
            break_on_hyphens=False,
        )
        out.extend(gathered(line.replace(_HARD, " ")) for line in lines or [""])
    return out


def _cell(text: str, width: int) -> list[str]:
    """A cell in lines of at most `width`, figures with their units."""
    lines = textwrap.wrap(_FIGURE.sub(_HARD, text), width, break_on_hyphens=False)
    return [line.replace(_HARD, " ") for line in lines] or [""]


def _table(table: Table, columns: int) -> list[str]:
    keep = list(range(len(table.align)))
    rows = [tuple(spread(cell) for cell in row) for row in (*((table.heads,) if table.heads else ()), *table.rows)]
    while True:
        widths = [max((len(row[i]) for row in rows if i < len(row)), default=0) for i in keep]
        room = columns - 2 * (len(keep) - 1)
        droppable = [i for i in keep if i in table.wide]
        if sum(widths) <= room or not droppable:
            break
        keep.remove(droppable[-1])
    excess = sum(widths) - room
    if excess > 0:
        first = next((n for n, i in enumerate(keep) if table.align[i] == "l"), 0)
        widths[first] = max(6, widths[first] - excess)
    out: list[str] = []
    for number, row in enumerate(rows):
        cells = [row[i] if i < len(row) else "" for i in keep]
        split = [_cell(cell, max(1, width)) for cell, width in zip(cells, widths, strict=True)]
        for k in range(max(len(parts) for parts in split)):
            line = "  ".join(
                (parts[k] if k < len(parts) else "").rjust(width)
                if table.align[i] == "r"
                else (parts[k] if k < len(parts) else "").ljust(width)
                for parts, width, i in zip(split, widths, keep, strict=True)
            )
            out.append(gathered(line.rstrip()[:columns]))
        if table.total and number == len(rows) - 2:
            out.append("-" * min(columns, sum(widths) + 2 * (len(keep) - 1)))
    return out
