"""Something is missing, or somebody cannot eat it: what may stand in for it."""

from __future__ import annotations

from dataclasses import dataclass, replace

from grammar.exchange import Weighed, amounts_of, one_for_other, sides_of
from grammar.frames import Bound, Frame, Slot, fits
from grammar.mishap import never_meant
from grammar.stance import THING, Thing, ids_of, is_thing, stance_of, things_told


@dataclass(frozen=True, slots=True)
class SwapRequest:
    """honey in place of 60 g sugar
    out of honey, what else
    only got salted butter
    make it vegan
    someone can't have sesame

    out, into: ingredient ids a word may mean, likeliest first. out_g: grams to replace; out_pct: percent of it;
    out_measure, into_measure: amount and unit where it was said by the cup or spoon.
    rows: a dough told in the line beside who cannot eat what: of each thing its ids and g, measure or count.
    job: what it is for, where said (wash, topping, alkali, release ...). diets: ids of who cannot eat what.
    protein_pct: a protein to reach. overnight: the slow version.
    """

    out: tuple[str, ...] = ()
    into: tuple[str, ...] = ()
    out_g: float | None = None
    into_g: float | None = None
    out_pct: float | None = None
    out_measure: tuple[float, str] | None = None
    into_measure: tuple[float, str] | None = None
    count: float | None = None
    job: str | None = None
    diets: tuple[str, ...] = ()
    avoid: tuple[str, ...] = ()
    protein_pct: float | None = None
    overnight: bool = False
    flour_g: float | None = None  # of the dough meant, where it was said beside
    have_g: float | None = None  # so much of what goes out there still is: "ran out, only 900 g"
    rows: tuple[tuple[tuple[str, ...], float | None, tuple[float, str] | None, float | None], ...] = ()
    beside: tuple[tuple[str, ...], ...] = ()  # what is to come in with `into`: "milk with butter"
    anew: bool = False  # says itself what is missing, or what there is
    take: bool = False  # the swap offered is to be made
    pick: int = 0  # which of the choices, the first is 0

    def onto(self, earlier: SwapRequest, bound: Bound) -> SwapRequest:
        """A line that goes on from a swap: "and with oil?", "for 80 g"."""
        if not isinstance(earlier, SwapRequest):
            return self
        if self.take:
            return replace(earlier, take=True, pick=self.pick, into=self.into or earlier.into)
        if self.out or self.diets or self.avoid or self.anew:
            return self
        return replace(
            earlier,
            into=self.into or earlier.into,
            out_g=self.out_g if self.out_g is not None else earlier.out_g,
            out_measure=self.out_measure or (earlier.out_measure if self.out_g is None else None),
            job=self.job or earlier.job,
            overnight=self.overnight or earlier.overnight,
        )


_ASKING = (
    "cue:missing", "cue:only_this", "act:swap", "ask:what_else", "link:instead_of", "link:instead", "stance:serves",
    "stance:becomes",
)  # fmt: skip
_OF_SAFETY = ("eating:eat", "person:baby", "person:coeliac", "person:pregnant", "person:pet", "hazard:safe")
_CLEAR, _LIKELY = 2.0, 1.0
"""So much has to speak for one side to tell it, and for the other beside it, to make a swap of a line."""


def _taken(bound: Bound) -> SwapRequest | None:
    """ "do that", "use the oil then": the swap just offered is made."""
    if bound.context.focus != "swap" or not bound.context.has_bake or any(p.kind == "amount" for p in bound.phrases):
        return None
    pick = next((int(i) for p in bound.phrases for i in p.ids("pick")), None)
    things = [p for p in bound.phrases if p.kind == "label" and fits(p, THING) and not p.negated]
    if bound.said("act:take") or (pick is not None and not things):
        return SwapRequest(take=True, pick=(pick or 1) - 1)
    first_use = next((p for p in bound.phrases if p.kind == "label"), None)
    if (
        len(things) == 1
        and first_use is not None
        and fits(first_use, ("act:use", "act:take"))
        and len(bound.links()) == 0
    ):
        return SwapRequest(take=True, into=ids_of(things[0]))
    return None


def _describes(bound: Bound, place: int) -> bool:
    """The thing only says which bread: "soda bread", "rye loaf"."""
    following = bound.phrases[place + 1] if place + 1 < len(bound.phrases) else None
    named = following is not None and following.kind == "label" and fits(following, ("bread:*", "piece:*"))
    return named and not bound.phrases[place].negated


def _has_other(bound: Bound, things: list[int], negated: list[int]) -> bool:
    """ "no buttermilk, got yogurt", "no eggs for the challah": the line opens with what there is none of, unweighed."""
    if not negated or negated[0] != 0:
        return False
    amounts = [p for p in bound.phrases if p.kind == "amount"]
    if amounts:  # "no buttermilk, 200 ml needed", "no honey, 40 g, got maple"
        weighed = len(amounts) == 1 and amounts[0].dim in ("mass", "volume")
        return weighed and len(things) <= 2 and not bound.context.has_bake
    if len(things) == 1 and not bound.context.has_bake and bound.context.focus in (None, "swap"):
        alone = all(p is bound.phrases[things[0]] or p.kind == "sep" for p in bound.phrases)  # "no malt"
        if alone or bound.said("ask:what", "ask:can_i"):  # "no lye, what can i dip pretzels in"
            return True
    return len(things) > len(negated) or ("for" in bound.links() and not bound.context.has_bake)


def _a_flour(bound: Bound, place: int) -> bool:
    return any(item.startswith("flour") for item in ids_of(bound.phrases[place])[:1])


def _only_this(bound: Bound, things: list[int]) -> bool:
    """ "only salted butter, 120 g": the line opens with all there is, and nothing is in hand to change."""
    first = bound.phrases[0] if bound.phrases else None
    opens = first is not None and fits(first, ("cue:limit", "cue:only_this")) and first.text.lower() in ("only", "just")
    return opens and things == [1] and not bound.context.has_bake


def _opposed(things: tuple[Thing, ...]) -> bool:
    """One thing is called for or lacking, another at hand or about to be put in."""
    most, least = (max(one.net for one in things), min(one.net for one in things)) if things else (0.0, 0.0)
    return (most >= _CLEAR and least <= -_LIKELY) or (most >= _LIKELY and least <= -_CLEAR)


def _kept_out(bound: Bound, weighed: bool) -> bool:
    """Whether the line is about what somebody must not have, and not about whether something is safe to eat."""
    if bound.said("stance:must_not", "stance:serves", "stance:becomes", "link:instead_of", "ask:what_else"):
        return weighed or bound.said("stance:serves", "link:instead_of", "ask:what_else", "stance:becomes")
    return not bound.said(*_OF_SAFETY)


def _diets(bound: Bound) -> tuple[str, ...]:
    """Who cannot eat what, by name; for a baby the line has to say what is to be kept out."""
    diets = tuple(dict.fromkeys(i for p in bound.phrases for i in p.ids("diet")))
    baby = bound.said("person:baby") and bound.said("stance:must_not", "link:instead_of", "ask:what_else", "act:swap")
    return (*diets, "infant") if baby else diets


def build(bound: Bound) -> SwapRequest | None:
    """The request; None where nothing is missing, asked for or to be avoided.

    A share of what is in hand ("swap 20 % for rye"), and how much of something there is, change the formula instead.
    """
    if any(danger != "children" for p in bound.phrases for danger in p.ids("danger")):
        return None
    diets = _diets(bound)
    taken = _taken(bound)
    if taken is not None:
        return taken
    places = [i for i, p in enumerate(bound.phrases) if is_thing(p)]
    places = [i for i in places if not _describes(bound, i)] or places
    amounts, loose = amounts_of(bound, places)
    if bound.said(*_OF_SAFETY) and not _kept_out(bound, bool(amounts or loose)):
        return None
    job = next((i for p in bound.phrases for i in p.ids("job")), None)
    if "instead_of" in bound.links() and never_meant(bound, [i for i in places if not _a_flour(bound, i)]):
        return None
    if amounts and len(places) == len(amounts) and bound.said("stock:left"):
        wanted = bound.said("ask:*", "act:*", "link:instead_of", "stance:serves")
        if not wanted and not any(bound.phrases[i].negated for i in places):
            return None  # "only 900 g flour left" tells what there is
    told = things_told(bound, places)
    if diets and len(told) == 1 and told[0].net < 0 and not (amounts or loose):
        return SwapRequest(into=told[0].ids, diets=diets, anew=True)  # "peanut allergy, fine with almonds?"
    negated = [i for i in places if bound.phrases[i].negated]
    opposed = _opposed(told)
    asks = opposed or any(fits(p, _ASKING) and not (p.text.lower() == "left" and not negated) for p in bound.phrases)
    asks = asks or one_for_other(bound, places)
    asks = asks or (bound.said("stance:must_not") and bool(places))
    asks = asks or bool(negated and (job or (bound.said("cue:limit", "act:use") and len(places) > len(negated))))
    asks = asks or _has_other(bound, places, negated) or _only_this(bound, places)
    protein = bound.base("protein_pct")
    if diets and job == "wash":
        return SwapRequest(out=("egg_whole",), job=job, diets=diets)
    if diets and bound.said("ask:is_it") and not bound.said("ask:what_else", "act:swap", "cue:missing", "act:change"):
        return None  # "is it vegan?" asks of the dough as it is
    if diets and not places and loose:
        one = next((one for one in loose if one.dim in ("mass", "volume")), None)
        if one is not None:  # "my kid can't have milk, the recipe has 250 ml": of what the diet is named for
            return SwapRequest(diets=diets, out_g=_value(one, "mass"), out_measure=_measure(one))
    if diets and not asks and not amounts:
        avoided = () if not negated else tuple(ids_of(bound.phrases[negated[0]])[:1])
        return SwapRequest(diets=diets, avoid=avoided)
    several = [i for i in amounts if not bound.phrases[i].negated]
    if diets and len(several) > 1 and not bound.said(*_ASKING):
        rows = tuple(
            (ids_of(bound.phrases[i]), _value(one, "mass"), _measure(one), _value(one, "count"))
            for i, one in amounts.items()
        )
        return SwapRequest(diets=diets, rows=rows)
    asks = asks or bool(diets and amounts)
    shunned = bound.said("cue:company", "stance:must_not") and places and not bound.said(*_ASKING)
    if shunned and not (opposed or amounts or loose):
        return SwapRequest(avoid=tuple(dict.fromkeys(one.ids[0] for one in told)), diets=diets)
    if (
        bound.context.focus == "bath"
        and len(places) == 1
        and not bound.said("cue:missing", "cue:only_this", "act:swap")
    ):
        return None  # "and bicarb instead?" is still about the bath
    sides = sides_of(bound, places)
    out, into = sides.out, sides.into
    if not asks and not (negated and bound.context.has_bake and bound.said("ask:*")):
        shares = any(one.dim in ("pct", "share") for one in (*amounts.values(), *loose))
        follows = bound.context.focus == "swap" and (places or amounts or loose) and not shares and job is None
        if protein is None and not follows:
            return None
        if follows and out is not None and into is None:
            out, into = None, out  # "and oil?" asks for another replacement
    if out is None and into is None and not diets and protein is None:
        return None
    if out is None and into is not None and bound.said("mistake:poured") and not bound.said("act:use"):
        return None  # "1000 g water went in instead" tells what happened
    said = {one.dim for one in (*amounts.values(), *loose)}
    flour = any(one.startswith("flour") for side in (out, into) if side is not None for one in side.ids)
    if bound.context.has_bake and flour and said & {"pct", "share"}:
        return None
    if bound.said("cue:only_this") and out is None and "mass" in said and not told[0].goes:
        return None
    return _weighed(bound, SwapRequest(
        out=out.ids if out is not None else (),
        into=into.ids if into is not None else (),
        beside=tuple(one.ids for one in sides.beside),
        job=job,
        diets=diets,
        avoid=out.ids[:1] if out is not None and not diets and bound.said("stance:must_not") else (),
        protein_pct=protein,
        overnight=bound.said("cue:overnight_dose"),
        anew=protein is not None or opposed or bound.said("cue:missing", "cue:only_this", "act:swap"),
    ), amounts, loose)  # fmt: skip


def _weighed(
    bound: Bound, request: SwapRequest, amounts: dict[int, Weighed], loose: tuple[Weighed, ...]
) -> SwapRequest:
    """The request with the amounts said: each is of its own thing, one that is of none is of what goes out."""
    by_thing: dict[str, Weighed] = {}
    for place, one in amounts.items():
        by_thing.setdefault(ids_of(bound.phrases[place])[0], one)
    of_out = by_thing.pop(request.out[0], None) if request.out else None
    of_into = by_thing.pop(request.into[0], None) if request.into else None
    flour = next((item for item in by_thing if item.startswith("flour") and by_thing[item].dim == "mass"), None)
    flour_g = by_thing.pop(flour).value if flour is not None else None
    if of_out is None:
        of_out = next((one for one in loose if one.dim != "num"), None) or next(iter(by_thing.values()), None)
    last = bound.phrases[-1]
    trails = last.kind == "amount" and "to" in bound.links() and len(amounts) == 1  # "honey to sugar 100 g"
    if of_out is None and of_into is not None and request.out and of_into.dim == "mass" and (trails or _needed(bound)):
        of_out, of_into = of_into, None  # "only got flaky salt, need 20 g": the one weight is what is needed
    there = bound.said("cue:missing") and _only_so_much(bound)
    have_g = _value(of_out, "mass") if there else None
    of_out = None if have_g is not None else of_out
    return replace(
        request,
        have_g=have_g,
        out_g=_value(of_out, "mass"),
        into_g=_value(of_into, "mass"),
        out_measure=_measure(of_out),
        into_measure=_measure(of_into),
        out_pct=_value(of_out, "pct", "share"),
        count=_value(of_out, "count"),
        flour_g=flour_g,
    )


def _only_so_much(bound: Bound) -> bool:
    """Whether "only" stands right before a weight."""
    pairs = zip(bound.phrases, bound.phrases[1:], strict=False)
    return any(
        a.text.lower() in ("only", "just") and fits(a, ("cue:limit",)) and b.kind == "amount" and b.dim == "mass"
        for a, b in pairs
    )


def _value(one: Weighed | None, *dims: str) -> float | None:
    return one.value if one is not None and one.dim in dims else None


def _measure(one: Weighed | None) -> tuple[float, str] | None:
    return (one.said, one.unit) if one is not None and one.dim == "volume" and one.unit is not None else None


def _needed(bound: Bound) -> bool:
    """Whether the line says of its amount that so much is wanted."""
    return any(stance_of(p) in ("called_for", "holds") or fits(p, ("cue:only_this",)) for p in bound.phrases)


FRAME = Frame(
    SwapRequest,
    "swap",
    build,
    slots={
        "mass": Slot({"mass": 1.0}, cues=THING, bare=0.1, low=0.3, high=20000, many=True),
        "volume": Slot({"volume": 1.2}, cues=THING, bare=0.3, many=True),
        "pct": Slot({"pct": 0.2, "share": 0.4}, cues=THING, low=0.1, high=100, many=True),
        "count": Slot({"num": 0.4}, cues=("ingredient:egg*",), low=1, high=60, many=True),
        "protein_pct": Slot({"pct": 1.4, "num": 0.2}, cues=("cue:target",), low=6, high=20),
        "thing": Slot(term=THING, many=True),
        "absent": Slot(term=THING, without=True, many=True),
        "diet": Slot(term=("diet:*",), many=True, weight=2.0),
        "someone": Slot({"num": 0.6}, cues=("diet:*", "cue:company"), bare=-0.2, low=1, high=6),
        "bread": Slot(term=("bread:*", "piece:*"), many=True, weight=-0.4),
        "pieces": Slot({"num": 0.3}, cues=("bread:*", "piece:*"), low=1, high=400),
    },
    cues={
        "cue:missing": 2.6, "cue:only_this": 2.0, "act:swap": 2.2, "bathing:*": 0.6, "ask:what_else": 2.0, "job:*": 1.0,
        "cue:company": 0.8, "ask:what": 0.3, "ask:can_i": 0.5, "ask:what_if": 0.2, "ask:how_much": 0.6,
        "cue:overnight_dose": 0.3, "cue:strengthen": 0.8, "tail:*": 0.1, "act:take": 2.6, "pick:*": 1.2,
        "mistake:meant": 0.8, "cue:fridge": 0.1, "cue:limit": 0.8, "act:change": 0.6, "cue:dough": 0.3,
        "act:make": 0.3, "act:use": 2.1, "diet:*": 1.4, "stance:called_for": 1.6, "stance:at_hand": 1.6,
        "stance:will_take": 1.8, "stance:must_not": 2.4, "stance:serves": 2.6, "stance:becomes": 1.6,
        "stance:guess": 0.4, "stance:holds": 1.4, "stance:was": 0.6, "cue:recipe_given": 1.0, "mistake:poured": 0.2,
        "person:*": 0.4, "eating:eat": 0.4, "cue:formula": 0.2, "ask:how_to": 0.3, "ask:is_it": 0.2,
        "cue:all_of_it": 0.2, "stock:left": 0.4, "negation:no": 0.2, "fill:*": 0.3, "mistake:under": 0.2,
        "stance:yes": 0.4, "ask:when": 0.0, "danger:children": 0.3,
    },
    needs=(
        "cue:missing", "cue:only_this", "act:swap", "ask:what_else", "link:instead_of", "link:instead", "diet:*",
        "cue:company", "slot:protein_pct", "job:*", "cue:limit", "act:use", "act:take",
        "pick:*", "ingredient:yeast*", "link:for", "slot:absent",
        "stance:called_for", "stance:holds", "stance:at_hand", "stance:will_take", "stance:must_not", "stance:serves",
        "stance:becomes", "negation:no", "link:to",
    ),
    rules_out=("cue:rest", "plain:split", "mistake:forgot", "mistake:twice", "topic:*"),
    base=0.3,
)  # fmt: skip
