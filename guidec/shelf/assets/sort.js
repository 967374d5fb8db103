"use strict";
// Tables that can be sorted: each column's name becomes a button. Numbers by size, text by its letters; cells that
// say nothing stay at the end either way.
for (const table of document.querySelectorAll("table.sortable")) {
  const heads = [...table.tHead.rows[0].cells], body = table.tBodies[0];
  const rows = [...body.rows];
  const value = (row, at) => {
    const cell = row.cells[at], text = cell.dataset.v ?? cell.textContent.trim();
    if (text === "" || text === "–") return null;
    const number = Number(text);
    return Number.isNaN(number) ? text : number;
  };
  const words = new Intl.Collator(document.documentElement.lang, { numeric: true, sensitivity: "base" });
  const compare = (a, b) => typeof a === "number" && typeof b === "number" ? a - b : words.compare(a, b);
  heads.forEach((head, at) => {
    const button = document.createElement("button");
    button.type = "button";
    button.append(...head.childNodes);
    head.append(button);
    button.addEventListener("click", () => {
      const down = head.getAttribute("aria-sort") === "ascending";
      for (const other of heads) other.removeAttribute("aria-sort");
      head.setAttribute("aria-sort", down ? "descending" : "ascending");
      const keyed = rows.map((row, own) => [value(row, at), own, row]);
      keyed.sort(([a, i], [b, j]) =>
        a === null || b === null ? (a === null) - (b === null) || i - j : (down ? -1 : 1) * compare(a, b) || i - j);
      body.append(...keyed.map(one => one[2]));
    });
  });
}
for (const hint of document.querySelectorAll(".hint")) hint.hidden = false;
