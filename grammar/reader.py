"""The reader: text in, the readings that fit it out, best first."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from typing import Any

from grammar.aspects import marked
from grammar.bidding import bidden
from grammar.binder import Fit, bind
from grammar.context import Context
from grammar.cuts import Cuts
from grammar.frames import Bound, Frame, Line, Own
from grammar.idle import brought_in
from grammar.last_resort import accounted_for
from grammar.levels import ALONE
from grammar.lexicon import Lexicon
from grammar.moods import leaves_it_be, only_wished
from grammar.phrases import Phrase, phrases
from grammar.reasons import bidden_parts, says_a_total
from grammar.same_question import settled
from grammar.scanner import scan
from grammar.shell import without_shell
from grammar.spared import PLAIN, corrected, of_faults, plainly_said
from grammar.tokens import Token, still_said

LONGEST = 10_000
"""Characters a request may have; a pasted recipe has its own, larger bound."""
CUT_UP = 1.2
"""What reading the words of a known phrase one by one costs."""
WHOLE = 100.0
"""The score of a text that a frame takes as a whole."""
_NAME = 6
"""Words of the longest line that may be but the name of a thing, with a sign behind it."""
ALIKE = 1.0
"""Within so much of the best one a reading is tried where the best one is refused: one level."""
TAKEN = 1.5
"""What a reading scores at least that another one gives way to."""
CLEAR = 0.35
"""Two readings closer than this are a tie, and the baker is asked."""


@dataclass(frozen=True, slots=True)
class Reading:
    """One way to take a line: the request, how well it fits, and what it leaves unread (as typed)."""

    request: Any
    frame: Frame
    score: float
    unread: tuple[str, ...]
    bound: Bound


@dataclass(frozen=True, slots=True)
class Read:
    """All that was made of a line. readings: best first; repairs: (as typed, as read); unknown: words nobody knows."""

    text: str
    readings: tuple[Reading, ...]
    tokens: tuple[Token, ...]
    repairs: tuple[tuple[str, str], ...] = ()
    unknown: tuple[str, ...] = ()
    phrases: tuple[Phrase, ...] = field(default=())

    @property
    def best(self) -> Reading | None:
        return self.readings[0] if self.readings else None

    @property
    def about_as_good(self) -> tuple[Reading, ...]:
        """The best reading, then those within a level of it that leave nothing more unread."""
        best = self.readings[0]
        near = (r for r in self.readings[1:] if r.score >= best.score - ALIKE and set(r.unread) <= set(best.unread))
        return (best, *near)

    @property
    def margin(self) -> float:
        """How clearly the best reading leads; infinite where it is the only one."""
        return self.readings[0].score - self.readings[1].score if len(self.readings) > 1 else float("inf")


def read(text: str, lexicon: Lexicon, frames: Sequence[Frame], context: Context | None = None) -> Read:
    """Every reading of a line by the frames given. Never raises for any text."""
    context = context or Context()
    for frame in frames:  # what is pasted whole is no talk: its steps may sound like any of it
        request = frame.whole(text) if frame.whole is not None else None
        if request is not None:
            return Read(text, (Reading(request, frame, WHOLE, (), Bound((), (), context, text, lexicon)),), ())
    first = text.strip().partition("\n")[0] if "\n" in text.strip() else text
    begun = scan(first, lexicon)
    alone = _read_first(Line(_read_part(text, begun), begun, (), lexicon, context), frames)
    if alone is not None:
        return alone
    tokens = bidden(begun if first is text else scan(text, lexicon), text, lexicon, context.has_bake)
    pieces = marked(phrases(tokens), still_said(text, tokens), lexicon)
    unknown = tuple(p.text for p in pieces if p.kind == "junk" and any(c.isalnum() for c in p.text))
    repairs = tuple((t.text, t.repaired) for t in tokens if t.repaired)
    line = Line(_read_part(text, tokens), tokens, pieces, lexicon, context)
    cuts = Cuts(text, lexicon, tokens, pieces, context.has_bake)
    readings: list[Reading] = []
    for frame in frames:
        if frame.reads is not None:
            continue
        found: list[Reading] = []
        for n, cut in enumerate(cuts.for_frame(frame)):
            fit = bind(frame, cut, context, text, lexicon)
            if fit is None:
                continue
            request = frame.build(fit.bound)
            unread = _unread(fit, cut.phrases)
            if request is not None and not leaves_it_be(request, fit.bound, unread):
                score = fit.score - n * CUT_UP - (CUT_UP if frame.asked and only_wished(fit.bound) else 0.0)
                found.append(Reading(request, frame, score, unread, fit.bound))
        if found:
            readings.append(max(found, key=lambda r: r.score))
    bare = without_shell(line)
    by_themselves = [frame for frame in frames if frame.reads is not None and not frame.first]
    for frame in by_themselves:
        if frame.settles:
            readings += _by_itself(frame, line, bare, readings)
    by_themselves = [frame for frame in by_themselves if not frame.settles and not frame.last]
    talking_of_it = any(frame.topic == context.focus for frame in by_themselves)
    said = {word.strip("?!.,;:") for word in text.lower().split()}
    named = text.rstrip().endswith((":", "?")) and len(said) <= _NAME
    hinted = named or any(lexicon.small(*frame.hints) & said for frame in by_themselves)
    told_fault = talking_of_it or unknown or hinted or of_faults(tokens, lexicon)
    spared = corrected(readings) or (not told_fault and plainly_said(readings))
    for frame in by_themselves if not spared else ():
        readings += _by_itself(frame, line, bare, readings)
    readings = settled(sorted(readings, key=lambda r: -r.score))
    distinct: list[Reading] = []
    for reading in readings:
        if all(reading.request != other.request for other in distinct):
            distinct.append(reading)
    distinct = _or_at_last(frames, line, distinct)
    whole = Read(text, tuple(distinct), tokens, repairs, unknown, pieces)
    if _moves_the_plan(whole) or (_is_clean_change(whole) and not says_a_total(line)):
        return whole
    return _bidden(whole, line, frames)


def _moves_the_plan(found: Read) -> bool:
    """Whether the whole line is one change of the plan that stands ("they are late, 10 will do"), or asks whether a
    thing may still go in."""
    best = found.best
    if best is None or best.unread:
        return False
    late = best.frame.topic == "mend" and best.bound.said("mistake:still_to_add")
    return late or (best.frame.topic == "plan" and best.frame.reads is not None)


def _is_clean_change(found: Read) -> bool:
    """Whether the best reading changes the dough in hand and leaves nothing over."""
    best = found.best
    return best is not None and not getattr(best.request, "whole", True) and not best.unread


def _bidden(found: Read, line: Line, frames: Sequence[Frame]) -> Read:
    """The line read as the change that a part of it bids, where the rest only gives the reason; else as it was."""
    for part in bidden_parts(line):
        inner = read(part, line.lexicon, frames, line.context)
        if _is_clean_change(inner) and inner.readings[0].score >= TAKEN and inner.margin >= CLEAR:
            return replace(found, readings=inner.readings[:1])
    return found


def _by_itself(frame: Frame, line: Line, bare: Line | None, others: Sequence[Reading]) -> list[Reading]:
    """What a frame that reads lines by itself makes of one: a reading; none where it gives way to another."""
    own = _read_or_bare(frame, line, bare)
    if own is None or any(r.frame.topic in own.gives_way and r.score >= TAKEN and not r.unread for r in others):
        return []
    unknown = brought_in(line.tokens)
    own_left = (one for one in own.unread if all(one not in thing.split() for thing in unknown))
    beyond = (token.text for token in line.tokens[-1:] if token.beyond)
    unread = tuple(dict.fromkeys((*own_left, *unknown, *beyond)))
    bound = Bound((), line.phrases, line.context, line.text, line.lexicon)
    return [Reading(own.request, frame, own.score, unread, bound)]


def _or_at_last(frames: Sequence[Frame], line: Line, found: list[Reading]) -> list[Reading]:
    """The readings; where none accounts for the line, or it asks more plainly, what a frame of the last resort made."""
    best = found[0] if found else None
    if best is not None and best.score >= WHOLE:
        return found
    last = [one for frame in frames if frame.last for one in _by_itself(frame, line, None, ())]
    resort = max(last, key=lambda one: one.score, default=None)
    if resort is None or (accounted_for(best, line) and not _more_plainly(resort, best)):
        return found
    return [resort]


def _more_plainly(resort: Reading, best: Reading | None) -> bool:
    """Whether a line that something else accounts for asks a question of its own in so many words."""
    if best is None or (best.frame.topic == resort.frame.topic and best.score >= ALONE):
        return False
    return resort.score > PLAIN and resort.score > best.score + CLEAR


def _read_part(text: str, tokens: Sequence[Token]) -> str:
    """A line without what is beyond the bounds of a line."""
    return text[: tokens[-1].start] if tokens and tokens[-1].beyond else text


def _read_or_bare(frame: Frame, line: Line, bare: Line | None) -> Own | None:
    """What a frame makes of a line, or of what is left of it without the harmless words at its ends."""
    own = frame.reads(line) if frame.reads is not None else None
    return frame.reads(bare) if own is None and bare is not None and frame.reads is not None else own


def _read_first(line: Line, frames: Sequence[Frame]) -> Read | None:
    """A line that a frame claims before all others: of a text of several lines only the first is looked at."""
    bare = without_shell(line)
    for said in (line,) if bare is None else (line, bare):
        for frame in frames:
            own = frame.reads(said) if frame.first and frame.reads is not None else None
            if own is not None:
                bound = Bound((), (), line.context, line.text, line.lexicon)
                alone = Reading(own.request, frame, own.score, own.unread, bound)
                return Read(line.text, (alone,), line.tokens)
    return None


def _stands_for_a_piece(phrase: Phrase, pieces: Sequence[Phrase]) -> bool:
    """Whether a "one" beside another number is no number: "three of them, one for the coach"."""
    others = any(p.kind == "amount" and p is not phrase for p in pieces)
    return phrase.kind == "amount" and phrase.text.lower() == "one" and others


def _unread(fit: Fit, pieces: Sequence[Phrase]) -> tuple[str, ...]:
    free = {id(hit.label) for hit in fit.bound.hits if hit.amount is None}
    out = [p.text for p in pieces if p.kind == "junk" and any(c.isalnum() for c in p.text) and id(p) not in free]
    out.extend(phrase.text for phrase in fit.unclaimed if not _stands_for_a_piece(phrase, pieces))
    return tuple(dict.fromkeys(word for word in out if word.strip()))
