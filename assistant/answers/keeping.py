"""The notebook of bakes: kept under a name, listed, compared, judged, forgotten."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import datetime
from typing import Any

from assistant.answers import answers
from assistant.answers.dough_said import solved
from assistant.answers.doughs import bake_of
from assistant.answers.formula_fields import answer_fields
from assistant.engine.dough import Formula
from assistant.engine.naming import figure, grams
from assistant.engine.refusal import Refused
from assistant.talk.doughs import Baked
from assistant.talk.lexicon import lexicon
from assistant.talk.memory import recalled
from assistant.talk.named_doughs import Scene, resolved
from assistant.talk.reply import Outcome
from assistant.talk.room import Room
from assistant.voice.page import Block, Line, Page, Table
from grammar.requests.keeping import (
    CompareRequest,
    KeepRequest,
    KeptAsked,
    KeptForgotten,
)
from grammar.spoken import matched, spoken


@answers(KeepRequest)
def keep(request: KeepRequest, room: Room) -> Outcome:
    """The dough as it stands kept under a name, to be fetched by it at any time."""
    bake = bake_of(request.of, room)
    name = request.name or bake.called or bake.name
    there = next((one for one in room.bench.kept if one.name.lower() == name.lower()), None)
    at = there.at if there is not None and there.said == bake.said else room.stamp()
    bench = room.bench.with_kept(name, bake.said, bake.name, at).with_called(bake.id, name)
    entry = {"id": room.number, "at": room.stamp(), "text": name, "bake": bake.name, "kind": "kept"}
    was = f" It was {there.title} before." if there is not None and there.title != bake.name else ""
    text = f"Kept as {name}: {bake.name}.{was}"
    of = {"bake": bake.name, "bake_id": bake.id, "dough": bake.name, "said": dict(bake.said)}
    change = {"what": "kept", "text": name, **of}
    return Outcome("record", {"entry": entry}, f"{bake.name} kept as {name}", Page((Line(text),)),
                   bench=bench, change=change if bench != room.bench else None)  # fmt: skip


@answers(KeptAsked)
def kept(request: KeptAsked, room: Room) -> Outcome:
    """The doughs kept by name, newest first."""
    rows = [
        {"id": None, "at": one.at, "text": one.name, "bake": one.title, "kind": "kept"}
        for one in reversed(room.bench.kept)
    ]
    if not rows:
        lines = [Line("Nothing is kept by name yet: “save this as …” keeps the dough in hand.")]
    else:
        lines = [Line(f"{row['text']}: {row['bake']}, {day_said(str(row['at']), room.now)}") for row in rows]
    return Outcome("recall", {"entries": rows}, "what is kept by name", Page(tuple(lines)))


@answers(KeptForgotten)
def forgotten(request: KeptForgotten, room: Room) -> Outcome:
    """What was kept under a name forgotten; the doughs made of it stay in the notebook."""
    bench = room.bench.without_kept(request.name)
    entry = {"id": room.number, "at": room.stamp(), "text": request.name, "bake": None, "kind": "forgotten"}
    text = f"{request.name} is no longer kept by name; “undo” brings it back."
    return Outcome(
        "record", {"entry": entry}, f"{request.name} forgotten", Page((Line(text),)), bench=bench,
        change={"what": "forgotten", "text": request.name},
    )  # fmt: skip


@answers(CompareRequest)
def compare(request: CompareRequest, room: Room) -> Outcome:
    """Two doughs side by side: what differs in the formula, when each was made, what was thought of it."""
    entries = tuple(room.entries() if room.entries is not None else ())
    scene = Scene(room.kb, room.now, room.bench, entries, lexicon(room.kb))
    pair: list[tuple[Baked, Formula]] = []
    for words, otherwise in ((request.one, "this"), (request.other, "last time")):
        named = spoken(words, scene.lexicon)
        usual = matched("(?:the )?<hand:default>(?: dough| recipe| formula| one)?", named, scene.lexicon)
        found = resolved(words or otherwise, scene) if usual is None else _usual(room)
        said = recalled(found.said) if found is not None else None
        if found is None or said is None:
            why = f"“{words}” is no dough of the bench or the notebook" if words else _ALONE
            raise Refused(why, "“what doughs have I got” and “my bakes” list them")
        pair.append((found, solved(said, room)))
    (one, left), (other, right) = pair
    rows = _differing(left, right)
    heads = ("", _head(one), _head(other))
    made = ("made", f"{one.day.day} {one.day:%b}", f"{other.day.day} {other.day:%b}")
    verdicts = [("verdict", one.verdict or "-", other.verdict or "-")] if one.verdict or other.verdict else []
    answer = {"entries": [_entry(baked, formula) for baked, formula in pair], "differs": [row[0] for row in rows]}
    told = "The same formula." if not rows else f"{len(rows)} things differ."
    return Outcome(
        "recall", answer, f"{_head(one)} beside {_head(other)}",
        _beside((heads, made, *verdicts), rows or _figures(left, right), told),
    )  # fmt: skip


_AT_ONCE = 7
"""Rows of a short page, the heads among them."""


def _beside(top: Sequence[tuple[str, str, str]], rows: Sequence[tuple[str, str, str]], told: str) -> Page:
    """Both in columns; what a short page has no room for is told with the rest."""
    shown = _AT_ONCE - len(top)
    blocks: list[Block] = [Table((*top, *rows[:shown]), "lrr"), Line(told, role="note")]
    if rows[shown:]:
        blocks.append(Table((top[0], *rows[shown:]), "lrr", more=True))
    return Page(tuple(blocks))


_ALONE = "there is no earlier dough of its kind to set beside it"


def _usual(room: Room) -> Baked | None:
    """The usual dough of the bread in hand, in its size."""
    bake = room.bake
    if bake is None:
        return None
    kept = {name: bake.said[name] for name in ("request", "pieces", "piece_g", "piece", "bread") if name in bake.said}
    return Baked({**kept, "usual": True}, bake.begun, f"the usual {bake.name.split(' at ')[0]}", "the usual")


def _head(baked: Baked) -> str:
    return baked.called or baked.title.split(" at ")[0].split(" x ")[0] or "the dough"


def _entry(baked: Baked, formula: Formula) -> dict[str, Any]:
    return {
        "id": baked.bake, "at": baked.begun[:16], "text": baked.called or baked.title, "bake": baked.title,
        "kind": "bake", "verdict": baked.verdict or None, **answer_fields(formula),
    }  # fmt: skip


_SHARES = (
    ("hydration", "hydration_pct"), ("salt", "salt_pct"), ("starter", "starter_pct"),
    ("prefermented", "prefermented_pct"),
)  # fmt: skip


def _figures(left: Formula, right: Formula) -> list[tuple[str, str, str]]:
    """Size and shares of both."""
    rows = [
        ("pieces", *(figure(one.pieces) if one.pieces is not None else "-" for one in (left, right))),
        ("each", *(f"{figure(one.piece_g)} g" if one.piece_g is not None else "-" for one in (left, right))),
        ("dough", *(f"{grams(one.dough_g)} g" for one in (left, right))),
    ]
    for name, field in _SHARES:
        said = tuple(f"{figure(getattr(one, field) or 0.0)} %" for one in (left, right))
        rows.append((name, *said))
    shares = [_rows(one) for one in (left, right)]
    for item in dict.fromkeys((*shares[0], *shares[1])):
        rows.append((item, *(f"{figure(one[item])} %" if item in one else "-" for one in shares)))
    return [(name, one, other) for name, one, other in rows]


def _rows(formula: Formula) -> Mapping[str, float]:
    """Shares of all flour of what is not flour's rest, water, starter or salt."""
    flours = [row for row in formula.rows if row.role == "flour"]
    out = {row.name: row.pct for row in formula.rows if row.role not in ("flour", "water", "starter", "salt")}
    if len(flours) > 1:
        out.update({row.name: row.pct for row in flours})
    return out


def _differing(left: Formula, right: Formula) -> list[tuple[str, str, str]]:
    return [row for row in _figures(left, right) if row[1] != row[2]]


def day_said(at: str, now: datetime) -> str:
    day = datetime.fromisoformat(at)
    if day.date() == now.date():
        return f"today {day:%H:%M}"
    return f"{day:%a} {day.day} {day:%b}" + (f" {day.year}" if day.year != now.year else "")
