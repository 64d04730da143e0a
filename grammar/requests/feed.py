"""Feeding the starter: a build for an amount and an hour, in a ratio or from what the jar holds."""

from __future__ import annotations

from dataclasses import dataclass, replace

from grammar.follow import Follow
from grammar.frames import Bound, Frame, Hit, Line, Own, never_by_slots
from grammar.moments import Moment
from grammar.ratios import LEAST_POURED_G
from grammar.requests.feed_hours import FeedHours, hours_said
from grammar.requests.feed_masses import FeedMasses, masses_said, ratio_of
from grammar.requests.feed_slots import CUES, FEEDING, NEEDS, RULED_OUT, SLOTS
from grammar.requests.hour_put import another_hour
from grammar.requests.warmth import degrees_of

_FORGETS = {
    "ratio": ("seed_g", "flour_g", "water_g"),
    "ripe_at": ("ripe_at", "ripe_in_min"),
    "ripe_in_min": ("ripe_at", "ripe_in_min"),
    "ratio_asked": ("ratio", "seed_g", "flour_g", "water_g"),
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
    not_before: Moment | None = None  # the first hour somebody can feed
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


def _of_its_own(line: FeedRequest, earlier: FeedRequest, bound: Bound) -> bool:
    """Whether a line tells a build of its own, whatever was said of the one before."""
    timed = bound.said("look:ripe", "look:use_it") or line.fed_at or line.temp_c is not None
    whole = bound.said("feeding:feed", "feeding:jar") and (line.ripe_at or line.needed_g or (line.ratio and timed))
    return bool(whole) and not bound.said("act:change", "link:instead")


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
    ratio = ratio_of(bound.first("ratio"))
    if ratio is None and bound.said("blend:even", "feeding:equal_parts"):
        ratio = (1.0, 1.0, 1.0)  # equal parts of a jar are seed, flour and water
    masses = masses_said(bound, ratio is not None)
    if masses is None:
        return None
    temp_hit = bound.first("temp_c")
    told = ratio is not None or (masses.flour is not None and masses.water is not None)
    hours = hours_said(bound, told, degrees, temp_hit is not None)
    shared = _by_share(bound, masses, hours)
    if shared is None or not _fed_or_built(bound, shared, hours, ratio is not None):
        return None
    masses = shared
    if ratio is not None and ratio[0] >= LEAST_POURED_G:  # behind "fed", figures of this size are grams
        masses, ratio = replace(masses, seed=ratio[0], flour=ratio[1], water=ratio[2]), None
    poured = masses.flour is not None and masses.water is not None
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
        not_before=hours.not_before,
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
    if bound.said("feeding:keep_none") and masses.needed is not None:
        return True  # what is wanted of it, and nothing kept
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


def _for_another_hour(line: Line) -> Own | None:
    """Another hour put for the one the last build is wanted for."""
    hour = another_hour(line) if line.context.focus == "feed" else None
    asked = any("ratio" in phrase.ids("feeding") for phrase in line.phrases)
    return None if hour is None else Own(FeedRequest(ripe_at=hour, ratio_asked=asked), _PUT)


_PUT = 12.0
_FOLLOW = Follow(alone=_of_its_own, forgets=_FORGETS)
FRAME = Frame(
    FeedRequest, "feed", build, slots=SLOTS, cues=CUES, needs=NEEDS, rules_out=RULED_OUT,
    follow=_FOLLOW,
)  # fmt: skip
FRAMES = (Frame(FeedRequest, "feed", never_by_slots, reads=_for_another_hour, follow=_FOLLOW),)
