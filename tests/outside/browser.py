"""The demo archive from disk in Chromium.

Sources: WCAG 2.2 (among others 1.4.3 contrast, 1.4.10 reflow at 320 pixels, 2.5.8 size of targets) by npm `axe-core`
4.14.1, driven by `playwright-core` 1.65.1 with Debian's Chromium; Content Security Policy Level 3 and the Layout
Instability API (W3C), as the browser itself reports them: no violation, and nothing moves; the switches by arithmetic:
twice the batch is twice the weight, to the rounding that the page shows.
"""

import shutil

from program import node

SUBJECT = "the archive in a browser: switches, scripts off, widths, movement, accessibility"

BROWSERS = ("chromium", "chromium-browser", "google-chrome")


def executable():
    """Where the browser is; `None` where none is installed."""
    return next(filter(None, map(shutil.which, BROWSERS)), None)


def check(tally, program):
    root = program.published() / "archive"
    slugs = program.slugs()
    recipes = [f"recipe:{slug}/index.html" for slug in slugs]
    pages = [str(path.relative_to(root)) for path in program.pages()]
    # The pages within a folder (`tags/almond/`, `tags/autumn/`) are all made by one template: the first stands for them.
    kinds = {}
    for page in pages:
        folder, *rest = page.split("/")
        if folder not in slugs:
            kinds.setdefault((folder, len(rest)), page)
    others = list(kinds.values())
    path = executable()
    if not tally.holds("a browser is installed", path):
        return
    for result in node("browser.mjs", root, path, *recipes, *others, timeout=1200):
        tally.empty(result["what"], result["faults"], shown=5)
