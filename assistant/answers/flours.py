"""What a flour of another country is, and how much protein flours hold."""

from __future__ import annotations

from typing import Any

from assistant.answers import answers
from assistant.answers.in_the_bowl import name_of
from assistant.engine.naming import figure
from assistant.engine.refusal import Refused
from assistant.talk.reply import Outcome
from assistant.talk.room import Room
from assistant.voice.page import Line, Page
from grammar.requests.flours import FloursRequest
from knowledge.records.flour_types import FlourType

_ABROAD = {
    "us": {
        "flour_all_purpose": "all-purpose flour",
        "flour_bread": "bread flour",
        "flour_whole_wheat": "whole wheat flour",
        "flour_rye_light": "light (white) rye",
        "flour_rye_medium": "medium rye",
        "flour_rye_dark": "dark rye",
    },
    "uk": {
        "flour_all_purpose": "plain flour",
        "flour_bread": "strong white bread flour",
        "flour_whole_wheat": "wholemeal",
        "flour_rye_light": "light rye",
        "flour_rye_medium": "medium rye",
        "flour_rye_dark": "dark (wholemeal) rye",
    },
}
"""What shops of a country call the flour an ingredient stands for."""
_ASH_CLEAR = "A type number tells the ash, not the strength: read the bag for protein."


@answers(FloursRequest)
def answer(request: FloursRequest, room: Room) -> Outcome:
    """Each flour in a line. Refused for a number no country's table has."""
    if request.protein:
        return _protein(request, room)
    records = room.kb.all(FlourType)
    found = [records[name] for name in request.types]
    if request.number is not None and not found:
        found = [one for one in records.values() if _has_number(one, request.number)]
        if not found:
            raise Refused(
                f"no flour table I know has a type {figure(request.number)}", "French T45 to T150, German 405 to 1800"
            )
    lines = [_line(one, request.country, room) for one in found]
    text = " ".join([*lines, _ASH_CLEAR])
    answer_: dict[str, Any] = {
        "topic": "flour_types", "text": text, "items": [one.ingredient for one in found],
        "protein_low_pct": min(one.protein_low_pct for one in found),
        "protein_high_pct": max(one.protein_high_pct for one in found),
    }  # fmt: skip
    page = Page((Line(lines[0], role="head"), *(Line(one) for one in (*lines[1:], _ASH_CLEAR))))
    return Outcome(
        "explanation", answer_, f"what {', '.join(one.name for one in found)} is", page,
        sources=tuple(dict.fromkeys(one.source for one in found)),
    )  # fmt: skip


def _has_number(record: FlourType, number: float) -> bool:
    wanted = f"{number:g}"
    return any(word in (wanted, f"t{wanted}", f"t {wanted}", f"type {wanted}") for word in record.said_as)


def _line(record: FlourType, country: str | None, room: Room) -> str:
    low, high = record.protein_low_pct, record.protein_high_pct
    ash = [figure(one) for one in (record.ash_low_pct, record.ash_high_pct) if one is not None]
    words = name_of(record.ingredient, room)
    abroad = [
        f"{table.get(record.ingredient, words)} ({name.upper()})"
        for name, table in _ABROAD.items()
        if country in (None, name)
    ]
    said = f"{record.name}: nearest {' or '.join(abroad)}, {figure(low)}-{figure(high)} % protein"
    said += f", ash {' to '.join(ash)} %" if ash else ""
    return said + (f"; {record.note}." if record.note else ".")


def _protein(request: FloursRequest, room: Room) -> Outcome:
    """Protein of each flour named, percent of its weight."""
    foods = room.kb.ingredients
    lines: list[str] = []
    values: dict[str, float] = {}
    sources: list[str] = []
    for record in (room.kb.get(FlourType, name) for name in request.types):
        lines.append(f"{record.name}: {figure(record.protein_low_pct)}-{figure(record.protein_high_pct)} %")
        values[record.id] = (record.protein_low_pct + record.protein_high_pct) / 2
        sources.append(record.source)
    for ids in request.items:
        item = next((one for one in ids if one in foods and foods[one].protein_pct is not None), None)
        if item is None:
            continue
        values[item] = foods[item].protein_pct or 0.0
        lines.append(f"{name_of(item, room)}: about {figure(values[item])} %")
        sources.append(foods[item].source)
    if not lines:
        raise Refused("that flour's protein is not known here", "read the bag: protein per 100 g")
    text = "Protein: " + "; ".join(lines) + ". Brands differ by a point and more: read the bag."
    answer_ = {"topic": "flour_protein", "text": text, "protein_pct": values}
    page = Page((Line("; ".join(lines) + ".", role="head"), Line("Brands differ by a point and more: read the bag.")))
    return Outcome("explanation", answer_, "protein of flours", page, sources=tuple(dict.fromkeys(sources)))
