# SPDX-License-Identifier: MIT
# What is told to the maker, in English. Keys stay, words change. `.page` is how the page says it, where that differs,
# `.shown` where it shows the file's text.

list-more = { $these }, { $this }
list-and = { $these } and { $this }
list-or = { $these } or { $this }

# What a finding is about.
about-page = page { $page }
about-spine = spine
