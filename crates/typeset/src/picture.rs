//! One question: what is this picture in dots?
//!
//! In: a picture as SVG whose letters are of "Limpid Text". Out: a PNG. The fonts are those carried in this crate; the
//! machine's are not looked at, and nothing is loaded that the picture names. Checked in `tests/picture.rs`.

use crate::TypesetError;
use resvg::tiny_skia::{Pixmap, Transform};
use resvg::usvg::{Options, Tree, fontdb};
use std::sync::{Arc, OnceLock};

/// Most dots of a side: a picture that large is a slip.
const MOST_DOTS: f32 = 12_000.0;

fn fonts() -> Arc<fontdb::Database> {
    static FONTS: OnceLock<Arc<fontdb::Database>> = OnceLock::new();
    FONTS
        .get_or_init(|| {
            let mut all = fontdb::Database::new();
            for face in crate::FACES {
                all.load_font_data(face.to_vec());
            }
            all.set_sans_serif_family("Limpid Text");
            Arc::new(all)
        })
        .clone()
}

/// Draws a picture with `scale` dots for each of its own.
///
/// # Errors
/// [`TypesetError::Refused`] for what is no SVG, or comes out larger than a picture can be.
pub fn png(svg: &str, scale: f32) -> Result<Vec<u8>, TypesetError> {
    let refused = |what: String| TypesetError::Refused(vec![what]);
    let options = Options { fontdb: fonts(), font_family: "Limpid Text".into(), ..Options::default() };
    let tree = Tree::from_str(svg, &options).map_err(|e| refused(e.to_string()))?;
    let (width, height) = (tree.size().width() * scale, tree.size().height() * scale);
    if !(1.0..=MOST_DOTS).contains(&width) || !(1.0..=MOST_DOTS).contains(&height) {
        return Err(refused(format!("{width:.0} × {height:.0} dots: 1 to {MOST_DOTS} are drawn")));
    }
    let mut dots = Pixmap::new(width.ceil() as u32, height.ceil() as u32).ok_or_else(|| refused("no memory".into()))?;
    resvg::render(&tree, Transform::from_scale(scale, scale), &mut dots.as_mut());
    dots.encode_png().map_err(|e| refused(e.to_string()))
}
