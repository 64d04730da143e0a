"""When a line goes to the frames that read only what nothing else accounts for."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from grammar.frames import Line
from grammar.retrieval import thing_acting

if TYPE_CHECKING:
    from grammar.reader import Reading

_RECKONED = frozenset({"timing", "formula", "feed", "loads", "mend", "bath", "swap", "water", "plan", "help", "more"})
"""Topics that work something out or do something; none of them is the answer to a why."""
_SPEAKS = _RECKONED | {"explanation", "diagnosis"}
"""Topics that a few words of a question may bring up; whatever else a line is heard as, it is that."""
_PLAIN = 5.0
"""What a frame that reads by itself scores where it is sure of itself."""
_FIGURES = frozenset({"how_much", "how_many", "how_long", "when"})
"""Words that ask for a figure."""
_OF_REASONS = re.compile(
    r"\b(?:why|how come|reasons?|(?:the|any|no|much) point (?:of|in)|purpose|what happens|what would happen|is it true"
    r"|necessary|tradition|does it matter)\b",
    re.I,
)


def accounted_for(best: Reading | None, line: Line) -> bool:
    """Whether a reading takes a line as it was meant: all its words, or a figure of it by a slot of its own.

    What is reckoned out accounts for no question after a reason that has no figure in it and asks for none.
    """
    if best is None or best.score <= 0 or best.frame.topic not in _SPEAKS:
        return best is not None and best.score > 0
    amounts = has_amounts(line) or any(_FIGURES.intersection(p.ids("ask")) for p in line.phrases)
    unsure = best.frame.topic in _RECKONED or (best.frame.reads is not None and best.score < _PLAIN)
    if unsure and asks_reasons(line) and not amounts:
        return False
    changed = best.frame.topic == "formula" and line.context.has_bake and not asks_reasons(line)
    by_itself = not best.bound.hits and best.frame.topic != "explanation" and best.score > _PLAIN
    return not best.unread or amounts or changed or by_itself


def has_amounts(line: Line) -> bool:
    """Whether any figure of a thing is said."""
    return any(p.kind == "amount" and p.dim is not None and p.text.lower() != "one" for p in line.phrases)


def asks_reasons(line: Line) -> bool:
    """Whether a line asks after a reason, whether something is needed at all, or what it does to something else."""
    return _OF_REASONS.search(line.text) is not None or thing_acting(line) is not None
