"""Hours of a report that are said as spans, and numbers that look like hours and are none."""

from __future__ import annotations

from dataclasses import replace

from grammar.lexicon import fold
from grammar.moments import Moment
from grammar.telling.deeds import BEGUN, OVER
from grammar.telling.told import Cut, Item, Made, Told
from grammar.tokens import Quantity

_TO_THE_HOUR = {"five": 5, "ten": 10, "twenty": 20, "twenty-five": 25, "twenty five": 25}


def not_hours(cut: Cut) -> None:
    """ "at 8:30 today at 24": a second bare number behind an hour of its clause is none."""
    for number in {item.clause for item in cut.items}:
        hours = [item for item in cut.clause(number) if item.amount is not None and item.amount.moment is not None]
        for item in hours[1:]:
            if item.amount is not None and item.text.isdigit() and 10 <= int(item.text) <= 40:
                value = float(item.text)
                item.amount = replace(item.amount, moment=None, quantity=Quantity(value, "num", None, value))


def to_the_hour(items: list[Item]) -> list[Item]:
    """ "ten to seven" as an hour, where it was heard as a range of figures."""
    for item in items:
        amount = item.amount
        minutes = _TO_THE_HOUR.get(fold(item.text).split(" to ")[0])
        if amount is None or amount.high is None or minutes is None or amount.high.value not in range(1, 13):
            continue
        hour = Moment(minute=(int(amount.high.value) * 60 - minutes) % 1440)
        item.amount = replace(amount, quantity=None, high=None, moment=hour)
    return items


def spans(cut: Cut) -> None:
    """ "ten to seven" as an hour; "bulk 9:10 to 12:30": begun and over."""
    for place, item in enumerate(cut.items):
        window = item.amount.window if item.amount is not None else None
        if window is None or item.amount is None:
            continue
        minutes = _TO_THE_HOUR.get(fold(item.text).split(" to ")[0])
        if minutes is not None and window.end.minute is not None:
            hour = replace(window.end, minute=(window.end.minute - minutes) % 1440)
            item.amount = replace(item.amount, window=None, moment=hour)
            continue
        stage = next((name for one in cut.clause(item.clause) for name in one.ids("stage")), None)
        if stage in BEGUN and stage in OVER:
            cut.made = [one for one in cut.made if one.clause != item.clause]
            cut.made.append(Made(Told("mark", BEGUN[stage], at=window.start), place, item.clause))
            cut.made.append(Made(Told("mark", OVER[stage], at=window.end), place, item.clause))
            item.used = True
