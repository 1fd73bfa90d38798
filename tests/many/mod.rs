//! Makes as many plausible recipes as asked for, the same ones every time.

use std::fmt::Write;
use std::fs;
use std::io;
use std::path::Path;

const FRUIT: [&str; 24] = [
    "Apricot",
    "Apple",
    "Pear",
    "Plum",
    "Cherry",
    "Raspberry",
    "Blackberry",
    "Blueberry",
    "Strawberry",
    "Rhubarb",
    "Lemon",
    "Orange",
    "Lime",
    "Grapefruit",
    "Quince",
    "Fig",
    "Peach",
    "Nectarine",
    "Mango",
    "Pineapple",
    "Banana",
    "Date",
    "Prune",
    "Raisin",
];
const SECOND: [&str; 20] = [
    "almond",
    "hazelnut",
    "walnut",
    "pistachio",
    "honey",
    "cinnamon",
    "cardamom",
    "ginger",
    "thyme",
    "bay",
    "vanilla",
    "rye",
    "buckwheat",
    "oat",
    "cocoa",
    "coffee",
    "caramel",
    "sesame",
    "coconut",
    "black pepper",
];
const FORM: [&str; 22] = [
    "tart",
    "cake",
    "buns",
    "loaf",
    "slice",
    "crumble",
    "galette",
    "roll",
    "pudding",
    "biscuits",
    "shortbread",
    "mousse",
    "cream",
    "ring",
    "plait",
    "turnovers",
    "scones",
    "muffins",
    "sponge",
    "meringue",
    "brioche",
    "clafoutis",
];
const TAGS: [&str; 16] = [
    "spring",
    "summer",
    "autumn",
    "winter",
    "make ahead",
    "tart",
    "bread",
    "cake",
    "chocolate",
    "fruit",
    "nuts",
    "for a crowd",
    "quick",
    "breakfast",
    "festive",
    "frozen",
];
/// What a component is called, and what is in it: least and most grams, and the name.
type Part = (&'static str, &'static [(u32, u32, &'static str)]);

const PARTS: [Part; 10] = [
    (
        "Sweet pastry",
        &[
            (140, 260, "plain flour"),
            (80, 160, "cold butter, diced"),
            (40, 90, "icing sugar"),
            (15, 30, "egg yolk"),
            (1, 3, "fine salt"),
        ],
    ),
    (
        "Almond cream",
        &[(80, 140, "butter, soft"), (80, 140, "caster sugar"), (80, 140, "ground almonds"), (80, 150, "egg")],
    ),
    (
        "Pastry cream",
        &[
            (250, 500, "whole milk"),
            (60, 120, "granulated sugar"),
            (40, 80, "egg yolk"),
            (20, 45, "cornstarch"),
            (20, 50, "butter"),
        ],
    ),
    (
        "Sponge",
        &[(150, 250, "egg"), (90, 160, "granulated sugar"), (90, 160, "all-purpose flour"), (20, 50, "butter, melted")],
    ),
    (
        "Enriched dough",
        &[
            (300, 600, "bread flour"),
            (120, 260, "whole milk"),
            (40, 90, "granulated sugar"),
            (60, 160, "butter, soft"),
            (6, 12, "instant yeast"),
            (6, 11, "fine salt"),
        ],
    ),
    (
        "Crumble",
        &[
            (80, 160, "all-purpose flour"),
            (60, 120, "cold butter"),
            (50, 110, "light brown sugar"),
            (30, 90, "rolled oats"),
        ],
    ),
    ("Honey syrup", &[(100, 220, "honey"), (60, 160, "water"), (10, 30, "lemon juice")]),
    (
        "Set cream",
        &[(300, 600, "heavy cream"), (50, 110, "granulated sugar"), (3, 6, "powdered gelatin"), (20, 40, "water")],
    ),
    ("Browned butter glaze", &[(60, 120, "browned butter"), (120, 220, "powdered sugar"), (20, 50, "whole milk")]),
    ("Walnut praline", &[(100, 200, "walnuts"), (100, 200, "granulated sugar"), (1, 2, "fine salt")]),
];
const STEPS: [&str; 8] = [
    "Weigh everything before you begin and set the bowls out in the order of use.",
    "Mix to an even mass without working it longer than it needs, and scrape the bowl twice.",
    "Cover closely and leave it where nothing will disturb it.",
    "Roll it out 4 mm thick on a floured board and turn it by a quarter after every stroke.",
    "Spread it level with a palette knife, right into the corners of a 20 x 30 cm tin.",
    "Bake on the middle shelf of the oven at 180 °C for a good colour, and turn the tray once.",
    "Heat it gently to 82 °C, stirring without a stop, and pass it through a fine sieve.",
    "Cool on a rack until it no longer feels warm to the back of the hand.",
];

/// A sequence of numbers that looks like chance and never changes (multiplier and increment of Knuth, MMIX).
struct Chance(u64);

impl Chance {
    fn below(&mut self, end: u32) -> u32 {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        ((self.0 >> 33) % u64::from(end.max(1))) as u32
    }

    fn of<'a, T>(&mut self, list: &'a [T]) -> &'a T {
        &list[self.below(list.len() as u32) as usize]
    }
}

/// File name and text of one recipe.
pub(crate) fn recipe(number: u32) -> (String, String) {
    let mut chance = Chance(u64::from(number) * 7919 + 17);
    let title = format!("{} and {} {}", chance.of(&FRUIT), chance.of(&SECOND), chance.of(&FORM));
    let slug = format!("{}-{number}", title.to_lowercase().replace(' ', "-"));
    let (year, month, day) = (2008 + chance.below(18), 1 + chance.below(12), 1 + chance.below(28));
    let mut text = format!(
        "title: {title}, No. {number}\nsummary: {title} from the quay, made over two days and served cool, with the edge left plain.\n\
         published: {year}-{month:02}-{day:02}\nmakes: one 24 cm ring\nserves: {}\ntags: [{}, {}]\n",
        6 + chance.below(8),
        chance.of(&TAGS[..4]),
        chance.of(&TAGS[4..]),
    );
    text.push_str("links:\n  - {what: \"ring, 24 cm across\", url: \"https://shop.example/ring-24\", for: gear}\n");
    text.push_str("components:\n");
    let first = chance.below(PARTS.len() as u32) as usize;
    let count = 2 + chance.below(3) as usize;
    let parts: Vec<&Part> = (0..count).map(|part| &PARTS[(first + part * 3) % PARTS.len()]).collect();
    for part in &parts {
        component(&mut text, &mut chance, part);
    }
    let names: Vec<&str> = parts.iter().map(|part| part.0).collect();
    let line = format!(
        "  - name: To finish\n    uses: [{}]\n    steps:\n      - {{do: Put the parts together and serve within the day., time: 10 min}}\n",
        names.join(", ")
    );
    text.push_str(&line);
    if number.is_multiple_of(20) {
        write!(
            text,
            "corrections:\n  - {{on: {year}-12-{day:02}, what: The second rest is longer than first written.}}\n"
        )
        .expect("writing to a string cannot fail");
    }
    (format!("{slug}.yaml"), text)
}

fn component(text: &mut String, chance: &mut Chance, part: &Part) {
    let (name, lines) = part;
    let mut put = |line: std::fmt::Arguments<'_>| text.write_fmt(line).expect("writing to a string cannot fail");
    put(format_args!("  - name: {name}\n    ingredients:\n"));
    let mut named: Vec<&str> = Vec::new();
    for (least, most, ingredient) in *lines {
        put(format_args!("      - {} g {ingredient}\n", least + chance.below(most - least)));
        named.push(ingredient.split(',').next().unwrap_or(ingredient));
    }
    put(format_args!("    steps:\n"));
    put(format_args!(
        "      - {{do: \"Weigh the {} and bring them together.\", time: {} min}}\n",
        named.join(", the "),
        5 + chance.below(10)
    ));
    for step in 0..1 + chance.below(3) {
        let said = chance.of(&STEPS);
        match (step + chance.below(3)) % 3 {
            0 => put(format_args!("      - {{do: \"{said}\", time: {} min}}\n", 4 + chance.below(20))),
            1 => put(format_args!("      - {{do: \"{said}\", wait: {} h}}\n", 1 + chance.below(4))),
            _ => put(format_args!("      - {said}\n")),
        }
    }
}

/// Writes a workspace of `count` recipes.
#[allow(clippy::disallowed_methods, reason = "tests lay out their own files")]
pub(crate) fn workspace(folder: &Path, count: u32) -> io::Result<()> {
    let recipes = folder.join("recipes");
    fs::create_dir_all(&recipes)?;
    fs::create_dir_all(folder.join("site"))?;
    let site = "name: Tern Quay\nurl: https://tern-quay.example/\nauthor: Tern Quay Bakery\n";
    fs::write(folder.join("site").join("site.yaml"), site)?;
    for number in 0..count {
        let (name, text) = recipe(number);
        fs::write(recipes.join(name), text)?;
    }
    Ok(())
}
