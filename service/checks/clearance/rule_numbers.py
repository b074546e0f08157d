"""The numbers that a request is held against: the edition's, under the readings that are known."""

from __future__ import annotations

from collections.abc import Mapping
from functools import lru_cache
from types import MappingProxyType
from typing import Final, NamedTuple

from service.checks.clearance.request import ClearanceRequest
from service.codes import code_editions, default_permit_date, editions
from service.codes.siting_editions import edition_chain
from service.codes.siting_rules import (
    aggregate_rule,
    find_siting_rule,
    siting_energy,
    siting_length,
)
from service.codes.siting_switches import siting_switches
from service.facts.siting_readings import LocationClass, SitingReadings
from service.quantities.units import si

#: Up to this voltage to ground the depth of working space is that of the first row [V].
LOW_VOLTS: Final = 150.0
#: What moves an edge so that a length equal to it is within [m]. Standing: derived, three times the
#: tolerance of lengths.
AT_EDGE: Final = 3e-9
_MIDDLE_VOLTS: Final = 600.0
LOCATIONS: Final[tuple[LocationClass, ...]] = (
    "utility_room",
    "attached_garage",
    "detached_garage",
    "exterior_wall",
    "outdoors",
)


class VehicleNumbers(NamedTuple):
    """Where a vehicle may hit a unit in a garage, and what keeps it off [m]."""

    path_height: float
    back_reach: float
    side_back: float
    side_reach: float
    exempt_opening: float
    exempt_bottom: float
    bollard_spacing: float
    bollard_clearance: float
    bollard_diameter: float
    wheel_distance: float
    wheel_width: float
    wheel_length: float
    wheel_gap: float


class RuleNumbers(NamedTuple):
    """What a request is held against: lengths [m], energies [J].

    `chain` are the editions in which rules are looked up; `edition` and `neighbour` ids of
    code_editions; `known` whether the place's edition is known; `vehicle` is None where the
    edition states no geometry; `listed_opening` whether a listing may shorten the distance to
    openings.
    """

    edition: str
    neighbour: str | None
    known: bool
    chain: tuple[str, ...]
    opening: float
    any_height: bool
    spacing: float
    unit_energy: float
    location_energy: Mapping[str, float]
    per_property: bool
    garages_together: bool
    every_unit: bool
    garages_count: bool
    working_width: float
    working_low: float
    working_middle: tuple[float, float, float]
    working_high: tuple[float, float, float]
    walkway: float
    escape_way: float
    gas: float
    pool: float
    handle: float
    bottom: float
    freeboard: float
    tolerance: float
    listed_opening: bool
    listed_rooms: bool
    utility_door: bool
    garage_door: bool
    vehicle: VehicleNumbers | None

    def same_room(self, other: RuleNumbers, *, listed: bool) -> bool:
        """Return whether units find the same places by other numbers.

        Parameters
        ----------
        other : RuleNumbers
        listed : bool
            Whether a listing states a smaller distance to openings.
        """
        apart = (
            "opening",
            "any_height",
            "spacing",
            "every_unit",
            "garages_count",
            "working_width",
            "working_low",
            "working_middle",
            "working_high",
            "walkway",
            "escape_way",
            "gas",
            "pool",
            "vehicle",
        )
        alike = all(getattr(self, name) == getattr(other, name) for name in apart)
        return alike and (not listed or self.listed_opening == other.listed_opening)

    def forbids_no_less(self, other: RuleNumbers) -> bool:
        """Return whether by these numbers no unit finds a place that it has not by other ones."""
        reads = ("any_height", "every_unit", "garages_count")
        if any(getattr(self, name) < getattr(other, name) for name in reads):
            return False
        return self == other._replace(**{name: getattr(self, name) for name in reads})

    def same_limits(self, other: RuleNumbers) -> bool:
        """Return whether energies, handles and heights are held against the same limits."""
        limits = ("unit_energy", "location_energy", "handle", "bottom", "freeboard")
        return self.known == other.known and all(
            getattr(self, name) == getattr(other, name) for name in limits
        )

    @property
    def working_space(self) -> tuple[object, ...]:
        """What working spaces are made of."""
        return self.working_width, self.working_low, self.working_middle, self.working_high

    def working_depth(self, volts: float, condition: int) -> float:
        """Return the depth of working space [m].

        Parameters
        ----------
        volts : float
            Highest voltage to ground [V].
        condition : int
            Of Table 110.26(A)(1), by what stands opposite: 1, 2 or 3.
        """
        if volts <= LOW_VOLTS:
            return self.working_low
        depths = self.working_middle if volts <= _MIDDLE_VOLTS else self.working_high
        return depths[condition - 1]


def numbers_of(request: ClearanceRequest) -> RuleNumbers:
    """Return what a request is held against."""
    place = (request.state or "", request.county or "", request.city or "")
    return _numbers(place, request.permit_date, request.edition, request.readings)


@lru_cache(maxsize=512)
def _numbers(
    place: tuple[str, str, str],
    permit_date: str | None,
    edition: str | None,
    readings: SitingReadings,
) -> RuleNumbers:
    state, county, city = place
    day = permit_date or default_permit_date().isoformat()
    found = editions(state, day, county, city)
    chosen = edition or found.current
    neighbour = _beside(edition) if edition else found.neighbour
    return _of_edition(chosen, neighbour, found.known or edition is not None, readings)


def _beside(edition: str) -> str | None:
    """Return the other edition of the same jurisdiction that is nearest in time."""
    known = code_editions()
    stated = known[edition]
    others = [
        one
        for one in known.values()
        if one.jurisdiction == stated.jurisdiction and one.id != edition
    ]
    near = min(others, key=lambda one: abs((one.first - stated.first).days), default=None)
    return None if near is None else near.id


@lru_cache(maxsize=512)
def _of_edition(
    edition: str, neighbour: str | None, known: bool, readings: SitingReadings
) -> RuleNumbers:
    chain = edition_chain(edition)

    def length(rule: str) -> float:
        return siting_length(rule, chain)

    def conditions(rule: str) -> tuple[float, float, float]:
        one, two, three = (length(f"{rule}-condition-{at}") for at in (1, 2, 3))
        return one, two, three

    def reads(switch: str, choice: str) -> bool:
        return (getattr(readings, switch) or siting_switches()[switch].default) == choice

    def stated(inches: float | None, rule: str) -> float:
        return length(rule) if inches is None else si(inches, "in")

    return RuleNumbers(
        edition=edition,
        neighbour=neighbour,
        known=known,
        chain=chain,
        opening=length("opening-distance"),
        any_height=reads("opening_distance", "any_height"),
        spacing=length("unit-spacing"),
        unit_energy=siting_energy("unit-energy", chain),
        location_energy=MappingProxyType(
            {where: siting_energy(aggregate_rule(where), chain) for where in LOCATIONS}
        ),
        per_property=reads("energy_limits", "per_property"),
        garages_together=reads("garage_energy", "together"),
        every_unit=reads("working_space", "every_unit"),
        garages_count=reads("garage_openings", "count"),
        working_width=length("working-space-width"),
        working_low=length("working-space-depth-150"),
        working_middle=conditions("working-space-depth-600"),
        working_high=conditions("working-space-depth-1000"),
        walkway=stated(readings.walkway, "walkway"),
        escape_way=length("escape-court-width"),
        gas=stated(readings.gas_distance, "gas-vent-distance"),
        pool=length("pool-distance"),
        handle=length("handle-height"),
        bottom=length("bottom-above-ground"),
        freeboard=length("flood-freeboard"),
        tolerance=length("placement-tolerance"),
        listed_opening=find_siting_rule("listed-opening-distance", chain) is not None,
        listed_rooms=find_siting_rule("habitable-listing", chain) is not None,
        utility_door=find_siting_rule("utility-door-thickness", chain) is not None,
        garage_door=reads("utility_door", "garages_too"),
        vehicle=_vehicle(chain, edge=AT_EDGE if reads("vehicle_edge", "not_more") else 0.0),
    )


def _vehicle(chain: tuple[str, ...], *, edge: float) -> VehicleNumbers | None:
    """Return the vehicle geometry, None where the edition leaves it to the authority.

    Parameters
    ----------
    chain : tuple of str
    edge : float
        What the reaches are read wider by, so that a unit exactly at their edge is inside [m].
    """
    if find_siting_rule("vehicle-back-reach", chain) is None:
        return None

    def length(rule: str) -> float:
        return siting_length(rule, chain)

    return VehicleNumbers(
        path_height=length("vehicle-path-height"),
        back_reach=length("vehicle-back-reach") + edge,
        side_back=length("vehicle-side-back") + edge,
        side_reach=length("vehicle-side-reach") + edge,
        exempt_opening=length("vehicle-exempt-opening"),
        exempt_bottom=length("vehicle-exempt-bottom"),
        bollard_spacing=length("bollard-spacing"),
        bollard_clearance=length("bollard-clearance"),
        bollard_diameter=length("bollard-outside-diameter"),
        wheel_distance=length("wheel-barrier-distance"),
        wheel_width=length("wheel-barrier-width"),
        wheel_length=length("wheel-barrier-length"),
        wheel_gap=length("wheel-barrier-gap"),
    )
