"""The page of a dough: read at arm's length, at any width, and nothing on it that does not add up."""

from __future__ import annotations

import re
from datetime import datetime

import pytest

from assistant.notebook import Notebook
from assistant.talk.conversation import Conversation
from assistant.talk.reply import Reply
from knowledge import Knowledge, load

LINES = (
    "24 rolls of 80 g at 66 %",
    "2 kg flour at 62 %, 1 % instant yeast",
    "30 rings of 105 g at 57 %, 2 % malt syrup, 0.4 % fresh yeast, 12 % starter",
    "14 buns of 70 g, 60 %, 10 % butter, 9 % sugar, 12 % egg",
)


@pytest.fixture(scope="module")
def kb() -> Knowledge:
    return load()


def said(kb: Knowledge, *lines: str) -> Reply:
    talk = Conversation(kb, Notebook.in_memory(), now=lambda: datetime(2026, 3, 14, 7, 30))
    return [talk.reply(line) for line in lines][-1]


def rows(page: str) -> list[tuple[str, float, float]]:
    """Name, grams and scale reading of every row of the table."""
    found = re.findall(r"^(\S.*?)\s{2,}([\d.]+)\s{2,}([\d.]+)\s{2,}[\d.]+$", page, re.M)
    return [(name, float(g), float(reading)) for name, g, reading in found]


@pytest.mark.parametrize("line", LINES)
def test_rows_add_up_to_what_the_scale_shows(kb: Knowledge, line: str) -> None:
    reply = said(kb, line)
    table = rows(reply.render(60))
    assert len(table) == len(reply.answer["mix"])
    reading = 0.0
    for _, g, shown in table:
        reading += g
        assert shown == pytest.approx(reading)
    assert reading == pytest.approx(reply.answer["dough_g"], abs=0.5 + 0.05 * len(table))


@pytest.mark.parametrize("line", LINES)
@pytest.mark.parametrize("width", [24, 40, 60, 72, 100])
def test_no_line_is_wider_than_the_screen(kb: Knowledge, line: str, width: int) -> None:
    assert all(len(one) <= width for one in said(kb, line).render(width, more=True).splitlines())


def test_a_plain_dough_is_its_rows_and_three_lines(kb: Knowledge) -> None:
    reply = said(kb, "24 rolls of 80 g at 66 %")
    page = reply.render(100).splitlines()
    assert len(page) == len(reply.answer["mix"]) + 3
    assert page[0].split()[:5] == ["24", "rolls", "x", "80", "g"]
    assert page[-2].startswith("Assumed: ") and page[-1].startswith("Allergens: ")


def test_more_tells_where_water_and_flour_are(kb: Knowledge) -> None:
    # 1154 g flour at 66 %: 762 g water, 105 of it in the starter
    more = said(kb, "24 rolls of 80 g at 66 %", "more").render(72)
    assert "Water 762 g: 657 poured + 105 in the starter" in more
    assert "Flour 1154 g: 1049 bread flour + 105 in the starter" in more


def test_what_was_asked_comes_first(kb: Knowledge) -> None:
    # 40 x 60 x 1.01 = 2424; / (1 + 0.62 + 0.018) = 1479.9; 1.8 % = 26.6
    page = said(kb, "how much salt for 40 rolls at 60 g, 62 %, 1.8 % salt").render(60)
    assert page.splitlines()[0] == "salt 26.6 g"


def test_a_caution_is_said_once_for_a_bake_and_always_to_a_program(kb: Knowledge) -> None:
    first = said(kb, "20 rolls of 80 g at 64 %, 4 % honey")
    later = said(kb, "20 rolls of 80 g at 64 %, 4 % honey", "make it 66")
    assert any("12 months" in caution for caution in first.cautions)
    assert any("12 months" in caution for caution in later.cautions)
    assert any("Allergens: wheat, gluten" in caution for caution in later.cautions)


def test_the_machine_form_adds_up(kb: Knowledge) -> None:
    answer = said(kb, "18 loaves of 640 g at 71 %, 25 % wholemeal, 22 % starter at 60 % hydration").answer
    assert sum(row["g"] for row in answer["mix"]) == pytest.approx(answer["dough_g"])
    assert answer["hydration_pct"] == pytest.approx(100 * answer["water_g"] / answer["flour_g"])
    starter = answer["starter"]
    assert starter["flour_g"] + starter["water_g"] == pytest.approx(starter["g"])
    assert starter["water_g"] == pytest.approx(0.6 * starter["flour_g"])
    assert answer["starter_pct"] == pytest.approx(22)
    assert isinstance(answer["pieces"], int)


def test_showing_again_changes_nothing(kb: Knowledge) -> None:
    talk = Conversation(kb, Notebook.in_memory(), now=lambda: datetime(2026, 3, 14, 7, 30))
    talk.reply("24 rolls of 80 g at 66 %")
    before = talk.bench.bakes
    shown = talk.reply("show it again")
    assert shown.kind == "formula" and talk.bench.bakes == before


def test_a_second_dough_lies_beside_the_first(kb: Knowledge) -> None:
    talk = Conversation(kb, Notebook.in_memory(), now=lambda: datetime(2026, 3, 14, 7, 30))
    talk.reply("24 rolls of 80 g at 66 %")
    talk.reply("new dough: 6 loaves of 800 g at 72 %")
    assert [bake.name for bake in talk.bench.bakes] == ["24 rolls x 80 g at 66 %", "6 loaves x 800 g at 72 %"]
    talk.reply("make it 74")
    assert [bake.name for bake in talk.bench.bakes][1] == "6 loaves x 800 g at 74 %"
