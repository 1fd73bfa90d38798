//! Writes the four faces of the card typeface into `OUT_DIR`, so that no font file is kept in the repository
//! and no other face of the asset crate ends up in the binary.

use std::path::Path;

/// PostScript names of the faces that cards use (Libertinus Serif, SIL Open Font License 1.1).
const FACES: [&str; 4] =
    ["LibertinusSerif-Regular", "LibertinusSerif-Italic", "LibertinusSerif-Semibold", "LibertinusSerif-SemiboldItalic"];

/// Writes each face as `<PostScript name>.otf`.
///
/// Panics, and so stops the build, if the asset crate no longer carries one of them.
#[allow(clippy::disallowed_methods, reason = "the build writes to its own folder")]
pub(crate) fn fonts() {
    println!("cargo::rerun-if-changed=build/fonts.rs");
    let out = std::env::var_os("OUT_DIR").expect("cargo sets OUT_DIR for build scripts");
    for face in FACES {
        let bytes = typst_assets::fonts()
            .find(|bytes| carries(bytes, face))
            .unwrap_or_else(|| panic!("typst-assets carries no face named {face}"));
        let path = Path::new(&out).join(face).with_extension("otf");
        std::fs::write(&path, bytes).unwrap_or_else(|error| panic!("cannot write {}: {error}", path.display()));
    }
}

/// Whether a font file names itself so: the CFF table holds the PostScript name in ASCII.
fn carries(bytes: &[u8], name: &str) -> bool {
    let name = name.as_bytes();
    bytes
        .windows(name.len() + 1)
        .any(|window| window.starts_with(name) && !window.last().is_some_and(u8::is_ascii_alphabetic))
}
