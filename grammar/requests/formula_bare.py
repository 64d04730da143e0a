"""One number and no word for what it counts, said of the dough in hand."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import replace
from math import log
from typing import TYPE_CHECKING

from grammar.frames import Bound, amount_base, fits
from grammar.number_words import DOZEN
from grammar.phrases import Phrase
from grammar.tokens import Quantity

if TYPE_CHECKING:
    from grammar.requests.formula_request import FormulaRequest

FIGURES = {
    "pieces": (1, 5000), "piece_g": (15, 2600), "hydration_pct": (40, 115), "salt_pct": (0.3, 4),
    "starter_pct": (1, 120), "loss_pct": (0, 15), "dough_g": (300, 60000), "flour_g": (50, 60000),
    "prefermented_pct": (1, 60), "starter_hydration_pct": (40, 200),
}  # fmt: skip
"""What one bare figure may correct, and how much each may plausibly be: pieces, g, %."""
_PRESENT = (*FIGURES, "portions", "heads", "baked_g", "all_flour_g", "water_g", "starter_g", "salt_g")
"""Figures of the dough in hand that another is said in the place of."""
_ONLY_WORDS = (
    "act:change", "act:correct", "act:make", "act:same", "act:use", "act:back", "ask:what_if", "filler:*", "tail:*",
)  # fmt: skip
_ASKED_FIELDS = {
    "salt": "salt_pct", "starter": "starter_pct", "hydration": "hydration_pct", "water": "hydration_pct",
    "piece_g": "piece_g", "flour": "flour_g",
}  # fmt: skip
"""By what was asked after, the figure that another is then said of."""
_OWNERS = ("ingredient:*", "cue:hydration", "cue:water", "cue:salt", "cue:starter", "cue:flour", "preferment:*")
"""Words that say what a figure is of."""
_HYDRATION = (50.0, 85.0)
"""A bare figure between these is hydration where a dough is changed by it: "make it 68"."""
_OF_THE_HOUSE = (
    ("hydration_pct", _HYDRATION, ("pct", "num")), ("salt_pct", FIGURES["salt_pct"], ("pct",)),
    ("starter_pct", (5.0, 40.0), ("pct",)),
)  # fmt: skip
"""Figures that the house gives where none was told: between what another of them is said in place of it, and how."""
_AS_COUNTED, _NO_HYDRATION_STEP = (0.6, 1.7), 8.0
"""A bare figure this near to the number of pieces counts them, where as hydration it were a leap of so many points."""
_AS_MANY, _AS_HEAVY = (0.3, 3.5), (0.55, 1.8)
"""How far from what they are a baker plausibly takes the number of pieces and their mass at once."""
_WORD, _FEW_WORDS = re.compile(r"[^\W\d_]+"), 1
"""So many words beside a figure still leave it the whole of the line: "actually 22"."""
_SAME = 0.006
"""Two figures this near to each other, as parts of one, are said to be the same: a third is 33 %."""


def bare_figure(
    line: FormulaRequest, earlier: FormulaRequest, bound: Bound, asked: tuple[str, ...] = ()
) -> FormulaRequest:
    """One number and nothing that says what it counts: in the place of another, the figure that is so much now; after a
    change the same figure again ("sorry, 22"); what was asked after right before; with "make it" what it is near to,
    asked for where it is near to two."""
    amounts = [phrase for phrase in bound.phrases if phrase.kind == "amount"]
    anew = line.begins_anew(earlier)
    if anew or len(amounts) != 1 or replace(line, scale=None).steps or _times_again(line, amounts[0]):
        return line
    blank = replace(
        line, pieces=None, tins=None, piece_g=None, hydration_pct=None, dough_g=None, salt_pct=None, scale=None
    )
    said = _in_its_place(blank, earlier, bound, amounts[0]) or _said_again(blank, earlier, bound, amounts[0])
    said = said or _asked_after(blank, earlier, bound, amounts[0], asked)
    return said or (_near_to(line, blank, earlier, bound, amounts[0]) if _stands_alone(bound, amounts[0]) else line)


def told_in(dough: FormulaRequest) -> tuple[float, ...]:
    """The figures a dough was told in: its own, then those of its rows."""
    own = (getattr(dough, name) for name in _PRESENT)
    rows = (value for part in dough.parts for value in (part.pct, part.g))
    return tuple(value for value in (*own, *rows) if value is not None)


def _times_again(line: FormulaRequest, amount: Phrase) -> bool:
    """Whether the one figure is already how many times as much of everything there is to be."""
    return amount.dim == "num" and line.pieces is None and line.scale == amount_base(amount)


def _stands_alone(bound: Bound, amount: Phrase) -> bool:
    """Whether nothing beside a number says what it is of; what another clause tells of no dough is an aside."""
    if amount.dim != "num":
        return False
    ends = [n for n, phrase in enumerate(bound.phrases) if phrase.kind == "sep"]
    at = bound.phrases.index(amount)
    start, stop = max((n for n in ends if n < at), default=-1), min((n for n in ends if n > at), default=None)
    clause = [phrase for phrase in bound.phrases[start + 1 : stop] if phrase.kind in ("label", "junk")]
    return all(fits(word, _ONLY_WORDS) for word in clause) and not any(
        fits(phrase, (*_OWNERS, "piece:*", "bread:*", "cue:*")) for phrase in bound.phrases if phrase not in clause
    )


def _in_its_place(
    blank: FormulaRequest, earlier: FormulaRequest, bound: Bound, amount: Phrase
) -> FormulaRequest | None:
    """The figure or row that is so much now, made what is said in its place; what was set last before all others."""
    if amount.old is None or amount.quantity is None or bound.said(*_OWNERS):
        return None
    for name in sorted(_PRESENT, key=lambda one: one not in earlier.last):
        now = getattr(earlier, name)
        if now is not None and _is_so_much(amount.old, name, now):
            return replace(blank, **{name: _in_unit(amount.quantity, name)})  # type: ignore[arg-type]
    for part in earlier.parts:
        if part.pct is not None and _is_so_much(amount.old, "pct", part.pct):
            return replace(blank, parts=(replace(part, pct=_in_unit(amount.quantity, "pct")),))
        if part.g is not None and _is_so_much(amount.old, "g", part.g):
            return replace(blank, parts=(replace(part, g=amount.quantity.base),))
    both = (amount.old, amount.quantity)
    for name, (low, high), dims in _OF_THE_HOUSE:
        fits_it = all(one.dim in dims and low <= _in_unit(one, name) <= high for one in both)
        if fits_it and getattr(earlier, name) is None:
            return replace(blank, **{name: _in_unit(amount.quantity, name)})  # type: ignore[arg-type]
    return None


def _is_so_much(old: Quantity, name: str, now: float) -> bool:
    unit = "pct" if name.endswith("pct") else "mass" if name.endswith("g") else "num"
    alike = old.dim in (unit, "num") and (not old.fraction or unit == "pct")
    return alike and abs(_in_unit(old, name) - now) <= _SAME * max(now, 1.0)


def _in_unit(said: Quantity, name: str) -> float:
    """A figure in the unit of a field; a part of one is so many per cent."""
    return said.base * 100 if said.fraction and name.endswith("pct") else said.base


def _said_again(blank: FormulaRequest, earlier: FormulaRequest, bound: Bound, amount: Phrase) -> FormulaRequest | None:
    """The figure the line before set, set again: "sorry, 22", "wait no, a fifth"."""
    moved = bound.said("act:change", "act:make", "ask:what_if") or bound.links() & {"for", "at", "of"}
    share = amount.dim == "share" and bound.first("again_part") is not None
    alone = bound.said("act:correct") or len(_WORD.findall(bound.text.replace(amount.text, ""))) <= _FEW_WORDS
    if moved or amount.quantity is None or not (share or (alone and _stands_alone(bound, amount))):
        return None
    return next(_set(earlier.last, blank, earlier, amount.quantity), None)


def _asked_after(
    blank: FormulaRequest, earlier: FormulaRequest, bound: Bound, amount: Phrase, asked: tuple[str, ...]
) -> FormulaRequest | None:
    """The figure that was asked after right before, where this may be another of it: "make it 1.7" of the salt."""
    if amount.quantity is None or not _stands_alone(bound, amount) or "for" in bound.links():
        return None
    names = tuple(_ASKED_FIELDS.get(one.removesuffix("_table"), f"part {one}") for one in asked)
    return next(_set(names, blank, earlier, amount.quantity), None)


def _set(
    names: Sequence[str], blank: FormulaRequest, earlier: FormulaRequest, said: Quantity
) -> Iterator[FormulaRequest]:
    """A figure of the dough in hand set to what is said; nothing where several are named, or this cannot be it."""
    if len(names) != 1:
        return
    name = names[0]
    value = _in_unit(said, "pct" if name.startswith("part ") else name)
    if name in FIGURES and FIGURES[name][0] <= value <= FIGURES[name][1]:
        yield replace(blank, **{name: value})  # type: ignore[arg-type]
    part = next((part for part in earlier.parts if f"part {part.item[0]}" == name), None)
    if part is not None and value <= 100:
        yield replace(blank, parts=(replace(part, pct=value),))


def _near_to(
    line: FormulaRequest, blank: FormulaRequest, earlier: FormulaRequest, bound: Bound, amount: Phrase
) -> FormulaRequest:
    """What a bare number is near to, of what the dough in hand is."""
    value = amount_base(amount) or 0.0
    if "for" in bound.links():
        return line
    whole, leap = value % 1 == 0, abs(value - (earlier.hydration_pct or value)) > _NO_HYDRATION_STEP
    dozens = not DOZEN.isdisjoint(amount.text.lower().split())
    heavy = not dozens and _between(value, earlier.piece_g, _AS_HEAVY)
    many = dozens or _between(value, earlier.pieces, _AS_MANY)
    if whole and leap and _between(value, earlier.portions, _AS_COUNTED):
        return replace(blank, portions=value)
    if whole and leap and _between(value, earlier.pieces, _AS_COUNTED) and not heavy:
        return replace(blank, pieces=value)
    if _HYDRATION[0] <= value <= _HYDRATION[1] and not dozens:
        return replace(blank, hydration_pct=value)
    if not whole and value <= FIGURES["salt_pct"][1]:
        return replace(blank, salt_pct=value)  # no pieces are counted in tenths
    if many and heavy and not _counts_rather(value, earlier):
        return replace(blank, either=value)
    heavy = heavy and not many
    return replace(blank, piece_g=value) if heavy else replace(blank, pieces=value) if many else line


def _counts_rather(value: float, earlier: FormulaRequest) -> bool:
    """Whether a number is so much nearer to how many pieces there are than to what one weighs that it counts them."""
    count, mass = (abs(log(value / (now or value))) for now in (earlier.pieces, earlier.piece_g))
    return value % 1 == 0 and _NEARER * count <= mass


_NEARER = 3.0
"""So many times nearer, as a ratio, is meant without asking."""


def _between(value: float, now: float | None, times: tuple[float, float]) -> bool:
    """Whether a value is so many times what there is now, between two bounds."""
    return now is not None and times[0] <= value / now <= times[1]
