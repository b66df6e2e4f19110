"""Plain data, as JSON and TOML give it, to records; a complaint is one line with path and value.

Such as `$.fittings[2].height: must be a number, got 'high'`. Knows neither format nor file.
"""

import re
from collections.abc import Callable, Iterable
from typing import Any, TypeVar

import msgspec
import tomli

T = TypeVar("T")
Step = str | int
_WORDS = {
    "float": "a number",
    "int": "a whole number",
    "str": "a text",
    "bool": "true or false",
    "array": "a list",
    "object": "a table of fields",
    "null": "null",
}
_STEP = re.compile(r"\.(\w+)|\[(\d+)\]")
_PLACED = re.compile(r"(.*?)(?: - at `\$((?:\.\w+|\[\d+\])*)`)?", re.DOTALL)
"""What the decoder says, and the path behind it unless that is the whole."""
_UNKNOWN = "Object contains unknown field `"
_MOST_SHOWN = 60
"""Characters of a value or key that are quoted."""


def decoded(plain: object, kind: type[T]) -> T:
    """Return plain data as a record.

    Raises:
        ValueError: it holds a value that cannot be; one line that names path and value.
    """
    try:
        return msgspec.convert(plain, kind)
    except msgspec.ValidationError as problem:
        raise ValueError(_complaint(str(problem), plain, kind)) from None
    except UnicodeEncodeError as problem:  # half of a character pair, which JSON can write
        text, half = problem.object, problem.object[problem.start]
        path = path_to(plain, lambda value: value == text)
        raise ValueError(f"{path}: must not hold {half!r}") from None


def path_to(held: object, wanted: Callable[[object], bool], path: str = "$") -> str:
    """Return the path of the first value or key that is wanted within plain data, or nothing."""
    if wanted(held):
        return path
    steps: Iterable[tuple[Step, object]] = ()
    if isinstance(held, dict | list):
        steps = held.items() if isinstance(held, dict) else enumerate(held)
    for step, value in steps:
        place = path + step_text(step)
        found = place if wanted(step) else path_to(value, wanted, place)
        if found:
            return found
    return ""


def utf8_text(data: bytes) -> str:
    """Return the text that bytes hold, without a byte order mark.

    Raises:
        ValueError: they are not UTF-8; one line that says where.
    """
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError as problem:
        raise ValueError(f"not UTF-8: byte {problem.start} is {data[problem.start]:#04x}") from None


def toml_tables(data: bytes) -> dict[str, object]:
    """Return the tables of a TOML file.

    Raises:
        ValueError: it is not TOML; one line that says where.
    """
    text = utf8_text(data)
    try:
        return tomli.loads(text)
    except RecursionError:
        raise ValueError("not TOML: brackets nested too deep") from None
    except ValueError as problem:
        raise ValueError(f"not TOML: {' '.join(str(problem).split())}") from None


def step_text(step: Step) -> str:
    """Return one step of a path: `.height`, `[2]`, or a key that needs quotes in brackets."""
    if isinstance(step, int):
        return f"[{step}]"
    return f".{step}" if re.fullmatch(r"\w{1,60}", step) else f"[{shown(step)}]"


def shown(value: object) -> str:
    """Return a value as a complaint quotes it: short, on one line."""
    if isinstance(value, list | dict):
        return f"a list of {len(value)}" if isinstance(value, list) else "a table of fields"
    if value is None or isinstance(value, bool):
        return {None: "null", True: "true", False: "false"}[value]
    text = repr(value) if isinstance(value, str | int | float) else str(value)
    return text if len(text) <= _MOST_SHOWN else f"{text[: _MOST_SHOWN - 3]}..."


def _complaint(text: str, plain: object, kind: type[Any]) -> str:
    key = _quoted(text, _UNKNOWN)
    if key is not None and isinstance(plain, dict) and key in plain:
        return f"${step_text(key)}: unknown key"  # seen first, since a key may hold what looks like a path
    match = _PLACED.fullmatch(text)
    what, path = (match[1], match[2] or "") if match else (text, "")
    if what.startswith((".", "[")):  # our records name field and value by themselves
        return f"${path}{what}"
    steps: list[Step] = [name or int(index) for name, index in _STEP.findall(path)]
    if (key := _quoted(what, _UNKNOWN)) is not None:
        return f"${path}{step_text(key)}: unknown key"
    if (key := _quoted(what, "Object missing required field `")) is not None:
        choices = _choices(kind, plain, [*steps, key])
        return f"${path}{step_text(key)}: is missing{_listed(': one of', choices)}"
    return f"${path}: {_wanted(what, kind, plain, steps)}, got {shown(_at(plain, steps))}"


def _quoted(what: str, opening: str) -> str | None:
    return what.removeprefix(opening)[:-1] if what.startswith(opening) else None


def _wanted(what: str, kind: type[Any], plain: object, steps: list[Step]) -> str:
    if choices := _choices(kind, plain, steps):
        return f"must be{_listed(' one of', choices)}"
    if length := re.match(r"Expected `array` of length (\d+)", what):
        return f"must be a list of {length[1]}"
    if expected := re.match(r"Expected `([^`]*)`", what):
        return f"must be {' or '.join(_WORDS.get(word, word) for word in expected[1].split(' | '))}"
    return what[:1].lower() + what[1:]


def _listed(opening: str, choices: tuple[str, ...]) -> str:
    return f"{opening} {', '.join(choices)}" if choices else ""


def _at(plain: object, steps: list[Step]) -> object:
    held: Any = plain
    for step in steps:
        held = held[step]
    return held


def _choices(kind: type[Any], plain: object, steps: list[Step]) -> tuple[str, ...]:
    """Return the words that may stand at a place, or nothing if it takes no words of a list."""
    from msgspec import inspect

    place: Any = inspect.type_info(kind)
    held: Any = plain
    for step in steps:
        kinds = _kinds(place)
        if isinstance(step, int):
            place = next(
                k.item_type if isinstance(k, inspect.VarTupleType) else k.item_types[step]
                for k in kinds
                if isinstance(k, inspect.VarTupleType | inspect.TupleType)
            )
        else:
            records = [k for k in kinds if isinstance(k, inspect.StructType)]
            if step == records[0].tag_field:
                return tuple(str(record.tag) for record in records)
            tag = held.get(records[0].tag_field)
            record = next(record for record in records if len(records) == 1 or record.tag == tag)
            place = next(field.type for field in record.fields if field.encode_name == step)
        held = held[step] if isinstance(step, int) else held.get(step)
    found = [k for k in _kinds(place) if isinstance(k, inspect.LiteralType)]
    return tuple(str(word) for k in found for word in k.values)


def _kinds(place: Any) -> tuple[Any, ...]:
    return place.types if hasattr(place, "types") else (place,)
