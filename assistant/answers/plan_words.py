"""A plan in words: each step's label and signs, what was moved, what to watch, what was understood."""

from __future__ import annotations

from collections.abc import Sequence

from assistant.answers.plan_batch import ripe_preferment
from assistant.answers.plan_finish import finish_label, verb_of
from assistant.answers.plan_made import made_words, makes_something
from assistant.answers.plan_said import Settled
from assistant.engine.plan.choices import LAMP_C
from assistant.engine.plan.clock import Clock
from assistant.engine.plan.limits import WARM_AIM_MIN
from assistant.engine.plan.steps import Move, Plan, Task
from assistant.talk.room import Room
from assistant.voice.plan_stretches import Shown
from grammar.requests.plan import PlanRequest
from knowledge import Knowledge
from knowledge.records.steps import Step

COLD_WORDS = {
    "none": "no fridge", "some": "overnight in the fridge", "bulk": "bulk in the fridge",
    "shaped": "shaped in the fridge", "both": "fridge twice",
}  # fmt: skip
_COLD_COSTS = {
    "none": " (milder, less blistered)", "some": "", "bulk": " (sourer; shaped cold)",
    "shaped": " (sourer, a thicker crust)", "both": " (sourer, two trips to the fridge)",
}  # fmt: skip
"""What going cold, or not, costs where it is not the bread's usual way."""
_FRESH_PER_INSTANT = 3.0


def shown_steps(found: Plan, said: Settled, kb: Knowledge, clock: Clock) -> tuple[Shown, ...]:
    """Every step in words."""
    return tuple(shown(task, found, (said,), kb, clock) for task in found.tasks)


def shown(task: Task, found: Plan, users: Sequence[Settled], kb: Knowledge, clock: Clock) -> Shown:
    """One step in words; users: the doughs it is for, the one it stands with first."""
    said, words = users[0], kb.all(Step)[task.step]
    label = _label(task, words, said, found)
    look_for, fallback = "", ""
    if makes_something(task):
        label, look_for, fallback = made_words(task, label, users, kb)
    return Shown(
        task.step,
        label,
        clock.local(task.at),
        clock.local(task.end),
        look_for or _filled(words.look_for, task, said),
        fallback or _filled(words.fallback, task, said),
        aside=bool(task.item),
        load=task.load,
        does=verb_of(task, said.finishing),
    )


def _label(task: Task, words: Step, said: Settled, found: Plan) -> str:
    label = finish_label(task, _filled(words.label, task, said), said.finishing)
    if task.step == "mix" and found.water_c is not None and said.pours_water:
        return label + _water_words(found.water_c)
    if task.load:
        label = f"{label}, load {task.load}"
    return f"{label} ({task.note})" if task.note else label


def _filled(text: str, task: Task, said: Settled) -> str:
    batch = said.batch
    temp = "" if task.temp_c is None else f"{task.temp_c:.0f}"
    h = batch.dough.starter_hydration_pct / 100
    ratio = "" if task.ratio is None else f"1:{task.ratio:g}:{round(task.ratio * h, 2):g}"
    core = "" if batch.core_c is None else f"{batch.core_c:.0f} °C inside, "
    rest = f", rests {task.minutes / 60:.0f} h before it is cut" if batch.process.rest_h else ""
    rise = "" if task.rise_pct is None else f"{task.rise_pct:.0f}"
    return text.format(
        temp=temp, to_temp=f" to {temp} °C" if temp else "", rise=rise, pieces=task.pieces or batch.pieces,
        piece=f"{batch.piece_g:.0f}", count=task.pieces or batch.pieces, ratio=ratio, core=core, rest=rest,
        half_hour="half an hour",
    )  # fmt: skip


def _water_words(water_c: float) -> str:
    if water_c < 1:
        return " (iced water)"
    return f" (water {water_c:.0f} °C)"


def levers(found: Plan, said: Settled) -> list[str]:
    moves = moved_words(found, said, cold=True)
    if not moves:
        return []
    return ["moved to fit: " + "; ".join(moves)]


def moved_words(found: Plan, said: Settled, cold: bool = False) -> list[str]:
    """What was moved from the usual, and what it costs; with `cold`, the fridge too."""
    moves = (move for move in found.moves if cold or move.lever != "cold")
    return [words for move in moves if (words := _move_words(move, said))]


def _move_words(move: Move, said: Settled) -> str:
    if move.lever == "leaven":
        costs = "quicker, milder" if float(move.chosen) > float(move.usual) else "slower, fuller in taste"
        return f"{leaven_name(said)} {move.chosen:g} % instead of {move.usual:g} ({costs})"
    if move.lever == "dough_c":
        costs = "milder" if float(move.chosen) > float(move.usual) else "a little sourer"
        return f"dough mixed to {move.chosen:.1f} °C instead of {move.usual:.1f} ({costs})"
    if move.lever == "cold":
        return COLD_WORDS[str(move.chosen)] + _COLD_COSTS[str(move.chosen)]
    if move.lever == "feed":
        return f"starter fed 1:{move.chosen:g}:{move.chosen:g} instead of 1:{move.usual:g}:{move.usual:g}"
    if move.lever == "aside_yeast":
        return f"its preferment with {float(move.chosen):.2g} % fresh yeast instead of {float(move.usual):.2g}"
    if move.lever == "folds":
        return f"{move.chosen:.0f} of {move.usual:.0f} folds"
    if move.lever == "place":
        return _place_words(float(move.chosen), float(move.usual))
    if move.lever == "kept":
        return f"out {span(round(float(move.chosen)))} early and kept in a cloth: the crust softens"
    if move.lever == "rest":
        return f"cut after {move.chosen:g} h of rest instead of {move.usual:g}: the crumb is a little sticky yet"
    if move.lever == "yeast":
        return f"{instant_pct(move.chosen):.2g} % instant yeast beside the starter, not to stand warm too long"
    return ""


def _place_words(place_c: float, room_c: float) -> str:
    where = f"the dough rises in a place of {place_c:.0f} °C"
    if place_c == LAMP_C and room_c < LAMP_C:
        where += " (the oven with only its lamp on, until it is heated)"
    return where


def instant_pct(fresh_pct: float | str) -> float:
    return float(fresh_pct) / _FRESH_PER_INSTANT


def watch(found: Plan, said: Settled) -> list[str]:
    """The one thing most likely to go wrong."""
    if found.night_min:
        return [f"{found.night_min:.0f} min of work between 22:00 and 06:00: nothing else keeps the hour."]
    bulk = max((task.minutes for task in found.tasks if task.step == "bulk"), default=0)
    if any(move.lever == "ripe" for move in found.moves):
        return ["biggest risk: the starter must be ripe when you mix; if it is not, everything waits for it."]
    if said.batch.perishable and found.warm_min > WARM_AIM_MIN:
        hours = found.warm_min / 60
        return [f"biggest risk: {hours:.1f} h out of the fridge with egg or milk in it; keep it cool, bake it through."]
    if said.kitchen.room_c >= 28:
        return ["biggest risk: a kitchen this warm; look at the dough often and go by the rise."]
    if bulk:
        spread = bulk * 0.25
        late = "a late bulk eats into the fridge" if found.cold_min else "a late bulk makes everything later"
        return [f"biggest risk: the bulk, {spread:.0f} min either way; go by the rise, {late}."]
    return []


_TOLD = (
    "kitchen", "the starter", "overnight", "twice", "ready by", "breakfast", "lunch", "dinner", "supper", "oven", "pot",
    "pieces of", "fridge", "baked at",
)  # fmt: skip


def told(assumed: Sequence[str], request: PlanRequest, room: Room) -> list[str]:
    """What was assumed of the kitchen, the pieces, the starter and the hour stands on the page at once, and what oven
    and pot take by the kitchen's settings."""
    guessed = [one for one in assumed if one.rsplit(": ", 1)[-1].startswith(_TOLD)]
    kept = [
        f"{name} takes {count}"
        for name, said, count in (
            ("oven", request.oven_pieces or request.trays or request.tray_pieces, room.oven_pieces),
            ("pot", request.pot_pieces, room.pot_pieces),
        )
        if count is not None and said is None
    ]
    said = (("assumed: ", guessed), ("by your settings: ", kept))
    line = "; ".join(lead + ", ".join(ones) for lead, ones in said if ones)
    return [line] if line else []


def fed_again(found: Plan, said: Settled, clock: Clock) -> list[str]:
    """Said where a starter that is ripe now is no longer so at the mix."""
    mix = next((task for task in found.tasks if task.step == "mix"), None)
    if said.wish.starter != "ripe" or not found.starter_fed or mix is None:
        return []
    return [f"your ripe starter is past its best by {clock.local(mix.at).strftime('%H:%M')}: feed it once more first."]


def assumed_by(found: Plan, said: Settled) -> list[str]:
    out = []
    if said.batch.sourdough and said.wish.starter == "either":
        out.append("the starter is fed first" if found.starter_fed else "the starter is ripe when you mix")
    if said.wish.cold is None and found.cold != "none":
        out.append("overnight in the fridge" if found.cold != "both" else "twice in the fridge")
    if said.batch.oven_c < said.bread.oven_c_usual:
        out.append(f"baked at {said.batch.oven_c:g} °C, the most your oven gives, and longer")
    return out


def reasons(found: Plan, said: Settled, assumed: Sequence[str]) -> list[str]:
    batch = said.batch
    out = [
        f"bulk to +{batch.rise_bulk_pct:.0f} %, proof to +{batch.rise_proof_pct:.0f} %: {said.bread.name.lower()}",
        f"{found.leaven_pct:g} % {leaven_name(said)}, dough {found.dough_c:.1f} °C, "
        f"kitchen {round(said.kitchen.room_c, 1):g} °C",
    ]
    if assumed:
        out.append("assumed: " + ", ".join(assumed))
    return out


def leaven_name(said: Settled) -> str:
    """What raises the dough."""
    if said.preferment_raises:
        return str(ripe_preferment(said.formula))
    return "starter" if said.batch.sourdough else "fresh yeast"


def span(minutes: int) -> str:
    """A stretch of hours and minutes."""
    hours, rest = divmod(minutes, 60)
    return (f"{hours} h {rest:02d} min" if rest else f"{hours} h") if hours else f"{rest} min"
