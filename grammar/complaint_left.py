"""Words of a complaint that carry meaning and were not understood."""

from __future__ import annotations

import re
from collections.abc import Sequence
from itertools import pairwise

from grammar.complaint import Heard, painted
from grammar.complaint_figures import Figures
from grammar.complaint_terms import CueAt
from grammar.complaint_words import means_something
from grammar.frames import Line
from grammar.phrases import Phrase

_A_FEW_SENTENCES = 12
"""A longer complaint tells a story: its words that name no fault, thing or figure of the trade are not nagged about."""


def left_unread(heard: Heard, found: Figures, cues: Sequence[CueAt], line: Line, answering: bool) -> tuple[str, ...]:
    """Words that carry meaning and were not understood, as typed."""
    covered = {n for m in heard.mentions for n in range(m.first, m.last + 1)}
    covered |= {n for first, last, _, _ in cues for n in range(first, last + 1)}
    covered |= painted(heard.mentions, heard.words, line.lexicon)
    little, colours, stress = (
        {n for n, word in enumerate(heard.words) if word.text in line.lexicon.small(*classes)}
        for classes in (("denies", "too_little"), ("colour",), ("stress",))
    )
    covered |= {n for n in little if covered & {n + 1, n + 2, n + 3}}
    covered |= {n for n in colours if n - 1 in covered or n + 1 in covered}  # "grey" beside "water on top"
    covered |= {n for n in stress if n + 1 in covered}
    small = ("FILL", "LINK", "NEG", "CLOCK", "DAY", "PART")
    spans = [(t.start, t.end) for t in line.tokens if t.kind in small or t.quantity]
    spans += [(t.start, t.end) for t in line.tokens if t.idle and t.text.lower() not in line.lexicon.looks]
    spans += [
        (t.start, t.end)
        for t in line.tokens
        if t.kind == "TERM"
        and any(k in ("ingredient", "bread", "piece", "unit", "cue", "stage", "link", "filler") for k, _ in t.terms)
    ]
    out = [] if answering else [p.text for p in found.left]
    out += _weighed(line.phrases)
    for n, word in enumerate(heard.words):
        if n in covered or word.amount >= 0 or len(word.text) < 3 or any(a <= word.start < b for a, b in spans):
            continue
        if heard.plain and len(heard.words) > _A_FEW_SENTENCES and not means_something(word.text, line.lexicon):
            continue
        out.append(word.typed or word.text)
    return tuple(dict.fromkeys(out))


_WEIGHT = re.compile(r"[\d.,]+ ?(?:g|kg|oz|lb)s?")


def _weighed(phrases: Sequence[Phrase]) -> list[str]:
    """Words nobody knows right behind a weight: "with 30 g frobs"."""
    unknown = [(before, word) for before, word in pairwise(phrases) if word.kind == "junk" and word.text.isalpha()]
    return [word.text for before, word in unknown if _WEIGHT.fullmatch(before.text)]
