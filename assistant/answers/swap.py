"""What may stand in for what is missing or not wanted: grams, corrections, what to expect."""

from __future__ import annotations

from dataclasses import replace

from assistant.answers import answers
from assistant.answers.diet import for_diet, to_avoid
from assistant.answers.dough_said import cup_system
from assistant.answers.in_the_bowl import (
    bowl_in_hand,
    bread_in_hand,
    bulk_words,
    name_of,
    notes,
    shelf,
    weight,
)
from assistant.answers.swap_taken import taken
from assistant.answers.swapped import swap_outcome
from assistant.engine.bath import bath_of
from assistant.engine.bowl import STARTER, Bowl
from assistant.engine.cautions import Scene
from assistant.engine.composition import Portion
from assistant.engine.flour_blend import gluten_to_replace_g, strong_share
from assistant.engine.leaven_swap import starter_for_starter, starter_for_yeast, yeast_for_starter
from assistant.engine.measures import Said, measure_book, weigh
from assistant.engine.naming import figure
from assistant.engine.refusal import Refused
from assistant.engine.shelf import Avoid
from assistant.engine.swaps import Choice, Swapped, replaced, swaps_for
from assistant.reply import Outcome
from assistant.room import Room
from assistant.voice.page import Line, Page
from grammar.requests.swap import SwapRequest
from knowledge.records.baths import Bath
from knowledge.records.diets import Diet

UNSAID_G = 100.0
STARTER_PCT = 20.0
PLAIN_HYDRATION = 0.65
STIFFNESS = {"starter_stiff_50": 50.0, "starter_100": 100.0}
"""Hydration of the starters on record, percent."""
YEASTS = ("yeast_instant", "yeast_active_dry", "yeast_fresh")
TASTE_ONLY = frozenset({"spice", "seed", "nut", "fruit", "cheese", "grain", "other", "malt"})


@answers(SwapRequest)
def answer(request: SwapRequest, room: Room) -> Outcome:
    """The swaps that serve, best first; for a diet, all rows that offend at once."""
    bowl = bowl_in_hand(room)
    request = _weighed(request, room)
    if request.protein_pct is not None:
        return _blend(request, request.protein_pct, bowl, room)
    if bowl is None and request.flour_g is not None:
        bowl = _plain_dough(request, request.flour_g, room)
    avoid, who = to_avoid(request, room)
    asked_only = request.into if request.diets and not request.out else ()
    request = _of_diet(request, room)
    if avoid is not None and not request.out:
        return for_diet(request, avoid, who, _told_dough(request, room) if request.rows else bowl, room)
    into = _into(request, bowl, room)
    out = _out(request, into, bowl, room)
    _refuse_offending(request, out, into, avoid, who, room)
    if asked_only and into is not None:
        return _free_of_it(into, who, room)
    if out == into:
        raise Refused(f"{name_of(out, room)} for {name_of(out, room)} is no swap.", "Say what is missing.")
    g, assumed = _out_g(request, out, bowl, room)
    job = request.job or _usual_job(out, bowl, room)
    swapped = _swapped(request, out, g, into, job, avoid, bowl, room)
    given_g = _stands_for_g(request, swapped, g)
    if given_g is not None:  # "2 tbsp honey instead of sugar": how much sugar that is
        g, assumed = given_g, ()
        swapped = _swapped(request, out, g, into, job, avoid, bowl, room)
    if not swapped.choices and into is not None and bowl is not None:
        other = _match(into, bowl, room)
        if other is not None and other != out and bowl.g(other) > 0:  # it is for another row of this dough
            out, g = other, bowl.g(other)
            assumed = (f"for the {name_of(other, room)} of the dough in hand",)
            swapped = _swapped(request, out, g, into, None, avoid, bowl, room)
    if not swapped.choices and (request.beside or job is not None):
        swapped = _otherwise(request, swapped, job, avoid, bowl, room)
    if not swapped.choices and swapped.leave_out is None:
        swapped = _left_out(swapped, into, room)
    swapped = _with_all_named(swapped, request, room)
    if request.take:
        return taken(((swapped, _picked(swapped, request.pick)),), room)
    return _with_advice(swap_outcome(request, swapped, bowl, assumed, room), request, room)


def _otherwise(
    request: SwapRequest, swapped: Swapped, job: str | None, avoid: Avoid | None, bowl: Bowl | None, room: Room
) -> Swapped:
    """Where nothing was found: by the other thing named to come in, else for another of its kind that has the job."""
    foods, facts = room.kb.ingredients, shelf(room)
    out = swapped.out
    for ids in request.beside:
        other = next((item for item in ids if item in foods), None)
        if other is None or (avoid is not None and avoid.hit_by(other, facts)):
            continue
        made = _swapped(request, out.item, out.g, other, job, avoid, bowl, room)
        if made.choices:
            return made
    group = foods[out.item].group if out.item in foods else ""
    known = [swap.out for swap in facts.swaps.values() if swap.function == job and foods[swap.out].group == group]
    for item in dict.fromkeys(known) if job is not None else ():
        made = swaps_for(item, out.g, facts, function=job, avoid=avoid)
        if made.choices:
            return replace(made, out=out)
    return swapped


def _with_advice(outcome: Outcome, request: SwapRequest, room: Room) -> Outcome:
    """The outcome with what is to be known of the diets named."""
    advice = tuple(text for name in request.diets if (text := room.kb.get(Diet, name).advice))
    if not advice:
        return outcome
    page = Page((*outcome.page.blocks, *(Line(text) for text in advice)))
    return replace(outcome, page=page, cautions=(*outcome.cautions, *advice))


def _free_of_it(item: str, who: str, room: Room) -> Outcome:
    """A thing asked about for a diet that it does not offend."""
    text = f"{name_of(item, room).capitalize()}: {who} by its plain ingredients. Read the label for traces."
    said, lines = notes(Scene("explanation", f"{room.text} {who}", frozenset({item})), room, (item,))
    page = Page((Line(text, role="head"), *lines))
    return Outcome("explanation", {"topic": who, "text": text}, f"is {name_of(item, room)} {who}", page, cautions=said)


def _refuse_offending(
    request: SwapRequest, out: str, into: str | None, avoid: Avoid | None, who: str, room: Room
) -> None:
    """Refuses what a diet keeps out as the replacement, and any swap where no swap makes the dough safe."""
    if avoid is None:
        return
    hopeless = next((diet.hopeless for name in request.diets if (diet := room.kb.get(Diet, name)).hopeless), None)
    offends = into is not None and avoid.hit_by(into, shelf(room))
    if hopeless is None and not offends:
        return
    harm = "not safe for them" if avoid.medical else "not for them"
    why = f"{name_of(into, room).capitalize()} is not {who}: {harm}. " if offends and into else ""
    refused = Refused(
        f"{why}{hopeless or ''}".strip(),
        None if hopeless else f"Ask what else serves: out of {name_of(out, room)}, {who}.",
    )
    said, _ = notes(Scene("refused", f"{room.text} {who} allergy"), room)
    refused.cautions = said  # type: ignore[attr-defined]
    raise refused


def _with_all_named(swapped: Swapped, request: SwapRequest, room: Room) -> Swapped:
    """Where two things were named to come in together ("milk with butter"), the choices that hold both stand first."""
    if not request.beside or not swapped.choices:
        return swapped
    groups = room.kb.ingredients

    def holds_all(choice: Choice) -> bool:
        inside = {part.item for part in choice.into}
        kinds = {groups[item].group for item in inside if item in groups}
        named = [[item for item in ids if item in groups] for ids in request.beside]
        return all(inside & set(ids) or any(groups[item].group in kinds for item in ids[:1]) for ids in named)

    ranked = sorted(swapped.choices, key=lambda choice: not holds_all(choice))
    return replace(swapped, choices=tuple(ranked))


def _weighed(request: SwapRequest, room: Room) -> SwapRequest:
    """The request in grams where it was said by the cup or spoon."""
    out_g = _by_measure(request.out_measure, request.out, room)
    into_g = _by_measure(request.into_measure, request.into, room)
    return replace(
        request, out_g=request.out_g if out_g is None else out_g, into_g=request.into_g if into_g is None else into_g
    )


def _by_measure(measure: tuple[float, str] | None, items: tuple[str, ...], room: Room) -> float | None:
    """Grams of the likeliest of these ingredients by the cup or spoon; None where no measure was said."""
    item = next((item for item in items if item in room.kb.ingredients), None)
    if measure is None or item is None:
        return None
    amount, unit = measure
    return weigh((Said(amount, amount, unit),), item, cup_system(room.bench.settings), "", measure_book(room.kb)).g


def _of_diet(request: SwapRequest, room: Room) -> SwapRequest:
    """The request with the food its diet is named for, where only an amount of it was said."""
    if request.out or (request.out_g is None and request.out_measure is None and not request.into):
        return request
    named = tuple(food for name in request.diets if (food := room.kb.get(Diet, name).named_for))
    return _weighed(replace(request, out=named[:1]), room)


def _told_dough(request: SwapRequest, room: Room) -> Bowl:
    """The rows told in the line as a bowl."""
    rows: list[Portion] = []
    for ids, mass_g, measure, count in request.rows:
        item = next((item for item in ids if item in room.kb.ingredients), None)
        if item is None:
            continue
        each = room.kb.ingredients[item].each_g or 0.0
        g = mass_g or _by_measure(measure, ids, room) or (count or 0.0) * each
        if g > 0 and not item.startswith("starter"):
            rows.append(Portion(item, g))
    return Bowl((), starter_g=0.0).with_added(rows)


def _stands_for_g(request: SwapRequest, swapped: Swapped, g: float) -> float | None:
    """Grams replaced by what comes in, where only that was weighed; None where it was not, or several come in."""
    said = (request.out_g, request.out_pct, request.count)
    if request.into_g is None or said != (None,) * 3 or not swapped.choices:
        return None
    comes = swapped.choices[0].into
    return g * request.into_g / comes[0].g if len(comes) == 1 and comes[0].g > 0 else None


def _plain_dough(request: SwapRequest, flour_g: float, room: Room) -> Bowl:
    """The dough meant where only its flour was said beside the swap: 65 % water, and the thing to be replaced."""
    rows = [Portion("flour_bread", flour_g), Portion("water", flour_g * PLAIN_HYDRATION)]
    named = next((item for item in request.out if item in room.kb.ingredients and not item.startswith("starter")), None)
    if named is not None and request.out_g:
        rows.append(Portion(named, request.out_g))
    return Bowl((), starter_g=0.0).with_added(rows)


def _picked(swapped: Swapped, pick: int) -> Choice:
    """The choice to make. Refused where there is none of that number."""
    if not 0 <= pick < len(swapped.choices):
        raise Refused(f"There are {len(swapped.choices)} choices.", "Say which one: use the first.")
    return swapped.choices[pick]


def _into(request: SwapRequest, bowl: Bowl | None, room: Room) -> str | None:
    named = [item for item in request.into if item in room.kb.ingredients]
    if not named:
        return None
    if named[0] == "salt_table" and any(item.startswith("butter") for item in request.out):
        return "butter_salted"  # "unsalted butter, only got salted"
    known = [item for item in named if any(item == part.item for s in shelf(room).swaps.values() for part in s.into)]
    if bowl is not None and request.out:
        known = [item for item in known if item not in request.out] or known
    return (known or named)[0]


def _out(request: SwapRequest, into: str | None, bowl: Bowl | None, room: Room) -> str:
    """The one ingredient meant: the one in the dough, else the likeliest; with only a replacement said, its match."""
    if request.out:
        if "flour" in request.out and bowl is not None:
            flours = [row for row in bowl.portions if room.kb.ingredients[row.item].group == "flour"]
            if flours:
                return max(flours, key=lambda row: row.g).item
        named = [item for item in request.out if item in room.kb.ingredients] or ["flour_bread"]
        if bowl is not None:
            inside = [item for item in named if bowl.g(item) > 0]
            if inside:
                return inside[0]
            alike = _same_thing(named[0], bowl, room)
            if alike is not None:
                return alike
        return named[0]
    if into is None:
        raise Refused("What is missing was not said.", "Say it with its weight: out of 60 g honey.")
    match = _match(into, bowl, room)
    if match is None:
        raise Refused(
            f"What {name_of(into, room)} is to stand in for was not said.",
            f"Say both: {name_of(into, room)} instead of 50 g butter.",
        )
    return match


def _same_thing(item: str, bowl: Bowl, room: Room) -> str | None:
    """The row that plays the part of what was named: "milk" when the dough has semi-skimmed, "yeast" when fresh."""
    foods = room.kb.ingredients
    group = foods[item].group
    if group not in ("dairy", "egg", "salt", "leavening", "sugar") or item in ("egg_white", "egg_yolk"):
        return None
    head = item.split("_")[0]
    return next((row.item for row in bowl.portions if row.item.split("_")[0] == head), None)


def _match(into: str, bowl: Bowl | None, room: Room) -> str | None:
    """What the thing at hand most likely replaces: a row of the dough it can stand in for, else its usual match."""
    facts = shelf(room)
    foods = facts.foods

    def serves(out: str) -> bool:
        return any(
            swap.out == out and into in [part.item for part in swap.into] for swap in facts.swaps.values()
        ) or any(out in kin.members and into in kin.members for kin in facts.kin.values())

    if bowl is not None:
        if foods[into].group == "leavening" and bowl.starter_g > 0:
            return "starter_100"
        rows_ = sorted(bowl.portions, key=lambda row: foods[row.item].group != foods[into].group)
        found = next((row.item for row in rows_ if row.item != into and serves(row.item)), None)
        if found is not None:
            return found
    listed = [swap.out for swap in facts.swaps.values() if into == (swap.into[0].item if swap.into else None)]
    same = [out for out in listed if foods[out].group == foods[into].group]
    kin = next((kin for kin in facts.kin.values() if into in kin.members), None)
    if same:
        return same[0]
    if kin is not None:
        return next(item for item in kin.members if item != into)
    return listed[0] if listed else None


def _out_g(request: SwapRequest, out: str, bowl: Bowl | None, room: Room) -> tuple[float, tuple[str, ...]]:
    """Grams to replace, and what was assumed about them."""
    whole = bowl.g(out) if bowl is not None else 0.0
    each = room.kb.ingredients[out].each_g if out in room.kb.ingredients else None
    if request.have_g is not None and whole > request.have_g:
        short_g = whole - request.have_g
        return short_g, (f"the dough in hand needs {weight(whole)}, {weight(request.have_g)} are there",)
    if request.out_g is not None or request.have_g is not None:
        return request.out_g or request.have_g or UNSAID_G, ()
    if request.count is not None and each:
        return request.count * each, (f"{figure(request.count)} x {figure(each)} g",)
    if request.out_pct is not None and whole > 0:
        return whole * request.out_pct / 100, ()
    if whole > 0:
        return whole, (f"all {weight(whole)} of it in the dough in hand",)
    return UNSAID_G, ("per 100 g, no weight was said",)


def _usual_job(out: str, bowl: Bowl | None, room: Room) -> str | None:
    """The job meant where none was said: at the bath for what only goes there."""
    if out in ("baking_soda", "malt_syrup", "honey") and bowl is not None and bowl.g(out) <= 0:
        bath = bath_of(bread_in_hand(room), room.kb.all(Bath))
        if bath is not None and (out == bath.item or out in bath.also):
            return "alkali"
    return "alkali" if out in ("lye", "baked_soda") else None


def _swapped(
    request: SwapRequest,
    out: str,
    g: float,
    into: str | None,
    job: str | None,
    avoid: Avoid | None,
    bowl: Bowl | None,
    room: Room,
) -> Swapped:
    """The swaps of one ingredient; starter and yeast by their own rule."""
    if out.startswith("starter") and into is not None and into.startswith("starter"):
        return Swapped(Portion(STARTER, g), (_other_starter(out, g, into, bowl),), None)
    if out.startswith("starter") and (into is None or into.startswith("yeast")):
        hydration = bowl.starter_hydration_pct if bowl is not None and bowl.starter_g > 0 else 100.0
        hydration = 50.0 if out == "starter_stiff_50" and bowl is None else hydration
        flour = bowl.starter_flour if bowl is not None else "flour_bread"
        yeasts = (into,) if into is not None else ("yeast_instant", "yeast_fresh")
        slow = [True] if request.overnight else [False, True] if into is not None or len(yeasts) > 1 else [False]
        made = [yeast_for_starter(g, hydration, yeast, late, flour) for yeast in yeasts for late in slow]
        return Swapped(Portion(STARTER, g), tuple(made), None)
    if out in YEASTS and into is not None and into.startswith("starter") and bowl is not None:
        choice = _timed(starter_for_yeast(bowl, room.kb.ingredients, STARTER_PCT), out, bowl, room)
        return Swapped(Portion(out, g), (choice,), None)
    swapped = swaps_for(out, g, shelf(room), bowl=bowl, into=into, function=job, avoid=avoid)
    if out in YEASTS and bowl is not None and bowl.starter_g <= 0:
        choice = _timed(starter_for_yeast(bowl, room.kb.ingredients, STARTER_PCT), out, bowl, room)
        kept = tuple(one for one in swapped.choices if not one.into[0].item.startswith("starter"))
        return replace(swapped, choices=(*kept[:2], choice, *kept[2:]))
    return swapped


def _other_starter(out: str, g: float, into: str, bowl: Bowl | None) -> Choice:
    """A starter of another stiffness that holds the same flour; the water that differs is the dough's."""
    kept = bowl is not None and bowl.starter_g > 0 and out not in STIFFNESS
    now = bowl.starter_hydration_pct if bowl is not None and kept else STIFFNESS.get(out, 100.0)
    if bowl is not None and bowl.starter_g > 0 and abs(bowl.starter_hydration_pct - STIFFNESS.get(into, 100.0)) > 1:
        now = bowl.starter_hydration_pct
    return starter_for_starter(g, now, into, STIFFNESS.get(into, 100.0))


def _timed(choice: Choice, out: str, bowl: Bowl, room: Room) -> Choice:
    """The starter's choice with the bulk it then takes."""
    after = replaced(bowl, Swapped(Portion(out, bowl.g(out)), (choice,), None), choice)
    time = bulk_words(after, room)
    return replace(choice, effect=f"{choice.effect}; bulk about {time}") if time else choice


def _left_out(swapped: Swapped, into: str | None, room: Room) -> Swapped:
    """Nothing on record serves: for taste and garnish leaving it out is honest, for the rest there is no answer."""
    item = swapped.out.item
    if into is not None:
        raise Refused(
            f"{name_of(into, room).capitalize()} does not do the work of {name_of(item, room)}.",
            f"Ask what else serves: out of {name_of(item, room)}, what else.",
        )
    food = room.kb.ingredients.get(item)
    if food is not None and food.group in TASTE_ONLY:
        return replace(swapped, leave_out="leave it out: taste and looks only, the dough is the same without")
    raise Refused(
        f"Nothing I know of does the work of {name_of(item, room)} in a dough.",
        "Leave it out only in a small test first.",
    )


def _blend(request: SwapRequest, target: float, bowl: Bowl | None, room: Room) -> Outcome:
    """A protein to reach by blending two bags, or with gluten powder."""
    foods = room.kb.ingredients
    named = [i for i in (*request.out[:1], *request.into[:1]) if i in foods and foods[i].group == "flour"]
    weak = next((i for i in named if (foods[i].protein_pct or 0) < target), "flour_all_purpose")
    strong = next((i for i in named if (foods[i].protein_pct or 0) >= target), None)
    whole = bowl.bowl_flour_g(foods) if bowl is not None else 0.0
    flour_g = request.out_g or request.into_g or whole or 1000.0
    low = foods[weak].protein_pct or 0.0
    assumed = [f"{name_of(weak, room)} at {low:g} % protein: read the bag"]
    if not (request.out_g or request.into_g or whole):
        assumed.append("per 1000 g of flour")
    made: list[Choice] = []
    partners = [strong] if strong is not None else ["flour_bread_13", "flour_high_gluten"]
    for partner in partners:
        high = foods[partner].protein_pct or 0.0
        if not low < target <= high:
            continue
        g = flour_g * strong_share(target, low, high)
        parts = (Portion(weak, flour_g - g), Portion(partner, g))
        made.append(_blended(parts, f"{name_of(partner, room)} at {high:g} %"))
    gluten = foods["vital_wheat_gluten"].protein_pct or 75.0
    if low < target < 30:
        g = gluten_to_replace_g(flour_g, target, low, gluten)
        made.append(
            _blended(
                (Portion(weak, flour_g - g), Portion("vital_wheat_gluten", g)),
                "gluten powder for as much flour; it binds about 1.5 times its weight of water",
                (Portion("water", 1.5 * g),),
            )
        )
    if not made:
        raise Refused(
            f"{target:g} % protein cannot be made from {name_of(weak, room)} at {low:g} %.",
            "Any target from 9 to 15 % works.",
        )
    swapped = Swapped(Portion(weak, flour_g), tuple(made), None)
    return swap_outcome(
        request, swapped, bowl, tuple(assumed), room, head=f"{weight(flour_g)} flour at {target:g} % protein:"
    )


def _blended(parts: tuple[Portion, ...], effect: str, also: tuple[Portion, ...] = ()) -> Choice:
    kept = tuple(part for part in parts if part.g > 0.05)
    return Choice(kept, also, effect, 1.0, False, (), (), (), "strength", "reckoned", "protein balance SR28")
