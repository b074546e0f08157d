"""Constants and powers of many lanes, whole for the dense step and gathered for a few lanes."""

from dataclasses import dataclass, fields
from typing import Any

import numpy as np
from numpy.typing import ArrayLike, NDArray

from service.physics.generator_run import GeneratorRun
from service.physics.outage_lanes import ENERGY_TOLERANCE
from service.physics.outage_steps_run import DC_RESTART, NO_RESTART, StepsRestart

Floats = NDArray[np.float64]
Flags = NDArray[np.bool_]
Rows = NDArray[np.intp]
Shape = tuple[int, ...]


@dataclass(frozen=True, slots=True)
class Cells:
    """Constants of battery and converter in SI units; each broadcasts to the lanes."""

    capacity: Floats
    floor: Floats
    fixed: Floats
    linear: Floats
    square: Floats
    charge_efficiency: Floats
    dc_efficiency: Floats
    discharge_limit: Floats
    charge_limit: Floats
    sheds_tiers: Floats


@dataclass(frozen=True, slots=True)
class Home(Cells):
    """The same, and those of restart and generator.

    Attributes
    ----------
    tolerance : ndarray
        Energy within which a step's end goes before a threshold [J].
    charge_limit_run, fuel : ndarray
        Charge limit while the generator runs [W]; tank with all its refills.
    """

    tolerance: Floats
    mode: Floats
    black_start_power: Floats
    black_start_delay: Floats
    restart_energy: Floats
    power: Floats
    start_at: Floats
    stop_at: Floats
    charge_limit_run: Floats
    fuel: Floats
    burn_fixed: Floats
    burn_linear: Floats


@dataclass(frozen=True, slots=True)
class Thresholds:
    """Energies at which tiers and bus change [J]; those of the tiers with K - 1 rows.

    Attributes
    ----------
    shed_reach, restore_reach, floor_reach : ndarray
        Energy that a step must pass for the level to be met: its end goes before a level that it
        does no more than touch.
    """

    floor: Floats
    floor_reach: Floats
    shed_at: Floats
    shed_reach: Floats
    restore_at: Floats
    restore_reach: Floats


def storage(**given: ArrayLike) -> dict[str, Floats]:
    """Constants of battery and converter, with the tolerance of their energies [J].

    Notes
    -----
    Source: derived, the outage engine's tolerance.
    """
    values = {name: np.asarray(value, dtype=np.float64) for name, value in given.items()}
    values["tolerance"] = ENERGY_TOLERANCE * values["capacity"]
    return values


def thresholds(
    shed_at: ArrayLike | None,
    restore_at: ArrayLike | None,
    count: int,
    rank: int,
    home: dict[str, Floats],
) -> Thresholds:
    """Levels of `count` tiers and of the bus [J]; a band that rounding could jump is no band.

    Notes
    -----
    Source: derived, the outage engine's rule.
    """
    shed, back = _rows(shed_at, -np.inf, count, rank), _rows(restore_at, np.inf, count, rank)
    top = np.minimum(back, home["capacity"])
    band = top - shed > 4.0 * home["tolerance"]
    back = np.where(band, top, np.inf)
    return Thresholds(
        floor=home["floor"],
        floor_reach=home["floor"] - home["tolerance"],
        shed_at=shed,
        shed_reach=shed - home["tolerance"],
        restore_at=back,
        restore_reach=back + home["tolerance"],
    )


def _rows(values: ArrayLike | None, absent: float, count: int, rank: int) -> Floats:
    """As (count, ...) with as many axes for the lanes as they have."""
    rows = np.asarray(absent if values is None else values, dtype=np.float64)
    if rows.ndim == 0:
        rows = np.full((count,), rows)
    return rows.reshape(rows.shape[:1] + (1,) * (rank + 1 - rows.ndim) + rows.shape[1:])


def restarting(restart: StepsRestart, home: dict[str, Floats]) -> dict[str, Floats]:
    """Constants of the restart; an energy [J] not above the floor restarts nothing.

    Notes
    -----
    Source: derived; at the floor the bus would be lost again at once.
    """
    energy = np.minimum(np.asarray(restart.restart_energy, dtype=np.float64), home["capacity"])
    above = energy - home["floor"] > 4.0 * home["tolerance"]
    finite = np.isfinite(np.asarray(restart.restart_energy, dtype=np.float64))
    mode = np.asarray(restart.mode, dtype=np.float64)
    return {
        "mode": np.where((mode == DC_RESTART) & ~(above & finite), NO_RESTART, mode),
        "black_start_power": np.asarray(restart.black_start_power, dtype=np.float64),
        "black_start_delay": np.asarray(restart.black_start_delay, dtype=np.float64),
        "restart_energy": np.where(above & finite, energy, np.inf),
    }


def generating(generator: GeneratorRun | None, home: dict[str, Floats]) -> dict[str, Floats]:
    """Constants of the generator, powers in [W]; without one, of one that never starts.

    Notes
    -----
    Source: derived; fuel is counted with all refills, for they take no time.
    """
    if generator is None:
        generator = GeneratorRun(power=0.0, start_energy=-np.inf, stop_energy=np.inf, allowed=False)
    tank = np.asarray(generator.tank, dtype=np.float64)
    given = {
        "power": generator.power,
        "start_at": generator.start_energy,
        "stop_at": generator.stop_energy,
        "charge_limit_run": np.minimum(home["charge_limit"], generator.charge_limit),
        "fuel": tank + np.where(tank > 0.0, tank, 0.0) * generator.refills
        if np.any(np.asarray(generator.refills) != 0)
        else tank,
        "burn_fixed": generator.burn_fixed,
        "burn_linear": generator.burn_linear,
    }
    return {name: np.asarray(value, dtype=np.float64) for name, value in given.items()}


class Homes:
    """Constants of all lanes.

    Attributes
    ----------
    whole : Home
        As given: each broadcasts to the lanes.
    """

    def __init__(self, lanes: Shape, values: dict[str, Floats]) -> None:
        self.whole = Home(**values)
        self._fixed: dict[str, Floats] = {}
        self._slots: list[tuple[str, int]] = []
        self._cells = [field.name for field in fields(Cells)]
        table: list[Floats] = []
        for field in fields(Home):
            value = values[field.name]
            if value.size == 1:
                self._fixed[field.name] = value.reshape(1)
                continue
            self._slots.append((field.name, len(table)))
            table.append(np.broadcast_to(value, lanes).reshape(-1))
        self._table = np.array(table).reshape(len(table), int(np.prod(lanes)))
        of_cells = [slot for slot in self._slots if slot[0] in self._cells]
        self._cell_rows = len(of_cells)
        self._cell_slots = of_cells
        self._cell_fixed = {k: v for k, v in self._fixed.items() if k in self._cells}

    def pick(self, index: Rows) -> Home:
        """Constants of some lanes, by flat index: shape (M,) or (1,)."""
        return Home(**self._pick(index, self._fixed, self._slots, len(self._table)))

    def pick_cells(self, index: Rows) -> Cells:
        """The same without those of restart and generator."""
        return Cells(**self._pick(index, self._cell_fixed, self._cell_slots, self._cell_rows))

    def _pick(
        self,
        index: Rows,
        fixed: dict[str, Floats],
        slots: list[tuple[str, int]],
        rows: int,
    ) -> dict[str, Floats]:
        if not rows:
            return fixed
        found = self._table[:rows].take(index, axis=1)
        some = dict(fixed)
        for name, row in slots:
            some[name] = found[row]
        return some


class Powers:
    """Powers of every step: whole rows, and the same gathered for some lanes.

    Attributes
    ----------
    duration : list of float
        Length of the steps [s].
    ends : list of float
        Time at their ends [s].
    """

    def __init__(
        self,
        duration: Floats,
        load: Any,
        source: Any,
        dc_source: Any,
        allowed: Any,
        scales: tuple[Floats | None, Floats | None, Floats | None],
        lanes: Shape,
    ) -> None:
        self.duration = duration.tolist()
        self.ends = np.cumsum(duration).tolist()
        self.load, self.source, self.dc_source, self.allowed = load, source, dc_source, allowed
        self.load_scale, self.source_scale, self.dc_scale = scales
        self.lanes, self.classes = lanes, len(load[0])

    def pick_load(self, step: int, index: Rows) -> Floats:
        """Power asked for by class [W], shape (K, M) or (K, 1)."""
        return self.scaled_load(self.load[step], index)

    def scaled_load(self, rows: Floats, index: Rows) -> Floats:
        """Values by class, gathered and scaled as the load is."""
        return self._pick(rows, 1, self.load_scale, index)

    def scaled_class(self, rows: Floats, which: Rows, index: Rows) -> Floats:
        """Of values by class, that of one class of each lane."""
        if rows.size == self.classes:
            found = rows.reshape(-1).take(which)
        elif rows.shape[1:] == self.lanes and len(self.lanes) == 1:
            found = rows[which, index]
        else:
            spread = np.broadcast_to(rows, rows.shape[:1] + self.lanes)
            found = spread[(which, *np.unravel_index(index, self.lanes))]
        if self.load_scale is None:
            return found
        return np.asarray(found * _gather(self.load_scale, 0, self.lanes, index))

    def pick_source(self, step: int, index: Rows) -> Floats | None:
        """Power of the AC source [W], shape (M,) or (1,)."""
        if self.source is None:
            return None
        return self.scaled_source(self.source[step], index)

    def scaled_source(self, row: Floats, index: Rows) -> Floats:
        """Values gathered and scaled as the source is."""
        return self._pick(row, 0, self.source_scale, index)

    def pick_dc(self, step: int, index: Rows) -> Floats | None:
        """Power of the DC-coupled source [W], shape (M,) or (1,)."""
        if self.dc_source is None:
            return None
        return self._pick(self.dc_source[step], 0, self.dc_scale, index)

    def pick_allowed(self, step: int, index: Rows) -> Flags:
        """Whether the generator may run, shape (M,) or (1,)."""
        assert self.allowed is not None
        return _gather(self.allowed[step], 0, self.lanes, index)

    def _pick(self, row: Floats, lead: int, scale: Floats | None, index: Rows) -> Floats:
        found = _gather(row, lead, self.lanes, index)
        if scale is None:
            return found
        return np.asarray(found * _gather(scale, 0, self.lanes, index))


def _gather(row: NDArray[Any], lead: int, lanes: Shape, index: Rows) -> NDArray[Any]:
    if row.ndim == lead or row.size == (row.shape[0] if lead else 1):
        return row.reshape(row.shape[:lead] + (1,))
    if row.shape[lead:] == lanes and len(lanes) == 1:
        return row[..., index]
    spread = np.broadcast_to(row, row.shape[:lead] + lanes)
    return spread[(slice(None),) * lead + np.unravel_index(index, lanes)]
