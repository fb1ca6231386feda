//! The two forms in which the program leaves: what lies where in each, and how it is packed.

use super::{licences, tool};
use anyhow::{Context as _, Result};
use serde_json::Value;
use std::path::{Path, PathBuf};
use std::process::Command;

/// How it is packed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Form {
    /// A package of Debian (Debian Policy Manual, chapters 3 and 9).
    Debian,
    /// One folder with a program that needs no library of the system.
    Archive,
}

impl Form {
    /// Of its folder while it is made.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Debian => "debian",
            Self::Archive => "archive",
        }
    }
}

/// Shells that completions are made for, with the place where each looks (the manuals of the shells).
const SHELLS: &[(&str, &str)] = &[
    ("bash", "share/bash-completion/completions/limpid"),
    ("zsh", "share/zsh/vendor-completions/_limpid"),
    ("fish", "share/fish/vendor_completions.d/limpid.fish"),
];

/// Of the crate `limpid`.
///
/// # Errors
/// There is none.
pub fn version(graph: &Value) -> Result<String> {
    let packages = graph["packages"].as_array().into_iter().flatten();
    let version = packages.filter(|p| p["name"] == "limpid").find_map(|p| p["version"].as_str());
    Ok(version.context("no crate is named limpid")?.into())
}

/// Seconds since 1970 of the last commit: the date of every file that is packed.
///
/// # Errors
/// The folder is no working copy of git.
pub fn date(root: &Path) -> Result<u64> {
    let told = Command::new("git").args(["log", "-1", "--format=%ct"]).current_dir(root).output()?;
    String::from_utf8_lossy(&told.stdout).trim().parse().context("the date of the last commit, from git")
}

/// Lays out everything under `tree` as it will stand on the machine: under `usr` in a package, at the top in an archive.
///
/// # Errors
/// A file cannot be copied, the program does not write its manual.
pub fn lay_out(root: &Path, graph: &Value, form: Form, program: &Path, tree: &Path) -> Result<()> {
    let top = match form {
        Form::Debian => tree.join("usr"),
        Form::Archive => tree.join(format!("limpid-{}", version(graph)?)),
    };
    put(program, &top.join("bin/limpid"))?;
    executable(&top.join("bin/limpid"))?;
    let manual = top.join("share/man/man1");
    std::fs::create_dir_all(&manual)?;
    let own = top.join("bin/limpid");
    let own = own.to_str().context("the folder's name is not text")?;
    tool(own, &["manual", manual.to_str().context("the folder's name is not text")?], root)?;
    for entry in std::fs::read_dir(&manual)? {
        let page = entry?.path();
        tool("gzip", &["-9n", page.to_str().context("the page's name is not text")?], root)?;
    }
    for (shell, place) in SHELLS {
        let told = Command::new(own).args(["completions", shell]).output()?;
        write(&top.join(place), &told.stdout)?;
    }
    let docs = top.join("share/doc/limpid");
    for name in ["README.md", "CHANGELOG.md", "LICENSE-MIT", "LICENSE-APACHE"] {
        put(&root.join(name), &docs.join(name))?;
    }
    put_all(&root.join("docs/guide"), &docs.join("guide"))?;
    let licences = licences::texts(graph)?;
    write(&docs.join("licences.txt"), licences.as_bytes())?;
    let service = root.join("packaging/limpid@.service");
    match form {
        Form::Archive => {
            put(&service, &top.join("share/limpid/limpid@.service"))?;
            put(&root.join("packaging/limpid.sysusers"), &top.join("share/limpid/limpid.sysusers"))
        }
        Form::Debian => {
            put(&service, &top.join("lib/systemd/system/limpid@.service"))?;
            put(&root.join("packaging/limpid.sysusers"), &top.join("lib/sysusers.d/limpid.conf"))?;
            // Debian Policy 12.5: the licence of a package stands under this name.
            let both = ["LICENSE-MIT", "LICENSE-APACHE"].map(|n| std::fs::read_to_string(root.join(n)));
            let [mit, apache] = both;
            let text = format!(
                "Limpid stands under either of two licences, as you choose. Of the libraries built in: licences.txt\n\n{}\n{}",
                mit?, apache?
            );
            write(&docs.join("copyright"), text.as_bytes())?;
            control(root, graph, tree)
        }
    }
}

/// What the package says of itself. The libraries it needs are those that the linker names, with the oldest version of
/// the C library whose symbols the program uses.
fn control(root: &Path, graph: &Value, tree: &Path) -> Result<()> {
    let libc = oldest_libc(&tree.join("usr/bin/limpid"))?;
    let kib = super::size_of(&tree.join("usr"))?.div_ceil(1024);
    let text = format!(
        "Package: limpid\n\
         Version: {}\n\
         Architecture: amd64\n\
         Maintainer: The founders of Limpid <nobody@invalid.example>\n\
         Installed-Size: {kib}\n\
         Depends: libc6 (>= {libc}), libgcc-s1\n\
         Suggests: openssh-client, openssl\n\
         Section: science\n\
         Priority: optional\n\
         Description: the case for a number in the water of a flowing well\n \
         Keeps, computes and explains trace metals measured at the part-per-trillion level\n \
         in flowing artesian wells: from the sentence in the report back to the counts on\n \
         the detector, every step computed, kept, and open to look at.\n",
        version(graph)?
    );
    write(&tree.join("DEBIAN/control"), text.as_bytes())?;
    put(&root.join("packaging/postinst"), &tree.join("DEBIAN/postinst"))?;
    executable(&tree.join("DEBIAN/postinst"))
}

/// The highest version of a `GLIBC_` symbol in the program's dynamic symbols.
fn oldest_libc(program: &Path) -> Result<String> {
    let told = Command::new("objdump").arg("-T").arg(program).output().context("starting objdump (binutils)")?;
    let text = String::from_utf8_lossy(&told.stdout);
    let versions = text.split("GLIBC_").skip(1).filter_map(|rest| {
        let end = rest.find(|c: char| !(c.is_ascii_digit() || c == '.')).unwrap_or(rest.len());
        let numbers: Vec<u32> = rest[..end].split('.').filter_map(|n| n.parse().ok()).collect();
        (!numbers.is_empty()).then_some(numbers)
    });
    let most = versions.max().context("the program names no symbol of the C library")?;
    Ok(most.iter().map(u32::to_string).collect::<Vec<_>>().join("."))
}

/// Packs the tree; the file it became.
///
/// # Errors
/// A tool that is not there.
pub fn pack(form: Form, version: &str, tree: &Path, out: &Path, date: u64) -> Result<PathBuf> {
    let text = |path: &Path| path.to_str().map(String::from).context("the folder's name is not text");
    match form {
        Form::Debian => {
            let file = out.join(format!("limpid_{version}_amd64.deb"));
            let status = Command::new("dpkg-deb")
                .args(["--root-owner-group", "-Zxz", "-z6", "--build"])
                .arg(tree)
                .arg(&file)
                // dpkg-deb's manual: the date of everything inside.
                .env("SOURCE_DATE_EPOCH", date.to_string())
                .stdout(std::process::Stdio::null())
                .status()
                .context("starting dpkg-deb, which packing needs")?;
            anyhow::ensure!(status.success(), "dpkg-deb ended with {status}");
            Ok(file)
        }
        Form::Archive => {
            let file = out.join(format!("limpid-{version}-x86_64-linux.tar.xz"));
            let folder = format!("limpid-{version}");
            let args = [
                "--sort=name",
                &format!("--mtime=@{date}"),
                "--owner=0",
                "--group=0",
                "--numeric-owner",
                "-cJf",
                &text(&file)?,
                "-C",
                &text(tree)?,
                &folder,
            ];
            tool("tar", &args, out)?;
            Ok(file)
        }
    }
}

/// Copies a folder with its folders.
fn put_all(from: &Path, to: &Path) -> Result<()> {
    for entry in std::fs::read_dir(from).with_context(|| format!("reading {}", from.display()))? {
        let (page, place) = entry.map(|e| (e.path(), to.join(e.file_name())))?;
        if page.is_dir() {
            put_all(&page, &place)?;
        } else {
            put(&page, &place)?;
        }
    }
    Ok(())
}

fn put(from: &Path, to: &Path) -> Result<()> {
    write(to, &std::fs::read(from).with_context(|| format!("reading {}", from.display()))?)
}

fn write(to: &Path, bytes: &[u8]) -> Result<()> {
    if let Some(dir) = to.parent() {
        std::fs::create_dir_all(dir)?;
    }
    std::fs::write(to, bytes).with_context(|| format!("writing {}", to.display()))
}

fn executable(path: &Path) -> Result<()> {
    use std::os::unix::fs::PermissionsExt as _;
    Ok(std::fs::set_permissions(path, std::fs::Permissions::from_mode(0o755))?)
}
