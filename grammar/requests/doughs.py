"""The doughs on the bench: listed, named, dropped, taken together, or another one taken in hand."""

from __future__ import annotations

from dataclasses import dataclass

from grammar.frames import Bound, Frame, Line, Own, never_by_slots
from grammar.levels import speaks
from grammar.lexicon import fold
from grammar.named import dough_named, kept_named
from grammar.spoken import fitting, matched, spoken
from grammar.turns import END, LEAD, OF, THIS, bare_name, is_this

CERTAIN = 100.0


@dataclass(frozen=True, slots=True)
class BackRequest:
    """back to the first one
    the other one
    back to the rings

    which: "first", "last" or "bread" with the id of a bread or piece.
    """

    which: str = "last"
    bread: str | None = None


@dataclass(frozen=True, slots=True)
class DoughsAsked:
    """what doughs have I got"""


@dataclass(frozen=True, slots=True)
class DoughCalled:
    """call this one Jo's

    name: as typed; of: the dough meant, as typed; "": the one in hand.
    """

    name: str
    of: str = ""


@dataclass(frozen=True, slots=True)
class DoughDropped:
    """drop the buns

    of: the dough meant, as typed; "": the one in hand.
    """

    of: str = ""


@dataclass(frozen=True, slots=True)
class DoughsTogether:
    """total flour for both doughs

    what: "flour", "water", "starter", "salt", "dough" or an ingredient's id; "shopping"; empty: all of these.
    """

    what: tuple[str, ...] = ()


_LISTED = (
    rf"{LEAD}(?:what|which|how many)(?: all)?(?: (?:<hand:doughs>))(?: do i have| do we have| have i(?: got)?"
    rf"| have we(?: got)?| are there| are| is there| am i (?:making|doing)| are we (?:making|doing)| i have)?"
    rf"(?: (?:<hand:on_bench>))*{END}",
    rf"{LEAD}(?:list|show|show me|name|tell me|whats|what are)(?: all)? (?:<hand:the> )*(?:doughs|batches|bakes on)"
    rf"(?: (?:<hand:on_bench>|i have|ive got|we have))*{END}",
    rf"{LEAD}(?:whats|what is|what all is|what(?:ve| have) (?:i|we) got|what do i have)"
    rf"(?: all| left| still)? (?:on the bench|on my bench|on the go|under way|underway){END}",
    rf"{LEAD}(?:the |my )?doughs{END}",
    rf"{LEAD}what am i (?:making|baking|mixing)(?: today| now| at the moment)?{END}",
)
_NAMED = rf"(?P<of>{THIS}|.+?)"
"""A dough named in any way: a name that is none of the bench or the notebook is no match."""
_CALLED = (
    rf"{LEAD}(?:rename|re name) {_NAMED} (?:to|as|into)(?: be)? (?P<name>.+)",
    rf"{LEAD}(?:<hand:call>) {OF} (?P<name>.+)",
    rf"{LEAD}{_NAMED} (?:is|are|should be|will be|shall be|is to be|gets|goes by|answers to|wants)(?: now| to be)* "
    rf"(?:called|named|known as|(?:a|the) (?:new )?name(?: of)?) (?P<name>.+)",
    rf"{LEAD}(?:the )?name (?:of|for) {_NAMED} is(?: now)? (?P<name>.+)",
    rf"{LEAD}(?:change|switch|turn|make) (?:the )?name (?:of|for) {_NAMED} (?:to|into|as)(?: be)? (?P<name>.+)",
)
_A_FIGURE = r"[\d.,]+ ?%? (?:on|for|of|in) (?:the|my) .+"
""" "call it 1.8 on the salt" sets a row, and names nothing."""
_STYLED = rf"{LEAD}{OF} (?:shall be|is to be|will be|should be|is now) (?P<name>[^,.;]+)"
"""A bare name behind "shall be": free text only where no word of it means anything here."""
_DROPPED = (
    rf"{LEAD}(?:<hand:drop>) (?P<of>.+?)(?: (?:(?:off|from) the bench|altogether|completely|entirely|for now))?{END}",
    rf"{LEAD}(?P<of>(?:the|my|our) .+?) (?:is|are) (?:off|cancelled|canceled|no more|scrapped){END}",
    rf"{LEAD}no (?P<of>.+?) (?:after all|any ?more|today|this time){END}",
)
_TOGETHER = r"(?:.*\b)?(?:for|of|in|from|between|with|across) (?:<hand:both>)(?:\b.*)?"
_TOGETHER_SAID = (
    rf"{LEAD}(?:how much|how many|what|whats|total|add up|sum up)\b.*\b(?:both|all (?:three|four|of them|of these)"
    r"|the two|the lot)\b.*"
)
_BOTH_ALONE = rf"{LEAD}(?:for )?(?:<hand:both>){END}"
_TOGETHER_AHEAD = rf"{LEAD}(?:<hand:both>)(?:\b.*)?"


def lists(line: Line) -> Own | None:
    """The doughs asked for."""
    said = spoken(line.text, line.lexicon)
    hit = line.context.known.doughs and any(matched(one, said, line.lexicon) for one in _LISTED)
    return Own(DoughsAsked(), CERTAIN) if hit else None


def calls(line: Line) -> Own | None:
    """A dough given a name; the name is free text."""
    if not line.context.has_bake or line.text.rstrip().endswith("?"):
        return None
    said = spoken(line.text, line.lexicon)
    for template in (*_CALLED, _STYLED):
        hit = matched(template, said, line.lexicon)
        if hit is None or (template is _STYLED and not _strange(said.group(hit, "name"), line)):
            continue
        of, name = said.group(hit, "of"), bare_name(said.group(hit, "name"), line.lexicon)
        if matched(_A_FIGURE, spoken(name, line.lexicon), line.lexicon) is not None:
            continue
        this, known = is_this(of, line.lexicon), line.context.known
        if name and len(name) <= 60 and (this or dough_named(of, known) is not None or kept_named(of, known)):
            return Own(DoughCalled(name, "" if this else of), CERTAIN)
    return None


def _strange(name: str, line: Line) -> bool:
    """Whether words mean nothing to any topic, so that they can only be a name."""
    words = name.split()
    return 0 < len(words) <= 3 and all(one.isalpha() and not line.lexicon.phrases.get(fold(one)) for one in words)


def drops(line: Line) -> Own | None:
    """A dough taken off the bench, where it is one that stands there."""
    said = spoken(line.text, line.lexicon)
    for hit in fitting(_DROPPED, said, line.lexicon):
        of = said.group(hit, "of")
        forgets = matched(r"(?:(?:<hand:polite>)[ ,]+)*(?:<hand:forget>) .+", said, line.lexicon) is not None
        if forgets and not said.folded.startswith(("drop", "scrap")) and kept_named(of, line.context.known) is not None:
            return None  # the name in the notebook is meant
        if dough_named(of, line.context.known) is not None:
            return Own(DoughDropped(of), CERTAIN)
        dough = of.lower() in ("this dough", "the dough", "this one", "this batch", "that dough", "the dough in hand")
        if dough and line.context.has_bake and not said.folded.startswith(("leave", "clear", "cut", "skip")):
            return Own(DoughDropped(), CERTAIN)
    return None


def together(line: Line) -> Own | None:
    """What all doughs on the bench come to."""
    if len(line.context.known.doughs) < 2:
        return None
    said = spoken(line.text, line.lexicon)
    if not any(matched(one, said, line.lexicon) for one in (_TOGETHER, _TOGETHER_AHEAD, _TOGETHER_SAID)):
        return None
    words = set(said.folded.replace("?", " ").replace(",", " ").split())
    bare = line.context.focus == "cost" and matched(_BOTH_ALONE, said, line.lexicon) is not None
    if bare or words & {"shopping", "buy", "shop", "groceries"}:
        return Own(DoughsTogether(("shopping",)), CERTAIN)
    strange = any(token.kind == "JUNK" and not token.idle and token.text[:1].isdigit() for token in line.tokens)
    if strange or words & _ELSE or any(token.kind in ("CLOCK", "DAY", "PART") for token in line.tokens):
        return None
    found = [name for name, ways in _ASKED.items() if words & ways]
    items = [one for token in line.tokens for one in token.ids("ingredient")[:1]]
    found += [one for one in items if not one.startswith(("flour", "starter", "salt", "water"))]
    total = words & {"total", "altogether", "all", "add", "sum", "combined", "together", "how", "what", "whats", "much"}
    if any(token.quantity is not None and token.text.lower() not in _COUNTED for token in line.tokens):
        return None
    return Own(DoughsTogether(tuple(dict.fromkeys(found))), CERTAIN) if found or total else None


_ASKED = {
    "flour": {"flour", "flours"}, "water": {"water"}, "starter": {"starter", "levain", "leaven"}, "salt": {"salt"},
    "dough": {"dough", "weight", "weigh", "mass"}, "pieces": {"pieces"},
}  # fmt: skip
_COUNTED = {"two", "three", "four", "both", "2", "3", "4", "one"}
_ELSE = {
    "plan", "schedule", "bake", "ready", "when", "long", "card", "feed", "compare", "cost", "price", "calories", "boil",
    "oven", "fridge", "why", "make", "add", "change", "put", "same", "loads",
}  # fmt: skip


def _back(bound: Bound) -> BackRequest | None:
    if any(p.kind == "amount" for p in bound.phrases):
        return None
    first = bound.said("ask:first")
    bread = next((p.ids("bread")[0] for p in bound.phrases if p.ids("bread")), None)
    return BackRequest("first" if first else "bread" if bread else "last", bread)


FRAMES = (
    *(
        Frame(request, "doughs", never_by_slots, reads=reader, first=True, needs=("slot:none",))
        for request, reader in (
            (DoughsAsked, lists), (DoughCalled, calls), (DoughDropped, drops), (DoughsTogether, together),
        )
    ),
    Frame(
        BackRequest,
        "back",
        _back,
        cues=speaks(
            telling="act:back",
            likely="ask:first",
            maybe="cue:dough bread:* piece:*",
        ),
        needs=("act:back",),
    ),
)  # fmt: skip
