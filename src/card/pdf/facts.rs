//! What a PDF says about itself: title, author, language, that it is tagged, and its list of contents.

use pdf_writer::types::Direction;
use pdf_writer::{Finish as _, Name, Ref, TextStr};
use sha2::{Digest as _, Sha256};
use xmp_writer::{LangId, XmpWriter};

use super::document::{Document, count};

/// The name that every card carries as its maker.
const MAKER: &str = "Maulstick";

/// The version of the format (ISO 32000-1).
const VERSION: &str = "1.7";

impl Document<'_> {
    /// Ends the document.
    pub(super) fn facts(&mut self, pages: Ref, sheets: &[Ref], tags: Ref) {
        let (title, author, language) = (&self.card.title, &self.card.author, &self.card.language);
        let about = self.next.bump();
        self.pdf.document_info(about).title(TextStr(title)).author(TextStr(author)).creator(TextStr(MAKER));
        // The same card keeps its name, however often it is made.
        let id = Sha256::new().chain_update(author).chain_update("/").chain_update(title).finalize()[..16].to_vec();
        self.pdf.set_file_id((id.clone(), id));

        let mut xmp = XmpWriter::new();
        xmp.title([(None, title.as_str())]).creator([author.as_str()]).creator_tool(MAKER);
        xmp.language([LangId(language)])
            .format("application/pdf")
            .num_pages(self.card.sheets.len().try_into().unwrap_or(1));
        xmp.pdf_version(VERSION).pdfua_part(1);
        let facts = self.next.bump();
        self.pdf.metadata(facts, xmp.finish(None).as_bytes());

        let contents = self.contents(sheets);
        let own = self.next.bump();
        let mut catalog = self.pdf.catalog(own);
        catalog.pages(pages).metadata(facts).outlines(contents).lang(TextStr(language));
        catalog.pair(Name(b"StructTreeRoot"), tags);
        catalog.mark_info().marked(true);
        catalog.viewer_preferences().display_doc_title(true).direction(Direction::L2R);
    }

    /// The list of contents: the title, and each heading.
    fn contents(&mut self, sheets: &[Ref]) -> Ref {
        let card = self.card;
        let own = self.next.bump();
        let title = (card.title.clone(), 0, 0.0);
        let lines: Vec<(&(String, usize, f32), Ref)> =
            std::iter::once(&title).chain(&card.contents).map(|line| (line, self.next.bump())).collect();
        for (at, ((text, sheet, y), line)) in lines.iter().enumerate() {
            let mut item = self.pdf.outline_item(*line);
            item.parent(own).title(TextStr(text));
            if let Some((_, before)) = at.checked_sub(1).and_then(|before| lines.get(before)) {
                item.prev(*before);
            }
            if let Some((_, after)) = lines.get(at + 1) {
                item.next(*after);
            }
            if let Some(page) = sheets.get(*sheet).or(sheets.last()) {
                item.dest().page(*page).xyz(0.0, card.size.1 - y, None);
            }
        }
        let mut outline = self.pdf.outline(own);
        if let (Some((_, first)), Some((_, last))) = (lines.first(), lines.last()) {
            outline.first(*first).last(*last).count(count(lines.len()));
        }
        outline.finish();
        own
    }
}
