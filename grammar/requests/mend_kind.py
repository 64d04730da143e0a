"""Which kind of mishap a line tells."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from grammar.frames import Bound, fits
from grammar.mishap import Told
from grammar.mishap_words import factor_told, ids_of, left_out, things_in
from grammar.requests.mend_double import put_in_twice


@dataclass(frozen=True, slots=True)
class _Mishap:
    """A mishap as told: the line, its figures, the step that was not done."""

    bound: Bound
    told: Told
    step: str | None

    def said(self, *patterns: str) -> bool:
        return self.bound.said(*patterns)

    @property
    def named(self) -> bool:
        return self.told.item is not None

    @property
    def both(self) -> bool:
        """What was meant and what went in are told."""
        return self.told.meant is not None and self.told.poured is not None

    @property
    def under(self) -> bool:
        """Less went in than was meant."""
        return (self.told.poured or 0.0) < (self.told.meant or 0.0)

    @property
    def slip(self) -> bool:
        return self.said("mistake:by_mistake", "mistake:rescue", "mistake:misread")

    def too_hot(self) -> bool:
        """The water, or what was dissolved in it, was hot."""
        degrees = self.bound.first("water_c") is not None
        if degrees and (self.said("mistake:hot_water", "mistake:water_was", *_SLIPS) or _water(self.bound)):
            return True
        weighed = self.told.off is not None and self.said("mistake:over", "mistake:under", "mistake:meant")
        hot = self.said("mistake:hot_water") and not (self.said("mistake:forgot") or weighed)
        return hot or (self.said("kettle:*") and self.said("mistake:dissolved", "mistake:poured", *_SLIPS))

    def in_shares(self) -> bool:
        """A share of the flour was meant, or went in, of a thing that is named."""
        told = self.told
        return self.named and (told.poured_pct is not None or (told.meant_pct is not None and told.poured is not None))

    def too_few(self) -> bool:
        """Pieces are missing."""
        of_pieces = self.bound.first("pieces") is not None or self.told.off is not None
        if self.said("mistake:too_few") and not self.named and of_pieces:
            return True
        made = self.bound.first("made") is not None or self.said("piece:*", "cue:pieces", "cue:dough")
        return self.said("mistake:short_pieces") and made

    def left_step(self) -> bool:
        """A step was left out, and no thing."""
        return left_out(self.bound) and self.step is not None and not self.named

    def twice(self) -> bool:
        """One thing went in more than once."""
        there = self.named or any(p.ids("implies") or p.ids("put_in") for p in self.bound.phrases)
        return factor_told(self.bound) is not None or (self.said("mistake:twice", "mistake:thrice") and there)

    def uncounted(self) -> bool:
        """Something was done twice, and nothing says what."""
        return self.said("mistake:twice", "mistake:thrice")

    def too_little(self) -> bool:
        part = self.told.share is not None
        part = part and (self.said("mistake:poured") or (self.named and _only(self.bound)))
        return self.said("mistake:under", "mistake:only_in") or part

    def poured_wrong(self) -> bool:
        """A thing went in by mistake, or in the place of what the dough in hand has."""
        in_hand, item = self.bound.context.has_bake, self.told.item
        whole = item is not None and ids_of(self.bound.phrases[item])[:1] == ("hydration",)
        other = in_hand and (whole or "instead_of" in self.bound.links())
        return self.named and (
            (self.slip and not (self.told.off is None and self.told.poured is None))
            or (self.told.poured is not None and other)
        )

    def extra(self) -> bool:
        """So much is told to have gone in on top, and nothing asked of it; or was spilt in."""
        spilt = self.named and self.told.off is not None and self.said("mistake:spilt")
        return spilt or (self.told.more and self.said("mistake:poured") and not self.bound.asks())

    def still_to_add(self) -> bool:
        """Whether something may still go in is asked: it did not yet."""
        weighed = self.told.poured is not None or self.told.meant is not None or self.told.share is not None
        return self.named and not weighed and self.said("mistake:still_to_add")


_SLIPS = ("mistake:by_mistake", "mistake:rescue")
_KINDS: tuple[tuple[str | None, Callable[[_Mishap], bool]], ...] = (
    ("hot_water", _Mishap.too_hot),
    ("ounces", lambda one: one.said("mistake:ounces") or _in_ounces(one.bound)),
    ("exchanged", lambda one: bool(two_exchanged(one.bound))),
    ("under", lambda one: one.both and one.named and one.under),
    ("over", lambda one: one.both and one.named),
    ("over", _Mishap.in_shares),
    ("short", _Mishap.too_few),
    ("twice", lambda one: put_in_twice(one.bound)),
    ("step", _Mishap.left_step),
    ("forgot", lambda one: left_out(one.bound)),
    ("twice", _Mishap.twice),
    (None, _Mishap.uncounted),
    ("under", lambda one: one.both and one.under),
    ("over", lambda one: one.both or one.said("mistake:over")),
    ("under", _Mishap.too_little),
    ("wet", lambda one: one.said("feel:wet")),
    ("dry", lambda one: one.said("feel:dry")),
    ("over", lambda one: one.poured_wrong() or one.extra()),
    ("forgot", _Mishap.still_to_add),
)
"""The kinds of mishap with what tells them; the first that is told counts."""


def kind_of_mistake(bound: Bound, told: Told, step: str | None) -> str | None:
    """Which kind of mishap the line tells; None where it tells none."""
    mishap = _Mishap(bound, told, step)
    return next((kind for kind, is_told in _KINDS if is_told(mishap)), None)


_TWO = 2


def two_exchanged(bound: Bound) -> list[int]:
    """The places of two things said to have been put in one for the other, with no figure beside."""
    told = bound.said("mistake:exchanged") or (bound.said("mistake:by_mistake") and "and" in bound.links())
    asked = bound.asks() or bound.said("ask:what_if")
    things = [] if asked or not told or bound.of("mass") else things_in(bound)
    return things if len(things) == _TWO and not any(bound.phrases[i].negated for i in things) else []


def bids(bound: Bound) -> bool:
    """Whether a line bids something into the dough in hand, and tells no mishap: "put in 10 % rye"."""
    first = next((p for p in bound.phrases if p.kind != "sep" and not fits(p, ("act:correct", "link:*"))), None)
    if first is None or not bound.context.has_bake or bound.asks() or not fits(first, ("act:add", "act:use")):
        return False
    told = {i for p in bound.phrases for i in p.ids("mistake")} - {"poured"}
    return not told and not bound.said("link:instead_of", "feel:*", "stance:called_for", "stance:should")


_LISTED = 3
"""So many things, each with its one weight, are a dough that is told."""


def lists_a_dough(bound: Bound) -> bool:
    """Whether a line only lists what is in the bowl, with nothing wrong in it: "I used 900 g flour, 600 water, ..."."""
    weighed = [hit.label.ids("ingredient")[:1] for hit in bound.of("mass") if hit.label is not None and hit.amount]
    told = {i for p in bound.phrases for i in p.ids("mistake")} - {"poured"}
    apart = len(set(weighed)) == len(weighed) >= _LISTED and not bound.said("link:instead_of", "feel:*", "cue:limit")
    return apart and not told and bound.said("ask:what", "ask:how_much") and not bound.said("ask:can_i", "ask:how_to")


def _in_ounces(bound: Bound) -> bool:
    """Whether a thing is said to have been weighed in ounces, and no amount of it."""
    oz = any(unit.id == "oz" for p in bound.phrases for token in p.tokens for unit in token.units)
    weighed = bound.said("mistake:poured") and (oz or bound.said("into:oz"))
    return weighed and not any(p.kind == "amount" for p in bound.phrases)


def _only(bound: Bound) -> bool:
    """Whether "only" is said: "only half of the salt is in"."""
    return any(fits(p, ("cue:limit",)) and p.text.lower() in ("only", "just") for p in bound.phrases)


def _water(bound: Bound) -> bool:
    return bound.said("ingredient:water", "cue:water") and bound.said(
        "mistake:poured", "mistake:rescue", "ingredient:yeast*"
    )
