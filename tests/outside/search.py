"""The search in Chromium, and what it costs at 10,000 recipes.

Sources: titles, components, ingredients and tags of the demo recipes, read by PyYAML; names of one thing on both sides
of the Atlantic, as dictionaries give them (from memory); one wrong letter, one left out, one too many and two swapped,
the errors that Damerau counted (Communications of the ACM 7, 1964); WCAG 2.2, 2.1.1, 2.4.7 and 4.1.3; at most 300 KiB
before the first answer, the bound that the archive was built to. The words of the 10,000 recipes are drawn by Zipf's law
from as many as Heaps' law gives English text of their length (V = 40 n^0.55, within the constants usual for English).
"""

import itertools
import json
import random

import yaml

from browser import executable
from program import PROJECT, node

SUBJECT = "search: what is found, by keyboard, bytes at 10,000 recipes"

MOST = 300 * 1024
COUNT = 10_000
WORDS = 9
"""Words of a recipe's title and components."""

SAME = [
    ("icing sugar", "powdered sugar"), ("confectioners' sugar", "powdered sugar"), ("cornflour", "cornstarch"),
    ("plain flour", "all-purpose flour"), ("bicarbonate of soda", "baking soda"), ("courgette", "zucchini"),
    ("superfine sugar", "caster sugar"), ("wholemeal flour", "whole wheat flour"),
]

SITE = "name: Search\nurl: https://search.example/\n"


def recipe(title, parts, tags=(), published="2026-01-01"):
    """A recipe file's text, as JSON, which is YAML too; `parts` are lists of lines by component."""
    components = [{"name": name, "ingredients": lines, "steps": ["Mix everything well."]} for name, lines in parts.items()]
    return json.dumps({"title": title, "published": published, "tags": list(tags), "components": components})


def from_demo():
    """Questions that a demo recipe answers, by each kind of word that it has, and misspelt."""
    recipes = {path.stem: yaml.safe_load(path.read_text(encoding="utf-8")) for path in (PROJECT / "recipes").glob("*.yaml")}
    for _, found in sorted(recipes.items()):
        title = found["title"]
        yield {"words": title, "title": title, "first": True}
        words = [title[: len(title) // 2 + 2], found["components"][0]["name"], *found.get("tags", [])[:1]]
        yield from ({"words": one, "title": title, "first": False} for one in words)
    for words, slug in (
        ("croisants", "rye-croissants"), ("croissamts", "rye-croissants"), ("rhubrab", "buttermilk-set-cream"),
        ("carammels", "salted-butter-caramels"), ("shortbred", "pier-end-shortbread"), ("hazlenut", "harbour-ring"),
        ("buckwheat flour", "apricot-and-thyme-tart"), ("sourdough starter", "quay-loaf"), ("olive oil cocoa", "dark-cocoa-loaf"),
    ):
        yield {"words": words, "title": recipes[slug]["title"], "first": False}


def built(program, name, recipes):
    """The archive of a new workspace."""
    root = program.workspace(name, site=SITE, recipes=recipes)
    done = program.run("archive", workspace=root, timeout=900)
    if done.returncode not in (0, 1):
        raise RuntimeError(done.stderr.decode(errors="replace")[-2000:])
    return root / "out" / "archive"


def synonyms(program):
    """An archive in which each thing has one of its names, and the questions that use the other."""
    recipes, asked = {}, []
    for at, pair in enumerate(SAME):
        for written, other in (pair, pair[::-1]):
            title = f"Experiment {'abcdefgh'[at]} with {written}"
            recipes[f"experiment-{len(recipes)}"] = recipe(f"Experiment {len(recipes)}", {"Base": [f"100 g {written}", "50 g water"]})
            asked.append({"words": other, "title": f"Experiment {len(recipes) - 1}", "first": False})
    return built(program, "synonyms", recipes), asked


def invented(chance, count):
    """Words of two to four syllables, each once."""
    syllables = [a + b + c for a in "bdfgklmnprstv" for b in "aeiou" for c in ("", "n", "r", "l")]
    words = {}
    while len(words) < count:
        words["".join(chance.choices(syllables, k=chance.choice((2, 3, 3, 4))))] = None
    return list(words)


def many(program, count):
    """An archive of many recipes, in words as various as those of a real one; its words, the commonest first."""
    chance = random.Random(7)
    listed = program.text("pantry", "--json", workspace=program.scratch).splitlines()
    pantry = [json.loads(row)["names"][0] for row in listed]
    words = invented(chance, round(40 * (count * WORDS) ** 0.55))
    # Zipf's law: the word at rank r comes as often as 1/r.
    weights = list(itertools.accumulate(1 / rank for rank in range(1, len(words) + 1)))
    recipes, used = {}, {}
    for at in range(count):
        drawn = chance.choices(words, cum_weights=weights, k=WORDS)
        lines = [f"{chance.randrange(5, 500)} g {name}" for name in chance.sample(pantry, 6)]
        parts = {" ".join(drawn[5:7]).capitalize(): lines[:3], " ".join([*drawn[7:], "cream"]).capitalize(): lines[3:]}
        published = f"{2000 + at % 26}-{at % 12 + 1:02}-{at % 28 + 1:02}"
        recipes[f"recipe-{at:05}"] = recipe(" ".join(drawn[:5]).capitalize(), parts, drawn[:2], published)
        used.update(dict.fromkeys(drawn))
    return built(program, "many", recipes), sorted(used, key=words.index)


def check(tally, program):
    path = executable()
    if not tally.holds("a browser is installed", path):
        return
    demo, (pairs, asked) = program.published() / "archive", synonyms(program)
    root, words = many(program, COUNT)
    given = {
        "archives": [{"root": str(demo), "asked": list(from_demo())}, {"root": str(pairs), "asked": asked}],
        # Of many recipes, of some, of few; two words; and what one begins with.
        "weighed": {"root": str(root), "asked": [words[0], words[50], words[-1], f"{words[3]} {words[40]}", "sugar", words[9][:2]]},
    }
    file = program.scratch / "search.json"
    file.write_text(json.dumps(given), encoding="utf-8")
    answer = node("search.mjs", path, file)
    for result in answer["results"]:
        tally.empty(result["what"], result["faults"])
    for one in answer["weights"]:
        tally.holds(f"{one['words']} is found among {COUNT:,}", one["found"] > 0)
        tally.holds(f"{one['words']}: at most {MOST:,} bytes before the first answer", one["bytes"] <= MOST, one["bytes"])
    most = max(one["bytes"] for one in answer["weights"])
    tally.note(f"{COUNT:,} recipes, {len(words):,} words beside the pantry's: {most / 1024:.0f} KiB before the first answer at most")
