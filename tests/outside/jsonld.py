"""The structured data of every post and archive page.

Sources: JSON-LD 1.1 by npm `jsonld` 9.0.0; the vocabulary of schema.org by npm `schema-dts` 2.1.0, whose types are made
from it: a property that its type or an ancestor does not have, or a value out of its range, does not compile. Durations
by ISO 8601; key moments (offsets ascending, no two alike) by the search engine's guide for videos.
"""

import copy
import json
import re
from html.parser import HTMLParser

from program import node

SUBJECT = "JSON-LD against the vocabulary of schema.org"

DURATION = re.compile(r"P(?=.)(\d+D)?(T(?=.)(\d+H)?(\d+M)?(\d+S)?)?")
DATE = re.compile(r"\d{4}-\d\d-\d\d")


class Blocks(HTMLParser):
    """Collects the texts of JSON-LD script elements."""

    def __init__(self):
        super().__init__()
        self.texts, self._inside = [], False

    def handle_starttag(self, tag, attrs):
        self._inside = tag == "script" and dict(attrs).get("type") == "application/ld+json"
        if self._inside:
            self.texts.append("")

    def handle_endtag(self, tag):
        self._inside = False

    def handle_data(self, data):
        if self._inside:
            self.texts[-1] += data


def documents(program):
    """Every block of structured data with its file's name."""
    out = program.published()
    for path in [*sorted((out / "posts").glob("*.html")), *program.pages()]:
        blocks = Blocks()
        blocks.feed(path.read_text(encoding="utf-8"))
        for text in blocks.texts:
            yield str(path.relative_to(out)), json.loads(text)


def every(value):
    """Every object within a value, itself included."""
    if isinstance(value, dict):
        yield value
    for inner in value.values() if isinstance(value, dict) else value if isinstance(value, list) else []:
        yield from every(inner)


def check_forms(tally, name, data):
    """Text formats, orders and what a reader of recipes requires."""
    faults = []
    for thing in every(data):
        for key, value in thing.items():
            if (key.endswith("Time") or key == "duration") and not DURATION.fullmatch(value):
                faults.append(f"{key} {value}")
            if key.startswith("date") and not DATE.fullmatch(value):
                faults.append(f"{key} {value}")
        positions = [item["position"] for item in thing.get("itemListElement", []) if "position" in item]
        if positions != list(range(1, len(positions) + 1)):
            faults.append(f"positions {positions}")
        if thing.get("@type") == "HowToStep" and not thing.get("text"):
            faults.append(f"a step without text: {thing}")
        clips = [part for part in thing.get("hasPart", []) if part.get("@type") == "Clip"]
        starts = [clip["startOffset"] for clip in clips]
        if starts != sorted(set(starts)) or any(clip.get("endOffset", 1e9) <= clip["startOffset"] for clip in clips):
            faults.append(f"offsets of clips {[(clip['startOffset'], clip.get('endOffset')) for clip in clips]}")
    if not data.get("name") or not data.get("recipeIngredient") or not data.get("recipeInstructions"):
        faults.append("no name, ingredients or instructions")
    if ("prepTime" in data) != ("cookTime" in data):
        faults.append("prepTime and cookTime go together, or totalTime alone")
    tally.empty(f"{name}: forms", faults)


def spoilt(data):
    """Three copies of a document, each with one fault that the types must refuse."""
    for path, value in (
        (("recipeIngredients",), ["100 g water"]),
        (("recipeInstructions", 0, "recipeYield"), "1 loaf"),
        (("datePublished",), {"@type": "Person", "name": "A. Baker"}),
    ):
        changed = copy.deepcopy(data)
        within = changed
        for key in path[:-1]:
            within = within[key]
        within[path[-1]] = value
        yield f"spoilt {'.'.join(map(str, path))}", changed


def check(tally, program):
    found = list(documents(program))
    recipes = {name: data for name, data in found if data["@type"] == "Recipe"}
    slugs = program.slugs()
    for folder, form in (("posts", "{}.html"), ("archive", "{}/index.html")):
        missing = [slug for slug in slugs if f"{folder}/{form.format(slug)}" not in recipes]
        tally.empty(f"{folder}: every recipe has its data", missing)
    bad = list(spoilt(next(iter(recipes.values()))))
    file = program.scratch / "documents.json"
    given = [{"name": name, "type": data["@type"], "data": data} for name, data in found + bad]
    file.write_text(json.dumps(given))
    answer = node("jsonld.mjs", file)
    good, spoilt_names = {name for name, _ in found}, {name for name, _ in bad}
    refused = {fault["name"] for fault in answer["typed"]}
    tally.equal("the types refuse spoilt documents", sorted(refused & spoilt_names), sorted(spoilt_names))
    faults = {name: [] for name in good}
    for fault in answer["typed"]:
        if fault["name"] not in spoilt_names:
            faults.setdefault(fault["name"], []).append(fault["message"])
    for name, messages in sorted(faults.items()):
        tally.empty(f"{name}: types and properties", messages)
    tally.empty("expansion", [fault for fault in answer["expanded"] if not fault.startswith("spoilt")])
    for name, data in recipes.items():
        check_forms(tally, name, data)
    without = sum("image" not in data for data in recipes.values())
    if without:
        tally.note(f"{without} of {len(recipes)} have no image, which the search engine requires of a rich result")
