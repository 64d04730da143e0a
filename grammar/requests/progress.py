"""Where the bake stands: stages marked as they begin ("mixed at 9:10", "it's in the oven"), and asked for."""

from __future__ import annotations

from dataclasses import dataclass, replace

from grammar.frames import Bound, Frame, Slot
from grammar.moments import Moment, hour_said


@dataclass(frozen=True, slots=True)
class ProgressRequest:
    """where are we
    mixed at 9:10
    it's in the oven
    shaped just now
    how long left
    when did I mix

    step: what was done (mix, bulk, fold, divide, preshape, shape, retard, warm_up, preheat, boil, bake, cool, autolyse,
    feed_starter); None: only asked. at: when, or ago_min: how many minutes ago; neither: now. left: asked for the time
    that is left, nothing else. asked: the step whose hour is asked for; poured: readings of a thing asked about
    ("did I salt it").
    """

    step: str | None = None
    at: Moment | None = None
    ago_min: float | None = None
    left: bool = False
    asked: str | None = None
    poured: tuple[str, ...] = ()


COURSE = (
    "feed_starter", "autolyse", "mix", "bulk", "fold", "divide", "preshape", "shape", "retard", "warm_up", "preheat",
    "boil", "bake", "cool",
)  # fmt: skip
"""The steps in the order of a bake; of two that were said the later one tells where it stands."""
LEANS = frozenset({"timing", "feed", "plan", "loads", "water"})
"""Topics whose own question "how much longer" continues."""
BEGUN = {
    "autolyse": "autolyse", "bulk": "bulk", "proof": "shape", "retard": "retard", "preheat": "preheat", "boil": "boil",
    "bake": "bake", "bench_rest": "preshape", "cool": "cool", "fold": "fold", "feed_starter": "feed_starter",
}  # fmt: skip
"""The mark that a stage makes when it begins."""
_LATE = ("night", "evening")
_TELLING = frozenset({"its", "it", "theyre", "they", "just", "ive", "i", "weve", "we", "now", "all", "ok", "right"})
"""Small words that tell rather than bid: "it's in the fridge" beside "in the fridge", said of a plan."""
ENDED = {
    "mix": "mix", "knead": "mix", "bulk": "divide", "fold": "fold", "divide": "divide", "preshape": "preshape",
    "shape": "shape", "preheat": "preheat", "boil": "boil", "bake": "cool", "feed_starter": "feed_starter",
}  # fmt: skip
"""The mark that a step makes when it is done."""


def build(bound: Bound) -> ProgressRequest | None:
    """A mark, or what is asked; None where a stage is only named."""
    if bound.said("stand:*", "ask:how_long") or bound.asks() or bound.inverted():
        return _asked(bound)
    return _marked(bound)


def _asked(bound: Bound) -> ProgressRequest | None:
    focus = bound.context.focus
    step = _step(bound)
    if any(p.kind == "amount" for p in bound.phrases):
        return None
    if bound.said("stand:did"):
        if {"before", "last"} & bound.links() or bound.said("ask:what", "kept:*"):
            return None  # "have i baked rings before", "when did i last feed it", "what have i baked"
        salted = ("salt_table",) if bound.said("cue:salt") else ()
        things = next((p.ids("ingredient") for p in bound.phrases if p.ids("ingredient")), salted)
        if step is None and things:
            return ProgressRequest(poured=things)
        return ProgressRequest(asked=step) if step is not None else None
    if bound.said("stand:left"):
        return None if focus in LEANS else ProgressRequest(left=True)
    if bound.said("stand:elapsed"):
        return ProgressRequest(asked=step if step not in (None, "bulk", "bake") else None)
    if bound.said("stand:*") or (step is not None and bound.inverted()):
        return None if focus == "diagnosis" else ProgressRequest()
    return ProgressRequest() if step is not None and "been" in _words(bound) and bound.said("ask:how_long") else None


def _told(bound: Bound) -> bool:
    """Whether more is said than a stage's bare name, which asks how long it takes: "it's baking", "bulk is done"."""
    stage = next((p for p in bound.phrases if p.ids("mark") or p.ids("step") or p.ids("stage")), None)
    if stage is None or " " in bound.text.strip() or not stage.ids("stage"):
        return True
    return "cool" in stage.ids("mark")


def _marked(bound: Bound) -> ProgressRequest | None:
    step = _step(bound)
    if step is None or (_of_starter(bound) and step not in ("feed_starter", "autolyse")):
        return None
    at_hit = bound.first("at")
    at = at_hit.amount.moment if at_hit is not None and at_hit.amount is not None else None
    if at_hit is not None and at is None:
        at = hour_said(bound.base("at") or 0.0)
    ago_min = bound.base("ago_min")
    if at is not None and at.in_min is not None:
        return None
    if ago_min is not None and not (bound.said("state:gone") or "for" in bound.links() or "been" in _words(bound)):
        return None  # "40 min autolyse", "in the fridge after two hours"
    if at is not None and at.minute is not None and at.half is None and at.minute < 720 and at.part in _LATE:
        at = replace(at, half="pm")
    hour = ago_min is not None or (at is not None and at.minute is not None)
    if not hour and _meant_otherwise(bound):
        return None
    if not hour and at is None and not _told(bound):
        return None
    return ProgressRequest(step, at, ago_min)


def _of_starter(bound: Bound) -> bool:
    return any(p.ids("cue") and "starter" in p.ids("cue") for p in bound.phrases)


def _step(bound: Bound) -> str | None:
    """The step that the words mark: deeds and places by themselves, a stage by whether it began or ended."""
    words = [p for p in bound.phrases if p.kind == "label" and not p.negated]
    marks = [i for p in words for i in p.ids("mark")]
    stages = [i for p in words if not p.ids("mark") for i in (*p.ids("step"), *p.ids("stage"))]
    ended = bound.said("state:done") or "over" in bound.links()
    begun = bound.said("state:begun", "state:gone") or bool({"on", "after"} & bound.links()) or "been" in _words(bound)
    bid = bool(stages and marks) and not ended and not begun
    begun = begun or bound.first("ago_min") is not None
    if bid and words[0].ids("stage") and not words[0].ids("mark"):
        return None  # "proof in the tin for 2 h" bids
    for stage in dict.fromkeys(stages):
        found = ENDED.get(stage) if ended else BEGUN.get(stage) if begun else None
        if found is not None:
            marks.append(found)
    if ended and "bulk" in marks:  # "it's done bulking"
        marks.append("divide")
    if not marks and _gone_in(bound):
        marks.append("bake")
    asked_of = [BEGUN.get(stage) or ENDED.get(stage) for stage in stages]
    if not marks and bound.said("stand:did"):
        marks += [one for one in asked_of if one is not None]
    return max(marks, key=COURSE.index) if marks else None


def _gone_in(bound: Bound) -> bool:
    """ "the trays are in", "they went in at 7:20": into the oven, where nothing else is said."""
    solid = [p for p in bound.phrases if p.kind != "sep"]
    for place, phrase in enumerate(solid):
        after = solid[place + 1] if place + 1 < len(solid) else None
        if "moved" in phrase.ids("state") and phrase.text.lower().endswith(" in"):
            return after is None or after.kind != "label" or bool(after.ids("state"))
        if phrase.ids("holds") and phrase.text.lower().endswith(" in"):  # "trays in"
            return after is None or after.kind != "label"
        thing = phrase.ids("holds") or phrase.ids("piece") or phrase.ids("bread") or "tin" in phrase.ids("cue")
        if thing and after is not None and set(after.ids("link")) == {"in"}:
            beyond = solid[place + 2] if place + 2 < len(solid) else None
            return beyond is None or beyond.kind in ("amount", "link") or bool(beyond.ids("state"))
    return False


def _meant_otherwise(bound: Bound) -> bool:
    """Whether a stage without an hour tells of what was asked before: how far a dough is that went wrong, or a plan."""
    if bound.context.focus == "plan":
        return _words(bound)[0] not in _TELLING
    return bound.context.focus in ("mend", "diagnosis")


def _words(bound: Bound) -> list[str]:
    return bound.text.lower().replace("’", "").replace("'", "").split()


FRAME = Frame(
    ProgressRequest,
    "progress",
    build,
    slots={
        "at": Slot(
            {"moment": 1.4, "num": -7.0}, bare=0.4, low=0, high=24, links={"at": 8.6, "after": 8.6, "from": 8.6}
        ),
        "ago_min": Slot(
            {"time": 0.8}, cues=("state:gone", "mark:*", "stage:*", "step:*"), bare=-0.4,
            links={"for": 0.8, "about": 0.2},
        ),
        "mark": Slot(term=("mark:*",), many=True, weight=0.4),
        "stage": Slot(term=("step:*", "stage:*"), many=True, weight=-0.4),
        "thing": Slot(
            term=("piece:*", "bread:*", "cue:dough", "cue:oven", "cue:fridge", "holds:*", "cue:tin", "cue:starter",
                  "cue:load", "cue:flour", "cue:water", "cue:starter"),
            many=True, weight=-0.6,
        ),
        "poured": Slot(term=("ingredient:*", "cue:salt"), weight=-0.4),
    },
    cues={
        "stand:*": 4.0, "mark:*": 1.0, "state:begun": 0.6, "state:done": 0.6, "state:gone": 0.4, "state:moved": 0.4,
        "ask:how_long": 0.6, "ask:is_it": 0.2, "ask:first": 0.0, "span:now": 0.0, "cue:second": 0.0,
        "link:*": 0.0, "serving:whole": 0.0, "act:show": 0.0, "tail:tail": 0.0,
        "cue:company": -1.0, "cue:kitchen": 0.0, "ask:what": 0.0, "act:add": 0.0, "tail:*": 0.0,
    },
    needs=("stand:*", "mark:*", "step:*", "stage:*", "state:moved", "holds:*", "cue:tin", "piece:*", "bread:*"),
    rules_out=(
        "symptom:*", "mistake:forgot", "cue:hydration", "ask:plan", "ask:how_much", "ask:can_i", "starts:now",
        "clock:call", "clock:timer",
    ),
    wholly=True,
    base=6.0,
    settles=True,
)  # fmt: skip
