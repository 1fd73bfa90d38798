use super::Weight;

/// How far a weight may be from whole pieces, in thousandths of the weight. Rule of the house.
const WHOLE_PER_MILLE: u32 = 80;

/// A weight in pieces: whole ones, and what is left over.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Pieces {
    /// Whole pieces.
    pub whole: u32,
    /// What remains to be measured; nothing when the weight is within 8 % of the whole pieces.
    pub rest: Weight,
}

/// Divides a weight into pieces that weigh `piece` each.
///
/// Whole pieces alone where the weight is within 8 % of them, else as many as fit and the remainder. `None` when the
/// piece weighs nothing.
pub fn pieces(weight: Weight, piece: Weight) -> Option<Pieces> {
    let (weight_ng, piece_ng) = (weight.nanograms(), piece.nanograms());
    if piece_ng == 0 {
        return None;
    }
    let nearest = u32::try_from((weight_ng + piece_ng / 2) / piece_ng).ok()?;
    let total = piece.times(num_rational::Ratio::from_integer(i128::from(nearest))).ok()?;
    if nearest > 0 && total.is_within(WHOLE_PER_MILLE, weight) {
        return Some(Pieces { whole: nearest, rest: Weight::ZERO });
    }
    let whole = u32::try_from(weight_ng / piece_ng).ok()?;
    Some(Pieces { whole, rest: Weight::from_nanograms(weight_ng % piece_ng) })
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Large egg 50 g: USDA SR28 01123.
    #[test]
    fn eggs_come_whole_or_with_a_remainder() {
        let case = |grams: i64, whole, rest: i64| {
            let got = pieces(Weight::from_milligrams(grams * 1000), Weight::from_milligrams(50_000)).unwrap();
            assert_eq!(got, Pieces { whole, rest: Weight::from_milligrams(rest * 1000) }, "{grams} g");
        };
        case(50, 1, 0);
        case(104, 2, 0);
        case(130, 2, 30);
        case(20, 0, 20);
        case(48, 1, 0);
    }
}
