"""Two pans against one another: by how much a recipe written for one grows or shrinks for the other."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from grammar.frames import Bound, Frame, amount_base, fits
from grammar.levels import speaks
from grammar.phrases import Phrase
from grammar.roles import take
from grammar.slots import Slot
from grammar.stance import AT_HAND, CALLED_FOR, HOLDS, WILL_TAKE, clauses, stance_of

INCH = 2.54
LONGEST_IN_INCHES = 14
"""Bare sides up to so much can only be inches: no pan is less than 14 cm across and 10 the other way."""


@dataclass(frozen=True, slots=True)
class Pan:
    """A pan as it was said: its sides in cm (one: a square's side or a round's width), how many of it, how deep."""

    sides_cm: tuple[float, ...]
    shape: str | None = None
    count: float = 1.0
    deep_cm: float | None = None


@dataclass(frozen=True, slots=True)
class PansRequest:
    """the recipe is for an 8 inch square pan, mine is 9 x 13
    from a 20 cm round tin to a 25 cm one, how much more

    old: the pan it was written for; new: the one that is there.
    """

    old: Pan
    new: Pan
    dough_g: float | None = None  # what fills the old one, where that was said


_SHAPES = ("shape:round", "shape:square", "shape:loaf", "shape:sheet")
_WRITTEN = frozenset({CALLED_FOR, HOLDS})
_THERE = frozenset({AT_HAND, WILL_TAKE})


def build(bound: Bound) -> PansRequest | None:
    """The request; None where the line does not hold two pans, or tells of the second only as another size wanted."""
    found = _pans(bound)
    if len(found) != 2 or not (bound.said("cue:tin", "shape:*", "pans:pan") or _same(found)):
        return None
    (first, pan), (second, other) = found
    new_first = _new_first(bound, first, second)
    dough_g = bound.base("dough_g")
    return PansRequest(other, pan, dough_g) if new_first else PansRequest(pan, other, dough_g)


def _same(found: Sequence[tuple[int, Pan]]) -> bool:
    return all(pan.shape is not None for _, pan in found)


def _pans(bound: Bound) -> list[tuple[int, Pan]]:
    """The pans of the line by their places."""
    phrases = bound.phrases
    out: list[tuple[int, Pan]] = []
    inches = any(p.kind == "amount" and p.quantity is not None and p.quantity.unit == "inch" for p in phrases)
    i = 0
    while i < len(phrases):
        phrase = phrases[i]
        used = 1
        sides: tuple[float, ...] = ()
        if phrase.kind == "amount" and phrase.dim == "sizes":
            sides = phrase.sizes
        elif phrase.kind == "amount" and phrase.dim == "length":
            sides = (amount_base(phrase) or 0.0,)
        elif phrase.role == "count" and i + 1 < len(phrases) and phrases[i + 1].role == "each":
            each = phrases[i + 1]
            if phrase.dim == "num" and each.dim in ("num", "length"):
                per = INCH if each.dim == "length" or inches or _in_inches(phrase, each) else 1.0
                second = (amount_base(each) or 0.0) * (1.0 if each.dim == "length" else per)
                sides, used = ((amount_base(phrase) or 0.0) * per, second), 2
        elif phrase.kind == "amount" and phrase.dim == "num" and _as_written(phrases, i):
            sides = ((amount_base(phrase) or 0.0) * (INCH if inches else 1.0),)
        if sides:
            deep = fits(phrases[i + used], ("cue:deep", "shape:deep")) if i + used < len(phrases) else False
            if deep and len(sides) == 1 and out:
                place, pan = out[-1]
                out[-1] = (place, Pan(pan.sides_cm, pan.shape, pan.count, sides[0]))
            else:
                out.append((i, Pan(sides[:2], _shape(phrases, i, used), _count(phrases, i), _third(sides))))
        i += used
    return out


def _as_written(phrases: Sequence[Phrase], place: int) -> bool:
    """Whether a bare figure stands right behind "recipe says": the side of the pan it was written for."""
    before = phrases[place - 1] if place else None
    if before is None or not fits(before, ("cue:recipe_given", "stance:called_for", "pans:written")):
        return False
    return place + 1 == len(phrases) or phrases[place + 1].kind == "sep"


def _third(sides: tuple[float, ...]) -> float | None:
    return sides[2] if len(sides) == 3 else None


def _in_inches(first: Phrase, second: Phrase) -> bool:
    """Whether bare sides can only be inches."""
    return max(amount_base(first) or 0.0, amount_base(second) or 0.0) <= LONGEST_IN_INCHES


def _shape(phrases: Sequence[Phrase], place: int, used: int) -> str | None:
    """The shape said beside a pan's sizes, ahead of the next pan."""
    for i in (*range(place + used, min(place + used + 2, len(phrases))), *range(place - 1, max(place - 3, -1), -1)):
        if phrases[i].kind == "amount" and phrases[i].dim in ("sizes", "length"):
            continue
        shape = next((one.split(":")[1] for one in _SHAPES if fits(phrases[i], (one,))), None)
        if shape is not None:
            return shape
    return None


def _count(phrases: Sequence[Phrase], place: int) -> float:
    """How many such pans: "two 9 inch round pans"."""
    before = phrases[place - 1] if place else None
    if before is None or before.kind != "amount" or before.dim != "num" or before.role is not None:
        return 1.0
    value = amount_base(before) or 1.0
    return value if value == int(value) and 1 <= value <= 6 else 1.0


def _new_first(bound: Bound, first: int, second: int) -> bool:
    """Whether the pan said first is the one at hand."""
    clause = clauses(bound)
    told: dict[int, float] = {first: 0.0, second: 0.0}
    middle = (first + second) / 2
    for i, phrase in enumerate(bound.phrases):
        stance = stance_of(phrase)
        recipe = fits(phrase, ("cue:formula", "cue:recipe_given")) or stance in _WRITTEN
        there = stance in _THERE or fits(phrase, ("pans:mine",))
        if not (recipe or there):
            continue
        same = [place for place in (first, second) if clause[place] == clause[i]]
        after = next((place for place in (first, second) if place > i and (not same or place in same)), None)
        place = after if after is not None else (second if i > middle else first)
        told[place] += -1.0 if recipe and not there else 1.0
    instead = next((i for i, p in enumerate(bound.phrases) if fits(p, ("link:instead_of",))), None)
    if instead is not None and first < instead < second:
        return True
    return told[first] > told[second]


FRAME = Frame(
    PansRequest,
    "pans",
    build,
    slots={
        "pan": Slot({"sizes": 1.6, "length": 1.6}, cues=("cue:tin", "shape:*", "pans:pan"), bare=0.8, many=True),
        "side": Slot({"num": 1.2, "length": 0.6}, bare=1.2, role="count", many=True),
        "other_side": Slot({"num": 1.2, "length": 0.6}, bare=1.2, role="each", many=True),
        "written": Slot({"num": 1.0}, cues=("cue:recipe_given", "stance:called_for", "pans:written"), low=8, high=60),
        "count": Slot({"num": 0.8}, bare=0.4, low=1, high=6, many=True),
        "dough_g": take("dough_g"),
    },
    cues=speaks(
        sure=(
            "cue:tin shape:* pans:* stance:called_for stance:at_hand stance:will_take cue:recipe_given "
            "mistake:meant act:scale"
        ),
        likely="stance:holds cue:formula cue:only_this ask:how_much link:instead_of ask:convert",
        maybe="stance:was ask:what cue:greater cue:bigger cue:missing cue:dough",
        seldom="act:make",
        heard="tail:* mistake:poured ask:should_i ask:can_i span:now kept:*",
    ),
    needs=("slot:pan", "slot:side"),
    rules_out=("symptom:*",),
    help_topic="conversion",
)  # fmt: skip
