"""Whether all units that are wanted stand on a wall, over what is not known of it."""

from __future__ import annotations

from typing import NamedTuple

from service.checks.clearance.by_hand import placed_by_hand
from service.checks.clearance.energy_limit import columns_allowed
from service.checks.clearance.energy_rules import existing_energy
from service.checks.clearance.lens import UNSTATED, Lens
from service.checks.clearance.location import location_of
from service.checks.clearance.request import ClearanceRequest
from service.checks.clearance.rule_numbers import RuleNumbers
from service.checks.clearance.scenes import Scene, facts_take_room, scene_of
from service.checks.clearance.solve import MOST, Solved, fits, solve
from service.checks.clearance.spots import Spot
from service.checks.clearance.vehicle_zone import vehicle_zone
from service.checks.clearance.wall_lane import SAME, front_plane
from service.findings import Verdict
from service.quantities.units import si


class Fit(NamedTuple):
    """How the units stand on a wall.

    Attributes
    ----------
    scene : Scene
    solved : Solved
    counts : tuple of int
        How many of each kind are wanted.
    verdict : Verdict
        Whether all of them stand.
    shown : tuple of (kind, x)
        Where they stand: as somebody placed them, or as they were arranged [m].
    exposed : tuple of (lo, hi)
        From where to where those of them stand that vehicles may reach [m].
    barriers : bool
        Whether they stand only where barriers are built against vehicles.
    sure_of_vehicles : bool
        Whether they stand clear of vehicles over all that is not known.
    lengths_decide : bool
        Whether the errors of lengths alone keep it from passing.
    """

    scene: Scene
    solved: Solved
    counts: tuple[int, ...]
    verdict: Verdict
    shown: tuple[tuple[int, float], ...]
    exposed: tuple[tuple[float, float], ...]
    barriers: bool
    sure_of_vehicles: bool
    lengths_decide: bool


def lens_of(spot: Spot) -> Lens:
    """Return the lens of a spot as stated."""
    return Lens(by=spot.measured_by or UNSTATED)


def fit_of(
    request: ClearanceRequest,
    rules: RuleNumbers,
    spot: Spot,
    known: Solved | None = None,
    *,
    at_best: Verdict = Verdict.PASS,
) -> Fit:
    """Return how the units stand on a wall.

    Parameters
    ----------
    request : ClearanceRequest
    rules : RuleNumbers
    spot : Spot
    known : Solved, optional
        What the wall as stated comes to, barriers allowed, the largest numbers with it.
    at_best : Verdict, optional
        What other rules leave: no better verdict is told apart from it. `fail` where it is known
        that not all stand, whatever is not known of the wall.
    """
    kinds = request.units
    counts = tuple(kind.count for kind in kinds)
    lens = lens_of(spot)
    harm = lens._replace(lengths=1, facts=1)
    hands = placed_by_hand(request, spot)
    clear = None if hands else _clear_of_vehicles(request, rules, spot, counts)
    barriers = clear is not None and not clear[0]
    as_stated = clear is None or barriers
    scene = scene_of(spot, kinds, rules, lens, barriers=as_stated)
    solved = known if known is not None and as_stated else solve(scene, counts, None)
    if known is not None:
        # Where all stand clear of vehicles the largest numbers still count barriers.
        solved = solved._replace(room=known.room, most=known.most)
    verdict, lengths_decide = _verdict(
        request,
        rules,
        spot,
        scene,
        solved,
        counts,
        harm,
        barriers=barriers or clear is None,
        at_best=at_best,
    )
    shown = tuple([(hand.kind, hand.left) for hand in hands]) or solved.arrangement.positions
    exposed = exposed_units(spot, scene, shown, rules, lens)
    if hands:
        barriers = bool(exposed)
        clear = not barriers, not exposed_units(spot, scene, shown, rules, harm)
    return Fit(
        scene,
        solved,
        counts,
        verdict,
        shown,
        exposed,
        barriers,
        clear is None or clear[1],
        lengths_decide,
    )


def exposed_units(
    spot: Spot,
    scene: Scene,
    shown: tuple[tuple[int, float], ...],
    rules: RuleNumbers,
    lens: Lens,
) -> tuple[tuple[float, float], ...]:
    """Return from where to where those units stand that vehicles may reach [m]."""
    if spot.kind != "garage":
        return ()
    found, length = [], scene.walls[0].length
    for kind, x in shown:
        unit = scene.units[kind]
        zone = vehicle_zone(spot, front_plane(unit), unit.bottom, rules, lens, length)
        if any(x < one.x2 - SAME and x + unit.width > one.x1 + SAME for one in zone):
            found.append((x, x + unit.width))
    return tuple(found)


def _clear_of_vehicles(
    request: ClearanceRequest, rules: RuleNumbers, spot: Spot, counts: tuple[int, ...]
) -> tuple[bool, bool] | None:
    """Return whether all stand clear of vehicles, as stated and surely; None: no garage."""
    if spot.kind != "garage":
        return None
    lens = lens_of(spot)
    stated = fits(scene_of(spot, request.units, rules, lens, barriers=False), counts)
    if not stated:
        return False, False
    harm = lens._replace(lengths=1, facts=1)
    return True, fits(scene_of(spot, request.units, rules, harm, barriers=False), counts)


def _verdict(
    request: ClearanceRequest,
    rules: RuleNumbers,
    spot: Spot,
    scene: Scene,
    solved: Solved,
    counts: tuple[int, ...],
    harm: Lens,
    *,
    barriers: bool,
    at_best: Verdict,
) -> tuple[Verdict, bool]:
    """Return the verdict, and whether the errors of lengths alone keep it from passing."""

    def under(lens: Lens) -> bool:
        if not lens.lengths and barriers and not facts_take_room(spot, request.units, lens):
            return solved.arrangement.complete
        made = scene_of(spot, request.units, rules, lens, barriers=barriers)
        return solved.arrangement.complete if made == scene else fits(made, counts)

    if not solved.arrangement.complete:
        helped = at_best is not Verdict.FAIL and under(harm._replace(lengths=-1, facts=-1))
        return (Verdict.UNDETERMINED if helped else Verdict.FAIL), False
    if at_best is Verdict.PASS and under(harm):
        return Verdict.PASS, False
    if at_best in (Verdict.PASS, Verdict.CONDITIONAL) and under(harm._replace(lengths=0)):
        return Verdict.CONDITIONAL, True
    return Verdict.UNDETERMINED, False


def energy_cap(request: ClearanceRequest, rules: RuleNumbers, spot: Spot, at: int) -> int:
    """Return how many columns of a kind the energy of the location leaves, as far as counted."""
    kind = request.units[at]
    if kind.energy is None:
        return MOST
    joules = si(kind.energy, "kWh")
    one = joules * (kind.stack.levels if kind.stack.one_cabinet else 1)
    location = location_of(spot, kind)
    there = existing_energy(request, rules, location)
    allowed = columns_allowed(
        rules.location_energy[location], there, joules * kind.stack.levels, one, rules.unit_energy
    )
    return min(MOST, allowed)
