"""Something in the bowl by another weight than was meant: forgotten, twice, too much, too little, ounces, exchanged."""

from __future__ import annotations

from assistant.answers.in_the_bowl import notes, weight
from assistant.answers.mend_case import Case, grams_said
from assistant.answers.mend_dough import SAME
from assistant.answers.mended import mend_fields, mended
from assistant.engine.cautions import Scene
from assistant.engine.mends import by_feel, exchanged, forgotten, grams_from_ounces, lapse_for, over, under
from assistant.engine.naming import figure
from assistant.engine.refusal import Refused
from assistant.talk.reply import Outcome, Unclear
from assistant.voice.page import Line, Page


def by_weight(case: Case) -> Outcome:
    """Forgotten, twice, too much, too little, ounces."""
    item = case.item()
    planned = case.plan.g(item)
    if case.request.mistake == "forgot":
        return _forgotten(case, item)
    poured = _poured(case, item)
    if planned <= 0:
        raise Refused(
            f"There is no {case.called(item)} in this dough to measure it against.",
            f"Say what was meant too: meant 20 g {case.called(item)}, put in 30.",
        )
    if poured is None:
        return _unweighed(case, item)
    if poured < 0:
        raise Refused(f"{weight(-poured)} less than nothing cannot be in the bowl.", "Say how much went in.")
    how, word = (over, "much") if poured >= planned else (under, "little")
    mend = how(case.plan, item, poured, case.stage, case.lapses, case.foods)
    said = f"{weight(abs(poured - planned))} too {word} {case.called(item)}"
    return mended(case, mend, said, item=item)


def _forgotten(case: Case, item: str) -> Outcome:
    """All of it, or the part that was said, is still to go in."""
    request, planned, name = case.request, case.plan.g(item), case.called(item)
    off = planned * request.share if request.share is not None else _grams(case, request.off_g, item)
    if off is not None and off < planned:
        mend = under(case.plan, item, planned - off, case.stage, case.lapses, case.foods)
        return mended(case, mend, f"{weight(off)} of the {name} forgotten", item=item)
    mend = forgotten(case.plan, item, case.stage, case.lapses, case.foods)
    return mended(case, mend, f"{name} forgotten", item=item)


def _grams(case: Case, value: float | None, item: str) -> float | None:
    return grams_said(case.request, value, item, case.room)


def _poured(case: Case, item: str) -> float | None:
    """How much of it is in the bowl, grams; None where nobody knows."""
    request, planned = case.request, case.plan.g(item)
    meant, poured, off = (_grams(case, one, item) for one in (request.meant_g, request.poured_g, request.off_g))
    if request.mistake == "ounces":
        return grams_from_ounces(off or meant or planned)
    if request.mistake == "twice":
        return (request.times or 2.0) * planned
    if poured is None and request.poured_pct is not None:
        poured = case.plan.holds(case.foods).flour_g * request.poured_pct / 100
    if request.share is not None:
        return planned * (request.share if request.mistake == "under" else 1 + request.share)
    if poured is None and off is not None:
        return planned + (off if request.mistake == "over" else -off)
    if poured is not None and meant is not None and planned > 0 and abs(meant - planned) > SAME * planned:
        return planned * poured / meant  # told of another size of the same dough: the proportion counts
    return poured


def other_hydration(case: Case) -> Outcome:
    """The hydration came out other than meant: so much water too much or too little."""
    request, plan = case.request, case.plan
    if request.poured_g is None:
        raise Unclear("What did the hydration come out at?", ("hydration came out 72 instead of 65",))
    meant = request.meant_g if request.meant_g is not None else plan.hydration_pct(case.foods) or 0.0
    points = request.poured_g - meant
    g = plan.g("water") + plan.holds(case.foods).flour_g * points / 100
    mend = (over if points >= 0 else under)(plan, "water", g, case.stage, case.lapses, case.foods)
    return mended(case, mend, f"hydration {figure(request.poured_g)} % instead of {figure(meant)} %", item="water")


def felt(case: Case) -> Outcome:
    """The dough feels too wet or too dry."""
    wet = case.request.mistake == "wet"
    mend = by_feel(case.plan, wet, case.stage, case.lapses, case.foods)
    return mended(case, mend, f"dough too {case.request.mistake} by feel")


def one_for_the_other(case: Case) -> Outcome:
    """Two things of the dough went in each at the weight of the other."""
    item, plan = case.item(), case.plan
    other = next((one for one in case.request.used if plan.g(one) > 0 and one != item), None)
    if other is None or plan.g(item) <= 0:
        raise Unclear("What went in, and how much of it?", ("20 g salt went in instead of sugar",))
    mend = exchanged(plan, item, other, case.stage, case.lapses, case.foods)
    said = f"{case.called(item)} and {case.called(other)} each at the weight of the other"
    return mended(case, mend, said, item=item)


def _unweighed(case: Case, item: str) -> Outcome:
    """Too much or too little of something, by an amount nobody knows."""
    request, plan, name = case.request, case.plan, case.called(item)
    group = case.foods[item].group if item in case.foods else "starter"
    if group in ("water", "dairy", "flour"):
        wet = (group != "flour") == (request.mistake == "over")
        mend = by_feel(plan, wet, case.stage, case.lapses, case.foods)
        said = f"too {'much' if request.mistake == 'over' else 'little'} {name}, by feel"
        return mended(case, mend, said, item=item)
    lapse = lapse_for(case.lapses, request.mistake, item, case.stage, case.foods)
    text = f"How much {name} went in? {weight(plan.g(item))} was meant. {lapse.advice}"
    fields = mend_fields((), plan, plan, case.known, case.room) | {"advice": text}
    page = Page((Line(text), Line(f"Say: {weight(plan.g(item) * 1.5)} {name} went in.", role="ask")))
    told, _ = notes(Scene("mend", case.room.text), case.room)
    return Outcome("mend", fields, f"too much {name}, amount not known", page, case.assumed, told, (lapse.source,))
