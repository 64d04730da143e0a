"""The hours of a bake as a drawing for a page: one row a kind of work, told apart by its name and not by colour."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime, timedelta
from html import escape

from assistant.voice.timeline import Bar, lanes

_WIDTH, _NAMES, _ROW, _SCALE = 720, 70, 24, 20
_HOURS = (1, 2, 3, 4, 6, 12, 24)
_LABEL_APART = 44


def timeline_svg(bars: Sequence[Bar]) -> str:
    """An SVG 1.1 element in the colour of the text around it; "" where there is nothing to draw."""
    rows = lanes(bars)
    if not rows:
        return ""
    begin = min(bar.start for bar in bars).replace(minute=0, second=0, microsecond=0)
    minutes = max(60.0, (max(bar.end for bar in bars) - begin).total_seconds() / 60)

    def x(at: datetime) -> float:
        return _NAMES + (_WIDTH - _NAMES) * (at - begin).total_seconds() / 60 / minutes

    height = _SCALE + _ROW * len(rows)
    parts = [
        f'<svg viewBox="0 0 {_WIDTH} {height}" width="100%" role="img" aria-label="The hours below, drawn" '
        'fill="currentColor" stroke="none" font-size="13" font-family="inherit">'
    ]
    for at in _hours(begin, minutes):
        parts.append(f'<path d="M{x(at):.1f} {_SCALE}V{height}" stroke="currentColor" stroke-opacity=".25"/>')
        parts.append(f'<text x="{x(at) + 2:.1f}" y="13">{at:%H:%M}</text>')
    for number, row in enumerate(rows):
        top = _SCALE + _ROW * number
        parts.append(f'<text x="0" y="{top + 17}">{escape(row.name)}</text>')
        for start, stop, _ in row.spans:
            wide = max(2.0, x(stop) - x(start))
            parts.append(
                f'<rect x="{x(start):.1f}" y="{top + 4}" width="{wide:.1f}" height="{_ROW - 8}">'
                f"<title>{escape(row.name)} {start:%H:%M} to {stop:%H:%M}</title></rect>"
            )
    return "\n".join([*parts, "</svg>"])


def _hours(begin: datetime, minutes: float) -> list[datetime]:
    """Whole hours as far apart as their labels need."""
    room = (_WIDTH - _NAMES) / (minutes / 60)
    step = next((hours for hours in _HOURS if hours * room >= _LABEL_APART), _HOURS[-1])
    first = begin + timedelta(hours=-begin.hour % step)
    count = int((minutes - (first - begin).total_seconds() / 60) // (60 * step)) + 1
    found = [first + timedelta(hours=step * number) for number in range(count)]
    last = begin + timedelta(minutes=minutes * (1 - _LABEL_APART / (_WIDTH - _NAMES)))
    return [at for at in found if at <= last]
