"""A recipe moved from one pan to another: the factor by area, or by volume where both depths were said."""

from __future__ import annotations

from typing import Any

from assistant.answers import answers
from assistant.answers.dough_said import solved
from assistant.engine.naming import figure
from assistant.engine.pans import round_cm2
from assistant.engine.refusal import Refused
from assistant.talk.reply import Outcome
from assistant.talk.room import Room
from assistant.voice.page import Block, Line, Page
from grammar.requests.pans import INCH, Pan, PansRequest

LARGEST_CM = 120.0


@answers(PansRequest)
def answer(request: PansRequest, room: Room) -> Outcome:
    """By what everything in the recipe is multiplied."""
    assumed: list[str] = []
    old, new = _area(request.old, request.new, assumed), _area(request.new, request.old, assumed)
    by_volume = request.old.deep_cm is not None and request.new.deep_cm is not None
    if by_volume:
        old *= request.old.deep_cm or 1.0
        new *= request.new.deep_cm or 1.0
    ratio = new / old
    unit = "ml" if by_volume else "cm2"
    if not by_volume:
        assumed.append("the same depth of dough in both")
    said = f"{_words(request.old)} to {_words(request.new)}"
    answer_: dict[str, Any] = {
        "from": {"amount": old, "unit": unit},
        "to": {"amount": new, "unit": unit},
        "item": None,
        "ratio": ratio,
        "ratio_pct": 100 * ratio,
        "basis": f"{_sum(request.old, request.new)} against {_sum(request.new, request.old)}",
    }
    blocks: list[Block] = [
        Line(f"Multiply everything by {ratio:.2f} ({100 * ratio:.0f} % of the recipe).", role="head"),
        Line(f"{answer_['basis']}: {old:.0f} and {new:.0f} {'cm²' if unit == 'cm2' else unit}."),
    ]
    in_hand = room.formula_said if room.bake is not None else None
    dough_g = request.dough_g if request.dough_g is not None or in_hand is None else solved(in_hand, room).dough_g
    if dough_g is not None:
        answer_["dough_g"] = dough_g * ratio
        whose = "The dough" if request.dough_g is not None else "The dough in hand"
        blocks.append(Line(f"{whose}: {dough_g:.0f} g there, {dough_g * ratio:.0f} g here."))
    blocks.append(Line("A thicker layer bakes longer and cooler, a thinner one shorter; go by colour and core."))
    blocks.append(Line("Assumed: " + "; ".join(assumed) + ".")) if assumed else None
    return Outcome(
        "conversion", answer_, f"a recipe moved from {said}", Page(tuple(blocks)), tuple(assumed),
        sources=("area of the pans at equal depth",), focus=request,
    )  # fmt: skip


def _area(pan: Pan, other: Pan, assumed: list[str]) -> float:
    """Area of the pans in cm2. Refused for a pan no oven takes."""
    if any(not 3 <= side <= LARGEST_CM for side in pan.sides_cm):
        raise Refused("no pan has these sides", "its length and width in cm or inches")
    if len(pan.sides_cm) == 2:
        return pan.count * pan.sides_cm[0] * pan.sides_cm[1]
    side = pan.sides_cm[0]
    if _is_round(pan, other):
        if pan.shape is None:
            assumed.append(f"the pan of {_length(side)} is round")
        return pan.count * round_cm2(side)
    if pan.shape is None:
        assumed.append(f"the pan of {_length(side)} is square")
    return pan.count * side**2


def _is_round(pan: Pan, other: Pan) -> bool:
    shape = pan.shape or (other.shape if len(other.sides_cm) == 1 else None)
    return shape == "round"


def _sum(pan: Pan, other: Pan) -> str:
    many = f"{pan.count:g} x " if pan.count != 1 else ""
    if len(pan.sides_cm) == 2:
        sides = f"{_length(pan.sides_cm[0])} x {_length(pan.sides_cm[1])}"
    elif _is_round(pan, other):
        sides = f"3.14 x ({_length(pan.sides_cm[0])})² / 4"
    else:
        sides = f"{_length(pan.sides_cm[0])} x {_length(pan.sides_cm[0])}"
    return many + sides + (f" x {_length(pan.deep_cm)}" if pan.deep_cm is not None else "")


def _words(pan: Pan) -> str:
    many = f"{pan.count:g} of " if pan.count != 1 else ""
    return many + " x ".join(_length(side) for side in pan.sides_cm) + (f" {pan.shape}" if pan.shape else "")


def _length(cm: float) -> str:
    inches = cm / INCH
    whole = abs(inches * 2 - round(inches * 2)) < 0.01 and abs(cm - round(cm)) > 0.01
    return f"{figure(inches)} in" if whole else f"{figure(cm)} cm"
