"""Names and numbers of the energy usage feed.

Source: the feed structure that is openly documented for ESPI 1.1 (NAESB REQ.21, an Atom feed whose
entries carry one resource each). Codes marked (m) are from memory, not verified.
"""

from __future__ import annotations

from typing import Final

ATOM: Final = "http://www.w3.org/2005/Atom"
ESPI: Final = "http://naesb.org/espi"

#: Unit of measure of a reading.
WATT_HOURS: Final = 72
WATTS: Final = 38
#: Direction of flow; (m) for all but delivered.
DELIVERED: Final = 1
NET: Final = 4
RECEIVED: Final = 19
#: Accumulation behaviour of a register that only grows (m): bulk, continuous, cumulative, sum.
CUMULATIVE: Final = (1, 2, 3, 9)
#: Kind of a service.
ELECTRICITY: Final = 0
#: Commodities of electricity (m); 0 is none stated.
ELECTRIC_COMMODITIES: Final = (0, 1, 2)
#: Words for the units that a feed may carry and that are no electric energy.
OTHER_UNITS: Final = {
    71: "VAh",
    73: "VArh",
    119: "cubic feet",
    132: "Btu",
    169: "therms",
}
#: Names of services by kind; (m) beyond the first two.
SERVICES: Final = {0: "electricity", 1: "gas", 2: "water"}
#: Powers of ten that a reading type may state.
MULTIPLIERS: Final = range(-12, 13)
