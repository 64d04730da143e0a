"""The one value a line puts into the question before it: another thing, another amount, another unit, and no more.

"ive got maple", "or lard?", "no flax either", "make that 3 sticks", "was 40 not 60", "in ounces", "how many packets is
that": whatever a kind of request was last asked, such a line keeps its statements and puts in the one it names.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from grammar.context import Context
from grammar.exchange import Weighed, amounts_of
from grammar.frames import Bound, fits
from grammar.phrases import Phrase
from grammar.stance import ids_of, is_thing

FITS = 15.0
"""So well a line fits that holds nothing but one value for the question before it."""
_CARRIES = (
    "link:*", "filler:*", "tail:*", "stance:at_hand", "stance:will_take", "stance:guess", "stance:serves",
    "stance:was", "stance:yes", "stance:called_for", "stance:holds", "stock:left", "cue:only_this", "cue:limit",
    "cue:recipe_given", "mistake:meant", "act:change", "act:correct", "act:same", "act:use", "away:out", "ask:what",
    "ask:what_if", "ask:can_i", "ask:is_it", "ask:how_much", "ask:how_many", "ask:convert",
)  # fmt: skip
"""Words that put a value forward, ask whether it serves or correct it, and name none themselves."""
_GONE = ("cue:missing",)
_DENIES = ("cue:missing", "link:instead_of")
_UNITS = ("unit", "into", "pack")
_ALSO = ("either", "neither", "too", "also", "as well", "nor")


@dataclass(frozen=True, slots=True)
class Put:
    """What a line puts in: a thing by the ids its word may mean (gone: there is none of it either; without: what it
    is said to take the place of), an amount, or the unit the answer is to be in. figure: a bare number, in the unit of
    the amount before it."""

    thing: tuple[str, ...] = ()
    gone: bool = False
    without: tuple[str, ...] = ()
    amount: Weighed | None = None
    figure: float | None = None
    unit: str | None = None


def put_of(phrases: Sequence[Phrase], text: str, context: Context, also: tuple[str, ...] = ()) -> Put | None:
    """The value a line puts in; None where it says anything else beside, or several.

    also: words that only carry it in this talk. What is denied beside the one it names is passed by.
    """
    bound = Bound((), tuple(phrases), context, text)
    named = [i for i, phrase in enumerate(phrases) if is_thing(phrase)]
    denied = [i for i in named if phrases[i].negated or (i and fits(phrases[i - 1], _DENIES))]
    places = [i for i in named if i not in denied] or denied
    told = [i for i, phrase in enumerate(phrases) if phrase.kind == "amount"]
    refused = [i for i in told[1:] if phrases[i - 1].ids("negation")]  # "40 over not 60"
    amounts = [i for i in told if i not in refused]
    unit = _unit_of(phrases)
    taken = {*named, *told, *(i - 1 for i in refused)}
    rest = [
        phrase for i, phrase in enumerate(phrases)
        if i not in taken and phrase.kind != "sep" and not any(phrase.ids(kind) for kind in _UNITS)
    ]  # fmt: skip
    gone = [phrase for phrase in rest if fits(phrase, _GONE)]
    others = [phrase for phrase in rest if phrase not in gone]
    if len(places) > 1 or len(amounts) > 1 or (amounts and unit) or not all(carries(one, also) for one in others):
        return None
    lacking = places == denied and bool(denied)
    if (gone and not places) or (lacking and (amounts or not _also(text))):
        return None
    thing = ids_of(phrases[places[0]]) if places else ()
    without = tuple(ids_of(phrases[i])[0] for i in denied if i not in places)
    if not amounts:
        return Put(thing, lacking, without, unit=unit) if (thing or unit) else None
    of, loose = amounts_of(bound, places)
    amount = next(iter((*of.values(), *loose)), None)
    if amount is not None and amount.dim in ("mass", "volume", "count"):
        return Put(thing, False, without, amount)
    bare = phrases[amounts[0]]
    return Put(figure=bare.quantity.value) if bare.dim == "num" and bare.quantity and not thing else None


def carries(phrase: Phrase, also: tuple[str, ...] = ()) -> bool:
    """Whether a phrase only puts something forward; a question for whatever else serves is one of its own."""
    if phrase.kind == "junk":
        return not any(sign.isalnum() for sign in phrase.text)
    asks_else = fits(phrase, ("ask:what_else",)) and not fits(phrase, ("stance:will_take",))
    return fits(phrase, (*_CARRIES, *also)) and not asks_else


def _also(text: str) -> bool:
    """Whether the line says that what is told holds beside what was told before."""
    return any(f" {word}" in f" {text.lower().rstrip('?!. ')} " for word in _ALSO)


def _unit_of(phrases: Sequence[Phrase]) -> str | None:
    """The unit asked for: one that no number stands before."""
    for i, phrase in enumerate(phrases):
        counted = i > 0 and phrases[i - 1].kind == "amount"
        if counted or is_thing(phrase):
            continue
        units = [unit.id for token in phrase.tokens for unit in token.units if unit.dimension != "time"]
        named = next((name for kind in _UNITS for name in phrase.ids(kind)), None)
        if named is not None:
            return units[0] if units else named
    return None
