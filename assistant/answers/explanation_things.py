"""A question of a known shape answered: the topic that fits it, two told apart, or what the record of a thing says."""

from __future__ import annotations

from collections.abc import Sequence

from assistant.answers.explanation_told import told
from assistant.engine.refusal import Refused
from assistant.talk.reply import Outcome
from assistant.talk.room import Room
from assistant.voice.page import Line, Page
from grammar.requests.explanation_asked import ExplanationRequest
from knowledge.records.breads import Bread
from knowledge.records.composition import GroupRule
from knowledge.records.explanations import Explanation
from knowledge.records.flour_types import FlourType
from knowledge.records.ingredients import Ingredient
from knowledge.records.preferments import PrefermentKind

_LINES_OF_EACH = 3


def asked(request: ExplanationRequest, room: Room) -> Outcome:
    """The answer to "what is X", "why X", "X or Y". Raises Refused where no record tells of it."""
    shape = request.shape or "what"
    found = [_told(terms, shape, room) for terms in request.subjects]
    known = [one for one in found if one is not None]
    if not known:
        raise Refused("I have no record of that.", "Ask about a step, a tool, an ingredient or a bread.")
    if len(known) > 1 and known[0].answer["topic"] != known[1].answer["topic"]:
        return _side_by_side(known[:2])
    return known[0]


def _told(terms: Sequence[str], shape: str, room: Room) -> Outcome | None:
    pairs = [term.split(":", 1) for term in terms]
    topics = [room.kb.get(Explanation, id) for kind, id in pairs if kind == "topic"]
    fitting = [topic for topic in topics if shape in topic.asks] or [topic for topic in topics if not topic.asks]
    records = [out for kind, id in pairs if kind != "topic" and (out := described(kind, id, room, shape)) is not None]
    if records and shape == "weight":
        return records[0]
    if fitting:
        return told(fitting[0], None, room)
    if records and (shape == "what" or not topics):
        return records[0]
    return told(topics[0], None, room) if topics else None


def _side_by_side(two: Sequence[Outcome]) -> Outcome:
    """Two things told apart: the first lines of each, under its name."""
    parts = []
    for one in two:
        lines = str(one.answer["text"]).splitlines()[:_LINES_OF_EACH]
        title = str(one.answer["title"])
        parts += [f"{title[:1].upper()}{title[1:]}: {lines[0]}", *lines[1:]]
    title = f"{two[0].answer['title']} and {two[1].answer['title']}"
    fields = {
        "topic": f"{two[0].answer['topic']}_or_{two[1].answer['topic']}",
        "title": title,
        "text": "\n".join(parts),
    }
    cautions = tuple(dict.fromkeys((*two[0].cautions, *two[1].cautions)))
    sources = tuple(dict.fromkeys((*two[0].sources, *two[1].sources)))
    return Outcome("explanation", fields, title, Page(tuple(Line(part) for part in parts)), (), cautions, sources)


def described(kind: str, id: str, room: Room, shape: str = "what") -> Outcome | None:
    """What the record of an ingredient, a bread, a flour type or a preferment tells of it; asked why, how much or
    whether it is needed, what its group does in a dough comes first."""
    lines: list[str]
    note: str | None = None
    if kind == "ingredient" and id in room.kb.ingredients:
        food = room.kb.ingredients[id]
        does = [] if shape == "difference" else [room.kb.get(GroupRule, food.group).does]
        own = _ingredient(food)
        name, source, note = food.name, food.source, food.note
        lines = [*own[:1], *does, *own[1:]] if shape == "what" else [*does, *own]
    elif kind == "bread" and id in room.kb.breads:
        bread = room.kb.breads[id]
        name, source, lines = bread.name, bread.source, _weight(bread) if shape == "weight" else _bread(bread)
    elif kind == "flour_type":
        flour = room.kb.get(FlourType, id)
        name, source, lines = flour.name, flour.source, _flour(flour, room)
    elif kind == "preferment":
        one = room.kb.get(PrefermentKind, id)
        name, source, lines = one.name, one.source, _preferment(one)
    else:
        return None
    behind = (f"Measured so: {note}." if note else "", f"From: {source}.")
    blocks = (*(Line(line) for line in lines), *(Line(line, more=True) for line in behind if line))
    fields = {"topic": id, "title": name, "text": "\n".join(lines)}
    return Outcome("explanation", fields, name, Page(blocks), (), (), (source,))


def _ingredient(food: Ingredient) -> list[str]:
    shares = [
        f"{label} {round(value or 0.0, 1):g} %"
        for label, value in (
            ("water", food.water_pct), ("protein", food.protein_pct), ("fat", food.fat_pct), ("sugar", food.sugar_pct),
            ("fibre", food.fibre_pct), ("salt", food.salt_pct),
        )
        if round(value or 0.0, 1)
    ]  # fmt: skip
    lines = [f"{food.name}, counted as {_a(food.group)}" + (f": {', '.join(shares)}." if shares else ".")]
    if food.cup_g is not None:
        low, high = food.cup_low_g, food.cup_high_g
        spread = f" ({low:g} to {high:g} as it is filled)" if low and high else ""
        lines.append(f"A US cup weighs {food.cup_g:g} g{spread}.")
    if food.allergens:
        lines.append(f"Allergens: {', '.join(food.allergens)}.")
    return lines


def _weight(bread: Bread) -> list[str]:
    """What a piece of a bread weighs, as dough and baked."""
    baked = bread.piece_usual_g * (1 - bread.bake_loss_pct / 100)
    return [
        f"{bread.name}: usually {bread.piece_usual_g:g} g a piece as dough "
        f"({bread.piece_low_g:g} to {bread.piece_high_g:g} g), about {baked:.0f} g baked."
    ]


def _bread(bread: Bread) -> list[str]:
    leaven = (
        f"starter {bread.starter_usual_pct:g} %"
        if bread.starter_usual_pct
        else f"fresh yeast {bread.yeast_fresh_usual_pct:g} %"
    )
    rich = [
        f"{label} {value:g} %"
        for label, value in (
            ("fat", bread.fat_usual_pct),
            ("sugar", bread.sugar_usual_pct),
            ("egg", bread.egg_usual_pct),
        )
        if value
    ]
    lines = [
        f"{bread.name}: hydration {bread.hydration_low_pct:g} to {bread.hydration_high_pct:g} %, usually "
        f"{bread.hydration_usual_pct:g}; salt {bread.salt_usual_pct:g} %, {leaven}"
        + (f", {', '.join(rich)}." if rich else ".")
    ]
    baked = f"Pieces of {bread.piece_usual_g:g} g raw, baked {bread.minutes_usual:g} min at {bread.oven_c_usual:g} °C"
    core = f", {bread.core_c:g} °C inside" if bread.core_c else ""
    lines.append(baked + core + f"; best within {bread.best_eaten_within_h:g} h.")
    if bread.boil_s_per_side:
        lines.append(f"Boiled {bread.boil_s_per_side:g} s a side first.")
    if bread.note:
        lines.append(_sentence(bread.note))
    return lines


def _flour(flour: FlourType, room: Room) -> list[str]:
    lines = [f"{flour.name}: protein about {flour.protein_low_pct:g} to {flour.protein_high_pct:g} %."]
    ash = _range(flour.ash_low_pct, flour.ash_high_pct)
    if ash:
        lines.append(f"Ash {ash}: the minerals left after burning, so how much of the grain's bran and rim is in it.")
        lines.append("Ash says nothing of strength: for that read the protein.")
    if flour.note:
        lines.append(_sentence(flour.note))
    stands = room.kb.ingredients.get(flour.ingredient)
    if stands is not None:
        lines.append(f"Counted here as {stands.name.lower()}.")
    return lines


def _range(low: float | None, high: float | None) -> str:
    """A range in words that may be open at an end; empty where both are."""
    if low is not None and high is not None:
        return f"{low:g} to {high:g} %"
    if high is not None:
        return f"at most {high:g} %"
    return f"{low:g} % or more" if low is not None else ""


def _preferment(one: PrefermentKind) -> list[str]:
    lines = [
        f"{one.name}: water {one.hydration_low_pct:g} to {one.hydration_high_pct:g} % of its own flour, usually "
        f"{one.hydration_usual_pct:g}; usually {one.flour_usual_pct:g} % of all flour."
    ]
    if one.yeast_fresh_pct:
        lines.append(f"Fresh yeast {one.yeast_fresh_pct:g} % of its flour.")
    if one.note:
        lines.append(_sentence(one.note))
    return lines


def _a(word: str) -> str:
    return f"an {word}" if word[:1] in "aeiou" else f"a {word}"


def _sentence(text: str) -> str:
    return text[:1].upper() + text[1:].rstrip(".") + "."
