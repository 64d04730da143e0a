"""Something is missing, or somebody cannot eat it: what may stand in for it."""

from __future__ import annotations

from dataclasses import dataclass, replace

from grammar.exchange import THING, Sides, ids_of, one_for_other, place_of, sides_of
from grammar.frames import Bound, Frame, Slot, amount_base, fits
from grammar.mishap import never_meant


@dataclass(frozen=True, slots=True)
class SwapRequest:
    """honey in place of 60 g sugar
    out of honey, what else
    only got salted butter
    make it vegan
    someone can't have sesame

    out, into: ingredient ids a word may mean, likeliest first. out_g: grams to replace; out_pct: percent of it;
    out_measure, into_measure: amount and unit where it was said by the cup or spoon.
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


_ASKING = ("cue:missing", "cue:only_this", "act:swap", "ask:what_else", "link:instead_of", "link:instead")


def _amounts(bound: Bound) -> dict[int, tuple[str, float]]:
    """Place of a word in the line -> (dimension, value) of the amount bound to it."""
    found: dict[int, tuple[str, float]] = {}
    for hit in bound.hits:
        if hit.amount is None or hit.slot not in ("mass", "pct", "count"):
            continue
        value = amount_base(hit.amount)
        if value is None:
            continue
        if hit.amount.dim == "share":
            value *= 100
        place = place_of(bound, hit.label if hit.label is not None else hit.amount)
        found[place] = (hit.slot, value)
    return found


def _measures(bound: Bound) -> dict[int, tuple[float, str]]:
    """Place of a word in the line -> (amount, unit) where it was said by the cup, the spoon or in ml."""
    found: dict[int, tuple[float, str]] = {}
    for hit in bound.of("volume"):
        quantity = hit.amount.quantity if hit.amount is not None else None
        if hit.amount is not None and quantity is not None and quantity.unit is not None:
            found[place_of(bound, hit.label if hit.label is not None else hit.amount)] = (quantity.value, quantity.unit)
    return found


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


def build(bound: Bound) -> SwapRequest | None:
    """The request; None where nothing is missing, asked for or to be avoided.

    A share of what is in hand ("swap 20 % for rye"), and how much of something there is, change the formula instead.
    """
    diets = tuple(dict.fromkeys(i for p in bound.phrases for i in p.ids("diet")))
    taken = _taken(bound)
    if taken is not None:
        return taken
    things = [
        i
        for i, p in enumerate(bound.phrases)
        if p.kind == "label" and fits(p, THING) and not p.ids("diet") and not p.ids("job")
    ]
    things = [i for i in things if not _describes(bound, i)] or things
    job = next((i for p in bound.phrases for i in p.ids("job")), None)
    if "instead_of" in bound.links() and never_meant(bound, [i for i in things if not _a_flour(bound, i)]):
        return None
    negated = [i for i in things if bound.phrases[i].negated]
    asks = any(fits(p, _ASKING) and not (p.text.lower() == "left" and not negated) for p in bound.phrases)
    asks = asks or one_for_other(bound, things)
    asks = asks or bool(negated and (job or (bound.said("cue:limit", "act:use") and len(things) > len(negated))))
    asks = asks or _has_other(bound, things, negated) or _only_this(bound, things)
    amounts = _amounts(bound)
    protein = bound.base("protein_pct")
    if diets and job == "wash":
        return SwapRequest(out=("egg_whole",), job=job, diets=diets)
    if diets and bound.said("ask:is_it") and not bound.said("ask:what_else", "act:swap", "cue:missing", "act:change"):
        return None  # "is it vegan?" asks of the dough as it is
    if diets and not asks:
        avoided = () if not negated else tuple(ids_of(bound.phrases[negated[0]])[:1])
        return SwapRequest(diets=diets, avoid=avoided)
    if bound.said("cue:company") and things and not asks:
        return SwapRequest(avoid=tuple(dict.fromkeys(ids_of(bound.phrases[i])[0] for i in things)), diets=diets)
    if (
        bound.context.focus == "bath"
        and len(things) == 1
        and not bound.said("cue:missing", "cue:only_this", "act:swap")
    ):
        return None  # "and bicarb instead?" is still about the bath
    sides = sides_of(bound, things)
    if not asks and not (negated and bound.context.has_bake and bound.said("ask:*")):
        shares = any(slot == "pct" for slot, _ in amounts.values())
        follows = bound.context.focus == "swap" and (things or amounts) and not shares and job is None
        if protein is None and not follows:
            return None
        if follows and sides.out is not None and sides.into is None:
            sides = Sides(None, sides.out)  # "and oil?" asks for another replacement
    out = ids_of(bound.phrases[sides.out]) if sides.out is not None else ()
    into = ids_of(bound.phrases[sides.into]) if sides.into is not None else ()
    into = () if into == out else into
    if not out and not into and not diets and protein is None:
        return None
    flour = any(one.startswith("flour") for one in out or into)
    if bound.context.has_bake and flour and any(slot == "pct" for slot, _ in amounts.values()):
        return None
    if bound.said("cue:only_this") and not out and any(slot == "mass" for slot, _ in amounts.values()):
        return None
    flours = [i for i in things if i not in (sides.out, sides.into) and ids_of(bound.phrases[i])[0].startswith("flour")]
    beside = next((amounts[i][1] for i in flours if i in amounts and amounts[i][0] == "mass"), None)
    amounts = {place: value for place, value in amounts.items() if place not in flours}
    said = amounts.get(sides.out) if sides.out is not None else None
    given = amounts.get(sides.into) if sides.into is not None else None
    loose = next((value for place, value in amounts.items() if place not in (sides.out, sides.into)), None)
    if said is None and given is not None and given[0] == "mass" and out and bound.said("cue:only_this"):
        said, given = given, None  # "only got flaky salt, need 20 g": the one weight is what is needed
    if said is None:
        said = loose
    measures = _measures(bound)
    of_out = measures.pop(sides.out, None) if sides.out is not None else None
    of_into = measures.pop(sides.into, None) if sides.into is not None else None
    spare = next(iter(measures.values()), None)
    return SwapRequest(
        out=out,
        into=into,
        out_measure=of_out or (spare if out else None),
        into_measure=of_into,
        out_g=said[1] if said and said[0] == "mass" else None,
        into_g=given[1] if given and given[0] == "mass" else None,
        out_pct=said[1] if said and said[0] == "pct" else None,
        count=said[1] if said and said[0] == "count" else None,
        job=job,
        diets=diets,
        protein_pct=protein,
        overnight=bound.said("cue:overnight_dose"),
        flour_g=beside,
        anew=protein is not None or bound.said("cue:missing", "cue:only_this", "act:swap"),
    )


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
        "mistake:meant": 0.2, "cue:fridge": 0.1, "cue:limit": 0.8, "act:change": 0.6, "cue:dough": 0.3,
        "act:make": 0.3, "act:use": 2.1, "diet:*": 1.4, "cue:formula": 0.2, "ask:how_to": 0.3, "ask:is_it": 0.2,
    },
    needs=(
        "cue:missing", "cue:only_this", "act:swap", "ask:what_else", "link:instead_of", "link:instead", "diet:*",
        "cue:company", "slot:protein_pct", "job:*", "cue:limit", "act:use", "act:take",
        "pick:*", "ingredient:yeast*", "link:for", "slot:absent",
    ),
    rules_out=(
        "eating:eat", "person:baby", "person:coeliac", "hazard:safe", "cue:rest", "plain:split", "mistake:forgot",
        "mistake:twice", "danger:*", "topic:*",
    ),
    base=0.3,
)  # fmt: skip
