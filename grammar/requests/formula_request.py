"""What may be said of a dough, whole or as a change to the one in hand."""

from __future__ import annotations

from dataclasses import dataclass

from grammar.heads import Table
from grammar.requests.formula_before import Was
from grammar.requests.formula_heads import Heads
from grammar.requests.formula_merge import STEPS
from grammar.requests.formula_moves import Move
from grammar.requests.formula_parts import Part
from grammar.requests.formula_sizes import PieceChange


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
    dough_c: float | None = None  # how warm the dough is to be; what it takes is the water's to say
    choices: tuple[str, ...] = ()  # where a range was said: what was taken, in words
    asked: tuple[str, ...] = ()  # what the line asks for: "water", "salt_table", "starter" ...
    scale: float | None = None
    more_pieces: float | None = None  # "3 fewer" is -3
    more_flour_g: float | None = None  # "with 500 g less flour" is -500
    more_pct: tuple[tuple[str, float], ...] = ()  # "2 points less salt": ("salt", -2.0)
    times: tuple[tuple[str, float], ...] = ()  # "double the salt": ("salt", 2.0)
    bare_rows: tuple[str, ...] = ()  # rows whose figure had no unit: it is in the unit the row was said in
    counted: bool | None = None  # whether the flour said is meant to hold the starter's
    heads: float | None = None  # how many eat, where so many pieces each were said
    per_head: float | None = None
    tables: tuple[Table, ...] = ()  # eaters of several sorts, each with what it gets
    poured_g: tuple[
        tuple[str, float], ...
    ] = ()  # put in on top of the dough in hand: ("water", 50.0), ("flour", 100.0)
    clash: tuple[str, ...] = ()  # the same thing said twice with two figures
    vague: bool = False  # "knock 3 off": of what, was not said
    two_sizes: bool = False  # "make half of them 100 g"
    heads_changed: Heads | None = None  # "2 more guests", "3 each": of the dough in hand
    piece_change: PieceChange | None = None  # "bigger ones, 95", "10 g lighter each", "half the size"
    by_weight: bool = False  # the dough was first told in weights: a bare figure of a row is grams
    moves: tuple[Move, ...] = ()  # rows that give way to others: "swap the rye for spelt"
    put_back: tuple[str, ...] = ()  # rows that go in again as they were before they were left out
    taken_out: tuple[Part, ...] = ()  # rows as they were when they were left out or changed
    was: tuple[Was, ...] = ()  # figures as they were before they were changed
    stays: str | None = None  # what another number of pieces leaves as it is: the "dough", or the "size" of each
    batches: tuple[str, ...] = ()  # two doughs in one line, as typed: asked about
    figure: float | None = None  # of which the dough in hand says what it is: "no, a fifth", "15 instead of 20"
    either: float | None = None  # "make it 95" of 60 rolls of 80 g: pieces or grams
    last: tuple[str, ...] = ()  # the figures the last line set, by field: what a bare correction is of
    adds: bool = False  # "add 8 % seeds"
    as_much: bool = False  # what comes in is as much as what goes: "sunflower seeds for the walnuts, same weight"
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
        if self.steps or self.put_back or self.size_lead or self.adds:
            return False
        return self.has_size and (self.pieces is not None or self.has_shares)

    @property
    def steps(self) -> bool:
        """Whether it changes what is there by so much or so many times, rather than setting a figure."""
        return any(getattr(self, name) not in (None, ()) for name in STEPS)

    def begins_anew(self, earlier: FormulaRequest) -> bool:
        """Whether this is another dough than the one in hand. Pieces of the same kind, and no word of what is in them,
        are the same dough in another size."""
        if not self.whole or self.anew or self.from_masses:
            return self.whole
        told = self.has_shares or self.bread or self.parts or self.preferments or self.usual or self.starter_g
        return bool(told) or self.pieces is None or self.piece not in (None, "piece", earlier.piece)
