"""A whole recipe as text: which lines are ingredients, what it yields, how hot and how long it bakes.

Method text is left aside without complaint; lines under a heading of ingredients are all kept, read or not, so that
nothing that might belong into the bowl is lost in silence.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from typing import Literal

from grammar.lexicon import fold
from grammar.recipe.line import IngredientLine, read_lines
from grammar.recipe.plain import plain_line
from grammar.recipe.tokens import number_at, pieces
from grammar.recipe.words import RecipeWords

MOST_LINES = 1200
"""Lines of a paste that are looked at."""
MOST_INGREDIENTS = 150
"""Ingredient lines kept; no home recipe has more."""

_YIELD = re.compile(
    r"^(?:this\s+|recipe\s+)*(?:makes|yields?|serves|servings|quantity|portions|for)\b\s*:?\s*(?P<rest>.*)$", re.I
)
_YIELD_INSIDE = re.compile(
    r"\b(?:makes|yields)\s+(?:about\s+|approximately\s+|roughly\s+)?"
    r"(?P<rest>(?:\d|a\b|one|two|three|four|six|eight|ten|twelve|dozen).*)$",
    re.I,
)
_PIECE_MASS = re.compile(r"(?P<g>\d+(?:[.,]\d+)?)\s*(?:g|grams?)\b", re.I)
_TIME = re.compile(
    r"^(?P<what>prep(?:aration)?|cook(?:ing)?|bak(?:e|ing)|total|rest(?:ing)?|ris(?:e|ing)|proof(?:ing)?)\s*time\s*:?\s*"
    r"(?P<rest>.*)$",
    re.I,
)
_FAR = r"(?P<low>\d{2,3})(?:\s*(?:-|–|to)\s*(?P<high>\d{2,3}))?\s*(?:°|º|˚|degrees?\s*|deg\.?\s*)?\s*"
_HEAT = re.compile(_FAR + r"(?P<unit>°?[CF]\b|celsius|fahrenheit|℃|℉|centigrade)", re.I)
_GAS = re.compile(r"gas\s*(?:mark\s*)?(?P<mark>\d{1,2}|1/2|1/4)\b", re.I)
_FAN = re.compile(r"\bfan\b|\bconvection\b", re.I)
_OVEN_WORDS = re.compile(r"\boven\b|\bbake\b|\bbaking\b|\bpreheat\b|\bheat\b", re.I)
_MINUTES = r"(?P<low>\d{1,3})(?:\s*(?:-|–|to)\s*(?P<high>\d{1,3}))?\s*(?:min|minutes|mins)\b"
_BAKE_MINUTES = re.compile(rf"\bbak(?:e|ing)\b[^.]{{0,80}}?{_MINUTES}", re.I)
_BAKE_TIME = re.compile(rf"^(?:bak(?:e|ing)|cook(?:ing)?)\s*time\s*:?\s*{_MINUTES}", re.I)
_OVEN_LINE = re.compile(
    r"^(?:oven|baking temperature|temperature|bake(?:d)? (?:at|for|temp)|baking time|preheat)\b", re.I
)
_LISTS = frozenset({"ingredients", "build", "outside"})
_STEP = re.compile(r"^\s*(?:step\s*)?\d{1,2}\s*[.):]\s+(?=[A-Za-z])", re.I)
_DURATION_ISO = re.compile(r"^P(?:(\d+)D)?T?(?:(\d+)H)?(?:(\d+)M)?(?:(\d+)S)?$", re.I)
_HOURS = re.compile(r"(?P<n>\d+(?:[.,]\d+)?)\s*(?P<u>h|hr|hrs|hours?|m|min|mins|minutes?|d|days?)\b", re.I)
_VERBS = frozenset(
    {
        "add", "allow", "bake", "beat", "boil", "bring", "brush", "combine", "cook", "cool", "cover", "cut",
        "dissolve", "divide", "drain", "fold", "form", "heat", "in", "knead", "leave", "let", "line", "make",
        "melt", "mix", "once", "place", "pour", "preheat", "press", "put", "remove", "repeat", "rest", "roll",
        "set", "shape", "sift", "spread", "sprinkle", "stir", "take", "then", "transfer", "turn", "using",
        "warm", "when", "whisk", "while", "work", "after", "before", "meanwhile", "serve", "store", "score",
        "slash", "proof", "scald",
    }
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Yield:
    """What the recipe makes. pieces: None where nothing countable is given; piece_g: grams of each if said."""

    said: str
    pieces: int | None = None
    piece_g: float | None = None
    thing: str = ""


@dataclass(frozen=True, slots=True)
class OvenSaid:
    """An oven setting as said: value in `unit` C, F or gas; fan: said of a fan oven."""

    value: float
    unit: Literal["C", "F", "gas"]
    fan: bool = False


@dataclass(frozen=True, slots=True)
class Sheet:
    """A recipe as read. aside: how many lines of method and remarks were left aside."""

    title: str = ""
    lines: tuple[IngredientLine, ...] = ()
    makes: Yield | None = None
    oven: OvenSaid | None = None
    bake_min: tuple[float, float] | None = None
    total_min: float | None = None
    aside: int = 0
    cut_short: bool = False


def read_sheet(text: str, known: RecipeWords) -> Sheet:
    """The recipe in a text of several lines."""
    raw = text.splitlines()
    rows = [row for row in raw[:MOST_LINES] if row.strip()]
    section = "unsaid"
    headed = any(_is_bare_heading(row) and _section(row, known) == "ingredients" for row in rows)
    title, aside = "", 0
    lines: list[IngredientLine] = []
    makes: Yield | None = None
    oven: OvenSaid | None = None
    bake: tuple[float, float] | None = None
    total: float | None = None
    for row in rows:
        plain = plain_line(row)
        if not plain.text:
            continue
        oven = oven or oven_said(plain.text)
        bake = bake or _bake_minutes(plain.text)
        makes = makes or yield_said(plain.text, strict=True)
        total = total or _total_minutes(plain.text)
        named = _section(row, known)
        if named is not None:
            section = named
            continue
        if makes is not None and makes.said == plain.text:
            if not title and not lines and not _YIELD.match(plain.text):
                title = plain.text  # "Country loaf (makes two)"
            continue
        if _TIME.match(plain.text) or _is_oven_line(plain.text):
            continue
        opens = not title and not lines and section == "unsaid" and not plain.bullet and _title_like(plain.text)
        if opens and not any(_is_amount(line) for line in read_lines(row, known)):
            if not row.lstrip().startswith("|"):
                title = plain.text
            continue
        kept = _ingredients_of(row, plain.text, plain.heading, plain.bullet, section, headed, known)
        if kept is None:
            if not plain.heading:
                aside += 1
            continue
        lines += [replace(line, part=section) for line in kept] if section in ("build", "outside") else kept
        if len(lines) >= MOST_INGREDIENTS:
            break
    return Sheet(title, tuple(lines[:MOST_INGREDIENTS]), makes, oven, bake, total, aside, len(raw) > MOST_LINES)


_LEAST_BARE = 10.0


def _is_amount(line: IngredientLine) -> bool:
    """Whether a line measures something: a bare "two" in a title counts nothing."""
    if any(not part.bare for measure in line.measures for part in measure.parts):
        return True
    if not line.measures or line.item is None:
        return False
    count = line.measures[0]
    weighed = line.text[-1:].isdigit() and len(line.text.split()) <= 4 and count.parts[0].low >= _LEAST_BARE
    return count.start == 0 or weighed  # "flour 1000" heads a list of bare weights


def _ingredients_of(
    row: str, text: str, heading: bool, bullet: bool, section: str, headed: bool, known: RecipeWords
) -> tuple[IngredientLine, ...] | None:
    """The ingredients on a line, or None where it is method, remark or heading."""
    if section in ("method", "other") or (heading and section not in _LISTS):
        return None
    if not any(sign.isalpha() for sign in text):
        return None  # figures alone name nothing
    if headed and section == "unsaid":
        return None
    if _STEP.match(text) and len(text) > 60:
        return None
    words = text.split()
    found = read_lines(row, known)
    measured = bool(found) and any(line.measures for line in found)
    first = fold(words[0]).strip(".,:;") if words else ""
    if first in _VERBS and len(words) > 3 and not (measured and found[0].measures[0].start < 2):
        return None
    if text.endswith(":") and not measured:
        return None
    if section in _LISTS:
        return found if len(words) <= 40 else None
    if measured and found[0].item is None and not any(m.dimension in ("mass", "volume") for m in found[0].measures):
        return None
    if measured and len(words) <= MOST_ROW_WORDS and _ends_weighed(found[-1], text):
        return found  # a row of a list in words nobody knows here: shown as not read, never passed over
    if measured and (found[0].item is not None or found[0].measures[0].start < 4):
        starts_late = found[0].measures[0].start > 60
        prose = len(words) > 25 and not bullet
        return None if starts_late or prose else found
    if found and found[0].item is not None and len(words) <= 8 and (bullet or found[0].to_taste or len(words) <= 4):
        return found
    return None


MOST_ROW_WORDS = 6
"""A row of a list that ends in its weight has no more words than this."""


def _ends_weighed(line: IngredientLine, text: str) -> bool:
    """Whether a line ends in a weight or a volume: "farine 1 kg"."""
    last = line.measures[-1] if line.measures else None
    return last is not None and last.dimension in ("mass", "volume") and len(text) - last.end <= 1


def _section(row: str, known: RecipeWords) -> str | None:
    """The kind of section a heading opens; None where the line is no heading."""
    if len(row) > 80:
        return None
    plain = plain_line(row)
    text = fold(plain.text).strip(" .:*#-–")
    if not text or any(sign.isdigit() for sign in text):
        return None
    said = known.sections.get(text)
    if said is not None:
        return said  # even "Levain" alone: without an amount it is no line of a list
    if plain.heading or plain.text.rstrip(" *").endswith(":") or row.lstrip().startswith("**"):
        for form, kind in known.sections.items():
            if text.startswith(form + " ") or text.endswith(" " + form):
                return kind
        if plain.text.rstrip(" *").endswith(":") and text.startswith(("for the ", "for ")):
            return "ingredients"
    return None


def _is_bare_heading(row: str) -> bool:
    return "ingredient" in fold(row) or "you will need" in fold(row)


def _is_oven_line(text: str) -> bool:
    return _OVEN_LINE.match(text) is not None


def _title_like(text: str) -> bool:
    return len(text) <= 90 and not text.endswith(".") and any(sign.isalpha() for sign in text)


def yield_said(text: str, strict: bool = False) -> Yield | None:
    """ "Makes 12 rolls", "Yield: 2 loaves of 900 g", "12 servings"; strict: only with such a leading word."""
    match = _YIELD.match(text) or _YIELD_INSIDE.search(text)
    if match is None and strict:
        return None
    rest = match.group("rest") if match else text
    if strict and match and match.re is _YIELD and text.lower().startswith("for") and not re.match(r"\d", rest):
        return None
    line = pieces(rest)
    start = 0
    while start < len(line) and not (number := number_at(line, start)):
        start += 1
        if start > 4:
            return None
    if start >= len(line):
        return None
    number = number_at(line, start)
    if number is None:
        return None
    tail = rest[line[number.next - 1].end :]
    word = re.match(r"\s*(?:(?:-|–|to)\s*\d+\s*)?(?:x\s+)?([A-Za-z][A-Za-z ,-]*)", tail)
    thing = word.group(1).strip().lower() if word else ""
    if re.match(r"(?:g|kg|grams?|ml|oz|cups?|lb)\b", thing):
        many = re.match(r"\s*(?:g|grams?)\b\s*(.*)", tail, re.I)
        return Yield(text, None, None, many.group(1) if many else "")
    mass = _PIECE_MASS.search(tail)
    count = int(number.value) if number.value == int(number.value) and 0 < number.value <= 2000 else None
    if count is None:
        return None
    return Yield(text, count, float(mass.group("g").replace(",", ".")) if mass else None, thing)


def oven_said(text: str) -> OvenSaid | None:
    """The first oven setting in a line that speaks of an oven or of baking; Celsius before Fahrenheit before gas."""
    if not _OVEN_WORDS.search(text):
        return None
    heats = [(m, m.group("unit").upper().lstrip("°")[0]) for m in _HEAT.finditer(text)]
    letters = {"C": "C", "F": "F", "℃": "C", "℉": "F"}
    named = [(float(m.group("low")), letters.get(u, "C"), m) for m, u in heats]
    hot = [(v, u, m) for v, u, m in named if (u == "C" and 90 <= v <= 350) or (u == "F" and 195 <= v <= 660)]
    if hot:
        value, unit, match = sorted(hot, key=lambda row: row[1])[0]
        around = _near(text, match, 12)
        plain = [row for row in hot if row[1] == unit and not _FAN.search(_near(text, row[2], 6))]
        if plain and _FAN.search(around):
            value, around = plain[0][0], ""
        return OvenSaid(value, "C" if unit == "C" else "F", bool(_FAN.search(around)))
    gas = _GAS.search(text)
    if gas:
        mark = gas.group("mark")
        return OvenSaid({"1/2": 0.5, "1/4": 0.25}.get(mark) or float(mark), "gas")
    bare = re.search(r"\boven\b.{0,30}?\bto\s+(\d{3})\b(?!\s*(?:g|ml))", text, re.I)
    if bare:
        value = float(bare.group(1))
        return OvenSaid(value, "C" if value <= 280 else "F")
    return None


def _near(text: str, match: re.Match[str], signs: int) -> str:
    return text[max(0, match.start() - signs) : match.end() + signs]


def _bake_minutes(text: str) -> tuple[float, float] | None:
    match = _BAKE_MINUTES.search(text) or _BAKE_TIME.match(text)
    if match is None:
        return None
    low = float(match.group("low"))
    return low, float(match.group("high") or low)


def _total_minutes(text: str) -> float | None:
    match = _TIME.match(text)
    if match is None or not match.group("what").lower().startswith("total"):
        return None
    return minutes(match.group("rest"))


def minutes(said: str) -> float | None:
    """Minutes of a duration: "1 hour 20 min", ISO 8601 "PT1H20M"; None where it is neither."""
    iso = _DURATION_ISO.match(said.strip())
    if iso and any(iso.groups()):
        days, hours, mins, secs = (float(part or 0) for part in iso.groups())
        return days * 1440 + hours * 60 + mins + secs / 60
    total, seen = 0.0, False
    for match in _HOURS.finditer(said):
        seen = True
        n, unit = float(match.group("n").replace(",", ".")), match.group("u").lower()[0]
        total += n * {"h": 60, "m": 1, "d": 1440}[unit]
    return total if seen else None
