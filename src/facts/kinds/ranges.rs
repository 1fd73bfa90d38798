//! The usual share of each part in a kind of component.

use std::sync::LazyLock;

use rustc_hash::FxHashMap;

use super::groups;
use super::parts::Amounts;
use crate::facts::table;
use crate::pantry::{OwnKind, PARTS, share};

/// Kind, base, part, low, usual from and to, high, whether needed or expected, and the source where it is not common
/// practice; per cent of the base, and grams each where the base is a serving or a plate.
pub(super) const SHARES: &str = include_str!("shares.tsv");

/// The usual share of a part.
#[derive(Clone, Copy, Debug)]
pub(super) struct Range {
    pub(super) base: &'static str,
    pub(super) part: &'static str,
    low: f64,
    pub(super) usual: (f64, f64),
    high: f64,
    /// Whether nothing without it is taken for the kind.
    pub(super) needed: bool,
    /// Whether the kind cannot be without it, unless another component brings it.
    pub(super) expected: bool,
}

/// What is never in any dish: parts that no plate and no batch holds so much of.
pub(super) const ANY_DISH: &str = "any dish";

/// What a part costs that is needed and not there.
const MISSING: f64 = 1.5;

/// The least distance, as a logarithm, between the usual and the outermost share.
const NARROW: f64 = 0.18;

/// The ranges of every kind, those of all kinds together added for parts that it does not name.
static ALL: LazyLock<FxHashMap<&'static str, Vec<Range>>> = LazyLock::new(|| {
    let mut all: FxHashMap<&'static str, Vec<Range>> = FxHashMap::default();
    for line in table::rows(SHARES) {
        if let Some((kind, range)) = read(line) {
            all.entry(kind).or_default().push(range);
        }
    }
    let of_all = OfAll::among(&all);
    for (_, own) in all.iter_mut().filter(|(kind, _)| ![ANY, ANY_DISH].contains(kind)) {
        of_all.complete(own);
    }
    all
});

/// Ranges that count in every kind that does not say better.
const ANY: &str = "any";

/// The ranges of all kinds together.
struct OfAll {
    any: Vec<Range>,
    plates: Vec<Range>,
}

impl OfAll {
    fn among(all: &FxHashMap<&'static str, Vec<Range>>) -> Self {
        let any = all.get(ANY).cloned().unwrap_or_default();
        let dish = all.get(ANY_DISH).into_iter().flatten();
        Self { any, plates: dish.filter(|range| range.base == "plate").copied().collect() }
    }

    /// Adds those for parts that a kind does not name.
    fn complete(&self, own: &mut Vec<Range>) {
        let mut named: Vec<&str> = own.iter().filter(|range| range.is_a_share()).map(|range| range.part).collect();
        let groups = groups::sums()
            .iter()
            .filter(|(group, _)| named.contains(group))
            .flat_map(|(_, parts)| parts.iter().copied());
        let of_groups: Vec<&str> = groups.collect();
        named.extend(of_groups);
        own.extend(self.any.iter().filter(|range| !named.contains(&range.part)));
        own.extend(&self.plates);
    }
}

/// A usual share passes up to so many times beyond a kitchen's own. Common practice: a cook's own formula moves little.
const LEEWAY: f64 = 1.5;

/// The ranges of a kind of the kitchen's own.
pub(super) fn of_own(kind: &OwnKind) -> Vec<Range> {
    let part = |name: &str| PARTS.iter().copied().find(|part| *part == name);
    let range = |(name, text): (&String, &String)| {
        let (from, to) = share(text)?;
        let (base, part) = (part(&kind.of)?, part(name)?);
        let (low, high) = (from / LEEWAY, to * LEEWAY);
        Some(Range { base, part, low, usual: (from, to), high, needed: false, expected: false })
    };
    let mut own = kind.usual.iter().filter_map(range).collect();
    OfAll::among(&ALL).complete(&mut own);
    own
}

pub(super) fn read(line: &'static str) -> Option<(&'static str, Range)> {
    let cells: Vec<&'static str> = line.split('\t').collect();
    let number = |at: usize| cells.get(at)?.parse::<f64>().ok();
    let range = Range {
        base: cells.get(1)?,
        part: cells.get(2)?,
        low: number(3)?,
        usual: (number(4)?, number(5)?),
        high: number(6)?,
        needed: cells.get(7) == Some(&"needed"),
        expected: cells.get(7).is_some_and(|cell| !cell.is_empty()),
    };
    Some((cells[0], range))
}

/// The ranges of a kind.
pub(super) fn ranges(kind: &str) -> &'static [Range] {
    ALL.get(kind).map_or(&[], Vec::as_slice)
}

impl Range {
    /// Whether it says how much is usual, and not only that there is some.
    pub(super) fn is_a_share(&self) -> bool {
        self.needed || !self.expected
    }

    /// The part's share of its base in per cent; none where there is no base.
    pub(super) fn share(&self, amounts: &Amounts) -> Option<f64> {
        let of = |part: &str| amounts.get(part).copied().unwrap_or_default();
        (of(self.base) > 0.0).then(|| 100.0 * of(self.part) / of(self.base))
    }

    /// How strange a share is: 0 where usual, 1 at the outermost, and 1 more for every doubling beyond.
    pub(super) fn strangeness(&self, share: f64) -> f64 {
        if share <= 0.0 {
            return if self.needed { MISSING } else { 0.0 };
        }
        let (from, to) = self.usual;
        let (off, width) = match () {
            () if share > to => ((share / to).ln(), (self.high / to).ln()),
            () if share < from => ((from / share).ln(), if self.low > 0.0 { (from / self.low).ln() } else { 3.0 }),
            () => return 0.0,
        };
        let width = width.max(NARROW);
        if off <= width { off / width } else { 1.0 + (off - width) / std::f64::consts::LN_2 }
    }

    /// Whether a share is beyond the outermost.
    pub(super) fn is_beyond(&self, share: f64) -> bool {
        share > 0.0 && (share < self.low || share > self.high)
    }
}
