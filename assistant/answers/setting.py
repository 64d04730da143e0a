"""What is told of the kitchen: kept, listed with the day it was told, forgotten."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace
from datetime import date
from typing import Any

from assistant.answers import answers
from assistant.answers.course_kept import with_air
from assistant.answers.formula import answer as formula
from assistant.engine.refusal import Refused
from assistant.talk.kitchen import limits
from assistant.talk.reply import Outcome
from assistant.talk.room import Room
from assistant.voice.page import Line, Page
from assistant.voice.settings_said import setting_label, setting_said
from grammar.requests.formula import FormulaRequest
from grammar.requests.setting import SettingRequest
from grammar.requests.setting_asked import SettingForgotten, SettingsAsked

SHOWN = 12
"""Settings on a compact page; the rest follow on "more"."""


@answers(SettingRequest)
def setting(request: SettingRequest, room: Room) -> Outcome:
    """Settings kept from now on, or for this bake only. Refused where one is past all kitchens."""
    fewer = _in_fewer_tins(request, room)
    if fewer is not None:
        return formula(fewer, room)
    values = _values(request, room)
    for name, value in values.items():
        allowed = limits(name)
        if allowed is not None and isinstance(value, int | float) and not allowed[0] <= value <= allowed[1]:
            said = setting_said(name, value, room.kb)
            within = f"{setting_said(name, allowed[0], room.kb)} to {setting_said(name, allowed[1], room.kb)}"
            raise Refused(f"{said} cannot be", f"anything from {within}")
    before = {name: room.bench.settings.get(name) for name in values}
    if request.now and not request.always:
        bake = room.bake.id if room.bake is not None else None
        kitchen = room.bench.kitchen.told_for(values, bake, room.stamp()[:10])
        lead, read_as = ("For this bake", "for this bake") if bake is not None else ("For today", "for today")
    else:
        kitchen = room.bench.kitchen.told(_settled(values, room), room.stamp()[:10])
        lead, read_as = "Kept", "from now on"
    said = ", ".join(setting_said(name, value, room.kb) for name, value in values.items())
    held = [setting_said(n, v, room.kb) for n, v in before.items() if v is not None and v != values[n]]
    text = f"{lead}: {said}." + (f" It was {', '.join(held)}." if held else "")
    same = kitchen.now(room.bench.in_hand) == room.bench.settings
    return Outcome(
        "setting",
        _answer(values),
        f"{read_as}: {said}",
        Page((Line(text),)),
        bench=with_air(replace(room.bench, kitchen=kitchen), values, room.now),
        change=None if same else {"what": "setting", "names": list(values), "values": list(values.values())},
    )


def _in_fewer_tins(request: SettingRequest, room: Room) -> FormulaRequest | None:
    """The dough in hand for the tins that are left, where it was sized by tins and nothing else was told."""
    said = room.formula_said if [name for name, _ in request.fewer] == ["tins"] and not request.values else None
    if not isinstance(said, FormulaRequest) or not (said.sizes_cm or said.tin_ml):
        return None
    there = said.pieces or said.tins or 1.0
    left = there - float(request.fewer[0][1])
    if left < 1:
        raise Refused(f"{there:g} tins there were, and none is left", "say which tin there is: 25 x 11 x 8 cm")
    return replace(said, pieces=left) if said.pieces is not None else replace(said, tins=left)


def _values(request: SettingRequest, room: Room) -> dict[str, float | str | None]:
    """The values to be kept: corrections of the last one, and so many fewer than before, worked out."""
    values: dict[str, float | str | None] = dict(request.values)
    if "last" in values:
        earlier = room.earlier if isinstance(room.earlier, SettingRequest) else None
        if earlier is None or len(earlier.values) != 1:
            raise Refused("which setting is meant was not said", "say it with its name: kitchen 21")
        return {earlier.values[0][0]: values["last"]}
    for name, less in request.fewer:
        now = room.setting(name)
        left = float(now) - float(less) if now is not None else None
        if left is None or left < 1:
            raise Refused(f"how many {name} there were is not known", f"say what is left: only 2 {name} left")
        values[name] = left
        each = room.setting("tray_takes")
        if name == "trays" and each is not None:
            values["oven_takes"] = left * float(each)
    return values


def _settled(values: Mapping[str, Any], room: Room) -> dict[str, Any]:
    """The values with what they make untrue: trays that no longer come to what the oven takes."""
    out = dict(values)
    told = {**room.bench.kitchen.values, **values}
    trays, each, takes = told.get("trays"), told.get("tray_takes"), told.get("oven_takes")
    if trays is None or each is None:
        return out
    if "oven_takes" in values and not {"trays", "tray_takes"} & set(values):
        if takes != float(trays) * float(each):
            out.update(trays=None, tray_takes=None)
    elif {"trays", "tray_takes"} & set(values):
        out["oven_takes"] = float(trays) * float(each)
    return out


def _answer(values: Mapping[str, Any]) -> dict[str, Any]:
    (name, value), *others = values.items()
    answer: dict[str, Any] = {"name": name, "value": value}
    if others:
        answer["settings"] = [{"name": n, "value": v} for n, v in values.items()]
    return answer


@answers(SettingsAsked)
def asked(request: SettingsAsked, room: Room) -> Outcome:
    """What is set, each with the day it was told; what holds for this bake only says so."""
    held = room.bench.settings
    names = sorted(_chosen(request.about, held), key=lambda name: (_order(name), name))
    passing = room.bench.kitchen.passing
    rows = [
        {
            "name": name,
            "value": held[name],
            "told": passing[name].on if _passes(name, room) else room.bench.kitchen.told_on.get(name),
            "for_this_bake": _passes(name, room),
        }
        for name in names
    ]
    if not rows:
        text = "Nothing is set of the kitchen yet. Say it as it is: boathouse 9, oven takes two trays of 12, pot 5."
        return Outcome("recall", {"entries": [], "settings": []}, "the settings", Page((Line(text),)))
    lines = [
        Line(f"{setting_said(str(row['name']), row['value'], room.kb)}{_when(row, room.now.date())}", more=n >= SHOWN)
        for n, row in enumerate(rows)
    ]
    if len(rows) > SHOWN:
        lines.insert(SHOWN, Line(f"{len(rows) - SHOWN} more: “more”.", role="note"))
    return Outcome("recall", {"entries": [], "settings": rows}, "the settings", Page(tuple(lines)))


def _passes(name: str, room: Room) -> bool:
    one = room.bench.kitchen.passing.get(name)
    return one is not None and one.bake in (None, room.bench.in_hand)


def _when(row: Mapping[str, Any], today: date) -> str:
    if row["for_this_bake"]:
        return "  (this bake only)"
    if not row["told"]:
        return ""
    day = date.fromisoformat(str(row["told"]))
    if day == today:
        return "  (told today)"
    return f"  (told {day.day} {day:%b}{f' {day.year}' if day.year != today.year else ''})"


_FIRST = ("kitchen", "oven", "tray", "pot", "fridge", "freezer", "tap", "friction", "mixer", "asleep", "away")


def _order(name: str) -> int:
    """Places first, then the kit, the hours, and what a dough goes by."""
    if name.startswith("price_"):
        return len(_FIRST) + 2
    at = next((n for n, head in enumerate(_FIRST) if name.startswith(head)), None)
    return at if at is not None else (1 if name.endswith("_c") else len(_FIRST) + 1)


def _chosen(about: Iterable[str], held: Mapping[str, Any]) -> list[str]:
    wanted = tuple(about)
    return [name for name in held if not wanted or name in wanted]


@answers(SettingForgotten)
def forgotten(request: SettingForgotten, room: Room) -> Outcome:
    """Settings dropped; each goes back to what is usual."""
    held = room.bench.settings
    names = _chosen(request.about, held)
    if not names:
        raise Refused("nothing of that is set", "“settings” lists what is")
    kitchen = room.bench.kitchen
    kitchen = replace(kitchen, passing={n: one for n, one in kitchen.passing.items() if n not in names})
    kitchen = kitchen.told(dict.fromkeys(names), room.stamp()[:10])
    said = ", ".join(setting_said(name, held[name], room.kb) for name in names)
    return Outcome(
        "setting",
        _answer(dict.fromkeys(names)),
        f"forgotten: {', '.join(setting_label(name, room.kb) for name in names)}",
        Page((Line(f"Forgotten: {said}."),)),
        bench=replace(room.bench, kitchen=kitchen),
        change={"what": "setting", "names": names, "values": [None] * len(names)},
    )
