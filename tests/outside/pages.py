"""Every page of the demo archive and every post as HTML.

Sources: the HTML Living Standard by npm `vnu-jar` 26.9.27; Open Graph's required properties, its article and its form
of a locale (ogp.me); RFC 6596 (the canonical link); WCAG 2.2, 2.4.2 and 3.1.1 (title, language) and 1.3.1 (headings
step down by one); RFC 1952 (gzip) for the weight of a page, within the bounds that the archive was built to.
"""

import gzip

import json
import re
import subprocess
from html.parser import HTMLParser
from urllib.parse import quote, unquote, urljoin, urlsplit

import yaml

from program import INSTALLED, PROJECT

SUBJECT = "pages and posts by the HTML validator; links, addresses, weight"

CHECKER = INSTALLED / "node_modules" / "vnu-jar" / "build" / "dist" / "vnu.jar"

# The checker takes a page from disk as having no origin of its own, so that 'self' matches nothing, and a block of data
# as a script to run. A browser does neither: the group `browser` sees the page styled and working from disk.
NOT_SO = re.compile(r"violates Content Security Policy \(meta tag\)")

OPEN_GRAPH = {"og:title", "og:type", "og:url"}
"""Required on every page, with og:image where there is a picture; the group `pictures` sees to that."""

PAGE, SCRIPTS = 30 * 1024, 15 * 1024
"""The most bytes of a page compressed, and of all scripts as they are."""


class Page(HTMLParser):
    """What a page links to, and its outline."""

    def __init__(self, text):
        super().__init__()
        self.links, self.ids, self.headings, self.properties, self.language = [], set(), [], {}, None
        self.canonical, self.robots = None, None
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
            self.properties.setdefault(given["property"], []).append(given.get("content"))
        if tag == "link" and given.get("rel") == "canonical":
            self.canonical = given.get("href")
        if tag == "meta" and given.get("name") == "robots":
            self.robots = given.get("content")


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
    missing = OPEN_GRAPH - {name for name, contents in page.properties.items() if all(contents)}
    if missing:
        faults.append(f"no {', '.join(sorted(missing))}")
    tally.empty(f"{name}: outline", faults)


def check_address(tally, path, page, site):
    """The one address of a page, in the canonical link and in Open Graph alike; none of a page that is not to be found."""
    if path.name == "404.html":
        tally.equal(f"{path}: not to be found", (page.canonical, page.robots), (None, "noindex"))
        return
    wanted = urljoin(site["url"], quote(str(path).removesuffix("index.html")))
    tally.equal(f"{path}: canonical", page.canonical, wanted)
    tally.equal(f"{path}: og:url", page.properties.get("og:url"), [wanted])
    tally.equal(f"{path}: og:locale", page.properties.get("og:locale"), [site["language"].replace("-", "_")])


def check_article(tally, slug, page):
    """What Open Graph has of an article, from the recipe's file."""
    recipe = yaml.safe_load((PROJECT / "recipes" / f"{slug}.yaml").read_text(encoding="utf-8"))
    told = {name: contents for name, contents in page.properties.items() if name.startswith(("article:", "og:t", "og:d"))}
    wanted = {"og:type": ["article"], "og:title": [recipe["title"]], "og:description": [recipe["summary"]]}
    wanted |= {"article:published_time": [str(recipe["published"])], "article:tag": recipe["tags"]}
    modified = told.pop("article:modified_time", wanted["article:published_time"])
    tally.equal(f"{slug}: as an article", told, wanted)
    tally.holds(f"{slug}: modified when published or later", modified >= wanted["article:published_time"], modified)


def check_weight(tally, root, pages):
    """Bytes of each page as a host sends it, and of the scripts."""
    for path in pages:
        size = len(gzip.compress(path.read_bytes(), 6))
        tally.holds(f"{path.relative_to(root)}: {PAGE:,} bytes at most", size <= PAGE, size)
    scripts = sum(path.stat().st_size for path in root.glob("*.js"))
    tally.holds(f"scripts: {SCRIPTS:,} bytes at most", scripts <= SCRIPTS, scripts)
    heaviest = max(len(gzip.compress(path.read_bytes(), 6)) for path in pages)
    tally.note(f"the heaviest page is {heaviest / 1024:.1f} KiB compressed, all scripts {scripts / 1024:.1f} KiB")


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
    check_weight(tally, root, pages)
    site = yaml.safe_load((PROJECT / "site" / "site.yaml").read_text(encoding="utf-8"))
    slugs = program.slugs()
    for path in pages:
        page, name = Page(path.read_text(encoding="utf-8")), path.relative_to(root)
        check_outline(tally, name, page)
        check_address(tally, name, page, site)
        if str(name.parent) in slugs:
            check_article(tally, str(name.parent), page)
