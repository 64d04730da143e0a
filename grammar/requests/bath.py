"""The bath before the oven: what to dissolve, how strong, how long."""

from __future__ import annotations

from dataclasses import dataclass

from grammar.follow import Follow
from grammar.frames import Bound, Frame, Line, Own, fits
from grammar.levels import speaks
from grammar.onward import FITS, put_of
from grammar.roles import take
from grammar.slots import Slot

DISSOLVED = (
    "ingredient:malt*", "ingredient:honey", "ingredient:baking_soda", "ingredient:baked_soda", "ingredient:lye",
    "ingredient:molasses", "ingredient:sugar_brown", "ingredient:golden_syrup",
)  # fmt: skip
ALKALI = (
    "ingredient:baking_soda",
    "ingredient:baked_soda",
    "ingredient:lye",
    "bath:soda",
    "bath:baked_soda",
    "bath:lye",
)


def asks_for_a_bath(bound: Bound) -> bool:
    """Whether how much goes into so much water is asked, for whatever day and however many it is."""
    named = bound.said("ingredient:lye", "ingredient:baked_soda", "bath:*", "bathing:*")
    poured = any(phrase.kind == "amount" and phrase.dim == "volume" for phrase in bound.phrases)
    return named and poured and bound.said("ask:how_much")


@dataclass(frozen=True, slots=True)
class BathRequest:
    """how much malt for a 4 litre bath
    soda bath, 3 litres
    lye dip 4 %, 1.5 litres
    how long do i boil them a side

    kind: id of the bath; item: ids that may be dissolved; g: grams in all; strength_pct: g per 100 g water; seconds: a
    side, as planned; dangers: what the line names that must not be. boils: a boil is spoken of.
    """

    kind: str | None = None
    item: tuple[str, ...] = ()
    litres: float | None = None
    g: float | None = None
    g_per_l: float | None = None
    strength_pct: float | None = None
    seconds: float | None = None
    altitude_m: float | None = None
    dangers: tuple[str, ...] = ()
    bread: str | None = None
    boils: bool = False


def _of_its_own(line: BathRequest, earlier: BathRequest, bound: Bound) -> bool:
    """Whether a line names another bath, or boils where lye was talked of, which never is."""
    return line.kind is not None or (line.boils and not line.dangers and "lye" in (earlier.kind, *earlier.item))


def build(bound: Bound) -> BathRequest | None:
    """The request; None where neither a bath nor what only goes into one is named."""
    kind = next((i for p in bound.phrases for i in p.ids("bath")), None)
    things = [p for p in bound.phrases if p.kind == "label" and fits(p, DISSOLVED)]
    if things and all(p.negated for p in things) and bound.said("ask:what", "ask:can_i", "ask:what_else"):
        return None  # "no lye, what can i dip pretzels in" asks what serves instead
    item = things[0].ids("ingredient") if things else ()
    bathing = bound.said("bathing:*", "job:alkali") or kind is not None
    alkali = any(fits(p, ALKALI) for p in bound.phrases)
    dangers = tuple(dict.fromkeys(i for p in bound.phrases for i in p.ids("danger")))
    if "children" not in dangers and bound.said("person:child", "person:baby"):
        dangers = (*dangers, "children")
    if "ingredient:lye" in {f"ingredient:{i}" for i in item} or kind == "lye" or "hot" in dangers:
        heated = bound.base("heated")
        if heated is not None and heated > 30 and not _for_so_many(bound) and "hot" not in dangers:
            dangers = (*dangers, "hot")
    litres = bound.base("litres")
    follows = bound.context.focus == "bath"
    timed = bound.base("seconds") is not None or bound.said("ask:how_long")
    boils = bound.said("bathing:boil", "bathing:bath") or kind is not None
    if not follows and not (
        kind is not None
        or (bathing and (things or litres is not None or (timed and boils)))
        or (things and litres is not None)
        or (bound.said("bathing:bath") and bound.said("bread:*", "piece:*") and not bound.said("symptom:*"))
        or (bound.said("bathing:bath", "bathing:boil") and bound.said("ask:what", "ask:how_much", "ask:which"))
        or (alkali and dangers)
        or {"drain_cleaner", "hot", "to_lye"} & set(dangers)
        or any(i == "lye" for i in item)
    ):
        return None
    g = bound.base("g")
    per_litre = bound.said("bathing:per_litre")
    altitude = bound.base("altitude_m")
    hit = bound.first("altitude_m")
    if altitude is not None and hit is not None and hit.amount is not None and hit.amount.dim == "length":
        altitude /= 100
    seconds = bound.base("seconds")
    return BathRequest(
        kind=kind,
        item=item,
        litres=litres / 1000 if litres is not None else None,
        g=None if per_litre else g,
        g_per_l=g if per_litre else None,
        strength_pct=bound.base("strength_pct"),
        seconds=seconds * 60 if seconds is not None else None,
        altitude_m=altitude,
        dangers=dangers,
        bread=next((i for p in bound.phrases for i in p.ids("bread")), None),
        boils=bound.said("bathing:boil"),
    )


def _for_so_many(bound: Bound) -> bool:
    """Whether the bare number taken for degrees stands behind "for": it counts heads or pieces."""
    hit = bound.first("heated")
    at = next((n for n, phrase in enumerate(bound.phrases) if hit is not None and phrase is hit.amount), 0)
    bare = hit is not None and hit.amount is not None and hit.amount.dim == "num"
    return bare and at > 0 and "for" in bound.phrases[at - 1].ids("link")


def _dissolves(thing: tuple[str, ...]) -> bool:
    """Whether it is one of what goes into a bath."""
    return any(f"ingredient:{item}".startswith(one.rstrip("*")) for item in thing for one in DISSOLVED)


def _reads(line: Line) -> Own | None:
    """ "skip the soda, malt syrup instead", "honey?": another thing dissolved in the bath just talked of."""
    if line.context.focus != "bath":
        return None
    said = [phrase for phrase in line.phrases if not fits(phrase, ("cue:water",))]
    put = put_of(said, line.text, line.context, ("bathing:*", "step:boil", "again:measure", "card:dough"))
    dissolved = put is not None and _dissolves(put.thing) and put.unit is None
    return Own(BathRequest(item=put.thing), FITS) if put and dissolved and not put.amount else None


ONWARD = Frame(BathRequest, "bath", build, reads=_reads, settles=True)

FRAME = Frame(
    BathRequest,
    "bath",
    build,
    follow=Follow(
        alone=_of_its_own,
        may=("item", "litres", "g", "g_per_l", "strength_pct", "seconds", "altitude_m", "dangers"),
        forgets={"item": ("kind", "g_per_l")}, once=("g", "strength_pct", "dangers"),
    ),
    slots={
        "litres": Slot(
            {"volume": 1.8}, cues=("bathing:*", "bath:*", "ingredient:water", "cue:water", "cue:pot"), bare=0.7,
            low=200, high=40000,
        ),
        "g": Slot({"mass": 1.0}, cues=(*DISSOLVED, "bathing:per_litre"), bare=0.2, low=0.5, high=5000),
        "strength_pct": Slot(
            {"pct": 1.0}, cues=(*DISSOLVED, "bath:*", "bathing:strength"), bare=0.3, low=0.2, high=10
        ),
        "seconds": Slot({"time": 1.2}, cues=("bathing:boil",), bare=0.4, low=0.03, high=10),
        "altitude_m": Slot(
            {"length": 1.2}, cues=("cue:altitude",), bare=0.2, low=0, high=900000
        ),
        "pieces": Slot({"num": 0.4}, cues=("bread:*", "piece:*"), low=1, high=400),
        "heated": Slot({"temperature": 0.8, "num": 0.1}, bare=0.0, low=25, high=110),
        "day": Slot({"moment": 0.2}, bare=0.0),
        "eaters": take("portions"),
        "age": Slot({"num": 0.6}, cues=("person:*",), low=0, high=120),
        "thing": Slot(term=DISSOLVED, many=True),
        "kind": Slot(term=("bath:*",), many=True, weight=0.6),
        "bread": Slot(term=("bread:*", "piece:*"), many=True, weight=-0.5),
        "water": Slot(term=("ingredient:water", "cue:water", "cue:pot"), many=True, weight=0.4),
    },
    cues=speaks(
        alone="look:per_side",
        telling="bath:*",
        certain="bathing:boil bathing:bath job:alkali danger:* ask:how_much ask:how_many ingredient:lye cue:side",
        sure=(
            "bathing:strength bathing:per_litre person:* into:* bread:pretzel* bread:ring_roll ask:how_long "
            "stage:boil"
        ),
        likely="act:change cue:pot cue:altitude ingredient:baked_soda",
        maybe=(
            "unit:* fits:tub ask:can_i ask:what act:add act:use ask:is_it ask:how_to ask:what_if ask:what_else "
            "act:help act:make"
        ),
        seldom="state:moved act:same ask:when",
        heard="link:each danger:cold cue:fridge span:now",
    ),
    needs=("bath:*", "bathing:*", "job:alkali", "danger:*", "ingredient:lye", "slot:litres", "look:per_side"),
    rules_out=("symptom:*", "mistake:forgot"),
    base=0.1,
)  # fmt: skip

FRAMES = (ONWARD,)
