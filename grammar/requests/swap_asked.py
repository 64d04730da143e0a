"""Whether a line asks what may stand in for a thing, and what it is about: things, amounts, job, who eats what."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from grammar.batch_part import batch_part
from grammar.exchange import Weighed, amounts_of, one_for_other
from grammar.frames import Bound, beside, fits
from grammar.phrases import Phrase
from grammar.stance import Thing, ids_of, is_thing, things_told

ASKING = (
    "cue:missing", "cue:only_this", "act:swap", "ask:what_else", "link:instead_of", "link:instead", "stance:serves",
    "stance:becomes",
)  # fmt: skip
"""Words that ask for one thing in the place of another."""
OF_SAFETY = ("eating:eat", "person:baby", "person:coeliac", "person:pregnant", "person:pet", "hazard:safe")
"""Words of who eats it and whether that is safe: alone they ask for no swap."""
_CLEAR, _LIKELY = 2.0, 1.0
"""So much has to speak for one side to tell it, and for the other beside it, to make a swap of a line."""
_ONLY = ("only", "just")


@dataclass(frozen=True, slots=True)
class Case:
    """A line as a swap sees it.

    places: of the things named; of: the amounts by the place of their thing; loose: those that stand beside none;
    told: the things with what is said of them; negated: places of those denied; job: what it is for; diets: by id;
    part: of the batch, where only that is to be otherwise.
    """

    bound: Bound
    places: tuple[int, ...]
    of: dict[int, Weighed]
    loose: tuple[Weighed, ...]
    told: tuple[Thing, ...]
    negated: tuple[int, ...]
    job: str | None
    diets: tuple[str, ...]
    part: float | None = None

    @property
    def amounts(self) -> tuple[Weighed, ...]:
        """All amounts of the line, those of a thing first."""
        return (*self.of.values(), *self.loose)

    @property
    def opposed(self) -> bool:
        """One thing is called for or lacking, another at hand or about to be put in."""
        nets = [one.net for one in self.told]
        most, least = max(nets, default=0), min(nets, default=0)
        return (most >= _CLEAR and least <= -_LIKELY) or (most >= _LIKELY and least <= -_CLEAR)

    def shunned(self) -> tuple[str, ...]:
        """What is not to be in it by the line's own words, beside the diets named: "vegetarian, eggs not allowed"."""
        named = self.bound.said("stance:must_not") or bool(self.bound.meant("must_not"))
        kept_out = bool(self.diets) or self.part is not None
        return tuple(dict.fromkeys(
            one.ids[0] for one in self.told
            if one.net > 0 and (
                (named and "must_not" in one.told)
                or (kept_out and one.place in self.negated)
                or _joined_to_a_diet(self.bound, one.place)
            )
        ))  # fmt: skip


def case_of(bound: Bound) -> Case:
    """The line laid out."""
    places = [i for i, p in enumerate(bound.phrases) if is_thing(p)]
    places = [i for i in places if not _describes(bound, i)] or places
    part = batch_part(bound)
    of, loose = amounts_of(bound, places) if part is None else ({}, ())
    return Case(
        bound,
        tuple(places),
        of,
        loose,
        things_told(bound, places),
        tuple(i for i in places if bound.phrases[i].negated),
        next((i for p in bound.phrases for i in p.ids("job")), None),
        _diets(bound),
        part,
    )


def _diets(bound: Bound) -> tuple[str, ...]:
    """Who cannot eat what, by name; for a baby the line has to say what is to be kept out."""
    diets = tuple(dict.fromkeys(i for p in bound.phrases for i in p.ids("diet")))
    baby = bound.said("person:baby") and (
        bound.said("stance:must_not", "link:instead_of", "ask:what_else", "act:swap")
        or any(p.negated and is_thing(p) for p in bound.phrases)
    )
    return (*diets, "infant") if baby else diets


def _joined_to_a_diet(bound: Bound, place: int) -> bool:
    """Whether a thing goes on from who cannot eat what: "allergic to lupin and mustard"."""
    joint = beside(bound.phrases, place)
    joins = bool({"and", "or"} & set(joint.ids("link"))) or joint.text == "/"
    diet = beside(bound.phrases, place, -2).ids("diet")
    return joins and bool(diet) and place not in amounts_of(bound, [place])[0]


def _describes(bound: Bound, place: int) -> bool:
    """The thing only says which bread: "soda bread", "rye loaf"."""
    following = beside(bound.phrases, place, 1)
    named = following.kind == "label" and fits(following, ("bread:*", "piece:*"))
    return named and not bound.phrases[place].negated


def asks(case: Case) -> bool:
    """Whether one thing is asked for in the place of another, by any of the ways of saying so."""
    return (
        case.opposed
        or makes_up(case.bound)
        or case.part is not None
        or any(fits(p, ASKING) and not (p.text.lower() == "left" and not case.negated) for p in case.bound.phrases)
        or one_for_other(case.bound, case.places)
        or (case.bound.said("stance:must_not") and bool(case.places))
        or (bool(case.bound.meant("must_not")) and bool(case.of))
        or bool(case.negated and (case.job or _use_of_another(case)))
        or _has_other(case)
        or _only_this(case)
    )


def makes_up(bound: Bound) -> bool:
    """ "only 200 ml left, what for the rest": what is there stays, and the rest of it is asked for."""
    little = bound.said("cue:only_this", "cue:limit", "stock:left", "stance:at_hand", "cue:missing")
    return little and bound.said("cue:make_up") and (bound.asks() or bound.said("ask:*"))


def _use_of_another(case: Case) -> bool:
    return case.bound.said("cue:limit", "act:use") and len(case.places) > len(case.negated)


def _has_other(case: Case) -> bool:
    """ "no buttermilk, got yogurt", "no eggs for the challah": the line opens with what there is none of, unweighed."""
    bound, free = case.bound, not case.bound.context.has_bake
    if case.negated[:1] != (0,):
        return False
    dims = [p.dim for p in bound.phrases if p.kind == "amount"]
    if dims:  # "no buttermilk, 200 ml needed", "no honey, 40 g, got maple"
        return dims in (["mass"], ["volume"]) and len(case.places) <= 2 and free
    alone = all(p is bound.phrases[case.places[0]] or p.kind == "sep" for p in bound.phrases)  # "no malt"
    asked = alone or bound.said("ask:what", "ask:can_i")  # "no lye, what can i dip pretzels in"
    lone = len(case.places) == 1 and free and bound.context.focus in (None, "swap") and asked
    return lone or len(case.places) > len(case.negated) or ("for" in bound.links() and free)


def _only_this(case: Case) -> bool:
    """ "only salted butter, 120 g", "3 sticks unsalted butter, only margarine": "only" right before one thing says that
    it is all there is; the other thing, if any, is what was weighed. Nothing is in hand to change."""
    phrases = case.bound.phrases
    there = [i for i in case.places if _says_only(beside(phrases, i))]
    others = [i for i in case.places if i not in there]
    first = there == [1] and not others
    weighed = len(others) == 1 and others[0] in case.of and not set(there) & set(case.of)
    return not case.bound.context.has_bake and len(there) == 1 and (first or weighed)


def _says_only(phrase: Phrase) -> bool:
    return fits(phrase, ("cue:limit", "cue:only_this")) and phrase.text.lower() in _ONLY


def only_so_much(phrases: Sequence[Phrase]) -> bool:
    """Whether "only" stands right before a weight."""
    return any(
        a.text.lower() in _ONLY and fits(a, ("cue:limit",)) and b.kind == "amount" and b.dim == "mass"
        for a, b in pairwise(phrases)
    )


def of_safety_alone(case: Case) -> bool:
    """Whether the line asks whether something is safe to eat, and not what is to be kept out."""
    bound = case.bound
    swapped = bound.said("stance:serves", "link:instead_of", "ask:what_else", "stance:becomes")
    kept_out = (case.negated and bound.said("person:baby")) or (case.amounts and bound.said("stance:must_not"))
    return bound.said(*OF_SAFETY) and not (swapped or kept_out)


def tells_stock(case: Case) -> bool:
    """ "only 900 g flour left" tells what there is: every thing weighed, none lacking, nothing asked or wanted."""
    bound = case.bound
    weighed = bool(case.of) and len(case.places) == len(case.of) and not case.negated
    wanted = bound.said("ask:*", "act:*", "link:instead_of", "stance:serves")
    return weighed and bound.said("stock:left") and not wanted


def follows_on(case: Case) -> bool:
    """ "and oil?", "for 80 g": goes on from the swap before it; a share would change the dough."""
    shares = any(one.dim in ("pct", "share") for one in case.amounts)
    named = case.places or case.of or case.loose
    return case.bound.context.focus == "swap" and bool(named) and not shares and case.job is None


def replaces_yeast(case: Case) -> bool:
    """ "shop has only the fresh sort, how much of that": another sort of what leavens the dough in hand, asked for."""
    bound = case.bound
    sort = [p for p in bound.phrases if p.ids("yeast_kind") and not p.negated]
    asked = bound.asks() or bound.said("ask:how_much", "ask:what_else", "ask:can_i", "cue:limit", "stance:at_hand")
    return bool(sort) and bound.context.has_bake and not case.amounts and len(case.places) == 1 and asked


def told_only(bound: Bound) -> bool:
    """ "1000 g water went in instead" tells what happened."""
    return bound.said("mistake:poured") and not bound.said("act:use")


def a_flour(bound: Bound, place: int) -> bool:
    """Whether the thing at a place is a flour."""
    return any(item.startswith("flour") for item in ids_of(bound.phrases[place])[:1])
