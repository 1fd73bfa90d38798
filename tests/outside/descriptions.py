"""The description of every demo recipe by the video host's limits.

Sources: the host's API reference (5,000 bytes of UTF-8, no < and >) and its help page on chapters (the first at 0:00, at
least three, ascending, ten seconds and more each); over fifteen hashtags were ignored by its older help page.
"""

import re

SUBJECT = "descriptions by the video host's limits"

STAMP = re.compile(r"^(?:(\d{1,2}):)?(\d{1,2}):(\d\d) (\S.*)$", re.MULTILINE)
TIMESTAMP_ELSEWHERE = re.compile(r"(?m)^\s*[\[(]?\d{1,2}:\d\d(?::\d\d)?[\])]?\s*$")
LIMIT = 5_000


def chapters(text):
    """Seconds and title of each chapter."""
    return [(int(hours or 0) * 3600 + int(minutes) * 60 + int(seconds), title)
            for hours, minutes, seconds, title in STAMP.findall(text)]


def check(tally, program):
    folder = program.published() / "descriptions"
    texts = {path.stem: path.read_bytes() for path in sorted(folder.glob("*.txt"))}
    tally.equal("a description a recipe", sorted(texts), program.slugs())
    with_chapters = 0
    for slug, data in texts.items():
        text = data.decode("utf-8")
        tally.holds(f"{slug}: at most {LIMIT} bytes", 0 < len(data) <= LIMIT, len(data))
        odd = sorted({f"U+{ord(one):04X}" for one in text if one in "<>\r\t" or (ord(one) < 32 and one != "\n")})
        tally.empty(f"{slug}: no < and >, no control characters", odd)
        tally.holds(f"{slug}: at most fifteen hashtags", len(re.findall(r"(?<!\S)#\w", text)) <= 15)
        tally.empty(f"{slug}: no time stamp without a title", TIMESTAMP_ELSEWHERE.findall(text))
        found = chapters(text)
        if not found:
            continue
        with_chapters += 1
        starts = [seconds for seconds, _ in found]
        tally.equal(f"{slug}: chapters begin at 0:00", starts[0], 0)
        tally.holds(f"{slug}: at least three chapters", len(starts) >= 3, starts)
        gaps = [later - earlier for earlier, later in zip(starts, starts[1:])]
        tally.holds(f"{slug}: ascending, ten seconds and more", min(gaps, default=0) >= 10, starts)
        titles = [title for _, title in found]
        tally.empty(f"{slug}: chapter titles of at most 70 characters", [title for title in titles if len(title) > 70])
        tally.equal(f"{slug}: no two chapters of one title", len(set(titles)), len(titles))
    tally.holds("some recipe has chapters", with_chapters > 0)
    tally.note(f"{with_chapters} of {len(texts)} descriptions have chapters; the longest has "
               f"{max(map(len, texts.values()))} bytes")
