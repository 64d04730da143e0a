"""Records that cost next to nothing until they are used: a call uses a third of those the program has.

`dataclasses.dataclass` writes and compiles some six methods for each class while its module loads, which was half of
what a short request cost. With `install()` a class of ours with slots shares those that can be shared; its `__init__`
is written with its first object, and what `fields` and `replace` ask of it is told by `dataclasses` when they ask. It
looks and behaves as `dataclasses` has it.
"""

from __future__ import annotations

import dataclasses
from collections.abc import Callable, Iterable, Mapping
from operator import attrgetter
from typing import Any

_OURS = frozenset({"assistant", "grammar", "knowledge"})
_HOW = frozenset({"frozen", "slots", "kw_only", "eq"})
"""The arguments of `dataclass` that are known here; a class made with others is made by `dataclasses` alone."""
_IN_FULL: Callable[..., Any] = dataclasses.dataclass
_TOLD = ("__dataclass_fields__", "__dataclass_params__", "__match_args__")
"""What `dataclass` lets others ask of a class."""
_UNSAID: Any = object()

Held = dict[str, tuple[Any, bool]]
"""The fields of a class in order: the default (a `dataclasses.Field` or MISSING), and whether it has to be named."""


def install() -> None:
    """From now on `dataclass` makes the classes of our packages that have slots in this way."""
    dataclasses.dataclass = _dataclass


def _dataclass(cls: type | None = None, /, **how: Any) -> Any:
    def made(cls: type) -> type:
        ours = how.get("slots") and how.keys() <= _HOW and cls.__module__.partition(".")[0] in _OURS
        bases = all("_held" in vars(base) for base in cls.__mro__[1:] if _TOLD[0] in vars(base))
        return quick(cls, how) if ours and bases else _IN_FULL(cls, **how)

    return made if cls is None else made(cls)


def quick(model: type, how: Mapping[str, Any]) -> type:
    """The class with slots that `dataclasses.dataclass(model, **how)` would make."""
    frozen, by_name = bool(how.get("frozen")), bool(how.get("kw_only"))
    held: Held = {}
    for base in reversed(model.__mro__[1:]):
        held |= vars(base).get("_held", {})
    known = vars(model)
    names = [name for name, hint in known.get("__annotations__", {}).items() if "ClassVar" not in str(hint)]
    own = {name: kept for name, kept in known.items() if name not in ("__dict__", "__weakref__", *names)}
    own["__slots__"] = tuple(name for name in names if name not in held)
    held |= {name: (known.get(name, dataclasses.MISSING), by_name) for name in names}
    compared = [name for name, (default, _) in held.items() if getattr(default, "compare", True)]
    own |= {"_held": held, "_values": attrgetter(*compared) if compared else _nothing}
    shared: dict[str, Any] = {"__repr__": _repr, "__init__": _init_of(lambda: whole, frozen)}
    if frozen:
        shared |= _FROZEN
    if how.get("eq", True):
        shared["__eq__"] = _equal
        if own.get("__hash__") is None:
            own["__hash__"] = _hash if frozen else None
    shared |= {name: _Told(name, model, by_name) for name in _TOLD}
    whole: type = type(model)(model.__name__, model.__bases__, shared | own)
    whole.__qualname__ = model.__qualname__
    return whole


def _init_of(whole: Callable[[], type], frozen: bool) -> Callable[..., None]:
    """An `__init__` that writes the real one of its class and gives way to it."""

    def first(record: Any, /, *values: Any, **named: Any) -> None:
        cls: Any = whole()
        if vars(cls)["__init__"] is first:
            cls.__init__ = _written(cls, frozen)
        cls.__init__(record, *values, **named)

    return first


def _written(cls: Any, frozen: bool) -> Callable[..., None]:
    """The `__init__` of a class."""
    given: dict[str, Any] = {"_set": object.__setattr__, "_unsaid": _UNSAID}
    plain, named, lines = ["self"], ["*"], []
    for name, (default, by_name) in cls._held.items():
        value, said, asked = name, name, True
        if isinstance(default, dataclasses.Field):
            asked = default.init
            if default.default_factory is not dataclasses.MISSING:
                given[f"_make_{name}"] = default.default_factory
                value = f"_make_{name}() if {name} is _unsaid else {name}"
                default = _UNSAID
            else:
                default = default.default
        if default is not dataclasses.MISSING:
            given[f"_default_{name}"] = default
            said = f"{name}=_default_{name}"
        if asked:
            (named if by_name else plain).append(said)
        else:
            value = f"_default_{name}"
        lines.append(f" _set(self,{name!r},{value})" if frozen else f" self.{name}={value}")
    if hasattr(cls, "__post_init__"):
        lines.append(" self.__post_init__()")
    said = ",".join([*plain, *(named if len(named) > 1 else [])])
    exec(f"def __init__({said}):\n" + "\n".join(lines or [" pass"]), given)
    init: Callable[..., None] = given["__init__"]
    init.__qualname__ = f"{cls.__qualname__}.__init__"
    return init


class _Told:
    """Stands in a class for what `dataclasses` tells of it; being asked for it, it is put there."""

    def __init__(self, name: str, model: type, by_name: bool) -> None:
        self._name = name
        self._model = model
        self._by_name = by_name

    def __get__(self, _: object, owner: type) -> Any:
        if _TOLD[0] not in vars(self._model):
            _IN_FULL(self._model, init=False, repr=False, eq=False, kw_only=self._by_name)
        return vars(self._model)[self._name]


def _nothing(record: object) -> tuple[()]:
    return ()


def _values(record: Any) -> Any:
    return type(record)._values(record)


def _equal(record: Any, other: object) -> bool:
    return _values(record) == _values(other) if other.__class__ is record.__class__ else NotImplemented


def _hash(record: Any) -> int:
    return hash(_values(record))


def _repr(record: Any) -> str:
    shown = (name for name, (default, _) in type(record)._held.items() if getattr(default, "repr", True))
    return f"{type(record).__qualname__}({', '.join(f'{name}={getattr(record, name)!r}' for name in shown)})"


def _unchanged(record: Any, name: str, value: object) -> None:
    raise dataclasses.FrozenInstanceError(f"cannot assign to field {name!r}")


def _not_deleted(record: Any, name: str) -> None:
    raise dataclasses.FrozenInstanceError(f"cannot delete field {name!r}")


def _state(record: Any) -> list[Any]:
    return [getattr(record, name) for name in type(record)._held]


def _set_state(record: Any, state: Iterable[Any]) -> None:
    for name, value in zip(type(record)._held, state, strict=True):
        object.__setattr__(record, name, value)


_FROZEN: Mapping[str, Any] = {
    "__setattr__": _unchanged, "__delattr__": _not_deleted, "__getstate__": _state, "__setstate__": _set_state,
}  # fmt: skip
