# SPDX-License-Identifier: MIT
# Labels: what does not go on them.

labels-small = labels of { $width } x { $height } are too small for all that stands on { $name }{ $more ->
        [0] { "" }
        [1] {" "}and one more
       *[other] {" "}and { $more } more
    }: the last lines are left out
labels-small-help = take larger labels, or leave "labels" out for plain paper with cut lines
