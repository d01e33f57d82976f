//! Back: the maker's photograph on the last page, over the name of the studio.

use crate::booklet::book::Book;
use crate::booklet::drawing::photograph;
use crate::booklet::{Back, Block, Section};

/// `None` where the design gives no photograph for it.
pub(super) fn section(book: &Book) -> Option<Section> {
    let design = book.design;
    let back = design.photographs.back.as_ref()?;
    let back = Back {
        photograph: photograph(back, book.words.own(&back.caption)),
        studio: design.studio.name.clone(),
        web: design.studio.web.clone(),
    };
    Some(Section {
        name: "back".into(),
        title: String::new(),
        new_page: true,
        faces: false,
        listed: false,
        blocks: vec![Block::Back(back)],
    })
}
