"""Processor time a plan takes to find: p50 and p99 over 300 random wishes, and over the plan table's lines.

python tests/bench/plans.py
"""

from __future__ import annotations

import random
import sys
import time
from datetime import datetime, timedelta
from datetime import time as clock
from pathlib import Path

import yaml

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT))

from assistant.engine.growth import kinetics  # noqa: E402
from assistant.engine.heat import heat_constants  # noqa: E402
from assistant.engine.plan.asked import Kitchen, Trade, Wish  # noqa: E402
from assistant.engine.plan.batches import usual_batch  # noqa: E402
from assistant.engine.plan.clock import Busy  # noqa: E402
from assistant.engine.plan.nearest import Miss  # noqa: E402
from assistant.engine.plan.search import plan  # noqa: E402
from assistant.notebook import Notebook  # noqa: E402
from assistant.talk.conversation import Conversation  # noqa: E402
from knowledge import load  # noqa: E402
from knowledge.records.bench_work import BenchWork  # noqa: E402
from knowledge.records.kinetics import Kinetic  # noqa: E402
from knowledge.records.process import Process  # noqa: E402

NOW = datetime(2026, 3, 14, 7, 30)
BREADS = (
    "ring_roll", "crusty_roll", "soft_roll", "pan_loaf", "sourdough_loaf", "focaccia", "high_rye", "pita", "brioche",
    "cinnamon_bun", "baguette", "country_loaf", "flour_tortilla",
)  # fmt: skip


def random_wishes(count: int) -> tuple[list[float], int]:
    """Milliseconds of processor time for each, smallest first, and how many could not be kept."""
    kb = load()
    records = kb.all(Kinetic)
    trade = Trade(kinetics(records), heat_constants(records), kb.all(BenchWork), records)
    process = {bread: one for one in kb.all(Process).values() for bread in one.breads}
    dice = random.Random(11)
    spent, missed = [], 0
    for _ in range(count):
        bread = dice.choice(BREADS)
        made = usual_batch(kb.breads[bread], process[bread], pieces=dice.randint(1, 30))
        night_c = dice.choice([None, None, None, float(dice.randint(9, 25))])
        kitchen = Kitchen(room_c=float(dice.randint(9, 32)), night_c=night_c)
        busy = [Busy(clock(22), clock(6), None, "asleep")]
        if dice.random() < 0.5:
            day = (NOW + timedelta(days=dice.randint(0, 2))).date()
            busy.append(Busy(clock(9), clock(12, 30), day, "out"))
        ready = (NOW + timedelta(days=dice.randint(0, 2))).replace(hour=dice.randint(7, 20), minute=0)
        starter = dice.choice(["ripe", "feed", "either"])
        wish = Wish(now=NOW, ready_by=ready, busy=tuple(busy), starter=starter)  # type: ignore[arg-type]
        begun = time.process_time()
        missed += isinstance(plan(made, kitchen, wish, trade), Miss)
        spent.append(1000 * (time.process_time() - begun))
    return sorted(spent), missed


def table_lines() -> list[float]:
    """Milliseconds from a line of the plan table to its reply, smallest first."""
    kb = load()
    spent = []
    for case in yaml.safe_load((ROOT / "tests" / "requests" / "plan.yaml").read_text(encoding="utf-8")):
        for line in [case["say"]] if isinstance(case["say"], str) else case["say"]:
            talk = Conversation(kb, Notebook.in_memory(), now=lambda: NOW)
            for earlier in case.get("given", ["help"]):
                talk.reply(earlier)
            begun = time.process_time()
            talk.reply(line)
            spent.append(1000 * (time.process_time() - begun))
    return sorted(spent)


def at(spent: list[float], share: float) -> float:
    """The value below which this share lies."""
    return spent[min(len(spent) - 1, int(share * len(spent)))]


def main() -> None:
    """Print both."""
    spent, missed = random_wishes(300)
    print(f"300 random wishes, {missed} refused: p50 {at(spent, 0.5):.0f} ms, p99 {at(spent, 0.99):.0f} ms")
    replies = table_lines()
    print(f"{len(replies)} lines to replies: p50 {at(replies, 0.5):.0f} ms, p99 {at(replies, 0.99):.0f} ms")


if __name__ == "__main__":
    main()
