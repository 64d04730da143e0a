"""What the kitchen is like: told, asked for, and forgotten."""

from __future__ import annotations

import re
from dataclasses import dataclass

from grammar.frames import Frame, Line, Own, never_by_slots
from grammar.kit import told
from grammar.lexicon import Lexicon
from grammar.moods import supposed
from grammar.questions import question_in
from grammar.requests.setting_again import figure_again, told_in_short
from grammar.requests.setting_reasons import told_beside_a_reason
from grammar.requests.timers_running import RUNNING, stops
from grammar.scanner import scan
from grammar.shell import with_phrases
from grammar.spoken import Spoken, fitting, matched, spoken
from grammar.telling import where_it_lies

CERTAIN = 100.0
_OF_TALK = {
    "timing": {"kitchen_c", "kitchen_night_c", "fridge_c", "freezer_c", "altitude_m"},
    "water": {"kitchen_c", "fridge_c", "tap_c", "friction_c"},
    "feed": {"kitchen_c", "kitchen_night_c", "fridge_c"},
    "plan": {
        "kitchen_c", "kitchen_night_c", "fridge_c", "oven_takes", "pot_takes", "trays", "tray_takes", "asleep", "away",
    },
    "loads": {"oven_takes", "pot_takes", "trays", "tray_takes"},
    "bath": {"altitude_m", "pot_l"},
    "diagnosis": {"kitchen_c", "fridge_c", "oven_heat_min", "stone", "oven_fan"},
    "fits": {"trays", "tray_takes", "oven_takes"},
    "conversion": {"cup"},
}  # fmt: skip
"""What changes a question of each topic, where it is not said as a habit: "kitchen's only 18" after "how long"."""


_ASKED = frozenset({"how_long", "how_warm", "how_far", "oven_heat", "too_long", "how_much", "when"})
"""What is asked tells nothing: "oven temp for rings, fan"."""


@dataclass(frozen=True, slots=True)
class SettingRequest:
    """my kitchen is usually 19 C
    the boathouse is 9, the warm cupboard 26
    oven takes two trays of 12, pot 5
    always 1.8 % salt
    use metric cups

    values: (setting, value) in %, °C, g, m, minutes, or words; fewer: (setting, so many less than before); now: for the
    bake in hand only.
    """

    values: tuple[tuple[str, float | str], ...] = ()
    always: bool = False
    fewer: tuple[tuple[str, float | str], ...] = ()
    now: bool = False


@dataclass(frozen=True, slots=True)
class SettingsAsked:
    """settings
    what do you know about my kitchen

    about: settings' names or beginnings of them; empty: all.
    """

    about: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class SettingForgotten:
    """forget the pot
    no kitchen setting any more

    about: settings' names or beginnings of them; empty: all.
    """

    about: tuple[str, ...] = ()


_MEANS = re.compile(
    r"(?:when|whenever|where|if) (?:i|we) (?:say|write|speak of|talk of|use) (?P<word>.+?),? "
    r"(?:i|we|it|that|they)(?:'s| is| are)? ?(?:mean|means|to be)? (?P<sense>.+)",
    re.I,
)
"""What a word means here: no question, though it begins like one, and nothing taken back."""


_OF_THEM = re.compile(r"\bof (?:them|em|'em|those|these)\b", re.I)
"""What is said of the tins that the dough in hand is for."""


def reads(line: Line) -> Own | None:
    """A line that tells of the kitchen and of nothing else."""
    if "\n" in line.text.strip() or (RUNNING in line.context.standing and stops(line) is not None):
        return None
    means = _MEANS.fullmatch(line.text.strip())
    if means is None and any(_ASKED & set(token.ids("ask")) for token in line.tokens):
        return None
    if _into_a_unit(line) or _takes_off(line) or (means is None and supposed(line.text, line.lexicon)):
        return None
    text = f"{means['word']} is {means['sense']}" if means is not None else line.text
    if line.context.known.in_tins:
        text = _OF_THEM.sub("of the tins", text)
    tokens = scan(text, line.lexicon) if text != line.text else line.tokens
    said = told(text, tokens, line.lexicon)
    if said is None:
        said = told_in_short(line) or told_beside_a_reason(text, line.lexicon)
    if said is None:
        again = figure_again(line)
        return None if again is None else Own(SettingRequest((("last", again),), True), CERTAIN)
    if "told" in line.context.standing and where_it_lies(with_phrases(line)):
        return None
    if _asked_about(line):
        return None
    names = {name for name, _ in (*said.values, *said.fewer)}
    if not (said.habit or said.own or said.fewer) and _of_talk(names, line):
        return None
    return Own(SettingRequest(said.values, said.habit, said.fewer, said.now), CERTAIN)


_ASKING = frozenset({"what", "why", "need", "difference"})


def _asked_about(line: Line) -> bool:
    """Whether a thing of the kitchen is asked about in general, and not told of: "is a baking stone necessary"."""
    if any(token.quantity is not None for token in line.tokens):
        return False
    asked = question_in(line.text, line.lexicon)
    general = asked is not None and asked.direct and asked.shape in _ASKING
    return general and asked is not None and asked.named[0].terms[0][0] == "topic"


_HAS_NONE = frozenset({"no", "not", "without", "never", "none", "dont", "don't"})


def _takes_off(line: Line) -> bool:
    """ "drop the pot one": something is done away with, and nothing told of the kitchen."""
    first = next((token for token in line.tokens if token.kind not in ("FILL", "MARK")), None)
    return first is not None and first.kind == "NEG" and first.text.lower() not in _HAS_NONE


def _into_a_unit(line: Line) -> bool:
    """Whether the line ends in a unit without a number, behind "in" or "to": an amount is to be turned into it."""
    last = [token for token in line.tokens if token.kind not in ("FILL", "MARK")][-2:]
    if len(last) < 2 or (not last[1].ids("unit") and not last[1].ids("into")):
        return False
    return bool(set(last[0].ids("link")) & {"in", "to", "into"}) or bool(last[1].ids("into"))


_OF_PLACES = frozenset({"timing", "feed", "progress"})
_SOMEWHERE = (
    r"(?:(?:<hand:polite>|and|or|but|so|then|out|over|up|down|back|what about|how about)[ ,]+)*"
    r"(?:in|on|at|by|under|inside|into|beside|near|next to|above) .*"
)
"""A line that begins with where: the dough of the question before stands there; a place is told of by its name."""


def _of_talk(names: set[str], line: Line) -> bool:
    """Whether the line changes the question that was asked last: its own figures, or a place a plan is to use."""
    focus = line.context.focus or ""
    said = spoken(line.text, line.lexicon)
    used = focus == "plan" and not matched(r".*(?:\bis|\bits) .*", said, line.lexicon)
    led = focus in _OF_PLACES and matched(_SOMEWHERE, said, line.lexicon)
    return names <= _OF_TALK.get(focus, set()) or bool((used or led) and all(name.endswith("_c") for name in names))


_LEAD = r"(?:(?:<hand:polite>) )*"
_END = r"(?:[ ,]+(?:<hand:polite>|<hand:any_more>))*"
_ALL = (
    rf"{_LEAD}(?:<hand:show> )?(?:back )?(?:<hand:the> )*(?:<hand:settings>)(?: settings)?(?: (?:<hand:again>))?"
    rf"(?:(?: that)? (?:<hand:knows>))?(?: (?:<hand:about>) (?:<hand:the>))?(?: (?:<hand:again>))*{_END}",
    rf"{_LEAD}(?:what|whatve|what have|what else|which|tell me what|say what)(?: all)?"
    rf"(?: (?:<hand:settings>))? (?:<hand:knows>)"
    rf"(?: (?:<hand:about>))?(?: (?:<hand:the>))*(?: (?:<hand:settings>))?(?: (?:<hand:again>))*{_END}",
    rf"{_LEAD}(?:<hand:show> )?(?:what|whatever|everything|anything|all|all the things|every figure)(?: that)?"
    rf" (?:<hand:knows>)(?: down)? (?:<hand:about>) (?:<hand:the> )*(?:<hand:settings>){_END}",
)
_ONE = (
    rf"{_LEAD}(?:what|which|tell me what|say what|how much|how many)(?: temperature| size| figure)? (?:<hand:knows>)"
    rf"(?: set)? (?:<hand:about>) (?:<hand:the> )*(?P<name>.+?)(?: temperature| setting)?"
    rf"(?:,? how (?:warm|cold|hot|many|much) (?:is|was|does|are) (?:it|that|they)(?: (?:<kit_word:holds>))?)?{_END}",
    rf"{_LEAD}(?:<hand:show> )?(?:<hand:the> )*(?P<name>.+?) settings?(?: (?:<hand:again>))?{_END}",
    rf"{_LEAD}(?:and )?(?:whats|what is) (?:<hand:the> )*(?P<name>.+?) (?:set|kept|down) (?:to|at|as){_END}",
    rf"{_LEAD}(?:and )?(?:whats|what is|what was|hows) (?:<hand:the> )*(?P<name>.+?) (?:again|at|now|at now|at again|"
    rf"at the moment|at these days){_END}",
    rf"{_LEAD}how (?:warm|cold|hot) (?:is|did i say) (?:<hand:the> )*(?P<name>.+?)(?: (?:is|was))?{_END}",
    rf"{_LEAD}how (?:many|much) (?:pieces |rings |rolls )?(?:does|do|can|will) (?:<hand:the> )*(?P<name>.+?) "
    rf"(?:<kit_word:holds>){_END}",
    rf"{_LEAD}what (?:does|do|can|will) (?:<hand:the> )*(?P<name>.+?) (?:<kit_word:holds>){_END}",
    rf"{_LEAD}how (?:many|much)(?: pieces| rings| rolls| loaves)? (?:fit|fits|go|goes|can go|can i get|do i get"
    rf"|will go)(?: in| on| into| onto) (?:<hand:the> )*(?P<name>.+?){_END}",
)
_EVERY = r"(?:<hand:the> |all |every )*(?:kitchen )?(?:settings?|defaults?|preferences)(?: (?:<hand:about> )(?:.+))?"
_FORGET = (
    rf"{_LEAD}(?:<hand:forget>) (?:what i (?:said|told you) (?:<hand:about> )?)?(?:<hand:the> )*(?P<name>.+?){_END}",
    rf"{_LEAD}no (?:more )?(?P<name>.+?) settings?{_END}",
    rf"{_LEAD}(?:i (?:dont|do not) have|we (?:dont|do not) have|theres no|there is no|no) (?:<hand:the> )*"
    rf"(?P<name>.+?) (?:any ?more|any longer|now)",
    rf"{_LEAD}(?:<hand:the> )*(?P<name>.+?) back to (?:<hand:default>){_END}",
    rf"{_LEAD}back to (?:<hand:default>)(?: for)? (?:<hand:the> )*(?P<name>.+?){_END}",
)


def asks(line: Line) -> Own | None:
    """All settings asked for, or what is set of one thing that is."""
    said = spoken(line.text, line.lexicon)
    if any(matched(template, said, line.lexicon) for template in _ALL):
        return Own(SettingsAsked(), CERTAIN)
    for hit in fitting(_ONE, said, line.lexicon):
        names = _named(said.group(hit, "name"), line)
        if names:
            return Own(SettingsAsked(names), CERTAIN)
    return None


def forgets(line: Line) -> Own | None:
    """A setting to be dropped, where it is one that stands."""
    said = spoken(line.text, line.lexicon)
    for hit in fitting(_FORGET, said, line.lexicon):
        name = said.group(hit, "name")
        if matched(_EVERY, spoken(name, line.lexicon), line.lexicon):
            return Own(SettingForgotten(), CERTAIN)
        names = _named(name, line)
        if names:
            return Own(SettingForgotten(names), CERTAIN)
    return None


_KIT = frozenset({
    "oven", "tray", "pot", "fridge", "freezer", "tap", "mixer", "altitude", "asleep", "away", "stone", "fan",
})  # fmt: skip


def _named(words: str, line: Line) -> tuple[str, ...]:
    """The standing settings that a thing's name means: "the pot" is `pot_takes` and `pot_l`."""
    said = _without_small(spoken(words, line.lexicon), line.lexicon)
    kits = {name for kind, name in line.lexicon.asides.get(said, ()) if kind == "kit"}
    heads = {*kits, said.replace(" ", "_")} if said else set()
    if "tray" in kits or "oven" in kits:
        heads |= {"tray", "trays", "oven"}
    if "mixer" in kits:
        heads.add("friction")
    found = [one for one in line.context.known.settings if any(one == h or one.startswith(f"{h}_") for h in heads)]
    if said.startswith(("price of ", "price for ")) or said.endswith((" price", " prices")):
        thing = said.removeprefix("price of ").removeprefix("price for ").removesuffix(" price").removesuffix(" prices")
        found += [one for one in line.context.known.settings if one.startswith("price_") and thing.split()[-1] in one]
    if not found and kits & _KIT and line.context.focus != "plan":
        return tuple(sorted(kits & _KIT))
    if "kitchen" not in kits:
        found = [one for one in found if not one.startswith("kitchen_")]
    return tuple(dict.fromkeys(found))


def _without_small(said: Spoken, lexicon: Lexicon) -> str:
    words = said.folded.split()
    small = {"the", "my", "our", "a", "setting", "settings", "temperature", "temp", "size", "figure", "hours", "takes"}
    return " ".join(word for word in words if word not in small)


FRAMES = tuple(
    Frame(request, "setting", never_by_slots, reads=reader, first=True, needs=("slot:none",))
    for request, reader in ((SettingForgotten, forgets), (SettingsAsked, asks), (SettingRequest, reads))
)
