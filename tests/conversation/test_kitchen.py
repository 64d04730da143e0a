"""The kitchen as a value: told, told for one bake, forgotten one by one, kept as JSON."""

from __future__ import annotations

from datetime import date, datetime

from hypothesis import given, settings
from hypothesis import strategies as st

from assistant.notebook import Notebook
from assistant.talk.bench import Bench
from assistant.talk.conversation import Conversation
from assistant.talk.kitchen import Kitchen, hours, place_named, places
from knowledge import load

KB = load()
NAMES = st.sampled_from(["kitchen_c", "boathouse_c", "warm_cupboard_night_c", "pot_takes", "fridge_c", "fridge_takes"])
VALUES = st.dictionaries(NAMES, st.integers(1, 30), min_size=1, max_size=4)


@given(VALUES, VALUES)
def test_each_thing_is_changed_and_forgotten_alone(first: dict[str, int], then: dict[str, int]) -> None:
    kitchen = Kitchen().told(first, "2026-03-14").told(then, "2026-03-15")
    assert kitchen.now(None) == {**first, **then}
    assert all(kitchen.told_on[name] == "2026-03-15" for name in then)
    for name in then:
        left = kitchen.told({name: None}, "2026-03-16")
        assert left.now(None) == {n: v for n, v in {**first, **then}.items() if n != name}
        assert name not in left.told_on


@given(VALUES, VALUES)
def test_what_is_told_for_a_bake_holds_for_that_bake_alone(always: dict[str, int], now: dict[str, int]) -> None:
    kitchen = Kitchen().told(always, "2026-03-14").told_for(now, 3, "2026-03-14")
    assert kitchen.now(3) == {**always, **now}
    assert kitchen.now(4) == always
    assert kitchen.on(date(2026, 3, 20)).now(3) == {**always, **now}
    of_the_day = Kitchen().told(always, "2026-03-14").told_for(now, None, "2026-03-14")
    assert of_the_day.on(date(2026, 3, 14)).now(4) == {**always, **now}
    assert of_the_day.on(date(2026, 3, 15)).now(4) == always


@given(VALUES, VALUES)
def test_the_kitchen_comes_back_as_it_was_kept(always: dict[str, int], now: dict[str, int]) -> None:
    bench = Bench(kitchen=Kitchen().told(always, "2026-03-14").told_for(now, 1, "2026-03-14"))
    assert Bench.from_json(bench.as_json()).kitchen == bench.kitchen


def test_a_bench_kept_before_there_were_days_still_opens() -> None:
    state = {"settings": {"kitchen_c": 19}, "bakes": [{"id": 1, "said": {}, "begun": "2026-03-14T07:30"}], "in_hand": 1}
    bench = Bench.from_json(state)
    assert bench.settings == {"kitchen_c": 19}
    assert bench.bake is not None


def test_places_and_hours_are_read_off_the_settings() -> None:
    values = {"kitchen_c": 20, "kitchen_night_c": 14, "garden_shed_c": 8, "tap_c": 9, "asleep": "22:15-06:10"}
    assert {place.name: (place.day_c, place.night_c) for place in places(values)} == {
        "kitchen": (20, 14), "garden shed": (8, None),
    }  # fmt: skip
    found = place_named("how long in the garden shed?", values)
    assert found is not None and found.day_c == 8
    short = place_named("how long in the shed?", values)
    assert short is not None and short.name == "garden shed"
    assert place_named("how long in the barn?", values) is None
    assert [(why, str(start), str(end)) for why, start, end in hours(values)] == [("asleep", "22:15:00", "06:10:00")]


@settings(max_examples=12, deadline=None)
@given(st.lists(st.tuples(st.sampled_from(["kitchen", "cellar", "porch"]), st.integers(5, 30)), min_size=1, max_size=5))
def test_every_setting_undone_brings_back_the_one_before(told: list[tuple[str, int]]) -> None:
    talk = Conversation(KB, Notebook.in_memory(), now=lambda: datetime(2026, 3, 14, 7, 30))
    stood = []
    for place, warm in told:
        before = dict(talk.bench.settings)
        assert talk.reply(f"my {place} is {warm}").kind == "setting"
        if talk.bench.settings != before:  # said twice, there is nothing to take back
            stood.append(before)
    for before in reversed(stood):
        assert talk.reply("undo").kind == "setting"
        assert talk.bench.settings == before
