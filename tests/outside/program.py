"""The program under test, run as a reader would run it."""

import json
import os
import subprocess
import tempfile
from pathlib import Path

OUTSIDE = Path(__file__).resolve().parent
PROJECT = OUTSIDE.parent.parent
INSTALLED = Path(os.environ.get("LEVELCUP_OUTSIDE", PROJECT / "tests" / ".outside"))
"""Where `tests/run` installs what the checks need."""


class Program:
    """The binary, a scratch folder, and the demo workspace published once."""

    def __init__(self, binary):
        self.binary = Path(binary).resolve()
        self._scratch = tempfile.TemporaryDirectory(prefix="levelcup-outside-")
        self.scratch = Path(self._scratch.name)
        self._published = None

    def close(self):
        """Removes the scratch folder."""
        self._scratch.cleanup()

    def run(self, *arguments, workspace=PROJECT, given=b"", timeout=120, binary=None):
        """One run; standard output and error are bytes."""
        command = [str(binary or self.binary), "--workspace", str(workspace), *map(str, arguments)]
        environment = {**os.environ, "NO_COLOR": "1"}
        return subprocess.run(
            command, input=given, capture_output=True, timeout=timeout, cwd=self.scratch, env=environment
        )

    def text(self, *arguments, workspace=PROJECT):
        """Standard output of a run that must come to its end, as text."""
        done = self.run(*arguments, workspace=workspace)
        if done.returncode not in (0, 1) or not done.stdout:
            raise RuntimeError(f"{arguments}: exit {done.returncode}: {done.stderr.decode(errors='replace')}")
        return done.stdout.decode()

    def weigh(self, lines, workspace=None):
        """The JSON answer to each ingredient line, by line."""
        given = "".join(f"{line}\n" for line in lines).encode()
        done = self.run("weigh", "--json", "-", workspace=workspace or self.scratch, given=given)
        answers = [json.loads(line) for line in done.stdout.decode().splitlines()]
        if done.returncode not in (0, 1) or [answer["line"] for answer in answers] != list(lines):
            raise RuntimeError(f"weigh: exit {done.returncode}: {done.stderr.decode(errors='replace')}")
        return {answer["line"]: answer for answer in answers}

    def grams(self, lines, workspace=None):
        """Grams of each line; `None` where it gives none."""
        answers = self.weigh(lines, workspace)
        return {line: (answer["grams"] or {}).get("low") for line, answer in answers.items()}

    def workspace(self, name, site=None, recipes=None):
        """A new workspace in the scratch folder; `site` are settings as text, `recipes` texts by name."""
        root = self.scratch / name
        (root / "recipes").mkdir(parents=True)
        (root / "site").mkdir()
        if site is not None:
            (root / "site" / "site.yaml").write_text(site, encoding="utf-8")
        for slug, text in (recipes or {}).items():
            path = root / "recipes" / f"{slug}.yaml"
            path.write_bytes(text if isinstance(text, bytes) else text.encode())
        return root

    def published(self):
        """The folder with everything that goes out from the demo workspace."""
        if self._published is None:
            out = self.scratch / "demo"
            done = self.run("publish", "--out", out)
            if done.returncode not in (0, 1) or not (out / "archive" / "index.html").is_file():
                raise RuntimeError(f"publish: exit {done.returncode}: {done.stderr.decode(errors='replace')}")
            self._published = out
        return self._published

    def pages(self):
        """Every page of the demo archive."""
        return sorted((self.published() / "archive").rglob("*.html"))

    def slugs(self):
        """The demo recipes' names."""
        return sorted(path.stem for path in (PROJECT / "recipes").glob("*.yaml"))


def node(script, *arguments, timeout=900):
    """The JSON that a script of this folder prints, run by Node with the installed packages."""
    command = ["node", str(OUTSIDE / script), str(INSTALLED / "node_modules"), *map(str, arguments)]
    done = subprocess.run(command, capture_output=True, timeout=timeout, stdin=subprocess.DEVNULL)
    if done.returncode != 0:
        raise RuntimeError(f"{script}: {done.stderr.decode(errors='replace')[-4000:]}")
    return json.loads(done.stdout)
