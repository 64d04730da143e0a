"""When a line goes to the frames that read only what nothing else accounts for, and whether a line asks at all."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from grammar.complaint_terms import word_set
from grammar.frames import Line
from grammar.lexicon import fold
from grammar.retrieval import thing_acting

if TYPE_CHECKING:
    from grammar.reader import Reading

_RECKONED = frozenset({"timing", "formula", "feed", "loads", "mend", "bath", "swap", "water", "plan", "help", "more"})
"""Topics that work something out or do something; none of them is the answer to a why."""
_OPENERS = word_set(
    "do does did is are can could will would should shall may might must dont doesnt isnt arent cant wont aint any "
    "anything anyone suppose"
)
"""Words that make a clause a question where they begin it."""
_ASKS = word_set("why how what whats which whether when where who hows whys wondering wonder curious explain")
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
_CLAUSE = re.compile(r"[.,;:!?–—-]+\s+")
_BIDS = re.compile(
    r"\s*(?:do (?:the|a|an|it|that|this|them|another|me|my)|forget|remember|note|keep|show|make|put|set|let)\b", re.I
)
"""What is bidden to be done, and not asked."""
_LEADING = word_set("and but so or because well ok")
_SUBJECTS = word_set("i you he she it we they this that these those the a an my our your there here theyre its")
"""Small words behind which a verb tells and does not ask: "they are baked"."""


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


def asks(line: Line) -> bool:
    """Whether a line is a question, or says that somebody wonders."""
    if line.text.rstrip().endswith("?") or any(p.ids("ask") for p in line.phrases):
        return _BIDS.match(line.text) is None
    harmless = {word for token in line.tokens if token.kind == "FILL" for word in fold(token.text).split()}
    for clause in _CLAUSE.split(line.text):
        words = fold(re.sub(r"[^\w'’]+", " ", clause)).split()
        first = next((word for word in words if word in _OPENERS or word not in (harmless | _LEADING) - _SUBJECTS), "")
        if (first in _OPENERS and not _BIDS.match(clause)) or _ASKS.intersection(words):
            return True
    return False
