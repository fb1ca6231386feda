//! Strange workbooks and the process that reads them: what it may take, what becomes of a file that makes it take more, and
//! of a reading whose process is killed.

use crate::desk::Desk;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use std::time::{Duration, Instant};

/// A workbook of so many rows of one sheet, by Python's own library for packed files: nothing of ours has a hand in it.
fn workbook(to: &Path, rows: usize) {
    let program = r#"
import sys, zipfile
to, rows = sys.argv[1], int(sys.argv[2])
head = '<?xml version="1.0" encoding="UTF-8"?>'
ns = 'http://schemas.openxmlformats.org/spreadsheetml/2006/main'
rel = 'http://schemas.openxmlformats.org/officeDocument/2006/relationships'
pkg = 'http://schemas.openxmlformats.org/package/2006'
with zipfile.ZipFile(to, 'w', zipfile.ZIP_DEFLATED) as z:
    z.writestr('[Content_Types].xml', head + f'<Types xmlns="{pkg}/content-types"><Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/><Default Extension="xml" ContentType="application/xml"/><Override PartName="/xl/workbook.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.sheet.main+xml"/><Override PartName="/xl/worksheets/sheet1.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.worksheet+xml"/></Types>')
    z.writestr('_rels/.rels', head + f'<Relationships xmlns="{pkg}/relationships"><Relationship Id="r1" Type="{rel}/officeDocument" Target="xl/workbook.xml"/></Relationships>')
    z.writestr('xl/workbook.xml', head + f'<workbook xmlns="{ns}" xmlns:r="{rel}"><sheets><sheet name="wells" sheetId="1" r:id="r1"/></sheets></workbook>')
    z.writestr('xl/_rels/workbook.xml.rels', head + f'<Relationships xmlns="{pkg}/relationships"><Relationship Id="r1" Type="{rel}/worksheet" Target="worksheets/sheet1.xml"/></Relationships>')
    with z.open('xl/worksheets/sheet1.xml', 'w') as sheet:
        sheet.write((head + f'<worksheet xmlns="{ns}"><sheetData><row r="1"><c r="A1" t="inlineStr"><is><t>name</t></is></c><c r="B1" t="inlineStr"><is><t>description</t></is></c></row>').encode())
        for n in range(2, rows + 2):
            sheet.write(f'<row r="{n}"><c r="A{n}" t="inlineStr"><is><t>SL-{n}</t></is></c><c r="B{n}" t="inlineStr"><is><t>{n * 7919 % 100003} by the mill, invented</t></is></c></row>'.encode())
        sheet.write(b'</sheetData></worksheet>')
"#;
    let done = Command::new("python3").args(["-c", program]).arg(to).arg(rows.to_string()).status();
    assert!(done.expect("python3 is on this machine").success());
}

/// The processes that a process started, by what the system says of them (proc(5)).
fn children(of: u32) -> Vec<u32> {
    let all = std::fs::read_dir("/proc").unwrap().flatten();
    let numbers = all.filter_map(|e| e.file_name().to_str()?.parse::<u32>().ok());
    let parent = |n: &u32| {
        let stat = std::fs::read_to_string(format!("/proc/{n}/stat")).ok()?;
        // The name in brackets may hold anything; the parent is the second word behind it.
        stat.rsplit_once(") ")?.1.split(' ').nth(1)?.parse::<u32>().ok()
    };
    numbers.filter(|n| parent(n) == Some(of)).collect()
}

/// A program that is at work, and ends with the test whatever becomes of it.
struct Working(std::process::Child);

impl Drop for Working {
    fn drop(&mut self) {
        // It may have ended by itself.
        let _ = self.0.kill();
        let _ = self.0.wait();
    }
}

/// What an import says goes into a file, so that nobody has to listen to it.
fn import(desk: &Desk, file: &Path, said: &Path) -> Working {
    let words =
        ["import", "a.sqlite", file.to_str().unwrap(), "--mapping", "wells", "--as", "Ines Varga", "--new-person"];
    let said = std::fs::File::create(said).unwrap();
    let both = said.try_clone().unwrap();
    Working(desk.command(&words).stdin(Stdio::null()).stdout(said).stderr(both).spawn().unwrap())
}

fn desk() -> (Desk, PathBuf) {
    let desk = Desk::new();
    desk.run(&["new", "a.sqlite"]).done();
    let file = desk.path("wells.xlsx");
    (desk, file)
}

#[test]
fn a_workbook_is_read_by_a_process_of_its_own() {
    let (desk, file) = desk();
    // More than the pipe holds: the reader is there until all is taken.
    workbook(&file, 20_000);
    let told = desk.path("said");
    let mut work = import(&desk, &file, &told);
    let (begun, mut seen) = (Instant::now(), None);
    let status = loop {
        if let Some(status) = work.0.try_wait().unwrap() {
            break status;
        }
        assert!(begun.elapsed() < Duration::from_mins(5), "the import does not end");
        for reader in children(work.0.id()) {
            let own = |what: &str| std::fs::read_to_string(format!("/proc/{reader}/{what}")).unwrap_or_default();
            // Its limits are set by itself, a moment after its start.
            let (limits, environment) = (own("limits"), own("environ"));
            if limits.contains("2147483648") {
                seen.get_or_insert((limits, environment));
                // Killed as the system kills what takes too much memory.
                let _ = Command::new("kill").args(["-KILL", &reader.to_string()]).stderr(Stdio::null()).status();
            }
        }
        std::thread::sleep(Duration::from_millis(2));
    };
    let said = std::fs::read_to_string(&told).unwrap();
    let (limits, environment) = seen.expect("another process with limits of its own");
    assert_eq!(status.code(), Some(1), "{said}");
    assert!(said.contains("wells.xlsx") && said.contains("reading broke off"), "{said}");
    let bound = |name: &str| limits.lines().find(|l| l.starts_with(name)).unwrap().to_string();
    assert!(bound("Max address space").contains("2147483648") && bound("Max cpu time").contains("240"), "{limits}");
    assert_eq!(environment, "", "it has nothing of our environment");
    desk.run(&["verify", "a.sqlite"]).done();
    // The next file is taken: nothing was half kept.
    workbook(&file, 200);
    assert!(import(&desk, &file, &told).0.wait().unwrap().success(), "{}", std::fs::read_to_string(&told).unwrap());
}

/// What comes over the pipe for a workbook, with so much memory, MiB.
fn read_with(file: &Path, memory_mib: &str) -> std::process::Output {
    let ask =
        serde_json::json!({ "Rows": { "file": file, "form": { "sheet": null, "comma": false, "hidden": null } } });
    let mut child = Command::new(env!("CARGO_BIN_EXE_limpid"))
        .args(["read-apart", memory_mib])
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::null())
        .spawn()
        .unwrap();
    std::io::Write::write_all(&mut child.stdin.take().unwrap(), ask.to_string().as_bytes()).unwrap();
    child.wait_with_output().unwrap()
}

#[test]
fn a_file_that_takes_more_memory_than_it_may_ends_its_own_process_alone() {
    // The last frame says that it is whole: a letter and a length of nothing.
    const WHOLE: [u8; 9] = [b'E', 0, 0, 0, 0, 0, 0, 0, 0];
    let (_desk, file) = desk();
    workbook(&file, 1000);
    let told = read_with(&file, "512");
    assert!(told.status.success() && told.stdout.ends_with(&WHOLE), "{:?}", told.status);
    // 400 MB of text that does not pack well, so that counting what it unpacks to lets it through.
    let large = file.with_file_name("large.xlsx");
    let grow = r#"
import os, sys, zipfile
with zipfile.ZipFile(sys.argv[1]) as small, zipfile.ZipFile(sys.argv[2], 'w', zipfile.ZIP_DEFLATED, compresslevel=1) as z:
    for name in small.namelist():
        if 'sheet1' not in name:
            z.writestr(name, small.read(name))
    with z.open('xl/worksheets/sheet1.xml', 'w') as sheet:
        sheet.write(b'<worksheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><sheetData><row r="1"><c r="A1" t="inlineStr"><is><t>')
        for _ in range(200):
            sheet.write(os.urandom(1 << 20).hex().encode())
        sheet.write(b'</t></is></c></row></sheetData></worksheet>')
"#;
    assert!(Command::new("python3").args(["-c", grow]).arg(&file).arg(&large).status().unwrap().success());
    let told = read_with(&large, "512");
    assert!(!told.status.success() && !told.stdout.ends_with(&WHOLE), "{:?}", told.status);
    // A request that is none.
    let none = Command::new(env!("CARGO_BIN_EXE_limpid")).arg("read-apart").stdin(Stdio::null()).output().unwrap();
    assert_eq!(none.status.code(), Some(2));
}
