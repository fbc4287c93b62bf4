"use strict";
const cards = [...document.querySelectorAll(".card")];
const [before, next, mode] = ["before", "next", "mode"].map((id) => document.getElementById(id));
const where = document.getElementById("where");
let at = 0;
function show(i, focus) {
  at = Math.max(0, Math.min(cards.length - 1, i));
  cards.forEach((card, k) => card.classList.toggle("shown", k === at));
  before.disabled = at === 0;
  next.disabled = at === cards.length - 1;
  where.textContent = cards[at].dataset.place;
  const heading = cards[at].querySelector("h2");
  if (!document.body.classList.contains("one")) cards[at].scrollIntoView();
  if (focus) heading.focus({ preventScroll: true });
}
function one(yes) {
  document.body.classList.toggle("one", yes);
  mode.setAttribute("aria-pressed", String(yes));
  show(at, false);
}
// What is long is set smaller, until it fits its page.
function fit() {
  const was = document.body.classList.contains("one");
  document.body.classList.remove("one");
  for (const card of cards) {
    card.classList.remove("tight", "tighter");
    const page = card.clientWidth * 210 / 297 + 1;
    for (const size of ["tight", "tighter"]) {
      if (card.scrollHeight <= page) break;
      card.classList.remove("tight");
      card.classList.add(size);
    }
  }
  document.body.classList.toggle("one", was);
}
before.addEventListener("click", () => show(at - 1, true));
next.addEventListener("click", () => show(at + 1, true));
mode.addEventListener("click", () => one(!document.body.classList.contains("one")));
addEventListener("keydown", (event) => {
  if (event.altKey || event.ctrlKey || event.metaKey) return;
  const to = { ArrowRight: at + 1, PageDown: at + 1, ArrowLeft: at - 1, PageUp: at - 1, Home: 0, End: cards.length - 1 }[event.key];
  if (to === undefined) return;
  event.preventDefault();
  show(to, true);
});
addEventListener("resize", fit);
// Hidden cards have no height: they are fitted before.
if (cards.length > 0) {
  fit();
  one(true);
}
