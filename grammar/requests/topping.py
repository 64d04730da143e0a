"""Toppings: how much a piece and in all, and a batch split between several."""

from __future__ import annotations

from dataclasses import dataclass

from grammar.follow import Follow
from grammar.frames import Bound, Frame, Hit, amount_base, fits
from grammar.levels import LIKELY, speaks
from grammar.requests.formula_moves import moved
from grammar.requests.formula_none import tells_prices
from grammar.slots import Slot

ON_TOP = (
    "topping:*", "ingredient:sesame_seeds", "ingredient:poppy_seeds", "ingredient:sunflower_seeds",
    "ingredient:pumpkin_seeds", "ingredient:flax_seeds", "ingredient:nigella_seeds", "ingredient:caraway_seeds",
    "ingredient:seeds_mixed", "ingredient:salt_flake", "ingredient:salt_kosher*", "ingredient:cheddar",
    "ingredient:parmesan", "ingredient:gruyere", "ingredient:mozzarella", "ingredient:onion_dried",
    "ingredient:onion_fried_crisp", "ingredient:oats_rolled", "ingredient:almonds_flaked",
    "ingredient:sugar_turbinado", "ingredient:cinnamon",
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class ToppingRequest:
    """how much sesame for 24 rings of 100 g
    egg wash for 18 buns
    6 sesame, 6 cheese, rest plain, one can't have sesame

    batches: (topping or ingredient ids, pieces or None), as said. pieces, piece_g: of the whole. each_g: grams a piece
    where said. diets, avoid: what somebody cannot have. plain: the rest stays plain.
    """

    batches: tuple[tuple[tuple[str, ...], float | None], ...] = ()
    pieces: float | None = None
    piece_g: float | None = None
    each_g: float | None = None
    diets: tuple[str, ...] = ()
    avoid: tuple[str, ...] = ()
    plain: bool = False


def _ids(hit: Hit) -> tuple[str, ...]:
    """Topping ids first, then ingredient ids."""
    if hit.label is None:
        return ()
    return (
        *(f"topping:{i}" for i in hit.label.ids("topping")),
        *(f"ingredient:{i}" for i in hit.label.ids("ingredient")),
    )


def build(bound: Bound) -> ToppingRequest | None:
    """The request; None where nothing is to go on top."""
    other = "instead_of" in bound.links() and bound.said("job:wash") and bound.said("ask:*")
    if other or moved(bound)[0] or tells_prices(bound):
        return None
    counted = [
        (_ids(hit), _count(hit)) for hit in bound.of("count") if hit.label is not None and fits(hit.label, ON_TOP)
    ]
    bare = [_ids(hit) for slot in ("top", "each_g") for hit in bound.of(slot) if _ids(hit)]
    pieces = bound.base("pieces")
    part = bound.first("pieces")
    if part is not None and part.amount is not None and part.amount.dim == "share" and len(bare) == 1 and not counted:
        counted, bare, pieces = [(bare[0], _count(part))], [], None  # "half of them with sesame"
    if bound.said("job:wash") and not counted and not bare:
        bare = [("topping:egg_wash",)]
    named = bound.said("topping:*", "job:topping", "job:wash", "plain:*")
    asked = bound.said("ask:how_much") and bool(counted or bare)
    asked = asked or bool(bare and bound.said("ask:what") and bound.said("job:topping"))
    plainly = bound.first("pieces") is not None and bool({"for", "on"} & bound.links()) and bool(bare)
    asked = asked or bool(bound.said("cue:rest") and counted)
    asked = asked or (plainly and not any(p.dim in ("pct", "mass") for p in bound.phrases if p.kind == "amount"))
    asked = asked or (_so_much_each(bound) and bool(bare or counted) and pieces is not None)
    wash = bound.said("job:wash") and pieces is not None
    follows = bound.context.focus == "topping"
    shared = any(count is not None and count < 0 for _, count in counted)
    asked = asked or (shared and bound.context.has_bake)  # "half with sesame" of the pieces in hand
    if not follows and not (named or asked or len(counted) >= 2):
        return None
    if not follows and not (counted or bare):
        return None
    if bound.of("absent") and not counted and not bound.said("plain:*", "diet:*", "cue:company") and not wash:
        return None  # "no egg for the wash": something is missing
    if any(p.kind == "amount" and p.dim == "pct" for p in bound.phrases):
        return None
    diets = tuple(dict.fromkeys(i for p in bound.phrases for i in p.ids("diet")))
    avoid = tuple(_ids(hit)[-1].split(":")[1] for hit in bound.of("absent") if _ids(hit))
    taken = {ids for ids, _ in counted}
    batches = (*counted, *((ids, None) for ids in bare if ids not in taken))
    return ToppingRequest(
        batches=tuple(batches),
        pieces=pieces,
        piece_g=bound.base("piece_g"),
        each_g=bound.base("each_g"),
        diets=diets,
        avoid=avoid,
        plain=bound.said("plain:*"),
    )


def _so_much_each(bound: Bound) -> bool:
    """Whether a weight of what goes on top is said of each piece: "sesame 3 g each", "if each gets 3 g"."""
    hit = bound.first("each_g")
    if hit is None or hit.amount is None or (hit.label is None and not bound.of("top")):
        return False
    place = next(i for i, p in enumerate(bound.phrases) if p is hit.amount)
    near = bound.phrases[max(place - 3, 0) : place + 3]
    return any("each" in p.ids("link") or "per" in p.ids("link") for p in near)


def _count(hit: Hit) -> float | None:
    value = amount_base(hit.amount)
    return -value if value is not None and hit.amount is not None and hit.amount.dim == "share" else value


FRAME = Frame(
    ToppingRequest,
    "topping",
    build,
    follow=Follow(once=("each_g",)),
    slots={
        "count": Slot({"num": 1.0, "share": 1.6}, cues=ON_TOP, low=1, high=400, many=True, weight=1.4),
        "pieces": Slot(
            {"num": 1.0}, cues=("piece:*", "bread:*", "cue:pieces"), bare=-0.1, low=2, high=400,
            links={"for": 0.8, "of": 0.8, "on": 0.8},
        ),
        "piece_g": Slot({"mass": 0.8}, cues=("piece:*", "bread:*", "cue:piece_mass"), bare=0.3, low=25, high=2600),
        "plain": Slot({"num": 1.2}, cues=("plain:*",), low=1, high=400),
        "someone": Slot({"num": 0.6}, cues=("diet:*", "cue:company"), bare=-0.2, low=1, high=3),
        "each_g": Slot(
            {"mass": 0.8}, cues=(*ON_TOP, "link:each"), bare=-0.3, low=0.2, high=60, links={"each": 0.6, "per": 0.8}
        ),
        "top": Slot(term=ON_TOP, many=True),
        "brushed": Slot(term=("ingredient:egg*",), many=True, where=("job:wash",)),
        "absent": Slot(term=("ingredient:*",), without=True, many=True),
        "diet": Slot(term=("diet:*",), many=True, weight=0.4),
        "piece": Slot(term=("piece:*", "bread:*"), many=True, weight=-0.4),
    },
    cues=speaks(
        alone="",
        telling="job:wash topping:*",
        certain="job:topping plain:* ask:how_much into:g",
        sure="cue:company",
        likely="diet:* ask:how_many",
        maybe=(
            "act:same cue:rest cue:seeded act:add act:use ask:what cue:dough act:make money:buy cue:total "
            "unit:*"
        ),
        seldom="ask:should_i ask:can_i stance:called_for negation:no",
        heard="cue:limit cue:all_of_it",
    ),
    needs=("topping:*", "job:topping", "job:wash", "plain:*", "slot:top", "slot:count", "slot:each_g"),
    rules_out=("mistake:forgot", "cue:missing", "ask:what_else", "act:swap"),
    base=LIKELY,
)  # fmt: skip
