"""The amounts in a recipe line: how much, in what measure, how filled. Other numbers are told apart and left aside."""

from __future__ import annotations

from dataclasses import dataclass, replace

from grammar.recipe.tokens import Number, Piece, number_at
from grammar.recipe.words import RecipeWords

ABOUT = frozenset(
    {"about", "approximately", "approx", "roughly", "around", "circa", "ca", "nearly", "almost", "~", "≈"}
)
MANNERS = {
    "scant": "scant", "scanty": "scant", "heaped": "heaped", "heaping": "heaped", "rounded": "heaped",
    "overflowing": "heaped", "generous": "generous", "good": "generous", "big": "generous", "level": "level",
    "levelled": "level", "leveled": "level", "flat": "level", "full": "level",
}  # fmt: skip
SIZES = {"small": "small", "medium": "medium", "large": "large", "big": "large", "jumbo": "jumbo", "little": "small"}
SYSTEMS = {
    "us": "us", "american": "us", "metric": "metric", "imperial": "imperial", "uk": "imperial", "british": "imperial",
    "english": "imperial", "australian": "australian", "aussie": "australian", "japanese": "japanese",
}  # fmt: skip
BARE = frozenset({"pinch", "dash", "smidgen", "splash", "knob", "handful", "dollop", "drop"})
"""Measures that are an amount without a number: "pinch of salt"."""

_LENGTHS = ("inch", "inches", "in", "cm", "mm", "centimetre", "centimetres", "centimeter", "centimeters", '"', "″", "”")
_TIMES = (
    "minute", "minutes", "min", "mins", "hour", "hours", "hr", "hrs", "second", "seconds", "sec", "secs", "day", "days",
    "week", "weeks", "month", "months",
)  # fmt: skip
_OTHER = (
    "percent", "pct", "degrees", "degree", "deg", "%", "°", "º", "˚", "℃", "℉", "x", "×", "kcal", "calories", "cal",
    "servings", "serving", "people", "portions", "rolls", "loaves", "times", "watt", "watts", "w", "mark",
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Amount:
    """One amount as said.

    low, high: the number, twice where no range was said. unit: a measure's id. size: small, medium, large, jumbo.
    manner: scant, heaped, generous, level. pack: what one of the counted things holds ("1 (14-oz) can").
    system: the cup system where the line names one. start, end: the place in the line.
    """

    low: float
    high: float
    unit: str
    dimension: str
    said: str
    start: int
    end: int
    size: str | None = None
    manner: str | None = None
    pack: Amount | None = None
    system: str | None = None
    about: bool = False
    bare: bool = False  # a count without any measure's name: "3 eggs"

    @property
    def middle(self) -> float:
        return (self.low + self.high) / 2


@dataclass(frozen=True, slots=True)
class Aside:
    """A number that measures no ingredient: a temperature, a time, a length, a percentage."""

    start: int
    end: int


@dataclass(frozen=True, slots=True)
class Found:
    """What stands at a piece, and the piece after it."""

    what: Amount | Aside
    next: int


def amount_at(line: tuple[Piece, ...], at: int, text: str, known: RecipeWords) -> Found | None:
    """The amount or other number that begins at a piece; None where there is no number."""
    start, about, manner = at, False, None
    while at < len(line) and (line[at].text.lower() in ABOUT or line[at].text.lower() in MANNERS or line[at].says(".")):
        if line[at].says(".") and at == start:
            return None
        manner = MANNERS.get(line[at].text.lower(), manner)
        about = about or line[at].text.lower() in ABOUT
        at += 1
        if at < len(line) and line[at].says("a", "an") and manner and not number_at(line, at + 1):
            break
    number = number_at(line, at)
    if number is None:
        return _bare_measure(line, at, start, text, known, manner)
    found = _counted(line, at, number, text, known)
    if found is None or isinstance(found.what, Aside):
        return found
    amount = found.what
    return Found(
        replace(
            amount,
            start=line[start].start,
            manner=amount.manner or manner,
            about=about,
            said=text[line[start].start : amount.end],
        ),
        found.next,
    )


def _bare_measure(
    line: tuple[Piece, ...], at: int, start: int, text: str, known: RecipeWords, manner: str | None
) -> Found | None:
    if at >= len(line) or line[at].kind != "word":
        return None
    size = SIZES.get(line[at].text.lower())
    after = at + 1 if size and at + 1 < len(line) else at
    unit = known.unit(line[after].text)
    if unit is None or unit[0] not in BARE:
        return None
    place = (line[start].start, line[after].end)
    said = text[place[0] : place[1]]
    return Found(Amount(1, 1, *unit, said=said, start=place[0], end=place[1], manner=manner, size=size), after + 1)


def _counted(
    line: tuple[Piece, ...], at: int, number: Number, text: str, known: RecipeWords, inner: bool = False
) -> Found | None:
    """What the number at a piece measures. inner: it is what a pack holds, and holds no packs itself."""
    low, high, after = number.value, number.value, number.next
    if _is_other(line, after, high):
        end = min(after, len(line) - 1)
        return Found(Aside(line[at].start, line[end].end), end + 1)
    second = _range_end(line, after)
    if second is not None:
        if _is_other(line, second.next, second.value):
            end = min(second.next, len(line) - 1)
            return Found(Aside(line[at].start, line[end].end), end + 1)
        low, high, after = min(low, second.value), max(low, second.value), second.next
    packed = _pack_size(line, at, number, after, text, known) if second is None and not inner else None
    if packed is not None:
        return packed
    unit_at, size, manner, system = _qualifiers(line, after)
    unit = _unit(line, unit_at, known)
    if unit is None and unit_at > after:  # "2 big spoons": the size is part of the measure's name
        unit = _unit(line, after, known)
        size = None if unit is not None else size
    if unit is not None:
        name, end = unit
        place = (line[at].start, line[end - 1].end)
        amount = Amount(
            low, high, *name, said="", start=place[0], end=place[1], size=size, manner=manner, system=system
        )
        if second is None:
            wider = _range_with_units(line, end, amount, text, known)
            if wider is not None:
                return wider
        return Found(amount, end)
    vague = after < len(line) and line[after].says("little", "bit", "few", "touch", "drop")
    if number.article and vague:
        return None  # "a little oil" is no amount
    if number.article or number.fraction:
        return _piece_of(line, at, number, after, known)
    if after < len(line) and line[after].says("/", ".", ":") and line[after].glued:
        return Found(Aside(line[at].start, line[after].end), after + 1)
    end = unit_at if size else after
    place = (line[at].start, line[end - 1].end)
    return Found(Amount(low, high, "each", "count", "", *place, size=size, manner=manner, bare=True), end)


def _piece_of(line: tuple[Piece, ...], at: int, number: Number, after: int, known: RecipeWords) -> Found | None:
    """ "an egg", "half a lemon", "1/2 onion": a count only where an ingredient's name follows."""
    unit_at, size, _, _ = _qualifiers(line, after)
    if unit_at >= len(line) or line[unit_at].kind != "word":
        return None
    first = line[unit_at].text.lower()
    if first not in known.longest and first.rstrip("s") not in known.longest:
        return None
    place = (line[at].start, line[unit_at - 1].end)
    return Found(
        Amount(number.value, number.value, "each", "count", "", *place, size=size, bare=True),
        unit_at,
    )


def _range_end(line: tuple[Piece, ...], at: int) -> Number | None:
    """The number after "-", "–" or "to"."""
    if at + 1 < len(line) and line[at].says("-", "–", "to", "or"):
        second = number_at(line, at + 1)
        if second is not None and not second.article:
            return second
    return None


def _range_with_units(line: tuple[Piece, ...], at: int, first: Amount, text: str, known: RecipeWords) -> Found | None:
    """480g to 510g."""
    if at + 1 >= len(line) or not line[at].says("-", "–", "to"):
        return None
    second = number_at(line, at + 1)
    unit = _unit(line, second.next, known) if second is not None and not second.article else None
    if second is None or unit is None or unit[0][0] != first.unit or second.value < first.low:
        return None
    return Found(replace(first, high=second.value, end=line[unit[1] - 1].end), unit[1])


def _pack_size(
    line: tuple[Piece, ...], at: int, number: Number, after: int, text: str, known: RecipeWords
) -> Found | None:
    """1 x 7g sachet, 2 x 400 g, 1 (14-oz) can, 1 14-oz can, 2 cans (400 g each)."""
    inner_at, bracket = after, False
    if inner_at < len(line) and line[inner_at].says("x", "×"):
        inner_at += 1
    elif inner_at < len(line) and line[inner_at].says("("):
        inner_at, bracket = inner_at + 1, True
    elif not (inner_at < len(line) and line[inner_at].kind == "number"):
        return _each_of_pack(line, at, number, after, text, known)
    inner_number = number_at(line, inner_at)
    if inner_number is None:
        return None
    inner = _counted(line, inner_at, inner_number, text, known, inner=True)
    if inner is None or not isinstance(inner.what, Amount) or inner.what.dimension == "count":
        return None
    end = inner.next
    if bracket:
        while end < len(line) and not line[end].says(")"):
            end += 1
        end += 1
    if end < len(line) and line[end].text == "-":
        end += 1
    while end < len(line) and line[end].text.lower() in SIZES:
        end += 1
    unit = _unit(line, end, known)
    if unit is None or unit[0][1] != "count":
        if bracket or inner_at == after:
            return None
        unit = (("each", "count"), inner.next)
    place = (line[at].start, line[unit[1] - 1].end)
    amount = Amount(number.value, number.value, *unit[0], said="", start=place[0], end=place[1], pack=inner.what)
    return Found(amount, unit[1])


def _each_of_pack(
    line: tuple[Piece, ...], at: int, number: Number, after: int, text: str, known: RecipeWords
) -> Found | None:
    """2 tins (400 g each); several cans of one stated size mean that size each."""
    unit_at, _, _, _ = _qualifiers(line, after)
    unit = _unit(line, unit_at, known)
    if unit is None or unit[0][1] != "count" or unit[1] >= len(line) or not line[unit[1]].says("("):
        return None
    inner_number = number_at(line, unit[1] + 1)
    if inner_number is None:
        return None
    inner = _counted(line, unit[1] + 1, inner_number, text, known, inner=True)
    if inner is None or not isinstance(inner.what, Amount) or inner.what.dimension == "count":
        return None
    close = inner.next
    each = close < len(line) and line[close].says("each", "ea", "apiece")
    close += each
    if close >= len(line) or not line[close].says(")") or not (each or (unit[0][0] == "can" and number.value > 1)):
        return None
    place = (line[at].start, line[close].end)
    amount = Amount(number.value, number.value, *unit[0], said="", start=place[0], end=place[1], pack=inner.what)
    return Found(amount, close + 1)


def _qualifiers(line: tuple[Piece, ...], at: int) -> tuple[int, str | None, str | None, str | None]:
    """Size, manner and cup system between a number and its unit: "2 heaped US tbsp", "3 extra-large"."""
    size = manner = system = None
    start = at
    while at < len(line):
        word = line[at].text.lower()
        if word in MANNERS and word != "big":
            manner = MANNERS[word]
        elif word in SYSTEMS:
            system = SYSTEMS[word]
        elif word in ("extra", "very", "x") and at + 1 < len(line) and _after_hyphen(line, at + 1).says("large", "big"):
            size, at = "extra large", at + (2 if line[at + 1].text == "-" else 1)
        elif word in SIZES:
            size = SIZES[word]
        elif not (word == "-" and at == start and at + 1 < len(line) and line[at + 1].glued):
            break
        at += 1
    return at, size, manner, system


def _after_hyphen(line: tuple[Piece, ...], at: int) -> Piece:
    return line[at + 1] if line[at].text == "-" and at + 1 < len(line) else line[at]


def _unit(line: tuple[Piece, ...], at: int, known: RecipeWords) -> tuple[tuple[str, str], int] | None:
    """The measure named at a piece, the longest name first, and the piece after it and its full stop."""
    if at >= len(line):
        return None
    for count in (3, 2, 1):
        words: list[str] = []
        end = at
        while len(words) < count and end < len(line) and line[end].kind == "word":
            words.append(line[end].text)
            end += 1
            if end < len(line) and line[end].says(".") and line[end].glued:
                end += 1
        unit = known.unit(" ".join(words)) if len(words) == count else None
        if unit is not None:
            if end < len(line) and line[end - 1].kind == "word" and line[end].text == "." and line[end].glued:
                end += 1
            return unit, end
    return None


def _is_other(line: tuple[Piece, ...], at: int, value: float) -> bool:
    """Does the number before this piece measure heat, time, length, a share or the like?"""
    if at >= len(line):
        return False
    piece = line[at]
    if piece.text == "-" and piece.glued and at + 1 < len(line) and line[at + 1].glued:
        piece = line[at + 1]
    word = piece.text.lower()
    if word in ("x", "×"):
        following = line[at + 1] if at + 1 < len(line) else None
        return following is None or following.kind != "number"
    if word == "in":  # "2 in cubes" but not "1 in the bowl"
        cut = at + 1 < len(line) and line[at + 1].says(".", "cubes", "pieces", "piece", "slices", "thick")
        return piece.glued or cut
    if word in _LENGTHS or word in _TIMES or word in _OTHER:
        return True
    return piece.text in ("F", "C") and (value >= 30 or (piece.glued and value >= 20))
