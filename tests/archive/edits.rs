//! Random edits of a workspace: after each, a build that keeps what it can gives the same files and tells the same
//! findings as one that makes everything anew.

use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

use tempfile::TempDir;

use crate::edited::{PANTRY, SITE, TEMPLATES};
use crate::{contents, many};

const RECIPES: u32 = 7;
const EDITS: usize = 50;

/// The same numbers for the same seed (Steele, Lea and Flood 2014, SplitMix).
struct Dice(u64);

impl Dice {
    fn below(&mut self, sides: usize) -> usize {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut number = self.0;
        number = (number ^ (number >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        number = (number ^ (number >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        ((number ^ (number >> 31)) % sides as u64) as usize
    }

    fn one<'a, T: ?Sized>(&mut self, of: &[&'a T]) -> &'a T {
        of[self.below(of.len())]
    }
}

struct Editing {
    folder: TempDir,
    dice: Dice,
}

impl Editing {
    fn new(seed: u64) -> Self {
        let folder = TempDir::new().unwrap();
        fs::create_dir_all(folder.path().join("site/photos")).unwrap();
        let mut editing = Self { folder, dice: Dice(seed) };
        fs::create_dir_all(editing.path("recipes")).unwrap();
        editing.mend();
        editing
    }

    fn path(&self, path: &str) -> PathBuf {
        self.folder.path().join(path)
    }

    fn write(&self, path: &str, bytes: impl AsRef<[u8]>) {
        let path = self.path(path);
        fs::create_dir_all(path.parent().unwrap()).unwrap();
        fs::write(path, bytes).unwrap();
    }

    fn site(&self) -> String {
        fs::read_to_string(self.path("site/site.yaml")).unwrap()
    }

    fn recipes(&self) -> Vec<PathBuf> {
        let mut paths: Vec<PathBuf> =
            fs::read_dir(self.path("recipes")).unwrap().map(|entry| entry.unwrap().path()).collect();
        paths.retain(|path| path.extension().is_some_and(|ending| ending == "yaml"));
        paths.sort();
        paths
    }

    /// Changes something, and says what.
    ///
    /// What was written is changed by hand only while all is well: of a recipe with an error it cannot be made anew.
    fn edit(&mut self, well: bool) -> String {
        match self.dice.below(if well { 12 } else { 11 }) {
            0..=2 => self.edit_recipe(),
            3 => self.move_recipe(),
            4 | 5 => self.edit_site(),
            6 => self.edit_pantry(),
            7 => self.edit_template(),
            8 | 9 => self.edit_photo(),
            10 => self.edit_page(),
            _ => self.edit_output(),
        }
    }

    /// Takes every fault out of recipes and photographs.
    fn mend(&mut self) -> String {
        for path in self.recipes() {
            fs::remove_file(path).unwrap();
        }
        many::workspace(self.folder.path(), RECIPES).unwrap();
        for name in ["ring.png", "loaf.jpg"] {
            image::RgbImage::from_pixel(310, 200, image::Rgb([9, 90, 60]))
                .save(self.path("site/photos").join(name))
                .unwrap();
        }
        "mended".into()
    }

    fn edit_recipe(&mut self) -> String {
        let recipes = self.recipes();
        let path = &recipes[self.dice.below(recipes.len())];
        let text = fs::read_to_string(path).unwrap();
        let changes: [(&str, &str); 13] = [
            ("    ingredients:\n", "    ingredients:\n      - 5 g dust of stars\n"),
            ("    ingredients:\n", "    ingredients:\n      - 12 g sweet butter\n"),
            ("    steps:\n", "    steps:\n      - Read all of it first.\n"),
            ("      - 5 g dust of stars\n", ""),
            ("title: ", "title: New "),
            ("tags:", "photo: {file: ring.png, alt: A ring}\ntags:"),
            ("tags:", "photo: {file: loaf.jpg, alt: A loaf}\ntags:"),
            ("tags:", "was: an-old-name\ntags:"),
            ("tags: [", "tags: [Make-Ahead, "),
            ("tags: [", "tags: [make ahead, "),
            ("published: 20", "published: 21"),
            ("summary: ", "video: https://video.example/w\nsummary: "),
            ("100 g", "1/0 cup"),
        ];
        let (old, new) = changes[self.dice.below(changes.len())];
        // A mended recipe, now and then.
        let text = if self.dice.below(4) == 0 {
            many::recipe(self.dice.below(RECIPES as usize) as u32).1
        } else {
            text.replacen(old, new, 1)
        };
        fs::write(path, text).unwrap();
        format!("{}: {new:?}", path.display())
    }

    fn move_recipe(&mut self) -> String {
        let recipes = self.recipes();
        let path = &recipes[self.dice.below(recipes.len())];
        match self.dice.below(3) {
            0 if recipes.len() > 4 => {
                fs::remove_file(path).unwrap();
                format!("{} deleted", path.display())
            }
            1 => {
                let name = self.dice.one(&["one", "two", "about", "an-old-name", "tags"]);
                fs::rename(path, path.with_file_name(format!("{name}.yaml"))).unwrap();
                format!("{} renamed to {name}", path.display())
            }
            _ => {
                let (name, text) = many::recipe(self.dice.below(2 * RECIPES as usize) as u32);
                self.write(&format!("recipes/{name}"), text);
                format!("{name} added")
            }
        }
    }

    fn edit_site(&mut self) -> String {
        let mut site = if self.dice.below(3) == 0 { String::new() } else { self.site() };
        for _ in 0..self.dice.below(3) {
            let values = SITE[self.dice.below(SITE.len())];
            site = with_line(&site, self.dice.one(values));
        }
        self.write("site/site.yaml", &site);
        format!("site.yaml: {site:?}")
    }

    fn edit_pantry(&mut self) -> String {
        let rows: String = PANTRY.iter().filter(|_| self.dice.below(3) == 0).copied().collect();
        if rows.is_empty() {
            let _ = fs::remove_file(self.path("pantry.yaml"));
        } else {
            self.write("pantry.yaml", &rows);
        }
        format!("pantry.yaml: {rows}")
    }

    fn edit_template(&mut self) -> String {
        let (name, old, new) = TEMPLATES[self.dice.below(TEMPLATES.len())];
        if self.dice.below(3) == 0 {
            let _ = fs::remove_file(self.path("templates").join(name));
            return format!("{name} as it came");
        }
        let own = Path::new(env!("CARGO_MANIFEST_DIR")).join("templates").join(name);
        let text = fs::read_to_string(own).unwrap();
        assert!(text.contains(old), "{name} has no {old}");
        self.write(&format!("templates/{name}"), text.replacen(old, new, 1));
        format!("{name}: {new}")
    }

    fn edit_photo(&mut self) -> String {
        let name = self.dice.one(&["ring.png", "loaf.jpg"]);
        let path = self.path("site/photos").join(name);
        fs::create_dir_all(path.parent().unwrap()).unwrap();
        let what = self.dice.below(5);
        match what {
            0 => drop(fs::remove_file(&path)),
            1 => fs::write(&path, "no picture").unwrap(),
            2 => {
                let bytes = fs::read(&path).unwrap_or_default();
                fs::write(&path, &bytes[..bytes.len() / 2]).unwrap();
            }
            _ => {
                let red = self.dice.below(256) as u8;
                let size = 300 + self.dice.below(300) as u32;
                image::RgbImage::from_pixel(size, 200, image::Rgb([red, 90, 60])).save(&path).unwrap();
            }
        }
        format!("{name}: {what}")
    }

    fn edit_page(&mut self) -> String {
        let name = self.dice.one(&["about", "one", "contact"]);
        let path = format!("site/pages/{name}.md");
        match self.dice.below(3) {
            0 => drop(fs::remove_file(self.path(&path))),
            _ => {
                let number = self.dice.below(9);
                self.write(&path, format!("# About {number}\n\nText.\n"));
            }
        }
        path
    }

    fn edit_output(&mut self) -> String {
        let archive = self.path("out/archive");
        let made = contents(&archive);
        let Some((name, bytes)) = made.iter().nth(self.dice.below(made.len().max(1))) else { return String::new() };
        let path = archive.join(name);
        let time = fs::metadata(&path).unwrap().modified().unwrap();
        let what = self.dice.below(4);
        match what {
            0 => fs::remove_file(&path).unwrap(),
            1 => drop(fs::remove_dir_all(path.parent().filter(|parent| **parent != archive).unwrap_or(&path))),
            2 => fs::write(&path, "by hand").unwrap(),
            // Of the same length, and older or younger than all.
            _ => {
                fs::write(&path, vec![b'x'; bytes.len()]).unwrap();
                let hour = std::time::Duration::from_secs(3600);
                let time = if self.dice.below(2) == 0 { time - hour } else { time + hour };
                fs::File::options().write(true).open(&path).unwrap().set_modified(time).unwrap();
            }
        }
        format!("{name} in out: {what}")
    }
}

/// Settings with a line in the place of the one with its key.
fn with_line(site: &str, line: &str) -> String {
    let key = |line: &str| line.split(':').next().map(str::to_owned);
    let others = site.lines().filter(|other| key(other) != key(line));
    others.chain([line]).map(|line| format!("{line}\n")).collect()
}

/// Exit code, and what was said but for the last line, which counts the files, and for what differs from the build before,
/// which a fresh build cannot know.
fn build(folder: &Path, out: &Path) -> (Option<i32>, String) {
    let mut command = Command::new(assert_cmd::cargo::cargo_bin("levelcup"));
    let output = command.args(["archive", "--workspace"]).arg(folder).arg("--out").arg(out).output().unwrap();
    let said = String::from_utf8_lossy(&output.stderr).into_owned();
    let lines: Vec<&str> = said.lines().filter(|line| !line.starts_with("since the last build: ")).collect();
    (output.status.code(), lines[..lines.len().saturating_sub(1)].join("\n"))
}

fn edits(seed: u64) {
    let mut editing = Editing::new(seed);
    let mut whole = 0;
    let mut history = Vec::new();
    build(editing.folder.path(), &editing.path("out"));
    let mut faulty = 0;
    for _ in 0..EDITS {
        history.push(if faulty > 2 { editing.mend() } else { editing.edit(faulty == 0) });
        let fresh = TempDir::new().unwrap();
        let kept = build(editing.folder.path(), &editing.path("out"));
        let anew = build(editing.folder.path(), fresh.path());
        assert!(kept.0.is_some_and(|code| code < 2), "{history:#?}\n{kept:?}");
        assert_eq!(kept, anew, "{history:#?}");
        faulty = if kept.0 == Some(0) { 0 } else { faulty + 1 };
        // A recipe with an error keeps the page that it had, which a first build has not.
        if kept.0 == Some(0) {
            whole += 1;
            let (kept, anew) = (contents(&editing.path("out/archive")), contents(&fresh.path().join("archive")));
            let differing: Vec<&String> =
                kept.keys().chain(anew.keys()).filter(|p| kept.get(*p) != anew.get(*p)).collect();
            assert!(differing.is_empty(), "{differing:?}\n{history:#?}");
        }
    }
    assert!(whole > EDITS / 3, "only {whole} of {EDITS} builds were without an error");
}

#[test]
fn fifty_edits_of_one_kitchen() {
    edits(1);
}

#[test]
fn fifty_edits_of_another() {
    edits(2);
}

#[test]
fn fifty_edits_of_a_third() {
    edits(3);
}

#[test]
fn fifty_edits_of_a_fourth() {
    edits(4);
}

/// A recipe whose findings depend on much around it.
const TOUCHY: &str = "title: Touchy tart
makes: one tart
tags: [make ahead]
was: an-old-name
photo: {file: ring.png, alt: A ring}
video: https://video.example/w
links: [{what: A ring, url: \"https://shop.example/ring\", paid: true}]
components:
  - name: Tart
    ingredients: [5 g dust of starz, 100 g (1/2 cup) plain flour, 90 g (1 cup) walnuts, 2 sheets gelatine, 50 g eggs]
    steps:
      - Mix the flour, the walnuts, the eggs and the gelatine.
";

/// Whatever a workspace holds, changed in turn: each change is seen, and so is its undoing.
#[test]
fn every_input_in_turn() {
    let editing = Editing::new(0);
    let long = format!(
        "{TOUCHY}{}",
        "      - Stir it once more, with patience and a wooden spoon, all the way round.\n".repeat(36)
    );
    editing.write("recipes/touchy.yaml", long);
    let templates = Path::new(env!("CARGO_MANIFEST_DIR")).join("templates");
    let mut changes: Vec<(String, Vec<u8>)> = Vec::new();
    changes.extend(
        SITE.concat().iter().map(|line| ("site/site.yaml".into(), with_line(&editing.site(), line).into_bytes())),
    );
    let nearer = "- {id: starz, names: [dust of stars], class: flavour, measures: []}\n";
    changes.extend(PANTRY.iter().chain(&[nearer]).map(|row| ("pantry.yaml".into(), row.as_bytes().to_vec())));
    for (name, text) in contents(&templates).iter().filter(|(name, _)| *name != "README.md") {
        // Behind a block of a template that extends another nothing is shown, so that the change stands in it.
        let text = String::from_utf8(text.clone()).unwrap();
        let new = text.replace("{% endblock content %}", "New{% endblock content %}");
        let new = if new == text { format!("{text}New") } else { new };
        let new = if name == "description.txt" { format!("{}{new}", "New. ".repeat(600)) } else { new };
        changes.push((format!("templates/{name}"), new.into_bytes()));
    }
    for (path, bytes) in [
        ("site/pages/touchy.md", "# Touchy\n"),
        ("site/pages/an-old-name.md", "# Old\n"),
        ("site/pages/about.md", "# About\n"),
        ("recipes/more/touchy.yaml", TOUCHY),
        ("recipes/an-old-name.yaml", TOUCHY),
        ("site/photos/ring.png", "no picture"),
        ("site/photos/ring.png", ""),
    ] {
        changes.push((path.into(), bytes.into()));
    }
    let mut unseen = Vec::new();
    let (folder, out) = (editing.folder.path(), editing.path("out"));
    let mut before = (build(folder, &out), contents(&out.join("archive")));
    for (path, bytes) in changes {
        let old = fs::read(editing.path(&path)).ok();
        editing.write(&path, &bytes);
        let kept = (build(folder, &out), contents(&out.join("archive")));
        let fresh = TempDir::new().unwrap();
        assert_eq!(kept.0, build(folder, fresh.path()), "{path}: {}", String::from_utf8_lossy(&bytes));
        if kept.0.0 == Some(0) {
            assert!(kept.1 == contents(&fresh.path().join("archive")), "{path}: {}", String::from_utf8_lossy(&bytes));
        }
        if kept == before {
            unseen.push(format!("{path}: {}", String::from_utf8_lossy(&bytes[..bytes.len().min(90)])));
        }
        match old {
            Some(old) => editing.write(&path, old),
            None => fs::remove_file(editing.path(&path)).unwrap(),
        }
        let undone = (build(folder, &out), contents(&out.join("archive")));
        assert!(undone == before, "{path} undone");
        before = undone;
    }
    // Posts and cards are none of the archive's business, and only a large one has several site maps.
    let others = ["post", "card", "bench", "words.txt", "sitemap-index", "archive/parts.html"];
    unseen.retain(|change| !others.iter().any(|name| change.contains(name)));
    assert!(unseen.is_empty(), "{unseen:#?}");
}
