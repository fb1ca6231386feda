//! A picture in dots: its size, its ground and its letters.

use resvg::tiny_skia::Pixmap;
use typeset::png;

const SVG: &str = r##"<svg xmlns="http://www.w3.org/2000/svg" width="100" height="40" font-family="Limpid Text, sans-serif" font-size="20"><rect width="100" height="40" fill="#ffffff"/><rect x="90" y="30" width="10" height="10" fill="#ff0000"/><text x="5" y="25" fill="#000000">Pb</text></svg>"##;

#[test]
fn a_picture_is_drawn_with_its_letters() {
    let dots = Pixmap::decode_png(&png(SVG, 3.0).unwrap()).unwrap();
    assert_eq!((dots.width(), dots.height()), (300, 120));
    let at = |x, y| dots.pixel(x, y).map(|p| (p.red(), p.green(), p.blue()));
    assert_eq!(at(285, 105), Some((255, 0, 0)));
    assert_eq!(at(200, 5), Some((255, 255, 255)));
    let dark = dots.pixels().iter().filter(|p| p.red() < 60 && p.green() < 60).count();
    // Two letters of 60 dots: a stem alone is some 40 × 7 dots, all the ground would be 36,000.
    assert!((300..5000).contains(&dark), "{dark} dark dots");
}

#[test]
fn what_is_no_picture_is_refused() {
    assert!(png("no picture", 1.0).is_err());
    assert!(png(SVG, 1e6).is_err());
}
