"""What the lists of conductors and raceways hold, out of the tables of the code."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from service.http.wiring_rows import ConductorRow, RacewayRow
from service.published import load
from service.published.conductor_resistance import NAME as IMPEDANCE
from service.published.conductor_resistance import ac_column, dc_row, reactance_column
from service.published.conductors import CIRCULAR_MIL, PROPERTIES, Material, ampacity_row, sizes
from service.published.conductors import NAME as AMPACITY
from service.published.insulated_conductors import NAME as INSULATED
from service.published.insulated_conductors import insulated_row
from service.published.raceway_places import raceway_places
from service.published.raceways import FILL, SIZES, Raceway, fill_row, raceway_row, raceways
from service.published.source import weakest

_MATERIALS: tuple[Material, ...] = ("copper", "aluminum")
#: Sizes named by this number and above are in kcmil.
_FIRST_KCMIL = 250


class _Cited(NamedTuple):
    standing: str
    sources: list[str]


def conductor_rows() -> list[ConductorRow]:
    """Return every size in copper, then every size in aluminum, rising."""
    return [
        _conductor(material, size)
        for material in _MATERIALS
        for size in sizes()
        if ampacity_row(material, size) in load(AMPACITY).rows
    ]


def raceway_rows() -> list[RacewayRow]:
    """Return every trade size of every kind of raceway, rising."""
    return [row for kind in raceways().values() for row in _trade_sizes(kind)]


def _conductor(material: Material, size: str) -> ConductorRow:
    amps, strand = ampacity_row(material, size), dc_row(size)
    thhn, xhhw = insulated_row("thhn", size), insulated_row("xhhw", size)
    mils = load(PROPERTIES).number(strand, "circular_mils")
    cited = _cited(
        (AMPACITY, amps),
        (PROPERTIES, strand),
        (IMPEDANCE, size),
        (INSULATED, thhn),
        (INSULATED, xhhw),
    )
    return ConductorRow(
        id=amps,
        material=material,
        size=size,
        unit="kcmil" if size.isdigit() and int(size) >= _FIRST_KCMIL else "AWG",
        area_cmil=mils,
        area_mm2=mils * CIRCULAR_MIL * 1e6,
        ampacity_60_a=load(AMPACITY).number(amps, "degc_60"),
        ampacity_75_a=load(AMPACITY).number(amps, "degc_75"),
        ampacity_90_a=load(AMPACITY).number(amps, "degc_90"),
        dc_ohm_per_kft=load(PROPERTIES).number(strand, material),
        ac_pvc_ohm_per_kft=_cell(IMPEDANCE, size, ac_column(material, "pvc")),
        ac_aluminum_ohm_per_kft=_cell(IMPEDANCE, size, ac_column(material, "aluminum")),
        ac_steel_ohm_per_kft=_cell(IMPEDANCE, size, ac_column(material, "steel")),
        reactance_ohm_per_kft=_cell(IMPEDANCE, size, reactance_column("pvc")),
        reactance_steel_ohm_per_kft=_cell(IMPEDANCE, size, reactance_column("steel")),
        diameter_thhn_in=_cell(INSULATED, thhn, "diameter"),
        diameter_xhhw_in=_cell(INSULATED, xhhw, "diameter"),
        room_thhn_in2=_cell(INSULATED, thhn, "area"),
        room_xhhw_in2=_cell(INSULATED, xhhw, "area"),
        standing=cited.standing,
        sources=cited.sources,
    )


def _trade_sizes(kind: Raceway) -> Iterator[RacewayRow]:
    fills = [fill_row(1), fill_row(2), fill_row(3), fill_row(1, nipple=True)]
    one, two, more, nipple = (load(FILL).number(row, "fraction") for row in fills)
    least = kind.trade_sizes.index(raceway_places()[kind.id].least_trade_size)
    for place, size in enumerate(kind.trade_sizes):
        row = raceway_row(kind.id, size)
        area = load(SIZES).number(row, "area")
        cited = _cited((SIZES, row), *((FILL, name) for name in fills))
        yield RacewayRow(
            id=row,
            way=kind.id,
            name=kind.label,
            trade_size=size,
            taken=place >= least,
            inside_diameter_in=load(SIZES).number(row, "inside_diameter"),
            inside_area_in2=area,
            one_in2=area * one,
            two_in2=area * two,
            more_in2=area * more,
            nipple_in2=area * nipple,
            standing=cited.standing,
            sources=cited.sources,
        )


def _cell(table: str, key: str, column: str) -> float | None:
    """Return a cell, None where the table has no such row or prints no number."""
    found = load(table)
    return found.number_or_none(key, column) if key in found.rows else None


def _cited(*rows: tuple[str, str]) -> _Cited:
    """Return the weakest standing and the ids of rows, without those that a table lacks."""
    sources = [load(table).cite(key) for table, key in rows if key in load(table).rows]
    standing = weakest(source.standing for source in sources)
    return _Cited(str(standing), [source.id for source in sources])
