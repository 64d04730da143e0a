"""The doughs of the notebook as they are named: by the name they were kept under, by the day they were made."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from datetime import datetime, timedelta
from functools import lru_cache

from assistant.notebook.event import Entry
from assistant.talk.bench import Bench
from assistant.talk.doughs import Baked, answers_to, history, labels, of_days, of_kind
from assistant.talk.steering import steers
from grammar.days import MONTHS, WEEKDAYS
from grammar.lexicon import Lexicon, fold
from grammar.past import DAY, Span, prefixed, span_of
from grammar.spoken import Spoken, matched, spoken
from grammar.turns import BEFORE, is_this
from knowledge import Knowledge


@dataclass(frozen=True, slots=True)
class Scene:
    """What there is to be named. entries: the notebook's, newest first; whole: the line is a dough of its own."""

    kb: Knowledge
    now: datetime
    bench: Bench
    entries: Iterable[Entry]
    lexicon: Lexicon
    whole: bool = False


_GENERIC = (
    "ones", "one", "dough", "doughs", "batch", "bake", "lot", "formula", "recipe", "bread", "breads", "things",
)  # fmt: skip
_FROM = (
    r"(?: (?:i|we) (?:made|had|baked|did|ate))?(?: again)? (?:from|of|as|like|we had|as on|from on|as we had)(?: on)?"
)
_MADE = (
    r"(?: that| which)? (?:i|we|you and i) (?:made|had|baked|did|ate|was making|were making|cooked|knocked up)(?: on)?"
)


_DAY_ALONE = re.compile(rf"(?:the )?{DAY}")


def mentions_a_day(text: str, kb: Knowledge) -> bool:
    """Whether the notebook has to be looked through for a line."""
    return day_named(spoken(text), kb) is not None


_OF_DAYS = (
    *WEEKDAYS, *MONTHS, "ago", "back", "before", "since", "earlier", "week", "month", "year", "fortnight", "day",
    "last", "this morning", "time", "changes",
)  # fmt: skip
_DATED = re.compile(r"\d(?:st|nd|rd|th)\b|\d{4} \d\d \d\d")


def day_named(said: Spoken, kb: Knowledge) -> re.Match[str] | None:
    """Where a line names a dough by its day. Most lines have no word of a day, and are spared the long pattern."""
    if not any(word in said.folded for word in _OF_DAYS) and _DATED.search(said.folded) is None:
        return None
    return _day_template(kb).search(said.folded)


def resolved(words: str, scene: Scene) -> Baked | None:
    """The dough that words name: on the bench, kept by name, or made on a day; None where there is none."""
    said = spoken(words)
    made = history(scene.bench, scene.entries)
    in_hand = next((one for one in made if one.bake is not None and one.bake == scene.bench.in_hand), None)
    if is_this(words, scene.lexicon):
        return in_hand
    for name, kept in kept_by_name(scene.bench).items():
        if said.folded in (name, f"the {name}", f"my {name}", f"our {name}"):
            return kept
    before = _before(said, made, in_hand, scene)
    if before is not None:
        return before
    if said.folded == "last one":
        return made[0] if made else None
    if said.folded == "the one before":
        return made[1] if len(made) > 1 else None
    hit = day_named(said, scene.kb)
    if hit is not None:
        return chosen(hit, made, scene)
    alone = _DAY_ALONE.fullmatch(said.folded)
    span = span_of(alone) if alone is not None else None
    if span is not None and not span.last_time:
        label = answers_to(in_hand.said, "", scene.kb)[:1] if in_hand is not None else ()
        there = _then(made, span, scene.now)
        return next(iter(of_kind(there, label[0] if label else None, scene.kb) or there), None)
    if matched("(?:<hand:last_time>)", said, scene.lexicon):
        label = answers_to(in_hand.said, "", scene.kb)[:1] if in_hand is not None else ()
        kind = of_kind(made, label[0] if label else None, scene.kb)
        others = [one for one in kind if one is not in_hand]
        return others[0] if others else None
    return next(
        (
            one
            for bake, names in labels(scene.bench, scene.now, scene.kb)
            for one in made
            if one.bake == bake.id and _names(said.folded, names)
        ),
        None,
    ) or next((one for one in made if _names(said.folded, answers_to(one.said, one.called, scene.kb))), None)


def _before(said: Spoken, made: Sequence[Baked], in_hand: Baked | None, scene: Scene) -> Baked | None:
    """The newest of a kind that is not in hand: "the last lot of baps", "the last ones of these"; the one in hand where
    it is the only one of its kind."""
    hit = matched(BEFORE, said, scene.lexicon)
    if hit is None:
        return None
    kind = spoken(hit["kind"] or hit["same"]).folded
    own = is_this(kind, scene.lexicon) or matched("<hand:lot>", spoken(kind), scene.lexicon) is not None
    name = answers_to(in_hand.said, "", scene.kb)[:1] if own and in_hand is not None else (kind,)
    there = of_kind(made, name[0], scene.kb) if name else list(made)
    return next((one for one in there if one is not in_hand), there[0] if there else None)


def _names(words: str, names: Sequence[str]) -> bool:
    return any(words in (name, f"the {name}", f"my {name}", f"our {name}", f"these {name}") for name in names)


def kept_by_name(bench: Bench) -> dict[str, Baked]:
    return {fold(one.name): Baked(one.said, one.at, one.title, one.name) for one in bench.kept}


def as_named(name: str, said: Spoken, scene: Scene) -> re.Match[str] | None:
    """Where a line has a kept name, or behind words that only point to a dough the name without its kind."""
    whole = rf"{re.escape(name.removesuffix('s'))}s?(?: (?:dough|formula|recipe|weights))?"
    hit = re.search(rf"\b{_WHOSE}{whole}\b", said.folded)
    stem, _, kind = name.rpartition(" ")
    of_kind_only = " " not in stem and bool(scene.lexicon.phrases.get(stem))
    if hit is not None or of_kind_only or re.fullmatch(_kinds(scene.kb), kind) is None:
        return hit
    short = re.search(
        rf"\b{_WHOSE}(?P<short>{re.escape(stem)})(?: (?:{_kinds(scene.kb)}))?(?![\w%°]| ?[%°])", said.folded
    )
    return short if short is not None and steers(said.folded[: short.start()], scene.lexicon) else None


_WHOSE = "(?:the |my |our |those |these )?"


@lru_cache(maxsize=4)
def _kinds(kb: Knowledge) -> str:
    """Every word a dough may be called by, the longest first."""
    forms = {fold(form) for one in kb.words.values() if one.kind == "piece" for form in one.said_as}
    forms |= {fold(form) for bread in kb.breads.values() for form in bread.said_as}
    forms |= {f"{form}s" for form in forms} | set(_GENERIC) | {"loaves"}
    return "|".join(re.escape(form) for form in sorted(forms, key=lambda form: -len(form)) if form)


@lru_cache(maxsize=4)
def _day_template(kb: Knowledge) -> re.Pattern[str]:
    """ "last Sunday's rings", "the loaves from 13 March", "same rings as last Saturday", "same as last week"."""
    kind, late, same = _kinds(kb), prefixed("x_"), prefixed("y_")
    the = r"(?:(?:the|my|our|those|these|that|same|all) )*"
    look = "|".join(form for name in _LOOKS for form in kb.words[f"hand {name}"].said_as)
    return re.compile(
        rf"\b(?:{the}(?:(?P<look>{look}) )?(?P<kind>{kind})(?:{_FROM}|{_MADE}) {DAY}"
        rf"|{the}{late} (?P<late>{kind})"
        rf"|(?P<same>{the}same (?:again |one |lot |dough |recipe )?(?:as|like|from|of)"
        rf"(?: (?:i|we) (?:made|did|had|baked))?) {same}"
        rf"|{the}(?P<again>{kind})(?: again)? with (?:(?:the|my|our|all) )*changes(?: (?:i|we) made)?"
        rf"(?: (?:from|of|since|after))?(?: (?:the )?last (?:time|bake|week|weekend)| then)?)\b"
    )


_CHANGES = "changes"


def _parts(hit: re.Match[str]) -> tuple[str | None, str]:
    """The kind of dough named and the prefix of the day's groups."""
    if hit["kind"] is not None:
        return hit["kind"], ""
    if hit["late"] is not None:
        return hit["late"], "x_"
    return (hit["again"], _CHANGES) if hit["again"] is not None else (None, "y_")


def looks_back(hit: re.Match[str], said: Spoken) -> bool:
    """Whether the day named is one gone by: "last", a date, "ago"; a bare weekday only behind "from" or "made"."""
    _, prefix = _parts(hit)
    said_of = {name: hit.groupdict().get(f"{prefix}{name}") for name in ("weekday", "lead", "gone", "today")}
    if said_of["today"] is not None:
        return False
    if said_of["weekday"] is None or said_of["lead"] is not None or said_of["gone"] is not None:
        return True
    return prefix != "x_" or said.folded.startswith(("same", "back to", "bring back", "get back", "fetch", "repeat"))


def chosen(hit: re.Match[str], made: Sequence[Baked], scene: Scene) -> Baked | None:
    kind, prefix = _parts(hit)
    span = span_of(hit, prefix) if prefix != _CHANGES else Span(last_time=True)
    if span is None:
        return None
    label = None if kind is None or kind in _GENERIC else kind
    fitting = of_kind(made, label, scene.kb)
    if span.last_time:
        return next((one for one in fitting if not _of_now(one, scene)), None)
    found = _then(fitting, span, scene.now)
    return _by_look(found, hit["look"], scene.kb)


def _by_look(found: Sequence[Baked], look: str | None, kb: Knowledge) -> Baked | None:
    """Of those of a day the one that looks so: the wettest, the driest; else the newest."""
    way = next((way for name, way in _LOOKS.items() if look in kb.words[f"hand {name}"].said_as), 0)
    return max(found, key=lambda one: way * float(one.said.get("hydration_pct") or 0), default=None)


_LOOKS = {"wet": 1, "dry": -1, "any_look": 0}
"""Words for how a dough is, and whether one so called has more water than others."""


def _then(made: Sequence[Baked], span: Span, now: datetime) -> list[Baked]:
    """Those of the days named, else of the days about them; on a Sunday "last Saturday" may be the one of the week
    before."""
    found = of_days(made, replace(span, about=0), now) or of_days(made, span, now)
    return found if found or span.weekday is None else of_days(made, span, now - timedelta(days=7))


def _of_now(baked: Baked, scene: Scene) -> bool:
    """Whether it is the dough of today that is in hand, which "last time" does not mean."""
    return baked.bake is not None and baked.bake == scene.bench.in_hand and baked.day == scene.now.date()
