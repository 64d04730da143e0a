"""Does it fit: dough in a tub, pieces on a tray, flour in a mixer."""

from __future__ import annotations

from dataclasses import dataclass

from grammar.follow import Follow
from grammar.frames import Bound, Frame
from grammar.levels import speaks
from grammar.slots import Slot


@dataclass(frozen=True, slots=True)
class FitsRequest:
    """how big a tub for 2.4 kg of dough
    will 24 rings of 100 g fit in a 5 litre tub
    how many 100 g rings on a tray of 40 x 30 cm
    my mixer takes 1 kg of flour, does the dough fit in it

    Only what was said. what: "tub", "tray" or "mixer"; tub_ml its volume; tray_cm its inside lengths; mixer_g of flour.
    """

    what: str = "tub"
    pieces: float | None = None
    piece_g: float | None = None
    bread: str | None = None
    piece: str | None = None
    dough_g: float | None = None
    rise_pct: float | None = None
    tub_ml: float | None = None
    tray_cm: tuple[float, ...] = ()
    mixer_g: float | None = None


_PIECES = ("piece:*", "bread:*")
SLOTS = {
    "pieces": Slot({"num": 1.0}, cues=(*_PIECES, "cue:pieces"), bare=0.1, low=1, high=400, role="count"),
    "piece_g": Slot({"mass": 1.0}, cues=(*_PIECES, "cue:piece_mass"), bare=0.3, low=15, high=2600, role="each"),
    "dough_g": Slot({"mass": 1.0}, cues=("cue:dough", "cue:total"), bare=0.1, low=300, high=60000),
    "mixer_g": Slot({"mass": 1.2}, cues=("fits:mixer", "cue:flour", "ingredient:flour*"), low=200, high=20000),
    "tub_ml": Slot({"volume": 1.4}, cues=("fits:tub",), bare=0.4, low=300, high=60000),
    "tray": Slot({"sizes": 1.4}, cues=("fits:tray", "holds:tray", "cue:tin"), bare=0.5, low=12, high=90),
    "rise": Slot({"pct": 1.0}, cues=("cue:risen", "stage:bulk"), bare=-0.4, low=5, high=250),
    "bread": Slot(term=("bread:*",)),
    "piece": Slot(term=("piece:*",)),
}  # fmt: skip


def build(bound: Bound) -> FitsRequest | None:
    """The request; None where nothing that holds dough was named."""
    what = next((one for one in ("mixer", "tray", "tub") if bound.said(f"fits:{one}")), None)
    if what is None:
        return None
    bread, piece = bound.term("bread", "bread"), bound.term("piece", "piece")
    for hit in bound.hits:
        bread = bread or next(iter(hit.ids("bread")), None)
        piece = piece or next(iter(hit.ids("piece")), None)
    tray = bound.first("tray")
    return FitsRequest(
        what=what,
        pieces=bound.base("pieces"),
        piece_g=bound.base("piece_g"),
        bread=bread,
        piece=piece,
        dough_g=bound.base("dough_g"),
        rise_pct=bound.base("rise"),
        tub_ml=bound.base("tub_ml"),
        tray_cm=tray.amount.sizes if tray is not None and tray.amount is not None else (),
        mixer_g=bound.base("mixer_g"),
    )


FRAMES = (
    Frame(
        FitsRequest, "fits", build, slots=SLOTS,
        follow=Follow(alone=lambda line, earlier, bound: line.what != earlier.what),
        cues=speaks(
            telling="fits:tub fits:tray fits:mixer",
            likely="cue:fit ask:how_many holds:per_tray",
            maybe=(
                "cue:dough ask:how_much ask:is_it ask:can_i ask:what holds:tray cue:tin cue:hold stage:bulk "
                "cue:bigger"
            ),
            seldom="cue:flour",
            heard="tail:* cue:baked",
        ),
        needs=("fits:tub", "fits:tray", "fits:mixer"),
        rules_out=("symptom:*", "mistake:*", "clocked:ready", "ask:batches", "ask:last_out"),
        help_topic="loads",
    ),
)  # fmt: skip
