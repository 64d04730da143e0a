"""A mistake told: too much, too little, forgotten, the wrong thing. What puts it right is asked for."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace

from grammar.frames import Bound, Frame, Slot, amount_base, fits
from grammar.mishap import MEANT, THING, Told, factor_told, ids_of, left_out, never_meant, of_flour, things_in, told_in
from grammar.requests.formula_rows import times_of
from grammar.stance import gap


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

    def onto(self, earlier: MendRequest, bound: Bound) -> MendRequest:
        """A line that goes on: "it's already in bulk", "there's 1 kg flour in it"."""
        if self.mistake != "same":
            return self
        return replace(
            earlier,
            again=True,
            stage=self.stage or earlier.stage,
            late_min=self.late_min if self.late_min is not None else earlier.late_min,
            inside=self.inside or earlier.inside,
            off_g=self.off_g if self.off_g is not None else earlier.off_g,
            water_c=self.water_c if self.water_c is not None else earlier.water_c,
        )


def _mistake(bound: Bound, told: Told, step: str | None) -> str | None:
    """Which kind of mishap the line tells; None where it tells none."""
    if bound.first("water_c") is not None and (
        bound.said("mistake:hot_water", "mistake:by_mistake", "mistake:rescue") or _water(bound)
    ):
        return "hot_water"
    weighed = told.off is not None and bound.said("mistake:over", "mistake:under", "mistake:meant")
    if bound.said("mistake:hot_water") and not (bound.said("mistake:forgot") or weighed):
        return "hot_water"
    if bound.said("kettle:*") and bound.said(
        "mistake:dissolved", "mistake:by_mistake", "mistake:rescue", "mistake:poured"
    ):
        return "hot_water"
    if bound.said("mistake:ounces") or _in_ounces(bound):
        return "ounces"
    if told.meant is not None and told.poured is not None and told.item is not None:
        return "over" if told.poured >= told.meant else "under"
    if told.item is not None and (
        (told.meant_pct is not None and told.poured is not None) or told.poured_pct is not None
    ):
        return "over"
    if bound.said("mistake:too_few") and told.item is None and (bound.first("pieces") or told.off is not None):
        return "short"
    if bound.said("mistake:short_pieces") and (bound.first("made") or bound.said("piece:*", "cue:pieces", "cue:dough")):
        return "short"
    if left_out(bound):
        return "step" if step is not None and told.item is None else "forgot"
    if factor_told(bound) is not None:
        return "twice"
    if bound.said("mistake:twice", "mistake:thrice"):
        return "twice" if told.item is not None or any(p.ids("implies") for p in bound.phrases) else None
    if told.meant is not None and told.poured is not None:
        return "over" if told.poured >= told.meant else "under"
    if bound.said("mistake:over"):
        return "over"
    part = told.share is not None and (bound.said("mistake:poured") or (told.item is not None and _only(bound)))
    if bound.said("mistake:under", "mistake:only_in") or part:
        return "under"
    if bound.said("feel:wet"):
        return "wet"
    if bound.said("feel:dry"):
        return "dry"
    if told.off is not None and bound.said("mistake:by_mistake", "mistake:rescue") and told.item is not None:
        return "over"
    whole = told.item is not None and ids_of(bound.phrases[told.item])[:1] == ("hydration",)
    asked = bound.said("mistake:by_mistake", "mistake:rescue") or (whole and bound.context.has_bake)
    if told.poured is not None and asked and told.item is not None:
        return "over"
    if told.poured is not None and told.item is not None and "instead_of" in bound.links() and bound.context.has_bake:
        return "over"  # "1000 g water went in instead": of what the dough in hand has
    if told.more and bound.said("mistake:poured") and not bound.text.rstrip().endswith("?"):
        return "over"  # "i put about 100 g extra water in"
    return None


def _in_ounces(bound: Bound) -> bool:
    """Whether a thing is said to have been weighed in ounces, and no amount of it."""
    oz = any(unit.id == "oz" for p in bound.phrases for token in p.tokens for unit in token.units)
    weighed = bound.said("mistake:poured") and (oz or bound.said("into:oz"))
    return weighed and not any(p.kind == "amount" for p in bound.phrases)


def _in_percent(bound: Bound, told: Told) -> bool:
    """Whether both values of the thing are shares of the flour, too small to be a hydration."""
    if told.meant is None or told.poured is None or max(told.meant, told.poured) >= _HYDRATIONS[0]:
        return False
    return any(h.amount is not None and h.amount.dim == "pct" for h in bound.of("mass"))


def _only(bound: Bound) -> bool:
    """Whether "only" is said: "only half of the salt is in"."""
    return any(fits(p, ("cue:limit",)) and p.text.lower() in ("only", "just") for p in bound.phrases)


def _water(bound: Bound) -> bool:
    return bound.said("ingredient:water", "cue:water") and bound.said(
        "mistake:poured", "mistake:rescue", "ingredient:yeast*"
    )


def _wrong(bound: Bound, things: list[int]) -> tuple[int, int] | None:
    """(used, meant): "used plain flour instead of strong", "picked up the wrong flour, plain not bread"."""
    starters = [i for i in things if ids_of(bound.phrases[i])[0].startswith("starter")]
    stiff = bound.said("cue:stiff", "cue:liquid_starter", "ingredient:starter_stiff_50")
    if starters and stiff and bound.said("mistake:by_mistake") and not bound.said("mistake:forgot"):
        return starters[0], starters[0]
    other = _used_for(bound, things)
    if other is not None:
        return other
    ground = ("flour", "semolina", "cornmeal")
    flours = [i for i in things if any(item.startswith(ground) for item in ids_of(bound.phrases[i]))]
    named_once = {ids_of(bound.phrases[i])[0]: i for i in reversed(things)}
    others = [i for i in things if i not in flours and named_once[ids_of(bound.phrases[i])[0]] == i]
    mixed_up = never_meant(bound, others)
    mishap = bound.said("mistake:by_mistake") or mixed_up
    if (not flours or mixed_up) and len(others) == 2 and mishap and len(bound.of("mass")) <= 1 + len(flours):
        negated = [i for i in others if bound.phrases[i].negated]
        turned = any("instead_of" in p.ids("link") for p in bound.phrases[others[0] : others[1]])
        if negated or turned:
            meant = negated[0] if negated else others[1]
            return next(i for i in others if i != meant), meant
        weighed = {id(hit.label) for hit in bound.of("mass") if hit.label is not None}
        went_in = [i for i in things if id(bound.phrases[i]) in weighed and i not in flours]
        if len({ids_of(bound.phrases[i])[0] for i in went_in}) == 1:  # "mixed up salt with sugar: 60 g salt"
            name = ids_of(bound.phrases[went_in[0]])[0]
            return went_in[0], next(i for i in others if ids_of(bound.phrases[i])[0] != name)
    if not flours or not bound.said("mistake:by_mistake", "mistake:poured", "mistake:rescue"):
        return None
    instead = next((i for i, p in enumerate(bound.phrases) if fits(p, ("link:instead_of",))), None)
    named = [i for i in flours if not fits(bound.phrases[i], ("cue:flour",))]
    if instead is not None and len(named) >= 2:
        after = next((i for i in named if i > instead), None)
        before = next((i for i in reversed(named) if i < instead), None)
        if before is not None and after is not None:
            return before, after
    if bound.said("mistake:by_mistake") and named:
        negated = [i for i in named if bound.phrases[i].negated]
        used = next(i for i in named if i not in negated) if len(named) > len(negated) else named[0]
        meant = negated[0] if negated else next((i for i in named if i != used), used)
        return used, meant
    return None


def _used_for(bound: Bound, things: list[int]) -> tuple[int, int] | None:
    """(used, meant) where one thing went in and another was called for: "I used 20 g fresh yeast, recipe says instant".

    Only for things of one kind; what takes the place of flour, and what nobody exchanges, is told by other words.
    """
    phrases = bound.phrases
    went = [i for i, p in enumerate(phrases) if fits(p, ("mistake:poured",)) and not p.negated]
    poured = next((i for i in went if not _TO_COME.search(gap(bound, i))), None)
    if poured is None or len(things) < 2 or bound.said("ask:can_i", "ask:what_if"):
        return None
    used = next((i for i in things if i > poured and not phrases[i].negated), None)
    words = (*MEANT, "link:instead_of", "stance:serves")
    called = next((i for i, p in enumerate(phrases) if fits(p, words) and i != poured), None)
    meant = None if called is None else next((i for i in things if i > called), None)
    if used is None or meant is None or used == meant:
        return None
    first, second = ids_of(phrases[used])[0], ids_of(phrases[meant])[0]
    alike = first.split("_")[0] == second.split("_")[0] or {first.split("_")[0], second.split("_")[0]} <= _RISES
    return (used, meant) if alike and first != second and not first.startswith("flour") else None


_TO_COME = re.compile(r"\b(will|i'?ll|we'?ll|would|could|can|may|might|shall|should|going to|want to|to)\s*$")
"""Small words before a verb that make it a plan rather than a deed."""
_RISES = {"yeast", "baking", "starter"}


def _all_of_it(bound: Bound, told: Told, inside: list[tuple[str, float]], things: list[int]) -> None:
    """ "whoops, 30 g salt in 1 kg flour": all that went in of the one thing beside the flour."""
    other = [(item, g) for item, g in inside if not item.startswith("flour")]
    if len(other) != 1 or len(inside) != 2:
        return
    told.item = next(i for i in things if other[0][0] in ids_of(bound.phrases[i]))
    told.poured = other[0][1]
    inside.remove(other[0])


def _of_warmth(bound: Bound) -> bool:
    """Whether the figures are degrees, by a word of warmth."""
    return re.search(r"\b(temp|temps|temperature|degrees|warmer|colder|warmth)\b", bound.text.lower()) is not None


def _left_the_dough(bound: Bound) -> bool:
    pairs = zip(bound.phrases, bound.phrases[1:], strict=False)
    return any(fits(a, ("mistake:forgot",)) and "left" in a.text.lower() and fits(b, ("cue:dough",)) for a, b in pairs)


def _run_out(bound: Bound) -> bool:
    out = [p for p in bound.phrases if fits(p, ("cue:missing",)) and not p.negated]
    return any(" out" in f" {p.text.lower()}" for p in out) and not bound.said("mistake:forgot", "mistake:twice")


_A_DOUGH_G = 200.0
"""A weight told of a dough that is too wet or dry is that of the dough from here on."""
_HYDRATIONS = (40.0, 115.0)


def _by_hydration(bound: Bound, told: Told, mistake: str) -> str:
    """Hydrations told beside: "meant to be 65 but it's 75", "too dry, 1 kg flour, 60 %"; how it is then off."""
    amounts = [hit.amount for hit in bound.of("mass") if hit.amount is not None and hit.amount.dim in ("pct", "num")]
    values = [value for amount in amounts if (value := amount_base(amount)) is not None]
    values = [value for value in values if _HYDRATIONS[0] <= value <= _HYDRATIONS[1]]
    if told.off in values:
        told.off = next((g for g in _weights(bound) if g not in values), None)
    if len(values) == 2:
        meant = told.meant if told.meant in values else values[0]
        poured = next(value for value in reversed(values) if value != meant) if values[0] != values[1] else meant
        told.meant, told.poured = meant, poured
        return "over" if poured >= meant else "under"
    if len(values) == 1 and mistake in ("wet", "dry"):
        told.meant_pct, told.meant = values[0], None
    return mistake


def _weights(bound: Bound) -> list[float]:
    masses = [hit.amount for hit in bound.of("mass") if hit.amount is not None and hit.amount.dim == "mass"]
    return [value for amount in masses if (value := amount_base(amount)) is not None]


def _of_flour(bound: Bound, wrong: tuple[int, int]) -> bool:
    return ids_of(bound.phrases[wrong[0]])[0].startswith(("flour", "semolina", "cornmeal"))


def _not_an_amount(bound: Bound, told: Told, wrong: tuple[int, int]) -> bool:
    """Whether the wrong thing went in, rather than so much too much of the right flour."""
    return told.off is None or not _of_flour(bound, wrong) or not bound.said("mistake:over", "mistake:under")


def _is_starter(bound: Bound, place: int) -> bool:
    return ids_of(bound.phrases[place])[0].startswith("starter")


_NO_HYDRATION = 40.0
"""No dough has less water than this; a smaller figure of the dough is its temperature."""


def build(bound: Bound) -> MendRequest | None:
    """The request; None where no mishap is told (a change that is only weighed up is no mistake)."""
    supposed = bound.said("ask:what_if") or "if" in bound.links()
    if supposed and bound.context.has_bake and bound.said("cue:greater", "act:add"):
        return None  # "if i put another 25 ml water in" asks what the dough would be
    things = things_in(bound)
    step = next((i for p in bound.phrases for i in p.ids("step_left")), None)
    stage = next((i for p in bound.phrases for i in p.ids("so_far")), None)
    late = bound.base("late_min")
    whole = bound.first("dough_g")
    dough_g = None if whole is not None and of_flour(bound, whole) else bound.base("dough_g")
    told, inside = told_in(bound, things)
    if told.meant is not None and told.meant < _NO_HYDRATION and _of_warmth(bound):
        return None  # "dough temperature 20 and wanted 26, add water?"
    if _left_the_dough(bound):
        return None  # "left the dough out all night" forgot nothing that goes in
    if told.item is None and told.meant is not None and told.meant < _NO_HYDRATION and bound.said("look:came_out"):
        return None  # "came out at 29, wanted 25": degrees
    if _run_out(bound) and told.meant is None and told.poured is None:
        return None  # "ran out of bread flour, 300 g short" looks for something else to take
    said_c = bound.first("water_c")
    degrees = said_c is not None and said_c.amount is not None and said_c.amount.dim == "temperature"
    water_c = bound.base("water_c") if degrees or not bound.said("mistake:over", "mistake:under") else None
    if told.item is None and told.off is None and bound.said("mistake:by_mistake"):
        _all_of_it(bound, told, inside, things)
    hot = bound.said("mistake:hot_water") and not bound.said("mistake:over", "mistake:under")
    if told.off is not None and water_c is None and hot and 25 <= told.off <= 100:
        water_c, told.off = told.off, None  # "the water was too hot, about 65"
    wrong = _wrong(bound, things)
    mistake = (
        "wrong"
        if wrong is not None and _not_an_amount(bound, told, wrong) and not left_out(bound)
        else _mistake(bound, told, step)
    )
    if mistake is None:
        again = bound.said("mistake:rescue")
        if bound.context.focus != "mend" or not (stage or inside or late is not None or told.off is not None or again):
            return None
        mistake = "same"
    if mistake == "twice" and times_of(bound) and factor_told(bound) is None:
        return None  # a wish, not a slip: nothing was done
    if late is not None and stage is None:
        stage = "bulk"
    if mistake in ("wet", "dry", "over", "under") and told.item is None:
        mistake = _by_hydration(bound, told, mistake)
    item = ids_of(bound.phrases[told.item]) if told.item is not None else ()
    by_water = mistake in ("wet", "dry") or (told.item is None and told.meant is not None and told.poured is not None)
    if by_water and dough_g is None and told.off is not None and told.off >= _A_DOUGH_G:
        dough_g, told.off = told.off, None  # "dough too wet, 1.8 kg"
    item = item or tuple(i for p in bound.phrases for i in p.ids("implies"))
    if not item and told.meant is not None and told.poured is not None:
        low, high = sorted((told.meant, told.poured))
        if low < _HYDRATIONS[0] or high > _HYDRATIONS[1]:
            return None  # two figures of something nobody named: no hydration
        item = ("hydration",)
    if told.item is None and item[:1] != ("hydration",) and _in_percent(bound, told):  # "too salty, 3 % instead of 2"
        told.meant_pct, told.poured_pct, told.meant, told.poured = told.meant, told.poured, None, None
    used: tuple[str, ...] = ()
    stiffness = (told.meant_pct, told.poured_pct)
    if told.item is not None and _is_starter(bound, told.item) and min(one or 0.0 for one in stiffness) >= 40:
        kind = ("starter_100",)  # "the starter was at 50 % instead of 100"
        rest = [(one, g) for one, g in inside if not one.startswith("starter")]
        starter_g = next((g for one, g in inside if one.startswith("starter")), told.off)
        rest += [("starter_100", starter_g)] if starter_g is not None else []
        return MendRequest("wrong", kind, used=kind, stage=stage, starter_pct=told.poured_pct, inside=tuple(rest))
    if mistake == "wrong" and wrong is not None and wrong[0] == wrong[1] and _is_starter(bound, wrong[0]):
        pct = next((amount_base(h.amount) for h in bound.of("mass") if h.amount and h.amount.dim == "pct"), None)
        pct = pct or (100.0 if bound.said("cue:liquid_starter") else 50.0)
        kind = ("starter_100",)
        return MendRequest("wrong", kind, used=kind, stage=stage, starter_pct=pct)
    if mistake == "wrong" and wrong is not None:
        used, item = ids_of(bound.phrases[wrong[0]]), (ids_of(bound.phrases[wrong[1]]) if wrong[1] != wrong[0] else ())
        weighed = next((g for one, g in inside if one in (*used[:1], *item[:1])), None)
        told.poured = next((g for g in (weighed, told.poured, told.off, told.meant) if g is not None), None)
        told.meant = told.off = None
        flour = _of_flour(bound, wrong) and told.poured is not None
        inside = [(one, g) for one, g in inside if one not in (*used[:1], *item[:1])]
        if flour and told.poured is not None:  # the dough is told by its flour: so much of what was meant
            inside.append((item[0] if item else "flour_bread", told.poured))
    return MendRequest(
        mistake=mistake,
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


FRAME = Frame(
    MendRequest,
    "mend",
    build,
    slots={
        "mass": Slot(
            {"mass": 1.0, "volume": 0.6, "num": 0.3, "pct": 0.2, "share": 0.8}, cues=THING, bare=0.3, low=0.2,
            high=60000, many=True, links={"instead_of": 1.6},
        ),
        "water_c": Slot(
            {"temperature": 1.4, "num": -0.2}, bare=0.2, low=1, high=212,
            cues=("mistake:hot_water", "kettle:*", "ingredient:water", "cue:water"),
        ),
        "late_min": Slot({"time": 1.0}, cues=("so_far:*", "mistake:*"), bare=0.5, low=1, high=3000),
        "made": Slot({"num": 1.2}, cues=("mistake:short_pieces",), low=1, high=400),
        "pieces": Slot({"num": 0.9}, cues=("piece:*", "bread:*", "cue:pieces"), low=1, high=400),
        "piece_g": Slot(
            {"mass": 0.2}, cues=("piece:*", "bread:*"), low=15, high=2600,
            links={"each": 1.2, "at": 0.6, "of": 0.4},
        ),
        "dough_g": Slot({"mass": 0.6}, cues=("cue:dough", "cue:total", "look:loaf_of"), low=100, high=60000),
        "stage": Slot(term=("so_far:*",), weight=-0.4),
        "thing": Slot(term=THING, many=True),
        "absent": Slot(term=(*THING, "piece:*", "bread:*"), without=True, many=True),
        "piece": Slot(term=("piece:*", "bread:*"), many=True, weight=-0.6),
    },
    cues={
        "mistake:*": 2.4, "stance:called_for": 1.4, "stance:holds": 0.6, "stance:was": 0.3, "stance:should": 2.2,
        "cue:recipe_given": 0.8,
        "stance:at_hand": 0.2, "look:loaf_of": 1.8, "cue:formula": 0.2, "negation:no": 0.0, "mark:mix": 0.3,
        "act:double": 2.4, "act:triple": 2.4, "state:moved": 0.4, "into:oz": 1.8, "unit:*": 0.6, "cue:double": 2.4,
        "mistake:twice": 3.0, "mistake:thrice": 4.2, "mistake:short_pieces": 3.4, "so_far:*": 1.0,
        "step_left:*": 2.2, "implies:*": 0.5, "cue:stiff": 0.4, "cue:liquid_starter": 0.4, "cue:hydration": 0.1,
        "feel:*": 1.4, "cue:dough": 0.6, "cue:greater": 0.6, "ask:what": 0.2, "ask:can_i": 0.3, "ask:how_much": 0.3,
        "ask:how_to": 0.3, "ask:is_it": 0.2, "act:add": 0.4, "cue:fewer": 0.3, "cue:piece_mass": 0.1,
        "cue:missing": 0.0, "link:instead_of": 0.0, "cue:limit": 0.8, "kettle:*": 0.6,
        "act:correct": 0.3, "ask:when": 0.2, "tail:*": 0.0,
    },
    needs=(
        "mistake:*", "feel:*", "act:double", "act:triple", "cue:double", "link:instead_of", "stance:called_for",
        "stance:should", "cue:limit",
    ),
    rules_out=("feeding:less_discard", "feeding:twice"),
    base=0.2,
)  # fmt: skip
