//! The mappings that come with the program, and bundles: several files with their mappings, to be
//! taken in as one act.

use super::mapping::{Mapping, MappingError};
use serde::Deserialize;
use std::path::{Path, PathBuf};

impl Mapping {
    /// The mapping of a name among those that come with the program.
    ///
    /// # Errors
    /// [`MappingError::Unknown`] with the names there are.
    pub fn shipped(name: &str) -> Result<Self, MappingError> {
        SHIPPED.iter().find(|(n, _)| *n == name).map(|(_, text)| Self::parse(text)).ok_or_else(|| {
            MappingError::Unknown {
                name: name.into(),
                shipped: SHIPPED.iter().map(|(n, _)| *n).collect::<Vec<_>>().join(", "),
            }
        })?
    }
}

/// Several files with their mappings, in the order in which they refer to each other.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Bundle {
    /// Path (relative to the bundle's folder) and mapping name or path.
    pub files: Vec<(PathBuf, String)>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct RawBundle {
    file: Vec<RawBundleFile>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct RawBundleFile {
    path: PathBuf,
    mapping: String,
}

impl Bundle {
    /// Reads a bundle: `[[file]]` with `path` and `mapping`.
    ///
    /// # Errors
    /// [`MappingError::Toml`] with the line.
    pub fn parse(name: &str, text: &str, folder: &Path) -> Result<Self, MappingError> {
        let raw: RawBundle = toml::from_str(text)
            .map_err(|e| MappingError::Toml { name: name.into(), message: e.to_string().trim_end().to_string() })?;
        Ok(Self { files: raw.file.into_iter().map(|f| (folder.join(f.path), f.mapping)).collect() })
    }
}

macro_rules! shipped {
    ($($name:literal),* $(,)?) => {
        /// The mappings that come with the program: name and TOML.
        pub const SHIPPED: &[(&str, &str)] = &[
            $(($name, include_str!(concat!("../../../../mappings/", $name, ".toml"))),)*
        ];
    };
}

shipped![
    "people",
    "sites",
    "wells",
    "well-sections",
    "layers",
    "lots",
    "acids",
    "filters",
    "trips",
    "bottles",
    "spikes",
    "aliquots",
    "field-readings",
    "fills",
    "air-counts",
    "custody",
    "checks",
    "lead-sources",
    "lot-targets",
    "source-facts",
    "signatures",
    "recipe",
    "sequence",
    "counts-blocks",
    "counts-tidy",
    "counts-wide",
    "laboratory-long",
    "laboratory-wide",
    "majors-wide",
    "trace-long",
    "blanks-long",
    "replicates-long",
    "field-sheet",
    "compounds",
    "organics-long",
    "local-limits",
    "laboratory-quality",
    "tracers",
    "input-histories",
    "recharge-facts",
];
