"""Where what sounds like a fault is but asked about: wished for, of the trade in general, or beside a quantity.

"How do bakers get big holes", "is a wetter dough better" and "what does a ring weigh raw" tell of no bread that went
wrong. Beside a quantity a fault is told where a verb of being says it of its thing: "how much flour, it is sticky".
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from grammar.clause_begins import asked_in_general
from grammar.complaint_terms import Mention, Word
from grammar.lexicon import Lexicon

_WISH = re.compile(
    r"\bhow (?:do|does|can|should|would|to) ?(?:\w+ ){0,3}?(?:get|make|achieve) (?!rid|it stop|so |too |this |that )"
    r"|\bdifference between\b"
    r"|\b(?:make|bring|take) it (?:to |down to )?\d"
    r"|\bbut (?:quite |rather |nice and )?(?:wet|slack|stiff|firm|soft),? (?:say|at|about) \d"
)
"""What looks like a fault is wished for, or asked about: "how do I get a thick crust", "too wet, make it 65 %"."""
_QUANTITY = re.compile(
    r"^(?:\w+ ){0,2}?(?:what(?:s| is)? (?:do|does|should|would|will|the) (?:\w+ ){1,5}?"
    r"(?:weigh|weight|cost|measure|hold)\b"
    r"|how (?:much|many|heavy|big|large|thick|wide)\b)"
)
"""Questions after a quantity."""
_AS_LIMIT = re.compile(r"\bhow (?:long|many (?:hours|days|minutes))\b[^.!?]*?\b(?:before|until|till|til)\b")
"""A question how long something goes on until what would be a fault: "how long can they sit before they go stale"."""


def only_asked(text: str, lexicon: Lexicon, words: Sequence[Word], mentions: Sequence[Mention]) -> bool:
    """Whether the faults heard in a line are only asked about."""
    said = text.lower()
    if _WISH.search(said):
        return True
    folded = " ".join(word.text for word in words)
    faults = [one for one in mentions if one.ids("symptom")]
    limit = _AS_LIMIT.search(folded)
    if limit is not None and faults:
        last = len(limit.group().split()) + len(folded[: limit.start()].split()) - 1
        return all(one.first > last for one in faults)
    if _QUANTITY.match(folded):
        return not any(_said_of(words, one.first, lexicon) for one in faults)
    at = asked_in_general([word.text for word in words], lexicon)
    return at is not None and any(one.first in (at, at + 1) and one.last + 1 < len(words) for one in faults)


def _said_of(words: Sequence[Word], at: int, lexicon: Lexicon) -> bool:
    """Whether a fault is said of something: a verb of being stands before it, with at most stress between."""
    being = lexicon.small("is", "was", "appears", "being")
    passed = (lexicon.small("stress") | lexicon.small("passed_over") | lexicon.small("article") | {"the"}) - being
    n = at - 1
    while n >= 0 and words[n].text in passed:
        n -= 1
    return n >= 0 and words[n].text in being
