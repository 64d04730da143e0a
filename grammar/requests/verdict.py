"""What was thought of a bake: a mark, a line headed so, plain praise; and what was thought before, asked for."""

from __future__ import annotations

import re
from dataclasses import dataclass

from grammar.frames import Bound, Frame, Line, Own
from grammar.named import dough_named
from grammar.requests.keeping import CERTAIN, a_dough
from grammar.spoken import fitting, found, matched, spoken


@dataclass(frozen=True, slots=True)
class VerdictRequest:
    """those were a bit flat, 7 out of 10

    words: as typed; rating of out_of, None where only words were said; of: the dough meant, as typed.
    """

    words: str
    rating: float | None = None
    out_of: float | None = None
    of: str = ""


@dataclass(frozen=True, slots=True)
class VerdictsAsked:
    """what did I think of the rings

    of: the dough meant, as typed; "": all.
    """

    of: str = ""


_LEAD = r"(?:(?:<hand:polite>)[ ,]+)*"
_END = r"(?:[ ,]+(?:<hand:polite>|<hand:any_more>))*"
_OF = r"(?P<of>(?:<hand:this>)|(?:the|my|our|these|those) [a-z ]+?)"
_ASKED = (
    rf"{_LEAD}what did (?:i|we|they|everyone|people) (?:think|say|make) of (?P<of>.+?)",
    rf"{_LEAD}how (?:good|bad|nice) (?:was|were|is|are) (?P<of>.+?)",
    rf"{_LEAD}how did (?:i|we) (?:rate|score|mark|like) (?P<of>.+?)",
    rf"{_LEAD}(?:whats|what was|what is|show|show me) (?:<hand:the> )*(?:<hand:verdict>)"
    rf"(?: (?:on|of|for) (?P<of>.+?))?",
    rf"{_LEAD}(?:<hand:show> )?(?:<hand:the> )*(?:verdicts|ratings|scores|reviews)(?: so far)?",
)
_RATING = r"(?P<rating>\d{1,2}(?:\.\d)?|<words>)(?: out of | of |/| ?/ ?| over )(?P<out>10|5|ten|five|100)\b"
_STARS = r"(?P<rating>\d(?:\.\d)?|<words>) stars?\b"
_RATED = (
    rf"{_LEAD}(?:<hand:rate>) {_OF}(?: (?:at|as|a|an|with))* "
    rf"(?P<rating>\d{{1,2}}(?:\.\d)?|<words>)(?: out of (?P<out>10|5|ten|five))?(?P<rest>[ ,].*)?",
    rf"{_LEAD}{_OF} (?:<hand:rate>)(?: (?:a|an|only|about|just))* "
    rf"(?P<rating>\d{{1,2}}(?:\.\d)?|<words>)(?: out of (?P<out>10|5|ten|five))?(?P<rest>[ ,].*)?",
)
_HEADED = rf"{_LEAD}(?:<hand:the> )*(?:<hand:verdict>)(?: (?:on|for|of) (?P<of>.+?))? ?(?::|is|,) ?(?P<rest>.+)"
_PRAISED = (
    rf"{_LEAD}(?P<of>they|it|this|that|those|these|(?:the|my|our|those|these) [a-z ]+?)(?: all)? (?:<hand:came_out>)"
    rf"(?: (?:<hand:very>))* (?:<hand:praise>)(?:[ ,]+(?:<hand:very>|<hand:praise>|and))*{_END}",
    rf"{_LEAD}(?:<hand:praise>),? (?P<of>(?:they|it|those|these|this|that)|(?:the|my|those|these) [a-z ]+?)"
    rf"(?: all)?(?: (?:<hand:came_out>|<hand:very>))*{_END}",
)
_NUMBERS = {
    "zero": 0, "one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8, "nine": 9,
    "ten": 10, "a hundred": 100,
}  # fmt: skip
_SPELLED = "|".join(_NUMBERS)


def asks_verdicts(line: Line) -> Own | None:
    """What was thought of a bake, asked for."""
    said = spoken(line.text, line.lexicon)
    for hit in fitting(_ASKED, said, line.lexicon):
        of = said.group(hit, "of") if "of" in hit.groupdict() else ""
        plainer = re.sub(r"^(?:(?:the|my|last|latest) )+", "", of.lower())
        if not of or a_dough(of, line) or a_dough(plainer, line):
            return Own(VerdictsAsked(of), CERTAIN)
    return None


def judges(line: Line) -> Own | None:
    """What was thought of a bake: a mark out of ten or five, a line headed so, or plain praise."""
    if line.text.rstrip().endswith("?") or len(line.text) > 300 or "\n" in line.text.strip():
        return None
    said = spoken(line.text, line.lexicon)
    words = line.text.strip()
    for template in _RATED:
        hit = matched(template.replace("<words>", _SPELLED), said, line.lexicon)
        if hit is not None and line.context.has_bake and not _tells_of_folds(said.folded, line):
            out_of = _number(hit["out"]) if hit["out"] else 10.0
            return _verdict(words, _number(hit["rating"]), out_of, _of(said.group(hit, "of"), line))
    hit = found(_RATING.replace("<words>", _SPELLED), said, line.lexicon)
    if hit is not None and _is_a_mark(hit, said.folded):
        return _verdict(words, _number(hit["rating"]), _number(hit["out"]), _of(said.folded, line))
    hit = found(_STARS.replace("<words>", _SPELLED), said, line.lexicon)
    if hit is not None and line.context.has_bake:
        return _verdict(words, _number(hit["rating"]), 5.0, _of(said.folded, line))
    hit = matched(_HEADED, said, line.lexicon)
    if hit is not None and line.context.has_bake:
        return Own(VerdictRequest(said.group(hit, "rest"), of=_of(said.group(hit, "of"), line)), CERTAIN)
    for hit in fitting(_PRAISED, said, line.lexicon):
        if line.context.has_bake:
            return Own(VerdictRequest(words, of=_of(said.group(hit, "of"), line)), CERTAIN)
    return None


def _tells_of_folds(words: str, line: Line) -> bool:
    """ "gave it 2 folds": a deed, no mark."""
    return any(("stage", "fold") in line.lexicon.tellings.get(word, ()) for word in words.split())


def _is_a_mark(hit: re.Match[str], line: str) -> bool:
    """Whether "7/10" ends a clause, so that it is no part of an amount."""
    if "out" in hit.group() or hit["out"] == "ten":
        return True
    behind = line[hit.end() :].lstrip()
    heads = not line[: hit.start()].strip(" ,.") and re.match(_AMOUNT, behind) is None
    return (heads or behind[:1] in ("", ",", ".", ";", ":", "-", ")")) and hit["out"] in ("10", "5")


_AMOUNT = r"(?:of|the|a|an|cups?|ml|l|litres?|g|grams|kilos?|kg|tsp|tbsp|ounces|oz|pints?|to|and|more|less|x)\b|\d"
"""What stands behind a fraction that is an amount."""


def _verdict(words: str, rating: float, out_of: float, of: str) -> Own | None:
    return Own(VerdictRequest(words, rating, out_of, of), CERTAIN) if 0 <= rating <= out_of else None


def _number(word: str) -> float:
    return float(_NUMBERS.get(word, word))


def _of(words: str, line: Line) -> str:
    """The dough named in the words, as typed; "" where none is: the one in hand."""
    known = line.context.known
    if dough_named(words, known) is not None:
        return words
    parts = re.findall(r"(?:the|my|our|those|these) ([a-z]+(?: [a-z]+)?)", words.lower())
    for part in parts:
        for name in (part, part.split()[0]):
            if dough_named(name, known) is not None:
                return str(name)
    return ""


def _never(bound: Bound) -> None:
    """Never from slots: these lines are read as a whole or not at all."""
    return


FRAMES = tuple(
    Frame(request, "keeping", _never, reads=reader, first=True, needs=("slot:none",))
    for request, reader in ((VerdictsAsked, asks_verdicts), (VerdictRequest, judges))
)
