"""Ratios: shares that make a hundred ("60/40"), and the parts of a feed in signs or words ("one to two to two")."""

from __future__ import annotations

import re
from collections.abc import Sequence

from grammar import numbers
from grammar.lexemes import Lexeme
from grammar.lexicon import Lexicon
from grammar.quantities import words_at
from grammar.tokens import Quantity, Token

_MOST_PARTS = 20.0
"""More parts than this to one of seed are no feed anybody gives: then the figures are something else."""
_PART = frozenset({"part", "parts"})
_JOINS = frozenset({"to", "and", "with"})


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


def parts_in_words(lx: Sequence[Lexeme], i: int, lexicon: Lexicon) -> tuple[Token, int] | None:
    """ "one to two to two", "1 part to 5 to 5", "one part starter to two parts flour and two of water".

    Three figures joined by "to", or three counts of parts of things that have names; where all three are named, their
    order is free.
    """
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
        of_thing = at + 1 if at < len(lx) and lx[at].word == "of" else at
        name = _named(lx[of_thing].word, lexicon) if of_thing < len(lx) else None
        if name is not None and (parts or of):
            of.append(name)
            at = of_thing + 1
    if parts == 3 and set(of) == {"flour", "water"}:
        of.insert(0, "starter")  # "feed the starter 1 part, flour 4 parts, water 4 parts"
    if tos < 2 and not (parts and len(of) == 3):
        return None
    if len(of) == 3 and set(of) != {"starter", "flour", "water"}:
        return None
    if len(of) == 3:
        said = [said[of.index(one)] for one in ("starter", "flour", "water")]
    return parts_of(tuple(said)), at - i


def _count(lx: Sequence[Lexeme], i: int) -> tuple[float, int] | None:
    """A plain figure or number word and its length."""
    if i >= len(lx):
        return None
    if lx[i].kind == "number":
        return numbers.digits(lx[i].text), 1
    said = numbers.spelled([word for word in words_at(lx, i, 3) if word != "-"])
    if said is not None and said.words:
        return said.value, said.words
    return (1.0, 1) if lx[i].word in ("a", "equal") and i + 1 < len(lx) and lx[i + 1].word in _PART else None


def _named(word: str, lexicon: Lexicon) -> str | None:
    """Which of the three things in a jar a word names."""
    ids = {id for kind, id in lexicon.phrases.get(word, ()) if kind == "ingredient"}
    if "water" in ids:
        return "water"
    if word == "seed" or any(id.startswith("starter") for id in ids):
        return "starter"
    return "flour" if any(id.startswith("flour") for id in ids) else None
