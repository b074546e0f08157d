"""Cover over cables and raceways in the ground."""

import pytest

from service.published.burial_cover import burial_locations
from service.published.loader import load
from service.published.source import Standing

# location | direct burial | rigid metal | nonmetallic | residential branch | low voltage [in].
# Source: Table 300.5(A), one public transcription.
PINNED = (
    ("other", 24, 6, 18, 12, 6),
    ("under_concrete_2in", 18, 6, 12, 6, 6),
    ("under_slab", 18, 4, 4, 6, 6),
    ("under_roads", 24, 24, 24, 24, 24),
    ("dwelling_driveway", 18, 18, 18, 12, 18),
)


@pytest.mark.parametrize("location, cable, metal, plastic, branch, low", PINNED)
def test_each_location_has_its_cover(
    location: str, cable: float, metal: float, plastic: float, branch: float, low: float
) -> None:
    found = burial_locations()[location]
    covers = (found.direct_burial, found.rigid_metal, found.nonmetallic)
    assert covers == pytest.approx([inches * 0.0254 for inches in (cable, metal, plastic)])
    assert found.residential_branch == pytest.approx(branch * 0.0254)
    assert found.low_voltage == pytest.approx(low * 0.0254)


def test_what_protects_better_lies_no_deeper() -> None:
    assert len(burial_locations()) == 7
    for found in burial_locations().values():
        assert found.rigid_metal <= found.nonmetallic <= found.direct_burial
        assert found.residential_branch <= found.direct_burial
        assert found.label


def test_conditions_stand_where_cover_hangs_on_more_than_the_place() -> None:
    conditional = [key for key, found in burial_locations().items() if found.condition]
    assert conditional == ["under_building", "under_slab"]
    assert load("burial_cover").cite("other", "nonmetallic").standing is Standing.SECONDARY
