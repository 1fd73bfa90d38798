"""What reaches a terminal, read from the other end of a pseudo-terminal.

Sources: ECMA-48 for controls and for SGR, the one sequence that colours need; Unicode 16 for controls (general category
Cc); UAX 9 for the characters that turn the direction of text.
"""

import json
import os
import pty
import re
import unicodedata

SUBJECT = "what would act on a terminal is shown, never sent"

COLOURS = re.compile(r"\x1b\[[0-9;]*m")
TURNING = set("\u061c\u200e\u200f\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069\u2028\u2029")
HARM = "\x1b]0;title\x07\x1b[31m\x9b2J\u202etxt\u2066\r\x7f"
"""Sets the title, colours, clears the screen in one byte, turns the text, goes back to the line's start, deletes."""

RECIPE = f"""title: {json.dumps(HARM)}
summary: {json.dumps(HARM)}
makes: one
components:
  - name: {json.dumps("Part " + HARM)}
    ingredients: [{json.dumps("5 g dust " + HARM)}]
    steps: [{json.dumps("Stir " + HARM)}, {{do: Bake., oven: {json.dumps(HARM)}}}]
"""


def seen(command, folder):
    """All that a run sends to its terminal."""
    child, terminal = pty.fork()
    if child == 0:
        os.chdir(folder)
        os.environ.update(TERM="xterm-256color")
        os.execv(command[0], command)
    sent = b""
    while True:
        try:
            piece = os.read(terminal, 65536)
        except OSError:
            break
        if not piece:
            break
        sent += piece
    os.close(terminal)
    os.waitpid(child, 0)
    return sent.decode(errors="replace")


def faults(text):
    """What acts on a terminal, beside line ends and colours."""
    rest = COLOURS.sub("", text).replace("\r\n", "\n")
    acts = [c for c in rest if c in TURNING or (unicodedata.category(c) == "Cc" and c not in "\n\t")]
    return sorted({f"U+{ord(c):04X}" for c in acts})


def check(tally, program):
    folder = program.workspace("terminal", recipes={"harm": RECIPE, "open": f"title: [\n# {HARM}\n"})
    (folder / "recipes" / f"name{HARM.replace('/', '')}.yaml").write_text(f"sumary: {HARM[:-2]}\n", encoding="utf-8")
    (folder / "plain.yaml").write_text("title: T\n", encoding="utf-8")
    rows = [{"id": HARM, "names": [HARM, "harm"], "class": "flavour", "measures": [{"of": "cup", "grams": 1, "source": HARM}]}]
    (folder / "pantry.yaml").write_text(json.dumps(rows), encoding="utf-8")
    runs = [
        ["proof"], ["proof", "--json"], ["proof", "--format", "sarif"], ["proof", "--mend"], ["proof", HARM],
        ["proof", "--" + HARM], ["proof", "--explain", HARM], ["weigh", f"5 g {HARM}", f"{HARM} cups flour", "1 cup harm"],
        ["weigh", "--json", f"5 g {HARM}"], ["pantry", HARM], ["pantry", "harm"], ["pantry", "--json", "harm"], ["pantry"],
        ["describe", "harm", "--stdout"], ["post", "harm", "--stdout"], ["card", "harm", "--stdout"],
        ["publish"], ["archive"], ["archive", "--check"], ["start", HARM.replace("/", "")],
    ]
    shown = 0
    for arguments in runs:
        text = seen([str(program.binary), *arguments], folder)
        tally.empty(f"{arguments[0]} {len(arguments)}", faults(text))
        shown += "<U+001B>" in text or "\\u001b" in text
    tally.holds("most of it is shown by its number", shown >= 12, shown)
    for settings in [f"sumary: {HARM}", f"name: {json.dumps(HARM)}\nlevels: {{{json.dumps(HARM)}: off}}",
                     f"url: {json.dumps(HARM)}", f"eggs: {{region: {json.dumps(HARM)}}}", f"language: {json.dumps(HARM)}"]:
        (folder / "site" / "site.yaml").write_text(settings, encoding="utf-8")
        tally.empty(f"site.yaml {settings[:6]}", faults(seen([str(program.binary), "proof"], folder)))
