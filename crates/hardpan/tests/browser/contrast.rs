//! Contrast of text, WCAG 2.1 section 1.4.3: at least 4.5 to 1, computed from the
//! colours that the browser shows, in light and in dark. Closed parts are opened, so
//! that all words of a page count.

use crate::driver::{Browser, Served};
use serde_json::json;

/// Text that has less, with its ratio; relative luminance as section 1.4.3 defines it.
const POOR: &str = "document.querySelectorAll('details').forEach((one) => { one.open = true; });
    const parts = (text) => text.match(/[\\d.]+/g).map(Number);
    const light = ([r, g, b]) => [r, g, b].map((v) => v / 255)
      .map((v) => v <= 0.03928 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4)
      .reduce((sum, v, i) => sum + v * [0.2126, 0.7152, 0.0722][i], 0);
    const ground = (one) => {
      for (let at = one; at; at = at.parentElement) {
        const seen = parts(getComputedStyle(at).backgroundColor);
        if (seen.length === 3 || seen[3] > 0.99) return seen;
      }
      return [255, 255, 255];
    };
    const poor = [];
    for (const one of document.querySelectorAll('body *')) {
      const own = [...one.childNodes].some((n) => n.nodeType === 3 && n.textContent.trim());
      if (!own || one.tagName === 'SCRIPT' || !one.getClientRects().length) continue;
      const style = getComputedStyle(one);
      const svg = one instanceof SVGElement;
      const ink = light(parts(svg ? style.fill : style.color));
      const paper = light(ground(svg ? one.closest('div') : one));
      const ratio = (Math.max(ink, paper) + 0.05) / (Math.min(ink, paper) + 0.05);
      if (ratio < 4.5) poor.push(`${one.tagName}.${one.className?.baseVal ?? one.className} ${ratio.toFixed(2)}`);
    }
    return [...new Set(poor)]";

/// Every text of these pages can be read in both schemes.
pub(crate) fn holds(browser: &Browser, served: &Served, pages: &[&str]) {
    for (scheme, page) in ["light", "dark"].iter().flat_map(|s| pages.iter().map(move |p| (s, p))) {
        browser.colours(scheme);
        browser.go(&format!("{}{page}", served.url));
        browser.wait("the page", "return !!document.querySelector('footer .caution')");
        let poor = browser.run(POOR);
        assert_eq!(poor, json!([]), "text of {page} that cannot be read in the {scheme}");
    }
}
