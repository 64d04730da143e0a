"""What was thought of a bake: kept with it, and looked up again."""

from __future__ import annotations

from dataclasses import replace

from assistant.answers import answers
from assistant.answers.doughs import bake_of
from assistant.answers.keeping import day_said
from assistant.talk.bench import Bake
from assistant.talk.lexicon import lexicon
from assistant.talk.named_doughs import Scene, resolved
from assistant.talk.reply import Outcome
from assistant.talk.room import Room
from assistant.voice.page import Line, Page
from grammar.requests.verdict import VerdictRequest, VerdictsAsked

VERDICT = "verdict"
"""Fact of a bake: what was thought of it."""


@answers(VerdictRequest)
def verdict(request: VerdictRequest, room: Room) -> Outcome:
    """What was thought of a bake, kept with it."""
    bake = _judged(request.of, room)
    mark = f"{request.rating:g}/{request.out_of:g}" if request.rating is not None else None
    said = {"text": request.words, "rating": request.rating, "out_of": request.out_of, "at": room.stamp()}
    entry = {
        "id": room.number, "at": room.stamp(), "text": request.words, "bake": bake.label, "kind": VERDICT,
        "rating": request.rating, "out_of": request.out_of,
    }  # fmt: skip
    bakes = tuple(
        replace(one, facts={**one.facts, VERDICT: said}) if one.id == bake.id else one for one in room.bench.bakes
    )
    text = f"Noted for {bake.label}: {request.words}"
    return Outcome(
        "record", {"entry": entry}, f"verdict on {bake.label}: {mark or request.words}", Page((Line(text),)),
        bench=replace(room.bench, bakes=bakes),
        change={"what": VERDICT, "text": request.words, "rating": request.rating, "bake": bake.name,
                "called": bake.called},
    )  # fmt: skip


def _judged(of: str, room: Room) -> Bake:
    """The bake that is judged; of a name kept in the notebook the newest on the bench so called, else what was kept."""
    kept = next((one for one in room.bench.kept if one.name == of), None)
    if kept is None:
        return bake_of(of, room)
    there = (one for one in reversed(room.bench.bakes) if one.called == kept.name)
    return next(there, Bake(_NOT_ON_THE_BENCH, kept.said, kept.at, kept.title, called=kept.name))


_NOT_ON_THE_BENCH = -1


@answers(VerdictsAsked)
def verdicts(request: VerdictsAsked, room: Room) -> Outcome:
    """What was thought of the doughs named, or of all, newest first."""
    entries = tuple(room.entries() if room.entries is not None else ())
    scene = Scene(room.kb, room.now, room.bench, entries, lexicon(room.kb))
    wanted = resolved(request.of, scene) or resolved(_plainer(request.of), scene) if request.of else None
    names = {wanted.title, wanted.called} - {""} if wanted is not None else set()
    rows = []
    for one in entries:
        change = one.change or {}
        if change.get("what") == VERDICT and (not request.of or names & {change.get("bake"), change.get("called")}):
            rows.append({
                "id": one.seq, "at": one.said_at[:16], "text": change.get("text"), "bake": change.get("bake"),
                "kind": VERDICT, "rating": change.get("rating"),
            })  # fmt: skip
    of = f" of {request.of}" if request.of else ""
    lines = tuple(Line(f"{day_said(str(row['at']), room.now)}  {row['text']}  ({row['bake']})") for row in rows)
    none = Line(f"Nothing was said{of} yet; “7 out of 10, crust pale” keeps it.")
    return Outcome("recall", {"entries": rows}, f"what was thought{of}", Page(lines or (none,)))


def _plainer(words: str) -> str:
    """Words for a dough without what says which of them: "the last rings" are the newest rings."""
    plain = words.lower()
    for small in ("those ", "these ", "that ", "the ", "my ", "last ", "latest "):
        plain = plain.removeprefix(small)
    return plain
