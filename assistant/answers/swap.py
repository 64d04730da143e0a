"""What may stand in for what is missing or not wanted: grams, corrections, what to expect."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from assistant.answers import answers
from assistant.answers.in_the_bowl import (
    amount,
    amounts,
    bowl_in_hand,
    bread_in_hand,
    bulk_words,
    name_of,
    notes,
    rows,
    shelf,
    weight,
)
from assistant.engine.bath import bath_of
from assistant.engine.bowl import STARTER, Bowl
from assistant.engine.cautions import Scene
from assistant.engine.composition import Portion
from assistant.engine.naming import figure
from assistant.engine.refusal import Refused
from assistant.engine.swaps import (
    Avoid,
    Choice,
    Swapped,
    gluten_to_replace_g,
    may_carry,
    offenders,
    replaced,
    starter_for_yeast,
    strong_share,
    swaps_for,
    yeast_for_starter,
)
from assistant.reply import Outcome
from assistant.room import Room
from assistant.voice.page import Line, Page
from grammar.requests.swap import SwapRequest
from knowledge.records.baths import Bath
from knowledge.records.diets import Diet

UNSAID_G = 100.0
SHOWN = 3
STARTER_PCT = 20.0
YEASTS = ("yeast_instant", "yeast_active_dry", "yeast_fresh")
TASTE_ONLY = frozenset({"spice", "seed", "nut", "fruit", "cheese", "grain", "other", "malt"})
USUAL_OFFENDERS = ("butter_unsalted", "milk_whole", "egg_whole", "honey", "sesame_seeds", "walnuts", "sugar_granulated")


@answers(SwapRequest)
def answer(request: SwapRequest, room: Room) -> Outcome:
    """The swaps that serve, best first; for a diet, all rows that offend at once."""
    bowl = bowl_in_hand(room)
    if request.protein_pct is not None:
        return _blend(request, request.protein_pct, bowl, room)
    avoid, who = _avoid(request, room)
    if avoid is not None and not request.out:
        return _for_diet(request, avoid, who, bowl, room)
    into = _into(request, bowl, room)
    out = _out(request, into, bowl, room)
    if out == into:
        raise Refused(f"{name_of(out, room)} for {name_of(out, room)} is no swap.", "Say what is missing.")
    g, assumed = _out_g(request, out, bowl, room)
    job = request.job or _usual_job(out, bowl, room)
    swapped = _swapped(request, out, g, into, job, avoid, bowl, room)
    if not swapped.choices and swapped.leave_out is None:
        swapped = _left_out(swapped, into, room)
    return _outcome(request, swapped, bowl, assumed, room)


def _avoid(request: SwapRequest, room: Room) -> tuple[Avoid | None, str]:
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
    if request.out_g is not None:
        return request.out_g, ()
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
    return _outcome(
        request, swapped, bowl, tuple(assumed), room, head=f"{weight(flour_g)} flour at {target:g} % protein:"
    )


def _blended(parts: tuple[Portion, ...], effect: str, also: tuple[Portion, ...] = ()) -> Choice:
    kept = tuple(part for part in parts if part.g > 0.05)
    return Choice(kept, also, effect, 1.0, False, (), (), (), "strength", "reckoned", "protein balance SR28")


def _for_diet(request: SwapRequest, avoid: Avoid, who: str, bowl: Bowl | None, room: Room) -> Outcome:
    """Every row that a diet keeps out replaced at once."""
    diets = [room.kb.get(Diet, diet) for diet in request.diets]
    advice = " ".join(diet.advice for diet in diets if diet.advice)
    hopeless = next((diet.hopeless for diet in diets if diet.hopeless), None)
    if hopeless is not None:
        said, _ = notes(Scene("refused", f"{room.text} {diets[0].name} allergy"), room)
        refused = Refused(hopeless, None)
        refused.cautions = said  # type: ignore[attr-defined]
        raise refused
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
    outcome = _all_at_once(request, each, who, bowl, assumed, room)
    return replace(outcome, page=Page((*outcome.page.blocks, Line(advice)))) if advice else outcome


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
            shown.append(Line(f"{amount(one.out, room)}: {_parts_words(choice, room)} ({choice.effect})"))
        else:
            shown.append(Line(f"{amount(one.out, room)}: leave it out ({one.leave_out or 'taste and looks only'})"))
    also = [
        Line(
            f"Or for {name_of(one.out.item, room)}: {'; '.join(_parts_words(c, room) for c in one.choices[1:4])}.",
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
    page = Page((head, *shown, *also, *lines, *_assumed_line(assumed)))
    return Outcome("swap", out_field, f"make it {who}", page, assumed, said, sources)


def _added(parts: Any) -> tuple[Portion, ...]:
    total: dict[str, float] = {}
    for part in parts:
        total[part.item] = total.get(part.item, 0.0) + part.g
    return tuple(Portion(item, g) for item, g in total.items() if abs(g) > 0.05)


def _parts_words(choice: Choice, room: Room) -> str:
    words = amounts(choice.into, room)
    if choice.also:
        words += ", " + ", ".join(amount(part, room, sign=True) for part in choice.also)
    return words


def _outcome(
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
        blocks.append(Line(f"{_parts_words(choice, room)}: {_effect(choice, out, room)}", more=n >= SHOWN))
    if swapped.leave_out is not None:
        blocks.append(Line(f"without it: {swapped.leave_out}" if swapped.choices else f"{_start(swapped.leave_out)}."))
    blocks += [Line(text) for text in _changes(swapped.choices[:SHOWN], room)]
    items, dough = _scene_items(swapped, bowl)
    baths = frozenset({"lye"}) if out.item == "lye" else frozenset()
    said, lines = notes(Scene("swap", room.text, items, baths=baths), room, dough)
    sources = tuple(dict.fromkeys(choice.source for choice in swapped.choices))
    blocks.append(Line("From: " + "; ".join(sources) + ".", more=True)) if sources else None
    page = Page((*blocks, *lines, *_assumed_line(assumed)))
    into = f" by {name_of(swapped.choices[0].into[0].item, room)}" if request.into and swapped.choices else ""
    return Outcome("swap", answer_, f"replace {amount(out, room)}{into}", page, assumed, said, sources)


def _start(text: str) -> str:
    return text[0].upper() + text[1:]


def _assumed_line(assumed: tuple[str, ...]) -> tuple[Line, ...]:
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
