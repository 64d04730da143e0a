"""The dough of the bench a line is about: by its name or kind, its place in the row, the figure of its pieces."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence

from assistant.talk.aim_taken import SHOWN, Aim, as_taken, by_its_flour, switched, taken
from assistant.talk.bench import Bake
from assistant.talk.doughs import labels, under_way
from assistant.talk.named_doughs import Scene
from assistant.talk.steering import SO_MANY, counted, rest_of, steers
from grammar.lexicon import fold
from grammar.spoken import Spoken, matched


def on_the_bench(said: Spoken, scene: Scene) -> Aim | None:
    """The dough of the bench that is meant; None where it is simply the one in hand."""
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
        return switched(said, named[0][1], named[0][0], scene)
    if not hits or (scene.bench.in_hand in hits and "other" not in said.folded):
        return _only_named(said, hits, scene)
    spans = {pair[1].group("name") for pair in hits.values()}
    if len(spans) > 1 or any(name in own for name in spans):
        return None  # two of them at once
    bake, hit = max((pair for pair in hits.values() if pair[0].id != scene.bench.in_hand), key=lambda pair: pair[0].id)
    return switched(said, hit, bake, scene)


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
    if not hits and scene.bench.in_hand is not None:
        return _for_so_many(said, scene)
    if len(hits) != 1 or scene.bench.in_hand is None:
        return None
    bake, hit = next(iter(hits.values()))
    if hit.groupdict().get("count") is not None:
        return None
    rest = rest_of(said, hit, scene.lexicon)
    if not rest:
        return Aim(scene.bench, SHOWN)
    if rest.startswith(SO_MANY):
        return Aim(scene.bench, rest)
    full = by_its_flour(said, hit, bake, rest, scene)
    if full is not None:
        return Aim(scene.bench, full)
    return Aim(scene.bench, rest) if _SAID_OF.match(hit.group()) and not hit.start() else None


_SO_MANY = r"(?:(?:<hand:polite>|<hand:show>) )*(?:<hand:the> )*(?:<hand:dough>) (?P<rest>for \d+\b.*)"


def _for_so_many(said: Spoken, scene: Scene) -> Aim | None:
    """ "weights for 60 next week": the dough in hand in another number, whenever it is for."""
    hit = matched(_SO_MANY, said, scene.lexicon)
    if hit is None:
        return None
    rest = counted(said.group(hit, "rest"), scene.lexicon)
    return Aim(scene.bench, rest) if rest != said.group(hit, "rest") else None


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
        return Aim(bench, SHOWN, *taken(said, same[0], bench, scene))
    for kind in ("other_one", "first_one"):
        steer = r"(?:(?:<hand:steer>|<hand:fetch>|<hand:polite>|<hand:again>) ?)*"
        template = rf"{steer}(?P<name><hand:{kind}>)(?P<rest>[ ,?].*)?"
        hit = matched(template, said, scene.lexicon)
        if hit is None or not others:
            continue
        chosen = there[0] if kind == "first_one" else others[-1]
        rest = said.group(hit, "rest")
        text = SHOWN if steers(rest, scene.lexicon) else rest
        return Aim(scene.bench.taking(chosen.id), text, as_taken(chosen), told=f"back to {chosen.label}")
    return None
