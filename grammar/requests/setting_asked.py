"""What is set of the kitchen, asked for and forgotten."""

from __future__ import annotations

from dataclasses import dataclass

from grammar.frames import Line, Own
from grammar.levels import PLAINLY
from grammar.lexicon import Lexicon
from grammar.spoken import Spoken, fitting, matched, spoken


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
    rf"{_LEAD}(?:what|whatve|which)(?: (?:have|do|did))? (?:you|i) (?:got|have|set|put|keep|say|said|tell you|told you)"
    rf" (?:<hand:the> )*(?P<name>.+?) (?:down as|down at|in as|set to|set at|is|was|at)(?: at)?{_END}",
    rf"{_LEAD}(?:what|which) (?P<name>.+?)(?: temperature| temp| figure| size)? (?:<hand:knows>){_END}",
    rf"{_LEAD}remind me (?:of |what |how (?:warm|cold|hot) )?(?:<hand:the> )*(?P<name>.+?)"
    rf"(?: is| was| temperature| temp)*{_END}",
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
        return Own(SettingsAsked(), PLAINLY)
    for hit in fitting(_ONE, said, line.lexicon):
        names = _named(said.group(hit, "name"), line)
        if names:
            return Own(SettingsAsked(names), PLAINLY)
    return None


def forgets(line: Line) -> Own | None:
    """A setting to be dropped, where it is one that stands."""
    said = spoken(line.text, line.lexicon)
    for hit in fitting(_FORGET, said, line.lexicon):
        name = said.group(hit, "name")
        if matched(_EVERY, spoken(name, line.lexicon), line.lexicon):
            return Own(SettingForgotten(), PLAINLY)
        names = _named(name, line)
        if names:
            return Own(SettingForgotten(names), PLAINLY)
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
