"""What goes on top: a piece, the batch, and a batch split between several so that nothing travels."""

from __future__ import annotations

from typing import Any

from assistant.answers import answers
from assistant.answers.in_the_bowl import amounts, bowl_in_hand, name_of, notes, rows, weight
from assistant.engine.cautions import Scene
from assistant.engine.naming import figure
from assistant.engine.refusal import Refused
from assistant.engine.topping import Batch, Topped, safe_order, split, tags_of, topped, topping_with
from assistant.talk.reply import Outcome, Unclear
from assistant.talk.room import Room
from assistant.voice.page import Line, Page
from grammar.requests.topping import ToppingRequest
from knowledge.records.diets import Diet
from knowledge.records.toppings import Topping, ToppingPart

USUAL_PIECE_G = 90.0
USUAL_PIECES = 12


@answers(ToppingRequest)
def answer(request: ToppingRequest, room: Room) -> Outcome:
    """One topping by piece and batch, or a split batch in a safe order."""
    pieces, piece_g, assumed = _size(request, room)
    if not request.batches:
        raise Unclear("What is to go on top?", ("how much sesame for 24 rings", "6 sesame, 6 cheese, rest plain"))
    avoid = _avoided(request, room)
    toppings = dict(room.kb.all(Topping))
    chosen = [(_topping(ids, toppings, room), count) for ids, count in request.batches]
    if len(chosen) == 1 and not request.plain and avoid and _washes(chosen[0][0]):
        chosen, avoid = [(_wash_without(chosen[0][0], avoid, toppings, room), chosen[0][1])], frozenset()
    if len(chosen) == 1 and not request.plain and not avoid:
        topping, count = chosen[0]
        many = _many(count, pieces) if count is not None and not request.pieces else pieces
        return _one(topped(topping, many, piece_g, each_g=request.each_g), piece_g, assumed, room)
    return _split(request, chosen, pieces, piece_g, avoid, assumed, toppings, room)


def _size(request: ToppingRequest, room: Room) -> tuple[int, float, tuple[str, ...]]:
    """Pieces and piece mass: said, else of the dough in hand, else usual ones."""
    bowl = bowl_in_hand(room)
    assumed: list[str] = []
    counts = [count for _, count in request.batches if count is not None and count > 0]
    pieces = request.pieces or (bowl.pieces if bowl is not None else None)
    if pieces is None:
        pieces = sum(counts) if counts else USUAL_PIECES
        if not counts:
            assumed.append(f"{USUAL_PIECES} pieces")
    piece_g = request.piece_g or (bowl.piece_g if bowl is not None else None)
    if piece_g is None:
        piece_g = USUAL_PIECE_G
        assumed.append(f"pieces of {figure(USUAL_PIECE_G)} g")
    return int(pieces), piece_g, tuple(assumed)


def _topping(ids: tuple[str, ...], toppings: dict[str, Topping], room: Room) -> Topping:
    """The topping named, or one made of the ingredient named."""
    for one in ids:
        kind, name = one.split(":")
        if kind == "topping":
            return toppings[name]
        found = topping_with(name, {key: each for key, each in toppings.items() if len(each.parts) == 1})
        if found is not None:
            return found
    name = ids[0].split(":")[1]
    if room.kb.ingredients[name].group == "salt":
        return toppings["coarse_salt"]
    like = toppings["mixed_seeds"] if room.kb.ingredients[name].group == "seed" else toppings["cheese"]
    if name == "seeds_mixed":
        return like
    if room.kb.ingredients[name].group in ("cheese", "seed"):
        made = Topping(
            id=name, name=name_of(name, room), parts=(ToppingPart(item=name, share=1.0),), low_g=like.low_g,
            usual_g=like.usual_g, high_g=like.high_g, cover=like.cover, how=like.how, source=like.source,
            confidence=like.confidence,
        )  # fmt: skip
        toppings[name] = made
        return made
    raise Refused(
        f"{name_of(name, room).capitalize()} is no topping I know.", "Seeds, salt, cheese, oats, sugar, washes."
    )


def _washes(topping: Topping) -> bool:
    """Whether it is brushed on rather than strewn."""
    return topping.cover == "wash" or "wash" in topping.id or "glaze" in topping.id


def _wash_without(topping: Topping, avoid: frozenset[str], toppings: dict[str, Topping], room: Room) -> Topping:
    """The wash itself where it offends nobody, else another that does not."""
    foods = room.kb.ingredients
    for one in (topping, *toppings.values()):
        if _washes(one) and not tags_of(one.id, toppings, foods) & avoid:
            return one
    raise Refused("Every wash I know holds what is to be left out.", "Brush with water, or bake with steam.")


def _many(count: float, pieces: int) -> int:
    """A count, or a share of the batch (below nothing)."""
    return max(round(-count * pieces), 1) if count < 0 else int(count)


def _avoided(request: ToppingRequest, room: Room) -> frozenset[str]:
    """Allergen tags somebody cannot have."""
    tags = {tag for diet in request.diets for tag in room.kb.get(Diet, diet).allergens}
    for item in request.avoid:
        food = room.kb.ingredients.get(item)
        tags |= set(food.allergens) if food is not None else set()
    return frozenset(tags)


def _one(done: Topped, piece_g: float, assumed: tuple[str, ...], room: Room) -> Outcome:
    topping = done.topping
    item = topping.parts[0].item if len(topping.parts) == 1 else topping.id
    fields: dict[str, Any] = {
        "item": item,
        "per_piece_g": done.per_piece_g,
        "g": done.g,
        "low_g": done.low_g * done.pieces,
        "high_g": done.high_g * done.pieces,
        "pieces": done.pieces,
        "parts": rows(done.parts),
    }
    head = f"{weight(done.g)} {topping.name} for {done.pieces} of {figure(piece_g)} g: {weight(done.per_piece_g)} each."
    blocks = [Line(head, role="head")]
    if len(done.parts) > 1:
        blocks.append(Line(f"That is {amounts(done.parts, room)}."))
    blocks.append(Line(f"{topping.how} Range {weight(done.low_g)} to {weight(done.high_g)} a piece."))
    items = tuple(part.item for part in topping.parts)
    told, lines = notes(Scene("topping", room.text, frozenset(items)), room, items)
    tail = (Line("Assumed: " + "; ".join(assumed) + "."),) if assumed else ()
    read_as = f"{topping.name} for {done.pieces} pieces of {figure(piece_g)} g"
    return Outcome("topping", fields, read_as, Page((*blocks, *lines, *tail)), assumed, told, (topping.source,))


def _split(
    request: ToppingRequest,
    chosen: list[tuple[Topping, float | None]],
    pieces: int,
    piece_g: float,
    avoid: frozenset[str],
    assumed: tuple[str, ...],
    toppings: dict[str, Topping],
    room: Room,
) -> Outcome:
    """A split batch: counts, grams, the order to top and bake, own tray for what somebody cannot have."""
    foods = room.kb.ingredients
    counted = [Batch(_many(count, pieces), topping.id) for topping, count in chosen if count is not None]
    open_ = [topping for topping, count in chosen if count is None]
    left = pieces - sum(batch.pieces for batch in counted)
    if open_ and not request.plain and left > 0:
        share, spare = divmod(left, len(open_))
        counted += [Batch(share + (n < spare), topping.id) for n, topping in enumerate(open_)]
    batches = safe_order(split(pieces, counted), toppings, foods, avoid)
    done = [topped(toppings[b.topping], b.pieces, piece_g) if b.topping else None for b in batches]
    total = [one for one in done if one is not None]
    if not total:
        raise Unclear("How many of each?", ("6 sesame, 6 cheese, rest plain",))
    first = max(total, key=lambda one: one.g)
    parts = first.topping.parts
    fields: dict[str, Any] = {
        "item": parts[0].item if len(parts) == 1 else first.topping.id,
        "per_piece_g": first.per_piece_g,
        "g": first.g,
        "batches": [
            {
                "pieces": batch.pieces,
                "item": _item_of(batch, toppings),
                "per_piece_g": one.per_piece_g if one else 0.0,
                "g": one.g if one else 0.0,
                "apart": bool(tags_of(batch.topping, toppings, foods) & avoid),
            }
            for batch, one in zip(batches, done, strict=True)
        ],
    }
    blocks = [Line("Top and bake in this order:", role="head")]
    for batch, one in zip(batches, done, strict=True):
        name = toppings[batch.topping].name if batch.topping else "plain"
        apart = tags_of(batch.topping, toppings, foods) & avoid
        words = f"{batch.pieces} {name}" + (f": {weight(one.g)}, {weight(one.per_piece_g)} each" if one else "")
        blocks.append(Line(words + (f"; last, on its own tray ({', '.join(sorted(apart))})" if apart else "")))
    if avoid:
        blocks.append(
            Line(
                "Cross-contact: top the others first, in another place, with washed hands; own tray and rack, "
                "a lower shelf sheds nothing upwards; wrap and name them apart.",
                role="warn",
            )
        )
    items = tuple(part.item for one in total for part in one.topping.parts)
    told, lines = notes(Scene("topping", room.text, frozenset(items)), room, items)
    tail = (Line("Assumed: " + "; ".join(assumed) + "."),) if assumed else ()
    read_as = ", ".join(f"{b.pieces} {toppings[b.topping].name if b.topping else 'plain'}" for b in batches)
    return Outcome(
        "topping", fields, read_as, Page((*blocks, *lines, *tail)), assumed, told, (total[0].topping.source,)
    )


def _item_of(batch: Batch, toppings: dict[str, Topping]) -> str | None:
    if batch.topping is None:
        return None
    parts = toppings[batch.topping].parts
    return parts[0].item if len(parts) == 1 else batch.topping
