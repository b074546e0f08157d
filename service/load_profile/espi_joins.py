"""Who belongs to whom in a flat feed: by links, or by the order of the feed where there are none.

A link is a text that is compared, never an address that is opened. Parents name their children
one by one or by the address of a collection; children name the collection as their ``up``.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Sequence

from service.load_profile.espi_feed import Feed, Resource

#: Steps that an address is followed upwards.
_STEPS = 12


class Parents:
    """Finds the parent of a resource among the resources of one kind, in the order of the feed."""

    def __init__(self, parents: Sequence[Resource]) -> None:
        self._parents = parents
        self._places = [p.place for p in parents]
        self._by_own = {p.links.own: p for p in reversed(parents) if p.links.own}
        self._by_related = {
            address: p for p in reversed(parents) for address in p.links.related if address
        }

    def of(self, child: Resource) -> Resource | None:
        """Return the parent, None where nothing tells."""
        own, up = child.links.own, child.links.up
        linked = self._by_related.get(own) or self._by_related.get(up) or self._by_own.get(up)
        return linked or self._above(up) or self._before(child)

    def _above(self, address: str) -> Resource | None:
        """Return the parent whose own address is the longest beginning of the child's ``up``."""
        for _ in range(_STEPS):
            address, slash, _last = address.rpartition("/")
            if not slash:
                return None
            if (found := self._by_own.get(address)) is not None:
                return found
        return None

    def _before(self, child: Resource) -> Resource | None:
        """Return the last parent before the child, the only one where none stands before it."""
        count = bisect_left(self._places, child.place)
        if count:
            return self._parents[count - 1]
        return self._parents[0] if len(self._parents) == 1 else None


class Described:
    """Finds the resource that describes another one: its type, its local time."""

    def __init__(self, among: Sequence[Resource]) -> None:
        self._among = among
        self._places = [r.place for r in among]
        self._by_own = {r.links.own: r for r in reversed(among) if r.links.own}
        self._by_up = {r.links.up: r for r in reversed(among) if r.links.up}

    def of(self, one: Resource | None) -> Resource | None:
        """Return the resource that the links name, else the first after it, else the first."""
        if not self._among:
            return None
        if one is None:
            return self._among[0]
        for known in (self._by_own, self._by_up):
            named = [known[address] for address in one.links.related if address in known]
            if named:
                return min(named, key=lambda resource: resource.place)
        after = bisect_left(self._places, one.place)
        return self._among[after] if after < len(self._among) else self._among[0]


def offset_of(feed: Feed, usage_point: Resource | None) -> int | None:
    """Return the offset of local standard time from UTC [s], None where the feed states none."""
    stated = [r for r in feed.of("LocalTimeParameters") if "tzOffset" in r.fields]
    chosen = Described(stated).of(usage_point)
    return chosen.fields["tzOffset"] if chosen else None
