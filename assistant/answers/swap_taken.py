"""A swap that was offered and is taken: the dough in hand changes, and is answered as a formula."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from assistant import answers as registry
from assistant.answers.dough_said import solved
from assistant.answers.in_the_bowl import name_of
from assistant.engine.bowl import STARTER
from assistant.engine.composition import Portion
from assistant.engine.dough import Formula
from assistant.engine.refusal import Refused
from assistant.engine.swaps import Choice, Swapped
from assistant.talk.memory import kept
from assistant.talk.reply import Outcome
from assistant.talk.room import Room
from grammar.requests.formula import FormulaRequest, Part


def taken(picked: Iterable[tuple[Swapped, Choice]], room: Room) -> Outcome:
    """The dough in hand with these swaps made. Refused without a dough in hand.

    Parts are kept as percent of all flour, so the dough keeps its size, or its flour where a recipe gave every weight;
    its hydration pours the water anew.
    """
    said = room.formula_said
    if not isinstance(said, FormulaRequest) or room.bake is None:
        raise Refused("There is no dough in hand to change.", "Say the dough first: 24 rolls of 80 g at 66 %.")
    formula = solved(said, room)
    done = []
    for swapped, choice in picked:
        said = _wetter(_made(said, swapped.out, choice, formula, room), choice, formula)
        done.append(f"{name_of(swapped.out.item, room)} out, {name_of(choice.into[0].item, room)} in")
    if "recipe" in room.bake.facts and said.dough_g is not None:
        said = replace(said, dough_g=None, all_flour_g=formula.flour_g)
    outcome = registry.answer(said, replace(room, bound=None))
    bench = room.bench.with_changed_bake(kept(said))
    change = {"what": "formula", "new": False, "dough": room.bake.name}
    read_as = f"{'; '.join(done)}; {outcome.read_as}"
    return replace(outcome, bench=bench, change=change, focus=said, read_as=read_as)


def _wetter(said: FormulaRequest, choice: Choice, formula: Formula) -> FormulaRequest:
    """The dough as much wetter as what comes in brings of water, where none is poured that could be left out for it."""
    over_g = -formula.poured_g - sum(part.g for part in choice.also if part.item == "water")
    if said.hydration_pct is None or over_g <= 0:
        return said
    return replace(said, hydration_pct=said.hydration_pct + 100 * over_g / formula.flour_g)


def _made(said: FormulaRequest, out: Portion, choice: Choice, formula: Formula, room: Room) -> FormulaRequest:
    """One swap made in what was said of the dough."""
    foods = room.kb.ingredients
    flour_g = formula.flour_g
    group = foods[out.item].group if out.item in foods else "starter"
    if group == "salt":
        return said  # the same weight of another salt: the formula stays
    whole_g = formula.row_g(out.item) if group != "starter" else (formula.starter.g if formula.starter else 0.0)
    left = max(1 - out.g / whole_g, 0.0) if whole_g > 0 else 0.0
    said = _taken_out(said, out.item, left, group)
    for part in (*choice.into, *choice.also):
        if group == "starter" and part.item in foods and foods[part.item].group in ("flour", "water"):
            continue  # the starter's own flour and water: the dough's size and hydration bring them
        said = _put_in(said, part, flour_g, left, room)
    return said


def _taken_out(said: FormulaRequest, item: str, left: float, group: str) -> FormulaRequest:
    if group == "starter":
        without = tuple(dict.fromkeys((*said.without, "starter"))) if left < 0.005 else said.without
        return replace(said, starter_pct=None, prefermented_pct=None, starter_g=None, without=without)
    parts = []
    for part in said.parts:
        if item not in part.item[:1]:
            parts.append(part)
        elif left > 0.005:
            pct, g = (None if value is None else value * left for value in (part.pct, part.g))
            parts.append(replace(part, pct=pct, g=g))
    return replace(said, parts=tuple(parts))


def _put_in(said: FormulaRequest, part: Portion, flour_g: float, left: float, room: Room) -> FormulaRequest:
    """One thing put in: water into a poured mass only, since a hydration pours it by itself."""
    foods = room.kb.ingredients
    if part.item == "water":
        return said if said.water_g is None else replace(said, water_g=said.water_g + part.g)
    pct = 100 * part.g / flour_g
    if part.item == STARTER or part.item.startswith("starter"):
        without = tuple(item for item in said.without if item != "starter")
        return replace(said, starter_pct=20.0, without=without)
    group = foods[part.item].group
    if group == "salt":
        now = said.salt_pct if said.salt_pct is not None else solved(said, room).salt_pct
        return replace(said, salt_pct=max(now + pct, 0.0))
    there = next((one for one in said.parts if one.item[:1] == (part.item,)), None)
    if group == "flour":
        if part.g < 0:  # the blend's own rest gives way; a flour that was weighed is so much less
            weighed = there is not None and there.g is not None
            if weighed and there is not None:
                less = replace(there, g=max((there.g or 0.0) + part.g, 0.0))
                return replace(said, parts=tuple(less if one is there else one for one in said.parts))
            return said if said.flour_g is None else replace(said, flour_g=max(said.flour_g + part.g, 0.0))
        new = Part((part.item,), rest=True, flour=True) if left < 0.005 else Part((part.item,), pct=pct, flour=True)
        return replace(said, parts=(*(one for one in said.parts if one is not there), new))
    if part.g < 0 and there is None:
        return said
    total = pct + (there.pct or 0.0) if there is not None else pct
    new = Part((part.item,), pct=max(total, 0.0))
    return replace(said, parts=(*(one for one in said.parts if one is not there), new))
