"""Whether a thing has gone into the bowl, as far as the notebook tells."""

from __future__ import annotations

from assistant.answers.recall import notes_in
from assistant.engine.naming import short_name
from assistant.talk.reply import Outcome
from assistant.talk.room import Room
from assistant.voice.page import Line, Page
from grammar.requests.recall_words import folded, plain


def went_in(items: tuple[str, ...], room: Room) -> Outcome:
    """What the notebook says of a thing having gone in: what was noted with its name since the dough was said."""
    food = room.kb.ingredients[items[0]]
    names = {folded(word) for form in (food.name, *food.said_as) for word in plain(form).split()} - {"table", "fine"}
    begun = room.bake.begun[:16] if room.bake is not None else ""
    entries = room.entries() if room.entries is not None else ()
    found = [
        one for one in notes_in(entries)
        if str(one["at"]) >= begun and names & {folded(word) for word in plain(str(one["text"])).split()}
    ]  # fmt: skip
    name = short_name(food)
    if found:
        lines = [Line(f"{str(one['at'])[11:16]}  {one['text']}") for one in found[:4]]
    else:
        lines = [Line(f"The notebook does not say whether the {name} went in. “note: {name} in” keeps it.")]
        if food.id.startswith("salt"):
            lines.append(Line("Unsalted dough tastes flat: a crumb on the tongue, spat out: raw flour is not safe."))
    return Outcome("recall", {"entries": found}, f"whether the {name} went in", Page(tuple(lines)))
