"""Whether so much water makes a dough hard to work, asked: "is 64 going to be a nightmare to shape"."""

from __future__ import annotations

from grammar.frames import Frame, Line, Own, never_by_slots
from grammar.levels import PLAINLY
from grammar.requests.explanation_asked import ExplanationRequest
from grammar.spoken import fitting, spoken
from grammar.turns import END, LEAD

_ASKED = (
    rf"{LEAD}(?:is|are|will|would|isnt|wont|wouldnt|does|how (?:wet|hard|stiff|sticky|slack) (?:is|will|would))"
    r"(?: (?:a|the|my|this))* (?P<figure>\d{2,3})(?: ?%| percent| per cent| pct)?(?: (?:water|hydration|dough|wet))*"
    rf"(?: (?:be|going to|gonna|feel|too|on|the|a|an|bit|bit too|very|really|quite|so|rather|not))*"
    rf"(?: (?:<hand:hard_going>))(?: (?:to|for|with|by|side|or|in) ?[a-z ]*)?{END}",
)
_LEAST_PCT, _MOST_PCT = 45, 110
"""What water can be in percent of the flour."""


def _reads(line: Line) -> Own | None:
    hits = fitting(_ASKED, spoken(line.text, line.lexicon), line.lexicon)
    wet = any(_LEAST_PCT <= int(hit["figure"]) <= _MOST_PCT for hit in hits)
    return Own(ExplanationRequest(("water_amount_feel",)), PLAINLY) if wet else None


FRAME = Frame(ExplanationRequest, "explanation", never_by_slots, reads=_reads, settles=True)
