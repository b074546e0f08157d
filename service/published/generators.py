"""Generators: performance classes, limits of the trade, fuel use."""

from dataclasses import dataclass
from functools import cache
from typing import Final

from service.published.loader import load

RATED_FREQUENCY: Final = 60.0


@dataclass(frozen=True, slots=True)
class QualityClass:
    """A performance class.

    Attributes
    ----------
    frequency_droop, frequency_band, voltage_deviation : float
        Parts of the rated value [1].
    """

    id: str
    frequency_droop: float
    frequency_band: float
    voltage_deviation: float

    @property
    def no_load_frequency(self) -> float:
        """Return the highest frequency at no load [Hz]."""
        return RATED_FREQUENCY * (1.0 + self.frequency_droop)


@cache
def quality_class(name: str) -> QualityClass:
    """Return a performance class by its id. Source: table generator_quality."""
    table = load("generator_quality")
    columns = ("frequency_droop", "frequency_band", "voltage_deviation")
    return QualityClass(name, *(table.number(name, column) for column in columns))


@cache
def generator_limit(name: str) -> float:
    """Return a limit of the trade, in the unit of its row. Source: table generator_limits."""
    return load("generator_limits").number(name, "value")


@cache
def fuel_use(fuel: str, rated_kw: float) -> tuple[float, float]:
    """Return the use at full and at half load.

    Parameters
    ----------
    fuel : str
        Id in table generator_fuels.
    rated_kw : float
        Rated power [kW].

    Returns
    -------
    full, half : float
        [gal/h], natural gas [ft3/h].

    Notes
    -----
    Source: table generator_fuels.
    """
    table = load("generator_fuels")
    return (
        rated_kw * table.number(fuel, "full_load"),
        rated_kw * table.number(fuel, "half_load"),
    )
