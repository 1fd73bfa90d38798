"""The archive's feeds, site map and robots file.

Sources: RFC 4287 sections 4.1.1 and 4.1.2 (required elements), RFC 3339 (dates); PyPI `feedparser` 6.0.14 as a reader;
JSON Feed 1.1 (version, title and items required; an item's id a string, and its content); the sitemaps.org protocol; RFC 9309 for robots.txt.
"""

import json
import re
import xml.etree.ElementTree as ElementTree
from urllib.parse import urljoin
from urllib.robotparser import RobotFileParser

import feedparser
import yaml

from program import PROJECT

SUBJECT = "feeds and site map by their standards"

ATOM = "{http://www.w3.org/2005/Atom}"
SITEMAP = "{http://www.sitemaps.org/schemas/sitemap/0.9}"
RFC3339 = re.compile(r"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d(\.\d+)?(Z|[+-]\d\d:\d\d)")
W3C_DATE = re.compile(r"\d{4}(-\d\d(-\d\d(T\d\d:\d\d(:\d\d(\.\d+)?)?(Z|[+-]\d\d:\d\d))?)?)?")


def recipes():
    """Title and day of publication of each demo recipe that has one, by name."""
    found = {}
    for path in sorted((PROJECT / "recipes").glob("*.yaml")):
        recipe = yaml.safe_load(path.read_text(encoding="utf-8"))
        if recipe.get("published"):
            found[path.stem] = (recipe["title"], str(recipe["published"]))
    return found


def once(tally, element, names):
    """Each of the elements stands exactly once in another."""
    title = element.findtext(f"{ATOM}title")
    for name in names:
        tally.equal(f"{title}: one {name}", len(element.findall(ATOM + name)), 1)


def check_atom(tally, path, home):
    feed = ElementTree.parse(path).getroot()
    tally.equal("the root is an Atom feed", feed.tag, f"{ATOM}feed")
    once(tally, feed, ["id", "title", "updated"])
    entries = feed.findall(f"{ATOM}entry")
    for entry in entries:
        once(tally, entry, ["id", "title", "updated"])
        links = [link for link in entry.findall(f"{ATOM}link") if link.get("rel", "alternate") == "alternate"]
        has_content = entry.find(f"{ATOM}content") is not None
        tally.holds(f"{entry.findtext(f'{ATOM}title')}: content or a link", has_content or len(links) == 1)
    authors = [element.find(f"{ATOM}author/{ATOM}name") for element in [feed, *entries]]
    tally.holds("an author of the feed or of every entry", authors[0] is not None or None not in authors[1:])
    dates = [element.text for name in ("updated", "published") for element in feed.iter(ATOM + name)]
    tally.empty("dates by RFC 3339", [date for date in dates if not RFC3339.fullmatch(date)])
    tally.equal("the feed is as new as its newest entry", feed.findtext(f"{ATOM}updated"),
                max(entry.findtext(f"{ATOM}updated") for entry in entries))
    own = [link.get("href") for link in feed.findall(f"{ATOM}link") if link.get("rel") == "self"]
    tally.equal("its own address", own, [urljoin(home, "feed.xml")])


def check_reading(tally, path, home):
    """What a reader of feeds sees."""
    read = feedparser.parse(path.read_bytes())
    tally.holds("a reader takes it without a fault", not read.bozo, read.get("bozo_exception"))
    tally.equal("version", read.version, "atom10")
    wanted = {urljoin(home, f"{slug}/"): found for slug, found in recipes().items()}
    ids = [entry.id for entry in read.entries]
    tally.equal("an entry a published recipe", sorted(entry.link for entry in read.entries), sorted(wanted))
    tally.equal("ids are unique", len(set(ids)), len(ids))
    for entry in read.entries:
        title, day = wanted.get(entry.link, (None, None))
        tally.equal(f"{entry.link}: title and day", (entry.title, entry.published[:10]), (title, day))
        tally.holds(f"{entry.link}: a summary without markup", entry.get("summary") and "<" not in entry.summary)
    days = [entry.published for entry in read.entries]
    tally.equal("newest first", days, sorted(days, reverse=True))


def check_json(tally, path, home):
    feed = json.loads(path.read_text(encoding="utf-8"))
    tally.equal("JSON Feed: version", feed.get("version"), "https://jsonfeed.org/version/1.1")
    tally.holds("JSON Feed: a title", isinstance(feed.get("title"), str) and feed["title"])
    tally.equal("JSON Feed: addresses", (feed.get("home_page_url"), feed.get("feed_url")), (home, urljoin(home, "feed.json")))
    items = feed["items"]
    wanted = sorted(urljoin(home, f"{slug}/") for slug in recipes())
    tally.equal("JSON Feed: an item a published recipe", sorted(item["id"] for item in items), wanted)
    people = [author.get("name") for author in feed.get("authors", [])]
    tally.equal("JSON Feed: authors, and not the author of version 1", (people, "author" in feed), (["Tern Quay Bakery"], False))
    tally.equal("JSON Feed: language", feed.get("language"), "en-US")
    known = {"id", "url", "external_url", "title", "content_html", "content_text", "summary", "image", "banner_image",
             "date_published", "date_modified", "authors", "tags", "language", "attachments"}
    tally.empty("JSON Feed: fields of an item", sorted(set().union(*items) - known))
    dates = [item["date_published"] for item in items]
    tally.equal("JSON Feed: newest first", dates, sorted(dates, reverse=True))
    for item in items:
        tally.equal(f"JSON Feed: {item['id']}: address", item.get("url"), item["id"])
        tags = item.get("tags", [])
        tally.holds(f"JSON Feed: {item['id']}: tags", all(isinstance(tag, str) and tag for tag in tags), tags)
        content = isinstance(item.get("content_text", item.get("content_html")), str)
        dates = [item[name] for name in ("date_published", "date_modified")]
        faults = [date for date in dates if not RFC3339.fullmatch(date)] + ([] if content else ["no content"])
        tally.empty(f"JSON Feed: {item['id']}", faults)


def check_sitemap(tally, path, home, pages):
    data = path.read_bytes()
    urlset = ElementTree.fromstring(data)
    tally.equal("the root is a urlset", urlset.tag, f"{SITEMAP}urlset")
    urls = urlset.findall(f"{SITEMAP}url")
    addresses = [url.findtext(f"{SITEMAP}loc") for url in urls]
    tally.equal("an address a page", sorted(addresses), sorted(pages))
    tally.empty("one host", [address for address in addresses if not address.startswith(home)])
    tally.empty("under 2,048 characters", [address for address in addresses if len(address) >= 2048])
    dates = [url.findtext(f"{SITEMAP}lastmod", default="2000") for url in urls]
    tally.empty("dates by W3C's form", [date for date in dates if not W3C_DATE.fullmatch(date)])
    tally.holds("within 50,000 addresses and 50 MB", len(urls) <= 50_000 and len(data) <= 52_428_800)


def check(tally, program):
    root = program.published() / "archive"
    home = yaml.safe_load((PROJECT / "site" / "site.yaml").read_text(encoding="utf-8"))["url"]
    check_atom(tally, root / "feed.xml", home)
    check_reading(tally, root / "feed.xml", home)
    check_json(tally, root / "feed.json", home)
    # A page of a folder is its `index.html`; the page for addresses that do not exist has none of its own.
    pages = [urljoin(home, str(path.relative_to(root)).removesuffix("index.html"))
             for path in program.pages() if path.name != "404.html"]
    check_sitemap(tally, root / "sitemap.xml", home, pages)
    robots = RobotFileParser()
    robots.parse((root / "robots.txt").read_text(encoding="utf-8").splitlines())
    tally.equal("robots.txt names the site map", robots.site_maps(), [urljoin(home, "sitemap.xml")])
    tally.holds("robots.txt lets readers in", robots.can_fetch("*", home))
