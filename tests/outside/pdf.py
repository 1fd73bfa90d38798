"""Every demo card in every size as PDF.

Sources: the PDF specification by Debian's `qpdf --check`; fonts, text, structure and page sizes by poppler's `pdffonts`,
`pdftotext` and `pdfinfo`; paper sizes by ISO 216 (A4, A5, A6) and in inches for the others; PDF/UA-1 (ISO 14289-1)
clauses 6.1, 7.1, 7.2, 7.4.2 and 7.21 as far as these programs show them; the QR code by PyPI `zxing-cpp`.
"""

import re
import subprocess
from concurrent.futures import ThreadPoolExecutor

import yaml
import zxingcpp
from PIL import Image

from program import PROJECT

SUBJECT = "cards by qpdf, poppler and a reader of QR codes"

MM, INCH = 72 / 25.4, 72.0
SIZES = {
    "a4": (210 * MM, 297 * MM), "a5": (148 * MM, 210 * MM), "a6": (105 * MM, 148 * MM),
    "4x6": (4 * INCH, 6 * INCH), "5x8": (5 * INCH, 8 * INCH),
    "half-letter": (5.5 * INCH, 8.5 * INCH), "letter": (8.5 * INCH, 11 * INCH),
}
NEAR = 0.05
"""Points that a page may be off: a fiftieth of a millimetre."""

FIRST_WORDS = 28
"""Letters of a step that are looked for: more than any two demo steps of a recipe have in common."""


def tool(*command):
    """What a program prints; a fault of it is part of that."""
    done = subprocess.run(command, capture_output=True, timeout=120, stdin=subprocess.DEVNULL)
    text = done.stdout.decode("utf-8", errors="replace")
    return text if done.returncode == 0 else f"{text}\nexit {done.returncode}: {done.stderr.decode(errors='replace')}"


def squeezed(text):
    """Text without what line breaking adds: spaces, soft hyphens, and the case of small capitals."""
    return re.sub(r"[\s\u00ad\u200b]+", "", text).lower()


def wanted_texts(program, slug):
    """Title, ingredient names, and the first words of each step, as the author wrote them."""
    recipe = yaml.safe_load((PROJECT / "recipes" / f"{slug}.yaml").read_text(encoding="utf-8"))
    names, steps = [], []
    for component in recipe["components"]:
        lines = component.get("ingredients", [])
        short = [line for line in lines if isinstance(line, str)]
        names += [answer["name"] for answer in program.weigh(short, PROJECT).values()]
        names += [line["name"] for line in lines if not isinstance(line, str)]
        for step in component.get("steps", []):
            words = step if isinstance(step, str) else step["do"]
            # Numbers may be shown in both systems, so a step is known by what stands before its first one.
            before = re.split(r"[−-]?\d", re.sub(r"[*_`]", "", words))[0]
            steps.append(squeezed(before)[:FIRST_WORDS])
    return recipe["title"], [squeezed(name) for name in names], steps


def order_faults(text, needles):
    """Needles that do not follow each other in a text, each after the one before."""
    faults, at = [], 0
    for needle in needles:
        found = text.find(needle, at)
        if found < 0:
            faults.append(needle)
        else:
            at = found + len(needle)
    return faults


def font_faults(listing):
    """Fonts that are not embedded, not cut down to what is used, or have no way back to text."""
    lines = listing.splitlines()
    if len(lines) < 3 or not lines[1].startswith("---"):
        return [listing or "no fonts"]
    found = [re.search(r"\s(yes|no) (yes|no) (yes|no)\s+\d+\s+\d+$", line) for line in lines[2:]]
    return [line for line, flags in zip(lines[2:], found) if not flags or "no" in flags.groups()]


def size_faults(information, wanted):
    """Pages whose size is not the paper's."""
    sizes = re.findall(r"Page +\d+ size: +([\d.]+) x ([\d.]+) pts", information)
    return [size for size in sizes if any(abs(float(got) - want) > NEAR for got, want in zip(size, wanted))] or (
        [] if sizes else ["no pages"])


def structure_faults(structure):
    """First heading not of the first level, a level skipped, or no table where there are ingredients."""
    levels = [int(level) for level in re.findall(r"^\s*H([1-6])\b", structure, re.MULTILINE)]
    faults = [] if levels[:1] == [1] else [f"headings {levels}"]
    faults += [f"H{one} then H{other}" for one, other in zip(levels, levels[1:]) if other > one + 1]
    return faults + ([] if re.search(r"^\s*Table\b", structure, re.MULTILINE) else ["no table"])


def batch_faults(layout):
    """Rows of a bench card whose weights are not as one to two to four, to the rounding that they are shown with."""
    weight = r"([\d,.]+) g"
    rows = re.findall(rf"^ *{weight} +{weight} +{weight} ", layout, re.MULTILINE)
    faults = [] if rows else ["no rows"]
    for row in rows:
        one, *others = [float(text.replace(",", "")) for text in row]
        for times, other in zip((2, 4), others):
            half_steps = [0.05 if shown < 3 else 0.25 if shown < 10 else 0.5 for shown in (one, other)]
            if abs(other - times * one) > half_steps[1] + times * half_steps[0] + 1e-9:
                faults.append(f"{one} g x {times} is {other} g")
    return faults


def examine(card):
    """All faults of one card by kind."""
    path, size, (title, names, steps), language = card
    information = tool("pdfinfo", "-f", "1", "-l", "999", str(path))
    facts = dict(re.findall(r"^([^:]+): +(.*)$", information, re.MULTILINE))
    structure = tool("pdfinfo", "-struct-text", str(path))
    # In the order of the content: what is copied from a card, however its columns lie.
    copied = tool("pdftotext", "-raw", str(path), "-")
    plain = squeezed(copied)
    # A hyphen at a line's end is a piece of its own; `pdfinfo` gives its glyph where other readers give a soft hyphen.
    spoken = squeezed(re.sub(r'^\s*"(?:-"$)?|"$', "", structure, flags=re.MULTILINE))
    stated = {"Tagged": "yes", "Title": title, "Suspects": "no", "Encrypted": "no", "JavaScript": "no"}
    checked = tool("qpdf", "--check", str(path))
    bench = path.stem.endswith("-bench")
    return {
        "batches": batch_faults(tool("pdftotext", "-layout", str(path), "-")) if bench else [],
        "column names": [] if re.search(r"\bIngredient\b", copied) else ["not read as `Ingredient`"],
        "qpdf": [] if "No syntax or stream encoding errors found" in checked else [checked],
        "fonts": font_faults(tool("pdffonts", str(path))),
        "size": size_faults(information, SIZES[size]),
        "stated": [f"{key}: {facts.get(key)}" for key, value in stated.items() if facts.get(key) != value],
        "version": [] if facts.get("PDF version", "").startswith("1.") else ["not PDF 1.x"],
        "language": [] if f"/Lang ({language})" in catalogue(path) else ["no language"],
        "structure": structure_faults(structure),
        "ingredients": [name for name in names if name not in plain or name not in spoken],
        "steps": order_faults(plain, steps),
        "steps for a reader": order_faults(spoken, steps),
        "replacement characters": re.findall("[\ufffd\ue000-\uf8ff]", plain),
    }


def catalogue(path):
    """The document's root object."""
    root = re.search(r"/Root (\d+) (\d+) R", tool("qpdf", "--show-object=trailer", str(path)))
    return tool("qpdf", f"--show-object={root[1]},{root[2]}", str(path)) if root else ""


def codes(path, folder):
    """What the QR codes on a card's pages say."""
    tool("pdftoppm", "-r", "200", "-gray", "-png", str(path), str(folder / path.stem))
    found = []
    for page in sorted(folder.glob("*.png")):
        with Image.open(page) as picture:
            found += [code.text for code in zxingcpp.read_barcodes(picture)]
        page.unlink()
    return found


def check_sheets(tally, program):
    """Small cards together on a larger paper: as many pages as hold them, each of the paper's size."""
    for size, paper, fit in (("a6", "a4", 4), ("4x6", "letter", 2)):
        out = program.scratch / f"sheets-{size}"
        program.run("card", "--size", size, "--sheet", paper, "--out", out)
        path = out / "cards" / "sheets" / f"{size}-on-{paper}.pdf"
        sides = sum(int(re.search(r"Pages: +(\d+)", tool("pdfinfo", str(card)))[1])
                    for card in (program.scratch / f"cards-{size}" / "cards").glob("*.pdf"))
        information = tool("pdfinfo", "-f", "1", "-l", "999", str(path))
        tally.empty(f"{path.name}: size", size_faults(information, SIZES[paper]))
        tally.holds(f"{path.name}: sound", "No syntax" in tool("qpdf", "--check", str(path)))
        tally.empty(f"{path.name}: fonts", font_faults(tool("pdffonts", str(path))))
        pages = int((re.search(r"Pages: +(\d+)", information) or [0, 0])[1])
        tally.holds(f"{path.name}: room for {sides} sides", pages * fit >= sides, f"{pages} pages")


def check(tally, program):
    site = yaml.safe_load((PROJECT / "site" / "site.yaml").read_text(encoding="utf-8"))
    wanted = {slug: wanted_texts(program, slug) for slug in program.slugs()}
    cards = []
    for size in SIZES:
        out = program.scratch / f"cards-{size}"
        program.run("card", "--size", size, "--out", out)
        cards += [(out / "cards" / f"{slug}.pdf", size, texts, site["language"]) for slug, texts in wanted.items()]
    for size in ("a5", "a4"):
        out = program.scratch / f"bench-{size}"
        program.run("card", "--bench", "--size", size, "--out", out)
        cards += [(out / "cards" / f"{slug}-bench.pdf", size, texts, site["language"]) for slug, texts in wanted.items()]
    with ThreadPoolExecutor(max_workers=2) as pool:
        for card, faults in zip(cards, pool.map(examine, cards)):
            for kind, found in faults.items():
                tally.empty(f"{card[0].stem} {card[1]}: {kind}", found, shown=6)
    folder = program.scratch / "codes"
    folder.mkdir()
    for path, size, *_ in cards:
        if size in ("4x6", "a5") and not path.stem.endswith("-bench"):
            tally.equal(f"{path.stem} {size}: the code", codes(path, folder), [f"{site['url']}{path.stem}/"])
    check_sheets(tally, program)
