"""Whole walls by brute force: a request drawn as polygons, every left edge on a grid tried.

It takes the request as it is sent, and shares no code and no table with the service: the numbers
below stand beside their source. x runs along the wall, y out from it, z up; inches throughout.
"""

from typing import Any, Final, NamedTuple

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry.base import BaseGeometry

Floats = NDArray[np.float64]
Truths = NDArray[np.bool_]
Facts = dict[str, Any]

#: Two lengths within it are equal, and equality meets a limit.
SAME: Final = 1e-6
FAR: Final = 1e5
#: Seconds of arc do not matter on the grid: a sector in steps of a quarter of a degree.
ARC: Final = 0.25
#: IRC 2021, R328.4: storage from doors and windows of the dwelling; R328.3: unit from unit.
OPENING: Final = 36.0
SPACING: Final = 36.0
#: Service standards of gas utilities: electrical equipment from the vent of a regulator.
GAS: Final = 36.0
#: NEC 2023, 680.22(C): from the inside wall of a pool, horizontally.
POOL: Final = 60.0
#: NEC 2023, 110.26(A)(2) and (3): width, or that of the equipment; height, or that of its top.
WORKING_WIDTH: Final = 30.0
WORKING_HEIGHT: Final = 78.0
LANDING = 36.0
#: NEC 2023, Table 110.26(A)(1): depth by voltage to ground, then by condition 1, 2, 3.
WORKING_DEPTH: Final = ((150, (36, 36, 36)), (600, (36, 42, 48)), (1000, (36, 48, 60)))
#: The same: what is opposite. Not grounded is 1; grounded, or what may be, is 2; live is 3.
NOT_GROUNDED: Final = ("wood_fence", "vinyl_fence", "drywall", "glass", "open")
#: IRC 2021, R310.1, the court of an escape opening; and common practice, no source: side yards.
WALKWAY: Final = 36.0
#: Common practice, no source, save meters (service standards of utilities): depth where none is
#: stated, room at both sides, distance every way, whether working space is kept before it.
EQUIPMENT: Final = {
    "panel": (4, 0, 0, True),
    "electric_meter": (8, 12, 0, True),
    "disconnect": (4, 0, 0, True),
    "gas_meter": (12, 6, 0, False),
    "hose_bib": (6, 0, 12, False),
    "downspout": (5, 0, 12, False),
    "vent_outlet": (6, 0, 36, False),
    "light": (8, 0, 0, False),
    "other": (6, 0, 0, False),
}
#: IRC 2021, M1305.1: level space at the controls of a condenser; common practice at its sides.
CONTROLS: Final = 30.0
AIR: Final = 12.0
#: Service standards of a gas utility, 6 in at sides and top of a meter set; and common practice, no
#: source: above a condenser, which blows upward.
ABOVE: Final = {"gas_meter": 6.0, "condenser": 60.0}


class Space(NamedTuple):
    """Working space of a panel: where it may begin, and its width."""

    begins: Floats
    width: float


class Tried(NamedTuple):
    """Every left edge on the grid: whether one unit stands there, panels' spaces apart."""

    lefts: Floats
    width: float
    free: Truths
    spaces: list[Space]

    def permitted(self) -> Truths:
        """Return where one unit stands and leaves each panel some working space."""
        found, width = self.free.copy(), self.width
        for begins, wide in self.spaces:
            beside = (begins >= self.lefts[:, None] + width - SAME) | (
                begins + wide <= self.lefts[:, None] + SAME
            )
            found &= beside.any(axis=1)
        return found


class Scene:
    """A unit at every left edge of a wall, in plan and in elevation."""

    def __init__(self, request: Facts, step: float) -> None:
        unit, self.wall = request["units"][0], request["places"][0]
        self.readings: Facts = request.get("readings", {})
        self.unit: Facts = unit
        self.length = size(self.wall["length"])
        self.width: float = unit["width"]
        self.back: float = unit.get("standoff", 4.0)
        self.front: float = self.back + unit["depth"]
        self.around = self._around()
        self.levels = self._levels()
        self.lefts = np.arange(0.0, self.length - self.width + SAME, step)
        self.plan = self._from_above(0.0, 0.0)
        self.roomy = self._from_above(self.around["left"], self.around["right"])

    def _around(self) -> dict[str, float]:
        stated = self.unit.get("clearances", {})
        around = {side: stated.get(side, 0.0) for side in ("left", "right", "top", "front")}
        entry = self.unit.get("conduit_entry")
        if entry in around:
            around[entry] = max(around[entry], self.unit.get("conduit_room", 0.0))
        return around

    def _levels(self) -> list[tuple[float, float]]:
        stack, tall = self.unit.get("stack", {}), self.unit["height"]
        gap = stack.get("gap", 0.0 if stack.get("one_cabinet") else SPACING)
        low = self.unit.get("bottom", 0.0 if self.unit.get("mount") == "floor" else 18.0)
        starts = [low + level * (tall + gap) for level in range(stack.get("levels", 1))]
        return [(z, z + tall) for z in starts]

    def _from_above(self, left: float, right: float) -> Any:
        """Return the unit from above, open: less a hair at every side, so that it may touch."""
        a, b = self.lefts - left + SAME, self.lefts + self.width + right - SAME
        return shapely.box(a, self.back + SAME, b, self.front - SAME)

    def before(self, depth: float) -> Any:
        """Return the ground from the wall to a depth before the unit, open."""
        a, b = self.lefts + SAME, self.lefts + self.width - SAME
        return shapely.box(a, -1.0, b, depth - SAME)

    def shares_height(self, low: float, high: float) -> bool:
        return any(z1 < high - SAME and z2 > low + SAME for z1, z2 in self.levels)

    def apart_in_height(self, low: float, high: float) -> float:
        return min(max(low - z2, z1 - high, 0.0) for z1, z2 in self.levels)

    def away(self, thing: BaseGeometry, low: float, high: float) -> Floats:
        """Return the distance of the unit from what stands upright between two heights."""
        far: Floats = shapely.distance(self._closed(), thing)
        return np.hypot(far, self.apart_in_height(low, high))

    def _closed(self) -> Any:
        return shapely.box(self.lefts, self.back, self.lefts + self.width, self.front)

    def beside(self, thing: Facts) -> Truths:
        """Return where the unit is too near to a door or window as seen on the wall."""
        x1, x2, low, high = edges(thing)
        found = np.zeros(len(self.lefts), dtype=bool)
        any_height = self.readings.get("opening_distance") == "any_height"
        for z1, z2 in self.levels:
            box = shapely.box(self.lefts, z1, self.lefts + self.width, z2)
            if any_height:
                low, high = z1, z2
            found |= shapely.distance(box, shapely.box(x1, low, x2, high)) < OPENING - SAME
        return found

    def hits(self, thing: BaseGeometry, *, roomy: bool = False) -> Truths:
        """Return where the unit, or it with the room at its sides, stands in something."""
        found: Truths = shapely.intersects(self.roomy if roomy else self.plan, thing)
        return found


def size(length: float | Facts) -> float:
    return float(length["value"] if isinstance(length, dict) else length)


def edges(thing: Facts) -> tuple[float, float, float, float]:
    """Return left, right, lower and upper edge; what has a height of its own and no edge: all."""
    left, low = size(thing.get("left", 0.0)), size(thing.get("bottom", 0.0))
    high = low + size(thing["height"]) if "height" in thing else FAR
    grounded = thing.get("what") == "door" or thing["kind"] == "condenser"
    if "bottom" not in thing and not grounded:
        high = FAR
    return left, left + size(thing.get("width", 0.0)), low, high


def sector(door: Facts) -> BaseGeometry:
    """Return what the leaf of a door sweeps, from above."""
    x1, x2, _, _ = edges(door)
    turns = np.radians(np.append(np.arange(0.0, door["opens_degrees"], ARC), door["opens_degrees"]))
    hinge, way = (x1, 1.0) if door["hinge"] == "left" else (x2, -1.0)
    rim = np.column_stack((hinge + way * (x2 - x1) * np.cos(turns), (x2 - x1) * np.sin(turns)))
    return shapely.Polygon([(hinge, 0.0), *rim])


def counts(thing: Facts, scene: Scene) -> bool:
    """Return whether an opening keeps its distance, by what lies behind it."""
    leads_to = thing.get("leads_to", "dwelling")
    counted = scene.readings.get("garage_openings") == "count"
    return bool(leads_to == "dwelling" or (leads_to == "garage" and counted))


def by_opening(scene: Scene, thing: Facts) -> Truths:
    x1, x2, low, high = edges(thing)
    found = np.zeros(len(scene.lefts), dtype=bool)
    if scene.shares_height(low, high):
        found |= scene.hits(shapely.box(x1, -FAR, x2, FAR))
        if thing["what"] == "door" and thing.get("swing") == "out":
            hinges = [thing["hinge"]] if "hinge" in thing else ["left", "right"]
            for hinge in hinges:
                opens = thing.get("opens_degrees", 180)
                found |= scene.hits(sector({**thing, "hinge": hinge, "opens_degrees": opens}))
    return found | scene.beside(thing) if counts(thing, scene) else found


def by_corner(scene: Scene, thing: Facts) -> Truths:
    _, _, low, high = edges(thing)
    at, out = (0.0 if thing["end"] == "left" else scene.length), size(thing["out"])
    found = np.zeros(len(scene.lefts), dtype=bool)
    if low < 6.0 - SAME and scene.shares_height(low, high):  # a door, and its landing
        inwards = LANDING if thing["end"] == "left" else -LANDING
        x1, x2 = sorted((at, at + inwards))
        found |= scene.hits(shapely.box(x1, out, x2, out + size(thing["width"])))
    if not counts(thing, scene):
        return found
    if scene.readings.get("opening_distance") == "any_height":
        low, high = -FAR, FAR
    glass = shapely.LineString([(at, out), (at, out + size(thing["width"]))])
    return found | (scene.away(glass, low, high) < OPENING - SAME)


def by_vent(scene: Scene, thing: Facts) -> Truths:
    z = size(thing["height"])
    vent = shapely.Point(size(thing["left"]), size(thing["out"]))
    asked: float = scene.readings.get("gas_distance", GAS)
    return scene.away(vent, z, z) < asked - SAME


def by_pool(scene: Scene, thing: Facts) -> Truths:
    x1, x2, _, _ = edges(thing)
    pool = shapely.box(x1, size(thing["out"]), x2, FAR)
    return scene.away(pool, -FAR, FAR) < POOL - SAME


def by_equipment(scene: Scene, thing: Facts) -> Truths:
    x1, x2, low, high = edges(thing)
    usual, side, distance, _ = EQUIPMENT[thing["what"]]
    vents = [one for one in scene.wall["objects"] if one["kind"] == "gas_vent"]
    if thing["what"] == "gas_meter" and not vents:  # the meter is taken as the vent
        distance = scene.readings.get("gas_distance", GAS)
    depth = size(thing.get("depth", usual))
    box = shapely.box(x1, 0.0, x2, depth)
    found = np.zeros(len(scene.lefts), dtype=bool)
    if scene.shares_height(low, high):
        found |= scene.hits(box, roomy=True)
        found |= scene.hits(shapely.box(x1 - side, 0.0, x2 + side, depth))
    if scene.shares_height(low - scene.around["top"], high):
        found |= scene.hits(box)
    if scene.shares_height(low, high + ABOVE.get(thing["what"], 0.0)):
        found |= scene.hits(box)
    return found | (scene.away(box, low, high) < distance - SAME)


def by_condenser(scene: Scene, thing: Facts) -> Truths:
    """Return where a condenser stands in the way; what is behind it is its own, for its air."""
    x1, x2, _, high = edges(thing)
    side, near = thing.get("service_side"), size(thing["out"])
    far = near + size(thing["depth"])
    left, right = (CONTROLS if side in (end, None) else AIR for end in ("left", "right"))
    found = np.zeros(len(scene.lefts), dtype=bool)
    if scene.shares_height(0.0, high):
        found |= scene.hits(shapely.box(x1, 0.0, x2, far), roomy=True)
        found |= scene.hits(shapely.box(x1 - left, 0.0, x2 + right, far))
    if scene.shares_height(-scene.around["top"], high + ABOVE["condenser"]):
        found |= scene.hits(shapely.box(x1, 0.0, x2, far))
    # Its near face ends the ground.
    ground = scene.before(scene.front + scene.around["front"])
    in_the_way: Truths = shapely.intersects(ground, shapely.box(x1, near, x2, FAR))
    return found | in_the_way


BY_KIND: Final = {
    "opening": by_opening,
    "corner_opening": by_corner,
    "gas_vent": by_vent,
    "pool": by_pool,
    "equipment": by_equipment,
    "condenser": by_condenser,
}


class Beyond(NamedTuple):
    """Ground that nobody walks on or stands on, and the condition of what is there."""

    shape: BaseGeometry
    condition: int


def beyond(scene: Scene) -> tuple[list[Beyond], list[Beyond]]:
    """Return what is beyond fences and walls opposite, and what condensers take."""
    parts, condensers = [], []
    for part in scene.wall.get("way", []):
        x1 = size(part["left"])
        x2, clear = x1 + size(part["length"]), size(part["clear"])
        right, what = size(part.get("clear_right", clear)), part.get("opposite")
        condition = 3 if what == "live_equipment" else 1 if what in NOT_GROUNDED else 2
        shape = shapely.Polygon([(x1, clear), (x2, right), (x2, FAR), (x1, FAR)])
        parts.append(Beyond(shape, condition))
    for thing in scene.wall.get("objects", []):
        if thing["kind"] == "condenser":
            x1, x2, _, _ = edges(thing)
            # Its case is metal, and grounded.
            condensers.append(Beyond(shapely.box(x1, size(thing["out"]), x2, FAR), 2))
    return parts, condensers


def spaces(
    scene: Scene,
    width: float,
    reaches: list[tuple[BaseGeometry, float]],
    within: tuple[float, float],
) -> Floats:
    """Return where a working space may begin, within two ends, clear of shapes to their depths."""
    tried = [*scene.lefts, *within, 0.0, scene.length - width]
    tried += [*np.arange(within[0], within[1] + SAME, 0.25)]
    for shape, depth in reaches:
        cut = shapely.intersection(shape, shapely.box(-FAR, -1.0, FAR, depth - SAME))
        if not cut.is_empty:
            x1, _, x2, _ = cut.bounds
            tried += [x2, x1 - width]
    begins = np.unique(tried)
    begins = begins[(begins >= within[0] - SAME) & (begins <= within[1] + SAME)]
    if scene.wall.get("left_end") != "open":
        begins = begins[begins >= -SAME]
    if scene.wall.get("right_end") != "open":
        begins = begins[begins + width <= scene.length + SAME]
    for shape, depth in reaches:
        taken = shapely.box(begins + 2 * SAME, -1.0, begins + width - 2 * SAME, depth - SAME)
        begins = begins[~shapely.intersects(taken, shape)]
    return begins


def has_working_space(scene: Scene, ground: list[Beyond]) -> Truths:
    """Return where some working space holds the width of the unit."""
    needed = scene.unit.get("worked_on_live", True)
    if not needed and scene.readings.get("working_space") != "every_unit":
        return np.ones(len(scene.lefts), dtype=bool)
    volts, width = scene.unit.get("volts_to_ground", 120.0), max(WORKING_WIDTH, scene.width)
    depths = next(row for limit, row in WORKING_DEPTH if volts <= limit)
    reaches = [(one.shape, scene.front + depths[one.condition - 1]) for one in ground]
    begins = spaces(scene, width, reaches, (-width, scene.length))
    first = np.searchsorted(begins, scene.lefts + scene.width - width - SAME)
    last = np.searchsorted(begins, scene.lefts + SAME)
    return last > first


def space_of_panel(scene: Scene, thing: Facts, ground: list[Beyond]) -> Space | None:
    """Return where the working space of a panel may begin while there are no units."""
    usual, _, _, kept = EQUIPMENT[thing["what"]]
    if not kept:
        return None
    x1, x2, _, high = edges(thing)
    depth, width = size(thing.get("depth", usual)), max(WORKING_WIDTH, x2 - x1)
    top = max(WORKING_HEIGHT, high if high < FAR else 0.0)
    reaches = [(one.shape, depth + 36.0) for one in ground]
    for other in scene.wall["objects"]:
        if other["kind"] not in ("equipment", "condenser"):
            continue
        left, right, low, _ = edges(other)
        stated = other.get("depth", EQUIPMENT.get(other.get("what"), (0,))[0])
        out = size(stated) + size(other.get("out", 0.0))
        # What is above or below the panel itself is no matter of the units.
        apart = right <= x1 + SAME or left >= x2 - SAME
        if apart and low < top - SAME and out > depth + SAME:
            reaches.append((shapely.box(left, 0.0, right, out), depth + 36.0))
    begins = spaces(scene, width, reaches, (x2 - width, x1))
    return Space(begins, width) if len(begins) else Space(np.array([x1]), x2 - x1)


def tried(request: Facts, step: float = 0.25) -> Tried:
    """Return every left edge of the one unit on the one wall of a request, tried.

    Parameters
    ----------
    request : dict
        As it is sent, with one kind of unit and one outside wall.
    step : float, optional
        Of the grid.
    """
    scene = Scene(request, step)
    wall, around = scene.wall, scene.around
    free = np.ones(len(scene.lefts), dtype=bool)
    for thing in wall.get("objects", []):
        free &= ~BY_KIND[thing["kind"]](scene, thing)
    walked = WALKWAY if wall.get("escape_way") else 0.0
    if wall.get("route", True):
        walked = max(walked, scene.readings.get("walkway", WALKWAY))
    parts, condensers = beyond(scene)
    for shape, _ in parts:
        free &= ~shapely.intersects(scene.before(scene.front + max(walked, around["front"])), shape)
    if wall.get("left_end") != "open":
        free &= scene.lefts >= around["left"] - SAME
    if wall.get("right_end") != "open":
        free &= scene.lefts + scene.width + around["right"] <= scene.length + SAME
    free &= has_working_space(scene, parts + condensers)
    limits = [size(wall[name]) for name in ("eave", "height") if name in wall]
    if scene.unit.get("mount") == "floor":
        limits = [size(wall["eave"])] if "eave" in wall else []
    free &= all(scene.levels[-1][1] + around["top"] <= limit + SAME for limit in limits)
    equipment = [thing for thing in wall.get("objects", []) if thing["kind"] == "equipment"]
    found = [space_of_panel(scene, thing, parts + condensers) for thing in equipment]
    return Tried(scene.lefts, scene.width, free, [one for one in found if one is not None])
