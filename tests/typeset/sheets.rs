//! Several cards on sheets of paper.

use levelcup::typeset::{CardSize, Composed, Flip, Item, Page, Pages, StructureType, compose, impose, write};

use crate::{layout, nothing_overlaps};

/// A card of two pages, with its number in the title, which is repeated on the back.
fn numbered(number: usize, size: CardSize) -> Pages {
    let text = format!("{}\n\n", "Stir and wait until it is smooth. ".repeat(20));
    let cards = (1..).map(|parts| compose(&format!("# Card {number}\n\n{}", text.repeat(parts)), &layout(size)).pages);
    cards.into_iter().find(|card| card.pages.len() > 1).expect("some text is too long for one page")
}

/// The titles on a page, in the opening or the running head: number, left and baseline.
fn titles(page: &Page) -> Vec<(usize, f32, f32)> {
    let runs = page.items.iter().filter_map(|placed| match &placed.item {
        Item::Text(run) => Some((run.text.trim().strip_prefix("Card ")?.parse().ok()?, placed.x, placed.y)),
        _ => None,
    });
    runs.collect()
}

/// Top left corners of the cards whose titles stand on a page, by the place of the title on the card itself.
fn corners(page: &Page, alone: &Page) -> Vec<(usize, f32, f32)> {
    let (_, left, top) = titles(alone)[0];
    titles(page).into_iter().map(|(number, x, y)| (number, x - left, y - top)).collect()
}

/// On every sheet a card's back lies behind its front, whichever edge the sheet is turned on.
#[test]
fn backs_lie_behind_their_fronts() {
    let papers =
        [(CardSize::A6, CardSize::A4, 4), (CardSize::A5, CardSize::A4, 2), (CardSize::In4x6, CardSize::Letter, 2)];
    for (size, paper, count) in papers {
        let (width, height) = size.points();
        let alone = numbered(0, size);
        for flip in [Flip::Long, Flip::Short] {
            let sheets = impose((0..5).map(|number| numbered(number, size)).collect(), paper, flip).expect("they fit");
            assert_eq!(sheets.pages.len(), 2 * 5_usize.div_ceil(count));
            let upright_edge = (sheets.height > sheets.width) == (flip == Flip::Long);
            for (at, sides) in sheets.pages.chunks(2).enumerate() {
                let fronts = corners(&sides[0], &alone.pages[0]);
                let backs = corners(&sides[1], &alone.pages[1]);
                let numbers: Vec<usize> = fronts.iter().map(|corner| corner.0).collect();
                assert_eq!(numbers, (at * count..(at * count + count).min(5)).collect::<Vec<_>>());
                for ((number, x, y), (behind, back_x, back_y)) in fronts.into_iter().zip(backs) {
                    let (turned_x, turned_y) = match upright_edge {
                        true => (sheets.width - x - width, y),
                        false => (x, sheets.height - y - height),
                    };
                    assert_eq!(number, behind);
                    assert!((turned_x - back_x).abs() < 0.01 && (turned_y - back_y).abs() < 0.01, "{number} {flip:?}");
                }
            }
            nothing_overlaps(&Composed { pages: sheets, missing: vec![], link_placed: true });
        }
    }
}

#[test]
fn cards_without_backs_are_printed_on_one_side() {
    let cards = (0..5).map(|number| compose(&format!("# Card {number}"), &layout(CardSize::A6)).pages).collect();
    assert_eq!(impose(cards, CardSize::A4, Flip::Long).expect("they fit").pages.len(), 2);
}

/// Marks never touch a card's text: they lie outside all cards, or on the line between two.
#[test]
fn marks_lie_on_cuts() {
    let (width, _) = CardSize::A5.points();
    let sheets = impose(vec![numbered(1, CardSize::A5)], CardSize::A4, Flip::Long).expect("they fit");
    let marks =
        sheets.pages[0].items.iter().filter(|placed| matches!(placed.item, Item::Rule { width, .. } if width < 0.3));
    let cuts: Vec<f32> = marks.map(|placed| placed.x + placed.item.width() / 2.0).collect();
    let left = (sheets.width - 2.0 * width) / 2.0;
    assert!(
        cuts.len() == 6
            && cuts.iter().all(|x| [left, left + width, left + 2.0 * width].iter().any(|cut| (cut - x).abs() < 0.01))
    );
}

#[test]
fn sheets_are_one_document() {
    let sheets = impose((0..3).map(|number| numbered(number, CardSize::A6)).collect(), CardSize::A4, Flip::Short);
    let sheets = sheets.expect("they fit");
    let pdf = write(&sheets, &layout(CardSize::A4)).expect("a file");
    let file = lopdf::Document::load_mem(&pdf).expect("a readable file");
    assert_eq!(file.get_pages().len(), 2);
    let catalog = file.catalog().expect("a catalog");
    let preferences = catalog.get(b"ViewerPreferences").and_then(lopdf::Object::as_dict).expect("preferences");
    let duplex = preferences.get(b"Duplex").and_then(lopdf::Object::as_name);
    assert_eq!(duplex.ok(), Some(b"DuplexFlipShortEdge".as_slice()));
    assert_eq!(sheets.tree.nodes().filter(|(_, node)| node.role == StructureType::Card).count(), 3);
    assert!(impose(vec![numbered(1, CardSize::A5)], CardSize::A5, Flip::Long).is_err());
    assert!(impose(vec![numbered(1, CardSize::A6), numbered(2, CardSize::A5)], CardSize::A4, Flip::Long).is_err());
}
