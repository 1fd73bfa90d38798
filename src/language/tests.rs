use std::collections::BTreeSet;

use super::section::{sections, tags};
use super::*;

/// The keys of a language's own file, and of those that it is said to be read beside but not said in.
fn own(tag: &str) -> &'static Section {
    sections(tag).unwrap().last().copied().unwrap()
}

/// Whether a language is a spelling of its base, as British of American, and may be silent where they agree.
fn is_spelling(tag: &str) -> bool {
    own(tag).base.as_ref().is_some_and(|base| base.split('-').next() == tag.split('-').next())
}

#[test]
fn no_language_lacks_a_word() {
    let base = own("en-US");
    for tag in tags().filter(|tag| !is_spelling(tag)) {
        let own = own(tag);
        let lacking: Vec<&String> = base.says.keys().filter(|key| !own.says.contains_key(*key)).collect();
        assert!(lacking.is_empty(), "{tag} lacks {lacking:?}");
        let parts = [own.days.is_some(), own.hours.is_some(), own.minutes.is_some(), own.seconds.is_some()];
        assert_eq!(parts, [true; 4], "{tag} lacks a part of a duration");
        let set = [&own.about_time, &own.date, &own.pinch, &own.to_taste, &own.weigh, &own.range, &own.beaten];
        assert!(set.iter().all(|set| set.is_some()), "{tag}: {set:?}");
        assert!(own.months.is_some() && own.partitive.is_some() && own.decimal.is_some() && own.thousands.is_some());
        let units: Vec<_> = base.show.keys().filter(|unit| !own.show.contains_key(unit)).collect();
        // Symbols of weights and litres are the same in every language.
        assert!(units.iter().all(|unit| unit.name().len() <= 2), "{tag}: {units:?}");
        let senses: Vec<_> = Sense::ALL.iter().filter(|sense| !own.senses.contains_key(sense)).collect();
        assert!(senses.is_empty(), "{tag} lacks the words of {senses:?}");
    }
}

#[test]
fn no_language_has_a_word_too_many_or_another_place_to_fill() {
    let base = own("en-US");
    for tag in tags() {
        for (key, message) in &own(tag).says {
            let known = base.says.get(key).unwrap_or_else(|| panic!("{tag}: nothing asks for `{key}`"));
            let names = |message: &Message| -> BTreeSet<String> {
                message.names().into_iter().filter(|name| name != "of").collect()
            };
            assert_eq!(names(message), names(known), "{tag}: {key}");
        }
    }
}

/// A no-break space stands before `: ; ! ? %`. Source: Imprimerie nationale, Lexique des règles typographiques.
#[test]
fn no_word_stands_for_what_should_be_put_in() {
    for tag in Language::tags() {
        let language = Language::of(tag).unwrap();
        for hazard in crate::facts::Hazard::ALL {
            for text in &language.hazard(hazard.name()).unwrap().say {
                let shouts = |word: &str| word == "N" || word.len() > 2 && word.chars().all(|c| c.is_uppercase());
                let wrong = text.split(|c: char| !c.is_alphanumeric() && c != '’').find(|word| shouts(word));
                assert!(wrong.is_none_or(|word| ["USDA", "EFSA", "FDA", "NHS"].contains(&word)), "{tag}: {text}");
                assert!(text.replace("{names}", "").find(['{', '}']).is_none(), "{tag}: {text}");
            }
        }
    }
}

#[test]
fn french_is_set_as_french_is() {
    let french = Language::of("fr").unwrap();
    for key in french.keys() {
        let said = french.say(key, &[]);
        for (at, mark) in said.match_indices([':', ';', '!', '?', '%']) {
            let before = said[..at].chars().next_back();
            assert!(matches!(before, Some('\u{A0}' | '\u{202F}')), "{key}: `{mark}` in {said}");
        }
        assert!(!said.contains('\''), "{key}: a straight apostrophe in {said}");
    }
}

#[test]
fn dates_and_durations_are_as_readers_write_them() {
    let said = |tag: &str, iso: &str| Language::of(tag).unwrap().day(iso).unwrap_or_default();
    assert_eq!(said("en-US", "2026-07-04"), "July 4, 2026");
    assert_eq!(said("en-GB", "2026-07-04"), "4 July 2026");
    assert_eq!(said("fr", "2026-08-01"), "1er août 2026");
    assert_eq!(said("fr", "2026-02-11"), "11 février 2026");
    assert_eq!(said("fr", "2026-02-30"), "");
    let french = Language::of("fr").unwrap();
    assert_eq!(french.duration(Duration::seconds(259_200)), "3 jours");
    assert_eq!(french.duration(Duration { low: 3000, high: 5400 }), "50–90 min");
    assert_eq!(french.duration(Duration { low: 90, high: 86_400 }), "1 min 30 s à 24 h");
    assert_eq!(french.about(Duration { low: 60, high: 34_300 }), "environ 9 h 35 min");
}

#[test]
fn an_amount_is_joined_to_its_name() {
    let french = Language::of("fr").unwrap();
    let joined = |name: &str| format!("{}{name}", french.partitive(name));
    assert_eq!(joined("farine"), "de farine");
    assert_eq!(joined("eau froide"), "d’eau froide");
    assert_eq!(joined("œufs"), "d’œufs");
    assert_eq!(joined("huile"), "d’huile");
    assert_eq!(joined("haricots blancs"), "de haricots blancs");
    assert_eq!(joined("yaourt grec"), "de yaourt grec");
    assert_eq!(Language::default().partitive("oil"), "");
}

#[test]
fn a_word_is_a_whole_one() {
    let english = Language::default();
    let preserves = |text: &str| english.tells(Sense::Preserving, text);
    assert!(preserves("apricot jam") && preserves("jam, of plums") && !preserves("jamaican ginger cake"));
    assert!(english.tells(Sense::Caramel, "caramelize the sugar"));
    let french = Language::of("fr").unwrap();
    assert!(french.tells(Sense::Preserving, "confiture d’abricots") && french.tells(Sense::Boiled, "boil it"));
}

#[test]
fn durations_read_and_serialise() {
    let language = Language::default();
    let case = |low, high, text: &str, iso: &str| {
        let duration = Duration { low, high };
        assert_eq!((language.duration(duration).as_str(), duration.iso().as_str()), (text, iso));
    };
    case(4800, 4800, "1 h 20 min", "PT1H20M");
    case(1320, 1500, "22–25 min", "PT25M");
    case(3 * 86_400, 3 * 86_400, "3 days", "P3D");
    case(86_400, 86_400, "24 h", "P1D");
    case(8 * 3600, 12 * 3600, "8–12 h", "PT12H");
    case(90, 90, "1 min 30 s", "PT1M30S");
    case(45 * 60, 3600, "45–60 min", "PT1H");
    case(50 * 60, 90 * 60, "50–90 min", "PT1H30M");
    case(0, 0, "0 min", "PT0S");
}

#[test]
fn a_language_is_the_same_before_and_after_it_has_read() {
    let language = Language::of("fr").unwrap();
    let before = format!("{language:?}");
    assert!(language.tells(Sense::Egg, "deux œufs"));
    assert_eq!(format!("{language:?}"), before);
}
