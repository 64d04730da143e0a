"""What the kitchen is like, as it is told."""

from __future__ import annotations

import re
from dataclasses import dataclass

from grammar.clause_begins import IN_GENERAL, begins, led_in, words_of
from grammar.frames import Frame, Line, Own, never_by_slots
from grammar.kit import told
from grammar.levels import PLAINLY
from grammar.moods import supposed
from grammar.questions import question_in
from grammar.requests.setting_again import figure_again, told_in_short
from grammar.requests.setting_asked import SettingForgotten, SettingsAsked, asks, forgets
from grammar.requests.setting_reasons import told_beside_a_reason
from grammar.requests.timers_running import RUNNING, stops
from grammar.scanner import scan
from grammar.shell import with_phrases
from grammar.spoken import matched, spoken
from grammar.telling import where_it_lies

_OF_TALK = {
    "timing": {"kitchen_c", "kitchen_night_c", "fridge_c", "freezer_c", "altitude_m", "oven_fan"},
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
    said_first = led_in(words_of(line.text), line.lexicon)
    if begins(said_first, line.lexicon, *IN_GENERAL) and not begins(said_first[1:], line.lexicon, "you"):
        return None  # "would 4 kg fit in my mixer" tells nothing of it
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
        return None if again is None else Own(SettingRequest((("last", again),), True), PLAINLY)
    if "told" in line.context.standing and where_it_lies(with_phrases(line)):
        return None
    if _asked_about(line):
        return None
    names = {name for name, _ in (*said.values, *said.fewer)}
    if not (said.habit or said.own or said.fewer) and _of_talk(names, line):
        return None
    return Own(SettingRequest(said.values, said.habit, said.fewer, said.now), PLAINLY)


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


FRAMES = tuple(
    Frame(request, "setting", never_by_slots, reads=reader, first=True, needs=("slot:none",))
    for request, reader in ((SettingForgotten, forgets), (SettingsAsked, asks), (SettingRequest, reads))
)
