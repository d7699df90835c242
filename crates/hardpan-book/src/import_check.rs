//! Whether what was read from a file fits together, before anything of it is recorded.

use crate::names::InUse;
use crate::pictures::fits;
use crate::record::Standing;
use crate::store::{Named, Superseding, checked};
use crate::{
    Audit, BookError, ImportError, Kind, Mistakes, PICTURED, Picture, PictureFile, Record, Taken,
};
use std::collections::{BTreeMap, BTreeSet};

/// Whether a book can take all of it over: each record by itself and at its time, what
/// supersedes what, and the bytes of pictures, which are `given` or `kept` by their
/// SHA-256.
///
/// # Errors
/// [`ImportError`]: everything that does not fit, and where in the file it stands; or
/// that nobody is named.
pub fn fit_to_take_over(
    history: &[Taken],
    given: &[PictureFile],
    kept: &BTreeSet<String>,
    audit: &Audit,
) -> Result<(), ImportError> {
    if audit.by.trim().is_empty() {
        return Err(BookError::NotSaid { what: "who records" }.into());
    }
    let mut mistakes = Mistakes::default();
    let mut followers = BTreeMap::new();
    let gone: BTreeSet<i64> =
        history.iter().filter_map(|one| one.supersedes.as_ref().map(|(id, _)| *id)).collect();
    let mut names = InUse::default();
    for (index, (one, number)) in history.iter().zip(1..).enumerate() {
        let standing = if gone.contains(&number) { Standing::Superseded } else { Standing::Stands };
        if standing == Standing::Stands {
            if let Err(cause) = names.takes(&one.record) {
                mistakes.record(cause, |_| one.at);
            }
            names.add(&one.record);
        }
        let old = one.supersedes.as_ref();
        let named = old.map(|(id, why)| Superseding { id: Named::Along(*id), why });
        if let Err(cause) = checked(&one.record, audit, named.as_ref(), standing) {
            mistakes.record(cause, |_| one.at);
        }
        if let Some((old, _)) = old {
            if let Err(what) = superseded(history, index, *old) {
                mistakes.form(|| one.at, what);
            }
            if let Some(other) = followers.insert(*old, one) {
                let what = format!("what it supersedes is superseded by {} already", other.at);
                mistakes.form(|| one.at, what);
            }
        }
        if let Record::Picture(picture) = &one.record
            && let Err(what) = pictured(picture, history, given, kept)
        {
            mistakes.form(|| one.at, what);
        }
    }
    Ok(mistakes.or(())?)
}

/// The one of a number, from 1 on.
fn numbered(history: &[Taken], id: i64) -> Option<&Taken> {
    usize::try_from(id).ok()?.checked_sub(1).and_then(|index| history.get(index))
}

fn superseded(history: &[Taken], index: usize, id: i64) -> Result<(), String> {
    let before = history.get(..index).unwrap_or_default();
    let mine = history.get(index).map(|one| one.record.kind());
    match (numbered(before, id).map(|old| (old.record.kind(), old.at)), mine) {
        (Some((Kind::Withdrawal, at)), _) => {
            Err(format!("what it supersedes ({at}) is a withdrawal, and that is final"))
        }
        (Some((is, at)), Some(mine)) if mine != is && mine != Kind::Withdrawal => {
            Err(format!("what it supersedes ({at}) is of kind {is}; {mine} cannot supersede it"))
        }
        (Some(_), _) => Ok(()),
        (None, _) => Err("what it supersedes does not stand before it".to_owned()),
    }
}

fn pictured(
    picture: &Picture,
    history: &[Taken],
    given: &[PictureFile],
    kept: &BTreeSet<String>,
) -> Result<(), String> {
    let owner = numbered(history, picture.of_entry).map(|one| one.record.kind());
    match owner {
        Some(kind) if !PICTURED.contains(&kind) => {
            let known = PICTURED.map(Kind::word).join(", ");
            let one = kind.with_article();
            return Err(format!("the picture is of {one}; pictures are kept of {known}"));
        }
        Some(_) => {}
        None => return Err("what the picture shows does not stand in the file".to_owned()),
    }
    let digest = &picture.digest;
    match given.iter().find(|one| one.digest == *digest) {
        Some(file) if !fits(picture, file) => {
            Err(format!("the picture {digest} is of another kind or size than is said here"))
        }
        None if !kept.contains(digest) => Err(format!(
            "the picture: nothing with the SHA-256 {digest} was handed in; hand in the pictures \
             of the other book too"
        )),
        _ => Ok(()),
    }
}
