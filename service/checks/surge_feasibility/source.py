"""What feeds the bus: an inverter or a generator, its ratings, impedance and limits of volts."""

from __future__ import annotations

from typing import Literal, NamedTuple

import numpy as np

from service.checks.surge_feasibility.start_outcome import FOLDS_BACK, TRIPS, UNKNOWN
from service.facts import (
    GeneratorSource,
    Inverter,
    continuous_amps,
    left_in_the_heat,
    surge_amps,
)

_BEYOND = {None: UNKNOWN, "folds_back": FOLDS_BACK, "trips": TRIPS}
#: Of a unit where none is stated: resistance and reactance [ohm], volts at which it shuts down [1]
#: and after how long [s]. Standing: derived, our choice.
OUTPUT_OHM, TRIP, TRIP_SECONDS = (0.02, 0.05), 0.50, 0.16
#: Volts at which a contactor may let go [1] and after how long [s]: a cycle. Standing: common
#: practice; a regional utility council's parameter set has 0.45 to 0.55.
_DROPOUT, _CYCLE = 0.55, 1.0 / 60.0
#: Deepest dip of a generator [1]. Standing: secondary, a generator dealer's guide: 30 %.
_GENERATOR_DIP = 0.70
#: Least volts at a pump motor on a generator [1]. Standing: secondary, a pump motor maker's table.
PUMP_VOLTS = 0.65
#: Transient reactance of a small alternator where none is stated, and its ends [1]. Standing:
#: derived: with it the kVA that a pump motor maker's table asks for dip by its 35 %.
REACTANCE = (0.15, 0.25, 0.35)
#: How long an alternator gives whatever a start takes [s]. Standing: derived, our choice; longer
#: than any start that is followed.
_SHORT_TIME = 10.0


class Source(NamedTuple):
    """What feeds the bus.

    Attributes
    ----------
    kind : str
        ``inverter`` or ``generator``.
    volts : float
        Of both legs, or of the one [V].
    units, sharing : float
        Units, and part of a unit's surge that each further unit adds [1].
    continuous : float
        Amps of all units, at its volts, in the heat stated [A].
    leg : float
        Amps of one leg of all units [A].
    power : float
        Most power of all units [W]; infinite: no more than the amps say.
    battery : float or None
        Power that the batteries sustain, and what runs beside them [W].
    battery_start : float or None
        Power that the batteries alone give for the seconds of a start, or sustain [W].
    battery_start_stated : bool
        Whether it is what they give for seconds.
    seconds, amps : tuple of float
        Ratings of all units, the last the continuous one [s, A].
    unrated : bool
        Whether ratings above continuous are not known.
    joined : float
        Power of a generator that runs beside it [W]: carried, and not counted in a start.
    beyond : int
        What it does beyond them: a code of `start_outcome`.
    impedance : complex
        Behind its volts, of all units [ohm].
    softest : tuple of float
        Its impedance at the optimistic and the pessimistic corner [1].
    trip, trip_seconds, dropout, dropout_seconds, pump_floor : float
        Limits of the volts [1, s].
    """

    kind: Literal["inverter", "generator"]
    volts: float
    units: float
    sharing: float
    continuous: float
    leg: float
    power: float
    battery: float | None
    battery_start: float | None
    battery_start_stated: bool
    seconds: tuple[float, ...]
    amps: tuple[float, ...]
    unrated: bool
    joined: float
    beyond: int
    impedance: complex
    softest: tuple[float, float]
    trip: float
    trip_seconds: float
    dropout: float
    dropout_seconds: float
    pump_floor: float

    @property
    def continuous_va(self) -> float:
        """Return what it carries for long on both legs, or on its one [VA]."""
        return self.continuous * self.volts


def sources_of(inverter: Inverter | None, generator: GeneratorSource | None) -> tuple[Source, ...]:
    """Return what feeds the bus, and what may take its place: a generator that carries it alone."""
    if inverter is None:
        return () if generator is None else (of_generator(generator),)
    if generator is None or generator.connection in (None, "inverter_input"):
        return (of_inverter(inverter),)
    if generator.connection == "parallel":
        return (of_inverter(inverter, generator),)
    return of_inverter(inverter), of_generator(generator)


def of_inverter(inverter: Inverter, beside: GeneratorSource | None = None) -> Source:
    """Return an inverter as a source, with a generator that it is listed to run beside.

    Such a generator adds its amps to what is carried for long, and nothing to a start.

    Notes
    -----
    ``continuous (1 - slope max(0, ambient - knee))``; of the surge above continuous a further unit
    adds what its maker says.
    Source: derived; derating by the data sheet stated.
    """
    printed = continuous_amps(inverter)
    count = inverter.count or 1
    left = left_in_the_heat(inverter.derating)
    sharing = (inverter.surge_sharing_percent or 0.0) / 100.0
    shares = 1 + (count - 1) * sharing
    surge = inverter.surge or []
    joined = 0.0 if beside is None else beside.rated_kw * 1000.0
    added = joined / inverter.volts
    continuous = printed * left * count
    amps = [printed * count + (surge_amps(rating, inverter) - printed) * shares for rating in surge]
    seconds = [rating.seconds for rating in surge]
    if added and (not seconds or seconds[-1] < _SHORT_TIME):
        # A generator beside it carries for long and starts nothing.
        amps.append(continuous)
        seconds.append(_SHORT_TIME)
    leg = min(inverter.leg_a or printed, printed) * left * count
    resistance = OUTPUT_OHM[0] if inverter.resistance_ohm is None else inverter.resistance_ohm
    reactance = OUTPUT_OHM[1] if inverter.reactance_ohm is None else inverter.reactance_ohm
    battery, short = inverter.battery_kw, inverter.battery_surge_kw
    return Source(
        kind="inverter",
        volts=float(inverter.volts),
        units=float(count),
        sharing=sharing,
        continuous=continuous + added,
        leg=leg + added,
        power=np.inf,
        battery=None if battery is None else battery * count * 1000.0 + joined,
        # A generator beside it adds to what runs, not to a start.
        battery_start=_least_known(short, battery, count),
        battery_start_stated=short is not None,
        seconds=(*seconds, np.inf),
        amps=(*amps, continuous + added),
        joined=joined,
        unrated=inverter.surge is None,
        beyond=_BEYOND[inverter.beyond_rating],
        impedance=complex(resistance, reactance) / count,
        softest=(1.0, 1.0),
        trip=TRIP if inverter.trip_percent is None else inverter.trip_percent / 100.0,
        trip_seconds=TRIP_SECONDS if inverter.trip_seconds is None else inverter.trip_seconds,
        dropout=_DROPOUT,
        dropout_seconds=_CYCLE,
        pump_floor=0.0,
    )


def _least_known(short: float | None, sustained: float | None, count: int) -> float | None:
    """Return what the batteries give for seconds, or at least, as they sustain it [W]."""
    known = sustained if short is None else short
    return None if known is None else known * count * 1000.0


def of_generator(generator: GeneratorSource) -> Source:
    """Return a generator that carries the home alone as a source.

    Notes
    -----
    Volts behind the transient reactance: no ceiling of amps for the seconds of a start, then the
    rated ones.
    Source: derived; dip and pump volts secondary, see above.
    """
    volts = float(generator.volts)
    va = 1000.0 * (generator.rated_kva or generator.rated_kw)
    stated = generator.transient_reactance_percent
    low, usual, high = REACTANCE if stated is None else (stated / 100.0,) * 3
    return Source(
        kind="generator",
        volts=volts,
        units=1.0,
        sharing=0.0,
        continuous=va / volts,
        leg=va / volts,
        power=1000.0 * generator.rated_kw,
        battery=None,
        battery_start=None,
        battery_start_stated=False,
        seconds=(_SHORT_TIME, np.inf),
        amps=(np.inf, va / volts),
        unrated=False,
        joined=0.0,
        beyond=FOLDS_BACK,
        impedance=1j * usual * volts**2 / va,
        softest=(low / usual, high / usual),
        trip=TRIP,
        trip_seconds=TRIP_SECONDS,
        dropout=_GENERATOR_DIP,
        dropout_seconds=0.0,
        pump_floor=PUMP_VOLTS,
    )
