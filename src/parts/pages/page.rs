// SPDX-License-Identifier: MIT
//! What all kinds of page share: their size, their pieces, how they are carried, what shows on their faces.

use crate::album::Entry;
use crate::contour::Corner;
use crate::finding::Said;
use crate::kind_file::KindPiece;
use crate::net::Net;
use crate::parts::bond::{Face, Side};
use crate::parts::build::builder::Builder;
use crate::parts::build::face::{FacePlace, Looks, Plain};
use crate::parts::build::new_piece::NewPiece;
use crate::parts::kit::{Owner, PieceForm};
use crate::parts::name::PieceName;
use crate::parts::pocket::{Pocket, PocketEnd};
use crate::parts::spines::carry::Carry;

/// A page that is being made, mm.
#[derive(Clone, Copy, Debug)]
pub(in crate::parts) struct NewPage<'e> {
    /// Its entry in the file.
    pub entry: &'e Entry,
    /// Its number, from 1.
    pub number: usize,
    /// From spine to fore-edge.
    pub width: f64,
    /// From tail to head.
    pub height: f64,
    /// The strip that takes tape or glue.
    pub seam: f64,
    /// Thickness of its card.
    pub caliper: f64,
}

impl<'e> NewPage<'e> {
    pub(in crate::parts) fn new(builder: &Builder<'_>, entry: &'e Entry, number: usize) -> Self {
        let size = &builder.album.page;
        let (width, height, seam) = (size.width.mm(), size.height.mm(), size.seam.mm());
        Self { entry, number, width, height, seam, caliper: builder.caliper(entry.stock) }
    }

    /// What it is called: `page 2`.
    pub(in crate::parts) fn name(&self) -> String {
        format!("page {}", self.number)
    }

    /// The same, as findings are about it.
    pub(in crate::parts) fn about(&self) -> Said {
        Said::new("about-page").with("page", self.number)
    }

    /// The way to it in the file: `pages[1]`.
    pub(in crate::parts) fn path(&self) -> String {
        format!("pages[{}]", self.number - 1)
    }

    /// Adds one of its pieces: `which` is `front`, `kind` what it is in lists, `family` what it may be one part with.
    pub(in crate::parts) fn piece(
        &self,
        builder: &mut Builder<'_>,
        which: impl Into<PieceName>,
        (kind, family): (&'static str, &'static str),
        net: Net,
    ) -> Option<usize> {
        let name = which.into().of_page(self.number);
        let id = name.to_string().replace(' ', "-");
        self.cut(builder, (id, kind, name), family, (net, None))
    }

    /// The same of a kind file's piece, with what its form comes from.
    pub(in crate::parts) fn piece_of_file(
        &self,
        builder: &mut Builder<'_>,
        piece: &'static KindPiece,
        net: Net,
        form: PieceForm,
    ) -> Option<usize> {
        let name = PieceName::from(piece.name.as_str()).of_page(self.number);
        let id = name.to_string().replace(' ', "-");
        self.cut(builder, (id, &piece.called, name), &piece.alike, (net, Some(form)))
    }

    fn cut(
        &self,
        builder: &mut Builder<'_>,
        says: (String, &'static str, PieceName),
        family: &'static str,
        (net, form): (Net, Option<PieceForm>),
    ) -> Option<usize> {
        let piece = NewPiece::of(self.entry, Owner::Page(self.number), says, net);
        builder.piece(NewPiece { family, form, ..piece })
    }

    /// A face that a panel can cover: the side of the page and what of it (nothing where it is all), its size, its lower left
    /// corner as the reader sees it, the way to the right.
    pub(in crate::parts) fn face(
        &self,
        builder: &mut Builder<'_>,
        (on, what): (Face, impl Into<PieceName>),
        (width, height): (f64, f64),
        side: Side,
    ) {
        let name = what.into().after(on.word()).of_page(self.number);
        let looks = Looks::Opening(if on == Face::Front { self.number - 1 } else { self.number });
        let owner = Owner::Page(self.number);
        let (holes, slim, lies) = (Vec::new(), false, None);
        builder.plains.push(Plain {
            name,
            owner,
            looks,
            width,
            height,
            holes,
            slim,
            lies,
            corners: [Corner::Square; 4],
            side,
        });
    }

    /// The same for a face beside which others show: where its lower left corner lies on this side of the page, seen by the
    /// reader, and what of it shows where another piece lies over it.
    pub(in crate::parts) fn face_beside(
        &self,
        builder: &mut Builder<'_>,
        what: (Face, impl Into<PieceName>),
        size: (f64, f64),
        side: Side,
        lies: FacePlace,
    ) {
        self.face(builder, what, size, side);
        if let Some(plain) = builder.plains.last_mut() {
            plain.lies = Some(lies);
        }
    }

    /// A sleeve that things can be put into, open at the spine, where the hinge's tab goes in, and at the fore-edge; `inside`
    /// is a wall's inner face, at the tail of the edge nearest the spine, going up.
    pub(in crate::parts) fn sleeve(&self, builder: &mut Builder<'_>, size: (f64, f64), inside: Side) {
        let (open, shut) = ([PocketEnd::Open; 2], [PocketEnd::Sealed; 2]);
        let tab = Carry::tab_of(builder.album);
        builder.pocket(Pocket { tab, ..self.pocket(size, open, shut, inside) });
    }

    /// A pocket of this kind of page: its front's width and height, how it ends at the spine and at the fore-edge, at the tail
    /// and at the head; `inside` as above.
    pub(in crate::parts) const fn pocket(
        &self,
        (width, height): (f64, f64),
        across: [PocketEnd; 2],
        up: [PocketEnd; 2],
        inside: Side,
    ) -> Pocket {
        Pocket {
            page: self.number,
            width,
            height,
            beyond: [0.0; 2],
            notch: [0.0; 2],
            across,
            up,
            tab: 0.0,
            caliper: self.caliper,
            flat: false,
            on: None,
            corners: false,
            inside,
        }
    }
}
