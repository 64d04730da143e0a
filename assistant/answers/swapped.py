"""The reply for a swap: choices best first, what they change, allergens that come and go."""

from __future__ import annotations

from typing import Any

from assistant.answers.in_the_bowl import (
    amount,
    amounts,
    name_of,
    notes,
    rows,
    weight,
)
from assistant.engine.bowl import Bowl
from assistant.engine.cautions import Scene
from assistant.engine.composition import Portion
from assistant.engine.swaps import Choice, Swapped, replaced
from assistant.talk.reply import Outcome
from assistant.talk.room import Room
from assistant.voice.page import Line, Page
from grammar.requests.swap import SwapRequest

SHOWN = 3


def swap_outcome(
    request: SwapRequest,
    swapped: Swapped,
    bowl: Bowl | None,
    assumed: tuple[str, ...],
    room: Room,
    head: str | None = None,
) -> Outcome:
    """The reply for one ingredient."""
    out = swapped.out
    answer_: dict[str, Any] = {
        "out": {"item": out.item, "g": out.g},
        "choices": [
            {
                "in": rows(choice.into),
                "also": rows(choice.also),
                "effect": _effect(choice, out, room),
                "limit_pct": 100 * choice.limit,
                "gains": list(choice.gains),
                "loses": list(choice.loses),
            }
            for choice in swapped.choices
        ],
    }
    if swapped.leave_out is not None:
        answer_["leave_out"] = swapped.leave_out
    blocks = [Line(head or f"For {amount(out, room)}:", role="head")]
    for n, choice in enumerate(swapped.choices):
        blocks.append(Line(f"{parts_words(choice, room)}: {_effect(choice, out, room)}", more=n >= SHOWN))
    if swapped.leave_out is not None:
        crowded = len(swapped.choices) >= SHOWN  # there is enough to choose from without it
        said_out = f"without it: {swapped.leave_out}" if swapped.choices else f"{_start(swapped.leave_out)}."
        blocks.append(Line(said_out, more=crowded))
    blocks += [Line(text) for text in _changes(swapped.choices[:SHOWN], room)]
    if bowl is not None and bowl.g(out.item) > 0 and swapped.choices:
        name = name_of(swapped.choices[0].into[0].item, room)
        blocks.append(Line(f"“Use {name}” makes it so in the dough in hand, “undo” takes it back.", more=True))
    items, dough = _scene_items(swapped, bowl)
    baths = frozenset({"lye"}) if out.item == "lye" else frozenset()
    said, lines = notes(Scene("swap", room.text, items, baths=baths), room, dough)
    sources = tuple(dict.fromkeys(choice.source for choice in swapped.choices))
    blocks.append(Line("From: " + "; ".join(sources) + ".", more=True)) if sources else None
    page = Page((*blocks, *lines, *assumed_line(assumed)))
    into = f" by {name_of(swapped.choices[0].into[0].item, room)}" if request.into and swapped.choices else ""
    return Outcome("swap", answer_, f"replace {amount(out, room)}{into}", page, assumed, said, sources)


def _start(text: str) -> str:
    return text[0].upper() + text[1:]


def assumed_line(assumed: tuple[str, ...]) -> tuple[Line, ...]:
    return (Line("Assumed: " + "; ".join(assumed) + "."),) if assumed else ()


def _effect(choice: Choice, out: Portion, room: Room) -> str:
    if choice.beyond_limit and choice.limit < 1:
        return f"{choice.effect}; best for {100 * choice.limit:.0f} % of it at most ({weight(out.g * choice.limit)})"
    return choice.effect


def _changes(choices: tuple[Choice, ...], room: Room) -> list[str]:
    """Allergens that come or go, in one line each."""
    lines = []
    for word, field in (("Brings", "gains"), ("No longer in it", "loses")):
        by_tags: dict[str, list[str]] = {}
        for choice in choices:
            tags = ", ".join(getattr(choice, field))
            if tags:
                by_tags.setdefault(tags, []).append(name_of(choice.into[0].item, room))
        if len(by_tags) == 1 and all(getattr(choice, field) for choice in choices):
            lines.append(f"{word}: {next(iter(by_tags))}.")
        elif by_tags:
            parts = [f"{tags} ({', '.join(names)})" for tags, names in by_tags.items()]
            lines.append(f"{word}: {'; '.join(parts)}.")
    return lines


def _scene_items(swapped: Swapped, bowl: Bowl | None) -> tuple[frozenset[str], tuple[str, ...]]:
    """Ids for the cautions, and those whose allergens are named: the dough after the first choice."""
    if not swapped.choices:
        inside = bowl.items() if bowl is not None else ()
        return frozenset(inside), inside
    first = swapped.choices[0]
    parts = tuple(part.item for part in first.into)
    if bowl is None or bowl.g(swapped.out.item) <= 0:
        return frozenset((*parts, *(bowl.items() if bowl is not None else ()))), parts
    after = replaced(bowl, swapped, first)
    return frozenset(after.items()), after.items()


def parts_words(choice: Choice, room: Room) -> str:
    words = amounts(choice.into, room)
    if choice.also:
        words += ", " + ", ".join(amount(part, room, sign=True) for part in choice.also)
    return words
