"""Ctrl-C is answered from the first moment on."""

import subprocess
import sys
from pathlib import Path

import pytest

PLAN = Path(__file__).parents[2] / "examples" / "three-row-cinema.toml"

_STOP_WHILE = """
import sys
from pathlib import Path

class Stop:
    def find_spec(self, name, path=None, target=None):
        if name == {name!r}:
            raise KeyboardInterrupt
        return None

sys.meta_path.insert(0, Stop())
from powerplan.start import start
sys.argv = ["powerplan", "rules"]
sys.exit(start())
"""


@pytest.mark.parametrize("name", ["powerplan.cli.main", "click", "powerplan.cli.rules"])
def test_a_stop_while_the_program_is_imported_is_no_traceback(name: str) -> None:
    ran = subprocess.run(
        [sys.executable, "-c", _STOP_WHILE.format(name=name)], capture_output=True, text=True
    )
    assert ran.returncode == 130
    assert ran.stderr.strip() == "powerplan: stopped"
    assert ran.stdout == ""


_STOP_BY_SIGNAL = """
import os, signal, sys

class Stop:
    def find_spec(self, name, path=None, target=None):
        if name == {name!r}:
            os.kill(os.getpid(), signal.SIGINT)
        return None

sys.meta_path.insert(0, Stop())
from powerplan.start import start
sys.argv = ["powerplan", "decide", {plan!r}]
sys.exit(start())
"""


@pytest.mark.parametrize("name", ["shapely", "numpy", "numpy.linalg", "shapely.geometry"])
def test_a_stop_while_a_library_loads_another_is_no_fault_of_ours(name: str) -> None:
    code = _STOP_BY_SIGNAL.format(name=name, plan=str(PLAN))
    ran = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True)
    assert (ran.returncode, ran.stderr.strip()) == (130, "powerplan: stopped")


def test_a_stop_that_is_not_answered_stays_so() -> None:
    code = _STOP_BY_SIGNAL.format(name="numpy", plan=str(PLAN))
    ignored = f"import signal\nsignal.signal(signal.SIGINT, signal.SIG_IGN)\n{code}"
    ran = subprocess.run([sys.executable, "-c", ignored], capture_output=True, text=True)
    assert (ran.returncode, ran.stderr) == (4, "")


_COUNT = """
import gc, sys
from powerplan.start import start
looked = []
gc.callbacks.append(lambda phase, info: looked.append(phase))
sys.argv = ["powerplan", "check", {plan!r}]
code = start()
print(code, len(looked), gc.get_freeze_count() > 10_000)
"""


def test_the_collector_neither_looks_through_a_usual_plan_nor_clears_up_after_it() -> None:
    ran = subprocess.run(
        [sys.executable, "-c", _COUNT.format(plan=str(PLAN))],
        capture_output=True,
        text=True,
        check=True,
    )
    code, looked, frozen = ran.stdout.splitlines()[-1].split()
    assert code == "4"
    assert looked == "0"
    assert frozen == "True"
