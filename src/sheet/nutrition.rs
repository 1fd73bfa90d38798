use super::model::{Nutrition, SheetLine};
use crate::kitchen::Kitchen;
use crate::language::Language;
use crate::measure::Number;
use crate::pantry::Nutrients;

/// What one nutrient of 100 g is, where its source has it.
type NutrientOf = fn(&Nutrients) -> Option<f64>;

/// Nutrients of one serving, by the table's values for the raw ingredients.
///
/// `None` where the servings are not stated, or a line has no weight or its ingredient no known energy: a sum of a
/// part would be wrong. What may be left out is not counted.
pub(super) fn nutrition<'l>(
    lines: impl Iterator<Item = &'l SheetLine>,
    serves: Option<u32>,
    kitchen: &Kitchen,
) -> Option<Nutrition> {
    let (pantry, language) = (kitchen.pantry(), kitchen.language());
    let serves = serves.filter(|serves| *serves > 0)?;
    let mut parts: Vec<(f64, &Nutrients)> = Vec::new();
    for line in lines.filter(|line| !line.optional) {
        let nutrients = pantry.by_id(line.ingredient.as_deref()?)?.nutrients.as_ref()?;
        let grams = (line.milligrams > 0).then_some(line.milligrams as f64 / 1000.0)?;
        parts.push((grams, nutrients));
    }
    if parts.is_empty() {
        return None;
    }
    let a_serving = |of: NutrientOf| -> Option<f64> {
        let each = parts.iter().map(|(grams, nutrients)| Some(grams / 100.0 * of(nutrients)?));
        Some(each.sum::<Option<f64>>()? / f64::from(serves))
    };
    Some(Nutrition {
        serving: match serves {
            1 => language.say("whole-recipe", &[]),
            _ => language.say("part-of-recipe", &[("serves", &serves.to_string())]),
        },
        kcal: calories(a_serving(|n| n.kcal)?),
        fat: a_serving(|n| n.fat).map(|g| fat(g, language)),
        saturated: a_serving(|n| n.saturated).map(|g| fat(g, language)),
        carbohydrate: a_serving(|n| n.carbohydrate).map(|g| grams(g, language)),
        sugars: a_serving(|n| n.sugars).map(|g| grams(g, language)),
        fibre: a_serving(|n| n.fibre).map(|g| grams(g, language)),
        protein: a_serving(|n| n.protein).map(|g| grams(g, language)),
        sodium: a_serving(|n| n.sodium_mg).map(sodium),
    })
}

// Rounding: FDA, A Food Labeling Guide, Appendix H; 21 CFR 101.9(c). Of two equally near, the greater.

fn nearest(value: f64, step: f64) -> f64 {
    (value / step + 0.5).floor() * step
}

/// Under 5: 0; to 50: nearest 5; above: nearest 10.
fn calories(kcal: f64) -> String {
    let rounded = if kcal < 5.0 { 0.0 } else { nearest(kcal, if kcal <= 50.0 { 5.0 } else { 10.0 }) };
    format!("{rounded:.0}")
}

/// Under 0.5 g: 0; under 5 g: nearest 0.5; else nearest 1.
fn fat(grams: f64, language: &Language) -> String {
    let rounded = if grams < 0.5 { 0.0 } else { nearest(grams, if grams < 5.0 { 0.5 } else { 1.0 }) };
    let halves = Number::new((rounded * 2.0).round() as i64, 2);
    format!("{} g", language.words().decimal(halves, 1))
}

/// Carbohydrate, sugars, fibre, protein: under 0.5 g: 0; under 1 g: said so; else nearest 1.
fn grams(grams: f64, language: &Language) -> String {
    match grams {
        less if less < 0.5 => "0 g".into(),
        less if less < 1.0 => language.say("less-than-gram", &[]),
        more => format!("{:.0} g", nearest(more, 1.0)),
    }
}

/// Under 5 mg: 0; to 140: nearest 5; above: nearest 10.
fn sodium(milligrams: f64) -> String {
    let rounded =
        if milligrams < 5.0 { 0.0 } else { nearest(milligrams, if milligrams <= 140.0 { 5.0 } else { 10.0 }) };
    format!("{rounded:.0} mg")
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Source: computed by the rule.
    #[test]
    fn label_rounding() {
        let english = Language::default();
        let said = |round: fn(f64) -> String, values: &[f64]| values.iter().map(|v| round(*v)).collect::<Vec<_>>();
        let worded = |round: fn(f64, &Language) -> String, values: &[f64]| {
            values.iter().map(|v| round(*v, &english)).collect::<Vec<_>>()
        };
        assert_eq!(
            said(calories, &[4.9, 5.0, 23.0, 48.0, 50.0, 52.0, 127.0, 146.0]),
            ["0", "5", "25", "50", "50", "50", "130", "150"]
        );
        assert_eq!(worded(fat, &[0.49, 0.5, 4.6, 4.8, 5.4]), ["0 g", "0.5 g", "4.5 g", "5 g", "5 g"]);
        assert_eq!(said(sodium, &[4.0, 138.0, 141.0, 147.0]), ["0 mg", "140 mg", "140 mg", "150 mg"]);
        assert_eq!(worded(grams, &[0.4, 0.7, 1.4]), ["0 g", "less than 1 g", "1 g"]);
    }
}
