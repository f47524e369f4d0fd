"""Importing the package loads nothing; each public name is there when asked for."""

import json
import subprocess
import sys

import pytest

import evsyn

HEAVY = ("scipy.stats", "scipy.optimize", "pandas", "matplotlib", "statsmodels")


def loaded_by(code):
    show = "import json, sys; print(json.dumps(sorted(sys.modules)))"
    done = subprocess.run(
        [sys.executable, "-c", f"{code}\n{show}"], capture_output=True, text=True, check=True
    )
    return json.loads(done.stdout)


def test_importing_the_package_loads_no_array_library():
    assert not [
        name for name in loaded_by("import evsyn") if name.split(".")[0] in ("numpy", "scipy")
    ]


def test_pooling_loads_no_heavy_library():
    modules = loaded_by("import evsyn; evsyn.pool_proportions([1, 2], [9, 9])")
    assert "scipy.special" in modules
    assert not [name for name in modules if name.startswith(HEAVY)]


@pytest.mark.parametrize("name", evsyn.__all__)
def test_each_public_name_is_there(name):
    assert name in dir(evsyn)
    assert getattr(evsyn, name) is not None


def test_an_unknown_name_is_an_attribute_error():
    with pytest.raises(AttributeError, match="has no attribute 'pool_proportion'"):
        evsyn.pool_proportion  # noqa: B018
