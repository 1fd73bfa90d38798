//! What grows with what a file holds: each shape at a size, twice and four times that, up to what is read at all. The
//! time must double with the size.

use std::time::{Duration, Instant};

use levelcup::facts::Facts;
use levelcup::kitchen::Kitchen;
use levelcup::language::{Dictionary, Language};
use levelcup::pantry::Pantry;
use levelcup::proof::{Archive, Levels, Surroundings, proof, report};
use levelcup::recipe::{LineReader, read};
use levelcup::render::{Environment, html_post};
use levelcup::sheet::sheet;
use levelcup::source::{Gate, Source};
use levelcup::trace::Trace;
use levelcup::workspace::Site;

/// A shape: its name, its largest size, and its text at a size.
type Shape = (&'static str, usize, fn(usize) -> String);

const SHAPES: [Shape; 10] = [
    ("tags", 100, |n| recipe(&format!("tags: [{}]\n", list(n, "tag ")), 1, 1, 1)),
    ("links", 100, |n| {
        recipe(&format!("links:\n{}", rows(n, "  - {what: w#, url: \"https://a.example/#\", paid: true}\n")), 1, 1, 1)
    }),
    ("corrections", 200, |n| {
        recipe(&format!("corrections:\n{}", rows(n, "  - {on: 2021-01-01, what: c#}\n")), 1, 1, 1)
    }),
    ("earlier names", 100, |n| recipe(&format!("was: [{}]\n", list(n, "w")), 1, 1, 1)),
    ("components", 48, |n| recipe("", n, 4, 4)),
    ("ingredient lines", 100, |n| recipe("", 40, n, 1)),
    ("steps", 100, |n| recipe("", 40, 1, n)),
    ("lines and steps", 100, |n| recipe("", 20, n, n)),
    ("sentences in a step", 320, |n| recipe("", 1, 1, 1).replace("Mix", &"Bake it at 180 °C for 5 min. ".repeat(n))),
    ("components that use each other", 48, |n| {
        let uses = |at: usize| {
            format!("    uses: [{}]\n", (0..at).map(|used| format!("Part {used}")).collect::<Vec<_>>().join(", "))
        };
        let part = |at: usize| format!("{}{}", component(at, 1, 1), if at > 0 { uses(at) } else { String::new() });
        format!("title: T\nmakes: two\ncomponents:\n{}", (0..n).map(part).collect::<String>())
    }),
];

fn list(count: usize, name: &str) -> String {
    (0..count).map(|number| format!("{name}{number}")).collect::<Vec<_>>().join(", ")
}

fn rows(count: usize, row: &str) -> String {
    (0..count).map(|number| row.replace('#', &number.to_string())).collect()
}

fn component(at: usize, lines: usize, steps: usize) -> String {
    let lines = rows(lines, "      - 12 g flour of quay #\n");
    let steps = rows(steps, "      - Mix the flour # at 180 °C.\n");
    format!("  - name: Part {at}\n    ingredients:\n{lines}    steps:\n{steps}")
}

fn recipe(head: &str, components: usize, lines: usize, steps: usize) -> String {
    let parts: String = (0..components).map(|at| component(at, lines, steps)).collect();
    format!("title: T\nmakes: two\n{head}components:\n{parts}")
}

fn main() {
    let (site, archive) = (Site::default(), Archive::default());
    let kitchen = Kitchen::new(Pantry::embedded(), &site).expect("the usual settings");
    let reader = LineReader::new(Dictionary::of("en-US").expect("a language"), site.cups.into());
    let environment = Environment::new(None, &Gate::anywhere(), &Language::default()).expect("the built-in templates");
    let whole = |text: String| {
        let began = Instant::now();
        let source = Source::new("a.yaml", text);
        let (recipe, mut findings) = read(source.clone(), "a", &reader);
        let recipe = recipe.unwrap_or_else(|| panic!("{findings:?}"));
        let facts = Facts::of(&recipe, &kitchen);
        let around = Surroundings {
            site: &site,
            archive: &archive,
            photos: None,
            today: None,
            shortened: None,
            trace: &Trace::default(),
        };
        findings.extend(proof(&facts, around, &Levels::default()));
        for finding in &findings {
            std::hint::black_box(report::terminal(&source, finding, false));
        }
        html_post(&environment, &site, &sheet(&facts)).expect("a post");
        began.elapsed()
    };
    println!("{:<32} {:>10} {:>10} {:>10}   grows", "shape", "a quarter", "half", "all");
    for (name, most, shape) in SHAPES {
        let time = |size: usize| (0..3).map(|_| whole(shape(size))).min().unwrap_or_default();
        let [quarter, half, all] = [most / 4, most / 2, most].map(time);
        let shown = |time: Duration| format!("{:.2} ms", time.as_secs_f64() * 1e3);
        let grows = all.as_secs_f64() / half.as_secs_f64();
        println!("{name:<32} {:>10} {:>10} {:>10}   {grows:.1} times", shown(quarter), shown(half), shown(all));
    }
}
