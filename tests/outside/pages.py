"""Every page of the demo archive and every post as HTML.

Sources: the HTML Living Standard by npm `vnu-jar` 26.9.27; Open Graph's required properties (ogp.me); WCAG 2.2, 2.4.2
and 3.1.1 (title, language) and 1.3.1 (headings step down by one).
"""

import json
import re
import subprocess
from html.parser import HTMLParser
from urllib.parse import unquote, urlsplit

from program import INSTALLED

SUBJECT = "pages and posts by the HTML validator; links"

CHECKER = INSTALLED / "node_modules" / "vnu-jar" / "build" / "dist" / "vnu.jar"

# The checker takes a page from disk as having no origin of its own, so that 'self' matches nothing, and a block of data
# as a script to run. A browser does neither: the group `browser` sees the page styled and working from disk.
NOT_SO = re.compile(r"violates Content Security Policy \(meta tag\)")

OPEN_GRAPH = {"og:title", "og:type", "og:url"}
"""Required on every page, with og:image where there is a picture."""


class Page(HTMLParser):
    """What a page links to, and its outline."""

    def __init__(self, text):
        super().__init__()
        self.links, self.ids, self.headings, self.properties, self.language = [], set(), [], set(), None
        self.feed(text)

    def handle_starttag(self, tag, attrs):
        given = dict(attrs)
        self.links += [given[name] for name in ("href", "src") if given.get(name)]
        self.ids.add(given.get("id"))
        if re.fullmatch(r"h[1-6]", tag):
            self.headings.append(int(tag[1]))
        if tag == "html":
            self.language = given.get("lang")
        if "property" in given:
            self.properties.add(given["property"])


def validate(folder):
    """The validator's errors and warnings by file name, of every page in a folder."""
    command = ["java", "-Xss4m", "-jar", str(CHECKER), "--format", "json", "--skip-non-html", "--exit-zero-always", str(folder)]
    done = subprocess.run(command, capture_output=True, timeout=600, stdin=subprocess.DEVNULL)
    messages = json.loads(done.stderr.decode() or done.stdout.decode())["messages"]
    found = {"error": {}, "warning": {}}
    for message in messages:
        kind = "error" if message["type"] in ("error", "non-document-error") else message.get("subType")
        if kind in found and not NOT_SO.search(message["message"]):
            name = unquote(urlsplit(message.get("url", "")).path).removeprefix(f"{folder}/")
            text = f"line {message.get('lastLine')}: {message['message']}"
            found[kind].setdefault(name, []).append(text)
    return found


def check_links(tally, root, pages):
    """Every link within the archive leads to a file of it, and every fragment to an element."""
    parsed = {path: Page(path.read_text(encoding="utf-8")) for path in pages}
    for path, page in parsed.items():
        faults = []
        for link in page.links:
            parts = urlsplit(link)
            if parts.scheme or parts.netloc:
                continue
            # The page for addresses that do not exist is served at any of them, so its links start at the archive's root.
            base = root if path.name == "404.html" and parts.path.startswith("/") else path.parent
            target = (base / unquote(parts.path).lstrip("/")).resolve() if parts.path else path
            if not target.is_relative_to(root):
                faults.append(f"{link} leads out of the archive")
            elif not target.is_file():
                faults.append(f"{link} leads nowhere")
            elif parts.fragment and target in parsed and parts.fragment not in parsed[target].ids:
                faults.append(f"{link} has no such place")
        tally.empty(f"{path.relative_to(root)}: links", sorted(set(faults)))


def check_outline(tally, name, page):
    """Language, one first heading, no level skipped, and what Open Graph requires."""
    faults = [] if page.language else ["no language"]
    steps = [(one, other) for one, other in zip(page.headings, page.headings[1:]) if other > one + 1]
    if page.headings.count(1) != 1 or page.headings[0] != 1 or steps:
        faults.append(f"headings {page.headings}")
    if OPEN_GRAPH - page.properties:
        faults.append(f"no {', '.join(sorted(OPEN_GRAPH - page.properties))}")
    tally.empty(f"{name}: outline", faults)


def wrapped(program):
    """A folder with every post as a document of its own: the fragment in the least that a document needs."""
    folder = program.scratch / "wrapped"
    folder.mkdir()
    for path in (program.published() / "posts").glob("*.html"):
        fragment = path.read_text(encoding="utf-8")
        head = f'<!doctype html>\n<html lang="en"><head><meta charset="utf-8"><title>{path.stem}</title></head><body><h1>Posts</h1>\n'
        (folder / path.name).write_text(f"{head}{fragment}\n</body></html>\n", encoding="utf-8")
    return folder


def check(tally, program):
    root, posts = (program.published() / "archive").resolve(), wrapped(program).resolve()
    pages = [path.resolve() for path in program.pages()]
    for folder, files in ((root, pages), (posts, sorted(posts.glob("*.html")))):
        found = validate(folder)
        names = [str(path.relative_to(folder)) for path in files]
        tally.empty(f"{folder.name}: the validator names only its pages", sorted(set(found["error"]) - set(names)))
        for name in names:
            tally.empty(f"{folder.name}/{name}: valid", found["error"].get(name, []))
        kinds = sorted({text.partition(": ")[2] for texts in found["warning"].values() for text in texts})
        for kind in kinds:
            tally.note(f"{folder.name}: warning: {kind}")
    check_links(tally, root, pages)
    for path in pages:
        check_outline(tally, path.relative_to(root), Page(path.read_text(encoding="utf-8")))
