"""One ingredient line as said: its amounts, which of them measure the same thing, its ingredient, its remarks.

"1 cup plus 2 tbsp (180 g) bread flour, sifted" has two measures of one thing, the first of two parts. What the amounts
weigh is not this module's business; neither is which of two measures wins.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, replace

from grammar.recipe.counted import Aside
from grammar.recipe.joined import Measured, joined
from grammar.recipe.names import Naming, naming
from grammar.recipe.placed import Placed, amounts_in, of_the_first
from grammar.recipe.plain import PlainLine, plain_line
from grammar.recipe.several import stretches
from grammar.recipe.tokens import pieces
from grammar.recipe.words import RecipeWords

_SENTENCE = re.compile(r"(?<=[a-z)])[.!]\s+(?=[A-Z][a-z]+ )")
_MORE = re.compile(r"[,;(]?\s*(?:\bplus|\+|\band)?\s*\b(?:more|extra|additional)\b.*|\bplus\s+[^,;]*\bfor\b.*", re.I)
_TASTE = re.compile(r"\b(?:to taste|as needed|as required|if needed|as desired)\b", re.I)
_OUTSIDE = re.compile(
    r"\b(?:for|to)\s+(?:the\s+|your\s+)?(?:brush|glaz|wash|egg wash|top\b|topping|dust|greas|sprinkl|serv|finish|"
    r"garnish|decorat|roll(?:ing)?\b|boil|bath|pan\b|tins?\b|tray\b|bowl\b|bench\b|work surface|counter|peel\b|"
    r"banneton|fry)"
    r"|\begg wash\b|\bfor the outside\b",
    re.I,
)


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


def read_lines(raw: str, known: RecipeWords) -> tuple[IngredientLine, ...]:
    """Every ingredient one line of text names; most lines name one, "500 g flour, 10 g salt" two."""
    plain = plain_line(raw)
    lines = tuple(_read(part, plain, known) for part in stretches(plain.text, known))
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
    placed, asides = amounts_in(line, text, known)
    placed = of_the_first(placed, line, text, known)
    measures, extra = joined(placed, line)
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
    placed, _ = amounts_in(pieces(head), head, known)
    return head.rstrip(" .") if placed else text


def _naming(text: str, placed: tuple[Placed, ...], asides: tuple[Aside, ...], known: RecipeWords) -> Naming:
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
