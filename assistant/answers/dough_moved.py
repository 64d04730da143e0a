"""Rows of a dough that give way to others: all of the rye for spelt, half of the poppy seeds for sesame."""

from __future__ import annotations

from dataclasses import replace

from assistant.answers.dough_said import solved
from assistant.engine.dough import Formula
from assistant.engine.naming import figure, short_name
from assistant.engine.refusal import Refused
from assistant.talk.room import Room
from grammar.requests.formula import FormulaRequest, Part
from grammar.requests.formula_moves import BLEND, FREED, PLAIN, Move
from grammar.requests.formula_slots import WHITE

_ALL = 1e-6
"""Less than this of a row, in % of the flour, is nothing."""


def share_pct(now: Formula, name: str) -> float:
    """How much of a row is in a dough, as its share is told: hydration, salt, starter, else % of all flour."""
    shares = {"hydration": now.hydration_pct, "salt": now.salt_pct, "starter": now.starter_pct or 0.0}
    return shares.get(name, 100 * now.row_g(name) / now.flour_g)


def by_moves(said: FormulaRequest, line: FormulaRequest, room: Room) -> FormulaRequest:
    """The dough with each row of a move smaller and the other larger by as much. Raises Refused where there is none of
    it, or less."""
    for move in line.moves:
        freed = move.out == FREED
        said = _gaining(said, move.into, _freed(line, room), room) if freed else _moved(said, move, room)
    return replace(said, moves=())


def _freed(line: FormulaRequest, room: Room) -> float:
    """How many per cent of all flour the line takes from flours that were in the dough."""
    earlier = room.formula_said
    before = solved(earlier, room)
    points = sum(share_pct(before, part.item[0]) - (part.pct or 0.0) for part in line.parts if part.flour)
    points += sum(share_pct(before, name) for name in line.without if name.startswith("flour_"))
    points += sum(share_pct(before, name) * (1 - factor) for name, factor in line.times if name.startswith("flour_"))
    if points <= _ALL:
        raise Refused("nothing is taken from another flour there", "rye down to 5 %, the difference to wholemeal")
    return points


def _gaining(said: FormulaRequest, into: str, points: float, room: Room) -> FormulaRequest:
    there = next((part for part in said.parts if part.item[0] == into), None)
    if into in WHITE and there is None:
        return said  # it fills the flour up as it is
    if there is not None and (there.rest or (there.pct is None and there.g is None)):
        return said
    if there is not None and there.pct is not None:
        more = replace(there, pct=there.pct + points)
        return replace(said, parts=tuple(more if part is there else part for part in said.parts))
    was = share_pct(solved(said, room), into) if there is not None else 0.0
    rest = tuple(part for part in said.parts if part is not there)
    return replace(said, parts=(*rest, Part((into,), pct=was + points, flour=into.startswith("flour_"))))


def _moved(said: FormulaRequest, move: Move, room: Room) -> FormulaRequest:
    now = solved(said, room)
    if move.out == BLEND:
        return _of_the_blend(said, move, room)
    if move.out == PLAIN:
        white = max(WHITE, key=lambda item: (share_pct(now, item), item == "flour_bread"))
        move = replace(move, out=white)
    was = share_pct(now, move.out)
    points = move.pct if move.pct is not None else was * move.part
    points = 100 * move.g / now.flour_g if move.g is not None else points
    name = short_name(room.kb.ingredients[move.out])
    if was <= _ALL:
        raise Refused(f"there is no {name} in this dough", f"10 % {short_name(room.kb.ingredients[move.into])}")
    if move.g is not None and points > was + _ALL:
        most = f"{figure(now.row_g(move.out))} g"
        raise Refused(f"there is only {most} of {name} in it", f"at most {most}")
    if points >= was - _ALL and move.pct is None:
        return _renamed(said, move)
    there = next((part for part in said.parts if part.item[0] == move.out), None)
    if there is None or there.pct is None:
        if there is not None and there.g is not None:
            return _weighed(said, there, move, points / was)
        return _gaining(said, move.into, points, room)
    if points > there.pct + _ALL:
        raise Refused(f"there is only {figure(there.pct)} % of {name} in it", f"at most {figure(there.pct)} %")
    less = replace(there, pct=there.pct - points)
    kept = tuple(less if part is there else part for part in said.parts if part is not there or less.pct)
    return _gaining(replace(said, parts=kept), move.into, points, room)


def _of_the_blend(said: FormulaRequest, move: Move, room: Room) -> FormulaRequest:
    """So much of all flour, each flour giving its share of it."""
    points = move.pct if move.pct is not None else 100 * move.part
    if move.g is not None:
        points = 100 * move.g / solved(said, room).flour_g
    weighed_g = sum(part.g or 0.0 for part in said.parts if part.flour)
    taken_g = move.g if move.g is not None else weighed_g * points / 100
    left = 1 - (taken_g / weighed_g if weighed_g else points / 100)
    others = tuple(
        replace(part, pct=part.pct and part.pct * left, g=part.g and part.g * left) if part.flour else part
        for part in said.parts
    )
    if weighed_g:
        return replace(said, parts=_with_more(others, move.into, taken_g))
    return _gaining(replace(said, parts=others), move.into, points, room)


def _with_more(parts: tuple[Part, ...], flour: str, g: float) -> tuple[Part, ...]:
    """Weighed flours with so many grams more of one of them, or of another."""
    there = [part for part in parts if part.item[0] == flour and part.g is not None]
    more = Part((flour,), g=sum(part.g or 0.0 for part in there) + g, flour=True)
    return (*(part for part in parts if part not in there), more)


def _renamed(said: FormulaRequest, move: Move) -> FormulaRequest:
    """The whole row is another: with one of the name there already, both are one."""
    there = next((part for part in said.parts if part.item[0] == move.out), None)
    old = there if there is not None else Part((move.out,), rest=True, flour=True)
    other = next((part for part in said.parts if part.item[0] == move.into), None)
    new = replace(old, item=(move.into,))
    if other is not None and old.pct is not None and other.pct is not None:
        new = replace(new, pct=old.pct + other.pct)
    if other is not None and old.g is not None and other.g is not None:
        new = replace(new, g=old.g + other.g)
    rest = tuple(part for part in said.parts if part is not there and part is not other)
    return replace(said, parts=(*rest, new))


def _weighed(said: FormulaRequest, there: Part, move: Move, part: float) -> FormulaRequest:
    g = there.g or 0.0
    rest = tuple(replace(one, g=g * (1 - part)) if one is there else one for one in said.parts)
    return replace(said, parts=_with_more(rest, move.into, g * part))
