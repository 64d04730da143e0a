"""A mistake told: too much, too little, forgotten, the wrong thing. What puts it right is asked for."""

from __future__ import annotations

from dataclasses import dataclass, replace

from grammar.frames import Bound, Frame, Slot, amount_base, fits
from grammar.phrases import Phrase
from grammar.requests.swap import GENERAL

THING = ("ingredient:*", *GENERAL)
_MASSY = ("mass", "volume", "num")


@dataclass(frozen=True, slots=True)
class MendRequest:
    """meant 620 g water, poured 700, there's 1100 g flour in the bowl
    i left the salt out
    put the salt in twice
    50 g too much water
    dough is too wet, i overpoured

    mistake: over, under, forgot, twice, wet, dry, wrong, ounces, short, hot_water or step. item: ingredient ids the
    thing may be. meant_g, poured_g, off_g: as planned, as it went in, the difference; ml where `in_ml`. used: ids of
    what went in by mistake. inside: other things said to be in the bowl, (id, g). stage: mixing, bulk, shaped, baking,
    baked. late_min: how long ago. step: what was not done.
    """

    mistake: str
    item: tuple[str, ...] = ()
    meant_g: float | None = None
    poured_g: float | None = None
    off_g: float | None = None
    in_ml: bool = False
    used: tuple[str, ...] = ()
    inside: tuple[tuple[str, float], ...] = ()
    stage: str | None = None
    late_min: float | None = None
    step: str | None = None
    pieces: float | None = None
    made: float | None = None
    piece_g: float | None = None
    dough_g: float | None = None
    water_c: float | None = None
    dissolved: bool = False

    def onto(self, earlier: MendRequest, bound: Bound) -> MendRequest:
        """A line that goes on: "it's already in bulk", "there's 1 kg flour in it"."""
        if self.mistake != "same":
            return self
        return replace(
            earlier,
            stage=self.stage or earlier.stage,
            late_min=self.late_min if self.late_min is not None else earlier.late_min,
            inside=self.inside or earlier.inside,
            off_g=self.off_g if self.off_g is not None else earlier.off_g,
            water_c=self.water_c if self.water_c is not None else earlier.water_c,
        )


@dataclass(slots=True)
class _Told:
    """The figures of a mishap as they are found along the line."""

    item: int | None = None
    meant: float | None = None
    poured: float | None = None
    off: float | None = None
    more: bool = False
    in_ml: bool = False


def _ids(phrase: Phrase) -> tuple[str, ...]:
    named = phrase.ids("ingredient")
    return (*named, *(name for cue, name in GENERAL.items() if fits(phrase, (cue,)) and name not in named))


def _role(bound: Bound, place: int) -> str | None:
    """What an amount is, from the words beside it: meant, poured, over, under, bowl."""
    phrases = bound.phrases
    for i in range(place - 1, -1, -1):
        if phrases[i].kind == "amount":
            break
        if fits(phrases[i], ("link:instead_of",)):
            return "meant"
        if fits(phrases[i], ("mistake:only_in",)):
            return "poured"
        for role in ("meant", "over", "under", "poured"):
            if fits(phrases[i], (f"mistake:{role}",)):
                return _after(bound, place) or role
    return _after(bound, place)


def _after(bound: Bound, place: int) -> str | None:
    """The role said behind an amount: "50 g too much", "700 went in", "1100 g flour in the bowl"."""
    for phrase in bound.phrases[place + 1 :]:
        if phrase.kind == "amount" or (phrase.kind == "sep" and phrase.text.strip() in ",.;"):
            break
        if fits(phrase, ("cue:greater", "link:over")) or fits(phrase, ("mistake:over",)):
            return "over"
        if fits(phrase, ("mistake:under", "cue:fewer", "link:under")):
            return "under"
        if fits(phrase, ("mistake:in_bowl",)):
            return "bowl"
        if fits(phrase, ("mistake:poured", "link:instead_of")):
            return "poured"
        if fits(phrase, ("mistake:meant",)):
            return "poured"
    return None


def _thing_beside(bound: Bound, place: int) -> int | None:
    """The word an amount weighs: right behind it ("80 g of salt"), else right before it."""
    phrases = bound.phrases
    for i in range(place + 1, min(place + 4, len(phrases))):
        if phrases[i].kind in ("amount",) or (phrases[i].kind == "sep" and phrases[i].text.strip() in ",.;"):
            break
        if fits(phrases[i], THING):
            return i
    for i in range(place - 1, max(place - 4, -1), -1):
        if phrases[i].kind == "amount":
            break
        if fits(phrases[i], THING):
            return i
    return None


def _things(bound: Bound) -> list[int]:
    return [i for i, p in enumerate(bound.phrases) if p.kind == "label" and fits(p, THING)]


def _told(bound: Bound, things: list[int]) -> tuple[_Told, list[tuple[str, float]]]:
    """The item gone wrong with its figures, and what else is said to be in the bowl."""
    told = _Told()
    inside: list[tuple[str, float]] = []
    unplaced: list[tuple[int, float]] = []
    for hit in bound.hits:
        if hit.amount is None or hit.slot != "mass":
            continue
        place = next(i for i, p in enumerate(bound.phrases) if p is hit.amount)
        value = amount_base(hit.amount)
        if value is None:
            continue
        thing = _thing_beside(bound, place)
        role = _role(bound, place)
        if (
            role == "meant"
            and thing is not None
            and thing < place
            and fits(bound.phrases[place - 1], ("link:instead_of",))
        ):
            thing = None  # "into 800 g flour instead of 520": the 520 is of what went wrong, not of the flour
        if hit.amount.old is not None:  # "300 instead of 250"
            told.poured, told.meant, told.item = value, hit.amount.old.base, thing if thing is not None else told.item
        elif role == "bowl" and thing is not None:
            inside.append((_ids(bound.phrases[thing])[0], value))
            continue
        elif (
            role is None
            and told.poured is not None
            and told.meant is None
            and thing is not None
            and (told.item is None or _same_item(told, thing, bound))
            and bound.said("mistake:only_in")
        ):  # "only 500 of the 620 water"
            told.meant, told.item = value, thing
        elif role in ("meant", "poured", "over", "under") and _same_item(told, thing, bound):
            if role == "meant":
                told.meant = value
            elif role == "poured":
                told.poured = value
            else:
                told.off = value
                told.more = role == "over"
            told.item = thing if thing is not None and told.item is None else told.item
        elif thing is not None:
            inside.append((_ids(bound.phrases[thing])[0], value))
            continue
        else:
            unplaced.append((place, value))
        told.in_ml = told.in_ml or hit.amount.dim == "volume"
    if unplaced and told.off is None and told.poured is None:
        told.off = unplaced[0][1]
    if told.item is None and things:
        named_inside = {item for item, _ in inside}
        told.item = next((i for i in things if _ids(bound.phrases[i])[0] not in named_inside), None)
    if told.item is None and told.off is None and told.poured is None and len(inside) == 1 and things:
        told.item, told.off = things[0], inside.pop()[1]
    return told, inside


def _same_item(told: _Told, thing: int | None, bound: Bound) -> bool:
    if told.item is None or thing is None:
        return True
    return _ids(bound.phrases[thing])[:1] == _ids(bound.phrases[told.item])[:1]


def _mistake(bound: Bound, told: _Told, step: str | None) -> str | None:
    """Which kind of mishap the line tells; None where it tells none."""
    if bound.first("water_c") is not None and (
        bound.said("mistake:hot_water", "mistake:by_mistake", "mistake:rescue") or _water(bound)
    ):
        return "hot_water"
    if bound.said("mistake:hot_water") and not bound.said("mistake:forgot"):
        return "hot_water"
    if bound.said("kettle:*") and bound.said(
        "mistake:dissolved", "mistake:by_mistake", "mistake:rescue", "mistake:poured"
    ):
        return "hot_water"
    if bound.said("mistake:ounces"):
        return "ounces"
    if bound.said("mistake:short_pieces") and (bound.first("made") or bound.said("piece:*", "cue:pieces", "cue:dough")):
        return "short"
    if bound.said("mistake:forgot"):
        return "step" if step is not None and told.item is None else "forgot"
    if bound.said("mistake:twice"):
        return "twice"
    if told.meant is not None and told.poured is not None:
        return "over" if told.poured >= told.meant else "under"
    if bound.said("mistake:over"):
        return "over"
    if bound.said("mistake:under", "mistake:only_in"):
        return "under"
    if bound.said("mistake:wet_feel"):
        return "wet"
    if bound.said("mistake:dry_feel"):
        return "dry"
    if told.off is not None and bound.said("mistake:by_mistake", "mistake:rescue") and told.item is not None:
        return "over"
    if told.more and bound.said("mistake:poured") and not bound.text.rstrip().endswith("?"):
        return "over"  # "i put about 100 g extra water in"
    return None


def _water(bound: Bound) -> bool:
    return bound.said("ingredient:water", "cue:water") and bound.said(
        "mistake:poured", "mistake:rescue", "ingredient:yeast*"
    )


def _wrong(bound: Bound, things: list[int]) -> tuple[int, int] | None:
    """(used, meant): "used plain flour instead of strong", "picked up the wrong flour, plain not bread"."""
    flours = [
        i for i in things if any(item.startswith(("flour", "semolina", "cornmeal")) for item in _ids(bound.phrases[i]))
    ]
    others = [i for i in things if i not in flours]
    if not flours and len(others) == 2 and bound.said("mistake:by_mistake") and not bound.of("mass"):
        negated = [i for i in others if bound.phrases[i].negated]
        turned = any("instead_of" in p.ids("link") for p in bound.phrases[others[0] : others[1]])
        if negated or turned:
            meant = negated[0] if negated else others[1]
            return next(i for i in others if i != meant), meant
    if not flours or not bound.said("mistake:by_mistake", "mistake:poured", "mistake:rescue"):
        return None
    instead = next((i for i, p in enumerate(bound.phrases) if fits(p, ("link:instead_of",))), None)
    named = [i for i in flours if not fits(bound.phrases[i], ("cue:flour",))]
    if instead is not None and len(named) >= 2:
        after = next((i for i in named if i > instead), None)
        before = next((i for i in reversed(named) if i < instead), None)
        if before is not None and after is not None:
            return before, after
    if bound.said("mistake:by_mistake") and named:
        negated = [i for i in named if bound.phrases[i].negated]
        used = next(i for i in named if i not in negated) if len(named) > len(negated) else named[0]
        meant = negated[0] if negated else next((i for i in named if i != used), used)
        return used, meant
    return None


def build(bound: Bound) -> MendRequest | None:
    """The request; None where no mishap is told (a change that is only weighed up is no mistake)."""
    things = _things(bound)
    step = next((i for p in bound.phrases for i in p.ids("step_left")), None)
    stage = next((i for p in bound.phrases for i in p.ids("so_far")), None)
    late = bound.base("late_min")
    told, inside = _told(bound, things)
    water_c = bound.base("water_c")
    if told.off is not None and water_c is None and bound.said("mistake:hot_water") and 25 <= told.off <= 100:
        water_c, told.off = told.off, None  # "the water was too hot, about 65"
    wrong = _wrong(bound, things)
    mistake = (
        "wrong"
        if wrong is not None and told.off is None and not bound.said("mistake:forgot")
        else _mistake(bound, told, step)
    )
    if mistake is None:
        again = bound.said("mistake:rescue")
        if bound.context.focus != "mend" or not (stage or inside or late is not None or told.off is not None or again):
            return None
        mistake = "same"
    if late is not None and stage is None:
        stage = "bulk"
    item = _ids(bound.phrases[told.item]) if told.item is not None else ()
    item = item or tuple(i for p in bound.phrases for i in p.ids("implies"))
    used: tuple[str, ...] = ()
    if mistake == "wrong" and wrong is not None:
        used, item = _ids(bound.phrases[wrong[0]]), (_ids(bound.phrases[wrong[1]]) if wrong[1] != wrong[0] else ())
        inside = [(one, g) for one, g in inside if one not in (*used[:1], *item[:1])]
    return MendRequest(
        mistake=mistake,
        item=item,
        meant_g=told.meant,
        poured_g=told.poured,
        off_g=told.off,
        in_ml=told.in_ml,
        used=used,
        inside=tuple(inside),
        stage=stage,
        late_min=late,
        step=step if mistake == "step" else None,
        pieces=bound.base("pieces") if mistake != "short" else bound.base("pieces") or told.meant or told.off,
        made=bound.base("made"),
        piece_g=bound.base("piece_g"),
        dough_g=bound.base("dough_g"),
        water_c=water_c,
        dissolved=bound.said("mistake:dissolved"),
    )


FRAME = Frame(
    MendRequest,
    "mend",
    build,
    slots={
        "mass": Slot(
            {"mass": 1.0, "volume": 0.6, "num": 0.3}, cues=THING, bare=0.3, low=0.2, high=60000, many=True
        ),
        "water_c": Slot(
            {"temperature": 1.4, "num": -0.2}, bare=0.2, low=1, high=212,
            cues=("mistake:hot_water", "kettle:*", "ingredient:water", "cue:water"),
        ),
        "late_min": Slot({"time": 1.0}, cues=("so_far:*", "mistake:*"), bare=0.5, low=1, high=3000),
        "made": Slot({"num": 1.2}, cues=("mistake:short_pieces",), low=1, high=400),
        "pieces": Slot({"num": 0.9}, cues=("piece:*", "bread:*", "cue:pieces"), low=1, high=400),
        "piece_g": Slot(
            {"mass": 0.2}, cues=("piece:*", "bread:*", "cue:piece_mass"), low=15, high=2600,
            links={"each": 1.2, "at": 0.6, "of": 0.4},
        ),
        "dough_g": Slot({"mass": 0.6}, cues=("cue:dough", "cue:total"), low=100, high=60000),
        "stage": Slot(term=("so_far:*",), weight=-0.4),
        "thing": Slot(term=THING, many=True),
        "absent": Slot(term=(*THING, "piece:*", "bread:*"), without=True, many=True),
        "piece": Slot(term=("piece:*", "bread:*"), many=True, weight=-0.6),
    },
    cues={
        "mistake:*": 2.4, "so_far:*": 1.0, "step_left:*": 1.4, "implies:*": 0.5, "cue:dough": 0.6,
        "cue:greater": 0.6, "ask:what": 0.2, "ask:can_i": 0.3, "ask:how_much": 0.3, "ask:how_to": 0.3,
        "ask:is_it": 0.2, "act:add": 0.4, "cue:fewer": 0.3, "kettle:*": 0.6, "act:correct": 0.3, "ask:when": 0.2,
        "tail:*": 0.0,
    },
    needs=("mistake:*",),
    base=0.2,
)  # fmt: skip
