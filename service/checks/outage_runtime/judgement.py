"""One case judged: which season it is answered for, how each rule stands, what would move it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any, NamedTuple

import numpy as np
from numpy.typing import NDArray

from service.check import Arrays
from service.checks.outage_runtime.arguments import NO_LIMIT
from service.checks.outage_runtime.lanes import BETTER, LAYOUT, VERDICT_LAYOUT, WORSE, Layout
from service.checks.outage_runtime.load_rows import Row, request_rows
from service.checks.outage_runtime.power_in_heat import heat_ranks
from service.checks.outage_runtime.request import LoadsUse, MonthlyUse, OutageRuntimeRequest
from service.checks.outage_runtime.running_power import (
    ALL,
    COMFORT_OUT,
    CRITICAL_ALONE,
    ROW_HIGH,
    ROW_LOW,
)
from service.checks.outage_runtime.verdict import (
    CONDITIONAL,
    PASS,
    UNDETERMINED,
    power_verdicts,
    target_verdicts,
    tier_times,
)
from service.checks.outage_runtime.year_columns import YearColumn
from service.checks.outage_runtime.year_rules import might_be_carried, weather_left_out

Floats = NDArray[np.float64]
HOUR = 3600.0


_NAMES = tuple(LAYOUT.triples)
#: Lanes of a verdict where only those of one triple stand side by side.
_OWN_TRIPLE = np.array([[0, 1, 2, 3]])
_AT = {name: place for place, name in enumerate(_NAMES)}
_POWER_VARIANT = {
    "comfort-left-out": COMFORT_OUT,
    "critical-alone": CRITICAL_ALONE,
    "row-watts-low": ROW_LOW,
    "row-watts-high": ROW_HIGH,
}


@dataclass(frozen=True, slots=True)
class _Reader:
    """How the lanes of a layout are read: its triples, their limits and power variants."""

    triples: NDArray[np.int64]
    typical: NDArray[np.int64]
    variant: NDArray[np.int64]


def _reader(layout: Layout) -> _Reader:
    triples = layout.triples
    return _Reader(
        np.array([triple[:4] for triple in triples.values()]),
        np.array([triple.typical for triple in triples.values()]),
        np.array([_POWER_VARIANT.get(name, ALL) for name in triples]),
    )


_FULL, _SHORT = _reader(LAYOUT), _reader(VERDICT_LAYOUT)


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
    power_ranks: NDArray[np.int64]
    heat_ranks: NDArray[np.int64]
    ranks: NDArray[np.int64]

    @property
    def target(self) -> float:
        """Return the target [s]; 0: none."""
        return (self.request.target_hours or 0.0) * HOUR

    @property
    def year(self) -> YearColumn | None:
        """Return what there is beside the columns where the outage is a matter of the date."""
        found: YearColumn | None = self.columns["year"][self.row]
        return found

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
    def tier(self) -> int:
        """Return the code of the lowest tier that must be held."""
        return int(self.columns["target_tier"][self.row, 0])

    @property
    def target_rank(self) -> int:
        """Return how the target stands in the season answered for."""
        return int(self.target_ranks[self.season, _AT["base"]])

    @property
    def power_rank(self) -> int:
        """Return how the running power stands in the season answered for."""
        return int(self.power_ranks[self.season, _AT["base"]])

    @property
    def heat_rank(self) -> int:
        """Return how the running power stands on the hottest days of the season answered for."""
        return int(self.heat_ranks[self.season, _AT["base"]])

    @property
    def carried_ranks(self) -> NDArray[np.int64]:
        """Return how the running power stands, on the hottest days too, by season and triple."""
        return np.minimum(self.power_ranks, self.heat_ranks)

    def of(self, name: str) -> NDArray[Any]:
        """Return one column of the case in the season answered for."""
        return np.asarray(self.columns[name][self.row, self.season])

    def times(self) -> Floats:
        """Return the time that the asked tier is held in every lane [s]."""
        return np.asarray(self.both[self.season])

    def rank(self, triple: str = "base") -> int:
        """Return the verdict of the whole answer over all admissible seasons."""
        return int(self.ranks[:, _AT[triple]].min())

    def ranks_of(self, season: int) -> int:
        """Return the verdict of the whole answer in one season."""
        return int(self.ranks[season, _AT["base"]])

    def parameter_flips(self, name: str) -> bool:
        """Return whether an end of a defaulted parameter's range changes the verdict."""
        return any(self.rank(f"{name}/{end}") != self.rank() for end in (WORSE, BETTER))

    def season_flips(self) -> bool:
        """Return whether stating either season changes the verdict."""
        return bool(np.any(self.ranks[:, _AT["base"]] != self.rank()))

    def rank_for(self, target: float, tier: int) -> int:
        """Return the verdict for another target [s] or another lowest tier."""
        times = tier_times(self.columns, self.row, tier)
        found = _whole(
            target_verdicts(times, target, _FULL.triples),
            self.carried_ranks,
            _best(self.columns, self.row, _FULL),
        )
        return int(found[:, _AT["base"]].min())

    def rank_with_power(self, unit_power: float) -> int:
        """Return the verdict for another continuous power of a unit [W]."""
        limit = np.full(2, unit_power * (self.request.battery.count or 1))
        columns = self.columns
        asked = (columns[f"power_{what}"][self.row, :, ALL : ALL + 1] for what in ("one", "total"))
        one, total = asked
        heat = heat_ranks(self.request, one, total, limit[:, None], columns["season"][self.row])
        power = np.minimum(power_verdicts(one, total, limit[:, None]), heat)[:, 0]
        base = self.target_ranks[:, _AT["base"]]
        return int(
            _whole(base[:, None], power[:, None], _best(columns, self.row, _FULL)[:, :1]).min()
        )

    def rank_with_best(self, best: int, triple: str = "base") -> int:
        """Return the verdict of a triple for another best rank than that of rows and battery."""
        nothing = self.columns["nothing_runs"][self.row][:, ALL]
        capped = np.minimum(best, np.where(nothing, UNDETERMINED, PASS))
        found = np.minimum(self.target_ranks, self.carried_ranks)[:, _AT[triple]]
        return int(np.minimum(found, capped).min())

    def at_share(self, share: float) -> tuple[int, float]:
        """Return verdict and typical time [s] if a part of the days had to be carried.

        Only where the outage is a matter of the date.
        """
        assert self.year is not None
        times = self.year.at_share(share, self.columns["season"][self.row])
        found = _capped(self.request, target_verdicts(times, self.target, _OWN_TRIPLE))
        base = _AT["base"]
        ranks = _whole(
            found[:, 0],
            self.carried_ranks[:, base],
            _best(self.columns, self.row, _FULL)[:, base],
        )
        return int(ranks.min()), float(times[self.season, 4])

    def worst_hour(self) -> int:
        """Return the start hour with the worst verdict, the shortest typical time among those.

        Where the outage is a matter of the date the survey of all start hours says it instead.
        """
        times = self.both.min(axis=0)

        def badness(hour: int) -> tuple[int, float]:
            typical = LAYOUT.triples[f"hour/{hour}"].typical
            return self.rank(f"hour/{hour}"), float(times[typical])

        return min(range(24), key=badness)


def _best(columns: Arrays, row: int, reader: _Reader) -> NDArray[np.int64]:
    """Return the best verdict that season and triple may have, shape (2, triples)."""
    nothing = np.where(columns["nothing_runs"][row], UNDETERMINED, PASS)
    return np.asarray(np.minimum(columns["best_rank"][row], nothing)[:, reader.variant])


def _whole(
    target: NDArray[np.int64], power: NDArray[np.int64], best: NDArray[np.int64]
) -> NDArray[np.int64]:
    """Return the verdicts of the whole answer: the worst of its rules."""
    return np.asarray(np.minimum(np.minimum(target, power), best))


def _capped(request: OutageRuntimeRequest, found: NDArray[np.int64]) -> NDArray[np.int64]:
    """Return the target's verdicts as far as what is known of the request allows them."""
    if weather_left_out(request):
        # Without heating and cooling the hours are no more than an upper bound.
        found = np.minimum(found, UNDETERMINED)
    if isinstance(request.use, MonthlyUse):
        # A class's day shape stands for the home's: a bill never gives a pass.
        found = np.minimum(found, CONDITIONAL)
    if might_be_carried(request):
        found = np.maximum(found, UNDETERMINED)
    return found


def _power_ranks(
    request: OutageRuntimeRequest, columns: Arrays, row: int, reader: _Reader
) -> NDArray[np.int64]:
    """Return how the running power stands by season and triple."""
    if not isinstance(request.use, LoadsUse) or request.battery.continuous_kw is None:
        return np.full((2, reader.typical.size), UNDETERMINED)
    return power_verdicts(
        columns["power_one"][row][:, reader.variant],
        columns["power_total"][row][:, reader.variant],
        columns["limit"][row][:, reader.typical],
    )


def _heat_ranks(
    request: OutageRuntimeRequest, columns: Arrays, row: int, reader: _Reader
) -> NDArray[np.int64]:
    """Return how the running power stands on the hottest days, by season and triple."""
    if not isinstance(request.use, LoadsUse) or request.battery.continuous_kw is None:
        return np.full((2, reader.typical.size), PASS)
    return heat_ranks(
        request,
        columns["power_one"][row][:, reader.variant],
        columns["power_total"][row][:, reader.variant],
        columns["limit"][row][:, reader.typical],
        columns["season"][row],
    )


class _Ranked(NamedTuple):
    """Times, and the verdicts of the target, the power, the heat and the whole, by season."""

    both: Floats
    target: NDArray[np.int64]
    power: NDArray[np.int64]
    heat: NDArray[np.int64]
    whole: NDArray[np.int64]


def _ranks(request: OutageRuntimeRequest, columns: Arrays, row: int, reader: _Reader) -> _Ranked:
    """Return times and verdicts, by season."""
    both = tier_times(columns, row, int(columns["target_tier"][row, 0]))
    target = (request.target_hours or 0.0) * HOUR
    found = target_verdicts(both, target, reader.triples)
    found = _capped(request, found)
    power = _power_ranks(request, columns, row, reader)
    heat = _heat_ranks(request, columns, row, reader)
    whole = _whole(found, np.minimum(power, heat), _best(columns, row, reader))
    return _Ranked(both, found, power, heat, whole)


def judge(request: OutageRuntimeRequest, columns: Arrays, row: int) -> Judgement:
    """Return the case judged in the season that is worse for it: verdict first, then hours."""
    rows = request_rows(request)
    ranked = _ranks(request, columns, row, _FULL)
    typical, strict = LAYOUT.triples["base"].typical, LAYOUT.readings[2, 1, 0]

    def badness(season: int) -> tuple[int, float, float]:
        times = ranked.both[season]
        return int(ranked.whole[season, _AT["base"]]), float(times[typical]), float(times[strict])

    worse = min((0, 1), key=badness)
    return Judgement(request, rows, columns, row, worse, *ranked)


def verdict_ranks(requests: Sequence[OutageRuntimeRequest], columns: Arrays) -> list[int]:
    """Return the verdicts of many requests out of their ``verdict_columns``, in order."""
    return [
        int(_ranks(request, columns, row, _SHORT).whole[:, 0].min())
        for row, request in enumerate(requests)
    ]
