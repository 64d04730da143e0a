"""Something is missing, or somebody cannot eat it: what may stand in for it."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

from grammar.exchange import Weighed
from grammar.follow import Follow
from grammar.frames import Bound, Frame, fits
from grammar.levels import LIKELY, MAYBE, SELDOM, UNLIKELY, speaks
from grammar.mishap_words import never_meant
from grammar.phrases import Phrase
from grammar.requests.formula_moves import moved
from grammar.requests.mend_double import put_in_twice
from grammar.requests.swap_asked import (
    ASKING,
    Case,
    a_flour,
    asks,
    case_of,
    makes_up,
    of_safety_alone,
    tells_stock,
)
from grammar.requests.swap_exchange import exchange
from grammar.requests.swap_follow import followed, of_its_own, reads, taken
from grammar.requests.swap_request import SwapRequest
from grammar.requests.swap_weights import measure_of, rows_of, value_of
from grammar.roles import take
from grammar.slots import Slot
from grammar.stance import THING

__all__ = ["FRAME", "FRAMES", "SwapRequest"]


def build(bound: Bound) -> SwapRequest | None:
    """The request; None where nothing is missing, asked for or to be avoided.

    A share of what is in hand ("swap 20 % for rye"), and how much of something there is, change the formula instead.
    """
    if put_in_twice(bound) or any(danger != "children" for p in bound.phrases for danger in p.ids("danger")):
        return None
    if bound.said("cue:rest") and not makes_up(bound):
        return None
    made = taken(bound)
    if made is not None:
        return made
    if moved(bound)[0]:
        return None
    case = case_of(bound)
    if _of_else(case):
        return None
    request = _leaven_turned(case) or _of_diet(case)
    return replace(request, part=case.part) if request is not None else None


def _of_else(case: Case) -> bool:
    """Whether a thing is bidden out of the dough in hand, mixed up with another, told of the stock, or only to be safe
    to eat."""
    bound = case.bound
    taken_out = bound.context.has_bake and any(_taken_out(bound.phrases[i]) for i in case.negated)
    bidden = taken_out and not bound.said("ask:*")
    no_flours = [i for i in case.places if not a_flour(bound, i)]
    mixed_up = "instead_of" in bound.links() and never_meant(bound, no_flours)
    goes_in = any(fits(a, ("stance:must_not",)) and "in" in b.ids("link") for a, b in pairwise(bound.phrases))
    return bidden or mixed_up or goes_in or of_safety_alone(case) or tells_stock(case)


_YEASTS = ("yeast_instant", "yeast_active_dry", "yeast_fresh")


def _leaven_turned(case: Case) -> SwapRequest | None:
    """ "turn it into sourdough", "yeast version": the whole dough on another leaven, the one in hand or one told."""
    to_starter, to_yeast = case.bound.said("cue:to_starter"), case.bound.said("cue:to_yeast")
    if not (to_starter or to_yeast) or not (case.bound.context.has_bake or len(case.of) > 1):
        return None
    out, into = (_YEASTS, ("starter_100",)) if to_starter else (("starter_100",), _YEASTS[:1])
    return SwapRequest(out=out, into=into, rows=rows_of(case) if len(case.of) > 1 else (), anew=True)


def _taken_out(phrase: Phrase) -> bool:
    """Whether a thing is bidden to be taken or left out."""
    verb = phrase.text.lower().removeprefix("i ").split()[:1]
    return bool({"take", "leave", "drop", "skip", "omit", "remove"} & set(verb))


def _offered(case: Case) -> bool:
    """One thing alone is named, which may come in: "peanut allergy, fine with almonds?"."""
    return len(case.told) == 1 and case.told[0].net < 0 and not case.amounts


def _as_it_is(case: Case) -> bool:
    """It is asked of the dough as it is whether somebody can eat it: "is it vegan?"."""
    other = case.bound.said("ask:what_else", "act:swap", "cue:missing", "act:change")
    return case.bound.said("ask:is_it") and not other


def _unnamed(case: Case) -> Weighed | None:
    """The amount of what is named by the diet alone: "my kid can't have milk, the recipe has 250 ml"."""
    weighed = (one for one in case.loose if one.dim in ("mass", "volume"))
    return None if case.places else next(weighed, None)


def _of_all(case: Case) -> bool:
    """The whole dough is to be so that they can eat it."""
    return not case.of and (not asks(case) or (case.part is not None and not case.places))


def _told_whole(case: Case) -> bool:
    """The dough is told, and no thing of it asked about."""
    return len([i for i in case.of if i not in case.negated]) > 1 and not case.bound.said(*ASKING)


def _of_diet(case: Case) -> SwapRequest | None:
    """What a line is that names who cannot eat what, else one thing exchanged for another."""
    if not case.diets:
        return exchange(case)
    one = _unnamed(case)
    rows: tuple[tuple[bool, SwapRequest | None], ...] = (
        (_offered(case), SwapRequest(into=_first_ids(case), anew=True)),
        (case.job == "wash", SwapRequest(out=("egg_whole",), job=case.job, avoid=case.shunned())),
        (_as_it_is(case), None),
        (one is not None, SwapRequest(out_g=value_of(one, "mass"), out_measure=measure_of(one))),
        (_of_all(case), SwapRequest(avoid=case.shunned())),
        (_told_whole(case), SwapRequest(rows=rows_of(case), avoid=case.shunned())),
        (True, exchange(case)),
    )
    found = next(request for is_so, request in rows if is_so)
    return None if found is None else replace(found, diets=case.diets)


def _first_ids(case: Case) -> tuple[str, ...]:
    return case.told[0].ids if case.told else ()


ONWARD = Frame(SwapRequest, "swap", build, reads=reads, settles=True)

FRAME = Frame(
    SwapRequest,
    "swap",
    build,
    follow=Follow(alone=of_its_own, account=followed),
    slots={
        "mass": take("thing_g", bare=SELDOM, many=True),
        "volume": take("thing_volume", bare=MAYBE, many=True),
        "pct": take("thing_pct", many=True),
        "count": take("thing_count", many=True),
        "pack": Slot(term=("pack:*",), many=True, weight=-SELDOM),
        "protein_pct": take("protein_pct"),
        "thing": Slot(term=THING, many=True),
        "absent": Slot(term=THING, without=True, many=True),
        "diet": Slot(term=("diet:*",), many=True, weight=2.0),
        "part": take("batch_share"),
        "someone": take("eaters", bare=UNLIKELY),
        "bread": Slot(term=("bread:*", "piece:*"), many=True, weight=-0.4),
        "pieces": take("pieces", weight=-LIKELY),
    },
    cues=speaks(
        alone="cue:missing cue:to_starter cue:to_yeast cue:make_up",
        telling="act:use ask:what_else job:* act:swap act:take stance:must_not stance:serves",
        certain=(
            "cue:only_this diet:* stance:called_for stance:will_take "
            "stance:becomes stance:holds"
        ),
        sure=(
            "stance:at_hand stock:left link:instead cue:company cue:strengthen pick:* mistake:meant cue:limit "
            "cue:recipe_given"
        ),
        likely="bathing:* ask:can_i ask:how_much act:change stance:was",
        maybe=(
            "act:halve ask:what ask:what_if cue:overnight_dose cue:dough act:make stance:guess mistake:poured "
            "person:* eating:eat cue:formula ask:how_to ask:is_it cue:all_of_it negation:no fill:* "
            "mistake:under stance:yes danger:children"
        ),
        seldom="tail:* cue:fridge",
        heard="link:if feeding:turn span:now cue:rest cue:freed ask:when",
        hardly="act:same",
    ),
    needs=(
        "cue:missing", "cue:only_this", "act:swap", "ask:what_else", "link:instead_of", "link:instead", "diet:*",
        "cue:company", "slot:protein_pct", "job:*", "cue:to_starter", "cue:to_yeast", "cue:limit", "act:use",
        "act:take", "pick:*", "ingredient:yeast*", "link:for", "slot:absent",
        "stance:called_for", "stance:holds", "stance:at_hand", "stance:will_take", "stance:must_not", "stance:serves",
        "stance:becomes", "negation:no", "link:to", "yeast_kind:*",
    ),
    rules_out=("plain:split", "mistake:forgot", "mistake:twice", "topic:*", "cue:use_up"),
    base=0.3,
)  # fmt: skip

FRAMES = (ONWARD,)
