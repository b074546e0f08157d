"""Expectations of what holds other values: lists, tables of names, objects with fields."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from service.check import FieldError
from service.http.fact_order import order_errors
from service.http.walk import Expectation, Walk, step
from service.http.wording import listed, nearest, quoted, shown

#: Unknown names after this many errors are refused without the search for the nearest.
_NEAREST_UNTIL = 20


class Items:
    """A list of equal things."""

    def __init__(self, item: Expectation, least: int, most: int) -> None:
        self._item = item
        self._least = least
        self._most = most
        self.words = f"a list of {_count(least, most)}, each {item.words}"

    def read(self, value: Any, at: str, walk: Walk) -> Any:
        """Return the list with its items read."""
        if not isinstance(value, list):
            walk.refuse(at, f"write {self.words}, not {shown(value)}")
            return value
        if len(value) > self._most:
            walk.refuse(at, f"give at most {_items(self._most)}, not {len(value)}")
            return value
        if len(value) < self._least:
            walk.refuse(at, f"give at least {_items(self._least)}, not {len(value)}")
        return [self._item.read(item, step(at, i), walk) for i, item in enumerate(value)]


class Table:
    """An object whose names the caller chooses."""

    def __init__(self, name: Expectation, item: Expectation, least: int, most: int) -> None:
        self._name = name
        self._item = item
        self._least = least
        self._most = most
        self.words = f"an object of {_count(least, most)}"

    def read(self, value: Any, at: str, walk: Walk) -> Any:
        """Return the object with its members read."""
        if not isinstance(value, dict):
            walk.refuse(at, f"write {self.words}, not {shown(value)}")
            return value
        if len(value) > self._most:
            walk.refuse(at, f"give at most {_items(self._most)}, not {len(value)}")
            return value
        if len(value) < self._least:
            walk.refuse(at, f"give at least {_items(self._least)}, not {len(value)}")
        names = _texts_only(value, at, walk)
        for name in names:
            self._name.read(name, step(at, name), walk)
        return {name: self._item.read(value[name], step(at, name), walk) for name in names}


@dataclass(frozen=True, slots=True)
class Member:
    """One field of an object: what it holds, whether it must be there, an example of it."""

    expectation: Expectation
    required: bool
    example: str

    @property
    def remedy(self) -> str:
        """Return what to do where it is absent."""
        example = f", for example {self.example}" if self.example else ""
        return f"add this field: {self.expectation.words}{example}"


class Fields:
    """An object of known fields; `tag` is the constant that names its kind in a choice."""

    def __init__(
        self,
        members: Mapping[str, Member],
        *,
        closed: bool,
        tag: tuple[str, str | int] | None,
        ordered: bool,
    ) -> None:
        self._members = members
        self._steps = {name: step("", name) for name in members}
        self._closed = closed
        self._tag = tag
        self._ordered = ordered
        self._names = tuple(members) if tag is None else (tag[0], *members)
        self.words = f"an object with {listed(self._names)}"

    def read(self, value: Any, at: str, walk: Walk) -> Any:
        """Return the object with its fields read."""
        if not isinstance(value, dict):
            walk.refuse(at, f"write {self.words}, not {shown(value)}")
            return value
        found = dict(value)
        for name, member in self._members.items():
            if name in value:
                found[name] = self._read_member(member, value[name], at + self._steps[name], walk)
            elif member.required:
                walk.refuse(step(at, name), member.remedy)
        for name in _texts_only(value, at, walk):
            if name not in self._names and self._closed:
                walk.refuse(step(at, name), self._unknown(name, value, walk))
        if self._ordered:
            for error in order_errors(found.get("low"), found.get("likely"), found.get("high")):
                walk.refuse(at + error.pointer, error.detail)
        return found

    @staticmethod
    def _read_member(member: Member, value: Any, at: str, walk: Walk) -> Any:
        before = len(walk.errors)
        value = member.expectation.read(value, at, walk)
        if value is None and not member.required and len(walk.errors) == before + 1:
            pointer, detail = walk.errors[-1]
            walk.errors[-1] = FieldError(pointer, f"{detail}; or leave the field out")
        return value

    def _unknown(self, name: str, value: Mapping[Any, Any], walk: Walk) -> str:
        absent = [known for known in self._names if known not in value]
        near = nearest(name, absent) if len(walk.errors) < _NEAREST_UNTIL else None
        if near is not None:
            return f"no such field; write {quoted(near)} instead, or remove it"
        return f"no such field; remove it; the fields here are {listed(self._names)}"


def _texts_only(value: Mapping[Any, Any], at: str, walk: Walk) -> list[str]:
    names = [name for name in value if isinstance(name, str)]
    if len(names) < len(value):
        walk.refuse(at, "every name of an object must be a text; give the others as texts")
    return names


def _items(count: int) -> str:
    return "1 item" if count == 1 else f"{count} items"


def _count(least: int, most: int) -> str:
    return _items(most) if least == most else f"{least} to {_items(most)}"
