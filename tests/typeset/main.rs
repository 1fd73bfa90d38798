//! Cards: what stands on the pages, and what the file says.

mod sheets;

use std::collections::BTreeMap;

use levelcup::typeset::{
    CardSize, Composed, Foot, Item, Labels, Layout, NodeId, Owner, StructureType, compose, typeset,
};
use proptest::prelude::*;

const QUINCE: &str = include_str!("../cards/quince-tart.md");
const SESAME: &str = include_str!("../cards/sesame-shortbread.md");

fn layout(size: CardSize) -> Layout {
    Layout {
        size,
        accent: "#8a3b2a".parse().expect("a colour"),
        language: "en-GB".into(),
        title: "Card".into(),
        author: "Tern Quay".into(),
        subject: "A recipe by weight".into(),
        foot: Foot { source: "tern-quay.example".into(), date: "4 October 2026".into() },
        link: Some("https://tern-quay.example/recipes/card/".into()),
        date: Some(jiff::civil::date(2026, 10, 4)),
        labels: Labels::default(),
    }
}

/// The content in reading order: parts divided by spaces, hyphens at line ends taken out.
fn words(composed: &Composed) -> String {
    let mut parts: BTreeMap<NodeId, String> = BTreeMap::new();
    for placed in composed.pages.pages.iter().flat_map(|page| &page.items) {
        let Owner::Content(owner) = placed.owner else { continue };
        match &placed.item {
            Item::Text(run) if !run.soft_hyphen => parts.entry(owner).or_default().push_str(&run.text),
            Item::Mark { text, .. } => parts.entry(owner).or_default().push_str(text),
            _ => {}
        }
    }
    let text = parts.into_values().collect::<Vec<_>>().join(" ");
    text.replace(['\u{a0}', '\u{202f}'], " ").split_whitespace().collect::<Vec<_>>().join(" ")
}

/// Everything lies within the margin of 5 mm, and every line of text is where lines may be.
fn stays_inside(composed: &Composed) {
    let pages = &composed.pages;
    let margin = 5.0 * 72.0 / 25.4;
    for page in &pages.pages {
        for placed in &page.items {
            let (above, below) = placed.item.extent();
            assert!(placed.x >= margin, "left: {placed:?}");
            assert!(placed.x + placed.item.width() <= pages.width - margin + 0.5, "right: {placed:?}");
            assert!(placed.y - above >= margin - 0.5, "top: {placed:?}");
            assert!(placed.y + below <= pages.height - margin + 0.5, "bottom: {placed:?}");
        }
    }
}

/// No two lines of text lie on one another.
fn nothing_overlaps(composed: &Composed) {
    for page in &composed.pages.pages {
        let runs: Vec<_> = page
            .items
            .iter()
            .filter_map(|placed| match &placed.item {
                Item::Text(run) if run.width > 0.0 => Some((placed.x, placed.y, run)),
                _ => None,
            })
            .collect();
        for (index, (x, y, run)) in runs.iter().enumerate() {
            for (other_x, other_y, other) in &runs[index + 1..] {
                let beside = x + run.width <= other_x + 1.0 || other_x + other.width <= x + 1.0;
                let apart = (y - other_y).abs() >= run.size.min(other.size) * 0.9;
                assert!(beside || apart, "{:?} on {:?}", run.text, other.text);
            }
        }
    }
}

#[test]
fn every_size_keeps_its_margins() {
    for size in CardSize::all() {
        for card in [QUINCE, SESAME] {
            let composed = compose(card, &layout(size));
            stays_inside(&composed);
            nothing_overlaps(&composed);
            assert!(composed.link_placed && composed.missing.is_empty());
            assert!((7.5..=11.0).contains(&composed.pages.text_size));
        }
    }
}

#[test]
fn all_words_stand_once_and_in_order() {
    let expected = "Rye short crust Weight Measure Ingredient 150 g 1 1⁄4 cups plain flour 60 g 1⁄2 cup + 1 tbsp whole rye \
        flour 125 g 9 tbsp cold butter, diced 40 g 3 tbsp + 1⁄2 tsp caster sugar 1.5 g 1⁄4 tsp fine salt 36 g 2 large egg \
        yolks 1 Rub the butter into both flours, the sugar and the salt until the mixture looks like coarse sand, then \
        bind with the yolks. 2 Press into a flat disc";
    for size in CardSize::all() {
        let text = words(&compose(QUINCE, &layout(size)));
        assert!(text.contains(expected), "{}: {text}", size.name());
        for word in ["ointment.", "Mind this. Syrup above 100 °C clings", "brush over the warm tart."] {
            assert_eq!(text.matches(word).count(), 1, "{}: {word}", size.name());
        }
    }
}

#[test]
fn weights_end_on_one_line() {
    let composed = compose(QUINCE, &layout(CardSize::A5));
    let tree = &composed.pages.tree;
    let mut ends = Vec::new();
    for placed in composed.pages.pages.iter().flat_map(|page| &page.items) {
        if let (Owner::Content(owner), Item::Text(run)) = (placed.owner, &placed.item)
            && tree.node(owner).role == StructureType::Cell
            && run.text.ends_with('g')
            && run.text.starts_with(|c: char| c.is_ascii_digit())
        {
            ends.push(placed.x + run.width);
        }
    }
    assert!(ends.len() > 12);
    assert!(ends.iter().all(|end| (end - ends[0]).abs() < 0.01), "{ends:?}");
}

#[test]
fn headings_are_never_last() {
    for size in CardSize::all() {
        for count in 1..30 {
            let card = sections(count);
            let composed = compose(&card, &layout(size));
            for page in &composed.pages.pages {
                let last = page
                    .items
                    .iter()
                    .rfind(|placed| matches!(placed.owner, Owner::Content(_)) && in_body(placed.y, &composed));
                if let Some(Owner::Content(owner)) = last.map(|placed| placed.owner) {
                    let role = composed.pages.tree.node(owner).role;
                    assert!(
                        !matches!(role, StructureType::Heading | StructureType::ColumnHead),
                        "{} {count}",
                        size.name()
                    );
                }
            }
        }
    }
}

fn in_body(y: f32, composed: &Composed) -> bool {
    y < composed.pages.height - 40.0
}

fn sections(count: usize) -> String {
    let mut card = "# A card\n\n".to_owned();
    for number in 0..count {
        card += &format!(
            "## Part {number}\n\n| Weight | Ingredient |\n|---:|---|\n| {number} g | flour |\n| 2 g | salt |\n\n1. Stir.\n2. Wait.\n\n"
        );
    }
    card
}

#[test]
fn later_cards_are_numbered() {
    let composed = compose(&sections(60), &layout(CardSize::In4x6));
    let total = composed.pages.pages.len();
    assert!(total > 4);
    let texts = |page: usize, owner: Owner| -> String {
        let items = composed.pages.pages[page].items.iter().filter(|placed| placed.owner == owner);
        items
            .filter_map(
                |placed| if let Item::Text(run) = &placed.item { Some(run.text.replace('\u{a0}', " ")) } else { None },
            )
            .collect()
    };
    assert!(texts(2, Owner::Foot).contains(&format!("card 2 of {}, front", total.div_ceil(2))));
    assert!(texts(3, Owner::Foot).contains("back"));
    assert_eq!(texts(2, Owner::Head), "A card");
    assert_eq!(texts(0, Owner::Head), "");
}

#[test]
fn same_card_same_bytes() {
    let first = typeset(QUINCE, &layout(CardSize::A5)).expect("a card").pdf;
    let elsewhere = std::thread::spawn(|| typeset(QUINCE, &layout(CardSize::A5)).expect("a card").pdf).join();
    assert!(first == elsewhere.expect("the thread ends well"));
    let other = typeset(SESAME, &layout(CardSize::A5)).expect("a card").pdf;
    assert!(first != other);
}

#[test]
fn the_file_says_what_it_is() {
    let pdf = typeset(SESAME, &layout(CardSize::A5)).expect("a card").pdf;
    assert!(pdf.starts_with(b"%PDF-1.7"));
    assert!(pdf.len() < 40 * 1024, "{} bytes", pdf.len());
    let file = lopdf::Document::load_mem(&pdf).expect("a readable file");
    let catalog = file.catalog().expect("a catalog");
    assert_eq!(catalog.get(b"Lang").and_then(lopdf::Object::as_str).ok(), Some(b"en-GB".as_slice()));
    for key in ["StructTreeRoot", "MarkInfo", "Metadata", "Outlines", "ViewerPreferences"] {
        assert!(catalog.has(key.as_bytes()), "{key}");
    }
    let page = *file.get_pages().get(&1).expect("a page");
    let annotations = file.get_page_annotations(page).expect("links");
    let address = |dictionary: &&lopdf::Dictionary| -> Option<Vec<u8>> {
        dictionary.get(b"A").ok()?.as_dict().ok()?.get(b"URI").ok()?.as_str().ok().map(<[u8]>::to_vec)
    };
    let addresses: Vec<Vec<u8>> = annotations.iter().filter_map(address).collect();
    assert!(addresses.contains(&b"https://tern-quay.example/sesame".to_vec()));
    assert!(addresses.contains(&b"https://tern-quay.example/recipes/card/".to_vec()));
}

#[test]
fn shares_become_a_bar_with_a_legend() {
    let card = "# A\n\n```shares Shares of the mass\n30 *Rye* crust 30 %\n70 Pears 70 %\n```\n\n## B\n\nText.";
    for size in CardSize::all() {
        let composed = compose(card, &layout(size));
        stays_inside(&composed);
        let (id, _) =
            composed.pages.tree.nodes().find(|(_, node)| node.role == StructureType::Figure).expect("a figure");
        assert_eq!(composed.pages.tree.node(id).words, "Shares of the mass: *Rye* crust 30 %, Pears 70 %");
        let figure = composed.pages.pages[0].items.iter().filter(|placed| placed.owner == Owner::Content(id));
        let widths: Vec<f32> = figure
            .filter_map(|placed| if let Item::Rule { width, .. } = placed.item { Some(width) } else { None })
            .collect();
        // The two parts of the bar, then the squares of the legend.
        assert_eq!(widths.len(), 4);
        assert!((widths[0] / widths[1] - 3.0 / 7.0).abs() < 0.001, "{widths:?}");
        assert!(words(&composed).contains("*Rye* crust 30 %Pears 70 % B Text."), "{}", words(&composed));
    }
    let long = format!("```shares\n1 {}\n2 {}\n```", "wide ".repeat(100), "x".repeat(300));
    stays_inside(&compose(&long, &layout(CardSize::In4x6)));
    assert!(!words(&compose("```shares\n30 alone\n```", &layout(CardSize::A6))).contains("alone"));
    assert!(words(&compose("```shares\nno share\n```", &layout(CardSize::A6))).contains("no share"));
}

#[test]
fn characters_without_a_glyph_are_reported() {
    let composed = compose("# Cake\n\nA 🍰 and 小小.", &layout(CardSize::A6));
    let missing: Vec<(char, usize)> = composed.missing.iter().map(|glyph| (glyph.character, glyph.times)).collect();
    assert_eq!(missing, [('小', 2), ('🍰', 1)]);
    assert!(words(&composed).contains("A 🍰 and 小小."));
}

#[test]
fn links_lead_only_to_the_web_and_mail() {
    let card = "# A\n\n[one](javascript:alert(1)) [two](file:///etc/passwd) [three](https://tern-quay.example/é)";
    let composed = compose(card, &Layout { link: None, ..layout(CardSize::A5) });
    let links: Vec<&str> = composed
        .pages
        .tree
        .nodes()
        .filter(|(_, node)| node.role == StructureType::Link)
        .map(|(_, node)| node.words.as_str())
        .collect();
    assert_eq!(links, ["https://tern-quay.example/%C3%A9"]);
    assert!(!composed.link_placed);
}

#[test]
fn long_words_and_long_tables_are_whole() {
    let word = "butterundmehlundzuckerundeierundsalzundmilch";
    let mut card = format!("# {word}\n\n{word}\n\n## {word}\n\n| Weight | Measure | Ingredient |\n|---:|---|---|\n");
    for number in 0..150 {
        card += &format!("| {number} g | 1 1/4 cups + 1 tbsp | ingredient number {number} {word} |\n");
    }
    for size in CardSize::all() {
        let composed = compose(&card, &layout(size));
        stays_inside(&composed);
        nothing_overlaps(&composed);
        let text = words(&composed);
        assert_eq!(text.matches("ingredient number").count(), 150, "{}", size.name());
        assert_eq!(text.replace(' ', "").matches(word).count(), 153, "{}", size.name());
    }
}

#[test]
fn huge_and_odd_cards_are_set() {
    let nested = format!("{}deep", "> - ".repeat(200));
    let row = format!("| a | b |\n|---|---|\n| {} | x |", "word ".repeat(3000));
    let cards = [
        String::new(),
        "#".into(),
        "# \n\n***\n\n> \n\n- \n\n1. ".into(),
        "word ".repeat(20_000),
        "x".repeat(20_000),
        format!("# {}", "very ".repeat(300)),
        nested,
        row,
        "|a|\n|-|\n||".into(),
        "\u{301}\u{202e}\u{0}\u{feff}\u{200b}\u{e0001}".into(),
        "1/2".repeat(2000),
        format!("> {}", "boxed words ".repeat(2000)),
        "- [ ] a\n".repeat(2000),
    ];
    for card in &cards {
        for size in [CardSize::In4x6, CardSize::A4] {
            let composed = compose(card, &layout(size));
            stays_inside(&composed);
        }
    }
    typeset(&cards[9], &layout(CardSize::A6)).expect("a card");
    typeset("", &Layout { title: String::new(), link: None, ..layout(CardSize::A6) }).expect("an empty card");
}

#[test]
fn a_link_too_long_for_a_code_is_reported() {
    let link = Some(format!("https://tern-quay.example/{}", "long/".repeat(500)));
    assert!(!compose(SESAME, &Layout { link, ..layout(CardSize::A6) }).link_placed);
}

#[test]
fn sizes_and_colours_are_read() {
    for size in CardSize::all() {
        assert_eq!(size.name().to_uppercase().parse::<CardSize>().ok(), Some(size));
    }
    assert!("no-size".parse::<CardSize>().is_err());
    for text in ["", "#12345", "#1234567", "123456", "#12345g", "#+12345"] {
        assert!(text.parse::<levelcup::typeset::Rgb>().is_err(), "{text}");
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(40))]

    #[test]
    fn any_recipe_keeps_its_words_and_margins(
        size in proptest::sample::select(CardSize::all().collect::<Vec<_>>()),
        parts in proptest::collection::vec(
            (proptest::collection::vec("[a-zé]{1,14}( [a-z]{1,12}){0,6}", 0..12), proptest::collection::vec("[A-Z][a-z]{1,9}( [a-z]{1,13}){2,40}", 0..7)),
            1..6,
        ),
    ) {
        let mut card = "# Some cake\n\n".to_owned();
        let mut expected = vec!["Some cake".to_owned()];
        for (number, (ingredients, steps)) in parts.iter().enumerate() {
            card += &format!("## Part {number}\n\n");
            expected.push(format!("Part {number}"));
            if !ingredients.is_empty() {
                card += "| Weight | Ingredient |\n|---:|---|\n";
                expected.push("Weight Ingredient".to_owned());
                for name in ingredients {
                    card += &format!("| 12 g | {name} |\n");
                    expected.push(format!("12 g {name}"));
                }
            }
            card += "\n";
            for (index, step) in steps.iter().enumerate() {
                card += &format!("{}. {step}.\n", index + 1);
                expected.push(format!("{} {step}.", index + 1));
            }
            card += "\n";
        }
        let composed = compose(&card, &Layout { foot: Foot::default(), ..layout(size) });
        stays_inside(&composed);
        nothing_overlaps(&composed);
        let text = words(&composed);
        prop_assert_eq!(&text, &expected.join(" "));
    }
}
