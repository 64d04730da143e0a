"""Where the bake stands, asked for: what is left, what is next, when something was done, when it is ready."""

from __future__ import annotations

from dataclasses import dataclass

from grammar.frames import Bound, Frame, Line, Own, never_by_slots
from grammar.levels import PLAINLY, speaks
from grammar.slots import Slot
from grammar.spoken import fitting, spoken
from grammar.telling.asked import asked
from grammar.turns import END, LEAD, THIS


@dataclass(frozen=True, slots=True)
class ProgressRequest:
    """where are we
    how long left
    what's next
    when did I mix
    when is it ready

    asked: the step whose hour is asked for; poured: readings of a thing asked about ("did I salt it"); ready: the hour
    it is ready is asked for; next: what comes is; pieces: how many are left.
    """

    asked: str | None = None
    poured: tuple[str, ...] = ()
    ready: bool = False
    next: bool = False
    pieces: bool = False


LEANS = frozenset({"timing", "feed", "plan", "loads", "water"})
"""Topics whose own question "how much longer" continues, where nothing was told of the bake."""
_UNDER_WAY = "told"
"""The standing account of a bake under way."""
_ASKED_OF = {
    "mix": "mix", "knead": "mix", "autolyse": "autolyse", "bulk": "bulk", "fold": "fold", "divide": "divide",
    "preshape": "preshape", "shape": "shape", "proof": "shape", "retard": "retard", "preheat": "preheat",
    "boil": "boil", "bake": "bake", "bench_rest": "preshape", "cool": "cool", "feed_starter": "feed_starter",
}  # fmt: skip
"""The step whose mark answers a question about a step or stage."""


def build(bound: Bound) -> ProgressRequest | None:
    """What is asked of the bake under way; None where something else is."""
    under_way = _UNDER_WAY in bound.context.standing
    if any(p.kind == "amount" for p in bound.phrases):
        return None
    if bound.said("ask:when_ready") or (
        bound.said("clocked:ready", "look:done") and bound.said("ask:when") and _step(bound) is None
    ):
        standing = under_way or "plan" in bound.context.standing
        return ProgressRequest(ready=True) if standing else None
    if not (bound.said("stand:*", "ask:how_long") or bound.asks() or bound.inverted()):
        return None
    step = _step(bound)
    if bound.said("stand:did"):
        return _did(bound, step)
    if bound.said("stand:left"):
        return None if bound.context.focus in LEANS and not under_way else ProgressRequest()
    if bound.said("stand:elapsed"):
        return ProgressRequest(asked=step if step not in (None, "bulk", "bake") else None)
    if bound.said("stand:*") or (step is not None and bound.inverted()):
        elsewhere = bound.context.focus == "diagnosis" and not under_way
        return None if elsewhere else ProgressRequest(next=bound.said("stand:next"))
    how_long = bound.said("ask:how_long") and step is not None
    return ProgressRequest() if how_long and ("been" in _words(bound) or "left" in _words(bound)) else None


def _did(bound: Bound, step: str | None) -> ProgressRequest | None:
    if {"before", "last"} & bound.links() or bound.said("ask:what", "kept:*"):
        return None  # "have i baked rings before", "when did i last feed it", "what have i baked"
    salted = ("salt_table",) if bound.said("cue:salt") else ()
    things = next((p.ids("ingredient") for p in bound.phrases if p.ids("ingredient")), salted)
    if step is None and things:
        return ProgressRequest(poured=things)
    return ProgressRequest(asked=step) if step is not None else None


def _step(bound: Bound) -> str | None:
    """The step or stage asked about, the later one of two; its deed, its place or its name."""
    words = [p for p in bound.phrases if p.kind == "label" and not p.negated]
    marks = [i for p in words for i in p.ids("mark")]
    named = [i for p in words if not p.ids("mark") for i in (*p.ids("step"), *p.ids("stage"))]
    marks += [_ASKED_OF[one] for one in named if one in _ASKED_OF]
    return max(marks, key=COURSE.index) if marks else None


def _words(bound: Bound) -> list[str]:
    return bound.text.lower().replace("’", "").replace("'", "").split()


COURSE = (
    "feed_starter", "autolyse", "mix", "bulk", "fold", "divide", "preshape", "shape", "retard", "warm_up", "preheat",
    "boil", "bake", "cool",
)  # fmt: skip
"""The steps in the order of a bake; of two that were said the later one is asked about."""


_OF_THE_BAKE = 9.0


def _asked(line: Line) -> Own | None:
    """A question in any words, where something is under way for it to be about."""
    context = line.context
    planned = "plan" in context.standing and context.focus in ("plan", "progress")
    under_way = planned or _UNDER_WAY in context.standing
    if not under_way and not context.has_bake:
        return None
    found = asked(line)
    if not under_way and found != "where":
        return None
    return None if found is None else Own(
        ProgressRequest(ready=found == "ready", next=found == "next", pieces=found == "pieces"), _OF_THE_BAKE
    )


_WHAT = rf"(?:{THIS}|(?:<hand:both>)|(?:<hand:those>) [a-z ]+?)"
_GONE = (
    rf"{LEAD}(?:<hand:how_long>) (?:has|have|had|is|are|was|were|ve|s) {_WHAT}"
    rf"(?: (?:<hand:so_far>))* (?:<hand:sat>)(?P<where>(?: [a-z]+){{0,5}}){END}",
    rf"{LEAD}(?:<hand:how_long>) {_WHAT} (?:<hand:sat>)(?P<where>(?: [a-z]+){{0,5}}){END}",
    rf"{LEAD}(?:<hand:how_far>) (?:is|are|s|re|have|has) {_WHAT}(?: (?:<hand:so_far>|got|come|gone))*{END}",
    rf"{LEAD}(?:<hand:how_long>) (?:is|are|has|have|does|s) {_WHAT}(?: (?:<hand:so_far>|been))* (?:<hand:there>)"
    rf"(?: (?:<hand:so_far>))+{END}",
)
_ELSE = frozenset({"since", "until", "till", "before", "after", "if", "for", "and"})


def _gone_by(line: Line) -> Own | None:
    """How long what is under way has been where it is: read off the marks of its course."""
    of_the_jar = any("starter" in one.ids("cue") for one in line.tokens)
    if _UNDER_WAY not in line.context.standing or of_the_jar:
        return None
    for hit in fitting(_GONE, spoken(line.text, line.lexicon), line.lexicon):
        if not _ELSE & set((hit.groupdict().get("where") or "").split()):
            return Own(ProgressRequest(), PLAINLY)
    return None




FRAMES = tuple(
    Frame(ProgressRequest, "progress", never_by_slots, reads=reader, settles=True) for reader in (_asked, _gone_by)
)
FRAME = Frame(
    ProgressRequest,
    "progress",
    build,
    slots={
        "mark": Slot(term=("mark:*",), many=True, weight=0.4),
        "stage": Slot(term=("step:*", "stage:*"), many=True, weight=-0.4),
        "thing": Slot(
            term=("piece:*", "bread:*", "cue:dough", "cue:oven", "cue:fridge", "holds:*", "cue:tin", "cue:starter",
                  "cue:load", "cue:flour", "cue:water", "cue:starter"),
            many=True, weight=-0.6,
        ),
        "poured": Slot(term=("ingredient:*", "cue:salt"), weight=-0.4),
    },
    cues=speaks(
        alone="stand:* ask:when_ready",
        sure="clocked:ready look:done ask:when mark:*",
        likely="state:begun state:done ask:how_long",
        maybe="state:gone state:moved ask:is_it",
        heard=(
            "ask:first span:now cue:second link:* serving:whole act:show tail:tail cue:kitchen ask:what act:add "
            "tail:*"
        ),
        against="cue:company",
    ),
    needs=("stand:*", "ask:when_ready", "clocked:ready", "look:done", "mark:*", "step:*", "stage:*", "holds:*"),
    rules_out=(
        "symptom:*", "mistake:forgot", "cue:hydration", "ask:plan", "ask:how_much", "ask:can_i", "starts:now",
        "clock:call", "clock:timer", "diet:*", "act:double", "act:triple",
    ),
    wholly=True,
    base=6.0,
    settles=True,
)  # fmt: skip
