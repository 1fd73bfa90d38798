"""Photographs of the archive, and what is said of them.

Sources: the HTML Living Standard, 4.8.4 (a candidate's `w` is its width; width and height of the file keep the page
from moving), files read by PyPI `pillow` 13.0.0; EXIF 2.32, tag 274 (how a camera was held) and its GPS block, which
nobody wants published; WCAG 2.2, 1.1.1; Open Graph (og:image and its size); schema.org's `image`.
"""

import json
from html.parser import HTMLParser
from urllib.parse import urljoin, urlsplit

from PIL import Image, ImageDraw

from jsonld import Blocks

SUBJECT = "photographs: widths, upright, without places"

HOME = "https://photos.example/"
SITE = f"name: Photos\nurl: {HOME}\n"

ORIENTATION, GPS = 274, 34853

PHOTOS = {
    # Name: pixels as they lie in the file, how the camera was held, pixels upright.
    "wide.jpg": ((2400, 1600), 1, (2400, 1600)),
    "turned.jpg": ((2000, 1500), 6, (1500, 2000)),
    "small.png": ((420, 630), None, (420, 630)),
    "clear.webp": ((1000, 700), None, (1000, 700)),
}


class Head(HTMLParser):
    """The properties and the photograph of a page."""

    def __init__(self, text):
        super().__init__()
        self.properties, self.images = {}, []
        self.feed(text)

    def handle_starttag(self, tag, attrs):
        given = dict(attrs)
        if tag == "meta" and "property" in given:
            self.properties[given["property"]] = given.get("content")
        if tag == "img":
            self.images.append(given)


def photograph(path, size, held):
    """A picture whose left half is dark, with how it was held and where it was taken."""
    mode = "RGBA" if path.suffix == ".png" else "RGB"
    picture = Image.new(mode, size, "#e8d7a0")
    ImageDraw.Draw(picture).rectangle((0, 0, size[0] // 2, size[1]), fill="#402010")
    exif = Image.Exif()
    if held:
        exif[ORIENTATION] = held
        exif.get_ifd(GPS)[2] = (59.0, 20.0, 30.0)
    picture.save(path, exif=exif) if held else picture.save(path)


def workspace(program):
    recipe = "title: The {0}\npublished: 2026-02-03\nphoto: {{file: {1}, alt: A picture of the {0}}}\ncomponents:\n" \
        "  - name: Base\n    ingredients: [100 g sugar]\n    steps: [Mix it.]\n"
    recipes = {name.split(".")[0]: recipe.format(name.split(".")[0], name) for name in PHOTOS}
    root = program.workspace("photos", site=SITE, recipes=recipes)
    (root / "site" / "photos").mkdir()
    for name, (size, held, _) in PHOTOS.items():
        photograph(root / "site" / "photos" / name, size, held)
    done = program.run("archive", workspace=root)
    if done.returncode not in (0, 1):
        raise RuntimeError(done.stderr.decode(errors="replace"))
    return root / "out" / "archive"


def is_upright(picture, held):
    """Whether the dark half lies where the eye saw it: on the left, or on top where the camera was turned."""
    picture = picture.convert("L")
    width, height = picture.size
    at = (width // 2, height // 10) if held == 6 else (width // 10, height // 2)
    return picture.getpixel(at) < 100


def check_photo(tally, root, name):
    slug, (_, held, (width, height)) = name.split(".")[0], PHOTOS[name]
    text = (root / slug / "index.html").read_text(encoding="utf-8")
    page, blocks = Head(text), Blocks()
    blocks.feed(text)
    if not tally.equal(f"{name}: one picture on its page", len(page.images), 1):
        return
    image = page.images[0]
    candidates = [candidate.split() for candidate in image["srcset"].split(", ")]
    for address, said in candidates:
        with Image.open(root / slug / address) as picture:
            tally.equal(f"{address}: width", f"{picture.width}w", said)
            tally.near(f"{address}: ratio", picture.width / picture.height, width / height, 1 / picture.height + 1 / picture.width)
            tally.holds(f"{address}: never enlarged", picture.width <= width, picture.width)
            tally.holds(f"{address}: upright", is_upright(picture, held))
            tally.equal(f"{address}: nothing of the camera is published", dict(picture.getexif()), {})
    addresses = [address for address, _ in candidates]
    tally.equal(f"{name}: widths ascend", addresses, sorted(addresses, key=lambda one: Image.open(root / slug / one).width))
    tally.holds(f"{name}: src is one of them", image["src"] in addresses, image["src"])
    with Image.open(root / slug / image["src"]) as picture:
        tally.equal(f"{name}: width and height", (image["width"], image["height"]), (str(picture.width), str(picture.height)))
        told = (page.properties.get("og:image:width"), page.properties.get("og:image:height"))
        tally.equal(f"{name}: og:image:width and height", told, (str(picture.width), str(picture.height)))
    tally.holds(f"{name}: sizes for the browser to choose by", image.get("sizes"))
    tally.equal(f"{name}: its text", (image["alt"], page.properties.get("og:image:alt")), (f"A picture of the {slug}",) * 2)
    named = [page.properties.get("og:image"), *json.loads(blocks.texts[0])["image"]]
    tally.equal(f"{name}: one address for others", named, [urljoin(HOME, f"photos/{slug}.jpg")] * 2)
    tally.holds(f"{name}: it is there", (root / urlsplit(named[0] or "").path.lstrip("/")).is_file())


def check(tally, program):
    root = workspace(program)
    for name in PHOTOS:
        check_photo(tally, root, name)
