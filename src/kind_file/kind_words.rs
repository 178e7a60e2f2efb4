// SPDX-License-Identifier: MIT
//! The words of which fields of a kind file take one.

use crate::fields::words;

words! {
    /// The place in an album that such a kind fills.
    pub enum Fills {
        /// One leaf.
        Page = "page",
        /// What goes into a pocket.
        Insert = "insert",
    }
}

words! {
    /// Which way a row of panels runs.
    pub enum RowWay {
        /// From left to right; its folds are upright.
        Across = "across",
        /// From the bottom up; its folds are level.
        Up = "up",
    }
}

words! {
    /// What a panel is there for.
    pub enum PanelUse {
        /// It shows.
        Plain = "plain",
        /// It takes tape or glue.
        Seam = "seam",
        /// It folds over another panel.
        Flap = "flap",
    }
}

words! {
    /// Which way a panel is folded, seen from the front.
    pub enum FoldWay {
        /// It rises towards you.
        Valley = "valley",
        /// It falls away.
        Mountain = "mountain",
        /// It goes both ways.
        Both = "both",
        /// Of several side by side the first rises, the next falls away, and so on.
        ToAndFro = "to-and-fro",
    }
}

words! {
    /// A face of a panel.
    pub enum FaceWord {
        /// The one that is drawn.
        Front = "front",
        /// The other.
        Back = "back",
    }
}

words! {
    /// An edge of a panel as it lies flat, its front towards you.
    pub enum EdgeWord {
        /// At the left.
        Left = "left",
        /// At the right.
        Right = "right",
        /// Above.
        Head = "head",
        /// Below.
        Tail = "tail",
    }
}

words! {
    /// A side of a pocket, as it is in the album.
    pub enum PocketSide {
        /// Towards the spine.
        Spine = "spine",
        /// Away from it.
        ForeEdge = "fore-edge",
        /// Above.
        Head = "head",
        /// Below.
        Tail = "tail",
    }
}

words! {
    /// Corners of a panel.
    pub enum CornersWord {
        /// All four.
        All = "all",
        /// Both above.
        Head = "head",
        /// Both below.
        Tail = "tail",
        /// Both at the left.
        Left = "left",
        /// Both at the right.
        Right = "right",
        /// Above at the left.
        HeadLeft = "head left",
        /// Above at the right.
        HeadRight = "head right",
        /// Below at the left.
        TailLeft = "tail left",
        /// Below at the right.
        TailRight = "tail right",
    }
}
