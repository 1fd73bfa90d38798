use num_rational::Ratio;

use super::{EggSize, Kitchen};
use crate::measure::{Dimension, Number, Overflow, Unit, Weight};
use crate::pantry::{Measure, Role, Row};
use crate::recipe::{Amount, Line};
use crate::workspace::Authority;

/// What an amount of an ingredient weighs.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Weighed {
    /// The lower end as stated.
    pub low: Weight,
    /// The higher end as stated.
    pub high: Weight,
    /// The least it weighs in cooks' hands.
    pub least: Weight,
    /// The most it weighs in cooks' hands.
    pub most: Weight,
    /// Who says so; `stated` for a weight.
    pub source: String,
    /// Which of the line's amounts this is.
    pub amount: usize,
}

/// Why an amount cannot be weighed.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum Problem {
    /// The line states none.
    #[error("no amount is stated")]
    NoAmount,
    /// The pantry does not know the name.
    #[error("`{0}` is not in the pantry")]
    UnknownIngredient(String),
    /// The pantry knows the name but not this measure of it.
    #[error("the pantry has no weight for a {unit} of {name}")]
    NoMeasure {
        /// The ingredient's name.
        name: String,
        /// The measure.
        unit: String,
    },
    /// Too heavy to be held exactly.
    #[error(transparent)]
    Overflow(#[from] Overflow),
}

/// Spoons that stand for measures too small to have a size of their own. Common practice; no standard defines them.
const TINY: [(Unit, i64); 3] = [(Unit::Dash, 8), (Unit::Pinch, 16), (Unit::Drop, 96)];

impl Kitchen {
    /// What a line weighs: by its stated weight where there is one, else by the first amount that can be weighed.
    ///
    /// # Errors
    /// [`Problem`] of the first amount.
    pub fn weigh(&self, line: &Line) -> Result<Weighed, Problem> {
        self.weigh_as(line, self.ingredient(line))
    }

    /// As [`Kitchen::weigh`], for a line whose ingredient was looked up before.
    ///
    /// # Errors
    /// As [`Kitchen::weigh`].
    pub fn weigh_as(&self, line: &Line, row: Option<&Row>) -> Result<Weighed, Problem> {
        if line.each && line.amounts.len() > 1 {
            return self.weigh_each(line, row);
        }
        let is_weight = |amount: &&Amount| amount.unit.is_some_and(|unit| unit.dimension() == Dimension::Weight);
        let is_household = |amount: &&Amount| amount.unit.is_some_and(Unit::is_household);
        let preferred = match self.authority {
            Authority::Weights => line.amounts.iter().position(|a| is_weight(&a)),
            Authority::Cups => line.amounts.iter().position(|a| is_household(&a)),
        };
        let mut first_problem = Problem::NoAmount;
        for (tried, at) in preferred.into_iter().chain(0..line.amounts.len()).enumerate() {
            match self.weigh_amount(line, at, row) {
                Ok(weighed) => return Ok(weighed),
                Err(problem) if tried == 0 => first_problem = problem,
                Err(_) => {}
            }
        }
        Err(first_problem)
    }

    /// Several pieces of a stated weight each: `2 x 400 g tins`.
    fn weigh_each(&self, line: &Line, row: Option<&Row>) -> Result<Weighed, Problem> {
        let count = &line.amounts[0];
        let one = self.weigh_amount(line, 1, row)?;
        let times = |weight: Weight, number: Number| weight.times(wide(number));
        Ok(Weighed {
            low: times(one.low, count.low)?,
            high: times(one.high, count.high)?,
            least: times(one.least, count.low)?,
            most: times(one.most, count.high)?,
            ..one
        })
    }

    /// What one of a line's amounts weighs.
    ///
    /// # Errors
    /// [`Problem`] where it cannot be known.
    pub fn weigh_amount(&self, line: &Line, at: usize, row: Option<&Row>) -> Result<Weighed, Problem> {
        let amount = line.amounts.get(at).ok_or(Problem::NoAmount)?;
        if amount.unit.is_some_and(Unit::is_vague) {
            return Err(Problem::NoAmount);
        }
        if let Some(unit) = amount.unit.filter(|unit| unit.dimension() == Dimension::Weight) {
            let weigh = |number| Weight::of(number, unit).unwrap_or(Err(Overflow));
            let (low, high) = (weigh(amount.low)?, weigh(amount.high)?);
            return Ok(Weighed { low, high, least: low, most: high, source: "stated".into(), amount: at });
        }
        let row = row.ok_or_else(|| Problem::UnknownIngredient(line.name.clone()))?;
        let weighed = match amount.unit {
            Some(unit) if unit.dimension() == Dimension::Volume => self.weigh_volume(line, amount, unit, row)?,
            Some(unit) => self.weigh_counted(line, amount, unit, row)?,
            None => self.weigh_pieces(line, amount, row)?,
        };
        Ok(Weighed { amount: at, ..weighed })
    }

    fn weigh_volume(&self, line: &Line, amount: &Amount, unit: Unit, row: &Row) -> Result<Weighed, Problem> {
        let fill = self.fill(row, line);
        let no_measure = || no_measure(row, unit.name());
        let (reference, _) = fill.reference(unit).ok_or_else(no_measure)?;
        let measure = self.measure_for(row, reference, line).ok_or_else(no_measure)?;
        let weigh = |number| fill.weigh(number, unit, self.standard).unwrap_or(Err(Overflow));
        Ok(self.spread(weigh(amount.low)?, weigh(amount.high)?, measure))
    }

    /// The range of the published measure, carried over to a weight that was computed from it.
    fn spread(&self, low: Weight, high: Weight, measure: &Measure) -> Weighed {
        let (least, most) = measure.range();
        let usual = i128::from(measure.milligrams().max(1));
        let part =
            |weight: Weight, milligrams: i64| weight.times(Ratio::new(i128::from(milligrams), usual)).unwrap_or(weight);
        Weighed { low, high, least: part(low, least), most: part(high, most), source: measure.citation(), amount: 0 }
    }

    fn weigh_counted(&self, line: &Line, amount: &Amount, unit: Unit, row: &Row) -> Result<Weighed, Problem> {
        let known = match unit {
            Unit::Leaf => self.measure_for(row, unit, line).or_else(|| self.measure_for(row, Unit::Sheet, line)),
            Unit::Sheet => self.measure_for(row, unit, line).or_else(|| self.measure_for(row, Unit::Leaf, line)),
            Unit::Piece | Unit::Pod => {
                return self.measure_for(row, unit, line).map_or_else(
                    || self.weigh_pieces(line, amount, row),
                    |measure| self.times_measure(amount, measure),
                );
            }
            _ => self.measure_for(row, unit, line),
        };
        if let Some(measure) = known {
            let weighed = self.times_measure(amount, measure)?;
            return Ok(self.of_any_grade(line, amount, row).map_or(weighed.clone(), |any| Weighed {
                least: any.least,
                most: any.most,
                ..weighed
            }));
        }
        let Some((_, of_teaspoon)) = TINY.into_iter().find(|(tiny, _)| *tiny == unit) else {
            return Err(no_measure(row, unit.name()));
        };
        let part = Ratio::new(1, of_teaspoon);
        let spoon = Amount { low: amount.low * part, high: amount.high * part, ..amount.clone() };
        let weighed = self.weigh_volume(line, &spoon, Unit::Tsp, row)?;
        Ok(Weighed { source: format!("{}; common practice for a {}", weighed.source, unit.name()), ..weighed })
    }

    /// What sheets of gelatine weigh where the line names no grade; the workspace's grade is then but the likeliest.
    fn of_any_grade(&self, line: &Line, amount: &Amount, row: &Row) -> Option<Weighed> {
        let named = super::GRADES.iter().any(|grade| line.name.to_lowercase().contains(grade));
        let any = self.pantry.by_id("gelatin-sheet").filter(|_| row.is(Role::GelatineSheet) && !named)?;
        self.times_measure(amount, self.measure_for(any, Unit::Sheet, line)?).ok()
    }

    /// Whole pieces: eggs by the workspace's class, other things by the size named, else the usual one.
    fn weigh_pieces(&self, line: &Line, amount: &Amount, row: &Row) -> Result<Weighed, Problem> {
        if let Some((piece, _)) = self.eggs.piece(row, amount.size) {
            let (low, high) = (piece.times(wide(amount.low))?, piece.times(wide(amount.high))?);
            let part = |weight: Weight, percent| weight.times(Ratio::new(percent, 100)).unwrap_or(weight);
            let source = self.eggs.citation().to_string();
            let (least, most) = EggSize::spread(row);
            return Ok(Weighed { low, high, least: part(low, least), most: part(high, most), source, amount: 0 });
        }
        let measure = self.piece_measure(row, amount.size, line).ok_or_else(|| no_measure(row, "piece"))?;
        self.times_measure(amount, measure)
    }

    /// The measure by which single pieces of a row are weighed.
    pub(super) fn piece_measure<'r>(&self, row: &'r Row, size: Option<Unit>, line: &Line) -> Option<&'r Measure> {
        let usual = [Unit::Clove, Unit::Piece, Unit::Medium, Unit::Pod, Unit::Sheet, Unit::Large, Unit::Leaf];
        size.into_iter().chain(usual).find_map(|unit| self.measure_for(row, unit, line))
    }

    fn times_measure(&self, amount: &Amount, measure: &Measure) -> Result<Weighed, Problem> {
        let one = Weight::from_milligrams(measure.milligrams());
        Ok(self.spread(one.times(wide(amount.low))?, one.times(wide(amount.high))?, measure))
    }
}

fn no_measure(row: &Row, unit: &str) -> Problem {
    Problem::NoMeasure { name: row.name().into(), unit: unit.replace('_', " ") }
}

pub(crate) fn wide(number: Number) -> Ratio<i128> {
    Ratio::new(i128::from(*number.numer()), i128::from(*number.denom()))
}
