"""Step three of the reader: each kind of request declares what it takes; the best-fitting one claims the phrases.

A frame is one `Frame` value beside its request class (see `grammar/requests/`):

    FRAME = Frame(
        # frozen dataclass, None = unsaid; its docstring's lines are examples
        request=TimingRequest,
        topic="timing",
        # words that speak for it ("kind:id" or "kind:*"), by how much (`grammar/levels.py`)
        cues=speaks(certain="ask:how_long", likely="stage:*"),
        needs=("ask:how_long", "stage:*"),           # at least one must be there, unless it continues its own topic
        rules_out=("symptom:*",),                    # none may be there
        slots={
            "stage": Slot(term=("stage:*",)),                                  # a word
            "temp_c": Slot(
                {"temperature": SURE, "num": MAYBE}, cues=("cue:kitchen",), bare=MAYBE, low=-5, high=50,
                links={"at": LIKELY},
            ),
            "starter_pct": Slot({"pct": SURE, "num": MAYBE}, cues=("ingredient:starter*",), low=1, high=100),
            "items": Slot({"pct": SURE}, cues=("ingredient:*",), many=True),    # (amount, word) pairs
        },
        build=build,                                 # Bound -> request, or None if it makes no sense after all
    )

What a slot takes stands in `grammar/slots.py`.
Nothing here computes anything about dough.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from grammar.clause_begins import INVERTED, begins, words_of
from grammar.context import Context
from grammar.follow import Follow
from grammar.lexicon import NO_WORDS, Lexicon, patterns_of
from grammar.phrases import Phrase
from grammar.slots import Slot
from grammar.tokens import Token

NOTHING = Phrase("none", ())
"""What stands beyond either end of a line: no word, no figure, no meaning."""


def beside(phrases: Sequence[Phrase], place: int, step: int = -1) -> Phrase:
    """The phrase so many steps from a place of the line; NOTHING beyond its ends."""
    return phrases[place + step] if 0 <= place + step < len(phrases) else NOTHING


@dataclass(frozen=True, slots=True)
class Hit:
    """A slot filled: by an amount (with the word beside it, if any) or by a word alone."""

    slot: str
    amount: Phrase | None
    label: Phrase | None

    def ids(self, kind: str) -> tuple[str, ...]:
        return self.label.ids(kind) if self.label else ()

    @property
    def meant(self) -> tuple[str, ...]:
        """How the amount is meant, else its word: nearest word first."""
        return (self.amount.meant if self.amount else ()) or (self.label.meant if self.label else ())


@dataclass(frozen=True, slots=True)
class Bound:
    """A frame's slots filled from the line; what `build` makes the request of."""

    hits: tuple[Hit, ...]
    phrases: tuple[Phrase, ...]
    context: Context
    text: str
    lexicon: Lexicon = NO_WORDS

    def of(self, slot: str) -> tuple[Hit, ...]:
        return tuple(hit for hit in self.hits if hit.slot == slot)

    def first(self, slot: str) -> Hit | None:
        return next((hit for hit in self.hits if hit.slot == slot), None)

    def amounts(self, slot: str) -> tuple[Phrase, ...]:
        """The amounts the slot took, in their order."""
        return tuple(hit.amount for hit in self.hits if hit.slot == slot and hit.amount is not None)

    def amount(self, slot: str) -> Phrase:
        """The amount of the slot's first hit; NOTHING where it took none."""
        hit = self.first(slot)
        return (hit.amount if hit is not None else None) or NOTHING

    def word(self, slot: str) -> Phrase:
        """The word of the slot's first hit; NOTHING where none stands beside it."""
        hit = self.first(slot)
        return (hit.label if hit is not None else None) or NOTHING

    def next_to(self, phrase: Phrase, step: int = 1) -> Phrase:
        """The phrase so many steps behind one of the line (before it: less than 0); NOTHING beyond its ends."""
        return beside(self.phrases, self.phrases.index(phrase), step)

    def base(self, slot: str) -> float | None:
        """The slot's amount in %, g, ml, min, cm, °C as a number; the middle of a range; None if unfilled."""
        hit = self.first(slot)
        return amount_base(hit.amount) if hit and hit.amount else None

    def term(self, slot: str, kind: str) -> str | None:
        """The id of the slot's word as a `kind`; None if unfilled."""
        hit = self.first(slot)
        ids = hit.ids(kind) if hit else ()
        return ids[0] if ids else None

    def terms(self, slot: str, kind: str) -> tuple[str, ...]:
        return tuple(i for hit in self.of(slot) for i in hit.ids(kind)[:1])

    def said(self, *patterns: str) -> bool:
        """Whether any word of the line fits one of the patterns (not counting negated ones)."""
        return any(fits(phrase, patterns) for phrase in self.phrases if not phrase.negated)

    def free(self, slot: str) -> str | None:
        """The words a `rest` slot took, as typed, with the small words between them; None if it took none."""
        taken = {id(phrase) for hit in self.of(slot) for phrase in (hit.amount, hit.label) if phrase is not None}
        stretches: list[tuple[int, int]] = []
        broken = True
        for phrase in self.phrases:
            if id(phrase) in taken:
                start, end = phrase.tokens[0].start, phrase.tokens[-1].end
                if not broken:
                    start = stretches.pop()[0]
                stretches.append((start, end))
                broken = False
            elif phrase.kind in ("amount", "label"):
                broken = True
        return " ".join(self.text[start:end] for start, end in stretches) or None

    def asks(self) -> bool:
        """Whether the line ends in a question mark."""
        return self.text.rstrip().endswith("?")

    def inverted(self) -> bool:
        """Whether the line begins as a question does: "is it done", "are they in"."""
        return begins(words_of(self.text), self.lexicon, *INVERTED)

    def meant(self, *aspects: str) -> tuple[Phrase, ...]:
        """The amounts and words of the line that are meant so ("at_hand", "lacking"), see `grammar/aspects.py`."""
        return tuple(phrase for phrase in self.phrases if set(phrase.meant[:1]) & set(aspects))

    def links(self) -> frozenset[str]:
        """The small words of the line by id ("for", "at", "instead_of")."""
        return frozenset(i for phrase in self.phrases for i in phrase.ids("link"))


@dataclass(frozen=True, slots=True)
class Line:
    """A line as a frame sees it that reads by itself: text, tokens and phrases, the words known, the talk so far."""

    text: str
    tokens: tuple[Token, ...]
    phrases: tuple[Phrase, ...]
    lexicon: Lexicon
    context: Context


@dataclass(frozen=True, slots=True)
class Own:
    """What such a frame made of a line: the request, how well it fits (as slots are scored), words left unread.

    gives_way: topics that answer the line better where one of them takes every word and figure of it.
    """

    request: Any
    score: float
    unread: tuple[str, ...] = ()
    gives_way: frozenset[str] = frozenset()


@dataclass(frozen=True, slots=True, eq=False)
class Frame:
    """One kind of request; see the module text. `base`: added to its score whenever it fits at all.

    There is one of each kind: a frame equals itself alone, so that what a word is to it can be remembered.
    """

    request: type
    topic: str
    build: Callable[[Bound], Any]
    slots: Mapping[str, Slot] = field(default_factory=dict)
    cues: Mapping[str, float] = field(default_factory=dict)
    needs: tuple[str, ...] = ()
    rules_out: tuple[str, ...] = ()
    follows: tuple[str, ...] = ()  # topics it may continue without its `needs`; its own topic always
    base: float = 0.0
    help_topic: str | None = None
    whole: Callable[[str], Any] | None = None  # takes a text as a whole, before it is cut into words (a pasted recipe)
    reads: Callable[[Line], Own | None] | None = None  # reads the line by itself instead of by slots (a complaint)
    hints: tuple[str, ...] = ()  # classes of plain words that may mean this where another frame took them too
    settles: bool = False  # a line it takes wholly is not heard as a complaint as well
    wholly: bool = False  # fits a line only where it takes every word and figure of it
    asked: bool = False  # answers a question: where a thing is wished and nothing asked, it fits less
    follow: Follow | None = None  # how its lines go on from an earlier one; without it each stands alone
    last: bool = False  # with `reads`: reads only what no other frame accounts for
    first: bool = False  # with `reads`: reads before all others, and a line it takes is nothing else (a note)
    patterns: frozenset[str] = field(init=False, repr=False, default=frozenset())
    takes_rest: bool = field(init=False, repr=False, default=False)  # has a slot for whatever words there are

    def __post_init__(self) -> None:
        known = {*self.cues, *self.needs, *self.rules_out}
        for slot in self.slots.values():
            known |= {*slot.cues, *slot.term, *slot.never}
        object.__setattr__(self, "patterns", frozenset(p for p in known if not p.startswith("slot:")))
        object.__setattr__(self, "takes_rest", any(slot.rest for slot in self.slots.values()))

    @property
    def examples(self) -> tuple[str, ...]:
        """Example lines: the request class's docstring up to the first blank line or the first sentence."""
        lines = (self.request.__doc__ or "").strip().splitlines()
        out = []
        for line in lines:
            if not line.strip() or line.strip().endswith("."):
                break
            out.append(line.strip())
        return tuple(out)


def fits(phrase: Phrase, patterns: tuple[str, ...]) -> bool:
    """Whether a word fits one of the patterns "kind:id", "kind:*" or "kind:prefix*"."""
    return bool(phrase.terms) and not patterns_of(phrase.terms).isdisjoint(patterns)


def celsius(value: float, unit: str | None, high: float | None = None) -> float:
    """Degrees Celsius of a temperature as said; where the degree is unsaid, Fahrenheit if Celsius is past `high`."""
    if unit == "degF" or (unit != "degC" and high is not None and value > high):
        return (value - 32) / 1.8
    return value


def amount_base(phrase: Phrase | None, high_c: float | None = None) -> float | None:
    """One number for an amount: %, g, ml, min, cm, °C, a bare number, a share; the middle of a range."""
    if phrase is None or phrase.quantity is None:
        return None
    ends = [q for q in (phrase.quantity, phrase.high) if q is not None]
    values = [celsius(q.value, q.unit, high_c) if q.dim == "temperature" else q.base for q in ends]
    return sum(values) / len(values)


def never_by_slots(bound: Bound) -> None:
    """The `build` of a frame that reads a line as a whole, or not at all."""
