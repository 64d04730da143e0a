"""Numbers in a complaint: which hours, degrees and percentages belong to which stage of the bake.

Each amount takes the steering word that stands best to it: near, before it rather than after, no comma or other amount
of its kind between, and a value the stage can have. A temperature right behind a time belongs to the time's stage.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from grammar.complaint_stages import AGENTS, COUNTS, DAY, LENGTHS, PERCENTS, TEMPS, TIMES
from grammar.complaint_words import CueAt, Word
from grammar.frames import celsius
from grammar.phrases import Phrase
from grammar.tokens import Quantity

_UNDER, _OVER = frozenset({"under", "below", "less"}), frozenset({"over", "above", "beyond", "more"})
_A_LITTLE = 0.03
"""How far "under" or "over" a figure is taken to be, as a share of it (one degree for temperatures)."""
_COUNTED: Mapping[str, tuple[float, float]] = {
    "night": (DAY, DAY / 2), "month": (30.4 * DAY, 0.0), "year": (365 * DAY, 0.0),
}  # fmt: skip
"""Minutes of each, less what the first falls short: three nights are two days and a night of half a day."""
_BREAKING = frozenset({"and", "then", "but", "with", "so", "while", "plus"})
_TOO_FAR = -9.0
_OVEN_LEAST_C = 110.0
_STILL_TO_COME = frozenset({"left", "remaining"})
_SPOON_G_PER_ML = 0.95
"""Grams of soda or malt to a millilitre of spoon, near enough for a bath."""


@dataclass(frozen=True, slots=True)
class Placed:
    """An amount with the places of its words. side: -1 for "under 21", +1 for "over 28", else 0."""

    phrase: Phrase
    first: int
    last: int
    side: int = 0
    counted: str = ""  # "night" or "month" where the number counts them

    @property
    def dim(self) -> str | None:
        """What the amount measures; a count of nights or months is a time."""
        return "time" if self.counted else self.phrase.dim

    @property
    def quantity(self) -> Quantity:
        assert self.phrase.quantity is not None
        return self.phrase.quantity

    @property
    def middle(self) -> float:
        """The amount in %, g, ml, cm, min or as a number; the middle of a range."""
        ends = [q for q in (self.phrase.quantity, self.phrase.high) if q is not None]
        if self.counted:
            each, first = _COUNTED[self.counted]
            return sum(q.value * each - first for q in ends) / len(ends)
        return sum(q.base for q in ends) / len(ends) * (1 + _A_LITTLE * self.side)

    def in_c(self, high: float) -> float:
        ends = [q for q in (self.phrase.quantity, self.phrase.high) if q is not None]
        return sum(celsius(q.value, q.unit, high) for q in ends) / len(ends) + self.side


@dataclass(frozen=True, slots=True)
class Figures:
    """Figures found (id, value), amounts nobody could place, and bare ones that may answer an open question."""

    found: tuple[tuple[str, float], ...]
    left: tuple[Phrase, ...]
    bare: tuple[tuple[str, float], ...]  # (dim, value): temperature in °C, time in min, pct, num, length in cm


def placed(words: Sequence[Word], phrases: Sequence[Phrase]) -> tuple[Placed, ...]:
    """The amounts of a line with the places of their words."""
    out = []
    for phrase in phrases:
        if phrase.kind != "amount" or phrase.quantity is None:
            continue
        start, end = phrase.tokens[0].start, phrase.tokens[-1].end
        places = [n for n, w in enumerate(words) if start <= w.start < end]
        if places:
            side = _side(words, places[0])
            after = words[places[-1] + 1].text.removesuffix("s") if places[-1] + 1 < len(words) else ""
            counted = after if after in _COUNTED and phrase.dim == "num" else ""
            out.append(Placed(phrase, places[0], places[-1], side, counted))
    return tuple(out)


def _side(words: Sequence[Word], first: int) -> int:
    """-1 for "under 21" or "less than 21", +1 for "over 28", else 0; "over proofed, 6 hours" is neither."""
    at = first - 1
    if at < 0 or words[first].after_mark:
        return 0
    if words[at].text == "than" and at:
        at -= 1
    return -1 if words[at].text in _UNDER else 1 if words[at].text in _OVER else 0


def figures(
    words: Sequence[Word],
    phrases: Sequence[Phrase],
    cues: Sequence[CueAt],
    of_starter: bool,
    spoken_for: frozenset[int],
    of_dough: bool = False,
) -> Figures:
    """Every amount of the line as a figure of the bake. spoken_for: words that are part of a turn of speech."""
    amounts = placed(words, phrases)
    cues = [cue for cue in cues if not any(words[n].amount >= 0 for n in range(cue[0], cue[1] + 1))]
    found: dict[str, float] = {}
    left: list[Phrase] = []
    bare: list[tuple[str, float]] = []
    stage_of: dict[int, str] = {}
    taken: set[int] = set()
    for one in _together(amounts, words, cues):
        found.update(one[1])
        taken |= one[0]
    if "piece_g" not in found and any(_bare_kilo(n, words) for n in range(len(words))):
        found["piece_g"] = 1000.0
    for n, amount in enumerate(amounts):
        if n in taken:
            continue
        dim = amount.dim
        if dim == "time" and amount.last + 1 < len(words) and words[amount.last + 1].text in _STILL_TO_COME:
            continue  # "ten minutes left" is not how long it has baked
        placed_as: tuple[str, float] | None = None
        if dim == "time":
            placed_as = _time(amount, amounts, words, cues, of_starter, stage_of, n, of_dough)
            if placed_as is None:
                bare.append(("time", amount.middle))
        elif dim == "temperature":
            placed_as = _temperature(amount, amounts, words, cues, stage_of, n, found)
            if placed_as is None:
                bare.append(("temperature", amount.in_c(300)))
        elif dim == "pct":
            placed_as = _percent(amount, amounts, words, cues)
            if placed_as is None:
                bare.append(("pct", amount.middle))
        elif dim == "length":
            cue = _best(
                amount, amounts, words, cues, {k: (v[2] / v[1], v[3] / v[1]) for k, v in LENGTHS.items()}, amount.middle
            )
            if cue is not None:
                placed_as = (LENGTHS[cue][0], amount.middle * LENGTHS[cue][1])
            else:
                bare.append(("length", amount.middle))
        elif dim == "num":  # "half the flour" is no figure of the bake
            placed_as = _count(amount, amounts, words, cues, stage_of, n, found)
            if placed_as is None:
                bare.append(("num", amount.middle))
        elif dim == "mass":
            placed_as = _piece(amount, words)
        if placed_as is None:
            ratio = ":" in words[amount.first].text
            said_in_words = amount.quantity.spelled and amount.phrase.dim in ("num", "share")
            if not (amount.first in spoken_for or ratio or said_in_words):
                left.append(amount.phrase)
        elif placed_as[0] not in found:
            found[placed_as[0]] = placed_as[1]
            dialled = amount.phrase.old
            if placed_as[0] == "oven_real_c" and dialled is not None and dialled.base >= 110:
                found.setdefault("oven_c", celsius(dialled.value, dialled.unit, 300))  # "actually 175 not 210"
        else:
            left.append(amount.phrase)
    return Figures(tuple(found.items()), tuple(left), tuple(bare))


def _best(
    amount: Placed,
    amounts: Sequence[Placed],
    words: Sequence[Word],
    cues: Sequence[CueAt],
    ranges: Mapping[str, tuple[float, float]],
    value: float,
    *,
    right: float = 0.6,
    weights: Mapping[str, float] | None = None,
) -> str | None:
    """The steering word an amount belongs to, by nearness, side, what stands between and what the value can be."""
    best: tuple[float, str] | None = None
    for first, last, kind, name in cues:
        if kind != "figure" or name not in ranges:
            continue
        low, high = ranges[name]
        if not low <= value <= high:
            continue
        after = first > amount.last
        between = range(amount.last + 1, first) if after else range(last + 1, amount.first)
        edge = first if after else amount.first
        score = -float(len(between)) - (right if after else 0.0) + 0.15 * (last - first)
        score -= 2.2 * sum(words[n].after_mark for n in (*between, edge))
        score -= 1.3 * sum(words[n].text in _BREAKING for n in between)
        alike = [a for a in amounts if a is not amount and a.dim == amount.dim]
        score -= 3.0 * sum(a.first in between for a in alike)
        score -= 0.8 * sum(a.first in between for a in amounts if a is not amount and a not in alike)
        score += (weights or {}).get(name, 0.0)
        if best is None or score > best[0]:
            best = (score, name)
    return best[1] if best is not None and best[0] > _TOO_FAR else None


_TIME_WEIGHTS = {
    "cut": -1.2,
    "age": 1.0,
    "keep": -0.5,
    "bulk": -0.1,
    "doubles": -1.0,
    "fallen": -0.8,
    "retard": 0.2,
    "bake": -0.2,
}


def _time(
    amount: Placed, amounts: Sequence[Placed], words: Sequence[Word], cues: Sequence[CueAt], of_starter: bool,
    stage_of: dict[int, str], n: int, of_dough: bool,
) -> tuple[str, float] | None:  # fmt: skip
    minutes = amount.middle
    ranges = {stage: (low, high) for stage, (_, _, low, high) in TIMES.items()}
    weights = dict(_TIME_WEIGHTS)
    if of_starter:
        weights |= {"fed": 2.0, "age": 2.0, "doubles": 1.0, "bulk": -3.0, "proof": -3.0, "retard": -1.5, "bake": -3.0}
    else:
        weights |= {"fed": -0.5, "doubles": -2.5}
        if not any(name == "starter" and kind in ("subject", "figure") for _, _, kind, name in cues):
            ranges.pop("age", None) if not any(
                name in ("instant", "fresh", "active_dry") for *_, name in cues
            ) else None
    if not any(name == "cut" for *_, name in cues):
        ranges.pop("out")  # "soft an hour after the oven": nobody cut it
    seconds = amount.quantity.unit == "second"
    if seconds:
        weights |= {"boil": 4.0, "lye": 3.0, "bake": -4.0, "bulk": -6.0, "proof": -6.0}
    else:
        weights |= {"boil": -0.6}
    stage = _best(amount, amounts, words, cues, ranges, minutes, weights=weights)
    if stage is None and seconds:
        stage = "boil"
    if stage is None:
        follows = next((a for a in amounts if a.first > amount.last), None)
        if follows is not None and follows.dim == "temperature" and follows.in_c(60) <= 10:
            stage = "retard"
    follows = next((a for a in amounts if a.first > amount.last), None)
    near = [a for a in amounts if 0 < a.first - amount.last <= 5 and a.dim in ("temperature", "num")]
    if any(_degrees(one) >= _OVEN_LEAST_C for one in near) and 5 <= minutes <= 3 * 60:
        stage = "bake"  # an hour and more "at 190" was in the oven
    mild = follows is not None and follows.dim in ("temperature", "num") and follows.first - amount.last <= 3
    if mild and follows is not None and stage in ("bake", "cut", "out") and 14 <= _degrees(follows) <= 45:
        stage = "proof"  # "baked after 25 min at 19"
    if mild and follows is not None and stage is None and not of_starter and 14 <= _degrees(follows) <= 45:
        stage = "unsaid"
    ago = amount.last + 1 < len(words) and words[amount.last + 1].text == "ago"
    out_of_the_cold = _best(amount, amounts, words, cues, {"room": (20, 4 * DAY)}, minutes)
    if stage is None and not of_starter and out_of_the_cold is not None:
        stage = "unsaid"  # "30 hours at room temp"
    if stage is None and of_dough and not ago and 20 <= minutes <= 4 * DAY:
        stage = "unsaid"
    if stage is None:
        return None
    stage_of[n] = stage
    figure, per_unit, _, _ = TIMES[stage]
    named = {name for *_, name in cues}
    if stage == "age" and not of_starter and "starter" not in named and named & {"instant", "fresh", "active_dry"}:
        return "yeast_age_months", minutes / DAY / 30.4
    return figure, minutes / per_unit


def _piece(amount: Placed, words: Sequence[Word]) -> tuple[str, float] | None:
    """A weight beside what was baked: "one loaf of 1.1 kg", "a big kilo one", "90 g pieces"."""
    near = {words[n].text for n in range(max(0, amount.first - 4), min(len(words), amount.last + 4))}
    low = _LEAST_PIECE_G if near & _PIECES else _LEAST_LOAF_G if near & _LOAVES else math.inf
    return ("piece_g", amount.middle) if low <= amount.middle <= _MOST_PIECE_G else None


def _bare_kilo(n: int, words: Sequence[Word]) -> bool:
    """Whether a word is a kilo nobody counted, of a loaf: "a kilo loaf", "a big kilo one"."""
    if words[n].text not in ("kilo", "kilogram") or words[n].amount >= 0:
        return False
    return bool({word.text for word in words[n + 1 : n + 3]} & _LOAVES)


_LOAVES = frozenset({"loaf", "loaves", "boule", "batard", "miche", "one", "tin", "bread", "cob", "bloomer", "weighed"})
_PIECES = frozenset({"pieces", "rolls", "buns", "rings", "bagels", "each", "apiece", "roll", "bun", "ring", "balls"})
_LEAST_PIECE_G, _LEAST_LOAF_G, _MOST_PIECE_G = 30.0, 250.0, 3000.0


def _degrees(amount: Placed) -> float:
    return amount.quantity.value if amount.dim == "num" else amount.in_c(60)


def _temperature(
    amount: Placed, amounts: Sequence[Placed], words: Sequence[Word], cues: Sequence[CueAt],
    stage_of: Mapping[int, str], n: int, found: Mapping[str, float],
) -> tuple[str, float] | None:  # fmt: skip
    if amount.quantity.unit == "deg" and amount.quantity.value <= 90:
        near = _best(amount, amounts, words, cues, {"angle": (0, 90)}, amount.quantity.value)
        if near is not None and not _best(
            amount, amounts, words, cues, {"bulk": (0, 50), "proof": (0, 50), "core": (55, 99)}, amount.in_c(60)
        ):
            return "score_deg", amount.quantity.value
    value = amount.in_c(300)
    if n and n - 1 in stage_of and amounts[n - 1].last + 4 > amount.first:
        stage = stage_of[n - 1]
        if stage in TEMPS and TEMPS[stage][1] <= value <= TEMPS[stage][2] and not words[amount.first].after_mark:
            nearer = [
                c for c in cues if amounts[n - 1].last < c[0] < amount.first and c[2] == "figure" and c[3] in TEMPS
            ]
            if not nearer and TEMPS[stage][0] not in found:
                return TEMPS[stage][0], value
    ranges = {name: (low, high) for name, (figure, low, high) in TEMPS.items() if figure not in found}
    weights = {
        "thermometer": 0.3,
        "core": 0.3,
        "bulk": -0.3,
        "proof": -0.2,
        "mix": -1.0,
        "jar": -0.6,
        "bake": -0.1,
        "lid": -1.5,
    }
    weights |= {"water": -0.3, "room": 0.2}
    cue = _best(amount, amounts, words, cues, ranges, value, weights=weights)
    if cue is None and n + 1 < len(amounts) and n + 1 not in stage_of and amounts[n + 1].dim == "time":
        cue = _best(amounts[n + 1], amounts, words, cues, ranges, value)
    hot = amount.dim == "temperature" or _beside(amount, cues) is None
    if cue is None and value >= 110 and hot:
        return ("oven_c", value) if "oven_c" not in found else None
    return (TEMPS[cue][0], value) if cue is not None else None


def _before(
    amount: Placed, amounts: Sequence[Placed], cues: Sequence[CueAt], ranges: Mapping[str, tuple[float, float]]
) -> str | None:
    """The word right before, where the one right behind has an amount of its own: "wholemeal 80 % hydration 62"."""
    named = [(first, last, name) for first, last, kind, name in cues if kind == "figure" and name in ranges]
    taken = {one.first for one in amounts}
    leads = any(first == amount.last + 1 and last + 1 in taken for first, last, _ in named)
    return next((name for _, last, name in named if last == amount.first - 1), None) if leads else None


def _percent(
    amount: Placed, amounts: Sequence[Placed], words: Sequence[Word], cues: Sequence[CueAt]
) -> tuple[str, float] | None:
    value = amount.middle
    ranges = {name: (low, high) for name, (_, _, low, high) in PERCENTS.items()}
    weights = {"bulk": -2.0, "proof": -2.0, "lye": 0.3, "active_dry": 0.5, "fresh": 0.5, "protein": 0.3}
    cue = _best(amount, amounts, words, cues, ranges, value, right=-0.2, weights=weights)
    cue = _before(amount, amounts, cues, ranges) or cue
    if cue in ("bulk", "proof") and value <= 115 and value >= 50 and words[amount.first - 1].text in ("at", "of"):
        cue = None
    if cue is None:
        return ("hydration_pct", value) if 45 <= value <= 120 else None
    figure, factor, _, _ = PERCENTS[cue]
    return figure, value * factor


def _count(
    amount: Placed, amounts: Sequence[Placed], words: Sequence[Word], cues: Sequence[CueAt],
    stage_of: Mapping[int, str], n: int, found: Mapping[str, float],
) -> tuple[str, float] | None:  # fmt: skip
    """A bare number: degrees behind a stage or a place, a count of folds or pieces, a percentage without its sign."""
    value = amount.quantity.value
    before = words[amount.first - 1].text if amount.first else ""
    if before in ("at", "in", "around", "about", "to", "was", "is", "said", "read", "reads", "set") or not amounts[:n]:
        as_degrees = _temperature(amount, amounts, words, cues, stage_of, n, found)
    else:
        as_degrees = None
    ranges = {name: (low, high) for name, (_, low, high) in COUNTS.items()}
    counted = _best(amount, amounts, words, cues, ranges, value, weights={"tray": 0.2})
    if counted is not None:
        near = _distance(amount, cues, counted)
        if counted == "hydration" and before in ("was", "at", "were") and as_degrees is not None:
            return as_degrees  # "the water was 60" is how hot it was
        degrees_near = min((_distance(amount, cues, name) for name in TEMPS), default=99)
        if as_degrees is None or near <= degrees_near:
            return COUNTS[counted][0], value
    if as_degrees is not None:
        return as_degrees
    stage = _temperature(amount, amounts, words, cues, stage_of, n, found)
    close = min((_distance(amount, cues, name) for name in TEMPS), default=99)
    if stage is None and before == "at" and 45 <= value <= 100 and _distance(amount, cues, "flour") <= 2:
        return "hydration_pct", value  # "manitoba flour at 58"
    return stage if stage is not None and close <= 2 else None


def _distance(amount: Placed, cues: Sequence[CueAt], name: str) -> int:
    gaps = [
        first - amount.last if first > amount.last else amount.first - last
        for first, last, kind, one in cues
        if kind == "figure" and one == name
    ]
    return min(gaps, default=99)


def _together(
    amounts: Sequence[Placed], words: Sequence[Word], cues: Sequence[CueAt]
) -> list[tuple[set[int], dict[str, float]]]:
    """Amounts that mean something only together: grams to the litre, water to flour, weight before and after."""
    out: list[tuple[set[int], dict[str, float]]] = []
    degrees = ("temperature", "num")
    heats = [n for n, a in enumerate(amounts) if a.phrase.dim in degrees and 110 <= a.quantity.value <= 550]
    either = {"set": (0.0, 999.0), "bake": (0.0, 999.0)}
    dialled = [n for n in heats if _best(amounts[n], amounts, words, cues, either, 1) == "set"]
    if len(heats) == 2 and len(dialled) == 1 and not any(name == "thermometer" for *_, name in cues):
        real = next(n for n in heats if n not in dialled)
        pair = {"oven_c": amounts[dialled[0]].in_c(300), "oven_real_c": amounts[real].in_c(300)}
        out.append((set(heats), pair))
    masses = [n for n, a in enumerate(amounts) if a.phrase.dim == "mass"]
    bare = [n for n, a in enumerate(amounts) if a.dim == "num" and a.quantity.value >= _LEAST_BARE_G]
    beside = {n: _beside(amounts[n], cues) for n in bare}
    if {"flour", "hydration"} <= set(beside.values()):  # "600 flour 280 water"
        masses += [n for n in bare if beside[n] is not None]
    volumes = [n for n, a in enumerate(amounts) if a.phrase.dim == "volume"]
    litres = [n for n in volumes if amounts[n].middle >= 250]
    spoons = [n for n in volumes if amounts[n].middle < 250]
    per_litre = any(w.text in ("litre", "liter", "l", "litres") for w in words) or bool(litres)
    agent = next((name for _, _, kind, name in cues if kind == "agent"), None)
    if per_litre and agent is not None and (masses or spoons):
        litre = amounts[litres[0]].middle / 1000 if litres else 1.0
        agent = "carbonate" if any(n == "carbonate" for *_, k, n in cues if k == "agent") else agent
        agent = "lye" if any(n == "lye" for *_, k, n in cues if k == "agent") else agent
        n = masses[0] if masses else spoons[0]
        grams = amounts[n].middle if masses else amounts[n].middle * _SPOON_G_PER_ML
        if litre > 0:
            figure = {"bath_lye_pct": grams / litre / 10} if agent == "lye" else {AGENTS[agent]: grams / litre}
            out.append(({n, *litres[:1]}, figure))
        return out
    by_spoon = _spooned(amounts, spoons, masses, words, cues)
    if by_spoon is not None:
        out.append(by_spoon)
    if len(masses) < 2:
        if len(masses) == 1 and any(k == "figure" and name == "protein" for _, _, k, name in cues):
            out.append(({masses[0]}, {"protein_pct": amounts[masses[0]].middle}))
        return out
    named = {n: _named(amounts[n], amounts, words, cues) for n in masses}
    by_name = {name: n for n, name in named.items() if name is not None}
    flour = by_name.get("flour")
    if flour is not None and amounts[flour].middle > 0:
        whole = amounts[flour].middle
        pairs = {
            "hydration": "hydration_pct",
            "salt": "salt_pct",
            "sugar": "sugar_pct",
            "starter": "starter_pct",
            "fat": "fat_pct",
        }
        figures_found = {pairs[name]: 100 * amounts[n].middle / whole for name, n in by_name.items() if name in pairs}
        yeasts = {"instant": 3.0, "active_dry": 2.5, "fresh": 1.0}
        for name, factor in yeasts.items():
            if name in by_name:
                figures_found["yeast_fresh_pct"] = 100 * factor * amounts[by_name[name]].middle / whole
        if figures_found:
            used = {flour, *(n for name, n in by_name.items() if name in pairs or name in yeasts)}
            out.append((used, figures_found))
            return out
    before, after = amounts[masses[0]].middle, amounts[masses[1]].middle
    says_so = any(k == "figure" and name in ("before", "after", "loss") for _, _, k, name in cues)
    if says_so and before > 0 and 0.6 <= after / before < 1:
        out.append(({masses[0], masses[1]}, {"loss_pct": 100 * (before - after) / before}))
    return out


_LEAST_BARE_G = 20.0
_SPOONED: Mapping[str, tuple[str, float]] = {
    # cue: (figure, grams to a millilitre of spoon, as the figure counts them)
    "instant": ("yeast_fresh_pct", 3.0 * 0.63),
    "active_dry": ("yeast_fresh_pct", 2.5 * 0.61),
    "salt": ("salt_pct", 1.22),
}


def _spooned(
    amounts: Sequence[Placed], spoons: Sequence[int], masses: Sequence[int], words: Sequence[Word],
    cues: Sequence[CueAt],
) -> tuple[set[int], dict[str, float]] | None:  # fmt: skip
    """Yeast or salt by the spoon to a weight of flour: "a tablespoon of yeast per 500 g"."""
    if len(spoons) != 1 or len(masses) != 1 or amounts[masses[0]].middle <= 0:
        return None
    name = _best(amounts[spoons[0]], amounts, words, cues, dict.fromkeys(_SPOONED, (0, 1000)), 1)
    of = _named(amounts[masses[0]], amounts, words, cues)
    if name is None or of not in (None, "flour", name):
        return None
    figure, g_per_ml = _SPOONED[name]
    share = 100 * amounts[spoons[0]].middle * g_per_ml / amounts[masses[0]].middle
    return {spoons[0], masses[0]}, {figure: share}


def _beside(amount: Placed, cues: Sequence[CueAt]) -> str | None:
    """Flour or water right behind a bare number, else right before it."""
    named = [(first, last, name) for first, last, kind, name in cues if kind == "figure"]
    for name in ("flour", "hydration"):
        if any(one == name and first == amount.last + 1 for first, _, one in named):
            return name
    return next((n for _, last, n in named if n in ("flour", "hydration") and last == amount.first - 1), None)


_MASS_OF = ("flour", "hydration", "salt", "sugar", "starter", "fat", "instant", "active_dry", "fresh")


def _named(amount: Placed, amounts: Sequence[Placed], words: Sequence[Word], cues: Sequence[CueAt]) -> str | None:
    return _best(amount, amounts, words, cues, dict.fromkeys(_MASS_OF, (0, 1000000000.0)), amount.middle, right=-0.5)
