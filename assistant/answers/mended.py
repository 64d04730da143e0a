"""The reply for a mend: what to add, the dough after it, what it does to the clock."""

from __future__ import annotations

from typing import Any

from assistant.answers.in_the_bowl import amounts, bulk_words, notes, rows, weight
from assistant.answers.mend_case import Case
from assistant.answers.mend_kept import in_hand
from assistant.engine.bowl import Bowl
from assistant.engine.cautions import Scene
from assistant.engine.composition import Portion
from assistant.engine.growth import kinetics, salt_factor, salt_in_water_pct
from assistant.engine.mends import Mend
from assistant.engine.naming import figure
from assistant.talk.reply import Outcome
from assistant.talk.room import Room
from assistant.voice.page import Line, Page
from grammar.requests.mend_request import MendRequest
from knowledge.records.kinetics import Kinetic

DRIEST_PCT = 20.0
"""No dough has less water than this, percent of its flour."""


def mended(case: Case, mend: Mend, read_as: str, item: str | None = None) -> Outcome:
    """The reply for a mend that was worked out."""
    plan, assumed, known, room = case.plan, case.assumed, case.known, case.room
    after = mend.bowl
    fields = mend_fields(mend.add, plan, after, known, room) | {"advice": mend.advice}
    blocks: list[Line] = []
    if mend.add:
        blocks.append(Line(f"Add {amounts(mend.add, room)}.", role="head"))
    blocks.append(Line(mend.advice, role="plain" if mend.add else "head"))
    clock = _clock(case.request, mend, plan, item, room)
    if clock:
        blocks.append(Line(clock))
        fields["clock"] = clock
    if mend.add and known and (after.hydration_pct(room.kb.ingredients) or 0.0) >= DRIEST_PCT:
        blocks.append(Line(_dough_line(plan, after, room)))
    if mend.part is not None and mend.growth > 1.25 and known and mend.add != mend.part.add:
        keep = (
            f"To stay at the size planned: keep {weight(mend.part.keep_g)} of it, add {amounts(mend.part.add, room)}."
        )
        blocks.append(Line(keep))
        fields["part"] = {"keep_g": mend.part.keep_g, "add": rows(mend.part.add)}
    items = frozenset(after.items())
    said, lines = notes(Scene("mend", room.text, items), room, after.items() if known else ())
    tail = (Line("Assumed: " + "; ".join(assumed) + "."),) if assumed else ()
    outcome = Outcome("mend", fields, read_as, Page((*blocks, *lines, *tail)), assumed, said, (mend.source,))
    return in_hand(outcome, plan, after, room) if known else outcome


def mend_fields(add: tuple[Portion, ...], plan: Bowl, after: Bowl, known: bool, room: Room) -> dict[str, Any]:
    """The machine form of a mend; no dough mass where no water is known."""
    foods = room.kb.ingredients
    salt = after.salt_pct(foods)
    held = after.hydration_pct(foods) or 0.0
    wet = held if held >= DRIEST_PCT else None  # the water was not told: what yeast or butter hold is no hydration
    return {
        "add": rows(add),
        "dough_g": after.dough_g if known and wet else None,
        "pieces": after.pieces if known else None,
        "piece_g": after.piece_g if known else None,
        "hydration_pct": wet,
        "salt_pct": salt if salt else None,
    }


def _dough_line(plan: Bowl, after: Bowl, room: Room) -> str:
    """`Dough 2853 g at 57 %, salt 1.9 %: divide into 32 of 89 g.`"""
    foods = room.kb.ingredients
    salt = after.salt_pct(foods) or 0.0
    words = f"Dough {after.dough_g:.0f} g at {figure(after.hydration_pct(foods) or 0)} %"
    if salt:
        words += f", salt {figure(salt)} %"
    if after.pieces is not None and after.piece_g is not None:
        words += f": divide into {after.pieces} of {figure(after.piece_g)} g"
    share = 100 * plan.starter_g / max(plan.bowl_flour_g(foods), 1e-9)
    now = 100 * after.starter_g / max(after.bowl_flour_g(foods), 1e-9)
    if plan.starter_g > 0 and abs(now - share) >= 0.5:
        words += f"; starter {figure(now)} % instead of {figure(share)} %"
    return words + "."


def _clock(request: MendRequest, mend: Mend, plan: Bowl, item: str | None, room: Room) -> str:
    """What the slip does to the times, with a figure where there is one."""
    clock = mend.clock
    if request.mistake == "forgot" and item is not None and (item.startswith(("starter", "yeast"))) and mend.add:
        time = bulk_words(mend.bowl, room)
        if time:
            clock += f" Bulk about {time}."
    if request.mistake == "forgot" and item is not None and item.startswith("salt") and request.late_min:
        faster = _saltless(plan, room)
        worth = request.late_min * faster
        clock += f" {request.late_min:.0f} min without it were worth about {worth:.0f} with it."
    return clock.strip()


def _saltless(plan: Bowl, room: Room) -> float:
    """How many times as fast the dough goes without its salt."""
    foods = room.kb.ingredients
    k = kinetics(room.kb.all(Kinetic))
    stop = k.salt_stop_sourdough if plan.starter_g > 0 else k.salt_stop_bakers
    share = salt_in_water_pct(plan.salt_pct(foods) or 0.0, plan.hydration_pct(foods) or 1.0)
    left = salt_factor(share, stop)
    return 1 / left if left > 0.3 else 1.2
