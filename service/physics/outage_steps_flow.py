"""Powers on the bus and on the cells of a few lanes while nothing changes."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from service.physics.outage_power_limit import POWER_TOLERANCE, add_classes, apply_power_limit
from service.physics.outage_steps_home import Home

Floats = NDArray[np.float64]
Flags = NDArray[np.bool_]
Patterns = NDArray[np.intp]


@dataclass(slots=True)
class Lot:
    """A lot of M lanes with an event in the step.

    Attributes
    ----------
    load, source, dc : ndarray, shape (K, M), (M,), (M,)
        Powers of the step [W]; the sources may be absent.
    energy, left, now, fuel_used : ndarray, shape (M,)
        Stored energy [J], what is left of the step [s], time [s], fuel burnt.
    up, running : ndarray of bool, shape (M,)
        Whether there is a bus, and whether the generator forms it.
    pattern, kept : ndarray, shape (M,) and (K-1, M)
        Tiers that stored energy lets run, as a pattern and as 1 or 0.
    """

    home: Home
    load: Floats
    source: Floats | None
    dc: Floats | None
    energy: Floats
    left: Floats
    now: Floats
    fuel_used: Floats
    up: Flags
    running: Flags
    pattern: Patterns
    kept: Floats
    may_run: Flags


@dataclass(slots=True)
class Flow:
    """Powers of a lot [W].

    Attributes
    ----------
    wanted : ndarray, shape (K, M)
        What is served, by class.
    out, charge : ndarray, shape (M,)
        AC power out of the battery and into it.
    delivered : ndarray, shape (M,)
        What the generator gives.
    direct, stored : ndarray or None
        DC sun that the inverter draws at once, and what it adds to the cells.
    draw : ndarray, shape (M,)
        Fall of the stored energy.
    limited, held : ndarray of bool, shape (M,)
        Whether the load asks for more than the inverter carries; whether the battery stands full.
    dropped : ndarray of bool, shape (K-1, M), or None
        Tiers that the power limit drops whole.
    """

    wanted: Floats
    total: Floats
    out: Floats
    charge: Floats
    delivered: Floats | None
    direct: Floats | None
    stored: Floats | None
    draw: Floats
    limited: Flags
    held: Flags
    dropped: Flags | None


def _ac_supply(lot: Lot, has_generator: bool) -> Floats | None:
    """Power of what feeds the bus [W]; the generator holds the source off."""
    if not has_generator:
        return lot.source
    return np.where(lot.running, lot.home.power, 0.0 if lot.source is None else lot.source)


def flow(lot: Lot, has_generator: bool) -> Flow:
    """Powers under the step rule [W].

    Notes
    -----
    Source: derived, the balances of the AC bus and of the cells. The AC side charges before the
    DC-coupled sun fills what is left of the charge limit; a full battery refuses DC sun first
    (both common practice, no published source).
    """
    home = lot.home
    wanted = lot.load * lot.up
    wanted[1:] *= lot.kept
    total = np.empty_like(lot.energy)
    add_classes(wanted, total)
    supply = _ac_supply(lot, has_generator)
    net = total.copy() if supply is None else total - supply
    limited = lot.up & (net > home.discharge_limit + POWER_TOLERANCE)
    dropped = None
    if np.count_nonzero(limited):
        dropped = apply_power_limit(
            limited, home.sheds_tiers != 0.0, wanted, total, net, supply, home.discharge_limit
        )
    out = np.maximum(net, 0.0)
    if supply is None:
        charge = np.zeros_like(net)
    else:
        limit = home.charge_limit
        if has_generator:
            limit = np.where(lot.running, home.charge_limit_run, limit)
        charge = np.minimum(out - net, limit) * lot.up
    draw = (home.square * out + home.linear) * out + home.fixed * lot.up
    draw -= home.charge_efficiency * charge
    direct = stored = None
    if lot.dc is not None:
        draw, direct, stored = _add_dc(lot, draw)
    held = (lot.energy >= home.capacity) & (draw < 0.0)
    if np.count_nonzero(held):
        _hold(home, held, draw, charge, stored)
    delivered = None
    if has_generator:
        delivered = np.where(lot.running, total - out + charge, 0.0)
    return Flow(wanted, total, out, charge, delivered, direct, stored, draw, limited, held, dropped)


def _add_dc(lot: Lot, draw: Floats) -> tuple[Floats, Floats, Floats]:
    """Draw on the cells, DC sun used at once, and stored; nothing where it has nowhere to go."""
    assert lot.dc is not None
    home = lot.home
    takes = lot.up | (home.mode == 2.0)
    dc = np.where(takes, lot.dc, 0.0)
    need = np.maximum(draw, 0.0)
    gain = need - draw
    direct = np.minimum(dc, need)
    room = np.maximum(home.charge_limit - gain, 0.0)
    stored = np.minimum(home.dc_efficiency * (dc - direct), room)
    return draw - direct - stored, direct, stored


def _hold(home: Home, held: Flags, draw: Floats, charge: Floats, stored: Floats | None) -> None:
    """A full battery takes what covers its own draw and no more; in place."""
    excess = np.where(held, -draw, 0.0)
    if stored is not None:
        refused = np.minimum(excess, stored)
        stored -= refused
        excess -= refused
    charge -= np.minimum(excess / home.charge_efficiency, charge)
    draw[held] = 0.0


def covers(lot: Lot, supply: Floats, charge_limit: Floats) -> Flags:
    """Whether a supply [W] carries the critical load, the tiers still on and the fixed draw.

    Notes
    -----
    Source: derived; the bus holds once the charge covers the draw at no load.
    """
    asked = lot.load * np.ones_like(lot.energy)
    asked[1:] *= lot.kept
    total = np.empty_like(lot.energy)
    add_classes(asked, total)
    surplus = np.minimum(-(total - supply), charge_limit)
    return np.asarray(lot.home.fixed - lot.home.charge_efficiency * surplus <= 0.0)
