"""The amps of a motor from what is known of it, best evidence first."""

from __future__ import annotations

from functools import lru_cache
from typing import Literal, NamedTuple

from service.facts import Motor, MotorWire
from service.published import Source, load
from service.published.motors import (
    code_letter,
    compressor_range,
    full_load_current,
    locked_rotor_current,
    motor_kind,
    row_for,
)

#: Wire where none is stated. Standing: derived, our choice.
USUAL_WIRE = MotorWire(length=50.0, size="10")
Basis = Literal["nameplate", "code_letter", "rated_load_amps", "horsepower", "tons", "breaker"]
#: Locked-rotor amps against a nameplate's, at both ends. Standing: derived, our choice.
_NAMEPLATE = (0.90, 1.0, 1.10)
#: The same against table 430.251(A), an upper stand-in made for choosing disconnects.
_TABLE = (0.75, 1.0, 1.10)
#: Rated-load amps against table 430.248, an upper stand-in for choosing conductors.
#: Standing: derived, our choice.
_FULL_LOAD = (0.75, 1.0, 1.10)
#: Amps of a compressor's breaker by its rated-load amps: at most, usually, and at least. Standing:
#: from memory, not verified: NEC 440.22(A), 225 % at most and 175 % to begin with; 440.32, wire of
#: 125 %.
_BREAKER = (2.25, 1.75, 1.25)
#: Rated volts of single-phase motors on 240 V and on 120 V. Source: NEC, table 430.248.
RATED_VOLTS = {True: 230.0, False: 115.0}


class MotorEvidence(NamedTuple):
    """Amps of a motor at its rated volts.

    Attributes
    ----------
    volts : float
        Rated [V].
    low, nominal, high : float
        Locked-rotor amps [A].
    rated, rated_low, rated_high : float
        Rated-load amps, and their ends [A].
    basis : str
        Best evidence of the locked-rotor amps.
    sources : tuple of Source
        Cells that entered.
    """

    volts: float
    low: float
    nominal: float
    high: float
    rated: float
    rated_low: float
    rated_high: float
    basis: Basis
    sources: tuple[Source, ...]

    @property
    def guessed(self) -> bool:
        """Return whether nothing better than the tons, or a breaker, is behind it."""
        return self.basis in ("tons", "breaker")


def rated_volts(motor: Motor) -> float:
    """Return the volts of the nameplate, or the usual ones of its circuit [V].

    Notes
    -----
    Source: NEC, table 430.248, headings.
    """
    return motor.volts or RATED_VOLTS[motor.circuit == "both_legs"]


@lru_cache(maxsize=512)
def motor_evidence(motor: Motor) -> MotorEvidence | None:
    """Return the amps of a motor, None where nothing is known that gives any.

    Notes
    -----
    ``LRA = kVA/hp x hp x 1000 / V`` for one phase.
    Source: tables motor_code_letters, motor_locked_rotor_currents, motor_full_load_currents,
    compressor_ranges, motor_kinds.
    """
    kind = motor_kind(motor.kind)
    volts = rated_volts(motor)
    hp = motor.horsepower
    size = compressor_range(motor.tons) if motor.tons is not None else None
    sources: list[Source] = []
    rated = _rated(motor, volts, sources)
    ratios = (kind.lra_over_rla_low, kind.lra_over_rla, kind.lra_over_rla_high)
    table = locked_rotor_current(hp, volts) if hp is not None else None
    basis: Basis
    ends: tuple[float, ...]
    if motor.locked_rotor_a is not None:
        basis, ends = "nameplate", _times(motor.locked_rotor_a, _NAMEPLATE)
    elif motor.code_letter is not None and hp is not None:
        low, high = (kva * hp * 1000 / volts for kva in code_letter(motor.code_letter))
        basis, ends = "code_letter", (low, (low + high) / 2, high)
        sources.append(load("motor_code_letters").cite(motor.code_letter))
    elif motor.rated_load_a is not None:
        basis, ends = "rated_load_amps", _times(motor.rated_load_a, ratios)
    elif table is not None and hp is not None:
        basis, ends = "horsepower", _times(table, _TABLE)
        sources.append(_cited("motor_locked_rotor_currents", "hp", hp))
    elif size is not None:
        basis, ends = "tons", (size.lra_low, size.lra_high, size.lra_high)
        sources.append(_cited("compressor_ranges", "tons", motor.tons or 0.0))
    elif motor.breaker_a is not None and motor.kind.startswith("compressor"):
        rated_by = tuple(motor.breaker_a / part for part in _BREAKER)
        basis, ends = "breaker", tuple(a * r for a, r in zip(rated_by, ratios, strict=True))
        rated = rated or rated_by
    else:
        return None
    if rated is None:
        # What starts with so many amps runs on fewer the more it takes to start.
        rated = tuple(ends[1] / ratio for ratio in reversed(ratios))
    # Power factors, slip and torques are always those of the kind.
    sources.append(load("motor_kinds").cite(motor.kind))
    sources.append(load("conductor_impedance").cite((motor.wire or USUAL_WIRE).size))
    low, nominal, high = ends
    rated_low, usual, rated_high = rated
    return MotorEvidence(
        volts, low, nominal, high, usual, rated_low, rated_high, basis, tuple(sources)
    )


def _rated(motor: Motor, volts: float, sources: list[Source]) -> tuple[float, ...] | None:
    """Return low, usual and high rated-load amps [A], None where only the start tells of them."""
    if motor.rated_load_a is not None:
        return (motor.rated_load_a,) * 3
    hp = motor.horsepower
    if hp is not None and (amps := full_load_current(hp, volts)) is not None:
        sources.append(_cited("motor_full_load_currents", "hp", hp))
        return _times(amps, _FULL_LOAD)
    if motor.tons is not None and (size := compressor_range(motor.tons)) is not None:
        sources.append(_cited("compressor_ranges", "tons", motor.tons))
        return (size.rla_low, size.rla_high, size.rla_high)
    return None


def _times(amps: float, factors: tuple[float, float, float]) -> tuple[float, float, float]:
    low, nominal, high = (amps * factor for factor in factors)
    return low, nominal, high


def _cited(table: str, column: str, least: float) -> Source:
    """Return the row that is read: the next larger, or the last."""
    found = load(table)
    return found.cite(row_for(table, column, least) or list(found.rows)[-1])
