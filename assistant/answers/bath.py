"""What goes into the pot before the oven, how strong, how long a side, and what must not be done."""

from __future__ import annotations

from typing import Any

from assistant.answers import answers
from assistant.answers.in_the_bowl import amounts, boil_c, bread_in_hand, notes, rows
from assistant.engine.altitude import boiling_point_c
from assistant.engine.bath import BathMade, bath_made, bath_of, bath_with, refuse_dangerous
from assistant.engine.cautions import Scene
from assistant.engine.naming import figure
from assistant.engine.refusal import Refused
from assistant.talk.reply import Outcome
from assistant.talk.room import Room
from assistant.voice.page import Line, Page
from grammar.requests.bath import BathRequest
from knowledge.records.baths import Bath
from knowledge.records.kinetics import Kinetic

USUAL_LITRES = 3.0


@answers(BathRequest)
def answer(request: BathRequest, room: Room) -> Outcome:
    """The bath made, or refused."""
    bath, item, guessed = _which(request, room)
    if request.dangers or "lye" in request.item:
        try:
            refuse_dangerous(bath, frozenset(request.dangers))
        except Refused as refused:
            told, _ = notes(Scene("refused", room.text, baths=frozenset({bath.id})), room)
            refused.cautions = told  # type: ignore[attr-defined]
            raise
    here_c, altitude_words = _boil(request, room)
    assumed = [*guessed]
    litres = request.litres
    if litres is None:
        litres = USUAL_LITRES
        assumed.append(f"{figure(litres)} l of water")
    strength = request.g_per_l if request.g_per_l is not None else None
    if request.strength_pct is not None:
        strength = request.strength_pct * 10
    made = bath_made(bath, litres, here_c, item=item, g_per_l=strength, g=request.g)
    return _outcome(request, bath, made, tuple(assumed), altitude_words, room)


def _which(request: BathRequest, room: Room) -> tuple[Bath, str | None, list[str]]:
    """The bath meant, what is dissolved, and what was assumed."""
    baths = room.kb.all(Bath)
    if {"drain_cleaner", "hot", "to_lye"} & set(request.dangers) or "lye" in request.item:
        return baths["lye"], None, []
    if request.kind is not None:
        bath = baths[request.kind]
        item = next((item for item in request.item if item == bath.item or item in bath.also), None)
        if request.kind == "malt" and not item and request.item:
            other = next((found for one in request.item if (found := bath_with(one, baths)) is not None), None)
            bath = other or bath
        return bath, item, []
    for item in request.item:
        found = bath_with(item, baths)
        if found is not None:
            return found, item, []
    bread = request.bread or bread_in_hand(room)
    usual = bath_of(bread, baths)
    if usual is not None:
        return usual, None, [usual.name]
    return baths["malt"], None, [f"{baths['malt'].name} for rings"]


def _boil(request: BathRequest, room: Room) -> tuple[float, str]:
    """The boiling point here, and the height in words where it is not the sea's."""
    if request.altitude_m is not None:
        c = boiling_point_c(room.kb.all(Kinetic), min(max(request.altitude_m, -400.0), 8000.0))
        return c, f"at {request.altitude_m:.0f} m"
    altitude = float(room.setting("altitude_m") or 0.0)
    return boil_c(room), f"at {altitude:.0f} m" if altitude else ""


def _outcome(
    request: BathRequest, bath: Bath, made: BathMade, assumed: tuple[str, ...], where: str, room: Room
) -> Outcome:
    side = "in all" if bath.dip else "a side"
    fields: dict[str, Any] = {
        "bath": bath.id,
        "bath_l": made.litres,
        "bath_c": made.bath_c,
        "boil_c": made.boil_c,
        "add": rows(made.add),
        "strength_pct": made.strength_pct,
        "seconds_per_side": [made.seconds_low, made.seconds_high],
        "rinse": bath.rinse,
    }
    what = amounts(made.add, room) if made.add else "nothing"
    into = "cold water" if bath.dip else "water"
    head = (
        f"{what} in {figure(made.litres)} l {into} ({figure(made.strength_pct)} %)"
        if made.add
        else (f"{figure(made.litres)} l plain water")
    )
    blocks = [Line(f"{head}, {made.seconds_low:.0f}-{made.seconds_high:.0f} s {side}.", role="head")]
    if made.note:
        blocks.append(Line(made.note, role="warn"))
    blocks.append(Line(f"{bath.how[0].upper()}{bath.how[1:]}."))
    blocks.append(Line(f"It gives {bath.does}."))
    if request.seconds is not None:
        blocks.append(Line(_seconds_words(request.seconds, bath, made)))
    else:
        blocks.append(Line(f"{bath.longer[0].upper()}{bath.longer[1:]}.", more=bath.dip))
    if made.boil_c is not None and where:
        longer = "; give them 10-20 % longer" if made.boil_c < 97 else ""
        blocks.append(Line(f"Water boils at {figure(made.boil_c)} °C {where}{longer}."))
    items = frozenset(part.item for part in made.add)
    told, lines = notes(
        Scene("bath", room.text, items, baths=frozenset({bath.id}), steps=_steps(bath)), room, tuple(items)
    )
    tail = (Line("Assumed: " + "; ".join(assumed) + "."),) if assumed else ()
    read_as = f"{bath.name}, {figure(made.litres)} l, {figure(made.strength_pct)} %"
    return Outcome("bath", fields, read_as, Page((*blocks, *lines, *tail)), assumed, told, (bath.source,))


def _steps(bath: Bath) -> frozenset[str]:
    return frozenset() if bath.dip else frozenset({"boil"})


def _seconds_words(seconds: float, bath: Bath, made: BathMade) -> str:
    """What the time that was said does."""
    if seconds > made.seconds_high * 1.05:
        return f"{seconds:.0f} s is long: {bath.longer}."
    if seconds < made.seconds_low * 0.95:
        return f"{seconds:.0f} s is short: thinner skin, paler, more oven rise."
    return f"{seconds:.0f} s is inside the usual range."
