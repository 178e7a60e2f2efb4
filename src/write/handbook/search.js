// SPDX-License-Identifier: MIT
"use strict";
// Finds passages by their headings and words: each word that is typed must begin one of theirs.
function search(places, nothing) {
  const field = document.getElementById("search");
  const found = document.getElementById("found");
  const begins = (words, typed) => (" " + words).includes(" " + typed);
  function look() {
    const typed = field.value.toLowerCase().split(/\s+/).filter((word) => word.length > 1);
    found.replaceChildren();
    if (!typed.length) return;
    const worth = ([, chapter, title, words]) => {
      const heading = (chapter + " " + title).toLowerCase();
      let sum = 0;
      for (const word of typed) {
        if (begins(heading, word)) sum += 10;
        else if (begins(words, word)) sum += 1;
        else return 0;
      }
      return sum;
    };
    const all = places.map((place) => [worth(place), place]).filter(([sum]) => sum > 0);
    all.sort((one, other) => other[0] - one[0]);
    if (!all.length) {
      found.textContent = nothing;
      return;
    }
    const list = document.createElement("ul");
    for (const [, [at, chapter, title]] of all.slice(0, 12)) {
      const item = document.createElement("li");
      const link = document.createElement("a");
      const where = document.createElement("small");
      link.href = at;
      link.textContent = title;
      where.textContent = chapter;
      link.append(where);
      item.append(link);
      list.append(item);
    }
    found.append(list);
  }
  field.form.addEventListener("submit", (event) => {
    event.preventDefault();
    const first = found.querySelector("a");
    if (first) location.href = first.href;
  });
  field.addEventListener("input", look);
}
