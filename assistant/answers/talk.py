"""Answers about the talk itself: help, more, start over."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace

from assistant.answers import answers
from assistant.answers.show import again
from assistant.talk.reply import Outcome
from assistant.talk.room import Room
from assistant.voice.page import Line, Page
from grammar.frames import Frame
from grammar.requests import named_first
from grammar.requests.talk import HelpRequest, MoreRequest, StartOverRequest

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


@answers(MoreRequest)
def more(request: MoreRequest, room: Room) -> Outcome:
    """The last answer in full."""
    outcome = again(room)
    return replace(outcome, page=Page(tuple(replace(block, more=False) for block in outcome.page.blocks)))


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
    for frame in named_first():
        found.setdefault(_topic(frame), {}).update(dict.fromkeys(frame.examples))
    ordered = [name for name in TOPICS if name in found] + [name for name in found if name not in TOPICS]
    return {name: tuple(found[name]) for name in ordered if found[name]}


def _topic(frame: Frame) -> str:
    if frame.help_topic:
        return frame.help_topic
    return "talk" if frame.topic in ("undo", "show", "more", "start_over", "back", "help") else frame.topic


def first_examples(count: int = 3) -> Iterable[str]:
    """Example lines for an empty bench: one from each of the first topics."""
    return [examples[0] for examples in help_topics().values()][:count]
