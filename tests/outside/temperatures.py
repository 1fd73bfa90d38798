"""Ovens, sugar stages and cooking temperatures as the outputs print them, against published tables.

The tables disagree among themselves by up to 5 °C for an oven and by a degree for sugar, so nothing nearer is asked.
"""

import re

SUBJECT = "temperatures in the outputs against handbook tables"

# NSW Health conversion chart: °F and °C of the oven's dial; 225 and 425 °F it lacks: exact, to the nearest 5 °C.
OVEN = {
    225: 105, 250: 120, 275: 140, 300: 150, 325: 160, 350: 180, 375: 190, 400: 200, 425: 220, 450: 230, 475: 250, 500: 260,
}
# Gas mark and °F: 1 is 275 °F, each mark 25 °F, below 1 the numbers halve (table of reference works).
GAS = {"1/4": 225, "1/2": 250, "1": 275, "2": 300, "3": 325, "4": 350, "5": 375, "6": 400, "7": 425, "8": 450, "9": 475,
       "10": 500}
OVEN_BAND = {"C": 5, "F": 9}

# °F and °C, low and high. B: food-science reference table; C: culinary course table. Rows of B that contradict
# themselves by more than a degree are left out: hard ball from "240 °F", and its caramels above 360 °F.
SUGAR = [
    ("thread", (215, 235), (102, 113), "B"),
    ("thread", (223, 234), (106, 112), "C"),
    ("soft ball", (235, 240), (113, 116), "B"),
    ("soft ball", (234, 240), (112, 115), "C"),
    ("firm ball", (245, 250), (118, 121), "B"),
    ("firm ball", (242, 248), (116, 120), "C"),
    ("hard ball", (250, 266), (122, 130), "C"),
    ("soft crack", (270, 290), (132, 143), "B and C"),
    ("hard crack", (300, 310), (149, 154), "B"),
    ("hard crack", (295, 310), (146, 155), "C"),
    ("light to medium caramel", (320, 360), (160, 182), "C"),
    ("Italian meringue syrup", (240, 250), (115, 120), "B, of meringue syrup"),
    ("the meringue itself", (130, 135), (55, 58), "B"),
]
# °F, °C, source.
COOKING = [
    (165, 73.9, "USDA FSIS safe minimum temperature chart: poultry"),
    (160, 71.1, "USDA FSIS chart: egg dishes"),
    (145, 62.8, "USDA FSIS chart: fish"),
    (140, 60, "USDA FSIS chart: ham"),
    (135, 57, "Food Code 3-501.16"),
    (41, 5, "Food Code 3-501.16"),
    (45, 7, "Food Code 3-501.16(B)"),
    (155, 68, "FDA, Key Temperatures for Egg Safety"),
    (212, 100, "Colorado State University Extension: water boils"),
    (94, 34, "professional confectionery text (2007): cocoa butter"),
    (85, 29, "professional confectionery text (2007): cocoa butter"),
]
# A degree Celsius, and what rounding adds: a tenth where a table gives tenths, half a degree Fahrenheit.
COOKING_BAND = {"C": 1.1, "F": 1.8 + 0.5}

NUMBER = r"([−-]?\d+(?:\.\d+)?)"
SPAN = rf"{NUMBER}(?:[–-]{NUMBER})?"
BOTH = re.compile(rf"{SPAN} °([CF])(?: fan)? \({SPAN} °([CF])")


def values(low, high):
    """The numbers of one scale of a match."""
    return [float(text.replace("−", "-")) for text in (low, high or low)]


def shown(line):
    """Both scales that a line of text states: {scale: [low, high]}; empty when it states none or only one."""
    found = BOTH.search(line)
    if not found:
        return {}
    low, high, scale, other_low, other_high, other_scale = found.groups()
    return {scale: values(low, high), other_scale: values(other_low, other_high)}


def cases():
    """Key and text of a step, the two scales it must show, and how near."""
    for fahrenheit, celsius in OVEN.items():
        yield "oven", f"{fahrenheit} °F", {"F": [fahrenheit] * 2, "C": [celsius] * 2}, OVEN_BAND, "NSW Health chart"
        yield "oven", f"{celsius} °C", {"F": [fahrenheit] * 2, "C": [celsius] * 2}, OVEN_BAND, "NSW Health chart"
    for mark, fahrenheit in GAS.items():
        wanted = {"F": [fahrenheit] * 2, "C": [OVEN[fahrenheit]] * 2}
        yield "oven", f"gas mark {mark}", wanted, OVEN_BAND, "table of gas marks"
    for stage, fahrenheit, celsius, source in SUGAR:
        wanted = {"F": list(fahrenheit), "C": list(celsius)}
        for text in (f"{fahrenheit[0]}–{fahrenheit[1]} °F", f"{celsius[0]}–{celsius[1]} °C"):
            yield "heat", text, wanted, COOKING_BAND, f"{stage}, {source}"
    for fahrenheit, celsius, source in COOKING:
        wanted = {"F": [fahrenheit] * 2, "C": [celsius] * 2}
        for text in (f"{fahrenheit} °F", f"{celsius} °C"):
            yield "heat", text, wanted, COOKING_BAND, source
    yield "do", "Freeze it hard at -40 °C.", {"F": [-40, -40], "C": [-40, -40]}, {"F": 0, "C": 0}, "NIST SP 811: -40"
    yield "do", "Bake it at 400 °F.", {"F": [400, 400], "C": [200, 200]}, OVEN_BAND, "worked example: 400 °F is 200 °C"


def recipe(found):
    """A recipe with one step a case, numbered so that its line is found again."""
    steps = []
    for at, (key, text, *_) in enumerate(found):
        marked = f"Case {at:03}. {text}" if key == "do" else f"Case {at:03}."
        steps.append(f'      - {{do: "{marked}"' + ("}" if key == "do" else f', {key}: "{text}"}}'))
    return "\n".join([
        "title: Temperatures", "makes: one test", "components:", "  - name: Syrup", "    ingredients: [100 g water]",
        "    steps:", *steps, "",
    ])


def check(tally, program):
    found = list(cases())
    # No more than a few steps a recipe, so that the description has room for its method.
    for start in range(0, len(found), 30):
        some = found[start:start + 30]
        root = program.workspace(f"temperatures-{start}", recipes={"temperatures": recipe(some)})
        outputs = {
            "description": program.text("describe", "temperatures", "--stdout", workspace=root),
            "post": program.text("post", "temperatures", "--stdout", workspace=root).replace("\\", ""),
        }
        for name, text in outputs.items():
            lines = {line[line.index("Case ") + 5:][:3]: line for line in text.splitlines() if "Case " in line}
            for at, (key, stated, wanted, band, source) in enumerate(some):
                got = shown(lines.get(f"{at:03}", ""))
                near = got.keys() == wanted.keys() and all(
                    abs(one - other) <= band[scale] + 1e-9
                    for scale in wanted for one, other in zip(got[scale], wanted[scale])
                )
                tally.holds(f"{name}: {key} {stated} ({source})", near, f"shows {got}, wanted {wanted}")
