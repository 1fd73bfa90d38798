use std::cell::{Cell, RefCell};
use std::panic::{self, AssertUnwindSafe};
use std::sync::Once;

use super::Finding;

thread_local! {
    static GUARDED: Cell<bool> = const { Cell::new(false) };
    /// What the last panic under guard said.
    static SAID: RefCell<String> = const { RefCell::new(String::new()) };
}

/// Does work on one file. Where the program itself fails at it, that is a finding about the file, so that the other
/// files are worked on as ever.
///
/// # Errors
/// The finding.
pub fn guarded<T>(work: impl FnOnce() -> T) -> Result<T, Box<Finding>> {
    static LISTENING: Once = Once::new();
    LISTENING.call_once(|| {
        let usual = panic::take_hook();
        panic::set_hook(Box::new(move |panicked| {
            if GUARDED.get() {
                SAID.replace(panicked.to_string());
            } else {
                usual(panicked);
            }
        }));
    });
    let outer = GUARDED.replace(true);
    // What the work had of the outside is locks alone, and those that were held are let go whole.
    let done = panic::catch_unwind(AssertUnwindSafe(work));
    GUARDED.set(outer);
    done.map_err(|_| {
        let said = SAID.take().split_whitespace().collect::<Vec<_>>().join(" ");
        let finding =
            Finding::error("internal-fault", 0..0, "levelcup itself failed at this recipe; nothing is made of it");
        Box::new(finding.label(said).help("the other recipes are made; please tell levelcup's makers, with this file"))
    })
}

#[cfg(test)]
mod tests {
    use super::guarded;

    #[test]
    fn a_panic_is_a_finding_that_says_where() {
        assert_eq!(guarded(|| 7), Ok(7));
        let inner = || guarded(|| panic!("no such spoon"));
        let found: Result<Result<(), _>, _> = guarded(inner);
        let finding = found.expect("the outer work goes on").expect_err("a panic");
        assert_eq!(finding.rule, "internal-fault");
        assert!(finding.label.contains("guard.rs") && finding.label.ends_with("no such spoon"), "{}", finding.label);
    }
}
