"""A mistake told: too much, too little, forgotten, the wrong thing. What puts it right is asked for."""

from __future__ import annotations

from dataclasses import dataclass

from grammar.follow import Follow
from grammar.frames import Bound, Frame, Slot, amount_base
from grammar.levels import LIKELY, MAYBE, UNLIKELY, speaks
from grammar.mishap import told_in
from grammar.mishap_words import THING, factor_told, ids_of, left_out, of_flour, things_in
from grammar.requests.formula_rows import times_of
from grammar.requests.mend_double import went_in
from grammar.requests.mend_figures import (
    A_DOUGH_G,
    HYDRATIONS,
    NO_HYDRATION,
    all_of_it,
    by_hydration,
    in_percent,
    left_the_dough,
    of_warmth,
    run_out,
)
from grammar.requests.mend_follow import followed, reads
from grammar.requests.mend_kind import bids, kind_of_mistake, lists_a_dough
from grammar.requests.mend_wrong import is_flour, is_starter, not_an_amount, wrong_and_meant
from grammar.roles import take


@dataclass(frozen=True, slots=True)
class MendRequest:
    """meant 620 g water, poured 700, there's 1100 g flour in the bowl
    i left the salt out
    put the salt in twice
    50 g too much water
    dough is too wet, i overpoured

    mistake: over, under, forgot, twice, wet, dry, wrong, ounces, short, hot_water or step. item: ingredient ids the
    thing may be. meant_g, poured_g, off_g: as planned, as it went in, the difference; ml where `in_ml`. used: ids
    of what went in by mistake. share: "half" of it. times: how often it went in. too_few: pieces missing. inside:
    other things said to be in the bowl, (id, g). stage: mixing, bulk, shaped, baking, baked. late_min: how long
    ago. step: what was not done.
    """

    mistake: str
    item: tuple[str, ...] = ()
    meant_g: float | None = None
    poured_g: float | None = None
    off_g: float | None = None
    in_ml: bool = False
    counted: bool = False  # the amounts are pieces: eggs
    used: tuple[str, ...] = ()
    inside: tuple[tuple[str, float], ...] = ()
    stage: str | None = None
    late_min: float | None = None
    step: str | None = None
    pieces: float | None = None
    made: float | None = None
    too_few: float | None = None
    share: float | None = None
    meant_pct: float | None = None
    poured_pct: float | None = None
    times: float | None = None
    starter_pct: float | None = None
    piece_g: float | None = None
    dough_g: float | None = None
    water_c: float | None = None
    dissolved: bool = False
    again: bool = False  # goes on from the last mishap told


SAME = "same"
"""The mistake of a line that goes on: "it's already in bulk", "there's 1 kg flour in it"."""


def build(bound: Bound) -> MendRequest | None:
    """The request; None where no mishap is told (a change that is only weighed up is no mistake)."""
    supposed = bound.said("ask:what_if") or "if" in bound.links()
    if supposed and bound.context.has_bake and bound.said("cue:greater", "act:add"):
        return None  # "if i put another 25 ml water in" asks what the dough would be
    if bids(bound) or lists_a_dough(bound):
        return None
    things = things_in(bound)
    step = next((i for p in bound.phrases for i in p.ids("step_left")), None)
    stage = next((i for p in bound.phrases for i in p.ids("so_far")), None)
    late = bound.base("late_min")
    whole = bound.first("dough_g")
    dough_g = None if whole is not None and of_flour(bound, whole) else bound.base("dough_g")
    told, inside = told_in(bound, things)
    if told.meant is not None and told.meant < NO_HYDRATION and of_warmth(bound):
        return None  # "dough temperature 20 and wanted 26, add water?"
    if left_the_dough(bound):
        return None  # "left the dough out all night" forgot nothing that goes in
    if told.item is None and told.meant is not None and told.meant < NO_HYDRATION and bound.said("look:came_out"):
        return None  # "came out at 29, wanted 25": degrees
    if run_out(bound) and told.meant is None and told.poured is None:
        return None  # "ran out of bread flour, 300 g short" looks for something else to take
    said_c = bound.first("water_c")
    degrees = said_c is not None and said_c.amount is not None and said_c.amount.dim == "temperature"
    water_c = bound.base("water_c") if degrees or not bound.said("mistake:over", "mistake:under") else None
    if told.item is None and told.off is None and bound.said("mistake:by_mistake"):
        all_of_it(bound, told, inside, things)
    hot = bound.said("mistake:hot_water") and not bound.said("mistake:over", "mistake:under")
    if told.off is not None and water_c is None and hot and 25 <= told.off <= 100:
        water_c, told.off = told.off, None  # "the water was too hot, about 65"
    wrong = wrong_and_meant(bound, things)
    mistake = (
        "wrong"
        if wrong is not None and not_an_amount(bound, told, wrong) and not left_out(bound)
        else kind_of_mistake(bound, told, step)
    )
    if mistake is None:
        again = bound.said("mistake:rescue")
        if bound.context.focus != "mend" or not (stage or inside or late is not None or told.off is not None or again):
            return None
        mistake = SAME
    if mistake == "twice" and times_of(bound) and factor_told(bound) is None and not went_in(bound):
        return None  # a wish, not a slip: nothing was done
    if late is not None and stage is None:
        stage = "bulk"
    if mistake in ("wet", "dry", "over", "under") and told.item is None:
        mistake = by_hydration(bound, told, mistake)
    item = ids_of(bound.phrases[told.item]) if told.item is not None else ()
    by_water = mistake in ("wet", "dry") or (told.item is None and told.meant is not None and told.poured is not None)
    if by_water and dough_g is None and told.off is not None and told.off >= A_DOUGH_G:
        dough_g, told.off = told.off, None  # "dough too wet, 1.8 kg"
    item = item or tuple(dict.fromkeys(i for p in bound.phrases for i in (*p.ids("implies"), *p.ids("put_in"))))
    if not item and told.meant is not None and told.poured is not None:
        low, high = sorted((told.meant, told.poured))
        if low < HYDRATIONS[0] or high > HYDRATIONS[1]:
            return None  # two figures of something nobody named: no hydration
        item = ("hydration",)
    if told.item is None and item[:1] != ("hydration",) and in_percent(bound, told):  # "too salty, 3 % instead of 2"
        told.meant_pct, told.poured_pct, told.meant, told.poured = told.meant, told.poured, None, None
    used: tuple[str, ...] = ()
    stiffness = (told.meant_pct, told.poured_pct)
    if told.item is not None and is_starter(bound, told.item) and min(one or 0.0 for one in stiffness) >= 40:
        kind = ("starter_100",)  # "the starter was at 50 % instead of 100"
        rest = [(one, g) for one, g in inside if not one.startswith("starter")]
        starter_g = next((g for one, g in inside if one.startswith("starter")), told.off)
        rest += [("starter_100", starter_g)] if starter_g is not None else []
        return MendRequest("wrong", kind, used=kind, stage=stage, starter_pct=told.poured_pct, inside=tuple(rest))
    if mistake == "wrong" and wrong is not None and wrong[0] == wrong[1] and is_starter(bound, wrong[0]):
        pct = next((amount_base(h.amount) for h in bound.of("mass") if h.amount and h.amount.dim == "pct"), None)
        pct = pct or (100.0 if bound.said("cue:liquid_starter") else 50.0)
        kind = ("starter_100",)
        return MendRequest("wrong", kind, used=kind, stage=stage, starter_pct=pct)
    if mistake == "wrong" and wrong is not None:
        used, item = ids_of(bound.phrases[wrong[0]]), (ids_of(bound.phrases[wrong[1]]) if wrong[1] != wrong[0] else ())
        weighed = next((g for one, g in inside if one in (*used[:1], *item[:1])), None)
        told.poured = next((g for g in (weighed, told.poured, told.off, told.meant) if g is not None), None)
        told.meant = told.off = None
        flour = is_flour(bound, wrong) and told.poured is not None
        inside = [(one, g) for one, g in inside if one not in (*used[:1], *item[:1])]
        if flour and told.poured is not None:  # the dough is told by its flour: so much of what was meant
            inside.append((item[0] if item else "flour_bread", told.poured))
    return MendRequest(
        mistake=mistake,
        again=mistake == SAME,
        item=item,
        meant_g=told.meant,
        poured_g=told.poured,
        off_g=told.off,
        in_ml=told.in_ml,
        counted=told.counted,
        used=used,
        inside=tuple(inside),
        stage=stage,
        late_min=late,
        step=step if mistake == "step" else None,
        share=told.share,
        meant_pct=told.meant_pct,
        poured_pct=told.poured_pct,
        times=(3.0 if bound.said("mistake:thrice") else factor_told(bound) or 2.0) if mistake == "twice" else None,
        too_few=(bound.base("pieces") or told.off) if bound.said("mistake:too_few") else None,
        pieces=bound.base("pieces") if mistake != "short" else bound.base("pieces") or told.meant or told.off,
        made=bound.base("made"),
        piece_g=bound.base("piece_g"),
        dough_g=dough_g,
        water_c=water_c,
        dissolved=bound.said("mistake:dissolved"),
    )


ONWARD = Frame(
    MendRequest, "mend", build, reads=reads(lambda g: MendRequest(SAME, off_g=g, again=True)), settles=True
)

FRAME = Frame(
    MendRequest,
    "mend",
    build,
    follow=Follow(
        alone=lambda line, earlier, bound: line.mistake != SAME, account=followed,
    ),
    slots={
        "mass": take("told_amount", bare=MAYBE, many=True),
        "water_c": Slot(
            {"temperature": 1.4, "num": -0.2}, bare=0.2, low=1, high=212,
            cues=("mistake:hot_water", "kettle:*", "ingredient:water", "cue:water"),
        ),
        "late_min": Slot({"time": 1.0}, cues=("so_far:*", "mistake:*"), bare=0.5, low=1, high=3000),
        "made": take("made_pieces"),
        "pieces": take("pieces"),
        "piece_g": take("piece_g", cues=("piece:*", "bread:*"), weight=-LIKELY),
        "dough_g": take("dough_g", cues=("cue:dough", "cue:total", "look:loaf_of"), weight=UNLIKELY),
        "stage": Slot(term=("so_far:*",), weight=-0.4),
        "thing": Slot(term=THING, many=True),
        "absent": Slot(term=(*THING, "piece:*", "bread:*"), without=True, many=True),
        "piece": Slot(term=("piece:*", "bread:*"), many=True, weight=-0.6),
    },
    cues=speaks(
        alone="mistake:twice mistake:thrice mistake:short_pieces",
        telling="mistake:* stance:should act:double act:triple cue:double step_left:* put_in:*",
        certain="stance:called_for look:loaf_of into:oz feel:*",
        sure="cue:recipe_given so_far:* cue:limit",
        likely="stance:holds unit:* implies:* cue:dough cue:greater kettle:*",
        maybe=(
            "stance:was stance:at_hand cue:formula mark:mix state:moved cue:stiff cue:liquid_starter ask:what "
            "ask:can_i ask:how_much ask:how_to ask:is_it act:add cue:fewer act:correct ask:when"
        ),
        seldom="cue:hydration cue:piece_mass",
        heard="negation:no cue:missing link:instead_of tail:*",
    ),
    needs=(
        "mistake:*", "feel:*", "act:double", "act:triple", "cue:double", "link:instead_of", "stance:called_for",
        "stance:should", "cue:limit", "put_in:*",
    ),
    rules_out=("feeding:less_discard", "feeding:twice", "feeding:left_over"),
    base=0.2,
)  # fmt: skip

FRAMES = (ONWARD,)
