//! A package is tried as a person would: installed into an empty folder, started there with an empty environment.

use super::forms::Form;
use super::tool;
use anyhow::{Context as _, Result, ensure};
use std::path::{Path, PathBuf};
use std::process::Command;

/// Installs the file into a new folder and does the main job there.
///
/// # Errors
/// It does not install, does not start, or the demo does not verify.
pub fn run(form: Form, file: &Path) -> Result<()> {
    let dir = std::env::temp_dir().join(format!("limpid-tried-{}-{}", form.name(), std::process::id()));
    if dir.exists() {
        std::fs::remove_dir_all(&dir)?;
    }
    std::fs::create_dir_all(dir.join("home"))?;
    let done = installed(form, file, &dir).and_then(|start| use_it(form, &dir, &start));
    std::fs::remove_dir_all(&dir)?;
    done.with_context(|| format!("trying {}", file.display()))
}

/// Where the program lies once it is installed under `dir`.
fn installed(form: Form, file: &Path, dir: &Path) -> Result<PathBuf> {
    let text = |path: &Path| path.to_str().map(String::from).context("the folder's name is not text");
    match form {
        Form::Debian => {
            // dpkg's own record of what is installed, empty; the C library is this machine's.
            std::fs::create_dir_all(dir.join("var/lib/dpkg/updates"))?;
            std::fs::create_dir_all(dir.join("var/lib/dpkg/info"))?;
            std::fs::write(dir.join("var/lib/dpkg/status"), "")?;
            let root = format!("--root={}", text(dir)?);
            let args = [&root, "--force-depends", "--force-not-root", "--force-script-chrootless", "-i", &text(file)?];
            tool("dpkg", &args, dir)?;
            Ok(dir.join("usr/bin/limpid"))
        }
        Form::Archive => {
            tool("tar", &["-xJf", &text(file)?, "-C", &text(dir)?, "--strip-components=1"], dir)?;
            Ok(dir.join("bin/limpid"))
        }
    }
}

/// The demo from nothing, then `verify`. The program of the archive is started with that folder as its whole world
/// (`chroot`), where no library of the system is to be found.
fn use_it(form: Form, dir: &Path, start: &Path) -> Result<()> {
    let run = |args: &[&str]| -> Result<String> {
        let mut command = match form {
            Form::Debian => Command::new(start),
            Form::Archive => {
                let mut inside = Command::new("unshare");
                inside.args(["--user", "--map-root-user", "chroot"]).arg(dir).arg("/bin/limpid");
                inside
            }
        };
        let place = if form == Form::Debian { dir.join("home") } else { dir.to_path_buf() };
        // `chroot` lies where only the system looks.
        let told = command
            .args(args)
            .env_clear()
            .envs([("HOME", "/home"), ("PATH", "/usr/sbin:/usr/bin:/sbin:/bin")])
            .current_dir(place)
            .output()?;
        ensure!(
            told.status.success(),
            "limpid {} ended with {}: {}",
            args.join(" "),
            told.status,
            String::from_utf8_lossy(&told.stderr)
        );
        Ok(String::from_utf8_lossy(&told.stdout).into_owned())
    };
    std::fs::create_dir_all(dir.join("tmp"))?;
    println!("{}", run(&["--version"])?.trim());
    let told = run(&["demo", "--dir", "sallow"])?;
    ensure!(told.contains("SL2-26-07-A"), "the demo told nothing of its bottles: {told}");
    let verified = run(&["verify", "sallow/sallow-levels.sqlite"])?;
    println!("{}: demo made; {}", form.name(), verified.lines().last().unwrap_or_default());
    let lost = run(&["doctor", "sallow/sallow-levels.sqlite"])?;
    println!("{}", lost.trim_end());
    Ok(())
}
