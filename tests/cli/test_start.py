"""Ctrl-C is answered from the first moment on."""

import subprocess
import sys

import pytest

_STOP_WHILE = """
import sys

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
