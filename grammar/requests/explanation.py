"""How, why and whether: topics of the bench, and questions of safety."""

from __future__ import annotations

from dataclasses import dataclass

from grammar.frames import Bound, Frame, Slot

CARRIED = (
    "person", "hazard", "spell", "eating", "ingredient", "bread", "piece", "cue", "diet", "ask", "bathing", "mistake",
    "preferment", "hurt", "bath", "topic", "stage", "done",
)  # fmt: skip
"""Kinds of words that a topic may be recognised by."""

ALONE = (
    "hazard:sell", "hazard:allergens", "hazard:mould", "person:baby", "person:coeliac", "hazard:left_out", "eating:ate",
    "hurt:*",
)  # fmt: skip
"""Words that by themselves make a line a question of safety."""

EATEN = ("cue:discard", "cue:starter", "cue:dough")


@dataclass(frozen=True, slots=True)
class ExplanationRequest:
    """how do I tell a loaf is baked through
    what does salt do
    can the baby have a bite, there's honey in it
    is it safe overnight with egg in it
    can I taste the dough

    topics: ids of topics named, the longest phrase first. terms: every other word that may tell the topic, `kind:id`
    in the order said. age_months: of who is to eat it, where said.
    """

    topics: tuple[str, ...] = ()
    terms: tuple[str, ...] = ()
    age_months: float | None = None


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
    age = _age_months(bound)
    if topics == ("raw_dough",) and not (bound.said("ask:*", "hazard:*", "eating:*") or "?" in bound.text):
        return None  # "raw dough in the middle of my loaf" is a complaint
    figure = any(p.kind == "amount" and p.dim in ("temperature", "num") for p in bound.phrases)
    if not topics and figure and bound.said("stage:*") and not bound.said("ingredient:*", "person:*", "eating:*"):
        return None  # "ok to bulk overnight at 16?" asks how far it goes
    if topics == ("wholegrain",) and bound.context.has_bake and not (bound.said("ask:*") or bound.asks()):
        return None  # "use wholemeal instead" changes the dough in hand
    if topics:
        return ExplanationRequest(topics, terms, age)
    if bound.said("hazard:mould", "hazard:pink") and bound.said("cue:starter"):
        return None  # a danger sign in the jar is looked at as a fault, with what to do now
    if bound.said("hazard:spoilt"):
        of_what = bound.said("ingredient:*") and not bound.said("cue:starter")
        return ExplanationRequest((), terms, age) if of_what else None
    asks = bound.said(
        "ask:*", "hazard:safe", "eating:*", "hazard:taste", "hazard:contains"
    ) or bound.text.rstrip().endswith("?")
    hazard = bound.said("person:baby", "person:pet", "person:coeliac", "person:pregnant", "hazard:*")
    fed = bound.said("eating:eat", "eating:give", "eating:ate", "eating:cut_off", "eating:throw")
    hazard = hazard or (fed and bound.said(*EATEN, "diet:*")) or bound.said("hurt:*")
    hazard = hazard or (bound.said("diet:*") and bound.said("ask:is_it", "hazard:*"))
    kept = bound.said("spell:overnight") and bound.said("cue:enriched", "ingredient:egg*", "ingredient:milk*")
    hazard = hazard or (kept and bound.said("eating:leave", "cue:dough"))  # "can i leave egg dough overnight"
    alone = bound.said(*ALONE) or (bound.said("hazard:metal") and bound.said("cue:dough", "cue:flour"))
    seen = bound.said("ask:how_to_see", "ask:when", "ask:is_it") and bound.said("done:*", "stage:*")
    seen = seen and (bound.said("ask:how_to_see", "done:cut", "done:proofed", "done:bulked"))
    if not (hazard and (asks or alone)) and not seen:
        return None
    return ExplanationRequest((), terms, age)


def _age_months(bound: Bound) -> float | None:
    """The age said, in months: "8 month old", "14 months", "a 2 year old"."""
    hit = bound.first("age")
    age = bound.base("age")
    if hit is not None and hit.amount is not None and hit.amount.high is not None:
        age = hit.amount.high.base  # "give one to my 9 month old" looks like a range
    if age is None or not bound.said("person:*", "person_age:*"):
        return None
    words = " ".join(p.text.lower() for p in bound.phrases if p.ids("person") or p.ids("person_age")).split()
    if any(word.startswith(("month", "mth", "mo")) for word in words):
        return age
    return age * 12 if any(word.startswith(("year", "yr")) for word in words) else None


FRAME = Frame(
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
    },
    cues={
        "topic:*": 4.2, "person:*": 2.6, "hurt:*": 14.0, "person_age:*": 0.2, "hazard:*": 1.4, "hazard:taste": 2.0,
        "hazard:raw": 8.0, "topic:raw_dough": 8.0, "hazard:spoilt": 14.0, "hazard:metal": 2.0, "hazard:safe": 2.0,
        "spell:*": 0.9, "eating:*": 0.5, "diet:*": 1.8, "ask:can_i": 0.9, "ask:is_it": 0.6, "ask:how_to": 0.6,
        "ask:how_to_see": 1.4, "done:*": 0.8, "stage:*": 0.2, "ask:why": 0.8, "ask:what": 0.4, "ask:when": 0.3,
        "ask:how_long": 0.2,
        "bathing:*": 0.2, "cue:baked": 0.3, "ask:what_if": 0.2, "ask:what_else": 0.1,
    },
    needs=("topic:*", "person:*", "hazard:*", "eating:*", "hurt:*", "diet:*", "done:*", "stage:*"),
    base=0.1,
)  # fmt: skip
