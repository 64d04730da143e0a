"""How a wish for a plan was read, in words."""

from __future__ import annotations

from assistant.answers.plan_said import Settled
from assistant.answers.plan_words import COLD_WORDS
from assistant.voice.clock_said import day_and_hour
from grammar.requests.plan import PlanRequest


def read_as(request: PlanRequest, said: Settled) -> str:
    wish = said.wish
    parts = [f"{said.batch.pieces} {said.bread.name.lower()} of {said.batch.piece_g:.0f} g"]
    if wish.ready_by is not None:
        parts.append(f"ready by {day_and_hour(wish.ready_by, wish.now.date())}")
    elif wish.start_at is not None:
        parts.append(f"starting {day_and_hour(wish.start_at, wish.now.date())}")
    else:
        parts.append("ready as soon as can be")
    parts.append(f"kitchen {round(said.kitchen.room_c, 1):g} °C")
    if said.kitchen.night_c is not None:
        parts.append(f"{said.kitchen.night_c:g} °C at night")
    for busy in wish.busy:
        day = f" on {busy.day.strftime('%a')}" if busy.day is not None else ""
        parts.append(f"{busy.why} {busy.start.strftime('%H:%M')} to {busy.end.strftime('%H:%M')}{day}")
    named = {item for part in (*request.flours, *request.rows) for item in part.item}
    parts += [f"{row.pct:.0f} % {row.name.lower()}" for row in said.formula.rows if row.item in named]
    parts += [f"{row.pct:.0f} % {row.name}" for row in said.formula.rows if row.role == "preferment"]
    if request.starter_pct is not None:
        parts.append(f"{request.starter_pct:g} % starter")
    if request.jar_g is not None:
        parts.append(f"{request.jar_g:g} g of starter in the jar")
    if wish.starter != "either" and not said.preferment_raises:
        parts.append("starter ripe" if wish.starter == "ripe" else "starter fed first")
    if wish.cold is not None:
        parts.append(COLD_WORDS[wish.cold])
    if wish.cold_h is not None:
        parts.append(f"{wish.cold_h:g} h cold")
    if wish.ahead:
        parts.append("baked ahead")
    return ", ".join(parts)
