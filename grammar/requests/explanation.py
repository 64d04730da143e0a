"""How, why and whether: topics of the bench, and questions of safety."""

from __future__ import annotations

from grammar.frames import Bound, Frame, never_by_slots
from grammar.levels import speaks
from grammar.requests.explanation_asked import ExplanationRequest, question_of_a_thing
from grammar.slots import Slot
from grammar.who_eats import age_months

CARRIED = (
    "person", "hazard", "spell", "eating", "ingredient", "bread", "piece", "cue", "diet", "ask", "bathing", "mistake",
    "preferment", "bath", "topic", "stage", "done",
)  # fmt: skip
"""Kinds of words that a topic may be recognised by."""

ALONE = (
    "hazard:sell", "hazard:allergens", "hazard:mould", "person:baby", "person:coeliac", "hazard:left_out", "eating:ate",
)  # fmt: skip
"""Words that by themselves make a line a question of safety."""

EATEN = ("cue:discard", "cue:starter", "cue:dough")


def build(bound: Bound) -> ExplanationRequest | None:
    """The request; None where no topic is named and nothing of safety is asked."""
    named = sorted(
        ((p, i) for p in bound.phrases if p.kind == "label" for i in p.ids("topic")),
        key=lambda pair: -len(pair[0].text),
    )
    topics = tuple(dict.fromkeys(i for _, i in named))
    terms = tuple(
        dict.fromkeys(
            f"{kind}:{name}" for p in bound.phrases if not p.negated for kind, name in p.terms if kind in CARRIED
        )
    )
    age = age_months([token for p in bound.phrases for token in p.tokens], bound.lexicon)
    figure = any(p.kind == "amount" and p.dim in ("temperature", "num") for p in bound.phrases)
    elsewhere = (
        (bound.said("cue:piece_mass") and not named)  # what one weighs raw
        or (topics == ("raw_dough",) and not (bound.said("ask:*", "hazard:*", "eating:*") or "?" in bound.text))
        or (not topics and figure and bound.said("stage:*") and not bound.said("ingredient:*", "person:*", "eating:*"))
        or (topics == ("wholegrain",) and bound.context.has_bake and not (bound.said("ask:*") or bound.asks()))
        or (not topics and bound.said("hazard:mould", "hazard:pink") and bound.said("cue:starter"))
    )  # a complaint of raw dough, how far a stage goes, a change of the dough in hand, a danger sign in the jar
    if elsewhere:
        return None
    request = ExplanationRequest(topics, terms, age)
    if topics or bound.said("hazard:spoilt"):
        return request if topics or (bound.said("ingredient:*") and not bound.said("cue:starter")) else None
    asks = bound.said(
        "ask:*", "hazard:safe", "eating:*", "hazard:taste", "hazard:contains"
    ) or bound.text.rstrip().endswith("?")
    hazard = bound.said("person:baby", "person:pet", "person:coeliac", "person:pregnant", "hazard:*")
    fed = bound.said("eating:eat", "eating:give", "eating:ate", "eating:cut_off", "eating:throw")
    hazard = hazard or (fed and bound.said(*EATEN, "diet:*"))
    hazard = hazard or (bound.said("diet:*") and bound.said("ask:is_it", "hazard:*"))
    kept = bound.said("spell:overnight") and bound.said("cue:enriched", "ingredient:egg*", "ingredient:milk*")
    hazard = hazard or (kept and bound.said("eating:leave", "cue:dough"))  # "can i leave egg dough overnight"
    alone = bound.said(*ALONE) or (bound.said("hazard:metal") and bound.said("cue:dough", "cue:flour"))
    seen = bound.said("ask:how_to_see", "ask:when", "ask:is_it") and bound.said("done:*", "stage:*")
    seen = seen and (bound.said("ask:how_to_see", "done:cut", "done:proofed", "done:bulked"))
    return request if (hazard and (asks or alone)) or seen else None


_BY_WORDS = Frame(
    ExplanationRequest,
    "explanation",
    build,
    slots={
        "thing": Slot(term=("ingredient:*", *EATEN, "cue:kitchen", "cue:fridge"), many=True, weight=-0.5),
        "absent": Slot(term=("ingredient:*",), without=True, many=True),
        "bread": Slot(term=("bread:*", "piece:*"), many=True, weight=-0.5),
        "age": Slot(
            {"num": 0.8, "time": 0.8}, cues=("person:*", "hazard:*", "spell:*"), bare=0.0, low=0, high=3000
        ),
        "lasted": Slot({"time": 0.3}, bare=0.1, low=1, high=3000000),
        "warm": Slot({"temperature": 0.4}, bare=0.1, low=-20, high=300),
        "grain": Slot({"pct": 0.6}, cues=("ingredient:flour*", "bread:*"), bare=0.1, where=("topic:baked_through",)),
    },
    cues=speaks(
        alone="topic:* hazard:raw topic:raw_dough hazard:spoilt",
        telling="person:*",
        certain="hazard:* hazard:taste hazard:metal hazard:safe diet:* ask:how_to_see",
        sure="spell:* ask:can_i done:* ask:why",
        likely="eating:* ask:is_it ask:how_to",
        maybe="person_age:* stage:* ask:what ask:when ask:how_long bathing:* cue:baked ask:what_if",
        seldom="cue:company ask:what_else",
    ),
    needs=("topic:*", "person:*", "hazard:*", "eating:*", "diet:*", "done:*", "stage:*"),
    base=0.1,
)  # fmt: skip
_OF_A_THING = Frame(
    ExplanationRequest, "explanation", never_by_slots, reads=question_of_a_thing, hints=("asks_worth",)
)
FRAMES = (_BY_WORDS, _OF_A_THING)
