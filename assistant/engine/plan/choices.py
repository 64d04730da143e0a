"""What a plan may move: leaven, dough temperature, cold; in order of how far each lies from usual."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import product

from assistant.engine.plan.asked import Cold, Wish
from assistant.engine.plan.day import Day
from assistant.engine.plan.steps import Move
from assistant.engine.rising import Dough

_LEAVEN_SHARES = (0.75, 1.35, 0.5, 1.75)
_DOUGH_STEPS_C = (-2.0, 2.0, -4.0, 3.5)
_MOST_MOVES = 2
"""A plan with more of its ways changed than this is another bread."""
LAMP_C = 26.0
"""Warmth of an oven with only its lamp on."""
_WORTH_C = 2.0
"""A place is another one from this difference on."""
_YEAST_LEAST, _YEAST_MOST = 0.15, 5.0
"""Commercial yeast as fresh, % of flour, that still makes bread people know."""
_BESIDE_PCT = (0.5, 1.0, 2.0)
"""Fresh yeast beside a starter, % of flour."""


@dataclass(frozen=True, slots=True)
class Choice:
    """One way to make the dough: its leaven, its temperature, whether and where it goes cold; place_c: the air where it
    rises, None for the kitchen's."""

    dough: Dough
    leaven_pct: float
    dough_c: float
    cold: Cold
    moves: tuple[Move, ...]
    place_c: float | None = None

    @property
    def size(self) -> float:
        """How far the moved choices lie from usual, together."""
        return sum(move.size for move in self.moves)


def choices(day: Day, wish: Wish, beside: bool = False) -> tuple[Choice, ...]:
    """Every choice worth trying, fewest and smallest moves first; with `beside`, a little yeast next to the starter."""
    found = []
    leavens = list(_leavens(day))
    if beside:
        leavens = leavens[:1]
    for (dough, leaven_pct, leaven), (dough_c, warmth), (cold, where) in product(
        leavens, _warmths(day, wish), _colds(day, wish)
    ):
        moves = tuple(move for move in (leaven, warmth, where) if move is not None)
        if not beside:
            found.append(Choice(dough, leaven_pct, dough_c, cold, moves))
            continue
        for pct in _BESIDE_PCT:
            helped = replace(dough, yeast_fresh_pct=pct)
            yeast = Move("yeast", 0.0, pct, pct / _BESIDE_PCT[-1])
            found.append(Choice(helped, leaven_pct, dough_c, cold, (*moves, yeast)))
    few = [choice for choice in found if len(choice.moves) <= _MOST_MOVES + beside]
    return tuple(sorted(few, key=lambda choice: (len(choice.moves), choice.size)))


def elsewhere(day: Day, wish: Wish) -> tuple[Choice, ...]:
    """Choices for a dough that rises in another place than the kitchen, with one thing more moved, or two toward where
    the place leads; tried where nothing keeps the wish in the kitchen itself."""
    if not day.batch.leavened:
        return ()
    found = []
    room_c = day.kitchen.room_c
    warm = [LAMP_C] if room_c <= LAMP_C - _WORTH_C else []
    for place_c in dict.fromkeys((*day.kitchen.places_c, *warm)):
        if abs(place_c - room_c) < _WORTH_C:
            continue
        place = Move("place", room_c, place_c, abs(place_c - room_c) / 10)
        for choice in choices(day, wish):
            hurries = all(move.lever == "cold" or float(move.chosen) > float(move.usual) for move in choice.moves)
            if len(choice.moves) < _MOST_MOVES or hurries == (place_c > room_c):
                found.append(replace(choice, moves=(*choice.moves, place), place_c=place_c))
    return tuple(sorted(found, key=lambda choice: (len(choice.moves), choice.size)))


def _leavens(day: Day) -> Iterator[tuple[Dough, float, Move | None]]:
    batch, dough = day.batch, day.batch.dough
    if batch.sourdough:
        usual, low, high = dough.starter_pct, batch.process.starter_low_pct, batch.process.starter_high_pct
    else:
        usual, low, high = dough.yeast_fresh_pct, _YEAST_LEAST, _YEAST_MOST
    yield dough, usual, None
    if batch.leaven_said or not batch.leavened:
        return
    seen = {usual}
    for share in _LEAVEN_SHARES:
        pct = round(min(max(usual * share, low), high), 1 if batch.sourdough else 2)
        if pct in seen:
            continue
        seen.add(pct)
        move = Move("leaven", usual, pct, abs(pct - usual) / usual)
        yield (replace(dough, starter_pct=pct) if batch.sourdough else replace(dough, yeast_fresh_pct=pct)), pct, move


def _warmths(day: Day, wish: Wish) -> Iterator[tuple[float, Move | None]]:
    low, high = day.dough_range_c
    if wish.dough_c is not None:
        yield wish.dough_c, None
        return
    usual = round(min(max(day.batch.process.dough_c, low), high), 1)
    yield usual, None
    if not day.batch.leavened:
        return
    for step in _DOUGH_STEPS_C:
        dough_c = usual + step
        if low <= dough_c <= high and 19 <= dough_c <= 29:
            yield dough_c, Move("dough_c", usual, dough_c, abs(step) / 8)


def _colds(day: Day, wish: Wish) -> Iterator[tuple[Cold, Move | None]]:
    process = day.batch.process
    usual: Cold = process.retard_usual
    allowed: list[Cold] = ["none", *process.retard_where]
    if day.batch.perishable and len(process.retard_where) > 1:
        allowed.append("both")
    if wish.cold == "some":
        allowed.remove("none")
    elif wish.cold is not None:
        allowed = [wish.cold]
    asked = wish.cold is not None
    for cold in sorted(allowed, key=lambda where: where != usual):
        if cold == usual or asked:
            yield cold, None
        else:
            yield cold, Move("cold", usual, cold, 0.5 if cold != "none" else 0.4)
