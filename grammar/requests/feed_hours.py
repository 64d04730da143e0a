"""The hours of a line about feeding: when it is fed, when it is to be ripe or used, what lasts from one to the next."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from itertools import dropwhile, islice
from typing import Any

from grammar.frames import NOTHING, Bound, amount_base, fits
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
    window = bound.amount("window").window
    if window is not None:
        return FeedHours(fed_at=window.start, ripe_at=window.end)
    in_min = bound.base("in_min")
    moments = [amount for amount in bound.amounts("moments") if amount.moment is not None]
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
        hours = _placed(_Hour(hours, bound, phrase, fed, len(moments) > 1, ratio))
    if bound.said("ask:can_i") and hours.fed_at is not None and hours.use_at is None and hours.ripe_at is not None:
        hours = replace(hours, use_at=hours.ripe_at, ripe_at=None)  # "can I mix at 6pm if I feed at noon"
    return hours


def _was_fed(bound: Bound) -> bool:
    return any("feed" in p.ids("feeding") and bool(_DONE & set(p.text.lower().split())) for p in bound.phrases)


@dataclass(frozen=True, slots=True)
class _Hour:
    """A clock time of the line beside what is placed already. fed: it was fed; others: more hours are said; ratio: what
    it was fed at is said."""

    hours: FeedHours
    bound: Bound
    phrase: Phrase
    fed: bool
    others: bool
    ratio: bool

    @property
    def lead(self) -> str | None:
        """The small word before it."""
        return self.phrase.moment.lead if self.phrase.moment is not None else None

    @property
    def goes_on(self) -> bool:
        """A feed is named after a build that was just talked of."""
        return self.bound.context.focus == "feed" and self.bound.said(*_FEED)

    def said(self, *patterns: str) -> bool:
        return self.bound.said(*patterns)

    def behind(self, *patterns: str) -> bool:
        """Whether the nearest word before it fits."""
        return _before(self.bound, self.phrase, *patterns)

    def told(self) -> bool:
        """When it was fed."""
        plainly = self.lead == "at" and not self.said("ask:*", "look:use_it")
        of_a_feed = self.others or plainly or self.said("ask:when", "look:ripe")
        return self.fed and of_a_feed and not self.behind(*_LEAVES, "look:use_it", "look:ripe")

    def fed_then(self) -> bool:
        """When it is to be fed, by the word right before the hour, or by "at" behind the feed."""
        before = self.bound.next_to(self.phrase, -1)
        if self.others and "feed" in before.ids("feeding"):
            return True
        place = self.bound.phrases.index(before) if before is not NOTHING else 0
        words = [p for p in self.bound.phrases[:place] if p.kind in ("label", "sep")]
        at = "at" in before.ids("link") and self.said("look:ripe", "ask:when_ready", "ask:can_i")
        return at and any("feed" in p.ids("feeding") for p in words[-1:])

    def is_first(self) -> bool:
        """The first at which somebody can feed: coming home, not before."""
        home = ("clocked:home", "clocked:not_before")
        near = self.behind(*home) or fits(self.bound.next_to(self.phrase), home)
        return not self.fed and (self.lead == "not_before" or near)

    def bounds_the_feed(self) -> bool:
        """The end of the time to feed in: beside a feed still to come, or of bed after the build before."""
        bed = self.bound.context.focus == "feed" and not self.said("ask:*", "look:ripe", "look:use_it")
        to_come = (self.others or self.goes_on) and not self.fed
        return self.behind(*_LEAVES) and (to_come or (bed and self.behind("clocked:to_bed", "away:asleep")))

    def at_its_feed(self) -> bool:
        """Another hour to feed at for the build before; one it is fed "for" is when it is used."""
        at = self.lead in (None, "at") and self.behind(*_FEED)
        return self.goes_on and at and not self.said("ask:when*")

    def ripe_asked(self) -> bool:
        """The feed's, where the hour of ripeness is what is asked."""
        asks = self.said("ask:when", "ask:when_ready", "ask:how_long") and self.said("look:ripe", "look:peaked")
        labels = dropwhile(lambda one: not one.ids("ask"), self.bound.phrases)
        asked = next((one for one in islice(labels, 1, None) if one.kind == "label"), NOTHING)
        of_the_feed = fits(asked, ("feeding:feed",))
        return self.ratio and asks and not of_the_feed and self.lead not in ("by", "for", "before", "until")

    def used(self) -> bool:
        """When it is put into a dough."""
        asked = self.said("ask:can_i") and self.hours.fed_at is not None
        return asked or self.said("look:use_it") or (self.fed and self.said("ask:is_it"))


_PLACES: tuple[tuple[str, Callable[[_Hour], bool]], ...] = (
    ("fed_at", lambda hour: hour.told() or hour.fed_then()),
    ("not_before", _Hour.is_first),
    ("fed_at", lambda hour: hour.bounds_the_feed() or hour.at_its_feed() or hour.ripe_asked()),
    ("use_at", _Hour.used),
    ("ripe_at", lambda hour: True),
)
"""What an hour is, by what has to be so; the first place it may take counts."""
_ONCE = ("fed_at", "ripe_at")


def _placed(hour: _Hour) -> FeedHours:
    """The hours with one more clock time, put where the words around it say."""
    taken = [name for name in _ONCE if getattr(hour.hours, name) is not None]
    place = next((name for name, may in _PLACES if name not in taken and may(hour)), None)
    moment: Any = hour.phrase.moment
    return hour.hours if place is None else replace(hour.hours, **{place: moment})


def _interval(bound: Bound, moments: Sequence[Phrase]) -> float | None:
    """Minutes from one feed to the next where it is fed at equal or at two hours of the day, again and again."""
    again = bound.said("feeding:twice", "feeding:daily")
    times = [minute_of_day(phrase.moment) for phrase in moments if phrase.moment is not None]
    dials = [amount_base(amount) for amount in bound.amounts("dial")] if again else []
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
    """Whether the nearest word before a phrase (small words skipped) fits, with no hour between."""
    near = (p for p in reversed(bound.phrases[: bound.phrases.index(phrase)]) if p.kind == "label" or p.moment)
    return fits(next(near, NOTHING), patterns)
