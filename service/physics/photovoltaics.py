"""Power of a photovoltaic array in given light and air."""

import numpy as np
from numpy.typing import ArrayLike, NDArray

Floats = NDArray[np.float64]

#: Rise of the cells above the air per unit of irradiance [K m2/W], of modules with a nominal
#: operating cell temperature of 45 degC: 25 K above air of 20 degC at 800 W/m2.
_RISE = 25.0 / 800.0
_RATED_IRRADIANCE = 1000.0
_RATED_CELL_TEMPERATURE = 298.15


def cell_temperature(poa: ArrayLike, air: ArrayLike) -> Floats:
    """Temperature of the cells of modules on open racks.

    Parameters
    ----------
    poa : array_like, shape (..., N)
        Irradiance on the plane [W/m2].
    air : array_like, shape (N,)
        Air temperature [K].

    Returns
    -------
    ndarray, shape (..., N)
        Temperature [K].

    Notes
    -----
    Wind is left out. Modules close to a roof run hotter.

    References
    ----------
    Definition of the nominal operating cell temperature: 800 W/m2, air of 20 degC, wind of 1 m/s,
    open rack, no load. The value of 45 degC is common practice, no source.
    """
    return np.asarray(np.multiply(poa, _RISE) + air)


def array_dc_power(
    poa: ArrayLike,
    air: ArrayLike,
    *,
    rated: ArrayLike,
    losses: ArrayLike,
    temperature_coefficient: ArrayLike,
) -> Floats:
    """DC power of an array at its maximum power point.

    Parameters
    ----------
    poa : array_like, shape (..., N)
        Irradiance on the plane [W/m2].
    air : array_like, shape (N,)
        Air temperature [K].
    rated : array_like
        DC power at 1000 W/m2 and cells of 25 degC [W].
    losses : array_like
        Part lost between the cells and the terminals: soiling, mismatch, wiring and the like [1].
    temperature_coefficient : array_like
        Part of the rated power lost per kelvin above 25 degC, a positive number [1/K].

    Returns
    -------
    ndarray, shape (..., N)
        Power [W], never negative.

    References
    ----------
    Common practice, no source: power in proportion to the irradiance, linear in cell temperature.
    """
    rise = cell_temperature(poa, air) - _RATED_CELL_TEMPERATURE
    scale = np.multiply(rated, np.subtract(1.0, losses)) / _RATED_IRRADIANCE
    power = np.multiply(poa, (1.0 - np.multiply(temperature_coefficient, rise)) * scale)
    return np.asarray(np.maximum(power, 0.0))


def array_power(
    poa: ArrayLike,
    air: ArrayLike,
    *,
    rated: ArrayLike,
    losses: ArrayLike,
    temperature_coefficient: ArrayLike,
    inverter_efficiency: ArrayLike,
    inverter_limit: ArrayLike,
) -> Floats:
    """AC power of an array behind its inverter.

    Parameters
    ----------
    poa, air, rated, losses, temperature_coefficient
        As in `array_dc_power`.
    inverter_efficiency : array_like
        Efficiency of the inverter, the same at every load [1].
    inverter_limit : array_like
        Most that the inverter gives, infinite where nothing limits it [W].

    Returns
    -------
    ndarray, shape (..., N)
        Power [W], from nothing to the limit of the inverter.

    References
    ----------
    Common practice, no source: one efficiency at all loads, cut off at the limit.
    """
    power = array_dc_power(
        poa, air, rated=rated, losses=losses, temperature_coefficient=temperature_coefficient
    )
    return np.asarray(np.minimum(np.multiply(power, inverter_efficiency), inverter_limit))
