"""What a number of a recipe line measures: an amount of the ingredient, or something that measures none."""

from __future__ import annotations

from dataclasses import dataclass, replace

from grammar.recipe.tokens import Number, Piece, number_at, part_joined
from grammar.recipe.units import measures_else, qualified, range_end, unit_at
from grammar.recipe.words import RecipeWords


@dataclass(frozen=True, slots=True)
class Amount:
    """One amount as said.

    low, high: the number, twice where no range was said. unit: a measure's id. size: small, medium, large, jumbo.
    manner: scant, heaped, generous, level. pack: what one of the counted things holds ("1 (14-oz) can").
    system: the cup system where the line names one. start, end: the place in the line.
    """

    low: float
    high: float
    unit: str
    dimension: str
    said: str
    start: int
    end: int
    size: str | None = None
    manner: str | None = None
    pack: Amount | None = None
    system: str | None = None
    about: bool = False
    bare: bool = False  # a count without any measure's name: "3 eggs"

    @property
    def middle(self) -> float:
        return (self.low + self.high) / 2


@dataclass(frozen=True, slots=True)
class Aside:
    """A number that measures no ingredient: a temperature, a time, a length, a percentage."""

    start: int
    end: int


@dataclass(frozen=True, slots=True)
class Found:
    """What stands at a piece, and the piece after it."""

    what: Amount | Aside
    next: int


def aside_at(line: tuple[Piece, ...], at: int, number: Number, known: RecipeWords) -> Found | None:
    """The number, or the range it begins, as one that measures no ingredient; None where it may measure one."""
    after, value = number.next, number.value
    second = range_end(line, after)
    if not measures_else(line, after, value, known):
        if second is None or not measures_else(line, second.next, second.value, known):
            return None
        after = second.next
    end = min(after, len(line) - 1)
    return Found(Aside(line[at].start, line[end].end), end + 1)


def counted(line: tuple[Piece, ...], at: int, number: Number, known: RecipeWords) -> Found | None:
    """What the number at a piece measures, packs of a stated size aside; None where it is no amount."""
    aside = aside_at(line, at, number, known)
    if aside is not None:
        return aside
    low, high, after = number.value, number.value, number.next
    second = range_end(line, after)
    if second is not None:
        low, high, after = min(low, second.value), max(low, second.value), second.next
    measured = _measured(line, at, low, high, after, known)
    if measured is not None:
        return (_range_with_units(line, measured, known) if second is None else None) or measured
    if number.article and after < len(line) and line[after].says("little", "bit", "few", "touch", "drop"):
        return None  # "a little oil" is no amount
    if number.article or number.fraction:
        return _piece_of(line, at, number, after, known)
    if after < len(line) and line[after].says("/", ".", ":") and line[after].glued:
        return Found(Aside(line[at].start, line[after].end), after + 1)
    words = qualified(line, after, known)
    end = words.next if words.size else after
    place = (line[at].start, line[end - 1].end)
    return Found(Amount(low, high, "each", "count", "", *place, size=words.size, manner=words.manner, bare=True), end)


def _measured(
    line: tuple[Piece, ...], at: int, low: float, high: float, after: int, known: RecipeWords
) -> Found | None:
    """The number with the measure behind it; None where no measure is named."""
    words = qualified(line, after, known)
    size = words.size
    unit = unit_at(line, words.next, known)
    if unit is None and words.next > after:  # "2 big spoons": the size is part of the measure's name
        unit, size = unit_at(line, after, known), None
    if unit is None:
        return None
    (name, dimension), end = unit
    more, end = part_behind(line, end, known)
    place = (line[at].start, line[end - 1].end)
    ends = (low + more, high + more)
    amount = Amount(*ends, name, dimension, "", *place, size=size, manner=words.manner, system=words.system)
    return Found(amount, end)


def part_behind(line: tuple[Piece, ...], at: int, known: RecipeWords) -> tuple[float, int]:
    """The part of one more that goes on behind a measure, and the piece after it; a part of a measure of its own
    ("and 1/2 tsp") is none."""
    part = part_joined(line, at)
    its_own = part is not None and unit_at(line, part.next, known) is not None
    return (0.0, at) if part is None or its_own else (part.value, part.next)


def _piece_of(line: tuple[Piece, ...], at: int, number: Number, after: int, known: RecipeWords) -> Found | None:
    """ "an egg", "half a lemon", "1/2 onion": a count only where an ingredient's name follows."""
    words = qualified(line, after, known)
    if words.next >= len(line) or line[words.next].kind != "word":
        return None
    first = line[words.next].text.lower()
    if first not in known.longest and first.rstrip("s") not in known.longest:
        return None
    place = (line[at].start, line[words.next - 1].end)
    amount = Amount(number.value, number.value, "each", "count", "", *place, size=words.size, bare=True)
    return Found(amount, words.next)


def _range_with_units(line: tuple[Piece, ...], first: Found, known: RecipeWords) -> Found | None:
    """480g to 510g."""
    at, amount = first.next, first.what
    if at + 1 >= len(line) or not line[at].says("-", "–", "to") or not isinstance(amount, Amount):
        return None
    second = number_at(line, at + 1)
    unit = unit_at(line, second.next, known) if second is not None and not second.article else None
    if second is None or unit is None or unit[0][0] != amount.unit or second.value < amount.low:
        return None
    return Found(replace(amount, high=second.value, end=line[unit[1] - 1].end), unit[1])
