"""One case judged: which season it is answered for, how each rule stands, what would move it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from service.check import Arrays
from service.checks.outage_runtime.arguments import NO_LIMIT
from service.checks.outage_runtime.lanes import BETTER, LAYOUT, VERDICT_LAYOUT, WORSE, Layout
from service.checks.outage_runtime.load_rows import TIERS, Row, rows_of
from service.checks.outage_runtime.request import LoadsUse, OutageRuntimeRequest
from service.checks.outage_runtime.verdict import (
    CONDITIONAL,
    PASS,
    UNDETERMINED,
    power_verdict,
    target_verdicts,
    tier_times,
)

Floats = NDArray[np.float64]
HOUR = 3600.0


_NAMES = tuple(LAYOUT.triples)
_TRIPLES = np.array([LAYOUT.triples[name][:3] for name in _NAMES])
_AT = {name: place for place, name in enumerate(_NAMES)}
_WITHOUT = _AT["no-load-control"]
_VERDICT_TRIPLES = np.array([triple[:3] for triple in VERDICT_LAYOUT.triples.values()])


@dataclass(frozen=True, slots=True)
class Judgement:
    """A request's columns, read: everything that the sentences need.

    ``season`` is the index of the season answered for, ``ranks`` holds the verdict of the whole
    answer by season and triple, ``target_ranks`` that of the target alone.
    """

    request: OutageRuntimeRequest
    rows: list[Row]
    columns: Arrays
    row: int
    season: int
    both: Floats
    target_ranks: NDArray[np.int64]
    power_ranks: tuple[int, int]
    ranks: NDArray[np.int64]

    @property
    def target(self) -> float:
        """Return the target [s]; 0: none."""
        return (self.request.target_hours or 0.0) * HOUR

    @property
    def by_loads(self) -> bool:
        """Return whether single loads are known, so that power can be checked."""
        return isinstance(self.request.use, LoadsUse)

    @property
    def life_support(self) -> bool:
        """Return whether any load is marked as life support."""
        return any(row.life_support for row in self.rows)

    @property
    def sheddable(self) -> bool:
        """Return whether there are normal or comfort loads."""
        return any(row.tier in (1, 2) for row in self.rows)

    @property
    def has_control(self) -> bool:
        """Return whether load control is stated and has something to shed."""
        return self.request.load_control is not None and self.sheddable

    @property
    def limit(self) -> float | None:
        """Return the continuous power of all units [W], None where it is unknown."""
        limit = float(self.of("limit")[LAYOUT.triples["base"].typical])
        return None if limit >= 0.4 * NO_LIMIT else limit

    @property
    def target_rank(self) -> int:
        """Return how the target stands in the season answered for."""
        return int(self.target_ranks[self.season, _AT["base"]])

    @property
    def power_rank(self) -> int:
        """Return how the running power stands in the season answered for."""
        return self.power_ranks[self.season]

    def of(self, name: str) -> NDArray[Any]:
        """Return one column of the case in the season answered for."""
        return np.asarray(self.columns[name][self.row, self.season])

    def times(self) -> Floats:
        """Return the time that the asked tier is held in every lane [s]."""
        return np.asarray(self.both[self.season])

    def rank(self, triple: str = "base") -> int:
        """Return the verdict of the whole answer over all admissible seasons."""
        return int(self.ranks[:, _AT[triple]].min())

    def parameter_flips(self, name: str) -> bool:
        """Return whether an end of a defaulted parameter's range changes the verdict."""
        return any(self.rank(f"{name}/{end}") != self.rank() for end in (WORSE, BETTER))

    def season_flips(self) -> bool:
        """Return whether stating either season changes the verdict."""
        return bool(np.any(self.ranks[:, _AT["base"]] != self.rank()))

    def rank_for(self, target: float, tier: int) -> int:
        """Return the verdict for another target [s] or another lowest tier."""
        times = tier_times(self.columns, self.row, tier)
        found = _capped(target_verdicts(times, target, _TRIPLES), self.has_control, _WITHOUT)
        return int(_whole(found, self.power_ranks, self.life_support)[:, _AT["base"]].min())

    def worst_hour(self) -> int:
        """Return the start hour with the worst verdict, the shortest typical time among those."""
        times = self.both.min(axis=0)

        def badness(hour: int) -> tuple[int, float]:
            typical = LAYOUT.triples[f"hour/{hour}"].typical
            return self.rank(f"hour/{hour}"), float(times[typical])

        return min(range(24), key=badness)


def _capped(ranks: NDArray[np.int64], has_control: bool, without_at: int) -> NDArray[np.int64]:
    """Return the target's verdicts: a pass that only load control gives is conditional."""
    if not has_control:
        return ranks
    without = ranks[:, without_at, None]
    return np.asarray(np.where(without == PASS, ranks, np.minimum(ranks, CONDITIONAL)))


def _whole(
    target: NDArray[np.int64], power: tuple[int, int], life_support: bool
) -> NDArray[np.int64]:
    """Return the verdicts of the whole answer: the worst of its rules."""
    found = np.minimum(target, np.array(power)[:, None])
    return np.asarray(np.minimum(found, CONDITIONAL if life_support else PASS))


def _power_rank(
    request: OutageRuntimeRequest, columns: Arrays, row: int, season: int, lane: int
) -> int:
    if not isinstance(request.use, LoadsUse) or request.battery.continuous_kw is None:
        return UNDETERMINED
    limit = float(columns["limit"][row, season, lane])
    return power_verdict(
        columns["power_one"][row, season], columns["power_two"][row, season], limit
    )


def _ranks(
    request: OutageRuntimeRequest,
    columns: Arrays,
    row: int,
    rows: list[Row],
    layout: Layout,
    triples: NDArray[np.int64],
) -> tuple[Floats, NDArray[np.int64], tuple[int, int], NDArray[np.int64]]:
    """Return times, the target's verdicts, the power's and the whole answer's, by season."""
    both = tier_times(columns, row, TIERS.index(request.target_tier or "critical"))
    control = request.load_control is not None and any(r.tier in (1, 2) for r in rows)
    without = list(layout.triples).index("no-load-control")
    target = (request.target_hours or 0.0) * HOUR
    found = _capped(target_verdicts(both, target, triples), control, without)
    lane = layout.triples["base"].typical
    power = (
        _power_rank(request, columns, row, 0, lane),
        _power_rank(request, columns, row, 1, lane),
    )
    return both, found, power, _whole(found, power, any(r.life_support for r in rows))


def judge(request: OutageRuntimeRequest, columns: Arrays, row: int) -> Judgement:
    """Return the case judged in the season that is worse for it: verdict first, then hours."""
    rows = rows_of(request.use)
    both, target_ranks, power, ranks = _ranks(request, columns, row, rows, LAYOUT, _TRIPLES)
    typical, strict = LAYOUT.triples["base"].typical, LAYOUT.readings[2, 1, 0]

    def badness(season: int) -> tuple[int, float, float]:
        times = both[season]
        return int(ranks[season, _AT["base"]]), float(times[typical]), float(times[strict])

    worse = min((0, 1), key=badness)
    return Judgement(request, rows, columns, row, worse, both, target_ranks, power, ranks)


def verdict_ranks(requests: Sequence[OutageRuntimeRequest], columns: Arrays) -> list[int]:
    """Return the verdicts of many requests out of their ``verdict_columns``, in order."""
    return [
        int(
            _ranks(request, columns, row, rows_of(request.use), VERDICT_LAYOUT, _VERDICT_TRIPLES)[
                3
            ][:, 0].min()
        )
        for row, request in enumerate(requests)
    ]
