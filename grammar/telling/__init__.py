"""A report of a bake under way, read as a whole: deeds and measurements in any order, several to a line.

The line is cut into amounts and words; words are looked up in the table of tellings, longest first. What a figure is of
follows from the gauge or the growth named in its clause, else from the deed; an hour belongs to the deed of its clause,
else to the nearest that has none.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from grammar.frames import Line, fits
from grammar.lexicon import fold
from grammar.phrases import Phrase
from grammar.telling.deeds import deeds
from grammar.telling.figures import figures
from grammar.telling.hours import hours, just_now, throughout
from grammar.telling.joins import joined
from grammar.telling.losses import losses
from grammar.telling.mends import again, mended, without_old
from grammar.telling.spans import to_the_hour
from grammar.telling.told import Cut, Telling, Told
from grammar.telling.words import items_of

__all__ = ["Telling", "Told", "telling", "where_it_lies"]
_MISHAPS = frozenset({"forgot", "meant", "by_mistake", "ounces", "short_pieces", "only_in"})
_LIGHT = frozenset(
    {"piece", "bread", "filler", "link", "cue", "holds", "span", "tail", "kept", "state", "act", "clock", "unit",
     "pick", "step", "stage", "mark", "so_far", "look", "mistake"}
)  # fmt: skip
"""Kinds of word that a report may hold beside what it tells."""
_NEVER = frozenset({"mass", "money", "each", "window", "sizes", "time", "length", "volume"})
"""Figures that no report of this kind has."""
_INVERTED = frozenset({"is", "are", "was", "were", "am"})
"""Verbs that ask where they stand first and a noun behind them."""


def _of_what_is_in_it(phrases: Sequence[Phrase]) -> bool:
    """ "put twice the starter in", "hydration came out 72": of what is in the dough, not of where the dough stands."""
    if any(fits(one, ("cue:leaving",)) for one in phrases) and any(fits(one, ("cue:portions",)) for one in phrases):
        return True  # who eats it, and not the bread, drops out
    factors = ("cue:double", "act:double", "act:triple")
    things = ("ingredient:*", "cue:starter", "cue:salt", "cue:water", "cue:flour", "cue:leaven")
    figures = [one for one in phrases if one.kind == "amount"]
    owners = ("cue:hydration", "cue:piece_mass") if figures and figures[0].dim == "num" else ("cue:hydration",)
    if len(figures) == 1 and any(fits(one, owners) for one in phrases):
        return True  # the one figure is the dough's water, or what a piece weighs
    return any(fits(one, factors) and fits(following, things) for one, following in pairwise(phrases))


def telling(line: Line) -> Telling | None:
    """What the line tells of a bake; None where it tells nothing, asks, bids or denies."""
    if line.text.rstrip().endswith("?") or len(line.text) > 400 or _of_what_is_in_it(line.phrases):
        return None
    items = joined(without_old(to_the_hour(items_of(line))))
    cut = Cut(items, under_way="told" in line.context.standing, lexicon=line.lexicon)
    mend = mended(cut, line)
    if mend is not None:
        return mend
    also = again(cut, line)
    if also is not None:
        return also
    if _no_report(cut, line):
        return None
    if line.context.has_bake or "told" in line.context.standing:
        losses(cut)
    deeds(cut)
    if line.context.focus == "mend":
        cut.made = [one for one in cut.made if one.told.what != "in"]  # what was forgotten is in
    ratio, starter_pct = figures(cut)
    if not any(one.told.what != "room_c" for one in cut.made):
        return None  # how warm it is there, alone, is the kitchen's
    hours(cut)
    just_now(cut)
    throughout(cut)
    sure = _sure(cut)
    unread = _unread(cut, line, sure)
    if unread is None or _only_up(cut, line):
        return None
    amounts = sum(1 for item in cut.items if item.amount is not None)
    of = tuple(fold(item.text) for item in cut.items if item.thing)
    return Telling(tuple(one.told for one in cut.made), starter_pct, ratio, sure, unread, amounts, of)


def where_it_lies(line: Line) -> bool:
    """Whether a line tells where the dough is now rather than how warm a place is: "it's by the stove now, 24"."""
    found = telling(line)
    return found is not None and any(one.what == "moved" for one in found.told)


def _no_report(cut: Cut, line: Line) -> bool:
    words = [item for item in cut.items if item.amount is None]
    first = words[0] if words else None
    if first is None or (first.ids("asks") and not first.ids("did")):
        return True
    if first.ids("q") and not (first.ids("phase") or first.ids("grown") or first.ids("small")):
        return True
    if cut.items[0] is first and fold(first.text) in _INVERTED and len(words) > 1 and not any(
        words[1].ids(kind) for kind in ("way", "did", "time", "doing", "moved")
    ):
        return True
    if any(item.ids("bids") or item.ids("denies") for item in words):
        return True
    if line.phrases and fits(line.phrases[0], ("cue:raised", "cue:lowered")):
        return True  # "up the starter by a quarter"
    if any(item.ids("asks") and item.clause != before.clause for before, item in pairwise(cut.items)):
        return True
    if any(item.amount is not None and item.amount.old is not None for item in cut.items):
        return True
    labels = [p for p in line.phrases if p.kind == "label" and not p.negated]
    aims = any("dough_temp" in p.ids("heat") and "loaf_of" not in p.ids("look") for p in labels)
    if aims and "told" not in line.context.standing:
        return True  # how warm a dough is to come out, before there is any
    done = any(item.ids("did") for item in words)
    mishaps = _MISHAPS - {"short_pieces"} if done else _MISHAPS
    if done and any(item.ids("mends") for item in words):
        mishaps = mishaps - {"meant", "by_mistake"}
    if any((p.ids("bedtime") and not done) or mishaps & set(p.ids("mistake")) for p in labels):
        return True
    first_amount = min((p.tokens[0].start for p in line.phrases if p.kind == "amount"), default=len(line.text))
    asked = [
        name for p in labels for name in p.ids("ask")
        if name not in ("first", "is_it") and not (name == "when" and p.tokens[0].start > first_amount)
    ]  # fmt: skip
    return bool(asked) or any(p.ids("clock") and p.ids("clock")[0] in ("timer", "call") for p in labels)


def _complains(cut: Cut, line: Line) -> bool:
    """Whether something is wrong with it: turns of speech of a complaint among words a report does not know."""
    words = [fold(item.text) for item in cut.items if item.amount is None]
    faults = line.lexicon.complaints
    stretches = (" ".join(words[at : at + count]) for at in range(len(words)) for count in (1, 2, 3))
    return any(kind in ("symptom", "danger") for stretch in stretches for kind, _ in faults.get(stretch, ()))


def _only_up(cut: Cut, line: Line) -> bool:
    """ "up 10 %", with nobody named and nothing under way: a change of something else."""
    if {"told", "plan"} & line.context.standing or line.context.focus == "progress":
        return False
    if any(one.told.what != "rise_pct" for one in cut.made):
        return False
    words = [item for item in cut.items if item.amount is None]
    grown = [fold(item.text) for item in words if item.ids("grown") or item.ids("grown_by")]
    small = line.lexicon.small("tells_of_it")
    named = any(item.ids("gauge") or item.thing or fold(item.text) in small for item in words)
    return not named and not any(word not in _LOOSE for word in grown)


_LOOSE = frozenset({"up", "increase", "increased", "doubled", "double", "tripled", "half again", "bigger", "higher"})


def _sure(cut: Cut) -> bool:
    """Whether it is told as done: a past verb, an hour, a measurement, or somebody it is told of."""
    told = any(
        not (one.told.at is None and one.told.ago_min is None and one.told.value is None) for one in cut.made
    )
    done = any(item.ids("did") or item.ids("done_in") or "done" in item.ids("moved") or item.ids("phase")
               for item in cut.items)  # fmt: skip
    of_it = any(fold(item.text) in cut.lexicon.small("tells_of_it") for item in cut.items if item.amount is None)
    return told or done or of_it


def _poured(cut: Cut) -> frozenset[int]:
    """Clauses that tell only that something went into the bowl: "flour's in", "the seeds went in too"."""
    return frozenset(
        number for number in {item.clause for item in cut.items}
        if any(one.food for one in cut.clause(number)) and any("in" in one.ids("way") for one in cut.clause(number))
        and all(one.food or (one.terms and one.amount is None) for one in cut.clause(number))
        and not any(one.clause == number for one in cut.made)
    )  # fmt: skip


def _unread(cut: Cut, line: Line, sure: bool) -> tuple[str, ...] | None:
    """What the report has no place for; None where that is so much that it is no report.

    Figures of what no report is of, a word of another trade, and, where nothing is told as done, anything left over.
    """
    left = []
    loose = all(one.told.what in ("in", "out") and one.told.at is None for one in cut.made)
    weak = not sure or (loose and not any("done" in item.ids("moved") for item in cut.items))
    poured = _poured(cut)
    idle = {fold(token.text) for token in line.tokens if token.idle}
    strange = [
        fold(item.text) for item in cut.items
        if item.amount is None
        and not (item.terms or item.thing or item.room or item.used or item.clause in poured)
    ]  # fmt: skip
    if strange and (weak or _complains(cut, line)):
        return None
    for item in cut.items:
        if item.amount is not None:
            if not item.used and (item.amount.dim in _NEVER or not sure):
                return None
            left += [] if item.used else [item.text]
            continue
        if item.terms or item.thing or item.room or item.used or item.clause in poured:
            continue
        terms = line.lexicon.phrases.get(fold(item.text), ())
        if any(kind not in _LIGHT for kind, _ in terms):
            return None
        word = fold(item.text)
        known = line.lexicon.letter(word)
        if not terms and word not in idle and (known in ("", "f", "k") or word in line.lexicon.weighty):
            left.append(item.text)
    return tuple(dict.fromkeys(left))
