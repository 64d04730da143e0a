"""A bake by the clock: what it has to keep, said in any order, or a change to the plan asked for before."""

from __future__ import annotations

from dataclasses import dataclass, fields, replace

from grammar.frames import Bound, Frame, Hit, Slot, amount_base, celsius
from grammar.moments import Moment, Window, joined, minute_of_day


@dataclass(frozen=True, slots=True)
class Taken:
    """Hours in which nothing can be done by hand. why: "asleep" or "out"; till: free again then, taken until."""

    why: str
    window: Window | None = None
    till: Moment | None = None


@dataclass(frozen=True, slots=True)
class PlanRequest:
    """24 rings ready by 9 on Sunday, kitchen 21, asleep 10 pm to 6 am, overnight in the fridge
    plan 2 loaves for Saturday lunch, starter needs feeding first
    starting now with a ripe starter, 12 rolls, when will they be done
    off to bed and it's only up a fifth

    Only what was said; None and empty mean unsaid. bake_at: the first load is to go into the oven then. no_sooner:
    `start` is the earliest, not the hour. asap: the soonest bread, however made. shift_min: ready so much later
    (negative: earlier) than said before. cold: "some", "bulk", "shaped", "both" or "none". autolyse_min: 0 for none.
    late_min: behind by so much; risen_pct: how far the bulk has got. way: one of the ways on offered at bedtime, by its
    number ("2") or its name. others: further doughs named in the line, as typed: a plan is for one. lost: times said
    that the plan has no place for. for_heads: "focaccia for 12", people where it is a bread that is sliced.
    """

    pieces: float | None = None
    piece_g: float | None = None
    bread: str | None = None
    piece: str | None = None
    hydration_pct: float | None = None
    salt_pct: float | None = None
    starter_pct: float | None = None
    yeast: str | None = None
    yeast_pct: float | None = None
    kitchen_c: float | None = None
    night_c: float | None = None
    fridge_c: float | None = None
    dough_c: float | None = None
    oven_pieces: float | None = None
    pot_pieces: float | None = None
    trays: float | None = None
    tray_pieces: float | None = None
    bake_min: float | None = None
    ready: Moment | None = None
    bake_at: Moment | None = None
    eaten: Moment | None = None
    start: Moment | None = None
    no_sooner: bool = False
    start_now: bool = False
    ripe: Moment | None = None
    starter: str | None = None
    taken: tuple[Taken, ...] = ()
    cold: str | None = None
    cold_h: float | None = None
    autolyse_min: float | None = None
    ahead: bool = False
    soonest: bool = False
    asap: bool = False
    shift_min: float | None = None
    late_min: float | None = None
    bedtime: bool = False
    risen_pct: float | None = None
    way: str | None = None
    others: tuple[str, ...] = ()
    lost: tuple[str, ...] = ()
    for_heads: bool = False

    @property
    def names_dough(self) -> bool:
        """Whether a dough of its own is named rather than the one in hand."""
        return self.pieces is not None or self.bread is not None or self.piece is not None

    @property
    def whole(self) -> bool:
        """A plan of its own rather than a change to the one before."""
        if self.late_min is not None or self.bedtime:
            return False
        hours = (self.ready, self.bake_at, self.start)
        return self.names_dough and (any(one is not None for one in hours) or self.start_now or self.soonest)

    def onto(self, earlier: object, bound: Bound) -> PlanRequest:
        """This line as a change to an earlier wish: what it says replaces the same there."""
        if not isinstance(earlier, PlanRequest) or self.whole:
            return self
        said = {one.name: getattr(self, one.name) for one in fields(self)}
        changes = {name: one for name, one in said.items() if not (one is None or one is False or one == ())}
        new = replace(earlier, late_min=None, bedtime=False, risen_pct=None, way=None)
        if self.ready is not None or self.bake_at is not None:
            new = replace(new, ready=None, bake_at=None, shift_min=None, start=None, no_sooner=False)
            new = replace(new, start_now=False, soonest=False)
        if self.ready is not None:
            changes["ready"] = _same_day(self.ready, earlier.ready)
        if self.start is not None or self.start_now:
            new = replace(new, start=None, no_sooner=False, start_now=False)
        if self.shift_min is not None and earlier.shift_min is not None and "late_min" not in changes:
            changes["shift_min"] = earlier.shift_min + self.shift_min
        if self.taken and self.ready is None:
            kept = tuple(one for one in earlier.taken if one.why not in {two.why for two in self.taken})
            changes["taken"] = (*kept, *(_of_that_day(one, earlier.taken) for one in self.taken))
        return replace(new, **changes)


@dataclass(frozen=True, slots=True)
class PlanStands:
    """show me the plan again
    when do I shape
    what needs doing tonight

    The plan that stands, or the hours of one of its steps (an id, None: all of it). within: what is to be done by hand
    on that day or in that part of it.
    """

    step: str | None = None
    within: Moment | None = None


@dataclass(frozen=True, slots=True)
class PlanChange(PlanRequest):
    """what if the kitchen is 19
    half an hour later
    move bulk to the fridge
    I'm running 40 min late
    """


def _of_that_day(new: Taken, earlier: tuple[Taken, ...]) -> Taken:
    """ "away til 9 actually": of the day said before."""
    if new.till is None or new.till.day is not None:
        return new
    spans = [one.window for one in earlier if one.why == new.why and one.window is not None]
    if spans:
        late = (minute_of_day(spans[0].end) or 0) >= 12 * 60
        half = new.till.half or (None if new.till.sure else "pm" if late else "am")
        return Taken(new.why, Window(spans[0].start, replace(spans[0].end, minute=new.till.minute, half=half)))
    days = [one.till for one in earlier if one.why == new.why and one.till is not None and one.till.day is not None]
    return replace(new, till=replace(new.till, day=days[0].day, weeks=days[0].weeks)) if days else new


def _same_day(new: Moment, earlier: Moment | None) -> Moment:
    """A new hour alone keeps the day said before, a new day alone the hour."""
    if earlier is None or new.in_min is not None or new.part in ("tonight",):
        return new
    if new.day is None:
        return replace(new, day=earlier.day, weeks=earlier.weeks)
    if new.minute is None and new.part is None:
        return replace(new, minute=earlier.minute, half=earlier.half, part=earlier.part)
    return new


AUTOLYSE_MIN = 30.0
"""Flour and water rest so long where only the rest was asked for."""
WAY = "way"
"""What the open question of a bedtime asks for: one of the ways on."""
_KITCHEN, _FRIDGE = ("cue:kitchen",), ("cue:fridge", "cold:some")
_STARTER = ("ingredient:starter*", "cue:starter", "starter_state:*")
_SALT = ("ingredient:salt*", "cue:salt")
_TEMP = {"temperature": 1.0, "num": 0.35}
SLOTS = {
    "pieces": Slot(
        {"num": 1.0}, cues=("piece:*", "bread:*", "cue:pieces"), bare=0.0, low=1, high=400, role="count",
        links={"for": -0.4, "at": -1.0},
    ),
    "others": Slot({"num": 0.9}, cues=("piece:*", "bread:*"), low=1, high=400, many=True, weight=-0.3),
    "piece_g": Slot(
        {"mass": 1.0}, cues=("piece:*", "bread:*", "cue:piece_mass"), bare=0.5, low=15, high=2600, role="each"
    ),
    "hydration_pct": Slot({"pct": 1.0}, cues=("cue:hydration", "ingredient:water"), bare=0.1, low=40, high=110),
    "salt_pct": Slot({"pct": 1.0}, cues=_SALT, low=0.3, high=4),
    "starter_pct": Slot({"pct": 1.0, "num": 0.2}, cues=_STARTER, bare=-0.4, low=5, high=60, shares=True),
    "yeast_pct": Slot({"pct": 1.0}, cues=("ingredient:yeast*",), low=0.02, high=6),
    "kitchen_c": Slot(_TEMP, cues=_KITCHEN, bare=-0.4, low=7, high=42, links={"at": 0.3}),
    "day_c": Slot(_TEMP, cues=("span:now",), low=7, high=42, weight=0.6),
    "box_c": Slot(_TEMP, cues=("look:proofing_box",), low=15, high=42, weight=0.3),
    "night_c": Slot(_TEMP, cues=("cue:night", "span:overnight", "night_way:cool"), low=-2, high=35),
    "fridge_c": Slot({"temperature": 1.0, "num": 0.2}, cues=_FRIDGE, low=-2, high=14),
    "dough_c": Slot(_TEMP, cues=("cue:dough", "heat:dough_temp", "step:mix"), low=16, high=34, links={"to": 0.3}),
    "pot_pieces": Slot({"num": 1.2}, cues=("holds:pot", "cue:pot"), low=1, high=40),
    "oven_pieces": Slot({"num": 1.2}, cues=("holds:oven", "cue:oven"), low=1, high=120),
    "trays": Slot({"num": 1.0}, cues=("holds:tray", "cue:tin"), low=1, high=8, shares=True),
    "tray_pieces": Slot(
        {"num": 0.7}, cues=("holds:tray", "cue:tin"), low=1, high=60, shares=True, links={"of": 1.4, "per": 1.0}
    ),
    "bake_min": Slot({"time": 1.0}, cues=("stage:bake", "act:make", "holds:oven"), low=1, high=120),
    "ready": Slot(
        {"moment": 1.9}, cues=("clocked:ready", "ask:plan*", "ask:when_ready", "piece:*", "bread:*"), bare=0.4,
        links={"by": 0.6, "for": 0.5, "at": 0.2, "before": 0.6, "until": -0.6},
    ),
    "ready_in": Slot(
        {"time": 1.0}, cues=("clocked:ready", "ask:plan*"), bare=-0.6, low=15, high=10000, links={"in": 1.8}
    ),
    "eaten": Slot({"moment": 0.2}, bare=-0.4, links={"for": 0.8}),
    "start": Slot(
        {"moment": 1.3}, cues=("clocked:start", "clocked:not_before", "look:begun", "step:mix"),
        links={"from": 1.0, "at": 0.1},
    ),
    "bake_at": Slot({"moment": 1.6}, cues=("step:bake", "clocked:in_oven"), links={"by": 0.3, "at": 0.3}),
    "ripe": Slot({"moment": 1.3}, cues=("clocked:ripe", *_STARTER), links={"at": 0.3, "by": 0.2, "from": 0.3}),
    "fed": Slot({"moment": 1.5}, cues=("feeding:feed", "mark:feed_starter"), links={"at": 0.3}),
    "bed": Slot({"moment": 1.3}, cues=("clocked:to_bed",), links={"at": 0.3, "by": 0.2}),
    "leave": Slot({"moment": 1.3}, cues=("clocked:leave",), links={"at": 0.3, "by": 0.2}),
    "up": Slot({"moment": 1.3}, cues=("clocked:up",), links={"at": 0.3, "by": 0.2}),
    "till": Slot({"moment": 1.2}, cues=("away:*", "clocked:home"), links={"until": 1.6, "at": 0.3, "by": 0.2}),
    "busy": Slot({"window": 1.5}, cues=("away:*",), bare=0.2, many=True),
    "cold_h": Slot({"time": 1.0}, cues=("cold:*", "cue:fridge", "stage:retard"), low=60, high=4500, links={"for": 0.2}),
    "autolyse_min": Slot({"time": 1.2}, cues=("stage:autolyse", "step:autolyse"), low=10, high=300),
    "autolyse": Slot(term=("stage:autolyse", "step:autolyse")),
    "no_autolyse": Slot(term=("stage:autolyse", "step:autolyse"), without=True),
    "shift": Slot({"time": 1.2}, cues=("shift:*", "cue:later"), low=5, high=2880),
    "risen": Slot({"share": 1.2, "pct": 1.0}, cues=("cue:risen", "stage:bulk"), low=0, high=150),
    "cold": Slot(term=("cold:*",), many=True),
    "no_cold": Slot(term=("cold:*", "cue:fridge", "stage:retard"), without=True),
    "starter_state": Slot(term=("starter_state:*",)),
    "bread": Slot(term=("bread:*",)),
    "piece": Slot(term=("piece:*",)),
    "yeast": Slot(term=("ingredient:yeast*",)),
}  # fmt: skip


def build(bound: Bound) -> PlanRequest | None:
    """The request; None where the line makes no plan."""
    doughs = _doughs(bound)
    main = doughs[0] if doughs else None
    bread, piece = _kinds(bound, doughs)
    shift = bound.base("shift")
    late = shift is not None and bound.said("shift:running_late") and not bound.said("shift:earlier")
    hour = bound.base("cold_h")
    kitchen_c, night_c = _air(bound)
    ready, bake_at = _ready(bound), _moment(bound, "bake_at")
    if bake_at is not None and ready is not None and ready.minute is None:
        bake_at, ready = joined(bake_at, ready), None
    request = PlanRequest(
        pieces=amount_base(main.amount) if main is not None else None,
        piece_g=bound.base("piece_g"),
        bread=bread,
        piece=piece,
        hydration_pct=bound.base("hydration_pct"),
        salt_pct=bound.base("salt_pct"),
        starter_pct=bound.base("starter_pct"),
        yeast=bound.term("yeast_pct", "ingredient") or bound.term("yeast", "ingredient"),
        yeast_pct=bound.base("yeast_pct"),
        kitchen_c=kitchen_c,
        night_c=night_c,
        fridge_c=_degrees(bound, "fridge_c"),
        dough_c=_degrees(bound, "dough_c"),
        oven_pieces=bound.base("oven_pieces"),
        pot_pieces=bound.base("pot_pieces"),
        trays=bound.base("trays"),
        tray_pieces=bound.base("tray_pieces"),
        bake_min=bound.base("bake_min"),
        ready=ready,
        bake_at=bake_at,
        eaten=_moment(bound, "eaten"),
        start=_moment(bound, "start"),
        no_sooner=bound.first("start") is not None and bound.said("clocked:not_before"),
        start_now=bound.said("starts:now"),
        ripe=_moment(bound, "ripe"),
        starter=_starter(bound),
        taken=_taken(bound),
        cold=_cold(bound),
        cold_h=None if hour is None else hour / 60,
        autolyse_min=_autolyse(bound),
        ahead=bound.said("way:ahead"),
        soonest=bound.said("ask:when_ready", "ask:asap") or _when_done(bound),
        asap=bound.said("ask:asap"),
        shift_min=None if shift is None or late else (-shift if bound.said("shift:earlier") else shift),
        late_min=shift if late else None,
        bedtime=bound.said("bedtime:bed_now"),
        risen_pct=_risen(bound),
        way=_way(bound),
        for_heads=_for_heads(main, bound),
        lost=_lost(ready, bound),
        others=tuple(_as_typed(one) for one in doughs[1:]),
    )
    return request if _makes_a_plan(request, bound) else None


_OF_THE_DOUGH: dict[str, object] = dict.fromkeys(
    ("pieces", "piece_g", "bread", "piece", "hydration_pct", "salt_pct", "starter_pct", "yeast", "yeast_pct")
)
"""What changes the dough alone is no change of plan."""


def build_change(bound: Bound) -> PlanChange | None:
    """A change to the plan asked for before; None where none was, or where only the dough would change."""
    if bound.context.focus != "plan":
        return None
    request = build(bound)
    if request is None or request.whole or _number_alone(request, bound):
        return None
    return _as_change(request)


def _number_alone(request: PlanRequest, bound: Bound) -> bool:
    """Whether a number of pieces is all that speaks for another dough, and no word stands by it."""
    hit = bound.first("pieces")
    return hit is not None and hit.label is None and request.bread is None and request.piece is None


_WARM_TOPICS = ("timing", "feed", "water")
"""Topics in which another temperature is a change to what was just asked."""


def build_return(bound: Bound) -> PlanChange | None:
    """A change to a plan that the talk has gone away from; only what cannot be meant for anything else."""
    if bound.context.focus == "plan" or "plan" not in bound.context.standing:
        return None
    request = build(replace(bound, context=replace(bound.context, focus="plan")))
    if request is None or request.names_dough or request.whole:
        return None
    supposed = (request.kitchen_c, request.night_c, request.start)
    what_if = bound.said("ask:what_if") and any(one is not None for one in supposed)
    if what_if and request.start is None and bound.context.focus in _WARM_TOPICS:
        return None
    hours = request.taken or (request.ready is not None and bound.said("clocked:ready", "ask:plan*", "act:same"))
    moved = request.shift_min is not None or request.late_min is not None
    return _as_change(request) if what_if or hours or moved else None


def build_stands(bound: Bound) -> PlanStands | None:
    """A question about the plan that stands; None where none does, or where the line says more than that."""
    if not {"plan", "told"} & bound.context.standing:
        return None
    if bound.said("ask:to_do"):
        return PlanStands(within=_moment(bound, "within") or Moment(day="today"))
    steps = [one for p in bound.phrases if not p.negated for one in p.ids("step")]
    when = bound.said("ask:when")
    if steps and (when or bound.said("ask:look_for")):
        return PlanStands(steps[-1])
    return PlanStands() if bound.said("ask:plan*") and bound.said("act:show", "ask:what", "tail:*") else None


def _as_change(request: PlanRequest) -> PlanChange:
    return PlanChange(**{one.name: getattr(request, one.name) for one in fields(request)})


def _makes_a_plan(request: PlanRequest, bound: Bound) -> bool:
    if bound.context.focus == "plan":
        # With no dough in hand (the plan was refused) a change of the dough can only be meant for the plan.
        kept = replace(request, **_OF_THE_DOUGH) if bound.context.has_bake else request  # type: ignore[arg-type]
        return kept != PlanRequest()
    of_stage = bound.said("ask:when") and bound.said("stage:*") and not bound.said("ask:plan*")
    if of_stage and (request.ready is None or not request.names_dough):
        return False
    if request.bedtime:
        return request.risen_pct is not None or bound.said("stage:bulk", "cue:dough", "cue:risen")
    asked = bound.said("ask:plan*", "ask:when_ready", "ask:asap", "starts:now") or _when_done(bound)
    if request.names_dough:
        return asked or request.ready is not None or request.bake_at is not None
    if not bound.context.has_bake:
        return bound.said("ask:plan*") or (asked and request.starter_pct is not None) or _clocked(request, bound)
    return asked or _clocked(request, bound) or request.late_min is not None


def _when_done(bound: Bound) -> bool:
    """ask:when_ready with the bread in its middle: "when are 30 rings done"."""
    named = bound.first("pieces") is not None and not bound.said("stage:*")
    return named and bound.said("ask:when") and bound.said("clocked:ready", "look:done")


def _clocked(request: PlanRequest, bound: Bound) -> bool:
    if request.bake_at is not None:
        return bound.said("clocked:in_oven") or request.cold is not None
    return request.ready is not None and (bound.said("clocked:ready", "ask:plan*") or bool(request.taken))


def _doughs(bound: Bound) -> tuple[Hit, ...]:
    """The numbers of pieces said, in the order of the line: a plan is for the first of them."""
    hits = (*bound.of("pieces"), *bound.of("others"))
    return tuple(sorted(hits, key=lambda hit: 0 if hit.amount is None else bound.phrases.index(hit.amount)))


def _as_typed(hit: Hit) -> str:
    return " ".join(phrase.text for phrase in (hit.amount, hit.label) if phrase is not None)


def _lost(ready: Moment | None, bound: Bound) -> tuple[str, ...]:
    """Times that were heard and have no place in the wish, as typed."""
    found: list[str] = []
    span, other = bound.first("ready_in"), bound.first("eaten")
    if span is not None and span.amount is not None and (ready is None or ready.in_min is None):
        found.append(span.amount.text)
    moment = other.amount.moment if other is not None and other.amount is not None else None
    if moment is not None and ready is not None and other is not None and other.amount is not None:
        at, when = _moment(bound, "ready"), moment
        used = at is not None and (at.minute is None or at.day is None) and (when.minute is None or when.day is None)
        found += [] if used else [other.amount.text]
    bed = bound.first("bed")
    if bed is not None and bed.amount is not None and bound.first("up") is None:
        found.append(bed.amount.text)
    fed = bound.first("fed")
    if fed is not None and fed.amount is not None:
        found.append(fed.amount.text)  # the feed is planned from the hour of the mix, not the other way round
    return tuple(found)


def _for_heads(main: Hit | None, bound: Bound) -> bool:
    if main is None or main.amount is None or main.label is None:
        return False
    place = bound.phrases.index(main.amount)
    led = place > 0 and "for" in bound.phrases[place - 1].ids("link")
    return led and bound.phrases.index(main.label) < place


def _kinds(bound: Bound, doughs: tuple[Hit, ...]) -> tuple[str | None, str | None]:
    bread, piece = bound.term("bread", "bread"), bound.term("piece", "piece")
    for hit in (*doughs[:1], *bound.hits):
        if hit in doughs[1:]:
            continue
        bread = bread or next(iter(hit.ids("bread")), None)
        piece = piece or next(iter(hit.ids("piece")), None)
    return bread, piece


def _degrees(bound: Bound, slot: str) -> float | None:
    hit = bound.first(slot)
    quantity = hit.amount.quantity if hit is not None and hit.amount is not None else None
    return None if quantity is None else celsius(quantity.value, quantity.unit, 45)


def _air(bound: Bound) -> tuple[float | None, float | None]:
    """The air by day and by night. "boathouse 9 at night, 14 by day": the word for the day says which is which."""
    kitchen_c, night_c, day_c = (_degrees(bound, slot) for slot in ("kitchen_c", "night_c", "day_c"))
    box_c = _degrees(bound, "box_c")
    if box_c is not None:
        return box_c, box_c
    if day_c is None:
        return kitchen_c, night_c
    return day_c, night_c if night_c is not None else kitchen_c


def _moment(bound: Bound, slot: str) -> Moment | None:
    hit = bound.first(slot)
    return hit.amount.moment if hit is not None and hit.amount is not None else None


def _ready(bound: Bound) -> Moment | None:
    """The hour it is wanted; a day said apart from it ("at 9, tomorrow") belongs to it.

    A part of the day alone beside the fridge ("no fridge tonight") says when it goes cold, not when it is wanted.
    """
    ready, other = _moment(bound, "ready"), _moment(bound, "eaten")
    if _not_up_before(bound) is not None:
        return None
    leave = _moment(bound, "leave")
    if leave is not None and bound.first("till") is None and (ready is None or ready.minute is None):
        ready = leave if ready is None else joined(leave, ready)
    if ready is not None and bound.said("ask:plan_up") and not ready.sure and ready.part is None:
        ready = replace(ready, half="am")
    cold = bound.first("cold") is not None or bound.first("no_cold") is not None or bound.said("cold:*")
    if _asked_of_the_day(ready, bound):
        return None
    if ready is not None and ready.minute is None and ready.part is not None and cold:
        asked = bound.said("clocked:ready", "ask:plan*", "ask:when_ready", "piece:*", "bread:*")
        ready = ready if asked else None
    if ready is None:
        return _in(bound)
    parts = (ready.day is None or ready.minute is None) and other is not None
    if other is not None and parts and (other.day is None or other.minute is None):
        return joined(ready, other)
    return ready


def _asked_of_the_day(ready: Moment | None, bound: Bound) -> bool:
    """ "what's on tonight?": a question with no more of a time than the day or its part wants no bread by then."""
    vague = ready is not None and ready.minute is None and ready.in_min is None
    asks = bound.said("ask:what", "ask:when", "ask:to_do") and not bound.said("ask:plan*", "ask:when_ready")
    return vague and asks and not bound.said("piece:*", "bread:*", "clocked:*", "act:same")


def _way(bound: Bound) -> str | None:
    if WAY not in bound.context.asked:
        return None
    words = [one for p in bound.phrases if not p.negated for one in (*p.ids("pick"), *p.ids("night_way"))]
    return words[0] if words else "1" if bound.said("act:take") else None


def _in(bound: Bound) -> Moment | None:
    minutes = bound.base("ready_in")
    return None if minutes is None else Moment(in_min=minutes)


def _starter(bound: Bound) -> str | None:
    states = [i for p in bound.phrases if not p.negated for i in p.ids("starter_state")]
    if "feed" in states:
        return "feed"
    return "ripe" if states else None


def _taken(bound: Bound) -> tuple[Taken, ...]:
    found = [Taken(_why(hit), hit.amount.window) for hit in bound.of("busy") if hit.amount is not None]
    till, leave = bound.first("till"), _moment(bound, "leave")
    if till is not None and till.amount is not None and till.amount.moment is not None and leave is not None:
        found.append(Taken("out", Window(leave, till.amount.moment)))
    elif till is not None and till.amount is not None:
        found.append(Taken(_why(till), till=till.amount.moment))
    bed, up = _moment(bound, "bed"), _moment(bound, "up") or _not_up_before(bound)
    if bed is not None and up is not None:
        found.append(Taken("asleep", Window(bed, up)))
    elif up is not None:
        found.append(Taken("asleep", till=up))
    return tuple(found)


def _not_up_before(bound: Bound) -> Moment | None:
    """ "don't want to get up before 6:30": the hour is no hour of the bread."""
    refused = any(p.negated and "up" in p.ids("clocked") for p in bound.phrases)
    return _moment(bound, "ready") if refused and bound.links() & {"before", "until"} else None


def _why(hit: Hit) -> str:
    return next(iter(hit.ids("away")), "out")


def _cold(bound: Bound) -> str | None:
    if bound.first("no_cold") is not None or bound.said("cold:none"):
        return "none"
    ids = list(bound.terms("cold", "cold"))
    hour = bound.first("cold_h")
    if hour is not None:
        ids += list(hour.ids("cold")) or ["some"]
    if "both" in ids or {"bulk", "shaped"} <= set(ids):
        return "both"
    for one in ("bulk", "shaped", "some"):
        if one in ids:
            return one
    alone = any("overnight" in p.ids("span") for p in bound.phrases) and bound.first("night_c") is None
    return "some" if alone else None


def _autolyse(bound: Bound) -> float | None:
    if bound.first("no_autolyse") is not None:
        return 0.0
    if bound.first("autolyse_min") is not None:
        return bound.base("autolyse_min")
    return None if bound.first("autolyse") is None else AUTOLYSE_MIN


def _risen(bound: Bound) -> float | None:
    hit = bound.first("risen")
    quantity = hit.amount.quantity if hit is not None and hit.amount is not None else None
    if quantity is None:
        return None
    return quantity.value * 100 if quantity.fraction else quantity.base


CUES = {
    "ask:plan*": 2.4, "ask:when_ready": 1.8, "ask:asap": 2.0, "starts:now": 1.6, "clocked:ready": 1.2,
    "clocked:start": 0.8, "clocked:not_before": 0.8, "clocked:ripe": 0.4, "clocked:home": 0.3,
    "clocked:to_bed": 0.6, "clocked:up": 0.6,
    "clocked:leave": 0.4, "away:asleep": 1.0,
    "away:out": 0.4, "cold:*": 1.0, "piece:*": 0.4, "bread:*": 0.4, "starter_state:*": 0.5, "way:ahead": 1.0,
    "way:folds": 0.0, "shift:*": 1.0, "cue:later": 0.4,
    "bedtime:bed_now": 4.5, "cue:risen": 0.6, "cue:night": 0.0, "cue:steps": 0.1, "ask:when": 1.6,
    "ask:what_if": 0.4, "ask:how_to": 0.0, "ask:can_i": 0.1, "ask:what": 0.1, "cue:kitchen": 0.3,
    "act:make": 0.2, "act:change": 0.2, "act:correct": 0.3, "act:same": 0.3, "act:use": 0.0, "cue:usual": 0.0,
    "cue:dough": 0.1, "cue:limit": 0.0, "tail:*": 0.0, "span:*": 0.0, "look:*": 0.0, "stage:*": 0.1,
    "stage:autolyse": 2.2, "step:autolyse": 2.2, "act:add": 0.3, "cue:fridge": 0.3,
    "cue:portions": -0.2, "cue:starter": 0.1, "ingredient:starter*": 0.1, "ask:first": 0.0,
    "so_far:*": 0.0, "holds:*": 0.2, "cue:greater": 0.0, "cue:fewer": 0.0, "step_left:*": 0.0,
    "cue:overnight_dose": 0.0, "cue:pieces": 0.0, "act:show": 0.0, "cue:total": 0.0, "cue:tin": 0.0,
    "feeding:*": 0.2, "heat:*": 0.0, "step:*": 0.1, "act:take": 0.4, "night_way:*": 3.0, "pick:*": 2.4,
}  # fmt: skip
RULED_OUT = ("act:always", "mistake:*", "ask:last_out", "ask:batches", "starts:start_boil")
FRAMES = (
    Frame(
        PlanRequest, "plan", build, slots=SLOTS, cues=CUES, rules_out=RULED_OUT, settles=True,
        needs=(
            "ask:plan*", "ask:when_ready", "ask:asap", "starts:now", "slot:ready", "slot:ready_in", "slot:bake_at",
            "bedtime:bed_now", "slot:shift", "way:ahead", "away:asleep", "clocked:ready", "look:done",
        ),
    ),
    # After a plan, "at 19?" or "pot takes 4" changes that plan rather than the dough or the kitchen's settings.
    Frame(PlanChange, "plan", build_change, slots=SLOTS, cues=CUES, rules_out=RULED_OUT, base=1.6, settles=True),
    Frame(
        PlanStands, "plan", build_stands, base=2.5, settles=True, needs=("step:*", "ask:plan*", "ask:to_do"),
        slots={"within": Slot({"moment": 1.0}, bare=0.4, where=("ask:to_do",))},
        cues={
            "step:*": 1.6, "ask:plan*": 2.0, "ask:to_do": 2.6, "ask:look_for": 1.6, "ask:when": 1.6, "act:show": 1.4,
            "ask:what": 0.6,
            "tail:*": 0.2, "act:make": 0.2, "cue:dough": 0.0, "piece:*": 0.0, "bread:*": 0.0, "cue:steps": 0.2,
            "ask:is_it": 0.0, "ask:should": 0.0, "look:*": 0.0, "stage:*": 0.0, "topic:*": 0.0, "clocked:start": 0.0,
        },
        rules_out=("act:always", "mistake:*"),
    ),
    Frame(PlanChange, "plan", build_return, slots=SLOTS, cues=CUES, rules_out=RULED_OUT, base=2.0, settles=True),
)  # fmt: skip
