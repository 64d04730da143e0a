"""An oven that is hotter or cooler than its dial says, told with by how much."""

from __future__ import annotations

from grammar.frames import Frame, Line, Own, never_by_slots
from grammar.requests.setting import SettingRequest
from grammar.spoken import found, matched, spelled_out, spoken
from grammar.tokens import Quantity

_CERTAIN = 100.0
_MOST = 60.0
_WORD = "(?:<hand:the>|<hand:polite>|<hand:oven_named>|<hand:over_dial>|<hand:under_dial>|<hand:off_dial>)"


def _off(line: Line) -> Own | None:
    """A line that says so of the oven and nothing else."""
    said = spoken(spelled_out(line.text), line.lexicon)
    told = [token for token in line.tokens if token.quantity is not None or token.kind == "CLOCK"]
    words = said.folded.replace(",", " ").split()
    if len(told) != 1 or line.text.rstrip().endswith("?") or not all(_passes(word, line) for word in words):
        return None
    oven, over, under = (
        found(f"<hand:{one}>", said, line.lexicon) is not None for one in ("oven_named", "over_dial", "under_dial")
    )
    by = _degrees(told[0].quantity, told[0].text)
    if not oven or over == under or not 0 < by <= _MOST:
        return None
    return Own(SettingRequest((("oven_off_c", by if over else -by),), True), _CERTAIN)


def _passes(word: str, line: Line) -> bool:
    return word[:1].isdigit() or matched(_WORD, spoken(word), line.lexicon) is not None


def _degrees(amount: Quantity | None, text: str) -> float:
    """A difference in °C; Fahrenheit only where it is said. "by 20" looks like an hour and is none here."""
    if amount is None:
        return float(text) if text.isdigit() else 0.0
    return amount.value / 1.8 if amount.unit == "degF" else amount.value


FRAME = Frame(SettingRequest, "setting", never_by_slots, reads=_off, first=True, needs=("slot:none",))
