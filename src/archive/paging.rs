use std::ops::Range;

use serde::Serialize;

use super::frame::folder_address;

/// One page of a list that is too long for one.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub(super) struct Paging {
    /// From 1.
    number: usize,
    /// Pages of the list.
    count: usize,
    /// Addresses relative to the archive's root.
    previous: Option<String>,
    next: Option<String>,
}

/// A page's folder, its place among the pages, and the items on it.
pub(super) type PageStretch = (String, Paging, Range<usize>);

/// Spreads `items` over pages of at most `most`: the first at `folder`, the others at `folder/2` and on. One at least.
pub(super) fn pages(items: usize, most: usize, folder: &str) -> Vec<PageStretch> {
    let count = items.div_ceil(most).max(1);
    let folder_of = |number: usize| if number == 1 { folder.to_owned() } else { format!("{folder}/{number}") };
    let address = |number: usize| folder_address(&folder_of(number));
    let stretch = |number: usize| {
        let paging = Paging {
            number,
            count,
            previous: (number > 1).then(|| address(number - 1)),
            next: (number < count).then(|| address(number + 1)),
        };
        (folder_of(number), paging, (number - 1) * most..items.min(number * most))
    };
    (1..=count).map(stretch).collect()
}

#[cfg(test)]
mod tests {
    use super::pages;

    #[test]
    fn every_item_is_on_one_page() {
        let found = pages(5, 2, "tags/tart");
        let folders: Vec<&str> = found.iter().map(|(folder, ..)| folder.as_str()).collect();
        assert_eq!(folders, ["tags/tart", "tags/tart/2", "tags/tart/3"]);
        assert_eq!(found.iter().map(|(.., items)| items.clone()).collect::<Vec<_>>(), [0..2, 2..4, 4..5]);
        assert_eq!(
            (found[1].1.previous.as_deref(), found[1].1.next.as_deref()),
            (Some("tags/tart/"), Some("tags/tart/3/"))
        );
        assert_eq!(pages(0, 2, "x").len(), 1);
    }
}
