"""One row of the dough in hand giving way to another: "swap the rye for spelt", "half of those sesame", "the difference
to the wholemeal"."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from grammar.frames import Bound, amount_base, fits
from grammar.phrases import Phrase
from grammar.requests.formula_slots import FLOUR, WHITE

FREED, BLEND, PLAIN = "freed", "flour", "white"
"""What gives way: so much of the flours as the rest of the line takes from them, some of each, the white one."""


@dataclass(frozen=True, slots=True)
class Move:
    """out: the row that gives way, or one of the words above; into: the row that takes its room.

    part: how much of it, 0 to 1; pct: how many per cent of all flour, g: how many grams, where that was said.
    """

    out: str
    into: str
    part: float = 1.0
    pct: float | None = None
    g: float | None = None


def moved(bound: Bound) -> tuple[tuple[Move, ...], Bound]:
    """The moves of a line about the dough in hand, and the line without what said them."""
    if not bound.context.has_bake or bound.said("stance:must_not", "cue:missing", "cue:only_this"):
        return (), bound
    words = _out_of_place([p for p in bound.phrases if p.kind != "sep" and "of" not in p.ids("link")])
    for shape in (_freed, _exchanged, _taken_out, _in_place, _part_of, _so_much_of_it):
        found = shape(words, bound)
        if found is not None:
            move, used = found
            taken = {id(phrase) for phrase in used}
            hits = tuple(hit for hit in bound.hits if not {id(hit.amount), id(hit.label)} & taken)
            return (move,), replace(bound, hits=hits)
    return (), bound


def _out_of_place(words: Sequence[Phrase]) -> list[Phrase]:
    """The words without where it is done: "in the loaf", "in the dough"."""
    doughs = [n for n, word in enumerate(words) if fits(word, _DOUGHS)]
    placed = {n for n in doughs if n and fits(words[n - 1], ("link:in",))}
    return [word for n, word in enumerate(words) if not {n, n + 1} & placed]


_DOUGHS = ("piece:*", "bread:*", "cue:dough", "cue:this")


_Found = tuple[Move, tuple[Phrase, ...]] | None


def _freed(words: Sequence[Phrase], bound: Bound) -> _Found:
    """ "reduce the rye to 5 and give the difference to the wholemeal"."""
    for n, phrase in enumerate(words):
        behind = [one for one in words[n + 1 : n + 3] if not _joins(one)]
        if fits(phrase, ("cue:freed",)) and behind and fits(behind[0], FLOUR) and behind[0].ids("ingredient"):
            return Move(FREED, behind[0].ids("ingredient")[0]), (phrase, behind[0])
    return None


def _exchanged(words: Sequence[Phrase], bound: Bound) -> _Found:
    """ "swap the rye for spelt", "half the flour to wholemeal", "change 10 % of the bread flour to rye"."""
    for n, phrase in enumerate(words):
        share = phrase.kind == "amount" and phrase.dim in ("share", "pct")
        if not share and not fits(phrase, ("act:swap", "act:change")):
            continue
        rest = words[n + 1 : n + 4]
        if len(rest) == 3 and _joins(rest[1]):
            out, into = _row(rest[0], bound), _into(rest[2])
            if out is not None and into is not None and out != into:
                return _much(Move(out, into), phrase), (*((phrase,) if share else ()), rest[0], rest[2])
    return None


def _taken_out(words: Sequence[Phrase], bound: Bound) -> _Found:
    """ "take 300 of the strong out and put dark rye in its place": so many grams of a flour, another in their place."""
    there = [phrase for phrase in words if phrase.kind == "link" and "instead" in phrase.ids("link")]
    amounts = [phrase for phrase in words if phrase.kind == "amount"]
    flours = [phrase for phrase in words if fits(phrase, FLOUR)]
    if not there or len(amounts) != 1 or len(flours) != 2 or amounts[0].dim not in ("mass", "num", "share", "pct"):
        return None
    out, into = _row(flours[0], bound), _into(flours[1])
    if out is None or into is None or out == into or words.index(amounts[0]) > words.index(flours[0]):
        return None
    return _much(Move(out, into), amounts[0]), (amounts[0], *flours)


def _so_much_of_it(words: Sequence[Phrase], bound: Bound) -> _Found:
    """ "if 300 of that flour was rye", "could half the white be spelt", "rye in it, a quarter of the flour": an amount
    of a flour there is, and the flour it is to be, whichever is said first. A share of all flour with the kind behind
    it is a row like any other."""
    names = [phrase for phrase in words if phrase.kind != "link"]
    for n, amount in enumerate(names):
        behind, before = names[n + 1 : n + 3], names[n - 1 : n] if n else []
        if not behind or not _part_of_it(amount, bound):
            continue
        whole = _into(behind[0]) if behind[0].text.lower().startswith("flour ") else None
        if whole is not None and amount.dim in ("mass", "num"):  # "200 g of that flour rye"
            return _much(Move(BLEND, whole), amount), (amount, behind[0])
        share = amount.dim in ("share", "pct") and amount.kind == "amount" and "flour" in behind[0].ids("cue")
        pairs = [(behind[0], other) for other in (*(() if share else behind[1:]), *before)]
        for out, into in pairs:
            row, new = _row(out, bound), _into(into)
            if row is not None and new is not None and row != new and "flour" not in into.ids("cue"):
                return _much(Move(row, new), amount), (amount, out, into)
    return None


def _part_of_it(phrase: Phrase, bound: Bound) -> bool:
    """Whether a phrase says how much of what stands behind it: "300 of", "a quarter of", "half of that"."""
    if fits(phrase, ("act:halve",)):
        return phrase.text.lower().split()[0] == "half"
    behind = bound.phrases[bound.phrases.index(phrase) + 1 :][:1]
    of_it = bool(behind) and "of" in behind[0].ids("link")
    return phrase.kind == "amount" and phrase.dim in ("mass", "num", "share", "pct") and of_it


def _in_place(words: Sequence[Phrase], bound: Bound) -> _Found:
    """ "spelt instead of the rye": all of it, where no figure is said."""
    if any(phrase.kind == "amount" for phrase in words) or bound.asks():
        return None
    for before, link, behind in zip(words, words[1:], words[2:], strict=False):
        if link.kind == "link" and set(link.ids("link")) & {"instead_of", "in_place_of", "rather_than"}:
            out, into = _row(behind, bound), _into(before)
            if out is not None and into is not None and out != into:
                return Move(out, into), (before, behind)
    return None


def _part_of(words: Sequence[Phrase], bound: Bound) -> _Found:
    """ "half of those sesame", "make half the poppy seeds sesame": those are what the line before put in."""
    for n, amount in enumerate(words):
        rest = [one for one in words[n + 1 : n + 4] if not _joins(one)]
        if amount.kind != "amount" or amount.dim != "share" or len(rest) != 2 or len(words) > n + 4:
            continue
        into = next(iter(rest[1].ids("ingredient")), None)
        out = _those(into, bound) if fits(rest[0], ("piece:piece",)) else _told(rest[0], bound)
        if out is not None and into is not None and out != into and _alike(out, into):
            return _much(Move(out, into), amount), (amount, rest[0], rest[1])
    return None


def _those(into: str | None, bound: Bound) -> str | None:
    """What "those" are: what the line before put in, else the only row of the family."""
    alike = [row for row in bound.context.known.rows if into is not None and _alike(row, into)]
    newest = bound.context.known.newest
    return newest if newest is not None or len(alike) != 1 else alike[0]


def _much(move: Move, said: Phrase) -> Move:
    if said.kind != "amount":
        return replace(move, part=0.5) if fits(said, ("act:halve",)) else move
    value = amount_base(said) or 0.0
    if said.dim in ("mass", "num"):
        return replace(move, g=value)
    return replace(move, part=value) if said.dim == "share" else replace(move, pct=value)


def _row(phrase: Phrase, bound: Bound) -> str | None:
    """The flour of the dough in hand that a word names: one told, all of it, or the white one that is the rest."""
    if phrase.negated or not fits(phrase, FLOUR):
        return None
    if "flour" in phrase.ids("cue"):
        return BLEND
    return _told(phrase, bound) or (PLAIN if WHITE & set(phrase.ids("ingredient")) else None)


def _told(phrase: Phrase, bound: Bound) -> str | None:
    return next((item for item in phrase.ids("ingredient") if item in bound.context.known.rows), None)


def _into(phrase: Phrase) -> str | None:
    named = phrase.ids("ingredient") if fits(phrase, FLOUR) and not phrase.negated else ()
    return next(iter(named), None)


def _alike(out: str, into: str) -> bool:
    """Whether two rows are of one family, so that one weighs in for the other: "poppy_seeds" and "sesame_seeds"."""
    return bool(set(out.split("_")) & set(into.split("_")) & _FAMILIES)


def _joins(phrase: Phrase) -> bool:
    return phrase.kind == "link" and bool(set(phrase.ids("link")) & _JOINING)


_JOINING = frozenset({"for", "to", "per", "with", "into", "by", "in", "as"})

_FAMILIES = frozenset({"seeds", "flour", "sugar", "nuts", "raisins", "oil"})
