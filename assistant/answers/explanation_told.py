"""A topic told: its lines, its figures for the dough in hand, the cautions it brings, its neighbours and source."""

from __future__ import annotations

from assistant.answers.dough_in_hand import formula_in_hand
from assistant.answers.in_the_bowl import notes
from assistant.engine.bowl import Bowl
from assistant.engine.cautions import Scene
from assistant.talk.reply import Outcome
from assistant.talk.room import Room
from assistant.voice.page import Line, Page
from knowledge.records.explanations import Explanation

_FIGURES = {
    "hydration_pct": "hydration",
    "salt_pct": "salt",
    "starter_pct": "starter",
    "prefermented_pct": "prefermented flour",
}


def told(topic: Explanation, bowl: Bowl | None, room: Room) -> Outcome:
    """The topic as a page: its lines, then the cautions it brings that do not repeat it."""
    lines = [line for line in topic.text.splitlines() if line.strip()]
    lines += of_dough(topic, room)
    beside, _ = notes(Scene("explanation", room.text, topics=frozenset({topic.id})), room)
    blocks = [Line(line, role="head" if n == 0 and topic.safety else "plain") for n, line in enumerate(lines)]
    blocks += [Line(line, more=True) for line in topic.more.splitlines() if line.strip()]
    if not topic.safety:
        blocks += [Line(text, role="warn") for text in beside[:2]]
    neighbours = [room.kb.get(Explanation, other).title for other in topic.see]
    if neighbours:
        blocks.append(Line("See also: " + ", ".join(neighbours) + ".", more=True))
    blocks.append(Line(f"From: {topic.source}.", more=True))
    fields = {"topic": topic.id, "title": topic.title, "text": "\n".join(lines)}
    return Outcome("explanation", fields, topic.title, Page(tuple(blocks)), (), beside, (topic.source,))


def of_dough(topic: Explanation, room: Room) -> list[str]:
    """The figures of the dough in hand that belong to the topic, in one line; none without a dough."""
    formula = formula_in_hand(room) if topic.of_dough else None
    if formula is None:
        return []
    found = [
        f"{_FIGURES[name]} {getattr(formula, name):.3g} %"
        for name in topic.of_dough
        if getattr(formula, name, None) is not None
    ]
    return ["In the dough in hand: " + ", ".join(found) + "."] if found else []
