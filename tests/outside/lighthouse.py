"""Pages of the demo archive by Lighthouse.

Source: npm `lighthouse` 12.8.2 with its own weights and throttling (a phone on a slow network, simulated), driven in
Debian's Chromium; 90 and above is its green, 95 the bound here. A busy machine slows a page down: what falls short is
measured once more.
"""

from browser import executable
from program import node

SUBJECT = "Lighthouse: performance, accessibility, best practices, search engines"

LEAST = 95


def check(tally, program):
    path = executable()
    if not tally.holds("a browser is installed", path):
        return
    root = program.published() / "archive"
    pages = ["", f"{program.slugs()[0]}/", "search/"]
    measured = {one["page"]: one for one in node("lighthouse.mjs", root, path, *pages)}
    weak = [page for page in pages if min(measured[page]["scores"].values()) < LEAST]
    if weak:
        measured |= {one["page"]: one for one in node("lighthouse.mjs", root, path, *weak)}
    for page, one in measured.items():
        name = page or "home"
        for category, score in one["scores"].items():
            tally.holds(f"{name}: {category} is {LEAST} at least", score >= LEAST, f"{score}: {', '.join(one['wanting'])}")
        tally.note(f"{name}: {', '.join(f'{category} {score}' for category, score in one['scores'].items())}")
