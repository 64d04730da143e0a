"""What goes out and what comes in by the small words and verbs that stand between two things."""

from __future__ import annotations

import re
from collections.abc import Sequence

from grammar.frames import Bound, fits
from grammar.phrases import Phrase


def by_links(
    bound: Bound, places: Sequence[int], clause: Sequence[int], goes: dict[int, float], comes: dict[int, float]
) -> None:
    """ "oil instead of butter", "swap the butter for oil", "00 goes in for bread flour", "rather this than that"."""
    for i, phrase in enumerate(bound.phrases):
        after = next((place for place in places if place > i), None)
        before = next((place for place in reversed(places) if place < i), None)
        if fits(phrase, ("link:instead_of", "stance:serves")):
            if after is not None:
                goes[after] += 4.0
            if before is not None and before != after:
                comes[before] += 1.5
        elif fits(phrase, ("act:swap",)) or _exchange_asked(phrase):
            _exchanged(bound, i, places, goes, comes)
        elif fits(phrase, ("link:than",)) and before is not None and after is not None:
            comes[before] += 2.0
            goes[after] += 2.0
        elif fits(phrase, ("link:instead",)) and before is not None and after is None:
            alone = bound.context.has_bake and not bound.phrases[before].negated
            comes[before] += 1.5 if len(places) > 1 or alone else 0.0
        elif fits(phrase, ("link:instead",)) and after is not None and before is not None:
            comes[after] += 0.7
        elif "for" in phrase.ids("link") and after is not None and clause[after] == clause[i]:
            between = bound.phrases[i + 1 : after]
            of_the_dough = len(places) > 2 and fits(bound.phrases[after], ("cue:flour",))
            if all(p.kind in ("amount", "link") for p in between) and not (_exchanging(bound, i) or of_the_dough):
                goes[after] += 1.4
        elif fits(phrase, ("ask:what_else",)) and after is not None and clause[after] == clause[i]:
            used = re.search(r"\b(use|it (work|ok|do) with)$", phrase.text.lower()) is not None
            if used and "for" not in phrase.text.lower() and len(places) > 1:
                comes[after] += 1.2
            else:
                goes[after] += 1.2
        elif fits(phrase, ("stance:becomes",)) and before is not None:
            goes[before] += 2.0


def _exchange_asked(phrase: Phrase) -> bool:
    """Whether a question holds a verb of exchange: "can I swap"."""
    return fits(phrase, ("ask:what_else",)) and phrase.text.lower().endswith(("swap", "sub", "substitute", "replace"))


def _exchanging(bound: Bound, place: int) -> bool:
    """Whether a "for" follows a verb of exchange, whose own rule tells the sides."""
    return any(fits(phrase, ("act:swap",)) or _exchange_asked(phrase) for phrase in bound.phrases[:place])


def _exchanged(
    bound: Bound, verb: int, places: Sequence[int], goes: dict[int, float], comes: dict[int, float]
) -> None:
    """The sides of a verb of exchange: "trade A for B", "sub B for A", "replace A by B", "B replaces A"."""
    said = bound.phrases[verb].text.lower().removeprefix("can i ").removeprefix("could i ")
    after = [place for place in places if place > verb]
    before = [place for place in places if place < verb]
    if said.startswith(("replaces", "equals", "is eq", "stands in", "stand in")) and after:
        goes[after[0]] += 3.0
        if before:
            comes[before[-1]] += 2.0
        return
    if len(after) >= 2:
        linked = any("for" in p.ids("link") for p in bound.phrases[after[0] : after[1]])
        first_comes = linked and said.startswith("sub")
        goes[after[1 if first_comes else 0]] += 3.0
        comes[after[0 if first_comes else 1]] += 2.0
    elif after:
        goes[after[0]] += 2.0
    elif before:
        goes[before[0]] += 1.0
