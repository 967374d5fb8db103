"use strict";
// Waits for the note to change, and then loads the page again where it was: the same line at the same height.
const own = document.currentScript.dataset, key = "guidec-preview " + location.pathname;
let held = null;  // the mark that was scrolled to: a window scrolls by whole pixels, and what is left must not add up

function place() {
  const shown = [...document.querySelectorAll("main [id]")].filter(one => one.getClientRects().length);
  const marks = shown.map(one => ({ id: one.id, top: one.getBoundingClientRect().top }));
  const near = marks.filter(one => one.top <= innerHeight / 3).sort((a, b) => a.top - b.top).pop();
  if (near && held?.id === near.id && Math.abs(held.top - near.top) < 1) near.top = held.top;
  return { y: scrollY, ...near, open: document.querySelector(".pv details")?.open };
}

function back() {
  const kept = JSON.parse(sessionStorage.getItem(key) ?? "null");
  sessionStorage.removeItem(key);
  if (!kept) return;
  const fold = document.querySelector(".pv details");
  if (fold && kept.open !== undefined && !fold.open) fold.open = kept.open;
  held = kept;
  const mark = kept.id && document.getElementById(kept.id);
  scrollTo({ top: mark ? scrollY + mark.getBoundingClientRect().top - kept.top : kept.y, behavior: "instant" });
}

function lost(is) {
  let note = document.querySelector(".pv-lost");
  if (is && !note) {
    note = document.createElement("p");
    note.className = "pv-lost";
    note.role = "status";
    note.textContent = own.lost;
    document.body.append(note);
  } else if (!is && note) note.remove();
}

history.scrollRestoration = "manual";
back();
addEventListener("load", () => document.documentElement.dataset.preview = own.version);
const events = new EventSource("/-/events?note=" + encodeURIComponent(own.note) + "&version=" + own.version);
events.addEventListener("open", () => lost(false));
events.addEventListener("error", () => lost(true));
events.addEventListener("changed", () => {
  sessionStorage.setItem(key, JSON.stringify(place()));
  location.reload();
});
