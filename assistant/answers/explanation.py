"""How and why, and whether it is safe: the topic told in a few lines, with the cautions that belong to it."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from assistant.answers import answers
from assistant.answers.explanation_things import asked
from assistant.answers.explanation_told import told
from assistant.answers.in_the_bowl import bowl_in_hand, name_of, notes
from assistant.engine.bowl import Bowl
from assistant.engine.cautions import Scene, allergen_line, label_line
from assistant.engine.naming import short_name
from assistant.engine.refusal import Refused
from assistant.talk.reply import Outcome
from assistant.talk.room import Room
from assistant.voice.page import Line, Page
from grammar.requests.explanation_asked import ExplanationRequest
from knowledge.records.diets import Diet
from knowledge.records.explanations import Explanation
from knowledge.records.traces import Trace


@answers(ExplanationRequest)
def answer(request: ExplanationRequest, room: Room) -> Outcome:
    """The topic meant. Raises Refused where a question of safety has no topic on record."""
    if request.subjects:
        return asked(request, room)
    bowl = _bowl(room)
    said = _terms(request, bowl, room)
    circumstances = _by_circumstance(said, room)
    named = [term.split(":")[1] for term in request.terms if term.startswith("ingredient:")]
    if "hazard:allergens" in said and not request.topics and (named or bowl is not None):
        return _allergens_of(named, room) if named else _allergens(bowl or Bowl(()), room)
    if "hazard:allergens" in said and not request.topics:
        return told(room.kb.get(Explanation, "allergen_list"), None, room)
    topic = _topic(request, circumstances, room)
    wanted = {"hazard:contains", "eating:eat", "hazard:safe", "ask:is_it"} & said
    if wanted and not request.topics and not (topic and topic.safety):
        contained = _of_one(request, room) or (_contained(request, bowl, room) if bowl is not None else None)
        if contained is not None:
            return contained
    if topic is not None and topic.id in ("honey_baby", "baby_bread"):
        honey = bowl is None or _honey(said)  # with no dough in hand, honey is taken to be there
        topic = room.kb.get(Explanation, "honey_baby" if honey else "baby_bread")
    if topic is not None and topic.id == "honey_baby" and (request.age_months or 0) >= 12:
        topic = room.kb.get(Explanation, "honey_child")
    if topic is None:
        about_dough = "hazard:contains" in said or any(term.startswith("diet:") for term in said)
        if bowl is None and about_dough:
            raise Refused("There is no dough in hand to look into.", "Say the dough first: 24 rolls of 80 g at 66 %.")
        if bowl is not None and said & {"hazard:allergens", "hazard:contains"}:
            return _allergens(bowl, room)
        if "person:baby" in said:
            topic = room.kb.get(Explanation, "honey_baby")
        else:
            raise Refused(
                "I have no sure advice on that, and will not guess where health is at stake.",
                "Ask your food authority or a doctor. I can tell about raw dough, mould, egg overnight, lye, honey.",
            )
    return replace(told(topic, bowl, room), focus=replace(request, topics=(topic.id,)))


def _bowl(room: Room) -> Bowl | None:
    try:
        return bowl_in_hand(room)
    except Refused:
        return None


def _terms(request: ExplanationRequest, bowl: Bowl | None, room: Room) -> frozenset[str]:
    """What was said, with the groups of the ingredients named and what the dough in hand carries."""
    foods = room.kb.ingredients
    named = [term.split(":")[1] for term in request.terms if term.startswith("ingredient:")]
    groups = {f"group:{foods[item].group}" for item in named if item in foods}
    breads = [room.kb.breads[term.split(":")[1]] for term in request.terms if term.startswith("bread:")]
    dough: set[str] = {"dough:egg" for bread in breads if (bread.egg_usual_pct or 0) > 0}
    if bowl is not None:
        dough |= {f"dough:{tag}" for tag in bowl.allergens(foods)} | {f"dough:{item}" for item in bowl.items()}
    return frozenset((*request.terms, *groups, *dough))


def _by_circumstance(said: frozenset[str], room: Room) -> list[tuple[int, Explanation]]:
    """Topics whose circumstances are all there, those that need most first."""
    found = []
    for topic in room.kb.all(Explanation).values():
        best = max((len(needs) for about in topic.about if _all_said(needs := about.split("+"), said)), default=0)
        if best:
            found.append((best, topic))
    return sorted(found, key=lambda pair: -pair[0])


def _honey(said: frozenset[str]) -> bool:
    return bool(said & {"ingredient:honey", "dough:honey"})


def _all_said(needs: Iterable[str], said: frozenset[str]) -> bool:
    for need in needs:
        if need.endswith("*"):
            if not any(term.startswith(need[:-1]) for term in said):
                return False
        elif need not in said:
            return False
    return True


def _topic(request: ExplanationRequest, circumstances: list[tuple[int, Explanation]], room: Room) -> Explanation | None:
    """A safety topic whose circumstances are told comes before one that is only named."""
    named = [room.kb.get(Explanation, topic) for topic in request.topics]
    safety = next((topic for count, topic in circumstances if topic.safety and count >= 2), None)
    if safety is not None and not any(topic.safety for topic in named):
        return safety
    if named:
        return next((topic for topic in named if topic.safety), named[0])
    return circumstances[0][1] if circumstances else None


def _of_one(request: ExplanationRequest, room: Room) -> Outcome | None:
    """Whether one ingredient carries what another stands for: "does malt contain gluten"."""
    foods = room.kb.ingredients
    named = [i for term in request.terms if term.startswith("ingredient:") and (i := term.split(":")[1]) in foods]
    diets = [room.kb.get(Diet, term.split(":")[1]) for term in request.terms if term.startswith("diet:")]
    if not named or "hazard:contains" not in request.terms or not (diets or len(named) > 1):
        return None
    first, last = foods[named[0]], foods[named[-1]]
    asked = {tag for diet in diets for tag in diet.allergens} or set(last.allergens)
    if first.id == last.id and not diets:
        return None
    found = sorted(asked.intersection(first.allergens))
    name = name_of(first.id, room)
    text = f"Yes: {name} carries {', '.join(found)}." if found else f"No, not as such: {name} alone; read the label."
    told, lines = notes(Scene("explanation", room.text, frozenset({first.id})), room, (first.id,))
    fields = {"topic": "contains", "text": text, "carriers": [first.id] if found else []}
    return Outcome("explanation", fields, f"what {name} carries", Page((Line(text), *lines)), (), told, (first.source,))


def _contained(request: ExplanationRequest, bowl: Bowl, room: Room) -> Outcome | None:
    """Whether the dough in hand holds what was named, as such or as an allergen of something in it."""
    foods = room.kb.ingredients
    named = [term.split(":")[1] for term in request.terms if term.startswith("ingredient:")]
    diets = [room.kb.get(Diet, term.split(":")[1]) for term in request.terms if term.startswith("diet:")]
    tags = {tag for item in named[:1] if item in foods for tag in foods[item].allergens}
    tags |= {tag for diet in diets for tag in diet.allergens}
    if not named and not diets:
        return None
    items = {item for diet in diets for item in diet.ingredients} | set(named)
    groups = {group for diet in diets for group in diet.groups}
    carriers = [
        item
        for item in bowl.items()
        if item in items
        or (item in foods and (foods[item].group in groups or tags.intersection(foods[item].allergens)))
    ]
    what = name_of(named[0], room) if named else diets[0].name
    what = "gluten" if named[:1] == ["vital_wheat_gluten"] else what
    if carriers and diets and not named:
        text = f"No, not {what}: {', '.join(name_of(item, room) for item in carriers)}. “Make it {what}” offers swaps."
    elif carriers:
        text = f"Yes: {', '.join(dict.fromkeys(name_of(item, room) for item in carriers))}."
    else:
        text = f"No {what} among the plain ingredients of this dough; read the labels, and mind toppings and wash."
        if diets and not named:
            text = f"By its plain ingredients this dough is {what}; read the labels, mind toppings and cross-contact."
    told, lines = notes(Scene("explanation", room.text, frozenset(carriers)), room, bowl.items())
    fields = {"topic": "contains", "text": text, "carriers": carriers}
    return Outcome(
        "explanation",
        fields,
        f"is this dough {what}" if diets and not named else f"is there {what} in this dough",
        Page((Line(text), *lines)),
        (),
        told,
    )


def _allergens(bowl: Bowl, room: Room) -> Outcome:
    """The allergens of the dough in hand, and which labels to read."""
    items = bowl.items()
    parts = (allergen_line(items, room.kb.ingredients), label_line(items, room.kb.all(Trace), room.kb.ingredients))
    found = [line for line in parts if line is not None]
    text = " ".join(found) if found else "No allergen among the plain ingredients of this dough."
    text += " Toppings and wash count too; read each label."
    told, _ = notes(Scene("explanation", f"{room.text} allergens"), room, items)
    fields = {"topic": "allergens", "text": text, "allergens": list(bowl.allergens(room.kb.ingredients))}
    source = ("EU Reg. 1169/2011 annex II; FDA and the FASTER Act",)
    return Outcome("explanation", fields, "allergens of the dough in hand", Page((Line(text),)), (), told, source)


def _allergens_of(named: list[str], room: Room) -> Outcome:
    """The allergens of what was named, each by itself; a word that may mean several is each of them."""
    foods = room.kb.ingredients
    items = tuple(item for item in dict.fromkeys(named) if item in foods)[:1]
    tags = sorted({tag for item in items for tag in foods[item].allergens})
    names = ", ".join(short_name(foods[item]) for item in items)
    label = label_line(items, room.kb.all(Trace), foods)
    text = f"{names}: {', '.join(tags)}." if tags else f"{names}: no allergen by itself."
    text = " ".join(one for one in (text[0].upper() + text[1:], label, "Read each label for traces.") if one)
    said, _ = notes(Scene("explanation", f"{room.text} allergens", frozenset(items)), room, items)
    fields = {"topic": "allergens", "text": text, "allergens": tags}
    source = ("EU Reg. 1169/2011 annex II; FDA and the FASTER Act",)
    return Outcome("explanation", fields, f"allergens of {names}", Page((Line(text),)), (), said, source)
