"""How surely a line is a complaint, beside what else it may be."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from grammar.clause_begins import asks_or_bids
from grammar.complaint import OF_HARM, Heard
from grammar.complaint_asked import only_asked
from grammar.complaint_figures import Figures
from grammar.frames import Line
from grammar.phrases import Phrase
from grammar.telling_clause import ASKED, telling_clauses

if TYPE_CHECKING:
    from grammar.requests.diagnosis import DiagnosisRequest

_PLAIN, _POINTED, _PICTURED = 12.0, 9.5, 4.0
_PER_FIGURE, _PER_FINDING, _LEFT_OVER = 3.0, 1.2, -1.5
_GOING_ON = 3.4
_OF_THE_JAR = 2.0
"""A report right after a starter was complained of is of that starter, and no step of a bake: "fed yesterday"."""
_PER_WORD = 1.0
"""For each word beyond two of a report: more words are surer."""
_ANSWERED, _ANSWERED_SHORTLY, _ASKS_SOMETHING_ELSE = 2.4, 6.0, 4.0
_LEFT_MASS = -3.0
"""Weights nobody can place belong to a dough to weigh out, not to a complaint."""
_BY_FEEL = frozenset({"slack", "sticky", "stiff", "dry"})
_WEIGHED = 5.0
"""A dough too wet or dry, with its weight, is to be put right: "dough too wet, 1.8 kg"."""
_WISHED = 12.0
_OTHER_TURNS = {"count": -2.5, "each": -2.5}
FEW_WORDS = 6


def answered_by(unread: Sequence[str], phrases: Sequence[Phrase]) -> frozenset[str]:
    """The topics that take a line over: a mend the amount no fault has a use for ("it's soup, a cup of water too
    much"), or what was forgotten of a dough that only stood there since; a swap or a topping what is to be brushed on
    ("shine", "paint"), a dough its figure ("stiffer, 61").
    """
    weighed = any(p.kind == "amount" and p.dim in ("mass", "volume") and p.text in unread for p in phrases)
    brushed = any("wash" in p.ids("job") for p in phrases)
    one_more = any(p.ids("second") for p in phrases)  # another oven of the same size
    figure = any(p.kind == "amount" and p.dim in ("num", "pct") and p.text in unread for p in phrases)
    compared = figure and any({"wetter", "saltier"} & set(p.ids("cue")) for p in phrases)
    lacking = any("missing" in p.ids("cue") for p in phrases) and any("what_else" in p.ids("ask") for p in phrases)
    lacking = lacking and any(p.ids("ingredient") for p in phrases)  # "we don't keep lard, what else is there"
    forgot = any("forgot" in p.ids("mistake") for p in phrases) and any(p.ids("ingredient") for p in phrases)
    stood = any("so_far" in p.ids("look") for p in phrases)
    topics = {
        "mend": weighed or (forgot and stood), "swap": brushed or lacking, "topping": brushed, "loads": one_more,
        "formula": compared,
    }  # fmt: skip
    return frozenset(topic for topic, takes in topics.items() if takes)


def within_a_topic(heard: Heard, phrases: Sequence[Phrase]) -> bool:
    """Whether the half words heard are but part of something one may ask about ("the power went off")."""
    spans = [(p.tokens[0].start, p.tokens[-1].end) for p in phrases if p.ids("topic")]
    telling = [m for m in heard.mentions if m.terms]
    places = [(heard.words[m.first].start, heard.words[m.last].end) for m in telling]
    plain = any(m.ids("symptom") for m in telling)
    return bool(telling) and not plain and all(any(a <= x and y <= b for a, b in spans) for x, y in places)


def complaint_score(
    request: DiagnosisRequest, heard: Heard, found: Figures, line: Line, asks: set[str], going_on: bool
) -> float | None:
    facts = _PER_FIGURE * (len(found.found) + len(found.gone)) + _PER_FINDING * len(request.findings)
    told = [m.last - m.first - 1 for m in heard.mentions if m.ids("finding") and m.last > m.first + 1]
    facts += _PER_WORD * sum(told)
    left = len(found.left) - (len(found.bare) if request.answering else 0)
    other = sum(_OTHER_TURNS.get(p.role or "", 0.0) for p in line.phrases)
    if request.symptoms:
        own = _PLAIN if heard.plain else _PICTURED
        own += 0.4 * (len(heard.symptoms) - 1) + (0.5 if "why" in asks or going_on else 0.0)
        if not heard.plain and heard.subject is None and "why" not in asks and not going_on:
            own -= _WISHED if any(clause.mood == ASKED for clause in telling_clauses(line.text, line.lexicon)) else 1.5
        if not heard.plain and any(
            p.ids("topic") or "help" in p.ids("act") or {"can_i", "is_it"} & set(p.ids("ask")) for p in line.phrases
        ):
            own -= _ASKS_SOMETHING_ELSE
        if OF_HARM & set(request.symptoms) and any("help" in p.ids("act") for p in line.phrases):
            own = _POINTED  # a cry for help, not a wish to read about it
        masses = sum(p.dim == "mass" for p in found.left)
        own -= _WISHED if any("how_to_see" in p.ids("ask") for p in line.phrases) and not found.found else 0.0
        own -= _WISHED if only_asked(line.text, line.lexicon, heard.words, heard.mentions) else 0.0
        own -= _WISHED if not heard.plain and any("instead_of" in p.ids("link") for p in line.phrases) else 0.0
        own -= _ASKS_SOMETHING_ELSE if left and _asks_else(line.phrases) else 0.0
        safe = any("safe" in p.ids("hazard") for p in line.phrases) and any(p.ids("topic") for p in line.phrases)
        own -= 2 * _ASKS_SOMETHING_ELSE if safe and not OF_HARM & set(heard.symptoms) else 0.0
        if masses and set(heard.symptoms) <= _BY_FEEL:
            own -= _WEIGHED
        return own + facts + _LEFT_OVER * left + _LEFT_MASS * masses + other
    if not going_on or asks_or_bids(line.text, line.lexicon):
        return None
    answered = request.said_yes is not None or bool(request.unknown) or bool(request.answering and found.bare)
    answered = answered or bool(request.corrects and (request.breads or request.pieces or found.bare))
    if not (found.found or request.taken_back or request.findings or heard.absent or answered):
        return None
    own = _GOING_ON + facts + _LEFT_OVER * left + other
    own += _OF_THE_JAR if line.context.of == "starter" and request.findings else 0.0
    own += (_ANSWERED if answered or (request.answering and facts) else 0.0) + (0.8 if request.corrects else 0.0)
    if request.answering and facts and not left and not other and len(heard.words) <= FEW_WORDS + 3:
        own += _ANSWERED_SHORTLY
    return own - (_ASKS_SOMETHING_ELSE if _asks_else(line.phrases) else 0.0)


def _asks_else(phrases: Sequence[Phrase]) -> bool:
    """Whether the line asks for a time, an amount or a plan instead of answering."""
    other = {"how_long", "when", "how_much", "how_many", "how", "what_time"}
    return any(other & set(p.ids("ask")) or {"plan", "scale"} & set(p.ids("act")) for p in phrases)
