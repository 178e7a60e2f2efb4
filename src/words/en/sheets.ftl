# SPDX-License-Identifier: MIT

## Grain that nobody stated
grain-unknown = its grain is not stated, and hinge strips lie both ways on its sheets: whichever way it runs, some fold across it, where folds crack sooner
grain-unknown-help = bend a sheet both ways: it gives more easily along the grain; then state { $grain }, "long" or "short", and the strips keep to it
