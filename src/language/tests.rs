use std::collections::BTreeSet;

use super::section::{self, sections, tags};
use super::*;
use crate::measure::Dimension;

/// The keys of a language's own file, and of those that it is said to be read beside but not said in.
fn own(tag: &str) -> &'static Section {
    sections(tag).unwrap().last().copied().unwrap()
}

/// Whether a language is a spelling of its base, as British of American, and may be silent where they agree.
fn is_spelling(tag: &str) -> bool {
    own(tag).base.as_ref().is_some_and(|base| base.split('-').next() == tag.split('-').next())
}

/// All languages' files as they stand, so that an empty list is told from none.
fn files() -> serde_json::Value {
    serde_json::from_str(section::DATA).unwrap()
}

/// Maps of which every language has entries of its own.
const OPEN: [&str; 13] = [
    "show",
    "read",
    "exact",
    "double",
    "sizes",
    "numbers",
    "stems",
    "spoken",
    "irregular",
    "hazards",
    "kinds",
    "in_plural",
    "by_spoon",
];

/// The keys of the American file that another lacks, in and out of maps.
fn keys_lacking(base: &serde_json::Value, own: &serde_json::Value, under: &str, lacking: &mut Vec<String>) {
    for (key, value) in base.as_object().into_iter().flatten() {
        match own.get(key) {
            None => lacking.push(format!("{under}{key}")),
            Some(own) if value.is_object() && !OPEN.contains(&key.as_str()) => {
                keys_lacking(value, own, &format!("{under}{key}."), lacking);
            }
            Some(_) => {}
        }
    }
}

/// What a language's own file lacks of the hazards: name, advice, and words where the American ones tell it.
fn hazards_lacking(base: &serde_json::Value, own: &serde_json::Value, lacking: &mut Vec<String>) {
    for hazard in crate::facts::Hazard::ALL.iter().map(|hazard| hazard.name()) {
        let (base, own) = (&base["hazards"][hazard], &own["hazards"][hazard]);
        let said = |of: &serde_json::Value| of["say"].as_array().map_or(0, Vec::len);
        if own["name"].as_str().is_none_or(str::is_empty) {
            lacking.push(format!("hazards.{hazard}.name"));
        }
        if said(own) == 0 || said(own) < said(base) {
            lacking.push(format!("hazards.{hazard}.say ({} of {})", said(own), said(base).max(1)));
        }
        let told = ["titled", "line", "step"].into_iter().filter(|by| base[by].is_array() && !own[by].is_array());
        lacking.extend(told.map(|by| format!("hazards.{hazard}.{by} (`[]` where the roles alone tell it)")));
    }
}

/// The units that a language has no words for; symbols of weights and litres are the same in every language.
fn units_lacking(tag: &str, lacking: &mut Vec<String>) {
    let (own, language) = (own(tag), Language::of(tag).unwrap());
    let symbol = |unit: Unit| own.base.is_some() && (unit.is_metric() || unit.dimension() == Dimension::Weight);
    for unit in Unit::ALL.iter().copied().filter(|unit| !symbol(*unit)) {
        let shown = own.show.get(&unit).and_then(|forms| forms.first());
        if shown.is_none_or(String::is_empty) {
            lacking.push(format!("show.{}", unit.name()));
        }
        // One word may be two units of another language: a French `feuille` is a leaf and a sheet.
        let shared = || shown.is_some_and(|word| language.unit(word).is_some());
        if !own.read.contains_key(&unit) && !own.sizes.contains_key(&unit) && !shared() {
            let under = if unit.is_of_things() { "sizes" } else { "read" };
            lacking.push(format!("{under}.{}", unit.name()));
        }
    }
}

/// What the pantry calls nuts, fish, crustaceans and cereals.
fn kinds() -> BTreeSet<String> {
    let pantry = crate::pantry::Pantry::embedded();
    let of = |row: &crate::pantry::Row| -> Vec<String> {
        row.kind.iter().cloned().chain(row.allergens.gluten_of().map(str::to_string)).collect()
    };
    pantry.rows().iter().flat_map(of).collect()
}

#[test]
fn no_language_lacks_a_word() {
    let files = files();
    let mut all = Vec::new();
    for tag in tags().filter(|tag| !is_spelling(tag)) {
        let mut lacking = Vec::new();
        keys_lacking(&files["en-US"], &files[tag], "", &mut lacking);
        hazards_lacking(&files["en-US"], &files[tag], &mut lacking);
        units_lacking(tag, &mut lacking);
        let own = own(tag);
        let senses = Sense::ALL.iter().filter(|sense| !own.senses.contains_key(sense));
        lacking.extend(senses.map(|sense| format!("senses: {sense:?}")));
        if own.groups.is_empty() {
            lacking.push("groups".into());
        }
        if !tag.starts_with("en") {
            lacking.extend(kinds().iter().filter(|kind| !own.kinds.contains_key(*kind)).map(|k| format!("kinds.{k}")));
        }
        all.extend(lacking.into_iter().map(|key| format!("src/language/{tag}.yaml lacks {key}")));
    }
    assert!(all.is_empty(), "en-US.yaml says what each key is for.\n{}", all.join("\n"));
}

/// What stands in a language's file and is never asked for, or has other places to fill than the American words.
fn too_much(tag: &str) -> Vec<String> {
    let (base, own) = (own("en-US"), own(tag));
    let names =
        |message: &Message| -> BTreeSet<String> { message.names().into_iter().filter(|name| name != "of").collect() };
    let mut wrong = Vec::new();
    for (key, message) in &own.says {
        match base.says.get(key) {
            None => wrong.push(format!("says.{key}: en-US.yaml has no such key")),
            Some(known) if names(message) != names(known) => {
                wrong.push(format!("says.{key}: it fills in {:?}, not {:?}", names(message), names(known)));
            }
            Some(_) => {}
        }
    }
    for (key, hazard) in &own.hazards {
        if !crate::facts::Hazard::ALL.iter().any(|known| known.name() == key) {
            wrong.push(format!("hazards.{key}: src/facts/hazards/hazard.rs has no such hazard"));
        }
        let usual = base.hazards.get(key).map_or(0, |base| base.say.len());
        if hazard.say.len() > usual || (hazard.say.len() < usual && !hazard.say.is_empty()) {
            wrong.push(format!("hazards.{key}.say: {} texts, not {usual}", hazard.say.len()));
        }
    }
    let forms = own.show.iter().filter(|(_, forms)| forms.len() > 2);
    wrong.extend(forms.map(|(unit, _)| format!("show.{}: only the first two forms are printed", unit.name())));
    wrong.into_iter().map(|fault| format!("src/language/{tag}.yaml: {fault}")).collect()
}

#[test]
fn no_language_has_a_word_too_many_or_another_place_to_fill() {
    let wrong: Vec<String> = tags().flat_map(too_much).collect();
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn no_word_stands_for_what_should_be_put_in() {
    for tag in Language::tags() {
        let language = Language::of(tag).unwrap();
        for hazard in crate::facts::Hazard::ALL {
            for text in language.hazard(hazard.name()).into_iter().flat_map(|words| &words.say) {
                let shouts = |word: &str| word == "N" || word.len() > 2 && word.chars().all(|c| c.is_uppercase());
                let wrong = text.split(|c: char| !c.is_alphanumeric() && c != '’').find(|word| shouts(word));
                assert!(wrong.is_none_or(|word| ["USDA", "EFSA", "FDA", "NHS"].contains(&word)), "{tag}: {text}");
                assert!(text.replace("{names}", "").find(['{', '}']).is_none(), "{tag}: {text}");
            }
        }
    }
}

/// A no-break space stands before `: ; ! ? %`. Source: Imprimerie nationale, Lexique des règles typographiques.
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
