"""What was thought of a bake: a mark, a line headed so, plain praise; and what was thought before, asked for."""

from __future__ import annotations

import re
from dataclasses import dataclass

from grammar.frames import Frame, Line, Own, never_by_slots
from grammar.lexicon import fold
from grammar.named import dough_named, names_in
from grammar.requests.keeping import CERTAIN, a_dough
from grammar.spoken import fitting, found, matched, spoken
from grammar.turns import BEFORE, END, LEAD, OF, THIS


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


_WHO = r"(?:i|we|they|he|she|you|everyone|everybody|anyone|people|folks|the (?:crew|club|lot of them|family|kids))"
_NAMED = rf"(?P<of>{THIS}|.+?)"
_MARK = (
    r"(?:(?:<hand:verdict>)|(?:<hand:rate>)|how many (?:stars|points|out of (?:10|5|ten|five))"
    r"|what out of (?:10|5|ten|five)|how (?:high|low|well|many))"
)
_DID = r"(?:did|do|have|had|has|would)"
_ASKED = (
    rf"{LEAD}what {_DID} {_WHO} (?:think|say|make|reckon|said|thought) (?:of|about) "
    rf"(?:how )?(?P<of>{THIS}|.+?)(?: (?:<hand:came_out>|went down|did))?{END}",
    rf"{LEAD}how (?:good|bad|nice|tasty) (?:was|were|is|are) {_NAMED}{END}",
    rf"{LEAD}(?:how|what) {_DID} {_WHO} (?:rate|score|mark|like|give|grade)(?:d)? {_NAMED}{END}",
    rf"{LEAD}(?:what |which )?{_MARK} {_DID} {_WHO} (?:<hand:rate>|put on|put down for|settle on for) {_NAMED}{END}",
    rf"{LEAD}(?:what |which )?{_MARK} {_DID} {_NAMED} (?:<hand:rate>|come to|end up with|end on){END}",
    rf"{LEAD}(?:what|how many|how much) {_DID} {_NAMED} (?:score|get|earn)(?: out of (?:10|5|ten|five))?{END}",
    rf"{LEAD}how {_DID} {_NAMED} (?:<hand:went>){END}",
    rf"{LEAD}(?:<hand:show> )?(?:<hand:the> )*(?:<hand:verdict>)(?: (?:on|of|for|from) {_NAMED})?{END}",
    rf"{LEAD}(?:<hand:show> )?(?:<hand:the> )*(?:verdicts|ratings|scores|reviews)(?: so far)?{END}",
)
_RATING = r"(?P<rating>\d{1,2}(?:\.\d)?|<words>)(?: out of | of |/| ?/ ?| over )(?P<out>10|5|ten|five|100)\b"
_STARS = r"(?P<rating>\d(?:\.\d)?|<words>) stars?\b"
_RATED = (
    rf"{LEAD}(?:<hand:rate>) {OF}(?: (?:at|as|a|an|with))* "
    rf"(?P<rating>\d{{1,2}}(?:\.\d)?|<words>)(?: out of (?P<out>10|5|ten|five))?(?P<rest>[ ,].*)?",
    rf"{LEAD}{OF} (?:<hand:rate>)(?: (?:a|an|only|about|just))* "
    rf"(?P<rating>\d{{1,2}}(?:\.\d)?|<words>)(?: out of (?P<out>10|5|ten|five))?(?P<rest>[ ,].*)?",
)
_HEADED = rf"{LEAD}(?:<hand:the> )*(?:<hand:verdict>)(?: (?:on|for|of) (?P<of>.+?))? ?(?::|is|,) ?(?P<rest>.+)"
_PRAISED = (
    rf"{LEAD}(?P<of>they|it|this|that|those|these|(?:the|my|our|those|these) [a-z ]+?)(?: all)? (?:<hand:came_out>)"
    rf"(?: (?:<hand:very>))* (?:<hand:praise>)(?:[ ,]+(?:<hand:very>|<hand:praise>|and))*{END}",
    rf"{LEAD}(?:<hand:praise>),? (?P<of>(?:they|it|those|these|this|that)|(?:the|my|those|these) [a-z ]+?)"
    rf"(?: all)?(?: (?:<hand:came_out>|<hand:very>))*{END}",
)
_IN_SPITE = (
    rf".*\b(?:<hand:came_out>|came)\b.*\b(?:but|though|yet)(?: still| it| they)*(?: (?:<hand:came_out>|<hand:very>))*"
    rf" (?:<hand:praise>)(?:[ ,]+(?:<hand:very>|<hand:praise>|and))*{END}"
)
"""A fault that praise makes up for, told of a bake that came out at an hour: what was thought of it, no complaint."""
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
        if not of or _of_a_dough(of, line):
            return Own(VerdictsAsked(of), CERTAIN)
    return None


def _of_a_dough(words: str, line: Line) -> bool:
    """Whether words name a dough, a kind of bread, or one before those in hand: "the last lot of these"."""
    hit = matched(BEFORE, spoken(words, line.lexicon), line.lexicon)
    named = (words, *((hit["kind"] or hit["same"],) if hit is not None else ()))
    return any(one == "" or a_dough(one, line) or _a_kind(one, line) for one in named)


def _a_kind(words: str, line: Line) -> bool:
    """Whether words are what pieces or a bread are called, or a general word for a dough."""
    hit = matched("(?:<hand:those> )*(?P<kind>.+)", spoken(words, line.lexicon), line.lexicon)
    kind = hit["kind"] if hit is not None else ""
    terms = (*line.lexicon.phrases.get(kind, ()), *line.lexicon.asides.get(kind, ()))
    return any(one in ("bread", "piece") or (one, name) == ("hand", "lot") for one, name in terms)


def judges(line: Line) -> Own | None:
    """What was thought of a bake: a mark out of ten or five, a line headed so, or plain praise."""
    if line.text.rstrip().endswith("?") or len(line.text) > 300 or "\n" in line.text.strip():
        return None
    said = spoken(line.text, line.lexicon)
    words = line.text.strip()
    for template in _RATED:
        hit = matched(template.replace("<words>", _SPELLED), said, line.lexicon)
        if hit is not None and line.context.has_bake and not _does(said.group(hit, "of"), said.folded, line):
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
    clocked = any(token.kind == "CLOCK" for token in line.tokens) and not any(p.ids("ask") for p in line.phrases)
    if clocked and line.context.has_bake and matched(_IN_SPITE, said, line.lexicon):
        return Own(VerdictRequest(words, of=_of(said.folded, line)), CERTAIN)
    for hit in fitting(_PRAISED, said, line.lexicon):
        if line.context.has_bake:
            return Own(VerdictRequest(words, of=_of(said.group(hit, "of"), line)), CERTAIN)
    return None


def _does(to: str, words: str, line: Line) -> bool:
    """ "gave it 2 folds", "get the salt down to 2": a deed, no mark."""
    return to.endswith(" to") or any(("stage", "fold") in line.lexicon.tellings.get(word, ()) for word in words.split())


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
    kept = names_in(fold(words), known.kept)
    if kept or dough_named(words, known) is not None:
        return kept[0] if kept else words
    parts = re.findall(r"(?:the|my|our|those|these) ([a-z]+(?: [a-z]+)?)", words.lower())
    for part in parts:
        for name in (part, part.split()[0]):
            if dough_named(name, known) is not None:
                return str(name)
    return ""


FRAMES = tuple(
    Frame(request, "keeping", never_by_slots, reads=reader, first=True, needs=("slot:none",))
    for request, reader in ((VerdictsAsked, asks_verdicts), (VerdictRequest, judges))
)
