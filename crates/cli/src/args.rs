//! The arguments, as the command-line contract lists them.

mod proofs;

pub use proofs::{Anchor, KeyFile, Keys, Sign, Verify};

use clap::{Args as ClapArgs, Parser, Subcommand};
use field_sheet::LabelGrid;
use std::path::PathBuf;

/// The sheet of labels where nothing else is asked for.
const A4: LabelGrid = LabelGrid::A4;

/// From the sentence in the report back to the counts on the detector.
#[derive(Debug, Parser)]
#[command(name = "limpid", version, disable_help_subcommand = true)]
pub struct Args {
    #[command(subcommand)]
    pub command: Command,
}

/// What to do.
#[derive(Debug, Subcommand)]
pub enum Command {
    /// Build the invented demo programme from raw files, compute everything, write the report
    Demo {
        /// Folder for the raw files, the store and the report
        #[arg(long, default_value = "sallow-levels")]
        dir: PathBuf,
    },
    /// Make an empty programme
    New {
        /// File of the programme, or postgres://ROLE@HOST/DATABASE?schema=NAME
        store: String,
        /// Make it from an open data package, with nothing lost: the same rows, files and event chain
        #[arg(long, value_name = "PACKAGE_DIR", conflicts_with = "person")]
        from: Option<PathBuf>,
        #[command(flatten)]
        hand: Hand,
    },
    /// A programme of one's own: a few questions, then a folder with empty templates and the next step
    Start(Start),
    /// Take in raw laboratory or field files: all or nothing; the same file twice changes nothing
    Import(Import),
    /// Every result with value, uncertainty, unit, verdict
    Results(Results),
    /// Values reported before beside those of today, each difference with the step that explains it; reads only
    Shadow(Shadow),
    /// Duplicates, samples split between two laboratories, blanks against limits
    Pairs(Pairs),
    /// Request and custody form for a laboratory: blind labels, the order in the run, tables to fill
    Request(Request),
    /// Which blind label is which bottle: lists requests, or opens one; that it was opened is kept
    Unblind(Unblind),
    /// One result back to the raw counts
    Case {
        /// The programme
        store: String,
        /// Identity: bottle:analyte:isotope@resolution:fraction#revision (the revision may be left out)
        #[arg(allow_hyphen_values = true)]
        result: String,
        /// One JSON document
        #[arg(long)]
        json: bool,
    },
    /// Derive again from raw data and recipe; say what changed
    Recompute {
        /// The programme
        store: String,
        /// Only this run
        run: Option<String>,
        #[command(flatten)]
        hand: Hand,
    },
    /// Take a vial or bottle out of the evidence (or back); nothing is deleted
    Exclude {
        /// The programme
        store: String,
        /// Bottle label, or run/position, or run/position/isotope
        #[arg(allow_hyphen_values = true)]
        reading: String,
        /// The reason, kept for good
        #[arg(long)]
        why: String,
        #[command(flatten)]
        hand: Hand,
        /// Take it back into the evidence
        #[arg(long)]
        back: bool,
    },
    /// What was done, act by act, with the number of each
    History {
        /// The programme
        store: String,
        /// What the program derived too
        #[arg(long)]
        all: bool,
        /// One JSON document
        #[arg(long)]
        json: bool,
    },
    /// Take an import back: its rows stay on record and count no longer; its files may be taken in again
    Undo {
        /// The programme
        store: String,
        /// Number of the act (`limpid history`), or the beginning of its hash
        event: String,
        /// The reason, kept for good
        #[arg(long)]
        why: String,
        #[command(flatten)]
        hand: Hand,
    },
    /// Stand for a verdict with name and reason; with --key, sign it or the head of the record by your own key
    Sign(Sign),
    /// Keys of persons: whose signature is whose; add, retire, say that one was lost; write what a stranger needs
    Keys(Keys),
    /// The head of the record for others to keep (a line, a mail, a request for a time stamp), and what comes back
    Anchor(Anchor),
    /// The programme's table of checks beside the one of this version; take rules of this version in
    Checks(Checks),
    /// Profiles of checks for laboratories, meters and counts: list, show, choose which judges what, edit
    Profiles(Profiles),
    /// Recipes, by which counts become concentrations: list, show, hold one beside a run, give a run another
    Recipes(Recipes),
    /// Correct the name of a vial, so that run and recipe meet; the name as it stood is kept
    VialName {
        /// The programme
        store: String,
        /// The vial: run/position
        #[arg(allow_hyphen_values = true)]
        vial: String,
        /// The name from now on
        name: String,
        #[command(flatten)]
        hand: Hand,
        /// The reason, kept for good
        #[arg(long)]
        why: String,
    },
    /// Field sheet of a trip: one file for a phone without signal, the same on paper, labels with codes
    FieldSheet(FieldSheet),
    /// What phones of a trip say differently, and nobody settled
    Conflicts {
        /// The programme
        store: String,
        /// One JSON document
        #[arg(long)]
        json: bool,
    },
    /// Decide what a bottle's column says where field sheets differ; both entries stay
    Settle {
        /// The programme
        store: String,
        /// Label of the bottle
        #[arg(allow_hyphen_values = true)]
        bottle: String,
        /// Column, as acid_mL
        column: String,
        /// The value from now on; "" for none
        value: String,
        #[command(flatten)]
        hand: Hand,
        /// The reason, kept for good
        #[arg(long)]
        why: String,
    },
    /// Correct the CAS number of a compound; the number as it stood is kept
    CasNumber {
        /// The programme
        store: String,
        /// The compound, as its results name it
        #[arg(allow_hyphen_values = true)]
        compound: String,
        /// The number from now on, as 1912-24-9
        number: String,
        #[command(flatten)]
        hand: Hand,
        /// The reason, kept for good
        #[arg(long)]
        why: String,
    },
    /// Correct a value of a row; the value as it stood is kept. What follows is derived anew
    Correct(Correct),
    /// Two names that are one: what bears the old one is read by the new one from now on; the old rows are kept
    MergeNames(MergeNames),
    /// Report as PDF, web page and figures
    Report {
        /// The programme
        store: String,
        /// Folder to write to
        #[arg(long)]
        out: PathBuf,
        /// The whole report, a leaflet of one page for neighbours, or a sheet for the authority
        #[arg(long, value_enum, default_value_t = ReportKind::Full)]
        kind: ReportKind,
        /// Language of leaflet and sheet: en, de
        #[arg(long, default_value = "en")]
        lang: String,
        /// Only these sections of the full report, by the beginnings of their names (a wrong name lists all)
        #[arg(long, value_delimiter = ',')]
        sections: Vec<String>,
        #[command(flatten)]
        scope: ReportScope,
        /// Whom to ask, for the leaflet: name, place, telephone; without it the leaflet is a draft
        #[arg(long)]
        contact: Option<String>,
        /// Put the open data package into the PDF of the full report, as an attached file
        #[arg(long)]
        attach_package: bool,
        /// Licence of the attached package, by name or address
        #[arg(long, requires = "attach_package")]
        licence: Option<String>,
    },
    /// Sentences with their case: add one, list them, show one, check one anew
    State {
        /// The programme
        store: String,
        #[command(subcommand)]
        action: Option<StateAction>,
    },
    /// Results against published limits and a person's own (taken in with the mapping local-limits)
    Limits(Limits),
    /// Open data package: tables, descriptions, provenance, raw files, sums
    Export(Export),
    /// Supplement for the reviewers of a paper: tables as PDF and web page, and the data package
    Supplement(Export),
    /// Is every stored value and every derivation still what it was?
    Verify(Verify),
    /// Copy a programme, also one on a server, to a file while it is in use
    Backup {
        /// The programme
        store: String,
        /// File to write
        file: PathBuf,
    },
    /// Make a programme from a backup
    Restore {
        /// The backup
        file: PathBuf,
        /// File or postgres:// address of the new programme
        store: String,
    },
    /// Copy a programme from file to server or back and prove that both hold the same
    Move {
        /// The programme
        from: String,
        /// File or postgres:// address where none is yet
        to: String,
    },
    /// May each lot of bottles go out? Its blanks against the targets
    Lots {
        /// The programme
        store: String,
        /// One JSON document
        #[arg(long)]
        json: bool,
    },
    /// Whose metal it is: sources, the water's own, fills and flows, trip by trip
    Attribution {
        /// The programme
        store: String,
        /// Only this element
        #[arg(long)]
        analyte: Option<String>,
        /// One JSON document
        #[arg(long)]
        json: bool,
    },
    /// What to take on the next trip: designs that nothing beats, the packing list, a trip made from one
    Plan(Plan),
    /// The web interface; loopback only unless told otherwise
    Serve(Serve),
    /// Who may come in beyond this machine
    Account(Account),
    /// One science function: JSON in, JSON out
    Calc(Calc),
    /// What is missing or unsafe on this machine and about a programme, each with what to do; changes nothing
    Doctor {
        /// The programme; without it, the machine alone
        store: Option<String>,
        /// One JSON document
        #[arg(long)]
        json: bool,
        /// Language of what it says
        #[arg(long, value_enum, default_value_t = RecipeLanguage::En)]
        lang: RecipeLanguage,
    },
    /// Completions for a shell, on standard output
    Completions {
        /// bash, zsh or fish
        shell: clap_complete::Shell,
    },
    /// Manual pages, one a command, into a folder; for who packs the program
    #[command(hide = true)]
    Manual {
        /// The folder
        dir: PathBuf,
    },
    /// Summaries, trends, waters and limits over tables far larger than memory (program `limpid-survey`)
    #[command(disable_help_flag = true)]
    Survey {
        /// Handed over as they are; `limpid survey --help` lists them
        #[arg(trailing_var_arg = true, allow_hyphen_values = true)]
        words: Vec<std::ffi::OsString>,
    },
    /// One process of a cluster for surveys (program `limpid-survey`)
    #[command(disable_help_flag = true)]
    SurveyWorker {
        /// Handed over as they are; `limpid survey-worker --help` lists them
        #[arg(trailing_var_arg = true, allow_hyphen_values = true)]
        words: Vec<std::ffi::OsString>,
    },
}

/// Whose hand is on an act.
#[derive(Debug, ClapArgs)]
pub struct Hand {
    /// Who acts, by the name on record; "not named" stands where nobody is
    #[arg(long = "as", value_name = "PERSON")]
    pub person: Option<String>,
    /// The person is not on record yet: puts the name on record
    #[arg(long, requires = "person")]
    pub new_person: bool,
}

/// `limpid results`
#[derive(Debug, ClapArgs)]
pub struct Results {
    /// The programme
    pub store: String,
    /// One value a well and day from the bottles that agree, in place of the single bottles
    #[arg(long, conflicts_with_all = ["csv", "xlsx", "wide", "well", "analyte", "trip", "from", "to", "verdict", "fraction"])]
    pub wells: bool,
    /// Only this well; may be given several times, as the other filters
    #[arg(long, allow_hyphen_values = true)]
    pub well: Vec<String>,
    /// Only this element or quantity
    #[arg(long, allow_hyphen_values = true)]
    pub analyte: Vec<String>,
    /// Only this trip
    #[arg(long, allow_hyphen_values = true)]
    pub trip: Vec<String>,
    /// Only bottles filled on this day or later, YYYY-MM-DD
    #[arg(long, value_name = "DAY")]
    pub from: Option<String>,
    /// Only bottles filled on this day or earlier
    #[arg(long, value_name = "DAY")]
    pub to: Option<String>,
    /// Only results of this verdict: accepted, provisional, rejected, or none for evidence
    #[arg(long)]
    pub verdict: Vec<String>,
    /// Only this fraction, as unfiltered
    #[arg(long)]
    pub fraction: Vec<String>,
    /// One row a well and day, one column an analyte, as people keep it in spreadsheets; signs explained below
    #[arg(long)]
    pub wide: bool,
    /// Write the rows to a CSV file
    #[arg(long, value_name = "FILE")]
    pub csv: Option<PathBuf>,
    /// Write the rows to a workbook
    #[arg(long, value_name = "FILE")]
    pub xlsx: Option<PathBuf>,
    /// One JSON document
    #[arg(long, conflicts_with_all = ["wide", "csv", "xlsx"])]
    pub json: bool,
}

/// `limpid correct`
#[derive(Debug, ClapArgs)]
pub struct Correct {
    /// The programme
    pub store: String,
    /// Table, as well
    pub table: String,
    /// Name of the row, the parts of a name of several joined by /; where rows have no name, their number
    #[arg(allow_hyphen_values = true)]
    pub row: String,
    /// Column, as depth_m
    pub column: String,
    /// The value from now on; "" for none
    #[arg(allow_hyphen_values = true)]
    pub value: String,
    #[command(flatten)]
    pub hand: Hand,
    /// The reason, kept for good
    #[arg(long)]
    pub why: String,
}

/// `limpid merge-names`
#[derive(Debug, ClapArgs)]
pub struct MergeNames {
    /// The programme
    pub store: String,
    /// What they are names of: analyte, fraction, quantity, well, person, site, lot, acid, filter
    pub table: String,
    /// The old name
    #[arg(allow_hyphen_values = true)]
    pub old: String,
    /// The name that stays
    #[arg(allow_hyphen_values = true)]
    pub new: String,
    #[command(flatten)]
    pub hand: Hand,
    /// The reason, kept for good
    #[arg(long)]
    pub why: String,
}

/// `limpid start`
#[derive(Debug, ClapArgs)]
pub struct Start {
    /// Folder to make: new or empty
    pub dir: PathBuf,
    /// Name of the site; asked for where it is left out, as are the other answers
    #[arg(long)]
    pub site: Option<String>,
    /// Name of a well; may be given several times
    #[arg(long, allow_hyphen_values = true)]
    pub well: Vec<String>,
    /// Name of the first trip
    #[arg(long)]
    pub trip: Option<String>,
    /// Its day, YYYY-MM-DD
    #[arg(long)]
    pub day: Option<String>,
    /// Who leads the programme
    #[arg(long = "as", value_name = "PERSON")]
    pub person: Option<String>,
    /// Ask nothing: what was not given is refused
    #[arg(long)]
    pub no_questions: bool,
    /// Language of the questions, the sheet of words and the next step
    #[arg(long, value_enum, default_value_t = RecipeLanguage::En)]
    pub lang: RecipeLanguage,
}

/// `limpid export`, `limpid supplement`
#[derive(Debug, ClapArgs)]
pub struct Export {
    /// The programme
    pub store: String,
    /// Folder to write to: new, empty, or holding nothing but an earlier package
    #[arg(long)]
    pub out: PathBuf,
    /// Licence of the data, by name or address; without it the package says that none is stated
    #[arg(long)]
    pub licence: Option<String>,
    /// Who publishes it; without it the persons of the record stand there
    #[arg(long)]
    pub publisher: Option<String>,
    /// By what address a person of the record is known elsewhere (an ORCID, say); as often as there are such
    #[arg(long = "identifier", value_name = "NAME=ADDRESS", value_parser = identifier)]
    pub identifiers: Vec<(String, String)>,
}

/// A name and an address.
fn identifier(text: &str) -> Result<(String, String), String> {
    match text.split_once('=') {
        Some((name, address)) if address.contains("://") => Ok((name.trim().into(), address.trim().into())),
        _ => Err("write NAME=ADDRESS, as in \"Ines Varga=https://orcid.org/0000-0000-0000-0000\"".into()),
    }
}

/// `limpid serve`
#[derive(Debug, ClapArgs)]
pub struct Serve {
    /// The programme
    pub store: String,
    /// Port; 0 takes a free one
    #[arg(long, default_value_t = 8642)]
    pub port: u16,
    /// Address to listen on; beyond loopback it demands accounts
    #[arg(long, default_value = "127.0.0.1")]
    pub listen: std::net::IpAddr,
    /// File of accounts; beside the programme where not given
    #[arg(long)]
    pub accounts: Option<PathBuf>,
    /// A proxy with TLS stands before it: believe its X-Forwarded-Proto and X-Forwarded-For, send cookies by TLS alone,
    /// demand accounts
    #[arg(long, conflicts_with = "tls_cert")]
    pub behind_tls: bool,
    /// TLS of its own: the certificate with those that vouch for it, PEM; read again when it changes
    #[arg(long, value_name = "FILE", requires = "tls_key")]
    pub tls_cert: Option<PathBuf>,
    /// The key of the certificate, PEM
    #[arg(long, value_name = "FILE", requires = "tls_cert")]
    pub tls_key: Option<PathBuf>,
    #[command(flatten)]
    pub hand: Hand,
}

/// `limpid account`
#[derive(Debug, ClapArgs)]
pub struct Account {
    /// The programme
    pub store: String,
    /// File of accounts; beside the programme where not given
    #[arg(long)]
    pub accounts: Option<PathBuf>,
    /// What to do
    #[command(subcommand)]
    pub act: AccountAct,
}

/// What to do with an account.
#[derive(Debug, Subcommand)]
pub enum AccountAct {
    /// Add an account, or give a name another role or password (read from standard input)
    Add {
        /// Name, as it is to stand as author in the record
        name: String,
        /// reader, sampler, analyst or lead
        #[arg(long)]
        role: String,
    },
    /// Take an account away
    Remove {
        /// Name
        name: String,
    },
    /// Take the second factor of a name away: its telephone is lost
    WithoutCode {
        /// Name
        name: String,
    },
    /// All accounts with their roles
    List,
    /// What happened at the door, a line of JSON each
    Log,
}

/// Which document.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, clap::ValueEnum)]
pub enum ReportKind {
    /// All of it
    #[default]
    Full,
    /// One page for neighbours
    Leaflet,
    /// One page for the authority
    Authority,
}

/// What the full report is of; the newest trip when nothing is said.
#[derive(Debug, Clone, Default, clap::Args)]
pub struct ReportScope {
    /// Of this trip; without it the newest one that has results
    #[arg(long, conflicts_with_all = ["from", "all"])]
    pub trip: Option<String>,
    /// Of these wells alone
    #[arg(long, value_delimiter = ',')]
    pub well: Vec<String>,
    /// Of all trips since this day, YYYY-MM-DD
    #[arg(long, value_name = "DAY", conflicts_with = "all")]
    pub from: Option<String>,
    /// Of the whole record; a long one in parts, one a year
    #[arg(long)]
    pub all: bool,
}

/// What to do with statements; list them when nothing is said.
#[derive(Debug, Subcommand)]
pub enum StateAction {
    /// Check a sentence given as fields and keep it with its case
    Add {
        /// Name of the statement
        name: String,
        /// The sentence as JSON (see `limpid calc --schema claim`); {"result":"IDENTITY"} stands for a result
        #[arg(long, conflicts_with = "file", required_unless_present = "file")]
        fields: Option<String>,
        /// The same in a file; - for standard input
        #[arg(long)]
        file: Option<String>,
        /// Take provisional or rejected results all the same: why
        #[arg(long)]
        despite: Option<String>,
        #[command(flatten)]
        hand: Hand,
        /// One JSON document
        #[arg(long)]
        json: bool,
    },
    /// All statements, newest revision, with what changed since
    List {
        /// One JSON document
        #[arg(long)]
        json: bool,
    },
    /// One statement with its case
    Show {
        /// Its name
        name: String,
        /// One JSON document
        #[arg(long)]
        json: bool,
    },
    /// Check a statement anew on the record of today; keep the answer as its next revision
    Again {
        /// Its name
        name: String,
        /// Take provisional or rejected results all the same: why (else the reason kept before)
        #[arg(long)]
        despite: Option<String>,
        #[command(flatten)]
        hand: Hand,
        /// One JSON document
        #[arg(long)]
        json: bool,
    },
}

/// `limpid checks`
#[derive(Debug, ClapArgs)]
pub struct Checks {
    /// The programme
    pub store: String,
    /// Take in these rules of this version, by the names of their checks
    #[arg(long, value_name = "NAME", num_args = 1.., requires = "why", conflicts_with = "all_new")]
    pub take: Vec<String>,
    /// Take in the rule of every check that is not in the programme's table
    #[arg(long, requires = "why")]
    pub all_new: bool,
    /// Write the programme's table to a CSV file, to be edited and kept with --keep
    #[arg(long, value_name = "FILE", conflicts_with_all = ["take", "all_new", "keep"])]
    pub csv: Option<PathBuf>,
    /// Keep an edited table; revisions count themselves
    #[arg(long, value_name = "FILE", requires = "why", conflicts_with_all = ["take", "all_new"])]
    pub keep: Option<PathBuf>,
    /// The reason, kept for good
    #[arg(long)]
    pub why: Option<String>,
    #[command(flatten)]
    pub hand: Hand,
    /// One JSON document
    #[arg(long)]
    pub json: bool,
}

/// `limpid shadow`
#[derive(Debug, ClapArgs)]
pub struct Shadow {
    /// The programme
    pub store: String,
    /// Sheet (CSV): bottle, or well and date; analyte, value, unit; fraction, isotopes, u where they are known
    pub reported: PathBuf,
    /// Write the comparison to a CSV file
    #[arg(long, value_name = "FILE")]
    pub csv: Option<PathBuf>,
    /// One JSON document
    #[arg(long, conflicts_with = "csv")]
    pub json: bool,
}

/// `limpid pairs`
#[derive(Debug, ClapArgs)]
pub struct Pairs {
    /// The programme
    pub store: String,
    /// One JSON document
    #[arg(long)]
    pub json: bool,
}

/// `limpid request`
#[derive(Debug, ClapArgs)]
pub struct Request {
    /// The programme
    pub store: String,
    /// The trip whose bottles go
    #[arg(long, allow_hyphen_values = true)]
    pub trip: String,
    /// Folder to write form and tables to
    #[arg(long)]
    pub out: PathBuf,
    /// Name of the laboratory, as its results will name it
    #[arg(long)]
    pub laboratory: Option<String>,
    /// What to measure, NAME:UNIT or NAME:UNIT:LIMIT; may be given several times; else what was measured there before
    #[arg(long, value_name = "NAME:UNIT:LIMIT")]
    pub analyte: Vec<String>,
    /// Where labels and order are drawn from; the same number, the same labels
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(i64).range(0..))]
    pub seed: Option<i64>,
    /// Language of the form: en, de
    #[arg(long, default_value = "en")]
    pub lang: String,
    #[command(flatten)]
    pub hand: Hand,
}

/// `limpid unblind`
#[derive(Debug, ClapArgs)]
pub struct Unblind {
    /// The programme
    pub store: String,
    /// The request to open; without it all are listed
    #[arg(requires = "why")]
    pub request: Option<String>,
    /// The reason, kept for good
    #[arg(long)]
    pub why: Option<String>,
    #[command(flatten)]
    pub hand: Hand,
    /// One JSON document
    #[arg(long)]
    pub json: bool,
}

/// `limpid profiles`
#[derive(Debug, ClapArgs)]
pub struct Profiles {
    /// The programme
    pub store: String,
    /// The rules of a profile as a table
    #[arg(long, value_name = "PROFILE", conflicts_with_all = ["choose", "table", "keep", "new"])]
    pub show: Option<String>,
    /// With --show: write them to a CSV file, to be edited and kept with --keep
    #[arg(long, value_name = "FILE", requires = "show")]
    pub csv: Option<PathBuf>,
    /// Have a profile judge results from now on
    #[arg(long, value_name = "PROFILE", requires = "why", conflicts_with_all = ["table", "keep", "new"])]
    pub choose: Option<String>,
    /// Have the programme's own table of checks judge again
    #[arg(long, requires = "why", conflicts_with_all = ["keep", "new"])]
    pub table: bool,
    /// With --choose and --table: only results of this laboratory
    #[arg(long, allow_hyphen_values = true)]
    pub laboratory: Option<String>,
    /// With --choose and --table: only this element or quantity
    #[arg(long, allow_hyphen_values = true)]
    pub analyte: Option<String>,
    /// Keep the edited table of a profile; revisions count themselves
    #[arg(long, value_names = ["PROFILE", "FILE"], num_args = 2, requires = "why", conflicts_with = "new")]
    pub keep: Option<Vec<String>>,
    /// Make a profile of one's own, with the rules of another to begin with
    #[arg(long, value_name = "PROFILE", requires_all = ["why", "like"])]
    pub new: Option<String>,
    /// With --new: like which
    #[arg(long, value_name = "PROFILE", requires = "new")]
    pub like: Option<String>,
    /// The reason, kept for good
    #[arg(long)]
    pub why: Option<String>,
    #[command(flatten)]
    pub hand: Hand,
    /// One JSON document
    #[arg(long)]
    pub json: bool,
}

/// `limpid recipes`
#[derive(Debug, ClapArgs)]
pub struct Recipes {
    /// The programme
    #[arg(required_unless_present = "template")]
    pub store: Option<String>,
    /// The beginning of a recipe, every key explained
    #[arg(long, conflicts_with_all = ["store", "show", "check", "give"])]
    pub template: bool,
    /// The text of a recipe
    #[arg(long, value_name = "RECIPE", conflicts_with_all = ["check", "give"])]
    pub show: Option<String>,
    /// With --show: this version, not the newest
    #[arg(long, requires = "show")]
    pub version: Option<i64>,
    /// Do a recipe and a run meet? What the recipe names and the run has not
    #[arg(long, value_names = ["RECIPE", "RUN"], num_args = 2, conflicts_with = "give")]
    pub check: Option<Vec<String>>,
    /// Reduce a run by the newest version of a recipe from now on
    #[arg(long, value_names = ["RECIPE", "RUN"], num_args = 2, requires = "why")]
    pub give: Option<Vec<String>>,
    /// The reason, kept for good
    #[arg(long)]
    pub why: Option<String>,
    #[command(flatten)]
    pub hand: Hand,
    /// Language of the template's comments and of what a check says
    #[arg(long, value_enum, default_value_t = RecipeLanguage::En)]
    pub lang: RecipeLanguage,
    /// One JSON document
    #[arg(long)]
    pub json: bool,
}

/// Language of what is explained to who begins: recipes, templates, steps.
#[derive(Debug, Clone, Copy, PartialEq, Eq, clap::ValueEnum)]
pub enum RecipeLanguage {
    /// English
    En,
    /// German
    De,
}

/// `limpid limits`
#[derive(Debug, ClapArgs)]
pub struct Limits {
    /// The programme
    pub store: String,
    /// Only this authority (and a person's own); may be given several times
    #[arg(long)]
    pub authority: Vec<String>,
    /// How sure: rule (each limit's own, also when left out), none, a probability such as 95 %, or a band such as 1 U
    #[arg(long)]
    pub guard: Option<String>,
    /// Limits that hold on this day, YYYY-MM-DD; else on the day of each bottle, or today where it has none
    #[arg(long)]
    pub date: Option<String>,
    /// Every limit, not only the strictest, the nearest for health and the local one
    #[arg(long)]
    pub all: bool,
    /// One JSON document
    #[arg(long)]
    pub json: bool,
}

/// `limpid import`
#[derive(Debug, ClapArgs)]
pub struct Import {
    /// The programme
    pub store: String,
    /// Raw files; one bundle file (.toml) may list several with a mapping each
    #[arg(required = true)]
    pub inputs: Vec<PathBuf>,
    /// Mapping by name, or a mapping file; "guess" guesses one from the file and shows it as TOML
    #[arg(long)]
    pub mapping: Option<String>,
    /// With --mapping guess: what the guess does not know or has wrong, as result.fraction=unfiltered
    #[arg(long = "set", value_name = "KEY=VALUE")]
    pub said: Vec<String>,
    /// With --mapping guess: write the mapping to this file
    #[arg(long, value_name = "FILE")]
    pub save_mapping: Option<PathBuf>,
    /// Show what would be taken, and every fault; take nothing
    #[arg(long)]
    pub preview: bool,
    /// The reason, kept for good; a recipe that changes needs one
    #[arg(long)]
    pub why: Option<String>,
    /// Read a name of the files as one on record: "Blei=Pb"; kept for the next file of the mapping; may be given several times
    #[arg(long, value_name = "WRITTEN=MEANT", allow_hyphen_values = true)]
    pub take: Vec<String>,
    /// A name that is near to one on record and meant as new; may be given several times
    #[arg(long, value_name = "NAME", allow_hyphen_values = true)]
    pub new_name: Vec<String>,
    /// Make the programme first: it must not exist yet
    #[arg(long)]
    pub new: bool,
    #[command(flatten)]
    pub hand: Hand,
    /// One JSON document
    #[arg(long)]
    pub json: bool,
}

/// `limpid field-sheet`
#[derive(Debug, ClapArgs)]
pub struct FieldSheet {
    /// The programme
    pub store: String,
    /// Name of the trip
    pub trip: String,
    /// Folder to write to
    #[arg(long)]
    pub out: PathBuf,
    /// Size of the label page, mm
    #[arg(long, value_names = ["WIDTH", "HEIGHT"], num_args = 2, default_values_t = [A4.page_width_mm, A4.page_height_mm])]
    pub page: Vec<f64>,
    /// Labels across and down
    #[arg(long, value_names = ["COLUMNS", "ROWS"], num_args = 2, default_values_t = [A4.columns, A4.rows])]
    pub labels: Vec<usize>,
    /// Size of a label, mm
    #[arg(long, value_names = ["WIDTH", "HEIGHT"], num_args = 2, default_values_t = [A4.width_mm, A4.height_mm])]
    pub label: Vec<f64>,
    /// Left and top margin of the label page, mm
    #[arg(long, value_names = ["LEFT", "TOP"], num_args = 2, default_values_t = [A4.left_mm, A4.top_mm])]
    pub margins: Vec<f64>,
    /// Between columns and between rows of labels, mm
    #[arg(long, value_names = ["ACROSS", "DOWN"], num_args = 2, default_values_t = [A4.gap_x_mm, A4.gap_y_mm])]
    pub gaps: Vec<f64>,
}

/// `limpid plan`
#[derive(Debug, ClapArgs)]
pub struct Plan {
    /// The programme, - for none: then the question holds all numbers
    #[arg(required_unless_present = "example")]
    pub store: Option<String>,
    /// The question (TOML or JSON), - for standard input
    #[arg(long)]
    pub question: Option<PathBuf>,
    /// A question that runs
    #[arg(long)]
    pub example: bool,
    /// Number of the design to pack; else the cheapest that decides with a chance of 80 %
    #[arg(long)]
    pub design: Option<usize>,
    /// Write the packing list as a document: .pdf or .html
    #[arg(long)]
    pub print: Option<PathBuf>,
    /// Make a trip of this name with its bottles
    #[arg(long, value_name = "NAME")]
    pub make_trip: Option<String>,
    /// Day of the trip, as 2027-07-13
    #[arg(long, default_value = "")]
    pub starts: String,
    #[command(flatten)]
    pub hand: Hand,
    /// One JSON document
    #[arg(long)]
    pub json: bool,
}

/// `limpid calc`
#[derive(Debug, ClapArgs)]
pub struct Calc {
    /// Name of the function
    #[arg(required_unless_present_any = ["list", "schema", "example"])]
    pub name: Option<String>,
    /// Input file, - for standard input
    #[arg(long, default_value = "-")]
    pub input: String,
    /// The input is a table (CSV): what each of its columns is (TOML or JSON)
    #[arg(long)]
    pub mapping: Option<PathBuf>,
    /// With --mapping: the file to write (.csv or .parquet), else CSV on standard output
    #[arg(long, requires = "mapping")]
    pub output: Option<PathBuf>,
    /// All functions, a line each
    #[arg(long)]
    pub list: bool,
    /// JSON Schema of a function's input
    #[arg(long, value_name = "NAME")]
    pub schema: Option<String>,
    /// A complete input that runs
    #[arg(long, value_name = "NAME")]
    pub example: Option<String>,
}
