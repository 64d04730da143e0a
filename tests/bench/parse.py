"""How long a line takes to read: p50 and p99 over every line of the request tables, and over lines with unseen slips.

python tests/bench/parse.py
"""

from __future__ import annotations

import sys
import time
from pathlib import Path

import yaml

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT))

from assistant.talk.lexicon import lexicon  # noqa: E402
from grammar.reader import read  # noqa: E402
from grammar.requests import frames  # noqa: E402
from knowledge import load  # noqa: E402


def lines() -> list[str]:
    """Every line of the tables, pastes of several lines left out."""
    out: list[str] = []
    for path in sorted((ROOT / "tests" / "requests").glob("*.yaml")):
        for case in yaml.safe_load(path.read_text(encoding="utf-8")):
            said = [case["say"]] if isinstance(case["say"], str) else case["say"]
            out.extend(line for line in said if "\n" not in line)
    return out


def spent_ms(batch: list[str]) -> list[float]:
    """Milliseconds each line took, smallest first."""
    words, kinds = lexicon(load()), frames()
    read("warm up", words, kinds)
    out = []
    for line in batch:
        begun = time.perf_counter()
        read(line, words, kinds)
        out.append(1000 * (time.perf_counter() - begun))
    return sorted(out)


def main() -> None:
    """Print p50, p99 and the worst for plain lines and for lines with a slip in every long word."""
    plain = lines()
    slips = [" ".join(w[:2] + w[3:] + "q" if len(w) > 6 and w.isalpha() else w for w in line.split()) for line in plain]
    for name, batch in (("as written", plain), ("with slips", slips)):
        ms = spent_ms(batch)
        print(
            f"{name}: {len(ms)} lines, p50 {ms[len(ms) // 2]:.1f} ms, p99 {ms[int(len(ms) * 0.99)]:.1f} ms"
        )


if __name__ == "__main__":
    main()
