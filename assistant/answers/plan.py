"""A plan by the clock: every step with its hours, what was moved to keep what was asked, and what to watch."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from datetime import datetime, timedelta
from typing import Any

from assistant.answers import answers
from assistant.answers.plan_said import Settled, settled, trade_of
from assistant.bench import Bench
from assistant.engine.cautions import Scene, allergen_line, cautions
from assistant.engine.plan.ahead import plan_ahead
from assistant.engine.plan.clock import Clock
from assistant.engine.plan.course import Course
from assistant.engine.plan.day import Day
from assistant.engine.plan.late import delayed
from assistant.engine.plan.limits import WARM_AIM_MIN, WARM_MOST_MIN
from assistant.engine.plan.search import Miss, plan
from assistant.engine.plan.steps import Move, Plan, Task
from assistant.engine.plan.ways import Way, plan_of, ways_on
from assistant.engine.refusal import Refused
from assistant.memory import kept
from assistant.reply import Outcome
from assistant.room import Room
from assistant.voice.page import Block, Line, Page
from assistant.voice.plan_page import Shown, plan_page
from grammar.requests.formula import Part
from grammar.requests.plan import PlanChange, PlanRequest
from knowledge import Knowledge
from knowledge.records.cautions import Caution
from knowledge.records.steps import Step

_COLD_WORDS = {
    "none": "no fridge", "some": "overnight in the fridge", "bulk": "bulk in the fridge",
    "shaped": "shaped in the fridge", "both": "fridge twice",
}  # fmt: skip
COLDEST_C, WARMEST_C = 1.0, 42.0
COOL_CORNER_C = 15.0
MORNING_H = 7
_FRESH_PER_INSTANT = 3.0
_TOPIC = "plan"


@answers(PlanRequest)
@answers(PlanChange)
def answer(request: PlanRequest, room: Room) -> Outcome:
    """The plan for a wish, the last plan moved along, or the ways on at bedtime."""
    if request.kitchen_c is not None and not COLDEST_C <= request.kitchen_c <= WARMEST_C:
        hot = request.kitchen_c > WARMEST_C
        raise Refused(
            f"at {request.kitchen_c:.0f} °C {'the leaven dies' if hot else 'nothing rises'}",
            f"a kitchen between {COLDEST_C:g} and {WARMEST_C:g} °C",
        )
    if request.late_min is not None:
        moved = _late(request, room)
        if moved is not None:
            return moved
    said = settled(request, room)
    if request.bedtime and request.risen_pct is not None:
        return _bedtime(request, said, room)
    make = plan_ahead if said.wish.ahead and said.wish.ready_by is not None else plan
    found = make(said.batch, said.kitchen, said.wish, trade_of(room.kb))
    if isinstance(found, Miss):
        raise _refusal(found, said, room)
    return _outcome(request, said, found, room, said.assumed)


def _outcome(
    request: PlanRequest, said: Settled, found: Plan, room: Room, assumed: Sequence[str], notes: Sequence[str] = ()
) -> Outcome:
    clock = Clock(said.wish.now)
    shown = _shown(found, said, room.kb, clock)
    ready = clock.local(found.ready_min)
    extra = (*assumed, *_assumed_by(found, said))
    told = (*notes, *_levers(found, said), *_watch(found, said), *_told(extra))
    bench, change = _benched(found, said, room)
    return Outcome(
        kind="plan",
        answer=_fields(found, said, shown, clock),
        read_as=_read_as(request, said),
        page=plan_page(shown, ready, told, _reasons(found, said, extra), said.wish.now.date()),
        assumed=tuple(dict.fromkeys(extra)),
        cautions=_cautions(said, found, room),
        sources=("fermentation model (knowledge/kinetics)", said.batch.process.source),
        bench=bench,
        change=change,
        focus=replace(request, late_min=None, bedtime=False, risen_pct=None),
    )


# The machine form.


def _fields(found: Plan, said: Settled, shown: Sequence[Shown], clock: Clock) -> dict[str, Any]:
    steps = [
        {
            "step": task.step,
            "label": one.label,
            "start": _iso(clock.local(task.at)),
            "end": _iso(clock.local(task.end)),
            "hands_on": task.hands_on,
            "temp_c": task.temp_c,
        }
        for task, one in zip(found.tasks, shown, strict=True)
    ]
    return {
        "start_at": steps[0]["start"],
        "ready_at": _iso(clock.local(found.ready_min)),
        "kitchen_c": said.kitchen.room_c,
        "steps": steps,
        "bread": said.bread.id,
        "pieces": said.batch.pieces,
        "starter_pct": found.leaven_pct if said.batch.sourdough else 0.0,
        "dough_c": found.dough_c,
        "water_c": found.water_c,
        "cold": found.cold,
        "cold_min": found.cold_min,
        "night_hands_min": found.night_min,
        "moved": [{"lever": m.lever, "usual": m.usual, "chosen": m.chosen} for m in found.moves],
    }


def _iso(moment: datetime) -> str:
    return moment.isoformat(timespec="minutes")


# The steps in words.


def _shown(found: Plan, said: Settled, kb: Knowledge, clock: Clock) -> tuple[Shown, ...]:
    words = kb.all(Step)
    return tuple(
        Shown(
            task.step,
            _label(task, words[task.step], said, found),
            clock.local(task.at),
            clock.local(task.end),
            _filled(words[task.step].look_for, task, said),
            _filled(words[task.step].fallback, task, said),
        )
        for task in found.tasks
    )


def _label(task: Task, words: Step, said: Settled, found: Plan) -> str:
    label = _filled(words.label, task, said)
    if task.step == "feed_starter":
        return label + _feed_grams(task, said)
    if task.step == "mix" and found.water_c is not None:
        return label + _water_words(found.water_c)
    if task.note:
        return f"{label} ({task.note})"
    return label


def _filled(text: str, task: Task, said: Settled) -> str:
    batch = said.batch
    temp = "" if task.temp_c is None else f"{task.temp_c:.0f}"
    h = batch.dough.starter_hydration_pct / 100
    ratio = "" if task.ratio is None else f"1:{task.ratio:g}:{round(task.ratio * h, 2):g}"
    core = "" if batch.core_c is None else f"{batch.core_c:.0f} °C inside, "
    rest = f", rests {batch.process.rest_h:g} h before it is cut" if batch.process.rest_h else ""
    rise = "" if task.rise_pct is None else f"{task.rise_pct:.0f}"
    return text.format(
        temp=temp, rise=rise, pieces=task.pieces or batch.pieces, piece=f"{batch.piece_g:.0f}",
        count=task.pieces or batch.pieces, ratio=ratio, core=core, rest=rest, half_hour="half an hour",
    )  # fmt: skip


def _feed_grams(task: Task, said: Settled) -> str:
    """Grams of the feed that leave what the dough needs and a little in the jar."""
    starter = said.formula.starter
    if starter is None or task.ratio is None:
        return ""
    water = task.ratio * said.batch.dough.starter_hydration_pct / 100
    seed = starter.g * 1.1 / (1 + task.ratio + water)
    return f": {seed:.0f} + {seed * task.ratio:.0f} + {seed * water:.0f} g"


def _water_words(water_c: float) -> str:
    if water_c < 1:
        return " (iced water)"
    return f" (water {water_c:.0f} °C)"


# What was moved, what to watch.


def _levers(found: Plan, said: Settled) -> list[str]:
    moves = [words for move in found.moves if (words := _move_words(move, said))]
    if not moves:
        return []
    return ["moved to fit: " + "; ".join(moves)]


def _move_words(move: Move, said: Settled) -> str:
    if move.lever == "leaven":
        name = "starter" if said.batch.sourdough else "fresh yeast"
        return f"{name} {move.chosen:g} % instead of {move.usual:g}"
    if move.lever == "dough_c":
        return f"dough mixed to {move.chosen:.1f} °C instead of {move.usual:.1f}"
    if move.lever == "cold":
        return _COLD_WORDS[str(move.chosen)]
    if move.lever == "feed":
        return f"starter fed 1:{move.chosen:g}:{move.chosen:g} instead of 1:{move.usual:g}:{move.usual:g}"
    if move.lever == "folds":
        return f"{move.chosen:.0f} of {move.usual:.0f} folds"
    if move.lever == "yeast":
        return f"{_instant(move.chosen):.2g} % instant yeast beside the starter, not to stand warm too long"
    return ""


def _instant(fresh_pct: float | str) -> float:
    return float(fresh_pct) / _FRESH_PER_INSTANT


def _watch(found: Plan, said: Settled) -> list[str]:
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


_TOLD = ("kitchen", "the starter", "overnight", "twice", "ready by", "breakfast", "lunch", "dinner", "supper")


def _told(assumed: Sequence[str]) -> list[str]:
    """What was assumed of the kitchen, the starter and the hour stands on the page at once."""
    told = [one for one in assumed if one.startswith(_TOLD)]
    return ["assumed: " + ", ".join(told)] if told else []


def _assumed_by(found: Plan, said: Settled) -> list[str]:
    out = []
    if said.batch.sourdough and said.wish.starter == "either":
        out.append("the starter is fed first" if found.starter_fed else "the starter is ripe when you mix")
    if said.wish.cold is None and found.cold != "none":
        out.append("overnight in the fridge" if found.cold != "both" else "twice in the fridge")
    return out


def _reasons(found: Plan, said: Settled, assumed: Sequence[str]) -> list[str]:
    batch = said.batch
    out = [
        f"bulk to +{batch.rise_bulk_pct:.0f} %, proof to +{batch.rise_proof_pct:.0f} %: {said.bread.name.lower()}",
        f"{found.leaven_pct:g} % {'starter' if batch.sourdough else 'fresh yeast'}, dough {found.dough_c:.1f} °C, "
        f"kitchen {round(said.kitchen.room_c, 1):g} °C",
    ]
    if assumed:
        out.append("assumed: " + ", ".join(assumed))
    return out


def _cautions(said: Settled, found: Plan, room: Room) -> tuple[str, ...]:
    items = [row.item for row in said.formula.rows if row.item in room.kb.ingredients]
    scene = Scene(kind="plan", line=room.text, ingredients=frozenset(items), breads=frozenset({said.bread.id}))
    notes = [one.text for one in cautions(scene, room.kb.all(Caution), room.kb.ingredients)]
    if said.batch.perishable:
        notes.insert(
            0,
            f"egg or milk in the dough: {found.warm_min / 60:.1f} h out of the fridge in all; food-safety advice for "
            f"perishables is 2 h, the trade holds such doughs up to {WARM_AIM_MIN // 60} h; local advice goes first",
        )
    if said.batch.boil_s_per_side is not None:
        notes.append("boiling water: lower the pieces in with a slotted spoon, keep children away from the pot")
    if said.formula.starter is not None:
        items.append("flour_bread")
    line = allergen_line(items, room.kb.ingredients)
    return (*notes, line) if line else tuple(notes)


# The bench, and what was understood.


def _benched(found: Plan, said: Settled, room: Room) -> tuple[Bench, Mapping[str, Any] | None]:
    """A dough named in the line becomes the bake in hand, with the leaven the plan settled on."""
    clock = Clock(said.wish.now)
    title = f"{said.batch.pieces} {said.bread.said_as[0]}{'' if said.batch.pieces == 1 else 's'}"
    if not said.fresh and room.bake is not None:
        title = room.bake.name
    memory = {
        "now": _iso(said.wish.now.replace(tzinfo=None)),
        "dough": title,
        "steps": [{"label": t.step.replace("_", " "), "start": _iso(clock.local(t.at))} for t in found.tasks],
        "tasks": [[t.step, t.at, t.minutes, t.temp_c, t.pieces, t.rise_pct, t.ratio, t.note] for t in found.tasks],
    }
    bench = room.bench.with_notes(_TOPIC, memory)
    if not said.fresh:
        return bench, {"what": "plan"}
    dough = said.dough
    if said.batch.sourdough and any(move.lever == "leaven" for move in found.moves):
        dough = replace(dough, starter_pct=found.leaven_pct)
    yeast = next((move for move in found.moves if move.lever == "yeast"), None)
    if yeast is not None:
        dough = replace(dough, starter_pct=found.leaven_pct)
        dough = replace(dough, parts=(*dough.parts, Part(("yeast_instant",), pct=round(_instant(yeast.chosen), 2))))
    return bench.with_bake(kept(dough), room.stamp(), title), {"what": "plan", "new": True, "dough": title}


def _read_as(request: PlanRequest, said: Settled) -> str:
    wish = said.wish
    parts = [f"{said.batch.pieces} {said.bread.name.lower()} of {said.batch.piece_g:.0f} g"]
    if wish.ready_by is not None:
        parts.append(f"ready by {wish.ready_by.strftime('%a %H:%M')}")
    elif wish.start_at is not None:
        parts.append(f"starting {wish.start_at.strftime('%a %H:%M')}")
    else:
        parts.append("ready as soon as can be")
    parts.append(f"kitchen {round(said.kitchen.room_c, 1):g} °C")
    if said.kitchen.night_c is not None:
        parts.append(f"{said.kitchen.night_c:g} °C at night")
    for busy in wish.busy:
        day = f" on {busy.day.strftime('%a')}" if busy.day is not None else ""
        parts.append(f"{busy.why} {busy.start.strftime('%H:%M')} to {busy.end.strftime('%H:%M')}{day}")
    if request.starter_pct is not None:
        parts.append(f"{request.starter_pct:g} % starter")
    if wish.starter != "either":
        parts.append("starter ripe" if wish.starter == "ripe" else "starter fed first")
    if wish.cold is not None:
        parts.append(_COLD_WORDS[wish.cold])
    if wish.cold_h is not None:
        parts.append(f"{wish.cold_h:g} h cold")
    if wish.ahead:
        parts.append("baked ahead")
    return ", ".join(parts)


# Refused.


def _refusal(miss: Miss, said: Settled, room: Room) -> Refused:
    clock = Clock(said.wish.now)
    asked = said.wish.ready_by
    hour = asked.strftime("%a %H:%M") if asked is not None else ""
    if miss.limit == "past":
        return Refused(f"{hour} has gone by: it is {room.now.strftime('%a %H:%M')}", "an hour still to come")
    name = said.bread.name.lower()
    nearest = None
    fields: dict[str, Any] | None = None
    if miss.nearest is not None:
        shown = _shown(miss.nearest, said, room.kb, clock)
        fields = _fields(miss.nearest, said, shown, clock)
        nearest = _nearest_words(miss.nearest, said, clock)
    if miss.limit == "late" and miss.nearest is not None:
        why = f"nothing gets {name} ready by {hour}: the soonest is {_span(miss.minutes)} later"
    elif miss.limit == "early" and miss.nearest is not None:
        why = f"no plan ends within 45 min before {hour}: the nearest is {_span(miss.minutes + 45)} early"
    elif miss.limit == "warm":
        why = f"a dough with egg or milk would stand warm for more than {WARM_MOST_MIN // 60} h with starter alone"
        nearest = nearest or "a little yeast beside the starter, or a dough without egg and milk"
    elif miss.limit == "taken":
        why = "the hours that are taken leave no room for the work"
        nearest = nearest or "fewer hours taken, or a later hour"
    elif miss.limit == "never":
        why = f"this dough does not get there in a kitchen of {round(said.kitchen.room_c, 1):g} °C"
        nearest = nearest or "a warmer place for the dough, or more starter"
    else:
        why = f"no plan is ready by {hour}"
        nearest = nearest or "a later hour, or fewer hours taken"
    warm = _warm_place(miss, said, room)
    return Refused(why, " ".join(part for part in (nearest, warm) if part), fields)


def _nearest_words(nearest: Plan, said: Settled, clock: Clock) -> str:
    levers = _levers(nearest, said)
    start = clock.local(nearest.start_min).strftime("%a %H:%M")
    ready = clock.local(nearest.ready_min).strftime("%a %H:%M")
    first = nearest.tasks[0].step.replace("_", " ")
    return f"nearest: {first} at {start}, ready {ready}" + (f"; {levers[0]}." if levers else ".")


def _warm_place(miss: Miss, said: Settled, room: Room) -> str:
    """Whether a warm place would keep the hour."""
    if miss.limit != "late" or said.kitchen.room_c >= 24:
        return ""
    warm = replace(said.kitchen, room_c=26.0, night_c=None)
    found = plan(said.batch, warm, said.wish, trade_of(room.kb))
    return "In a place of 26 °C (oven with only its lamp on) the hour can be kept." if isinstance(found, Plan) else ""


def _span(minutes: int) -> str:
    hours, rest = divmod(minutes, 60)
    return (f"{hours} h {rest:02d} min" if rest else f"{hours} h") if hours else f"{rest} min"


# Moved along, and bedtime.


def _late(request: PlanRequest, room: Room) -> Outcome | None:
    """The last plan, behind by so much; None where there is no plan to move."""
    memory = room.bench.notes.get(_TOPIC)
    if not memory:
        raise Refused("there is no plan to be late for", "ask for one first: 24 rings ready by 9 on Sunday")
    made = datetime.fromisoformat(memory["now"])
    said = settled(replace(request, late_min=None), room)
    now = room.now.replace(second=0, microsecond=0)
    clock = Clock(made.replace(tzinfo=now.tzinfo))
    tasks = tuple(Task(*row) for row in memory["tasks"])
    earlier = Plan(
        now=clock.now, tasks=tasks, moves=(), night_min=0.0, warm_min=0.0, leaven_pct=said.batch.dough.starter_pct,
        dough_c=said.batch.process.dough_c, cold="none", cold_min=0, water_c=None, starter_fed=False,
    )  # fmt: skip
    by = round(request.late_min or 0)
    moved = delayed(earlier, max(0, int(clock.minutes(now))), by, clock.spans(said.wish.busy))
    notes = []
    if moved.absorbed_min:
        notes.append(f"the fridge takes up {_span(moved.absorbed_min)}: what comes after it stays where it was.")
    if moved.later_min:
        notes.append(f"ready {_span(moved.later_min)} later than before.")
    notes += [f"{task.step.replace('_', ' ')} now falls into taken hours." for task in moved.clashes[:2]]
    cold = sum(task.minutes for task in moved.plan.tasks if task.step == "retard")
    plan_now = replace(moved.plan, cold_min=cold, cold="shaped" if cold else "none")
    settled_then = replace(said, fresh=False, wish=replace(said.wish, now=clock.now))
    return _outcome(request, settled_then, plan_now, room, said.assumed, notes)


def _bedtime(request: PlanRequest, said: Settled, room: Room) -> Outcome:
    """The ways on for a bulk that is not up at bedtime, side by side; the plan is the first of them."""
    clock = Clock(said.wish.now)
    day = Day(said.batch, said.kitchen, trade_of(room.kb), clock)
    course = Course(day, said.batch.dough, said.batch.process.dough_c, 0)
    local = said.wish.now.replace(tzinfo=None)
    wake = local.replace(hour=MORNING_H, minute=0) + timedelta(days=0 if local.hour < MORNING_H else 1)
    sleep = next((busy for busy in said.wish.busy if busy.why == "asleep"), None)
    if sleep is not None:
        wake = wake.replace(hour=sleep.end.hour, minute=sleep.end.minute)
    morning = int(clock.minutes(wake))
    cool_c = min(COOL_CORNER_C, said.kitchen.room_c - 4)
    found = ways_on(day, course, request.risen_pct or 0.0, morning, cool_c)
    if not found:
        raise Refused("a dough this far on does not keep until the morning", "shape it now and put it in the fridge")
    safest = found[0]
    base = Plan(
        now=said.wish.now, tasks=safest.tasks, moves=(), night_min=0.0, warm_min=0.0,
        leaven_pct=said.batch.dough.starter_pct or said.batch.dough.yeast_fresh_pct, dough_c=course.dough_c,
        cold="bulk", cold_min=0, water_c=None, starter_fed=False,
    )  # fmt: skip
    outcome = _outcome(request, said, plan_of(safest, base), room, (*said.assumed, f"up at {wake.strftime('%H:%M')}"))
    rows = tuple(f"{_way_name(way, cool_c)}: {_way_words(way, clock)}" for way in found)
    blocks: tuple[Block, ...] = (
        Line(f"+{request.risen_pct:.0f} % of the +{said.batch.rise_bulk_pct:.0f} % wanted. Ways on:", role="head"),
        *(Line(row) for row in rows),
        *(replace(block, more=True) for block in outcome.page.blocks),
    )
    ways = [
        {
            "way": way.name,
            "rise_pct": way.risen_pct,
            "up_at": None if way.up_min is None else _iso(clock.local(way.up_min)),
            "ready_at": _iso(clock.local(way.ready_min)),
            "risk": way.risk,
        }
        for way in found
    ]
    return replace(outcome, answer={**outcome.answer, "ways": ways}, page=Page(blocks))


def _way_name(way: Way, cool_c: float) -> str:
    return {"fridge": "fridge now", "cool": f"coolest corner, {cool_c:.0f} °C", "bench": "left on the bench"}[way.name]


def _way_words(way: Way, clock: Clock) -> str:
    over = "over +200 %" if way.risen_pct > 200 else f"+{way.risen_pct:.0f} %"
    return f"{over} by the morning, ready {clock.local(way.ready_min).strftime('%a %H:%M')}; {way.risk}"
