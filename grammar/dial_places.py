"""What stands around an hour of the clock: the words that lead to one, and what shows that a number is none."""

from __future__ import annotations

from collections.abc import Sequence

from grammar.day_words import DAY_STARTS
from grammar.lexemes import Lexeme
from grammar.lexicon import Lexicon
from grammar.moments import PART_WORDS
from grammar.tokens import Token
from grammar.units import unit_at

LED = frozenset({"at", "by", "until", "before", "after", "from", "for", "about", "to", "between"})
"""Small words that an hour may follow."""
SHARP = frozenset({"at", "by", "until", "before", "after"})
"""Small words after which "ten to six" is one hour rather than two."""
ENDS = frozenset(
    {*DAY_STARTS, "in", "on", "at", "by", "and", "or", "to", "till", "til", "until", "then", "so", "please", "instead",
     "sharp", "ish", "latest", "from", "for", "before", "after", "with", "when", "if", "am", "pm", "but", "is"}
)  # fmt: skip
"""Words that may follow "half five" where it is an hour."""


def led(before: Sequence[Token], links: frozenset[str] = LED) -> bool:
    """Whether an hour is to be expected after what stands before: a small word for it, a day, or a part of one."""
    for token in reversed(before[-3:]):
        if token.kind == "FILL" or "about" in token.ids("link"):
            continue
        if token.kind in ("DAY", "PART", "MARK"):
            return token.kind != "MARK" or token.text == "@"
        wants = links is LED and bool(token.ids("clocked") or token.ids("away"))
        return wants or bool({*token.ids("link"), *token.text.lower().split()[-1:]} & links)
    return bool(before) and before[-1].kind == "LINK"


def word_at(lx: Sequence[Lexeme], i: int) -> str:
    return (lx[i].word or lx[i].text) if i < len(lx) else ""


def counted(lx: Sequence[Lexeme], i: int) -> bool:
    """Whether a word follows that the number before it may count."""
    return i < len(lx) and lx[i].kind != "mark" and word_at(lx, i) not in ENDS | PART_WORDS.keys()


def closes_at(lx: Sequence[Lexeme], i: int) -> bool:
    """Whether the clause ends here."""
    return i >= len(lx) or lx[i].kind == "mark"


def measures(lx: Sequence[Lexeme], i: int, lexicon: Lexicon) -> bool:
    """Whether a number, a unit or a thing that is counted follows: "half 2 cups", "half six rolls" are no hours."""
    if i >= len(lx) or lx[i].kind == "mark" or lx[i].word in ENDS:
        return False
    things = {kind for kind, _ in lexicon.phrases.get(lx[i].word, ())} & {"ingredient", "piece", "bread"}
    return lx[i].kind == "number" or bool(things) or unit_at(lx, i, lexicon, 1.0) is not None
