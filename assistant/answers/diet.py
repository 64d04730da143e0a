"""Somebody who cannot or will not eat something: every row that offends, replaced at once."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from assistant.answers.in_the_bowl import (
    amount,
    name_of,
    notes,
    rows,
    shelf,
    weight,
)
from assistant.answers.swap_taken import taken
from assistant.answers.swapped import assumed_line, parts_words
from assistant.engine.bowl import STARTER, Bowl
from assistant.engine.cautions import Scene
from assistant.engine.composition import Portion
from assistant.engine.refusal import Refused
from assistant.engine.shelf import Avoid, may_carry
from assistant.engine.swaps import Choice, Swapped, offenders, replaced, swaps_for
from assistant.talk.reply import Outcome
from assistant.talk.room import Room
from assistant.voice.page import Line, Page
from grammar.requests.swap import SwapRequest
from knowledge.records.diets import Diet

UNSAID_G = 100.0
LEAST_SALT_PCT = 1.2
USUAL_OFFENDERS = ("butter_unsalted", "milk_whole", "egg_whole", "honey", "sesame_seeds", "walnuts", "sugar_granulated")


def to_avoid(request: SwapRequest, room: Room) -> tuple[Avoid | None, str]:
    """What is to be kept out, and what it is called."""
    foods = room.kb.ingredients
    diets = [room.kb.get(Diet, diet) for diet in request.diets]
    tags: set[str] = {tag for diet in diets for tag in diet.allergens}
    items: set[str] = {item for diet in diets for item in diet.ingredients}
    for item in request.avoid:
        food = foods.get(item)
        if food is None:
            continue
        own = set(food.allergens) - {"gluten"}
        tags |= own
        if not own:
            items.add(item)
    if not diets and not request.avoid:
        return None, ""
    groups = frozenset(group for diet in diets for group in diet.groups)
    medical = any(diet.medical for diet in diets) or bool(request.avoid)
    names = [diet.name for diet in diets] + [f"free of {name_of(item, room)}" for item in request.avoid]
    return Avoid(frozenset(tags), frozenset(items), groups, medical), " and ".join(names)


def for_diet(request: SwapRequest, avoid: Avoid, who: str, bowl: Bowl | None, room: Room) -> Outcome:
    """Every row that a diet keeps out replaced at once."""
    diets = [room.kb.get(Diet, diet) for diet in request.diets]
    advice = " ".join(diet.advice for diet in diets if diet.advice)
    hopeless = next((diet.hopeless for diet in diets if diet.hopeless), None)
    if hopeless is not None:
        said, _ = notes(Scene("refused", f"{room.text} {diets[0].name} allergy"), room)
        refused = Refused(hopeless, None)
        refused.cautions = said  # type: ignore[attr-defined]
        raise refused
    if request.diets == ("low_salt",):
        return _less_salt(bowl, room)
    assumed: tuple[str, ...] = ()
    facts = shelf(room)
    if bowl is None:
        hits = tuple(Portion(item, UNSAID_G) for item in USUAL_OFFENDERS if avoid.hit_by(item, facts))
        hits = hits or tuple(Portion(item, UNSAID_G) for item in request.avoid)
        assumed = ("per 100 g, no dough in hand",)
    else:
        hits = offenders(bowl, avoid, facts)
    if not hits:
        return _already(who, advice, avoid, bowl, room)
    each = [
        _alike_first(swaps_for(hit.item, hit.g, facts, bowl=bowl, avoid=avoid), room)
        if hit.item != STARTER
        else Swapped(hit, (), "feed a starter with another flour")
        for hit in hits
    ]
    if request.take:
        return taken(_chosen(each, request.into), room)
    outcome = _all_at_once(request, each, who, bowl, assumed, room)
    return replace(outcome, page=Page((*outcome.page.blocks, Line(advice)))) if advice else outcome


def _chosen(each: list[Swapped], into: tuple[str, ...]) -> list[tuple[Swapped, Choice]]:
    """The swaps to make: all, or of those offered only the ones in which the thing comes in that was chosen."""
    made = [(one, choice) for one in each for choice in one.choices if {part.item for part in choice.into} & set(into)]
    if into and not made:
        raise Refused("That is none of what was offered.", "Say one of those, or: do that.")
    return made[:1] or [(one, one.choices[0]) for one in each if one.choices]


def _less_salt(bowl: Bowl | None, room: Room) -> Outcome:
    """How far down the salt may go."""
    text = f"{LEAST_SALT_PCT:g} % of the flour is a workable low: below it the dough is slack, fast and flat in taste."
    if bowl is not None:
        flour_g = bowl.holds(room.kb.ingredients).flour_g
        now = bowl.salt_pct(room.kb.ingredients) or 0.0
        g = flour_g * LEAST_SALT_PCT / 100
        down = f"From {weight(flour_g * now / 100)} to {weight(g)} salt"
        text = f"{down}: {text} “Make it {LEAST_SALT_PCT:g} % salt” does it."
    source = ("trade practice; Lynch et al. 2009 (0-1.2 % salt)",)
    return Outcome("explanation", {"topic": "low salt", "text": text}, "less salt", Page((Line(text),)), (), (), source)


def _alike_first(swapped: Swapped, room: Room) -> Swapped:
    """What is of the same kind first: a plant drink for milk rather than water."""
    foods = room.kb.ingredients
    group = foods[swapped.out.item].group
    ranked = sorted(swapped.choices, key=lambda choice: foods[choice.into[0].item].group != group)
    return replace(swapped, choices=tuple(ranked)) if group == "dairy" else swapped


def _already(who: str, advice: str, avoid: Avoid, bowl: Bowl | None, room: Room) -> Outcome:
    """Nothing in the dough offends."""
    items = bowl.items() if bowl is not None else ()
    risky = [
        name_of(item, room) for item in items if avoid.allergens.intersection(may_carry(item, shelf(room)))
    ]  # fmt: skip
    text = f"Nothing in this dough needs changing: it is {who} by its plain ingredients."
    if bowl is None:
        text = f"No dough is in hand to look into. A dough of flour, water, salt and starter is {who} as it is."
    if risky:
        text += f" Read the label of {', '.join(risky)}."
    if avoid.medical:
        text += " Top and bake it apart from others."
    if advice:
        text += " " + advice
    said, lines = notes(Scene("explanation", room.text, frozenset(items)), room, items)
    return Outcome(
        "explanation", {"topic": who, "text": text}, f"is this dough {who}", Page((Line(text), *lines)), cautions=said
    )


def _all_at_once(
    request: SwapRequest, each: list[Swapped], who: str, bowl: Bowl | None, assumed: tuple[str, ...], room: Room
) -> Outcome:
    """One answer for several rows: the first choice of each together, then the second of each."""
    depth = max((len(one.choices) for one in each), default=0)
    combined: list[dict[str, Any]] = []
    for n in range(min(depth, 3)):
        picked = [one.choices[min(n, len(one.choices) - 1)] for one in each if one.choices]
        combined.append(
            {
                "in": rows(_added(part for choice in picked for part in choice.into)),
                "also": rows(_added(part for choice in picked for part in choice.also)),
                "effect": "; ".join(choice.effect for choice in picked),
            }
        )
    shown = []
    for one in each:
        if one.choices:
            choice = one.choices[0]
            shown.append(Line(f"{amount(one.out, room)}: {parts_words(choice, room)} ({choice.effect})"))
        else:
            shown.append(Line(f"{amount(one.out, room)}: leave it out ({one.leave_out or 'taste and looks only'})"))
    also = [
        Line(
            f"Or for {name_of(one.out.item, room)}: {'; '.join(parts_words(c, room) for c in one.choices[1:4])}.",
            more=True,
        )
        for one in each
        if len(one.choices) > 1
    ]
    after = bowl
    if bowl is not None:
        for one in each:
            swapped = one if one.choices else replace(one, choices=())
            after = (
                replaced(after, swapped, one.choices[0])
                if one.choices and after is not None
                else after.with_added((replace(one.out, g=-one.out.g),))
                if after is not None
                else after
            )
    items = (
        after.items() if after is not None else tuple(part["item"] for part in combined[0]["in"]) if combined else ()
    )
    said, lines = notes(Scene("swap", room.text, frozenset(items)), room, items)
    first = each[0]
    out_field: dict[str, Any] = {"out": {"item": first.out.item, "g": first.out.g}, "choices": combined}
    if len(each) > 1:
        out_field["outs"] = [{"item": one.out.item, "g": one.out.g} for one in each]
    left = [name_of(one.out.item, room) for one in each if not one.choices]
    if left:
        out_field["leave_out"] = ", ".join(left)
    head = Line(f"To make it {who}:", role="head")
    sources = tuple(dict.fromkeys(one.choices[0].source for one in each if one.choices))
    page = Page((head, *shown, *also, *lines, *assumed_line(assumed)))
    return Outcome("swap", out_field, f"make it {who}", page, assumed, said, sources)


def _added(parts: Any) -> tuple[Portion, ...]:
    total: dict[str, float] = {}
    for part in parts:
        total[part.item] = total.get(part.item, 0.0) + part.g
    return tuple(Portion(item, g) for item, g in total.items() if abs(g) > 0.05)
