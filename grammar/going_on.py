"""Whether a line goes on from what was just told: it supposes something else of it, or turns to another of its kind.

"even if it's cooked", "what about the raw ones", "and shaped?": such a line has no subject of its own. The openings are
classes of `knowledge/words/speech.yaml`.
"""

from __future__ import annotations

from grammar.clause_begins import words_of
from grammar.lexicon import Lexicon

_LONGEST = 5
"""Words of an opening at most."""
_SHORT = 4
"""Words of a line that only turns with "and" or "or"."""


def supposes(text: str, lexicon: Lexicon) -> bool:
    """Whether a line begins with a supposition."""
    return _opening(text, lexicon, "supposing") > 0


def turns_to(text: str, lexicon: Lexicon) -> bool:
    """Whether a line begins by turning to something else; with a mere "and" only where it is short."""
    long = _opening(text, lexicon, "turning_to")
    return long > 1 or (long == 1 and len(words_of(text)) <= _SHORT)


def _opening(text: str, lexicon: Lexicon, kind: str) -> int:
    """How many words the longest opening of a class has that the line begins with."""
    words = words_of(text)
    if words[:1] and words[0] in lexicon.small("lead") - lexicon.small(kind):
        words = words[1:]
    openings = (count for count in range(_LONGEST, 0, -1) if " ".join(words[:count]) in lexicon.small(kind))
    return next((count for count in openings if count < len(words)), 0)
