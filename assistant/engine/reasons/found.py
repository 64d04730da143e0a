"""The reasons for every figure of a formula, and the one for a figure that was asked after."""

from __future__ import annotations

from typing import TYPE_CHECKING

from assistant.engine.dough import Formula
from assistant.engine.reasons.pieces import piece_reasons, reading_reasons
from assistant.engine.reasons.reason import Reason
from assistant.engine.reasons.rows import preferment_reason, row_reason
from assistant.engine.reasons.shares import share_reasons
from assistant.engine.reasons.whole import dough_reason, flour_reason, water_reason

if TYPE_CHECKING:
    from knowledge import Knowledge

CLOSE_SHARE = 0.0015
"""A figure asked after is the one this near to it, as a share."""


def reasons_for(formula: Formula, kb: Knowledge) -> tuple[Reason, ...]:
    """A reason for every figure, the dough first, then the rows in pouring order, then what follows from them."""
    out = [dough_reason(formula), flour_reason(formula), water_reason(formula, kb)]
    out += [row_reason(row, formula, kb) for row in formula.rows]
    out += [preferment_reason(detail, formula) for detail in formula.preferments]
    out += share_reasons(formula, kb)
    out += piece_reasons(formula, kb)
    out += reading_reasons(formula)
    return tuple(out)


def reason_for(formula: Formula, kb: Knowledge, named: str | None, value: float | None) -> Reason | None:
    """The reason for a figure by its name (a field or an item id) or by its value as printed; None where none fits."""
    reasons = reasons_for(formula, kb)
    if named is not None:
        for reason in reasons:
            if reason.figure in (named, f"row {named}", f"preferment {named}"):
                return reason
    if value is None:
        return None
    close = [reason for reason in reasons if abs(reason.value - value) <= max(0.6, CLOSE_SHARE * abs(value))]
    return min(close, key=lambda reason: abs(reason.value - value), default=None)
