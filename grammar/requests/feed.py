"""Feeding the starter: builds for an amount and an hour, its pace, keeping it while away, little discard."""

from __future__ import annotations

from dataclasses import dataclass, fields, replace

from grammar.frames import Bound, Frame, Hit, Slot, amount_base, fits
from grammar.moments import Moment, minute_of_day
from grammar.phrases import Phrase
from grammar.requests.timing import said
from grammar.requests.warmth import degrees_of

LEAST_BARE_G = 25
"""A number below this without a unit is not taken for grams of starter."""
STARTER = ("ingredient:starter*", "cue:starter")


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
    degrees_said: tuple[str, ...] = ()

    def onto(self, earlier: object, bound: Bound) -> FeedRequest:
        """This line as a change to the build before it."""
        if not isinstance(earlier, FeedRequest):
            return self
        whole = bound.said("feeding:feed", "feeding:jar") and (self.ripe_at or self.needed_g or self.ratio)
        if whole and not bound.said("act:change", "link:instead"):
            return self
        changes = {one.name: getattr(self, one.name) for one in fields(self) if said(getattr(self, one.name))}
        kept = earlier
        if self.ratio is not None:
            kept = replace(kept, seed_g=None, flour_g=None, water_g=None)
        if self.ripe_at is not None or self.ripe_in_min is not None:
            kept = replace(kept, ripe_at=None, ripe_in_min=None)
        return replace(kept, **changes)


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


SLOTS = {
    "needed_g": Slot(
        {"mass": 1.0, "num": 0.2}, cues=(*STARTER, "feeding:stiff"), bare=0.4, low=5, high=20000,
        links={"change": 0.6, "at": -1.0},
    ),
    "have_g": Slot(
        {"mass": 1.0}, cues=("feeding:jar", "cue:limit", "cue:only_this"), bare=-1.2, low=0, high=5000,
        links={"from": 2.6}, weight=0.2,
    ),
    "seed_g": Slot({"mass": 0.9}, cues=(*STARTER, "feeding:jar"), low=1, high=5000, weight=-1.0),
    "keep_g": Slot({"mass": 1.0, "num": 0.1}, cues=("feeding:keep",), low=1, high=2000, weight=0.1),
    "flour_g": Slot({"mass": 1.0}, cues=("ingredient:flour*", "cue:flour"), low=1, high=20000, weight=0.4),
    "water_g": Slot({"mass": 1.0}, cues=("ingredient:water", "cue:water"), low=1, high=20000),
    "ratio": Slot({"ratio": 1.2}, bare=0.6, cues=("feeding:*", "cue:formula", *STARTER), links={"at": 0.2}, weight=0.3),
    "temp_c": Slot(
        {"temperature": 1.0, "num": 0.4}, cues=("cue:kitchen", "look:proofing_box", "heat:degrees"), bare=0.4,
        low=7, high=45,
        links={"at": 0.6, "in": 0.2, "for": -1.0, "by": -1.0},
    ),
    "hydration_pct": Slot(
        {"pct": 1.0, "num": 0.05}, cues=("cue:hydration", "feeding:stiff", "cue:starter_hydration", *STARTER,
        "cue:stiff"), bare=0.4, low=40, high=200,
        shares=True,
    ),
    "now_at": Slot({"moment": 1.3}, cues=("span:now",), weight=0.4),
    "seed_pct": Slot({"pct": 0.9}, cues=("feeding:turn", *STARTER), low=40, high=200, shares=True, weight=-0.6),
    "moments": Slot({"moment": 1.0}, bare=0.6, cues=("look:use_it", "look:ripe", "feeding:feed"), many=True,
    links={"by": 0.5, "for": 0.5, "at": 0.2}),
    "in_min": Slot({"time": 0.9}, bare=0.5, weight=0.3, cues=("look:ripe",), low=20, high=10000),
    "bread": Slot(term=("bread:*", "piece:*"), many=True, weight=-0.3),
    "share_pct": Slot({"pct": 1.0}, cues=(*STARTER, "ingredient:flour*", "cue:flour"), bare=0.2, low=3, high=39,
    shares=True, weight=-0.2),
    "thing": Slot(term=("ingredient:flour*", "cue:flour", "ingredient:water", "cue:water"), many=True, weight=-0.6),
}  # fmt: skip


_FEEDING = ("feeding:feed", "feeding:jar", "feeding:stiff", "feeding:turn", "feeding:cold", "feeding:ratio")
"""Words that say a starter is fed or built."""


def parts_of(hit: Hit | None) -> tuple[float, float, float] | None:
    """The three parts of a feed said as a ratio."""
    if hit is None or hit.amount is None:
        return None
    parts = next((t.value for t in hit.amount.tokens if isinstance(t.value, tuple)), None)
    # "1:5" names no water: as much of it as of flour
    return (float(parts[0]), float(parts[1]), float(parts[-1])) if parts else None


def _before(bound: Bound, phrase: Phrase, *patterns: str) -> bool:
    """Whether the nearest word before a phrase (small words skipped) fits, with no figure of its kind between."""
    for one in reversed(bound.phrases[: bound.phrases.index(phrase)]):
        if one.kind == "label":
            return fits(one, patterns)
        if one.kind == "amount" and one.moment is not None:
            return False
    return False


def _fed_then(bound: Bound, phrase: Phrase, others: bool) -> bool:
    """Whether a clock time is when it is fed: "if I feed at 11pm", "if I feed 1:3:3 at 11pm", "feed tonight at 10"."""
    place = bound.phrases.index(phrase)
    before = bound.phrases[place - 1] if place else None
    if before is None:
        return False
    if others and "feed" in before.ids("feeding"):
        return True
    if "at" not in before.ids("link") or not bound.said("look:ripe", "ask:when_ready", "ask:can_i"):
        return False
    label = next((p for p in reversed(bound.phrases[: place - 1]) if p.kind in ("label", "sep")), None)
    return label is not None and "feed" in label.ids("feeding")


def _moment_of(hit: Hit | None) -> Moment | None:
    return hit.amount.moment if hit is not None and hit.amount is not None else None


def _a_count(hit: Hit | None) -> bool:
    """Whether an amount is a small number with no unit: rolls, heads or an hour, hardly grams of starter."""
    said_g = hit.amount.quantity if hit is not None and hit.amount is not None else None
    return said_g is not None and said_g.unit is None and said_g.value < LEAST_BARE_G


def _jar(bound: Bound, needed: float | None, have: float | None) -> tuple[float | None, float | None]:
    """What is needed and what the jar holds: "15 g in the jar, 180 g wanted" and "the jar has 15 g, I need 180 g"."""
    if needed is None or have is None or have <= needed:
        return needed, have
    place = next((i for i, p in enumerate(bound.phrases) if "jar" in p.ids("feeding")), None)
    if place is None or bound.phrases[place].text.lower().split()[-1] in ("has", "holds"):
        return needed, have
    before = next((p for p in reversed(bound.phrases[:place]) if p.kind == "amount"), None)
    if before is not None and amount_base(before) == needed:
        return have, needed
    return needed, have


def build(bound: Bound) -> FeedRequest | None:
    """The request; None where nothing is fed, built or waited for."""
    degrees = degrees_of(bound, ("temp_c",))
    temp_hit = bound.first("temp_c")
    ratio = parts_of(bound.first("ratio"))
    if ratio is None and bound.said("blend:even"):
        ratio = (1.0, 1.0, 1.0)  # equal parts of a jar are seed, flour and water
    needed, have, keep = bound.base("needed_g"), bound.base("have_g"), bound.base("keep_g")
    if _a_count(bound.first("needed_g")):
        return None
    needed, have = _jar(bound, needed, have)
    seed, flour, water = bound.base("seed_g"), bound.base("flour_g"), bound.base("water_g")
    feeds = bound.said(*_FEEDING)
    timed = bound.of("moments") or bound.first("temp_c") or bound.first("in_min") or ratio
    if flour is not None and not feeds and not timed and bound.first("hydration_pct"):
        return None  # "900 g flour and 180 g starter, want 68 %" is a dough
    ripe_word = bound.said("look:ripe", "look:use_it", "ask:when")
    follows = bound.context.focus == "feed"
    named = bound.said("feeding:feed", "feeding:jar", "feeding:turn", "feeding:cold")
    bare = not any(p.kind == "amount" or p.ids("ask") for p in bound.phrases)
    if bound.context.has_bake and not follows and not named and bare:
        return None  # "with a stiff starter" changes the dough in hand
    fed = any(
        "feed" in p.ids("feeding") and bool({"fed", "refreshed"} & set(p.text.lower().split())) for p in bound.phrases
    )
    moments = [hit.amount for hit in bound.of("moments") if hit.amount is not None and hit.amount.moment is not None]
    fed_at = use_at = ripe_at = None
    temp_c = degrees.celsius(temp_hit.amount) if temp_hit else None
    in_min = bound.base("in_min")
    if bound.said("feeding:ratio") and len(moments) == 2 and in_min is None:
        times = [minute_of_day(phrase.moment) for phrase in moments if phrase.moment is not None]
        if len(times) == 2 and times[0] is not None and times[1] is not None and times[0] != times[1]:
            in_min = float((times[1] - times[0]) % 1440)  # "at 8am and 8pm": what lasts from one to the next
            moments = []
    use_after = None
    if in_min is not None and bound.said("look:use_it") and (ratio or fed):
        in_min, use_after = None, in_min
    for phrase in moments:
        moment = phrase.moment
        if phrase.text.isdigit() and int(phrase.text) >= 12 and temp_c is None:
            temp_c = degrees.value_c(float(phrase.text), None)  # "when does it peak at 22"
            continue
        if (fed_at is None and _fed_then(bound, phrase, len(moments) > 1)) or (
            fed
            and fed_at is None
            and (len(moments) > 1 or bound.said("ask:when", "look:ripe"))
            and not _before(bound, phrase, "look:use_it", "look:ripe")
        ):
            fed_at = moment
        elif (
            bound.said("look:use_it")
            or (fed and bound.said("ask:is_it"))
            or (bound.said("ask:can_i") and fed_at is not None)
        ):
            use_at = moment
        elif ripe_at is None:
            ripe_at = moment
    if bound.said("ask:can_i") and fed_at is not None and use_at is None and ripe_at is not None:
        use_at, ripe_at = ripe_at, None  # "can I mix at 6pm if I feed at noon"
    share = bound.base("share_pct")
    if flour is not None and water is None and share is not None and needed is None:
        if bound.first("hydration_pct") is not None or not (moments or bound.said("feeding:feed", "feeding:jar")):
            return None
        needed, flour = flour * share / 100, None  # "starter for 3 kg flour at 20 %"
    elif share is not None:
        return None  # a share of the flour without the flour is a dough's
    if flour is not None and water is not None:
        seed = seed if seed is not None else needed if needed is not None else have
        needed, have = None, None
    starter_said = bound.said("cue:starter", "ingredient:starter*") or "starter" in bound.text.lower()
    if not feeds and not ratio and not follows:
        wanted = needed is not None and (
            ripe_at is not None or keep is not None or bound.first("in_min") or bound.first("hydration_pct")
        )
        if not (
            starter_said
            and (
                wanted
                or (ripe_word and (moments or bound.first("in_min")))
                or (flour is not None and water is not None and ripe_word)
            )
        ):
            return None
    hydration = bound.base("hydration_pct")
    if hydration is not None and hydration < 35:
        return None  # "20 % starter" is a dough's share, no starter's water
    if bound.said("feeding:cold") and not (starter_said or bound.said("feeding:feed") or ratio or follows):
        return None
    if follows and not feeds and not ratio and not bound.hits:
        return None
    return FeedRequest(
        needed_g=needed,
        have_g=have,
        keep_g=keep,
        seed_g=seed if flour is not None else None,
        flour_g=flour if water is not None else None,
        water_g=water if flour is not None else None,
        ratio=ratio,
        temp_c=temp_c,
        ripe_at=ripe_at,
        ripe_in_min=in_min,
        fed_at=fed_at,
        use_at=use_at,
        use_after_min=use_after,
        now_at=_moment_of(bound.first("now_at")),
        ratio_asked=bound.said("feeding:ratio"),
        overnight="overnight" in bound.text.lower(),
        hydration_pct=hydration,
        seed_hydration_pct=bound.base("seed_pct"),
        cold=bound.said("feeding:cold"),
        stiff=bound.said("feeding:stiff", "cue:stiff"),
        degrees_said=degrees.remarks,
    )


def _pace(bound: Bound) -> PaceRequest | None:
    minutes = bound.base("minutes")
    if minutes is None:
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
    if hit is None and not bound.said("cue:starter", "ingredient:starter*"):
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
            "feeding:stiff": 1.6, "feeding:turn": 1.0, "feeding:cold": 0.6, "cue:stiff": 0.3,
            "cue:liquid_starter": 0.3, "look:ripe": 1.1, "look:use_it": 0.8, "ask:when": 1.2, "ask:how_much": 0.5,
            "ask:how_to": 0.5, "ask:what": 0.3, "ask:can_i": 0.8,
            "ask:is_it": 0.3, "ask:what_if": 0.5, "cue:starter": 1.2, "ingredient:starter*": 0.8,
            "cue:kitchen": 0.9, "act:change": 0.9, "link:instead": 0.3,
            "cue:limit": 0.1, "cue:only_this": 0.2, "act:make": 0.3, "act:use": 0.2, "cue:dough": 0.2,
            "cue:formula": 0.3, "cue:portions": 0.1, "ingredient:flour*": 0.2,
            "ingredient:water": 0.2, "cue:flour": 0.2, "cue:water": 0.2, "cue:fridge": 0.1, "act:always": -2.0,
            "cue:hydration": 0.1, "blend:even": 1.0, "ask:how_long": 0.4,
            "heat:degrees": 0.1, "span:*": 0.1, "look:done": 0.2, "look:doubled": 0.4, "look:tripled": 0.4,
            "look:risen": 0.2, "ask:*": 0.2,
        },
        needs=("feeding:feed", "feeding:jar", "feeding:stiff", "feeding:turn", "feeding:ratio", "slot:ratio",
        "feeding:cold", "cue:starter", "ingredient:starter*"),
        rules_out=("symptom:*", "look:peaked", "feeding:away", "cue:use_up", "feeding:often"),
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
        rules_out=("ask:*", "symptom:*", "stage:*", "ingredient:yeast*"),
        base=9.0,
        help_topic="feed",
    ),
    Frame(
        AwayRequest,
        "away",
        _away,
        slots={"minutes": Slot({"time": 1.0}, bare=0.8, cues=("feeding:away",), low=1000, high=800000)},
        cues={"feeding:away": 2.2, "cue:starter": 0.8, "ingredient:starter*": 0.8, "ask:what": 0.4,
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
