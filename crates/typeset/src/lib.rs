//! One question: what does this report look like on paper?
//!
//! In: the text of a report in the markup of the typesetting engine (Typst 0.15), its figures as
//! SVG, title, author, date, language, files to be attached. Out: the bytes of a tagged PDF 1.7 that conforms to
//! PDF/UA-1 and, where it has a date, to PDF/A-3a at once (the engine checks both and refuses what does not conform: a
//! figure without words, a document without title, a letter that no face has). PDF/A asks for a date; none is invented.
//! Of the standards for archives that is the one that may carry files of any kind (ISO 19005-3, 6.8) and keeps the order
//! of reading (level A).
//!
//! The engine sees nothing of the machine: its world holds the given files and the fonts carried
//! in this crate, no disk, no network, no clock. The same input therefore gives the same bytes.
//! Fonts: "Limpid Text", made from Source Sans 3 (OFL 1.1), see `fonts/` at the workspace root.
//!
//! What it does not do: no words of its own, no layout; those come from the crate `report`.
//! Checked in `tests/pdf.rs`.

mod picture;

pub use picture::png;

use std::collections::{BTreeMap, HashMap};
use std::fmt::Write as _;
use std::sync::OnceLock;
use thiserror::Error;
use typst::diag::{FileError, FileResult, SourceDiagnostic};
use typst::foundations::{Bytes, Datetime, Duration, Smart};
use typst::syntax::{FileId, RootedPath, Source, VirtualPath, VirtualRoot};
use typst::text::{Font, FontBook};
use typst::utils::LazyHash;
use typst::{Feature, Features, Library, LibraryExt, World, WorldExt};
use typst_layout::PagedDocument;
use typst_pdf::{PdfOptions, PdfStandard, PdfStandards};

/// What is to be set.
#[derive(Debug, Clone, Default)]
pub struct TypesetInput {
    /// The text in engine markup.
    pub main: String,
    /// Files that the text names, mostly SVG figures: name as written in the text → content.
    pub files: BTreeMap<String, Vec<u8>>,
    /// Title of the document; PDF/UA asks for one.
    pub title: String,
    /// Author as shown in the document's properties; empty = none.
    pub author: String,
    /// Date in the document's properties, taken from the data, never from a clock.
    pub date: Option<Date>,
    /// Language of the text as in BCP 47 ("en", "de-AT").
    pub lang: String,
    /// By what name the record behind the document is known, among the key words of its properties; empty = none.
    pub record: String,
    /// Files that go with the document.
    pub attached: Vec<Attached>,
}

/// A file inside the document: readers list it, and it can be taken out again byte for byte.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Attached {
    /// Its name.
    pub name: String,
    /// Its bytes.
    pub bytes: Vec<u8>,
    /// Media type.
    pub media_type: String,
    /// What it is, in a sentence.
    pub about: String,
}

/// A calendar date.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Date {
    /// Year, common era.
    pub year: i32,
    /// Month, 1 to 12.
    pub month: u8,
    /// Day of the month, 1 to 31.
    pub day: u8,
}

/// Why no PDF came out.
#[derive(Debug, Error, PartialEq, Eq)]
#[non_exhaustive]
pub enum TypesetError {
    /// The date does not exist in the calendar.
    #[error("the date {year}-{month:02}-{day:02} does not exist: give year, month 1 to 12, day of that month")]
    Date {
        /// Year given.
        year: i32,
        /// Month given.
        month: u8,
        /// Day given.
        day: u8,
    },
    /// A file's name cannot be a name inside the document.
    #[error("the file name \"{name}\" cannot be used inside a document: {reason}")]
    FileName {
        /// Name given.
        name: String,
        /// What the engine says of it.
        reason: String,
    },
    /// A file is to be attached to a document without a date.
    #[error("{name} cannot be attached to a document without a date: PDF/A-3 asks for one")]
    Undated {
        /// The file.
        name: String,
    },
    /// The engine refused the text or the document.
    #[error("the text cannot be set: {}", .0.join("; "))]
    Refused(
        /// Each message with its line in the text where it is known.
        Vec<String>,
    ),
}

/// Sets the text and returns the bytes of the PDF.
///
/// # Errors
/// [`TypesetError::Refused`] with the engine's messages and their lines: markup that does not
/// parse, a file that was not given, a figure without alternative text. [`TypesetError::Date`]
/// [`TypesetError::FileName`] and [`TypesetError::Undated`] where the input itself cannot be.
pub fn pdf(input: &TypesetInput) -> Result<Vec<u8>, TypesetError> {
    if let (None, Some(file)) = (input.date, input.attached.first()) {
        return Err(TypesetError::Undated { name: file.name.clone() });
    }
    let world = Pages::new(input)?;
    let document = typst::compile::<PagedDocument>(&world).output.map_err(|e| world.refused(&e))?;
    let options = PdfOptions {
        ident: Smart::Custom(input.title.clone()),
        creator: Smart::Custom(Some("Limpid".into())),
        standards: PdfStandards::new(if input.date.is_some() { &BOTH } else { &BOTH[..1] })
            .map_err(|e| TypesetError::Refused(vec![e.message().to_string()]))?,
        ..PdfOptions::default()
    };
    let mut bytes = typst_pdf::pdf(&document, &options).map_err(|e| world.refused(&e))?;
    leave_default(&mut bytes);
    Ok(bytes)
}

/// Standards that a document is set under; the second needs a date.
const BOTH: [PdfStandard; 2] = [PdfStandard::Ua_1, PdfStandard::A_3a];

/// Takes out an entry that says what holds without it. The engine writes `/Suspects false`; that is the default (ISO
/// 32000-1, table 321), and a common reader (poppler up to 22.12 at least) takes every `false` there for a fault of the
/// file. Blanks take its place, so that no address in the file moves. The catalogue stands last, never compressed.
fn leave_default(bytes: &mut [u8]) {
    const ENTRY: &[u8] = b"/Suspects false";
    if let Some(at) = bytes.windows(ENTRY.len()).rposition(|w| w == ENTRY) {
        bytes[at..at + ENTRY.len()].fill(b' ');
    }
}

/// The typefaces of the text, in the order in which the engine numbers them.
const FACES: [&[u8]; 3] = [
    include_bytes!("../../../fonts/LimpidText-Regular.ttf"),
    include_bytes!("../../../fonts/LimpidText-Italic.ttf"),
    include_bytes!("../../../fonts/LimpidText-SemiBold.ttf"),
];

/// Parsed once per process: fonts and the engine's own vocabulary.
struct Shared {
    library: LazyHash<Library>,
    book: LazyHash<FontBook>,
    fonts: Vec<Font>,
}

fn shared() -> &'static Shared {
    static SHARED: OnceLock<Shared> = OnceLock::new();
    SHARED.get_or_init(|| {
        let fonts: Vec<Font> = FACES.iter().flat_map(|face| Font::iter(Bytes::new(*face))).collect();
        // Headings of rows are behind this name in this version of the engine.
        let features = Features::from_iter([Feature::A11yExtras]);
        let library = LazyHash::new(Library::builder().with_features(features).build());
        Shared { library, book: LazyHash::new(FontBook::from_fonts(&fonts)), fonts }
    })
}

/// All that the engine can see: one text, the given files, our fonts.
struct Pages {
    main: Source,
    /// Lines that stand before the caller's text, to give lines as the caller counts them.
    own_lines: usize,
    files: HashMap<FileId, Bytes>,
}

impl Pages {
    fn new(input: &TypesetInput) -> Result<Self, TypesetError> {
        let header = header(input)?;
        let files = input
            .files
            .iter()
            .chain(input.attached.iter().map(|a| (&a.name, &a.bytes)))
            .map(|(name, content)| Ok((file_id(name)?, Bytes::new(content.clone()))))
            .collect::<Result<_, TypesetError>>()?;
        Ok(Self {
            own_lines: header.lines().count(),
            main: Source::new(file_id("report.typ")?, header + &input.main),
            files,
        })
    }

    fn refused(&self, errors: &[SourceDiagnostic]) -> TypesetError {
        TypesetError::Refused(
            errors
                .iter()
                .map(|e| match self.line_of(e) {
                    Some(line) => format!("line {line}: {}", e.message),
                    None => e.message.to_string(),
                })
                .collect(),
        )
    }

    fn line_of(&self, e: &SourceDiagnostic) -> Option<usize> {
        if e.span.id()? != self.main.id() {
            return None;
        }
        let start = self.range(e.span)?.start;
        let line = self.main.lines().byte_to_line(start)? + 1;
        line.checked_sub(self.own_lines)
    }
}

/// Title, author, date and language for the document's properties.
fn header(input: &TypesetInput) -> Result<String, TypesetError> {
    let date = match input.date {
        Some(Date { year, month, day }) => {
            Datetime::from_ymd(year, month, day).ok_or(TypesetError::Date { year, month, day })?;
            format!("datetime(year: {year}, month: {month}, day: {day})")
        }
        None => "none".into(),
    };
    let author = if input.author.is_empty() { "()".into() } else { quoted(&input.author) };
    let (lang, region) = input.lang.split_once('-').unwrap_or((&input.lang, ""));
    let lang = if lang.is_empty() { "en" } else { lang };
    let region = if region.is_empty() { "none".into() } else { quoted(region) };
    let record = if input.record.is_empty() { "()".into() } else { quoted(&input.record) };
    let mut out = format!(
        "#set document(title: {}, author: {author}, keywords: {record}, date: {date})\n\
         #set text(lang: {}, region: {region}, font: \"Limpid Text\")\n",
        quoted(&input.title),
        quoted(lang),
    );
    for file in &input.attached {
        let [name, media, about] = [&file.name, &file.media_type, &file.about].map(|t| quoted(t));
        // A supplement: the document stands without it (ISO 19005-3, table of relationships).
        let relation = "relationship: \"supplement\"";
        let _ = writeln!(out, "#pdf.attach({name}, {relation}, mime-type: {media}, description: {about})");
    }
    Ok(out)
}

/// A string literal of the engine's language: nothing inside it is read as markup.
pub fn quoted(text: &str) -> String {
    let mut out = String::with_capacity(text.len() + 2);
    out.push('"');
    for c in text.chars() {
        match c {
            '"' => out.push_str("\\\""),
            '\\' => out.push_str("\\\\"),
            '\n' => out.push_str("\\n"),
            '\r' => out.push_str("\\r"),
            '\t' => out.push_str("\\t"),
            c => out.push(c),
        }
    }
    out.push('"');
    out
}

fn file_id(name: &str) -> Result<FileId, TypesetError> {
    let path =
        VirtualPath::new(name).map_err(|e| TypesetError::FileName { name: name.into(), reason: format!("{e:?}") })?;
    Ok(RootedPath::new(VirtualRoot::Project, path).intern())
}

impl World for Pages {
    fn library(&self) -> &LazyHash<Library> {
        &shared().library
    }

    fn book(&self) -> &LazyHash<FontBook> {
        &shared().book
    }

    fn main(&self) -> FileId {
        self.main.id()
    }

    fn source(&self, id: FileId) -> FileResult<Source> {
        if id == self.main.id() { Ok(self.main.clone()) } else { Err(not_given(id)) }
    }

    fn file(&self, id: FileId) -> FileResult<Bytes> {
        self.files.get(&id).cloned().ok_or_else(|| not_given(id))
    }

    fn font(&self, index: usize) -> Option<Font> {
        shared().fonts.get(index).cloned()
    }

    /// There is no clock: dates come from the data.
    fn today(&self, _: Option<Duration>) -> Option<Datetime> {
        None
    }
}

fn not_given(id: FileId) -> FileError {
    FileError::NotFound(id.get().vpath().get_without_slash().into())
}
