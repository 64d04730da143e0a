"""What the dough in hand costs by the prices that are kept, what to buy for it, and the prices themselves."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from assistant.answers import answers
from assistant.answers.dough_named import dough_named
from assistant.answers.stock_check import kept_stock
from assistant.engine.composition import Portion
from assistant.engine.cost import cost, price_per_kg, to_buy
from assistant.engine.naming import grams, short_name
from assistant.engine.refusal import Refused
from assistant.talk.doughs import short_label, under_way
from assistant.talk.reply import Outcome
from assistant.talk.room import Room
from assistant.voice.page import Line, Page, Table
from grammar.requests.batch import IN_HAND
from grammar.requests.cost import CostRequest, PriceRequest
from grammar.requests.prices import Price

PREFIX = "price_"
"""A price is a setting by this and the item's id: what a kilogram costs."""
CURRENCY = "currency"
PACKS = "packs"
"""The bench's note of the grams each price was told for, by the item's id."""
CUP_ML = 236.588
MOST_PER_KG = 5000.0
"""Saffron stays below it; more is taken for a slip."""


@answers(PriceRequest)
def keep(request: PriceRequest, room: Room) -> Outcome:
    """Prices kept until they are changed or undone, each as what a kilogram costs."""
    values: dict[str, Any] = {}
    told, packs = [], dict(room.bench.notes.get(PACKS, {}))
    for price in request.prices:
        item = _item(price, room)
        mass_g = _mass_g(price, item, room)
        packs[item] = mass_g
        per_kg = price_per_kg(price.price, mass_g)
        if per_kg <= 0 or per_kg > MOST_PER_KG:
            raise Refused(
                f"{per_kg:.2f} a kilogram is no price for {short_name(room.kb.ingredients[item])}.",
                "say what so much of it costs: flour costs 1.20 a kilo",
            )
        values[PREFIX + item] = round(per_kg, 6)
        so_much = price.said if price.said[:1].isdigit() else f"{grams(mass_g)} g" if price.unit == "same" else ""
        so_much = f" ({price.price:.2f} for {so_much})" if so_much and price.price != per_kg else ""
        told.append(f"{_name(item, room)} {_money(per_kg, request.currency or _currency(room))} a kg{so_much}")
    if request.currency is not None and request.currency != _currency(room):
        _one_currency(request.currency, values, room)
        values[CURRENCY] = request.currency
    names = [name for name in values if name != CURRENCY]
    answer: dict[str, Any] = {
        "name": names[0], "value": values[names[0]], "item": names[0].removeprefix(PREFIX), "per": "kg",
        "currency": request.currency or _currency(room),
    }  # fmt: skip
    if len(values) > 1:
        answer["settings"] = [{"name": name, "value": value} for name, value in values.items()]
    before = [room.setting(name) for name in names]
    was = [f"{one:.2f}" for one, name in zip(before, names, strict=True) if one is not None and one != values[name]]
    text = f"Kept: {', '.join(told)}." + (f" It was {', '.join(was)}." if was else "")
    answer["entry"] = {"id": room.number, "at": room.stamp(), "kind": "price", "text": ", ".join(told)}
    return Outcome(
        "record", answer, f"from now on: {', '.join(told)}", Page((Line(text),)),
        bench=room.bench.with_settings(values, room.stamp()).with_notes(PACKS, packs),
        change={"what": "setting", "names": list(values), "values": list(values.values())},
    )  # fmt: skip


@answers(CostRequest)
def answer(request: CostRequest, room: Room) -> Outcome:
    """The cost of the dough in hand, or the list of what to buy for it. No price is made up: what has none is named."""
    if request.listed:
        return _price_of(request.item, room) if request.item else _prices(room)
    kept = keep(request.said, room) if request.said is not None else None
    if kept is not None and kept.bench is not None:
        room = replace(room, bench=kept.bench)
    dough = dough_named(room, request.batch, "to tell the cost of" if not request.shopping else "to buy for")
    formula, portions = dough.formula, dough.portions
    per_kg = prices_in(room.bench.settings)
    found = cost(portions, per_kg)
    currency = _currency(room)
    share = 1 / formula.pieces if formula.pieces else None  # what is lost on the bench is paid for too
    priced = bool(found.by_item)
    total = found.total if priced else None
    fields: dict[str, Any] = {
        "total": total,
        "per_piece": found.total * share if priced and share is not None else None,
        "currency": currency,
        "unpriced": list(found.unpriced),
        "by_item": [{"item": item, "cost": value} for item, value in found.by_item.items()],
    }
    if request.portion_g is not None:
        fields |= {"portion_g": request.portion_g, "per_portion": None}
        if priced:
            fields["per_portion"] = found.total * request.portion_g / formula.dough_g
    name = dough.name + (f", for {request.day}" if request.day else "")
    starter = ("the starter counted by its flour",) if formula.starter is not None else ()
    water = ("water costs nothing",) if "water" not in per_kg and not request.shopping else ()
    assumed = (*dough.assumed, *water, *starter)
    told = (*dough.supposed, *water, *starter)
    if request.shopping:
        there = kept_stock(room.bench)
        buy = tuple(
            replace(one, g=one.g - there.get(one.item, 0.0))
            for one in to_buy(portions)
            if one.g > there.get(one.item, 0.0)
        )
        fields["shopping"] = [{"item": one.item, "name": _name(one.item, room), "g": one.g} for one in buy]
        page = _list_page(buy, fields, name, told, room)
        page = Page((*page.blocks, *_without_others(request, room)))
        return Outcome("cost", fields, f"what to buy for {name}", page, assumed=assumed)
    page = _page(fields, name, told, room)
    if kept is not None:
        page = Page((*page.blocks, *kept.page.blocks))
    return Outcome(
        "cost", fields, f"what {name} costs" + (f"; {kept.read_as}" if kept is not None else ""), page, assumed=assumed,
        unread=request.unclear,
        bench=kept.bench if kept is not None else None, change=kept.change if kept is not None else None,
    )  # fmt: skip


def _without_others(request: CostRequest, room: Room) -> tuple[Line, ...]:
    """Owned up to where other doughs are under way that the list leaves out."""
    others = [short_label(bake) for bake in under_way(room.bench, room.now) if bake.id != room.bench.in_hand]
    if not others or request.batch != IN_HAND:
        return ()
    word = "both" if len(others) == 1 else "all"
    return (Line(f"Without the {' and the '.join(others)}: “for {word}” puts them on one list.", role="warn"),)


def _one_currency(said: str, values: Mapping[str, Any], room: Room) -> None:
    """Refuses a second currency beside prices kept in another: they would be added up as if they were one."""
    kept, now = prices_in(room.bench.settings), _currency(room)
    others = [item for item in kept if PREFIX + item not in values]
    if now is not None and others:
        raise Refused(
            f"The prices kept so far are in {now}, and {said} would be added to them as if it were the same.",
            f"the price in {now}, for example: flour costs 1.20 {now} a kilo",
        )


def prices_in(settings: Mapping[str, Any]) -> dict[str, float]:
    """What a kilogram of each item costs, by id."""
    return {name.removeprefix(PREFIX): float(value) for name, value in settings.items() if name.startswith(PREFIX)}


def _currency(room: Room) -> str | None:
    value = room.setting(CURRENCY)
    return str(value) if value is not None else None


def _money(value: float, currency: str | None) -> str:
    figure = f"{value:.2f}" if value >= 0.095 else f"{value:.3f}"
    return f"{figure} {currency}" if currency else figure


def _name(item: str, room: Room) -> str:
    return short_name(room.kb.ingredients[item]) if item in room.kb.ingredients else item.replace("_", " ")


def _item(price: Price, room: Room) -> str:
    """Which ingredient a price is of: of several readings, the one in the dough in hand, else the first."""
    if len(price.item) > 1 and room.bake is not None:
        inside = {portion.item for portion in dough_named(room, IN_HAND, "to tell the cost of").portions}
        return next((item for item in price.item if item in inside), price.item[0])
    return price.item[0]


def _mass_g(price: Price, item: str, room: Room) -> float:
    """The mass a price is for. Refused where pieces or a volume of it have no known weight."""
    food = room.kb.ingredients[item]
    if price.unit == "same":
        pack_g = room.bench.notes.get(PACKS, {}).get(item)
        if pack_g is None:
            raise Refused(
                "A price needs the amount it is for.", "flour costs 1.20 a kilo, or: 2 for a 1.5 kg bag of flour"
            )
        mass = float(pack_g)
    elif price.unit == "g":
        mass = price.amount
    elif price.unit == "ml":
        if not food.cup_g:
            raise Refused(f"How much {short_name(food)} weighs by the litre is not known.", "its price by the kilogram")
        mass = price.amount * food.cup_g / CUP_ML
    else:
        if not food.each_g:
            raise Refused(f"How much one {short_name(food)} weighs is not known.", "its price by the kilogram")
        mass = price.amount * food.each_g
    if mass <= 0:
        raise Refused("A price is for some amount of a thing.", "flour costs 1.20 a kilo")
    return mass


def _page(fields: Mapping[str, Any], name: str, assumed: tuple[str, ...], room: Room) -> Page:
    unpriced = [_name(item, room) for item in fields["unpriced"]]
    if fields["total"] is None:
        lines = [
            Line(f"No price is known of what is in {name}: {', '.join(unpriced)}."),
            Line("Say one: “flour costs 1.20 a kilo”, “2 for a 1.5 kg bag of flour”.", role="note"),
        ]
        return Page(tuple(lines))
    each = f", {_money(fields['per_piece'], fields['currency'])} a piece" if fields["per_piece"] is not None else ""
    if fields.get("per_portion") is not None:
        each += f", {_money(fields['per_portion'], fields['currency'])} for {grams(fields['portion_g'])} g of dough"
    more = " without what has no price" if unpriced else ""
    total = _money(fields["total"], fields["currency"])
    blocks: list[Line | Table] = [Line(f"{name}: {total}{each}{more}.", role="head")]
    if unpriced:
        blocks.append(Line(f"No price: {', '.join(unpriced)}.", role="warn"))
    rows = tuple((_name(one["item"], room), _money(one["cost"], fields["currency"])) for one in fields["by_item"])
    blocks.append(Table(rows, "lr", more=len(rows) > 4))
    if assumed:
        blocks.append(Line("Assumed: " + "; ".join(assumed) + ". Ingredients alone, no oven, no work.", role="note"))
    return Page(tuple(blocks))


def _list_page(
    buy: tuple[Portion, ...], fields: Mapping[str, Any], name: str, assumed: tuple[str, ...], room: Room
) -> Page:
    rows = tuple((_name(one.item, room), f"{grams(one.g)} g") for one in buy)
    blocks: list[Line | Table] = [Line(f"For {name}:", role="head"), Table(rows[:5], "lr")]
    if len(rows) > 5:
        blocks.append(Table(rows[5:], "lr", more=True))
        blocks.append(Line(f"“more” for {len(rows) - 5} more.", role="note"))
    if fields["total"] is not None:
        left = f" without {', '.join(_name(one, room) for one in fields['unpriced'])}" if fields["unpriced"] else ""
        blocks.append(Line(f"About {_money(fields['total'], fields['currency'])}{left}."))
    if assumed:
        blocks.append(Line("Assumed: " + "; ".join(assumed) + ".", role="note"))
    return Page(tuple(blocks))


def _price_of(items: tuple[str, ...], room: Room) -> Outcome:
    """The price kept of one thing, whichever reading of it has one."""
    kept = prices_in(room.bench.settings)
    item = next((one for one in items if one in kept), items[0])
    name, value = _name(item, room), kept.get(item)
    text = f"{name}: {_money(value, _currency(room))} a kg." if value is not None else f"No price of {name} is kept."
    fields: dict[str, Any] = {"name": PREFIX + item, "value": value, "item": item, "currency": _currency(room)}
    fields["entries"] = [{"kind": "price", "item": item, "text": text}] if value is not None else []
    return Outcome("recall", fields, f"the price of {name}", Page((Line(text),)))


def _prices(room: Room) -> Outcome:
    kept = prices_in(room.bench.settings)
    rows = [{"name": PREFIX + item, "value": value, "item": item} for item, value in kept.items()]
    told = [f"{_name(item, room)} {_money(value, _currency(room))}" for item, value in kept.items()]
    text = f"By the kilogram: {', '.join(told)}." if told else "No prices are kept yet: “flour costs 1.20 a kilo”."
    entries = [{"kind": "price", "item": item, "text": one} for item, one in zip(kept, told, strict=True)]
    fields = {"name": "prices", "value": kept, "settings": rows, "entries": entries}
    return Outcome("recall", fields, "the prices", Page((Line(text),)))
