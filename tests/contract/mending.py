"""Bodies inside the contract, mended where they break a rule that JSON Schema cannot say.

The rules are the short list in `tests.contract.hooks`; each is one function here.
"""

from __future__ import annotations

import math
import zlib
from collections.abc import Callable, Mapping
from typing import Any

import numpy as np

from service.physics.sun_position import sun_position
from service.quantities.units import from_text
from tests.contract.mending_walls import WALL_RULES
from tests.load_profile.exports import MIDWINTER, export
from tests.load_profile.feeds import plain_feed, steps

Json = Mapping[str, Any]


def mend(document: Json, schema: Json, value: Any) -> Any:
    """Return `value`, which fits `schema`, changed as little as the rules between fields need."""
    schema = _resolved(document, schema)
    for union in ("oneOf", "anyOf"):
        if union in schema:
            return mend(document, _branch(document, schema[union], value), value)
    if isinstance(value, str) and "x-unit" in schema:
        return _text_within(schema, value)
    if isinstance(value, list) and "items" in schema:
        return _with_own_ids([mend(document, schema["items"], item) for item in value])
    if isinstance(value, dict) and "properties" in schema:
        mended = {
            name: mend(document, schema["properties"].get(name, {}), item)
            for name, item in value.items()
        }
        for rule in _BETWEEN_FIELDS:
            rule(schema["properties"], mended)
        return mended
    return value


def _resolved(document: Json, schema: Json) -> Json:
    found: Any = schema
    if "$ref" in schema:
        found = document
        for part in schema["$ref"].removeprefix("#/").split("/"):
            found = found[part]
        return _resolved(document, found)
    return schema


_TYPES: Mapping[type, tuple[str, ...]] = {
    bool: ("boolean",),
    int: ("integer", "number"),
    float: ("number", "integer"),
    str: ("string",),
    list: ("array",),
    dict: ("object",),
    type(None): ("null",),
}


def _branch(document: Json, branches: list[Json], value: Any) -> Json:
    """Return the branch that the value is of: by its JSON type, and by its tag among objects."""
    for branch in branches:
        found = _resolved(document, branch)
        if "oneOf" in found:
            found = _branch(document, found["oneOf"], value)
        kinds = found.get("type", ())
        listed = [kinds] if isinstance(kinds, str) else kinds
        if not set(_TYPES.get(type(value), ())) & set(listed):
            continue
        if not isinstance(value, dict) or _tags_fit(found, value):
            return found
    return {}


def _tags_fit(schema: Json, value: Mapping[str, Any]) -> bool:
    tags = {n: f["const"] for n, f in schema.get("properties", {}).items() if "const" in f}
    return all(value.get(name) == tag for name, tag in tags.items())


def _text_within(schema: Json, text: str) -> str:
    """Return the text, or the nearest bound of the field as a text."""
    number = from_text(text, schema["x-unit"])
    low = schema.get("minimum", schema.get("exclusiveMinimum"))
    inside = min(max(number, low), schema["maximum"])
    if inside == low and "exclusiveMinimum" in schema:
        inside = schema["maximum"]
    if inside == number:
        return text
    return f"{inside} {schema['x-unit']}"


def _number(fields: Json, name: str, value: Any) -> float:
    return from_text(value, fields[name]["x-unit"]) if isinstance(value, str) else float(value)


def _in_order(fields: Json, value: dict[str, Any], names: tuple[str, ...]) -> None:
    """Sort the values that stand under the names, whatever form each of them has."""
    present = [name for name in names if value.get(name) is not None]
    ordered = sorted((value[name] for name in present), key=lambda v: _number(fields, names[0], v))
    value.update(zip(present, ordered, strict=True))


def _range_in_order(fields: Json, value: dict[str, Any]) -> None:
    if value.get("as") == "range":
        _in_order(fields, value, ("low", "likely", "high"))


def _watts_in_order(fields: Json, value: dict[str, Any]) -> None:
    if "watts_low" in fields and "watts_high" in fields:
        _in_order(fields, value, ("watts_low", "watts", "watts_high"))


def _hours_within_windows(fields: Json, value: dict[str, Any]) -> None:
    """Shorten the hours of use to the longest window, which the windows together never undercut."""
    if "windows" not in fields or not value.get("windows"):
        return
    hours = value.get("hours_per_day", fields["hours_per_day"].get("default"))
    if hours is None:
        return
    open_hours = max(_length(window) for window in value["windows"])
    value["hours_per_day"] = min(_number(fields, "hours_per_day", hours), open_hours)


def _with_own_ids(items: list[Any]) -> list[Any]:
    """Give an id of its own to every object of a list that has one another object has."""
    seen: set[str] = set()
    for index, item in enumerate(items):
        if isinstance(item, dict) and isinstance(item.get("id"), str):
            while item["id"] in seen:
                # The shortest longest id of the contract.
                item["id"] = f"{index}-{item['id']}"[:40]
            seen.add(item["id"])
    return items


def _length(window: Mapping[str, float]) -> float:
    length = window["end_hour"] - window["start_hour"]
    return length if length > 0 else length + 24


def _readable_document(fields: Json, value: dict[str, Any]) -> None:
    """Put a document that can be read in the place of any text."""
    if "document" in fields and isinstance(value.get("document"), str):
        value["document"] = readable(value["document"])


def readable(made: str) -> str:
    """Return an export of the meter data of an invented home, another one for another text."""
    seed = sum(made.encode("utf-8", "surrogatepass"))
    if seed % 2:
        return plain_feed(steps(2 + seed % 60, length=(900, 1800, 3600)[seed % 3]))
    return export(MIDWINTER, 2 + seed % 60, minutes=(15, 30, 60)[seed % 3])


#: Values of a year of hours, and the longest list of a year that the contract takes.
_YEAR, _LONGEST_YEAR = 8760, 35_040


def _whole_years(fields: Json, value: dict[str, Any]) -> None:
    """Repeat the values of a list that stands for a year until it is one of hours."""
    for name, made in value.items():
        most = _longest(fields.get(name, {}))
        if isinstance(made, list) and most in (_YEAR, _LONGEST_YEAR):
            some = made or [1.0]
            value[name] = (some * (_YEAR // len(some) + 1))[:_YEAR]


def _longest(schema: Json) -> int | None:
    """Return the longest list that a field takes, whichever branch says it."""
    branches = [schema, *schema.get("oneOf", ()), *schema.get("anyOf", ())]
    return next((branch["maxItems"] for branch in branches if "maxItems" in branch), None)


def _generator_in_order(fields: Json, value: dict[str, Any]) -> None:
    """Leave one of two charges, or of two fuel uses, that contradict each other to its default."""
    if "stop_percent" in fields and value.get("start_percent") is not None:
        value["stop_percent"] = None
    for name in ("half_load_gal_per_hour", "half_load_ft3_per_hour"):
        if name in fields:
            value[name] = None


def _offset_by_the_sun(fields: Json, value: dict[str, Any]) -> None:
    """Keep the standard time of an own year near the time of the sun."""
    if "utc_offset_hours" in fields and isinstance(value.get("longitude"), int | float):
        value["utc_offset_hours"] = round(value["longitude"] / 15.0)


def _light_by_the_sun(fields: Json, value: dict[str, Any]) -> None:
    """Give an own year the light of its place's sun: 800 W/m2 overhead, none at night."""
    if "ghi_w_m2" not in fields or not isinstance(value.get("ghi_w_m2"), list):
        return
    at = (math.radians(value["latitude"]), math.radians(value["longitude"]))
    hour = np.arange(_YEAR) + 0.5
    zenith, *_ = sun_position(hour, *at, 3600.0 * value["utc_offset_hours"])
    value["ghi_w_m2"] = (800.0 * np.maximum(np.cos(zenith), 0.0)).round(1).tolist()


def _inverter_agrees(fields: Json, value: dict[str, Any]) -> None:
    """State one continuous rating, and let surge ratings fall with time down to it."""
    if "surge" not in fields:
        return
    value["leg_a"] = value["battery_surge_kw"] = None
    if isinstance(value.get("derating"), dict):
        value["derating"]["percent_per_kelvin"] = 0.5
    if value.get("continuous_a") is not None:
        value["continuous_kw"] = None
        least = _number(fields, "continuous_a", value["continuous_a"])
    else:
        kilowatts = min(_number(fields, "continuous_kw", value.get("continuous_kw") or 6.0), 100.0)
        value["continuous_kw"] = kilowatts
        least = kilowatts * 1000 / (value.get("volts") or 240)
    count = len(value.get("surge") or [])
    for index, rating in enumerate(value.get("surge") or []):
        amps = max(least * (1 + 0.2 * (count - index)), 0.5)
        rating |= {"seconds": 0.1 * 10**index, "amps": amps, "kva": None}


def _motor_agrees(fields: Json, value: dict[str, Any]) -> None:
    """Let the facts of a motor agree with each other."""
    if "locked_rotor_a" not in fields:
        return
    locked, rated = (value.get(name) for name in ("locked_rotor_a", "rated_load_a"))
    if locked is not None and rated is not None:
        most = _number(fields, "locked_rotor_a", locked) / 2
        value["rated_load_a"] = min(_number(fields, "rated_load_a", rated), most)
    if value.get("horsepower") is None:
        value["code_letter"] = None
    if not str(value.get("kind")).startswith("compressor"):
        value["soft_starter"] = None
    if value.get("volts") is not None:
        both = _number(fields, "volts", value["volts"]) >= 180
        value["circuit"] = "both_legs" if both else "leg_1"
    wire = value.get("wire")
    if isinstance(wire, dict) and wire.get("size") == "14":
        wire["size"] = "12"


def _source_agrees(fields: Json, value: dict[str, Any]) -> None:
    """State an inverter or a generator, of like volts, and put motors on one leg of 120 V."""
    if not {"inverter", "generator", "motors"} <= set(fields):
        return
    generator = value.get("generator")
    if value.get("inverter") is None and generator is None:
        value["inverter"] = {"continuous_a": 25.0}
    planned: Json = value.get("inverter") or generator or {}
    if generator is not None:
        generator |= {"rated_kva": None, "volts": planned.get("volts", 240)}
    if value.get("inverter") is None:
        value["heat_derating"] = None
    for motor in value["motors"] if planned.get("volts") == 120 else ():
        if motor.get("circuit", "both_legs") == "both_legs":
            motor |= {"circuit": "one_leg", "volts": None}


#: Sizes that a terminal takes, rising.
_LUGS = ("14", "750")


def _circuit_agrees(fields: Json, value: dict[str, Any]) -> None:
    """State amps or kW, no breaker above the nameplate's, and terminals that take every size."""
    if {"most_breaker_a", "strings"} <= set(fields):
        if value.get("amps") is not None or value.get("kind") == "pv_source":
            value |= {"kw": None, "amps": value.get("amps") or 10.0}
        else:
            value["kw"] = value.get("kw") or 7.6
        value["breaker_a"] = value["unbalance_a"] = None
        value["strings"] = value.get("strings", 1) if value.get("kind") == "pv_source" else 1
        value["other_a"] = 0
        if value.get("kind") != "control_cable":
            value["control"] = None
    if {"roof_height", "cover", "under"} <= set(fields):
        value["roof_height"] = value["cover"] = None
        value["under"] = "other"
    if {"smallest", "largest", "marked"} <= set(fields):
        value["smallest"], value["largest"] = _LUGS
    if "path_drop_percent" in fields:
        value["path_drop_percent"] = 0


def _limits_agree(fields: Json, value: dict[str, Any]) -> None:
    """Put operating limits and the points of a derating curve in order, which falls to nothing."""
    if "speak_of" in fields:
        _in_order(fields, value, ("lowest", "highest"))
    if isinstance(value.get("derating"), list):
        for index, point in enumerate(value["derating"]):
            point["temperature"] = 90.0 + 2.0 * index
            if index > 1:
                point["percent"] = 0.0


def _heat_in_order(fields: Json, value: dict[str, Any]) -> None:
    """Put what heat leaves in order, the worst first."""
    if "power_percent_worst" in fields:
        ends = ("power_percent_worst", "power_percent_low", "power_percent_high")
        _in_order(fields, value, ends)


def _walls_agree(fields: Json, value: dict[str, Any]) -> None:
    """Let eaves, walls and fences stand clear of the unit, whose height above ground is stated."""
    if "full_shade" in fields:
        if value.get("height") is not None:
            value["height"] = 400.0
        if value.get("eave") is not None:
            value["eave"]["height"] = 300.0
        for screen in value.get("screens") or []:
            screen["distance"] = 100.0
    if "walls" in fields and "vehicle_opening" not in fields:
        # A wall that may face anywhere is as much work as sixteen.
        for wall in value["walls"][2:]:
            wall["facing"] = wall.get("facing") or 90.0
    if "through_percent" in fields:
        value["through_percent"] = value["through_percent"][:1]
    if {"standoff", "bottom", "absorptance"} <= set(fields):
        value["bottom"] = 12.0


_BETWEEN_FIELDS: tuple[Callable[[Json, dict[str, Any]], None], ...] = (
    _range_in_order,
    _watts_in_order,
    _hours_within_windows,
    _readable_document,
    _whole_years,
    _generator_in_order,
    _offset_by_the_sun,
    _light_by_the_sun,
    _inverter_agrees,
    _motor_agrees,
    _source_agrees,
    _circuit_agrees,
    _limits_agree,
    _heat_in_order,
    _walls_agree,
    *WALL_RULES,
)


#: Of how many bodies whose outage is a matter of the date one stays so.
_ONE_IN = 60
#: Of how many sites, and of their candidates, one keeps its motor, and its unit's size.
_SIZED_ONE_IN = 4
#: How many times fewer those of assessments are.
_RERUN = 8
_DATING = ("solar", "generator", "conditioning", "interval_watts")


def thinned(body: Any) -> Any:
    """Return the body; of those that run a whole year a few, the others without that."""
    if not isinstance(body, dict):
        return body
    # An assessment runs its years many times over, for every fact that is open.
    one_in = _ONE_IN * (_RERUN if "candidates" in body else 1)
    return body if zlib.crc32(repr(body).encode()) % one_in == 0 else undated(body)


def undated(body: dict[str, Any]) -> dict[str, Any]:
    """Return the body without what makes its outage a matter of the date, and with one motor.

    Of the sites one in a few keeps its motor, of their candidates one its unit's size.
    """
    groups = [body, *(body[name] for name in ("home", "equipment") if name in body)]
    for group in groups:
        if isinstance(group, dict):
            for name in _DATING:
                if name in group:
                    group[name] = None
    home = body.get("home")
    if isinstance(home, dict) and home.get("motors"):
        # Motors are drawn at the operation that starts them; here they take most of the time.
        site = "candidates" in body
        many = site and zlib.crc32(repr(home).encode()) % _SIZED_ONE_IN
        home["motors"] = [] if many else home["motors"][:1]
    for candidate in body.get("candidates") or []:
        # Sizes are drawn at the operations that read them; here they double an assessment's time.
        if isinstance(candidate, dict) and zlib.crc32(repr(candidate).encode()) % _SIZED_ONE_IN:
            candidate.pop("unit", None)
    use = body.get("use")
    if isinstance(use, dict) and use.get("kind") == "interval_profile":
        body["use"] = {"kind": "monthly_kwh", "monthly_kwh": 700.0}
    return body
