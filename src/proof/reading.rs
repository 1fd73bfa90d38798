//! The faults that are found while a file is read, while allows are weighed and while outputs are made.

use crate::source::Level;

/// A fault that is no rule of the table.
#[derive(Debug)]
pub(super) struct ReadingFault {
    /// Its name.
    pub name: &'static str,
    /// How bad it is.
    pub level: Level,
    /// Its explanation, in the same parts as a rule's.
    pub text: &'static str,
}

/// A table of faults: name, level, what it finds, why it matters, a wrong and a right example, who says so.
macro_rules! faults {
    ($($name:literal $level:ident $finds:literal $matters:literal $example:literal $instead:literal $source:literal)*) => {
        pub(super) const READING: &[ReadingFault] = &[$(ReadingFault {
            name: $name,
            level: Level::$level,
            text: concat!(
                "What it finds: ", $finds, "\n\nWhy it matters: ", $matters, "\n\nExample: ", $example,
                "\n\nInstead: ", $instead, "\n\nSource: ", $source
            ),
        }),*];
    };
}

faults! {
    "allow-without-reason" Warning
        "an entry of `allow` that does not say why."
        "the next reader of the file cannot tell a decision from a slip."
        "`allow: [ratio-disagrees]`"
        "`allow: [{rule: ratio-disagrees, because: the ratio is that of the old mill}]`"
        "rule of the house."
    "empty-file" Error
        "a file without a recipe."
        "there is nothing to publish."
        "a file of comments alone"
        "a file that starts with `title:`"
        "the recipe format."
    "empty-text" Error
        "a text that must say something and is blank, such as a title, a step or the alternative text of a photo."
        "a reader, or a reader's screen reader, meets a hole."
        "`photo: {file: tart.jpg, alt: \"\"}`"
        "`photo: {file: tart.jpg, alt: A slice of tart on a blue plate}`"
        "WCAG 2.2, success criterion 1.1.1, for photos; else the recipe format."
    "impossible-number" Error
        "in `pantry.yaml`, a weight or an amount that is not above 0, grams that do not lie between `low` and `high`, alcohol that is no share."
        "every amount of the ingredient would be computed from it."
        "`{of: cup, grams: -118, source: weighed here}`"
        "`{of: cup, grams: 118, source: weighed here}`"
        "rule of the house."
    "internal-fault" Error
        "a recipe that levelcup itself fails at."
        "nothing is made of it; the other recipes are made as ever."
        "no text should bring this about"
        "tell levelcup's makers, with the file"
        "rule of the house."
    "missing-glyph" Warning
        "a character that the card's typeface does not have."
        "a lozenge stands in its place on the card."
        "an emoji in a title"
        "words"
        "the embedded typeface."
    "missing-key" Error
        "a mapping without a key that it needs: a recipe without `title`, a photo without `alt`, a row of the pantry without `names`."
        "the outputs have nothing to put there."
        "`photo: {file: tart.jpg}`"
        "`photo: {file: tart.jpg, alt: A slice of tart on a blue plate}`"
        "the recipe format."
    "nested-too-deep" Error
        "lists or mappings more than 24 levels inside each other."
        "no recipe needs it, and a hostile file could exhaust the reader."
        "`[[[[[[[[[[[[[[[[[[[[[[[[[1]]]]]]]]]]]]]]]]]]]]]]]]]`"
        "the six levels of a recipe"
        "rule of the house."
    "path-outside-workspace" Error
        "a photo's path that leads out of `site/photos/`."
        "files elsewhere are nobody's to publish."
        "`photo: {file: ../secret.jpg, alt: A tart}`"
        "`photo: {file: tart.jpg, alt: A tart}`"
        "rule of the house."
    "repeated-key" Error
        "one key twice in a mapping."
        "YAML readers would silently keep one of them."
        "`time: 5 min` and `time: 8 min` in one step"
        "one of them"
        "YAML 1.2, section 3.2.1.3."
    "repeated-name" Error
        "two components of one name; in `pantry.yaml`, two rows of one id or name."
        "`uses`, or an ingredient line, could mean either."
        "two components called `Cream`"
        "`Pastry cream` and `Whipped cream`"
        "the recipe format."
    "too-much" Error
        "a list, a mapping or a text longer than any recipe needs: 50 components, 100 lines or steps in one, 100 tags, 100 keys, 10,000 characters."
        "work on it could take minutes, and a hostile file could stop a whole run."
        "a list of 140,000 tags"
        "the tags that people look for"
        "rule of the house."
    "unknown-allow" Warning
        "an entry of `allow` that names no rule, or one that cannot be allowed."
        "it silences nothing, and the author believes that it does."
        "`allow: [{rule: ratio-disagree, because: ...}]`"
        "`allow: [{rule: ratio-disagrees, because: ...}]`"
        "rule of the house."
    "unknown-choice" Error
        "a word where one of a few others belongs: a cup, a grade of gelatine or a language in `site/site.yaml`, a class, a unit or an allergen in `pantry.yaml`, what a link is for."
        "nothing is guessed, and what it was meant to set would not be set."
        "`cups: custmary`"
        "`cups: customary`"
        "the formats of the recipe, the settings and the pantry."
    "unknown-component" Error
        "`uses` with a name that no component has."
        "the reader cannot find what goes in."
        "`uses: [Glaze]` in a recipe without a component `Glaze`"
        "a component's name as it is written"
        "the recipe format."
    "unknown-key" Error
        "a key that its place does not have."
        "it would be dropped, and what it says with it."
        "`sumary: A tart.`"
        "`summary: A tart.`"
        "the recipe format."
    "unknown-rule" Error
        "an entry of `levels` in `site/site.yaml` that names no rule, or one that cannot be changed."
        "it sets nothing, and the author believes that it does."
        "`levels: {yield-mising: off}`"
        "`levels: {yield-missing: off}`"
        "rule of the house."
    "unreadable-colour" Error
        "an `accent` in `site/site.yaml` that is not `#` and six hexadecimal digits."
        "pages and cards are coloured by it."
        "`accent: teal`"
        "`accent: \"#0b4f6c\"`"
        "CSS Color 4, section 5.2."
    "unreadable-date" Error
        "a date that is none, or is not written as year, month and day."
        "pages are sorted and feeds are dated by it."
        "`published: 4 July 2026`"
        "`published: 2026-07-04`"
        "ISO 8601-1:2019, calendar date, extended format."
    "unreadable-file" Error
        "a recipe or a page that cannot be opened, leads out of the workspace, is no plain file, is larger than 1 MiB, or is not UTF-8."
        "nothing can be read from it."
        "a file saved as Latin-1"
        "a file saved as UTF-8"
        "rule of the house."
    "unreadable-line" Error
        "an ingredient line or amount that cannot be understood."
        "nothing is guessed, so it could be neither weighed nor measured."
        "`1/0 cup flour`"
        "`1/2 cup flour`"
        "the recipe format."
    "unreadable-name" Error
        "an earlier name under `was` that no file can have had, or a name in `pantry.yaml` without a word that names anything."
        "no old address, or no ingredient line, could lead to it."
        "`names: [the]`"
        "`names: [quay mill flour]`"
        "the formats of the recipe and the pantry."
    "unreadable-ratio" Error
        "a ratio without one number for each of its ingredients."
        "it cannot be compared with the weights."
        "`ratio: {of: [flour, butter], is: \"5\"}`"
        "`ratio: {of: [flour, butter], is: \"5:3\"}`"
        "the recipe format."
    "unreadable-servings" Error
        "`serves` that is neither a number nor a range."
        "portions, shopping and the label are reckoned by it."
        "`serves: many`"
        "`serves: 8 to 10`"
        "the recipe format."
    "unreadable-share" Error
        "in `pantry.yaml`, a usual share of a part that is neither a number nor a range."
        "no component of the kind could be held against it."
        "`usual: {butter: much}`"
        "`usual: {butter: 60 to 80 %}`"
        "the format of the pantry."
    "unreadable-temperature" Error
        "`oven` or `heat` with something that is no temperature."
        "it could not be shown in the other scale."
        "`oven: hot`"
        "`oven: 220 °C`"
        "the recipe format."
    "unreadable-time" Error
        "`time`, `wait`, `at` or a video's `length` that is no time."
        "times are added up, and chapters are made of them."
        "`time: soon`"
        "`time: 12–15 min`"
        "the recipe format."
    "unsafe-link" Error
        "an address that is not http or https, or holds quotes, brackets or spaces."
        "a link with another scheme can run code on the reader's machine."
        "`url: javascript:alert(1)`"
        "`url: \"https://shop.example/ring-24\"`"
        "RFC 3986 for addresses; rule of the house."
    "unused-allow" Warning
        "an entry of `allow` for a rule that nothing in the recipe breaks."
        "it would hide the next real finding."
        "an allow that stayed behind when its line was mended"
        "no entry"
        "rule of the house."
    "wrong-kind" Error
        "a value of the wrong kind: a list where a text belongs, a word where a number belongs."
        "it cannot be understood."
        "`components: Sponge`"
        "`components:` and a list of `- name: Sponge`"
        "the recipe format."
    "yaml-alias" Error
        "a YAML alias."
        "a few of them can grow into a file that fills the memory, and a place in it has two meanings."
        "`*base`"
        "the value, written out"
        "rule of the house."
    "yaml-syntax" Error
        "text that is not YAML, or more than one document."
        "nothing of the file can be read."
        "`title: Tart: the best`"
        "`title: \"Tart: the best\"`"
        "YAML 1.2."
    "yaml-tag" Error
        "a YAML tag."
        "it asks a program to make something else of the value: another file's text, an object."
        "`title: !include notes.txt`"
        "`title: Notes`"
        "rule of the house."
}
