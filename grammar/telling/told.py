"""What a report tells, and the words and amounts it is made of."""

from __future__ import annotations

from dataclasses import dataclass, field

from grammar.lexicon import NO_WORDS, Lexicon, Term
from grammar.moments import Moment
from grammar.phrases import Phrase


@dataclass(frozen=True, slots=True)
class Told:
    """One thing told.

    what: "mark" (of `step`), "in" or "out" (of what it is in), "moved" (to the `place` named), "dough_c", "room_c",
    "core_c", "starter_c", "rise_pct", "starter_rise_pct" (with `value`; of the hour of `step`, where that is said),
    "lost" or "left" (`value` pieces; with `place` so many trays of them, or that share), "mend" (the last one put right
    by `value` or `at`, or the last that had the `old` ones) or "again" (the last step, of another dough). at, ago_min:
    when, where said; throughout: ever since what was told before; pieces: how many.
    """

    what: str
    step: str | None = None
    value: float | None = None
    at: Moment | None = None
    ago_min: float | None = None
    pieces: float | None = None
    place: str | None = None
    throughout: bool = False
    old: Told | None = None


@dataclass(frozen=True, slots=True)
class Telling:
    """All that a line tells.

    starter_pct: of the dough; ratio: of the feed; sure: told as done rather than bid; unread: words it has no place
    for; amounts: how many figures and hours there are.
    """

    told: tuple[Told, ...]
    starter_pct: float | None = None
    ratio: tuple[float, float, float] | None = None
    sure: bool = True
    unread: tuple[str, ...] = ()
    amounts: int = 0
    of: tuple[str, ...] = ()


@dataclass
class Item:
    """A word (or turn of speech) or an amount, in its clause."""

    clause: int
    text: str
    terms: tuple[Term, ...] = ()
    amount: Phrase | None = None
    old: Phrase | None = None
    """The amount it is said in the place of."""
    used: bool = False
    thing: bool = False
    """Pieces or a bread by name."""
    food: bool = False
    """An ingredient by name."""
    room: bool = False
    """A place where dough may stand."""

    def ids(self, kind: str) -> list[str]:
        return [name for one, name in self.terms if one == kind]


@dataclass
class Made:
    """A statement being made: its item's place, and the time that came to belong to it."""

    told: Told
    place: int
    clause: int


@dataclass
class Cut:
    """A line in its pieces, and what is made of them. under_way: something was told of this bake before."""

    items: list[Item] = field(default_factory=list)
    made: list[Made] = field(default_factory=list)
    lexicon: Lexicon = NO_WORDS
    under_way: bool = False

    def clause(self, number: int) -> list[Item]:
        return [item for item in self.items if item.clause == number]

    def has(self, kind: str, clause: int | None = None) -> bool:
        return any(item.ids(kind) for item in self.items if clause is None or item.clause == clause)
