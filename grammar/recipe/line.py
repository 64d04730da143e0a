"""One ingredient line as said: its amounts, which of them measure the same thing, its ingredient, its remarks.

"1 cup plus 2 tbsp (180 g) bread flour, sifted" has two measures of one thing, the first of two parts. What the amounts
weigh is not this module's business; neither is which of two measures wins.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from itertools import pairwise

from grammar.recipe.amounts import Amount, Aside, amount_at
from grammar.recipe.names import Naming, naming
from grammar.recipe.plain import PlainLine, plain_line
from grammar.recipe.tokens import Piece, pieces
from grammar.recipe.words import RecipeWords, folded_words

MOST_AMOUNTS = 24
"""Amounts in one line beyond which it is no list of ingredients."""
_SUM = frozenset({"plus", "+", "and", "&", "minus", "less"})
_LESS = frozenset({"minus", "less"})
_SENTENCE = re.compile(r"(?<=[a-z)])[.!]\s+(?=[A-Z][a-z]+ )")
_MORE = re.compile(r"[,;(]?\s*(?:\bplus|\+|\band)?\s*\b(?:more|extra|additional)\b.*|\bplus\s+[^,;]*\bfor\b.*", re.I)
_TASTE = re.compile(r"\b(?:to taste|as needed|as required|if needed|as desired)\b", re.I)
_CONTINUED = frozenset(
    {("lb", "oz"), ("kg", "g"), ("l", "ml"), ("cup", "tbsp"), ("cup", "tsp"), ("tbsp", "tsp"), ("pint", "fl_oz")}
)
"""A measure and the smaller one that, right behind it, is added: 1 lb 4 oz."""
_OUTSIDE = re.compile(
    r"\b(?:for|to)\s+(?:the\s+|your\s+)?(?:brush|glaz|wash|egg wash|top\b|topping|dust|greas|sprinkl|serv|finish|"
    r"garnish|decorat|roll(?:ing)?\b|boil|bath|pan\b|tins?\b|tray\b|bowl\b|bench\b|work surface|counter|peel\b|"
    r"banneton|fry)"
    r"|\begg wash\b|\bfor the outside\b",
    re.I,
)
_OR_LEFT = re.compile(r"\(?\s*\bor\s*$", re.I)
_FINISH = frozenset({"for", "more", "extra", "additional"})


@dataclass(frozen=True, slots=True)
class Measured:
    """One whole measure of the ingredient: parts that are added up ("1 cup" + "2 tbsp")."""

    parts: tuple[Amount, ...]

    @property
    def start(self) -> int:
        return self.parts[0].start

    @property
    def end(self) -> int:
        return self.parts[-1].end

    @property
    def dimension(self) -> str:
        """ "mass" when every part is a mass or a pack of stated mass, else the first part's own."""
        kinds = {part.pack.dimension if part.pack else part.dimension for part in self.parts}
        return kinds.pop() if len(kinds) == 1 else "mixed"


@dataclass(frozen=True, slots=True)
class IngredientLine:
    """What one ingredient line says.

    text: the line as cleaned. item: ingredient id or None. name: the words the item was read from; phrase: the known
    name among them, folded. others: ids offered
    with "or". measures: every statement of how much. states: the words around, for how a cup is filled. passed_over:
    unknown words of the name. more: "plus more for dusting" was said. lost: the amount was damaged in copying. part:
    "dough", "build" (a starter or preferment listed by itself) or "outside" (for brushing, on top, to serve).
    """

    text: str
    item: str | None
    name: str
    phrase: str = ""
    measures: tuple[Measured, ...] = ()
    others: tuple[str, ...] = ()
    states: str = ""
    passed_over: tuple[str, ...] = ()
    more: bool = False
    optional: bool = False
    to_taste: bool = False
    lost: bool = False
    part: str = "dough"

    def without(self, dimension: str) -> str:
        """The line's text with the measures of one dimension cut out."""
        text = self.text
        for measure in sorted(self.measures, key=lambda found: -found.start):
            for part in reversed(measure.parts):
                kind = part.pack.dimension if part.pack else part.dimension
                if kind == dimension:
                    text = text[: part.start] + " " + text[part.end :]
        return " ".join(text.split())


@dataclass(frozen=True, slots=True)
class _Placed:
    """An amount with the pieces it takes up and how deep in brackets it stands."""

    amount: Amount
    first: int
    next: int
    depth: int


def read_lines(raw: str, known: RecipeWords) -> tuple[IngredientLine, ...]:
    """Every ingredient one line of text names; most lines name one, "500 g flour, 10 g salt" two."""
    plain = plain_line(raw)
    lines = tuple(_read(part, plain, known) for part in _ingredients(plain.text, known))
    if len(lines) > 1 and lines[0].measures and _OUTSIDE.search(lines[0].text[: lines[0].measures[0].start]):
        return tuple(replace(line, part="outside") for line in lines)  # "egg wash: 1 egg + 1 tbsp water"
    return lines


def read_line(raw: str, known: RecipeWords) -> IngredientLine:
    """The line read as one ingredient."""
    plain = plain_line(raw)
    return _read(plain.text, plain, known)


def _read(text: str, plain: PlainLine, known: RecipeWords) -> IngredientLine:
    text = _first_sentence(text, known)
    line = pieces(text)
    placed, asides = _amounts(line, text, known)
    placed = _own(placed, line, text, known)
    measures, extra = _measures(placed, line)
    found = _naming(text, placed, asides, known)
    remarks = text.lower()
    return IngredientLine(
        text=text,
        item=found.item,
        name=found.said,
        phrase=found.phrase,
        measures=measures,
        others=found.others,
        states=remarks,
        passed_over=found.passed_over,
        more=extra or bool(_MORE.search(text)),
        optional="optional" in remarks,
        to_taste=bool(_TASTE.search(text)),
        lost=plain.lost and not measures,
        part="outside" if _OUTSIDE.search(_MORE.sub("", text)) else "dough",
    )


def _first_sentence(text: str, known: RecipeWords) -> str:
    """The line up to a sentence of remarks, once an amount has been given."""
    match = _SENTENCE.search(text)
    if match is None:
        return text
    head = text[: match.start() + 1]
    placed, _ = _amounts(pieces(head), head, known)
    return head.rstrip(" .") if placed else text


def _amounts(
    line: tuple[Piece, ...], text: str, known: RecipeWords, all_counts: bool = False
) -> tuple[tuple[_Placed, ...], tuple[Aside, ...]]:
    """The amounts and other numbers of a line; a bare number beside real measures is kept only with `all_counts`."""
    placed: list[_Placed] = []
    asides: list[Aside] = []
    at = depth = 0
    while at < len(line):
        found = None if _lettered(line, at) else amount_at(line, at, text, known)
        if found is None:
            depth = max(0, depth + (line[at].text in "([") - (line[at].text in ")]"))
            at += 1
            continue
        if isinstance(found.what, Aside):
            asides.append(found.what)
        else:
            placed.append(_Placed(found.what, at, found.next, depth))
        at = found.next
    if all_counts:
        return tuple(placed), tuple(asides)
    if any(not one.amount.bare for one in placed):  # beside a real measure, a stray number counts nothing
        first = placed[0]
        keep = [one for one in placed if not one.amount.bare or (one is first and _leads(line, one))]
        placed = keep if any(not one.amount.bare for one in keep) else placed
    else:
        placed = placed[:1]
    return tuple(placed), tuple(asides)


def _lettered(line: tuple[Piece, ...], at: int) -> bool:
    """Whether a number stands right behind a letter: "T65" names a flour and counts nothing."""
    return at > 0 and line[at].glued and line[at - 1].kind == "word" and len(line[at - 1].text) == 1


def _leads(line: tuple[Piece, ...], one: _Placed) -> bool:
    return one.first == 0 or line[one.first - 1].says("of")


def _own(placed: tuple[_Placed, ...], line: tuple[Piece, ...], text: str, known: RecipeWords) -> tuple[_Placed, ...]:
    """The amounts of the first ingredient: those behind an "or" that brings a name of its own are another's."""
    for number, one in enumerate(placed[1:], 1):
        before = placed[number - 1]
        between = [p.text.lower() for p in line[before.next : one.first]]
        if "or" not in between[-2:]:
            continue
        first = placed[0].amount
        first_named = naming(_OR_LEFT.sub(" ", text[first.end : one.amount.start]), text[: first.start], known)
        later = placed[number + 1].amount.start if number + 1 < len(placed) else len(text)
        own_name = naming(text[one.amount.end : later].split(")")[0], "", known)
        if own_name.item is not None and (first_named.item is not None and own_name.item != first_named.item):
            return placed[:number]
    return placed


def _measures(placed: tuple[_Placed, ...], line: tuple[Piece, ...]) -> tuple[tuple[Measured, ...], bool]:
    """Amounts joined into measures: "plus" adds, a smaller unit right behind adds, everything else says it again."""
    found: list[tuple[list[Amount], int]] = []
    extra = False
    for number, one in enumerate(placed):
        if not found:
            found.append(([one.amount], one.depth))
            continue
        before = placed[number - 1]
        between = [p.text.lower() for p in line[before.next : one.first]]
        outer = [p for p in between if p not in ("(", ")")]
        joiner = bool(outer) and outer[-1] in _SUM and one.depth <= before.depth
        after = line[one.next].text.lower() if one.next < len(line) else ""
        words_between = [p for p in outer if p.isalpha() and p not in _SUM]
        if joiner and words_between and (after in _FINISH or outer[-1] in ("and", "&")):
            extra = True
            break
        if joiner and (after in _FINISH):
            extra = True
            break
        if (joiner and _addable(found, one)) or _continues(before, one, between):
            same = [n for n, (_, depth) in enumerate(found) if depth == one.depth]
            place = same[-1] if same else len(found) - 1
            taken = _LESS & set(outer)
            found[place][0].append(_negative(one.amount) if taken else one.amount)
            del found[place + 1 :]
        else:
            found.append(([one.amount], one.depth))
    return tuple(Measured(tuple(parts)) for parts, _ in found), extra


def _negative(amount: Amount) -> Amount:
    """The amount as one to be taken away: "1 cup minus 1 tbsp"."""
    return replace(amount, low=-amount.low, high=-amount.high)


def _addable(found: list[tuple[list[Amount], int]], one: _Placed) -> bool:
    kinds = {parts[0].dimension for parts, depth in found if depth == one.depth}
    return one.amount.dimension in kinds or not kinds or one.amount.dimension != "count"


def _continues(before: _Placed, one: _Placed, between: list[str]) -> bool:
    """1 lb 4 oz, 1 cup 2 tbsp."""
    a, b = before.amount, one.amount
    return not [p for p in between if p != ","] and before.depth == one.depth and (a.unit, b.unit) in _CONTINUED


def _naming(text: str, placed: tuple[_Placed, ...], asides: tuple[Aside, ...], known: RecipeWords) -> Naming:
    """The ingredient, from the text behind the first amount and, failing that, in front of it."""
    if not placed:
        return naming(text, "", known)
    start = placed[0].amount.start
    cuts = sorted((one.amount.start, one.amount.end) for one in placed)
    behind, at = "", cuts[0][1]
    for begin, end in cuts[1:]:
        behind += text[at:begin] + " "
        at = max(at, end)
    behind += text[at:]
    if text[:start].lower().rstrip().endswith(" of"):  # "zest of 1 lemon"
        joined = naming(_dropped(text[:start] + behind), "", known)
        if joined.item is not None:
            return joined
    found = naming(_dropped(behind), _dropped(text[:start]), known)
    part = re.search(r"\b(zest|juice)(?:d|s)?\b", text, re.I)
    if part is not None and placed[0].amount.bare and found.phrase:  # "1 orange, zest only"
        phrase = (*found.phrase.split(" ")[:-1], found.phrase.split(" ")[-1].rstrip("s"), part.group(1).lower())
        item = known.item(phrase)
        if item is not None:
            return replace(found, item=item, phrase=" ".join(phrase))
    return found


def _dropped(text: str) -> str:
    """The text without what amounts leave behind: empty brackets, a leading "of", separators without words."""
    text = re.sub(r"\(\s*(?:[;,/|=~≈]|or|about|and)*\s*\)", " ", text)
    text = re.sub(r"^[\s,;:/)\]}.–-]*(?:(?:of|or|plus|minus|less)\b\s*)*", "", text)
    return " ".join(text.split())


def _ingredients(text: str, known: RecipeWords) -> tuple[str, ...]:
    """The stretches of a line that each name an ingredient with its own amount."""
    line = pieces(text)
    placed, _ = _amounts(line, text, known, all_counts=True)
    if len(placed) > MOST_AMOUNTS:
        return (text,)
    cuts = [0]
    for number, one in enumerate(placed[1:], 1):
        if one.depth or one.first == 0:
            continue
        joint = line[one.first - 1]
        if joint.text.lower() not in (",", ";", "+", "and", "&", "plus", "|", "•", "."):
            if _runs_on(text, placed, number, known):
                cuts.append(one.amount.start)  # "1 cup flour 1/2 cup sugar"
            continue
        first = joint.start
        if joint.says("and") and one.first > 1 and line[one.first - 2].text == ",":
            first = line[one.first - 2].start
        later = placed[number + 1].amount.start if number + 1 < len(placed) else len(text)
        own = naming(text[one.amount.end : later], "", known)
        so_far = naming(_between_amounts(text, placed, cuts[-1], first), "", known)
        other = own.item is not None and own.item != so_far.item
        strange = own.item is None and joint.text in (",", ";") and _is_strange(own.said, one, known)
        if so_far.item is not None and (other or strange):
            cuts.append(joint.end)
    cuts.append(len(text) + 1)
    parts = [text[a:b].strip(" ,;|•") for a, b in pairwise(cuts)]
    return tuple(re.sub(r"\s*(?:,|;|\+|&|\band|\bplus)\s*$", "", part) for part in parts if part) or (text,)


def _runs_on(text: str, placed: tuple[_Placed, ...], number: int, known: RecipeWords) -> bool:
    """Whether another thing with its own amount follows without a mark between: each name right behind its measure."""
    if any(mark in text for mark in ",;(|") or len(placed) < 2:
        return False
    one = placed[number]
    later = placed[number + 1].amount.start if number + 1 < len(placed) else len(text)
    own, so_far = text[one.amount.end : later], text[placed[number - 1].amount.end : one.amount.start]
    if not all(0 < len(said.split()) <= 4 for said in (own, so_far)):
        return False
    mine, before = naming(own, "", known), naming(so_far, "", known)
    return mine.item is not None and before.item is not None and mine.item != before.item


def _is_strange(said: str, placed: _Placed, known: RecipeWords) -> bool:
    """Whether a measured amount is of something whose name is not known: "2 tsp salt, 1 tbsp frobnitz"."""
    words = [word for word in folded_words(said) if word.isalpha()]
    named = [word for word in words if word not in known.states]
    return bool(named) and words[0] in named and not placed.amount.bare and not placed.amount.about


def _between_amounts(text: str, placed: tuple[_Placed, ...], start: int, end: int) -> str:
    kept, at = "", start
    for one in placed:
        if start <= one.amount.start < end:
            kept += text[at : one.amount.start] + " "
            at = one.amount.end
    return kept + text[at:end]


def renamed(line: IngredientLine, item: str) -> IngredientLine:
    """The line with another of the ingredients it offers."""
    return replace(line, item=item, others=tuple(other for other in line.others if other != item))
