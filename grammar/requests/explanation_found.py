"""A question that no other reading accounts for: the topic most of its words belong to."""

from __future__ import annotations

import re

from grammar.clause_begins import asks
from grammar.frames import Frame, Line, Own, fits, never_by_slots
from grammar.going_on import supposes, turns_to
from grammar.idle import brought_in
from grammar.last_resort import has_amounts
from grammar.levels import ALONE
from grammar.lexicon import Lexicon, fold
from grammar.phrases import Phrase
from grammar.requests.explanation_asked import OF_THE_TRADE, ExplanationRequest
from grammar.retrieval import Found, thing_acting, topic_of
from grammar.who_eats import age_months

_OF_HEALTH = (
    "hazard:safe", "hazard:raw", "hazard:spoilt", "hazard:mould", "hazard:pink", "person:*", "diet:*", "eating:ate",
)  # fmt: skip
"""Words of health: what is known of that is never found by likeness."""
_TIMES = ("look:doubled", "mistake:twice")
"""Words of twice as much: after a question of hours they change what it was reckoned with."""


def _found(line: Line) -> Own | None:
    """The topic, at one level; what one thing does to another in general stands as high as any question of a thing."""
    if "\n" in line.text.strip() or not asks(line) or any(map(_of_health, line.phrases)):
        return None
    reckoned = line.context.focus == "timing" and any(fits(p, _TIMES) for p in line.phrases)
    if reckoned or brought_in(line.tokens):
        return None  # so many times what was just reckoned with; so much of a thing nobody knows
    mine = not line.lexicon.small("my_own").isdisjoint(re.findall(r"\w+", line.text.lower()))
    own = mine or has_amounts(line) or any(map(_stands, line.phrases))
    acting = None if own else thing_acting(line)
    of_it = topic_of(line, acting) if acting is not None else None
    found = of_it or topic_of(line) or _beside_the_last(line)
    if found is None:
        return None
    things = tuple(f"ingredient:{p.ids('ingredient')[0]}" for p in line.phrases if p.ids("ingredient"))
    return Own(ExplanationRequest((found.topic,), things), OF_THE_TRADE if of_it is not None else ALONE, found.left)


def _beside_the_last(line: Line) -> Found | None:
    """Another topic of the thing that was just told of, by one of the words that topic stands beside: of how bread
    keeps, and then "is the fridge any good"."""
    said = set(re.findall(r"\w+", line.text.lower()))
    told, lexicon = {*line.context.explained}, line.lexicon
    things = (
        pairs
        for name, pairs in lexicon.beside.items()
        if told & {*(id for id, _ in pairs), *(id for kind, id in lexicon.subjects.get(name, ()) if kind == "topic")}
    )
    share, topic = max(((len(words & said), id) for pairs in things for id, words in pairs), default=(0, ""))
    return Found(topic, 1.0, ()) if share else None


def _of_health(phrase: Phrase) -> bool:
    """Whether a word asks what is safe, or what something contains."""
    return fits(phrase, _OF_HEALTH) or (fits(phrase, ("hazard:contains",)) and "contain" in phrase.text.lower())


def _stands(phrase: Phrase) -> bool:
    """Whether something is said to stand about for a while, so that it is no thing left out of a dough."""
    return fits(phrase, ("spell:*",)) or (fits(phrase, ("hazard:left_out",)) and not phrase.text.startswith("leav"))


_GOES_ON = 20.0
_OTHERS = ("ingredient:*", "bread:*", "preferment:*", "person:pet", "diet:*")
"""Words that give a line a subject of its own."""


def _goes_on(line: Line) -> Own | None:
    """What goes on from what was told: of another of its kind, or, in a matter of health, of the same supposed so."""
    told, lexicon = line.context.explained, line.lexicon
    supposed = supposes(line.text, lexicon)
    weighed = any(p.dim in ("mass", "volume", "pct") for p in line.phrases)
    if not told or weighed or not (supposed or turns_to(line.text, lexicon)):
        return None
    other = _beside_the_last(line)
    if other is not None and other.topic not in told:
        return Own(ExplanationRequest((other.topic,)), _GOES_ON, brought_in(line.tokens))
    age = age_months(line.tokens, lexicon)
    of_it = supposed or age is not None or any(fits(p, ("person:*",)) for p in line.phrases)
    same = of_it and line.context.of_health and all(_of_it(p, told, lexicon) for p in line.phrases)
    return Own(ExplanationRequest(told[:1], (), age), _GOES_ON, brought_in(line.tokens)) if same else None


def _of_it(phrase: Phrase, told: tuple[str, ...], lexicon: Lexicon) -> bool:
    """Whether a word is of what was told, or names nothing."""
    of = lexicon.topics_by_sense.get(lexicon.sense(fold(phrase.text)), {})
    return phrase.negated or not fits(phrase, _OTHERS) or not of.keys().isdisjoint(told)


FRAMES = (
    Frame(ExplanationRequest, "explanation", never_by_slots, reads=_found, last=True),
    Frame(ExplanationRequest, "explanation", never_by_slots, reads=_goes_on),
)
