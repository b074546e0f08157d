"""Single-phase motors: their tables of the code, planning ranges, and defaults by kind."""

from dataclasses import dataclass, fields
from functools import cache
from typing import Final, NamedTuple

from service.published.loader import load

#: Highest volts [V] that are read in each column. Standing: common practice: 110 to 127 V are read
#: as 115 V, 220 to 240 V as 230 V. No volts beyond the last are read.
_COLUMNS: Final = ((127.0, "a_115v"), (204.0, "a_200v"), (215.0, "a_208v"), (300.0, "a_230v"))


#: A nameplate's 0.167 hp is the row of 1/6 hp [1]. Standing: derived, our choice.
_SAME_ROW: Final = 0.003
#: First row of the locked-rotor amps [hp], and what all its rows are of the full-load amps [1].
_LEAST_LISTED_HP: Final = 0.5
_LOCKED_BY_FULL: Final = 6.0


@dataclass(frozen=True, slots=True)
class MotorKind:
    """Defaults of a kind of motor and of what it drives.

    Attributes
    ----------
    locked_rotor_power_factor, running_power_factor : float
        [1].
    locked_rotor_torque : float
        Parts of rated torque [1].
    kit_torque, kit_power_factor, kit_winding_out : float
        The same and the speed at which the start winding is out, with a start capacitor kit [1].
    rated_slip, efficiency, start_winding_out : float
        [1].
    poles : float
        Number of poles [1].
    inertia_s : float
        Inertia constant [s].
    breakaway, constant, square, pressure, pressure_unequalised : float
        Torques of the load, parts of rated torque [1].
    pressure_turns : float
        Turns in which the pressure builds up.
    lra_over_rla_low, lra_over_rla, lra_over_rla_high : float
        Locked-rotor by rated-load amps [1].
    soft_startable : float
        1 where a soft starter may be fitted.
    """

    locked_rotor_power_factor: float
    running_power_factor: float
    locked_rotor_torque: float
    kit_torque: float
    kit_power_factor: float
    kit_winding_out: float
    rated_slip: float
    poles: float
    inertia_s: float
    efficiency: float
    start_winding_out: float
    breakaway: float
    constant: float
    square: float
    pressure: float
    pressure_unequalised: float
    pressure_turns: float
    lra_over_rla_low: float
    lra_over_rla: float
    lra_over_rla_high: float
    soft_startable: float


class CompressorRange(NamedTuple):
    """Amps of a compressor by its tons [A]."""

    rla_low: float
    rla_high: float
    lra_low: float
    lra_high: float


@cache
def motor_kind(name: str) -> MotorKind:
    """Return the defaults of a kind. Source: table motor_kinds."""
    table = load("motor_kinds")
    return MotorKind(*(table.number(name, field.name) for field in fields(MotorKind)))


@cache
def motor_kind_ids() -> tuple[str, ...]:
    """Return the ids of the kinds, in the order of the table. Source: table motor_kinds."""
    return tuple(load("motor_kinds").rows)


@cache
def code_letter(letter: str) -> tuple[float, float]:
    """Return the band of a code letter [kVA/hp]. Source: table motor_code_letters."""
    table = load("motor_code_letters")
    return table.number(letter, "low"), table.number(letter, "high")


def row_for(table: str, column: str, least: float) -> str | None:
    """Return the first row whose column is no less, None beyond the table. Source: the table."""
    found = load(table)
    return next((k for k in found.rows if found.number(k, column) >= least * (1 - _SAME_ROW)), None)


def full_load_current(hp: float, volts: float) -> float | None:
    """Return the full-load amps of the motor, or of the next larger one [A].

    Parameters
    ----------
    hp : float
        Rated horsepower [hp].
    volts : float
        Rated volts [V].

    Returns
    -------
    float or None
        None beyond the table.

    Notes
    -----
    Source: table motor_full_load_currents.
    """
    return _amps("motor_full_load_currents", hp, volts)


def locked_rotor_current(hp: float, volts: float) -> float | None:
    """Return the locked-rotor amps of the motor or the next larger [A], an upper stand-in.

    Parameters
    ----------
    hp : float
        Rated horsepower [hp].
    volts : float
        Rated volts [V].

    Returns
    -------
    float or None
        None beyond the table.

    Notes
    -----
    Below its first row six times the full-load amps, which is what its rows at 115 and 230 V are.
    Source: tables motor_locked_rotor_currents and motor_full_load_currents.
    """
    if hp < _LEAST_LISTED_HP * (1 - _SAME_ROW):
        full = full_load_current(hp, volts)
        return None if full is None else _LOCKED_BY_FULL * full
    return _amps("motor_locked_rotor_currents", hp, volts)


def _amps(table: str, hp: float, volts: float) -> float | None:
    row = row_for(table, "hp", hp)
    column = next((name for most, name in _COLUMNS if volts <= most), None)
    if row is None or column is None:
        return None
    locked = table == "motor_locked_rotor_currents"
    return load(table).number(row, "a_208v" if locked and column == "a_200v" else column)


def compressor_range(tons: float) -> CompressorRange:
    """Return the planning range of a size [A].

    Notes
    -----
    Between two sizes the high ends are those of the larger, the low ends in proportion to the tons.
    Source: table compressor_ranges; the proportion derived.
    """
    table = load("compressor_ranges")
    row = row_for("compressor_ranges", "tons", tons) or list(table.rows)[-1]
    found = CompressorRange(*(table.number(row, name) for name in CompressorRange._fields))
    part = tons / table.number(row, "tons")
    return found._replace(rla_low=found.rla_low * part, lra_low=found.lra_low * part)


@cache
def conductor_impedance(size: str, material: str) -> complex:
    """Return the impedance of a conductor [ohm/kft]. Source: table conductor_impedance."""
    table = load("conductor_impedance")
    return complex(table.number(size, material), table.number(size, "x"))
