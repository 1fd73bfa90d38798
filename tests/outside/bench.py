"""The recipe at the bench, its timetable and its cover in Chromium.

Sources: Screen Wake Lock (W3C), by a stand-in that records what is asked for; WCAG 2.2, 1.1.1 (drawings have a text),
1.4.10 (no sideways scrolling), 2.1.1 (by keyboard), 2.4.3 (focus), 2.5.5 (targets of 44 pixels), 4.1.3 (what a timer
says); times by arithmetic on the steps of the recipe files, read by PyYAML.
"""

import json
import re

import yaml

from browser import executable
from program import PROJECT, node

SUBJECT = "bench view, timetable, cover, what is remembered"

MINUTES = {"s": 1 / 60, "min": 1, "h": 60, "day": 1440, "days": 1440}


def minutes(text):
    """The longer end of a time as authors write it: `22–25 min`, `1 h 30 min`; `None` for a word such as `overnight`."""
    parts = re.findall(r"(?:\d+(?:\.\d+)?\s*[–-]\s*)?(\d+(?:\.\d+)?)\s*(s|min|h|days?)\b", str(text))
    return sum(float(number) * MINUTES[unit] for number, unit in parts) if parts else None


def timed():
    """Each demo recipe with the minutes of its steps, work, oven and waiting; 0 where a step's time is a word."""
    for path in sorted((PROJECT / "recipes").glob("*.yaml")):
        steps = [step for part in yaml.safe_load(path.read_text(encoding="utf-8"))["components"] for step in part.get("steps", [])]
        steps = [step for step in steps if isinstance(step, dict)]
        given = {
            "hands_on": [minutes(step["time"]) for step in steps if "time" in step and "oven" not in step],
            "in_the_oven": [minutes(step["time"]) for step in steps if "time" in step and "oven" in step],
            "waiting": [minutes(step["wait"]) for step in steps if "wait" in step],
        }
        known = not any(None in times for times in given.values())
        yield {"slug": path.stem, **{kind: round(sum(times)) if known else 0 for kind, times in given.items()}}


def check(tally, program):
    path = executable()
    recipes = list(timed())
    tally.holds("most recipes' times are read", sum(one["hands_on"] > 0 for one in recipes) >= 12, recipes)
    if not tally.holds("a browser is installed", path):
        return
    for result in node("bench.mjs", program.published() / "archive", path, json.dumps(recipes)):
        tally.empty(result["what"], result["faults"], shown=5)
