//! What every page shares: head, way back, caution.

use crate::account::visitor;
use axum::response::Html;
use hardpan_assess::CAUTION;
use hardpan_model::Verdict;
use hardpan_report::verdict_symbol;
use maud::{DOCTYPE, Markup, html};

/// A page apart from its body.
pub(crate) struct Page<'a> {
    pub(crate) title: &'a str,
    /// Pages above this one, as address and words.
    pub(crate) crumbs: &'a [(String, String)],
    /// Links at the right of the head.
    pub(crate) head: Markup,
}

/// The whole document.
pub(crate) fn frame(page: &Page<'_>, body: &Markup) -> Html<String> {
    let document = html! {
        (DOCTYPE)
        html lang="en-GB" {
            head {
                meta charset="utf-8";
                meta name="viewport" content="width=device-width, initial-scale=1";
                meta name="color-scheme" content="light dark";
                title { (page.title) " · hardpan" }
                link rel="icon" type="image/svg+xml" href="/assets/mark.svg";
                link rel="stylesheet" href="/assets/page.css";
                script src="/assets/page.js" defer {}
            }
            body {
                a.skip href="#content" { "To the content" }
                header.top {
                    a.mark href="/" { span.layers aria-hidden="true" {} "hardpan" }
                    nav.crumbs aria-label="Where you are" {
                        @for (address, words) in page.crumbs {
                            a href=(address) { (words) } span aria-hidden="true" { "›" }
                        }
                        span aria-current="page" { (page.title) }
                    }
                    div.links { (page.head) (signed_in()) }
                }
                div #content { (body) }
                footer { p.caution { (CAUTION) } }
            }
        }
    };
    Html(document.into_string())
}

/// Who is signed in, with the way out.
fn signed_in() -> Markup {
    let visitor = visitor().and_then(|visitor| Some((visitor.account?, visitor.token)));
    html! {
        @if let Some(((name, role), token)) = visitor {
            form.sign-out method="post" action="/sign-out" {
                input type="hidden" name="token" value=(token);
                span { (name) ", " (role.word()) } " "
                button type="submit" { "Sign out" }
            }
        }
    }
}

/// A capital first, a full stop last.
pub(crate) fn sentence(text: &str) -> String {
    let mut letters = text.chars();
    let first = letters.next().map_or_else(String::new, |letter| letter.to_uppercase().collect());
    format!("{first}{}.", letters.as_str().trim_end_matches('.'))
}

/// A verdict as sign and word, so that neither stands alone.
pub(crate) fn verdict_mark(verdict: Verdict) -> Markup {
    html! {
        span class={ "verdict v-" (verdict.word()) } {
            span.sign aria-hidden="true" { (verdict_symbol(verdict)) } " " (verdict.word())
        }
    }
}
