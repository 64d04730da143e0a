"""A bake by the clock: what it has to keep, said in any order, or a change to the plan asked for before."""

from __future__ import annotations

from dataclasses import dataclass, replace

from grammar.follow import Follow
from grammar.frames import Bound, Frame, amount_base
from grammar.moments import Moment, joined
from grammar.requests import plan_dough as of_dough
from grammar.requests.bath import asks_for_a_bath
from grammar.requests.formula import Part
from grammar.requests.formula_none import is_warmth
from grammar.requests.plan_class import of_the_class
from grammar.requests.plan_doughs import PlanDough, bare_hour, doughs_of, every_dough, of_the_bench
from grammar.requests.plan_follow import went_on
from grammar.requests.plan_hours import Hours, hours_of
from grammar.requests.plan_kind import makes_a_plan, only_a_day, way_picked, when_done
from grammar.requests.plan_slots import CUES, RULED_OUT, SLOTS
from grammar.requests.plan_taken import Taken


@dataclass(frozen=True, slots=True)
class PlanRequest:
    """24 rings ready by 9 on Sunday, kitchen 21, asleep 10 pm to 6 am, overnight in the fridge
    plan 2 loaves for Saturday lunch, starter needs feeding first
    20 rings, 24 rolls and a rye loaf ready by 9 on Sunday
    starting now with a ripe starter, 12 rolls, when will they be done
    off to bed and it's only up a fifth

    Only what was said; None and empty mean unsaid. bake_at: the first load is to go into the oven then. no_sooner:
    `start` is the earliest, not the hour. asap: the soonest bread, however made. shift_min: ready so much later
    (negative: earlier) than said before. cold: "some", "bulk", "shaped", "both" or "none". autolyse_min: 0 for none.
    late_min: behind by so much; risen_pct: how far the bulk has got. way: one of the ways on offered at bedtime, by its
    number ("2") or its name; side_by_side: several ways wanted. doughs: all of them where several are planned together;
    every: all those under way. lost: times said that the plan has no place for. places: people of a class, `pieces`
    each, with home a dough to take home as well. rows: what else is in the dough; preferments: as of a dough to weigh
    out (kind, % of the flour, g, hydration). for_heads: "focaccia for 12", people where it is a bread that is sliced.
    oven_from: the oven is somebody else's until then.
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
    jar_g: float | None = None
    flours: tuple[Part, ...] = ()
    rows: tuple[Part, ...] = ()
    preferments: tuple[tuple[str, float | None, float | None, float | None], ...] = ()
    bath: str | None = None
    places: float | None = None
    home: bool = False
    kitchen_c: float | None = None
    night_c: float | None = None
    fridge_c: float | None = None
    dough_c: float | None = None
    oven_pieces: float | None = None
    pot_pieces: float | None = None
    fridge_pieces: float | None = None
    fridge_trays: float | None = None
    fridge_l: float | None = None
    trays: float | None = None
    tray_pieces: float | None = None
    bake_min: float | None = None
    ready: Moment | None = None
    bake_at: Moment | None = None
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
    side_by_side: bool = False
    doughs: tuple[PlanDough, ...] = ()
    every: bool = False
    lost: tuple[str, ...] = ()
    for_heads: bool = False
    oven_from: Moment | None = None
    freed: bool = False  # nobody is away after all

    @property
    def names_dough(self) -> bool:
        """Whether a dough of its own is named rather than the one in hand."""
        return self.pieces is not None or self.bread is not None or self.piece is not None or bool(self.doughs)

    @property
    def stands_alone(self) -> bool:
        """A plan of its own rather than a change to the one before."""
        if self.late_min is not None or self.bedtime:
            return False
        hours = (self.ready, self.bake_at, self.start)
        named = bool(self.bread or self.piece or self.piece_g or self.doughs)  # so many alone are more of the same
        return named and (any(one is not None for one in hours) or self.start_now or self.soonest)


def build(bound: Bound) -> PlanRequest | None:
    """The request; None where the line makes no plan."""
    if asks_for_a_bath(bound):
        return None
    found = of_dough.doughs(bound)
    main = found[0] if found else None
    bread, piece = of_dough.kinds(bound, found)
    every = every_dough(bound)
    several = () if every else doughs_of(bound, found, ())
    hours = of_the_class(hours_of(bound, bool(several)), bound)
    several = () if every else doughs_of(bound, found, hours.readies)
    cold_min = bound.base("cold_h")
    kitchen_c, night_c = of_dough.air(bound)
    if is_warmth(main, bound):
        return None  # "kitchen 21 but it'll be 24 by noon"
    ready, bake_at = _ready(hours, bound), hours.bake_at
    if bake_at is not None and ready is not None and not ready.has_hour:
        bake_at, ready = joined(bake_at, ready), None
    if only_a_day(ready, hours, bound):
        return None
    if main is not None and main.label is None and (every or several or of_the_bench(bound)):
        ready, main = ready or bare_hour(bound), None
    shift_min, late_min = _shift(bound)
    request = PlanRequest(
        pieces=amount_base(main.amount) if main is not None else None,
        bread=bread,
        piece=piece,
        flours=of_dough.flours(bound),
        rows=of_dough.rows(bound),
        preferments=of_dough.preferments(bound),
        bath=of_dough.bath(bound),
        places=bound.base("places"),
        home=bound.said("class:home"),
        yeast=bound.term("yeast_pct", "ingredient") or bound.term("yeast", "ingredient"),
        kitchen_c=kitchen_c,
        night_c=night_c,
        fridge_c=of_dough.degrees(bound, "fridge_c"),
        dough_c=of_dough.degrees(bound, "dough_c"),
        ready=ready,
        bake_at=bake_at,
        start=hours.start,
        no_sooner=hours.no_sooner,
        start_now=bound.said("starts:now"),
        ripe=hours.ripe,
        starter=of_dough.starter(bound),
        taken=hours.taken,
        cold=of_dough.cold(bound),
        cold_h=None if cold_min is None else cold_min / 60,
        autolyse_min=of_dough.autolyse(bound),
        ahead=bound.said("way:ahead"),
        soonest=bound.said("ask:when_ready", "ask:asap") or when_done(bound),
        asap=bound.said("ask:asap"),
        shift_min=shift_min,
        late_min=late_min,
        bedtime=bound.said("bedtime:bed_now") and not hours.taken and main is None,
        risen_pct=of_dough.risen(bound),
        way=way_picked(bound),
        side_by_side=bound.said("ask:plan_ways"),
        for_heads=of_dough.for_heads(main, bound),
        lost=_lost(hours, ready, bound),
        doughs=several,
        every=every,
        **({name: bound.base(name) for name in _AS_SAID} | _at_once(bound) | of_dough.trays(bound)),  # type: ignore[arg-type]
    )
    return request if makes_a_plan(request, bound) else None


_AS_SAID = (
    "piece_g", "hydration_pct", "salt_pct", "starter_pct", "yeast_pct", "oven_pieces", "pot_pieces", "tray_pieces",
    "bake_min", "fridge_pieces", "jar_g",
)  # fmt: skip
"""Roles that are taken over as they stand."""


def _at_once(bound: Bound) -> dict[str, float | None]:
    """How many go in at once, where pot or oven stands apart from the number: "the pot is lent, it's 4 a go"."""
    count = bound.base("at_once")
    if count is None:
        return {}
    return {"pot_pieces" if bound.said("cue:pot", "holds:pot", "step:boil") else "oven_pieces": count}


def _ready(hours: Hours, bound: Bound) -> Moment | None:
    """The hour the bread is wanted; where only the hour of leaving is said, the bread is to be ready by then."""
    ready = hours.ready
    if ready is None or not ready.has_hour:
        leaving = next((one.since for one in hours.taken if one.since is not None), None)
        if leaving is not None and bound.said("clocked:leave"):
            ready = leaving if ready is None else joined(leaving, ready)
    if ready is None:
        span = bound.first("ready_in")
        ahead = span is not None and span.amount is not None and (span.amount.lead == "in" or bound.said("starts:now"))
        return Moment(in_min=bound.base("ready_in")) if ahead else None
    if not bound.said("ask:plan_up") or ready.in_min is not None:
        return ready
    early = replace(ready, half="am") if not ready.sure and ready.part is None else ready
    return early if early.day is not None else replace(early, day="tomorrow")  # who asks when to get up is up now


def _shift(bound: Bound) -> tuple[float | None, float | None]:
    """Minutes later (negative: earlier) than said before, and minutes behind the plan."""
    minutes = bound.base("shift")
    if minutes is None:
        return None, None
    if bound.said("shift:earlier"):
        return -minutes, None
    if bound.said("shift:move") and bound.said("cue:risen"):
        return -minutes, None  # "bring it all up an hour"
    return (None, minutes) if bound.said("shift:running_late") else (minutes, None)


def _lost(hours: Hours, ready: Moment | None, bound: Bound) -> tuple[str, ...]:
    """Times that were heard and have no place in the wish, as typed."""
    span = bound.first("ready_in")
    if span is not None and span.amount is not None and (ready is None or ready.in_min is None):
        return (span.amount.text, *hours.lost)
    return hours.lost


FRAME = Frame(
    PlanRequest, "plan", build, slots=SLOTS, cues=CUES, rules_out=RULED_OUT, settles=True,
    follow=Follow(account=went_on),
    needs=(
        "ask:plan*", "ask:when_ready", "ask:asap", "starts:now", "slot:hour", "slot:busy", "slot:ready_in",
        "bedtime:bed_now", "slot:shift", "way:ahead", "away:asleep", "clocked:ready", "look:done",
    ),
)  # fmt: skip
