"""The wrong flour or yeast in the bowl, and water that was too hot."""

from __future__ import annotations

from assistant.answers.in_the_bowl import amounts, name_of, notes, shelf, weight
from assistant.answers.mend_case import Case
from assistant.answers.mended import mend_fields, mended
from assistant.engine.bowl import STARTER, Bowl
from assistant.engine.cautions import Scene
from assistant.engine.composition import Portion
from assistant.engine.heat import heat_constants
from assistant.engine.hot_water import READD_BELOW_C, HotWater, hot_water
from assistant.engine.mend_pieces import divided
from assistant.engine.mends import Mend, mistaken
from assistant.engine.naming import figure
from assistant.engine.other_flour import other_starter, thirst_changed
from assistant.engine.swaps import swaps_for
from assistant.talk.reply import Outcome, Unclear
from assistant.talk.room import Room
from assistant.voice.page import Line, Page
from knowledge.records.kinetics import Kinetic


def wrong_flour(case: Case) -> Outcome:
    """Another flour than planned is in the bowl."""
    request, plan, room, foods = case.request, case.plan, case.room, case.foods
    used = next((item for item in request.used if item in foods), None)
    flours = [row for row in plan.portions if foods[row.item].group == "flour"]
    meant = next((item for item in request.item if plan.g(item) > 0), None)
    if used is None or not flours:
        raise Unclear("Which flour went in, and which was meant?", ("used plain flour instead of bread flour",))
    meant = meant or max(flours, key=lambda row: row.g).item
    g = plan.g(meant)
    bowl = plan.with_added((Portion(meant, -g), Portion(used, g)))
    if used == "flour_self_raising":
        advice = (
            "Self-raising flour holds salt and powder already: no long rise. Leave the salt out if it is not in yet, "
            "roll it thin and bake it within the hour as flatbreads; mix the dough afresh with the right flour."
        )
        add: tuple[Portion, ...] = ()
        points = 0.0
        source = "swaps on record: refused in yeast dough"
    else:
        points, effect, source = _thirst(meant, used, room)
        points *= g / plan.holds(foods).flour_g
        soft = case.stage in ("mixing", "bulk") and abs(points) >= 0.3
        add = thirst_changed(plan, bowl, points, foods) if soft else ()
        advice = f"Expect it {effect}."
        if points < -0.3 and add:
            advice += " Or add nothing: fold once more, a tin or a smaller shape holds it."
    after = bowl.with_added(add)
    pieces, piece_g = divided(plan, after.dough_g)
    made = Mend(add, _with_pieces(after, pieces, piece_g), advice, "", after.dough_g / plan.dough_g, None, source)
    read_as = f"{name_of(used, room)} in place of {name_of(meant, room)}"
    return mended(case, made, read_as)


def wrong_starter(case: Case, hydration_pct: float) -> Outcome:
    """A stiff starter where a liquid one was meant, or the other way round."""
    plan = case.plan
    add, after = other_starter(plan, hydration_pct, case.foods)
    advice = (
        f"The starter at {figure(hydration_pct)} % holds {weight(after.starter_flour_g)} flour instead of "
        f"{weight(plan.starter_flour_g)}: work in what is missing a little at a time."
    )
    clock = (
        "A stiff one works slower and milder."
        if hydration_pct < plan.starter_hydration_pct
        else "It works a little faster."
    )
    made = Mend(add, after, advice, clock, after.dough_g / plan.dough_g, None, "flour balance")
    return mended(case, made, f"starter of {figure(hydration_pct)} % hydration")


def wrong_thing(case: Case) -> Outcome:
    """Something else went in at the weight of what was meant: what its own equivalent would still want."""
    request, plan, room, foods = case.request, case.plan, case.room, case.foods
    used = next((item for item in request.used if item in foods), None)
    meant = next((item for item in request.item if plan.g(item) > 0), None)
    if used is None or meant is None:
        raise Unclear("What went in, and what was meant?", ("used active dry yeast instead of instant by mistake",))
    g = request.poured_g if request.poured_g is not None else plan.g(meant)
    swapped = swaps_for(meant, g, shelf(room), bowl=plan, into=used)
    if not swapped.choices:
        mend = mistaken(plan, meant, used, case.stage, case.lapses, foods, g)
        said = f"{weight(g)} {name_of(used, room)} in place of {name_of(meant, room)}"
        return mended(case, mend, said)
    choice = swapped.choices[0]
    wanted = next(part.g for part in choice.into if part.item == used)
    add = tuple(row for row in (Portion(used, wanted - g), *choice.also) if row.g >= 0.05)
    right = f"{weight(wanted)} {name_of(used, room)} would do the work of {weight(g)} {name_of(meant, room)}"
    advice = f"{right}: {choice.effect}."
    if wanted < g * 0.98:
        advice += f" {weight(g - wanted)} too much is in: watch the rise, or make the rest of the dough larger."
    after = plan.with_added((Portion(meant, -g), Portion(used, g), *add))
    pieces, piece_g = divided(plan, after.dough_g)
    made = Mend(add, _with_pieces(after, pieces, piece_g), advice, "", 1.0, None, choice.source)
    read_as = f"{name_of(used, room)} in place of {name_of(meant, room)}"
    return mended(case, made, read_as)


def _with_pieces(bowl: Bowl, pieces: int | None, piece_g: float | None) -> Bowl:
    return Bowl(
        bowl.portions, bowl.starter_g, bowl.starter_hydration_pct, bowl.starter_flour, pieces, piece_g, bowl.loss_pct
    )


def _thirst(meant: str, used: str, room: Room) -> tuple[float, str, str]:
    """Points of hydration more (less: below 0) that the other flour drinks, what it does, and where that is from."""
    facts = shelf(room)

    def direct(out: str, into: str) -> tuple[float, str, str] | None:
        for swap in facts.swaps.values():
            if (
                swap.out == out
                and [part.item for part in swap.into] == [into]
                and swap.function in ("strength", "wholegrain")
            ):
                return 100 * (swap.water_g or 0.0), swap.effect, swap.source
        return None

    straight = direct(meant, used)
    if straight is not None:
        return straight
    back = direct(used, meant)
    if back is not None:
        return -back[0], f"the other way round from this: {back[1]}", back[2]
    first, second = direct("flour_bread", used), direct("flour_bread", meant)
    points = (first[0] if first else 0.0) - (second[0] if second else 0.0)
    effect = first[1] if first else "different in strength: judge it by feel after 20 minutes' rest"
    return points, effect, (first or second or (0.0, "", "trade practice"))[2]


def water_too_hot(case: Case) -> Outcome:
    """Water that was too hot: the dough's temperature, the leaven's fate, what to do."""
    request, plan, room, assumed = case.request, case.plan, case.room, case.assumed
    water_c = request.water_c if request.water_c is not None else 100.0
    heat = heat_constants(room.kb.all(Kinetic))
    leaven = next((row.item for row in plan.portions if row.item.startswith("yeast")), None)
    if plan.starter_g <= 0 and leaven is None:
        named = next((item for item in request.item if item.startswith("yeast")), "yeast_instant")
        plan = plan.with_added((Portion(named, plan.bowl_flour_g(room.kb.ingredients) * 0.007),))
        leaven = named
        assumed = (*assumed, f"{name_of(named, room)} 0.7 % of the flour")
    seen = hot_water(plan, water_c, room.kitchen_c, heat, room.kb.ingredients, dissolved=request.dissolved or None)
    name = "starter" if seen.starter else name_of(leaven or "yeast_instant", room)
    portion = (
        Portion(STARTER, plan.starter_g) if seen.starter else Portion(leaven or "yeast_instant", plan.g(leaven or ""))
    )
    add = (portion,) if seen.fate == "dead" else ()
    advice = _fate_words(seen, name, amounts((portion,), room))
    fields = mend_fields(add, plan, plan.with_added(add), bool(room.formula_said or request.inside), room)
    fields |= {"advice": advice, "mixed_c": seen.dough_c, "fate": seen.fate}
    blocks = [Line(advice, role="head")]
    if seen.dough_c > 30:
        blocks.append(
            Line(f"The dough came out at about {figure(seen.dough_c)} °C: spread it thin, cool it below 28 °C first.")
        )
    said, lines = notes(Scene("mend", room.text), room)
    tail = (Line("Assumed: " + "; ".join(assumed) + "."),) if assumed else ()
    sources = ("US Armed Forces cards (wetting at 40-46 °C); yeast dies at 50-60 °C; Gänzle et al. 1998; heat balance",)
    read_as = f"water at {figure(water_c)} °C"
    return Outcome("mend", fields, read_as, Page((*blocks, *lines, *tail)), assumed, said, sources)


def _fate_words(seen: HotWater, name: str, again: str) -> str:
    limit = "36 °C" if seen.starter else "46 °C"
    if seen.fate == "alive":
        return (
            f"Probably no harm: mixed in, the {name} met about {figure(seen.met_c)} °C, and it bears {limit}. Watch "
            "for bubbles within the hour."
        )
    if seen.fate == "dead":
        return (
            f"The {name} is dead: at {figure(seen.met_c)} °C it does not live. Cool to {READD_BELOW_C:.0f} °C and add "
            f"{again} afresh."
        )
    return (
        f"Doubtful: the {name} bears {limit}. Mixed with the flour first it met about {figure(seen.dough_c)} °C; "
        f"stirred into the water it met {figure(seen.water_c)} °C and is gone. No bubbles within an hour: add {again} "
        "again, cool."
    )
