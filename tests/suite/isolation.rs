//! One faulty thing never keeps the rest from going out, and nothing is read but plain files of the workspace.

use std::fs;
use std::time::{Duration, Instant};

use crate::workspace::{CLEAN, Workspace};

/// A workspace with a sound recipe, `tea`, beside `toast`.
fn two(toast: &str) -> Workspace {
    let workspace = Workspace::with(toast);
    workspace.file("recipes/tea.yaml", CLEAN.replace("Toast", "Tea"));
    workspace
}

fn with_photo(file: &str) -> String {
    CLEAN.replace("makes:", &format!("photo: {{file: {file}, alt: A slice}}\nmakes:"))
}

fn made(workspace: &Workspace, path: &str) -> bool {
    workspace.path("out").join(path).exists()
}

fn jpeg(width: u32) -> Vec<u8> {
    let mut bytes = std::io::Cursor::new(Vec::new());
    let picture = image::RgbImage::from_fn(width, 90, |x, y| image::Rgb([x as u8, y as u8, 90]));
    picture.write_to(&mut bytes, image::ImageFormat::Jpeg).unwrap();
    bytes.into_inner()
}

#[test]
fn a_photo_that_cannot_be_shown_holds_back_its_own_recipe_alone() {
    let whole = jpeg(120);
    for (bytes, said) in [
        (&whole[..whole.len() / 2], "cannot be shown: it ends before it is whole"),
        (b"no picture", "cannot be shown: it is no picture"),
        (b"\0\0\0\x18ftypheic\0\0\0\0", "cannot be shown: it is a HEIC picture"),
        (b"GIF89a\x01\0\x01\0\0\0\0;", "cannot be shown: it is a GIF"),
    ] {
        let workspace = two(&with_photo("slice.jpg"));
        workspace.file("site/photos/slice.jpg", bytes);
        let proof = workspace.run(&["proof"]).exits(1).stdout;
        assert!(proof.contains("recipes/toast.yaml:4:15") && proof.contains(said), "{proof}");
        workspace.run(&["describe"]).exits(1);
        let published = workspace.run(&["publish"]).exits(1).stderr;
        assert!(published.contains(said), "{published}");
        assert!(made(&workspace, "archive/tea/index.html") && made(&workspace, "cards/tea.pdf"));
        assert!(!made(&workspace, "archive/toast") && !made(&workspace, "cards/toast.pdf"));
        // The page that was there stays until the photo is mended.
        workspace.file("site/photos/slice.jpg", &whole);
        workspace.run(&["publish"]).exits(0);
        assert!(made(&workspace, "archive/photos/slice.jpg"));
        workspace.file("site/photos/slice.jpg", bytes);
        workspace.run(&["publish"]).exits(1);
        assert!(made(&workspace, "archive/toast/index.html") && made(&workspace, "archive/photos/slice.jpg"));
    }
}

#[test]
fn a_photo_is_decoded_again_only_when_somebody_wrote_to_it() {
    let workspace = two(&with_photo("slice.jpg"));
    workspace.file("site/photos/slice.jpg", jpeg(120));
    workspace.run(&["publish"]).exits(0);
    let path = workspace.path("site/photos/slice.jpg");
    let (length, time) = fs::metadata(&path).map(|data| (data.len(), data.modified().unwrap())).unwrap();
    fs::write(&path, vec![b'x'; length as usize]).unwrap();
    fs::File::options().write(true).open(&path).unwrap().set_modified(time).unwrap();
    workspace.run(&["proof"]).exits(0);
    fs::write(&path, vec![b'x'; length as usize]).unwrap();
    workspace.run(&["proof"]).exits(1);
}

#[test]
fn a_page_that_cannot_be_read_keeps_nothing_else_back() {
    let workspace = two(CLEAN);
    workspace.file("site/pages/about.md", "# About\n\nUs.\n");
    workspace.run(&["publish"]).exits(0);
    workspace.file("site/pages/about.md", b"# \xff\n");
    workspace.file("recipes/tea.yaml", CLEAN.replace("Toast", "Green tea"));
    let said = workspace.run(&["publish"]).exits(1).stderr;
    assert!(said.contains("site/pages/about.md:1:3") && said.contains("not UTF-8"), "{said}");
    assert!(workspace.read("out/archive/tea/index.html").contains("Green tea"));
    assert!(workspace.read("out/archive/about/index.html").contains("Us."));
}

#[test]
fn two_recipes_of_one_name_keep_nothing_else_back() {
    let workspace = two(CLEAN);
    workspace.file("recipes/summer/toast.yaml", CLEAN);
    workspace.file("recipes/search.yaml", CLEAN.replace("Toast", "Search"));
    let said = workspace.run(&["publish"]).exits(1).stderr;
    assert!(said.contains("slug-repeated") && said.contains("slug-taken"), "{said}");
    assert!(made(&workspace, "archive/tea/index.html") && !made(&workspace, "archive/toast"));
    assert!(workspace.read("out/archive/search/index.html").contains("<form"));
}

/// A composed name and the same name in parts are one address.
#[test]
fn a_file_name_in_parts_has_the_composed_address() {
    let workspace = Workspace::with(CLEAN);
    workspace.file("recipes/cafe\u{301}.yaml", CLEAN.replace("Toast", "Coffee"));
    workspace.run(&["publish"]).exits(0);
    assert!(made(&workspace, "archive/caf\u{e9}/index.html") && made(&workspace, "cards/caf\u{e9}.pdf"));
    workspace.file("recipes/caf\u{e9}.yaml", CLEAN.replace("Toast", "Coffee"));
    assert!(workspace.run(&["proof"]).exits(1).stdout.contains("slug-repeated"));
}

#[cfg(unix)]
mod places {
    use std::os::unix::fs::symlink;
    use std::path::Path;
    use std::process::Command;

    use super::*;

    /// Runs that must end at once: exit code and standard error.
    fn ends(workspace: &Workspace, command: &str, code: i32) -> String {
        let began = Instant::now();
        let ran = workspace.run(&[command]).exits(code);
        assert!(began.elapsed() < Duration::from_secs(5), "{command} took {:?}", began.elapsed());
        ran.stderr + &ran.stdout
    }

    fn pipe(path: &Path) {
        fs::create_dir_all(path.parent().unwrap()).unwrap();
        assert!(Command::new("mkfifo").arg(path).status().unwrap().success());
    }

    #[test]
    fn a_pipe_or_a_device_is_never_waited_for() {
        let made: [fn(&Path); 2] = [pipe, |path| {
            fs::create_dir_all(path.parent().unwrap()).unwrap();
            symlink("/dev/zero", path).unwrap();
        }];
        for make in made {
            let workspace = two(CLEAN);
            make(&workspace.path("recipes/more.yaml"));
            make(&workspace.path("site/pages/more.md"));
            for command in ["proof", "archive", "publish"] {
                assert!(ends(&workspace, command, 1).contains("recipes/more.yaml"));
            }
            assert!(super::made(&workspace, "archive/tea/index.html"));

            let workspace = two(&with_photo("slice.jpg"));
            make(&workspace.path("site/photos/slice.jpg"));
            for command in ["proof", "archive", "publish"] {
                assert!(ends(&workspace, command, 1).contains("`slice.jpg` cannot be shown"));
            }
            let workspace = two(&with_photo("slice.jpg"));
            make(&workspace.path("site/photos"));
            ends(&workspace, "publish", 1);

            for name in ["pantry.yaml", "site/site.yaml", "templates/card.md"] {
                let workspace = two(CLEAN);
                make(&workspace.path(name));
                for command in ["proof", "archive"] {
                    let said = ends(&workspace, command, 2);
                    assert!(said.contains(name.rsplit('/').next().unwrap()), "{said}");
                }
            }
        }
    }

    #[test]
    fn a_link_out_of_the_workspace_publishes_nothing() {
        let elsewhere = tempfile::tempdir().unwrap();
        let secret = elsewhere.path().join("secret");
        fs::write(&secret, "# The secret\n").unwrap();
        fs::write(elsewhere.path().join("toast.yaml"), CLEAN.replace("Toast", "The secret")).unwrap();
        fs::write(elsewhere.path().join("slice.jpg"), jpeg(100)).unwrap();
        let workspace = two(&with_photo("slice.jpg"));
        let link = |to: &Path, from: &str| {
            let from = workspace.path(from);
            fs::create_dir_all(from.parent().unwrap()).unwrap();
            symlink(to, from).unwrap();
        };
        link(&secret, "site/pages/secret.md");
        link(&elsewhere.path().join("toast.yaml"), "recipes/linked.yaml");
        link(&elsewhere.path().join("slice.jpg"), "site/photos/slice.jpg");
        let said = workspace.run(&["publish"]).exits(1).stderr;
        assert_eq!(said.matches("leads out of the workspace").count(), 3, "{said}");
        let holds = |path: walkdir::DirEntry| {
            path.file_type().is_file()
                && String::from_utf8_lossy(&fs::read(path.path()).unwrap()).contains("The secret")
        };
        assert!(!walkdir::WalkDir::new(workspace.path("out")).into_iter().any(|path| holds(path.unwrap())));
        for name in ["pantry.yaml", "site/site.yaml", "templates/card.md"] {
            let workspace = two(CLEAN);
            fs::create_dir_all(workspace.path(name).parent().unwrap()).unwrap();
            symlink(&secret, workspace.path(name)).unwrap();
            assert!(workspace.run(&["publish"]).exits(2).stderr.contains("leads out of the workspace"));
        }
    }
}
