"""A whole recipe as text: which lines are ingredients, what it yields, how hot and how long it bakes.

Method text is left aside without complaint; lines under a heading of ingredients are all kept, read or not, so that
nothing that might belong into the bowl is lost in silence.
"""

from __future__ import annotations

from dataclasses import dataclass, field, replace

from grammar.recipe.headings import heads_a_list, section_of, title_like
from grammar.recipe.line import IngredientLine, read_lines
from grammar.recipe.makes import YIELD, Yield, yield_said
from grammar.recipe.oven import OvenSaid, bake_minutes, oven_said, tells_times, total_minutes
from grammar.recipe.plain import PlainLine, plain_line
from grammar.recipe.rows import ingredients_of, measures_something
from grammar.recipe.words import RecipeWords

MOST_LINES = 1200
"""Lines of a paste that are looked at."""
MOST_INGREDIENTS = 150
"""Ingredient lines kept; no home recipe has more."""


@dataclass(frozen=True, slots=True)
class Sheet:
    """A recipe as read. aside: how many lines of method and remarks were left aside."""

    title: str = ""
    lines: tuple[IngredientLine, ...] = ()
    makes: Yield | None = None
    oven: OvenSaid | None = None
    bake_min: tuple[float, float] | None = None
    total_min: float | None = None
    aside: int = 0
    cut_short: bool = False


def read_sheet(text: str, known: RecipeWords) -> Sheet:
    """The recipe in a text of several lines."""
    raw = text.splitlines()
    rows = [row for row in raw[:MOST_LINES] if row.strip()]
    plain = [(row, line) for row in rows if (line := plain_line(row)).text]
    headed = any(heads_a_list(row) and section_of(row, known) == "ingredients" for row in rows)
    read = _Read(known, headed)
    for row, line in plain:
        read.tell(line.text)
        read.take(row, line)
        if len(read.lines) >= MOST_INGREDIENTS:
            break
    lines = tuple(read.lines[:MOST_INGREDIENTS])
    return Sheet(
        read.title, lines, read.makes, read.oven, read.bake_min, read.total_min, read.aside, len(raw) > MOST_LINES
    )


@dataclass
class _Read:
    """A sheet while its rows are read. headed: a heading says where ingredients stand; section: the one read now."""

    known: RecipeWords
    headed: bool
    section: str = "unsaid"
    title: str = ""
    aside: int = 0
    lines: list[IngredientLine] = field(default_factory=list)
    makes: Yield | None = None
    oven: OvenSaid | None = None
    bake_min: tuple[float, float] | None = None
    total_min: float | None = None

    def tell(self, text: str) -> None:
        """What a row tells of oven, times and yield, the first of each."""
        self.oven = self.oven or oven_said(text)
        self.bake_min = self.bake_min or bake_minutes(text)
        self.makes = self.makes or yield_said(text, strict=True)
        self.total_min = self.total_min or total_minutes(text)

    def take(self, row: str, line: PlainLine) -> None:
        """A row in its place: a heading, the title, the yield, times, ingredients or method."""
        named = section_of(row, self.known)
        if named is not None:
            self.section = named
        elif self.makes is not None and self.makes.said == line.text:
            if not self.title and not self.lines and not YIELD.match(line.text):
                self.title = line.text  # what it makes stands in brackets behind its name
        elif self._opens(row, line):
            if not row.lstrip().startswith("|"):
                self.title = line.text
        elif not tells_times(line.text):
            self._take_ingredients(row, line)

    def _opens(self, row: str, line: PlainLine) -> bool:
        """Whether a row is the title: the first of all that measures nothing."""
        if self.title or self.lines or self.section != "unsaid" or line.bullet or tells_times(line.text):
            return False
        return title_like(line.text) and not any(measures_something(one) for one in read_lines(row, self.known))

    def _take_ingredients(self, row: str, line: PlainLine) -> None:
        kept = ingredients_of(row, line, self.section, self.headed, self.known)
        if kept is None:
            self.aside += not line.heading
            return
        self.lines += (
            [replace(one, part=self.section) for one in kept] if self.section in ("build", "outside") else kept
        )
