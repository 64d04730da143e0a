"""A line that goes on from an earlier one: one account for all topics of what it changes, adds and leaves as it was.

A kind of request says by a `Follow` in its frame how its lines go on; what is said takes the place of the same said
before, and what no longer holds beside it is forgotten.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import MISSING, dataclass, field, fields, replace
from typing import TYPE_CHECKING, Any, TypeVar

if TYPE_CHECKING:
    from grammar.frames import Bound

T = TypeVar("T")


def said(value: object) -> bool:
    """Whether a field holds something that was said; nought is something."""
    return not (value is None or value is False or value == ())


def changes(line: Any) -> dict[str, Any]:
    """The fields of a request that were said."""
    return {one.name: getattr(line, one.name) for one in fields(line) if said(getattr(line, one.name))}


def without(earlier: T, *names: str) -> T:
    """An earlier request with these fields unsaid."""
    blank = {one.name: one.default for one in fields(earlier) if one.default is not MISSING}  # type: ignore[arg-type]
    return replace(earlier, **{name: blank[name] for name in names if name in blank})  # type: ignore[type-var]


def put_onto(earlier: T, changed: Mapping[str, Any], forgets: Mapping[str, tuple[str, ...]] | None = None) -> T:
    """An earlier request with what changed put in; forgets: for a field said, those that hold no longer beside it."""
    gone = [name for field in changed for name in (forgets or {}).get(field, ())]
    return replace(without(earlier, *gone), **changed)  # type: ignore[type-var]


def _goes_on(line: Any, earlier: Any, bound: Bound) -> bool:
    return False


@dataclass(frozen=True, slots=True)
class Follow:
    """How the lines of one kind of request go on from an earlier one of that kind.

    alone: whether a line says enough by itself, so that it is no change to the earlier one. may: the fields a line can
    change, all where none are named. forgets: for a field said, those of the earlier one that hold no longer beside it.
    once: fields of the earlier one that held for its own line only. of: other kinds of request it may go on from.
    account: for a kind whose fields lean on one another: the earlier request as the line leaves it.
    """

    alone: Callable[[Any, Any, Bound], bool] = _goes_on
    may: tuple[str, ...] = ()
    forgets: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    once: tuple[str, ...] = ()
    of: tuple[type, ...] = ()
    account: Callable[[Any, Any, Bound], Any] | None = None


def gone_on(follow: Follow, line: Any, earlier: Any, bound: Bound) -> Any:
    """The request a line makes after an earlier one: itself where it stands alone, else that one changed by it."""
    alike = isinstance(earlier, (type(line), *follow.of)) or isinstance(line, type(earlier))
    if not alike or follow.alone(line, earlier, bound):
        return line
    if follow.account is not None:
        return follow.account(line, earlier, bound)
    changed = {name: value for name, value in changes(line).items() if not follow.may or name in follow.may}
    return put_onto(without(earlier, *follow.once), changed, follow.forgets)
