//! The QR code that leads from the card to its page.

use fast_qr::{ECL, QRBuilder};

use super::placed::Item;
use super::size::MM;

/// Length of a module on the smallest cards, in points: 0.5 mm is the least that telephones read from paper.
const LEAST_MODULE: f32 = 0.5 * MM;

/// Modules of white that ISO/IEC 18004 asks for on every side.
const QUIET_MODULES: f32 = 4.0;

/// A QR code and the room it takes.
#[derive(Clone, Debug)]
pub(crate) struct Code {
    side: usize,
    modules: Vec<bool>,
    module: f32,
}

impl Code {
    /// A code for an address, or `None` if it would take more than `room` points with its quiet zone.
    pub(crate) fn new(address: &str, room: f32) -> Option<Self> {
        let of_level = |level| QRBuilder::new(address).ecl(level).build().ok();
        let code = of_level(ECL::M).or_else(|| of_level(ECL::L))?;
        let side = code.size;
        let modules = code.data[..side * side].iter().map(|module| module.value()).collect();
        let code = Self { side, modules, module: LEAST_MODULE * 1.05 };
        (code.length() + code.quiet() <= room).then_some(code)
    }

    /// Length of a side in points, without the quiet zone.
    pub(crate) fn length(&self) -> f32 {
        self.side as f32 * self.module
    }

    /// Width of the quiet zone in points.
    pub(crate) fn quiet(&self) -> f32 {
        QUIET_MODULES * self.module
    }

    pub(crate) fn item(&self) -> Item {
        Item::Code { side: self.side, modules: self.modules.clone(), module: self.module }
    }
}
