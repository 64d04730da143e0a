"""How long a stage takes: bulk, proof, retard, preferments, and the plain minutes of baking, boiling, cooling."""

from __future__ import annotations

import re
from dataclasses import dataclass, fields, replace

from grammar.frames import Bound, Frame, Hit, Slot, amount_base, fits
from grammar.moments import Moment, minute_of_day
from grammar.requests.warmth import WARMEST_C, Degrees, degrees_of

STARTER = ("ingredient:starter*", "cue:starter")
SALT = ("ingredient:salt*", "cue:salt")
YEAST = ("ingredient:yeast*", "yeast_kind:*", "cue:leaven")
FRIDGE_C = 4.0
"""Dough straight from the fridge."""
OVERNIGHT_MIN = 600.0
"""A night on the counter, where no hours were said."""
WHOLEGRAIN = (
    "ingredient:flour_whole_wheat",
    "ingredient:flour_white_whole_wheat",
    "ingredient:flour_rye_medium",
    "ingredient:flour_rye_dark",
    "ingredient:flour_spelt*",
)
FERMENTS = ("bulk", "proof", "preferment", "starter")
"""Stages whose length is computed by fermentation."""


@dataclass(frozen=True, slots=True)
class TimingRequest:
    """how long will bulk take at 19 with 15% starter
    is 4 h at 26 too long
    dough is 26, kitchen 18, 20 % starter: how long is bulk
    how long until it doubles at 24 with 1 % instant yeast
    how long do I bake the rings
    how do I see a third in a round bowl

    Only what was said; None means unsaid. Temperatures in degrees Celsius, times in minutes, shares in % of flour.
    """

    stage: str | None = None
    temp_c: float | None = None
    later_c: float | None = None  # the kitchen overnight, or what it falls to
    later_after_min: float | None = None
    fridge: bool = False
    fridge_c: float | None = None
    fridge_after_min: float | None = None
    dough_c: float | None = None
    target_c: float | None = None  # cooled down to
    starter_pct: float | None = None
    starter_hydration_pct: float | None = None
    yeast: tuple[tuple[str, float], ...] = ()  # (kind of yeast, % of flour)
    yeast_ml: tuple[tuple[str, float], ...] = ()  # yeast by the spoon, with the flour it is for
    flour_g: float | None = None
    hydration_pct: float | None = None
    salt_pct: float | None = None
    sugar_pct: float | None = None
    rise_pct: float | None = None
    ratio: tuple[float, float, float] | None = None
    mass_g: float | None = None
    risen_now_pct: float | None = None  # "only up 20 % after 4 h"
    wished_c: float | None = None  # "came out at 29, wanted 25"
    asked_min: float | None = None  # "is 4 h too long"
    elapsed_min: float | None = None
    until: Moment | None = None
    altitude_m: float | None = None
    bread: str | None = None
    piece: str | None = None
    preferment: str | None = None
    wholegrain: bool = False
    how_to_see: bool = False
    judged: bool = False
    fan: bool = False
    heavy: bool = False  # a stone or an iron pot is heated too
    begun_at: Moment | None = None
    since: bool = False  # begun_at has gone by
    bare_pct: float | None = None  # a percentage of nothing named: starter, or the yeast asked about before
    solve: str | None = None  # what is to be found: "starter_pct", "temp_c", "rise_pct" or a kind of yeast
    frozen: bool = False
    litres: float | None = None  # water in a pot that is to boil
    power_kw: float | None = None
    ring: str | None = None  # "gas", "electric", "induction", "kettle"
    grain_pct: float | None = None
    temp_kept: bool = False  # the temperature is that of the question before; a kitchen that is set goes before it
    spread_said: tuple[str, ...] = ()  # how bare degrees were read

    def onto(self, earlier: object, bound: Bound) -> TimingRequest:
        """This line as a change to the question before it: what it says replaces the same there."""
        if not isinstance(earlier, TimingRequest):
            return self
        if self.stage is not None and self.stage != earlier.stage and _whole(self):
            return self
        changes = {one.name: getattr(self, one.name) for one in fields(self) if said(getattr(self, one.name))}
        kept = earlier
        if self.bare_pct is not None and earlier.yeast and not earlier.starter_pct and self.bare_pct <= 5:
            changes.pop("starter_pct", None)  # "and with 0.5 %?" after a yeasted dough
            changes["yeast"] = ((earlier.yeast[0][0], self.bare_pct),)
        elif self.bare_pct is not None and self.starter_pct is None:
            changes["starter_pct"] = self.bare_pct
        if self.stage is not None and self.stage != earlier.stage:
            kept = replace(kept, rise_pct=None, asked_min=None, elapsed_min=None, how_to_see=False)
        if earlier.stage == "retard" and self.stage is None and (self.temp_c is not None or self.later_c is not None):
            kept = replace(kept, stage="bulk", fridge=False, fridge_c=None)
        if self.piece is not None or self.bread is not None:
            kept = replace(kept, piece=None, bread=None)
        if self.yeast and self.starter_pct is None:
            kept = replace(kept, starter_pct=None)
        if changes.get("starter_pct") and not self.yeast:
            kept = replace(kept, yeast=())
        if self.temp_c is not None and self.later_c is None:
            kept = replace(kept, later_c=None, later_after_min=None)
        if self.temp_c is not None and (self.judged or self.stage is not None):
            kept = replace(kept, fridge=False, fridge_after_min=None, fridge_c=None, dough_c=None, elapsed_min=None)
        if self.asked_min is None and not self.judged and self.solve is None:
            kept = replace(kept, judged=False, asked_min=None, until=None, solve=None)
        if self.how_to_see is False and changes:
            kept = replace(kept, how_to_see=False)
        asked_anew = self.stage is not None and bound.said("ask:how_long") and not bound.said("ask:what_if", "link:and")
        kept = replace(kept, temp_kept=self.temp_c is None and asked_anew and earlier.temp_c is not None)
        return replace(kept, **changes)


def said(value: object) -> bool:
    """Whether a field holds something that was said; nought is something."""
    return not (value is None or value is False or value == ())


def _whole(request: TimingRequest) -> bool:
    return any(
        value is not None
        for value in (request.temp_c, request.starter_pct, request.rise_pct, request.bread, request.mass_g)
    )


SLOTS = {
    "temp_c": Slot(
        {"temperature": 1.0, "num": 0.4}, cues=("cue:kitchen", "look:proofing_box", "span:now", "cue:oven",
        "heat:degrees"),
        bare=0.5, low=-30, high=320, links={"at": 0.7, "in": 0.3, "over": 0.1}, many=True,
    ),
    "later_c": Slot(
        {"temperature": 1.0, "num": 0.4}, cues=("span:overnight", "look:falling"), low=-5, high=95, weight=0.1,
    ),
    "fridge_c": Slot({"temperature": 1.0, "num": 0.3}, cues=("cue:fridge",), low=-5, high=14),
    "dough_c": Slot(
        {"temperature": 1.0, "num": 0.35}, cues=("look:loaf_of", "look:came_out", "heat:dough_temp", "cue:dough"),
        low=1, high=110,
        links={"at": 0.2},
    ),
    "starter_pct": Slot({"pct": 1.0, "num": 0.3}, cues=STARTER, bare=0.35, low=1, high=44, links={"with": 0.4,
    "change": 0.2}),
    "starter_much_pct": Slot({"pct": 0.9, "num": 0.2}, cues=STARTER, low=45, high=150),
    "yeast_pct": Slot({"pct": 1.0, "num": 0.2}, cues=YEAST, low=0.01, high=10, many=True),
    "hydration_pct": Slot(
        {"pct": 1.0, "num": 0.3}, cues=("cue:hydration", "ingredient:water", "cue:water"), links={"at": 0.9},
        bare=0.2, low=45, high=115,
    ),
    "starter_hydration_pct": Slot({"pct": 1.0, "num": 0.2}, cues=("cue:starter_hydration",), low=40, high=200),
    "salt_pct": Slot({"pct": 1.0, "num": 0.3}, cues=SALT, low=0, high=4),
    "sugar_pct": Slot({"pct": 1.0}, cues=("ingredient:sugar*", "ingredient:honey"), low=0, high=40),
    "rise_pct": Slot(
        {"pct": 0.9, "share": 1.2}, cues=("look:risen", "stage:bulk", "stage:proof"), bare=-0.3, low=5, high=400,
        links={"by": 1.4, "to": 1.2, "until": 1.0}, weight=0.1,
    ),
    "lasts_min": Slot({"time": 1.0}, bare=0.6, cues=("stage:*", "ask:too_long"), low=1, high=45000, weight=0.0),
    "after_min": Slot({"time": 0.6}, cues=("cue:fridge",), bare=0.2, low=5, high=4000, links={"after": 2.0,
    "for": 0.4}),
    "elapsed_min": Slot({"time": 1.0}, cues=("look:so_far",), low=1, high=5000, weight=0.2),
    "mass_g": Slot({"mass": 1.0}, cues=("cue:dough", "piece:*", "bread:*", "cue:piece_mass"), bare=0.5, low=15,
    high=40000),
    "pieces": Slot({"num": 0.4}, cues=("piece:*", "bread:*", "cue:pieces"), low=1, high=400, role="count",
    weight=-0.4, links={"at": -2.5, "in": -1.5}),
    "starter_g": Slot({"mass": 1.0}, cues=STARTER, low=1, high=20000),
    "flour_g": Slot({"mass": 1.0, "num": 0.3}, cues=("ingredient:flour*", "cue:flour"), low=50, high=60000),
    "risen_now": Slot({"pct": 1.2, "share": 1.2}, cues=("cue:risen",), low=1, high=300, weight=0.4),
    "wished_c": Slot({"temperature": 1.0, "num": 0.5}, cues=("mistake:meant",), low=15, high=35),
    "water_g": Slot({"mass": 1.0}, cues=("ingredient:water", "cue:water"), low=20, high=60000),
    "salt_g": Slot({"mass": 1.0}, cues=SALT, low=0.5, high=2000),
    "yeast_g": Slot({"mass": 1.0}, cues=YEAST, low=0.05, high=500),
    "yeast_ml": Slot({"volume": 1.0}, cues=YEAST, low=0.2, high=100),
    "yeast_bare_pct": Slot({"pct": 0.9}, bare=0.2, low=0.01, high=0.99),
    "grain_pct": Slot({"pct": 1.0, "share": 0.8}, cues=("ingredient:flour*",), low=1, high=100),
    "begun_at": Slot({"moment": 1.0}, cues=("look:begun",), links={"at": 0.2}),
    "old": Slot({"num": 0.5, "pct": 0.5, "temperature": 0.5}, bare=-1.5, links={"instead_of": 3.5}),
    "window": Slot({"window": 1.0}, bare=0.4),
    "altitude_m": Slot({"length": 1.0, "num": 0.3}, cues=("cue:altitude",), bare=0.1, low=100, high=600000),
    "ratio": Slot({"ratio": 1.2}, bare=0.5, cues=("look:ripe", *STARTER, "feeding:feed")),
    "until": Slot({"moment": 0.6}, bare=0.2, cues=("look:ripe",), links={"by": 0.4, "at": 0.2}),
    "stage": Slot(term=("stage:*",), many=True, weight=0.1),
    "bread": Slot(term=("bread:*",)),
    "piece": Slot(term=("piece:*",), many=True),
    "fridge_word": Slot(term=("cue:fridge", "step_left:retard", "so_far:shaped"), weight=-0.5),
    "cold": Slot(term=("feeding:cold",), weight=-0.4),
    "preferment": Slot(term=("preferment:*",)),
    "grain": Slot(term=WHOLEGRAIN, weight=-0.3),
    "fan": Slot(term=("cue:fan",)),
    "without": Slot(term=("ingredient:salt*", "cue:salt", "ingredient:starter*", "cue:starter",
    "ingredient:yeast*"), without=True, many=True),
}  # fmt: skip
_TEMPS = ("temp_c", "later_c", "fridge_c", "dough_c", "wished_c")


def _ratio(hit: Hit | None) -> tuple[float, float, float] | None:
    if hit is None or hit.amount is None:
        return None
    parts = next((t.value for t in hit.amount.tokens if isinstance(t.value, tuple)), None)
    return (float(parts[0]), float(parts[1]), float(parts[2])) if parts else None


def _yeast_kind(hit: Hit | None) -> str:
    """The kind of yeast a figure is of; instant where none was named."""
    if hit is None:
        return "yeast_instant"
    return (*hit.ids("ingredient"), *hit.ids("yeast_kind"), "yeast_instant")[0]


def _named(bound: Bound, kind: str) -> list[str]:
    """Every word of a kind in the line, whether it stands alone or beside a figure."""
    return [name for phrase in bound.phrases if not phrase.negated for name in phrase.ids(kind)]


def _stage(bound: Bound) -> str | None:
    """The stage asked about: the most particular one named; a preferment's own."""
    names = _named(bound, "stage")
    if bound.first("preferment") is not None and not {"bake", "boil"} & set(names):
        return "preferment"
    if not names:
        return None
    rising = [name for name in names if name in ("bulk", "proof")]
    if rising and "bake" in names and (bound.first("starter_pct") or bound.first("temp_c")):
        return rising[-1]  # "how long till I can bake if the bulk is at 24"
    specific = [name for name in names if name not in ("bulk",)]
    return specific[0] if specific else names[0]


def _rise(bound: Bound) -> float | None:
    hit = bound.first("rise_pct")
    if hit is not None and hit.amount is not None and hit.amount.quantity is not None:
        value = hit.amount.quantity.value * (100 if hit.amount.dim == "share" else 1)
        return round(value, 1)
    if bound.said("look:tripled"):
        return 200.0
    if bound.said("look:doubled"):
        return 100.0
    return None


def _share_pct(hit: Hit | None) -> float | None:
    if hit is None or hit.amount is None or hit.amount.quantity is None:
        return None
    return round(hit.amount.quantity.value * (100 if hit.amount.dim == "share" else 1), 1)


def _grain(bound: Bound) -> float | None:
    """Whole grain as % of flour where a share of it was said."""
    hit = bound.first("grain_pct")
    if (
        hit is None
        or hit.amount is None
        or hit.amount.quantity is None
        or hit.label is None
        or not fits(hit.label, WHOLEGRAIN)
    ):
        return None
    return hit.amount.quantity.value * (100 if hit.amount.dim == "share" else 1)


def _solve(
    bound: Bound, stage: str | None, lasts: float | None, temp_c: float | None, starter: float | None
) -> str | None:
    """What the line asks to be found so that the stage lasts as long as it says."""
    if lasts is None or stage not in ("bulk", "proof", "preferment", None) or bound.said("ask:too_long", "look:so_far"):
        return None
    if (
        starter is None
        and bound.said("ask:how_much", "ask:what_share", "ask:what")
        and bound.said("cue:starter", "ingredient:starter*", "ask:what_share")
    ):
        return "starter_pct"
    kinds = [name for kind in ("ingredient", "yeast_kind") for name in _named(bound, kind) if name.startswith("yeast_")]
    if kinds and not bound.of("yeast_pct") and bound.first("yeast_g") is None and bound.said("ask:how_much"):
        return kinds[0]  # "how much fresh yeast for 8 hours"
    if temp_c is None and bound.said("heat:degrees") and bound.said("ask:*", "heat:degrees"):
        return "temp_c"
    return None


def _window_min(hit: Hit | None) -> float | None:
    """Minutes of "from 10 pm to 7 am"."""
    if hit is None or hit.amount is None or hit.amount.window is None:
        return None
    start, end = minute_of_day(hit.amount.window.start), minute_of_day(hit.amount.window.end)
    if start is None or end is None:
        return None
    return float((end - start) % 1440) or None


def _starter_hydration(bound: Bound) -> float | None:
    """The starter's own hydration: said so, or "levain at 50 % hydration" where the levain has no other figure."""
    said_so = bound.base("starter_hydration_pct")
    hit, share = bound.first("hydration_pct"), bound.first("starter_pct") or bound.first("starter_much_pct")
    if said_so is not None or hit is None or hit.amount is None:
        return said_so
    place = next((i for i, phrase in enumerate(bound.phrases) if phrase is hit.amount), 0)
    if place < 2 or "at" not in bound.phrases[place - 1].ids("link") or not fits(bound.phrases[place - 2], STARTER):
        return None
    owned = share is not None and share.label is bound.phrases[place - 2]
    return None if owned else amount_base(hit.amount)


def _plain_min(hit: Hit | None) -> float | None:
    return amount_base(hit.amount) if hit else None


def _whole_bake(bound: Bound) -> bool:
    """"when are 30 rings done": all of a bake by the clock, no stage of it."""
    pieces = bound.first("pieces") is not None and bound.context.focus != "timing"
    return pieces and bound.said("ask:when") and bound.said("look:done") and not bound.said("stage:*")


def _weighed_out(bound: Bound) -> bool:
    """ "1 kg flour, 70 %, 30 % poolish": a preferment in a dough to weigh out, and no word or figure of time."""
    if bound.first("preferment") is None or bound.context.focus == "timing":
        return False
    amounts = [phrase for phrase in bound.phrases if phrase.kind == "amount"]
    timed = any(phrase.dim in ("time", "temperature", "moment", "window") for phrase in amounts)
    asked = bound.asks() or bound.said("ask:*", "stage:*", "done:*", "look:*", "cue:kitchen", "cue:fridge")
    shares = [phrase for phrase in amounts if phrase.dim in ("pct", "mass", "share")]
    return len(shares) > 1 and not timed and not asked


def build(bound: Bound) -> TimingRequest | None:
    """The request; None where no stage, no rise and no ripening is asked about."""
    if "timer" in bound.text.lower() or _whole_bake(bound) or _weighed_out(bound):
        return None
    hot = bound.said("stage:bake", "stage:preheat")
    warmest_c = 320.0 if hot else 110.0 if bound.said("stage:cool", "stage:boil") else WARMEST_C
    degrees = degrees_of(bound, _TEMPS, warmest_c)
    temps = [hit.amount for hit in bound.of("temp_c") if hit.amount is not None]
    if len(temps) > 2:
        return None
    temp_c = degrees.celsius(temps[0], warmest_c) if temps else None
    later_hit = bound.first("later_c")
    later_c = degrees.celsius(later_hit.amount, warmest_c) if later_hit else None
    target_c = None
    fridge_hit = bound.first("fridge_c")
    fridge_c = degrees.celsius(fridge_hit.amount) if fridge_hit else None
    dough_hit = bound.first("dough_c")
    dough_c = degrees.celsius(dough_hit.amount, warmest_c) if dough_hit else None
    wished_hit = bound.first("wished_c")
    if len(temps) == 2 and later_c is None:
        later_c = degrees.celsius(temps[1], warmest_c)
    for phrase in (*temps, later_hit.amount if later_hit else None, dough_hit.amount if dough_hit else None):
        if phrase is not None and phrase.high is not None and phrase.quantity is not None:
            first, second = (degrees.value_c(q.value, q.unit, warmest_c) for q in (phrase.quantity, phrase.high))
            if first > second:  # "from 26 to 5", "21 to 15 overnight"
                if bound.said("cue:fridge", "stage:cool", "stage:retard"):
                    dough_c, target_c = first, second
                    temp_c = None if phrase in temps else temp_c
                else:
                    temp_c, later_c = first, second
            elif phrase in temps:
                temp_c = (first + second) / 2
    stage = _stage(bound)
    if bound.said("ask:oven_heat") and not temps:
        stage = "bake"
    if stage is None and temps and _named(bound, "bread") + _named(bound, "piece"):
        hottest = temps[0].quantity
        if hottest is not None and hottest.value >= 150:
            stage, temp_c = "bake", Degrees(False).celsius(temps[0], 320.0)
    ratio = _ratio(bound.first("ratio"))
    rise = _rise(bound)
    judged = bound.said("ask:too_long") or (
        bound.said("ask:can_i") and (bound.said("look:leave_out") or bound.first("lasts_min") is not None)
    )
    judged = judged or (temp_c is not None and bound.said("look:leave_out"))  # "bulk overnight at 16 ok?"
    risen_now = _share_pct(bound.first("risen_now"))
    lasts = _plain_min(bound.first("lasts_min"))
    after = _plain_min(bound.first("after_min"))
    elapsed = _plain_min(bound.first("elapsed_min"))
    if risen_now is not None and elapsed is None:
        elapsed, lasts, after = lasts or after, None, None  # "only up 20 % after 4 hours"
    night = _window_min(bound.first("window"))
    lasts = lasts if lasts is not None else night
    if later_c is not None and lasts is not None and after is None and not judged and night is None:
        lasts, after = None, lasts  # "21 for 3 hours, then 16"
    fridge = bound.said("cue:fridge", "stage:retard") or "in the fridge" in bound.text.lower()
    until_hit = bound.first("until")
    until = until_hit.amount.moment if until_hit and until_hit.amount else None
    if until is not None and until.minute is None and until.in_min is None:
        until = None  # "at 26 today"
    figure = until_hit.amount.text if until_hit and until_hit.amount else ""
    if until is not None and temp_c is None and figure.isdigit() and int(figure) >= 12:
        until, temp_c = None, degrees.value_c(float(figure), None)  # "when is bulk done at 24"
    see = bound.said("ask:how_to_see")
    if see and not (rise or stage or bound.said("look:risen", "look:bowl")):
        return None
    if lasts is not None and (
        bound.said("ask:is_it") or (temps and (bound.first("starter_pct") or bound.first("yeast_pct")))
    ):
        judged = True
    asks = (
        judged
        or see
        or bound.said("ask:how_long", "ask:when", "look:left", "ask:what_if", "ask:what", "ask:what_share")
        or bound.said("look:came_out")
    )
    asks = asks or (lasts is not None and bound.said("ask:how_much")) or (until is not None and bound.said("look:done"))
    if lasts is not None and (bound.said("look:so_far") or bound.said("look:left")) and elapsed is None:
        lasts, elapsed = None, lasts
    if lasts is not None and after is None and fridge and not judged and stage not in ("retard",):
        lasts, after = None, lasts
    if lasts is not None and not judged:
        judged = True
    if stage is None and not (ratio or rise or asks or bound.context.focus == "timing"):
        return None
    if (
        fridge
        and lasts is None
        and after is not None
        and bound.said("ask:can_i", "ask:too_long")
        and "after" not in bound.links()
    ):
        judged, lasts, after = True, after, None
    if judged and fridge and lasts is not None and after is None and stage in ("bulk", "proof", None):
        stage = "retard"
    if (
        bound.said("feeding:cold")
        and dough_c is None
        and (stage == "proof" or (stage is None and bound.context.focus == "timing"))
    ):
        dough_c, fridge = FRIDGE_C, False
    if dough_c is not None and fridge_c is not None and temp_c is not None and dough_c > temp_c > fridge_c:
        target_c, temp_c, stage = temp_c, None, "retard"  # "dough at 28, fridge at 3: how long until it is at 6"
    if (
        bound.context.has_bake
        and bound.said("act:change", "act:same")
        and not asks
        and not (temps or rise or until or lasts)
    ):
        return None  # "make it 30 % starter" changes the dough in hand
    if stage == "proof" and bound.said("look:proofing_box") and not rise and not asks:
        return None
    dosed = stage == "preferment" and bound.said("ask:how_much") and not bound.of("yeast_pct")
    if (judged or dosed) and lasts is None and until is None and bound.said("span:overnight", "look:leave_out"):
        lasts, judged = OVERNIGHT_MIN, True
        if dosed and temp_c is None:
            temp_c, later_c = later_c, None  # "poolish overnight at 19"
    if until is not None and (not asks or bound.first("pieces") is not None):
        return None
    if ratio is not None and bound.said("feeding:feed"):
        return None
    if ratio is not None and stage in (None, "bulk"):
        stage = "starter"
    if later_c is not None and temp_c is not None and fridge and stage is None and temp_c > later_c and not rise:
        dough_c, temp_c, target_c, later_c = temp_c, None, later_c, None  # "down to 5 in a 4 degree fridge, from 26"
    if target_c is not None and stage in (None, "bulk", "cool"):
        stage = "retard" if fridge else "cool"
    alone = temp_c is None and bound.first("starter_pct") is None
    if (
        stage in (None, "bulk")
        and fridge
        and not rise
        and after is None
        and lasts is None
        and (bound.said("ask:how_long") or alone)
        and (stage is None or temp_c is None)
    ):
        stage = "retard"
    if fridge_c is None and fridge and temp_c is not None and temp_c <= 8 and stage in ("retard", None):
        fridge_c, temp_c = temp_c, None
    if stage == "cool" and bound.said("cue:fridge") and target_c is None:
        stage = "retard"
    starter = bound.base("starter_pct")
    if starter is None:
        starter = bound.base("starter_much_pct")
    own_hydration = _starter_hydration(bound)
    hydration = None if own_hydration == bound.base("hydration_pct") else bound.base("hydration_pct")
    yeast = tuple((_yeast_kind(hit), amount_base(hit.amount) or 0.0) for hit in bound.of("yeast_pct"))
    salt = bound.base("salt_pct")
    flour_g, starter_g = bound.base("flour_g"), bound.base("starter_g")
    mass_g = bound.base("mass_g")
    if flour_g:
        in_starter_g = (starter_g or 0.0) / 2
        all_flour_g = flour_g + in_starter_g
        if starter_g:
            starter = 100 * starter_g / flour_g
        water_g, salt_g, yeast_hit = bound.base("water_g"), bound.base("salt_g"), bound.first("yeast_g")
        if water_g:
            hydration = 100 * (water_g + in_starter_g) / all_flour_g
            mass_g = mass_g or flour_g + water_g + (starter_g or 0.0) + (salt_g or 0.0)
        if salt_g:
            salt = 100 * salt_g / all_flour_g
        if yeast_hit is not None:
            yeast = (
                (
                    _yeast_kind(yeast_hit),
                    100 * (bound.base("yeast_g") or 0.0) / all_flour_g,
                ),
            )
    elif bound.first("yeast_g") is not None and re.search(r"per (?:kg|kilo)", bound.text.lower()):
        yeast = ((_yeast_kind(bound.first("yeast_g")), (bound.base("yeast_g") or 0.0) / 10),)
    elif starter_g and mass_g is None and ratio is None and stage is None:
        mass_g = starter_g
    without = [i for hit in bound.of("without") for i in (*hit.ids("ingredient"), *hit.ids("cue"))]
    if any(i.startswith("salt") for i in without):
        salt = 0.0
    if any(i.startswith("starter") for i in without):
        starter = 0.0
    altitude = bound.first("altitude_m")
    altitude_m = None
    if altitude is not None and altitude.amount is not None and altitude.amount.quantity is not None:
        altitude_m = altitude.amount.quantity.base / (100 if altitude.amount.dim == "length" else 1)
    begun = bound.first("begun_at")
    starter_hit = bound.first("starter_pct")
    bare_pct = bound.base("yeast_bare_pct")
    if bare_pct is None and starter_hit is not None and starter_hit.label is None:
        bare_pct = starter
    pieces, breads = _named(bound, "piece"), _named(bound, "bread")
    return TimingRequest(
        stage=stage or ("bulk" if bound.said("look:leave_out", "look:came_out") else None),
        temp_c=temp_c,
        later_c=later_c,
        later_after_min=after if later_c is not None and not fridge else None,
        fridge=fridge and stage not in ("retard",),
        fridge_c=fridge_c,
        fridge_after_min=after if fridge else None,
        dough_c=dough_c,
        target_c=target_c,
        starter_pct=starter,
        starter_hydration_pct=own_hydration,
        yeast=yeast,
        hydration_pct=hydration,
        salt_pct=salt,
        sugar_pct=bound.base("sugar_pct"),
        rise_pct=rise,
        ratio=ratio,
        mass_g=mass_g,
        risen_now_pct=risen_now,
        wished_c=degrees.celsius(wished_hit.amount) if wished_hit else None,
        asked_min=lasts if judged else None,
        elapsed_min=elapsed,
        until=until,
        altitude_m=altitude_m,
        bread=breads[0] if breads else None,
        piece=pieces[0] if pieces else None,
        preferment=bound.term("preferment", "preferment"),
        wholegrain=bound.first("grain") is not None,
        grain_pct=_grain(bound),
        begun_at=begun.amount.moment if begun and begun.amount else None,
        since=begun is not None and "after" in begun.ids("link"),
        bare_pct=bare_pct,
        yeast_ml=((_yeast_kind(bound.first("yeast_ml")), bound.base("yeast_ml") or 0.0),)
        if bound.first("yeast_ml")
        else (),
        flour_g=flour_g if bound.first("yeast_ml") else None,
        solve=_solve(bound, stage, lasts, temp_c, starter),
        how_to_see=see,
        fan=bound.said("cue:fan"),
        heavy=bound.said("look:heavy"),
        judged=judged,
        spread_said=degrees.remarks,
    )


FRAME = Frame(
    TimingRequest,
    "timing",
    build,
    slots=SLOTS,
    cues={
        "ask:how_long": 3.0, "ask:when": 0.9, "ask:too_long": 1.8, "ask:how_to_see": 1.8, "stage:*": 1.0,
        "look:*": 0.5, "look:done": 2.4, "look:proofing_box": 2.0, "look:leave_out": 1.5,
        "span:*": 0.3, "ask:is_it": 0.3, "ask:what": 0.3, "ask:what_if": 0.9, "act:use": 0.8, "ask:can_i": 0.3,
        "cue:fridge": 0.4, "cue:kitchen": 0.3,
        "cue:dough": 0.2, "act:change": 0.9, "act:same": 1.5, "feeding:cold": 0.8, "cue:percentages": 0.3,
        "look:begun": 1.6, "look:feel": 0.2, "act:make": 0.1, "topic:cold_kitchen": 1.2, "ingredient:yeast*": 0.2,
        "yeast_kind:*": 0.2, "act:correct": 0.3, "so_far:*": 0.2, "cue:limit": 0.2,
        "cue:only_this": 0.2, "link:instead": 0.3, "heat:degrees": 0.1,
        "cue:oven": 0.2, "cue:starter": 0.1, "look:bowl": 0.3, "ask:how_much": 0.1,
        "ask:oven_heat": 3.0, "ask:*": 0.1, "holds:oven": 0.2,
        "cue:risen": 1.0, "mistake:poured": 0.0, "mistake:meant": 0.2, "mistake:rescue": 0.2, "hazard:left_out": 0.2,
        "kept:bakes": 0.0,
    },
    needs=("ask:how_long", "ask:too_long", "stage:*", "look:risen", "look:doubled", "look:left", "ask:how_to_see",
    "slot:ratio", "slot:lasts_min", "look:begun", "look:done", "slot:window",
           "look:leave_out", "look:came_out", "slot:risen_now",
           "ask:oven_heat", "slot:preferment"),
    rules_out=("symptom:*", "feeding:ratio", "feeding:less_discard"),
)  # fmt: skip
