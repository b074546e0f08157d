"""Three readings of a unit's finish bracket what is not known of wind, sky, colour and lag."""

import numpy as np
import pytest

from service.checks.heat_exposure.exposure import Finish
from service.checks.heat_exposure.face_light import clear_sky_light
from service.checks.heat_exposure.finish_band import finish_band, wind_band
from service.checks.heat_exposure.lit_parts import Shades
from service.checks.heat_exposure.walls import on_walls
from service.published.sunlit_faces import absorptances
from tests.checks.heat_exposure.design_days import AREAS, PLACES, UNIT, Floats, air, tabled_day

FACINGS = np.radians([[0.0], [90.0], [180.0], [270.0]])


def run(site: str, finish: Finish) -> tuple[Floats, Floats]:
    day = tabled_day(site)
    light = clear_sky_light(*day, FACINGS, 0.2)
    found = on_walls(
        air(site), light, day.zenith, day.azimuth, FACINGS, UNIT, Shades(), AREAS, finish
    )
    return found.exposure.equivalent, found.exposure.followed


def test_the_readings_are_those_of_the_tables() -> None:
    found = finish_band(absorptances()["dark"])
    assert [np.ravel(part).tolist() for part in found] == [
        [0.8, 0.9, 0.95],
        [17.0, 12.0, 10.0],
        [63.0, 63.0, 0.0],
        [4 * 3600.0, 3 * 3600.0, 2 * 3600.0],
    ]
    assert np.ravel(finish_band(0.45, 7200.0).lag).tolist() == [7200.0] * 3


@pytest.mark.parametrize("site", PLACES)
@pytest.mark.parametrize("colour", absorptances())
def test_the_hot_reading_is_the_hottest_at_every_hour_and_at_the_peak(
    site: str, colour: str
) -> None:
    equivalent, followed = run(site, finish_band(absorptances()[colour]))
    assert np.all(equivalent[2] >= equivalent[1] - 1e-9)
    assert np.all(equivalent[2] >= equivalent[0] - 1e-9)
    cool, typical, hot = followed.max(axis=-1)
    assert np.all(hot >= typical - 1e-9)
    assert np.all(typical >= cool - 1e-9)


def test_the_band_of_wind_moves_the_surface_coefficient_alone() -> None:
    """Riverside, west: 45.7 windy, 50.1 sheltered and 53.0 degC calm, as still side yards are."""
    found = wind_band(0.45)
    assert np.ravel(found.coefficient).tolist() == [17.0, 12.0, 10.0]
    for part, value in ((found.absorptance, 0.45), (found.sky_loss, 63.0), (found.lag, 10800.0)):
        assert np.ravel(part).tolist() == [value] * 3
    west = run("riverside", found)[1][:, 3].max(axis=-1) - 273.15
    assert west == pytest.approx([45.7, 50.1, 53.0], abs=0.06)


@pytest.mark.parametrize("site", PLACES)
def test_the_band_of_wind_lies_within_that_of_all_that_is_not_known(site: str) -> None:
    inner = run(site, wind_band(0.45))[1].max(axis=-1)
    outer = run(site, finish_band(absorptances()["light_grey"]))[1].max(axis=-1)
    assert np.all(np.diff(inner, axis=0) > 0.0)
    assert np.all((inner >= outer[0]) & (inner <= outer[2]))


@pytest.mark.parametrize("site", PLACES)
def test_whatever_lies_within_the_band_peaks_within_it(site: str) -> None:
    """Forty draws of wind, sky, colour and lag between the ends."""
    draw = np.random.default_rng(4)
    band = finish_band(absorptances()["light_grey"])
    cool, _, hot = run(site, band)[1].max(axis=-1)
    for _ in range(40):
        between = Finish(*(draw.uniform(np.min(part), np.max(part)) for part in band))
        peak = run(site, between)[1].max(axis=-1)
        assert np.all(peak <= hot + 1e-9)
        assert np.all(peak >= cool - 1e-9)
