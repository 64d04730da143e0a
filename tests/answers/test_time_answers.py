"""What timing, water and feeding pages show, at any width, and what they leave for "more"."""

from datetime import datetime

import pytest

from assistant.notebook import Notebook
from assistant.talk.conversation import Conversation
from knowledge import Knowledge, load

LINES = (
    "how long is bulk with 20% starter at 24",
    "how long is bulk at 33 with 20% starter",
    "bulk for 20% starter at 9 c?",
    "is 4h at 26 too long",
    "dough is 26, kitchen 18, 20% starter, 1 kg: how long is bulk",
    "how long is bulk at 24 with 20% starter if it goes in the fridge after two hours",
    "how do i see a third in a round bowl",
    "water temp for 25 dough, flour 21",
    "water temperature for 25 dough, starter straight from the fridge at 5, flour 20, kitchen 20",
    "no thermometer, tap is 14, need 600 g at 32",
    "when do i feed for 6am",
    "5 g in the jar, need 400 g starter for monday 8am",
)


@pytest.fixture(scope="module")
def kb() -> Knowledge:
    return load()


def talk(kb: Knowledge) -> Conversation:
    return Conversation(kb, Notebook.in_memory(), now=lambda: datetime(2026, 3, 14, 7, 30))


@pytest.mark.parametrize("line", LINES)
@pytest.mark.parametrize("width", [40, 72, 100])
def test_no_line_is_wider_than_the_screen(kb: Knowledge, line: str, width: int) -> None:
    reply = talk(kb).reply(line)
    assert reply.kind in ("timing", "water", "feed")
    for more in (False, True):
        assert all(len(row) <= width for row in reply.render(width, more).split("\n"))


@pytest.mark.parametrize("line", LINES)
def test_the_compact_page_is_short(kb: Knowledge, line: str) -> None:
    assert len(talk(kb).reply(line).render(80).split("\n")) <= 8


@pytest.mark.parametrize("width", [40, 100])
def test_more_draws_the_rise(kb: Knowledge, width: int) -> None:
    conversation = talk(kb)
    conversation.reply("dough is 26, kitchen 18, 20% starter, 1 kg: how long is bulk")
    picture = conversation.reply("more").render(width)
    assert "80%|" in picture and "26°C" in picture and "18°C" in picture
    assert "# rise" in picture
    assert "Acid:" in picture


def test_a_timed_culture_moves_and_narrows_every_forecast(kb: Knowledge) -> None:
    conversation = talk(kb)
    before = conversation.reply("how long is bulk with 20% starter at 24").answer
    kept = conversation.reply("it peaked at 3 hours at 24, fed 1:1:1").answer
    after = conversation.reply("how long is bulk with 20% starter at 24").answer
    assert kept["value"] > 1
    assert after["minutes"] < before["minutes"]
    assert after["high_min"] / after["minutes"] < before["high_min"] / before["minutes"]
    feed = conversation.reply("feed 1:1:1 at 24, when is it ripe").answer
    assert feed["minutes"] == pytest.approx(180, abs=1)
    conversation.reply("undo")
    again = conversation.reply("how long is bulk with 20% starter at 24").answer
    assert again["minutes"] == pytest.approx(before["minutes"])


def test_bare_degrees_are_settled_aloud(kb: Knowledge) -> None:
    reply = talk(kb).reply("how long is bulk at 75 with 20% starter")
    assert reply.answer["temp_c"] == pytest.approx(23.9, abs=0.05)
    assert "75 °F" in reply.read_as
    assert any("75 °F" in word for word in reply.assumed)
    explicit = talk(kb).reply("how long is bulk at 24 C with 20% starter")
    assert not any("°F" in word for word in explicit.assumed)


def test_the_balance_is_preferred_and_the_rule_warned_of(kb: Knowledge) -> None:
    reply = talk(kb).reply(
        "water temp: 900 g flour at 20, 550 g water, 200 g starter at 5, room 20, friction 3, dough 25"
    )
    assert reply.answer["water_c"] == pytest.approx(27.9, abs=0.7)
    assert reply.answer["rule_c"] == pytest.approx(43, abs=0.01)
    assert "43 °C" in reply.render(72)


def test_thin_air_and_a_set_height(kb: Knowledge) -> None:
    conversation = talk(kb)
    low = conversation.reply("how long is bulk with 1% instant yeast at 24").answer["minutes"]
    high = conversation.reply("elevation 1600 m").answer["minutes"]
    assert 0.7 <= high / low <= 0.9


def test_a_dough_in_hand_is_taken(kb: Knowledge) -> None:
    conversation = talk(kb)
    dough = conversation.reply("24 rings of 100 g at 58%, 2% salt, 20% starter at 100%, no loss").answer
    bulk = conversation.reply("how long is bulk").answer
    feed = conversation.reply("when do i feed for 6am").answer
    water = conversation.reply("water temp?").answer
    assert bulk["hydration_pct"] == pytest.approx(dough["hydration_pct"])
    assert bulk["rise_pct"] == 30
    assert feed["g_needed"] == pytest.approx(dough["starter"]["g"])
    poured = next(row["g"] for row in dough["mix"] if row["item"] == "water")
    assert water["water_g"] + water["ice_g"] == pytest.approx(poured)


def test_fridge_after_two_hours_says_what_it_counts(kb: Knowledge) -> None:
    reply = talk(kb).reply("how long is bulk at 24 with 20% starter if it goes in the fridge after two hours")
    assert "fridge" in reply.render(72)
    warm = talk(kb).reply("how long is bulk at 24 with 20% starter").answer
    assert reply.answer["minutes"] > warm["minutes"]
