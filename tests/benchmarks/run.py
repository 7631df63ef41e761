"""Speed as ratios within one run: start-up against ``import click``, a set of sheets against the
libraries that write it, planning against one chair.

Run it by hand; nothing in the test suite depends on a clock.
"""

import os
import shutil
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1]))

from support import NEC, inch, make_chain, make_chair, make_row, make_spec

from powerplan.model.spec import PlanSpec
from powerplan.planning.pipeline import make_plan


def seconds(work: Callable[[], object], times: int) -> float:
    """The best of several runs. [s]"""
    best = float("inf")
    for _ in range(times):
        start = time.perf_counter()
        work()
        best = min(best, time.perf_counter() - start)
    return best


def process(*words: str) -> Callable[[], object]:
    """A whole process of the program that is installed beside this Python, or of Python itself."""
    installed = shutil.which("powerplan", path=str(Path(sys.executable).parent))
    program = [sys.executable] if words[0] == "-c" else [installed or "powerplan"]
    # What is installed is compiled once; a shell that forbids that would measure the compiler.
    env = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
    return lambda: subprocess.run(
        [*program, *words], check=False, capture_output=True, stdin=subprocess.DEVNULL, env=env
    )


def room(seats: int, rows: int) -> PlanSpec:
    """Rows of chained 2 A chairs, in a room made to fit."""
    kind = make_chair(
        seat_width_m=inch(20),
        arm_width_m=inch(4),
        arm_gap_m=inch("3/2"),
        input_a=Fraction(2),
        continuous_a=Fraction(2),
        chain=make_chain(),
    )
    width_m, depth_m = inch(24 * seats + 60), inch(80 * rows + 60)
    base = make_spec()
    return make_spec(
        room=replace(base.room, width_m=width_m, depth_m=depth_m),
        chairs=(kind,),
        rows=tuple(
            make_row(
                id=chr(ord("A") + number),
                seats=seats,
                center_x_m=round(width_m / 2, 6),
                headrest_to_wall_m=inch(14 + 80 * number),
            )
            for number in range(rows)
        ),
    )


def issue_twelve() -> None:
    """A set for the example of twelve chairs, planned, judged and written anew."""
    with tempfile.TemporaryDirectory() as folder:
        plan = Path(__file__).parents[2] / "examples" / "three-row-cinema.toml"
        process("sheets", str(plan), "-o", folder)()


def main() -> None:
    """Print the ratios."""
    click = seconds(process("-c", "import click"), 7)
    starts = {
        "--help": ("--help",),
        "quick": (
            "quick",
            "--chairs",
            "5",
            "--input",
            "1.8A",
            "--breaker",
            "15A",
        ),
    }
    for name, arguments in starts.items():
        print(f"{name:12} {seconds(process(*arguments), 7) / click:6.2f} x import click")
    libraries = seconds(process("-c", "import reportlab, ezdxf"), 5)
    whole = seconds(issue_twelve, 5)
    beyond = (
        f"{whole / libraries:6.2f} x import reportlab, ezdxf ({whole - libraries:.2f} s beyond)"
    )
    print(f"{'sheets, 12':12} {beyond}")
    one = seconds(lambda: make_plan(room(1, 1), NEC, "0" * 64), 3)
    for seats, rows in ((2, 1), (5, 1), (6, 2), (12, 2), (20, 3)):
        spec = room(seats, rows)
        taken = seconds(lambda spec=spec: make_plan(spec, NEC, "0" * 64), 1)
        print(f"{seats * rows:3} chairs   {taken / one:6.1f} x one chair ({taken:.2f} s)")


if __name__ == "__main__":
    main()
