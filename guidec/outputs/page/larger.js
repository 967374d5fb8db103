// Shows a picture larger, with what is marked on it, in a dialog. Without scripts its link opens the picture itself.
(() => {
  const links = document.querySelectorAll("a.larger");
  if (!links.length || !window.HTMLDialogElement) return;
  const words = document.getElementById("sheet").dataset;
  const dialog = document.createElement("dialog");
  document.body.append(dialog);
  const show = (link) => {
    const figure = link.closest("figure"), small = link.querySelector("img");
    const photo = document.createElement("div"), image = document.createElement("img");
    const form = document.createElement("form"), close = document.createElement("button");
    photo.className = "photo";
    image.src = link.href;
    image.alt = small.alt;
    image.width = small.naturalWidth || small.width;
    image.height = small.naturalHeight || small.height;
    photo.append(image);
    const marks = figure.querySelector(".pins");
    if (marks) photo.append(marks.cloneNode(true));
    close.textContent = words.close;
    close.autofocus = true;
    form.method = "dialog";
    form.append(figure.querySelector("figcaption").textContent.trim(), close);
    dialog.replaceChildren(photo, form);
    dialog.setAttribute("aria-label", small.alt);
    dialog.showModal();
  };
  for (const link of links) {
    link.addEventListener("click", (event) => {
      if (event.metaKey || event.ctrlKey || event.shiftKey || event.button) return;
      event.preventDefault();
      show(link);
    });
  }
  dialog.addEventListener("click", (event) => {
    if (event.target === dialog || event.target.closest(".pins a")) dialog.close();
  });
})();
