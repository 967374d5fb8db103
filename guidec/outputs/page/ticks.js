// Keeps the ticks of a sheet in this browser. Without storage they last as long as the page does.
(() => {
  const key = "guidec:" + document.getElementById("sheet").dataset.key;
  const boxes = [...document.querySelectorAll(".tick input")];
  const bar = document.getElementById("bar");
  if (!bar || !boxes.length) return;
  const read = () => {
    try { return JSON.parse(localStorage.getItem(key)) || []; } catch { return []; }
  };
  const keep = (done) => {
    try {
      if (done.length) localStorage.setItem(key, JSON.stringify(done));
      else localStorage.removeItem(key);
    } catch { /* storage is blocked or full: the ticks stay on the page */ }
  };
  const show = () => {
    const done = boxes.filter((box) => box.checked).map((box) => box.value);
    for (const box of boxes) box.closest(".line").classList.toggle("ticked", box.checked);
    bar.querySelector("output").textContent =
      bar.dataset.words.replace("{1}", done.length).replace("{2}", boxes.length);
    return done;
  };
  const kept = new Set(read());
  for (const box of boxes) box.checked = kept.has(box.value);
  document.addEventListener("change", (event) => {
    if (boxes.includes(event.target)) keep(show());
  });
  bar.querySelector("button").addEventListener("click", () => {
    for (const box of boxes) box.checked = false;
    keep(show());
  });
  bar.hidden = false;
  show();
})();
