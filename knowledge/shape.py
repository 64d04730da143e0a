"""Raw YAML against the type hints of a record class: every fault named, then a typed frozen record.

Two steps, so that the first can be skipped when its result is at hand: `plain_fields` checks raw values and gives
plain ones (text, numbers, lists, mappings, as JSON holds them); `build` turns checked plain values into the record.
"""

from __future__ import annotations

import types
from collections.abc import Callable, Iterable, Mapping
from dataclasses import MISSING, fields, is_dataclass
from functools import cache
from types import MappingProxyType
from typing import Any, Literal, TypeVar, Union, get_args, get_origin, get_type_hints

Plain = dict[str, Any]
"""Checked values of one record by field name, made of nothing but what JSON can hold."""

LARGEST = 1e9
N = TypeVar("N", int, float)


class _Wrong(Exception):
    """A value that does not fit; the text says why."""


def plain_fields(kind: type, raw: object, faults: list[str], *, skip: Iterable[str] = ()) -> Plain:
    """The fields of one record, checked against the dataclass `kind`.

    Each fault is appended to `faults` as `field: what is wrong`; the fields that fit are returned all the same.
    Fields in `skip` are filled by the caller: they are neither wanted nor allowed in `raw`.
    """
    return _plain_dataclass(kind, raw, "", faults, frozenset(skip))


def build(kind: type, plain: Mapping[str, Any]) -> Any:
    """The record of class `kind` from checked plain values. ValueError where the class itself objects."""
    turns = _turns(kind)
    if not turns:
        return kind(**plain)
    return kind(**{name: turns[name](value) if name in turns else value for name, value in plain.items()})


@cache
def _hints(kind: type) -> dict[str, Any]:
    return {name: hint for name, hint in get_type_hints(kind).items() if name in {f.name for f in fields(kind)}}


def _plain_dataclass(kind: type, raw: object, path: str, faults: list[str], skip: frozenset[str]) -> Plain:
    if not isinstance(raw, Mapping):
        faults.append(f"{path or 'record'}: expected fields, got {_shown(raw)}")
        return {}
    hints = {name: hint for name, hint in _hints(kind).items() if name not in skip}
    prefix = f"{path}." if path else ""
    for name in raw:
        if name not in hints:
            faults.append(f"{prefix}{name}: unknown field (known: {', '.join(sorted(hints))})")
    plain: Plain = {}
    # Only dataclasses come here; `kind: type` keeps the callers simple.
    for spec in fields(kind):
        if spec.name not in hints:
            continue
        if spec.name in raw:
            where = f"{prefix}{spec.name}"
            value = _plain_value(hints[spec.name], raw[spec.name], where, faults)
            needed = spec.default is MISSING and spec.default_factory is MISSING
            if needed and isinstance(value, str) and not value.strip():
                faults.append(f"{where}: is empty")
            plain[spec.name] = value
        elif spec.default is MISSING and spec.default_factory is MISSING:
            faults.append(f"{prefix}{spec.name}: is missing")
    return plain


def _plain_value(hint: Any, raw: object, path: str, faults: list[str]) -> Any:
    try:
        return _fitted(hint, raw, path, faults)
    except _Wrong as wrong:
        faults.append(f"{path}: {wrong}")
        return None


def _fitted(hint: Any, raw: object, path: str, faults: list[str]) -> Any:
    """`raw` as a plain value of type `hint`; _Wrong where it is none, deeper faults appended."""
    origin, args = get_origin(hint), get_args(hint)
    if origin in (Union, types.UnionType):
        return _fitted_union(args, raw, path, faults)
    if origin is Literal:
        if raw not in args or isinstance(raw, bool):
            raise _Wrong(f"expected one of {', '.join(map(str, args))}, got {_shown(raw)}")
        return raw
    if origin is tuple:
        return _fitted_tuple(args, raw, path, faults)
    if origin is not None and isinstance(origin, type) and issubclass(origin, Mapping):
        return _fitted_mapping(args, raw, path, faults)
    if isinstance(hint, type) and is_dataclass(hint):
        return _plain_dataclass(hint, raw, path, faults, frozenset())
    return _fitted_scalar(hint, raw)


def _bounded(raw: N) -> N:
    if not -LARGEST <= raw <= LARGEST:  # so written, it turns away what is no number at all as well
        raise _Wrong(f"expected a number that a kitchen knows, got {raw:.3g}")
    return raw


def _fitted_scalar(hint: Any, raw: object) -> Any:
    if hint is float:
        if isinstance(raw, bool) or not isinstance(raw, int | float):
            raise _Wrong(f"expected a number, got {_shown(raw)}")
        return float(_bounded(raw))
    if hint is int:
        if isinstance(raw, bool) or not isinstance(raw, int):
            raise _Wrong(f"expected a whole number, got {_shown(raw)}")
        return _bounded(raw)
    if hint is bool:
        if not isinstance(raw, bool):
            raise _Wrong(f"expected true or false, got {_shown(raw)}")
        return raw
    if hint is str:
        if not isinstance(raw, str):
            hint_text = " (put it in quotes)" if isinstance(raw, int | float) else ""
            raise _Wrong(f"expected text, got {_shown(raw)}{hint_text}")
        return raw
    if hint is type(None):
        if raw is not None:
            raise _Wrong(f"expected nothing, got {_shown(raw)}")
        return None
    raise _Wrong(f"fields of type {hint!r} cannot be read from a file")


def _fitted_union(args: tuple[Any, ...], raw: object, path: str, faults: list[str]) -> Any:
    if raw is None and type(None) in args:
        return None
    choices = [arg for arg in args if arg is not type(None)]
    if len(choices) == 1:
        return _fitted(choices[0], raw, path, faults)
    told: list[str] = []
    for choice in choices:
        inner: list[str] = []
        try:
            value = _fitted(choice, raw, path, inner)
        except _Wrong as wrong:
            told.append(str(wrong))
            continue
        if not inner:
            return value
        told.append("; ".join(inner))
    raise _Wrong(", or ".join(told))


def _fitted_tuple(args: tuple[Any, ...], raw: object, path: str, faults: list[str]) -> list[Any]:
    if not isinstance(raw, list | tuple):
        raise _Wrong(f"expected a list, got {_shown(raw)}")
    if len(args) == 2 and args[1] is Ellipsis:
        hints: list[Any] = [args[0]] * len(raw)
    else:
        hints = list(args)
        if len(raw) != len(hints):
            raise _Wrong(f"expected {len(hints)} values, got {len(raw)}")
    return [
        _plain_value(hint, item, f"{path}[{place}]", faults)
        for place, (hint, item) in enumerate(zip(hints, raw, strict=True), start=1)
    ]


def _fitted_mapping(args: tuple[Any, ...], raw: object, path: str, faults: list[str]) -> dict[str, Any]:
    if not isinstance(raw, Mapping):
        raise _Wrong(f"expected a mapping, got {_shown(raw)}")
    fitted: dict[str, Any] = {}
    for key, value in raw.items():
        if not isinstance(key, str):
            faults.append(f"{path}: key {key!r} is not text (put it in quotes)")
            continue
        fitted[key] = _plain_value(args[1], value, f"{path}.{key}", faults)
    return fitted


def _shown(raw: object) -> str:
    """A raw value in the words of whoever wrote the file."""
    if raw is None:
        return "nothing"
    if isinstance(raw, bool):
        return "true" if raw else "false"
    if isinstance(raw, int | float):
        return f"the number {raw}"
    if isinstance(raw, str):
        return f"'{raw if len(raw) <= 40 else raw[:40] + '…'}'"
    return "a list" if isinstance(raw, list | tuple) else "a mapping"


@cache
def _turns(kind: type) -> dict[str, Callable[[Any], Any]]:
    """For each field whose plain value is not yet its final value: how to make it so."""
    return {name: turn for name, hint in _hints(kind).items() if (turn := _turn(hint)) is not None}


def _turn(hint: Any) -> Callable[[Any], Any] | None:
    origin, args = get_origin(hint), get_args(hint)
    if origin in (Union, types.UnionType):
        turns = [turn for arg in args if arg is not type(None) and (turn := _turn(arg)) is not None]
        if not turns:
            return None
        return _union_turn(tuple(arg for arg in args if arg is not type(None)))
    if origin is tuple:
        return _tuple_turn(args)
    if origin is not None and isinstance(origin, type) and issubclass(origin, Mapping):
        inner = _turn(args[1])
        if inner is None:
            return MappingProxyType
        return lambda value: MappingProxyType({key: inner(item) for key, item in value.items()})
    if isinstance(hint, type) and is_dataclass(hint):
        return lambda value: build(hint, value)
    return None


def _tuple_turn(args: tuple[Any, ...]) -> Callable[[Any], Any]:
    if len(args) == 2 and args[1] is Ellipsis:
        inner = _turn(args[0])
        return tuple if inner is None else (lambda value: tuple(inner(item) for item in value))
    turns = [_turn(arg) for arg in args]
    return lambda value: tuple(item if turn is None else turn(item) for turn, item in zip(turns, value, strict=True))


def _union_turn(choices: tuple[Any, ...]) -> Callable[[Any], Any]:
    """Which of several types a checked plain value was is found again by checking."""
    if len(choices) == 1:
        only = _turn(choices[0])
        assert only is not None
        return lambda value: None if value is None else only(value)

    def turn(value: Any) -> Any:
        if value is None:
            return None
        for choice in choices:
            inner: list[str] = []
            try:
                _fitted(choice, value, "", inner)
            except _Wrong:
                continue
            if not inner:
                turned = _turn(choice)
                return value if turned is None else turned(value)
        raise ValueError(f"no type of {choices} fits {value!r}")

    return turn
