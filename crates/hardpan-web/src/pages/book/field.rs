//! The log for the field: forms that work without a connection. The browser keeps
//! what is written, and sends it when the page can be reached again.

use super::{Asked, Shown, form, shown, units_kept};
use crate::page::{Page, frame};
use crate::routes::Shared;
use crate::trouble::Trouble;
use axum::extract::{Path, RawQuery, State};
use axum::response::{Html, IntoResponse, Response};
use hardpan_book::{Kind, LARGEST_PICTURE, MOST_PICTURES, PICTURED};
use maud::{Markup, html};

pub(crate) async fn field(
    State(room): Shared,
    Path(slug): Path<String>,
    RawQuery(query): RawQuery,
) -> Response {
    let answer = async {
        let asked = Asked::read(query.as_deref(), &["strip", "by"])?;
        Ok(page(&slug, &shown(&room, &slug).await?, &asked))
    };
    answer.await.map_or_else(|trouble: Trouble| trouble.page(), IntoResponse::into_response)
}

/// The page holds no token, since it outlives the session that it came from.
fn page(slug: &str, shown: &Shown, asked: &Asked) -> Html<String> {
    let strip = asked.strip.clone().or_else(|| shown.strips.first().cloned());
    let account = shown.author.as_ref().map_or("", |(name, _)| name.as_str());
    let kinds: Vec<Kind> = shown.recordable().collect();
    let body = html! {
        main.plain.book-page.field-page data-book=(slug) data-account=(account) {
            h1 { "Field log of " (shown.title) }
            p.lead { "What you log here is kept on this device at once, and sent to the book when \
                      it can be reached. It needs no connection." }
            noscript { p.wrong { "Keeping records without a connection needs script. The forms of "
                a href=(shown.address) { "the book" } " work without it." } }
            p.link-state #link-state role="status" { "Looking for the book …" }
            section #waiting aria-labelledby="waiting-name" hidden {
                h2 #waiting-name { "On this device, not in the book yet" }
                ul.waiting {}
                button #send type="button" { "Send now" }
            }
            @match &strip {
                None => p { "The book holds nothing yet and no strip file stands beside it." },
                Some(strip) if !kinds.is_empty() => {
                    (who(shown, asked, strip))
                    @for kind in kinds { (entry(kind)) }
                }
                Some(_) => p { "Your account reads the book and records nothing." },
            }
            section #sent aria-labelledby="sent-name" hidden {
                h2 #sent-name { "Sent from this device" }
                ul {}
            }
        }
        script src="/assets/field.js" defer {}
    };
    let crumbs = [("/".into(), "Flights".into()), (shown.address.clone(), shown.title.clone())];
    frame(&Page { title: "Field log", crumbs: &crumbs, head: html! {} }, &body)
}

fn who(shown: &Shown, asked: &Asked, strip: &str) -> Markup {
    let author = shown.author.as_ref().map_or(&*asked.by, |(name, _)| name);
    html! {
        form.choose #who {
            (units_kept(asked.units))
            div.field {
                label for="strip" { "strip" }
                select #strip name="strip" {
                    @for name in &shown.strips {
                        option value=(name) selected[name == strip] { (name) }
                    }
                }
            }
            div.field {
                label for="by" { "recorded by" }
                input #by name="by" type="text" value=(author) required maxlength="80"
                    readonly[shown.author.is_some()];
            }
        }
    }
}

fn entry(kind: Kind) -> Markup {
    let word = kind.word();
    html! {
        details.log id={ "log-" (word) } {
            summary { "Log " (kind.with_article()) }
            form.field-form data-record=(word) autocomplete="off" {
                div.entries { (form::fields(kind)) }
                @if PICTURED.contains(&kind) { (pictures(word)) }
                p.wrong role="alert" hidden {}
                button type="submit" { "Keep " (kind.with_article()) }
            }
        }
    }
}

/// Pictures to be kept with the record; the words for each are asked by the script.
fn pictures(word: &str) -> Markup {
    let (id, note) = (format!("{word}-pictures"), format!("{word}-pictures-note"));
    html! {
        fieldset.pictured {
            legend { "Pictures" span.may { " (may be empty)" } }
            div.field {
                label for=(id) { "JPEG, PNG or WebP" }
                input #(id) type="file" multiple accept="image/jpeg,image/png,image/webp"
                    aria-describedby=(note) data-most=(MOST_PICTURES)
                    data-largest=(LARGEST_PICTURE);
            }
            p.note #(note) { "At most " (MOST_PICTURES) ", of " (LARGEST_PICTURE / 1024 / 1024)
                " MiB each. What a camera wrote into them of place, time and owner is taken out \
                 when they reach the book." }
            div.entries.shown {}
        }
    }
}
