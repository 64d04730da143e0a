"""Whether somebody may eat it: a child of an age, or one who cannot have what is perhaps in it."""

from __future__ import annotations

from grammar.frames import Frame, Line, Own, fits, never_by_slots
from grammar.idle import brought_in
from grammar.requests.explanation import CARRIED
from grammar.requests.explanation_asked import ExplanationRequest
from grammar.who_eats import age_months, may_eat

_SURE = 40.0
_BABY_MONTHS, _CHILD_MONTHS = 12.0, 144.0
_SWAPPED = ("cue:missing", "act:swap", "ask:what_else", "link:instead_of", "link:instead", "stance:becomes")
"""Words that ask for one thing in the place of another."""
_WHO = ("diet:*", "person:baby", "person:child", "person:pregnant", "person:coeliac")
_NOT_OF_A_DOUGH = ("hazard:safe", "hazard:taste", "hazard:left_out")
"""Words that ask how long a thing may stand or be tasted raw, where it is not said who cannot have what."""


def _reads(line: Line) -> Own | None:
    """What is to be looked up for whoever it is; None where nobody is asked for or another thing in its place is."""
    if not may_eat(line.text, line.lexicon) or any(fits(p, _SWAPPED) for p in line.phrases):
        return None
    if any(p.dim in ("mass", "volume", "pct") for p in line.phrases):
        return None
    age = age_months(line.tokens, line.lexicon)
    old = age is not None and age < _CHILD_MONTHS
    shuns = any(fits(p, ("stance:must_not",)) for p in line.phrases) and any(p.ids("ingredient") for p in line.phrases)
    if not (old or shuns or any(fits(p, _WHO) for p in line.phrases)):
        return None
    said = {f"{kind}:{name}" for p in line.phrases for kind, name in p.terms if kind in CARRIED}
    said -= {term for term in said if term.startswith(_NOT_OF_A_DOUGH) or term.startswith(("cue:", "ask:", "stage:"))}
    if old and age is not None:
        said -= {"person:baby", "person:child"}
        said.add("person:baby" if age < _BABY_MONTHS else "person:child")
    terms = (*sorted(said), "eating:eat", "hazard:contains")
    return Own(ExplanationRequest(terms=terms, age_months=age if old else None), _SURE, brought_in(line.tokens))


FRAME = Frame(ExplanationRequest, "explanation", never_by_slots, reads=_reads)
