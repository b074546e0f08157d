"""Random walls and units in whole steps, small enough to enumerate."""

from random import Random

from service.checks.clearance.wall_lane import KeepOut, Panel, Strip, Unit, Wall
from tests.checks.clearance.enumeration import FAR


def random_unit(rng: Random, step: int = 1, *, working_space: bool = True) -> Unit:
    """Return a kind of unit; lengths are multiples of a step."""
    width = rng.randint(3, 12)
    levels = rng.choice([1, 1, 1, 2])
    working_width = max(width, rng.randint(6, 14)) if working_space and rng.random() < 0.7 else 0
    lengths = {
        "width": width,
        "height": rng.randint(6, 24),
        "depth": rng.randint(3, 9),
        "standoff": rng.choice([0, 1, 1, 2]),
        "bottom": rng.randint(0, 40),
        "level_gap": rng.randint(0, 12),
        "left": rng.choice([0, 0, 2]),
        "right": rng.choice([0, 0, 3]),
        "top": rng.choice([0, 2]),
        "front": rng.choice([0, 0, 4, 12]),
        "working_width": working_width,
        "gap": rng.randint(0, 8),
        "ceiling": rng.choice([FAR, FAR, FAR, 70]),
    }
    return Unit(levels=levels, **{name: value * step for name, value in lengths.items()})


def random_wall(rng: Random, step: int = 1, *, curved: bool = True, panels: int = 1) -> Wall:
    """Return a wall; lengths are multiples of a step, and so is every end where none is curved."""
    length = rng.randint(12, 70)
    things = [random_thing(rng, length, step, curved) for _ in range(rng.randint(0, 4))]
    return Wall(
        length * step,
        rng.random() < 0.2,
        rng.random() < 0.2,
        rng.choice([0, 12, 12]) * step,
        tuple(things),
        random_ground(rng, length, step),
        random_panels(rng, length, step, rng.randint(0, panels)),
    )


def random_thing(rng: Random, length: int, step: int, curved: bool) -> KeepOut:
    """Return an opening, one round a corner, a vent, a solid box or the sweep of a door."""
    x1, z1 = rng.randint(0, length), rng.randint(0, 84)
    x2, z2 = x1 + rng.randint(1, 10), z1 + rng.randint(1, 40)
    y1, y2, distance = -FAR, FAR, rng.randint(2, 14)
    kind = rng.choice(["opening", "corner", "vent", "solid", "solid", "sweep"])
    if kind == "corner":
        x1 = x2 = rng.choice([0, length])
        y1 = rng.randint(0, 12)
        y2 = y1 + rng.randint(1, 20)
    elif kind == "vent":
        y1 = y2 = rng.randint(0, 20)
        x2, z2 = x1, z1
    elif kind in ("solid", "sweep"):
        y1, y2, distance = rng.randint(0, 3), rng.randint(4, 20), 0
    if not curved:
        # Only along the wall does a distance end on the grid.
        y1, y2 = (-FAR, FAR) if distance else (y1, y2)
    flat = rng.random() < 0.3 or not curved
    lengths = (value * step for value in (x1, x2, y1, y2, z1, z2, distance))
    return KeepOut._make((*lengths, flat, kind == "solid", 0))


def random_ground(rng: Random, length: int, step: int) -> tuple[Strip, ...]:
    """Return pieces of ground whose slopes cross every whole depth at a whole place."""
    found, x = [], 0
    while x < length and rng.random() < 0.7:
        long, clear = 2 * rng.randint(2, 15), rng.randint(14, 34)
        end = clear + rng.choice([0, 0, 0, long, -long, long // 2, -long // 2])
        values = (x, x + long, clear, end, rng.choice([10, 12, 16]))
        found.append(Strip._make((*(value * step for value in values), True, -1)))
        x += long + rng.choice([0, 0, 5])
    return tuple(found)


def random_panels(rng: Random, length: int, step: int, count: int) -> tuple[Panel, ...]:
    """Return panels that stand clear of each other."""
    found, x = [], 0
    for _ in range(count):
        x1 = x + rng.randint(0, 30)
        x = x1 + rng.randint(3, 8)
        if x > length:
            break
        values = (x1, x, 70, rng.choice([3, 4]), max(x - x1, rng.randint(6, 14)), 10)
        found.append(Panel._make((*(value * step for value in values), 1)))
    return tuple(found)
