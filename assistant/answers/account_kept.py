"""What was told of a bake under way, as it is kept on the bench.

It stands among the facts of its dough, or loose on the bench until there is one.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from datetime import datetime, timedelta
from typing import Any

from assistant.answers.dough_said import solved
from assistant.engine.course.told import Account, Mark, Reading
from assistant.talk.bench import TOLD, Bench
from assistant.talk.room import Room

LAST_H = 72.0
"""What was told before there was a dough holds so long."""


def account_of(room: Room) -> Account:
    """What was told of the dough in hand; what was told before there was one, of the last days."""
    bake = room.bake
    own = account_again(bake.facts.get(TOLD) or {}) if bake is not None else Account()
    if own.marks or own.readings:
        return own
    since = room.now.replace(tzinfo=None) - timedelta(hours=LAST_H)
    loose = account_again(room.bench.notes.get(TOLD) or {})
    return replace(
        loose,
        marks=tuple(one for one in loose.marks if one.at > since),
        readings=tuple(one for one in loose.readings if one.at > since),
    )


def account_kept(account: Account) -> dict[str, Any]:
    """An account as plain JSON."""
    return {
        "marks": [[one.step, iso(one.at), one.pieces, one.sure] for one in account.marks],
        "readings": [[one.what, one.value, iso(one.at)] for one in account.readings],
        "ratio": list(account.ratio) if account.ratio else None,
        "starter_pct": account.starter_pct,
    }


def account_again(saved: Mapping[str, Any]) -> Account:
    """The account that was kept."""
    ratio = saved.get("ratio")
    return Account(
        tuple(Mark(step, datetime.fromisoformat(at), *rest) for step, at, *rest in saved.get("marks") or ()),
        tuple(Reading(what, value, datetime.fromisoformat(at)) for what, value, at in saved.get("readings") or ()),
        (ratio[0], ratio[1], ratio[2]) if ratio else None,
        saved.get("starter_pct"),
    )


def with_account(bench: Bench, account: Account) -> Bench:
    """The bench with the account of the dough in hand (or of none yet) replaced."""
    if bench.bake is not None:
        return bench.with_changed_bake(facts={TOLD: account_kept(account)})
    return bench.with_notes(TOLD, account_kept(account))


def asked_for(room: Room) -> int | None:
    """How many pieces the dough in hand was asked for; None where that is not known."""
    if room.bake is None:
        return None
    pieces = solved(room.formula_said, room).pieces
    return None if pieces is None else int(pieces)


def pieces_there(room: Room, asked_for: int) -> int:
    """How many pieces of the dough in hand there are, of so many it was asked for."""
    return account_of(room).pieces_of(asked_for) or asked_for


def iso(at: datetime) -> str:
    return at.replace(tzinfo=None).isoformat(timespec="minutes")
