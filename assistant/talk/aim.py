"""Settles, before a line is read, which dough it is about: one of the bench named in it, or one fetched from the
notebook by its name or its day. What is left of the line is then said of that dough."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

from assistant.talk.bench import Bake, Bench
from assistant.talk.doughs import Baked, history, is_flour, labels, recent, under_way
from assistant.talk.named_doughs import Scene, chosen, day_named, kept_by_name, looks_back
from assistant.talk.steering import rest_of, steers
from grammar.lexicon import Lexicon, fold
from grammar.spoken import Spoken, matched, spoken

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
    said = spoken(text)
    if _NEW.search(said.folded):
        return None
    return _by_kept_name(said, scene) or _by_day(said, scene) or _on_the_bench(said, scene)


# By the name it was kept under.


def _by_kept_name(said: Spoken, scene: Scene) -> Aim | None:
    for name, kept in sorted(kept_by_name(scene.bench).items(), key=lambda pair: -len(pair[0])):
        named = rf"{re.escape(name)}s?(?: (?:dough|formula|recipe|weights))?"
        hit = re.search(rf"\b(?:the |my |our |those |these )?{named}\b", said.folded)
        if hit is None:
            continue
        there = recent(scene.bench, scene.now) if not _looks(said, scene.lexicon) else under_way(scene.bench, scene.now)
        bake = next((one for one in reversed(there) if fold(one.called) == name), None)
        if bake is not None:
            return _switched(said, hit, bake, scene)
        if _ASKS.match(said.folded):
            return None
        return _fetched(said, hit, kept, scene)
    return None


# By its day.


def _by_day(said: Spoken, scene: Scene) -> Aim | None:
    if _TELLS.search(said.folded):
        return None  # what was done is asked of the notebook itself
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


# On the bench.


def _on_the_bench(said: Spoken, scene: Scene) -> Aim | None:
    there = under_way(scene.bench, scene.now)
    if not there:
        return None
    none_such = _not_there(said, scene)
    if none_such is not None:
        return none_such
    ordinal = _by_ordinal(said, there, scene)
    if ordinal is not None:
        return ordinal
    hits: dict[int, tuple[Bake, re.Match[str]]] = {}
    for bake, names in labels(scene.bench, scene.now, scene.kb):
        hit = next((one for name in names if (one := _mention(name, fold(bake.called), said, scene))), None)
        if hit is not None:
            hits[bake.id] = (bake, hit)
    in_hand = scene.bench.in_hand
    own = next((names for bake, names in labels(scene.bench, scene.now, scene.kb) if bake.id == in_hand), ())
    named = [pair for pair in hits.values() if fold(pair[0].called) and fold(pair[0].called) in pair[1].group()]
    if len(named) == 1:
        return _switched(said, named[0][1], named[0][0], scene)
    if not hits or (scene.bench.in_hand in hits and "other" not in said.folded):
        return _only_named(said, hits, scene)
    spans = {pair[1].group("name") for pair in hits.values()}
    if len(spans) > 1 or any(name in own for name in spans):
        return None  # two of them at once
    bake, hit = max((pair for pair in hits.values() if pair[0].id != scene.bench.in_hand), key=lambda pair: pair[0].id)
    return _switched(said, hit, bake, scene)


_SAID_OF = re.compile(r"(?:for|with|in|on|about) (?:the|my|our|those|these) ")
"""How a line begins that says of which dough it goes on to speak."""


_ASKED_OF = re.compile(
    r"(?:and|what about|how about|and what about) (?:the|my|our|those|these) (?P<name>[a-z ]+?)[ ?]*"
)


def _not_there(said: Spoken, scene: Scene) -> Aim | None:
    """ "and the focaccia?", after a question about another dough, where there is none."""
    hit = _ASKED_OF.fullmatch(said.folded)
    if hit is None or scene.bench.focus_topic != "progress":
        return None
    terms = scene.lexicon.phrases.get(hit["name"], ())
    known = " ".join(name for _, names in labels(scene.bench, scene.now, scene.kb) for name in names)
    of_a_dough = any(kind in ("bread", "piece") for kind, _ in terms)
    if not of_a_dough or hit["name"] in known or hit["name"].removesuffix("s") in known:
        return None
    return Aim(scene.bench, said.text, missing=f"No {hit['name']} is on the bench")


def _only_named(said: Spoken, hits: Mapping[int, tuple[Bake, re.Match[str]]], scene: Scene) -> Aim | None:
    """The dough in hand named and nothing else said: it is shown."""
    if len(hits) != 1 or scene.bench.in_hand is None:
        return None
    _, hit = next(iter(hits.values()))
    if hit.groupdict().get("count") is not None:
        return None
    rest = rest_of(said, hit, scene.lexicon)
    if not rest:
        return Aim(scene.bench, SHOWN)
    return Aim(scene.bench, rest) if _SAID_OF.match(hit.group()) and not hit.start() else None


def _mention(name: str, called: str, said: Spoken, scene: Scene) -> re.Match[str] | None:
    """Where a line speaks of a dough: by the name it was given anywhere; by its kind behind "the", behind words that
    only point to a dough, or counted, where the line is no dough of its own."""
    line = said.folded
    if name not in line:
        return None
    if name == called:
        return re.search(rf"\b(?:the |my |our |those |these )?(?P<name>{re.escape(name)})(?!\w)", line)
    kind = rf"(?P<name>{re.escape(name)})\b(?! (?:recipe|formula) (?:for|with))"
    the = re.search(rf"(?:^|\b)(?:in |of |to |for |with )?(?:the|those|these|our|my) {_WHICH}{kind}", line)
    alone = the or re.search(rf"\b{kind}", line)
    if the is not None or alone is None or steers(line[: alone.start()], scene.lexicon):
        return alone
    return None if scene.whole else re.search(rf"\b(?P<count>{_COUNT}) {kind}", line)


_WHICH = r"(?:other |first |same )?(?:\d+ )?"
_COUNT = r"\d+|a|an|one|two|three|four|five|six|seven|eight|nine|ten|twelve|(?:a |two |three )?dozen|more|fewer|another"


_BY_FIGURE = re.compile(
    r"(?:(?:go |now )?back to |show |show me |switch to |now )?the (?P<n>\d+)(?: ?(?P<g>g|gram|grams))? "
    r"(?:ones?|dough|batch)"
)
"""A dough named by how many or how heavy its pieces are."""


def _by_ordinal(said: Spoken, there: Sequence[Bake], scene: Scene) -> Aim | None:
    """ "the other one", "back to the first dough", where nothing else is said or it is said of it."""
    others = [bake for bake in there if bake.id != scene.bench.in_hand]
    figure = _BY_FIGURE.fullmatch(said.folded)
    if figure is not None:
        field = "piece_g" if figure["g"] else "pieces"
        same = [bake for bake in there if bake.said.get(field) == float(figure["n"])]
        if len(same) != 1:
            return None
        bench = scene.bench.taking(same[0].id) if same[0].id != scene.bench.in_hand else scene.bench
        return Aim(bench, SHOWN, *_taken(said, same[0], bench, scene))
    for kind in ("other_one", "first_one"):
        steer = r"(?:(?:<hand:steer>|<hand:fetch>|<hand:polite>|<hand:again>) ?)*"
        template = rf"{steer}(?P<name><hand:{kind}>)(?P<rest>[ ,?].*)?"
        hit = matched(template, said, scene.lexicon)
        if hit is None or not others:
            continue
        chosen = there[0] if kind == "first_one" else others[-1]
        rest = said.group(hit, "rest")
        text = SHOWN if steers(rest, scene.lexicon) else rest
        return Aim(scene.bench.taking(chosen.id), text, _in_hand(chosen), told=f"back to {chosen.label}")
    return None


def _switched(said: Spoken, hit: re.Match[str], bake: Bake, scene: Scene) -> Aim:
    """Another dough of the bench in hand; a name of its own is left out, so that the rest can be read."""
    bench = scene.bench.taking(bake.id) if bake.id != scene.bench.in_hand else scene.bench
    counted = hit.groupdict().get("count") is not None
    rest = said.text if counted else rest_of(said, hit, scene.lexicon)
    if not rest and scene.bench.focus_topic == "progress" and _GOES_ON.match(said.folded):
        rest = HOW_IT_IS
    by_flour = is_flour(hit["name"], scene.kb) if "name" in hit.re.groupindex else False  # else it would be more of it
    named = (fold(bake.called) and fold(bake.called) in hit.group()) or rest == HOW_IT_IS or by_flour
    text = SHOWN if not rest else rest if named else said.text
    return Aim(bench, text, *_taken(said, bake, bench, scene), rest=rest)


_GOES_ON = re.compile(r"(?:and|what about|how about|and what about|and how about) ")


def _taken(said: Spoken, bake: Bake, bench: Bench, scene: Scene) -> tuple[dict[str, Any] | None, bool, str]:
    """The change, whether it was fetched, and what is said of it. To look at a dough is no change to be undone."""
    if bench is scene.bench:
        return None, False, ""
    return None if _looks(said, scene.lexicon) else _in_hand(bake), False, f"back to {bake.label}"


def _looks(said: Spoken, lexicon: Lexicon) -> bool:
    """Whether a line only wants to see a dough."""
    asks = said.text.rstrip().endswith("?")
    return asks or matched("(?:(?:<hand:polite>) )*(?:show|see|view|display|look at)\\b.*", said, lexicon) is not None


def _in_hand(bake: Bake) -> dict[str, Any]:
    return {"what": "in_hand", "bake": bake.id, "dough": bake.name}
