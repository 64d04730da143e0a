"""The unit at a place in the line, with every reading of its name, and coins as units of money."""

from __future__ import annotations

from collections.abc import Sequence

from grammar import number_words
from grammar.lexemes import Lexeme
from grammar.lexicon import Lexicon, Unit
from grammar.names import phrases_at, turned_at
from grammar.tokens import Token

_PER_CENT = {"percent", "pct", "perc", "procent", "prozent", "%"}
_TAKES_INCHES = {
    "x", "tin", "tins", "round", "pan", "square", "pie", "loaf", "tray", "deep", "wide", "across", "cake", "pizza",
    "pizzas", "base", "bases",
}  # fmt: skip


def unit_at(lx: Sequence[Lexeme], i: int, lexicon: Lexicon, value: float) -> tuple[Unit, int, tuple[Unit, ...]] | None:
    """The unit at lexeme i: (likeliest reading, lexemes used, every reading)."""
    if i >= len(lx):
        return None
    head = lx[i]
    skip = 0
    if head.kind == "mark" and head.text == "-" and head.glued and i + 1 < len(lx) and lx[i + 1].glued:
        skip, head = 1, lx[i + 1]  # "14-oz"
    if head.text == "%" or head.word in _PER_CENT:
        return Unit("pct", "pct", 1.0), skip + 1, ()
    if head.word == "per" and i + 1 < len(lx) and lx[i + 1].word == "cent":
        return Unit("pct", "pct", 1.0), 2, ()
    if head.text == "°" or head.word in ("deg", "degs", "degree", "degrees"):
        after = lx[i + skip + 1] if i + skip + 1 < len(lx) else None
        if after and after.word in ("c", "celsius", "centigrade"):
            return Unit("degC", "temperature", 1.0), skip + 2, ()
        if after and after.word in ("f", "fahrenheit"):
            return Unit("degF", "temperature", 1.0), skip + 2, ()
        if head.text == "°" or value > 0:
            return Unit("deg", "temperature", 1.0), skip + 1, ()
    if head.text in ("K", "k") and head.glued and _is_dough_or_thing(lx, i + skip + 1, lexicon):
        kilo = lexicon.units.get("kg", ())
        return (kilo[0], skip + 1, kilo) if kilo else None  # "1.5k flour"
    if head.text == "K" or head.word in ("kelvin", "kelvins"):
        return Unit("K", "warming", 1.0), skip + 1, ()
    if head.text in ('"', "''") and head.glued:
        inch = lexicon.units.get("inch")
        if inch:
            return inch[0], skip + 1, inch
    coin = coin_named(head.word or head.text, lexicon)
    if coin is not None:
        return coin, skip + 1, ()
    if head.kind != "word":
        return None
    words = [x.word for x in lx[i + skip : i + skip + 4] if x.kind in ("word",)]
    for count in range(min(len(words), 4), 0, -1):
        typed = " ".join(x.text for x in lx[i + skip : i + skip + count])
        said = f"{words[2]} {words[0]}" if count == 3 and words[1] == "of" else " ".join(words[:count])
        readings = lexicon.units.get(typed) or lexicon.units.get(said)  # "spoons of soup" are soup spoons
        if not readings:
            continue
        used = skip + count
        if head.word == "in" and not head.glued and not _inches(lx, i + used):
            return None
        return _likeliest(readings, lx, i + used, lexicon, value), used, readings
    return None


def _is_dough_or_thing(lx: Sequence[Lexeme], i: int, lexicon: Lexicon) -> bool:
    at = i + 1 if i < len(lx) and lx[i].word == "of" else i
    terms = lexicon.phrases.get(lx[at].word, ()) if at < len(lx) else ()
    return any(kind == "ingredient" or term in ("flour", "dough") for kind, term in terms)


def _inches(lx: Sequence[Lexeme], after: int) -> bool:
    nxt = lx[after] if after < len(lx) else None
    return nxt is not None and (nxt.word in _TAKES_INCHES or nxt.text in "x*")


def _likeliest(readings: tuple[Unit, ...], lx: Sequence[Lexeme], after: int, lexicon: Lexicon, value: float) -> Unit:
    """ "18 C" is a temperature; "3 c flour" is cups: an ingredient follows and the number is small."""
    if len(readings) == 1:
        return readings[0]
    by_dim = {unit.dimension: unit for unit in readings}
    if "temperature" in by_dim:
        k = after + 1 if after < len(lx) and (lx[after].word == "of" or lx[after].text == ".") else after
        named = k < len(lx) and lx[k].kind in ("word", "number")
        phrase = next(phrases_at(lx, k, lexicon), None) if named else None
        follows = phrase is not None and any(kind == "ingredient" for kind, _ in phrase[0].terms)
        other = next(unit for unit in readings if unit.dimension != "temperature")
        return other if follows and value <= 12 else by_dim["temperature"]
    return readings[0]


def phrase_at(lx: Sequence[Lexeme], i: int, lexicon: Lexicon) -> tuple[Token, int] | None:
    """The longest vocabulary phrase that begins here, but none whose last number has a unit: "rye 1150 g" is a weight
    of rye, "rye 1150" the flour; and none that is the first half of "2 x 600 g"."""
    turned = turned_at(lx, i, lexicon)
    for token, used in phrases_at(lx, i, lexicon):
        if turned is not None and turned[1] > used:
            break
        if used > 1 and lx[i + used - 1].word == "x" and i + used < len(lx) and lx[i + used].kind == "number":
            continue
        weighed = used > 1 and lx[i + used - 1].kind == "number" and unit_at(lx, i + used, lexicon, 1.0)
        if not weighed and not (used > 1 and _begins_an_hour(lx, i + used - 1)):
            return token, used
    return turned


def _begins_an_hour(lx: Sequence[Lexeme], i: int) -> bool:
    """ "half past", "quarter to", "half eight": the last word of a phrase belongs to what follows."""
    after = lx[i + 1].word if i + 1 < len(lx) else ""
    past = after in ("past", "to") and lx[i].word in ("half", "quarter")
    return past or (lx[i].word == "half" and 1 <= number_words.ONES.get(after, 0) <= 12)


def coin_named(word: str, lexicon: Lexicon) -> Unit | None:
    """A currency by its sign or name, or a coin of which a hundred make one, as a unit: "£", "euros", "p"."""
    for kind, id in lexicon.phrases.get(word, ()):
        if kind in ("currency", "coin"):
            return Unit(id, "money", 1.0 if kind == "currency" else 0.01)
    return None
