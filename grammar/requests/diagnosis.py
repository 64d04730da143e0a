"""What went wrong: a complaint with its facts, further facts, corrections, and the turns of the talk about it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from grammar.complaint import Heard, hear
from grammar.complaint_answer import adds_a_symptom, answer_to_another, said_yes, short_answer
from grammar.complaint_fault import doubled_soon, placed_by_fault, starter_meant
from grammar.complaint_figures import figures
from grammar.complaint_found import cues_of
from grammar.complaint_left import left_unread
from grammar.complaint_passed import passed_on, told_of_the_bake
from grammar.complaint_terms import CueAt
from grammar.complaint_weight import FEW_WORDS, answered_by, complaint_score, within_a_topic
from grammar.follow import Follow
from grammar.frames import Frame, Line, Own, never_by_slots
from grammar.lexicon import Lexicon
from grammar.phrases import Phrase
from grammar.requests.diagnosis_follow import followed

_NO_PIECE = frozenset({"crust", "crusts", "base", "flat", "piece", "pieces", "stick", "sticks", "cake"})
"""Words for pieces that name no bread in a complaint: a crust is a crust, not a pizza base."""


@dataclass(frozen=True, slots=True)
class DiagnosisRequest:
    """why is my loaf dense, bulked 3 hours at 17 C with 10 % starter
    dough is slack and sticky, it was fine at first
    grey liquid on top of the starter, not fed in 10 days
    rolls are pale where they touch, 20 on one tray
    """

    symptoms: tuple[str, ...] = ()
    absent: tuple[str, ...] = ()
    findings: tuple[str, ...] = ()
    figures: tuple[tuple[str, float], ...] = ()  # (figure id, value in the unit its id ends with)
    dangers: tuple[str, ...] = ()  # set where a danger is told; never by the reader of complaints
    breads: tuple[str, ...] = ()
    pieces: tuple[str, ...] = ()
    subject: str | None = None  # bread, dough or starter
    answering: str | None = None  # the open question this line answers
    said_yes: bool | None = None
    unknown: bool | None = None  # "no idea"
    bare: tuple[tuple[str, float], ...] = ()  # (dimension, value) of amounts that only an open question can place
    skipped: tuple[str, ...] = ()  # questions not to ask again
    corrects: bool | None = None
    adds: bool | None = None  # says itself that it adds to what was said
    short: bool | None = None  # a line of few words
    repairs: tuple[tuple[str, str], ...] = ()
    taken_back: tuple[str, ...] = ()  # figures said before that no longer hold: "not at 25 min"
    eaten: bool | None = None  # asks whether it may still be eaten
    state: str | None = None  # where it stands now: oven, hot, fridge, shaped, bowl, eaten


def _complaint(line: Line) -> Own | None:
    words_known = line.lexicon
    heard = hear(line.text, words_known, line.tokens, line.context.of, line.context.raw)
    going_on = line.context.focus == "diagnosis"
    if going_on and heard.by_report:  # in an answer a report is a report, and no new complaint
        heard = replace(heard, symptoms=tuple(one for one in heard.symptoms if one not in heard.by_report))
    told_of_growth = any(words_known.about.get(one) == "growth" for one in heard.findings)
    if not (heard.symptoms or going_on or told_of_growth):
        return None
    if not going_on and within_a_topic(heard, line.phrases):
        return None
    cues = cues_of(heard.words, words_known)
    of_starter = starter_meant(heard, words_known.trade_of)
    spoken_for = frozenset(n for m in heard.mentions for n in range(m.first, m.last + 1))
    of_dough = any(words_known.trade_of.get(s) == "dough" for s in heard.symptoms)
    found = figures(heard.words, line.phrases, cues, of_starter, spoken_for, line.lexicon, of_dough)
    heard, found = doubled_soon(heard, placed_by_fault(found, heard, of_starter), line.phrases, cues, of_starter)
    if not (heard.symptoms or going_on):
        return None
    asks = {name for _, _, kind, name in cues if kind == "ask"}
    answering = next((name for name in line.context.asked if name.endswith("_question")), None) if going_on else None
    short = short_answer(heard.words, words_known.answers.get(answering or "", {})) if not heard.findings else None
    if going_on and _only_a_sort(heard, line.lexicon):
        heard = replace(heard, symptoms=())
    if answering and not (heard.findings or heard.symptoms or found.found or found.bare or short):
        short = answer_to_another(heard.words, words_known.answers, line.lexicon)
    request = DiagnosisRequest(
        symptoms=heard.symptoms if short is None else (),
        absent=heard.absent,
        findings=heard.findings if short is None else (short,),
        figures=found.found,
        breads=_ids(line.phrases, "bread"),
        pieces=_ids([p for p in line.phrases if p.text.lower() not in _NO_PIECE], "piece"),
        subject=_subject(heard, words_known.trade_of),
        answering=answering,
        said_yes=said_yes(heard, cues, line.lexicon) if answering else None,
        unknown=True if "unknown" in asks and going_on else None,
        bare=found.bare if going_on else (),
        skipped=(answering,) if answering and "unknown" in asks else (),
        corrects=True if "correct" in asks and going_on else None,
        adds=True if going_on and adds_a_symptom(heard, line.lexicon) else None,
        short=True if len(heard.words) <= FEW_WORDS else None,
        repairs=heard.repairs,
        taken_back=(*found.gone, *_told_otherwise(heard, words_known.about)),
        eaten=True if "eat" in asks else None,
        state=_state(heard, cues),
    )
    score = complaint_score(request, heard, found, line, asks, going_on)
    if score is None:
        return None
    unread = left_unread(heard, found, cues, line, answering is not None)
    gives_way = answered_by(unread, line.phrases) | (frozenset() if request.symptoms else passed_on(line))
    gives_way |= told_of_the_bake(line, request.figures, request.symptoms)
    return Own(request, score, unread, gives_way)


_MEASURED_AGAINST = frozenset({"than", "as", "like", "since", "unlike"})


def _state(heard: Heard, cues: Sequence[CueAt]) -> str | None:
    """Where it stands now; what it is only measured against ("heavier than last time") is another bread."""
    told = ((first, name) for first, _, kind, name in cues if kind == "state")
    return next((name for at, name in told if not (at and heard.words[at - 1].text in _MEASURED_AGAINST)), None)


_FIGURE_OF = {"cutting": "cut_after_min"}
"""What a report is about, and the figure it takes the place of."""


def _told_otherwise(heard: Heard, about: Mapping[str, str]) -> tuple[str, ...]:
    """Figures that a report takes the place of: "cut the next day"."""
    return tuple(_FIGURE_OF[about[one]] for one in heard.findings if about.get(one) in _FIGURE_OF)


def _only_a_sort(heard: Heard, lexicon: Lexicon) -> bool:
    """Whether the colours heard say but of what sort the bread is: "lean, white"."""
    texts = {word.text for word in heard.words}
    sort = heard.symptoms and not heard.plain and texts & lexicon.small("colour")
    return bool(sort) and not adds_a_symptom(heard, lexicon)


def _subject(heard: Heard, trade_of: Mapping[str, str]) -> str | None:
    kinds = [trade_of.get(s) for s in heard.symptoms]
    return kinds[0] if kinds else heard.subject


def _ids(phrases: Sequence[Phrase], kind: str) -> tuple[str, ...]:
    return tuple(dict.fromkeys(i for p in phrases if not p.negated for i in p.ids(kind)[:1]))


FRAME = Frame(
    DiagnosisRequest, "diagnosis", never_by_slots, reads=_complaint, hints=("may_be_fault",),
    follow=Follow(alone=lambda line, earlier, bound: bool(line.dangers), account=followed),
)  # fmt: skip
