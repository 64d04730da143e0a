"""A question about a bake under way: what is left, what is next, where it stands, when it is ready."""

from __future__ import annotations

from typing import Literal

from grammar.frames import Line
from grammar.lexicon import Lexicon, fold
from grammar.telling.told import Cut, Item
from grammar.telling.words import items_of

Asked = Literal["left", "next", "where", "ready", "pieces"]
_LIKELIEST: tuple[Asked, ...] = ("pieces", "left", "next", "where")
_MOST_WORDS = 12


def asked(line: Line) -> Asked | None:
    """What the line asks of the bake, where every word of it belongs to such a question; else None."""
    cut = Cut(items_of(line), lexicon=line.lexicon)
    words = _of_the_question(cut, line)
    if not words or len(words) > _MOST_WORDS or any(item.amount is not None for item in words):
        return None
    if any(not (item.terms or item.thing or item.room or _yet(item)) for item in words):
        return None
    if _how_it_is(words):
        return "left" if fold(words[0].text) == "how long" else "where"
    kinds = [name for item in words for name in item.ids("q")]
    if any(item.ids("denies") or _bids(item, kinds, line.lexicon) for item in words):
        return None
    step = any(item.ids("stage") or item.ids("did") or item.ids("place") for item in words)
    if "may" in kinds and step and any("now" in item.ids("time") or _yet(item) for item in words):
        return "where"
    asks_when = "when" in kinds or any(fold(item.text) in ("when", "whens") for item in words)
    if asks_when and "next" not in kinds:
        return "ready" if "ready" in kinds and not step else None
    return next((one for one in _LIKELIEST if one in kinds), None)


def _yet(item: Item) -> bool:
    """Whether a word only asks whether it is so by now."""
    return fold(item.text) == "yet"


def _bids(item: Item, kinds: list[str], lexicon: Lexicon) -> bool:
    """Whether a word bids; what it is until belongs to a question after what is left."""
    if not item.ids("bids") or item.ids("q") or item.ids("asks"):
        return False
    return not ("left" in kinds and fold(item.text) in lexicon.small("awaited"))


def _how_it_is(words: list[Item]) -> bool:
    """ "how are the baps", "where is my dough": how, or where, and what is under way."""
    if not words or fold(words[0].text) not in ("how", "hows", "where", "wheres", "how long"):
        return False
    named = any(item.thing or item.room or item.ids("place") or "dough_c" in item.ids("gauge") for item in words[1:])
    light = all(
        item.thing or item.room or any(item.ids(kind) for kind in ("place", "small", "asks", "time"))
        for item in words[1:]
    )  # fmt: skip
    return (named and light) or (len(words) == 1 and fold(words[0].text) == "how long")


_LIGHT = frozenset({
    "filler", "link", "span", "tail", "state", "unit", "look", "piece", "hand", "people", "away", "carry", "card",
    "so_far", "pick", "serving", "stance", "talk",
})  # fmt: skip


def _of_the_question(cut: Cut, line: Line) -> list[Item]:
    """The words of the clauses that ask; beside them a clause that tells nothing of the trade is why it is asked."""
    asking = {item.clause for item in cut.items if item.ids("q") or item.ids("asks")}
    out: list[Item] = []
    for clause in sorted({item.clause for item in cut.items}):
        words = cut.clause(clause)
        if clause in asking or not asking or not all(_idle(item, line) for item in words):
            out += words
    return out


def _idle(item: Item, line: Line) -> bool:
    """Whether a word could tell nothing of a bake: no amount, no fault, no word of any topic."""
    if item.amount is not None or item.thing or any(kind not in ("small", "way", "time") for kind, _ in item.terms):
        return False
    word = fold(item.text)
    if any(kind in ("symptom", "danger") for kind, _ in line.lexicon.complaints.get(word, ())):
        return False
    return all(kind in _LIGHT for kind, _ in line.lexicon.phrases.get(word, ()))
