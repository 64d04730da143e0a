"""Hours away that are called off: "scratch church", "training is cancelled", "I'm home all day after all"."""

from __future__ import annotations

import re

from grammar.follow import Follow
from grammar.frames import Frame, Line, Own, never_by_slots
from grammar.requests.plan import PlanRequest
from grammar.requests.plan_follow import went_on
from grammar.spoken import matched, spoken

_CERTAIN = 100.0
_AWAY = "awayword"
"""What stands for the word of being away while the rest of its clause is looked at."""
_LEAD = r"(?:(?:<hand:polite>)[ ,]+)*"
_END = r"(?:[ ,]+(?:after all|today|tomorrow|this time|then|now|anyway|any more|<hand:polite>|<hand:again>))*"
_OFF = (
    rf"{_LEAD}(?:<hand:calls_off>) (?:<hand:the> )*(?:to )?{_AWAY}{_END}",
    rf"{_LEAD}(?:<hand:the> )*{_AWAY}(?:s| is| was| has been| got| gets| has| been| looks)* (?:<hand:is_off>){_END}",
)
_THERE = (
    rf"{_LEAD}(?:<hand:is_there>)(?: all day| all morning| all afternoon| all evening| the whole day| throughout){_END}"
)
_CLAUSES = re.compile(r"\s*[,;.!]\s*|\s[–—-]\s|\b(?:because|cos|since|as)\b")


def reads(line: Line) -> Own | None:
    """The plan with nobody away any more, where one stands and nothing else is asked of it."""
    if "plan" not in line.context.standing and line.context.focus != "plan":
        return None
    if any(token.quantity is not None or token.kind in ("CLOCK", "DAY") for token in line.tokens):
        return None
    if not any(_frees(clause, line) for clause in _CLAUSES.split(line.text) if clause.strip()):
        return None
    return Own(PlanRequest(freed=True), _CERTAIN)


def _frees(clause: str, line: Line) -> bool:
    """Whether a clause calls an absence off, or tells that one is there."""
    if matched(_THERE, spoken(clause, line.lexicon), line.lexicon):
        return True
    aways = [token.text for token in line.tokens if "out" in token.ids("away") and token.text in clause]
    for away in aways:
        said = spoken(clause.replace(away, _AWAY, 1), line.lexicon)
        if any(matched(template, said, line.lexicon) for template in _OFF):
            return True
    return False


FRAME = Frame(
    PlanRequest, "plan", never_by_slots, reads=reads, first=True, needs=("slot:none",), follow=Follow(account=went_on)
)
