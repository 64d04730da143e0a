"""A line about the kitchen as a row of items: things, amounts, small words and what stands between them.

The words are the lexicon's asides (kinds `kit`, `kit_word`, `place`); amounts and hours are the scanner's.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from grammar.lexicon import Lexicon, fold
from grammar.moments import Moment
from grammar.tokens import Quantity, Token

_WORD = re.compile(r"[^\W\d_]+(?:['’-][^\W\d_]+)*|[,;.()\-–—:=+&?!/]")
_CUTS = frozenset(",;.:()+&")
_SMALL_KINDS = frozenset({"filler", "link", "negation", "look", "way"})
_LOOSE_KINDS = frozenset({
    "clock", "clocked", "starts", "place", "money", "kept", "pack", "shape", "holds", "tail", "away", "hob", "past",
    "span", "stand", "second", "warmth_word", "night_way", "jot", "jot_behind", "fits", "mixing",
})  # fmt: skip
_LOOSE = frozenset(("cue", name) for name in (
    "kitchen", "place", "fridge", "oven", "tap", "set", "limit", "side", "night", "hold", "fit", "deep", "broad",
    "lean", "tin",
))  # fmt: skip
"""Words that may stand in the name of a place, or lead a line in: "the deep drawer", "before we start"."""
_LONGEST = 6
"""Words of the longest aside."""
_HANGS_ON = re.compile("['’]s$")
_KINDS = ("kit", "place", "kit_word")
_TOLD_OF = ("kit", "place")
"""What a verb that hangs on it says something of: "boathouse's 9"."""


@dataclass(frozen=True, slots=True)
class Item:
    """One piece of the line. what: "kit", "place", "word", "amount", "clock", "named" (a flour, cups), "cut", "range",
    "?" (not known); id: which; text: as typed, folded."""

    what: str
    id: str
    text: str
    amount: Quantity | None = None
    moment: Moment | None = None


def items(text: str, tokens: Sequence[Token], lexicon: Lexicon) -> list[Item]:
    """The line as items, in order."""
    out: list[Item] = []
    end = 0
    for token in tokens:
        own = _own(token)
        if own is None:
            continue
        out.extend(_words(text[end : token.start], lexicon))
        half = out[-1].amount if out else None
        if half is not None and half.fraction and half.value == 0.5 and _on_dial(own):
            hour = int(own.amount.value) if own.amount is not None else 0
            out[-1] = Item("clock", "", f"half {own.text}", moment=Moment(minute=hour * 60 + 30))
        else:
            out.append(own)
        end = token.end
    out.extend(_words(text[end:], lexicon))
    return out


def _on_dial(item: Item) -> bool:
    amount = item.amount
    return amount is not None and amount.dim == "num" and amount.value in range(1, 13)


def _own(token: Token) -> Item | None:
    """What the scanner made of a token, where that tells more than its words."""
    if token.quantity is not None and fold(token.text) in ("a cup", "cup"):
        return None
    if token.quantity is not None:
        return Item("amount", token.quantity.dim, fold(token.text), amount=token.quantity)
    if token.kind == "CLOCK" and isinstance(token.value, Moment):
        return Item("clock", "", fold(token.text), moment=token.value)
    for kind in ("cup_system", "ingredient"):
        found = next((one for one in token.ids(kind) if kind != "ingredient" or one.startswith("flour")), None)
        if found is not None and fold(token.text) not in ("flour", "uk", "british", "american"):
            return Item("named", found if kind == "ingredient" else f"cup {found}", fold(token.text))
    return None


def _words(stretch: str, lexicon: Lexicon) -> Iterator[Item]:
    """The words of a stretch without amounts, the longest known phrase first."""
    words = [(one.group(), fold(one.group())) for one in _WORD.finditer(stretch)]
    place = 0
    while place < len(words):
        typed = words[place][0]
        if not typed[0].isalpha():
            if typed in _CUTS:
                yield Item("cut", typed, typed)
            elif typed in "-–—":
                yield Item("range", "-", typed)
            elif typed == "?":
                yield Item("?", "?", typed)
            place += 1
            continue
        size, item = _phrase(words, place, lexicon)
        yield item
        place += size
        if item.what in _TOLD_OF and _HANGS_ON.search(words[place - 1][0]) and item.text != words[place - 1][1]:
            yield Item("word", "is", "s")


def _phrase(words: Sequence[tuple[str, str]], place: int, lexicon: Lexicon) -> tuple[int, Item]:
    for size in range(min(_LONGEST, len(words) - place), 0, -1):
        stretch = words[place : place + size]
        if any(not typed[0].isalpha() for typed, _ in stretch):
            continue
        said = " ".join(word for _, word in stretch)
        bare = said[:-1] if stretch[-1][0].lower().endswith(("'s", "’s")) else None
        for one, wanted in ((bare, _TOLD_OF), (said, _KINDS), (bare, _KINDS)):
            terms = lexicon.asides.get(one, ()) if one else ()
            known = next(((k, i) for want in wanted for k, i in terms if k == want), None)
            if known is not None and one is not None:
                kind, name = known
                if kind == "kit_word" and name == "small" and one in ("and", "but", "while", "then", "so"):
                    return size, Item("cut", one, one)
                return size, Item("word" if kind == "kit_word" else kind, name, one)
    word = words[place][1]
    told = [(kind, name) for kind, name in lexicon.phrases.get(word, ()) if kind not in _SMALL_KINDS]
    if any(kind in ("bread", "piece") for kind, _ in told):
        return 1, Item("kit", "pieces", word)
    if any(kind not in _LOOSE_KINDS and (kind, name) not in _LOOSE for kind, name in told):
        return 1, Item("?", "of the trade", word)
    return 1, Item("?", "near the trade" if told or word in lexicon.weighty else word, word)
