"""A mishap as told made into the request to put it right."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from grammar.clause_begins import turned
from grammar.frames import Bound, amount_base
from grammar.mishap import Told, told_in
from grammar.mishap_words import factor_told, ids_of, left_out, of_flour, things_in
from grammar.requests.formula_rows import times_of
from grammar.requests.mend_double import went_in
from grammar.requests.mend_figures import (
    A_DOUGH_G,
    HYDRATIONS,
    NO_HYDRATION,
    all_of_it,
    by_hydration,
    in_percent,
    left_the_dough,
    of_warmth,
    run_out,
)
from grammar.requests.mend_kind import bids, kind_of_mistake, lists_a_dough, two_exchanged
from grammar.requests.mend_request import SAME, MendRequest
from grammar.requests.mend_wrong import is_flour, is_starter, not_an_amount, wrong_and_meant
from grammar.requests.timing_rise import starter_times

_HOT_C = (25, 100)
"""A bare figure of hot water is its warmth between these."""
_STARTER = ("starter_100",)
_OFF = ("mistake:over", "mistake:under")


@dataclass(slots=True)
class _Draft:
    """A mishap while its figures are settled. wrong: the places of what was used and of what was meant."""

    bound: Bound
    things: list[int]
    told: Told
    inside: list[tuple[str, float]]
    stage: str | None
    step: str | None
    late_min: float | None
    dough_g: float | None
    water_c: float | None = None
    wrong: tuple[int, int] | None = None
    mistake: str | None = None
    item: tuple[str, ...] = ()
    used: tuple[str, ...] = ()

    @property
    def both(self) -> bool:
        return self.told.meant is not None and self.told.poured is not None


def build(bound: Bound) -> MendRequest | None:
    """The request; None where no mishap is told (a change that is only weighed up is no mistake)."""
    draft = _draft_of(bound)
    if _supposed(bound) or bids(bound) or lists_a_dough(bound) or _of_else(draft):
        return None
    _settle_heat(draft)
    _settle_kind(draft)
    wished = draft.mistake == "twice" and times_of(bound) and factor_told(bound) is None and not went_in(bound)
    _settle_water(draft)
    wished = wished or _judged_only(draft)
    told = draft.mistake is not None and not wished and _settle_item(draft)
    return (_of_a_starter(draft) or _as_request(draft)) if told else None


def _judged_only(draft: _Draft) -> bool:
    """Whether all the line does is ask whether a dough is too wet or dry: "is it too wet at 70?"."""
    alone = not any(phrase.kind == "sep" for phrase in draft.bound.phrases[:-1])
    return draft.mistake in ("wet", "dry") and alone and turned(draft.bound.text, draft.bound.lexicon)


def _supposed(bound: Bound) -> bool:
    """Whether the line asks what the dough in hand would be with more in it, or how long one would then take."""
    supposed = bound.said("ask:what_if") or "if" in bound.links()
    added = bound.context.has_bake and bound.said("cue:greater", "act:add")
    return supposed and (added or (bound.context.focus == "timing" and starter_times(bound) is not None))


def _draft_of(bound: Bound) -> _Draft:
    things = things_in(bound)
    told, inside = told_in(bound, things)
    late_min = bound.base("late_min")
    stage = next((i for p in bound.phrases for i in p.ids("so_far")), None)
    flour = any(of_flour(bound, hit) for hit in bound.of("dough_g")[:1])
    return _Draft(
        bound, things, told, inside, stage,
        step=next((i for p in bound.phrases for i in p.ids("step_left")), None),
        late_min=late_min, dough_g=None if flour else bound.base("dough_g"),
    )  # fmt: skip


def _of_else(draft: _Draft) -> bool:
    """Whether the figures are degrees, the dough itself was left somewhere, or something has run out."""
    bound, told = draft.bound, draft.told
    little = told.meant is not None and told.meant < NO_HYDRATION
    degrees = little and (of_warmth(bound) or (told.item is None and bound.said("look:came_out")))
    gone = run_out(bound) and told.meant is None and told.poured is None
    return degrees or gone or left_the_dough(bound)


def _settle_heat(draft: _Draft) -> None:
    """How hot the water was, and all that went in of the one thing beside the flour."""
    bound, told = draft.bound, draft.told
    off = bound.said(*_OFF)
    degrees = bound.amount("water_c").dim == "temperature"
    draft.water_c = bound.base("water_c") if degrees or not off else None
    if told.item is None and told.off is None and bound.said("mistake:by_mistake"):
        all_of_it(bound, told, draft.inside, draft.things)
    hot = bound.said("mistake:hot_water") and not off and draft.water_c is None
    if hot and told.off is not None and _HOT_C[0] <= told.off <= _HOT_C[1]:
        draft.water_c, told.off = told.off, None


def _settle_kind(draft: _Draft) -> None:
    """Which mishap it is; SAME for a line that goes on from one."""
    bound, told = draft.bound, draft.told
    draft.wrong = wrong_and_meant(bound, draft.things)
    swapped = draft.wrong is not None and not_an_amount(bound, told, draft.wrong) and not left_out(bound)
    draft.mistake = "wrong" if swapped else kind_of_mistake(bound, told, draft.step)
    if draft.mistake == "exchanged":
        draft.used = ids_of(bound.phrases[two_exchanged(bound)[1]])
    more = draft.stage or draft.inside or bound.said("mistake:rescue")
    more = more or not (draft.late_min is None and told.off is None)
    draft.mistake = draft.mistake or (SAME if bound.context.focus == "mend" and more else None)
    draft.stage = draft.stage or (None if draft.late_min is None else "bulk")


def _settle_water(draft: _Draft) -> None:
    """Of a dough too wet or too dry: its hydrations, and its mass."""
    bound, told = draft.bound, draft.told
    if draft.mistake in ("wet", "dry", "over", "under") and told.item is None:
        draft.mistake = by_hydration(bound, told, draft.mistake)
    by_water = draft.mistake in ("wet", "dry") or (told.item is None and draft.both)
    if by_water and draft.dough_g is None and (told.off or 0.0) >= A_DOUGH_G:
        draft.dough_g, told.off = told.off, None


def _settle_item(draft: _Draft) -> bool:
    """What the mishap is of, and whether its figures can be of that."""
    bound, told = draft.bound, draft.told
    item = ids_of(bound.phrases[told.item]) if told.item is not None else ()
    item = item or tuple(dict.fromkeys(i for p in bound.phrases for i in (*p.ids("implies"), *p.ids("put_in"))))
    draft.item = item or (("hydration",) if draft.both else ())
    low, high = sorted((told.meant or 0.0, told.poured or 0.0))
    if draft.item != item and (low < HYDRATIONS[0] or high > HYDRATIONS[1]):
        return False  # two figures of something nobody named
    if told.item is None and draft.item[:1] != ("hydration",) and in_percent(bound, told):
        told.meant_pct, told.poured_pct, told.meant, told.poured = told.meant, told.poured, None, None
    if draft.mistake == "wrong" and draft.wrong is not None and not _same_starter(draft):
        _settle_wrong(draft, *draft.wrong)
    return True


def _settle_wrong(draft: _Draft, used: int, meant: int) -> None:
    """What went in and how much of it; a wrong flour tells the dough, so much of what was meant."""
    bound, told = draft.bound, draft.told
    draft.used, draft.item = ids_of(bound.phrases[used]), ids_of(bound.phrases[meant]) if meant != used else ()
    both = (*draft.used[:1], *draft.item[:1])
    weighed = (g for one, g in draft.inside if one in both)
    told.poured = next((g for g in (*weighed, told.poured, told.off, told.meant) if g is not None), None)
    told.meant = told.off = None
    draft.inside = [(one, g) for one, g in draft.inside if one not in both]
    if is_flour(bound, (used, meant)) and told.poured is not None:
        draft.inside.append((next(iter(draft.item), "flour_bread"), told.poured))


def _same_starter(draft: _Draft) -> bool:
    """Whether the wrong thing is the starter itself, stiffer or looser than it was to be."""
    wrong = draft.wrong
    return wrong is not None and wrong[0] == wrong[1] and is_starter(draft.bound, wrong[0])


def _of_a_starter(draft: _Draft) -> MendRequest | None:
    """The starter at another hydration than was meant; None where the mishap is of something else."""
    bound, told = draft.bound, draft.told
    made: dict[str, Any] = {"item": _STARTER, "used": _STARTER, "stage": draft.stage}
    shares = min(told.meant_pct or 0.0, told.poured_pct or 0.0)
    if told.item is not None and is_starter(bound, told.item) and shares >= HYDRATIONS[0]:
        rest = [(one, g) for one, g in draft.inside if not one.startswith("starter")]
        weighed = (*(g for one, g in draft.inside if one.startswith("starter")), told.off)
        rest += [(_STARTER[0], g) for g in weighed[:1] if g is not None]
        return MendRequest("wrong", starter_pct=told.poured_pct, inside=tuple(rest), **made)
    if draft.mistake != "wrong" or not _same_starter(draft):
        return None
    said = (amount_base(amount) for amount in bound.amounts("mass") if amount.dim == "pct")
    usual = 100.0 if bound.said("cue:liquid_starter") else 50.0
    return MendRequest("wrong", starter_pct=next(said, usual), **made)


def _as_request(draft: _Draft) -> MendRequest:
    bound, told, mistake = draft.bound, draft.told, draft.mistake or SAME
    pieces = bound.base("pieces")
    times = 3.0 if bound.said("mistake:thrice") else factor_told(bound) or 2.0
    return MendRequest(
        mistake=mistake,
        again=mistake == SAME,
        item=draft.item,
        meant_g=told.meant,
        poured_g=told.poured,
        off_g=told.off,
        in_ml=told.in_ml,
        counted=told.counted,
        used=draft.used,
        inside=tuple(draft.inside),
        stage=draft.stage,
        late_min=draft.late_min,
        step=draft.step if mistake == "step" else None,
        share=told.share,
        meant_pct=told.meant_pct,
        poured_pct=told.poured_pct,
        times=times if mistake == "twice" else None,
        too_few=(pieces or told.off) if bound.said("mistake:too_few") else None,
        pieces=pieces or (told.meant or told.off if mistake == "short" else None),
        made=bound.base("made"),
        piece_g=bound.base("piece_g"),
        dough_g=draft.dough_g,
        water_c=draft.water_c,
        dissolved=bound.said("mistake:dissolved"),
    )
