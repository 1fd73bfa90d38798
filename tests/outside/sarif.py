"""Findings in SARIF: every fixture of the rules, and the demo, by the standard's schema and against the files themselves.

Source: SARIF 2.1.0 (OASIS), the schema as the npm package `@microsoft/jest-sarif` carries it; columns count what
`columnKind` says, UTF-16 code units where it says nothing (3.14.17 of the standard).
"""

import json

from program import PROJECT, node

SUBJECT = "findings by the SARIF 2.1.0 schema"

PEOPLE = "title: Quay toast\nmakes: two slices\ncomponents:\n  - name: Rösti 🍞\n    ingredients:\n" \
    "      - 200 g bread\n      - \"🧈 30 g (1 cup) butter\"\n    steps:\n" \
    "      - {do: Spread the butter on the bread., time: 2 min}\n"
"""Signs of more than one code unit before the place of a finding."""

BROKEN = "title: [\n"


def fixtures():
    """A workspace's recipes: every flawed file of the rules, by name."""
    files = sorted((PROJECT / "tests" / "rules").rglob("*.yaml"))
    return {f"{path.parent.name}-{path.stem}".replace(".", "-"): path.read_bytes() for path in files}


def check(tally, program):
    recipes = {**fixtures(), "people": PEOPLE, "broken": BROKEN}
    workspace = program.workspace("sarif", recipes=recipes)
    logs = {
        "fixtures": (workspace, program.run("proof", "--format", "sarif", workspace=workspace)),
        "demo": (PROJECT, program.run("proof", "--format", "sarif")),
    }
    for name, (root, done) in logs.items():
        file = program.scratch / f"{name}.sarif"
        file.write_bytes(done.stdout)
        tally.empty(f"{name}: valid by the schema", node("sarif.mjs", file))
        run = json.loads(done.stdout)["runs"][0]
        bad = any(result["level"] != "note" for result in run["results"])
        tally.equal(f"{name}: exit code", done.returncode, 1 if bad else 0)
        tally.empty(f"{name}: places and rules", [fault for result in run["results"] for fault in faults(result, run, root)])
    results = json.loads(logs["fixtures"][1].stdout)["runs"][0]["results"]
    tally.holds("the fixtures break most rules", len({result["ruleId"] for result in results}) >= 35, len(results))
    tally.equal("the demo has no finding", json.loads(logs["demo"][1].stdout)["runs"][0]["results"], [])


def faults(result, run, root):
    """What is wrong with a result's rule, place or fix."""
    rules = run["tool"]["driver"]["rules"]
    if rules[result.get("ruleIndex", 0)]["id"] != result["ruleId"] and result["ruleId"] not in {rule["id"] for rule in rules}:
        yield f"{result['ruleId']} is no rule of the tool"
    places = [location["physicalLocation"] for location in result["locations"]]
    for place in places:
        uri, region = place["artifactLocation"]["uri"], place.get("region", {})
        path = root / uri
        if not path.is_file():
            yield f"{uri} is no file of the workspace"
            continue
        lines = path.read_text(encoding="utf-8").split("\n")
        start, end = region.get("startLine", 1), region.get("endLine", region.get("startLine", 1))
        if not 1 <= start <= end <= len(lines):
            yield f"{uri}: lines {start} to {end} of {len(lines)}"
            continue
        signs = run.get("columnKind") == "unicodeCodePoints"
        encoding, size = ("utf-32-le", 4) if signs else ("utf-16-le", 2)
        units = [len(line.encode(encoding)) // size for line in lines]
        if not 1 <= region.get("startColumn", 1) <= units[start - 1] + 1 or region.get("endColumn", 1) > units[end - 1] + 2:
            yield f"{uri}:{start}: columns {region}"
        if result["ruleId"] == "stated-pair-disagrees" and "people" in uri:
            line = lines[start - 1].encode(encoding)
            said = line[size * (region["startColumn"] - 1):size * (region["endColumn"] - 1)].decode(encoding)
            if said != "30 g":
                yield f"{uri}: `{said}` is underlined instead of `30 g`"
    for fix in result.get("fixes", []):
        for change in fix["artifactChanges"]:
            if not all(one.get("insertedContent", {}).get("text") for one in change["replacements"]):
                yield f"{result['ruleId']}: a fix that inserts nothing"
