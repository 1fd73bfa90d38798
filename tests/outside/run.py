"""Runs the checks of this folder: `run.py [GROUP]...`, all groups when none is named.

Prints one line a group, what is wrong below it, and `N passed, N failed` at the end.
"""

import argparse
import importlib
import sys
import time
import traceback
from pathlib import Path

from program import PROJECT, Program
from tally import Tally

GROUPS = ["units", "usda", "oracles", "temperatures", "jsonld", "pages", "feeds", "descriptions", "sarif", "pdf", "browser", "bench", "search", "pictures", "nutrition",
          "lighthouse", "hostile", "terminal"]
SHOWN = 25
"""How many failures of a group are printed."""


def run(group, program):
    """One group's tally, printed."""
    tally, subject = Tally(), ""
    began = time.monotonic()
    try:
        module = importlib.import_module(group)
        subject = module.SUBJECT
        module.check(tally, program)
    except Exception:
        tally.failures.append(f"stopped: {traceback.format_exc()}")
    counts = f"{tally.passed} passed, {len(tally.failures)} failed"
    print(f"{group:<13} {counts:<24} {time.monotonic() - began:5.1f} s  {subject}")
    for note in tally.notes:
        print(f"    {note}")
    for failure in tally.failures[:SHOWN]:
        print(f"    FAILED {failure}")
    if len(tally.failures) > SHOWN:
        print(f"    ... and {len(tally.failures) - SHOWN} more")
    sys.stdout.flush()
    return tally


def main():
    arguments = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    arguments.add_argument("groups", nargs="*", metavar="GROUP", help=", ".join(GROUPS))
    arguments.add_argument("--binary", type=Path, default=PROJECT / "target" / "release" / "levelcup")
    given = arguments.parse_args()
    unknown = set(given.groups) - set(GROUPS)
    if unknown:
        arguments.error(f"no group {', '.join(sorted(unknown))}; there are {', '.join(GROUPS)}")
    if not given.binary.is_file():
        arguments.error(f"no program at {given.binary}; `tests/run` builds it")
    program = Program(given.binary)
    try:
        tallies = [run(group, program) for group in given.groups or GROUPS]
    finally:
        program.close()
    passed, failed = sum(tally.passed for tally in tallies), sum(len(tally.failures) for tally in tallies)
    print(f"{passed} passed, {failed} failed")
    return 1 if failed or not passed else 0


if __name__ == "__main__":
    sys.exit(main())
