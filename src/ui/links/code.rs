//! A link as a QR code to point a phone at: small beside the address, or as large as the window, for those in the back row.

use crate::link::Qr;
use crate::scene::{qr_code, svg};
use yew::prelude::*;

/// The code of an address.
///
/// # Errors
/// That it is too long, in a sentence.
pub(super) fn of(address: &str) -> Result<AttrValue, String> {
    let code = Qr::of(address).map_err(|why| why.to_string())?;
    // The page gives it its size: modules are counted here as millimetres.
    Ok(svg::paint(&qr_code(&code, 1.0), "qr", &|_| None).into())
}

/// The picture with its words.
pub(super) fn picture(code: &AttrValue) -> Html {
    html! {
        <div class="code" role="img" aria-label="A QR code. What it says is the link.">
            { Html::from_html_unchecked(code.clone()) }
        </div>
    }
}
