"""Hostile and broken input through the program as it is shipped, and through the debug build where there is one, whose
arithmetic is checked.

Sources: YAML 1.2.2 (aliases, characters), Unicode 15 (bidirectional controls, byte order mark), RFC 3986 (schemes), XML 1.0
(characters that a feed may not hold), and the rule of this program's manual: exit 1 for findings, 2 when it cannot run.
"""

import json
import os
import re
import subprocess
import time
import xml.etree.ElementTree as ElementTree
from html.parser import HTMLParser

from hostile_cases import FAULTY, INERT, LINES, SETTINGS, quote, recipe
from program import PROJECT

SUBJECT = "hostile input: a finding with its place, or inert; never a panic or a hang"

SECONDS = 10
CONTROL = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\x7f\u202a-\u202e\u2066-\u2069]")
SCHEMES = {"http", "https", "mailto"}
TEXTS = {".html", ".xml", ".txt", ".md", ".json", ".css", ".js", ".svg"}
OWN_SCRIPT = re.compile(r"(\.\./)*/?(script|search)\.js")
OWN_FORMS = ({"class": "switches"}, {"class": "search", "role": "search"})


class Program:
    """One binary, with each run watched: its end, its time, no word of a panic."""

    def __init__(self, tally, program, binary):
        self.tally, self.program, self.binary = tally, program, binary
        self.kind = binary.parent.name

    def run(self, what, workspace, *arguments, given=b"", ends=(0, 1)):
        """Exit code and standard error of a run; a panic, a hang or another exit is a failure."""
        began = time.monotonic()
        try:
            done = self.program.run(
                *arguments, workspace=workspace, given=given, timeout=SECONDS, binary=self.binary)
        except subprocess.TimeoutExpired:
            self.tally.holds(f"{self.kind}: {what}: {arguments[0]} ends", False, f"not within {SECONDS} s")
            return None
        error = done.stderr.decode(errors="replace")
        calm = done.returncode in ends and "panicked" not in error
        self.tally.holds(f"{self.kind}: {what}: {arguments[0]} ends well", calm,
                         f"exit {done.returncode} after {time.monotonic() - began:.1f} s: {error[-300:]}")
        return done

    def workspace(self, name, **files):
        return self.program.workspace(f"hostile-{self.kind}-{name}", **files)


def check_sound(hostile):
    """What the faulty ones are made from is sound itself, also as Windows editors save it."""
    texts = {"sound": recipe().encode(), "windows": b"\xef\xbb\xbf" + recipe().replace("\n", "\r\n").encode()}
    for name, text in texts.items():
        hostile.run(name, hostile.workspace(name, recipes={name: text}), "proof", ends=(0,))


def check_faulty(hostile, name, text, place):
    """A finding of level error at its place, and nothing published of the recipe."""
    root = hostile.workspace(name, recipes={name: text})
    done = hostile.run(name, root, "proof", ends=(1,))
    if done is None:
        return
    report = (done.stdout + done.stderr).decode(errors="replace")
    found = re.findall(rf"error\[[a-z-]+\]: .*\n +--> recipes/{name}\.yaml:(\d+:\d+)", report)
    hostile.tally.holds(f"{hostile.kind}: {name}: a finding at {place}", place in found, f"found {found}: {report[:300]}")
    out = root / "out"
    if hostile.run(name, root, "publish", ends=(1,)) is not None:
        made = [str(path.relative_to(out)) for path in out.rglob(f"*{name}*")] if out.is_dir() else []
        hostile.tally.empty(f"{hostile.kind}: {name}: nothing is published", made)


class Inertness(HTMLParser):
    """Collects what a page could run or load."""

    def __init__(self, text):
        super().__init__()
        self.faults = []
        self.feed(text)

    def handle_starttag(self, tag, attrs):
        given = dict(attrs)
        data = given == {"type": "application/ld+json"}
        if tag == "script" and not data and not OWN_SCRIPT.fullmatch(given.get("src") or ""):
            self.faults.append(f"script {given}")
        if tag in ("iframe", "object", "embed", "base", "form") and given not in OWN_FORMS:
            self.faults.append(tag)
        for name, value in given.items():
            if name.startswith("on") or name == "style":
                self.faults.append(f"{tag} {name}")
            scheme = re.match(r"\s*([a-zA-Z][a-zA-Z0-9+.-]*)\s*:", value or "")
            if name in ("href", "src", "action", "srcset") and scheme and scheme[1].lower() not in SCHEMES:
                self.faults.append(f"{tag} {name} {value[:40]}")
            if tag == "img" and "evil.example" in (value or ""):
                self.faults.append(f"loads {value}")


def output_faults(path, payload):
    """What is wrong with one output of a hostile text."""
    if path.suffix == ".pdf":
        done = subprocess.run(["qpdf", "--check", str(path)], capture_output=True, timeout=60)
        return [] if done.returncode == 0 else [done.stdout.decode(errors="replace")]
    if path.suffix not in TEXTS:
        return []
    text = path.read_text(encoding="utf-8")
    faults = [f"control character {one!a}" for one in sorted(set(CONTROL.findall(text)))]
    if path.suffix == ".html":
        faults += Inertness(text).faults
        for block in re.findall(r'<script type="application/ld\+json">(.*?)</script>', text, re.DOTALL):
            json.loads(block)
    elif path.suffix == ".xml":
        ElementTree.fromstring(text)
    elif path.suffix == ".txt" and path.parent.name == "descriptions" and re.search("[<>]", text):
        faults.append("< or > in the description")
    elif path.suffix == ".md" and re.search(r"(?<!\\)<(?:script|img|b|iframe)\b", text.split("\n---\n", 1)[1]):
        faults.append("raw HTML in Markdown")
    if "{{" in payload and "49" in text and path.suffix in (".md", ".txt"):
        faults.append("a template in the text was run")
    return faults


def check_inert(hostile, name, payload):
    """A text in every field: what goes out shows it, and does nothing with it."""
    quoted = quote(payload)
    site = f"name: {quoted}\ntagline: {quoted}\nauthor: {quoted}\nurl: https://quay.example/\ndisclosure: {quoted}\n"
    root = hostile.workspace(name, site=site, recipes={"dish": recipe(everywhere=payload)})
    done = hostile.run(name, root, "publish")
    if done is None:
        return
    outputs = [path for path in sorted((root / "out").rglob("*")) if path.is_file()]
    names = {path.name for path in outputs}
    hostile.tally.holds(f"{hostile.kind}: {name}: is published", {"dish.txt", "dish.md", "dish.pdf"} <= names,
                        done.stderr.decode(errors="replace")[-400:])
    faults = [f"{path.relative_to(root)}: {fault}" for path in outputs for fault in output_faults(path, payload)]
    hostile.tally.empty(f"{hostile.kind}: {name}: inert", faults)


def check_files(hostile):
    """Things in the recipe folder that are no recipes: each is passed over or reported, none waits or is followed."""
    def fifo(folder):
        os.mkfifo(folder / "pipe.yaml")

    makers = {
        "pipe": fifo,
        "endless": lambda folder: os.symlink("/dev/zero", folder / "zero.yaml"),
        "itself": lambda folder: os.symlink("itself.yaml", folder / "itself.yaml"),
        "loop": lambda folder: os.symlink("..", folder / "loop"),
        "folder": lambda folder: (folder / "folder.yaml").mkdir(),
        "outside": lambda folder: os.symlink("/etc/passwd", folder / "outside.yaml"),
    }
    for name, make in makers.items():
        root = hostile.workspace(name, recipes={"dish": recipe()})
        make(root / "recipes")
        done = hostile.run(name, root, "proof")
        if done is not None:
            said = (done.stdout + done.stderr).decode(errors="replace")
            hostile.tally.holds(f"{hostile.kind}: {name}: tells nothing of the system", "root:" not in said)
        hostile.run(name, root, "publish")


def check_settings(hostile):
    """Settings, pantries and templates that cannot be used: exit 2, and the file is named."""
    for at, (file, text) in enumerate(SETTINGS):
        root = hostile.workspace(f"settings-{at}", recipes={"dish": recipe()})
        path = root / file
        path.parent.mkdir(exist_ok=True)
        path.write_bytes(text if isinstance(text, bytes) else text.encode())
        done = hostile.run(f"{file} {text[:30]!r}", root, "publish", ends=(2,))
        if done is not None:
            said = done.stderr.decode(errors="replace")
            hostile.tally.holds(f"{hostile.kind}: {file} {text[:30]!r}: is named", path.name in said, said[:300])


def check_lines(hostile):
    """Ingredient lines: an answer to each, whatever they hold."""
    given = b"\n".join(LINES) + b"\n"
    done = hostile.run("lines", hostile.program.scratch, "weigh", "--json", "-", given=given, ends=(0, 1))
    if done is not None:
        answers = [json.loads(line) for line in done.stdout.decode().splitlines()]
        hostile.tally.equal(f"{hostile.kind}: an answer a line", len(answers), len(LINES))


def check(tally, program):
    debug = PROJECT / os.environ.get("CARGO_TARGET_DIR", "target") / "debug" / "levelcup"
    binaries = dict.fromkeys([program.binary, *([debug.resolve()] if debug.is_file() else [])])
    for binary in binaries:
        hostile = Program(tally, program, binary)
        check_sound(hostile)
        for name, (text, place) in FAULTY.items():
            check_faulty(hostile, name, text, place)
        for name, payload in INERT.items():
            check_inert(hostile, name, payload)
        check_files(hostile)
        check_settings(hostile)
        check_lines(hostile)
    tally.note(f"through {', '.join(binary.parent.name for binary in binaries)}")
