"""How far the forecasts are from published times: the root mean square factor, and which points miss their range.

Run from the project's root: `python tests/bench/published_times.py`. The published charts give ranges; a point is the
geometric middle of its range. Starter peaks by ratio and temperature (charts and press, 20-28 C), bulk times of a 20 %
starter dough (teaching charts), and processes with commercial yeast (army recipe cards, bakers' textbooks).
"""

from __future__ import annotations

import math
import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))

from assistant.engine.fermentation import Dough, minutes_to, minutes_to_ripe, starter_dough
from assistant.engine.growth import Kinetics, kinetics
from assistant.engine.temperature_path import steady
from knowledge import load
from knowledge.records.kinetics import Kinetic

PEAKS = (  # parts of flour, °C, hours from, hours to
    (1, 20, 4, 6.5), (1, 24, 2.5, 4.5), (1, 27, 2, 4), (2, 20, 5, 9), (2, 24, 3.5, 6.5), (2, 27, 3, 5.5), (4, 20, 8,
    12),
    (5, 20, 9, 14), (5, 24, 5.5, 10), (5, 27, 4.5, 8.5), (10, 20, 11, 17), (10, 22, 9.5, 12.5), (10, 24, 7, 12.5),
    (10, 27, 6, 11),
)  # fmt: skip
BULKS = ((27, 30, 3, 5.5), (25, 50, 4.5, 6.5), (21, 75, 6.5, 11), (20, 100, 10, 15))  # °C, rise, hours from, to
YEASTED = (  # fresh % of flour, °C, hydration, salt, rise, hours from, hours to
    (2.0, 26.7, 65, 2.4, 100, 1.3, 2.3), (0.2, 21, 100, 0, 100, 11, 17), (1.0, 19, 44, 0, 200, 16, 18), (0.6, 21,
    75, 2, 130, 12, 18),
    (2.0, 24.5, 65, 2, 90, 1.5, 2.0), (1.25, 26, 62, 0, 200, 4.5, 5.5), (0.63, 26, 62, 0, 200, 7, 9),
)  # fmt: skip


def points(k: Kinetics) -> dict[str, list[tuple[str, float, float, float]]]:
    """Per group: name, forecast hours, published from and to."""
    peaks = [
        (f"1:{parts}:{parts} at {t} C", minutes_to_ripe(k, starter_dough(1, parts, parts), steady(t)) / 60, low, high)
        for parts, t, low, high in PEAKS
    ]
    bulks = [
        (f"bulk to +{rise} % at {t} C", minutes_to(k, Dough(71, 2, 20), steady(t), rise) / 60, low, high)
        for t, rise, low, high in BULKS
    ]
    yeasted = [
        (
            f"{x} % fresh at {t} C to +{rise} %",
            minutes_to(k, Dough(h, s, yeast_fresh_pct=x), steady(t), rise) / 60,
            low,
            high,
        )
        for x, t, h, s, rise, low, high in YEASTED
    ]
    return {"starter and sourdough bulk": [*peaks, *bulks], "commercial yeast": yeasted}


def main() -> None:
    """Print the figures."""
    k = kinetics(load().all(Kinetic))
    for group, rows in points(k).items():
        logs = [math.log(hours / math.sqrt(low * high)) for _, hours, low, high in rows]
        factor = math.exp(math.sqrt(sum(x * x for x in logs) / len(logs)))
        bias = 100 * (math.exp(sum(logs) / len(logs)) - 1)
        inside = sum(low <= hours <= high for _, hours, low, high in rows)
        print(f"{group}: {len(rows)} points, RMS x/÷ {factor:.2f}, bias {bias:+.0f} %, {inside} inside their range")
        for name, hours, low, high in rows:
            mark = "" if low <= hours <= high else "   outside"
            print(f"  {name}: {hours:.1f} h, published {low:g}-{high:g} h{mark}")


if __name__ == "__main__":
    main()
