"""Settles, before a line is read, which dough it is about: one of the bench named in it, or one fetched from the
notebook by its name or its day. What is left of the line is then said of that dough."""

from __future__ import annotations

import re
from dataclasses import replace

from assistant.talk.aim_bench import on_the_bench
from assistant.talk.aim_taken import SHOWN, Aim, looks, switched
from assistant.talk.doughs import Baked, history, recent, under_way
from assistant.talk.named_doughs import Scene, as_named, chosen, day_named, kept_by_name, looks_back
from assistant.talk.steering import rest_of
from grammar.lexicon import fold
from grammar.named import names_in
from grammar.requests.notes import heads_a_note
from grammar.shell import without_opening
from grammar.spoken import Spoken, spoken

_ASKS = re.compile(
    r"(?:and |so |ok )?(?:what|when|how|why|which|who|did|have i|has|do i|does|is|are|was|were) (?!about|weight)"
)
_TELLS = re.compile(r"\b(?:did|have|has) (?:i|we)\b|^(?:when|how long|how often)\b|\bturn(?:ed)? out\b")
_NEW = re.compile(
    r"\b(?:new|another|different|fresh|separate|next) (?:dough|batch|bake|one|formula)\b"
    r"|(?<!the )\b(?:second|third|fourth|one more) (?:dough|batch|bake|formula)\b"
    r"|\bas well\b"
)
def aimed(text: str, scene: Scene) -> Aim | None:
    """The dough a line is about where it is not simply the one in hand; None otherwise."""
    if "\n" in text.strip() or len(text) > 400:
        return None
    said = spoken(without_opening(text, scene.lexicon))
    if _NEW.search(said.folded):
        return None
    return _by_kept_name(said, scene) or _by_day(said, scene) or on_the_bench(said, scene)


# By the name it was kept under.


def _by_kept_name(said: Spoken, scene: Scene) -> Aim | None:
    if len(names_in(said.folded, [one.name for one in scene.bench.kept])) > 1:
        return None  # two are set side by side, and neither is fetched
    for name, kept in sorted(kept_by_name(scene.bench).items(), key=lambda pair: -len(pair[0])):
        hit = as_named(name, said, scene)
        if hit is None:
            continue
        there = recent(scene.bench, scene.now) if not looks(said, scene.lexicon) else under_way(scene.bench, scene.now)
        bake = next((one for one in reversed(there) if fold(one.called) == name), None)
        if bake is not None:
            return switched(said, hit, bake, scene)
        if _ASKS.match(said.folded):
            return None
        return _fetched(said, hit, kept, scene)
    return None


# By its day.


def _by_day(said: Spoken, scene: Scene) -> Aim | None:
    if _TELLS.search(said.folded) or heads_a_note(said.text, scene.lexicon):
        return None  # what was done is asked of the notebook itself, and a note goes there whole
    hit = day_named(said, scene.kb)
    if hit is None or not looks_back(hit, said):
        return None
    found = chosen(hit, history(scene.bench, scene.entries), scene)
    if found is None and scene.bench.bake is not None and "last time" in hit.group():
        return None  # the one in hand is the only one of its kind
    if found is None:
        return Aim(scene.bench, said.text, missing=f"No such dough is in the notebook: “{said.typed(*hit.span())}”")
    return _fetched(said, hit, found, scene)


def _fetched(said: Spoken, hit: re.Match[str], found: Baked, scene: Scene) -> Aim:
    """The dough put on the bench anew; one still under way, with nothing more said, is only taken in hand."""
    rest = rest_of(said, hit, scene.lexicon)
    on_bench = next((one for one in recent(scene.bench, scene.now) if one.id == found.bake), None)
    if on_bench is not None and not rest:
        bench = scene.bench.taking(on_bench.id) if on_bench.id != scene.bench.in_hand else scene.bench
        return Aim(bench, SHOWN, {"what": "in_hand", "bake": on_bench.id, "dough": on_bench.name})
    stamp = scene.now.replace(tzinfo=None).isoformat(timespec="minutes")
    bench = scene.bench.with_bake(found.said, stamp, found.title, called=found.called)
    number = bench.in_hand or 0
    change = {"what": "formula", "new": True, "bake": number, "dough": found.title, "said": dict(found.said)}
    bench = replace(bench, in_hand=scene.bench.in_hand).taking(number)
    made = f"as on {found.day:%a} {found.day.day} {found.day:%b}"
    return Aim(bench, rest or SHOWN, change, True, f"{found.called or found.title}, {made}: a new dough")
