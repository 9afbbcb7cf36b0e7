//! The pieces of a card's text as a tree, for readers that speak it (ISO 32000-1, 14.7 and 14.8).

use pdf_writer::types::{ListNumbering, StructRole};
use pdf_writer::writers::{StructElement, StructTreeRoot};
use pdf_writer::{Chunk, Finish as _, Ref, TextStr};

use super::document::{Document, count};
use super::drawn::Drawn;
use crate::card::sheet::{Piece, Role};

/// A piece of the text that is shown.
struct Branch {
    /// Its own name.
    own: Ref,
    /// What was drawn of it: the sheet, and the number on that sheet.
    drawn: Vec<(usize, i32)>,
    /// The pieces inside it.
    inside: Vec<Ref>,
}

impl Document<'_> {
    /// Writes the tree and gives its root.
    pub(super) fn tags(&mut self, sheets: &[Ref], drawn: &[Drawn]) -> Ref {
        let (root, whole) = (self.next.bump(), self.next.bump());
        let pieces = &self.card.outline.pieces;
        let mut tree = self.branches(drawn);
        let mut top = Vec::new();
        for (at, piece) in pieces.iter().enumerate() {
            let Some(own) = tree[at].as_ref().map(|branch| branch.own) else { continue };
            match piece.inside.and_then(|outer| tree.get_mut(outer)).and_then(Option::as_mut) {
                Some(outer) => outer.inside.push(own),
                None => top.push(own),
            }
        }
        for (piece, branch) in pieces.iter().zip(&tree) {
            let Some(branch) = branch else { continue };
            let outer = piece.inside.and_then(|outer| tree.get(outer)).and_then(Option::as_ref);
            write(&mut self.pdf, piece, branch, outer.map_or(whole, |outer| outer.own), sheets);
        }
        let mut document = self.pdf.struct_element(whole);
        document.kind(StructRole::Document).parent(root).lang(TextStr(&self.card.language));
        document.children().items(top);
        document.finish();
        let owners: Vec<Ref> = drawn.iter().map(|sheet| self.owners(sheet, &tree)).collect();
        let mut tags: StructTreeRoot<'_> = self.pdf.indirect(root).start();
        tags.child(whole).parent_tree_next_key(count(owners.len()));
        let mut numbered = tags.parent_tree();
        let mut numbers = numbered.nums();
        for (at, owner) in owners.into_iter().enumerate() {
            numbers.insert(count(at), owner);
        }
        numbers.finish();
        numbered.finish();
        tags.finish();
        root
    }

    /// The pieces that show something, or have others inside that do. Each stands behind the one that it is part of.
    fn branches(&mut self, drawn: &[Drawn]) -> Vec<Option<Branch>> {
        let pieces = &self.card.outline.pieces;
        let mut leaves: Vec<Vec<(usize, i32)>> = vec![Vec::new(); pieces.len()];
        for (sheet, drawn) in drawn.iter().enumerate() {
            for (number, piece) in drawn.pieces.iter().enumerate() {
                leaves.get_mut(*piece).into_iter().for_each(|own| own.push((sheet, count(number))));
            }
        }
        let mut shown: Vec<bool> = leaves.iter().map(|own| !own.is_empty()).collect();
        for (at, piece) in pieces.iter().enumerate().rev() {
            if let Some(outer) = piece.inside.filter(|outer| shown[at] && *outer < at) {
                shown[outer] = true;
            }
        }
        let branches = leaves.into_iter().zip(shown);
        branches
            .map(|(drawn, shown)| shown.then(|| Branch { own: self.next.bump(), drawn, inside: Vec::new() }))
            .collect()
    }

    /// Which piece each drawn thing of a sheet belongs to.
    fn owners(&mut self, sheet: &Drawn, tree: &[Option<Branch>]) -> Ref {
        let own = self.next.bump();
        let mut owners = self.pdf.indirect(own).array();
        for piece in &sheet.pieces {
            owners.items(tree.get(*piece).and_then(Option::as_ref).map(|branch| branch.own));
        }
        owners.finish();
        own
    }
}

fn write(pdf: &mut Chunk, piece: &Piece, branch: &Branch, outer: Ref, sheets: &[Ref]) {
    let mut element = pdf.struct_element(branch.own);
    describe(&mut element, &piece.role);
    element.parent(outer);
    if let Some(language) = piece.language {
        element.lang(TextStr(language));
    }
    let first = branch.drawn.first().map(|(sheet, _)| *sheet);
    if let Some(page) = first.and_then(|sheet| sheets.get(sheet)) {
        element.page(*page);
    }
    let mut children = element.children();
    for (sheet, number) in &branch.drawn {
        match sheets.get(*sheet) {
            Some(page) if Some(*sheet) != first => {
                children.marked_content_ref().page(*page).marked_content_id(*number);
            }
            _ => drop(children.marked_content_id(*number)),
        }
    }
    children.items(branch.inside.iter().copied());
}

fn describe(element: &mut StructElement<'_>, role: &Role) {
    match role {
        Role::Title(words) => element.kind(StructRole::H1).title(TextStr(words)),
        Role::Heading(words) => element.kind(StructRole::H2).title(TextStr(words)),
        Role::Part => element.kind(StructRole::Sect),
        Role::Paragraph => element.kind(StructRole::P),
        Role::Numbered | Role::List => element.kind(StructRole::L),
        Role::Entry => element.kind(StructRole::LI),
        Role::Label => element.kind(StructRole::Lbl),
        Role::Body => element.kind(StructRole::LBody),
        Role::Figure(alt) => element.kind(StructRole::Figure).alt(TextStr(alt)),
    };
    if matches!(role, Role::Numbered | Role::List) {
        let numbering = if *role == Role::Numbered { ListNumbering::Decimal } else { ListNumbering::None };
        element.attributes().push().list().list_numbering(numbering);
    }
}
