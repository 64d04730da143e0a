"""A mistake in the bowl put right for the dough in hand, or for the weights that were said."""

from __future__ import annotations

from assistant.answers import answers
from assistant.answers.in_the_bowl import amounts, bowl_in_hand, name_of, notes, rows, weight
from assistant.answers.mend_kept import as_before
from assistant.answers.mended import mend_fields, mended
from assistant.answers.wrong_thing import water_too_hot, wrong_flour, wrong_starter, wrong_thing
from assistant.engine.bowl import STARTER, Bowl
from assistant.engine.cautions import Scene
from assistant.engine.composition import Portion
from assistant.engine.mends import (
    by_feel,
    exchanged,
    forgotten,
    grams_from_ounces,
    lapse_for,
    over,
    short_of_pieces,
    under,
)
from assistant.engine.naming import figure
from assistant.engine.refusal import Refused
from assistant.talk.reply import Outcome, Unclear
from assistant.talk.room import Room
from assistant.voice.page import Line, Page
from grammar.requests.mend_request import MendRequest
from knowledge.records.lapses import Lapse

USUAL = (Portion("flour_bread", 1000.0), Portion("water", 650.0), Portion("salt_table", 20.0))
USUAL_STARTER_G = 200.0
SAME = 0.02
"""A weight said is the planned one when it is within 2 % of it."""


@answers(MendRequest)
def answer(request: MendRequest, room: Room) -> Outcome:
    """What to add, what the dough then is, and what still helps where nothing can be added."""
    if request.mistake == "same":
        raise Refused("What went wrong was not said.", "Say it: forgot the salt; 50 g too much water.")
    room = as_before(room) if request.again else room
    stage = request.stage or "mixing"
    if request.mistake == "step":
        return _step(request, stage, room)
    plan, assumed, known = _plan(request, room)
    if request.mistake == "hot_water":
        return water_too_hot(request, plan, assumed, room)
    if request.mistake in ("wet", "dry"):
        mend = by_feel(plan, request.mistake == "wet", stage, room.kb.all(Lapse), room.kb.ingredients)
        return mended(request, plan, mend, f"dough too {request.mistake} by feel", assumed, known, room)
    if request.mistake == "short":
        return _short(request, plan, known, assumed, room)
    if request.mistake == "wrong" and request.starter_pct is not None:
        return wrong_starter(request, request.starter_pct, plan, assumed, known, room)
    if request.mistake == "wrong" and not any(item.startswith(("flour", "semolina", "corn")) for item in request.used):
        return wrong_thing(request, plan, assumed, known, room)
    if request.mistake == "wrong":
        return wrong_flour(request, plan, stage, assumed, known, room)
    if request.item[:1] == ("hydration",):
        return _hydration(request, plan, stage, assumed, known, room)
    item = _item(request, plan, room)
    if request.mistake == "exchanged":
        return _exchanged(request, item, plan, stage, assumed, known, room)
    return _amount(request, item, plan, stage, assumed, known, room)


def _exchanged(
    request: MendRequest, item: str, plan: Bowl, stage: str, assumed: tuple[str, ...], known: bool, room: Room
) -> Outcome:
    """Two things of the dough went in each at the weight of the other."""
    other = next((one for one in request.used if plan.g(one) > 0 and one != item), None)
    if other is None or plan.g(item) <= 0:
        raise Unclear("What went in, and how much of it?", ("20 g salt went in instead of sugar",))
    mend = exchanged(plan, item, other, stage, room.kb.all(Lapse), room.kb.ingredients)
    said = f"{name_of(item, room)} and {name_of(other, room)} each at the weight of the other"
    return mended(request, plan, mend, said, assumed, known, room, item=item)


def _plan(request: MendRequest, room: Room) -> tuple[Bowl, tuple[str, ...], bool]:
    """The dough as it was meant, what was assumed of it, and whether its size is known.

    Weights said in the line win over the dough in hand where they tell of another one.
    """
    foods = room.kb.ingredients
    bowl = bowl_in_hand(room)
    inside = [(item if item != "flour" else "flour_bread", g) for item, g in request.inside]
    said_flour = [(item, g) for item, g in inside if item in foods and foods[item].group == "flour"]
    if bowl is not None:
        flour_g = sum(g for _, g in said_flour)
        if not said_flour or abs(flour_g - bowl.bowl_flour_g(foods)) <= SAME * flour_g:
            return _as_weighed(bowl, request, room), (), True
    if said_flour:
        item = _item_or_none(request, None, room)
        rows_ = [
            Portion(name, g)
            for name, g in inside
            if name in foods and not name.startswith("starter") and (name != item or request.mistake == "wrong")
        ]
        starter_g = sum(g for name, g in inside if name.startswith("starter"))
        flour_g = sum(g for _, g in said_flour)
        water_pct = request.meant_g if request.item[:1] == ("hydration",) else request.meant_pct
        if item is None and water_pct is not None:
            rows_.append(Portion("water", flour_g * water_pct / 100))  # "too dry, 1 kg flour, 60 %"
        meant = _grams(request, request.meant_g, item, room)
        if meant is None and request.meant_pct is not None:
            meant = flour_g * request.meant_pct / 100
        if item is not None and meant is not None and not item.startswith("starter") and foods[item].group != "flour":
            rows_.append(Portion(item, meant))
        if item is not None and item.startswith("starter") and meant is not None:
            starter_g += meant
        made = Bowl((), starter_g=starter_g).with_added(rows_)
        guessed: list[str] = []
        if _wants_the_rest(request, item, room) and made.g("water") <= 0:
            there = {*(row.item for row in rows_), *((item,) if request.mistake != "wrong" else ())}
            rest = [Portion(row.item, row.g * flour_g / 1000) for row in USUAL[1:] if row.item not in there]
            made = made.with_added(rest)
            figures = {"water": "65 % hydration", "salt_table": "2 % salt"}
            guessed.append(", ".join(figures[row.item] for row in rest))
        if meant is None and item is not None and made.g(item) <= 0:
            made, words = _usual_row(made, item, flour_g, room)
            guessed += words
        return made, tuple(guessed), True
    if bowl is not None:
        return _as_weighed(bowl, request, room), (), True
    usual = Bowl(USUAL, starter_g=USUAL_STARTER_G if "starter" in str(request.item) else 0.0)
    item = _item_or_none(request, None, room)
    words = ["per 1000 g of flour at 65 % hydration, 2 % salt: no dough in hand"]
    meant_pct = request.meant_g if request.item[:1] == ("hydration",) else request.meant_pct
    if meant_pct is not None and item is None:
        usual = usual.with_added((Portion("water", 10 * meant_pct - 650.0),))
        words = [f"per 1000 g of flour at {figure(meant_pct)} % hydration, 2 % salt: no dough in hand"]
    if request.dough_g is not None and item is None and request.mistake != "forgot":
        # the dough weighed is the one that came out, with what is too much in it
        there_g = usual.dough_g
        if request.item[:1] == ("hydration",) and request.poured_g is not None and meant_pct is not None:
            there_g += 10 * (request.poured_g - meant_pct)
        words[0] = words[0].removeprefix("per 1000 g of flour at ").removesuffix(": no dough in hand")
        return usual.times(request.dough_g / there_g), (f"{words[0]}: no dough in hand",), True
    if item is not None and usual.g(item) <= 0:
        usual, more = _usual_row(usual, item, 1000.0, room)
        words += more
    if request.dough_g is not None and request.mistake == "forgot":
        words[0] = "65 % hydration and 2 % salt: no dough in hand"
        return _as_weighed(usual, request, room), tuple(words), True
    return usual, tuple(words), False


def _wants_the_rest(request: MendRequest, item: str | None, room: Room) -> bool:
    """Whether the dough may have to grow, so that flour alone would make it dry where only the flour was told."""
    if request.mistake == "wrong":
        return True
    foods = room.kb.ingredients
    grows = request.mistake in ("over", "twice", "ounces") and item is not None and item in foods
    return grows and foods[str(item)].group in ("salt", "sugar", "fat", "malt")


def _as_weighed(bowl: Bowl, request: MendRequest, room: Room) -> Bowl:
    """The dough at the weight that was said of it, where something was forgotten: the weight lacks what is missing."""
    if request.dough_g is None or request.mistake != "forgot":
        return bowl
    item = _item_or_none(request, bowl, room)
    there_g = bowl.dough_g - (bowl.g(item) if item is not None else 0.0)
    factor = request.dough_g / there_g if there_g > 0 else 1.0
    if abs(factor - 1) <= SAME:
        return bowl
    return bowl.times(factor)


def _usual_row(bowl: Bowl, item: str, flour_g: float, room: Room) -> tuple[Bowl, list[str]]:
    """The usual amount of something whose planned weight was not said."""
    pct = {"salt": 2.0, "water": 65.0, "starter": 20.0, "sugar": 5.0, "fat": 5.0, "malt": 1.0}
    if item.startswith("starter"):
        return bowl.with_added((Portion(STARTER, flour_g * 0.2),)), ["starter 20 % of the flour"]
    if item == "yeast_fresh":
        share = 2.0
    elif item.startswith("yeast"):
        share = 0.7
    else:
        share = pct.get(room.kb.ingredients[item].group, 0.0)
    if not share:
        return bowl, []
    return bowl.with_added((Portion(item, flour_g * share / 100),)), [
        f"{name_of(item, room)} {figure(share)} % of the flour"
    ]


def _item_or_none(request: MendRequest, plan: Bowl | None, room: Room) -> str | None:
    foods = room.kb.ingredients
    named = [item for item in request.item if item in foods]
    if plan is not None:
        if "flour" in request.item:
            flours = [row for row in plan.portions if foods[row.item].group == "flour"]
            if flours:
                return max(flours, key=lambda row: row.g).item
        inside = [item for item in named if plan.g(item) > 0]
        if inside:
            return inside[0]
        groups = {foods[item].group for item in named}
        alike = [row.item for row in plan.portions if foods[row.item].group in groups]
        if alike and groups & {"salt", "leavening", "fat", "dairy", "malt", "sugar", "egg", "seed"}:
            return alike[0]
    if "flour" in request.item and not named:
        return "flour_bread"
    return named[0] if named else None


def _item(request: MendRequest, plan: Bowl, room: Room) -> str:
    item = _item_or_none(request, plan, room)
    if item is None:
        if request.mistake == "ounces":
            raise Unclear(
                "What was weighed in ounces, all of it or one thing?",
                ("scale was on ounces for the salt", "took ounces for grams for 24 g yeast"),
            )
        raise Unclear(
            "Too much or too little of what?", ("50 g too much water", "forgot the salt", "put the salt in twice")
        )
    return item


def _grams(request: MendRequest, value: float | None, item: str | None, room: Room) -> float | None:
    """Grams of an amount said in grams, or in millilitres of this ingredient."""
    each = room.kb.ingredients[item].each_g if item is not None and item in room.kb.ingredients else None
    if value is not None and request.counted and each:
        return value * each
    if value is None or not request.in_ml or item is None:
        return value
    cup_g = room.kb.ingredients[item].cup_g if item in room.kb.ingredients else None
    if cup_g is None:
        raise Refused(f"{name_of(item, room).capitalize()} cannot be weighed from a volume.", "Say it in grams.")
    return value * cup_g / 236.588


def _amount(
    request: MendRequest, item: str, plan: Bowl, stage: str, assumed: tuple[str, ...], known: bool, room: Room
) -> Outcome:
    """Forgotten, twice, too much, too little, ounces."""
    lapses, foods = room.kb.all(Lapse), room.kb.ingredients
    planned = plan.g(item)
    meant = _grams(request, request.meant_g, item, room)
    poured = _grams(request, request.poured_g, item, room)
    off = _grams(request, request.off_g, item, room)
    if poured is None and request.poured_pct is not None:
        poured = plan.holds(foods).flour_g * request.poured_pct / 100
    if request.mistake == "forgot" and request.share is not None:
        off = planned * request.share
    if request.mistake == "forgot" and off is not None and off < planned:
        mend = under(plan, item, planned - off, stage, lapses, foods)
        said = f"{weight(off)} of the {name_of(item, room)} forgotten"
        return mended(request, plan, mend, said, assumed, known, room, item=item)
    if request.mistake == "forgot":
        mend = forgotten(plan, item, stage, lapses, foods)
        return mended(request, plan, mend, f"{name_of(item, room)} forgotten", assumed, known, room, item=item)
    if request.mistake == "ounces":
        poured = grams_from_ounces(off or meant or planned)
    elif request.mistake == "twice":
        poured = (request.times or 2.0) * planned
    elif request.share is not None:
        wanting = planned * (1 - request.share if request.mistake == "under" else request.share)
        poured = planned - wanting if request.mistake == "under" else planned + wanting
    elif poured is None and off is not None:
        poured = planned + off if request.mistake == "over" else planned - off
    elif poured is not None and meant is not None and planned > 0 and abs(meant - planned) > SAME * planned:
        poured = planned * poured / meant  # told of another size of the same dough: the proportion counts
    if planned <= 0:
        raise Refused(
            f"There is no {name_of(item, room)} in this dough to measure it against.",
            f"Say what was meant too: meant 20 g {name_of(item, room)}, put in 30.",
        )
    if poured is None:
        return _unweighed(request, item, plan, stage, assumed, known, room)
    if poured < 0:
        raise Refused(f"{weight(-poured)} less than nothing cannot be in the bowl.", "Say how much went in.")
    too_much = poured >= planned
    mend = (over if too_much else under)(plan, item, poured, stage, lapses, foods)
    said = f"{weight(abs(poured - planned))} too {'much' if too_much else 'little'} {name_of(item, room)}"
    return mended(request, plan, mend, said, assumed, known, room, item=item)


def _hydration(
    request: MendRequest, plan: Bowl, stage: str, assumed: tuple[str, ...], known: bool, room: Room
) -> Outcome:
    """The hydration came out other than meant: so much water too much or too little."""
    if request.poured_g is None:
        raise Unclear("What did the hydration come out at?", ("hydration came out 72 instead of 65",))
    foods, lapses = room.kb.ingredients, room.kb.all(Lapse)
    meant = request.meant_g if request.meant_g is not None else plan.hydration_pct(foods) or 0.0
    points = request.poured_g - meant
    flour_g = plan.holds(foods).flour_g
    g = plan.g("water") + flour_g * points / 100
    mend = (over if points >= 0 else under)(plan, "water", g, stage, lapses, foods)
    said = f"hydration {figure(request.poured_g)} % instead of {figure(meant)} %"
    return mended(request, plan, mend, said, assumed, known, room, item="water")


def _unweighed(
    request: MendRequest, item: str, plan: Bowl, stage: str, assumed: tuple[str, ...], known: bool, room: Room
) -> Outcome:
    """Too much or too little of something, by an amount nobody knows."""
    foods, lapses = room.kb.ingredients, room.kb.all(Lapse)
    group = foods[item].group if item in foods else "starter"
    wet = (group in ("water", "dairy")) == (request.mistake == "over")
    if group in ("water", "dairy", "flour"):
        mend = by_feel(plan, wet, stage, lapses, foods)
        said = f"too {'much' if request.mistake == 'over' else 'little'} {name_of(item, room)}, by feel"
        return mended(request, plan, mend, said, assumed, known, room, item=item)
    lapse = lapse_for(lapses, request.mistake, item, stage, foods)
    name = name_of(item, room)
    text = f"How much {name} went in? {weight(plan.g(item))} was meant. {lapse.advice}"
    fields = mend_fields((), plan, plan, known, room) | {"advice": text}
    page = Page((Line(text), Line(f"Say: {weight(plan.g(item) * 1.5)} {name} went in.", role="ask")))
    told, _ = notes(Scene("mend", room.text), room)
    return Outcome("mend", fields, f"too much {name}, amount not known", page, assumed, told, (lapse.source,))


def _step(request: MendRequest, stage: str, room: Room) -> Outcome:
    """A step left out: nothing to add, something to do."""
    lapses = [
        lapse
        for lapse in room.kb.all(Lapse).values()
        if lapse.mistake == "step_forgotten"
        and request.step in lapse.of
        and (request.stage is None or stage in lapse.stages)
    ]
    if not lapses:
        raise Refused("I know no remedy for that step.", "Say which step was left out and how far the bake is.")
    shown = lapses if request.stage is None else lapses[:1]
    advice = " ".join(lapse.advice for lapse in shown)
    clock = " ".join(lapse.clock for lapse in shown if lapse.clock)
    bowl = bowl_in_hand(room)
    fields = mend_fields((), bowl, bowl, True, room) if bowl is not None else {"add": [], "dough_g": None}
    said, lines = notes(Scene("mend", room.text, steps=frozenset({request.step or ""})), room)
    blocks = (Line(advice), *((Line(clock),) if clock else ()), *lines)
    name = (request.step or "").replace("_", " ")
    return Outcome(
        "mend",
        fields | {"advice": advice},
        f"{name} left out",
        Page(blocks),
        (),
        said,
        tuple(one.source for one in shown),
    )


def _short(request: MendRequest, plan: Bowl, known: bool, assumed: tuple[str, ...], room: Room) -> Outcome:
    """The dough does not make the pieces that are wanted."""
    wanted = int(request.pieces or plan.pieces or 0)
    piece_g = request.piece_g or plan.piece_g
    made = int(request.made) if request.made is not None else None
    if request.too_few is not None and plan.pieces:
        wanted, made = plan.pieces, plan.pieces - int(request.too_few)
    if wanted and made is not None and made > wanted:
        wanted, made = made, wanted
    if not wanted or piece_g is None:
        raise Unclear("How many pieces should it make, and of what size?", ("only makes 22 of 100 g, should be 24",))
    loss = 1 + plan.loss_pct / 100
    dough_g = request.dough_g or (made * piece_g * loss if made is not None else None)
    if dough_g is None:
        raise Unclear(
            "How much dough is there, or how many pieces did it make?", ("only makes 22", "only 2100 g of dough")
        )
    if dough_g >= wanted * piece_g * loss:
        raise Refused(f"{dough_g:.0f} g makes {wanted} of {figure(piece_g)} g and more.", "Weigh the dough again.")
    smaller_g, more = short_of_pieces(plan, wanted, piece_g, dough_g)
    smaller = figure(100 * (1 - smaller_g / piece_g))
    advice = f"Divide into {wanted} of {figure(smaller_g)} g: {smaller} % smaller, a little less time."
    fields = mend_fields((), plan, plan, known, room) | {
        "dough_g": dough_g, "pieces": wanted, "piece_g": smaller_g, "advice": advice, "more": rows(more),
    }  # fmt: skip
    blocks = [Line(advice, role="head")]
    missing = wanted - int(dough_g / loss / piece_g + 1e-6)
    if more and known:
        blocks.append(Line(f"Or mix a little more of the same for the {missing} missing: {amounts(more, room)}."))
    said, lines = notes(Scene("mend", room.text), room)
    return Outcome(
        "mend", fields, f"dough short of {wanted} pieces", Page((*blocks, *lines)), assumed, said, ("arithmetic",)
    )
