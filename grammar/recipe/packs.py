"""Packs of a stated size: how many of them, and what each holds."""

from __future__ import annotations

from grammar.recipe.counted import Amount, Found, aside_at, counted
from grammar.recipe.tokens import Number, Piece, number_at
from grammar.recipe.units import qualified, range_end, unit_at
from grammar.recipe.words import RecipeWords

_EACH = ("each", "ea", "apiece")


def packs_at(line: tuple[Piece, ...], at: int, number: Number, known: RecipeWords) -> Found | None:
    """1 x 7g sachet, 2 x 400 g, 1 (14-oz) can, 1 14-oz can, 2 cans (400 g each); None where no pack is counted."""
    after = number.next
    if aside_at(line, at, number, known) is not None or range_end(line, after) is not None or after >= len(line):
        return None
    if line[after].says("x", "×"):
        return _size_before_pack(line, at, number, after + 1, known)
    if line[after].says("("):
        return _size_before_pack(line, at, number, after + 1, known, bracket=True)
    if line[after].kind == "number":
        return _size_before_pack(line, at, number, after, known)
    return _size_behind_pack(line, at, number, known)


def _size_before_pack(
    line: tuple[Piece, ...], at: int, number: Number, size_at: int, known: RecipeWords, bracket: bool = False
) -> Found | None:
    """1 x 7g sachet, 2 x 400 g, 1 (14-oz) can."""
    held = _held(line, size_at, known)
    if held is None:
        return None
    size, end = held
    if bracket:
        end = next((place for place in range(end, len(line)) if line[place].says(")")), len(line)) + 1
    if end < len(line) and line[end].text == "-":
        end += 1
    while end < len(line) and line[end].text.lower() in known.sizes:
        end += 1
    unit = unit_at(line, end, known)
    if unit is None or unit[0][1] != "count":
        if bracket or size_at == number.next:
            return None
        unit = (("each", "count"), held[1])
    return _packs(line, at, number, unit[0], size, unit[1])


def _size_behind_pack(line: tuple[Piece, ...], at: int, number: Number, known: RecipeWords) -> Found | None:
    """2 tins (400 g each); several cans of one stated size mean that size each."""
    unit = unit_at(line, qualified(line, number.next, known).next, known)
    if unit is None or unit[0][1] != "count" or unit[1] >= len(line) or not line[unit[1]].says("("):
        return None
    held = _held(line, unit[1] + 1, known)
    if held is None:
        return None
    size, close = held
    each = close < len(line) and line[close].says(*_EACH)
    close += each
    if close >= len(line) or not line[close].says(")") or not (each or (unit[0][0] == "can" and number.value > 1)):
        return None
    return _packs(line, at, number, unit[0], size, close + 1)


def _held(line: tuple[Piece, ...], at: int, known: RecipeWords) -> tuple[Amount, int] | None:
    """What one pack holds, a mass or a volume, and the piece after it."""
    number = number_at(line, at)
    found = counted(line, at, number, known) if number is not None else None
    if found is None or not isinstance(found.what, Amount) or found.what.dimension == "count":
        return None
    return found.what, found.next


def _packs(line: tuple[Piece, ...], at: int, number: Number, unit: tuple[str, str], size: Amount, end: int) -> Found:
    place = (line[at].start, line[end - 1].end)
    return Found(Amount(number.value, number.value, *unit, "", *place, pack=size), end)
