"""From requests to arrays: customary units and words become SI numbers and codes."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import accumulate
from typing import Any

import numpy as np
from numpy.typing import NDArray

from service.check import Arrays
from service.checks.outage_runtime.battery_parameters import ranged_parameters
from service.checks.outage_runtime.caps import asked_tier, best_ranks
from service.checks.outage_runtime.load_rows import TIERS, Row, request_rows
from service.checks.outage_runtime.request import OutageRuntimeRequest
from service.checks.outage_runtime.year_arguments import charge_kw, year_facts
from service.checks.outage_runtime.year_rules import year_rank
from service.facts import Battery, PartLoadLosses
from service.published.outage_defaults import outage_defaults
from service.quantities.units import si, si_factor

_J_PER_KWH = si_factor("kWh")
_W_PER_KW = si_factor("kW")
_S_PER_H = si_factor("h")
#: Stands for "no limit stated" in power arrays [W]; far above any home.
NO_LIMIT = 1e12
SEASONS = ("summer", "winter")


def _to_kelvin(degf: float) -> float:
    return si(degf, "degF")


def _offsets(lengths: Sequence[int]) -> NDArray[np.int64]:
    return np.array([0, *accumulate(lengths)], dtype=np.int64)


def _row_arrays(rows: Sequence[Row]) -> dict[str, NDArray[Any]]:
    windows = [window for row in rows for window in row.windows]
    return {
        "row_watts": np.array([row.watts for row in rows]).reshape(-1, 3),
        "row_duty": np.array([row.duty for row in rows]).reshape(-1, 3),
        "row_use_seconds": np.array([row.hours for row in rows]) * _S_PER_H,
        "row_pieces": np.array([row.pieces for row in rows], dtype=np.float64),
        "row_season": np.array([row.season for row in rows]).reshape(-1, 2),
        "row_tier": np.array([row.tier for row in rows], dtype=np.int64),
        "row_askable": np.array([row.askable for row in rows], dtype=np.bool_),
        "row_all_day": np.array([row.all_day for row in rows], dtype=np.bool_),
        "row_starting_watts": np.array([row.starting_watts for row in rows]),
        "window_offsets": _offsets([len(row.windows) for row in rows]),
        "window_start": np.array([start for start, _ in windows]) * _S_PER_H,
        "window_end": np.array([end for _, end in windows]) * _S_PER_H,
    }


def _control(request: OutageRuntimeRequest) -> tuple[float, float, float]:
    """Return shed fractions of normal and comfort loads and the hysteresis; -1: none."""
    control = request.load_control
    if control is None:
        return (-1.0, -1.0, -1.0)
    percents = (
        control.normal_shed_percent,
        control.comfort_shed_percent,
        control.hysteresis_percent,
    )
    return (percents[0] / 100.0, percents[1] / 100.0, percents[2] / 100.0)


def _curve(battery: Battery) -> tuple[float, float, float]:
    """Return rated power of a unit [W] and the two efficiencies; zeros: fixed efficiency."""
    losses = battery.losses
    if not isinstance(losses, PartLoadLosses):
        return (0.0, 0.0, 0.0)
    return (
        losses.rated_kw * _W_PER_KW,
        losses.efficiency_at_10_percent,
        losses.efficiency_at_rated,
    )


def _heat(request: OutageRuntimeRequest) -> tuple[float, float]:
    """Return the parts of power and energy that heat leaves at the low end [1]."""
    heat = request.heat_derating
    if heat is None or request.season == "winter":
        return (1.0, 1.0)
    energy = 100.0 if heat.energy_percent is None else heat.energy_percent
    return (heat.power_percent_low / 100.0, energy / 100.0)


def _dated(requests: Sequence[OutageRuntimeRequest]) -> NDArray[Any]:
    """Return what makes each outage a matter of the date, None where nothing does."""
    found = np.full(len(requests), None)
    for case, request in enumerate(requests):
        found[case] = year_facts(request)
    return found


def arguments(requests: Sequence[OutageRuntimeRequest]) -> Arrays:
    """Return the arrays of C requests.

    Returns
    -------
    mapping of ndarray
        Per case (axis 0 of length C): ``unit_energy`` [J], ``units`` [1], ``parameters``
        (C, 8, 3), ``age_years`` [year], ``start_fraction`` [1] (-1: not stated), ``start_second``
        [s], ``season_code`` (-1: not stated), ``target`` [s] (0: none), ``target_tier`` code,
        ``unit_power`` and ``unit_charge`` [W], ``curve`` (C, 3), ``control`` (C, 3) [1],
        ``proportional`` flag, ``heat`` (C, 2): parts of power and energy that heat leaves in
        summer at the low end [1], ``best_rank`` (C, 5), ``year`` (`YearFacts` or None).
        Flat rows by ``row_offsets`` (C + 1), flat windows by ``window_offsets`` (R + 1).

    Notes
    -----
    Source of units: the closed list of units; of defaults: table outage_defaults.
    """
    rows = [request_rows(request) for request in requests]
    batteries = [request.battery for request in requests]
    start_hour = outage_defaults()["start_hour"].value

    def column(values: Sequence[Any], kind: Any = np.float64) -> NDArray[Any]:
        return np.array(values, dtype=kind)

    return {
        "unit_energy": column([b.energy.kwh for b in batteries]) * _J_PER_KWH,
        "units": column([b.count or 1 for b in batteries]),
        "parameters": np.array([ranged_parameters(b, _to_kelvin) for b in batteries]),
        "age_years": column([b.age_years or 0.0 for b in batteries]),
        "start_fraction": column(
            [
                -1.0 if b.start_charge_percent is None else b.start_charge_percent / 100.0
                for b in batteries
            ]
        ),
        "start_second": column(
            [start_hour if r.start_hour is None else r.start_hour for r in requests]
        )
        * _S_PER_H,
        "season_code": column(
            [-1 if r.season is None else SEASONS.index(r.season) for r in requests], np.int64
        ),
        "target": column([r.target_hours or 0.0 for r in requests]) * _S_PER_H,
        "target_tier": column(
            [
                asked_tier(some, TIERS.index(r.target_tier or "critical"))
                for some, r in zip(rows, requests, strict=True)
            ],
            np.int64,
        ),
        "unit_power": column(
            [
                NO_LIMIT if b.continuous_kw is None else b.continuous_kw * _W_PER_KW
                for b in batteries
            ]
        ),
        "unit_charge": column([charge_kw(battery) * _W_PER_KW for battery in batteries]),
        "curve": np.array([_curve(b) for b in batteries]),
        "control": np.array([_control(r) for r in requests]),
        "proportional": column([r.power_limit_rule == "proportional" for r in requests], np.bool_),
        "heat": np.array([_heat(r) for r in requests]),
        "best_rank": column(
            [
                [min(rank, year_rank(r)) for rank in best_ranks(some, r.battery)]
                for some, r in zip(rows, requests, strict=True)
            ],
            np.int64,
        ),
        "year": _dated(requests),
        "row_offsets": _offsets([len(some) for some in rows]),
        **_row_arrays([row for some in rows for row in some]),
    }
