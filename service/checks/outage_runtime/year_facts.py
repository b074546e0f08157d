"""What an outage in the course of a year takes beside loads and battery, in SI."""

from __future__ import annotations

from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from service.checks.outage_runtime.battery_parameters import Ranged
from service.published.conditioning_defaults import Levels

Floats = NDArray[np.float64]

NEVER, BLACK_START, DC_RESTART = range(3)
_NONE = Ranged(0.0, 0.0, 0.0)


@dataclass(frozen=True, slots=True, eq=False)
class Weather:
    """A typical year at one place: hourly means of local standard time.

    Attributes
    ----------
    ghi, dni, dhi : ndarray, shape (8760,)
        Irradiance [W/m2].
    dry_bulb : ndarray, shape (8760,)
        Air temperature [K].
    latitude, longitude : float
        [rad], north and east positive.
    utc_offset : float
        [s].
    """

    id: str
    name: str
    ghi: Floats
    dni: Floats
    dhi: Floats
    dry_bulb: Floats
    latitude: float
    longitude: float
    utc_offset: float


@dataclass(frozen=True, slots=True)
class Answering:
    """A typical year that may answer, and how far it stands for the home.

    ``distance`` and ``elevation_difference`` [m] are None where the place is not known; ``yields``
    is the range of the year's sun as a multiple.
    """

    weather: Weather
    tier: str
    distance: float | None = None
    elevation_difference: float | None = None
    yields: tuple[float, float] = (1.0, 1.0)
    temperature_error: float | None = None


@dataclass(frozen=True, slots=True)
class Plane:
    """Modules in one plane: angles [rad], powers [W], shade by month as a part, -1 unstated."""

    tilt: float
    facing: float
    rated: float
    limit: float
    direct: bool
    shade: tuple[float, ...]


@dataclass(frozen=True, slots=True)
class Sun:
    """The solar on the backed-up side."""

    planes: tuple[Plane, ...]
    losses: Ranged
    shading: Ranged
    yields: Ranged
    temperature_coefficient: float

    @property
    def on_bus(self) -> bool:
        """Return whether any array hangs on the AC bus."""
        return any(not plane.direct and plane.rated > 0 for plane in self.planes)


@dataclass(frozen=True, slots=True)
class WeatherUnit:
    """A unit that heats or cools; levels are low, typical and high use.

    Attributes
    ----------
    rated : tuple of float
        Electric power while it runs [W].
    balance : float
        Outdoor temperature at which nothing is needed [K].
    design, extreme : float or None
        Outdoor temperature it was sized for, and the extreme of many years [K]; None: not stated.
    oversize : Levels
        Capacity over the need at design [1].
    """

    kind: str
    rated: tuple[float, float, float]
    balance: float
    design: float | None
    extreme: float | None
    oversize: Levels
    tier: int


@dataclass(frozen=True, slots=True, eq=False)
class Metered:
    """A home's own year: mean power of equal steps [W], factors of low and high use."""

    watts: Floats
    factors: tuple[float, float, float]


@dataclass(frozen=True, slots=True)
class RestartRule:
    """What brings the bus back: mode, least power [W], wait [s], restart charge as a part."""

    mode: int = NEVER
    least: float = 0.0
    wait: float = 300.0
    fraction: float = 0.15


@dataclass(frozen=True, slots=True)
class GeneratorRule:
    """A generator on the inverter's input: power [W], charges as parts, fuel in its own unit.

    ``quiet`` holds windows of the day [s]; the burn is ``fixed`` per second and ``linear`` per
    joule.
    """

    power: float
    start: float
    stop: float
    charge: float
    quiet: tuple[tuple[float, float], ...]
    tank: float
    refills: float
    burn_fixed: float
    burn_linear: float


@dataclass(frozen=True, slots=True)
class YearFacts:
    """Everything that makes an outage a matter of the date.

    ``answering`` are the typical years of which the worst answers, none where nothing depends on
    the weather. ``share`` is the part of the start days that must be carried, ``dark`` the time
    without power that is put up with [s]. ``hourly`` stands where the charge decides what happens
    and the year is therefore followed in hours: what changes inside one enters with its mean.
    ``hotter`` is by how much it is hotter than the data say [K], ``outdoor`` by how much more it
    may be hotter for cooling and colder for heating [K].
    """

    answering: tuple[Answering, ...] = ()
    sun: Sun | None = None
    units: tuple[WeatherUnit, ...] = ()
    metered: Metered | None = None
    restart: RestartRule = field(default_factory=RestartRule)
    generator: GeneratorRule | None = None
    share: float = 1.0
    dark: float = 0.0
    hourly: bool = False
    hotter: float = 0.0
    outdoor: Ranged = _NONE
