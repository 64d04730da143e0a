"""Every refusal checked by a slower search: all choices, all lengths of cold, all hours to be ready, one by one."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import timedelta

from hypothesis import example, given, settings
from hypothesis import strategies as st

from assistant.engine.plan.asked import EARLIEST_MIN, Batch, Kitchen, Wish
from assistant.engine.plan.best import placing_for
from assistant.engine.plan.blocks import Block, out_min
from assistant.engine.plan.choices import Choice, choices, elsewhere
from assistant.engine.plan.clock import Clock
from assistant.engine.plan.course import Course, Where
from assistant.engine.plan.courses import Courses
from assistant.engine.plan.day import Day
from assistant.engine.plan.limits import Limits
from assistant.engine.plan.nearest import Miss
from assistant.engine.plan.search import plan
from assistant.engine.plan.steps import Plan
from tests.engine.test_plan import NIGHT, SATURDAY, batch, trade

_COLD_STEP_MIN, _READY_STEP_MIN = 30, 15


def anything(made: Batch, kitchen: Kitchen, wish: Wish) -> tuple[Choice, int, int] | None:
    """Any choice, minute of the mix and length of cold that keeps the wish, found by trying them all.

    In steady rooms only: there the lengths do not depend on the hour. What is kept for hours or rests shorter is not
    tried: a plan that needs it is only ever one more.
    """
    clock = Clock(wish.now)
    day = Day(made, kitchen, trade(), clock)
    limits = placing_for(Courses.on(day, wish), wish).limits
    assert wish.ready_by is not None and day.steady
    deadline = int(clock.minutes(wish.ready_by))
    readies = range(deadline, max(1, deadline - EARLIEST_MIN) - 1, -_READY_STEP_MIN)
    for choice in (*choices(day, wish), *elsewhere(day, wish)):
        there = day if choice.place_c is None else day.in_a_place(choice.place_c)
        course = Course(there, choice.dough, choice.dough_c, limits.autolyse_min())
        for front, cold_min, back in _ways(course, choice, limits, deadline):
            total = back.minutes if front is None else front.minutes + cold_min + back.minutes
            for ready in readies:
                mix = ready - total
                if mix >= limits.earliest and _holds(front, cold_min, back, mix, choice, limits):
                    return choice, mix, cold_min
    return None


def _ways(
    course: Course, choice: Choice, limits: Limits, deadline: int
) -> Iterator[tuple[Block | None, int, Block]]:
    if choice.cold == "none":
        whole = course.whole(0)
        if whole is not None:
            yield None, 0, whole
        return
    if choice.cold == "both":
        return
    where: Where = "bulk" if choice.cold == "bulk" else "shaped"
    low_h, high_h, usual_h = limits.hours()
    for early in (False, True):
        front = course.front(0, where, early, usual_h)
        if front is None:
            continue
        moments = range(low_h * 60, min(high_h * 60, deadline) + 1, _COLD_STEP_MIN)
        for cold_min, out in zip(moments, course.in_cold(front, where, moments), strict=True):
            back = course.back(0, where, front.proof_pct, *out)
            if back is None:
                break
            yield front, cold_min, back


def _holds(front: Block | None, cold_min: int, back: Block, mix: int, choice: Choice, limits: Limits) -> bool:
    out_at = mix if front is None else mix + front.minutes + cold_min
    if limits.fed(mix) is None or not limits.can(back, out_at):
        return False
    warm = back.warm_min
    if front is not None:
        into = mix + front.minutes
        warm += out_min(front)
        where: Where = "bulk" if choice.cold == "bulk" else "shaped"
        if not limits.can(front, mix) or limits.busy.touches(into, into + 1) or not limits.chills(where, into, out_at):
            return False
    return not limits.too_warm(warm)


@settings(max_examples=25)
@given(
    st.sampled_from(["ring_roll", "crusty_roll", "pan_loaf", "sourdough_loaf", "focaccia", "baguette", "soft_roll"]),
    st.integers(2, 26), st.integers(14, 30), st.integers(5, 40), st.booleans(), st.sampled_from(["feed", "either"]),
    st.sampled_from([None, "none", "shaped", "bulk"]), st.booleans(),
)  # fmt: skip
@example("sourdough_loaf", 10, 14, 14, False, "either", "bulk", False)
def test_nothing_is_refused_that_could_be_kept(
    bread: str, pieces: int, room_c: int, hours: int, sleeps: bool, starter: str, cold: str | None, said: bool
) -> None:
    made = batch(bread, pieces, leaven_said=said)
    if cold not in (None, "none") and cold not in made.process.retard_where:
        cold = None
    busy = (NIGHT,) if sleeps else ()
    ready_by = SATURDAY + timedelta(hours=hours)
    wish = Wish(now=SATURDAY, ready_by=ready_by, busy=busy, starter=starter, cold=cold)  # type: ignore[arg-type]
    kitchen = Kitchen(room_c=float(room_c))
    found = plan(made, kitchen, wish, trade())
    if isinstance(found, Miss):
        could = anything(made, kitchen, wish)
        assert could is None, f"{found.limit} by {found.minutes} min, though {could}"
    else:
        assert isinstance(found, Plan)
