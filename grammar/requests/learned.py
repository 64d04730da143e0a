"""What was learned of the starter's pace: asked for, or to be forgotten."""

from __future__ import annotations

from grammar.frames import Frame, Line, Own, never_by_slots
from grammar.levels import PLAINLY
from grammar.requests.setting_asked import SettingForgotten, SettingsAsked
from grammar.telling.words import items_of

NAMES = ("seen_pace", "culture_pace")
"""The settings that hold it."""


def _heard(line: Line) -> tuple[bool, bool]:
    """Whether the line is about the pace of the starter and nothing else; whether it is to be forgotten."""
    items = items_of(line)
    known = all(item.amount is None and item.terms for item in items)
    about = any("pace" in item.ids("learned") for item in items)
    about = about and any("starter" in item.ids("gauge") for item in items)
    return known and about, any("forget" in item.ids("learned") for item in items[:2])


def _forgotten(line: Line) -> Own | None:
    about, forget = _heard(line)
    return Own(SettingForgotten(about=NAMES), PLAINLY) if about and forget else None


def _asked(line: Line) -> Own | None:
    about, forget = _heard(line)
    asks = line.text.rstrip().endswith("?") or any(item.ids("asks") for item in items_of(line)[:1])
    return Own(SettingsAsked(about=NAMES), PLAINLY) if about and asks and not forget else None


FRAMES = (
    Frame(SettingForgotten, "setting", never_by_slots, reads=_forgotten, settles=True),
    Frame(SettingsAsked, "setting", never_by_slots, reads=_asked, settles=True),
)
