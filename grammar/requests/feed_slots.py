"""What a line about feeding may hold: grams, the ratio, the hours, the words beside them."""

from __future__ import annotations

from grammar.frames import Slot
from grammar.levels import AGAINST, HARDLY, LIKELY

STARTER = ("ingredient:starter*", "cue:starter")
FEEDING = ("feeding:feed", "feeding:jar", "feeding:stiff", "feeding:turn", "feeding:cold", "feeding:ratio",
"feeding:twice", "feeding:daily")  # fmt: skip
"""Words that say a starter is fed or built."""

SLOTS = {
    "needed_g": Slot(
        {"mass": 1.0, "num": 0.2}, cues=(*STARTER, "feeding:stiff"), bare=0.4, low=5, high=20000,
        links={"change": 0.6, "at": -1.0}, meant={"at_hand": HARDLY, "wished": LIKELY},
    ),
    "have_g": Slot(
        {"mass": 1.0}, cues=("feeding:jar", "cue:limit", "cue:only_this"), bare=-1.2, low=0, high=5000,
        links={"from": 2.6}, weight=0.2, meant={"wished": AGAINST},
    ),
    "seed_g": Slot({"mass": 0.9}, cues=(*STARTER, "feeding:jar"), low=1, high=5000, weight=-1.0),
    "keep_g": Slot({"mass": 1.0, "num": 0.1}, cues=("feeding:keep",), low=1, high=2000, weight=0.1),
    "flour_g": Slot({"mass": 1.0}, cues=("ingredient:flour*", "cue:flour"), low=1, high=20000, weight=0.4),
    "water_g": Slot({"mass": 1.0}, cues=("ingredient:water", "cue:water"), low=1, high=20000),
    "ratio": Slot({"ratio": 1.2}, bare=0.6, cues=("feeding:*", "cue:formula", *STARTER), links={"at": 0.2}, weight=0.3),
    "temp_c": Slot(
        {"temperature": 1.0, "num": 0.4}, cues=("cue:kitchen", "cue:place", "look:proofing_box", "heat:degrees"),
        bare=0.4, bare_high=34,
        low=7, high=45,
        links={"at": 0.6, "in": 0.2, "for": -1.0, "by": -1.0},
    ),
    "hydration_pct": Slot(
        {"pct": 1.0}, cues=("cue:hydration", "feeding:stiff", "cue:starter_hydration", *STARTER, "cue:stiff"), bare=0.4,
        low=40, high=200, shares=True,
    ),
    "bare_hydration": Slot(
        {"num": 0.05}, cues=("cue:hydration", "feeding:stiff", "cue:starter_hydration", "cue:stiff"), low=40, high=200,
    ),
    "now_at": Slot({"moment": 1.3}, cues=("span:now",), weight=0.4),
    "seed_pct": Slot({"pct": 0.9}, cues=("feeding:turn", *STARTER), low=40, high=200, shares=True, weight=-0.6),
    "moments": Slot({"moment": 1.0}, bare=0.6, cues=("look:use_it", "look:ripe", "feeding:feed"), many=True,
    links={"by": 0.5, "for": 0.5, "at": 0.2}),
    "in_min": Slot({"time": 0.9}, bare=0.5, weight=0.3, cues=("look:ripe",), low=20, high=4320, strict=True),
    "bread": Slot(term=("bread:*", "piece:*"), many=True, weight=-0.3),
    "share_pct": Slot({"pct": 1.0}, cues=(*STARTER, "ingredient:flour*", "cue:flour"), bare=0.2, low=3, high=39,
    shares=True, weight=-0.2),
    "window": Slot({"window": 1.0}, bare=0.6),
    "dial": Slot({"num": 0.6}, bare=0.6, low=1, high=24, many=True, where=("feeding:twice",)),
    "feeds": Slot({"num": 1.2}, cues=("feeding:stages", "cue:portions"), low=1, high=3, weight=0.2),
    "thing": Slot(term=("ingredient:flour*", "cue:flour", "ingredient:water", "cue:water"), many=True, weight=-0.6),
}  # fmt: skip
