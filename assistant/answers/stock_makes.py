"""What can be made of what is in the house: the dough in hand, breads whose usual dough it holds, or a lean dough."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from assistant.answers.dough_said import cup_system, defaults_of, givens_of
from assistant.answers.in_the_bowl import bowl_in_hand, weight
from assistant.engine.bowl import STARTER, Bowl, bowl_of
from assistant.engine.formula import solve
from assistant.engine.naming import figure
from assistant.engine.refusal import Refused
from assistant.talk.reply import Outcome
from assistant.talk.room import Room
from assistant.voice.page import Line, Page
from grammar.requests.formula import FormulaRequest
from knowledge.records.breads import Bread

LEAN = {"hydration": 65.0, "piece_g": 80.0, "salt": 2.0}
"""The lean dough that stock is measured against where none is in hand: hydration and salt in %, rolls of 80 g."""
AT_HAND = frozenset({"water", STARTER, "salt_table"})
"""What a kitchen that bakes is taken to have."""
SHOWN = 3


@dataclass(frozen=True, slots=True)
class Made:
    """So many pieces of one bread. uses: how many kinds of what was told go into it."""

    name: str
    pieces: int
    piece_g: float
    uses: int

    @property
    def text(self) -> str:
        return f"{self.pieces} {self.name.lower()} of {figure(self.piece_g)} g"


def what_it_makes(stock: Mapping[str, float], room: Room) -> Outcome:
    """Pieces of the dough in hand, else of a lean dough, and of other breads whose usual dough the stock holds."""
    if not stock:
        raise Refused("nothing was told of what is in the house", "only 1.2 kg bread flour left")
    bowl = bowl_in_hand(room)
    many = None
    if bowl is not None and bowl.pieces and bowl.piece_g:
        share = min((stock[item] / bowl.g(item) for item in stock if bowl.g(item) > 0), default=None)
        many = int(bowl.pieces * share + 1e-6) if share is not None else None
        text = f"The dough in hand for {many} pieces of {figure(bowl.piece_g)} g."
    if many is None:
        many, text = _lean(stock, room)
    others = _others(stock, room)
    lines = [Line(text, role="head")]
    if others:
        lines.append(Line(f"Or, the usual dough of each: {'; '.join(one.text for one in others)}."))
    whole = " ".join(line.text for line in lines)
    fields = {
        "topic": "stock", "text": whole, "pieces": many,
        "others": [{"name": one.name, "pieces": one.pieces, "piece_g": one.piece_g} for one in others],
    }  # fmt: skip
    return Outcome("explanation", fields, "what the stock makes", Page(tuple(lines)))


def _lean(stock: Mapping[str, float], room: Room) -> tuple[int, str]:
    flour_g = sum(g for item, g in stock.items() if room.kb.ingredients[item].group == "flour")
    if flour_g <= 0:
        raise Refused("no flour was told to be in the house", "only 1.2 kg bread flour left")
    dough_g = flour_g * (1 + LEAN["hydration"] / 100 + LEAN["salt"] / 100)
    many = int(dough_g / 1.01 / LEAN["piece_g"])
    text = f"{weight(flour_g)} of flour makes {dough_g:.0f} g of a lean dough at {LEAN['hydration']:.0f} %: "
    return many, text + f"{many} rolls of {LEAN['piece_g']:.0f} g."


def _others(stock: Mapping[str, float], room: Room) -> tuple[Made, ...]:
    """The breads that use most of what is there, most kinds of it first."""
    found = []
    for bread in room.kb.all(Bread).values():
        bowl = _usual(bread, room)
        needs = {row.item: row.g for row in bowl.portions if row.item not in AT_HAND} if bowl is not None else {}
        if bowl is None or not needs or not bowl.piece_g or needs.keys() - stock.keys():
            continue
        pieces = int(min(stock[item] / g for item, g in needs.items()) + 1e-6)
        if pieces >= 1:
            found.append(Made(bread.name, pieces, bowl.piece_g, len(needs)))
    found.sort(key=lambda one: (-one.uses, -one.pieces * one.piece_g))
    return tuple(found[:SHOWN])


def _usual(bread: Bread, room: Room) -> Bowl | None:
    """One piece of a bread's usual dough."""
    settings = room.bench.settings
    request = FormulaRequest(pieces=1.0, bread=bread.id, usual=True)
    try:
        formula = solve(givens_of(request, room.kb, cup_system(settings)), defaults_of(settings), room.kb)
    except Refused:
        return None
    return bowl_of(formula, room.kb.ingredients)
