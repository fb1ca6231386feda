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

fn import(desk: &Desk, file: &Path) -> std::process::Child {
    desk.command(&[
        "import",
        "a.sqlite",
        file.to_str().unwrap(),
        "--mapping",
        "wells",
        "--as",
        "Ines Varga",
        "--new-person",
    ])
    .stdout(Stdio::piped())
    .stderr(Stdio::piped())
    .spawn()
    .unwrap()
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
    workbook(&file, 300_000);
    let mut child = import(&desk, &file);
    let begun = Instant::now();
    let reader = loop {
        if let Some(reader) = children(child.id()).first() {
            break *reader;
        }
        assert!(child.try_wait().unwrap().is_none(), "it ended without another process");
        assert!(begun.elapsed() < Duration::from_secs(30), "no other process");
        std::thread::sleep(Duration::from_millis(5));
    };
    let limits = std::fs::read_to_string(format!("/proc/{reader}/limits"));
    let environment = std::fs::read(format!("/proc/{reader}/environ"));
    // Killed as the system kills what takes too much memory.
    assert!(Command::new("kill").args(["-KILL", &reader.to_string()]).status().unwrap().success());
    let told = child.wait_with_output().unwrap();
    let said = String::from_utf8_lossy(&told.stderr).into_owned() + &String::from_utf8_lossy(&told.stdout);
    assert_eq!(told.status.code(), Some(1), "{said}");
    assert!(said.contains("wells.xlsx") && said.contains("reading broke off"), "{said}");
    desk.run(&["verify", "a.sqlite"]).done();
    if let Ok(limits) = limits {
        let bound = |name: &str| limits.lines().find(|l| l.starts_with(name)).unwrap().to_string();
        assert!(bound("Max address space").contains("2147483648"), "{limits}");
        assert!(bound("Max cpu time").contains("240") && bound("Max file size").contains(" 0 "), "{limits}");
    }
    assert!(environment.is_ok_and(|e| e.is_empty()), "it has nothing of our environment");
    // The same file is taken when nobody kills it: nothing was half kept.
    workbook(&file, 200);
    let done = import(&desk, &file).wait_with_output().unwrap();
    assert!(done.status.success(), "{}", String::from_utf8_lossy(&done.stderr));
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
