"""What an amount that is to be converted is of: its parts, the cups it is in, the ingredient meant."""

from __future__ import annotations

import re

from assistant.answers.measure_words import MANNERS, said_amount, split_unit
from assistant.engine.measures import SYSTEM_NAMES, MeasureBook, Said, item_meant
from assistant.talk.reply import Unclear
from assistant.talk.room import Room
from grammar.requests.conversion import ConversionRequest
from knowledge.vocabulary import fold

_KOSHER = {"salt_kosher_dense", "salt_kosher_light"}


def system_in_force(request: ConversionRequest, room: Room) -> str:
    """The cup system: said, else the kitchen's setting, else US."""
    return request.system or str(room.setting("cup") or "us")


def parts_of(request: ConversionRequest) -> tuple[Said, ...]:
    manner = next((fill for fill in request.fills if fill in MANNERS), None)
    parts = []
    for one in request.amounts:
        unit, system = split_unit(one.unit)
        high = one.high if one.high is not None and one.high > one.value else one.value
        parts.append(Said(one.value, high, unit, request.size, manner, None, system))
    return tuple(parts)


def item_asked(request: ConversionRequest, by_volume: bool, room: Room, book: MeasureBook) -> tuple[str, list[str]]:
    """The ingredient meant, and what was assumed for it. Unclear where guessing would be off by a factor."""
    if by_volume and set(request.item) >= _KOSHER:
        kind = re.search(r"\b(light|flak\w*)\b|\b(dense|coarse|heavy)\b", room.text, re.I)
        if kind is not None:
            return ("salt_kosher_light" if kind.group(1) else "salt_kosher_dense"), []
        amount, into = said_amount(request.amounts, book), f" in {request.to}" if request.to else ""
        raise Unclear(
            "Which kosher salt? A spoon of the dense, coarse kind weighs 1.7 times one of the light flakes.",
            tuple(f"{amount} {salt}{into}" for salt in ("coarse dense kosher salt", "light kosher salt", "table salt")),
        )
    item, assumed = request.item[0], []
    if request.amounts:
        item = book.packed_as(request.amounts[0].unit, request.item)
    phrase = fold(request.name)
    flour = room.setting("flour")
    if phrase in ("flour", "flours") and flour in room.kb.ingredients:
        item = str(flour)
    else:
        country = request.system or next((s for one in request.amounts if (s := split_unit(one.unit)[1])), None)
        country = country or str(room.setting("cup") or "")
        item, because = item_meant(item, phrase, request.size, country, book)
        if because is not None:
            assumed.append(because.rstrip("."))
    if phrase in ("yeast", "yeasts") and item == request.item[0]:
        assumed.append("yeast taken as dried (instant); of fresh yeast it takes 2.4 times as much by weight")
    return item, assumed


def cups_assumed(
    request: ConversionRequest, parts: tuple[Said, ...], target: str | None, system: str, room: Room, book: MeasureBook
) -> list[str]:
    """The cup system, where it makes a difference and nobody said it."""
    if request.system or room.setting("cup"):
        return []
    units = [part.unit for part in parts if part.system is None] + ([target] if target else [])
    varying = [unit for unit in units if len(set(book.measures[unit].ml.values())) > 1]
    if not varying:
        return []
    return [f"{SYSTEM_NAMES[system]} {book.measures[varying[0]].name}s of {book.ml(varying[0], system):.4g} ml"]
