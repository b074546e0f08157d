"""The household appliance catalogue."""

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from functools import cache
from itertools import pairwise
from types import MappingProxyType

from service.published.errors import DataFileError
from service.published.loader import load
from service.published.source import Standing
from service.published.table import Table

NAME = "appliances"
_DAY_H = 24.0


class Tier(StrEnum):
    """What is shed last, first."""

    CRITICAL = "critical"
    NORMAL = "normal"
    COMFORT = "comfort"
    SHED = "shed"


class Season(StrEnum):
    """When an appliance is in use; in the other season it is absent."""

    ALL = "all"
    SUMMER = "summer"
    WINTER = "winter"


@dataclass(frozen=True, slots=True)
class Appliance:
    """One row of the catalogue.

    Attributes
    ----------
    id, name : str
    volts : float
        Nominal voltage [V].
    run_w_low, run_w_typ, run_w_high : float
        Power while on [W].
    total_start_w : float
        Whole power while starting [W]; 0 where a start draws no more than running.
    duty_low, duty_typ, duty_high : float
        Share of the hours of use in which it is on [1].
    hours_per_day : float
        Hours of use a day, inside the windows [h].
    windows : tuple of (float, float)
        Start and end of the times of use, local standard time [h]. Sorted, start before end: a
        window that passes midnight stands as two.
    tier : Tier
    season : Season
    season_factor_winter : float
        Factor on the hours of use in winter [1].
    has_motor, always_on, life_support : bool
        Starts a motor; cycles or stays on all day; a medical device.
    standing : Standing
        The weakest of the row.
    """

    id: str
    name: str
    volts: float
    run_w_low: float
    run_w_typ: float
    run_w_high: float
    total_start_w: float
    duty_low: float
    duty_typ: float
    duty_high: float
    hours_per_day: float
    windows: tuple[tuple[float, float], ...]
    tier: Tier
    season: Season
    season_factor_winter: float
    has_motor: bool
    always_on: bool
    life_support: bool
    standing: Standing


@cache
def catalogue() -> Mapping[str, Appliance]:
    """Return the catalogue by appliance id, in the order of the table.

    Returns
    -------
    mapping of str to Appliance

    Notes
    -----
    Source: table appliances; cite a number with `load("appliances").cite(id, column)`.
    """
    return from_table(load(NAME))


def from_table(table: Table) -> Mapping[str, Appliance]:
    """Return the catalogue that a table holds.

    Parameters
    ----------
    table : Table
        With the columns of table appliances.

    Returns
    -------
    mapping of str to Appliance

    Raises
    ------
    DataFileError
        A cell is no window, tier, season, or yes and no.

    Notes
    -----
    Source: the header and rows of the table itself.
    """
    return MappingProxyType({key: _appliance(table, key) for key in table.rows})


def parse_windows(text: str) -> tuple[tuple[float, float], ...]:
    """Read windows of the day such as `05-07;17-23` or `22-06`.

    Parameters
    ----------
    text : str
        Hours, local standard time; several windows are parted by a semicolon.

    Returns
    -------
    tuple of (float, float)
        [h], sorted, start before end, split at midnight.

    Raises
    ------
    ValueError
        The text is no window, a window is empty, or two overlap.

    Notes
    -----
    Source: derived; the format of our own table appliances.
    """
    found: list[tuple[float, float]] = []
    for window in text.split(";"):
        start, end = (float(hour) for hour in window.split("-"))
        if not (0 <= start < _DAY_H and 0 < end <= _DAY_H and start != end):
            raise ValueError(f"{window!r} is no window of a day")
        found += [(start, end)] if start < end else [(start, _DAY_H), (0.0, end)]
    found.sort()
    if any(later[0] < earlier[1] for earlier, later in pairwise(found)):
        raise ValueError(f"windows overlap in {text!r}")
    return tuple(found)


def _appliance(table: Table, key: str) -> Appliance:
    row = table.row(key)
    try:
        return Appliance(
            id=key,
            name=row["name"],
            volts=table.number(key, "volts"),
            run_w_low=table.number(key, "run_w_low"),
            run_w_typ=table.number(key, "run_w_typ"),
            run_w_high=table.number(key, "run_w_high"),
            total_start_w=table.number(key, "total_start_w"),
            duty_low=table.number(key, "duty_low"),
            duty_typ=table.number(key, "duty_typ"),
            duty_high=table.number(key, "duty_high"),
            hours_per_day=table.number(key, "hours_per_day"),
            windows=parse_windows(row["window_local"]),
            tier=Tier(row["tier"]),
            season=Season(row["season"]),
            season_factor_winter=table.number(key, "season_factor_winter"),
            has_motor=_yes(row["has_motor"]),
            always_on=_yes(row["always_on"]),
            life_support=_yes(row["life_support"]),
            standing=table.cite(key).standing,
        )
    except ValueError as error:
        raise DataFileError(f"{table.name}.csv", f"row {key}: {error}") from error


def _yes(cell: str) -> bool:
    if cell not in ("yes", "no"):
        raise ValueError(f"{cell!r} is neither yes nor no")
    return cell == "yes"


APPLIANCE_IDS: tuple[str, ...] = tuple(catalogue())
