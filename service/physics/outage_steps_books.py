"""Energies of stepped outages, added up event by event."""

import numpy as np
from numpy.typing import NDArray

from service.physics.outage_steps_flow import Flow, Lot
from service.physics.outage_steps_home import Rows
from service.physics.outage_steps_run import StepsAccount

Floats = NDArray[np.float64]
Flags = NDArray[np.bool_]

_USED, _CURTAILED, _LOST, _LOSS, _GENERATED, _RUN, _STARTS = range(7)


class Books:
    """Sums by lane; a lot is opened, added to in every round, and entered."""

    def __init__(self, classes: int, lanes: int) -> None:
        self.classes = classes
        self.sums = np.zeros((_STARTS + 1 + 2 * classes, lanes))
        self.lot = np.zeros((0, 0))

    def open(self, step: int, index: Rows, lot: Lot) -> None:
        """Begin a lot of lanes."""
        classes = self.classes
        self.lot = np.zeros((_STARTS + 1 + 2 * classes, len(index)))
        self.served = self.lot[_STARTS + 1 : _STARTS + 1 + classes]
        self.unserved = self.lot[_STARTS + 1 + classes :]

    def enter(self, index: Rows, lot: Lot) -> None:
        """Add the lot to the sums of its lanes."""
        self.sums[:, index] += self.lot

    def starts(self, started: Flags) -> None:
        """Count starts of generators in the lot."""
        self.lot[_STARTS] += started

    def add_generator(self, delivered: Floats, running: Flags, step: Floats) -> None:
        """Add what the generator did in a round of `step` [s]."""
        self.lot[_GENERATED] += delivered * step
        self.lot[_RUN] += running * step

    def add(self, lot: Lot, flows: Flow, step: Floats) -> None:
        """Add a round of `step` [s]."""
        home = lot.home
        self.served += flows.wanted * step
        self.unserved += (lot.load - flows.wanted) * step
        loss = home.fixed * lot.up + flows.charge * (1.0 - home.charge_efficiency)
        loss = loss + (home.linear - 1.0 + home.square * flows.out) * flows.out
        if lot.source is not None:
            on = lot.up & ~lot.running
            spill = np.where(on, flows.out - (flows.total - lot.source) - flows.charge, 0.0)
            taken = np.where(on, lot.source, 0.0)
            self._source(lot.source, taken, spill, step)
        if lot.dc is not None:
            assert flows.direct is not None
            assert flows.stored is not None
            efficiency = home.dc_efficiency * np.ones_like(step)
            into = np.zeros_like(step)
            np.divide(flows.stored, efficiency, out=into, where=efficiency > 0.0)
            loss = loss + (into - flows.stored)
            taken = np.where(lot.up | (home.mode == 2.0), lot.dc, 0.0)
            self._source(lot.dc, taken, taken - flows.direct - into, step)
        self.lot[_LOSS] += loss * step

    def _source(self, power: Floats, taken: Floats, spill: Floats, step: Floats) -> None:
        self.lot[_USED] += (taken - spill) * step
        self.lot[_CURTAILED] += spill * step
        self.lot[_LOST] += (power - taken) * step

    def answer(
        self, lanes: tuple[int, ...], fuel: Floats, tank: Floats, refills: Floats
    ) -> StepsAccount:
        """Energies in the shape of the lanes; a refill is counted as soon as the tank is empty."""
        classes = self.classes
        sums = self.sums.reshape(-1, *lanes)
        holds = (tank > 0.0) & np.isfinite(tank)
        emptied = np.zeros(lanes)
        np.divide(fuel * (1.0 + 1e-12), tank, out=emptied, where=np.broadcast_to(holds, lanes))
        return StepsAccount(
            served=sums[_STARTS + 1 : _STARTS + 1 + classes],
            unserved=sums[_STARTS + 1 + classes :],
            source_used=sums[_USED],
            curtailed=sums[_CURTAILED],
            lost_source=sums[_LOST],
            conversion_loss=sums[_LOSS],
            generator_energy=sums[_GENERATED],
            generator_time=sums[_RUN],
            generator_starts=sums[_STARTS].astype(np.int64),
            fuel_used=fuel,
            refills_used=np.minimum(np.floor(emptied), refills).astype(np.int64),
        )
