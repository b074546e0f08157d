"""Where raceways may lie."""

import pytest

from service.published.loader import load
from service.published.raceway_places import raceway_places
from service.published.raceways import raceways
from service.published.source import Standing

# raceway | buried | outdoors | hottest [degC]. Source: NEC 348.12, 350.10, 352.12(D), 356.10,
# 358.10, 362.12, from memory, not verified.
PINNED = (
    ("emt", "conditional", "yes", None),
    ("imc", "yes", "yes", None),
    ("rmc", "yes", "yes", None),
    ("fmc", "no", "no", None),
    ("lfmc", "conditional", "yes", None),
    ("pvc40", "yes", "yes", 50.0),
    ("pvc80", "yes", "yes", 50.0),
    ("lfnc_a", "conditional", "yes", None),
    ("lfnc_b", "conditional", "yes", None),
    ("ent", "no", "conditional", 50.0),
)


@pytest.mark.parametrize("name, buried, outdoors, hottest", PINNED)
def test_each_raceway_has_its_places(
    name: str, buried: str, outdoors: str, hottest: float | None
) -> None:
    found = raceway_places()[name]
    assert (found.buried, found.outdoors, found.hottest) == (buried, outdoors, hottest)
    assert ("conditional" in (buried, outdoors)) == bool(found.condition)
    assert load("raceway_places").cite(name).standing is Standing.FROM_MEMORY


def test_every_raceway_has_places_and_its_least_trade_size() -> None:
    assert list(raceway_places()) == list(raceways()) == [row[0] for row in PINNED]
    for key, found in raceway_places().items():
        assert found.least_trade_size in raceways()[key].trade_sizes
