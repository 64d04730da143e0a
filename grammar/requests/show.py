"""What was answered before, or what stands, shown again: by what is named, else by what was said last."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from grammar.frames import Frame, Line, Own, never_by_slots
from grammar.levels import speaks
from grammar.named import dough_named
from grammar.requests.talk import bare
from grammar.scanner import scan
from grammar.spoken import matched, sentences, spoken

What = Literal["last", "dough", "plan"]


@dataclass(frozen=True, slots=True)
class ShowRequest:
    """show it again
    show the dough
    what's in the bowl
    where were we

    what: the dough in hand, the plan that stands, or whatever was answered last. missing: the bread asked for that is
    none on the bench.
    """

    what: What = "last"
    missing: str | None = None


_LEAD = r"(?:(?:<hand:polite>)[ ,.:;!]+)*"
_END = (
    r"(?:[ ,.;:?]+(?:<hand:polite>|<hand:again>|<hand:briefly>|now))*"
    r"(?:[ ,.;:?]+(?:<hand:excuse>)(?: [a-z ,]+)?)?"
)
_PUT = r"what(?:s| all)?(?: is| was| are| were| goes| went| did i put| have i put| did we put| do i put)? in(?:to)?"
_IN = rf"{_LEAD}(?:<hand:show> )?{_PUT} (?P<of>(?:<hand:the> )+[a-z ]+?){_END}"
_HAND = (
    rf"{_LEAD}(?:<hand:show> )?(?:<hand:the> )*(?:<hand:dough>) (?:of|for|in) "
    rf"(?P<of>(?:<hand:the> )*[a-z ]+?){_END}"
)
_MINE = r"(?: (?:do|did|must|should|shall|will|am|was|were|have))? (?:i|we)"
_AGAIN = rf"{_LEAD}<hand:show> (?:<hand:the> )+(?P<of>[a-z ]+?)(?: <hand:again>)*{_END}"
_THE = rf"{_LEAD}(?:<hand:the> )+(?P<of>[a-z ]+?)(?: <hand:again>)+{_END}"
_LAST = rf"{_LEAD}<hand:show> <hand:this>(?: <hand:again>)+{_END}"
_DOUGH = (
    rf"{_LEAD}(?:<hand:show> )?{_PUT} (?:<hand:the> )*(?:<hand:any_bread>){_END}",
    rf"{_LEAD}(?:<hand:show> )?what(?: was| were| am| are)? (?:i|we) (?:making|doing|mixing|baking){_END}",
    rf"{_LEAD}<hand:show>(?: <hand:this>)? back{_END}",
    rf"{_LEAD}(?:<hand:show> )?(?:<hand:the> )*(?:<hand:dough>)(?: of (?:<hand:the> )*(?:<hand:dough>))?{_END}",
    rf"{_LEAD}(?:<hand:show> )?what(?:s| is| was| went| goes| has gone| have i put| did i put| do i put| have i got"
    rf"| is all| all is| all went|s all| else is| am i putting| must go| should go)? (?:<hand:in_bowl>){_END}",
    rf"{_LEAD}(?:<hand:show> )?what{_MINE}(?: have to| need to| must| should| got to)? "
    rf"(?:weigh|measure|put in|weigh in|pour)(?: out| up| in)?{_END}",
    rf"{_LEAD}how (?:does|do) (?:<hand:the> )*(?:<hand:dough>) (?:look|stand){_END}",
)
_WHO = r"(?:(?:we|i|it|there|they)(?: (?:making|doing|baking))?)"
_EACH = r"(?: (?:each|apiece|a piece|raw|a go))*"
_COUNTED = (
    rf"{_LEAD}(?:remind me,? )?how many(?: [a-z]+){{0,3}} (?:were|are|was|is|am|did|do) {_WHO}(?: make| bake| need)?"
    rf"(?:,? (?:and )?(?:how (?:heavy|big|large)|what weight)(?: each| apiece| a piece|,? raw)*)?{_END}",
    rf"{_LEAD}(?:remind me,? )?how (?:heavy|big|large) (?:were|are|was|is) (?:(?:<hand:the> )*[a-z]+){_EACH}{_END}",
    rf"{_LEAD}(?:<hand:show>)(?: (?:<hand:again>))? (?:<hand:the> )*(?:<hand:dough>),?(?: what(?:s| is| was| goes)"
    rf"(?: (?:<hand:in_bowl>)))?{_END}",
)
_BIDDEN = (
    rf"{_LEAD}(?:<hand:show>|have) (?:<hand:the> )*(?:<hand:dough>)(?: (?:<hand:polite>|<hand:again>))+",
    rf"{_LEAD}(?:<hand:the> )*(?:<hand:dough>) (?:<hand:again>){_END}",
)
"""The same as one sentence of a longer line, told plainly to be seen again."""
_PLAN = (
    rf"{_LEAD}(?:<hand:show>) (?:<hand:the> )*(?:<hand:plan>){_END}",
    rf"{_LEAD}(?:<hand:the> )+(?:<hand:plan>){_END}",
    rf"{_LEAD}(?:<hand:plan>) (?:again|once more){_END}",
)


def reads(line: Line) -> Own | None:
    """The dough or the plan asked for by its name."""
    said = spoken(line.text, line.lexicon)
    heard = [spoken(text, line.lexicon) for text in sentences(line.text, commas=True)] if line.context.has_bake else []
    if any(matched(template, one, line.lexicon) for one in heard[:1] for template in (*_DOUGH, *_COUNTED)):
        return Own(ShowRequest("dough"), 100.0)
    if any(matched(template, one, line.lexicon) for one in heard[1:] for template in _BIDDEN):
        return Own(ShowRequest("dough"), 100.0)
    for template in (_IN, _HAND, _AGAIN, _THE):
        hit = matched(template, said, line.lexicon) if line.context.has_bake else None
        if hit is not None and dough_named(said.group(hit, "of"), line.context.known) is not None:
            return Own(ShowRequest("dough"), 100.0)
        if hit is not None and _is_a_bread(said.group(hit, "of"), line):
            return Own(ShowRequest("dough", said.group(hit, "of")), 100.0)
    if matched(_LAST, said, line.lexicon):
        return Own(ShowRequest("last"), 100.0)
    stands = "plan" in line.context.standing or line.context.known.planned
    if stands and any(matched(template, said, line.lexicon) for template in _PLAN):
        return Own(ShowRequest("plan"), 100.0)
    return None


def _is_a_bread(words: str, line: Line) -> bool:
    """Whether words name nothing but a bread or the pieces of one."""
    tokens = [token for token in scan(words, line.lexicon) if token.kind != "FILL"]
    return bool(tokens) and all(token.ids("piece") or token.ids("bread") for token in tokens)


FRAMES = (
    Frame(ShowRequest, "show", never_by_slots, reads=reads, first=True, needs=("slot:none",)),
    Frame(
        ShowRequest,
        "show",
        bare(ShowRequest),
        cues=speaks(telling="act:show", maybe="cue:formula cue:dough ask:plan*"),
        needs=("act:show",),
    ),
)
