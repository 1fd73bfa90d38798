"""The inputs of the group `hostile`."""

import json


def quote(text):
    """A text as YAML's double-quoted form."""
    return json.dumps(text, ensure_ascii=False).replace("\x7f", "\\x7f").replace("\ufeff", "\\ufeff")


def recipe(title="Loaf", line="100 g plain flour", step="{do: Mix it., time: 5 min}", more="", everywhere=None):
    """A small recipe without a finding, with one thing changed; `everywhere` is put into every field of text."""
    if everywhere is None:
        return (f"title: {title}\nmakes: one loaf\ncomponents:\n  - name: Dough\n    ingredients:\n      - {line}\n"
                f"    steps:\n      - {step}\n{more}")
    text = quote(everywhere)
    return f"""title: {text}
summary: {text}
makes: {text}
published: 2026-03-01
tags: [{text}]
video: {{url: "https://video.example/dish", length: "10:00"}}
links:
  - {{what: {text}, url: "https://shop.example/a", for: gear, paid: true}}
components:
  - name: {text}
    ingredients:
      - {{amount: 100 g, name: plain flour, prep: {text}, note: {text}}}
      - {{amount: 50 g, name: {text}}}
    steps:
      - {{do: {text}, time: 5 min, until: {text}, mind: {text}, at: "0:00"}}
      - {{do: Knead it., time: 5 min, at: "1:00"}}
      - {{do: Cool it., wait: 5 min, at: "2:00"}}
corrections:
  - {{on: 2026-03-02, what: {text}}}
"""


def _bomb():
    levels = [f"{name}: &{name} [{', '.join([f'*{inner}'] * 9)}]\n" for inner, name in zip("abcdefgh", "bcdefghi")]
    return "a: &a [x, x, x, x, x, x, x, x, x]\n" + "".join(levels) + recipe()


# Text of a recipe file that must be refused, and where the finding must point.
FAULTY = {
    "alias-bomb": (_bomb(), "2:8"),
    "alias-loop": ("title: &a [*a]\n", "1:12"),
    "merge-key": ("x: &x {title: Loaf}\n<<: *x\n", "2:5"),
    "python-tag": ("title: !!python/object/apply:os.system ['id']\n" + recipe().partition("\n")[2], "1:8"),
    "include-tag": (recipe(title="!include /etc/passwd"), "1:8"),
    "deep-flow": ("title: " + "[" * 10_000 + "]" * 10_000 + "\n", "1:263"),
    "deep-map": ("title: " + "{a: " * 5_000 + "1" + "}" * 5_000 + "\n", "1:104"),
    "ten-megabytes": (recipe() + "# " + "x" * 10_000_000 + "\n", "1:1"),
    "not-utf8": (recipe().encode() + b"summary: \xff\xfe\n", "9:10"),
    "utf16": (recipe().encode("utf-16"), "1:1"),
    "nul": (recipe(title="Lo\0af"), "1:10"),
    "escape": (recipe(title="Lo\x1b[31maf"), "1:10"),
    "surrogate": (recipe(title='"\\uD800"'), "1:8"),
    "empty": ("", "1:1"),
    "a-list": ("- a\n", "1:1"),
    "two-documents": (recipe() + "---\n" + recipe(), "9:1"),
    "unclosed": ('title: "Loaf\n', "1:8"),
    "tab": ("title: Loaf\ncomponents:\n\t- name: x\n", "3:1"),
    "key-twice": (recipe(more="title: Again\n"), "9:1"),
    "unknown-key": (recipe(more="titel: Again\n"), "9:1"),
    "photo-up": (recipe(more="photo: {file: ../../../etc/passwd, alt: x}\n"), "9:15"),
    "photo-absolute": (recipe(more="photo: {file: /etc/passwd, alt: x}\n"), "9:15"),
    "photo-nul": (recipe(more='photo: {file: "a\\0.jpg", alt: x}\n'), "9:15"),
    "photo-missing": (recipe(more="photo: {file: none.jpg, alt: x}\n"), "9:15"),
    "script-link": (recipe(more="links:\n  - {what: x, url: 'javascript:alert(1)'}\n"), "10:20"),
    "data-link": (recipe(more="links:\n  - {what: x, url: 'data:text/html,<script>alert(1)</script>'}\n"), "10:20"),
    "file-link": (recipe(more="links:\n  - {what: x, url: 'file:///etc/passwd'}\n"), "10:20"),
    "script-video": (recipe(more="video: {url: ' JaVaScRiPt:alert(1)'}\n"), "9:14"),
    "huge-number": (recipe(line="999999999999999999999999999999 g plain flour"), "6:9"),
    "huge-cups": (recipe(line="9223372036854775807 cups plain flour"), "6:9"),
    "huge-fraction": (recipe(line="1/99999999999999999999 cup plain flour"), "6:11"),
    "by-zero": (recipe(line="1/0 cup plain flour"), "6:9"),
    "zero": (recipe(line="0 g plain flour"), "6:9"),
    "long-line": (recipe(line="100 g " + "flour " * 100_000), "6:9"),
    "many-amounts": (recipe(line=" + ".join(["1 cup"] * 20_000) + " plain flour"), "6:9"),
    "brackets": (recipe(line='"1 cup ' + "(" * 9_000 + '"'), "6:10"),
    "brackets-too-many": (recipe(line='"1 cup ' + "(" * 50_000 + '"'), "6:9"),
    "long-time": (recipe(step="{do: Bake., time: 99999999999999999999 h}"), "8:27"),
    "hot-oven": (recipe(step="{do: Bake., oven: 999999999 °C}"), "8:27"),
    "below-zero": (recipe(step="{do: Bake., oven: -300 °C}"), "8:27"),
    "late-stamp": (recipe(step='{do: Bake., at: "99999999999999999:99"}'), "8:25"),
    "no-date": (recipe(more="published: 2026-13-45\n"), "9:12"),
    "serves-less": (recipe(more="serves: -1\n"), "9:9"),
    "serves-many": (recipe(more="serves: 99999999999999999999999\n"), "9:9"),
    "in-a-circle": ("title: x\nmakes: one\ncomponents:\n  - name: A\n    uses: [B]\n  - name: B\n    uses: [A]\n", "5:12"),
}

# Texts for every field: published, shown, and without effect.
INERT = {
    "script": "<script>alert(1)</script>",
    "attribute": "\"><img src=x onerror=alert(1)> ' onmouseover='alert(1)",
    "closing": "</script></style></title></textarea>--> ]]> <!-- <![CDATA[",
    "template": "{{ 7 * 7 }}{% include \"/etc/passwd\" %}{# c #}{{ site.name }}",
    "markdown": "[a](javascript:alert(1)) [b](data:text/html,x) ![c](https://evil.example/c.png) <b onclick=x>d</b> "
                "<https://evil.example> `e` ***f*** | g | # h",
    "reference": "[a]: javascript:alert(1)\n\n[a] &lt;script&gt; &#60;script&#62; \\<script\\>",
    "control": "Lo\u0007af \u001b[31m red \u0000\u0008 \u007f",
    "right-to-left": "Loaf \u202efaol\u202c \u2067x\u2069 \u200f\u200e",
    "marks": "e\u0301" + "\u0301" * 500 + " \ufeff\u200b\u00ad x",
    "wide": "🥖 loaf 👩‍🍳 𝕷𝖔𝖆𝖋 خبز 面包 हलवा",
    "long-word": "Loaf" * 400,
    "yaml": "--- # ' \" : {a: [b, &c *d !e %f @g `h",
    "formula": "=1+1 @SUM(A1) +cmd|' /C calc'!A0",
    "fence": "```\n---\ntitle: x\n---\n~~~\n    code\n> quote\n1. one\n- two",
}

# Files of a workspace that cannot be used, each beside a recipe that can.
SETTINGS = [
    ("site/site.yaml", "a: &a [b]\nname: *a\n"),
    ("site/site.yaml", "x" * 3_000_000),
    ("site/site.yaml", b"\xff"),
    ("site/site.yaml", "name: {{ x }}\n"),
    ("site/site.yaml", "accent: 'red;}body{display:none'\n"),
    ("site/site.yaml", "url: javascript:alert(1)\n"),
    ("site/site.yaml", "language: ../../etc\n"),
    ("site/site.yaml", "cups: 1000\n"),
    ("pantry.yaml", "- id: x\n"),
    ("pantry.yaml", "x" * 3_000_000),
    ("pantry.yaml", "- {id: x, names: [plain flour], class: structure, measures: [{of: cup, grams: -5, source: me}]}\n"),
    ("pantry.yaml", "- {id: x, names: [my flour], class: structure, measures: [{of: cup, grams: .nan, source: me}]}\n"),
    ("pantry.yaml", "- {id: x, names: [my flour], class: structure, measures: [{of: cup, grams: 1e300, source: me}]}\n"),
    ("templates/post.md", "{{ recipe.title"),
    ("templates/post.md", "{{ recipe.no_such_field }}"),
    ("templates/post.md", '{% include "/etc/passwd" %}'),
    ("templates/post.md", b"\xff"),
]

# Ingredient lines for `weigh`.
LINES = [
    b"", b" ", b"\x00", b"\xff\xfe", b"\x1b[31m100 g flour", b"1/0 cup flour", b"-5 g flour", b"NaN g flour", b"1e999 g flour",
    b"9" * 4_000 + b" g flour", b"0." + b"0" * 4_000 + b"1 g flour", b"1/" + b"9" * 30 + b" cup flour",
    b"9223372036854775807 cups flour", b"9223372036854775807 kg flour", b"999999999 gallons flour", b"1 mg flour",
    b"5-1 g flour", b"1" + b" + 1" * 5_000 + b" cups flour", b"(" * 10_000, b")" * 10_000, b"1 cup " + b"x" * 900_000,
    b"1 cup " + b"very " * 20_000 + b"old flour", "½¼¾⅓ cup flour".encode(), "1⁄2 cup flour".encode(), "١٢ g flour".encode(),
    "１００ g flour".encode(), "100 g \u202efl\u202cour".encode(), "100\u00a0g\u2009flour".encode(), b"{{ 7*7 }} g flour",
    b"<script>alert(1)</script>", b"a pinch of a pinch of a pinch", b"2 x 2 x 2 x 400 g tins tomatoes", b"1 cup", b"flour",
    b"to taste to taste", b"0 cups flour", b"1-1-1 cups flour", b"1 cup flour or or or", b"100 g / / / flour", b"=SUM(A1) g flour",
]
