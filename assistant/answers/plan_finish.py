"""The end of a bake in words: the bath by its name and strength, wash, steam, fat or griddle, the cloth."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from assistant.engine.naming import figure, short_name
from assistant.engine.plan.steps import Task
from knowledge import Knowledge
from knowledge.records.baths import Bath
from knowledge.records.breads import Bread
from knowledge.records.finishes import Finish

_PLAIN = Finish(id="", breads=(), source="", confidence="rule_of_thumb")


@dataclass(frozen=True, slots=True)
class Finishing:
    """What a bread's pieces go through at the end. bath: None where they go through none; item: what is in it."""

    finish: Finish
    bath: Bath | None
    item: str

    @property
    def cold_dip(self) -> bool:
        """A bath that is not heated."""
        return self.bath is not None and self.bath.dip


def finishing_of(bread: Bread, bath: str | None, kb: Knowledge) -> Finishing:
    """The bread's finish; bath: the one that was asked for, None for its usual one."""
    baths = kb.all(Bath)
    found = baths.get(bath or "") or next((one for one in baths.values() if bread.id in one.breads), None)
    if bread.boil_s_per_side is None:
        found = None
    finish = next((one for one in kb.all(Finish).values() if bread.id in one.breads), _PLAIN)
    item = short_name(kb.ingredients[found.item]) if found is not None and found.item is not None else ""
    return Finishing(finish, found, item)


def finish_label(task: Task, label: str, made: Finishing) -> str:
    """The label of a step at pot, oven or rack."""
    finish, bath = made.finish, made.bath
    temp = "" if task.temp_c is None else f"{task.temp_c:.0f}"
    if bath is not None and task.step == "heat_pot":
        return f"{label}, {bath_words(made)}"
    if bath is not None and task.step == "boil":
        return f"dip {task.pieces}, {bath_words(made)}" if made.cold_dip else f"{label}, {bath.name}"
    if task.step == "preheat" and finish.heat_on:
        return finish.heat_on.format(temp=temp, count=task.pieces)
    if task.step == "bake":
        heat = finish.heat.format(temp=temp, count=task.pieces) if finish.heat else label
        return ", ".join(one for one in (finish.before, heat, finish.in_heat) if one)
    if task.step == "cool" and finish.after:
        return f"{label}, {finish.after}"
    return label


def bath_words(made: Finishing) -> str:
    """ "malt or honey bath, 30 g malt syrup a litre"."""
    bath = made.bath
    if bath is None:
        return ""
    return f"{bath.name}, {figure(bath.usual_g_per_l)} g {made.item} a litre" if made.item else bath.name


def finish_fields(task: Task, made: Finishing) -> dict[str, Any]:
    """What a step at pot, oven or rack says more than others."""
    if task.step in ("boil", "heat_pot") and made.bath is not None:
        return {"bath": made.bath.id}
    said = {"bake": (made.finish.before, made.finish.in_heat), "cool": (made.finish.after,)}.get(task.step, ())
    also = [one for one in said if one]
    return {"also": also} if also else {}


def verb_of(task: Task, made: Finishing) -> str:
    """What is done at pot or oven in one word: boil, dip, bake, fry, griddle; empty for other steps."""
    if task.step == "boil":
        return "dip" if made.cold_dip else "boil"
    return (made.finish.heat or "bake").split(" ", 1)[0] if task.step == "bake" else ""
