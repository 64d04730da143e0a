"""Step two of the reader: a small LALR grammar over tokens binds what belongs together."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from typing import Any

from grammar.denial import denied_on, hours_not_meant
from grammar.leads import led
from grammar.lexicon import Term
from grammar.moments import Moment, Window, completes, joined
from grammar.parted_verbs import PARTED, put_together
from grammar.phrase_table import follow
from grammar.tokens import Quantity, Token

_QUANTITIES = frozenset({"NUM", "PCT", "MASS", "VOLUME", "TIME", "TEMP", "EACH", "LENGTH", "MONEY"})
_TIMES_OF_DAY = frozenset({"CLOCK", "DAY", "PART"})
_INSIDE_A_MOMENT = frozenset({"at", "on", "in", "for", "next", "before", "by"})
_INSTEAD = frozenset({"instead_of", "in_place_of", "rather_than"})
_IN_PLACE, _NOT_THAT = (("turn", "in_place"),), (("turn", "not_that"),)
"""Meaning of an amount said in the place of another, and of one said to be meant where that one was not."""


@dataclass(frozen=True, slots=True)
class Phrase:
    """A piece of the line that has one meaning.

    kind: "amount" (quantity, or moment/window), "label" (a vocabulary word), "link", "sep", "junk".
    tokens: what it is made of; quantity: the amount, its low end for a range; high: the other end; old: the amount it
    stands instead of; role: "count" or "each" in "24 x 80 g"; sizes: lengths in cm; negated: "no salt"; meant: how it
    is meant, nearest word first (`grammar/aspects.py`).
    """

    kind: str
    tokens: tuple[Token, ...]
    quantity: Quantity | None = None
    high: Quantity | None = None
    old: Quantity | None = None
    role: str | None = None
    sizes: tuple[float, ...] = ()
    moment: Moment | None = None
    window: Window | None = None
    terms: tuple[Term, ...] = ()
    negated: bool = False
    meant: tuple[str, ...] = field(default=(), compare=False)
    lead: str | None = None  # the small word that gives an hour or a length of time its role (`grammar/leads.py`)

    @property
    def dim(self) -> str:
        """What a slot must take to take this: a quantity's dimension, "moment", "window" or "sizes"."""
        if self.quantity is not None:
            return "share" if self.quantity.fraction else self.quantity.dim
        return "window" if self.window else "sizes" if self.sizes else "moment"

    @property
    def text(self) -> str:
        return " ".join(token.text for token in self.tokens)

    def ids(self, kind: str) -> tuple[str, ...]:
        """The ids under which a label is known as a `kind`."""
        return tuple(i for k, i in self.terms if k == kind)


def phrases(tokens: Sequence[Token]) -> tuple[Phrase, ...]:
    """The phrases of a line in order. Fillers and idle words fall away; everything else is in exactly one phrase."""
    found: list[Any] = follow(_marked(tokens), _BUILD)
    out: list[Phrase] = []
    for one in found:
        out.extend(one if isinstance(one, tuple) else (one,))
    return led(denied_on(hours_not_meant(out)))


def _marked(tokens: Sequence[Token]) -> tuple[tuple[str, Token], ...]:
    """Terminal names for the tokens; a sign or small word that joins two values is named for what it does."""
    tokens = put_together([token for token in tokens if token.kind != "FILL" or token.text.lower() in PARTED])
    kept = [token for token in tokens if token.kind != "FILL" and not token.idle]
    while kept and len(kept) < len(tokens) and kept[0].kind == "MARK" and kept[0].text in ",;":
        del kept[0]  # what the comma cut off fell away
    out: list[tuple[str, Token]] = []
    for i, token in enumerate(kept):
        if token.kind == "NEG" and token.text.lower() in ("no", "nope") and _alone(kept, i):
            token = replace(token, kind="TERM", terms=(("act", "correct"),))  # "no, 18 of them"
        elif token.text.lower() == "x" and i == 0 and [one.kind for one in kept[1:2]] == ["NUM"]:
            token = replace(token, kind="TERM", terms=(("act", "scale"),))
        elif token.kind == "NEG" and _to_a_figure(kept, i):
            token = replace(token, kind="TERM", terms=_LOWERED)  # "drop the starter to 15 %", "... by a third"
        elif token.ids("shift") and _to_a_figure(kept, i) and kept[i + 1].ids("cue"):
            token = replace(token, terms=_LOWERED[:1])  # "bring the starter down to 8"
        before = out[-1] if out else None
        after = kept[i + 1] if i + 1 < len(kept) else None
        name = _joint(token, before, after, out)
        if name is None:
            name = _plain(token, before, after)
        if name in _TIMES_OF_DAY and before is not None and before[0] in _TIMES_OF_DAY and _one_moment(out, token):
            out.append(("GLUE", token))
        elif name == "LINK" and before is not None and before[0] in _TIMES_OF_DAY and after is not None:
            # "sunday at 9", "9 on sunday", "9 in the morning": the small word between is part of the moment
            joins = after.kind in _TIMES_OF_DAY and bool(set(token.ids("link")) & _INSIDE_A_MOMENT)
            if joins and _one_moment(out, after):
                continue
        out.append((name, token))
    return tuple(out)


def _to_a_figure(kept: Sequence[Token], i: int) -> bool:
    """Whether what looks like a negation only lowers something: a word, "to" or "by", and a figure."""
    following = kept[i + 1 : i + 4]
    return (
        len(following) == 3
        and following[0].kind == "TERM"
        and (bool({"to", "by"} & set(following[1].ids("link"))) or following[1].text.lower() in ("down by", "up by"))
        and following[2].quantity is not None
    )


_LOWERED = (("act", "change"), ("cue", "lowered"))


def _alone(kept: Sequence[Token], i: int) -> bool:
    """Whether a "no" stands at the front, cut off from what follows: it corrects rather than negates."""
    after = kept[i + 1] if i + 1 < len(kept) else None
    stands = after is not None and (after.kind in ("MARK", "NEG") or after.quantity is not None)
    return i == 0 and after is not None and (stands or "forgot" in after.ids("mistake"))


def _one_moment(out: Sequence[tuple[str, Token]], token: Token) -> bool:
    """Whether `token` completes the moment that ends `out`: it brings what the moment lacks."""
    so_far: Moment | None = None
    for name, one in reversed(out):
        if name not in _TIMES_OF_DAY | {"GLUE"}:
            break
        if name != "GLUE" and isinstance(one.value, Moment):
            so_far = one.value if so_far is None else joined(so_far, one.value)
    new = token.value
    if so_far is None or not isinstance(new, Moment):
        return False
    return completes(so_far, new)


def _joint(
    token: Token, before: tuple[str, Token] | None, after: Token | None, out: Sequence[tuple[str, Token]]
) -> str | None:
    if before is None or after is None:
        return None
    sign = str(token.value) if token.kind == "MARK" else token.text.lower()
    values = before[0] in _QUANTITIES and after.kind in _QUANTITIES
    inside = len(out) > 1 and out[-2][0] in ("TIMES", "RANGE", "INSTEAD")
    if values and sign in ("x", "*", "by", "times") and before[0] in ("NUM", "LENGTH"):
        if before[0] == "LENGTH":  # "30-40 x 20 x 10": what ends a range begins no chain
            ranged = len(out) > 1 and out[-2][0] == "RANGE"
            return "TIMES" if after.kind == "LENGTH" and not ranged else None
        return "TIMES" if not inside and after.kind != "LENGTH" and sign != "by" else None
    dash = token.kind == "MARK" and sign == "-"
    links = token.ids("link")
    between = "and" in links and len(out) > 1 and "between" in out[-2][1].ids("link")
    if values and not inside and (dash or between or set(links) & {"to", "or"}):
        left, right = before[1].quantity, after.quantity
        assert left is not None and right is not None
        alike = left.dim == right.dim or left.dim == "num"
        tight = dash and token.glued and after.glued
        if alike and (tight or (not dash and left.value < right.value * 1.0001) or (not dash and right.dim == "num")):
            return "RANGE" if left.value > 0 and not left.fraction else None
    led = len(out) > 1 and "between" in out[-2][1].text.lower().split()
    if not inside and before[0] in _TIMES_OF_DAY and (
        dash or set(links) & {"to", "until", "till"} or (led and "and" in links)
    ):
        begun = next((name for name, _ in reversed(out) if name not in _TIMES_OF_DAY | {"GLUE"}), None)
        if after.kind in _TIMES_OF_DAY and begun != "RANGE":
            return "RANGE"
    if values and not inside and (set(links) & _INSTEAD or (token.kind == "NEG" and sign == "not")):
        return "INSTEAD"  # 30 instead of 24, 22 not 25
    return None


def _plain(token: Token, before: tuple[str, Token] | None, after: Token | None) -> str:
    if token.kind == "MARK":
        return "SEP"
    if token.text.lower() == "x" and token.kind == "JUNK":  # "24 rolls x 80 g", "pizza x 4"
        beside = (before[0] if before else "", after.kind if after else "")
        return "SEP" if _QUANTITIES & set(beside) else "JUNK"
    if token.kind == "TERM":
        return "LABEL"
    if token.kind == "NEG":
        return "NEG" if after is not None and after.kind == "TERM" else "LABEL"
    return token.kind


class _Build:
    """Tree to phrases; one method a rule."""

    def start(self, items: list[Any]) -> list[Any]:
        return items

    def amount(self, items: list[Any]) -> Phrase:
        token: Token = items[0].value
        return Phrase("amount", (token,), token.quantity)

    def batch(self, items: list[Any]) -> tuple[Phrase, Phrase]:
        count, mark, each = (item.value for item in items)
        return (
            Phrase("amount", (count, mark), count.quantity, role="count"),
            Phrase("amount", (each,), each.quantity, role="each"),
        )

    def sizes(self, items: list[Any]) -> Phrase:
        tokens = tuple(item.value for item in items)
        lengths = tuple(t.quantity.base for t in tokens if t.quantity is not None)
        return Phrase("amount", tokens, sizes=lengths)

    def span(self, items: list[Any]) -> Phrase:
        low, mark, high = (item.value for item in items)
        first: Quantity = low.quantity
        if first.dim == "num" and high.quantity.dim != "num":  # "2-3 tbsp": the unit is said once
            factor = high.quantity.base / high.quantity.value if high.quantity.value else 1.0
            first = replace(high.quantity, value=first.value, base=first.value * factor)
        return Phrase("amount", (low, mark, high), first, high=high.quantity)

    def instead(self, items: list[Any]) -> Phrase:
        new, mark, old = (item.value for item in items)
        terms = _NOT_THAT if mark.kind == "NEG" else _IN_PLACE
        return Phrase("amount", (new, mark, old), new.quantity, old=old.quantity, terms=terms)

    def moment(self, items: list[Any]) -> Phrase:
        tokens = tuple(item.value for item in items if item.type != "GLUE")
        said = tokens[0].value
        for token in tokens[1:]:
            said = joined(said, token.value)
        return Phrase("amount", tokens, moment=said)

    def window(self, items: list[Any]) -> Phrase:
        start, mark, end = items
        tokens = (*start.tokens, mark.value, *end.tokens)
        return Phrase("amount", tokens, window=Window(start.moment, end.moment))

    def without(self, items: list[Any]) -> Phrase:
        return Phrase("label", tuple(item.value for item in items), terms=items[1].value.terms, negated=True)

    def label(self, items: list[Any]) -> Phrase:
        return Phrase("label", (items[0].value,), terms=items[0].value.terms)

    def link(self, items: list[Any]) -> Phrase:
        return Phrase("link", (items[0].value,), terms=items[0].value.terms)

    def sep(self, items: list[Any]) -> Phrase:
        return Phrase("sep", (items[0].value,))

    def junk(self, items: list[Any]) -> Phrase:
        return Phrase("junk", (items[0].value,))


_BUILD = _Build()
