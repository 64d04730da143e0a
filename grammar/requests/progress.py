"""Where the bake stands: stages marked as they begin ("mixed at 9:10", "it's in the oven"), and asked for."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace

from grammar.frames import Bound, Frame, Line, Own
from grammar.moments import Moment
from grammar.phrases import Phrase
from grammar.requests.recall import plain


@dataclass(frozen=True, slots=True)
class ProgressRequest:
    """where are we
    mixed at 9:10
    it's in the oven
    shaped just now
    how long left

    step: what was done (mix, bulk, fold, divide, preshape, shape, retard, warm_up, preheat, boil, bake, cool, autolyse,
    feed_starter); None: only asked. at: when, or ago_min: how many minutes ago; neither: now.
    """

    step: str | None = None
    at: Moment | None = None
    ago_min: float | None = None
    left: bool = False  # asked for the time that is left, nothing else


CERTAIN = 14.0
STAGE_ALONE = frozenset(
    {"baking", "boiling", "autolyse", "bulk", "proofing", "proving", "baked", "boiled", "retard", "bulk rise"}
)
"""A stage's bare name asks how long it takes."""
_GONE = re.compile(r"\b(?:ago|for|now|been|back|since)\b")
LEANS = frozenset({"timing", "feed", "plan", "loads", "water"})
"""Topics whose own question "how much longer" continues."""

_WHO = (
    r"(?:(?:i|we|ive|weve|have|had|just|now|ok|okay|right|so|and|all|the|my|finally|already|its|it|has|is|"
    r"theyre|they|"
    r"are|was|got|been|doughs?|loaf|loaves|rolls|rings|bread|batch|everything) )*"
)
_THING = (
    r"(?: (?:and|it|them|this|that|everything|all|up|in|the|my|both|trays?|doughs?|loa(?:f|ves)|rolls?|rings?|"
    r"pieces?|"
    r"buns?|breads?|batch|balls?|lot|first|second|third|set|of|bagels?|tins?|off|is|are|was|were|has|have|been|just|"
    r"done|finished|over|started|begun|began|going|on|shaped|preshaped|rested))*"
)
_IN_OVEN = (
    r"(?:(?:put|got|popped|slid|loaded|went|gone|going|goes|placed|stuck|bunged|shoved|chucked)(?: \w+){0,3} "
    r")?(?:\w+ ){0,2}(?:in|into|to) (?:the |my )?(?:hot )?oven"
)
_STEPS: tuple[tuple[str, str], ...] = (
    ("cool", (
        r"(?:(?:took|taken|pulled|come|came|got)(?: \w+){0,2} )?out of (?:the |my )?oven|(?:\w+ )?(?:cooling|on "
        r"the (?:cooling )?rack|baked|bake(?: is)? (?:done|finished|over)|(?:done|finished) baking|baking (?:done|"
        r"finished|over))"
    )),
    ("warm_up", r"(?:(?:took|taken|pulled|come|came|got|brought)(?: \w+){0,2} )?(?:out of|from) (?:the |my )?fridge"),
    ("retard", (
        r"(?:put|got|popped|stuck|went|gone|going|moved|bunged|shoved|placed)(?: \w+){0,3} (?:in|into|to) "
        r"(?:the |my )?fridge|(?:\w+ ){0,2}(?:in|into) (?:the |my )?fridge|retard(?:ing)?(?: started| begun)?|"
        r"started (?:the )?retard|"
        r"(?:fridged|refrigerated|chilled)"
    )),
    ("bake", (
        _IN_OVEN +
        r"|baking|(?:started|began) (?:baking|the bake)|bake (?:started|began|begun|on)|loaded the oven|oven "
        r"loaded|(?:loaf|loaves|rolls|rings|they|it|trays?) (?:are|is) in|went in"
    )),
    ("boil", r"boiled|boiling|boil (?:started|done)|(?:in|into) the (?:pot|water|bath)"),
    ("preheat", (
        r"(?:oven(?: is)? (?:on|heating|preheating|heating up|warming up)|preheat(?:ing|ed)?(?: the oven)?(?: "
        r"started)?|(?:turned|switched|put) (?:on )?the oven(?: on)?)"
    )),
    ("feed_starter", (
        r"(?:fed|refreshed) (?:the |my )?(?:starter|levain|sourdough starter)|(?:starter|levain) (?:was |is |has "
        r"been |got )?(?:fed|refreshed|built|mixed|made)|(?:built|mixed|made) (?:the |my )?levain"
    )),
    ("autolyse", (
        r"autolyse(?: is)? (?:started|begun|began|on|going|mixed|since)|autolys(?:e|ing)|started (?:the "
        r")?autolyse|(?:flour and water|water and flour) (?:mixed|together)|mixed (?:the )?flour and water"
    )),
    ("fold", (
        r"(?:did|done|gave it|gave|finished|made)(?: a| the| my| one| another| first| second| third| last| 1st| "
        r"2nd| 3rd)*(?: set of| round of)? (?:stretch and )?folds?|folded|(?:first|second|third|last|fourth|1st|"
        r"2nd|3rd) (?:set of )?(?:stretch and )?folds?(?: done| finished| in)?|folds? done"
    )),
    ("shape", (
        r"shaped|shaping (?:is )?(?:done|finished|over)|(?:done|finished) shaping|(?:final |second |last "
        r")?(?:proof|prove|proofing|proving|rise)(?: has| is)?(?: just)? (?:started|begun|began|on|going|running)|"
        r"(?:started|began) (?:the )?(?:final )?(?:proof|prove|proofing|proving)|(?:final )?(?:proofing|proving)|"
        r"in (?:the |their )?(?:tins?|bannetons?|baskets?|pans?|couche)|on (?:the |their )?(?:trays?|couche)"
    )),
    ("preshape", r"(?:pre ?shaped|preshaping (?:done|finished)|rounded|bench rest(?:ing)?(?: started| begun)?)"),
    ("divide", (
        r"(?:divided|bulks (?:done|over|finished|ended)|scaled|portioned|dividing (?:done|finished)|bulk(?: "
        r"fermentation| ferment| rise)?(?: is| has)?(?: just)? (?:done|over|finished|ended|complete)|(?:ended|"
        r"finished|stopped) (?:the )?bulk)"
    )),
    ("bulk", (
        r"(?:bulks (?:on|going|started|begun)|bulk(?: fermentation| ferment| rise|ing)?(?: has| is)?(?: been)?(?: "
        r"just)? (?:started|begun|began|on|going|running|under way|underway|since|from)|bulk(?:ing| fermenting| "
        r"fermentation| rise)?|(?:started|began) (?:the )?bulk(?: fermentation| ferment| rise|ing)?|in bulk|"
        r"(?:been )?(?:rising|fermenting|bulking))"
    )),
    ("mix", (
        r"(?:mixed|mixing (?:is )?(?:done|finished|over)|(?:done|finished) mixing|kneaded|kneading (?:is "
        r")?(?:done|finished|over)|(?:done|finished) kneading|mix(?:ed)? (?:is )?(?:done|finished)|(?:made|"
        r"finished|mixed) (?:the|my) dough|dough(?: is| was| has been)?(?: all)? (?:mixed|made|kneaded|together))"
    )),
)
_DAY = r"(?: (?:this morning|today|yesterday|last night|tonight|this evening|this afternoon|on \w+day|\w+day))?"
_WORD = (
    r"(?:half|about|an?|one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|fifteen|twenty|thirty|forty|"
    r"couple|and|of|the|quarter|past|to|noon|midday|midnight|oclock|hours?|hrs?|minutes?|mins?|moment|second)"
)
_TIME = (
    r"(?: (?:(?:at|since|from|around|by|approx|roughly|was|for|went|in|just|right) )*"
    rf"(?:now|just|\d[\d:.hm ]*|{_WORD}(?: {_WORD})*)"
    r"(?: ?(?:am|pm|h|hr|hrs|hours?|m|min|mins|minutes?))?"
    rf"(?: {_WORD}|[ ]\d+ (?:min|mins|minutes?))*(?: (?:ago|now|already|so far|back))*)?"
)
_MARKS = tuple((step, re.compile(rf"{_WHO}(?:{words}){_THING}{_TIME}{_DAY}")) for step, words in _STEPS)
_ASKS = re.compile(
    r"(?:so |ok |and |right )*(?:are we (?:there|done|nearly there) yet|wheres (?:the )?(?:bake|dough|"
    r"bulk|it)(?: at)?|where (?:are we|am i|is it|are they|is the dough|does it stand|do we "
    r"stand)(?: up to| at| now| in the bake| with (?:it|this|the dough|the bake))*"
    r"|how far(?: along)?(?: (?:are we|is it|am i|is the (?:dough|bulk|bake|proof)|are they|has it (?:come|"
    r"gone|got|risen)|along))*(?: now)?"
    r"|(?:what|which) (?:stage|step)(?: (?:are we|is it|am i|is the dough))?(?: at| in| on)?(?: now)?"
    r"|(?:(?:whats the|what is the|show|show me|give me|the|bake|dough) )*(?:progress|status)(?: report| "
    r"update| of (?:the )?(?:bake|dough|bulk))?(?: please)?"
    r"|how(?:s| is)? (?:it|the (?:dough|bulk|bake|proof|batch))(?: is)?(?: (?:doing|going|getting on|coming "
    r"along|coming on|looking))(?: now)?"
    r"|hows (?:it|the (?:dough|bulk|bake|proof|batch))(?: (?:doing|going|getting on|coming along))?"
    r"|how (?:much has it risen|risen is it|much rise(?: now)?|far has it risen)(?: so far| by now| now)?"
    r"|what(?:s| is)? (?:next|the next step|the next stage|comes next|happens next|do i do (?:now|next)|do we "
    r"do (?:now|next)|should i do (?:now|next))(?: now| then)?"
    r"|what (?:now|next|then)|whats up next|next step|next|whats happening)"
)
_LEFT = re.compile(
    r"(?:so |and )*(?:how long(?: is| have i| have we| has it)?(?: got)?(?: left| to go| more| still)+(?: "
    r"(?:in|of|on|for|to) (?:the )?(?:bulk|proof|bake|oven|it|this))?"
    r"|how much (?:longer|time left|more time|time is left|time to go)(?: (?:in|of|on|for|to) (?:the "
    r")?(?:bulk|proof|bake|oven|it|this))?|(?:whats the )?time left|how much time (?:is left|left|have i got)|"
    r"(?:is it|are they) (?:ready|done) yet"
    r"|how long (?:till|until|before) (?:it|its|theyre|they are|the (?:dough|bulk|proof|bake)) ?(?:is |s "
    r")?(?:ready|done|finished|over)(?: now)?)"
)


def _read(line: Line) -> Own | None:
    said = re.sub(r"(?: (?:please|then|thanks))+$", "", plain(line.text))
    if not said or len(said) > 120:
        return None
    if _LEFT.fullmatch(said):
        return None if line.context.focus in LEANS else Own(ProgressRequest(left=True), CERTAIN)
    talked_of = line.context.focus
    if _ASKS.fullmatch(said):
        return None if talked_of == "diagnosis" else Own(ProgressRequest(), CERTAIN)
    if line.text.rstrip().endswith("?"):
        return None
    if re.match(r"(?:is|are|was|has)\b", said):  # "is bulk done" asks
        asked = any(pattern.fullmatch(said) for _, pattern in _MARKS)
        return Own(ProgressRequest(), CERTAIN) if asked and talked_of != "diagnosis" else None
    step = next((step for step, pattern in _MARKS if pattern.fullmatch(said)), None)
    amounts = [phrase for phrase in line.phrases if phrase.kind == "amount"]
    if step is None or len(amounts) > 2:
        return None
    at, ago_min = _when(said, amounts, line)
    if at is None and ago_min is None and (amounts or said in STAGE_ALONE or _meant_otherwise(said, talked_of)):
        return None
    if "starter" in said.split() and step not in ("feed_starter", "autolyse"):
        return None
    return Own(ProgressRequest(step, at, ago_min), CERTAIN)


def _meant_otherwise(said: str, talked_of: str | None) -> bool:
    """Whether a stage without an hour tells of what was asked before: how far a dough is that went "
    "wrong, or a plan."""
    if talked_of == "plan":
        return re.match(r"(?:ok |right )?(?:its|it is|theyre|they are|just|ive|i have|weve|now|all)\b", said) is None
    return talked_of in ("mend", "diagnosis")


def _when(said: str, amounts: list[Phrase], line: Line) -> tuple[Moment | None, float | None]:
    """The hour, or the minutes gone since, of a mark."""
    at: Moment | None = None
    for phrase in amounts:
        if phrase.quantity is not None and phrase.quantity.dim == "time":
            if _GONE.search(said):
                return None, phrase.quantity.base
        elif phrase.moment is not None and (phrase.moment.minute is not None or (phrase.moment.day and at is None)):
            at = phrase.moment
        elif at is None and phrase.quantity is not None and phrase.quantity.dim == "num":
            value = phrase.quantity.value
            hours, minutes = int(value), round(100 * (value - int(value)))
            if 0 <= hours <= 24 and 0 <= minutes < 60:  # "at 9" and "at 9.10" are hours here
                at = Moment(minute=hours % 24 * 60 + minutes)
    if at is not None and at.minute is not None and at.half is None and at.minute < 12 * 60:
        part = re.search(r"\bthis (morning|afternoon|evening)\b|\blast (night)\b", said)
        if part is not None:
            at = replace(at, half="am" if part[1] == "morning" else "pm")
    return at, None


def _build(bound: Bound) -> ProgressRequest | None:
    """Never from single words."""
    return None


FRAME = Frame(ProgressRequest, "progress", _build, reads=_read, always=True)
