"""The doughs on the bench: another one in hand, all of them listed, named, dropped, added up."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from assistant import answers as registry
from assistant.answers import answers
from assistant.answers.dough_said import solved
from assistant.answers.stock_check import STOCK, kept_stock
from assistant.engine.dough import Formula
from assistant.engine.naming import grams, short_name
from assistant.engine.refusal import Refused
from assistant.talk.bench import Bake, Kept
from assistant.talk.doughs import all_names, under_way
from assistant.talk.memory import recalled
from assistant.talk.reply import Outcome
from assistant.talk.room import Room
from assistant.voice.page import Line, Page, Table
from grammar.context import Known
from grammar.named import dough_named, kept_named
from grammar.requests.cost import CostRequest
from grammar.requests.doughs import BackRequest, DoughCalled, DoughDropped, DoughsAsked, DoughsTogether


def known_doughs(room: Room) -> Known:
    """The doughs under way as they may be named, oldest first."""
    there = under_way(room.bench, room.now)
    return Known(doughs=all_names(there, room.kb))


def bake_of(words: str, room: Room) -> Bake:
    """The bake that words name; the one in hand where they are empty. Refused where there is none."""
    if not words:
        if room.bake is None:
            raise Refused("no dough is in hand", "say a dough first: 24 rolls of 85 g at 66 %")
        return room.bake
    place = dough_named(words, known_doughs(room))
    if place is None:
        raise Refused(f"there are no {words} on the bench", "“what doughs have I got” lists them")
    return under_way(room.bench, room.now)[place]


@answers(BackRequest)
def back(request: BackRequest, room: Room) -> Outcome:
    """Another bake of the bench in hand."""
    others = [bake for bake in room.bench.bakes if bake.id != room.bench.in_hand]
    if request.bread is not None:
        others = [bake for bake in others if request.bread in (bake.said.get("bread"), bake.said.get("piece"))]
    if not others:
        text = "There is no other dough on the bench."
        return Outcome("explanation", {"topic": "back", "text": text}, "back to another dough", Page((Line(text),)))
    chosen = others[0] if request.which == "first" else others[-1]
    bench = room.bench.taking(chosen.id)
    dough = recalled(chosen.said)
    outcome = registry.answer(dough, replace(room, bench=bench, bound=None))
    change = {"what": "in_hand", "bake": chosen.id, "dough": chosen.name}
    return replace(
        outcome, bench=bench, change=change, focus=dough, read_as=f"back to {chosen.label}, {outcome.read_as}"
    )


@answers(DoughsAsked)
def asked(request: DoughsAsked, room: Room) -> Outcome:
    """Each dough under way, the newest first, and which is in hand."""
    rows = [_entry(bake, room) for bake in reversed(under_way(room.bench, room.now))]
    if not rows:
        text = "No dough is on the bench."
        return Outcome("recall", {"entries": []}, "the doughs on the bench", Page((Line(text),)))
    lines = []
    for row in rows:
        name = f"{row['called']}: {row['dough']}" if row["called"] else str(row["dough"])
        lines.append(Line(name + ("  (in hand)" if row["in_hand"] else "")))
    if len(rows) > 1:
        lines.append(Line("“back to …” takes another in hand; “for both” adds them up.", role="note"))
    return Outcome("recall", {"entries": rows}, "the doughs on the bench", Page(tuple(lines)))


def _entry(bake: Bake, room: Room) -> dict[str, Any]:
    return {
        "id": bake.id,
        "at": bake.begun[:16],
        "text": bake.label,
        "dough": bake.name,
        "called": bake.called,
        "in_hand": bake.id == room.bench.in_hand,
        "kind": "bake",
    }


@answers(DoughCalled)
def called(request: DoughCalled, room: Room) -> Outcome:
    """A dough given a name of the baker's own; one kept under the name it had is kept under the new one."""
    bench, kept = room.bench, _kept_as(request.of, room)
    if kept is not None:
        bench = bench.without_kept(kept.name).with_kept(request.name, kept.said, kept.title, kept.at)
    on_bench = dough_named(request.of, known_doughs(room)) is not None if request.of else True
    bake = bake_of(request.of, room) if on_bench or kept is None else None
    bench = bench.with_called(bake.id, request.name) if bake is not None else bench
    title = bake.name if bake is not None else kept.title if kept is not None else ""
    entry = {"id": room.number, "at": room.stamp(), "text": request.name, "bake": title, "kind": "named"}
    text = f"{title or 'The dough'} is called {request.name} from here on."
    change = {"what": "named", "text": request.name, "bake": title, "dough": title}
    return Outcome("record", {"entry": entry}, f"{title} called {request.name}", Page((Line(text),)),
                   bench=bench, change=change if bench != room.bench else None)  # fmt: skip


def _kept_as(words: str, room: Room) -> Kept | None:
    """The dough that was kept under these words; where they are empty, under the name of the one in hand."""
    said = words or (room.bake.called if room.bake is not None else "")
    name = kept_named(said, Known(kept=tuple(one.name for one in room.bench.kept))) if said else None
    return next((one for one in room.bench.kept if one.name == name), None)


@answers(DoughDropped)
def dropped(request: DoughDropped, room: Room) -> Outcome:
    """A dough taken off the bench; undo brings it back."""
    bake = bake_of(request.of, room)
    bench = room.bench.without_bake(bake.id)
    left = bench.bake
    stands = f" In hand: {left.label}." if left is not None else " The bench is clear."
    entry = {"id": room.number, "at": room.stamp(), "text": bake.label, "bake": bake.name, "kind": "dropped"}
    return Outcome(
        "record", {"entry": entry}, f"{bake.label} off the bench",
        Page((Line(f"{bake.label} is off the bench; “undo” brings it back.{stands}"),)),
        bench=bench, change={"what": "dropped", "text": bake.label, "dough": bake.name},
    )  # fmt: skip


@answers(DoughsTogether)
def together(request: DoughsTogether, room: Room) -> Outcome:
    """What all doughs under way take, each by itself and added up."""
    doughs = [(bake, recalled(bake.said)) for bake in under_way(room.bench, room.now)]
    each = [(bake, solved(said, room)) for bake, said in doughs if said is not None]
    if request.what == ("shopping",):
        return _shopping(each, room)
    figures = [(bake.label, _figures(formula)) for bake, formula in each]
    sums: dict[str, float] = {}
    for _, of_one in figures:
        for name, g in of_one.items():
            sums[name] = sums.get(name, 0.0) + g
    shown = _shown(request.what, sums)
    rows = [("", *(_label(name, room) for name in shown))]
    rows += [(name, *(grams(of_one.get(one, 0.0)) for one in shown)) for name, of_one in figures]
    rows.append(("together", *(grams(sums.get(one, 0.0)) for one in shown)))
    head = ", ".join(f"{_label(name, room)} {grams(sums.get(name, 0.0))} g" for name in shown)
    entries = [{**_entry(bake, room), **_figures(formula)} for bake, formula in each]
    return Outcome(
        "recall",
        {"entries": entries, **{f"{name}_g" if not name.endswith("_g") else name: g for name, g in sums.items()}},
        f"{len(each)} doughs together: {head}",
        Page((Line(f"Together: {head}.", role="head"), Table(tuple(rows), "l" + "r" * len(shown)))),
    )


def _figures(formula: Formula) -> dict[str, float]:
    """Grams of all flour, of what goes into the bowl, of water, starter, salt and each further row."""
    out = {"flour_g": formula.flour_g, "bowl_flour_g": formula.bowl_flour_g, "water_g": formula.poured_g}
    if formula.starter is not None:
        out["starter_g"] = formula.starter.g
    out["salt_g"] = sum(row.g for row in formula.rows if row.role == "salt")
    for row in formula.rows:
        if row.role not in ("flour", "water", "starter", "salt"):
            out[row.item] = out.get(row.item, 0.0) + row.g
    out["dough_g"] = formula.dough_g
    return out


def _shown(what: tuple[str, ...], sums: Mapping[str, float]) -> list[str]:
    """Which figures are shown: those asked for, else flour, water, starter, salt and the dough."""
    wanted = {"flour": ("flour_g", "bowl_flour_g"), "water": ("water_g",), "starter": ("starter_g",),
              "salt": ("salt_g",), "dough": ("dough_g",)}  # fmt: skip
    named = [figure for name in what for figure in wanted.get(name, (name,))]
    return [one for one in named or ("flour_g", "water_g", "starter_g", "salt_g", "dough_g") if one in sums or named]


_LABELS = {
    "flour_g": "all flour", "bowl_flour_g": "flour in the bowl", "water_g": "water", "starter_g": "starter",
    "salt_g": "salt", "dough_g": "dough",
}  # fmt: skip


def _label(name: str, room: Room) -> str:
    if name in _LABELS:
        return _LABELS[name]
    food = room.kb.ingredients.get(name)
    return short_name(food) if food is not None else name.replace("_", " ")


def _shopping(each: list[tuple[Bake, Formula]], room: Room) -> Outcome:
    """One list of what to buy for all of them."""
    there, bare = kept_stock(room.bench), room.bench.with_notes(STOCK, None)  # what is in the house is there once
    lists = [
        registry.answer(CostRequest(shopping=True), replace(room, bench=bare.taking(bake.id), bound=None))
        for bake, _ in each
    ]
    buy: dict[str, dict[str, Any]] = {}
    for one in lists:
        for row in one.answer["shopping"]:
            kept = buy.setdefault(row["item"], {**row, "g": 0.0})
            kept["g"] += row["g"]
    buy = {item: {**row, "g": row["g"] - there.get(item, 0.0)} for item, row in buy.items()}
    buy = {item: row for item, row in buy.items() if row["g"] > 0}
    totals = [one.answer["total"] for one in lists]
    priced = [total for total in totals if total is not None]
    fields = {
        "total": sum(priced) if priced else None,
        "per_piece": None,
        "currency": lists[0].answer["currency"],
        "unpriced": sorted({item for one in lists for item in one.answer["unpriced"]}),
        "shopping": list(buy.values()),
    }
    names = " and ".join(bake.label for bake, _ in each)
    rows = tuple((str(row["name"]), f"{grams(row['g'])} g") for row in buy.values())
    assumed = tuple(dict.fromkeys(line for one in lists for line in one.assumed))
    page = Page((Line(f"For {names}:", role="head"), Table(rows, "lr")))
    return Outcome("cost", fields, f"what to buy for {names}", page, assumed=assumed)
