"""The shipped hours are those of the stations' files, whole, plausible and light in memory."""

import hashlib
import subprocess
import sys
from importlib.resources import files

import numpy as np
import pytest

from service.climate import climate_sites, typical_year
from service.published import load
from tests.climate.tables import table

ANNUAL = table("annual_irradiance")
SITES = tuple(climate_sites())
ZERO_CELSIUS = 273.15


def stored() -> np.ndarray[tuple[int, ...], np.dtype[np.int16]]:
    with files("service.climate").joinpath("typical_years.npy").open("rb") as file:
        return np.asarray(np.load(file, allow_pickle=False))


def test_the_array_holds_four_quantities_of_every_hour_of_every_site() -> None:
    years = stored()
    assert years.dtype == np.dtype("<i2")
    assert years.shape == (len(SITES), 4, 8760)
    assert len(SITES) == 81


def test_the_hours_of_every_site_have_the_digest_that_its_row_names() -> None:
    rows = load("climate_sites").rows
    for site, hours in zip(SITES, stored(), strict=True):
        assert hashlib.sha256(hours.tobytes()).hexdigest() == rows[site]["hours_sha256"], site


@pytest.mark.parametrize("site", SITES)
def test_the_annual_sums_are_those_of_the_stations_file(site: str) -> None:
    year = typical_year(site)
    assert year.ghi.sum() / 1e3 == pytest.approx(ANNUAL.number(site, "annual_ghi_kwh_m2"), abs=0.06)
    assert year.dni.sum() / 1e3 == pytest.approx(ANNUAL.number(site, "annual_dni_kwh_m2"), abs=0.06)


@pytest.mark.parametrize("site", SITES)
def test_every_hour_is_finite_and_within_what_the_earth_knows(site: str) -> None:
    year = typical_year(site)
    for irradiance in (year.ghi, year.dni, year.dhi):
        assert irradiance.shape == (8760,)
        assert irradiance.dtype == np.float64
        assert irradiance.min() >= 0.0
        assert irradiance.max() < 1400.0
    assert year.dry_bulb.min() > ZERO_CELSIUS - 45.0
    assert year.dry_bulb.max() < ZERO_CELSIUS + 55.0


@pytest.mark.parametrize("site", SITES)
def test_the_sun_stands_highest_about_local_noon_of_standard_time(site: str) -> None:
    """Irradiance over the mean day balances where the longitude puts solar noon, within 25 min."""
    place = climate_sites()[site]
    day = typical_year(site).ghi.reshape(365, 24).mean(axis=0)
    centre = float(day @ (np.arange(24) + 0.5) / day.sum())
    # Coasts with morning fog lean to the afternoon.
    noon = 12.0 - (place.longitude_deg / 15.0 - place.utc_offset_h)
    assert centre == pytest.approx(noon, abs=25.0 / 60.0)


def test_a_year_is_read_only_and_read_once() -> None:
    year = typical_year("fresno")
    assert typical_year("fresno") is year
    for array in (year.ghi, year.dni, year.dhi, year.dry_bulb):
        with pytest.raises(ValueError, match="read-only"):
            array[0] = 1.0


def test_an_unknown_site_is_refused_by_its_name() -> None:
    with pytest.raises(KeyError, match="atlantis"):
        typical_year("atlantis")


def test_every_corrected_hour_ships_as_the_table_of_corrections_says() -> None:
    corrections = load("typical_year_corrections")
    assert len(corrections.rows) == 95
    for key, row in corrections.rows.items():
        shipped = typical_year(row["site"]).dry_bulb[int(row["hour"])] - ZERO_CELSIUS
        assert shipped == pytest.approx(corrections.number(key, "as_shipped_c"), abs=0.051), key
        assert shipped != pytest.approx(corrections.number(key, "as_published_c"), abs=0.051), key


def test_the_notes_of_a_site_count_its_corrected_hours() -> None:
    corrected = [row["site"] for row in load("typical_year_corrections").rows.values()]
    for site in climate_sites().values():
        count = corrected.count(site.id)
        words = f"{count} dry-bulb hour{'s' if count > 1 else ''} corrected"
        assert (words in site.notes) == (count > 0), site.id
        assert ("corrected" in site.notes) == (count > 0), site.id


LOAD_ALL = """
import resource
from pathlib import Path
from service.climate import climate_sites, typical_year

def resident():
    return int(Path("/proc/self/statm").read_text().split()[1]) * resource.getpagesize()

sites = list(climate_sites())
before = resident()
held = [typical_year(site).dry_bulb.sum() for site in sites]
print(resident() - before, typical_year.cache_info().currsize)
"""


def test_all_sites_together_take_less_than_40_mib() -> None:
    program = [sys.executable, "-c", LOAD_ALL]
    out = subprocess.run(program, capture_output=True, text=True, check=True).stdout.split()
    grown, held = (int(word) for word in out)
    assert held == 81
    assert 8760 * 4 * 8 * 60 < grown < 40 * 2**20
