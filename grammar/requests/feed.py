"""Feeding the starter: builds for an amount and an hour, its pace, keeping it while away, little discard."""

from __future__ import annotations

from dataclasses import dataclass, replace

from grammar.frames import Bound, Frame, Hit, Slot, amount_base
from grammar.moments import Moment
from grammar.requests.feed_hours import FeedHours, hours_said
from grammar.requests.feed_masses import FeedMasses, masses_said
from grammar.requests.feed_slots import FEEDING, SLOTS
from grammar.requests.follow import changes, put_onto
from grammar.requests.warmth import degrees_of

_FORGETS = {
    "ratio": ("seed_g", "flour_g", "water_g"),
    "ripe_at": ("ripe_at", "ripe_in_min"),
    "ripe_in_min": ("ripe_at", "ripe_in_min"),
}
"""For what is said anew of a build, what it stands instead of."""


@dataclass(frozen=True, slots=True)
class FeedRequest:
    """when do I feed for 6am
    I have 15 g of starter in the jar and need 180 g by tomorrow noon, kitchen 22
    feed 1:5:5 at 22, when is it ripe
    build 300 g of stiff starter at 50 %, keep 30 g back
    fed 1:2:2 at 10am at 23, can I use it at 4pm

    Only what was said; None means unsaid. Grams, degrees Celsius, minutes, % hydration.
    """

    needed_g: float | None = None
    have_g: float | None = None
    keep_g: float | None = None
    seed_g: float | None = None
    flour_g: float | None = None
    water_g: float | None = None
    ratio: tuple[float, float, float] | None = None
    temp_c: float | None = None
    ripe_at: Moment | None = None
    ripe_in_min: float | None = None
    fed_at: Moment | None = None
    use_at: Moment | None = None
    use_after_min: float | None = None  # "12 hours after a 1:2:2 feed"
    ratio_asked: bool = False
    overnight: bool = False
    hydration_pct: float | None = None
    seed_hydration_pct: float | None = None
    now_at: Moment | None = None  # "it's 10 pm now", where the clock is said
    cold: bool = False
    stiff: bool = False
    feeds: int | None = None  # in so many feeds
    degrees_said: tuple[str, ...] = ()

    def onto(self, earlier: object, bound: Bound) -> FeedRequest:
        """This line as a change to the build before it."""
        if not isinstance(earlier, FeedRequest):
            return self
        timed = bound.said("look:ripe", "look:use_it") or self.fed_at or self.temp_c is not None
        whole = bound.said("feeding:feed", "feeding:jar") and (self.ripe_at or self.needed_g or (self.ratio and timed))
        if whole and not bound.said("act:change", "link:instead"):
            return self
        return put_onto(earlier, changes(self), _FORGETS)


@dataclass(frozen=True, slots=True)
class PaceRequest:
    """it peaked at 3 hours at 24, fed 1:1:1
    my starter peaks after 5 hours at 22 when fed 1:2:2
    """

    minutes: float
    temp_c: float | None = None
    ratio: tuple[float, float, float] | None = None
    rise_pct: float | None = None  # "doubled in 4 hours": the rise seen, where it was not the peak


@dataclass(frozen=True, slots=True)
class AwayRequest:
    """I am away for 3 weeks, what do I do with the starter"""

    minutes: float | None = None


@dataclass(frozen=True, slots=True)
class DiscardRequest:
    """how do I make less discard
    how often should I feed my starter
    """

    often: bool = False


def parts_of(hit: Hit | None) -> tuple[float, float, float] | None:
    """The three parts of a feed said as a ratio."""
    if hit is None or hit.amount is None:
        return None
    parts = next((t.value for t in hit.amount.tokens if isinstance(t.value, tuple)), None)
    # "1:5" names no water: as much of it as of flour
    return (float(parts[0]), float(parts[1]), float(parts[-1])) if parts else None


def build(bound: Bound) -> FeedRequest | None:
    """The request; None where nothing is fed, built or waited for."""
    if bound.said("feeding:away") and not (bound.of("moments") and bound.first("needed_g")):
        return None  # a starter left alone; but "away to bed at ten" is an hour of a build
    of_the_dough = bound.context.has_bake and bound.context.focus == "formula" and not bound.said("ask:*")
    if of_the_dough and {hit.slot for hit in bound.hits} == {"hydration_pct"} and bound.said("cue:starter"):
        return None  # "my starter is the stiff kind, 50 %": of the dough in hand
    degrees = degrees_of(bound, ("temp_c",))
    if bound.said("look:peaked") and (bound.first("in_min") or not bound.said("ask:*", "feeding:ratio")):
        return None  # a report of its pace
    ratio = parts_of(bound.first("ratio"))
    if ratio is None and bound.said("blend:even", "feeding:equal_parts"):
        ratio = (1.0, 1.0, 1.0)  # equal parts of a jar are seed, flour and water
    masses = masses_said(bound, ratio is not None)
    if masses is None:
        return None
    temp_hit = bound.first("temp_c")
    hours = hours_said(bound, ratio is not None, degrees, temp_hit is not None)
    shared = _by_share(bound, masses, hours)
    if shared is None or not _fed_or_built(bound, shared, hours, ratio is not None):
        return None
    masses, poured = shared, shared.flour is not None and shared.water is not None
    hydration, feeds = bound.base("hydration_pct") or bound.base("bare_hydration"), bound.base("feeds")
    return FeedRequest(
        needed_g=masses.needed,
        have_g=masses.have,
        keep_g=masses.keep,
        seed_g=masses.seed if masses.flour is not None else None,
        flour_g=masses.flour if poured else None,
        water_g=masses.water if poured else None,
        ratio=ratio,
        temp_c=degrees.celsius(temp_hit.amount) if temp_hit else hours.bare_c,
        ripe_at=hours.ripe_at,
        ripe_in_min=hours.ripe_in_min,
        fed_at=hours.fed_at,
        use_at=hours.use_at,
        use_after_min=hours.use_after_min,
        now_at=_moment_of(bound.first("now_at")),
        ratio_asked=bound.said("feeding:ratio", "feeding:twice", "feeding:daily"),
        overnight="overnight" in bound.text.lower(),
        hydration_pct=hydration,
        seed_hydration_pct=bound.base("seed_pct"),
        cold=bound.said("feeding:cold"),
        stiff=bound.said("feeding:stiff", "cue:stiff"),
        feeds=int(feeds) if feeds else None,
        degrees_said=degrees.remarks,
    )


def _by_share(bound: Bound, masses: FeedMasses, hours: FeedHours) -> FeedMasses | None:
    """ "starter for 3 kg flour at 20 %": the grams a share of flour comes to; None where the line is a dough's."""
    share = bound.base("share_pct")
    if share is None:
        return masses
    if masses.flour is None or masses.water is not None or masses.needed is not None:
        return None  # a share of the flour without the flour is a dough's
    timed = hours.ripe_at or hours.fed_at or hours.use_at or bound.said("feeding:feed", "feeding:jar")
    if bound.first("hydration_pct") is not None or not timed:
        return None
    return replace(masses, needed=masses.flour * share / 100, flour=None)


def _fed_or_built(bound: Bound, masses: FeedMasses, hours: FeedHours, ratio: bool) -> bool:
    """Whether a starter is fed, built or waited for, rather than weighed into a dough."""
    feeds, follows = bound.said(*FEEDING), bound.context.focus == "feed"
    clocked = bool(bound.of("moments") or bound.first("in_min") or bound.first("window"))
    timed = clocked or bound.first("temp_c") or ratio
    hydration = bound.base("hydration_pct")
    if masses.flour is not None and masses.water is None and not feeds and not timed and hydration is not None:
        return False  # "900 g flour and 180 g starter, want 68 %" is a dough
    named = bound.said("feeding:feed", "feeding:jar", "feeding:turn", "feeding:cold")
    bare = not any(p.kind == "amount" or p.ids("ask") for p in bound.phrases)
    if bound.context.has_bake and not follows and not named and bare:
        return False  # "with a stiff starter" changes the dough in hand
    if hydration is not None and hydration < 35:
        return False  # "20 % starter" is a dough's share, no starter's water
    starter = bound.said("cue:starter", "ingredient:starter*") or "starter" in bound.text.lower()
    if bound.said("feeding:cold") and not (starter or bound.said("feeding:feed") or ratio or follows):
        return False
    if follows and not feeds and not ratio and not bound.hits and not bound.said("feeding:keep_none"):
        return False
    return feeds or ratio or follows or _wanted(bound, masses, hours, starter)


def _wanted(bound: Bound, masses: FeedMasses, hours: FeedHours, starter: bool) -> bool:
    """Whether starter is wanted: so much by an hour, or its ripeness is asked about."""
    ripens = bound.said("look:ripe", "look:use_it", "ask:when")
    kept = masses.keep is not None
    if bound.said("feeding:stages") and masses.have is not None and masses.needed is not None:
        return True  # so much made of so little
    if not starter and not (kept and ripens and masses.needed is not None and hours.ripe_at is not None):
        return False
    due = hours.ripe_at is not None or kept or bound.first("in_min") or bound.first("hydration_pct")
    clocked = bool(bound.of("moments") or bound.first("in_min"))
    poured = masses.flour is not None and masses.water is not None
    return bool((masses.needed is not None and due) or (ripens and (clocked or poured)))


def _moment_of(hit: Hit | None) -> Moment | None:
    return hit.amount.moment if hit is not None and hit.amount is not None else None


def _pace(bound: Bound) -> PaceRequest | None:
    minutes = bound.base("minutes")
    if minutes is None or bound.asks():
        return None
    degrees = degrees_of(bound, ("temp_c",))
    hit = bound.first("temp_c")
    peaked = bound.said("look:peaked")
    if not peaked and not (
        bound.said("cue:starter", "ingredient:starter*") and bound.said("look:doubled", "look:tripled")
    ):
        return None
    rise = None if peaked else 200.0 if bound.said("look:tripled") else 100.0
    return PaceRequest(minutes, degrees.celsius(hit.amount) if hit else None, parts_of(bound.first("ratio")), rise)


def _away(bound: Bound) -> AwayRequest | None:
    hit = bound.first("minutes")
    if hit is None and "starter" not in bound.text.lower() and not bound.said("cue:starter", "ingredient:starter*"):
        return None
    return AwayRequest(amount_base(hit.amount) if hit else None)


FRAMES = (
    Frame(
        FeedRequest,
        "feed",
        build,
        slots=SLOTS,
        cues={
            "feeding:feed": 2.2, "feeding:ratio": 2.4, "feeding:jar": 1.2, "feeding:keep": 0.6,
            "feeding:stiff": 1.6, "feeding:turn": 1.0, "feeding:equal_parts": 1.0,
            "feeding:keep_none": 3.0, "feeding:twice": 1.6, "feeding:daily": 1.0, "feeding:stages": 0.6,
            "ask:how_warm": 0.1,
            "feeding:cold": 0.6, "cue:stiff": 0.3,
            "cue:liquid_starter": 0.3, "look:ripe": 1.1,
            "look:peaked": 1.1, "cue:total": 0.1, "feeding:away": 0.0, "away:*": 0.0,
            "clocked:to_bed": 0.2, "clocked:leave": 0.2,
            "look:use_it": 0.8, "ask:when": 1.2, "ask:how_much": 0.5,
            "ask:how_to": 0.5, "ask:what": 0.3, "ask:can_i": 0.8,
            "ask:is_it": 0.3, "ask:what_if": 0.5, "cue:starter": 1.2, "ingredient:starter*": 0.8,
            "cue:kitchen": 0.9, "cue:place": 0.3, "act:change": 0.9, "link:instead": 0.3,
            "cue:limit": 0.1, "cue:only_this": 0.2, "act:make": 0.3, "act:use": 0.2, "cue:dough": 0.2,
            "cue:formula": 0.3, "cue:portions": 0.1, "ingredient:flour*": 0.2,
            "ingredient:water": 0.2, "cue:flour": 0.2, "cue:water": 0.2, "cue:fridge": 0.1, "act:always": -2.0,
            "cue:hydration": 0.1, "blend:even": 1.0, "ask:how_long": 0.4,
            "heat:degrees": 0.1, "span:*": 0.1, "look:done": 0.2, "look:doubled": 0.4, "look:tripled": 0.4,
            "look:risen": 0.2, "ask:*": 0.2,
        },
        needs=("feeding:feed", "feeding:jar", "feeding:stiff", "feeding:turn", "feeding:ratio", "slot:ratio",
        "feeding:cold", "cue:starter", "ingredient:starter*", "feeding:keep_none", "feeding:twice",
        "feeding:stages"),
        rules_out=("symptom:*", "cue:use_up", "feeding:often"),
    ),
    Frame(
        PaceRequest,
        "pace",
        _pace,
        slots={
            "minutes": Slot({"time": 1.0}, bare=0.6, cues=("look:peaked",), low=60, high=2000),
            "temp_c": SLOTS["temp_c"],
            "ratio": SLOTS["ratio"],
        },
        cues={"look:peaked": 2.4, "look:doubled": 1.2, "look:tripled": 1.2, "clocked:*": 0.2, "look:ripe": 0.2,
        "cue:starter": 0.6, "ingredient:starter*": 0.6, "feeding:feed": 0.6, "ask:when": -0.5, "cue:kitchen": 0.2,
        "act:always": 0.5},
        needs=("look:peaked", "look:doubled", "look:tripled"),
        rules_out=("ask:how*", "ask:what*", "ask:can_i", "ask:is_it", "ask:too*", "ask:lasts", "symptom:*", "stage:*",
        "ingredient:yeast*"),
        base=9.0,
        help_topic="feed",
    ),
    Frame(
        AwayRequest,
        "away",
        _away,
        slots={"minutes": Slot({"time": 1.0}, bare=0.8, cues=("feeding:away",), low=1000, high=800000)},
        cues={"feeding:away": 3.4, "cue:starter": 0.8, "ingredient:starter*": 0.8, "ask:what": 0.4,
        "ask:how_to": 0.5, "ask:how_long": 0.5, "ask:can_i": 0.5,
              "cue:only_this": 0.1, "act:start_over": 0.0, "feeding:feed": 0.3, "cue:fridge": 0.2,
              "feeding:cold": 0.2, "stage:retard": 0.2, "ask:*": 0.2, "mistake:rescue": 0.2},
        needs=("feeding:away",),
        rules_out=("symptom:*",),
        help_topic="feed",
    ),
    Frame(
        DiscardRequest,
        "discard",
        lambda bound: DiscardRequest(often=bound.said("feeding:often")),
        slots={"temp_c": SLOTS["temp_c"]},
        cues={"feeding:less_discard": 2.4, "feeding:often": 3.0, "heat:degrees": 0.1, "ingredient:starter*": 0.3,
        "cue:discard": 0.6, "ask:how_to": 0.5, "ask:what": 0.5, "ask:can_i": 0.2,
        "cue:starter": 0.3, "feeding:keep": 0.3,
              "cue:bigger": 0.1, "feeding:feed": 0.2, "ask:why": 0.2, "act:make": 0.2, "ask:*": 0.2,
              "mistake:rescue": 0.1},
        needs=("feeding:less_discard", "feeding:often"),
        base=3.0,
        rules_out=("symptom:*",),
        help_topic="feed",
    ),
)  # fmt: skip
