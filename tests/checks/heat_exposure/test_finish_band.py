"""Three readings of a unit's finish bracket what is not known of wind, sky, colour and lag."""

import numpy as np
import pytest

from service.checks.heat_exposure.exposure import Finish
from service.checks.heat_exposure.face_light import clear_sky_light
from service.checks.heat_exposure.finish_band import finish_band
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
