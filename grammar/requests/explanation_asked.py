"""A question of a known shape about a thing of the trade: "what is X", "is X needed", "X or Y"."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass

from grammar.clause_begins import asks
from grammar.complaint import hear
from grammar.complaint_terms import Mention
from grammar.frames import Line, Own, fits
from grammar.phrases import Phrase
from grammar.questions import Question, question_in
from grammar.stance import THING


@dataclass(frozen=True, slots=True)
class ExplanationRequest:
    """how do I tell a loaf is baked through
    what does salt do
    can the baby have a bite, there's honey in it
    is it safe overnight with egg in it
    can I taste the dough

    subjects: what is asked about, `kind:id` each, where a question of a known shape is asked; shape: which.
    topics: ids of topics named, the longest phrase first. terms: every other word that may tell the topic, `kind:id`
    in the order said. age_months: of who is to eat it, where said.
    """

    topics: tuple[str, ...] = ()
    terms: tuple[str, ...] = ()
    age_months: float | None = None
    subjects: tuple[tuple[str, ...], ...] = ()
    shape: str | None = None


_DIRECT = {
    "what": 13.5, "difference": 13.0, "why": 9.0, "need": 9.0, "how": 7.0, "how_much": 6.0, "weight": 7.0, "": 4.6,
}  # fmt: skip
"""How well a question of a shape fits where it stands right by what it is asked of."""
_USUAL_DIRECT, _LOOSE = 5.5, 3.5
_PER_WORD, _MOST_WORDS = 0.2, 2.5
"""What words beside the question cost: a beginner's chatter does not make it another request."""
_OF_PEOPLE = (
    "person:*", "diet:*", "hazard:safe", "hazard:raw", "hazard:spoilt", "hazard:sell", "hazard:allergens",
    "hazard:left_out", "eating:ate",
)  # fmt: skip
_NAMED_ONLY = frozenset({"flour_type", "preferment"})
_OF_RECORDS = {
    "amid": frozenset({"what", "difference", "weight"}),
    "in_hand": frozenset({"what", "difference", "need"}),
    "alone": frozenset({"what", "difference", "why", "need", "how", "how_much", "weight"}),
}
"""Shapes that the record of a thing answers which has no topic of its own; more of what is in no dough by name."""
_AN_AMOUNT = 6.0
_OF_ANY_FIGURE = frozenset({"what", "difference", "why", "need"})
"""Shapes that ask of a thing whatever amounts stand beside it ("still needed at 80 % wholemeal")."""
_BARE_WHATS = frozenset({"what is", "whats", "what are", "what is the", "whats the", "what was"})
"""With a dough in hand these ask for its figure where the thing is "the" or "my"."""
_SWAPPED = frozenset(
    {"substitute", "substitutes", "replacement", "replace", "alternative", "swap", "instead", "out", "lack"}
)
"""Words of one ingredient in place of another: no question what it is."""
_OF_A_FIGURE = frozenset({"much", "many", "little", "few", "long", "high", "low", "more", "less"})
OF_THE_TRADE = 15.5
"""A why of which no fault is said outside the question itself ("why does bread need salt")."""
_RECKONED = {
    "how_long": frozenset({"timing", "bath", "discard"}),
    "how_much": frozenset({"timing", "bath", "conversion"}),
    "weight": frozenset({"conversion"}),
    "how": frozenset({"discard"}),
    "what": frozenset({"conversion"}),
    "": frozenset({"timing", "conversion"}),
}
"""For each shape of question the topics that have the figure, or the plain advice, that is asked for."""
_KEEPS = frozenset({"keep", "keeps", "last", "lasts", "good", "days", "week", "shelf"})
_OF_FLOURS = ("in_country:*", "cup_system:*", "food:protein", "flours:equivalent")
"""Words of what a flour is elsewhere, and of its protein."""
_LONG_NAME = 3
"""A thing named in so many words is meant, in whatever shape it is asked of."""


def question_of_a_thing(line: Line) -> Own | None:
    """A question of a known shape about a thing of the trade."""
    asked = question_in(line.text, line.lexicon)
    people = _OF_PEOPLE[:-2] if asked is not None and _special(asked) else _OF_PEOPLE
    if asked is None or any(fits(p, people) for p in line.phrases if not p.negated and not _named_so(p, asked)):
        return None
    if asked.turn == "or" and asked.rest and not asks(line):
        return None  # one of two that were lacking, used or seen
    told_of = {kind for kind, _ in asked.named[0].terms}
    if (not asked.turn and not _named_alone(asked, line)) or _of_something_else(asked, told_of, line):
        return None
    figures = _beside(asked, line.phrases)
    bare = asked.turn in _BARE_WHATS and (asked.named[0].own or asked.named[0].the)
    own = line.context.has_bake and (bare or asked.shape in ("how_much", "weight"))
    this = asked.named[0].own and re.search(rf"\bthis\W+{re.escape(asked.typed[0])}", line.text.lower()) is not None
    own = own or (asked.turn in _BARE_WHATS and asked.named[0].own and not this)  # "what's this X people talk of"
    held = " ".join(asked.typed)
    amounts = [p for p in line.phrases if p.kind == "amount" and p.text.lower() not in held]
    into_a_unit = bool(amounts) and any(p.kind == "label" and p.ids("unit") for p in line.phrases)
    weighed = into_a_unit or any(p.dim in ("mass", "volume") for p in amounts)
    if own or weighed or (figures and not _special(asked) and asked.shape not in _OF_ANY_FIGURE):
        return None
    score = _DIRECT.get(asked.shape, _USUAL_DIRECT) if asked.direct else _LOOSE
    faults = [m for m in hear(line.text, line.lexicon, line.tokens).mentions if m.ids("symptom") and not m.denied]
    general = (
        (asked.direct and asked.shape in ("why", "need"))
        or _special(asked)
        or (faults and asked.shape and asked.direct)
    )
    if general and not _outside(asked, faults, line):
        score = OF_THE_TRADE
    if len(asked.typed) >= _LONG_NAME:
        score = max(score, _DIRECT["why"])
    chatter = 0.0 if score == OF_THE_TRADE else min(_MOST_WORDS, _PER_WORD * len(asked.rest))
    score -= chatter + _AN_AMOUNT * figures
    if score <= 0:
        return None
    subjects = tuple(tuple(f"{kind}:{id}" for kind, id in one.terms) for one in asked.named)
    request = ExplanationRequest(subjects=subjects, shape=asked.shape or "what")
    return Own(request, score, (), _reckoned_by(asked, line))


def _of_something_else(asked: Question, told_of: set[str], line: Line) -> bool:
    """Whether it is a dough that is asked about (how long it may lie shaped, what its salt comes to, why so much of a
    thing, how much of a thing goes in), one thing in place of another, two of which there is neither, or so many
    degrees."""
    words = set(re.findall(r"[^\s,?]+", line.text.lower()))
    of_dough = ("money:comes_to",) if line.context.has_bake else ()
    by_words = {"how_long": ("look:shaped",), "what": ("oven_word:*",)}.get(asked.shape, ())
    neither = any((p.negated and fits(p, THING)) or fits(p, ("cue:missing",)) for p in line.phrases)
    return (
        any(fits(p, (*of_dough, *by_words)) for p in line.phrases)
        or (asked.shape == "difference" and neither)
        or ("ingredient" in told_of and bool(_SWAPPED & words))
        or ("topic" not in told_of and asked.shape not in _OF_RECORDS[_how_named(asked, told_of, line)])
        or (line.context.has_bake and asked.shape == "why" and bool(_OF_A_FIGURE & words))
    )


_OF_HOURS = frozenset({"time", "times", "hours", "minutes"})
_TALKED_OF = frozenset({None, "explanation", "help", "unread"})


def _named_alone(asked: Question, line: Line) -> bool:
    """Whether a line is but the name of a thing, with a sign of a question or a word or two, and goes on with nothing:
    "and wholemeal?" after an amount is of that amount."""
    told = any(p.ids("topic") for p in line.phrases)  # the name alone is a topic of its own already
    hours = bool(_OF_HOURS & set(re.findall(r"\w+", line.text.lower())))  # "bulk time?" asks its hours
    if not asked.direct or asked.long or line.context.has_bake or hours:
        return False
    if asked.shape:
        return line.context.focus in _TALKED_OF and not _joined_on(asked, line)
    return not told and asked.named[0].terms[0][0] == "topic"


def _joined_on(asked: Question, line: Line) -> bool:
    """Whether a line begins with a small word that joins it on; one that is the name of the thing itself does not."""
    return any(token.ids("link") and token.text.lower() != asked.typed[0] for token in line.tokens[:1])


def _how_named(asked: Question, told_of: set[str], line: Line) -> str:
    """Whether a thing is asked of by its name alone, so with a dough in hand, or amid words that a dough could be
    reckoned by."""
    if told_of & _NAMED_ONLY:
        return "alone"
    amounts = any(p.kind == "amount" for p in line.phrases)
    if not asked.direct or asked.rest or amounts or asked.named[0].own:
        return "amid"
    return "in_hand" if line.context.has_bake else "alone"


def _named_so(phrase: Phrase, asked: Question) -> bool:
    """Whether a word is but part of the name of what is asked about: the diet of "gluten free bread"."""
    return f" {phrase.text.lower().replace('-', ' ')} " in f" {' '.join(asked.typed)} "


def _reckoned_by(asked: Question, line: Line) -> frozenset[str]:
    """Topics that work out or look up what is asked, and so answer it better than what is known in general."""
    if asked.named[0].beside & _KEEPS:
        return frozenset()  # how long a bread keeps is known, and no stage
    shape = "how_long" if {"often", "long"} & set(asked.rest) else asked.shape
    topics = _RECKONED.get(shape, frozenset())
    if any(fits(p, _OF_FLOURS) for p in line.phrases):
        topics |= {"flours"}
    if any(p.kind == "amount" and p.dim == "moment" for p in line.phrases):
        topics |= {"feed", "plan", "progress", "timing"}  # of an hour, and not in general
    if any(p.ids("into") or p.ids("unit") for p in line.phrases):
        topics |= {"conversion"}  # one measure in another
    bare = asked.turn in _BARE_WHATS or asked.shape.startswith("how")
    if bare and any(fits(p, ("heat:dough_asked", "heat:water_temp")) for p in line.phrases):
        topics |= {"water"}  # how warm a dough comes out, or its water is to be
    if any(fits(p, ("ask:what_else",)) for p in line.phrases):
        topics |= {"swap", "topping", "bath", "formula"}  # "what can I put in place of the butter"
    return topics


def _outside(asked: Question, faults: Sequence[Mention], line: Line) -> bool:
    """Whether a fault is said outside the stretch from the question to what it is asked of."""
    words = hear(line.text, line.lexicon, line.tokens).words
    end = _effect_end(line.text, asked)
    outside = [m for m in faults if words[m.first].start < asked.start or words[m.last].end > end]
    if _special(asked):  # "why is rye sticky" names the fault as what is asked about
        outside = [m for m in outside if not asked.named[0].beside & {w.text for w in words[m.first : m.last + 1]}]
    return bool(outside)


def _special(asked: Question) -> bool:
    """Whether a thing in general is asked about together with what it does, and not the baker's own."""
    return bool(asked.shape and asked.named[0].beside) and not asked.named[0].own


_EFFECT = re.compile(
    r"\W+(?:\w+ )?(?:makes?|slows?|stops?|keeps?|gives?|causes?|turns?|helps?|speeds?|holds?|lets?|weakens?|tightens?"
    r"|strengthens?|toughens?|softens?|kills?|hurts?|cuts?|browns?|does|do|can|will|would)\b[^.;!?,]*",
    re.I,
)


def _effect_end(text: str, asked: Question) -> int:
    """Where the question ends: what a thing is said to do belongs to it ("why salt makes dough rise more slowly")."""
    effect = _EFFECT.match(text, asked.end)
    return effect.end() if effect is not None and asked.shape == "why" else asked.end


def _beside(asked: Question, phrases: tuple[Phrase, ...]) -> int:
    """How many amounts the line holds that are no part of what is asked about ("W 320", "type 550")."""
    held = " ".join(asked.typed).lower()
    bare = ("num", "share")
    return sum(p.kind == "amount" and p.dim not in bare and p.text.lower() not in held for p in phrases)
