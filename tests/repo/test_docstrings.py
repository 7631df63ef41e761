"""What every public function says of itself: a sentence, its parameters, and their units."""

import importlib
import inspect
import pkgutil
import re
from collections.abc import Callable, Iterator

import pytest

import powerplan

pytestmark = pytest.mark.repo

ROOMS = ("engineering", "model", "planning", "judging", "rulebook")
QUANTITY = re.compile(r"_(m|um|a|v|rad|w|percent|per_m)$")


def public_functions() -> Iterator[tuple[str, Callable[..., object]]]:
    """Functions, and methods of public classes, with the name that a reader would look up."""
    prefixes = tuple(f"powerplan.{room}" for room in ROOMS)
    for info in pkgutil.walk_packages(powerplan.__path__, "powerplan."):
        if not info.name.startswith(prefixes):
            continue
        module = importlib.import_module(info.name)
        for name, thing in vars(module).items():
            if name.startswith("_") or getattr(thing, "__module__", None) != info.name:
                continue
            if inspect.isclass(thing):
                for method, body in vars(thing).items():
                    if inspect.isfunction(body) and not method.startswith("_"):
                        yield f"{info.name}.{name}.{method}", body
            elif inspect.isroutine(thing):
                yield f"{info.name}.{name}", inspect.unwrap(thing)


FUNCTIONS = dict(public_functions())


def documented(text: str) -> dict[str, str] | None:
    """Parameters of a docstring with what is said of each; None where there is no such section."""
    section = re.search(r"^Parameters\n-+\n(.*?)(?=^\w[^\n]*\n-{3,}$|\Z)", text, re.M | re.S)
    if section is None:
        return None
    entries = re.split(r"^(\w+(?:, \w+)*) : ", section.group(1), flags=re.M)[1:]
    found: dict[str, str] = {}
    for names, said in zip(entries[::2], entries[1::2], strict=True):
        found |= dict.fromkeys(names.split(", "), said)
    return found


def parameters(function: Callable[..., object]) -> list[str]:
    return [name for name in inspect.signature(function).parameters if name != "self"]


def test_there_are_functions_in_every_room():
    assert {name.split(".")[1] for name in FUNCTIONS} == set(ROOMS)


def test_a_section_is_read_as_people_write_it():
    text = "Do it.\n\nParameters\n----------\na, b_m : float\n    Both. [m]\nc : str\n    One.\n"
    both = "float\n    Both. [m]\n"
    assert documented(text) == {"a": both, "b_m": both, "c": "str\n    One.\n"}
    assert documented("Do it.") is None


def told_of(function: Callable[..., object]) -> dict[str, str] | None:
    return documented(inspect.getdoc(function) or "")


def test_every_public_function_says_what_it_does():
    first = {
        name: (inspect.getdoc(function) or "").partition("\n\n")[0].rstrip()
        for name, function in FUNCTIONS.items()
    }
    assert [name for name, said in first.items() if not said.endswith((".", "]"))] == []


def test_the_parameters_told_are_those_of_the_signature():
    told = {name: told_of(function) for name, function in FUNCTIONS.items()}
    wrong = {
        name: (list(said), parameters(FUNCTIONS[name]))
        for name, said in told.items()
        if said is not None and list(said) != parameters(FUNCTIONS[name])
    }
    assert wrong == {}


def test_a_quantity_is_told_with_its_unit():
    bare = [
        f"{name}: {key}"
        for name, function in FUNCTIONS.items()
        for key, said in (told_of(function) or {}).items()
        if QUANTITY.search(key) and "[" not in said
    ]
    assert bare == []
