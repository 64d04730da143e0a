"""Something is missing, or somebody cannot eat it: what may stand in for it."""

from __future__ import annotations

from dataclasses import replace

from grammar.exchange import sides_of
from grammar.follow import Follow
from grammar.frames import Bound, Frame, Slot
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
    follows_on,
    makes_up,
    of_safety_alone,
    replaces_yeast,
    tells_stock,
    told_only,
)
from grammar.requests.swap_follow import followed, of_its_own, reads, taken
from grammar.requests.swap_request import SwapRequest
from grammar.requests.swap_weights import measure_of, rows_of, value_of, weights
from grammar.roles import take
from grammar.stance import THING, Thing

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
    taken_out = bound.context.has_bake and any(_taken_out(bound.phrases[i]) for i in case.negated)
    if taken_out and not bound.said("ask:*"):
        return None  # "he is diabetic, take the sugar out" bids a change of the dough
    mixed_up = "instead_of" in bound.links() and never_meant(bound, [i for i in case.places if not a_flour(bound, i)])
    if of_safety_alone(case) or mixed_up or tells_stock(case):
        return None
    turned = _leaven_turned(case)
    if turned is not None:
        return turned
    known, request = _of_diet(case) if case.diets else (False, None)
    request = request if known else _exchange(case)
    return replace(request, part=case.part) if request is not None else None


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
    words = phrase.text.lower().split()
    verb = words[1] if words[0] == "i" and len(words) > 1 else words[0]
    return verb in ("take", "leave", "drop", "skip", "omit", "remove")


def _of_diet(case: Case) -> tuple[bool, SwapRequest | None]:
    """What a line is that names who cannot eat what; False where it exchanges one thing for another beside."""
    bound, diets = case.bound, case.diets
    if len(case.told) == 1 and case.told[0].net < 0 and not case.amounts:
        return True, SwapRequest(into=case.told[0].ids, diets=diets, anew=True)  # "peanut allergy, fine with almonds?"
    if case.job == "wash":
        return True, SwapRequest(out=("egg_whole",), job=case.job, diets=diets, avoid=case.shunned())
    if bound.said("ask:is_it") and not bound.said("ask:what_else", "act:swap", "cue:missing", "act:change"):
        return True, None  # "is it vegan?" asks of the dough as it is
    one = next((one for one in case.loose if one.dim in ("mass", "volume")), None)
    if not case.places and one is not None:  # "my kid can't have milk, the recipe has 250 ml"
        return True, SwapRequest(diets=diets, out_g=value_of(one, "mass"), out_measure=measure_of(one))
    if (not asks(case) or (case.part is not None and not case.places)) and not case.of:
        return True, SwapRequest(diets=diets, avoid=case.shunned())
    several = [i for i in case.of if i not in case.negated]
    if len(several) > 1 and not bound.said(*ASKING):
        return True, SwapRequest(diets=diets, rows=rows_of(case), avoid=case.shunned())
    return False, None


def _exchange(case: Case) -> SwapRequest | None:
    """One thing for another, or for whatever serves."""
    bound = case.bound
    asked = asks(case) or replaces_yeast(case) or bool(case.diets and case.of)
    shunned = bound.said("cue:company", "stance:must_not") and case.places and not bound.said(*ASKING)
    if shunned and not (case.opposed or case.amounts):
        return SwapRequest(avoid=tuple(dict.fromkeys(one.ids[0] for one in case.told)), diets=case.diets)
    lacking = bound.said("cue:missing", "cue:only_this", "act:swap")
    if bound.context.focus == "bath" and len(case.places) == 1 and not lacking:
        return None  # "and bicarb instead?" is still about the bath
    protein = bound.base("protein_pct")
    sides = sides_of(bound, case.places)
    out, into = sides.out, sides.into
    if not asked and not (case.negated and bound.context.has_bake and bound.said("ask:*")):
        if protein is None and not follows_on(case):
            return None
        if follows_on(case) and out is not None and into is None:
            out, into = None, out  # "and oil?" asks for another replacement
    if replaces_yeast(case):
        out, into = None, case.told[0]
    if out is None and into is None and not case.diets and protein is None:
        return None
    if out is None and into is not None and told_only(bound):
        return None
    if makes_up(bound) and len(case.told) == 1 and not case.told[0].ids[0].startswith("flour"):
        out, into = case.told[0], None
    out, lacking_too = _lacking_too(case, out, into)
    said = {one.dim for one in case.amounts}
    flour = any(one.startswith("flour") for side in (out, into) if side is not None for one in side.ids)
    if bound.context.has_bake and flour and said & {"pct", "share"}:
        return None
    if bound.said("cue:only_this") and out is None and "mass" in said and not case.told[0].goes:
        return None
    gone, come = out.ids if out is not None else (), into.ids if into is not None else ()
    return SwapRequest(
        out=gone,
        into=come,
        beside=tuple(one.ids for one in sides.beside),
        job=case.job,
        diets=case.diets,
        avoid=tuple(dict.fromkeys((*case.shunned(), *lacking_too))),
        protein_pct=protein,
        overnight=bound.said("cue:overnight_dose"),
        anew=protein is not None,
        **weights(case, gone, come),
    )


_LACKING = 2.0
"""So much has to speak for a second thing's going out to keep it out of what is offered for the first."""


def _lacking_too(case: Case, out: Thing | None, into: Thing | None) -> tuple[Thing | None, tuple[str, ...]]:
    """What goes out, of several lacking the one the dough in hand has; and the others, which are not to come in."""
    if out is None or into is not None:
        return out, ()
    lacking = [one for one in case.told if one.net >= _LACKING]
    rows = case.bound.context.known.rows
    there = [one for one in lacking if any(item in rows for item in one.ids)]
    out = there[0] if there and not any(item in rows for item in out.ids) else out
    return out, tuple(one.ids[0] for one in lacking if one.ids != out.ids)


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
    rules_out=("plain:split", "mistake:forgot", "mistake:twice", "topic:*"),
    base=0.3,
)  # fmt: skip

FRAMES = (ONWARD,)
