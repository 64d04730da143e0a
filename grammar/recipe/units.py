"""What stands behind a number of a recipe line: a measure, its size and filling, a range, or something else."""

from __future__ import annotations

from dataclasses import dataclass

from grammar.recipe.tokens import Number, Piece, number_at
from grammar.recipe.words import RecipeWords

_MORE = ("extra", "very", "x")
_LARGE = ("large", "big")
_CUT = ("cubes", "pieces", "piece", "slices", "thick")


@dataclass(frozen=True, slots=True)
class Qualified:
    """What stands between a number and its measure: size, manner and cup system, and the piece after them."""

    next: int
    size: str | None = None
    manner: str | None = None
    system: str | None = None


def qualified(line: tuple[Piece, ...], at: int, known: RecipeWords) -> Qualified:
    """Size, manner and cup system between a number and its unit: "2 heaped US tbsp", "3 extra-large"."""
    size = manner = system = None
    start = at
    while at < len(line):
        word = line[at].text.lower()
        if word in known.manners and word not in known.sizes:
            manner = known.manners[word]
        elif word in known.systems:
            system = known.systems[word]
        elif word in _MORE and at + 1 < len(line) and _after_hyphen(line, at + 1).says(*_LARGE):
            size, at = "extra large", at + (2 if line[at + 1].text == "-" else 1)
        elif word in known.sizes:
            size = known.sizes[word]
        elif not (word == "-" and at == start and at + 1 < len(line) and line[at + 1].glued):
            break
        at += 1
    return Qualified(at, size, manner, system)


def _after_hyphen(line: tuple[Piece, ...], at: int) -> Piece:
    return line[at + 1] if line[at].text == "-" and at + 1 < len(line) else line[at]


def unit_at(line: tuple[Piece, ...], at: int, known: RecipeWords) -> tuple[tuple[str, str], int] | None:
    """The measure named at a piece, the longest name first, and the piece after it and its full stop."""
    if at >= len(line):
        return None
    for count in (3, 2, 1):
        words: list[str] = []
        end = at
        while len(words) < count and end < len(line) and line[end].kind == "word":
            words.append(line[end].text)
            end += 1
            if end < len(line) and line[end].says(".") and line[end].glued:
                end += 1
        unit = known.unit(" ".join(words)) if len(words) == count else None
        if unit is not None:
            if end < len(line) and line[end - 1].kind == "word" and line[end].text == "." and line[end].glued:
                end += 1
            return unit, end
    return None


def range_end(line: tuple[Piece, ...], at: int) -> Number | None:
    """The number after "-", "–" or "to"."""
    if at + 1 < len(line) and line[at].says("-", "–", "to", "or"):
        second = number_at(line, at + 1)
        if second is not None and not second.article:
            return second
    return None


def measures_else(line: tuple[Piece, ...], at: int, value: float, known: RecipeWords) -> bool:
    """Does the number before this piece measure heat, time, length, a share or the like?"""
    if at >= len(line):
        return False
    piece = line[at]
    if piece.text == "-" and piece.glued and at + 1 < len(line) and line[at + 1].glued:
        piece = line[at + 1]
    word = piece.text.lower()
    following = line[at + 1] if at + 1 < len(line) else None
    if word in ("x", "×"):
        return following is None or following.kind != "number"
    if word == "in":  # inches where a cut is told, else a place
        return piece.glued or (following is not None and following.says(".", *_CUT))
    if word in known.asides:
        return True
    return piece.text in ("F", "C") and (value >= 30 or (piece.glued and value >= 20))
