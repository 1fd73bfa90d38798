"""Every unit of mass and volume against three packages that know units.

Sources: UCUM by npm `@atomic-ehr/ucum` 0.2.5 and `@lhncbc/ucum-lhc` 7.1.10, and PyPI `pint` 0.25.3, whose customary
units are those of NIST Handbook 44, Appendix C. UCUM's `[cup_m]`, `[tbs_m]`, `[tsp_m]` and `[foz_m]` are the measures of
the US label, 21 CFR 101.9(b)(5)(viii). UCUM has no 250 mL cup and no 20 mL tablespoon: those are of the NSW Health
conversion chart ("standard metric cup and spoon sets").
"""

from decimal import Decimal

import pint

from program import node

SUBJECT = "units against UCUM and pint"

# The program's unit: UCUM code, name in pint (None where pint has none).
MASSES = {"kg": ("kg", "kg"), "mg": ("mg", "mg"), "oz": ("[oz_av]", "ounce"), "lb": ("[lb_av]", "pound")}
METRIC = {"ml": ("mL", "mL"), "cl": ("cL", "cL"), "dl": ("dL", "dL"), "l": ("L", "L")}
CUSTOMARY = {
    "cup": ("[cup_us]", "cup"), "tbsp": ("[tbs_us]", "tablespoon"), "tsp": ("[tsp_us]", "teaspoon"),
    "fl oz": ("[foz_us]", "fluid_ounce"), "pint": ("[pt_us]", "pint"), "quart": ("[qt_us]", "quart"),
    "gallon": ("[gal_us]", "gallon"),
}
LABEL = {
    "cup": ("[cup_m]", None), "tbsp": ("[tbs_m]", None), "tsp": ("[tsp_m]", None), "fl oz": ("[foz_m]", None),
    "pint": ("[pt_us]", "pint"),
}
IMPERIAL = {
    "fl oz": ("[foz_br]", "imperial_fluid_ounce"), "pint": ("[pt_br]", "imperial_pint"),
    "quart": ("[qt_br]", "imperial_quart"), "gallon": ("[gal_br]", "imperial_gallon"),
}
STANDARDS = {
    "customary": CUSTOMARY, "label": LABEL, "metric": IMPERIAL, "uk": IMPERIAL, "australian": IMPERIAL, "imperial": IMPERIAL,
}
# Millilitres, NSW Health conversion chart; the tablespoon of 15 mL is New Zealand's, Canada's and the UK's. The imperial
# cup is ten imperial fluid ounces (`imperial_cup` of pint); its spoons are a sixteenth of it and a third of that.
CHART = {
    "metric": {"cup": 250.0, "tbsp": 15.0, "tsp": 5.0},
    "uk": {"cup": 250.0, "tbsp": 15.0, "tsp": 5.0},
    "imperial": {"cup": 284.130625, "tbsp": 284.130625 / 16, "tsp": 284.130625 / 48},
    "australian": {"cup": 250.0, "tbsp": 20.0, "tsp": 5.0},
}

# Published by the cup alone, SR28 09436: every volume of it must scale from that one figure.
ONE_FIGURE = ("mango nectar", 251.0)
# Published by the cup, SR28 01077; spoons and fluid ounce have figures of their own, so only these must scale.
MILK, MILK_SCALES = ("whole milk", 244.0), ["ml", "cl", "dl", "l", "pint", "quart", "gallon"]

MANY = 1000
"""So many of a unit are weighed, since a weight is given to the milligram."""


def published(tally):
    """Grams or millilitres of each UCUM code, where all packages agree to a part in 10^12."""
    units = [MASSES, METRIC, CUSTOMARY, LABEL, IMPERIAL]
    names = {code: name for unit in units for code, name in unit.values()}
    masses = {code for code, _ in MASSES.values()}
    answers = node("ucum.mjs", *sorted(set(names) - masses))
    registry = pint.UnitRegistry(non_int_type=Decimal)
    values = {}
    for code, name in names.items():
        to = "g" if code in masses else "mL"
        said = [answer[code] for answer in answers.values()]
        said += [float(registry.Quantity(Decimal(1), name).to(to).magnitude)] if name else []
        values[code] = said[-1]
        tally.holds(f"{code}: the packages agree", max(said) - min(said) <= 1e-12 * max(said), said)
    return values


def check_volumes(tally, program, standard, millilitres, food, units):
    name, cup_grams = food
    site = program.scratch / f"units-{standard}"
    if not site.exists():
        program.workspace(site.name, site=f"cups: {standard}\n")
    lines = {unit: f"{MANY} {unit} {name}" for unit in units}
    grams = program.grams(lines.values(), site)
    for unit, line in lines.items():
        wanted = MANY * cup_grams * millilitres[unit] / 236.5882365
        tally.near(f"{standard}: {line}", grams[line], wanted, within=0.00051)


def check(tally, program):
    values = published(tally)
    imperial_cup = pint.UnitRegistry(non_int_type=Decimal).Quantity(Decimal(1), "imperial_cup").to("mL").magnitude
    tally.equal("imperial cup by pint", float(imperial_cup), CHART["imperial"]["cup"])
    for unit, (code, _) in MASSES.items():
        line = f"{MANY} {unit} flour"
        tally.near(line, program.grams([line])[line], MANY * values[code], within=0.00051)
    for standard, units in STANDARDS.items():
        millilitres = {unit: values[code] for unit, (code, _) in {**METRIC, **units}.items()}
        millilitres |= CHART.get(standard, {})
        check_volumes(tally, program, standard, millilitres, ONE_FIGURE, list(millilitres))
        if standard == "customary":
            check_volumes(tally, program, standard, millilitres, MILK, MILK_SCALES)
