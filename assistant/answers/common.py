"""Answers about the talk itself: help, show again, settings, start over, back."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from typing import Any

from assistant import answers as registry
from assistant.answers import answers
from assistant.engine.naming import short_name
from assistant.memory import recalled
from assistant.reply import Outcome
from assistant.room import Room
from assistant.voice.page import Line, Page
from grammar.frames import Frame
from grammar.requests import frames
from grammar.requests.common import (
    BackRequest,
    HelpRequest,
    MoreRequest,
    SettingRequest,
    ShowRequest,
    StartOverRequest,
)

TOPICS = {
    "dough": "a dough to weigh out",
    "conversion": "cups, ounces and recipes to grams",
    "timing": "how long it takes",
    "water": "water temperature",
    "feed": "feeding the starter",
    "plan": "a plan by the clock",
    "loads": "pot and oven loads",
    "swap": "something is missing",
    "mend": "something went in wrong",
    "bath": "the boiling bath",
    "topping": "seeds and toppings",
    "diagnosis": "what went wrong",
    "explanation": "how and why",
    "card": "a card to hand on",
    "cost": "cost and shopping",
    "nutrition": "food values",
    "progress": "where the bake stands",
    "timer": "timers",
    "notes": "notes, and what was before",
    "setting": "what your kitchen keeps to",
    "talk": "undo, show again, start over",
}
"""Help topics in the order of a bake, by the frames' topics."""

SETTING_NAMES = {
    "salt_pct": ("salt", "% of flour"),
    "loss_pct": ("bench loss", "%"),
    "starter_pct": ("starter", "% of the added flour"),
    "starter_hydration_pct": ("starter hydration", "%"),
    "hydration_pct": ("hydration", "%"),
    "kitchen_c": ("kitchen", "°C"),
    "fridge_c": ("fridge", "°C"),
    "piece_g": ("piece", "g"),
    "altitude_m": ("altitude", "m"),
    "tap_c": ("tap water", "°C"),
    "friction_c": ("mixing warms the dough by", "°C"),
    "oven_takes": ("oven takes", "pieces"),
    "pot_takes": ("pot takes", "pieces"),
    "cup": ("cups", ""),
    "flour": ("flour", ""),
}


def number(value: float) -> str:
    """A figure as people write it: no needless zeros, at most one decimal above ten and two below."""
    return f"{round(value, 2 if abs(value) < 10 else 1):g}"


def setting_said(name: str, value: Any, room: Room) -> str:
    """A setting in words: "kitchen 19 °C"."""
    if name.startswith("price_"):
        item = name.removeprefix("price_")
        food = room.kb.ingredients.get(item)
        return f"price of {short_name(food) if food is not None else item} {number(float(value))} a kg"
    label, unit = SETTING_NAMES.get(name, (name.replace("_", " "), ""))
    if name == "flour" and value in room.kb.ingredients:
        value = room.kb.ingredients[value].name
    said = number(value) if isinstance(value, int | float) else str(value)
    return f"{label} {said}" + (f" {unit}" if unit else "")


@answers(SettingRequest)
def setting(request: SettingRequest, room: Room) -> Outcome:
    """A standing setting kept; it holds until it is changed or undone."""
    values = dict(request.values)
    said = ", ".join(setting_said(name, value, room) for name, value in values.items())
    bench = room.bench.with_settings(values)
    (name, value), *others = values.items()
    answer: dict[str, Any] = {"name": name, "value": value}
    if others:
        answer["settings"] = [{"name": n, "value": v} for n, v in values.items()]
    before = {n: room.bench.settings.get(n) for n in values}
    held = ", ".join(setting_said(n, v, room) for n, v in before.items() if v is not None and v != values[n])
    text = f"Kept: {said}." + (f" It was {held}." if held else "")
    return Outcome(
        "setting",
        answer,
        f"from now on: {said}",
        Page((Line(text),)),
        bench=bench,
        change={"what": "setting", "names": list(values), "values": list(values.values())},
    )


@answers(ShowRequest)
def show(request: ShowRequest, room: Room) -> Outcome:
    """What was last asked, or else the dough in hand, again."""
    return _again(room)


@answers(MoreRequest)
def more(request: MoreRequest, room: Room) -> Outcome:
    """The last answer in full."""
    outcome = _again(room)
    return replace(outcome, page=Page(tuple(replace(block, more=False) for block in outcome.page.blocks)))


def _again(room: Room) -> Outcome:
    focus = recalled(room.bench.focus)
    request = focus if focus is not None and not isinstance(focus, ShowRequest | MoreRequest | HelpRequest) else None
    if request is None or isinstance(request, SettingRequest):
        request = room.formula_said
    if request is None:
        text = "Nothing is in hand yet. Say a dough, for example: " + _example("formula")
        return Outcome("explanation", {"topic": "show", "text": text}, "show again", Page((Line(text),)))
    outcome = registry.answer(request, room)
    return replace(outcome, bench=None, change=None)


@answers(StartOverRequest)
def start_over(request: StartOverRequest, room: Room) -> Outcome:
    """No bake in hand; settings hold, the notebook keeps everything, undo brings it back."""
    bake = room.bench.bake
    bench = replace(room.bench, in_hand=None, focus=None, focus_topic=None, asked=(), notes={})
    text = "A clean bench. Your settings still hold; undo brings the dough back." if bake else "The bench is clear."
    change = {"what": "cleared", "bake": bake.id} if bake else None
    return Outcome(
        "explanation",
        {"topic": "start over", "text": text},
        "start over",
        Page((Line(text),)),
        bench=bench,
        change=change,
    )


@answers(BackRequest)
def back(request: BackRequest, room: Room) -> Outcome:
    """Another bake of the bench in hand."""
    others = [bake for bake in room.bench.bakes if bake.id != room.bench.in_hand]
    if request.bread is not None:
        others = [
            bake
            for bake in others
            if bake.said.get("bread") == request.bread or bake.said.get("piece") == request.bread
        ]
    if not others:
        text = "There is no other dough on the bench."
        return Outcome("explanation", {"topic": "back", "text": text}, "back to another dough", Page((Line(text),)))
    chosen = others[0] if request.which == "first" else others[-1]
    bench = replace(room.bench, in_hand=chosen.id)
    dough = recalled(chosen.said)
    there = replace(room, bench=bench)
    outcome = registry.answer(dough, there)
    return replace(
        outcome,
        bench=bench,
        change={"what": "in_hand", "bake": chosen.id},
        focus=dough,
        read_as=f"back to {chosen.name or 'the other dough'}, {outcome.read_as}",
    )


@answers(HelpRequest)
def help_(request: HelpRequest, room: Room) -> Outcome:
    """What can be asked, by topic, from the frames' own examples."""
    wanted = tuple(word.lower().rstrip("s") for word in request.about)
    topics = _narrowed(wanted) or help_topics()
    answer = {"topics": [{"topic": name, "examples": list(examples)} for name, examples in topics.items()]}
    if not wanted or len(topics) > 3:
        blocks = [Line(f"{TOPICS.get(name, name)}: {examples[0]}") for name, examples in topics.items()]
    else:
        blocks = []
        for name, examples in topics.items():
            blocks += [Line(TOPICS.get(name, name), role="head"), *(Line(said, indent=2) for said in examples)]
    if len(blocks) > 6:
        told = Line("“more” for the rest, “help water” for one topic.", role="note")
        blocks = [*blocks[:5], told, *(replace(block, more=True) for block in blocks[5:])]
    read_as = f"help about {' '.join(request.about)}" if request.about else "help"
    return Outcome("help", answer, read_as, Page(tuple(blocks)))


def _narrowed(wanted: Sequence[str]) -> dict[str, tuple[str, ...]]:
    """The topics that any of the words names, whole, or else the examples in which one of them stands."""
    topics = help_topics()
    named = {
        name: examples
        for name, examples in topics.items()
        if any(word in f"{name} {TOPICS.get(name, '')}".lower() for word in wanted)
    }
    if named:
        return named
    spoken = {
        name: tuple(said for said in examples if any(word in said.lower() for word in wanted))
        for name, examples in topics.items()
    }
    return {name: examples for name, examples in spoken.items() if examples and name != "talk"}


def help_topics() -> Mapping[str, tuple[str, ...]]:
    """Topic -> example lines, in the order of a bake."""
    found: dict[str, dict[str, None]] = {}
    for frame in frames():
        found.setdefault(_topic(frame), {}).update(dict.fromkeys(frame.examples))
    ordered = [name for name in TOPICS if name in found] + [name for name in found if name not in TOPICS]
    return {name: tuple(found[name]) for name in ordered if found[name]}


def _topic(frame: Frame) -> str:
    if frame.help_topic:
        return frame.help_topic
    return "talk" if frame.topic in ("undo", "show", "more", "start_over", "back", "help") else frame.topic


def _example(topic: str) -> str:
    return next((f.examples[0] for f in frames() if f.topic == topic and f.examples), "")


def first_examples(count: int = 3) -> Iterable[str]:
    """Example lines for an empty bench: one from each of the first topics."""
    return [examples[0] for examples in help_topics().values()][:count]
