"""A dough to weigh out, said from any side, whole or as a change to the one in hand."""

from __future__ import annotations

from dataclasses import dataclass, replace

from grammar.frames import Bound, Frame, Hit, Slot, amount_base, fits
from grammar.phrases import Phrase
from grammar.requests.formula_ferments import STARTER
from grammar.requests.formula_ferments import settled as ferments_settled
from grammar.requests.formula_merge import merged

_STARTER_FLOURS = {"starter_rye_100": "flour_rye_medium", "starter_whole_wheat_100": "flour_whole_wheat"}
SALT = ("ingredient:salt*", "cue:salt")
FLOUR = ("ingredient:flour*", "ingredient:vital_wheat_gluten", "ingredient:semolina", "cue:flour")


@dataclass(frozen=True, slots=True)
class Part:
    """Something named to go into the dough. item: ingredient ids it may be, likeliest first.

    pct: of all flour; g: grams; volume_ml and unit: where a volume was said; rest: "the rest bread flour"; late:
    added later.
    """

    item: tuple[str, ...]
    pct: float | None = None
    g: float | None = None
    rest: bool = False
    late: bool = False
    soaked: bool = False
    flour: bool = False  # a share of the flour blend
    alone: bool = False  # said to be all there is: "bread flour only"
    measure: tuple[float, str] | None = (
        None  # amount and unit as said, where it was no mass: (2.0, "tsp"), (3.0, "each")
    )


@dataclass(frozen=True, slots=True)
class FormulaRequest:
    """24 rolls of 80 g at 66 %, 2 % salt, 20 % starter
    thirty rings at 95 grams, 58 percent
    2 kg flour at 62 %, 1 % instant yeast
    what are my percentages: 900 g strong flour, 560 g water, 180 g starter, 18 g salt
    make it 68
    and for 40?

    Only what was said; None and empty mean unsaid. Masses in g, shares in %, lengths in cm.
    """

    pieces: float | None = None
    piece_g: float | None = None
    baked_g: float | None = None
    dough_g: float | None = None
    flour_g: float | None = None
    all_flour_g: float | None = None
    water_g: float | None = None
    starter_g: float | None = None
    salt_g: float | None = None
    limits: tuple[tuple[str, float], ...] = ()
    sizes_cm: tuple[float, ...] = ()
    deep_cm: float | None = None  # where a depth was said by itself: "20 cm round tin, 7 cm deep"
    tin_shape: str | None = None  # "round", "square", "loaf" or "sheet", where it was said
    tin_ml: float | None = None  # what one tin holds, to the brim
    tins: float | None = None
    portions: float | None = None
    hydration_pct: float | None = None
    salt_pct: float | None = None
    salt: str | None = None  # which salt, where one was named ("salt_kosher_dense")
    starter_pct: float | None = None
    prefermented_pct: float | None = None
    starter_hydration_pct: float | None = None
    starter_flour: str | None = None  # what the starter is fed with, where it was said ("rye starter")
    loss_pct: float | None = None
    held_water_pct: float | None = None
    bread: str | None = None
    piece: str | None = None
    usual: bool = False
    parts: tuple[Part, ...] = ()
    preferments: tuple[tuple[str, float | None, float | None, float | None], ...] = ()  # kind, % of flour, g, hydration
    open_preferments: tuple[str, ...] = ()  # named without an amount: asked for, not put in
    without: tuple[str, ...] = ()
    late: tuple[str, ...] = ()
    discard_g: float | None = None
    from_masses: bool = False
    pieces_asked: bool = False
    kitchen_c: float | None = None
    choices: tuple[str, ...] = ()  # where a range was said: what was taken, in words
    asked: tuple[str, ...] = ()  # what the line asks for: "water", "salt_table", "starter" ...
    scale: float | None = None
    more_pieces: float | None = None  # "3 fewer" is -3
    more_flour_g: float | None = None  # "with 500 g less flour" is -500
    more_pct: tuple[tuple[str, float], ...] = ()  # "2 points less salt": ("salt", -2.0)
    poured_g: tuple[
        tuple[str, float], ...
    ] = ()  # put in on top of the dough in hand: ("water", 50.0), ("flour", 100.0)
    clash: tuple[str, ...] = ()  # the same thing said twice with two figures
    vague: bool = False  # "knock 3 off": of what, was not said
    two_sizes: bool = False  # "make half of them 100 g"
    either: float | None = None  # "make it 95" of 60 rolls of 80 g: pieces or grams
    last: tuple[str, ...] = ()  # the figures the last line set, by field: what a bare correction is of
    adds: bool = False  # "add 8 % seeds"
    anew: bool = False  # "new dough:"
    for_heads: bool = False  # "brioche for 12": pieces, or people where it is a bread that is sliced
    size_lead: bool = False  # began with "for", "and", "make it": a change of size, not a new dough

    @property
    def has_size(self) -> bool:
        """Whether a batch size can be worked out from this alone."""
        one = (self.dough_g, self.flour_g, self.all_flour_g, self.water_g, self.starter_g, self.baked_g)
        return (
            any(x is not None for x in one)
            or bool(self.sizes_cm)
            or self.tin_ml is not None
            or (self.pieces is not None and self.piece_g is not None)
        )

    @property
    def has_shares(self) -> bool:
        """Whether any share of the dough was said."""
        shares = (self.hydration_pct, self.salt_pct, self.starter_pct, self.prefermented_pct)
        return any(x is not None for x in shares) or any(p.pct is not None for p in self.parts)

    @property
    def whole(self) -> bool:
        """A dough of its own rather than a change to the one in hand."""
        if self.anew or self.from_masses:
            return True
        changed = (self.scale, self.more_pieces, self.more_flour_g)
        if any(x is not None for x in changed) or self.poured_g or self.more_pct or self.size_lead or self.adds:
            return False
        return self.has_size and (self.pieces is not None or self.has_shares)

    def begins_anew(self, earlier: FormulaRequest) -> bool:
        """Whether this is another dough than the one in hand. Pieces of the same kind, and no word of what is in them,
        are the same dough in another size."""
        if not self.whole or self.anew or self.from_masses:
            return self.whole
        told = self.has_shares or self.bread or self.parts or self.preferments or self.usual or self.starter_g
        return bool(told) or self.pieces is None or self.piece not in (None, "piece", earlier.piece)

    def onto(self, earlier: FormulaRequest, bound: Bound) -> FormulaRequest:
        """This line as a change to an earlier dough: what it says replaces the same there, slot by slot."""
        if self.begins_anew(earlier):
            return replace(self, anew=False, size_lead=False)
        return merged(self, earlier, bound)


_GROUP_RANGES = {
    "leavening": (0.02, 8),
    "malt": (0.05, 8),
    "sugar": (0.3, 40),
    "fat": (0.3, 80),
    "egg": (1, 90),
    "dairy": (1, 100),
    "seed": (0.2, 40),
    "nut": (1, 60),
    "fruit": (1, 100),
    "spice": (0.02, 6),
    "flour": (1, 100),
    "grain": (1, 60),
    "cheese": (1, 80),
    "other": (0.05, 60),
    "water": (40, 110),
    "starter": (1, 120),
    "salt": (0.3, 4),
}

SLOTS = {
    "pieces": Slot(
        {"num": 1.0},
        cues=("piece:*", "bread:*", "cue:pieces"),
        bare=0.5,
        low=1,
        high=5000,
        bare_high=400,
        role="count",
        links={"for": 0.4, "at": -0.8},
    ),
    "piece_g": Slot(
        {"mass": 1.0, "num": 0.15},
        cues=("cue:piece_mass", "piece:*", "bread:*"),
        bare=0.5,
        low=15,
        high=2600,
        bare_high=700,
        role="each",
        links={"each": 1.2, "at": 0.5, "of": 0.5, "per": 0.8},
    ),
    "baked_g": Slot({"mass": 1.1, "num": 0.3}, cues=("cue:baked",), low=15, high=2600),
    "dough_g": Slot(
        {"mass": 1.0}, cues=("cue:dough", "cue:total"), bare=-0.4, low=1000, high=60000, links={"from": -2.0}
    ),
    "all_flour_g": Slot({"mass": 1.0, "num": 0.2}, cues=("cue:all_flour",), low=50, high=60000),
    "hydration_pct": Slot(
        {"pct": 1.0, "num": 0.35},
        cues=("cue:hydration", "ingredient:water", "cue:water", "cue:all_water"),
        bare=0.5,
        low=40,
        high=115,
        links={"at": 0.6, "to": 0.6, "change": 1.0},
    ),
    "whole_pct": Slot({"pct": 1.0}, cues=("cue:flour", "cue:all_flour"), low=100, high=100),  # "100 % flour": by rule
    "dough_pct": Slot({"pct": 1.0}, cues=("cue:dough", "cue:total"), low=40, high=115, strict=True),  # "dough 72 %"
    "salt_pct": Slot({"pct": 1.0, "num": 0.35}, cues=SALT, low=0.3, high=4),
    # "57, 2, 20": hydration, salt and starter in their usual order; elsewhere these two take nothing
    "then_salt_pct": Slot(
        {"num": 1.0, "pct": 1.0}, bare=0.3, low=0.5, high=4, strict=True, weight=-7.0, links={"after_large": 7.4}
    ),
    "then_starter_pct": Slot(
        {"num": 1.0, "pct": 1.0}, bare=0.3, low=5, high=60, strict=True, weight=-7.0, links={"after_small": 7.2}
    ),
    "starter_pct": Slot({"pct": 1.0, "num": 0.3}, cues=STARTER, low=1, high=120),
    "asked_pct": Slot(
        {"pct": 1.2}, bare=0.5, low=0.05, high=39, strict=True, where=("ask:how_much",), links={"at": 0.8}
    ),  # "how much salt for 2 kg flour at 2 %"
    "starter_share_pct": Slot(
        {"pct": 1.0}, bare=0.2, low=3, high=39, strict=True, where=STARTER, weight=-1.0
    ),  # "150 g starter, 20 %, 66 %"
    "starter_of_pct": Slot(
        {"pct": 1.0}, cues=(*STARTER, "cue:starter_hydration"), low=1, high=120, shares=True, across=True, weight=-2.4
    ),
    "starter_hydration_pct": Slot({"pct": 1.0, "num": 0.2}, cues=("cue:starter_hydration",), low=40, high=200),
    "starter_at_pct": Slot(
        {"pct": 1.0, "num": 0.1},
        cues=(*STARTER, "cue:stiff", "cue:liquid_starter", "cue:hydration"),
        low=40,
        high=200,
        shares=True,
        where=STARTER,
        weight=-2.6,
        links={"at": 0.8, "(": 1.6},
    ),
    "preferment_at_pct": Slot(
        {"pct": 1.0, "num": 0.1},
        cues=("preferment:*", "cue:hydration"),
        low=40,
        high=600,
        shares=True,
        where=("preferment:*",),
        weight=-2.6,
        links={"at": 0.8, "(": 1.6},
    ),
    "prefermented_pct": Slot({"pct": 1.0, "num": 0.3}, cues=("cue:prefermented",), low=1, high=60),
    "loss_pct": Slot({"pct": 1.0, "num": 0.3}, cues=("cue:loss",), low=0, high=15),
    "held_pct": Slot({"pct": 1.0, "num": 0.3}, cues=("cue:held",), low=1, high=30),
    "part_pct": Slot(
        {"pct": 1.0, "num": 0.25, "share": 1.0},
        cues=("ingredient:*",),
        never=(*STARTER, *SALT, "ingredient:water", "cue:flour"),
        by_group=_GROUP_RANGES,
        low=0.05,
        high=100,
        many=True,
        links={"at": -1.4},  # "wholemeal at 72 %" is a hydration
    ),
    "points": Slot(
        {"pct": 1.6}, cues=("cue:points", "cue:wetter", "cue:greater", "cue:fewer", "act:more"), low=0.05, high=20
    ),
    "bare_points": Slot({"num": 1.4, "share": 2.4}, cues=("cue:points", "cue:wetter"), low=0.1, high=60),
    "part_volume": Slot(
        {"volume": 1.0},
        cues=("ingredient:*", "cue:water", "cue:flour"),
        never=("ingredient:starter*",),
        many=True,
        weight=-0.3,
    ),
    "part_count": Slot({"num": 1.0}, cues=("ingredient:egg*",), low=1, high=60, many=True),
    "hydration_again_pct": Slot(
        {"pct": 1.0, "num": 0.3}, cues=("cue:hydration", "ingredient:water", "cue:water"), low=40, high=115, weight=-1.0
    ),
    "salt_again_pct": Slot({"pct": 1.0, "num": 0.3}, cues=SALT, low=0.3, high=4, weight=-1.0),
    "part_g": Slot(
        {"mass": 1.0, "num": 0.1},
        cues=("ingredient:*", "cue:flour", "cue:discard"),
        low=0.3,
        high=60000,
        many=True,
        links={"use_up": 1.0, "at": -2.0},
    ),
    "preferment_pct": Slot({"pct": 1.0, "num": 0.2}, cues=("preferment:*",), low=2, high=100, many=True),
    "preferment_g": Slot({"mass": 1.0}, cues=("preferment:*",), low=10, high=20000, many=True),
    "sizes": Slot(
        {"sizes": 1.0, "length": 0.9}, cues=("cue:tin", "piece:tin_loaf", "piece:boule"), bare=0.3, low=12, high=80
    ),
    "width": Slot({"length": 1.0, "num": 0.6}, cues=("cue:broad",), low=4, high=80),
    "depth": Slot({"length": 1.0, "num": 0.6}, cues=("cue:deep",), low=2, high=25),
    "tin_ml": Slot({"volume": 1.4}, cues=("cue:tin", "cue:hold", "piece:tin_loaf"), low=150, high=20000),
    "shape": Slot(term=("shape:*",), many=True, weight=-0.7),
    "tins": Slot({"num": 0.9}, cues=("cue:tin", "piece:tin_loaf"), low=1, high=12),
    "portions": Slot({"num": 1.2}, cues=("cue:portions",), low=1, high=400, links={"for": 1.0}),
    "kitchen_c": Slot({"temperature": 1.0, "num": 0.3}, cues=("cue:kitchen",), low=2, high=42),
    "scale": Slot({"num": 1.0, "share": 1.0}, cues=("act:scale",), low=0.1, high=20),
    "scale_pct": Slot({"pct": 1.6}, cues=("act:scale",), low=1, high=500),
    "scale_by_part": Slot({"share": 1.4}, cues=("cue:greater", "cue:fewer", "cue:bigger")),
    "bread": Slot(term=("bread:*",), weight=0.2),
    "piece": Slot(term=("piece:*",), many=True),
    "flour": Slot(term=("ingredient:flour*", "ingredient:semolina", "cue:flour"), many=True),
    "item": Slot(
        term=("ingredient:*", "preferment:*", "cue:hydration", "cue:water", "cue:salt", "cue:starter"),
        many=True,
        weight=-0.5,
    ),
    "without": Slot(
        term=("ingredient:*", "cue:salt", "cue:starter", "cue:loss", "cue:leaven"),
        without=True,
        many=True,
        weight=1.2,
    ),
}


def _clash(bound: Bound) -> tuple[str, ...]:
    """What was said twice with two figures: "66 % hydration" and "70 % water"."""
    for first, again, name in (
        ("hydration_pct", "hydration_again_pct", "hydration"),
        ("hydration_pct", "dough_pct", "hydration"),
        ("salt_pct", "salt_again_pct", "salt"),
        ("starter_pct", "starter_share_pct", "starter"),
    ):
        one, two = bound.base(first), bound.base(again)
        if one is not None and two is not None and one != two:
            return (f"{one:g} % {name}", f"{two:g} % {name}")
    return ()


def _own_hydration(bound: Bound, preferment: Hit) -> float | None:
    """A preferment's own hydration: the figure said of that one, or the only one said."""
    said = bound.of("preferment_at_pct")
    ours = [hit for hit in said if set(hit.ids("preferment")) & set(preferment.ids("preferment"))]
    kinds = {hit.ids("preferment") for hit in bound.hits if hit.ids("preferment")}
    alone = said if len(kinds) < 2 else ()
    return _number(next(iter((*ours, *alone)), None))


def _twice(bound: Bound) -> tuple[str, ...]:
    """The same preferment with two shares."""
    said: dict[str, float] = {}
    for hit in bound.of("preferment_pct"):
        kind, value = hit.ids("preferment")[0], _number(hit) or 0.0
        if said.setdefault(kind, value) != value:
            return (f"{said[kind]:g} % {kind.replace('_', ' ')}", f"{value:g} %")
    return ()


def _in_usual_order(bound: Bound) -> Bound | None:
    """Figures without a word as they are always said: hydration, salt, starter. None where they stand otherwise."""
    salt, starter = bound.first("then_salt_pct"), bound.first("then_starter_pct")
    if salt is None:
        return bound if starter is None else None
    figures = [phrase for phrase in bound.phrases if phrase.kind != "sep"]
    at = next(n for n, phrase in enumerate(figures) if phrase is salt.amount)
    if starter is not None and figures[at + 1 : at + 2] != [starter.amount]:
        return None
    wet = next((hit for hit in bound.hits if at and hit.amount is figures[at - 1]), None)
    if wet is None or wet.slot == "hydration_pct":
        return bound if wet is not None else None
    other = bound.first("hydration_pct")
    labelled = wet.label is not None or (other is not None and other.label is not None)
    if labelled or wet.slot not in ("pieces", "piece_g"):
        return None
    if other is not None and wet.slot == "pieces":
        return None
    slots = {id(wet): "hydration_pct", **({id(other): "piece_g"} if other is not None else {})}
    return replace(bound, hits=tuple(replace(hit, slot=slots.get(id(hit), hit.slot)) for hit in bound.hits))


def _wet_not_many(bound: Bound) -> Bound:
    """ "1.5 kg flour, 70, 20 % starter": with a mass to go by and no word for pieces a bare number is the hydration."""
    many = bound.first("pieces")
    bare = many is not None and many.amount is not None and many.label is None and many.amount.role is None
    if not bare or bound.first("hydration_pct") is not None or bound.first("piece_g") is not None:
        return bound
    value = amount_base(many.amount) if many is not None else None
    massed = any(bound.first(slot) for slot in ("part_g", "all_flour_g", "dough_g"))
    if not massed or value is None or not 50 <= value <= 90 or bound.said("piece:*", "bread:*", "ask:how_many"):
        return bound
    return replace(bound, hits=tuple(replace(hit, slot="hydration_pct") if hit is many else hit for hit in bound.hits))


def _share_asked(bound: Bound, asked: tuple[str, ...]) -> Bound | None:
    """ "how much salt for 2.3 kg flour at 2.1 %": a share too small for hydration is of what is asked for.

    None where nothing was asked for that it could be a share of.
    """
    small = bound.first("asked_pct")
    if small is None or small.amount is None:
        return bound
    name = next((one for one in bound.phrases if asked and asked[0] in (*one.ids("ingredient"), *one.ids("cue"))), None)
    if name is None or len(asked) != 1 or fits(name, ("cue:flour", "ingredient:water", "cue:water", "cue:hydration")):
        return None
    slot = "salt_pct" if fits(name, SALT) else "starter_pct" if fits(name, STARTER) else "part_pct"
    if slot != "part_pct" and bound.first(slot) is not None:
        return None
    return replace(bound, hits=tuple(Hit(slot, hit.amount, name) if hit is small else hit for hit in bound.hits))


def _plus(bound: Bound) -> bool:
    """ "plus 10": a bare number behind a plus, and nothing else."""
    words = [phrase for phrase in bound.phrases if phrase.kind != "sep"]
    return len(words) == 2 and words[0].text.lower() in ("plus", "+") and words[1].dim == "num"


def _scaled_by(bound: Bound) -> float | None:
    """ "scale by 1.5", "scale up 20 %", "scale down by a third": how many times as much."""
    hit = bound.first("scale") or bound.first("scale_pct")
    if hit is None or hit.amount is None:
        return None
    value = amount_base(hit.amount) or 0.0
    part = value / 100 if hit.amount.dim == "pct" else value
    words = hit.label.text.lower().split() if hit.label is not None else []
    if hit.amount.dim == "num":
        return 1 / value if "down" in words and value > 1 else value
    if "down" in words:
        return 1 - part
    return 1 + part if {"up", "increase", "upscale"} & set(words) else part


def _counts_pieces(bound: Bound) -> bool:
    """Whether the number behind "enough for" counts what is baked: "enough for 3 loaves"."""
    hit = bound.first("portions")
    n = next((n for n, phrase in enumerate(bound.phrases) if hit is not None and phrase is hit.amount), None)
    return n is not None and any(fits(one, ("piece:*", "bread:*")) for one in bound.phrases[n + 1 : n + 2])


def _without_amount(bound: Bound) -> tuple[str, ...]:
    """Preferments the line names and says nothing of: "20 rolls with poolish"."""
    sized = {
        kind for slot in ("preferment_pct", "preferment_g") for hit in bound.of(slot) for kind in hit.ids("preferment")
    }
    named = [
        kind for phrase in bound.phrases if not phrase.negated and not phrase.ids("bread")
        for kind in phrase.ids("preferment")[:1]
    ]  # fmt: skip
    return tuple(dict.fromkeys(kind for kind in named if kind not in sized))


def _unweighed(part: Part) -> bool:
    """Named without an amount, and no flour."""
    return not part.flour and part.pct is None and part.g is None and part.measure is None


def _part_doubled(bound: Bound) -> bool:
    """ "double the salt": one thing, not the batch; how much that is was not said."""
    for phrase, nxt in zip(bound.phrases, bound.phrases[1:], strict=False):
        if fits(phrase, ("act:double", "act:halve", "act:triple")) and nxt.ids("ingredient"):
            return True
    return False


def _counted_through(bound: Bound) -> Hit | None:
    """The 12 of "12 rye rolls": a bare number before what the pieces are made of counts the pieces."""
    if bound.first("pieces") is not None:
        return None
    for hit in bound.of("part_pct"):
        if hit.amount is None or hit.label is None or hit.amount.dim != "num":
            continue
        n = bound.phrases.index(hit.label)
        behind = bound.phrases[n + 1 : n + 2]
        if bound.phrases[n - 1] is hit.amount and behind and fits(behind[0], ("piece:*", "bread:*")):
            return hit
    return None


def _for_heads(bound: Bound) -> bool:
    """ "brioche for 12": the number stands behind the bread and "for", and counts nothing that was named."""
    hit = bound.first("pieces")
    if hit is None or hit.amount is None or hit.label is None or not hit.label.ids("bread") or bound.first("piece_g"):
        return False
    n = next(n for n, phrase in enumerate(bound.phrases) if phrase is hit.amount)
    return bool(n) and "for" in bound.phrases[n - 1].ids("link") and not any(p.ids("piece") for p in bound.phrases)


def _each_of_them(bound: Bound) -> bool:
    """Whether the pieces were counted for one head: "2 rolls each", "two a head"."""
    hit = bound.first("pieces")
    if hit is None or hit.amount is None:
        return False
    n = next(n for n, phrase in enumerate(bound.phrases) if phrase is hit.amount)
    behind = [phrase for phrase in bound.phrases[n + 1 : n + 3] if phrase is not hit.label]
    return bool(behind) and bool(set(behind[0].ids("link")) & {"each", "per"})


def _most(hit: Hit | None) -> float | None:
    """A count; of a range the larger end, so that nobody goes without."""
    if hit is None or hit.amount is None or hit.amount.quantity is None:
        return None
    return hit.amount.high.value if hit.amount.high else hit.amount.quantity.value


def _choices(bound: Bound) -> tuple[str, ...]:
    out = []
    if bound.first("then_salt_pct") is not None:
        said = {"hydration": "hydration_pct", "salt": "then_salt_pct", "starter": "then_starter_pct"}
        figures = (f"{name} {_number(bound.first(slot)):g} %" for name, slot in said.items() if bound.first(slot))
        out.append("taken in the usual order: " + ", ".join(figures))
    for hit in bound.hits:
        if hit.amount is None or hit.amount.high is None or hit.amount.quantity is None:
            continue
        taken = _most(hit) if hit.slot == "pieces" else amount_base(hit.amount)
        unit = {"pct": " %", "mass": " g"}.get(hit.amount.dim, "")
        low, high = hit.amount.quantity.base, hit.amount.high.base
        out.append(f"{taken:g}{unit} of the {low:g} to {high:g}{unit} said")
    return tuple(out)


def _number(hit: Hit | None) -> float | None:
    value = amount_base(hit.amount) if hit else None
    share = hit is not None and hit.amount is not None and hit.amount.dim == "share"
    return value * 100 if share and value is not None else value


def _ingredients(label: Phrase | None) -> tuple[str, ...]:
    return label.ids("ingredient") if label else ()


def _is_flour(label: Phrase) -> bool:
    return fits(label, FLOUR)


def _masses(bound: Bound) -> bool:
    """A list of weights whose percentages are wanted: flour and another thing by mass, and no size or share that
    rules."""
    weighed = [hit for hit in (*bound.of("part_g"), *bound.of("part_volume")) if hit.label is not None]
    flour = any(hit.label is not None and _is_flour(hit.label) for hit in weighed)
    water = any(hit.label is not None and fits(hit.label, ("ingredient:water", "cue:water")) for hit in weighed)
    starter = any(hit.label is not None and fits(hit.label, STARTER) for hit in weighed)
    if flour and water and starter and not bound.first("pieces") and not bound.first("piece_g"):
        return True  # a hydration said beside these is the starter's
    if bound.first("pieces") or bound.first("piece_g") or bound.first("hydration_pct") or bound.first("dough_pct"):
        return bool(bound.said("cue:percentages") and flour and len(weighed) > 1 and not bound.first("piece_g"))
    return flour and (water or bound.said("cue:percentages"))


_IN_EVERY_DOUGH = (
    "cue:water", "cue:flour", "cue:salt", "cue:starter", "cue:hydration", "cue:all_flour", "cue:all_water",
)  # fmt: skip


def _asked(bound: Bound) -> tuple[str, ...]:
    """What the line asks to be told first: the word right behind "how much" or "how many", or the only one."""
    out: list[str] = []
    for n, phrase in enumerate(bound.phrases):
        if phrase.ids("ask") and phrase.ids("ask")[0] in ("how_much", "how_many", "what", "what_if"):
            for nxt in bound.phrases[n + 1 : n + 3]:
                if nxt.kind == "label" and not nxt.ids("ask"):
                    out.extend(_name_asked(nxt))
                    break
                if nxt.kind == "amount":
                    break
    return tuple(out) or _asked_first(bound) or _asked_alone(bound)


def _asked_first(bound: Bound) -> tuple[str, ...]:
    """ "water for 900 g flour at 71 %": what the line begins with is wanted."""
    opening = bound.phrases[:2]
    if len(opening) < 2 or opening[0].kind != "label" or opening[0].negated or "for" not in opening[1].ids("link"):
        return ()
    return _name_asked(opening[0]) if fits(opening[0], _IN_EVERY_DOUGH) else ()


def _asked_alone(bound: Bound) -> tuple[str, ...]:
    """ "water?", "and the salt": with a dough in hand a thing named and nothing else asks how much of it there is."""
    if not bound.context.has_bake or any(phrase.kind not in ("label", "link", "sep") for phrase in bound.phrases):
        return ()
    labels = [phrase for phrase in bound.phrases if phrase.kind == "label" and not fits(phrase, ("ask:is_it",))]
    if labels and all(fits(one, ("cue:percentages",)) for one in labels):
        return ("hydration",) if any("hydration" in one.text.lower() for one in labels) else ()
    labels = [one for one in labels if not fits(one, ("cue:percentages",))]
    if not labels or any(one.negated or not fits(one, ("ingredient:*", *_IN_EVERY_DOUGH)) for one in labels):
        return ()
    if not all(fits(one, _IN_EVERY_DOUGH) for one in labels) and not bound.asks():
        return ()
    if bound.links() - {"and", "is"}:
        return ()
    return tuple(name for one in labels for name in _name_asked(one))


def _name_asked(label: Phrase) -> tuple[str, ...]:
    if "flour" in label.ids("cue"):
        return ("flour",)
    return (label.ids("ingredient") or label.ids("cue") or label.ids("piece") or label.ids("bread"))[:1]


def _parts(bound: Bound, masses: bool, asked: tuple[str, ...]) -> tuple[list[Part], dict[str, float]]:
    """The parts named, and the masses that have fields of their own (water, starter, salt, flour)."""
    parts: list[Part] = []
    own: dict[str, float] = {}
    counted = _counted_through(bound)
    for hit in bound.hits:
        label = hit.label
        if counted is not None and hit is counted and label is not None:
            parts.append(Part(_ingredients(label), rest=_is_flour(label), flour=_is_flour(label)))
        elif hit.slot == "part_pct" and label is not None and hit.amount is not None:
            value = amount_base(hit.amount) or 0.0
            if hit.amount.dim == "share":
                value *= 100
            if masses and hit.amount.dim == "num":
                _weigh(label, value, parts, own)
            else:
                parts.append(
                    Part(
                        _ingredients(label),
                        pct=value,
                        late=_late_beside(bound, label),
                        soaked=_soaked_beside(bound, label),
                        flour=_is_flour(label),
                    )
                )
        elif hit.slot == "part_g" and hit.amount is not None and label is not None:
            _weigh(label, amount_base(hit.amount) or 0.0, parts, own)
        elif (
            hit.slot == "part_volume"
            and hit.amount is not None
            and label is not None
            and hit.amount.quantity is not None
        ):
            if fits(label, ("ingredient:water", "cue:water")):
                own["water_g"] = own.get("water_g", 0.0) + (amount_base(hit.amount) or 0.0)  # 1 ml weighs 1 g
            else:
                said = (hit.amount.quantity.value, hit.amount.quantity.unit or "ml")
                parts.append(Part(_ingredients(label), flour=_is_flour(label), measure=said))
        elif hit.slot == "part_count" and hit.amount is not None and label is not None:
            parts.append(Part(_ingredients(label), measure=(amount_base(hit.amount) or 0.0, "each")))
    for slot in ("salt_pct", "starter_pct", "hydration_pct"):
        hit_one = bound.first(slot)
        if masses and hit_one and hit_one.amount and hit_one.amount.dim == "num" and hit_one.label is not None:
            _weigh(hit_one.label, amount_base(hit_one.amount) or 0.0, parts, own)
    for hit in bound.of("flour"):
        if hit.label is None or _asked_for(hit.label, asked):
            continue
        ids = _ingredients(hit.label)
        generic = "flour" in hit.label.ids("cue")
        if generic:
            continue
        parts.append(Part(ids, rest=True, flour=True, alone=_flour_alone(bound)))
    for hit in bound.of("item"):
        if hit.label is None or _asked_for(hit.label, asked):
            continue
        ids = _ingredients(hit.label)
        if "blend" in hit.label.ids("cue"):
            continue
        if ids and not fits(hit.label, (*STARTER, *SALT, "ingredient:water")):
            parts.append(Part(ids, late=_late_beside(bound, hit.label)))
    return parts, own


def _flour_alone(bound: Bound) -> bool:
    """ "bread flour only", "make it wholemeal": a flour said to be all there is."""
    if bound.said("cue:all_of_it", "cue:limit", "cue:all_the"):
        return True
    words = [phrase for phrase in bound.phrases if phrase.kind in ("label", "amount", "junk")]
    changed = len(words) == 2 and fits(words[0], ("act:change", "act:make", "act:use"))  # "use wholemeal instead"
    return bound.context.has_bake and changed and fits(words[1], FLOUR)


def _weigh(label: Phrase, g: float, parts: list[Part], own: dict[str, float]) -> None:
    ids = _ingredients(label)
    if "water" in ids[:1] or ("water" in label.ids("cue") and not ids):
        own["water_g"] = own.get("water_g", 0.0) + g
    elif "discard" in label.ids("cue"):
        own["discard_g"] = g
    elif fits(label, STARTER):
        own["starter_g"] = own.get("starter_g", 0.0) + g
    elif fits(label, SALT) and (not ids or ids[0].startswith("salt_table")):
        own["salt_g"] = own.get("salt_g", 0.0) + g
    elif "flour" in label.ids("cue"):
        own["flour_g"] = own.get("flour_g", 0.0) + g
    elif ids:
        parts.append(Part(ids, g=g, flour=_is_flour(label)))


def _blended(parts: list[Part], bound: Bound) -> list[Part]:
    """ "half and half rye and bread flour", "60/40 rye and wholemeal": the shares in the order of the flours."""
    ratio = next((p.tokens[0].value for p in bound.phrases if p.ids("blend")), None)
    flours = [part for part in parts if part.flour and part.pct is None and part.g is None]
    if len(flours) < 2 or not (bound.said("cue:blend") or isinstance(ratio, tuple)):
        return parts
    shares = (
        list(ratio) if isinstance(ratio, tuple) and len(ratio) == len(flours) else [100 / len(flours)] * len(flours)
    )
    said = dict(zip(map(id, flours), shares, strict=True))
    return [replace(part, pct=said[id(part)], rest=False) if id(part) in said else part for part in parts]


WHITE = frozenset({"flour_bread", "flour_all_purpose", "flour_00", "flour_bread_13", "flour_high_gluten"})


def _hydration_of_white(parts: list[Part], bound: Bound) -> tuple[float | None, list[Part]]:
    """ "66 % bread flour" with no other flour and no hydration: nobody says the white share of a white dough."""
    flours = [part for part in parts if part.flour]
    if len(flours) == 1 and not bound.context.has_bake and flours[0].item[0] in WHITE:
        part = flours[0]
        if part.pct is not None and 50 <= part.pct <= 90:
            return part.pct, [replace(p, pct=None, rest=True) if p is part else p for p in parts]
    return None, parts


def _asked_for(label: Phrase, asked: tuple[str, ...]) -> bool:
    return bool(set(asked) & {*label.ids("ingredient"), *label.ids("cue")})


def _late_beside(bound: Bound, label: Phrase) -> bool:
    n = bound.phrases.index(label)
    return any(fits(p, ("cue:later",)) for p in bound.phrases[n + 1 : n + 2])


def _soaked_beside(bound: Bound, label: Phrase) -> bool:
    """ "25 % soaked raisins", "25 % raisins, soaked": the water in them counts."""
    n = bound.phrases.index(label)
    around = [p for p in bound.phrases[max(0, n - 1) : n + 3] if p.kind != "sep"]
    return any(fits(p, ("cue:soaked",)) for p in around)


def _salt_named(bound: Bound) -> str | None:
    """Which salt was named, where it is not plain fine salt."""
    for hit in (*bound.of("salt_pct"), *bound.of("part_g")):
        for item in _ingredients(hit.label)[:1]:
            if item.startswith("salt_") and item != "salt_table":
                return item
    return None


def _without(bound: Bound) -> tuple[list[str], list[str], bool]:
    """What is left out, what only comes later ("no salt yet"), and whether there is no loss."""
    out: list[str] = []
    late: list[str] = []
    no_loss = False
    for hit in bound.of("without"):
        label = hit.label
        if label is None:
            continue
        name = (
            "salt"
            if fits(label, SALT)
            else "starter"
            if fits(label, STARTER)
            else "yeast"
            if any(i.startswith("yeast") for i in label.ids("ingredient")) or fits(label, ("cue:leaven",))
            else (label.ids("ingredient") or ("",))[0]
        )
        if fits(label, ("cue:loss",)):
            no_loss = True
        elif name:
            (late if _late_beside(bound, label) else out).append(name)
    return out, late, no_loss


def _replaced(bound: Bound) -> list[str]:
    """What something else is used instead of: "yeast 1 % instead of starter"."""
    out: list[str] = []
    for phrase, nxt in zip(bound.phrases, bound.phrases[1:], strict=False):
        if (
            phrase.kind == "link"
            and set(phrase.ids("link")) & {"instead_of", "in_place_of", "rather_than"}
            and nxt.kind == "label"
        ):
            name = (
                "salt" if fits(nxt, SALT) else "starter" if fits(nxt, STARTER) else (nxt.ids("ingredient") or ("",))[0]
            )
            if name and not _is_flour(nxt):
                out.append(name)
    return out


def _is_exchange(bound: Bound) -> bool:
    """Whether the line only asks for one thing in place of so many grams of another: that is a swap, not a dough."""
    amounts = [phrase for phrase in bound.phrases if phrase.kind == "amount"]
    plain = bound.links() & {"instead_of", "in_place_of"} and not bound.said("act:*", "cue:rest", "cue:blend")
    if not amounts and plain and len({phrase.ids("ingredient")[:1] for phrase in bound.phrases} - {()}) == 2:
        return True  # "beer instead of the water in my pretzels"
    if len(amounts) != 1 or amounts[0].dim != "mass" or amounts[0].old is not None:
        return False
    at = bound.phrases.index(amounts[0])
    before = bound.phrases[at - 1] if at else None
    given = {name for phrase in bound.phrases for name in phrase.ids("ingredient")[:1]}
    instead = before is not None and set(before.ids("link")) & {"instead_of", "in_place_of"}
    return bool(instead) and len(given) == 2 and not bound.said("act:change", "act:use", "act:add")


def _lead(bound: Bound) -> bool:
    """Whether the line begins as a change to what is in hand: "for 40", "and with", "make it", "same but"."""
    for phrase in bound.phrases:
        if phrase.kind == "sep":
            continue
        if phrase.kind == "link":
            return bool(set(phrase.ids("link")) & {"for", "with", "and", "at", "instead", "if", "to"})
        return fits(phrase, ("act:change", "act:same", "act:correct", "act:add", "ask:what_if", "act:use", "act:scale"))
    return False


def _poured(bound: Bound, parts: list[Part], own: dict[str, float]) -> tuple[tuple[str, float], ...]:
    """What is put into the dough in hand on top of the rest, in g; taken out of `parts` and `own`.

    "add 50 g water", "another 50 water", "20 g less water"; "100 g more flour" is a larger dough instead.
    """
    adds, changes = bound.said("act:add"), bound.said("act:add", "cue:greater", "cue:fewer")
    if not bound.context.has_bake or not changes or bound.said("act:new_dough"):
        return ()
    sign = -1.0 if bound.said("cue:fewer") else 1.0
    out: list[tuple[str, float]] = []
    if "water_g" in own:
        out.append(("water", sign * own.pop("water_g")))
    hit = bound.first("hydration_pct")
    bare = hit is not None and hit.amount is not None and hit.amount.dim == "num"
    if hit is not None and bare and hit.label is not None and fits(hit.label, ("ingredient:water",)):
        out.append(("water", sign * (amount_base(hit.amount) or 0.0)))
    if adds:
        for name, item in (("flour_g", "flour"), ("starter_g", "starter"), ("salt_g", "salt")):
            if name in own:
                out.append((item, own.pop(name)))
        for part in [part for part in parts if part.flour and part.g is not None]:
            parts.remove(part)
            out.append((part.item[0], part.g or 0.0))
    return tuple(out)


def _more_or_less_of(bound: Bound) -> tuple[str, ...]:
    """ "more salt", "less starter" without a figure: what it is of; empty where a figure was said."""
    if not bound.context.has_bake or any(phrase.kind == "amount" or phrase.ids("ask") for phrase in bound.phrases):
        return ()
    for phrase, nxt in zip(bound.phrases, (*bound.phrases[1:], *bound.phrases[-1:]), strict=True):
        if fits(phrase, ("cue:wetter",)):
            return ("hydration",)
        if not fits(phrase, ("act:more", "cue:greater", "cue:fewer")):
            continue
        if fits(nxt, SALT):
            return ("salt",)
        if fits(nxt, STARTER):
            return ("starter",)
        if fits(nxt, ("ingredient:water", "cue:water", "cue:hydration")):
            return ("hydration",)
        if nxt.ids("ingredient"):
            return nxt.ids("ingredient")[:1]
    return ()


def _points(bound: Bound) -> tuple[str, float] | None:
    """ "2 % more water", "3 points wetter": of what ("hydration", an item) in the dough in hand, and how much."""
    hit = bound.first("points") or bound.first("bare_points")
    if hit is None or hit.amount is None or not bound.context.has_bake:
        return None
    if hit.amount.dim != "pct" and not bound.said("cue:points"):
        return None
    amounts = [phrase for phrase in bound.phrases if phrase.kind == "amount"]
    wetter = next((phrase for phrase in bound.phrases if fits(phrase, ("cue:wetter",))), None)
    less = bound.said("cue:fewer") or (wetter is not None and wetter.text.split()[-1].startswith(("dri", "stiff")))
    if len(amounts) > 1 or not (wetter is not None or bound.said("cue:fewer", "cue:greater", "act:more")):
        return None
    value = (amount_base(hit.amount) or 0.0) * (-1 if less else 1)
    of_it = any(phrase.ids("ingredient") or fits(phrase, _SHARED) for phrase in bound.phrases)
    if hit.amount.dim == "pct" and not of_it:
        return "", value  # "10 % more": of all of it
    for phrase in bound.phrases:
        if fits(phrase, SALT):
            return "salt", value
        if fits(phrase, STARTER):
            return "starter", value
        if fits(phrase, ("ingredient:water", "cue:water", "cue:hydration", "cue:wetter")):
            return "hydration", value
        if phrase.ids("ingredient"):
            return phrase.ids("ingredient")[0], value
    return None


_SHARED = ("cue:salt", "cue:starter", "cue:water", "cue:hydration", "cue:wetter", "cue:points")


def _exchanged(bound: Bound) -> bool:
    """ "honey in place of 60 g sugar": one weighed thing for another is an exchange, not a dough."""
    instead = bound.links() & {"instead_of", "in_place_of", "rather_than"}
    weighed = bound.first("part_g") is not None or bound.first("part_volume") is not None
    sized = bound.first("pieces") or bound.first("piece_g") or bound.first("hydration_pct") or bound.first("dough_g")
    return bool(instead) and weighed and not sized


def build(bound: Bound) -> FormulaRequest | None:
    """The request, or None where the line says nothing a dough could be made of or changed by."""
    bound = ferments_settled(bound)
    points = _points(bound)
    if points is not None and not points[0]:
        return FormulaRequest(scale=1 + points[1] / 100, size_lead=True)
    if points is not None:
        return FormulaRequest(more_pct=(points,), size_lead=True)
    open_end = _more_or_less_of(bound)
    if open_end:
        return FormulaRequest(asked=open_end, vague=True)
    if _is_exchange(bound):
        return None
    if _exchanged(bound):
        return None
    ordered = _in_usual_order(bound)
    if ordered is None:
        return None
    bound = ordered
    masses = _masses(bound)
    asked = _asked(bound)
    shared = _share_asked(_wet_not_many(bound), asked)
    if shared is None:
        return None  # a share of what, was not said
    bound = shared
    parts, own = _parts(bound, masses, asked)
    if own.get("flour_g", _LEAST_FLOUR_G) < _LEAST_FLOUR_G:
        return None  # "1 bag of flour", "half the flour": of how much, was not said
    without, late, no_loss = _without(bound)
    replaced = _replaced(bound)
    without = list(dict.fromkeys([*without, *replaced]))
    parts = [part for part in parts if part.pct is not None or part.g is not None or part.item[0] not in replaced]
    pieces = _most(bound.first("pieces") or _counted_through(bound))
    limited = bound.said("cue:limit") and not masses
    limits: list[tuple[str, float]] = []
    if limited and "flour_g" in own and (pieces is not None or bound.context.has_bake):
        limits.append(("flour", own.pop("flour_g")))
    portions = bound.base("portions")
    if portions is not None and pieces is None and _counts_pieces(bound):
        pieces, portions = portions, None  # "enough for 3 sandwich loaves"
    if portions is not None and pieces is not None and _each_of_them(bound):
        pieces, portions = pieces * portions, None  # "12 rowers, 2 rolls each"
    scale = _scaled_by(bound)
    part = bound.first("scale_by_part")
    if scale is None and part is not None and bound.context.has_bake:  # "a third more", "a quarter less"
        scale = 1 + (amount_base(part.amount) or 0.0) * (-1 if bound.said("cue:fewer") else 1)
    if scale is None and pieces is not None and pieces < 1 and bound.context.has_bake:
        scale, pieces = pieces, None  # "half of them"
    poured = _poured(bound, parts, own)
    more_flour = None
    if bound.context.has_bake and "flour_g" in own and bound.said("cue:fewer", "cue:greater"):
        more_flour = own.pop("flour_g") * (-1 if bound.said("cue:fewer") else 1)
    if scale is None:
        scale = (
            2.0
            if bound.said("act:double")
            else 3.0
            if bound.said("act:triple")
            else 1.5
            if bound.said("act:half_again")
            else 0.5
            if bound.said("act:halve")
            else None
        )
    more, vague = None, False
    if scale is not None and scale < 1 and bound.first("piece_g") is not None and bound.first("pieces") is not None:
        return FormulaRequest(two_sizes=True, piece_g=bound.base("piece_g"), scale=scale)  # "make half of them 100 g"
    counted = bound.first("pieces")
    if pieces is not None and counted is not None and counted.amount is not None and counted.amount.old is not None:
        more = None
    elif pieces is not None and (bound.said("cue:fewer", "cue:greater") or _plus(bound)) and bound.context.has_bake:
        more, pieces = (-pieces if bound.said("cue:fewer") else pieces), None
        named = (
            counted is not None
            and counted.label is not None
            and fits(counted.label, ("piece:*", "bread:*", "cue:pieces"))
        )
        vague = not named and not bound.said("piece:*", "bread:*")
    sizes = bound.first("sizes")
    starter_h = bound.base("starter_hydration_pct") or bound.base("starter_at_pct")
    if starter_h is None and bound.said("ingredient:starter_stiff_50"):
        starter_h = 50.0
    if starter_h is None and bound.said("cue:stiff") and bound.said(*STARTER):
        starter_h = 50.0
    if starter_h is None and bound.said("cue:liquid_starter") and bound.said(*STARTER):
        starter_h = 100.0
    parts = _blended(parts, bound)
    part_flours = [part for part in parts if part.flour]
    cut = pieces is not None and bound.first("piece_g") is not None and not masses
    if cut and part_flours and all(part.g is not None and part.item[0] not in WHITE for part in part_flours):
        parts.append(Part(("flour_bread",), rest=True, flour=True))  # "300 g of wholemeal in 12 rolls of 90 g"
    for hit in (*bound.of("salt_pct"), *bound.of("starter_pct")):
        if hit.label is not None and _late_beside(bound, hit.label):
            late.append("salt" if hit.slot == "salt_pct" else "starter")
    plain = not masses
    depth = bound.base("depth")
    wet = bound.first("hydration_pct") or bound.first("dough_pct")
    hydration = None if any(item == "water" for item, _ in poured) else _unless_mass(wet, plain)
    if masses and "water_g" in own and "starter_g" in own and hydration is not None and starter_h is None:
        hydration, starter_h = None, hydration  # the weights fix the dough's own; what is left to say is the starter's
    piece_g, hydration = _bare_pair(bound, bound.base("piece_g"), hydration)
    if scale is not None and scale < 1 and any(_unweighed(part) for part in parts):
        return None  # "half of them with sesame": what goes on top of which
    bread = bound.term("bread", "bread")
    if bread is None:
        bread = next(
            (hit.ids("bread")[0] for hit in bound.hits if hit.slot in ("pieces", "piece_g") and hit.ids("bread")), None
        )
    piece = next((p.ids("piece")[0] for p in bound.phrases if p.ids("piece") and not p.negated), None)
    if piece in (None, "piece") and _shape(bound) == "loaf" and bound.first("sizes") is not None:
        piece = "loaf"
    if hydration is None and plain:
        hydration, parts = _hydration_of_white(parts, bound)
    request = FormulaRequest(
        pieces=pieces,
        piece_g=piece_g,
        baked_g=bound.base("baked_g"),
        dough_g=bound.base("dough_g"),
        flour_g=own.get("flour_g"),
        all_flour_g=bound.base("all_flour_g"),
        water_g=own.get("water_g"),
        starter_g=own.get("starter_g"),
        salt_g=own.get("salt_g"),
        discard_g=own.get("discard_g"),
        limits=tuple(limits),
        sizes_cm=_sides(bound, sizes),
        deep_cm=depth if sizes is not None else None,
        tin_shape=_shape(bound) if sizes is not None else None,
        tin_ml=bound.base("tin_ml"),
        tins=bound.base("tins"),
        portions=portions,
        hydration_pct=hydration,
        salt_pct=_unless_mass(bound.first("salt_pct") or bound.first("then_salt_pct"), plain),
        salt=_salt_named(bound),
        starter_pct=_unless_mass(
            bound.first("starter_pct")
            or bound.first("starter_of_pct")
            or bound.first("then_starter_pct")
            or bound.first("starter_share_pct"),
            plain,
        ),
        prefermented_pct=_number(bound.first("prefermented_pct")),
        open_preferments=_without_amount(bound),
        starter_hydration_pct=starter_h,
        starter_flour=next((fed for item, fed in _STARTER_FLOURS.items() if bound.said(f"ingredient:{item}")), None),
        loss_pct=0.0 if no_loss else bound.base("loss_pct"),
        held_water_pct=bound.base("held_pct"),
        bread=bread,
        piece=piece,
        usual=bound.said("cue:usual"),
        kitchen_c=bound.base("kitchen_c"),
        choices=_choices(bound),
        parts=tuple(parts),
        preferments=tuple(
            (
                hit.ids("preferment")[0],
                _number(hit) if hit.slot == "preferment_pct" else None,
                _number(hit) if hit.slot == "preferment_g" else None,
                _own_hydration(bound, hit),
            )
            for hit in (*bound.of("preferment_pct"), *bound.of("preferment_g"))
        ),
        without=tuple(without),
        late=tuple(dict.fromkeys(late)),
        from_masses=masses,
        pieces_asked=bound.said("ask:how_many") and pieces is None,
        asked=asked,
        scale=scale,
        more_pieces=more,
        more_flour_g=more_flour,
        poured_g=poured,
        vague=vague or _part_doubled(bound),
        clash=_clash(bound) or _twice(bound),
        for_heads=_for_heads(bound),
        adds=bound.said("act:add"),
        anew=bound.said("act:new_dough"),
        size_lead=_lead(bound) and bound.context.has_bake,
    )
    bare = FormulaRequest(asked=asked, size_lead=request.size_lead, anew=request.anew, kitchen_c=request.kitchen_c)
    if request == bare:  # a kitchen's warmth alone makes no dough; a question about the one in hand shows it
        return request if asked and bound.context.has_bake and request.kitchen_c is None else None
    size_or_share = (
        request.has_size
        or request.has_shares
        or request.portions
        or request.usual
        or request.tins
        or (request.pieces is not None and (request.bread or request.piece))
        or (request.piece_g is not None and request.piece_g >= _LOAF_G and (request.bread or request.piece))
    )
    if not size_or_share and not bound.context.has_bake:
        return None
    return request


_LEAST_FLOUR_G = 8.0
"""Less flour than this is a count or a share that was taken for grams."""
_LOAF_G = 300.0
"""From here on one piece with its weight is a dough to weigh out: "900 g loaf"."""
_WET_PCT = 80.0
"""Of a bare number from here on nobody means hydration while the weight of the pieces is open."""


def _bare_pair(bound: Bound, piece_g: float | None, hydration: float | None) -> tuple[float | None, float | None]:
    """Piece mass and hydration where they were bare numbers: "9 rolls at 110, 62", "20 pieces at 85"."""
    wet = bound.first("hydration_pct")
    if bound.first("pieces") is None or hydration is None or wet is None or wet.label is not None:
        return piece_g, hydration
    if wet.amount is None or wet.amount.dim != "num" or hydration <= _WET_PCT:
        return piece_g, hydration
    heavy = bound.first("piece_g")
    if heavy is None and bound.first("dough_g") is None:
        return hydration, None
    if heavy is not None and heavy.amount is not None and heavy.amount.dim == "num" and heavy.label is None:
        return hydration, piece_g
    return piece_g, hydration


def _unless_mass(hit: Hit | None, plain: bool) -> float | None:
    """A share; in a list of weights a bare number is a weight and was counted as one."""
    if hit is None or hit.amount is None or (not plain and hit.amount.dim == "num"):
        return None
    return amount_base(hit.amount)


def _sizes(hit: Hit | None) -> tuple[float, ...]:
    if hit is None or hit.amount is None:
        return ()
    return hit.amount.sizes or ((amount_base(hit.amount) or 0.0),)


def _sides(bound: Bound, hit: Hit | None) -> tuple[float, ...]:
    """The lengths said, of a tin whose width was said apart both."""
    sides = _sizes(hit)
    width = bound.base("width")
    return (*sides, width) if width is not None and len(sides) == 1 else sides


def _shape(bound: Bound) -> str | None:
    """What the tin looks like from above, where a word says so."""
    shapes = [one for phrase in bound.phrases if not phrase.negated for one in phrase.ids("shape")]
    return next((one for one in ("round", "square", "loaf", "sheet") if one in shapes), None)


FRAME = Frame(
    FormulaRequest,
    "formula",
    build,
    slots=SLOTS,
    cues={
        "cue:formula": 0.6,
        "cue:percentages": 1.2,
        "cue:soaked": 0.1,
        "act:make": 0.6,
        "act:change": 0.8,
        "act:same": 0.8,
        "act:more": 1.2,
        "act:add": 0.6,
        "act:use": 0.3,
        "act:new_dough": 1.2,
        "act:scale": 1.2,
        "act:double": 1.6,
        "act:triple": 1.6,
        "act:halve": 1.6,
        "act:half_again": 1.6,
        "act:correct": 0.3,
        "cue:usual": 0.6,
        "cue:limit": 0.5,
        "cue:rest": 0.2,
        "cue:rest_of": 0.2,
        "cue:later": 0.1,
        "cue:stiff": 0.7,
        "cue:liquid_starter": 0.5,
        "cue:blend": 0.5,
        "blend:*": 0.5,
        "cue:dough": 0.1,
        "cue:tin": 0.1,
        "cue:deep": 0.1,
        "cue:broad": 0.1,
        "cue:hold": 0.1,
        "shape:*": 0.1,
        "cue:total": 0.1,
        "cue:fewer": 0.2,
        "cue:greater": 0.2,
        "cue:use_up": 0.5,
        "cue:preferment": 0.1,
        "cue:lean": 0.2,
        "cue:baked": 0.1,
        "ask:how_much": 0.3,
        "ask:how_many": 0.4,
        "ask:what": 0.1,
        "ask:can_i": 0.1,
        "ask:how_to": 0.1,
        "ask:plan*": 0.1,
        "ask:what_if": 0.2,
        "cue:baked_mark": 0.1,
        "cue:all_the": 0.1,
        "cue:discard": 0.1,
        "cue:held": 0.1,
        "cue:bigger": 0.2,
        "cue:wetter": 1.4,
        "cue:split": 0.3,
        "act:swap": 0.6,
        "cue:piece_mass": 0.1,
        "clock:set": 0.0,
        "act:back": 0.6,
        "cue:points": 0.4,
        "cue:pieces": 0.1,
        "ask:is_it": 0.0,
        "cue:all_of_it": 0.0,
    },
    rules_out=(
        "cue:pot", "ask:how_long", "ask:when", "act:undo", "act:help", "into:cm", "into:inch", "unit:cm", "unit:inch*",
    ),
    help_topic="dough",
    settles=True,
)
