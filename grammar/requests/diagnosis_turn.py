"""Turns of the talk about a complaint: what else, why, what now, the evidence, the next question."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from grammar.complaint import Heard, hear
from grammar.complaint_found import cues_of
from grammar.complaint_passed import passed_on
from grammar.complaint_terms import CueAt
from grammar.frames import Frame, Line, Own, fits, never_by_slots
from grammar.questions import question_in
from grammar.telling.asked import asked

_TURN = 45.0
"""Right after a complaint "what now" means the complaint."""


@dataclass(frozen=True, slots=True)
class DiagnosisTurn:
    """what else could it be
    why do you say that
    show the evidence
    is it still safe to eat
    """

    turn: str = "else"  # else, why, now, evidence, skip, eat


def _turn(line: Line) -> Own | None:
    if line.context.focus != "diagnosis":
        return None
    if "told" in line.context.standing and asked(line) == "next" and "next" in line.text.lower():
        return None  # what comes next of the bake under way, not of the talk
    heard = hear(line.text, line.lexicon, line.tokens)
    cues = cues_of(heard.words, line.lexicon)
    deeds = {heard.words[n].start for first, last, _, name in cues if name == "deed" for n in range(first, last + 1)}
    if any(fits(p, ("person:*", "diet:*")) and p.tokens[-1].start not in deeds for p in line.phrases):
        return None  # whether a child or a coeliac may have it is another question
    if heard.symptoms or any(p.kind == "amount" and p.dim not in ("num", "moment") for p in line.phrases):
        return None
    turns = [(last - first + 1, name) for first, last, kind, name in cues if kind == "ask" and name in _TURNS]
    best = max((*turns, *_remedy(cues)), key=lambda turn: turn[0], default=None)
    if best is None or _beside(heard, best, line) > _A_FEW or _asks_of_the_trade(best[1], line):
        return None
    return Own(DiagnosisTurn(best[1]), _TURN + best[0], (), passed_on(line))


_TURNS = frozenset({"else", "why", "now", "evidence", "skip", "eat"})
_REMEDY = {"asks", "deed"}
_OF_WHAT = {"lot", "ahead"}
_A_FEW = 4
"""Words a turn of the talk may have beside it."""


def _remedy(cues: Sequence[CueAt]) -> Iterator[tuple[int, str]]:
    """What is to be done, put together: asked, a deed, and with what is there or the next time ("can I use them for
    anything", "what would you try on Saturday")."""
    said = {(n, name) for first, last, kind, name in cues if kind == "turn" for n in range(first, last + 1)}
    names = {part for _, name in said for part in name.split("_")}
    if names >= _REMEDY and names & _OF_WHAT:
        yield len({n for n, _ in said}), "now"


def _beside(heard: Heard, turn: tuple[int, str], line: Line) -> int:
    """Words beside a turn of the talk; beside one of three words and more only those that mean something."""
    if turn[0] < 3 or any(p.ids("topic") or p.ids("ingredient") or p.ids("bread") for p in line.phrases):
        return len(heard.words) - turn[0]
    cues = cues_of(heard.words, line.lexicon)
    idle = {n for first, last, kind, _ in cues if kind in ("talk", "ask", "turn") for n in range(first, last + 1)}
    small = line.lexicon.small("passed_over")
    idle |= {n for n, word in enumerate(heard.words) if word.text in small or word.amount >= 0}
    idle |= {
        n
        for n, word in enumerate(heard.words)
        for t in line.tokens
        if t.start <= word.start < t.end and (t.kind in ("FILL", "LINK", "NEG") or t.idle)
    }
    return len(heard.words) - len(idle)


def _asks_of_the_trade(turn: str, line: Line) -> bool:
    """Whether a "why" asks after a thing of the trade, and not after what was just said."""
    asked = question_in(line.text, line.lexicon) if turn == "why" else None
    return asked is not None and asked.shape == "why" and asked.direct and asked.named[0].terms[0][0] == "topic"


FRAME = Frame(DiagnosisTurn, "diagnosis", never_by_slots, reads=_turn)
