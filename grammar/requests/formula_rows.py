"""What a line does to a row of the dough in hand: so many times as much of it, or another figure in the row's unit."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from grammar.frames import Bound, Hit, amount_base, fits
from grammar.phrases import Phrase
from grammar.requests.formula_ferments import STARTER
from grammar.requests.formula_heads import counted_amounts
from grammar.requests.formula_moves import FREED, Move
from grammar.requests.formula_slots import FLOUR, SALT

FACTORS = {"act:double": 2.0, "act:triple": 3.0, "act:halve": 0.5, "act:half_again": 1.5, "cue:triple": 3.0}
_WATER = ("ingredient:water", "cue:water", "cue:hydration")
_NEAR = 4
"""So many words behind a multiple may stand what it multiplies: "twice as much of the sunflower seeds"."""


def times_of(bound: Bound, moves: Sequence[Move] = ()) -> tuple[tuple[str, float], ...]:
    """Rows made so many times as large: "double the salt", "a third less honey", "half the butter".

    ("salt", 2.0) and the like; a row is an ingredient id, or salt, starter, hydration. Empty where the whole dough, its
    pieces or nothing is multiplied, and where no dough is in hand.
    """
    if not bound.context.has_bake or any(move.out != FREED for move in moves):
        return ()
    out: list[tuple[str, float]] = []
    for n, phrase in enumerate(bound.phrases):
        factor, used = _factor(bound.phrases, n)
        flours = used == 2 or phrase.kind != "amount"  # "half rye" is a blend, "halve the rye" is not
        row = _row_behind(bound.phrases, n + used, flours) if factor is not None else None
        if factor is not None and row is not None and not phrase.negated and "done" not in phrase.meant:
            out.append((row, factor))
    return tuple(dict(out).items())


@dataclass(frozen=True, slots=True)
class By:
    """A row raised or lowered: so many times itself, by so many points, or by g grams (less than nothing: lowered)."""

    row: str
    times: float | None = None
    points: float | None = None
    g: float | None = None


def raised_by(bound: Bound) -> By | None:
    """What a line that raises or lowers a row does to it: "cut the salt by a third", "lower the hydration by 2"."""
    if not bound.context.has_bake:
        return None
    return next((by for n in range(len(bound.phrases)) if (by := _by(bound.phrases, n)) is not None), None)


def _by(phrases: Sequence[Phrase], n: int) -> By | None:
    """The same of the row at a place."""
    row, before = _row_behind(phrases, n, flours=True), phrases[n - 1] if n else None
    behind = phrases[n + 1 : n + 3]
    if row is None or phrases[n].kind != "label" or not behind:
        return None
    said = behind[0].text.lower()
    down = (before is not None and fits(before, ("cue:lowered",))) or said == "down by"
    up = before is not None and (fits(before, ("cue:raised",)) or (said == "up by" and bool(before.terms)))
    if down and fits(behind[0], ("act:halve",)):
        return By(row, times=0.5)  # "cut the rye in half"
    if len(behind) < 2 or not (down or up) or not ("by" in behind[0].ids("link") or said in ("down by", "up by")):
        return None
    value, sign = amount_base(behind[1]) or 0.0, -1 if down else 1
    if behind[1].dim == "share":
        return By(row, times=1 + sign * value)
    if behind[1].dim == "mass":
        return By(row, g=sign * value)
    if row == "salt" and value > _MOST_SALT_POINTS:
        return By(row, times=1 + sign * value / 100)
    return By(row, points=sign * value) if behind[1].dim in ("num", "pct") else None


_MOST_SALT_POINTS = 3.0
"""Nobody takes so many per cent of the flour from the salt or adds them: from here on they are of the salt."""


def _factor(phrases: Sequence[Phrase], n: int) -> tuple[float | None, int]:
    """How many times as much is said at a place, and in how many phrases."""
    phrase = phrases[n]
    said = next((factor for act, factor in FACTORS.items() if fits(phrase, (act,))), None)
    if said is not None:
        return said, 1
    behind = phrases[n + 1] if n + 1 < len(phrases) else None
    if phrase.kind == "amount" and phrase.dim == "num" and behind is not None and fits(behind, ("act:scale",)):
        return amount_base(phrase), 2
    if phrase.kind != "amount" or phrase.dim != "share":
        return None, 1
    part = amount_base(phrase) or 0.0
    if behind is not None and fits(behind, ("cue:fewer",)):
        return 1 - part, 2
    if behind is not None and fits(behind, ("cue:greater", "act:more")):
        return 1 + part, 2
    return part, 1


def _row_behind(phrases: Sequence[Phrase], start: int, flours: bool) -> str | None:
    """The row that is named right behind a multiple, nothing but small words between. flours: a kind of flour too."""
    for phrase in phrases[start : start + _NEAR]:
        if phrase.kind == "link" and "of" in phrase.ids("link"):
            continue
        if phrase.kind != "label" or phrase.negated:
            return None
        flour = flours and fits(phrase, FLOUR) and "flour" not in phrase.ids("cue")
        return next(iter(phrase.ids("ingredient")), None) if flour else row_of(phrase)
    return None


def row_of(label: Phrase) -> str | None:
    """The row a word names: salt, starter, hydration or an ingredient's id; None for flour, which a share makes a
    blend of, and for what is no row."""
    if fits(label, SALT):
        return "salt"
    if fits(label, STARTER):
        return "starter"
    if fits(label, _WATER):
        return "hydration"
    if fits(label, FLOUR):
        return None
    return next(iter(label.ids("ingredient")), None)


_MEANT = ("meant_figure", "other_figure")
_STEPS = ("cue:greater", "cue:fewer", "cue:wetter", "act:more", "act:add")
_MOST_PCT = 120.0
"""A figure of a row above this is its weight."""
_KINDS = ("cue:stiff", "cue:liquid_starter", "feeding:stiff", "ingredient:starter_stiff*")
_DRIEST_PCT = 40.0
"""No starter is drier, %; beside the word for its kind a figure from here on is its own water."""
_SLOT_OF = {"salt": "salt_pct", "starter": "starter_pct", "hydration": "hydration_pct"}


def in_its_row(bound: Bound) -> Bound:
    """The line with a figure said in the place of another in the row that it names, "the oil 4, not 6", and a number
    right before "smaller ones" as their count."""
    bare = [hit for hit in bound.of("item") if hit.amount is None and hit.label is not None and not hit.label.negated]
    figure = next((hit for slot in _MEANT for hit in bound.of(slot)), None)
    rows = [row_of(hit.label) for hit in bare if hit.label is not None]
    alone = bound.context.has_bake and len(counted_amounts(bound.phrases)) == 1
    if figure is None and alone and rows and rows[0] in _SLOT_OF and not bound.said(*_STEPS, "ask:*"):
        figure = next((hit for hit in bound.of("pieces") if hit.label is None), None)  # "up to 69, the water"
    new: dict[int, Hit | None] = {}
    if figure is not None and figure.amount is not None and len(bare) == 1:
        row = _SLOT_OF.get(rows[0] or "", "part_pct")
        weighed = figure.amount.dim == "mass" or (amount_base(figure.amount) or 0.0) > _MOST_PCT
        slot = "part_g" if weighed else row
        new = {id(figure): Hit(slot, figure.amount, bare[0].label), id(bare[0]): None}
    kind = alone and bound.said(*_KINDS) and bound.said(*STARTER)
    for hit in (*bound.of("hydration_pct"), *bound.of("starter_pct")) if kind else ():
        if (amount_base(hit.amount) or 0.0) >= _DRIEST_PCT:  # "the starter in it is stiff, 60 % hydration"
            new[id(hit)] = replace(hit, slot="starter_hydration_pct")
    for hit in (*bound.of("piece_g"), *bound.of("dough_g")):
        weighed_one = _weighed_row(hit, bound)
        if weighed_one is not None:
            new[id(hit)] = Hit("part_g", hit.amount, weighed_one)
    for hit in bound.of("piece_step"):
        places = [n for n, phrase in enumerate(bound.phrases) if phrase is hit.amount or phrase is hit.label]
        ones = hit.label is not None and hit.label.text.lower().endswith(" ones")
        if ones and hit.amount is not None and hit.amount.dim == "num" and places == [places[0], places[0] + 1]:
            new[id(hit)] = Hit("pieces", hit.amount, None)
    hits = (new.get(id(hit), hit) for hit in bound.hits)
    return replace(bound, hits=tuple(hit for hit in hits if hit is not None)) if new else bound


def _weighed_row(hit: Hit, bound: Bound) -> Phrase | None:
    """The row right behind a weight that no piece was said beside: "400 g starter to use up at 20 %"."""
    if hit.label is not None or hit.amount is None or hit.amount.dim != "mass":
        return None
    at = bound.phrases.index(hit.amount)
    behind = [one for one in bound.phrases[at + 1 : at + 3] if "of" not in one.ids("link")][:1]
    own = bound.first("pieces") is None and behind and fits(behind[0], ("ingredient:*", *SALT))
    return behind[0] if behind and (own or fits(behind[0], STARTER)) and not behind[0].negated else None


def water_back(bound: Bound) -> bool:
    """Whether the water is to be as ever, where something stood in for it: "and water like normal"; not where a figure
    says how much."""
    words = [phrase for phrase in bound.phrases if phrase.kind in ("label", "amount")]
    as_ever = ("cue:usual", "act:back", "act:as_it_was", "act:put_back")
    used = any(fits(one, ("act:use",)) and fits(two, ("ingredient:water", "cue:water")) for one, two in pairwise(words))
    behind = (*(phrase.kind for phrase in words[2:]), "label", "label")
    ever = zip(words, words[1:], behind, strict=False)
    return used or any(
        fits(one, _WATER) and not one.negated and fits(two, as_ever) and then != "amount" for one, two, then in ever
    )


def put_back(bound: Bound) -> tuple[str, ...]:
    """Rows that are to go in again as they were: "put the butter back in". Empty where a figure is said of them."""
    told = any(phrase.kind == "amount" for phrase in bound.phrases)
    if not bound.context.has_bake or told or not bound.said("act:put_back", "act:back", "act:as_it_was"):
        return ()
    named = [phrase for phrase in bound.phrases if phrase.kind == "label" and not phrase.negated]
    rows = [row_of(phrase) or next(iter(phrase.ids("ingredient")), None) for phrase in named]
    back = tuple(dict.fromkeys(row for row in rows if row is not None))
    return back if bound.said("act:put_back", "act:as_it_was") or back in (("starter",), ("yeast_instant",)) else ()
