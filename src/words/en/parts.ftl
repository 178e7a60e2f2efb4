# SPDX-License-Identifier: MIT

## Covers
joint-wide = a joint of { $joint } lets the boards flap about: up to { $most } is usual
joint-wide-help = leave { $joint } out, or make it at most { $most }
cover-spine-wide = its spine of { $spine } is far wider than the { $needed } that the pages need: they wander in it
cover-spine-wide-help = leave { $spine } out; { $enough } is enough
