"""Amounts joined into measures: what is added up, what says the same amount again."""

from __future__ import annotations

from dataclasses import dataclass, replace

from grammar.recipe.counted import Amount
from grammar.recipe.placed import Placed
from grammar.recipe.tokens import Piece

_SUM = frozenset({"plus", "+", "and", "&", "minus", "less"})
_LESS = frozenset({"minus", "less"})
_CONTINUED = frozenset(
    {("lb", "oz"), ("kg", "g"), ("l", "ml"), ("cup", "tbsp"), ("cup", "tsp"), ("tbsp", "tsp"), ("pint", "fl_oz")}
)
"""A measure and the smaller one that, right behind it, is added: 1 lb 4 oz."""
_FINISH = frozenset({"for", "more", "extra", "additional"})


@dataclass(frozen=True, slots=True)
class Measured:
    """One whole measure of the ingredient: parts that are added up ("1 cup" + "2 tbsp")."""

    parts: tuple[Amount, ...]

    @property
    def start(self) -> int:
        return self.parts[0].start

    @property
    def end(self) -> int:
        return self.parts[-1].end

    @property
    def dimension(self) -> str:
        """ "mass" when every part is a mass or a pack of stated mass, else the first part's own."""
        kinds = {part.pack.dimension if part.pack else part.dimension for part in self.parts}
        return kinds.pop() if len(kinds) == 1 else "mixed"


def joined(placed: tuple[Placed, ...], line: tuple[Piece, ...]) -> tuple[tuple[Measured, ...], bool]:
    """Amounts joined into measures: "plus" adds, a smaller unit right behind adds, everything else says it again.

    Also whether what follows is more of it for another purpose ("plus 1 tbsp for the pan").
    """
    found: list[tuple[list[Amount], int]] = []
    for number, one in enumerate(placed):
        if not number:
            found.append(([one.amount], one.depth))
            continue
        before = placed[number - 1]
        between = [piece.text.lower() for piece in line[before.next : one.first]]
        outer = [text for text in between if text not in ("(", ")")]
        adds = bool(outer) and outer[-1] in _SUM and one.depth <= before.depth
        if adds and _for_another_purpose(outer, one, line):
            return _as_measures(found), True
        if (adds and _addable(found, one)) or _continues(before, one, between):
            same = [place for place, (_, depth) in enumerate(found) if depth == one.depth]
            place = same[-1] if same else len(found) - 1
            found[place][0].append(_negative(one.amount) if _LESS & set(outer) else one.amount)
            del found[place + 1 :]
        else:
            found.append(([one.amount], one.depth))
    return _as_measures(found), False


def _as_measures(found: list[tuple[list[Amount], int]]) -> tuple[Measured, ...]:
    return tuple(Measured(tuple(parts)) for parts, _ in found)


def _for_another_purpose(outer: list[str], one: Placed, line: tuple[Piece, ...]) -> bool:
    """Whether an amount that is added goes elsewhere: "more" stands behind it, or other words between it and "and"."""
    if one.next < len(line) and line[one.next].text.lower() in _FINISH:
        return True
    return outer[-1] in ("and", "&") and any(word.isalpha() and word not in _SUM for word in outer)


def _negative(amount: Amount) -> Amount:
    """The amount as one to be taken away: "1 cup minus 1 tbsp"."""
    return replace(amount, low=-amount.low, high=-amount.high)


def _addable(found: list[tuple[list[Amount], int]], one: Placed) -> bool:
    kinds = {parts[0].dimension for parts, depth in found if depth == one.depth}
    return one.amount.dimension in kinds or not kinds or one.amount.dimension != "count"


def _continues(before: Placed, one: Placed, between: list[str]) -> bool:
    """1 lb 4 oz, 1 cup 2 tbsp."""
    a, b = before.amount, one.amount
    return not [p for p in between if p != ","] and before.depth == one.depth and (a.unit, b.unit) in _CONTINUED
