"""Ratios: shares that make a hundred ("60/40"), and the parts of a feed in signs or words ("one to two to two")."""

from __future__ import annotations

import re
from collections.abc import Sequence

from grammar import number_words, numbers
from grammar.lexemes import Lexeme
from grammar.lexicon import Lexicon
from grammar.quantities import words_at
from grammar.tokens import Quantity, Token

_MOST_PARTS = 20.0
"""More parts than this to one of seed are no feed anybody gives: then the figures are something else."""
_PART = frozenset({"part", "parts"})
_JOINS = frozenset({"to", "and", "with"})
_OLD = frozenset({"old", "ripe", "mother", "seed"})
"""Words for what is left in the jar, with or without its noun: "one part old"."""
_TIMES = {"own": 1.0, "same": 1.0, "equal": 1.0, "twice": 2.0, "double": 2.0, "thrice": 3.0, "triple": 3.0}
_SMALL = frozenset({"in", "of", "its", "it", "their", "the", "own", "both", "each"})
LEAST_POURED_G = 5.0
"""The first of three bare figures behind "fed" is grams from here on, and parts below."""
_WETTEST = 2.0
"""No feed has more water than this to one of flour: then the larger figure is the flour's."""


def blend_at(lx: Sequence[Lexeme], i: int) -> tuple[Token, int] | None:
    """ "60/40", "50:50": two shares that make a hundred."""
    head = lx[i]
    found = re.fullmatch(r"(\d+)\s?/\s?(\d+)", head.text) if head.kind == "number" else None
    used = 1
    if found is None and i + 2 < len(lx) and lx[i + 1].text == ":" and lx[i + 2].kind == "number" and lx[i + 2].glued:
        found = re.fullmatch(r"(\d+):(\d+)", head.text + ":" + lx[i + 2].text)
        used = 3
    if found is None or int(found[1]) + int(found[2]) != 100:
        return None
    shares = (float(found[1]), float(found[2]))
    return Token("TERM", "", 0, 0, terms=(("blend", f"{found[1]}/{found[2]}"),), value=shares), used


def parts_of(parts: tuple[float, ...]) -> Token:
    """Parts of seed, flour and water as an amount: the flour to one of seed; all three are the value."""
    per_seed = parts[1] / parts[0] if parts[0] else 0.0
    return Token("NUM", "", 0, 0, quantity=Quantity(per_seed, "ratio", None, per_seed), value=parts)


def parts_in_signs(lexeme: Lexeme) -> Token:
    """ "1:5:5"."""
    return parts_of(tuple(float(part) for part in re.findall(r"\d+(?:\.\d)?", lexeme.text)))


def parts_in_words(
    lx: Sequence[Lexeme], i: int, lexicon: Lexicon, before: Sequence[Token]
) -> tuple[Token, int] | None:
    """ "one to two to two", "1 part to 5 to 5", "one part starter to two parts flour and two of water", "twice its
    weight of flour and water"; behind "fed" also three bare figures, "20 100 100"."""
    return _parts_named(lx, i, lexicon) or _times_its_weight(lx, i, lexicon) or _poured(lx, i, before)


def _parts_named(lx: Sequence[Lexeme], i: int, lexicon: Lexicon) -> tuple[Token, int] | None:
    """Three figures joined by "to", or three counts of parts of things that have names; where all three are named,
    their order is free."""
    said: list[float] = []
    of: list[str] = []
    parts = tos = 0
    at = i
    while len(said) < 3:
        if said:
            joint = lx[at] if at < len(lx) else None
            if joint is not None and (joint.word in _JOINS or joint.text == ","):
                tos, at = tos + (joint.word == "to"), at + 1
            elif joint is None or len(of) < len(said):
                return None
        ahead = _named(lx[at].word, lexicon) if at + 2 < len(lx) else None  # "starter 1 part, flour 4 parts"
        found = _count(lx, at + (ahead is not None))
        if found is None or not 0 < found[0] <= _MOST_PARTS:
            return None
        said.append(found[0])
        at += found[1] + (ahead is not None)
        if ahead is not None:
            if at >= len(lx) or lx[at].word not in _PART:
                return None
            of.append(ahead)
            parts, at = parts + 1, at + 1
            continue
        if at < len(lx) and lx[at].word in _PART:
            parts, at = parts + 1, at + 1
        name, used = _thing(lx, at, lexicon)
        if name is not None and (parts or of):
            of.append(name)
            at += used
    if parts == 3 and set(of) == {"flour", "water"}:
        of.insert(0, "starter")  # "feed the starter 1 part, flour 4 parts, water 4 parts"
    if tos < 2 and not (parts and len(of) == 3):
        return None
    if len(of) == 3 and set(of) != {"starter", "flour", "water"}:
        return None
    if len(of) == 3:
        said = [said[of.index(one)] for one in ("starter", "flour", "water")]
    return parts_of(tuple(said)), at - i


def _thing(lx: Sequence[Lexeme], at: int, lexicon: Lexicon) -> tuple[str | None, int]:
    """Which of the three things in a jar stands behind a count, and how many lexemes name it: "of the old starter"."""
    used = 0
    while at + used < len(lx) and (lx[at + used].word in _SMALL or lx[at + used].word in _OLD):
        used += 1
    name = _named(lx[at + used].word, lexicon) if at + used < len(lx) else None
    if name is not None:
        twice = at + used + 1 < len(lx) and _named(lx[at + used + 1].word, lexicon) == name  # "rye flour"
        return name, used + 1 + twice
    old = used and lx[at + used - 1].word in _OLD
    return ("starter", used) if old else (None, 0)


def _times_its_weight(lx: Sequence[Lexeme], i: int, lexicon: Lexicon) -> tuple[Token, int] | None:
    """ "twice its weight of flour and of water", "five times its own weight in flour and water"."""
    times, at = _TIMES.get(lx[i].word), i + 1
    if times is None:
        found = _count(lx, i)
        if found is None or i + found[1] >= len(lx) or lx[i + found[1]].word != "times":
            return None
        times, at = found[0], i + found[1] + 1
    while at < len(lx) and lx[at].word in _SMALL:
        at += 1
    if at >= len(lx) or lx[at].word != "weight":
        return None
    named: list[str] = []
    at += 1
    while at < len(lx) and len(named) < 2:
        name = _named(lx[at].word, lexicon)
        if name is not None:
            named.append(name)
        elif lx[at].word not in _SMALL | _JOINS and lx[at].text != ",":
            break
        at += 1
    return (parts_of((1.0, times, times)), at - i) if sorted(named) == ["flour", "water"] else None


def _poured(lx: Sequence[Lexeme], i: int, before: Sequence[Token]) -> tuple[Token, int] | None:
    """Three bare figures behind "fed": seed, flour and water as they went in ("20 100 100", "30 g / 60 g / 60 g")."""
    last = next((token for token in reversed(before) if token.kind != "FILL"), None)
    if last is None or "feed" not in last.ids("feeding"):
        return None
    said: list[float] = []
    at = i
    while at < len(lx) and len(said) < 3:
        found = numbers.digits(lx[at].text) if lx[at].kind == "number" else None
        if found is None or found <= 0:
            return None
        said.append(found)
        at += 1
        if at < len(lx) and lx[at].word in ("g", "grams", "gram"):
            at += 1
        if len(said) < 3 and at < len(lx) and (lx[at].text in "/+,-" or lx[at].word == "and"):
            at += 1
    if len(said) < 3 or (at < len(lx) and (lx[at].kind == "number" or lx[at].word in ("%", "percent"))):
        return None
    seed, flour, water = said
    if seed >= LEAST_POURED_G and water > _WETTEST * flour:
        flour, water = water, flour
    return parts_of((seed, flour, water)), at - i


def _count(lx: Sequence[Lexeme], i: int) -> tuple[float, int] | None:
    """A plain figure or number word and its length."""
    if i >= len(lx):
        return None
    if lx[i].kind == "number":
        return numbers.digits(lx[i].text), 1
    said = number_words.spelled([word for word in words_at(lx, i, 3) if word != "-"])
    if said is not None and said.words:
        return said.value, said.words
    return (1.0, 1) if lx[i].word in ("a", "equal") and i + 1 < len(lx) and lx[i + 1].word in _PART else None


def _named(word: str, lexicon: Lexicon) -> str | None:
    """Which of the three things in a jar a word names."""
    ids = {id for kind, id in lexicon.phrases.get(word, ()) if kind == "ingredient"}
    if "water" in ids:
        return "water"
    if word in ("seed", "mother") or any(id.startswith("starter") for id in ids):
        return "starter"
    return "flour" if any(id.startswith("flour") for id in ids) else None
