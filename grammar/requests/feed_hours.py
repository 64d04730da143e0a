"""The hours of a line about feeding: when it is fed, when it is to be ripe or used, what lasts from one to the next."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from grammar.frames import Bound, amount_base, fits
from grammar.moments import Moment, minute_of_day
from grammar.phrases import Phrase
from grammar.requests.warmth import Degrees

_DONE = frozenset({"fed", "refreshed", "had", "given", "gave"})
_LEAVES = ("clocked:to_bed", "clocked:leave", "away:*", "feeding:away")
"""Words whose hour bounds when somebody can feed."""
_FEED = ("feeding:feed", "step:feed_starter")
TWICE_MIN, DAILY_MIN = 720.0, 1440.0


@dataclass(frozen=True, slots=True)
class FeedHours:
    """Clock times and minutes. ripe_in_min: from the feed to ripe; bare_c: an hour that was a warmth."""

    fed_at: Moment | None = None
    ripe_at: Moment | None = None
    use_at: Moment | None = None
    not_before: Moment | None = None  # the first hour somebody can feed
    ripe_in_min: float | None = None
    use_after_min: float | None = None
    bare_c: float | None = None


def hours_said(bound: Bound, ratio: bool, degrees: Degrees, placed: bool) -> FeedHours:
    """The hours of the line by what they are of; `placed`: a temperature was said."""
    fed = _was_fed(bound)
    window = bound.first("window")
    if window is not None and window.amount is not None and window.amount.window is not None:
        return FeedHours(fed_at=window.amount.window.start, ripe_at=window.amount.window.end)
    in_min = bound.base("in_min")
    moments = [hit.amount for hit in bound.of("moments") if hit.amount is not None and hit.amount.moment is not None]
    if in_min is None and (interval := _interval(bound, moments)) is not None:
        return FeedHours(ripe_in_min=interval)
    if len(moments) == 2 and bound.said("feeding:ratio") and not fed:
        first, second = moments if not _before(bound, moments[1], "feeding:feed") else reversed(moments)
        return FeedHours(fed_at=first.moment, ripe_at=second.moment)
    hours = FeedHours(ripe_in_min=in_min)
    if in_min is not None and bound.said("look:use_it") and (ratio or fed):
        hours = FeedHours(use_after_min=in_min)
    for phrase in moments:
        if phrase.text.isdigit() and int(phrase.text) >= 12 and not placed and hours.bare_c is None:
            hours = replace(hours, bare_c=degrees.value_c(float(phrase.text), None))  # "when does it peak at 22"
            continue
        hours = _with(hours, bound, phrase, fed, len(moments) > 1, ratio)
    if bound.said("ask:can_i") and hours.fed_at is not None and hours.use_at is None and hours.ripe_at is not None:
        hours = replace(hours, use_at=hours.ripe_at, ripe_at=None)  # "can I mix at 6pm if I feed at noon"
    return hours


def _was_fed(bound: Bound) -> bool:
    return any(
        "feed" in p.ids("feeding") and bool(_DONE & set(p.text.lower().split())) for p in bound.phrases
    )


def _is_first(bound: Bound, phrase: Phrase) -> bool:
    """Whether an hour is the first at which somebody can feed: coming home, "not before 8"."""
    lead = phrase.moment.lead if phrase.moment is not None else None
    return lead == "not_before" or _beside(bound, phrase, "clocked:home", "clocked:not_before")


def _beside(bound: Bound, phrase: Phrase, *patterns: str) -> bool:
    """Whether the nearest word before a phrase fits, or the one right behind it."""
    after = bound.phrases[bound.phrases.index(phrase) + 1 :][:1]
    return _before(bound, phrase, *patterns) or any(fits(one, patterns) for one in after)


def _ripe_asked(bound: Bound, phrase: Phrase) -> bool:
    """Whether the hour of ripeness is what is asked, so that the one said is the feed's: "1:2:2 at 6 pm, when ripe"."""
    lead = phrase.moment.lead if phrase.moment is not None else None
    asks = bound.said("ask:when", "ask:when_ready", "ask:how_long") and bound.said("look:ripe", "look:peaked")
    when = next((one for one in bound.phrases if one.ids("ask")), None)
    behind = bound.phrases[bound.phrases.index(when) + 1 :] if when is not None else ()
    of_the_feed = next((fits(one, ("feeding:feed",)) for one in behind if one.kind == "label"), False)
    return asks and not of_the_feed and lead not in ("by", "for", "before", "until")


def _with(
    hours: FeedHours, bound: Bound, phrase: Phrase, fed: bool, others: bool, ratio: bool
) -> FeedHours:
    """The hours with one more clock time, put where the words around it say."""
    plainly = phrase.moment is not None and phrase.moment.lead == "at" and not bound.said("ask:*", "look:use_it")
    told = fed and not _before(bound, phrase, *_LEAVES) and (others or plainly or bound.said("ask:when", "look:ripe"))
    told = told and not _before(bound, phrase, "look:use_it", "look:ripe")
    if hours.fed_at is None and (told or _fed_then(bound, phrase, others)):
        return replace(hours, fed_at=phrase.moment)
    if not fed and _is_first(bound, phrase):
        return replace(hours, not_before=phrase.moment)
    goes_on = bound.context.focus == "feed" and bound.said(*_FEED)
    if hours.fed_at is None and _bounds_the_feed(bound, phrase, others or goes_on, fed):
        return replace(hours, fed_at=phrase.moment)  # it is fed before bed, or before going out
    if goes_on and hours.fed_at is None and not bound.said("ask:when*") and _at_its_feed(bound, phrase):
        return replace(hours, fed_at=phrase.moment)  # another hour to feed for the build before
    if hours.fed_at is None and ratio and _ripe_asked(bound, phrase):
        return replace(hours, fed_at=phrase.moment)
    used = bound.said("look:use_it") or (fed and bound.said("ask:is_it"))
    if used or (bound.said("ask:can_i") and hours.fed_at is not None):
        return replace(hours, use_at=phrase.moment)
    return replace(hours, ripe_at=phrase.moment) if hours.ripe_at is None else hours


def _bounds_the_feed(bound: Bound, phrase: Phrase, of_a_feed: bool, fed: bool) -> bool:
    """Whether an hour ends the time to feed in: beside a feed still to come, or of bed after the build before."""
    if not _before(bound, phrase, *_LEAVES):
        return False
    bed = bound.context.focus == "feed" and not bound.said("ask:*", "look:ripe", "look:use_it")
    return (of_a_feed and not fed) or (bed and _before(bound, phrase, "clocked:to_bed", "away:asleep"))


def _at_its_feed(bound: Bound, phrase: Phrase) -> bool:
    """Whether an hour says at what time the feed is: "what if I feed it at 11"; "feed it for 6" is when it is used."""
    lead = phrase.moment.lead if phrase.moment is not None else None
    return lead in (None, "at") and _before(bound, phrase, *_FEED)


def _interval(bound: Bound, moments: Sequence[Phrase]) -> float | None:
    """Minutes from one feed to the next where it is fed at equal or at two hours of the day, again and again."""
    again = bound.said("feeding:twice", "feeding:daily")
    times = [minute_of_day(phrase.moment) for phrase in moments if phrase.moment is not None]
    if again:
        dials = [amount_base(hit.amount) for hit in bound.of("dial")]
        times += [int(60 * hour) for hour in dials if hour is not None]
    turned = len(moments) == 2 and _before(bound, moments[1], "feeding:feed")
    lasts = bound.said("feeding:ratio") and not turned and not bound.said("look:ripe", "look:peaked") and not any(
        phrase.moment is not None and (phrase.moment.day or phrase.moment.part) for phrase in moments
    )
    if len(times) == 2 and times[0] is not None and times[1] is not None and (again or lasts):
        return float((times[1] - times[0]) % 720 or 720) if again else float((times[1] - times[0]) % 1440) or None
    if (moments and len(times) < 2) or not again:
        return None
    return TWICE_MIN if bound.said("feeding:twice") else DAILY_MIN


def _before(bound: Bound, phrase: Phrase, *patterns: str) -> bool:
    """Whether the nearest word before a phrase (small words skipped) fits, with no figure of its kind between."""
    for one in reversed(bound.phrases[: bound.phrases.index(phrase)]):
        if one.kind == "label":
            return fits(one, patterns)
        if one.kind == "amount" and one.moment is not None:
            return False
    return False


def _fed_then(bound: Bound, phrase: Phrase, others: bool) -> bool:
    """Whether a clock time is when it is fed: "if I feed at 11pm", "if I feed 1:3:3 at 11pm", "feed tonight at 10"."""
    place = bound.phrases.index(phrase)
    before = bound.phrases[place - 1] if place else None
    if before is None:
        return False
    if others and "feed" in before.ids("feeding"):
        return True
    if "at" not in before.ids("link") or not bound.said("look:ripe", "ask:when_ready", "ask:can_i"):
        return False
    label = next((p for p in reversed(bound.phrases[: place - 1]) if p.kind in ("label", "sep")), None)
    return label is not None and "feed" in label.ids("feeding")
