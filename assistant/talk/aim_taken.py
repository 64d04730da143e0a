"""A dough taken in hand: what is left of the line to be said of it, and what is noted of taking it."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from assistant.talk.bench import Bake, Bench
from assistant.talk.doughs import is_flour, labels
from assistant.talk.named_doughs import Scene
from assistant.talk.steering import rest_of
from grammar.lexicon import Lexicon, fold
from grammar.spoken import Spoken, matched

HOW_IT_IS = "where are we"
"""What a line asks that only names another dough after a question about one."""
SHOWN = "show the dough"
"""What a line asks that only names a dough."""


@dataclass(frozen=True, slots=True)
class Aim:
    """bench: with the dough meant in hand; text: what is said of it; change: what is noted of taking it in hand;
    fetched: it comes from the notebook as a new dough; told: what is said of taking it; missing: why there is none;
    rest: what is left of the line without the name, to be read where the line with it is not understood."""

    bench: Bench
    text: str
    change: Mapping[str, Any] | None = None
    fetched: bool = False
    told: str = ""
    missing: str | None = None
    rest: str = ""


def switched(said: Spoken, hit: re.Match[str], bake: Bake, scene: Scene) -> Aim:
    """Another dough of the bench in hand; a name of its own is left out, so that the rest can be read."""
    bench = scene.bench.taking(bake.id) if bake.id != scene.bench.in_hand else scene.bench
    counted = hit.groupdict().get("count") is not None
    rest = said.text if counted else rest_of(said, hit, scene.lexicon)
    if not rest and scene.bench.focus_topic == "progress" and _GOES_ON.match(said.folded):
        rest = HOW_IT_IS
    called = "short" in hit.re.groupindex or (fold(bake.called) and fold(bake.called) in hit.group())
    named = called or rest == HOW_IT_IS
    by_flour = None if named else by_its_flour(said, hit, bake, rest, scene)
    text = SHOWN if not rest else rest if named else by_flour or said.text
    return Aim(bench, text, *taken(said, bake, bench, scene), rest=rest)


def by_its_flour(said: Spoken, hit: re.Match[str], bake: Bake, rest: str, scene: Scene) -> str | None:
    """A line that names a dough by its flour, with what it is called in full: else it would be said of the flour."""
    if not rest or "name" not in hit.re.groupindex or not is_flour(hit["name"], scene.kb):
        return None
    start, end = hit.span("name")
    behind = said.text[said.places[end - 1] + 1 :]
    if behind.startswith(("'s ", "’s ")):
        return rest
    return f"{said.typed(0, start)} {_full_name(bake, scene)} {behind.strip()}".strip()


def _full_name(bake: Bake, scene: Scene) -> str:
    """What its pieces or its bread are called."""
    return next(names[0] for one, names in labels(scene.bench, scene.now, scene.kb) if one.id == bake.id)


_GOES_ON = re.compile(r"(?:and|what about|how about|and what about|and how about) ")


def taken(said: Spoken, bake: Bake, bench: Bench, scene: Scene) -> tuple[dict[str, Any] | None, bool, str]:
    """The change, whether it was fetched, and what is said of it. To look at a dough is no change to be undone."""
    if bench is scene.bench:
        return None, False, ""
    return None if looks(said, scene.lexicon) else as_taken(bake), False, f"back to {bake.label}"


def looks(said: Spoken, lexicon: Lexicon) -> bool:
    """Whether a line only wants to see a dough."""
    asks = said.text.rstrip().endswith("?")
    return asks or matched("(?:(?:<hand:polite>) )*(?:show|see|view|display|look at)\\b.*", said, lexicon) is not None


def as_taken(bake: Bake) -> dict[str, Any]:
    """What is noted of a dough taken in hand."""
    return {"what": "in_hand", "bake": bake.id, "dough": bake.name}
