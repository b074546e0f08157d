"""Where the sun stands: the low-precision form of the almanac."""

from datetime import date

import numpy as np
from numpy.typing import ArrayLike, NDArray

Floats = NDArray[np.float64]

_SECONDS_PER_HOUR = 3600.0
_HOURS_PER_DAY = 24.0
_TURN = 2.0 * np.pi
#: Hours of a 365-day year before 1 March.
_HOURS_TO_MARCH = 59 * _HOURS_PER_DAY


def sun_position(
    hour: ArrayLike, latitude: float, longitude: float, utc_offset: float, year: int = 2023
) -> tuple[Floats, Floats]:
    """Zenith angle and azimuth of the centre of the sun, without refraction.

    Parameters
    ----------
    hour : array_like, shape (N,)
        Hours since the start of a year of 365 days, local standard time [h].
    latitude, longitude : float
        Of the place, positive north and east [rad].
    utc_offset : float
        Local standard time less universal time [s].
    year : int, optional
        Calendar year whose sun is taken, 1950 to 2050. A leap year goes from 28 February to
        1 March. From year to year the sun of a date moves by less than 0.3 degrees.

    Returns
    -------
    zenith, azimuth : ndarray, shape (N,)
        Zenith angle in [0, pi] and azimuth clockwise from north in [0, 2 pi) [rad]. At the poles
        and with the sun overhead the azimuth is finite and means nothing.

    Notes
    -----
    Mean longitude and mean anomaly give the ecliptic longitude, the obliquity of the ecliptic
    turns that into right ascension and declination, and Greenwich mean sidereal time turns the
    right ascension into the hour angle. The observer stands at the centre of the earth: the
    parallax, at most 0.0024 degrees, is left out, and so is refraction, about 0.09 degrees at an
    elevation of 10 degrees.

    References
    ----------
    The Astronomical Almanac, section C, low-precision formulas for the sun; Michalsky, J. J.,
    "The Astronomical Almanac's algorithm for approximate solar position (1950-2050)", Solar
    Energy 40(3), 1988, 227-235. The article itself was not read: its coefficients agree with those
    that independent open programs give as its own, and the results with the solar position
    algorithm of Reda and Andreas.
    """
    days = _days_from_2000(np.asarray(hour, dtype=np.float64), utc_offset, year)
    anomaly = np.radians(357.528 + 0.9856003 * days)
    ecliptic = np.radians(280.460 + 0.9856474 * days)
    ecliptic += np.radians(1.915) * np.sin(anomaly) + np.radians(0.020) * np.sin(2.0 * anomaly)
    obliquity = np.radians(23.439 - 4e-7 * days)
    sine = np.sin(ecliptic)
    polar = np.sin(obliquity) * sine
    equatorial = np.sqrt(1.0 - polar * polar)
    right_ascension = np.arctan2(np.cos(obliquity) * sine, np.cos(ecliptic))
    sidereal_hours = 18.697374558 + 24.06570982441908 * days
    hour_angle = sidereal_hours * (_TURN / _HOURS_PER_DAY) + longitude - right_ascension
    meridian = equatorial * np.cos(hour_angle)
    up = np.sin(latitude) * polar + np.cos(latitude) * meridian
    north = np.cos(latitude) * polar - np.sin(latitude) * meridian
    east = -equatorial * np.sin(hour_angle)
    return np.arccos(np.clip(up, -1.0, 1.0)), azimuth_towards(east, north)


def azimuth_towards(east: ArrayLike, north: ArrayLike) -> Floats:
    """Azimuth of a direction.

    Parameters
    ----------
    east, north : array_like, shape (N,)
        Components of the direction in the horizontal plane, in one unit.

    Returns
    -------
    ndarray, shape (N,)
        Clockwise from north, in [0, 2 pi) [rad]; zero where both components are.

    Notes
    -----
    Source: derived; the definition of the azimuth.
    """
    azimuth = np.arctan2(east, north) % _TURN
    # The remainder of a tiny negative angle rounds to the full turn itself.
    return np.where(azimuth < _TURN, azimuth, 0.0)


def _days_from_2000(hour: Floats, utc_offset: float, year: int) -> Floats:
    """Return days from noon of 1 January 2000, universal time, the epoch J2000.0."""
    start = (date(year, 1, 1) - date(2000, 1, 1)).days - 0.5
    leap = (date(year, 12, 31) - date(year, 1, 1)).days == 365
    skipped = np.where(hour >= _HOURS_TO_MARCH, float(leap), 0.0)
    return start + skipped + (hour - utc_offset / _SECONDS_PER_HOUR) / _HOURS_PER_DAY
