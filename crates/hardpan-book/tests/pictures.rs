//! Pictures: kept byte for byte, each once, and nothing that is no picture.

mod support;

use hardpan_book::{
    Book, BookError, Kind, LARGEST_PICTURE, MOST_PICTURES, Once, PictureFile, PictureFormat,
    Record, Shown, Withdrawal, history_of_json, json_value, picture_digests, pictures_of,
};
use image::{DynamicImage, ImageFormat};
use proptest::prelude::*;
use rusqlite::Connection;
use std::io::Cursor;
use std::path::{Path, PathBuf};
use support::{audit, inspection, movement};

/// A picture as a library of pictures writes it; its shade makes it another one.
fn written(width: u32, height: u32, shade: u8, format: ImageFormat) -> Vec<u8> {
    let pixels = image::RgbImage::from_pixel(width, height, image::Rgb([shade, 90, 60]));
    let mut bytes = Cursor::new(Vec::new());
    DynamicImage::ImageRgb8(pixels).write_to(&mut bytes, format).expect("it is written");
    bytes.into_inner()
}

fn png(shade: u8) -> PictureFile {
    PictureFile::read(written(8, 6, shade, ImageFormat::Png)).expect("a picture")
}

const fn of(of_entry: i64) -> Shown<'static> {
    Shown { of_entry, what: "the rut, a boot beside it", file: Some("rut.png") }
}

/// A book whose entry 1 is an inspection and 2 a movement.
fn begun(folder: &Path) -> (PathBuf, Book) {
    let path = folder.join("north.book");
    let mut book = Book::create(&path).expect("a new record");
    let records = vec![
        inspection("2026-06-20T08:00Z", "12 mm", "0 mm"),
        movement("landing", "2026-06-18T15:00Z"),
    ];
    book.add_all(records, &audit()).expect("they fit");
    (path, book)
}

/// Kind and size as the library that wrote the picture was told them.
#[test]
fn kind_and_size_are_those_that_were_written() {
    for (width, height, format, read) in [
        (40, 30, ImageFormat::Jpeg, PictureFormat::Jpeg),
        (41, 29, ImageFormat::Png, PictureFormat::Png),
        (1, 4000, ImageFormat::WebP, PictureFormat::Webp),
    ] {
        let file = PictureFile::read(written(width, height, 1, format)).expect("a picture");
        assert_eq!((file.width, file.height), (i64::from(width), i64::from(height)));
        assert_eq!((file.format, file.format.media_type()), (read, format.to_mime_type()));
    }
}

/// The digest of `abc` in [FIPS-180-4]'s example is what the book computes with, in
/// `tests/versions.rs`; here the beginning is what matters.
#[test]
fn what_is_no_picture_is_told() {
    let picture = written(8, 6, 1, ImageFormat::Png);
    let mut wide = picture.clone();
    wide[16..20].copy_from_slice(&60_000_u32.to_be_bytes());
    wide[20..24].copy_from_slice(&60_000_u32.to_be_bytes());
    let mut flat = picture.clone();
    flat[16..20].copy_from_slice(&[0; 4]);
    let mut large = picture.clone();
    large.resize(LARGEST_PICTURE + 1, 0);
    for (bytes, word) in [
        (Vec::new(), "no byte"),
        (b"<svg onload=\"x()\"/>".to_vec(), "JPEG, PNG or WebP"),
        (b"GIF89a\x01\0\x01\0".to_vec(), "JPEG, PNG or WebP"),
        (b"BM\x3a\0\0\0".to_vec(), "JPEG, PNG or WebP"),
        (picture[..20].to_vec(), "header"),
        ([&b"\xff\xd8\xff\xe0"[..], &[0; 20]].concat(), "header"),
        (wide, "60000 by 60000"),
        (flat, "0 by 6"),
        (large, "8388609 bytes"),
    ] {
        let told = PictureFile::read(bytes).expect_err(word).to_string();
        assert!(told.starts_with("the picture: ") && told.contains(word), "{told}");
    }
    let mut largest = picture;
    largest.resize(LARGEST_PICTURE, 0);
    assert!(PictureFile::read(largest).is_ok());
}

#[test]
fn a_picture_comes_out_as_it_went_in_and_a_copy_holds_it() {
    let folder = tempfile::tempdir().expect("a folder");
    let (_, mut book) = begun(folder.path());
    let file = png(1);
    let once = book.add_picture(of(1), file.clone(), None, audit()).expect("it fits");
    assert_eq!(once.entry().id, 3);
    assert_eq!(book.picture(&file.digest).expect("it reads"), Some(file.clone()));
    assert_eq!(book.picture(&"0".repeat(64)).expect("it reads"), None);
    let copy = folder.path().join("copy.book");
    assert_eq!(book.backup(&copy).expect("a copy"), 3);
    let copy = Book::open(&copy).expect("it opens");
    assert_eq!(copy.picture(&file.digest).expect("it reads"), Some(file));
    assert_eq!(copy.verify().expect("it is whole").len(), 3);
}

#[test]
fn the_same_picture_is_kept_once_and_a_record_takes_twelve() {
    let folder = tempfile::tempdir().expect("a folder");
    let (_, mut book) = begun(folder.path());
    let mark = Some("field-0001-1");
    let first = book.add_picture(of(1), png(0), mark, audit()).expect("it fits");
    let again = book.add_picture(of(1), png(0), mark, audit()).expect("it is known");
    assert_eq!((first.entry().id, again), (3, Once::Known(first.entry().clone())));
    let told = book.add_picture(of(1), png(0), None, audit()).expect_err("it stands already");
    assert!(told.to_string().contains("entry 3"), "{told}");
    let error = book.add_picture(of(1), png(9), mark, audit()).expect_err("another one");
    assert!(matches!(error, BookError::Mark { .. }), "{error}");
    let error = book.add_picture(of(1), png(9), Some("no"), audit()).expect_err("no mark");
    assert!(matches!(error, BookError::Mark { .. }), "{error}");
    for shade in 1..12 {
        book.add_picture(of(1), png(shade), None, audit()).expect("it fits");
    }
    let told = book.add_picture(of(1), png(12), None, audit()).expect_err("no more");
    assert!(told.to_string().contains("12, and takes no more"), "{told}");
    let entries = book.verify().expect("it is whole");
    assert_eq!(pictures_of(&entries, 1).len(), MOST_PICTURES);
    for (id, word) in [(2, "movement"), (3, "picture"), (99, "99")] {
        let told = book.add_picture(of(id), png(13), None, audit()).expect_err(word).to_string();
        assert!(told.contains(word), "{told}");
    }
    let loose = entries[2].record.fields();
    let mut other = loose.clone();
    other.insert("digest".to_owned(), "0".repeat(64));
    let mut wider = loose;
    wider.insert("width".to_owned(), "9".to_owned());
    for fields in [other, wider] {
        let record = Record::from_fields(Kind::Picture, &fields).expect("its values fit");
        assert!(matches!(book.add(record, audit()), Err(BookError::Picture { .. })));
    }
    assert_eq!(book.verify().expect("it is whole").len(), 14);
}

#[test]
fn pictures_follow_what_was_corrected_and_a_withdrawn_one_stays_in_the_book() {
    let folder = tempfile::tempdir().expect("a folder");
    let (_, mut book) = begun(folder.path());
    book.add_picture(of(1), png(1), None, audit()).expect("it fits");
    let deeper = inspection("2026-06-20T08:00Z", "15 mm", "0 mm");
    book.correct(1, deeper, "read wrong", audit()).expect("it fits");
    let second = book.add_picture(of(1), png(2), None, audit()).expect("it fits").entry().clone();
    let Record::Picture(second) = second.record else { panic!("a picture") };
    assert_eq!(second.of_entry, 4, "that which stands");
    let entries = book.entries().expect("it is whole");
    assert_eq!(pictures_of(&entries, 4).len(), 2);
    let gone = Record::Withdrawal(Withdrawal {});
    book.correct(3, gone, "of another strip", audit()).expect("it fits");
    let entries = book.verify().expect("it is whole");
    assert_eq!(pictures_of(&entries, 4).len(), 1);
    assert!(book.picture(&png(1).digest).expect("it reads").is_some());
}

#[test]
fn another_book_takes_pictures_over_with_their_bytes_only() {
    let folder = tempfile::tempdir().expect("a folder");
    let (_, mut book) = begun(folder.path());
    book.add_picture(of(1), png(1), None, audit()).expect("it fits");
    let entries = book.entries().expect("it is whole");
    let json = json_value(&entries, support::CAUTION).to_string();
    assert_eq!(picture_digests(&entries).into_iter().collect::<Vec<_>>(), [png(1).digest]);
    let mut other = Book::create(&folder.path().join("other.book")).expect("a new record");
    other.add(movement("landing", "2026-06-01T15:00Z"), audit()).expect("it fits");
    let taken = history_of_json(&json).expect("as exported");
    let error = other.take_over(taken.clone(), &[png(2)], &audit()).expect_err("no bytes");
    assert!(error.to_string().contains(&png(1).digest), "{error}");
    assert_eq!(other.entries().expect("it is whole").len(), 1);
    other.take_over(taken, &[png(2), png(1)], &audit()).expect("they fit");
    let entries = other.verify().expect("it is whole, and nothing else is in it");
    assert_eq!(pictures_of(&entries, 2).len(), 1);
}

#[test]
fn a_picture_that_was_changed_or_slipped_in_is_told() {
    let folder = tempfile::tempdir().expect("a folder");
    let (path, mut book) = begun(folder.path());
    book.add_picture(of(1), png(1), None, audit()).expect("it fits");
    drop(book);
    let connection = Connection::open(&path).expect("a database");
    for (change, word) in [
        ("UPDATE picture_content SET content = x'00'", "nothing is overwritten"),
        ("DELETE FROM picture_content", "nothing is deleted"),
        ("UPDATE picture SET shown = 'nothing'", "nothing is overwritten"),
    ] {
        let refused = connection.execute_batch(change).expect_err(change).to_string();
        assert!(refused.contains(word), "{refused}");
    }
    let force = "DROP TRIGGER picture_content_is_not_changed;
                 UPDATE picture_content SET content = zeroblob(40)";
    connection.execute_batch(force).expect("by force");
    let book = Book::open(&path).expect("it opens");
    let error = book.picture(&png(1).digest).expect_err("changed");
    assert!(matches!(error, BookError::Corrupt { .. }), "{error}");
    assert!(book.verify().expect_err("changed").to_string().contains("its digest"));
    drop(book);
    let other = png(2);
    let back = connection.execute("UPDATE picture_content SET content = ?1", [&png(1).content]);
    back.expect("by force");
    let slipped = "INSERT INTO picture_content (sha256, content) VALUES (?1, ?2)";
    connection.execute(slipped, rusqlite::params![other.digest, other.content]).expect("it fits");
    let error = Book::open(&path).and_then(|book| book.verify()).expect_err("slipped in");
    assert!(error.to_string().contains(&other.digest), "{error}");
}

proptest! {
    #[test]
    fn prop_no_bytes_make_a_reader_of_pictures_panic(
        tail in prop::collection::vec(any::<u8>(), 0..200),
        head in prop::sample::select(vec![
            &b"\xff\xd8\xff"[..], b"\x89PNG\r\n\x1a\n", b"RIFF\x40\0\0\0WEBPVP8 ", b"RIFF\0\0\0\0WEBPVP8X", b"",
        ]),
    ) {
        let _ = PictureFile::read([head, &tail].concat());
    }
}

/// Exif with a place, a time, an owner and the side that is up, by a library of Exif.
fn exif_of_a_camera() -> Vec<u8> {
    use exif::{Field, In, Rational, Tag, Value};
    let text = |tag, text: &str| Field {
        tag,
        ifd_num: In::PRIMARY,
        value: Value::Ascii(vec![text.as_bytes().to_vec()]),
    };
    let degrees = [60, 30, 15].map(|num| Rational { num, denom: 1 }).to_vec();
    let fields = [
        text(Tag::GPSLatitudeRef, "N"),
        Field { tag: Tag::GPSLatitude, ifd_num: In::PRIMARY, value: Value::Rational(degrees) },
        text(Tag::DateTimeOriginal, "2026:06:18 15:00:00"),
        text(Tag::Artist, "SECRET OWNER"),
        Field { tag: Tag::Orientation, ifd_num: In::PRIMARY, value: Value::Short(vec![6]) },
    ];
    let mut writer = exif::experimental::Writer::new();
    fields.iter().for_each(|field| writer.push_field(field));
    let mut bytes = Cursor::new(Vec::new());
    writer.write(&mut bytes, false).expect("it is written");
    bytes.into_inner()
}

/// The same picture as a camera writes it: Exif, XMP and remarks in it, and another
/// picture with a place behind it.
fn of_a_camera(format: ImageFormat) -> Vec<u8> {
    use img_parts::jpeg::{Jpeg, JpegSegment};
    use img_parts::png::{Png, PngChunk};
    use img_parts::riff::{RiffChunk, RiffContent};
    use img_parts::webp::WebP;
    use img_parts::{Bytes, ImageEXIF as _};
    let plain = Bytes::from(written(40, 30, 7, format));
    let exif = Bytes::from(exif_of_a_camera());
    let mut out = Vec::new();
    let written = match format {
        ImageFormat::Jpeg => {
            let mut picture = Jpeg::from_bytes(plain).expect("a JPEG");
            picture.set_exif(Some(exif));
            for (marker, text) in [
                (0xE1, "http://ns.adobe.com/xap/1.0/\0<x>SECRET PLACE</x>"),
                (0xED, "Photoshop 3.0\0SECRET CAPTION"),
                (0xFE, "SECRET REMARK"),
            ] {
                let segment = JpegSegment::new_with_contents(marker, Bytes::from(text));
                picture.segments_mut().insert(1, segment);
            }
            picture.encoder().write_to(&mut out)
        }
        ImageFormat::Png => {
            let mut picture = Png::from_bytes(plain).expect("a PNG");
            picture.set_exif(Some(exif));
            for (kind, text) in
                [(*b"tEXt", "Author\0SECRET OWNER"), (*b"iTXt", "XML:com.adobe.xmp\0SECRET PLACE")]
            {
                picture.chunks_mut().insert(1, PngChunk::new(kind, Bytes::from(text)));
            }
            picture.encoder().write_to(&mut out)
        }
        _ => {
            let mut picture = WebP::from_bytes(plain).expect("a WebP");
            let xmp = RiffContent::Data(Bytes::from("<x>SECRET PLACE</x>"));
            picture.chunks_mut().push(RiffChunk::new(*b"XMP ", xmp));
            picture.set_exif(Some(exif));
            picture.encoder().write_to(&mut out)
        }
    };
    written.expect("it is written");
    out.extend_from_slice(b"\xff\xd8\xff\xe1SECRET PICTURE BEHIND");
    out
}

fn holds(bytes: &[u8], word: &[u8]) -> bool {
    bytes.windows(word.len()).any(|part| part == word)
}

/// Read back by a library of Exif and one of pictures: no place, time or owner is left,
/// the side that is up is, and every picture element is what it was.
#[test]
fn place_time_and_owner_are_taken_out_of_a_picture_and_nothing_else() {
    for format in [ImageFormat::Jpeg, ImageFormat::Png, ImageFormat::WebP] {
        let camera = of_a_camera(format);
        assert!(holds(&camera, b"SECRET") && holds(&camera, b"2026:06:18"), "{format:?}");
        let kept = PictureFile::received(camera.clone()).expect("a picture");
        for word in [&b"SECRET"[..], b"2026:06:18", b"xmp", b"xap"] {
            assert!(!holds(&kept.content, word), "{format:?}: {word:?}");
        }
        let read = exif::Reader::new()
            .read_from_container(&mut Cursor::new(&kept.content))
            .expect("the side that is up");
        let tags: Vec<exif::Tag> = read.fields().map(|field| field.tag).collect();
        assert_eq!(tags, [exif::Tag::Orientation], "{format:?}");
        let side = read.get_field(exif::Tag::Orientation, exif::In::PRIMARY);
        assert_eq!(side.and_then(|one| one.value.get_uint(0)), Some(6), "{format:?}");
        let seen = |bytes: &[u8]| {
            image::load_from_memory_with_format(bytes, format).expect("a picture").to_rgb8()
        };
        assert_eq!(seen(&kept.content), seen(&camera), "{format:?}");
        assert_eq!((kept.width, kept.height), (40, 30));
        let again = PictureFile::received(kept.content.clone()).expect("a picture");
        assert_eq!(again, kept, "{format:?}: taken out once is taken out");
        let plain = written(40, 30, 7, format);
        let as_it_was = PictureFile::received(plain.clone()).expect("a picture");
        assert_eq!(as_it_was.content, plain, "{format:?}: nothing was in it");
    }
}

/// Metadata may stand between the scans of a JPEG too, and a picture that was cut off is
/// not kept with what cannot be read.
#[test]
fn a_picture_whose_parts_cannot_be_told_apart_is_refused() {
    let jpeg = written(40, 30, 7, ImageFormat::Jpeg);
    let end = jpeg.len() - 2;
    let remark = b"\xff\xfe\x00\x08SECRET";
    let between = [&jpeg[..end], &remark[..], &jpeg[end..]].concat();
    let kept = PictureFile::received(between).expect("a picture");
    assert_eq!(kept.content, jpeg);
    let cut = [&jpeg[..end], &b"\xff\xfe\x01\x00SEC"[..]].concat();
    let png = written(8, 6, 1, ImageFormat::Png);
    for bytes in [cut, png[..png.len() - 5].to_vec()] {
        let told = PictureFile::received(bytes).expect_err("cut off").to_string();
        assert!(told.contains("cannot be told apart"), "{told}");
    }
}

proptest! {
    /// No bytes make the reader of parts panic.
    #[test]
    fn prop_any_bytes_are_a_picture_or_refused(
        change in any::<u8>(), at in 0_usize..2000, of in 0_usize..3,
    ) {
        let format = [ImageFormat::Jpeg, ImageFormat::Png, ImageFormat::WebP][of];
        let mut bytes = of_a_camera(format);
        let at = at % bytes.len();
        bytes[at] = change;
        let _ = PictureFile::received(bytes.clone());
        bytes.truncate(at);
        let _ = PictureFile::received(bytes);
    }
}
