// SPDX-License-Identifier: MIT
(function () {
  "use strict";
  var body = document.body, boxes = Array.prototype.slice.call(document.querySelectorAll("input[type=checkbox]"));
  if (!boxes.length) return;
  var ticked = {};
  try { ticked = JSON.parse(window.localStorage.getItem(body.dataset.key)) || {}; } catch (none) { ticked = {}; }
  var bar = document.createElement("div"), said = document.createElement("span"), again = document.createElement("button");
  bar.className = "done";
  said.setAttribute("role", "status");
  again.type = "button";
  again.textContent = body.dataset.again;
  function tell() {
    var count = boxes.filter(function (box) { return box.checked; }).length;
    said.textContent = count + " / " + boxes.length + " " + body.dataset.done;
  }
  function keep() {
    ticked = {};
    boxes.forEach(function (box) { if (box.checked) ticked[box.id] = 1; });
    try { window.localStorage.setItem(body.dataset.key, JSON.stringify(ticked)); } catch (none) { /* ticks last as long as the page */ }
    tell();
  }
  boxes.forEach(function (box) {
    box.checked = ticked[box.id] === 1;
    box.addEventListener("change", keep);
  });
  again.addEventListener("click", function () {
    boxes.forEach(function (box) { box.checked = false; });
    keep();
  });
  bar.append(said, again);
  (document.querySelector("main") || body).append(bar);
  tell();
}());
