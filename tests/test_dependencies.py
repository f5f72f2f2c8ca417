"""What pyproject.toml asks for is what is imported: no more, and no less."""

import ast
import re
import sys
import tomllib

from tests.support.checkout import ROOT
from verify import __version__

PROJECT = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]

IMPORTED_AS = {
    "z3-solver": "z3",
    "fontpkg-atkinson-hyperlegible": "fontpkg",
    "fontpkg-fira-sans": "fontpkg",
    "fontpkg-spectral": "fontpkg",
    "fonttools": "fontTools",
    "pillow": "PIL",
    "python-barcode": "barcode",
    "python-dateutil": "dateutil",
    "python-sat": "pysat",
    "python-stdnum": "stdnum",
    "pyyaml": "yaml",
    "zxing-cpp": "zxingcpp",
}
"""Packages whose modules have another name."""

TOOLS = {"mypy", "pytest-xdist", "ruff", "types-pyyaml", "types-reportlab"}
"""Packages that are run, or read by the type checker, and imported nowhere."""


def needed(requirements):
    """The modules of some requirements, without their versions."""
    names = {re.split(r"[^\w.-]", each)[0].lower() for each in requirements} - TOOLS
    return {IMPORTED_AS.get(name, name) for name in names}


def imported(*folders):
    """Every module that the code of some folders imports and that is neither Python's nor ours."""
    found = set()
    for folder in folders:
        for path in (ROOT / folder).rglob("*.py"):
            for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
                if isinstance(node, ast.Import):
                    found |= {each.name for each in node.names}
                elif isinstance(node, ast.ImportFrom):
                    found |= {f"{node.module}.{each.name}" for each in node.names}
    known = {*sys.stdlib_module_names, "layout", "tests", "verify"}
    return {name for name in found if name.partition(".")[0] not in known}


def without(modules, known):
    """The modules that belong to none of the known ones."""
    return {
        name for name in modules if not any(f"{name}.".startswith(f"{each}.") for each in known)
    }


EXTRAS = PROJECT["optional-dependencies"]
PRODUCT = needed([*PROJECT["dependencies"], *EXTRAS["cluster"]])
TESTS = needed(EXTRAS["test"])
BENCH = needed(EXTRAS["bench"])
DOCS = needed(EXTRAS["docs"])


def test_every_import_of_the_product_is_asked_for_and_nothing_else_is():
    modules = imported("layout", "verify")
    assert without(modules, PRODUCT) == set()
    assert {each for each in PRODUCT if not without(modules, {each}) < modules} == set()


def test_every_import_of_the_tests_is_asked_for_and_nothing_else_is():
    modules = imported("tests")
    assert without(modules, PRODUCT | TESTS | BENCH) == set()
    asked = TESTS | BENCH
    assert {each for each in asked if not without(modules, {each}) < modules} == set()


def test_every_import_of_the_handbook_is_asked_for():
    pages = {path.stem for path in (ROOT / ".docs").glob("*.py")}
    assert without(imported(".docs"), PRODUCT | DOCS | pages) == set()


def test_nothing_is_asked_for_twice():
    assert set() == PRODUCT & TESTS == PRODUCT & DOCS


def test_one_version_is_told_by_the_package_its_code_and_what_has_changed():
    changes = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8").partition("\n## Changes\n")[2]
    assert PROJECT["version"] == __version__ == re.findall(r"### ([\d.]+)", changes)[0]
