"""The amounts of a line in their places, and those of them that are its first ingredient's."""

from __future__ import annotations

import re
from dataclasses import dataclass

from grammar.recipe.amounts import amount_at
from grammar.recipe.counted import Amount, Aside
from grammar.recipe.names import naming
from grammar.recipe.tokens import Piece
from grammar.recipe.words import RecipeWords

_OR_LEFT = re.compile(r"\(?\s*\bor\s*$", re.I)


@dataclass(frozen=True, slots=True)
class Placed:
    """An amount with the pieces it takes up and how deep in brackets it stands."""

    amount: Amount
    first: int
    next: int
    depth: int


def amounts_in(
    line: tuple[Piece, ...], text: str, known: RecipeWords, all_counts: bool = False
) -> tuple[tuple[Placed, ...], tuple[Aside, ...]]:
    """The amounts and other numbers of a line; a bare number beside real measures is kept only with `all_counts`."""
    placed: list[Placed] = []
    asides: list[Aside] = []
    at = depth = 0
    while at < len(line):
        found = None if _lettered(line, at) else amount_at(line, at, text, known)
        if found is None:
            depth = max(0, depth + (line[at].text in "([") - (line[at].text in ")]"))
            at += 1
            continue
        if isinstance(found.what, Aside):
            asides.append(found.what)
        else:
            placed.append(Placed(found.what, at, found.next, depth))
        at = found.next
    return tuple(placed if all_counts else _counting(placed, line)), tuple(asides)


def _counting(placed: list[Placed], line: tuple[Piece, ...]) -> list[Placed]:
    """The amounts that count: beside a real measure no bare number but the first, among bare numbers only the first."""
    keep = [one for place, one in enumerate(placed) if not one.amount.bare or (place == 0 and _leads(line, one))]
    return keep if any(not one.amount.bare for one in placed) else placed[:1]


def _lettered(line: tuple[Piece, ...], at: int) -> bool:
    """Whether a number stands right behind a letter: "T65" names a flour and counts nothing."""
    return at > 0 and line[at].glued and line[at - 1].kind == "word" and len(line[at - 1].text) == 1


def _leads(line: tuple[Piece, ...], one: Placed) -> bool:
    return one.first == 0 or line[one.first - 1].says("of")


def of_the_first(
    placed: tuple[Placed, ...], line: tuple[Piece, ...], text: str, known: RecipeWords
) -> tuple[Placed, ...]:
    """The amounts of the first ingredient: those behind an "or" that brings a name of its own are another's."""
    for number, one in enumerate(placed[1:], 1):
        between = [piece.text.lower() for piece in line[placed[number - 1].next : one.first]]
        if "or" not in between[-2:]:
            continue
        first = placed[0].amount
        named = naming(_OR_LEFT.sub(" ", text[first.end : one.amount.start]), text[: first.start], known)
        own = naming(text_behind(placed, number, text).split(")")[0], "", known)
        if own.item is not None and named.item is not None and own.item != named.item:
            return placed[:number]
    return placed


def text_behind(placed: tuple[Placed, ...], number: int, text: str) -> str:
    """The text from one amount to the next, or to the end."""
    end = placed[number + 1].amount.start if number + 1 < len(placed) else len(text)
    return text[placed[number].amount.end : end]
