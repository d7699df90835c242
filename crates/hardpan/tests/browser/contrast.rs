//! Contrast computed from the colours that the browser shows, in light and in dark. Text,
//! and what stands in an empty field: at least 4.5 to 1, WCAG 2.1 section 1.4.3. The
//! edge of what can be filled in or pressed, and the lines of a drawing: at least 3 to
//! 1, section 1.4.11. Closed parts are opened, so that all of a page counts.

use crate::driver::{Browser, Served};
use serde_json::json;

/// What has less, with its ratio; relative luminance as WCAG 2.1 defines it.
const POOR: &str = "document.querySelectorAll('details').forEach((one) => { one.open = true; });
    const parts = (text) => text.match(/[\\d.]+/g)?.map(Number);
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
    const hold = (one, what, ink, paper, least) => {
      const ratio = (Math.max(ink, paper) + 0.05) / (Math.min(ink, paper) + 0.05);
      if (ratio < least) poor.push(`${what} of ${one.tagName}.${one.className?.baseVal ?? one.className} ${ratio.toFixed(2)}`);
    };
    for (const one of document.querySelectorAll('body *')) {
      const own = [...one.childNodes].some((n) => n.nodeType === 3 && n.textContent.trim());
      if (!own || one.tagName === 'SCRIPT' || !one.getClientRects().length) continue;
      const style = getComputedStyle(one);
      const svg = one instanceof SVGElement;
      const ink = light(parts(svg ? style.fill : style.color));
      const paper = light(ground(svg ? one.closest('div') : one));
      hold(one, 'text', ink, paper, 4.5);
    }
    for (const one of document.querySelectorAll('input, select, textarea, button')) {
      const style = getComputedStyle(one);
      if (['hidden', 'range', 'radio', 'checkbox', 'file'].includes(one.type)) continue;
      if (!one.getClientRects().length || style.opacity === '0') continue;
      const own = light(ground(one));
      const around = light(ground(one.parentElement));
      const edge = style.borderTopStyle === 'none' ? own : light(parts(style.borderTopColor));
      const seen = Math.abs(edge - around) > Math.abs(own - around) ? edge : own;
      hold(one, 'edge', seen, around, 3);
      if (one.placeholder && !one.value) {
        hold(one, 'hint', light(parts(getComputedStyle(one, '::placeholder').color)), own, 4.5);
      }
    }
    const lines = '.line, .edge, .threshold, .axis, .event, .way, .centre, .bar-body';
    for (const one of document.querySelectorAll(lines)) {
      const stroke = parts(getComputedStyle(one).stroke);
      if (!(one instanceof SVGElement) || !stroke || !one.getClientRects().length) continue;
      hold(one, 'line', light(stroke), light(ground(one.closest('div'))), 3);
    }
    return [...new Set(poor)]";

/// Everything of these pages can be read in both schemes.
pub(crate) fn holds(browser: &Browser, served: &Served, pages: &[&str]) {
    for (scheme, page) in ["light", "dark"].iter().flat_map(|s| pages.iter().map(move |p| (s, p))) {
        browser.colours(scheme);
        browser.go(&format!("{}{page}", served.url));
        browser.wait("the page", "return !!document.querySelector('footer .caution')");
        shown(browser, &format!("{page}, {scheme}"));
    }
}

/// Everything of the page that stands there can be read.
pub(crate) fn shown(browser: &Browser, what: &str) {
    assert_eq!(browser.run(POOR), json!([]), "what cannot be seen of {what}");
}

#[test]
fn poor_contrast_is_found() {
    let served = Served::demo();
    let browser = Browser::open(1440, 900);
    browser.go(&format!("{}/flights/demo.flight", served.url));
    browser.wait("the sheet", "return !!document.querySelector('#answer .verdict')");
    shown(&browser, "the sheet as it is");
    // #777777 on white has 4.48 to 1, #959595 2.99 to 1.
    for (rule, what) in [
        ("p { color: #777777 !important; background: #ffffff !important; }", "text of P"),
        ("input::placeholder { color: #777777 !important; }", "hint of INPUT"),
        ("input { border-color: #959595 !important; }", "edge of INPUT"),
        (".line { stroke: #959595 !important; }", "line of "),
    ] {
        browser.run(&format!(
            "const sheet = new CSSStyleSheet(); sheet.replaceSync('{rule} body, .bench, .plot, \
             .band, main, form {{ background: #ffffff !important; }}');
             document.adoptedStyleSheets = [sheet]; return true"
        ));
        let poor = browser.run(POOR).to_string();
        assert!(poor.contains(what), "{rule} is not found: {poor}");
    }
}
