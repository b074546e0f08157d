"""Expectations where several kinds of value may stand: unions, and objects told apart by a tag."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from service.http.expect_containers import Fields, Items, Table
from service.http.expect_scalars import Choice, Flag, Nothing, Number, Text
from service.http.walk import Expectation, Walk, step
from service.http.wording import listed, nearest, shown


class OneOfKinds:
    """An object of one of several kinds; a constant tag says which."""

    def __init__(self, tag_field: str, kinds: Mapping[str | int, Fields]) -> None:
        self._tag_field = tag_field
        self._kinds = kinds
        self._tags = [str(tag) for tag in kinds]
        self.words = f'an object whose "{tag_field}" is one of {listed(self._tags)}'

    def read(self, value: Any, at: str, walk: Walk) -> Any:
        """Return the object, read as the kind that its tag names."""
        if not isinstance(value, dict):
            walk.refuse(at, f"write {self.words}, not {shown(value)}")
            return value
        place = step(at, self._tag_field)
        if self._tag_field not in value:
            walk.refuse(place, f"add this field: one of {listed(self._tags)}")
            return value
        tag = value[self._tag_field]
        fields = self._kinds.get(tag) if isinstance(tag, str) else None
        if fields is None:
            near = nearest(tag, self._tags) if isinstance(tag, str) else None
            meant = f'"{near}" perhaps: ' if near else ""
            walk.refuse(place, f"write {meant}one of {listed(self._tags)}, not {shown(tag)}")
            return value
        return fields.read(value, at, walk)


class Either:
    """One of several kinds of value, at most one for each kind that JSON knows."""

    def __init__(self, members: Sequence[Expectation]) -> None:
        self._flag = _first(members, Flag)
        self._nothing = _first(members, Nothing)
        self._whole = _first(members, Number, whole=True)
        self._number = _first(members, Number, whole=False)
        self._text = _first(members, Text, Choice)
        self._list = _first(members, Items)
        self._object = _first(members, Fields, OneOfKinds, Table)
        self._nullable = self._nothing is not None
        self.words = ", or ".join(m.words for m in members if not isinstance(m, Nothing))

    def read(self, value: Any, at: str, walk: Walk) -> Any:
        """Return the value, read as the member of its kind."""
        member = self._member_for(value)
        if member is not None:
            return member.read(value, at, walk)
        also = ", or null" if self._nullable else ""
        walk.refuse(at, f"write {self.words}{also}, not {shown(value)}")
        return value

    def _member_for(self, value: Any) -> Expectation | None:
        if value is None:
            return self._nothing
        if isinstance(value, bool):
            return self._flag
        if isinstance(value, int):
            return self._whole or self._number or self._numeric_choice()
        if isinstance(value, float):
            return self._number or self._whole
        if isinstance(value, str):
            return self._text or self._number or self._whole
        if isinstance(value, list):
            return self._list
        return self._object if isinstance(value, dict) else None

    def _numeric_choice(self) -> Expectation | None:
        return self._text if isinstance(self._text, Choice) else None


def _first(
    members: Sequence[Expectation], *kinds: type, whole: bool | None = None
) -> Expectation | None:
    for member in members:
        fits = whole is None or (isinstance(member, Number) and member.whole is whole)
        if isinstance(member, kinds) and fits:
            return member
    return None
