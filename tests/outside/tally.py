"""Counts what a group of checks found."""

import math


class Tally:
    """The checks of one group: how many passed, and what is wrong with the others."""

    def __init__(self):
        self.passed = 0
        self.failures = []
        self.notes = []

    def holds(self, what, ok, detail=""):
        """One check; `detail` is shown when it fails. Returns whether it passed."""
        if ok:
            self.passed += 1
        else:
            self.failures.append(f"{what}: {detail}" if detail else what)
        return bool(ok)

    def equal(self, what, got, wanted):
        """One check that a value is the one wanted."""
        return self.holds(what, got == wanted, f"got {got!r}, wanted {wanted!r}")

    def near(self, what, got, wanted, within):
        """One check that a number lies within a distance of the one wanted; no number fails."""
        ok = isinstance(got, (int, float)) and math.isfinite(got) and abs(got - wanted) <= within
        return self.holds(what, ok, f"got {got!r}, wanted {wanted!r} within {within:g}")

    def empty(self, what, faults, shown=12):
        """One check that a list of faults is empty; the first ones are shown."""
        more = f" ... and {len(faults) - shown} more" if len(faults) > shown else ""
        return self.holds(what, not faults, "; ".join(map(str, faults[:shown])) + more)

    def note(self, text):
        """Something to say beside the counts."""
        self.notes.append(text)
