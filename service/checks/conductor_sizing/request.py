"""What the conductor-sizing check takes."""

from __future__ import annotations

from typing import Annotated, Literal

from msgspec import Meta, Struct
from msgspec.structs import replace

from service.check import FieldError
from service.checks.conductor_sizing.circuit_kinds import KINDS
from service.facts import (
    ClimateSiteId,
    ConfirmedRules,
    ControlCable,
    PermitDate,
    Reference,
    Run,
    RunSegment,
    SegmentsRun,
    StateCode,
    Terminal,
    run_refusals,
)
from service.published.conductors import index_of
from service.quantities.comparison import reaches
from service.quantities.fields import choice, number, quantity

CircuitKind = Literal[
    "storage_output",
    "inverter_output",
    "pv_output",
    "pv_source",
    "generator_input",
    "backup_feeder",
    "building_feeder",
    "motor_branch",
    "control_cable",
]
Edition = Literal["nec-2020", "nec-2023", "nec-2026"]


class Circuit(Struct, forbid_unknown_fields=True, kw_only=True):
    """What the conductors serve: its amps, its breaker, its terminals."""

    kind: Annotated[CircuitKind, choice("What it is.", example="storage_output")]
    amps: (
        Annotated[
            float,
            quantity(
                "A",
                "Continuous amps of the nameplate; of a motor its full-load amps, of a string of "
                "photovoltaic modules its short-circuit amps.",
                ge=0.1,
                le=2000,
                example=48.0,
            ),
        ]
        | None
    ) = None
    kw: (
        Annotated[
            float,
            quantity(
                "kW",
                "Power, where the nameplate's amps are not at hand: second best.",
                ge=0.01,
                le=500,
                example=11.5,
            ),
        ]
        | None
    ) = None
    continuous: Annotated[
        bool,
        Meta(
            description="Whether they flow for three hours or more; the output of a source counts "
            "so whatever is said.",
            examples=[True],
        ),
    ] = True
    other_a: Annotated[
        float,
        quantity("A", "Amps beside that flow for less than 3 hours.", ge=0, le=2000, example=0.0),
    ] = 0.0
    strings: Annotated[
        int,
        Meta(ge=1, le=50, description="Photovoltaic strings in parallel.", examples=[1]),
    ] = 1
    volts: Annotated[
        float, quantity("V", "Between its two conductors.", ge=12, le=1000, example=240.0)
    ] = 240.0
    power_factor: Annotated[float, number("Lagging.", ge=0.1, le=1, example=1.0)] = 1.0
    breaker_a: (
        Annotated[
            float,
            quantity("A", "Breaker that is there already.", ge=10, le=4000, example=60.0),
        ]
        | None
    ) = None
    most_breaker_a: (
        Annotated[
            float,
            quantity("A", "Largest breaker that the nameplate allows.", ge=10, le=4000, example=60),
        ]
        | None
    ) = None
    near: Annotated[
        Terminal,
        Meta(description="The terminal at the battery or source.", examples=[{"marked": 75}]),
    ] = Terminal()
    far: Annotated[
        Terminal,
        Meta(description="The terminal at the panel or load.", examples=[{"marked": 75}]),
    ] = Terminal()
    neutral: Annotated[
        Literal["none", "sensing", "unbalance", "unbalance_and_source"] | None,
        choice(
            "What a neutral is pulled for; absent: the unbalance of 120 V loads where it is a "
            "feeder, a battery, an inverter or a generator of 200 V or more, none otherwise.",
            example="unbalance",
        ),
    ] = None
    unbalance_a: (
        Annotated[
            float,
            quantity(
                "A",
                "Most amps of the neutral; absent: those of the circuit.",
                ge=0,
                le=2000,
                example=24.0,
            ),
        ]
        | None
    ) = None
    control: Annotated[
        ControlCable | None,
        Meta(
            description="Of a control cable: its longest lead and how it is kept apart.",
            examples=[{"most_length": 300, "circuit_class": "class_2", "beside_power": False}],
        ),
    ] = None
    sets: Annotated[
        int,
        Meta(
            ge=1,
            le=8,
            description="Equal sets in parallel, each in a raceway of its own.",
            examples=[1],
        ),
    ] = 1


class ConductorSizingRequest(Struct, forbid_unknown_fields=True, kw_only=True):
    """A circuit and its run, to learn what wire and conduit it takes."""

    reference: Reference | None = None
    circuit: Annotated[
        Circuit,
        Meta(
            description="The circuit.",
            examples=[{"kind": "storage_output", "amps": 48, "most_breaker_a": 60}],
        ),
    ]
    run: Annotated[
        Run,
        Meta(
            description="The run of the conductors.",
            examples=[{"kind": "distance", "length": 150}],
        ),
    ]
    climate_site: Annotated[
        ClimateSiteId | None,
        choice(
            "Climate site whose hottest month stands for the air outdoors where a segment states "
            "none; ids in /v1/reference/climate-sites.",
            example="palm_springs",
        ),
    ] = None
    insulation: Annotated[
        Literal["thwn_2", "xhhw_2", "thwn", "thhn", "xhhw"],
        choice("Insulation of the conductors in raceways.", example="thwn_2"),
    ] = "thwn_2"
    drop_target_percent: (
        Annotated[
            float,
            quantity(
                "%",
                "Most drop or rise along the whole path; absent: 2 for a source, 3 for a load.",
                ge=0.1,
                le=20,
                example=2.0,
            ),
        ]
        | None
    ) = None
    path_drop_percent: Annotated[
        float,
        quantity("%", "Part of it that other parts of the path take.", ge=0, le=20, example=0.0),
    ] = 0.0
    full_load_hours: (
        Annotated[
            float,
            number(
                "Hours of full load a year, for the losses; absent: 1,000.",
                ge=0,
                le=8760,
                example=1000.0,
                unit="h",
            ),
        ]
        | None
    ) = None
    edition: Annotated[
        Edition | None,
        choice(
            "Edition of the electrical code; absent: by state and date. Of nec-2026 nothing is "
            "known yet: nec-2023 is read, and nothing is settled.",
            example="nec-2023",
        ),
    ] = None
    state: StateCode | None = None
    permit_date: PermitDate | None = None
    confirmed_rules: ConfirmedRules = []


def _most_unbalance(circuit: Circuit) -> float:
    """Return the amps of the circuit, which no unbalance exceeds [A]."""
    amps = circuit.amps
    if amps is None:
        amps = 1000.0 * (circuit.kw or 0.0) / (circuit.volts * circuit.power_factor)
    return amps + circuit.other_a


def _of_the_circuit(circuit: Circuit) -> list[tuple[str, str]]:
    """Return what a circuit states that contradicts its kind, or leaves out."""
    found = []
    if (circuit.amps is None) == (circuit.kw is None):
        words = "State the amps of the nameplate, or the kW where they are not at hand."
        found.append(("/circuit/amps", words))
    if circuit.kind != "pv_source" and circuit.strings > 1:
        found.append(
            ("/circuit/strings", "Leave it away: only a solar source circuit has strings.")
        )
    if circuit.kind == "pv_source" and circuit.other_a > 0:
        words = "Leave it away: a solar source circuit carries its strings alone."
        found.append(("/circuit/other_a", words))
    if circuit.kind != "control_cable" and circuit.control is not None:
        found.append(("/circuit/control", "Leave it away, or say that it is a control cable."))
    if circuit.kind == "pv_source" and circuit.amps is None:
        found.append(("/circuit/amps", "State the short-circuit amps of a string."))
    if circuit.unbalance_a is not None and not reaches(
        _most_unbalance(circuit), circuit.unbalance_a, "current"
    ):
        words = "The unbalance is no more than the amps of the circuit: correct one of both."
        found.append(("/circuit/unbalance_a", words))
    return found


def with_lugs(
    request: ConductorSizingRequest, ends: list[str], size: str
) -> ConductorSizingRequest:
    """Return the request whose terminals take no conductor above a size."""
    circuit = request.circuit
    told = {name: replace(getattr(circuit, name), largest=size) for name in ends}
    return replace(request, circuit=replace(circuit, **told))


def _segments(run: Run) -> list[RunSegment]:
    return run.segments if isinstance(run, SegmentsRun) else []


def refusals(request: ConductorSizingRequest) -> list[FieldError]:
    """Return every rule between fields that the request breaks."""
    circuit = request.circuit
    found = [*_of_the_circuit(circuit), *run_refusals(_segments(request.run), "/run/segments")]
    breaker, most = circuit.breaker_a, circuit.most_breaker_a
    if breaker is not None and most is not None and breaker > most:
        words = "A breaker is no larger than the nameplate allows: correct one of both."
        found.append(("/circuit/breaker_a", words))
    for name in ("near", "far"):
        end: Terminal = getattr(circuit, name)
        if end.smallest and end.largest and index_of(end.smallest) > index_of(end.largest):
            words = "The largest conductor is no smaller than the smallest: exchange them."
            found.append((f"/circuit/{name}/largest", words))
    target = request.drop_target_percent
    if target is None:
        target = 100.0 * KINDS[circuit.kind].target
    if request.path_drop_percent >= target:
        words = "The other parts of the path leave nothing of the target: raise it."
        found.append(("/path_drop_percent", words))
    return [FieldError(*row) for row in found]
