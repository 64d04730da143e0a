"""What went wrong: a complaint with its facts, further facts, corrections, and the turns of the talk about it."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from grammar.complaint import Heard, hear, painted
from grammar.complaint_figures import Figures, figures, placed
from grammar.complaint_looks import COLOURS
from grammar.complaint_words import FILL, CueAt, Word, cues_of, means_something, word_set
from grammar.frames import Bound, Frame, Line, Own
from grammar.phrases import Phrase

_PLAIN, _POINTED, _PICTURED = 12.0, 9.5, 4.0
_PER_FIGURE, _PER_FINDING, _LEFT_OVER = 3.0, 1.2, -1.5
_GOING_ON = 3.4
_TURN = 45.0
"""Right after a complaint "what now" means the complaint."""
_ANSWERED, _ANSWERED_SHORTLY, _ASKS_SOMETHING_ELSE = 2.4, 6.0, 4.0
_OF_HARM = frozenset({"starter_mould", "starter_pink_or_orange"})
_LEFT_MASS = -3.0
"""Weights nobody can place belong to a dough to weigh out, not to a complaint."""
_BY_FEEL = frozenset({"slack", "sticky", "stiff", "dry"})
_WEIGHED = 5.0
"""A dough too wet or dry, with its weight, is to be put right: "dough too wet, 1.8 kg"."""
_WISHED = 12.0
_WISH = re.compile(
    r"\bhow (?:do|can|should|to) ?(?:i|you|we)? ?(?:get|make|achieve) (?!rid|it stop)"
    r"|\b(?:make|bring|take) it (?:to |down to )?\d"
)
"""What looks like a fault is wished for: "how do I get a thick crust", "too wet, make it 65 %"."""
_OTHER_TURNS = {"count": -2.5, "each": -2.5}
_HINTS = frozenset(
    [
        "flat",
        "wet",
        "dry",
        "stiff",
        "soft",
        "hard",
        "crust",
        "crumb",
        "dark",
        "light",
        "dead",
        "loose",
        "tight",
        "heavy",
        "close",
        "sticky",
        "sharp",
        "sour",
        "burst",
        "stuck",
        "mould",
        "mold",
        "fallen",
        "collapsed",
        "doubled",
        "tripled",
    ]
)
"""Words of the trade that may be a complaint too."""
_FEW_WORDS = 6
_A_FEW_SENTENCES = 12
"""A longer complaint tells a story: its words that name no fault, thing or figure of the trade are not nagged about."""
_NO_PIECE = frozenset({"crust", "crusts", "base", "flat", "piece", "pieces", "stick", "sticks", "cake"})
"""Words for pieces that name no bread in a complaint: a crust is a crust, not a pizza base."""
_SYMPTOM_AGAIN = frozenset({"also", "too", "and", "plus", "additionally", "as"})


@dataclass(frozen=True, slots=True)
class DiagnosisRequest:
    """why is my loaf dense, bulked 3 hours at 17 C with 10 % starter
    dough is slack and sticky, it was fine at first
    grey liquid on top of the starter, not fed in 10 days
    rolls are pale where they touch, 20 on one tray
    """

    symptoms: tuple[str, ...] = ()
    absent: tuple[str, ...] = ()
    findings: tuple[str, ...] = ()
    figures: tuple[tuple[str, float], ...] = ()  # (figure id, value in the unit its id ends with)
    dangers: tuple[str, ...] = ()  # set where a danger is told; never by the reader of complaints
    breads: tuple[str, ...] = ()
    pieces: tuple[str, ...] = ()
    subject: str | None = None  # bread, dough or starter
    answering: str | None = None  # the open question this line answers
    said_yes: bool | None = None
    unknown: bool | None = None  # "no idea"
    bare: tuple[tuple[str, float], ...] = ()  # (dimension, value) of amounts that only an open question can place
    skipped: tuple[str, ...] = ()  # questions not to ask again
    corrects: bool | None = None
    adds: bool | None = None  # says itself that it adds to what was said
    short: bool | None = None  # a line of few words
    repairs: tuple[tuple[str, str], ...] = ()
    state: str | None = None  # where it stands now: oven, hot, fridge, shaped, bowl, eaten

    def onto(self, earlier: object, bound: Bound) -> DiagnosisRequest:
        """Facts added to a complaint, or a correction of them; a new complaint of its own stands alone."""
        if not isinstance(earlier, DiagnosisRequest) or self.dangers:
            return self
        if self.short and earlier.subject == "bread" and self.symptoms and set(self.symptoms) <= _DENTS.keys():
            told = tuple(_DENTS[one] for one in self.symptoms)
            return replace(self, symptoms=(), findings=(*self.findings, *told)).onto(earlier, bound)
        if self.symptoms and not (self.corrects or self.adds or self.answering_only(earlier)):
            return self
        figures_now = dict(_placed(self.figures, self._stage_meant(earlier)))
        stages = {_STAGE_OF.get(name) for name in figures_now} - {None}
        kept = tuple(
            (name, value)
            for name, value in earlier.figures
            if name not in figures_now and not (self.corrects and _STAGE_OF.get(name) in stages)
        )
        symptoms = tuple(dict.fromkeys((*earlier.symptoms, *self.symptoms)))
        return replace(
            self,
            symptoms=tuple(s for s in symptoms if s not in self.absent),
            absent=tuple(dict.fromkeys((*(a for a in earlier.absent if a not in self.symptoms), *self.absent))),
            findings=tuple(dict.fromkeys((*earlier.findings, *self.findings))),
            figures=(*kept, *figures_now.items()),
            breads=self.breads or earlier.breads,
            pieces=self.pieces or earlier.pieces,
            subject=earlier.subject or self.subject,
            state=self.state or earlier.state,
            skipped=tuple(dict.fromkeys((*earlier.skipped, *self.skipped))),
        )

    def _stage_meant(self, earlier: DiagnosisRequest) -> str | None:
        """The stage hours without a stage are of: where they correct, the one said last, else the one asked for."""
        stages = [_STAGE_OF[name] for name, _ in earlier.figures if name in _STAGE_OF]
        if self.corrects and stages:
            return stages[-1]
        return _STAGE_ASKED.get(self.answering or "")

    def answering_only(self, earlier: DiagnosisRequest) -> bool:
        """Whether its symptoms are but the answer to the question asked, or were said before."""
        if set(self.symptoms) <= set(earlier.symptoms):
            return True
        return self.answering is not None and self.short is True and self.subject == earlier.subject


_DENTS = {"springs_back_fast": "dent_filled", "no_spring_back": "dent_stayed"}
"""What a dent did is a fault of dough, and a report where a bread is asked about."""
_STAGE_OF = {
    "bulk_h": "bulk", "bulk_c": "bulk", "bulk_rise_pct": "bulk", "dough_c": "bulk", "proof_h": "proof",
    "proof_c": "proof", "retard_h": "retard", "fridge_c": "retard",
}  # fmt: skip
"""Figures of one stage: a correction of the stage replaces them together."""
_STAGE_ASKED = {"first_rise_question": "bulk", "proof_question": "proof", "fridge_question": "retard"}


def _placed(figures: tuple[tuple[str, float], ...], stage: str | None) -> tuple[tuple[str, float], ...]:
    """Hours and degrees of an unsaid stage given to a stage."""
    if stage is None:
        return figures
    degrees = "fridge_c" if stage == "retard" else f"{stage}_c"
    names = {"stage_h": f"{stage}_h", "stage_c": degrees}
    return tuple((names.get(name, name), value) for name, value in figures)


@dataclass(frozen=True, slots=True)
class DiagnosisTurn:
    """what else could it be
    why do you say that
    show the evidence
    """

    turn: str = "else"  # else, why, now, evidence, skip


def _complaint(line: Line) -> Own | None:
    words_known = line.lexicon
    heard = hear(line.text, words_known, line.tokens)
    going_on = line.context.focus == "diagnosis"
    if going_on and heard.by_report:  # in an answer a report is a report, and no new complaint
        heard = replace(heard, symptoms=tuple(one for one in heard.symptoms if one not in heard.by_report))
    told_of_growth = any(words_known.about.get(one) == "growth" for one in heard.findings)
    if not (heard.symptoms or going_on or told_of_growth):
        return None
    if not going_on and _within_a_topic(heard, line.phrases):
        return None
    cues = cues_of(heard.words, words_known)
    of_starter = _of_starter(heard, words_known.trade_of)
    spoken_for = frozenset(n for m in heard.mentions for n in range(m.first, m.last + 1))
    of_dough = any(words_known.trade_of.get(s) == "dough" for s in heard.symptoms)
    found = figures(heard.words, line.phrases, cues, of_starter, spoken_for, of_dough)
    heard, found = _doubled_soon(heard, _by_fault(found, heard, of_starter), line.phrases, cues, of_starter)
    if not (heard.symptoms or going_on):
        return None
    asks = {name for _, _, kind, name in cues if kind == "ask"}
    answering = next((name for name in line.context.asked if name.endswith("_question")), None) if going_on else None
    short = _short_answer(heard.words, words_known.answers.get(answering or "", {})) if not heard.findings else None
    if answering and not (heard.findings or heard.symptoms or found.found or found.bare or short):
        short = _answer_to_another(heard.words, words_known.answers)
    request = DiagnosisRequest(
        symptoms=heard.symptoms if short is None else (),
        absent=heard.absent,
        findings=heard.findings if short is None else (short,),
        figures=found.found,
        breads=_ids(line.phrases, "bread"),
        pieces=_ids([p for p in line.phrases if p.text.lower() not in _NO_PIECE], "piece"),
        subject=_subject(heard, words_known.trade_of),
        answering=answering,
        said_yes=_said_yes(heard, cues) if answering else None,
        unknown=True if "unknown" in asks and going_on else None,
        bare=found.bare if going_on else (),
        skipped=(answering,) if answering and "unknown" in asks else (),
        corrects=True if "correct" in asks and going_on else None,
        adds=True if going_on and _adds(heard) else None,
        short=True if len(heard.words) <= _FEW_WORDS else None,
        repairs=heard.repairs,
        state=next((name for _, _, kind, name in cues if kind == "state"), None),
    )
    score = _score(request, heard, found, line, asks, going_on)
    if score is None:
        return None
    unread = _unread(heard, found, cues, line, answering is not None)
    return Own(request, score, unread, _answered_by(unread, line.phrases))


def _answered_by(unread: Sequence[str], phrases: Sequence[Phrase]) -> frozenset[str]:
    """The topics that take a line over: a mend the amount no fault has a use for ("it's soup, a cup of water too
    much"), a swap or a topping what is to be brushed on ("shine", "paint")."""
    weighed = any(p.kind == "amount" and p.dim in ("mass", "volume") and p.text in unread for p in phrases)
    brushed = any("wash" in p.ids("job") for p in phrases)
    return frozenset({"mend"} if weighed else set()) | frozenset({"swap", "topping"} if brushed else set())


def _within_a_topic(heard: Heard, phrases: Sequence[Phrase]) -> bool:
    """Whether the half words heard are but part of something one may ask about ("the power went off")."""
    spans = [(p.tokens[0].start, p.tokens[-1].end) for p in phrases if p.ids("topic")]
    telling = [m for m in heard.mentions if m.terms]
    places = [(heard.words[m.first].start, heard.words[m.last].end) for m in telling]
    plain = any(m.ids("symptom") for m in telling)
    return bool(telling) and not plain and all(any(a <= x and y <= b for a, b in spans) for x, y in places)


_BY_FAULT: Mapping[tuple[str, str], tuple[str, float, float, float]] = {
    # (symptom, what the amount measures): (figure, factor to its unit, least and most it can be)
    ("hole_closed", "length"): ("hole_cm", 1, 0, 15),
    ("no_ear", "length"): ("score_mm", 10, 0, 60),
    ("gummy", "temperature"): ("core_c", 1, 60, 105),
    ("gummy", "num"): ("core_c", 1, 70, 105),
    ("collapsed", "temperature"): ("core_c", 1, 60, 105),
    ("pale", "time"): ("bake_min", 1, 5, 150),
    ("too_dark", "time"): ("bake_min", 1, 5, 150),
    ("thick_crust", "time"): ("bake_min", 1, 5, 150),
}


_SOON_MIN = 75.0
"""A dough doubled within this is running away, whatever raises it."""


def _doubled_soon(
    heard: Heard, found: Figures, phrases: Sequence[Phrase], cues: Sequence[CueAt], of_starter: bool
) -> tuple[Heard, Figures]:
    """A dough that "doubled in 40 minutes" rises too fast; those minutes are then no first rise cut short."""
    if of_starter:
        return heard, found
    for amount in placed(heard.words, phrases):
        if amount.dim != "time" or amount.middle > _SOON_MIN:
            continue
        near = [c for c in cues if c[2:] == ("figure", "doubles") and 0 < amount.first - c[1] <= 3]
        if not near or heard.words[near[-1][0]].text not in ("doubled", "peaked", "tripled"):
            continue
        hours = ("bulk_h", "stage_h", "starter_doubles_h")
        figures_left = tuple((name, value) for name, value in found.found if name not in hours)
        left = tuple(p for p in found.left if p is not amount.phrase)
        symptoms = tuple(dict.fromkeys((*heard.symptoms, "rising_too_fast")))
        told = tuple(f for f in heard.findings if f != "bulk_grew")
        return replace(heard, symptoms=symptoms, findings=told, plain=True), Figures(figures_left, left, found.bare)
    return heard, found


_COLD_C, _HOT_C = 2.0, 42.0
_KEEPING = frozenset({"ropey", "stale_fast"})
"""Faults that come while a bread is kept."""


def _by_fault(found: Figures, heard: Heard, of_starter: bool) -> Figures:
    """Amounts without a steering word that can only be of one thing where this went wrong: 2 cm of a shut ring."""
    placed, bare, used = dict(found.found), [], set()
    if _KEEPING & set(heard.symptoms) and "stage_h" in placed and "kept_d" not in placed:
        placed["kept_d"] = placed.pop("stage_h") / 24  # two days in a warm kitchen, of a bread that went bad
        placed.pop("stage_c", None)
    for dim, value in found.bare:
        warmth = dim == "temperature" and _COLD_C <= value <= _HOT_C
        if warmth and not of_starter and heard.symptoms and not {"room_c", "bulk_c"} & placed.keys():
            placed["room_c"] = value  # degrees of nothing else are the place's where it stood
            used.add(dim)
            continue
        if of_starter and dim in ("temperature", "num") and "jar_c" not in placed and 4 <= value <= 45:
            placed["jar_c"] = value
            used.add(dim)
            continue
        ways = [way for one in heard.symptoms if (way := _BY_FAULT.get((one, dim))) is not None]
        meant = next((way for way in ways if way[2] <= value * way[1] <= way[3]), None)
        if meant is None or meant[0] in placed:
            bare.append((dim, value))
        else:
            placed[meant[0]] = value * meant[1]
            used.add(dim)
    left = tuple(p for p in found.left if p.dim not in used)
    return Figures(tuple(placed.items()), left, tuple(bare))


def _score(
    request: DiagnosisRequest, heard: Heard, found: Figures, line: Line, asks: set[str], going_on: bool
) -> float | None:
    facts = _PER_FIGURE * len(found.found) + _PER_FINDING * len(request.findings)
    left = len(found.left) - (len(found.bare) if request.answering else 0)
    other = sum(_OTHER_TURNS.get(p.role or "", 0.0) for p in line.phrases)
    if request.symptoms:
        own = _PLAIN if heard.plain else _PICTURED
        own += 0.4 * (len(heard.symptoms) - 1) + (0.5 if "why" in asks or going_on else 0.0)
        if not heard.plain and heard.subject is None and "why" not in asks and not going_on:
            own -= 1.5
        if not heard.plain and any(
            p.ids("topic") or "help" in p.ids("act") or {"can_i", "is_it"} & set(p.ids("ask")) for p in line.phrases
        ):
            own -= _ASKS_SOMETHING_ELSE
        if _OF_HARM & set(request.symptoms) and any("help" in p.ids("act") for p in line.phrases):
            own = _POINTED  # a cry for help, not a wish to read about it
        masses = sum(p.dim == "mass" for p in found.left)
        own -= _WISHED if any("how_to_see" in p.ids("ask") for p in line.phrases) and not found.found else 0.0
        own -= _WISHED if _WISH.search(line.text.lower()) else 0.0
        own -= _WISHED if not heard.plain and any("instead_of" in p.ids("link") for p in line.phrases) else 0.0
        own -= _ASKS_SOMETHING_ELSE if left and _asks_else(line.phrases) else 0.0
        safe = any("safe" in p.ids("hazard") for p in line.phrases) and any(p.ids("topic") for p in line.phrases)
        own -= 2 * _ASKS_SOMETHING_ELSE if safe and not _OF_HARM & set(heard.symptoms) else 0.0
        if masses and set(heard.symptoms) <= _BY_FEEL:
            own -= _WEIGHED
        return own + facts + _LEFT_OVER * left + _LEFT_MASS * masses + other
    if not going_on:
        return None
    answered = request.said_yes is not None or bool(request.unknown) or bool(request.answering and found.bare)
    answered = answered or bool(request.corrects and (request.breads or request.pieces or found.bare))
    if not (found.found or request.findings or heard.absent or answered):
        return None
    own = _GOING_ON + facts + _LEFT_OVER * left + other
    own += (_ANSWERED if answered or (request.answering and facts) else 0.0) + (0.8 if request.corrects else 0.0)
    if request.answering and facts and not left and not other and len(heard.words) <= _FEW_WORDS + 3:
        own += _ANSWERED_SHORTLY
    return own - (_ASKS_SOMETHING_ELSE if _asks_else(line.phrases) else 0.0)


def _asks_else(phrases: Sequence[Phrase]) -> bool:
    """Whether the line asks for a time, an amount or a plan instead of answering."""
    other = {"how_long", "when", "how_much", "how_many", "how", "what_time"}
    return any(other & set(p.ids("ask")) or {"plan", "scale"} & set(p.ids("act")) for p in phrases)


def _of_starter(heard: Heard, trade_of: Mapping[str, str]) -> bool:
    kinds = {trade_of.get(s) for s in heard.symptoms}
    return "starter" in kinds if kinds - {None} else heard.subject == "starter"


def _subject(heard: Heard, trade_of: Mapping[str, str]) -> str | None:
    kinds = [trade_of.get(s) for s in heard.symptoms]
    return kinds[0] if kinds else heard.subject


def _ids(phrases: Sequence[Phrase], kind: str) -> tuple[str, ...]:
    return tuple(dict.fromkeys(i for p in phrases if not p.negated for i in p.ids(kind)[:1]))


def _short_answer(words: Sequence[Word], answers: Mapping[str, str]) -> str | None:
    """The finding a few words mean as an answer to the question asked ("slowly", "hardly at all", "loose")."""
    if not answers or len(words) > 8:
        return None
    for count in range(min(4, len(words)), 0, -1):
        for first in range(len(words) - count + 1):
            finding = answers.get(" ".join(w.text for w in words[first : first + count]))
            if finding is not None:
                return finding
    return None


_AFTER_A_NO = word_set(
    "a actually all and as at because but cause cos dear didnt doesnt he honestly i id idea im ive in it its just most "
    "my not nothing of on only our she sorry that thats the there they theyre this those to was we were why you your"
)
"""Words behind a bare "no" that leave it an answer: "no it was cold" answers, "no steam" says what was missing."""


def _answer_to_another(words: Sequence[Word], answers: Mapping[str, Mapping[str, str]]) -> str | None:
    """What a few words mean that answer another question than the one asked ("it was still warm"); two words or more,
    and of one meaning."""
    several: dict[str, set[str]] = {}
    for forms in answers.values():
        for form, finding in forms.items():
            if " " in form and not set(form.split(" ")) <= FILL:
                several.setdefault(form, set()).add(finding)
    return _short_answer(words, {form: next(iter(meant)) for form, meant in several.items() if len(meant) == 1})


def _said_yes(heard: Heard, cues: Sequence[CueAt]) -> bool | None:
    """A yes or no that begins the line, and not a "no" that belongs to what follows it ("no steam", "none of it")."""
    words = heard.words
    told = {n for m in heard.mentions for n in range(m.first, m.last + 1) if m.last > m.first}
    for first, last, kind, name in cues:
        at_the_front = first <= 1 or (first <= 3 and words[first].after_mark)
        if kind != "ask" or name not in ("yes", "no") or not at_the_front:
            continue
        if told & set(range(first, last + 1)):
            continue
        bare = name == "no" and first == last and words[first].text in ("no", "not", "none", "never")
        after = words[last + 1] if last + 1 < len(words) else None
        told_of = after is not None and not after.after_mark and after.amount < 0 and after.text not in _AFTER_A_NO
        if bare and told_of:
            continue
        return name == "yes"
    return None


def _adds(heard: Heard) -> bool:
    """Whether the line says it adds a symptom: "also pale", "and the crust is thick", "it's pale too"."""
    texts = [w.text for w in heard.words]
    return bool(texts) and (
        texts[0] in _SYMPTOM_AGAIN - {"as"} or texts[-1] == "too" or "also" in texts or "as well" in " ".join(texts)
    )


def _unread(heard: Heard, found: Figures, cues: Sequence[CueAt], line: Line, answering: bool) -> tuple[str, ...]:
    """Words that carry meaning and were not understood, as typed."""
    covered = {n for m in heard.mentions for n in range(m.first, m.last + 1)}
    covered |= {n for first, last, _, _ in cues for n in range(first, last + 1)}
    covered |= painted(heard.mentions, heard.words)
    colours = {n for n, word in enumerate(heard.words) if word.text in COLOURS}
    covered |= {n for n in colours if n - 1 in covered or n + 1 in covered}  # "grey" beside "water on top"
    small = ("FILL", "LINK", "NEG", "CLOCK", "DAY", "PART")
    spans = [(t.start, t.end) for t in line.tokens if t.kind in small or t.quantity]
    spans += [(t.start, t.end) for t in line.tokens if t.idle and t.text.lower() not in line.lexicon.looks]
    spans += [
        (t.start, t.end)
        for t in line.tokens
        if t.kind == "TERM"
        and any(k in ("ingredient", "bread", "piece", "unit", "cue", "stage", "link", "filler") for k, _ in t.terms)
    ]
    out = [] if answering else [p.text for p in found.left]
    out += _weighed(line.phrases)
    for n, word in enumerate(heard.words):
        if n in covered or word.amount >= 0 or len(word.text) < 3 or any(a <= word.start < b for a, b in spans):
            continue
        if heard.plain and len(heard.words) > _A_FEW_SENTENCES and not means_something(word.text, line.lexicon):
            continue
        out.append(word.typed or word.text)
    return tuple(dict.fromkeys(out))


_WEIGHT = re.compile(r"[\d.,]+ ?(?:g|kg|oz|lb)s?")


def _weighed(phrases: Sequence[Phrase]) -> list[str]:
    """Words nobody knows right behind a weight: "with 30 g frobs"."""
    unknown = [(before, word) for before, word in pairwise(phrases) if word.kind == "junk" and word.text.isalpha()]
    return [word.text for before, word in unknown if _WEIGHT.fullmatch(before.text)]


def _turn(line: Line) -> Own | None:
    if line.context.focus != "diagnosis":
        return None
    heard = hear(line.text, line.lexicon, line.tokens)
    if heard.symptoms or any(p.kind == "amount" and p.dim != "num" for p in line.phrases):
        return None
    best: tuple[int, str] | None = None
    for first, last, kind, name in cues_of(heard.words, line.lexicon):
        if kind == "ask" and name in ("else", "why", "now", "evidence", "skip"):
            length = last - first + 1
            if best is None or length > best[0]:
                best = (length, name)
    if best is None or _beside(heard, best, line) > _A_FEW:
        return None
    return Own(DiagnosisTurn(best[1]), _TURN + best[0])


_A_FEW = 4
"""Words a turn of the talk may have beside it."""


def _beside(heard: Heard, turn: tuple[int, str], line: Line) -> int:
    """Words beside a turn of the talk; beside one of three words and more only those that mean something."""
    if turn[0] < 3 or any(p.ids("topic") or p.ids("ingredient") or p.ids("bread") for p in line.phrases):
        return len(heard.words) - turn[0]
    cues = cues_of(heard.words, line.lexicon)
    idle = {n for first, last, kind, _ in cues if kind in ("talk", "ask") for n in range(first, last + 1)}
    idle |= {n for n, word in enumerate(heard.words) if word.text in FILL or word.amount >= 0}
    idle |= {
        n
        for n, word in enumerate(heard.words)
        for t in line.tokens
        if t.start <= word.start < t.end and (t.kind in ("FILL", "LINK", "NEG") or t.idle)
    }
    return len(heard.words) - len(idle)


def _never(bound: Bound) -> None:
    """A complaint is read as a line, not by slots."""


FRAMES = (
    Frame(DiagnosisRequest, "diagnosis", _never, reads=_complaint, hints=_HINTS),
    Frame(DiagnosisTurn, "diagnosis", _never, reads=_turn),
)
