//! Jars that are sealed before what is in them is boiled.

use super::{Needs, Own, Sentence, TooEarly};
use crate::language::Sense;

pub(super) fn too_early(own: &Own<'_, '_>) -> Vec<TooEarly> {
    let sealed = own.orders().find_map(|(index, said)| {
        let in_jars = said.tells(Sense::Jars);
        let at = (0..said.words.len()).filter(|_| in_jars).find(|at| said.tells_at(Sense::SealsJars, *at))?;
        Some((index, said, at..at + said.language().lexicon(Sense::SealsJars).at(&said.words, at)))
    });
    let Some((index, said, words)) = sealed else { return Vec::new() };
    // What is boiled to its point before is ready, and jars that are filled may be boiled.
    let ready = own.until(said.step).any(|sentence| sentence.tells(Sense::SetsJam) || sentence.tells(Sense::Canner));
    let boiled = own.later(said.step).find(|sentence| sentence.tells(Sense::SetsJam) && !is_of_jars(sentence));
    let boiled = boiled.filter(|_| !ready).map(|sentence| {
        let mut places = sentence.places.clone();
        let at = places.find(|at| sentence.said.tells_at(Sense::SetsJam, *at)).unwrap_or(sentence.places.start);
        let length = sentence.said.language().lexicon(Sense::SetsJam).at(&sentence.said.words, at);
        TooEarly { needs: Needs::Boil, said: index, words, later: sentence.index, by: at..at + length }
    });
    boiled.into_iter().collect()
}

fn is_of_jars(sentence: &Sentence<'_, '_>) -> bool {
    let said = sentence.said;
    [Sense::BoilsJars, Sense::Bottles, Sense::Canner, Sense::Bath, Sense::Jars, Sense::WaterOrIce]
        .into_iter()
        .any(|of| said.tells(of))
}
