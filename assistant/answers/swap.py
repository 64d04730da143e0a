"""What may stand in for what is missing or not wanted: grams, corrections, what to expect."""

from __future__ import annotations

from dataclasses import replace

from assistant.answers import answers
from assistant.answers.diet import for_diet, to_avoid
from assistant.answers.in_the_bowl import bowl_in_hand, bread_in_hand, name_of, notes, shelf
from assistant.answers.protein_blend import protein_blend
from assistant.answers.swap_amounts import plain_dough, told_dough, weighed
from assistant.answers.swap_in_part import for_a_part
from assistant.answers.swap_leavens import OUTSIDE, swapped_for
from assistant.answers.swap_measured import in_unit
from assistant.answers.swap_offered import other_form, without_lacking
from assistant.answers.swap_sides import coming_in, going_out, out_g, row_like
from assistant.answers.swap_taken import taken
from assistant.answers.swapped import swap_outcome
from assistant.engine.bath import bath_of
from assistant.engine.bowl import Bowl
from assistant.engine.cautions import Scene
from assistant.engine.refusal import Refused
from assistant.engine.shelf import Avoid
from assistant.engine.swaps import Choice, Swapped, swaps_for
from assistant.talk.reply import Outcome
from assistant.talk.room import Room
from assistant.voice.page import Line, Page
from grammar.requests.swap import SwapRequest
from knowledge.records.baths import Bath
from knowledge.records.diets import Diet

TASTE_ONLY = frozenset({"spice", "seed", "nut", "fruit", "cheese", "grain", "other", "malt"})


@answers(SwapRequest)
def answer(request: SwapRequest, room: Room) -> Outcome:
    """The swaps that serve, best first; for a diet, all rows that offend at once."""
    bowl = bowl_in_hand(room)
    request = _lacking(request, bowl, room) if request.lacking else request
    if request.part is not None and bowl is not None:
        return for_a_part(request, bowl, lambda one, part: _for(one, part, room))
    return _for(request, bowl, room)


def _lacking(request: SwapRequest, bowl: Bowl | None, room: Room) -> SwapRequest:
    """The swap that is meant where a line says what there is none of."""
    choices = _for(replace(request, into=(), lacking=()), bowl, room).answer.get("choices", ())
    return without_lacking(request, (part["item"] for choice in choices for part in choice["in"]))


def _for(request: SwapRequest, bowl: Bowl | None, room: Room) -> Outcome:
    """The swaps that serve in this dough."""
    request = weighed(request, room)
    if request.protein_pct is not None:
        return protein_blend(request, request.protein_pct, bowl, room)
    bowl = plain_dough(request, request.flour_g, room) if bowl is None and request.flour_g is not None else bowl
    bowl = told_dough(request, room) if request.rows and not request.diets else bowl
    avoid, who = to_avoid(request, room)
    asked_only = request.into if request.diets and not request.out else ()
    request = _of_diet(request, room)
    if avoid is not None and not request.out:
        return for_diet(request, avoid, who, told_dough(request, room) if request.rows else bowl, room)
    into = coming_in(request, bowl, room)
    out = going_out(request, into, bowl, room)
    unweighed = request == replace(request, out_g=None, out_pct=None, count=None, have_g=None)
    if avoid is not None and bowl is not None and unweighed and bowl.g(out) <= 0 and avoid.hit_by(out, shelf(room)):
        return for_diet(replace(request, out=()), avoid, who, bowl, room)  # named beside what the dough does have
    _refuse_offending(request, out, into, avoid, who, room)
    if asked_only and into is not None:
        return _free_of_it(into, who, room)
    if out == into:
        raise Refused(f"{name_of(out, room)} for {name_of(out, room)} is no swap.", "Say what is missing.")
    job = request.job or _usual_job(out, bowl, room)
    g, assumed = out_g(request, out, job, bowl, room)
    into = other_form(swapped_for(request, out, g, None, job, avoid, bowl, room), into, room)
    swapped = swapped_for(request, out, g, into, job, avoid, bowl, room)
    given_g = _stands_for_g(request, swapped, g)
    if given_g is not None:  # "2 tbsp honey instead of sugar": how much sugar that is
        g, assumed = given_g, ()
        swapped = swapped_for(request, out, g, into, job, avoid, bowl, room)
    if not swapped.choices and into is not None and bowl is not None:
        other = row_like(into, bowl, room)
        if other is not None and other != out and bowl.g(other) > 0:  # it is for another row of this dough
            out, g = other, bowl.g(other)
            assumed = (f"for the {name_of(other, room)} of the dough in hand",)
            swapped = swapped_for(request, out, g, into, None, avoid, bowl, room)
    if not swapped.choices and into is not None and request.job is None:
        jobs = (swapped_for(request, out, g, into, one, avoid, bowl, room) for one in sorted(OUTSIDE))
        swapped = next((one for one in jobs if one.choices), swapped)  # "no malt. bicarb then": in the bath
    if not swapped.choices and (request.beside or job is not None):
        swapped = _otherwise(request, swapped, job, avoid, bowl, room)
    if not swapped.choices and (swapped.leave_out is None or into is not None):
        if into is not None and not request.take and _of_another_kind(request, out, into, room):
            return _for(SwapRequest(into=request.into), bowl, room)
        swapped = _left_out(swapped, into, room)
    swapped = _with_all_named(swapped, request, room)
    if request.take and job in OUTSIDE:
        return _outside(request, swapped, assumed, room)
    if request.take:
        return taken(((swapped, _picked(swapped, request.pick)),), room)
    if request.to is not None and swapped.choices:
        return in_unit(request.to, swapped, request, room)
    return _with_advice(swap_outcome(request, swapped, bowl, assumed, room), request, room)


def _outside(request: SwapRequest, swapped: Swapped, assumed: tuple[str, ...], room: Room) -> Outcome:
    """The one choice taken for a wash, a bath or a tin: nothing in the dough changes."""
    one = replace(swapped, choices=(_picked(swapped, request.pick),), leave_out=None)
    outcome = swap_outcome(request, one, None, assumed, room)
    return replace(outcome, page=Page((*outcome.page.blocks, Line("It is none of the dough's rows: those stay."))))


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
        made = swapped_for(request, out.item, out.g, other, job, avoid, bowl, room)
        if made.choices:
            return made
    group = foods[out.item].group if out.item in foods else ""
    known = [swap.out for swap in facts.swaps.values() if swap.function == job and foods[swap.out].group == group]
    for item in dict.fromkeys(known) if job is not None else ():
        made = swaps_for(item, out.g, facts, function=job, avoid=avoid)
        if made.choices:
            return replace(made, out=out)
    if job is not None and job not in OUTSIDE:  # "in the dough" only says where, not what it does there
        return swapped_for(request, out.item, out.g, None, None, avoid, bowl, room)
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


def _of_diet(request: SwapRequest, room: Room) -> SwapRequest:
    """The request with the food its diet is named for, where only an amount of it was said."""
    if request.out or (request.out_g is None and request.out_measure is None and not request.into):
        return request
    named = tuple(food for name in request.diets if (food := room.kb.get(Diet, name).named_for))
    return weighed(replace(request, out=named[:1]), room)


def _of_another_kind(request: SwapRequest, out: str, into: str, room: Room) -> bool:
    """Whether what comes in by a line that went on is nothing of the kind talked of before: a question of its own."""
    foods = room.kb.ingredients
    known = out in foods and into in foods
    return request.goes_on and request.job is None and known and foods[out].group != foods[into].group


def _stands_for_g(request: SwapRequest, swapped: Swapped, g: float) -> float | None:
    """Grams replaced by what comes in, where only that was weighed; None where it was not, or several come in."""
    said = (request.out_g, request.out_pct, request.count)
    if request.into_g is None or said != (None,) * 3 or not swapped.choices:
        return None
    comes = swapped.choices[0].into
    return g * request.into_g / comes[0].g if len(comes) == 1 and comes[0].g > 0 else None


def _picked(swapped: Swapped, pick: int) -> Choice:
    """The choice to make. Refused where there is none of that number."""
    if not 0 <= pick < len(swapped.choices):
        raise Refused(f"There are {len(swapped.choices)} choices.", "Say which one: use the first.")
    return swapped.choices[pick]


def _usual_job(out: str, bowl: Bowl | None, room: Room) -> str | None:
    """The job meant where none was said: at the bath for what only goes there."""
    if out in ("baking_soda", "malt_syrup", "honey") and bowl is not None and bowl.g(out) <= 0:
        bath = bath_of(bread_in_hand(room), room.kb.all(Bath))
        if bath is not None and (out == bath.item or out in bath.also):
            return "alkali"
    return "alkali" if out in ("lye", "baked_soda") else None


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
