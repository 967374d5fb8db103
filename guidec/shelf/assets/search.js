"use strict";
// The search page: reads the index in once, answers as one types, keeps the words in the address.
const box = document.getElementById("q"), said = document.getElementById("said"), hits = document.getElementById("hits");
const MOST = 50;
const words = said.dataset;
const index = MiniSearch.loadJS(SHELF_INDEX, {
  fields: Object.keys(SHELF_INDEX.fieldIds),
  storeFields: ["s", "t", "k"],
  searchOptions: {
    boost: { title: 4, numbers: 3, tools: 1.5 },
    combineWith: "AND",
    prefix: term => term.length > 1,
    // One slip in words of four letters, two in long ones; numbers are meant as typed.
    fuzzy: term => /^\d+$/.test(term) || term.length < 4 ? false : term.length < 8 ? 1 : 2,
  },
});

function found(query) {
  const rows = index.search(query);
  return rows.length ? rows : index.search(query, { combineWith: "OR" });
}

function row(hit) {
  const item = document.createElement("li"), link = document.createElement("a"), line = document.createElement("p");
  link.href = words.guides + encodeURIComponent(hit.s) + "/index.html";
  link.textContent = hit.t;
  const where = { parts: words.searchPart, tools: words.searchTool, numbers: words.searchNumber };
  const more = new Set();
  for (const [term, fields] of Object.entries(hit.match))
    for (const field of fields) if (field in where) more.add(`${where[field]}: ${term}`);
  line.textContent = [hit.k, ...[...more].slice(0, 5)].filter(Boolean).join(" · ");
  item.append(link, line);
  return item;
}

function answer() {
  const query = box.value.trim();
  const rows = query ? found(query) : [];
  hits.replaceChildren(...rows.slice(0, MOST).map(row));
  const count = words.searchFound.replace("{count}", rows.length);
  const first = rows.length > MOST ? ", " + words.searchFirst.replace("{count}", MOST) : "";
  said.textContent = !query ? "" : rows.length ? count + first : words.searchNone;
}

const asked = new URLSearchParams(location.search).get("q");
if (asked) box.value = asked;
answer();
let due = 0;
box.addEventListener("input", () => { clearTimeout(due); due = setTimeout(answer, 80); });
box.form.addEventListener("submit", event => {
  event.preventDefault();
  clearTimeout(due);
  answer();
  try { history.replaceState(null, "", "?q=" + encodeURIComponent(box.value)); } catch { /* a file may not */ }
});
