use levelcup::language::Language;
use levelcup::render::{DESCRIPTION_LIMIT, Description, DescriptionPart, Environment, description};
use levelcup::sheet::Sheet;
use levelcup::source::Gate;
use proptest::prelude::*;

use crate::fixture::{site, tart};

/// The tart with all its components several times over.
fn large(times: usize) -> Sheet {
    let mut sheet = tart();
    sheet.components = (0..times).flat_map(|_| tart().components).collect();
    sheet
}

fn made(sheet: &Sheet) -> Description {
    let environment = Environment::new(None, &Gate::anywhere(), &Language::default())
        .expect("the built-in templates are well formed");
    description(&environment, &site(), sheet).expect("the template is right")
}

#[test]
fn the_method_goes_first_and_the_page_stands_in_for_it() {
    let short = made(&large(3));
    assert_eq!(short.dropped, [DescriptionPart::Method]);
    assert!(short.text.contains("The steps are on the page: https://tern-quay.example/pear-rye-tart/"));
    assert!(short.text.contains("- 150 g (1 1/4 cups + 2 tbsp) rye flour"));
    // The step that carried this caution is gone, so the list has it.
    assert!(short.text.contains("\n- Let nobody under the age of four have the brittle.\n"), "{}", short.text);
}

#[test]
fn parts_go_in_the_stated_order_until_the_text_fits() {
    let order = [
        DescriptionPart::Method,
        DescriptionPart::Summary,
        DescriptionPart::Hashtags,
        DescriptionPart::UnpaidLinks,
        DescriptionPart::Ingredients,
    ];
    let short = made(&large(12));
    assert_eq!(short.dropped, order);
    assert!(short.text.contains("fluted ring, 24 cm across, 3 cm deep*: https://shop.example/ring-24"));
    assert!(short.text.contains("Links marked * are paid"));
}

#[test]
fn without_paid_links_shown_there_is_no_disclosure() {
    let mut sheet = large(12);
    let link = sheet.links[0].links[0].clone();
    sheet.links[0].links = vec![link; 80];
    let short = made(&sheet);
    assert_eq!(short.dropped.last(), Some(&DescriptionPart::Links));
    assert!(!short.text.contains("Links marked * are paid") && !short.text.contains("https://shop.example"));
}

#[test]
fn the_beginning_of_endless_cautions_is_kept_whole() {
    let mut sheet = tart();
    sheet.cautions = vec![sheet.cautions[0].clone(); 200];
    let short = made(&sheet);
    assert_eq!(short.dropped.last(), Some(&DescriptionPart::Ending));
    assert!(short.text.starts_with("Pear and rye tart with hazelnut brittle\n"));
    assert!(short.text.len() <= DESCRIPTION_LIMIT && short.text.ends_with('\n'));
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 24, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn any_size_fits_in_whole_lines(times in 0_usize..6, links in 0_usize..60, cautions in 0_usize..60) {
        let mut sheet = large(times);
        let (link, caution) = (sheet.links[0].links[1].clone(), sheet.cautions[0].clone());
        sheet.links[0].links.extend(vec![link; links]);
        sheet.cautions.extend(vec![caution; cautions]);
        let short = made(&sheet);
        prop_assert!(short.text.len() <= DESCRIPTION_LIMIT);
        prop_assert!(short.dropped.is_sorted());
        for line in short.text.lines().filter(|line| line.starts_with("- fluted")) {
            prop_assert!(line.ends_with("https://shop.example/ring-24"));
        }
    }
}
